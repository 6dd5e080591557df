"""Every key of a practice sheet found again by other means, from what the task gives alone.

A function a topic: it takes the numbers given and gives the answers in the order in which they
are asked. None of them calls a formula of the book.
"""

from __future__ import annotations

import dataclasses
import functools
import math
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pint
import pytest
from scipy.optimize import linprog
from test_practice_bench_keys import TOPICS as AT_THE_BENCH
from test_practice_bench_keys import ends_of_key

from formulas import catalog as catalogs
from formulas.practice import adjusting, alligation, sheet, unit_pairs
from formulas.practice import units as practice_units
from formulas.practice.adjusting_jobs import pot_with_a_limit
from formulas.practice.draw import Scale
from formulas.practice.exercise import GRADES, Choice, Made, Wanted
from site_builder.places import CONTENT

Given = dict[str, Any]
Answers = list[float | str]

DEMO = catalogs.load(CONTENT / "demo-shop")
OUNCES = dataclasses.replace(
    DEMO, shop=dataclasses.replace(DEMO.shop, units="US", scale_step=0.05, scale_unit="oz")
)
EACH = 90  # exercises of a topic and a grade, in each of the two shops
STEPS = {"to-a-total": 1, "three-to-a-total": 1}
"""By how many steps of the scale a mass may lie off that is weighed so that a sum comes right."""

METRE = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
# NIST SP 811 gives inch of water, conventional, as 2.490889E+02 Pa (from memory); the registry
# knows it at 39 degrees Fahrenheit and at 60 alone. An ounce of leather is a 64th of an inch.
BY_HAND = {"inH2O": (249.08891, "Pa"), "leather_ounce": (25.4 / 64, "mm")}
NAMES = {"floz": "US_fluid_ounce", "mil": "thou"}


def turned(value: float, of: str, to: str) -> float:
    """Turn a number into another unit by pint's own registry."""
    if of in BY_HAND:
        times, of = BY_HAND[of]
        value *= times
    if to in BY_HAND:
        times, to = BY_HAND[to]
        value /= times
    there = METRE.Quantity(value, NAMES.get(of, of)).to(NAMES.get(to, to))
    return float(there.magnitude)


def least(rows: list[list[float]], rights: list[float], costs: list[float], most: list[float]):
    """Give the numbers from nought up that fulfil the equations at the least cost, or None."""
    bounds = [(0, one if one else None) for one in most]
    found = linprog(costs, A_eq=rows, b_eq=rights, bounds=bounds, method="highs")
    return list(found.x) if found.status == 0 else None


# Ratios, by plain arithmetic.


def ratios_again(g: Given) -> Answers:
    """Find the answers of an exercise on ratios."""
    variant = g["variant"]
    if variant == "share-of-ratio":
        return [g["parts"][1] * 100 / sum(g["parts"])]
    if variant == "part-of-batch":
        return [g["total"] / (100 / g["share"])]
    if variant == "wax-to-rosin":
        return [g["rosin"] * (g["parts"][0] / g["parts"][1])]
    if variant == "wax-on-plates":
        return [sum(g["each"] for _ in range(int(g["plates"])))]
    if variant in {"to-a-total", "three-to-a-total"}:
        return [
            g["total"] - g["total"] * (sum(g["parts"]) - p) / sum(g["parts"]) for p in g["parts"]
        ]
    if variant in {"runs-out-first", "what-is-left-over"}:
        return at_hand_again(g)
    if variant == "really-weighed":
        steps = round(g["total"] * g["parts"][1] / sum(g["parts"]) / g["step"])
        return [steps * g["step"], 100 * steps / round(g["total"] / g["step"])]
    plates = g["plates"] if "plates" in g else g["rate"] * g["hours"]
    total = plates * g["each"] * 100 / (100 - g["strained"]) * 100 / (100 - g["left"])
    if variant == "plates-with-losses":
        return [total]
    assert variant in {"batch-for-plates", "batch-for-a-session"}, variant
    wax, rosin = g["parts"]
    return [total, total / (1 + rosin / wax), total / (1 + wax / rosin)]


def at_hand_again(g: Given) -> Answers:
    """Use up what is at hand: as many parts as the scarcer gives."""
    (wax, rosin), (much, little) = g["parts"], g["held"]
    scarce = much * rosin < little * wax
    name = "beeswax" if scarce else "rosin"
    total = much + much * rosin / wax if scarce else little + little * wax / rosin
    left = little - much * rosin / wax if scarce else much - little * wax / rosin
    return [name, total] if g["variant"] == "runs-out-first" else [name, total, left]


# Lots by the cross, as equations of what goes in and what comes out.


def alligation_again(g: Given) -> Answers:
    """Find the answers of an exercise on mixing lots."""
    variant = g["variant"]
    if variant == "share-of-a-mixture":
        inside = sum(m * s for m, s in zip(g["masses"], g["lots"], strict=True))
        return [inside / sum(g["masses"])]
    if variant in {"thinned-to", "plain-wax-to-old-wax"}:
        # beeswax and rosin: x of beeswax added to the lot has the wanted share
        add = least(
            [[g["wanted"] / 100]], [g["mass"] * (g["share"] - g["wanted"]) / 100], [1], [0]
        )[0]
        return [g["mass"] + add] if variant == "thinned-to" else [add]
    if variant == "old-wax-between-ends":
        low, high = g["ends"]
        add = g["mass"] * ((low + high) / 2 - g["wanted"]) / g["wanted"]
        return [add, g["mass"] * low / (g["mass"] + add), g["mass"] * high / (g["mass"] + add)]
    if variant == "as-much-as-there-is":
        return both_held_again(g)
    if variant == "three-lots":
        return least(
            [[*g["lots"]], [1, 1]],
            [g["total"] * g["wanted"] - g["mass"] * g["third"], g["total"] - g["mass"]],
            [1, 1], [0, 0],
        )  # fmt: skip
    if variant in {"lot-to-a-lot", "all-of-a-lot"}:
        first = least(
            [[g["lots"][0] - g["wanted"]]], [g["second"] * (g["wanted"] - g["lots"][1])], [1], [0]
        )[0]
        return [first] if variant == "lot-to-a-lot" else [first, first + g["second"]]
    lots, wanted, total = g.get("lots"), g.get("wanted"), g.get("total", 100)
    if variant == "lots-told-as-ratios":
        lots = [100 * r / (w + r) for w, r in (g["first"], g["second"])]
    if variant == "ratios-to-a-total":
        told = g["ratios"]
        *lots, wanted = (100 * told[k + 1] / (told[k] + told[k + 1]) for k in (0, 2, 4))
    masses = least([lots, [1, 1]], [total * wanted, total], [1, 1], [0, 0])
    return masses[:1] if total == 100 and variant in OF_A_HUNDRED else masses


OF_A_HUNDRED = {"share-of-the-first", "lots-told-as-ratios"}


def both_held_again(g: Given) -> Answers:
    """Mix the most there is of two lots."""
    held, apart = g["held"], [one - g["wanted"] for one in g["lots"]]
    masses = least([apart], [0], [-1, -1], held)
    used = 0 if masses[0] >= held[0] * (1 - 1e-9) else 1
    return [("lot A", "lot B")[used], masses[1 - used], sum(masses)]


# Pots, by a linear programme over masses.


def adjusting_again(g: Given) -> Answers:
    """Find the answers of an exercise on a pot that is off."""
    variant = g["variant"]
    if variant in {"one-lot-at-hand", "lot-to-a-pot"}:
        mass = g.get("mass", 100)
        apart = [[(g["added"] - g["wanted"]) / 100]]
        add = least(apart, [mass * (g["wanted"] - g["held"]) / 100], [1], [0])
        if variant == "lot-to-a-pot":
            return [add[0], mass + add[0]]
        return ["can be reached" if add else "cannot be reached with these"]
    if variant == "ratio-to-ratio":
        pot = [g["total"] * part / sum(g["first"]) for part in g["first"]]
        adds = pure_again(pot, g["then"])
        return [WORDS[adds.index(max(adds))], max(adds)]
    pot, parts = g["pot"], g["parts"]
    if variant == "two-lots-at-hand":
        return two_lots_again(pot, parts, g["lots"])
    if variant == "pot-with-a-limit":
        # columns: what is kept of the pot, and rosin
        kept, rosin = least(
            [[pot[0] / sum(pot), 0], [1, 1]],
            [g["room"] * parts[0] / sum(parts), g["room"]], [1, 1], [0, 0],
        )  # fmt: skip
        return [sum(pot) - kept, rosin]
    if variant == "only-what-is-left":
        # wax and rosin in the ratio: as much of the pot as there is
        there = [mass / sum(pot) for mass in pot]
        apart = [[there[0] * parts[1] - there[1] * parts[0], -parts[0]]]
        kept, rosin = least(apart, [0], [-1, 0], [sum(pot), g["left"]])
        return [kept, kept + rosin]
    if variant == "both-to-a-total":
        return [
            g["total"] * part / sum(parts) - there for part, there in zip(parts, pot, strict=True)
        ]
    return short_again(g, pure_again(pot, parts))


def short_again(g: Given, adds: list[float]) -> Answers:
    """Say what a pot lacks, by the additions of pure materials."""
    variant = g["variant"]
    if variant == "pure-addition":
        return [max(adds)]
    if variant == "what-is-missing":
        return [WORDS[adds.index(max(adds))]]
    if variant == "is-it-enough":
        return [adds[1], "it is enough" if adds[1] <= g["left"] else "it is not enough"]
    assert variant == "three-in-a-pot", variant
    return [(*WORDS, "carnauba wax")[adds.index(min(adds))], sum(adds)]


WORDS = ("beeswax", "rosin")


def pure_again(pot: list[float], parts: list[float]) -> list[float]:
    """Give the least additions of pure materials; last column: the mass in the end."""
    count, whole = len(pot), sum(parts)
    rows = [[*(float(i == j) for j in range(count)), -part / whole] for i, part in enumerate(parts)]
    found = least(rows, [-mass for mass in pot], [1.0] * count + [0.0], [0] * (count + 1))
    return [0.0 if one < 1e-7 else one for one in found[:count]]


def two_lots_again(pot: list[float], parts: list[float], lots: list[float]) -> Answers:
    """Say what a pot holds, what it should, and whether two lots bring it there."""
    held, wanted = 100 * pot[1] / sum(pot), 100 * parts[1] / sum(parts)
    masses = least([[one - wanted for one in lots]], [sum(pot) * (wanted - held)], [1, 1], [0, 0])
    return [held, wanted, "can be reached" if masses else "cannot be reached with these"]


# Units, by pint's own registry.


def units_again(g: Given) -> Answers:
    """Find the answers of an exercise on units."""
    variant = g["variant"]
    if variant in IN_A_LINE:
        return [IN_A_LINE[variant](g)]
    of = "degC" if g.get("to") == "degF" else "degF"
    if variant == "after-a-change":
        moved = turned(g["change"], f"delta_{of}", f"delta_{g['to']}")
        return [g["start"] + (moved if g["goes"] == "warm" else -moved)]
    if variant == "heat-log":
        end = g["start"] + g["change"] * g["times"]
        return [turned(g["start"], of, g["to"]), turned(end, of, g["to"])]
    if variant == "recipe-by-volume":
        pairs = zip(g["volumes"], g["densities"], strict=True)
        wax, rosin = (turned(volume, "floz", "m**3") * rho * 1000 for volume, rho in pairs)
        return [wax, rosin, 100 / (1 + wax / rosin)]
    if variant == "sticks-in-inches":
        litres = turned(math.prod(g["sides"]), "in**3", "L")
        return [litres * g["density"], turned(g["ounces"], "oz", "g") // (litres * g["density"])]
    return batch_in_units_again(g)


IN_A_LINE: dict[str, Callable[[Given], float]] = {
    "one-unit": lambda g: turned(g["value"], g["of"], g["to"]),
    "heat": lambda g: turned(g["value"], g["of"], g["to"]),
    "difference": lambda g: turned(g["value"], f"delta_{g['of']}", f"delta_{g['to']}"),
    "mass-to-volume": lambda g: turned(g["mass"] / g["density"], "g*m**3/kg", "mL"),
    "parts-to-percent": lambda g: 100 / (g["whole"] / g["part"]),
    "pounds-and-ounces": lambda g: turned(g["pounds"] + g["ounces"] / 16, "lb", "g"),
    "kilograms-to-ounces": lambda g: turned(g["kilograms"], "kg", "oz"),
    "film-on-leather": lambda g: g["ounces"] * 25.4 / 64 + g["mils"] * 0.0254,
    "oil-by-volume": lambda g: turned(
        turned(g["volume"], g["of"], "L") * g["density"], "g", g["to"]
    ),
}


def batch_in_units_again(g: Given) -> Answers:
    """Find a batch that is told in pounds or kilograms, and its parts."""
    if g["variant"] == "recipe-in-pounds":
        total = turned(g["pounds"] + g["ounces"] / 16, "lb", "g")
    else:
        assert g["variant"] == "recipe-in-kilograms", g
        total = turned(g["kilograms"], "kg", "oz")
    wax, rosin = g["parts"]
    return [total, total * wax / (wax + rosin), total * rosin / (wax + rosin)]


AGAIN: dict[str, Callable[[Given], Answers]] = {
    "units": units_again,
    "ratios": ratios_again,
    "alligation": alligation_again,
    "adjusting": adjusting_again,
}
"""By topic, what finds the answers again."""
KINDS = {
    "units": (5, 4, 4),
    "ratios": (4, 4, 4),
    "alligation": (4, 4, 4),
    "adjusting": (3, 3, 5),
}
"""How many kinds of task a topic has in each grade: one that is never made would not be judged."""


def judged(made: Made, again: Answers, step: float) -> list[str]:
    """Give what does not agree: words, or numbers off by more than half of their last place."""
    assert len(again) == len(made.wanted), made
    wrong = []
    for one, other in zip(made.wanted, again, strict=True):
        if isinstance(one, Choice):
            if one.right != other:
                wrong.append(f"{one.what}: {one.right}, again {other}")
            continue
        assert isinstance(other, float | int), one
        steps = STEPS.get(str(made.given["variant"]), 0) if "variant" in made.given else 0
        low, high = ends_of_key(one)
        room = 0.5e-6 / 10**one.places + steps * step + 1e-9 * abs(one.value)
        if not low - room <= other <= high + room:
            wrong.append(f"{one.what}: {one.value}, again {other}")
    return wrong


@functools.cache
def some(topic: str, grade: int, ounces: bool) -> list[Made]:
    """Make the exercises of a case."""
    catalog = OUNCES if ounces else DEMO
    return [
        sheet.one(catalog, topic, grade, seed, number).made
        for seed in range(500, 500 + EACH // 10)
        for number in range(1, 11)
    ]


@pytest.mark.parametrize("ounces", [False, True], ids=["grams", "ounces"])
@pytest.mark.parametrize("grade", GRADES)
@pytest.mark.parametrize("topic", AGAIN)
def test_a_key_is_found_again(topic, grade, ounces):
    """What is worked out apart, from the numbers given, rounds to the key."""
    step = (OUNCES if ounces else DEMO).shop.scale_step
    variants = set()
    for made in some(topic, grade, ounces):
        variants.add(made.given.get("variant"))
        assert not judged(made, AGAIN[topic](made.given), step), made
    assert len(variants) >= KINDS.get(topic, (3, 3, 3))[grade - 1], variants


@pytest.mark.parametrize("ounces", [False, True], ids=["grams", "ounces"])
def test_the_missing_steps_go_where_most_was_lost(ounces):
    """In exact fractions: each mass is cut to a step, what is missing goes to the largest rests."""
    step = Fraction(1, 20 if ounces else 10)
    seen = 0
    for made in (*some("ratios", 2, ounces), *some("ratios", 3, ounces)):
        if made.given["variant"] not in STEPS:
            continue
        parts = [Fraction(int(part)) for part in made.given["parts"]]
        steps = round(Fraction(made.given["total"]) / step)
        exact = [steps * part / sum(parts) for part in parts]
        rests = [one - math.floor(one) for one in exact]
        missing = steps - sum(map(math.floor, exact))
        bar = sorted(rests, reverse=True)[:missing]
        if bar and sum(rest >= bar[-1] for rest in rests) > missing:
            continue  # two lost as much: either may have it
        counts = [math.floor(one) + (rest in bar) for one, rest in zip(exact, rests, strict=True)]
        assert keys(made) == pytest.approx([float(count * step) for count in counts]), made
        seen += missing > 0
    assert seen > 20


def test_every_topic_is_found_again():
    """Each topic of the table has a judge of its own, here or beside."""
    assert sorted((*AGAIN, *AT_THE_BENCH)) == sorted(DEMO.practice_topics)


# Published exercises, through the functions that make the keys. What is counted there stands in
# for rosin, the rest for beeswax; volumes are taken as masses, as the exercises add them up.
FINE = Scale(0.0001, "g")


def keys(made: Made) -> list[float | str]:
    """Give the keys of an exercise."""
    return [one.value if isinstance(one, Wanted) else one.right for one in made.wanted]


# Lots in percent, wanted, total; printed of each, half of its last digit.
TWO_LOTS = [
    # pharmacy lecture notes on alligation: 0.1 % and 0.5 % cream to 100 g of 0.2 %, parts 3 to 1
    ([0.1, 0.5], 0.2, 100, [75, 25], 0.5),
    # wyzant.com/resources/answers/929842: 20 mL of 70 % acid
    ([50, 100], 70, 20, [12, 8], 0.5),
    # wyzant.com/resources/answers/21505: 90 ounces of an alloy with 18.3 % copper
    ([15, 24], 18.3, 90, [57, 33], 0.5),
    # Montana State University Extension, Pearson squares, example one: 11 % protein, percent
    ([10.8, 12.25], 11, 100, [86.2, 13.8], 0.05),
    # the same, example two: 9.8 % protein
    ([8.95, 40], 9.8, 100, [97.3, 2.7], 0.05),
]


@pytest.mark.parametrize(("lots", "wanted", "total", "printed", "half"), TWO_LOTS)
def test_published_two_lots(lots, wanted, total, printed, half):
    """Two lots to a total come out as the exercise prints them."""
    made = alligation.two_lots_to_a_total(FINE, lots, wanted, total)
    assert keys(made) == pytest.approx(printed, abs=half)
    assert not judged(made, alligation_again(made.given), FINE.step)


# Mass, its strength, the strength wanted of it thinned; what is added, half of its last digit.
THINNED = [
    # rxcal.org, practice 92-rxcal-141, three of its sets of figures: base to an ointment
    (120, 95, 22, 398.18, 0.005),
    (960, 95, 81, 165.93, 0.005),
    (400, 75, 12, 2100, 0.5),
]


@pytest.mark.parametrize(("mass", "share", "wanted", "printed", "half"), THINNED)
def test_published_thinning(mass, share, wanted, printed, half):
    """Base added to an ointment comes out as the exercise prints it."""
    made = alligation.plain_wax_to_old_wax(FINE, mass, share, wanted)
    assert keys(made) == [pytest.approx(printed, abs=half)]


def test_published_three_lots():
    """A pharmacy module of the University of Houston: 50, 20 and 5 % in 1 : 1 : 10 make 10 %.

    The first two, one to one, are a lot of 35 %.
    """
    first = keys(alligation.share_of_a_mixture(FINE, [20, 50], [1, 1]))[0]
    assert first == 35
    made = alligation.share_of_a_mixture(FINE, [5, first], [10, 2])
    assert keys(made) == [10]


def test_a_wrong_published_mixture_is_not_found():
    """Another page answers 3 : 1 : 14 to the same; that is 13.3 % and not 10."""
    first = (3 * 50 + 20) / 4
    made = alligation.share_of_a_mixture(FINE, [5, first], [14, 4])
    assert keys(made) == [pytest.approx(13.3, abs=0.05)]  # half of the last digit named


# Mass, its strength, the strength of what is added, wanted; what is added as printed.
ADDED = [
    # algebra.com, question 1036653: pure antifreeze to 12 gallons of 10 %
    (12, 10, 100, 40, 6),
    # sciemce.com, 3fhdAP9x2KWK: 2.5 % ointment to 240 g of 0.25 % for 1 %
    (240, 0.25, 2.5, 1, 120),
]


@pytest.mark.parametrize(("mass", "held", "added", "wanted", "printed"), ADDED)
def test_published_additions(mass, held, added, wanted, printed):
    """What is added to a pot comes out as the exercise prints it."""
    made = adjusting.lot_to_a_pot(FINE, mass, held, added, wanted)
    # half a step of the fine scale, which is what a key is rounded to
    assert keys(made) == pytest.approx([printed, mass + printed], abs=0.00005)


def test_published_exchange():
    """algebra.com, question 121689: 70 litres of 20 %, 17.5 drawn off for pure, make 40 %.

    The pot may hold a hair more than it holds, so that there is something to fill up.
    """
    made = pot_with_a_limit(FINE, [56, 14], [3, 2], 70.002)
    # The 0.002 that the pot holds more, and what the key is rounded to.
    assert keys(made) == pytest.approx([17.5, 17.5], abs=0.003)


def test_published_refusal():
    """4 % added to 17 % never makes 20 %, whatever a page says (dailymathguide.com, 2020/04)."""
    assert keys(adjusting.one_lot_at_hand(17, 4, 20)) == ["cannot be reached with these"]


def test_published_density():
    """An army course in pharmacology, md0802: 250 g of a liquid of 1.65 are 151.5 mL."""
    # The task asks for whole millilitres: half of one.
    assert keys(unit_pairs.mass_to_volume(250, 1650)) == [pytest.approx(151.5, abs=0.5)]


def test_printed_margin():
    """29 CFR 1910.106 prints its margin as 30 degrees Fahrenheit and as 16.7 Celsius."""
    assert keys(unit_pairs.difference(30, True, False)) == [16.7]


def test_printed_limit_of_heat():
    """Texts on wax print 120 degrees Celsius also as 250 Fahrenheit; unrounded it is 248."""
    assert keys(unit_pairs.heat(120, True)) == [248]


def test_a_pound_is_as_agreed():
    """The pound of 1959 is 453.59237 g; with no odd ounces it comes out so."""
    assert keys(practice_units.pounds_and_ounces(1, 0)) == [454]
