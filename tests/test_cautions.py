"""Safety is printed where the danger is, and taking any caution out is noticed."""

from __future__ import annotations

import dataclasses
import functools
import json
import shutil
import subprocess
import sys

import book_trials
import click
import pytest
from click.testing import CliRunner
from leaf_reading import handbook, trade

from formulas.adjusting.adjust import adjust
from formulas.adjusting.portions import portion
from formulas.air.air import air
from formulas.air.asked import AirTask
from formulas.air.fume import fume
from formulas.air.solvent_answer import solvent_answer
from formulas.books.jar_label import jar_label
from formulas.books.label import label
from formulas.cutting.cut import cut
from formulas.cutting.wanted import Typed
from formulas.fault import Faults
from formulas.jobs import job_file
from formulas.jobs.job_answer import job_answer
from formulas.jobs.needs import whole
from formulas.jobs.quick import quick
from formulas.melting.melt import melt
from formulas.melting.pot import Heating
from formulas.practice.practice import practice
from formulas.seating.asked import Plate
from formulas.seating.seat import seat
from formulas.softening.soften import soften
from formulas.valves.stiffness import stiffness
from formulas.valves.valves import valves
from formulas.wax.mix import mix
from site_builder import content
from site_builder.commands import main
from site_builder.places import DEMO_SHOP
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
    " rags-self-heat rosin-sensitiser rosin-dust rosin-fume carry-hot-pot"
)

# What a person must have read before the stove or the jar, by place. This list is the bench's
# demand, kept apart from the table on purpose: the table has to meet it.
DEMANDED = {
    "A-02": (
        f"{BURN} never-alone under-18 rosin-sensitiser rosin-fume touch-up-iron solvent-and-heat"
        " sharp-tool old-dust health-privacy defer"
    ),
    "A-03": (
        f"{BURN} water-and-hot-wax thermostat-and-cut-out never-alone under-18 rosin-fume"
        " touch-up-iron celluloid-near-heat solvent-and-heat rags-self-heat static-spark"
        " solvent-vapour solvent-first-aid health-privacy defer"
    ),
    "A-08": "never-alone under-18 health-privacy defer",
    "who": "hot-wax-burn never-alone under-18 health-privacy defer",
    "record-person": "under-18 health-privacy defer",
    "record-signoff": "hot-wax-burn never-alone under-18 health-privacy defer",
    "S-09": "children-and-pets solvent-and-heat never-mix defer",
    "S-10": (
        "burn-first-aid wax-fire water-and-hot-wax eye-first-aid solvent-first-aid clothes-alight"
        " rosin-fume defer"
    ),
    "practice": (
        "hot-wax-burn burn-first-aid wax-fire water-and-hot-wax never-alone thermostat-and-cut-out"
        " under-18 rosin-sensitiser hot-car estimate-not-a-limit solvent-and-heat vapour-not-safe"
        " solvent-vapour rags-self-heat sharp-tool defer"
    ),
    "A-06": (
        "hot-wax-burn wax-fire never-alone under-18 estimate-not-a-limit solvent-and-heat"
        " vapour-not-safe defer"
    ),
    "A-07": "defer",
    "record-chemical": "solvent-and-heat never-mix defer",
    "label-jar": "children-and-pets solvent-and-heat defer",
    "J-01": (
        "hot-wax-burn wax-fire never-alone old-dust celluloid-near-heat solvent-and-heat defer"
    ),
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
    "P-04": "sharp-tool old-dust celluloid-near-heat touch-up-iron defer",
    "P-05": "old-dust sharp-tool defer",
    "P-06": (
        "acetic-on-metal sealant-vapour glue-vapour"
        " solvent-and-heat old-putty-lead rags-self-heat sharp-tool defer"
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
    "melt": f"{POT} touch-up-iron celluloid-near-heat under-18 children-and-pets eye-first-aid",
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
        " children-and-pets carry-hot-pot"
    ),
    "S-03": (
        "burn-first-aid wax-fire water-and-hot-wax rags-self-heat eye-first-aid carry-hot-pot"
        " never-alone solvent-and-heat celluloid-near-heat defer"
    ),
    "S-04": (
        "rosin-sensitiser rosin-dust rosin-fume touch-up-iron label-and-customer health-privacy"
        " solvent-and-heat celluloid-near-heat defer"
    ),
    "solvent": (
        "solvent-and-heat celluloid-near-heat rags-self-heat eye-first-aid solvent-ultrasonic"
        " static-spark solvent-waste never-mix old-turpentine children-and-pets solvent-vapour"
        " solvent-swallowed defer"
    ),
    "air": (
        "vapour-not-safe solvent-and-heat celluloid-near-heat rags-self-heat static-spark"
        " solvent-ultrasonic children-and-pets solvent-first-aid solvent-vapour rosin-fume defer"
    ),
    "S-06": (
        "vapour-not-safe solvent-and-heat celluloid-near-heat rags-self-heat static-spark"
        " solvent-ultrasonic children-and-pets solvent-first-aid rosin-fume defer"
    ),
    "S-05": (
        "solvent-and-heat celluloid-near-heat rags-self-heat eye-first-aid solvent-ultrasonic"
        " static-spark solvent-waste never-mix old-turpentine children-and-pets solvent-vapour"
        " solvent-swallowed health-privacy defer"
    ),
    "W-02": "rosin-sensitiser hot-car estimate-not-a-limit label-and-customer defer",
    "W-03": "hot-car estimate-not-a-limit",
    "W-04": POT,
    "W-05": f"{POT} hot-car estimate-not-a-limit label-and-customer",
    "W-06": "hot-car estimate-not-a-limit",
    "W-07": f"{POT} hot-car estimate-not-a-limit label-and-customer",
    "W-08": f"{POT} touch-up-iron celluloid-near-heat under-18 children-and-pets eye-first-aid",
    "W-09": "old-dust rosin-sensitiser",
    "W-10": (
        "old-dust rosin-sensitiser celluloid-near-heat solvent-and-heat sharp-tool touch-up-iron"
        " hot-wax-burn burn-first-aid never-alone defer"
    ),
    "W-11": "old-dust solvent-and-heat solvent-ultrasonic defer",
    "W-12": (
        f"{HEAT} water-and-hot-wax water-bath three-windows solvent-and-heat rosin-sensitiser"
        " rosin-fume touch-up-iron celluloid-near-heat under-18"
    ),
    "W-13": "old-dust",
    "W-14": (
        f"{HEAT} water-and-hot-wax wet-pot-direct-heat solvent-and-heat rags-self-heat"
        " rosin-sensitiser rosin-dust rosin-fume label-and-customer carry-hot-pot"
    ),
    "W-15": (
        "rosin-sensitiser rosin-dust rosin-fume hot-wax-burn burn-first-aid solvent-and-heat"
        " label-and-customer defer"
    ),
    "W-16": "hot-car estimate-not-a-limit label-and-customer",
    "T-01": "boiling-water mercury-thermometer estimate-not-a-limit defer",
    "T-02": f"{BURN} warm-box never-alone rosin-fume hot-car estimate-not-a-limit defer",
    "T-03": f"{BURN} warm-box never-alone",
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
    "S-07": (
        "rags-self-heat never-mix celluloid-near-heat children-and-pets solvent-and-heat"
        " static-spark solvent-ultrasonic old-turpentine solvent-waste eye-first-aid defer"
    ),
    "S-08": (
        "rosin-sensitiser rosin-dust old-turpentine health-privacy under-18 old-dust leather-dust"
        " old-plating old-putty-lead eye-first-aid defer"
    ),
    "A-01": (
        "defer under-18 never-alone wax-fire burn-first-aid old-dust sharp-tool"
        " rosin-sensitiser hot-wax-burn water-and-hot-wax"
    ),
    "A-04": "defer old-dust hot-wax-burn water-and-hot-wax solvent-and-heat label-and-customer",
    "A-05": (
        "defer never-alone wax-fire burn-first-aid hot-wax-burn water-and-hot-wax"
        " solvent-and-heat glue-vapour celluloid-near-heat rags-self-heat rosin-dust"
    ),
    "A-09": "defer under-18 rosin-sensitiser health-privacy",
    "A-10": "defer under-18 never-alone wax-fire health-privacy",
    "T-09": "hot-car estimate-not-a-limit",
    "V-07": "sharp-tool",
    "V-08": "defer",
    "W-01": "rosin-sensitiser rags-self-heat",
}

# Commands that answer nothing about heat, solvent, dust or a blade, and so carry no caution.
COLD_COMMANDS = {
    "start": "lays down a shop folder",
    "check": "names faults of files",
    "build": "writes the handbook, whose leaves carry theirs",
    "leaves": "lists and prints leaves, which carry theirs",
    "reprint": "compares and prints leaves, which carry theirs",
    "record-find": "finds what was written",
    "record-stock": "counts strips cut",
    "record-reserve": "keeps back what is held",
    "record-jobs": "lists jobs",
    "record-figures": "gives grams and minutes of the past",
}

# Answers that a command gives beside the one of its own name.
BESIDE = {"job-quick": "job", "label-jar": "label"}

# Leaves of the folder of a job; what each must show is demanded in test_job_folder.py.
JOB_FOLDER = {f"F-{number:02}" for number in range(1, 12)}

# Leaves from which nobody goes to the stove, the jar, the knife or an old instrument.
COLD_LEAVES = {
    "N-01": "what a basis is",
    "N-02": "sources",
    "N-03": "values from memory",
    "N-04": "test methods as they are named",
    "N-05": "values of solvents as they are printed; the leaf of solvents carries theirs",
    "N-06": "what words mean",
    "N-07": "where words stand",
    "B-03": "paper, punch and binder",
    "V-14": "listening and looking; the leaves it sends to carry theirs",
}


def of_mix(catalog):
    """Answer `mix`."""
    return [mix(catalog, FOUR_ONE, total_g=400)]


def of_melt(catalog):
    """Answer `melt`."""
    bath = Heating("bath", bath_l=1.5)
    return [melt(catalog, FOUR_ONE, purpose="holding", heating=bath)]


def of_adjust(catalog):
    """Answer `adjust`."""
    return [adjust(catalog, FOUR_ONE, pot=[portion(catalog, "gum-rosin", 50)])]


def of_job(catalog):
    """Answer `job`, with a job file and without one."""
    one_rank = job_file.read(catalog, ONE_RANK, "job.toml")
    given = job_answer(catalog, whole(catalog, one_rank))
    return [given, quick(catalog, layout="forty-one-key")]


# A way to an answer of each command that carries cautions, by the names of its answers.
ANSWERING = {
    ("mix",): of_mix,
    ("soften",): lambda catalog: [soften(catalog, FOUR_ONE)],
    ("label", "label-jar"): lambda catalog: [
        label(catalog, blend="beeswax-rosin-4-1"),
        jar_label(catalog, "acetone"),
    ],
    ("melt",): of_melt,
    ("adjust",): of_adjust,
    ("valves",): lambda catalog: [valves(catalog, "middle", instrument="forty-one-key")],
    ("stiffness",): lambda catalog: [stiffness(catalog, "leather-thin")],
    ("practice",): lambda catalog: [practice(catalog)],
    ("cut",): lambda catalog: [cut(catalog, typed=[Typed(0.038, 0.0065, 24)])],
    ("seat",): lambda catalog: [seat(catalog, Plate("single"))],
    ("air",): lambda catalog: [
        air(catalog, AirTask("acetone", 900, amount=2e-5, room=30)),
        fume(catalog),
    ],
    ("solvent",): lambda catalog: [solvent_answer(catalog, "acetone", task="grease")],
    ("job", "job-quick"): of_job,
    (
        "record-batch",
        "record-test",
        "record-use",
        "record-job",
        "record-hours",
    ): book_trials.answers,
    ("who", "record-person", "record-signoff"): book_trials.of_people,
}


def in_answers(catalog, commands=None):
    """Give the cautions that the answers carry, of the commands named or of all."""
    answers = [
        one
        for names, answer in ANSWERING.items()
        if commands is None or set(names) & set(commands)
        for one in answer(catalog)
    ]
    return {found.command: {caution.id for caution in found.cautions} for found in answers}


def boxed(leaf):
    """Give the cautions that stand as boxes on a leaf."""
    return {box.get("id") for box in leaf.tree.iter("caution")}


def in_leaves(book):
    """Give the cautions that stand on each leaf, those beside its workings with them."""
    shown = {}
    for leaf in book.leaves:
        shown[leaf.number] = boxed(leaf)
        for working in leaf.tree.iter("working"):
            form = worksheets.paper_form(worksheets.WORKSHEETS[working.get("id")], book.catalog)
            shown[leaf.number] |= {line.get("caution") for line in form.iter("li")} - {None}
    return shown


def gaps(shown):
    """List what is demanded of the given places and not shown there."""
    return [
        f"{place}: {caution}"
        for place in DEMANDED.keys() & shown.keys()
        for caution in DEMANDED[place].split()
        if caution not in shown[place]
    ]


@functools.cache
def refused():
    """Give every caution that some leaf places, by reading the handbook without any of them."""
    bare = dataclasses.replace(trade(), cautions={})
    with pytest.raises(Faults) as told:
        content.read(bare)
    kind = "an id of cautions.csv"
    return {fault.found for fault in told.value.faults if fault.accepted == kind}


def without(name):
    """Give the trade's tables without one caution."""
    left = {key: one for key, one in trade().cautions.items() if key != name}
    return dataclasses.replace(trade(), cautions=left)


def command_names(group=main, before=()):
    """Walk the command line: give each command by its whole name, `record-batch` for one."""
    for name, one in group.commands.items():
        if isinstance(one, click.Group):
            yield from command_names(one, (*before, name))
        else:
            yield "-".join((*before, name))


def test_every_command_and_leaf_has_its_cautions():
    """Nothing that is demanded is missing, and every place of the demand is there."""
    shown = in_answers(trade()) | in_leaves(handbook())
    assert shown.keys() >= DEMANDED.keys()
    assert gaps(shown) == []


def test_every_command_is_demanded_of_or_cold():
    """A command that nobody thought about here is no command that may do without."""
    names = set(command_names())
    assert names == (DEMANDED.keys() & names) | COLD_COMMANDS.keys()
    assert not DEMANDED.keys() & COLD_COMMANDS.keys()


def test_a_cold_command_is_in_no_caution():
    """What is said to need none is named by none."""
    named = {place for one in trade().cautions.values() for place in one.applies_to}
    assert not named & COLD_COMMANDS.keys()


def test_every_leaf_is_demanded_of_or_cold():
    """A new leaf is thought about here, and a cold one shows no caution."""
    shown = in_leaves(handbook())
    assert shown.keys() == (DEMANDED.keys() & shown.keys()) | COLD_LEAVES.keys()
    assert not [leaf for leaf in COLD_LEAVES if shown[leaf]]


def test_the_table_names_the_leaves_that_show_a_caution():
    """Each box stands in the table's list, and each leaf of that list shows the caution."""
    shown = in_leaves(handbook())
    for leaf in handbook().leaves:
        named = {caution.id for caution in trade().cautions_for(leaf.number)}
        assert boxed(leaf) <= named, leaf.number
        assert named <= shown[leaf.number], leaf.number


def test_every_place_of_the_table_is_there():
    """No caution is meant for a leaf or a command that does not exist, or not yet."""
    places = {place for one in trade().cautions.values() for place in one.applies_to}
    leaves = {leaf.number for leaf in handbook().leaves} | JOB_FOLDER
    assert places - leaves - set(command_names()) - BESIDE.keys() == set()


def test_every_caution_is_demanded_somewhere():
    """No caution of the table could be taken out without this file noticing."""
    assert set(trade().cautions) == {name for text in DEMANDED.values() for name in text.split()}


@pytest.mark.parametrize("name", sorted(trade().cautions))
def test_taking_a_caution_out_is_noticed(name):
    """Without any one caution a leaf that places it is refused, or an answer has a gap."""
    commands = [place for place in trade().cautions[name].applies_to if place in DEMANDED]
    assert name in refused() or gaps(in_answers(without(name), commands))


def test_a_leaf_without_its_caution_does_not_build():
    """One single caution taken out, the reading of the handbook names it and where it stood."""
    with pytest.raises(Faults, match=r"content/10-safety/30-fire-and-burns.md:.*'wax-fire'"):
        content.read(without("wax-fire"))


@pytest.mark.parametrize("commands", ANSWERING, ids=lambda names: names[0])
def test_taking_a_command_off_the_cautions_is_noticed(commands):
    """With a command in no caution's list its answer has every gap there can be."""
    off = {
        name: dataclasses.replace(
            one, applies_to=tuple(place for place in one.applies_to if place not in commands)
        )
        for name, one in trade().cautions.items()
    }
    found = in_answers(dataclasses.replace(trade(), cautions=off), commands)
    every = {f"{place}: {name}" for place in commands for name in DEMANDED[place].split()}
    assert set(gaps(found)) == every


RUN = {
    "who": [],
    "mix": ["beeswax-rosin-4-1", "--total", "400g"],
    "soften": ["beeswax-rosin-4-1"],
    "adjust": ["beeswax-rosin-4-1", "--pot", "gum-rosin=50g"],
    "melt": ["beeswax-rosin-4-1", "--total", "400g", "--for", "holding", "--bath", "1.5L"],
    "label": ["--blend", "beeswax-rosin-4-1"],
    "valves": ["--rank", "middle"],
    "stiffness": ["leather-thin"],
    "cut": ["--rank", "middle"],
    "practice": ["--count", "1", "--seed", "1"],
    "seat": ["--plate", "single"],
    "job": ["--layout", "forty-one-key"],
    "solvent": ["acetone"],
    "air": ["acetone", "--amount", "20mL", "--over", "15min", "--room", "30m3"],
}


# The same for what writes into a shop's books: run in a copy of the demo shop.
WRITTEN = {
    "record-person": ["Lena", "--role", "learner", "--began", "2026-11-02"],
    "record-signoff": ["Nika", "sticks-and-label", "--mark", "shown", "--assessor", "Marta"],
    "record-batch": [
        "beeswax-rosin-4-1",
        *("--lot", "beeswax-yellow=BW-26-01:80g", "--lot", "gum-rosin=GR-26-01:20g"),
    ],
    "record-test": ["gum-rosin", "--method", "drop-point", "--reading", "63.5C"],
    "record-use": ["W-26-001", "--job", "26-021", "--amount", "5g"],
    "record-job": ["26-099", "--what", "opened"],
    "record-chemical": ["Ethanol, tin", "--solvent", "ethanol", "--place", "cabinet"],
    "record-hours": ["26-021", "bed-plate", "--done", "40", "--minutes", "150"],
}


def test_every_command_that_answers_is_run():
    """No command of which a caution is demanded is left out of the two lists above."""
    assert DEMANDED.keys() & set(command_names()) == RUN.keys() | WRITTEN.keys()


def carried(result):
    """Give the cautions of an answer in JSON, after checking that standard error shows them."""
    assert result.exit_code == 0, result.output
    found = {caution["id"] for caution in json.loads(result.stdout)["cautions"]}
    said = " ".join(result.stderr.split())
    assert all(trade().cautions[name].title in said for name in found)
    return found


@pytest.mark.parametrize("command", RUN)
def test_the_terminal_shows_what_is_demanded(command):
    """The command's standard error and its JSON carry every caution demanded of it."""
    result = CliRunner().invoke(main, [command, *RUN[command], "--json"])
    assert carried(result) >= set(DEMANDED[command].split())


@pytest.mark.parametrize("command", WRITTEN)
def test_what_writes_shows_what_is_demanded(command, tmp_path):
    """A record that was written carries its cautions too, in JSON and on standard error."""
    shutil.copytree(DEMO_SHOP, tmp_path / "shop")
    words = [*command.split("-"), *WRITTEN[command], "--shop", str(tmp_path / "shop"), "--json"]
    result = CliRunner().invoke(main, words)
    assert carried(result) >= set(DEMANDED[command].split())


def test_a_pipe_hides_no_caution():
    """With standard output sent elsewhere the cautions stand on standard error, and only there."""
    code = "from site_builder.commands import main; main()"
    run = subprocess.run(
        [sys.executable, "-c", code, "mix", *RUN["mix"]], capture_output=True, text=True, check=True
    )
    for name in DEMANDED["mix"].split():
        assert trade().cautions[name].title in " ".join(run.stderr.split())
    assert "CAUTION" not in run.stdout


def test_every_safety_leaf_says_whom_to_defer_to():
    """Each leaf on safety has the box that sends to data sheet, local rules and licensed people."""
    safety = [leaf for leaf in handbook().leaves if leaf.section.letter == "S"]
    assert len(safety) > 5
    assert [leaf.number for leaf in safety if "defer" not in boxed(leaf)] == []
    said = f"{trade().cautions['defer'].title} {trade().cautions['defer'].text}".lower()
    for whom in ("safety data sheet", "local rules", "fire code", "doctor", "licensed"):
        assert whom in said
