"""Strips on rectangular pieces, from metres to a plan: the same for the command and the page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from formulas.cutting.blanks import (
    GRAIN,
    area_to_buy,
    laid_size,
    long_strip_said,
    long_strips,
    side_said,
    spare_strips,
    steps_up,
    strip_area,
    strip_said,
    used_share,
)
from formulas.cutting.laying import (
    area_cut_into,
    area_laid,
    best_way,
    better_turned,
    laid_on_pieces,
)
from formulas.formula import procedure
from formulas.units import printed
from formulas.valves.typed import area_printed
from formulas.valves.valve_words import percent_said


@procedure("Strips laid along pieces of one size")
def laid_along(
    strip_sides: Sequence[Sequence[float]],
    strip_counts: Sequence[float],
    piece_sides: Sequence[float],
    most_pieces: float,
    cut_rule: Sequence[float],
) -> list[Any]:
    """Give area laid, area cut into, lanes, and piece, place, x, y and lane of each strip.

    `strip_sides` are width and length of each size in m, the widest first, `piece_sides` the
    piece across and along the backbone; `cut_rule` is gap, margin and step in width, in m.
    Areas and places are in hundredths of a millimetre, places from the corner of the piece.
    """
    gap = steps_up(cut_rule[0], GRAIN)
    margin = steps_up(cut_rule[1], GRAIN)
    slacks = [steps_up(2 * cut_rule[2], GRAIN), steps_up(4 * cut_rule[2], GRAIN)]
    widths = [laid_size(one[0], 1) + gap for one in strip_sides]
    lengths = [laid_size(one[1], 1) + gap for one in strip_sides]
    wide = laid_size(piece_sides[0], 1)
    long = laid_size(piece_sides[1], 1)
    room = [wide - 2 * margin + gap, long - 2 * margin + gap]
    if min(room[0], room[1]) <= 0:
        return [0, 0, 1, []]
    way = best_way(room[0], room[1], most_pieces, slacks, widths, lengths, strip_counts)
    placed = laid_on_pieces(room[0], room[1], most_pieces, way, widths, lengths, strip_counts)
    area = area_laid([one[1] for one in placed], widths, lengths)
    cut_into = area_cut_into(placed, way[0], wide, long, margin, gap, lengths)
    shifted = [[one[0], one[1], one[2] + margin, one[3] + margin, one[4]] for one in placed]
    return [area, cut_into, way[0], shifted]


@procedure("Strips laid on pieces of one size")
def laid_out(
    strip_sides: Sequence[Sequence[float]],
    strip_counts: Sequence[float],
    piece_sides: Sequence[float],
    most_pieces: float,
    cut_rule: Sequence[float],
    may_turn: bool,
) -> list[Any]:
    """Give whether the pieces are turned, area cut into, lanes, and the places of the strips.

    As `laid_along`; a piece is turned where it may be and less is cut into.
    """
    along = laid_along(strip_sides, strip_counts, piece_sides, most_pieces, cut_rule)
    if may_turn:
        turned_sides = [piece_sides[1], piece_sides[0]]
        across = laid_along(strip_sides, strip_counts, turned_sides, most_pieces, cut_rule)
        if better_turned(along[0], across[0], along[1], across[1]):
            return [1, across[1], across[2], across[3]]
    return [0, along[1], along[2], along[3]]


@procedure("Long strips of a plan")
def plan_columns(
    strip_places: Sequence[Sequence[float]], strip_sides: Sequence[Sequence[float]], gap: float
) -> list[list[Any]]:
    """Give piece, x, y, width in m and the places of the sizes of each long strip, upward.

    `strip_places` as `laid_out` gives them: what stands on one another, the gap between, is one.
    """
    grains = steps_up(gap, GRAIN)
    columns: list[list[Any]] = []
    reached = 0.0
    for piece, i, x, y, _ in strip_places:
        wide, long = strip_sides[int(i)]
        on_it = len(columns) > 0 and columns[-1][0] == piece and columns[-1][1] == x
        if on_it and reached == y:
            columns[-1][3] = max(columns[-1][3], wide)
            columns[-1][4].append(int(i))
        else:
            columns.append([piece, x, y, wide, [int(i)]])
        reached = y + laid_size(long, 1) + grains
    return columns


@procedure("Lengths of a long strip, in words")
def lengths_said(
    column_kinds: Sequence[int], wide: float, strip_sides: Sequence[Sequence[float]], us: bool
) -> str:
    """Say the lengths upward, those alike counted; one to be trimmed narrower says so."""
    said = ""
    place = 0
    while place < len(column_kinds):
        i = column_kinds[place]
        count = 0
        while place < len(column_kinds) and column_kinds[place] == i:
            count += 1
            place += 1
        words = side_said(strip_sides[i][1], us)
        if count > 1:
            words = str(count) + " × " + words
        if strip_sides[i][0] < wide:
            words = words + ", trimmed to " + side_said(strip_sides[i][0], us)
        said = words if said == "" else said + "; " + words
    return said


@procedure("Long strips of a plan, in words")
def plan_rows(
    strip_places: Sequence[Sequence[float]],
    strip_sides: Sequence[Sequence[float]],
    gap: float,
    us: bool,
) -> list[list[str]]:
    """Give a row for each run of long strips alike, side by side.

    Piece, how many by their width, from the left, from the lower end, and their lengths.
    """
    rows: list[list[str]] = []
    run = 0
    last = ""
    next_x = 0.0
    for piece, x, y, wide, kinds in plan_columns(strip_places, strip_sides, gap):
        lengths = lengths_said(kinds, wide, strip_sides, us)
        up = side_said(y * GRAIN, us)
        width = side_said(wide, us)
        number = int(piece) + 1
        key = str(number) + " " + up + " " + width + " " + lengths
        if len(rows) > 0 and key == last and x == next_x:
            run += 1
            rows[-1][1] = str(run) + " × " + width
        else:
            run = 1
            rows.append([str(number), "1 × " + width, side_said(x * GRAIN, us), up, lengths])
        last = key
        next_x = x + laid_size(wide, 1) + steps_up(gap, GRAIN)
    return rows


@procedure("What lies on pieces, in words")
def pieces_said(
    pieces: int,
    piece_sides: Sequence[float],
    strip_count: int,
    lanes: int,
    turned: bool,
    used: float,
    cut_into: float,
    us: bool,
) -> str:
    """Say how many pieces it takes, how they are cut first, and the used share."""
    if pieces == 0:
        return "none has room"
    said = str(pieces) + " of " + strip_said(piece_sides[1], piece_sides[0], us)
    said = said + ", " + str(strip_count) + (" strip" if strip_count == 1 else " strips")
    if lanes > 1:
        said = said + ", in lanes along its length, " + str(lanes) + " to its width"
    if turned:
        said = said + ", turned: strips run along the width of the piece"
    share = percent_said(used)
    return said + "; used share " + share + " of " + area_printed(cut_into, us) + " cut into"


@procedure("Ends of an area to buy, in words")
def areas_said(low: float, high: float, us: bool) -> str:
    """Write a range of areas in the unit of a needs list: a large one in square metres or feet."""
    if us and high >= 1:
        return printed(low / 0.09290304, 1) + " to " + printed(high / 0.09290304, 1) + " ft²"
    if us:
        return printed(low / 0.0254**2, 0) + " to " + printed(high / 0.0254**2, 0) + " in²"
    if high >= 1:
        return printed(low, 1) + " to " + printed(high, 1) + " m²"
    return printed(10000 * low, 0) + " to " + printed(10000 * high, 0) + " cm²"


@procedure("Area to buy, in words")
def to_buy_said(
    strip_sides: Sequence[Sequence[float]],
    strip_counts: Sequence[float],
    use_low: float,
    use_high: float,
    us: bool,
) -> str:
    """Say the area to buy for strips without a place; a blank where there are none."""
    area = 0.0
    strips = 0
    for place in range(len(strip_sides)):
        area += strip_counts[place] * strip_area(strip_sides[place][0], strip_sides[place][1])
        strips += int(strip_counts[place])
    if strips == 0:
        return ""
    ends = areas_said(area_to_buy(area, use_high), area_to_buy(area, use_low), us)
    return (
        ends + " for " + str(strips) + (" strip" if strips == 1 else " strips") + " without a place"
    )


@procedure("Strips without a place")
def strips_missing(
    strip_counts: Sequence[float], strip_places: Sequence[Sequence[float]]
) -> list[float]:
    """Give how many of each size have no place on the plan."""
    left = [one for one in strip_counts]  # noqa: C416 - a copy that the page's script has as well
    for one in strip_places:
        left[int(one[1])] -= 1
    return left


@procedure("Rows of a cut list with their spares")
def listed(
    cut_rows: Sequence[Sequence[float]],
    width_step: float,
    length_step: float,
    share: float,
    least: float,
) -> list[list[float]]:
    """Give width and length in m, count, spares and the sum, of rows that `cut_list` gives."""
    rows = []
    for wide, long, count in cut_rows:
        spare = spare_strips(count, share, least)
        rows.append([wide * width_step, long * length_step, count, spare, count + spare])
    return rows


@procedure("Rows of a cut list, in words")
def list_rows(cut_listed: Sequence[Sequence[float]], us: bool) -> list[list[str]]:
    """Give size, count, spares and sum of each row as they are printed."""
    rows = []
    for wide, long, count, spare, together in cut_listed:
        size = strip_said(long, wide, us)
        rows.append([size, str(int(count)), str(int(spare)), str(int(together))])
    return rows


@procedure("Long strips of a cut list, in words")
def long_rows(
    cut_rows: Sequence[Sequence[float]],
    cut_listed: Sequence[Sequence[float]],
    width_step: float,
    length_step: float,
    us: bool,
) -> list[str]:
    """Say of each width how much of it is cut in long strips, the widest first.

    `cut_rows` as `cut_list` gives them, `cut_listed` the same as `listed` gives them.
    """
    in_steps = [[cut_rows[i][0], cut_rows[i][1], cut_listed[i][4]] for i in range(len(cut_rows))]
    said: list[str] = []
    for wide, count, long in long_strips(in_steps):
        said.append(long_strip_said(wide * width_step, int(count), long * length_step, us))
    return said


@procedure("Used share of a plan")
def plan_share(
    strip_places: Sequence[Sequence[float]],
    strip_sides: Sequence[Sequence[float]],
    cut_into: float,
) -> float:
    """Give the used share of strips laid; `cut_into` in m**2."""
    area = 0.0
    for one in strip_places:
        area += strip_area(strip_sides[int(one[1])][0], strip_sides[int(one[1])][1])
    return used_share(area, cut_into) if cut_into > 0 else 0.0


@procedure("Square metres of an area as strips are laid")
def square_metres(area: float) -> float:
    """Give an area in hundredths of a millimetre, squared, as square metres."""
    return area * GRAIN**2


@procedure("How many pieces a plan takes")
def pieces_of(strip_places: Sequence[Sequence[float]]) -> int:
    """Give the number of pieces with a strip on them."""
    last = -1.0
    for one in strip_places:
        last = max(last, one[0])
    return int(last) + 1


@procedure("Count of a cut list, in words")
def list_said(cut_listed: Sequence[Sequence[float]]) -> str:
    """Say how many valves in how many sizes, and how many are cut."""
    count = 0
    together = 0
    for one in cut_listed:
        count += int(one[2])
        together += int(one[4])
    said = "1 valve in " if count == 1 else str(count) + " valves in "
    said = said + ("1 size, " if len(cut_listed) == 1 else str(len(cut_listed)) + " sizes, ")
    return said + str(together) + " with spares"
