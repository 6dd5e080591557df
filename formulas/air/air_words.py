"""What is reckoned of a room's air, in words: the same on the terminal, the page and paper.

Levels, ratios, times and air changes are rounded up to two figures, never down. No word here
calls a room fit to work in: the best that is said is that a limit is not passed by this reckoning.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.formula import procedure
from formulas.units import printed

AIR_ROWS = (
    "Highest level",
    "Worst 15 minutes, mean",
    "Worst 8 hours, mean",
    "Of the lower explosive limit",
    "Right over the liquid",
    "Time to clear",
    "Air changes, explosive limit",
    "Air changes, every limit",
)
"""The rows of an answer, in the order of its texts."""
NOT_KNOWN = "not known"


@procedure("A number rounded up to two figures")
def upward(value: float) -> str:
    """Round away from nought to two figures: a level or a time is never printed too small.

    >>> upward(0.0613), upward(9.71), upward(1234), upward(620.0), upward(0)
    ('0.062', '9.8', '1300', '620', '0')
    """
    if value <= 0:
        return "0"
    large = 1.0
    small = 1.0
    decimals = 0
    while value / large >= 100:
        large = large * 10
    while value * small < 10 and decimals < 9:
        small = small * 10
        decimals = decimals + 1
    scaled = value * small / large
    whole = math.floor(scaled)
    if scaled - whole > 1e-9 * scaled:
        whole = whole + 1
    return printed(whole * large / small, decimals)


@procedure("A range rounded up to two figures")
def range_up(pair: Sequence[float], each: float) -> str:
    """Give both ends in a unit; one of them where they print alike."""
    low = upward(pair[0] / each)
    high = upward(pair[1] / each)
    return high if low == high else low + " to " + high


@procedure("A level of vapour in words")
def level_said(share_pair: Sequence[float], mass_pair: Sequence[float]) -> str:
    """Give parts in a million, and milligrams in a cubic metre."""
    return range_up(share_pair, 1e-6) + " ppm (" + range_up(mass_pair, 1e-6) + " mg/m³)"


@procedure("What is mixed and what is near the source, in words")
def both_said(mixed_words: str, near_words: str) -> str:
    """Give both places, the room first."""
    return "through the room " + mixed_words + "; near the source " + near_words


@procedure("Share of the lower explosive limit in words")
def explosive_said(mixed: Sequence[float], near: Sequence[float], kept: float) -> str:
    """Say both shares and what they mean; [0, 0] is not known, `kept` is what is kept under."""
    if near[1] <= 0:
        return NOT_KNOWN + ": look for it in the safety data sheet"
    text = both_said(range_up(mixed, 0.01) + " %", range_up(near, 0.01) + " %") + ". "
    if mixed[1] >= 1:
        return text + "The whole room may light"
    if near[1] >= 1:
        return text + "Near the source it may light"
    if near[1] >= kept:
        return text + "Near the source more than the " + printed(100 * kept, 0) + " % to stay under"
    return text + "Over the liquid itself it is another thing: see the next row"


@procedure("Whether the air over an open jar can light")
def jar_verdict(ratio: Sequence[float], flash: Sequence[float], celsius: float) -> int:
    """Give 0 too lean, 1 not known, 2 may, 3 can: the worse of the vapour and of the flash point.

    `ratio` is the saturated vapour by the explosive limit, `flash` the flash point in degC; a
    pair whose low end stands above its high one is not known.
    """
    by_vapour = 1 if ratio[0] > ratio[1] else 3 if ratio[0] >= 1 else 2 if ratio[1] >= 1 else 0
    by_flash = (
        1 if flash[0] > flash[1] else 3 if celsius >= flash[1] else 2 if celsius >= flash[0] else 0
    )
    if by_vapour == 1:
        return by_flash
    return by_vapour if by_flash == 1 else max(by_vapour, by_flash)


@procedure("Saturated vapour in words")
def saturated_said(share_pair: Sequence[float], ratio: Sequence[float], jar_code: int) -> str:
    """Say what air holds right over the liquid, how often that is the explosive limit, and more.

    A pair whose low end stands above its high one is not known.
    """
    if share_pair[0] > share_pair[1]:
        text = "its vapour is " + NOT_KNOWN + " at this heat"
    else:
        text = range_up(share_pair, 0.01) + " % of the air"
        if ratio[0] <= ratio[1]:
            text = text + ", " + range_up(ratio, 1) + " times the lower explosive limit"
    if jar_code == 3:
        return text + ". It can light: over the jar, on the rag, and low down where it collects"
    if jar_code == 2:
        return text + ". It may light: over the jar, on the rag, and low down where it collects"
    if jar_code == 1:
        return text + ". Take it that it lights"
    return text + ". Too lean to light while cold and still; warm, sprayed or on a rag it is not"


@procedure("A stretch of time rounded up")
def time_up(pair: Sequence[float]) -> str:
    """Give minutes below two hours, else hours."""
    if pair[1] < 7200:
        return range_up(pair, 60) + " min"
    return range_up(pair, 3600) + " h"


@procedure("Time to clear a room in words")
def clear_said(mixed: Sequence[float], worst: Sequence[float], left: float) -> str:
    """Say how long it takes to a share of the level, well stirred and hardly stirred."""
    return (
        time_up(mixed)
        + " to "
        + printed(100 * left, 0)
        + " % of it where the air is well stirred, up to "
        + time_up([worst[1], worst[1]])
        + " where it hardly is; counted from when nothing more evaporates"
    )


@procedure("Air changes asked for in words")
def changes_said(pair: Sequence[float]) -> str:
    """Give air changes by the hour; [-1, -1] is what none can reach, [0, 0] that it takes none."""
    if pair[1] < 0:
        return "none is enough: the air stands at it from the start"
    if pair[1] == 0:
        return "0 by this reckoning"
    return range_up(pair, 1 / 3600) + " an hour"


@procedure("Air changes asked for, in the room and near the source, in words")
def needed_said(mixed: Sequence[float], near: Sequence[float], open_window: float) -> str:
    """Say both, and where it is more than an open window can be counted on to give."""
    text = both_said(changes_said(mixed), changes_said(near))
    if near[1] < 0 or near[1] > open_window:
        return text + ". No open window can be counted on for that: an extracted place or outdoors"
    return text


@procedure("Whether a limit is passed, in words")
def passed_said(mixed: Sequence[float], near: Sequence[float]) -> str:
    """Give the verdict on one limit from the ratios in the room and near the source."""
    if mixed[0] >= 1:
        return "passed through the room"
    if mixed[1] >= 1:
        return "may be passed through the room"
    if near[0] >= 1:
        return "passed near the source"
    if near[1] >= 1:
        return "may be passed near the source"
    return "not passed by this reckoning"


@procedure("How often a limit is taken up, in words")
def often_said(ratio: Sequence[float]) -> str:
    """Give the ratio as so many times the limit."""
    return range_up(ratio, 1) + " times"


@procedure("The answer for a room in one line")
def air_summary(
    name: str, mixed: Sequence[float], near: Sequence[float], limits_reached: int, count: int
) -> str:
    """Say the highest levels and how many of the limits are, or may be, passed."""
    text = (
        name
        + ": up to "
        + upward(mixed[1] * 1e6)
        + " ppm through the room, up to "
        + upward(near[1] * 1e6)
        + " ppm near the source. "
    )
    if count == 0:
        return text + "No limit of any body stands in the tables: that is no leave"
    if limits_reached == 0:
        return text + "None of " + str(count) + " limits is passed by this reckoning: no proof"
    return text + str(limits_reached) + " of " + str(count) + " limits are passed, or may be"


@procedure("The answer for a room, row by row")
def air_said(
    room_found: Sequence[Sequence[Sequence[float]]],
    jar_code: int,
    air_rule: Sequence[float],
    open_window: float,
    count: int,
) -> list[str]:
    """Give the texts of the rows from what `limits.air_found` gives; `count` limits stand there."""
    texts = []
    for i in range(3):
        mixed = level_said(room_found[0][i], room_found[1][i])
        texts.append(both_said(mixed, level_said(room_found[0][i + 3], room_found[1][i + 3])))
    texts.append(explosive_said(room_found[2][0], room_found[2][1], air_rule[2]))
    texts.append(saturated_said(room_found[6][0], room_found[6][1], jar_code))
    texts.append(clear_said(room_found[5][0], room_found[5][1], air_rule[3]))
    if room_found[2][1][1] > 0:
        texts.append(needed_said(room_found[3][0], room_found[3][1], open_window))
    else:
        texts.append(NOT_KNOWN)
    if count > 0:
        texts.append(needed_said(room_found[4][0], room_found[4][1], open_window))
    else:
        texts.append("no limit stands in the tables: that is no leave")
    return texts


@procedure("One limit in a room, cell by cell")
def limit_cells(limit_pairs: Sequence[Sequence[float]]) -> list[str]:
    """Give the verdict, the ratio in the room and near the source, the air changes near it."""
    return [
        passed_said(limit_pairs[0], limit_pairs[1]),
        often_said(limit_pairs[0]),
        often_said(limit_pairs[1]),
        changes_said(limit_pairs[3]),
    ]


@procedure("How many limits may be passed")
def limits_passed(room_found: Sequence[Sequence[Sequence[float]]]) -> int:
    """Count those that the high end near the source reaches, from the eighth place on."""
    count = 0
    for i in range(7, len(room_found)):
        if room_found[i][1][1] >= 1:
            count = count + 1
    return count
