"""In words: why a stock serves a slot or does not, the same on terminal, page and paper."""

from __future__ import annotations

from collections.abc import Sequence

from formulas.formula import procedure
from formulas.units import printed

INCH = 0.0254
REJECTED_SAID = "rejected: "
ABOUT = (
    "gap at rest as played",
    "gap on the bench",
    "pressure to shut it",
    "choke at the softest",
    "choke when quiet",
    "choke when loud",
    "delay until shut",
    "slap",
    "bulge into the slot",
    "curl off the plate",
    "preload by curl",
    "lift when loud against the room over it",
    "strain at the root",
    "return by its own spring",
)
"""The few words for each limit, in the order of `judging.JUDGED`; who asks hands them in."""


@procedure("A length in words")
def length_said(metres: float, us: bool) -> str:
    """Write a length in millimetres to two decimals, or in inches to three."""
    if us:
        return printed(metres / INCH, 3) + " in"
    return printed(1000 * metres, 2) + " mm"


@procedure("A longer length in words")
def long_said(metres: float, us: bool) -> str:
    """Write a length in millimetres to one decimal, or in inches to two."""
    if us:
        return printed(metres / INCH, 2) + " in"
    return printed(1000 * metres, 1) + " mm"


@procedure("How far a strip has to hang, in words")
def hang_said(least: float, most: float, us: bool) -> str:
    """Write the window as overhangs on the ramp, twice the bending lengths."""
    if least > most:
        return "no stiffness serves at this mass: a lighter one, or a helper"
    if us:
        return printed(2 * least / INCH, 2) + " to " + long_said(2 * most, us)
    return printed(2000 * least, 1) + " to " + long_said(2 * most, us)


@procedure("What only a table knows, in words")
def table_said(mass: float, least: float, most: float, us: bool) -> str:
    """Say of a stock that was not measured how far a strip of it has to hang over the ramp."""
    return (
        "only a table tells its stiffness; at "
        + printed(1000 * mass, 0)
        + " g/m² a strip should hang over the ramp "
        + hang_said(least, most, us)
    )


@procedure("A share in percent, in words")
def percent_said(share: float) -> str:
    """Write a share as a percentage, with a decimal below ten."""
    return printed(100 * share, 1 if 100 * share < 9.95 else 0) + " %"


@procedure("A pressure in words")
def pressure_said(pascals: float) -> str:
    """Write a pressure in pascals, with a decimal below ten."""
    return printed(pascals, 1 if pascals < 9.95 else 0) + " Pa"


@procedure("A ratio in words")
def times_said(ratio: float) -> str:
    """Write a ratio with two decimals below ten, and none above."""
    return printed(ratio, 2 if ratio < 9.995 else 0)


@procedure("One thing found, in words")
def value_said(found_place: int, value: float, us: bool) -> str:
    """Write what stands at a place of `one_valve.FOUND` with its unit."""
    if found_place == 2 or found_place == 10:
        return pressure_said(value)
    if found_place == 3 or found_place == 4 or found_place == 5 or found_place == 12:
        return percent_said(value)
    if found_place == 6 or found_place == 13:
        return "never" if value > 1000 else printed(1000 * value, 1) + " ms"
    if found_place == 7:
        return printed(1000 * value, 3) + " mJ"
    if found_place > 13:
        return printed(value, 0) + " Hz"
    return length_said(value, us)


@procedure("One limit, in words")
def limit_said(about: str, found_place: int, value: float, bound: float, us: bool) -> str:
    """Write what is found beside its limit."""
    return (
        about
        + " "
        + value_said(found_place, value, us)
        + ", limit "
        + value_said(found_place, bound, us)
    )


@procedure("Whether a place is among others")
def among(found_place: int, found_places: Sequence[int]) -> bool:
    """Tell whether a place stands in a list of places."""
    return sum(1 for one in found_places if one == found_place) > 0


@procedure("Why a stock serves or not, in words")
def reasons_of(
    found: Sequence[float],
    lows: Sequence[float],
    highs: Sequence[float],
    ratios: Sequence[float],
    here: Sequence[float],
    passed: Sequence[int],
    unsure: Sequence[int],
    abouts: Sequence[str],
    us: bool,
) -> list[str]:
    """Give the reasons, the weightiest first.

    `passed` are the limits that are passed, `unsure` those that are passed at an end of what
    is known only.
    """
    reasons = []
    for place in passed:
        reasons.append(
            REJECTED_SAID + limit_said(abouts[place], place, found[place], here[place], us)
        )
    if len(passed) == 0:
        nearest = 0
        for place in (3, 4, 5):
            if ratios[place] > ratios[nearest]:
                nearest = place
        reasons.append(
            "nearest limit: "
            + limit_said(abouts[nearest], nearest, found[nearest], here[nearest], us)
        )
        other = 3 if nearest == 0 else 0
        reasons.append(
            "other side: " + limit_said(abouts[other], other, found[other], here[other], us)
        )
    for place in unsure:
        if not among(place, passed):
            reasons.append(
                "not sure: "
                + abouts[place]
                + " may be "
                + value_said(place, lows[place], us)
                + " to "
                + value_said(place, highs[place], us)
                + ", limit "
                + value_said(place, here[place], us)
            )
    return reasons


@procedure("What is told beside, in words")
def told_of(
    found: Sequence[float],
    ratios: Sequence[float],
    here: Sequence[float],
    length: float,
    note: float,
    told: Sequence[float],
    abouts: Sequence[str],
    us: bool,
) -> list[str]:
    """Give what is told and never rejects: bench gap, slap, room, return, large lift, frequencies.

    `told` are the share of its length beyond which a lift is large, the choke below which that
    is not told, and the low and high end of the ratio of frequencies.
    """
    notes = []
    for place in (1, 7, 11, 13):
        if ratios[place] > 1:
            notes.append(limit_said(abouts[place], place, found[place], here[place], us))
    if found[11] > told[0] * length and found[5] >= told[1]:
        notes.append(
            "lift when loud "
            + long_said(found[11], us)
            + ", more than straight-line bending can tell"
        )
    for place in (14, 15):
        ratio = found[place] / note
        if told[2] <= ratio and ratio <= told[3]:
            notes.append(
                ("first" if place == 14 else "second")
                + " frequency of the valve "
                + value_said(place, found[place], us)
                + " lies near the note: unproven, no reason to reject"
            )
    return notes


@procedure("Why no valve, in words")
def without_said(spoke: Sequence[int], had_none: bool) -> list[str]:
    """Give which of the three conditions of `no_valve.goes_without` spoke."""
    reasons = []
    if had_none:
        reasons.append("it had no valve when it was found: keep what the instrument had")
    if spoke[0] > 0:
        reasons.append("the tongue is short or the note is high")
    if spoke[1] > 0:
        reasons.append("the slot wastes little air without a valve")
    if spoke[2] > 0 and not had_none:
        reasons.append("the lightest stock there is takes too much of the pressure")
    return reasons
