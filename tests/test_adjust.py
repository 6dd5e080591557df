"""Correct a pot, mix lots, old wax with a band: the answer, its words, the command."""

from __future__ import annotations

import dataclasses
import itertools
import json
import random
import re

import pytest
from click.testing import CliRunner

from formulas import catalog as catalogs
from formulas.adjusting.adjust import adjust
from formulas.adjusting.alligation import corrected_total
from formulas.adjusting.portions import SolventRefused, old_wax, portion
from formulas.fault import OutOfRange, UnitFault, UnknownName
from site_builder.commands import main
from site_builder.places import DEMO_SHOP
from site_builder.texts import adjust as words

TRADE = catalogs.load(None)
DEMO = catalogs.load(DEMO_SHOP)
WAX, ROSIN = "beeswax-yellow", "gum-rosin"
FOUR_ONE = {WAX: 4.0, ROSIN: 1.0}


def masses(additions):
    """Give what is weighed of each material."""
    return {one["material"]: one["mass"].value for one in additions}


def shares(result):
    """Give the shares of a result."""
    return {one["material"]: one["share"] for one in result["shares"]}


def pot(**grams):
    """Give a pot of materials, written with underscores."""
    return [portion(TRADE, name.replace("_", "-"), mass) for name, mass in grams.items()]


# The pot


def test_a_pot_with_too_little_rosin():
    """300 g of wax at 4 parts is 75 g a part; 75 g of rosin less 50 g there is 25 g."""
    answer = adjust(TRADE, FOUR_ONE, pot=pot(beeswax_yellow=300, gum_rosin=50)).answer
    assert answer["reachable"]
    assert masses(answer["additions"]) == {ROSIN: 25.0}
    assert answer["result"]["total"].value == 375.0
    assert shares(answer["result"]) == pytest.approx({WAX: 0.8, ROSIN: 0.2})
    assert "nearest" not in answer


def test_a_pot_with_too_much_rosin():
    """100 g of rosin at 1 part asks for 400 g of wax; 350 g are there."""
    answer = adjust(TRADE, FOUR_ONE, pot=pot(beeswax_yellow=350, gum_rosin=100)).answer
    assert masses(answer["additions"]) == {WAX: 50.0}


def test_a_pot_that_is_right_takes_nothing():
    """A pot at the ratio is left as it is, and the working says so."""
    answer = adjust(TRADE, FOUR_ONE, pot=pot(beeswax_yellow=400, gum_rosin=100)).answer
    assert answer["reachable"]
    assert answer["additions"] == []
    assert answer["working"][-1] == "The ratio is there: add nothing."


def test_pure_additions_come_to_the_largest_part():
    """Without limits the mass in the end is that of the closed form, on 300 random pots."""
    chance = random.Random(1)
    fine = dataclasses.replace(TRADE, shop=dataclasses.replace(TRADE.shop, scale_step=0.001))
    for _ in range(300):
        names = chance.sample(list(TRADE.materials), chance.randint(2, 6))
        parts = {name: chance.randint(1, 20) for name in names}
        held = [chance.choice([0, chance.uniform(1, 500)]) for _ in names]
        there = [portion(TRADE, n, g) for n, g in zip(names, held, strict=True) if g]
        if not there:
            continue
        answer = adjust(fine, parts, pot=there).answer
        wanted = [part / sum(parts.values()) for part in parts.values()]
        assert answer["result"]["total"].value == pytest.approx(
            corrected_total(held, wanted), abs=0.000501
        )  # half a step of this scale, which rounds all additions together


def test_nothing_comes_or_goes():
    """What is in the end is what was there and what was added, of each material."""
    there = pot(beeswax_yellow=310.4, gum_rosin=77.7, tallow=3)
    parts = {WAX: 40.0, ROSIN: 10.0, "tallow": 1.0}
    answer = adjust(TRADE, parts, pot=there).answer
    added, result = masses(answer["additions"]), answer["result"]
    total = result["total"].value
    assert total == pytest.approx(391.1 + sum(added.values()))
    for one in there:
        inside = one.grams + added.get(one.id, 0)
        assert shares(result)[one.id] * total == pytest.approx(inside)


def test_the_order_of_what_is_typed_does_not_matter():
    """The least addition to a pot is the same in whatever order things are named."""
    add = [portion(TRADE, name) for name in (WAX, ROSIN, "beeswax-rosin-1-1")]
    there = pot(beeswax_yellow=300, gum_rosin=20)
    totals = {
        adjust(TRADE, dict(parts), pot=inside, add=list(some)).answer["result"]["total"].value
        for parts in itertools.permutations(FOUR_ONE.items())
        for inside in itertools.permutations(there)
        for some in itertools.permutations(add)
    }
    assert totals == {375.0}


def test_a_total_is_met_exactly():
    """With a total the pot is filled up to it, and the weights add up to it."""
    answer = adjust(TRADE, FOUR_ONE, pot=pot(beeswax_yellow=300, gum_rosin=50), total_g=500).answer
    assert masses(answer["additions"]) == {WAX: 100.0, ROSIN: 50.0}
    assert answer["result"]["total"].value == 500.0


def test_a_pot_that_must_not_grow_comes_right_in_part():
    """In 360 g only a part of a pot that needs 375 g comes right: 360/375 of it."""
    answer = adjust(TRADE, FOUR_ONE, pot=pot(beeswax_yellow=300, gum_rosin=50), total_g=360).answer
    assert not answer["reachable"]
    assert "375.0 g and no less" in answer["why"][0]
    assert answer["part"]["of_pot"].value == pytest.approx(350 * 360 / 375)
    assert masses(answer["part"]["additions"]) == {ROSIN: 24.0}
    assert answer["nearest"]["result"]["total"].value == 360.0


def test_a_named_blend_and_a_batch_go_into_a_pot():
    """A blend counts by its parts, a batch as it was weighed: 200.1 g and 49.9 g."""
    answer = adjust(DEMO, FOUR_ONE, pot=[portion(DEMO, "beeswax-rosin-2-1", 300)]).answer
    assert masses(answer["additions"]) == {WAX: 200.0}
    batch = adjust(DEMO, FOUR_ONE, pot=[portion(DEMO, "W-26-001", 250)]).answer
    assert masses(batch["additions"]) == {ROSIN: 0.1}  # 200.1 / 4 less 49.9 is 0.125


# Stock


def test_no_more_is_added_than_there_is():
    """A stock is never overdrawn, not even by the rounding of the scale."""
    chance = random.Random(5)
    for _ in range(200):
        stock = {name: round(chance.uniform(1, 60), 2) for name in (WAX, ROSIN, "carnauba")}
        parts = {WAX: 16.0, ROSIN: 4.0, "carnauba": 1.0}
        there = [portion(TRADE, "beeswax-rosin-4-1", chance.uniform(50, 900))]
        add = [portion(TRADE, name, grams) for name, grams in stock.items()]
        answer = adjust(TRADE, parts, pot=there, add=add).answer
        for weighed in (answer, answer.get("nearest"), answer.get("part")):
            for name, mass in masses((weighed or {"additions": []})["additions"]).items():
                assert mass <= stock[name] + 1e-9


def test_what_runs_out_is_named():
    """20 g of rosin serve 80 g of what is missing: 280 g of this pot, and no more."""
    add = [portion(TRADE, ROSIN, 20)]
    answer = adjust(TRADE, FOUR_ONE, pot=pot(beeswax_yellow=300, gum_rosin=50), add=add).answer
    assert not answer["reachable"]
    assert answer["why"] == ["Gum rosin: all there is brings only 280.0 g of the pot to the ratio."]
    assert answer["part"]["of_pot"].value == pytest.approx(280)
    assert masses(answer["part"]["additions"]) == {ROSIN: 20.0}
    nearest = answer["nearest"]
    assert masses(nearest["additions"]) == {ROSIN: 20.0}
    assert nearest["farthest"] == pytest.approx(0.2 - 70 / 370)


def test_lots_make_as_much_as_their_stock_allows():
    """Without a total the lots go as far as the first that runs out."""
    lots = [portion(TRADE, "beeswax-rosin-2-1", 80), portion(TRADE, "beeswax-rosin-10-1", 200)]
    answer = adjust(TRADE, FOUR_ONE, add=lots).answer
    assert answer["reachable"]
    # the cross: 1/5 - 1/11 = 6/55 parts of the first, 1/3 - 1/5 = 2/15 of the second
    assert masses(answer["additions"]) == {
        "beeswax-rosin-2-1": 80.0,
        "beeswax-rosin-10-1": pytest.approx(80 * (2 / 15) / (6 / 55), abs=0.05),  # half a step
    }


def test_a_total_beyond_the_stock_says_how_far_it_goes():
    """The ratio is kept and the mass falls short; the lot that runs out is named."""
    lots = [portion(TRADE, "beeswax-rosin-2-1", 80), portion(TRADE, "beeswax-rosin-10-1")]
    answer = adjust(TRADE, FOUR_ONE, add=lots, total_g=500).answer
    assert not answer["reachable"]
    assert answer["why"] == [
        "Beeswax and rosin, 2 to 1: all there is makes 177.8 g at the ratio, no more."
    ]
    assert answer["nearest"]["result"]["total"].value == pytest.approx(177.8)
    assert answer["nearest"]["farthest"] < 0.0005


def test_what_is_named_first_is_used_first():
    """Of three lots to a total the first that are named go in."""
    names = ("beeswax-rosin-2-1", "beeswax-rosin-10-1", "beeswax-rosin-3-1")
    answer = adjust(TRADE, FOUR_ONE, add=[portion(TRADE, n) for n in names], total_g=100).answer
    assert set(masses(answer["additions"])) == set(names[:2])
    turned = adjust(TRADE, FOUR_ONE, add=[portion(TRADE, n) for n in names[1:]], total_g=100)
    assert set(masses(turned.answer["additions"])) == set(names[1:])


# Out of reach


@pytest.mark.parametrize(
    ("there", "add", "why"),
    [
        (
            {"beeswax_yellow": 400, "tallow": 10},
            (WAX, ROSIN),
            "Tallow is in the pot and not in the ratio: additions thin it, none takes it out.",
        ),
        ({"beeswax_yellow": 400}, ("tallow",), "Gum rosin is wanted, and nothing here holds any."),
        (
            {"beeswax_yellow": 400},
            ("beeswax-rosin-5-1",),
            "Gum rosin: 20.00 % wanted, and nothing here holds more than 16.67 %.",
        ),
    ],
)
def test_the_component_in_the_way_is_named(there, add, why):
    """The reason names the component, and no part of the pot is said to come right."""
    some = [portion(TRADE, name) for name in add]
    answer = adjust(TRADE, FOUR_ONE, pot=pot(**there), add=some).answer
    assert not answer["reachable"]
    assert answer["additions"] == []
    assert why in answer["why"]
    assert answer["part"] is None


def test_the_nearest_does_not_drown_what_is_too_much():
    """A pot that cannot come right is brought nearer within twice its mass."""
    answer = adjust(TRADE, FOUR_ONE, pot=pot(beeswax_yellow=400, tallow=10)).answer
    nearest = answer["nearest"]["result"]
    assert nearest["total"].value == pytest.approx(820)
    assert shares(nearest)["tallow"] == pytest.approx(10 / 820)
    assert answer["nearest"]["farthest"] == pytest.approx(10 / 820)


def test_the_nearest_of_two_lots_is_the_nearer():
    """Where both lots lie on one side the nearer alone is the nearest."""
    lots = [portion(TRADE, "beeswax-rosin-2-1"), portion(TRADE, "beeswax-rosin-3-1")]
    answer = adjust(TRADE, FOUR_ONE, add=lots, total_g=500).answer
    assert masses(answer["nearest"]["additions"]) == {"beeswax-rosin-3-1": 500.0}
    assert answer["nearest"]["farthest"] == pytest.approx(0.05)


# Old wax


def test_the_result_of_old_wax_keeps_its_band():
    """The band of the result is that of every make-up within the old wax's band, no wider."""
    held = {ROSIN: (0.1, 0.3), "tallow": (0.0, 0.04)}
    old = old_wax(TRADE, 400, held, WAX)
    parts = {WAX: 40.0, ROSIN: 20.0, "tallow": 1.0}
    answer = adjust(TRADE, parts, old=old, pot=pot(gum_rosin=5)).answer
    added = masses(answer["additions"])
    bands = {one["material"]: one["share"] for one in answer["band_of_result"]}
    total = 405 + sum(added.values())
    chance, seen = random.Random(2), {name: [] for name in bands}
    corners = list(itertools.product(*held.values()))
    some = [[chance.uniform(*span) for span in held.values()] for _ in range(300)]
    for rosin, tallow in [*corners, *some]:
        inside = {WAX: 1 - rosin - tallow, ROSIN: rosin, "tallow": tallow}
        for name, share in inside.items():
            mass = 400 * share + added.get(name, 0) + (5 if name == ROSIN else 0)
            seen[name].append(100 * mass / total)
    for name, band in bands.items():
        assert band.low == pytest.approx(min(seen[name]))
        assert band.high == pytest.approx(max(seen[name]))
        assert band.estimate is None


def test_the_additions_for_both_ends_of_old_wax_are_told():
    """400 g with 15 to 25 % of rosin: 25 g of rosin at the low end, 100 g of wax at the high."""
    answer = adjust(TRADE, FOUR_ONE, old=old_wax(TRADE, 400, {ROSIN: (0.15, 0.25)}, WAX)).answer
    assert masses(answer["ends"]["low"]["additions"]) == {ROSIN: 25.0}  # 340 / 4 less 60
    assert masses(answer["ends"]["high"]["additions"]) == {WAX: 100.0}  # 4 x 100 less 300
    assert answer["additions"] == []  # the middle is at the ratio
    assert answer["serves_both_ends"] == []


def test_what_serves_both_ends_goes_in_first():
    """Where both ends want the same material, the smaller of the two serves both."""
    answer = adjust(TRADE, FOUR_ONE, old=old_wax(TRADE, 400, {ROSIN: (0.05, 0.1)}, WAX)).answer
    assert masses(answer["ends"]["low"]["additions"]) == {ROSIN: 75.0}  # 380 / 4 less 20
    assert masses(answer["ends"]["high"]["additions"]) == {ROSIN: 50.0}  # 360 / 4 less 40
    assert masses(answer["serves_both_ends"]) == {ROSIN: 50.0}


def test_old_wax_is_labelled_reclaimed():
    """Old wax told at the call, and a batch that holds old wax, both make reclaimed wax."""
    old = adjust(TRADE, FOUR_ONE, old=old_wax(TRADE, 400, {ROSIN: (0.1, 0.2)}, WAX))
    batch = adjust(DEMO, FOUR_ONE, pot=[portion(DEMO, "W-26-003", 100)])
    fresh = adjust(DEMO, FOUR_ONE, pot=[portion(DEMO, "W-26-001", 100)])
    for answer in (old, batch):
        assert answer.answer["wax"] == "reclaimed"
        assert any("label it reclaimed" in note for note in answer.notes)
    assert fresh.answer["wax"] == "fresh"
    assert not any("reclaimed" in note for note in fresh.notes)


# The working


def test_the_working_can_be_followed_by_hand():
    """Each step's arithmetic holds as it is printed, and its last figures are the weights."""
    answer = adjust(TRADE, FOUR_ONE, pot=pot(beeswax_yellow=300, gum_rosin=50)).answer
    assert answer["working"] == [
        "The pot holds Beeswax, yellow 300.0 g; Gum rosin 50.0 g: 350.0 g in all.",
        "It must be, in parts by mass: Beeswax, yellow 4; Gum rosin 1: 5 in all.",
        "Divide what is there by its parts: Beeswax, yellow 300.0 g / 4 = 75.00 g;"
        " Gum rosin 50.0 g / 1 = 50.00 g.",
        "Keep the Beeswax, yellow, which gives the most for a part: 75.00 g.",
        "Beeswax, yellow must be 4 × 75.00 g = 300.00 g; that is there: add none.",
        "Gum rosin must be 1 × 75.00 g = 75.00 g, less 50.00 g there: add 25.00 g.",
        "On the scale, in its steps of 0.1 g: Gum rosin: 25.0 g.",
    ]


def test_the_cross_stands_as_on_paper():
    """Shares at the left, the wanted one in the middle, across from each the difference."""
    lots = [portion(TRADE, "beeswax-rosin-2-1"), portion(TRADE, "beeswax-rosin-10-1")]
    working = adjust(TRADE, FOUR_ONE, add=lots, total_g=500).answer["working"]
    cross = [line for line in working if line.startswith("  ")]
    assert cross == [
        "  A  33.33     10.91 parts A",  # 20.00 less 9.09
        "          20.00",
        "  B   9.09     13.33 parts B",  # 33.33 less 20.00
    ]
    assert "24.24 parts are 500.0 g, so one part is 20.625 g." in working
    assert "A: 10.91 × 20.625 g = 225.00 g." in working


SUM = re.compile(r"([\d.]+) × ([\d.]+) g = ([\d.]+) g")


def test_every_product_of_a_working_holds_as_printed():
    """On 200 random corrections the printed products are right to what their digits carry."""
    chance, seen = random.Random(9), 0
    for _ in range(200):
        blend = chance.choice(list(TRADE.blends))
        there = [portion(TRADE, chance.choice(list(TRADE.blends)), chance.uniform(50, 900))]
        total = chance.choice([None, 2000])
        answer = adjust(TRADE, TRADE.blends[blend].parts, pot=there, total_g=total).answer
        for step in answer["working"]:
            for part, one, product in SUM.findall(step):
                seen += 1
                parts, mass = float(part), float(one)
                half = 0.005 * parts + (0.005 if "." in part else 0) * mass + 0.005
                assert float(product) == pytest.approx(parts * mass, abs=half + 1e-9)
    assert seen > 200


def test_the_notes_come_with_every_answer():
    """That more rosin is no sure cure stands in every answer, whatever it is."""
    asked = [
        {"pot": pot(beeswax_yellow=300)},
        {"pot": pot(beeswax_yellow=300, tallow=3)},
        {"add": [portion(TRADE, WAX), portion(TRADE, ROSIN)], "total_g": 100.0},
    ]
    for one in asked:
        assert adjust(TRADE, FOUR_ONE, **one).notes[0].startswith("Test before use. A pot that is")


def test_a_pot_that_grows_much_is_told():
    """Where a pot more than doubles, the answer says to ladle some out first."""
    notes = adjust(TRADE, FOUR_ONE, pot=pot(beeswax_yellow=100, gum_rosin=100)).notes
    assert any("The pot grows from 200.0 g to 500.0 g." in note for note in notes)


def test_a_coarse_scale_is_told():
    """A scale whose step moves the ratio is told, with how far."""
    coarse = dataclasses.replace(TRADE, shop=dataclasses.replace(TRADE.shop, scale_step=5))
    there = pot(beeswax_yellow=30, gum_rosin=4)
    notes = adjust(coarse, FOUR_ONE, pot=there).notes
    assert any(note.startswith("The steps of the scale move a share by") for note in notes)


# What is refused


def test_what_no_shop_can_weigh_is_refused():
    """A mass of nought, above a tonne, or lots without any measure."""
    for there in (pot(gum_rosin=0), pot(gum_rosin=1.1e6), pot(gum_rosin=6e5, tallow=6e5)):
        with pytest.raises(OutOfRange, match="at most 1000 kg"):
            adjust(TRADE, FOUR_ONE, pot=there)
    with pytest.raises(OutOfRange, match="a pot, a total, or the stock of every lot"):
        adjust(TRADE, FOUR_ONE)


def test_an_unknown_name_gets_a_hint():
    """A name of no table is refused with the nearest that stands in one."""
    with pytest.raises(UnknownName, match="did you mean 'gum-rosin'"):
        portion(TRADE, "gum-rosn", 50)
    with pytest.raises(UnknownName, match="did you mean 'beeswax-rosin-4-1'"):
        portion(TRADE, "beeswax-rosin-4-l", 50)
    with pytest.raises(UnitFault):
        portion(TRADE, "beeswax-yellow 4; gum-rosin x1", 50)


@pytest.mark.parametrize(
    "text",
    ["turpentine", "white spirit", "Acetone", "petroleum-ether", "turpentine 1; gum-rosin 2"],
)
def test_a_solvent_is_refused_without_a_hint(text):
    """A solvent is never read as the balsam of a like name."""
    with pytest.raises(SolventRefused, match="never heated") as refused:
        portion(TRADE, text, 50)
    assert "did you mean" not in str(refused.value)


@pytest.mark.parametrize(
    "held",
    [{}, {ROSIN: (0.3, 0.2)}, {ROSIN: (-0.1, 0.2)}, {ROSIN: (0.5, 0.8), "tallow": (0, 0.3)}],
)
def test_a_band_that_cannot_be_is_refused(held):
    """Old wax holds something, from low to high, and no more than the whole."""
    with pytest.raises(OutOfRange, match="old wax"):
        old_wax(TRADE, 400, held, WAX)


# The command


def run(*given):
    """Run the command on the demo shop."""
    return CliRunner().invoke(main, ["adjust", "--shop", str(DEMO_SHOP), *given])


POT = ("--pot", "beeswax-yellow=300g", "--pot", "gum-rosin=50g")


def test_the_command_answers_as_json():
    """The keys that others build on are there, the working among them."""
    result = run(*POT, "--to", "beeswax-rosin-4-1", "--json")
    assert result.exit_code == 0
    answer = json.loads(result.stdout)["answer"]
    assert answer["reachable"] is True
    assert answer["additions"][0]["material"] == ROSIN
    assert answer["additions"][0]["mass"] == {"value": 25.0, "unit": "g"}
    assert set(answer["result"]) == {"total", "shares"}
    assert all(isinstance(step, str) for step in answer["working"])
    short = json.loads(run(*POT, "--to", "beeswax-rosin-4-1", "--add", "tallow", "--json").stdout)
    assert short["answer"]["reachable"] is False
    assert set(short["answer"]["nearest"]) == {"additions", "result", "farthest"}


@pytest.mark.parametrize(
    "given",
    [
        ("--pot-blend", "beeswax-rosin-2-1=400g", "--add", "beeswax-yellow=1kg"),
        ("--pot", "beeswax-yellow 2; gum-rosin 1=400g"),
        ("--pot", "W-26-001=120g"),
        ("--lot", "tin=beeswax-yellow 3; gum-rosin 1:200g", "--add", "beeswax-rosin-10-1=7oz"),
        ("--lot", "tin=beeswax-rosin-2-1", "--add", "beeswax-yellow", "--total", "500g"),
        ("--pot", "reclaimed=400g", "--holds", "gum-rosin=15-25%"),
        ("--pot", "reclaimed=14oz", "--holds", "gum-rosin=15,5 to 25 %", "--holds", "tallow=2%"),
    ],
)
def test_what_a_repairer_types_is_understood(given):
    """Blends, batches, ratios, lots of one's own and old wax are read, in grams or ounces."""
    result = run(*given, "--to", "beeswax-rosin-oil-40-10-1" if "tallow=2%" in given else
                 "beeswax-rosin-4-1")  # fmt: skip
    assert result.exit_code == 0, result.output
    assert "Working" in result.stdout
    assert "Test before use." in result.stdout


def test_a_target_may_be_written_in_four_ways():
    """A blend, a ratio in one text, single parts, and a batch say the same."""
    ways = [
        ("--to", "beeswax-rosin-4-1"),
        ("--to", "beeswax-yellow 4; gum-rosin 1"),
        ("--parts", "beeswax-yellow=4", "--parts", "gum-rosin=1"),
    ]
    found = {json.dumps(json.loads(run(*POT, *way, "--json").stdout)["answer"]) for way in ways}
    assert len(found) == 1
    batch = json.loads(run(*POT, "--to", "W-26-001", "--json").stdout)["answer"]
    assert batch["result"]["shares"][0]["wanted"] == pytest.approx(200.1 / 250)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ((), "say what it must be"),
        (("--to", "beeswax-rosin-4-1", "--parts", "gum-rosin=1"), "say what it must be in one way"),
        (("--to", "beeswax-rosin-4-1", "--pot", "400g"), "what and how much, as gum-rosin=50g"),
        (("--to", "beeswax-rosin-4-1", "--pot", "gum-rosin=400"), "a number with a unit"),
        (("--to", "beeswax-rosin-4-1", "--pot", "reclaimed=40g"), "--holds gum-rosin=15-25%"),
        (("--to", "beeswax-rosin-4-1", *POT, "--holds", "gum-rosin=5-9%"), "--pot reclaimed=400g"),
        (
            ("--to", "beeswax-rosin-4-1", "--pot", "reclaimed=40g", "--holds", "gum-rosin=15-25"),
            "a material once, as gum-rosin=15-25%",
        ),
        (("--to", "beeswax-rosin-4-1", *POT, "--add", "tallow", "--add", "tallow=4g"), "twice"),
        (("--to", "beeswax-rosin-4-1", *POT, "--lot", "tin"), "a name with its ratio"),
        (("--to", "beeswax-rosin-4-1"), "a pot, a total, or the stock of every lot"),
        (("--to", "beeswax-rosin-4-1", "--pot", "turpentine=40g"), "never heated"),
    ],
)
def test_a_wrong_call_is_told_what_is_accepted(given, said):
    """A call that cannot be read ends with exit code 2 and says what it takes."""
    result = run(*given)
    assert result.exit_code == 2
    assert said in " ".join(result.output.split())


def test_the_terminal_says_why_and_gives_the_nearest():
    """Out of reach stands before anything to weigh, with the reason and the part that serves."""
    result = run(*POT, "--to", "beeswax-rosin-4-1", "--add", "gum-rosin=20g")
    lines = " ".join(result.stdout.split())
    assert lines.index("Out of reach.") < lines.index("Nearest") < lines.index("Weigh")
    assert "all there is brings only 280.0 g of the pot" in lines
    assert "Or take 280.0 g of the pot alone" in lines
    assert "CAUTION" in result.stderr


def test_the_text_shows_every_step_once():
    """Each step of the working is printed, numbered, the cross as it stands."""
    lots = [portion(TRADE, "beeswax-rosin-2-1"), portion(TRADE, "beeswax-rosin-10-1")]
    answer = adjust(TRADE, FOUR_ONE, add=lots, total_g=500)
    text = "\n".join(words.text(answer, TRADE))
    for step in answer.answer["working"]:
        assert (step if step.startswith("  ") else " ".join(step.split()[:6])) in text
    numbered = [step for step in answer.answer["working"] if not step.startswith("  ")]
    assert re.findall(r"^  (\d+)\. ", text, re.MULTILINE) == [
        str(place + 1) for place in range(len(numbered))
    ]
