"""Safety is printed where the danger is, and taking any caution out is noticed."""

from __future__ import annotations

import dataclasses
import json
import re

import book_trials
import pytest
from click.testing import CliRunner

from formulas.adjusting.adjust import adjust
from formulas.adjusting.portions import portion
from formulas.books.label import label
from formulas.catalog import load
from formulas.cutting.cut import cut
from formulas.cutting.wanted import Typed
from formulas.fault import Faults
from formulas.jobs import job_file
from formulas.jobs.job_answer import job_answer
from formulas.jobs.needs import whole
from formulas.jobs.quick import quick
from formulas.melting.melt import melt
from formulas.melting.pot import Heating
from formulas.seating.asked import Plate
from formulas.seating.seat import seat
from formulas.softening.soften import soften
from formulas.valves.stiffness import stiffness
from formulas.valves.valves import valves
from formulas.wax.mix import mix
from site_builder import content
from site_builder.commands import main
from site_builder.workings import worksheets

ONE_RANK = """
job = "1"
blend = "beeswax-rosin-4-1"
rank = [{ rank = "one", lowest = "C4", plates = 2 }]
block = [{ block = "A", rank = "one", seating = "wax-fillet" }]
"""
FOUR_ONE = {"beeswax-yellow": 4.0, "gum-rosin": 1.0}

BURN = "hot-wax-burn burn-first-aid wax-fire"
HEAT = f"{BURN} never-alone thermostat-and-cut-out defer"
POT = (
    f"{HEAT} water-and-hot-wax wet-pot-direct-heat water-bath three-windows solvent-and-heat"
    " rags-self-heat rosin-sensitiser rosin-dust rosin-fume"
)

# What a person must have read before the stove or the jar, by place. This list is the bench's
# demand, kept apart from the table on purpose: the table has to meet it.
DEMANDED = {
    "J-01": "old-dust celluloid-near-heat solvent-and-heat defer",
    "J-02": "old-dust rosin-sensitiser leather-dust defer",
    "J-03": "old-dust rosin-sensitiser leather-dust",
    "J-04": "old-dust hung-instrument defer",
    "J-06": (
        f"{HEAT} rosin-sensitiser rosin-fume touch-up-iron solvent-and-heat under-18 old-dust"
        " sharp-tool estimate-not-a-limit"
    ),
    "J-05": "hot-car estimate-not-a-limit label-and-customer health-privacy defer",
    "J-07": "health-privacy defer",
    "record-job": "health-privacy hot-car label-and-customer",
    "record-hours": "health-privacy",
    "J-08": "estimate-not-a-limit",
    "seat": (
        "acetic-on-metal glue-vapour old-dust sharp-tool sealant-vapour old-putty-lead defer"
        " hot-wax-burn burn-first-aid touch-up-iron celluloid-near-heat solvent-and-heat"
        " rags-self-heat hot-car"
    ),
    "P-01": (
        "acetic-on-metal glue-vapour old-dust sharp-tool sealant-vapour old-putty-lead defer"
        " hot-wax-burn burn-first-aid touch-up-iron celluloid-near-heat solvent-and-heat"
        " rags-self-heat hot-car"
    ),
    "P-02": "hot-wax-burn burn-first-aid touch-up-iron celluloid-near-heat hot-car defer",
    "P-03": "sharp-tool old-dust leather-dust defer",
    "P-04": "sharp-tool old-dust defer",
    "P-05": "old-dust sharp-tool defer",
    "P-06": (
        "acetic-on-metal sealant-vapour glue-vapour"
        " solvent-and-heat old-putty-lead rags-self-heat defer"
    ),
    "P-07": "old-dust defer",
    "stiffness": "sharp-tool",
    "cut": "sharp-tool leather-dust defer",
    "V-09": "sharp-tool leather-dust defer",
    "valves": "sharp-tool leather-dust old-dust film-and-hot-wax defer",
    "V-05": "sharp-tool leather-dust old-dust film-and-hot-wax defer",
    "V-06": "sharp-tool leather-dust old-dust film-and-hot-wax defer",
    "V-03": "old-dust film-and-hot-wax defer",
    "V-04": "sharp-tool defer",
    "mix": f"{POT} hot-car estimate-not-a-limit label-and-customer",
    "soften": f"{HEAT} hot-car estimate-not-a-limit",
    "adjust": f"{POT} hot-car estimate-not-a-limit label-and-customer",
    "melt": f"{POT} touch-up-iron celluloid-near-heat under-18",
    "job": (
        f"{HEAT} water-and-hot-wax rosin-sensitiser rosin-fume touch-up-iron celluloid-near-heat"
        " solvent-and-heat under-18 old-dust sharp-tool leather-dust glue-vapour film-and-hot-wax"
        " hot-car estimate-not-a-limit label-and-customer health-privacy"
    ),
    "job-quick": (
        f"{HEAT} water-and-hot-wax rosin-sensitiser rosin-fume touch-up-iron celluloid-near-heat"
        " solvent-and-heat under-18 old-dust sharp-tool leather-dust glue-vapour film-and-hot-wax"
        " hot-car estimate-not-a-limit label-and-customer health-privacy"
    ),
    "label": "rosin-sensitiser label-and-customer estimate-not-a-limit hot-car defer",
    "B-02": "rosin-sensitiser label-and-customer estimate-not-a-limit defer",
    "record-batch": f"{HEAT} rosin-sensitiser hot-car label-and-customer",
    "record-test": f"{BURN} never-alone hot-car estimate-not-a-limit",
    "record-use": "rosin-sensitiser hot-car label-and-customer",
    "B-01": "hot-wax-burn never-alone rosin-sensitiser health-privacy label-and-customer defer",
    "S-01": f"{BURN} water-and-hot-wax never-alone rosin-sensitiser under-18 health-privacy defer",
    "S-02": (
        f"{HEAT.replace('wax-fire ', '')} water-and-hot-wax wet-pot-direct-heat water-bath"
        " three-windows touch-up-iron celluloid-near-heat solvent-and-heat under-18"
    ),
    "S-03": "burn-first-aid wax-fire water-and-hot-wax rags-self-heat defer",
    "S-04": (
        "rosin-sensitiser rosin-dust rosin-fume touch-up-iron label-and-customer health-privacy"
        " defer"
    ),
    "W-02": "rosin-sensitiser hot-car estimate-not-a-limit label-and-customer defer",
    "W-03": "hot-car estimate-not-a-limit",
    "W-04": POT,
    "W-05": f"{POT} hot-car estimate-not-a-limit label-and-customer",
    "W-06": "hot-car estimate-not-a-limit",
    "W-07": f"{POT} hot-car estimate-not-a-limit label-and-customer",
    "W-08": f"{POT} touch-up-iron celluloid-near-heat under-18",
    "W-09": "old-dust rosin-sensitiser",
    "W-10": (
        "old-dust rosin-sensitiser celluloid-near-heat solvent-and-heat sharp-tool touch-up-iron"
        " hot-wax-burn burn-first-aid never-alone defer"
    ),
    "W-11": "old-dust solvent-and-heat defer",
    "W-12": (
        f"{HEAT} water-and-hot-wax water-bath three-windows solvent-and-heat rosin-sensitiser"
        " rosin-fume touch-up-iron celluloid-near-heat under-18"
    ),
    "W-13": "old-dust",
    "W-14": (
        f"{HEAT} water-and-hot-wax wet-pot-direct-heat solvent-and-heat rags-self-heat"
        " rosin-sensitiser rosin-dust rosin-fume label-and-customer"
    ),
    "W-15": (
        "rosin-sensitiser rosin-dust rosin-fume hot-wax-burn burn-first-aid solvent-and-heat"
        " label-and-customer defer"
    ),
    "W-16": "hot-car estimate-not-a-limit label-and-customer",
    "T-01": "boiling-water mercury-thermometer estimate-not-a-limit defer",
    "T-02": ("warm-box never-alone hot-wax-burn burn-first-aid hot-car estimate-not-a-limit defer"),
    "T-03": "warm-box never-alone",
    "T-04": (
        f"{BURN} water-bath water-and-hot-wax no-oil-bath mercury-thermometer never-alone"
        " estimate-not-a-limit defer"
    ),
    "T-05": f"{HEAT} water-and-hot-wax mercury-thermometer estimate-not-a-limit",
    "T-06": (
        f"{HEAT} no-oil-bath mercury-thermometer rosin-fume rosin-sensitiser estimate-not-a-limit"
    ),
    "T-07": "hot-wax-burn burn-first-aid water-and-hot-wax never-alone",
    "T-08": "hot-wax-burn burn-first-aid never-alone rosin-sensitiser",
    "V-02": "old-dust defer",
    "V-01": "defer",
    "V-10": "glue-vapour acetic-on-metal solvent-and-heat defer",
    "V-11": (
        "old-dust sharp-tool leather-dust glue-vapour solvent-and-heat film-and-hot-wax defer"
    ),
    "V-12": "old-dust warm-box defer",
    "V-13": "old-dust leather-dust sharp-tool solvent-and-heat defer",
}


def in_answers(catalog):
    """Give the cautions that each command's answer carries."""
    answers = [mix(catalog, FOUR_ONE, total_g=400), soften(catalog, FOUR_ONE)]
    answers.append(label(catalog, blend="beeswax-rosin-4-1"))
    answers.append(melt(catalog, FOUR_ONE, purpose="holding", heating=Heating("bath", bath_l=1.5)))
    answers.append(adjust(catalog, FOUR_ONE, pot=[portion(catalog, "gum-rosin", 50)]))
    answers.append(valves(catalog, "middle", instrument="forty-one-key"))
    answers.append(stiffness(catalog, "leather-thin"))
    answers.append(cut(catalog, typed=[Typed(0.038, 0.0065, 24)]))
    answers.append(seat(catalog, Plate("single")))
    one_rank = job_file.read(catalog, ONE_RANK, "job.toml")
    answers.append(job_answer(catalog, whole(catalog, one_rank)))
    answers.append(quick(catalog, layout="forty-one-key"))
    answers += book_trials.answers(catalog)
    return {found.command: {caution.id for caution in found.cautions} for found in answers}


def in_leaves(catalog):
    """Give the cautions that stand on each leaf, those beside its workings with them."""
    shown = {}
    for leaf in content.read(catalog).leaves:
        shown[leaf.number] = {box.get("id") for box in leaf.tree.iter("caution")}
        for working in leaf.tree.iter("working"):
            form = worksheets.paper_form(worksheets.WORKSHEETS[working.get("id")], catalog)
            shown[leaf.number] |= {line.get("caution") for line in form.iter("li")}
    return shown


def gaps(shown):
    """List what is demanded of the given places and not shown there."""
    return [
        f"{place}: {caution}"
        for place in DEMANDED.keys() & shown.keys()
        for caution in DEMANDED[place].split()
        if caution not in shown[place]
    ]


def missing(catalog):
    """Walk every command and leaf that leads to heat, and list the cautions that are not there."""
    shown = in_answers(catalog) | in_leaves(catalog)
    assert DEMANDED.keys() <= shown.keys()
    return gaps(shown)


@pytest.fixture(scope="module")
def trade():
    """The trade's tables alone."""
    return load(None)


def test_every_command_and_leaf_has_its_cautions(trade):
    """Nothing that is demanded is missing."""
    assert missing(trade) == []


def test_every_caution_is_demanded_somewhere(trade):
    """No caution of the table could be taken out without this file noticing."""
    assert set(trade.cautions) == {name for text in DEMANDED.values() for name in text.split()}


@pytest.mark.parametrize("name", sorted(load(None).cautions))
def test_taking_a_caution_out_is_noticed(trade, name):
    """Without any one caution the walk finds a gap, or the handbook does not build."""
    left = {key: caution for key, caution in trade.cautions.items() if key != name}
    try:
        found = missing(dataclasses.replace(trade, cautions=left))
    except Faults as faults:
        found = [str(fault) for fault in faults.faults if name in str(fault)]
    assert found


@pytest.mark.parametrize("command", ["mix", "soften", "adjust"])
def test_taking_a_command_off_a_caution_is_noticed(trade, command):
    """Without the command in any one caution's list the walk finds the gap."""
    for name in DEMANDED[command].split():
        caution = trade.cautions[name]
        places = tuple(place for place in caution.applies_to if place != command)
        changed = {**trade.cautions, name: dataclasses.replace(caution, applies_to=places)}
        spoiled = dataclasses.replace(trade, cautions=changed)
        assert gaps(in_answers(spoiled)) == [f"{command}: {name}"]


@pytest.mark.parametrize(
    "words", [("mix", "--total", "400g"), ("soften",), ("adjust", "--pot", "gum-rosin=50g")]
)
def test_the_terminal_shows_what_is_demanded(trade, words):
    """The command's standard error and its JSON carry every caution demanded of it."""
    command, *rest = words
    result = CliRunner().invoke(main, [command, "beeswax-rosin-4-1", *rest, "--json"])
    said = " ".join(result.stderr.split())
    carried = {caution["id"] for caution in json.loads(result.stdout)["cautions"]}
    for name in DEMANDED[command].split():
        assert trade.cautions[name].title in said
        assert name in carried


def test_no_caution_promises_safety(trade):
    """Nothing is called safe except to say that it is not."""
    for caution in trade.cautions.values():
        for sentence in f"{caution.title} {caution.text}".split("."):
            if re.search(r"\bsafe\b", sentence.lower()):
                assert any(word in sentence.lower() for word in ("not ", "no ", "never "))
