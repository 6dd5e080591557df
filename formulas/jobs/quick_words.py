"""The quick needs list in words: its rows on terminal, page and paper are the same."""

from __future__ import annotations

import math

from formulas.adjusting.working_steps import joined
from formulas.formula import procedure
from formulas.units import printed
from formulas.valves.valve_words import percent_said

OUNCE_KG = 0.028349523125
FLUID_OUNCE_M3 = 2.95735295625e-5
HANGS = (
    "width of the fillet",
    "how hollow the fillet is",
    "thickness of the bed",
    "density of the wax",
    "straining",
    "pot",
    "touch-up",
    "gap between plates",
    "opening of the cells",
    "sizes of the plates",
)
"""What the half width of the wax may hang on, as `half_shares` gives it; who asks hands it in."""
TOLD = 3
"""How many of them are told."""
KEEPING = "looked at, cleaned and tested, none cut"
SPEAKING = "each tongue speaks one way only"
CUTTING = "tongues, less those that get none"
FROM_TABLES = "Sizes from the generic lines: nobody measured this instrument."


@procedure("A count with its ends, in words")
def count_said(least: float, most: float) -> str:
    """Write a count, or its ends where they differ."""
    if least == most:
        return printed(least, 0)
    return printed(least, 0) + " to " + printed(most, 0)


@procedure("Decimals of a number that is told coarsely")
def coarse_decimals(value: float) -> int:
    """Give none from ten up, one from one up, else two."""
    if value >= 9.95:
        return 0
    return 1 if value >= 0.995 else 2


@procedure("Ends in one unit, in words")
def ends_said(low: float, high: float, unit: str) -> str:
    """Write both ends with as many decimals as the upper one asks for, and the unit.

    A lower end that would print as nought, and is not, brings its own decimals.
    """
    decimals = coarse_decimals(high)
    if 0 < low < 0.5:
        decimals = max(decimals, coarse_decimals(low))
    return printed(low, decimals) + " to " + printed(high, decimals) + " " + unit


@procedure("Ends of a mass in words")
def masses_said(low: float, high: float, us: bool) -> str:
    """Write kilograms as grams or ounces."""
    if us:
        return ends_said(low / OUNCE_KG, high / OUNCE_KG, "oz")
    return ends_said(1000 * low, 1000 * high, "g")


@procedure("Ends of a volume in words")
def volumes_said(low: float, high: float, us: bool) -> str:
    """Write cubic metres as millilitres or fluid ounces."""
    if us:
        return ends_said(low / FLUID_OUNCE_M3, high / FLUID_OUNCE_M3, "fl oz")
    return ends_said(1e6 * low, 1e6 * high, "mL")


@procedure("Ranks by their counts, in words")
def ranks_said(rank_counts: list[int]) -> str:
    """Write how many ranks have how many plates, as a sum: 4 x 41 + 5 x 12."""
    terms = []
    place = 0
    while place < len(rank_counts):
        ranks = 1
        while place + ranks < len(rank_counts) and rank_counts[place + ranks] == rank_counts[place]:
            ranks += 1
        each = printed(rank_counts[place], 0)
        terms.append(each if ranks == 1 else printed(ranks, 0) + " × " + each)
        place += ranks
    return joined(terms, " + ")


@procedure("Rows of plates, tongues and valves")
def count_rows(
    rank_counts: list[int],
    tongues: int,
    class_counts: list[list[float]],
    class_names: list[str],
    class_words: list[str],
    valve_counts: list[float],
    kept: bool,
    valved: bool,
) -> list[list[str]]:
    """Give what, how many and from what; a row a class of valve that any tongue may be of."""
    plates = sum(rank_counts)
    rows = [
        ["Plates", printed(plates, 0), ranks_said(rank_counts)],
        ["Tongues", printed(tongues * plates, 0), printed(tongues, 0) + " on each plate"],
    ]
    if not valved:
        rows.append(["Valves", "none", SPEAKING])
        return rows
    number = count_said(valve_counts[0], valve_counts[2])
    if kept:
        rows.append(["Valves kept", number, KEEPING])
    else:
        rows.append(["Valves to cut", number, CUTTING])
    for counts, name, words in zip(class_counts, class_names, class_words, strict=True):
        if counts[2] > 0:
            about = "" if counts[0] == counts[2] else "about " + printed(counts[1], 0) + ": "
            rows.append(["Class " + name, count_said(counts[0], counts[2]), about + words])
    return rows


@procedure("What the range of the wax hangs on, in words")
def hangs_said(shares: list[float], hang_names: list[str], told_count: int) -> str:
    """Name the few that widen it most, with their part of the squared half width."""
    order = sorted(range(len(shares)), key=lambda i: -shares[i])
    parts = []
    for place in range(told_count):
        if shares[order[place]] > 0:
            parts.append(hang_names[order[place]] + " " + percent_said(shares[order[place]]))
    return joined(parts, ", ")


@procedure("Rows of the wax")
def wax_rows_said(
    melt_ends: list[float],
    rule_ends: list[float],
    rule_each: list[float],
    own_ends: list[float],
    ready_ends: list[float],
    us: bool,
) -> list[list[str]]:
    """Give the wax to melt by geometry, by the rule of thumb, by the shop's own jobs, and to have.

    `rule_each` is the rule's wax on one plate; `own_ends` is empty where no job tells it.
    """
    rows = [
        [
            "Wax to melt, by the plates",
            masses_said(melt_ends[0], melt_ends[1], us),
            "fillets, gaps and beds, with losses",
        ],
        [
            "Wax to melt, rule of thumb",
            masses_said(rule_ends[0], rule_ends[1], us),
            masses_said(rule_each[0], rule_each[1], us) + " a plate, with losses",
        ],
    ]
    if len(own_ends) > 0:
        rows.append(
            [
                "Wax to melt, your own jobs",
                masses_said(own_ends[0], own_ends[1], us),
                "grams a plate of your books",
            ]
        )
    rows.append(
        [
            "Wax to have ready",
            masses_said(ready_ends[0], ready_ends[1], us),
            "from the plates to " + ("your jobs" if len(own_ends) > 0 else "the rule"),
        ]
    )
    return rows


@procedure("Rows of solvent and glue")
def used_rows(solvent_ends: list[float], glue_ends: list[float], us: bool) -> list[list[str]]:
    """Give solvent in cubic metres and glue in kilograms; no row of it where none is taken."""
    rows = [
        ["Solvent", volumes_said(solvent_ends[0], solvent_ends[1], us), "to degrease the plates"]
    ]
    if glue_ends[1] > 0:
        words = masses_said(glue_ends[0], glue_ends[1], us)
        rows.append(["Glue for valves", words, "land by film, with what dries in the lid"])
    return rows


@procedure("Row of the pots")
def pots_row(pot_ends: list[float], hours: float, us: bool) -> list[str]:
    """Give how many pots, and what each holds."""
    each = masses_said(pot_ends[2], pot_ends[3], us)
    whole = abs(hours - math.floor(hours + 0.5)) < 1e-9
    session = printed(hours, 0 if whole else 2) + " h"
    return [
        "Pots",
        count_said(pot_ends[0], pot_ends[1]),
        each + " each, by the high end to have ready; one a session of " + session,
    ]


@procedure("Rows of the hours")
def hour_rows(group_hours: list[list[float]], group_names: list[str]) -> list[list[str]]:
    """Give a row a group of steps that takes any time, and the sum."""
    rows = []
    for hours, words in zip(group_hours, group_names, strict=True):
        if hours[1] > 0:
            rows.append([words, ends_said(hours[0], hours[1], "h")])
    return rows
