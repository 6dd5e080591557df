"""One band across the backbone: long strips of one width side by side, each filled with lengths.

All sizes are whole hundredths of a millimetre and hold the gap to the next strip; a strip is
never turned. `slack` is how much narrower than its long strip a strip may be.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.formula import procedure

PAIRS_BELOW = 2.2
"""From how many times the longest strip down the rest of a long strip is closed by pairs."""


@procedure("Strips for one long strip of a width")
def filled_column(
    wide: float,
    high: float,
    slack: float,
    strip_widths: Sequence[float],
    strip_lengths: Sequence[float],
    strips_left: Sequence[float],
) -> list[int]:
    """Give the places of the strips that share a long strip: the longest first, then the best pair.

    `strip_widths`, `strip_lengths` and `strips_left` are the sizes and how many of each are
    still to be cut.
    """
    fit = [
        i
        for i in range(len(strip_widths))
        if strips_left[i] > 0 and strip_widths[i] <= wide and strip_widths[i] >= wide - slack
    ]
    taken = [0.0] * len(strip_widths)
    chosen: list[int] = []
    rest = high
    while True:
        fit = [i for i in fit if strip_lengths[i] <= rest and strips_left[i] > taken[i]]
        if len(fit) == 0:
            break
        longest = fit[0]
        tallest = 0.0
        for i in fit:
            length = strip_lengths[i]
            if length > tallest:
                tallest = length
            better = length > strip_lengths[longest] or strip_widths[longest] != wide
            if better and strip_widths[i] == wide:
                longest = i
        together = [longest]
        if rest <= PAIRS_BELOW * tallest:
            together = closing_pair(fit, rest, taken, strip_widths, strip_lengths, strips_left)
        for i in together:
            chosen.append(i)
            taken[i] += 1
            rest -= strip_lengths[i]
    return chosen


@procedure("One or two strips that best fill a rest")
def closing_pair(
    fit: Sequence[int],
    rest: float,
    strips_taken: Sequence[float],
    strip_widths: Sequence[float],
    strip_lengths: Sequence[float],
    strips_left: Sequence[float],
) -> list[int]:
    """Give the places of the one or two strips that cover most of what is left of a long strip."""
    best = [fit[0]]
    most = 0.0
    areas = [strip_widths[i] * strip_lengths[i] for i in fit]
    largest = max(area for area in areas)
    for a in range(len(fit)):
        i = fit[a]
        if areas[a] > most:
            most = areas[a]
            best = [i]
        if areas[a] + largest <= most:
            continue
        for b in range(a, len(fit)):
            j = fit[b]
            more = areas[a] + areas[b] > most and strip_lengths[i] + strip_lengths[j] <= rest
            if more and (i != j or strips_left[i] - strips_taken[i] >= 2):
                most = areas[a] + areas[b]
                best = [i, j]
    return best


@procedure("Width of the next long strip")
def next_width(room: float, open_widths: Sequence[float]) -> float:
    """Give the widest there is, or near the end of a band the one that leaves least.

    `open_widths` are the widths still to be cut that have room, each once, the widest first.
    """
    widest = open_widths[0]
    if room >= 2 * widest + open_widths[-1]:
        return widest
    best = 0.0
    first = widest
    for one in open_widths:
        if one > best:
            best = one
            first = one
        for other in open_widths:
            if other <= one and one + other <= room and one + other > best:
                best = one + other
                first = one
    return first


@procedure("Strips of one band")
def filled_band(
    room: float,
    high: float,
    slack: float,
    strip_widths: Sequence[float],
    strip_lengths: Sequence[float],
    strips_left: Sequence[float],
) -> list[list[float]]:
    """Give place, x and y of each strip in a band of this width and height, from its corner.

    `strip_widths` must stand with the widest first.
    """
    left = [one for one in strips_left]  # noqa: C416 - a copy that the page's script has as well
    laid: list[list[float]] = []
    x = 0.0
    while True:
        open_widths: list[float] = []
        for i in range(len(strip_widths)):
            has_room = left[i] > 0 and strip_widths[i] <= room - x and strip_lengths[i] <= high
            if has_room and (len(open_widths) == 0 or open_widths[-1] != strip_widths[i]):
                open_widths.append(strip_widths[i])
        if len(open_widths) == 0:
            break
        wide = next_width(room - x, open_widths)
        y = 0.0
        for i in filled_column(wide, high, slack, strip_widths, strip_lengths, left):
            laid.append([i, x, y])
            left[i] -= 1
            y += strip_lengths[i]
        x += wide
    return laid


@procedure("Heights of a band to try")
def band_heights(
    room: float,
    even: float,
    strip_lengths: Sequence[float],
    strips_left: Sequence[float],
) -> list[float]:
    """Give the heights to try for the next band, at most as high as the room.

    Those are the room, lengths by themselves and in pairs, and a little more than `even`, which
    is how high the last band would be if all that is left filled it.
    """
    there = [
        strip_lengths[i]
        for i in range(len(strip_lengths))
        if strips_left[i] > 0 and strip_lengths[i] <= room
    ]
    if len(there) == 0:
        return []
    falling = sorted(there, key=lambda one: -one)
    longest = falling[0]
    shortest = falling[-1]
    middle = falling[math.floor(len(falling) / 2)]
    asked = [room, longest, longest + shortest, longest + middle, 2 * middle]
    asked.append(2 * longest)
    asked.append(3 * longest)
    for more in [1, 1.02, 1.04, 1.07, 1.1, 1.15, 1.2, 1.3]:
        if even * more < room and even * more > shortest:
            asked.append(max(longest, even * more))
    heights = []
    for one in asked:
        high = room if room - one < shortest else one
        if high >= longest and high <= room:
            heights.append(high)
    return heights


@procedure("Height that the strips of a band take")
def height_taken(band_strips: Sequence[Sequence[float]], strip_lengths: Sequence[float]) -> float:
    """Give the upper end of the highest strip."""
    return max(y + strip_lengths[int(i)] for i, _, y in band_strips)
