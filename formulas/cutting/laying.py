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

from formulas.cutting.band import band_heights, filled_band, height_taken
from formulas.formula import procedure

MOST_LANES = 6
"""Into how many lanes along the backbone a piece is cut at most."""
LANE_WIDTHS = 2.5
"""How many of the widest strips a lane has room for at least."""


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
