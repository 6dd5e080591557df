"""Strips laid on a piece by straight cuts alone: bands across, long strips, snips to length.

A wide piece is cut along the backbone into lanes. Of a lane a band is cut off across the
backbone, the band is cut along it into long strips, and each long strip is snipped to lengths.
All sizes are whole hundredths of a millimetre and hold the gap to the next strip; a strip is
never turned. `slack` is how much narrower than its long strip a strip may be: it is then trimmed
along one side.

Nothing here is the best there is: several ways are tried, and the one that uses most is kept.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.formula import procedure

PAIRS_BELOW = 2.2
"""From how many times the longest strip down the rest of a long strip is closed by pairs."""
MOST_LANES = 6
"""Into how many lanes along the backbone a piece is cut at most."""
LANE_WIDTHS = 2.5
"""How many of the widest strips a lane has room for at least."""


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
    usable = [
        i
        for i in range(len(strip_widths))
        if strips_left[i] > 0 and strip_widths[i] <= wide and strip_widths[i] >= wide - slack
    ]
    taken = [0.0] * len(strip_widths)
    chosen: list[int] = []
    rest = high
    while True:
        fit = [i for i in usable if strips_left[i] > taken[i] and strip_lengths[i] <= rest]
        if len(fit) == 0:
            break
        longest = fit[0]
        for i in fit:
            better = strip_lengths[i] > strip_lengths[longest]
            if strip_widths[i] == wide and (better or strip_widths[longest] != wide):
                longest = i
        together = [longest]
        if rest <= PAIRS_BELOW * max(strip_lengths[i] for i in fit):
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
    for a in range(len(fit)):
        i = fit[a]
        own = strip_widths[i] * strip_lengths[i]
        if own > most:
            most = own
            best = [i]
        for b in range(a, len(fit)):
            j = fit[b]
            there = i != j or strips_left[i] - strips_taken[i] >= 2
            both = own + strip_widths[j] * strip_lengths[j]
            if there and both > most and strip_lengths[i] + strip_lengths[j] <= rest:
                most = both
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
            has_room = strip_widths[i] <= room - x and strip_lengths[i] <= high
            known = len(open_widths) > 0 and open_widths[-1] == strip_widths[i]
            if left[i] > 0 and has_room and not known:
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


@procedure("Area of strips that were laid")
def area_laid(
    laid_kinds: Sequence[float],
    strip_widths: Sequence[float],
    strip_lengths: Sequence[float],
) -> float:
    """Give the area of strips by their places in the lists of sizes, the gaps with it."""
    area = 0.0
    for i in laid_kinds:
        area += strip_widths[int(i)] * strip_lengths[int(i)]
    return area


@procedure("Strips laid on rectangular pieces in one way")
def laid_in_one_way(
    wide: float,
    high: float,
    slack: float,
    most_pieces: float,
    strip_widths: Sequence[float],
    strip_lengths: Sequence[float],
    strip_counts: Sequence[float],
) -> list[list[float]]:
    """Give piece, place, x and y of each strip, on at most so many pieces (nought: on any number).

    A strip that no piece has room for, and what is over when the pieces are full, is left out.
    """
    left = [
        strip_counts[i] if strip_widths[i] <= wide and strip_lengths[i] <= high else 0.0
        for i in range(len(strip_counts))
    ]
    laid: list[list[float]] = []
    piece = 0
    y = 0.0
    while True:
        missing = 0.0
        for i in range(len(left)):
            missing += left[i] * strip_widths[i] * strip_lengths[i]
        if missing <= 0:
            break
        best: list[list[float]] = []
        densest = 0.0
        even = missing / wide
        for height in band_heights(high - y, even, strip_lengths, left):
            band = filled_band(wide, height, slack, strip_widths, strip_lengths, left)
            if len(band) > 0:
                taken = height_taken(band, strip_lengths)
                density = area_laid([one[0] for one in band], strip_widths, strip_lengths) / (
                    wide * taken
                )
                if density > densest:
                    densest = density
                    best = band
        if len(best) == 0:
            piece += 1
            y = 0.0
            if most_pieces > 0 and piece >= most_pieces:
                break
            continue
        for place, x, up in best:
            laid.append([piece, place, x, y + up])
            left[int(place)] -= 1
        y += height_taken(best, strip_lengths)
    return laid


@procedure("Best way to lay strips on rectangular pieces")
def best_way(
    wide: float,
    high: float,
    most_pieces: float,
    slacks: Sequence[float],
    strip_widths: Sequence[float],
    strip_lengths: Sequence[float],
    strip_counts: Sequence[float],
) -> list[float]:
    """Give lanes and slack of the way that lays most, and of those cuts into least.

    A piece is first cut along the backbone into lanes of one width, each laid by itself.
    """
    widest = max(wide for wide in strip_widths)
    best = [1.0, slacks[0]]
    most = -1.0
    least = 0.0
    for number in range(MOST_LANES):
        lanes = 1.0 + number
        lane = math.floor(wide / lanes)
        if lanes > 1 and lane < LANE_WIDTHS * widest:
            break
        for slack in slacks:
            laid = laid_in_one_way(
                lane,
                high,
                slack,
                most_pieces * lanes,
                strip_widths,
                strip_lengths,
                strip_counts,
            )
            area = area_laid([one[1] for one in laid], strip_widths, strip_lengths)
            reach = height_reached(laid, high, strip_lengths) / lanes
            if area > most or (area == most and reach < least):
                best = [lanes, slack]
                most = area
                least = reach
    return best


@procedure("Strips laid on rectangular pieces")
def laid_on_pieces(
    wide: float,
    high: float,
    most_pieces: float,
    way: Sequence[float],
    strip_widths: Sequence[float],
    strip_lengths: Sequence[float],
    strip_counts: Sequence[float],
) -> list[list[float]]:
    """Give piece, place, x, y and lane of each strip, laid in the way `best_way` found.

    Lanes are counted through all pieces.
    """
    lanes = way[0]
    lane = math.floor(wide / lanes)
    laid = laid_in_one_way(
        lane, high, way[1], most_pieces * lanes, strip_widths, strip_lengths, strip_counts
    )
    placed: list[list[float]] = []
    for number, i, x, y in laid:
        piece = math.floor(number / lanes)
        placed.append([piece, i, x + (number - piece * lanes) * lane, y, number])
    return placed


@procedure("Height of all lanes up to the last cut")
def height_reached(
    lane_strips: Sequence[Sequence[float]], high: float, strip_lengths: Sequence[float]
) -> float:
    """Give the height of the full lanes together, and of the last one up to its last cut."""
    reached = 0.0
    for lane, i, _, y in lane_strips:
        reached = max(reached, lane * high + y + strip_lengths[int(i)])
    return reached


@procedure("Area cut into on rectangular pieces")
def area_cut_into(
    strip_places: Sequence[Sequence[float]],
    lanes: float,
    piece_wide: float,
    piece_long: float,
    margin: float,
    gap: float,
    strip_lengths: Sequence[float],
) -> float:
    """Give the area of the full lanes, margins with it, and of the last up to its last cut.

    Sizes in hundredths of a millimetre; `strip_places` as `laid_on_pieces` gives it.
    """
    last = 0.0
    for one in strip_places:
        last = max(last, one[4])
    reached = 0.0
    for one in strip_places:
        if one[4] == last:
            reached = max(reached, one[3] + strip_lengths[int(one[1])])
    end = min(piece_long, reached - gap + 2 * margin)
    return piece_wide / lanes * (last * piece_long + end) if len(strip_places) > 0 else 0.0


@procedure("Whether pieces are better turned")
def better_turned(area: float, turned_area: float, cut_into: float, turned_cut_into: float) -> bool:
    """Whether more strips, or as many out of less stock, come out of turned pieces."""
    if turned_area != area:
        return turned_area > area
    return turned_cut_into < cut_into
