"""Strips laid on a skin of any outline: bands across, where their whole height is usable.

What lies round a strip by the margin is inside the outline and outside every zone as well.
Lengths here are in hundredths of a millimetre, as strips are laid.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from formulas.cutting.band import band_heights, filled_band, height_taken
from formulas.cutting.laying import area_laid
from formulas.cutting.polygon import Edges, Point, Ring, Usable
from formulas.frozen import Frozen

LANES = (1, 2, 3, 4, 5, 6)
SHIFTS = (0, 200, 500, 1000, 2000)
"""By how much a band may start above the last cut, to be clear of a narrow end."""
SLACK = 200
"""How much narrower than its long strip a strip may be: it is then trimmed along one side."""
FULL_STEP = 500
"""How far up the next try is where no band has room."""
FEW_LENGTHS = 8
"""About how many of the shorter lengths are tried."""


class Outline(Frozen):
    """A skin: its outline, and the rings of its holes and of the zones to leave out."""

    name: str
    ring: Ring
    zones: tuple[Ring, ...] = ()


class Sizes(Frozen):
    """The strips to lay: width and length with the gap to the next, how many, widest first."""

    widths: Sequence[float]
    lengths: Sequence[float]
    counts: Sequence[float]

    def area(self, places: Sequence[float]) -> float:
        """Give the area of strips by their places."""
        return area_laid(places, self.widths, self.lengths)

    def any_within(self, wide: float, high: float, left: Sequence[float]) -> bool:
        """Whether any strip of those left is no wider and no longer than a place."""
        return any(
            count and w <= wide and n <= high
            for w, n, count in zip(self.widths, self.lengths, left, strict=True)
        )


@dataclass
class OnSkin:
    """What was laid on a skin: place, x and y of each strip; bands; the area cut into."""

    lanes: int
    strips: list[tuple[int, float, float]] = field(default_factory=list)
    bands: list[tuple[float, float, float, float]] = field(default_factory=list)
    cut_into: float = 0.0
    area: float = 0.0
    lane_ends: list[float] = field(default_factory=list)


def laid_on_skin(skin: Outline, sizes: Sizes, margin: float, gap: float) -> OnSkin:
    """Give the best of several ways to lay strips on a skin: most laid, then least cut into."""
    rows = _Rows(skin, margin, gap)
    tried = [_in_lanes(rows, sizes, lanes) for lanes in LANES]
    return min(tried, key=lambda one: (-one.area, one.cut_into))


class _Rows:
    """A skin asked for rows: where a row has room, and how much of the skin it takes."""

    def __init__(self, skin: Outline, margin: float, gap: float) -> None:
        self.skin, self.margin, self.gap = skin, margin, gap
        self.left, self.right = (end(x for x, _ in skin.ring) for end in (min, max))
        self.low, self.high = (end(y for _, y in skin.ring) for end in (min, max))
        self.lanes: dict[tuple[float, float], Usable] = {}
        self.edges = Edges(skin.ring, skin.zones)
        self.known: dict[tuple[float, float], list[tuple[float, float]]] = {}

    def usable(self, lane: tuple[float, float]) -> Usable:
        """Give the usable area of a lane, what lies beside it left out as zones."""
        if lane not in self.lanes:
            beside = [(self.left - 1, lane[0]), (lane[1], self.right + 1)]
            zones = [_box(a, b, self.low - 1, self.high + 1) for a, b in beside if a < b - 2]
            self.lanes[lane] = Usable(self.skin.ring, [*self.skin.zones, *zones])
        return self.lanes[lane]

    def room(self, y: float, height: float, lane: tuple[float, float]) -> list[tuple[float, float]]:
        """Give from where to where strips have room in a row; the gap after each is counted in."""
        if (y, height) not in self.known:
            low, high = y - self.margin, y + height - self.gap + self.margin
            self.known[y, height] = self.edges.spans(low, high)
        found: list[tuple[float, float]] = []
        for left, right in self.known[y, height]:
            start = math.ceil(max(left + self.margin, lane[0]))
            end = math.floor(min(right - self.margin + self.gap, lane[1]))
            if end > start:
                found.append((start, end))
        return found


def _box(left: float, right: float, low: float, high: float) -> list[Point]:
    return [(left, low), (right, low), (right, high), (left, high)]


def _in_lanes(rows: _Rows, sizes: Sizes, lanes: int) -> OnSkin:
    """Lay strips lane by lane from the left; a lane that is not reached is not cut into."""
    made = OnSkin(lanes)
    left = list(sizes.counts)
    width = math.floor((rows.right - rows.left) / lanes)
    for number in range(lanes):
        start = rows.left + number * width
        end = rows.right if number == lanes - 1 else start + width
        if number:
            made.lane_ends.append(start)
        _lay_lane(rows, sizes, (start, end), left, made)
    made.area = sizes.area([one[0] for one in made.strips])
    return made


def _lay_lane(
    rows: _Rows, sizes: Sizes, lane: tuple[float, float], left: list[float], made: OnSkin
) -> None:
    usable = rows.usable(lane)
    reached = _lay_region(rows, sizes, lane, (math.ceil(rows.low), rows.high), left, made)
    if reached > rows.low:
        made.cut_into += usable.whole if any(left) else usable.up_to(reached + rows.margin)


def _lay_region(
    rows: _Rows,
    sizes: Sizes,
    lane: tuple[float, float],
    heights: tuple[float, float],
    left: list[float],
    made: OnSkin,
) -> float:
    """Lay bands from the lower end up; what lies beside a band is a small region by itself.

    Gives the height of the last cut, which is the lower end where nothing was laid.
    """
    y, top = heights
    reached = y
    while sizes.any_within(lane[1] - lane[0], top - y, left):
        best = _best_band(rows, sizes, lane, left, (y, top))
        if best is None:
            y += FULL_STEP
            if y >= top:
                break
            continue
        base, laid, taken = best
        for i, x, up in laid:
            made.strips.append((int(i), x, base + up))
            left[int(i)] -= 1
        made.bands.append((lane[0], lane[1], base, base + taken - rows.gap))
        for beside in _beside(lane, [(x, x + sizes.widths[int(i)]) for i, x, _ in laid]):
            if any(left):
                _lay_region(rows, sizes, beside, (y, base + taken), left, made)
        y = base + math.ceil(taken)
        reached = y - rows.gap
    return reached


def _beside(
    lane: tuple[float, float], taken: Sequence[tuple[float, float]]
) -> Iterator[tuple[float, float]]:
    """Give the stretches of a lane in which no long strip stands."""
    free = lane[0]
    for start, end in sorted(taken):
        if start > free:
            yield free, start
        free = max(free, end)
    if lane[1] > free:
        yield free, lane[1]


Band = tuple[float, list[list[float]], float]


def _best_band(
    rows: _Rows,
    sizes: Sizes,
    lane: tuple[float, float],
    left: Sequence[float],
    heights: tuple[float, float],
) -> Band | None:
    """Give where the next band starts and its strips: the one that uses most of what it takes."""
    y, top = heights
    narrow = [
        n if w <= lane[1] - lane[0] else math.inf
        for w, n in zip(sizes.widths, sizes.lengths, strict=True)
    ]
    if not _has_room(rows, lane, heights, *_smallest(sizes, lane[1] - lane[0], left)):
        return None
    missing = sum(
        w * n * count for w, n, count in zip(sizes.widths, sizes.lengths, left, strict=True)
    )
    even = missing / max(1.0, lane[1] - lane[0])
    tall = _whole(band_heights(top - y, even, narrow, left))
    best = _densest(rows, sizes, lane, left, heights, tall)
    return best or _densest(rows, sizes, lane, left, heights, _lower(top - y, narrow, left))


def _smallest(sizes: Sizes, wide: float, left: Sequence[float]) -> tuple[float, float]:
    """Give the least width and the least length of the strips left that are not too wide."""
    narrow = [
        (w, n)
        for w, n, count in zip(sizes.widths, sizes.lengths, left, strict=True)
        if count and w <= wide
    ]
    return min(w for w, _ in narrow), min(n for _, n in narrow)


def _has_room(
    rows: _Rows,
    lane: tuple[float, float],
    heights: tuple[float, float],
    wide: float,
    high: float,
) -> bool:
    """Whether a band could start here: a higher one has no more room than the lowest there is."""
    y, top = heights
    return any(
        end - start >= wide - 1
        for shift in SHIFTS
        if y + shift + high <= top
        for start, end in rows.room(y + shift, high, lane)
    )


def _whole(heights: Iterable[float]) -> list[float]:
    """Give each height once, as a whole number."""
    return list(dict.fromkeys(math.floor(height) for height in heights))


def _lower(room: float, lengths: Sequence[float], left: Sequence[float]) -> list[float]:
    """Give some of the shorter lengths, for ends in which no long strip has room."""
    there = {n for n, count in zip(lengths, left, strict=True) if count and n <= room}
    falling = sorted(there, reverse=True)
    return falling[:: max(1, len(falling) // FEW_LENGTHS)]


def _densest(
    rows: _Rows,
    sizes: Sizes,
    lane: tuple[float, float],
    left: Sequence[float],
    heights: tuple[float, float],
    tried: Iterable[float],
) -> Band | None:
    """Give the band of the heights tried that uses most of the height it takes."""
    best, densest = None, 0.0
    for height in tried:
        base, laid = _laid_band(rows, sizes, lane, left, heights, height)
        if not laid:
            continue
        taken = height_taken(laid, sizes.lengths)
        spent = (lane[1] - lane[0]) * (base + taken - heights[0])
        density = sizes.area([one[0] for one in laid]) / spent
        if density > densest:
            best, densest = (base, laid, taken), density
    return best


def _laid_band(
    rows: _Rows,
    sizes: Sizes,
    lane: tuple[float, float],
    left: Sequence[float],
    heights: tuple[float, float],
    height: float,
) -> tuple[float, list[list[float]]]:
    """Start a band where it has most room for the height it goes up, and fill its stretches."""
    y, top = heights
    rooms = {
        shift: rows.room(y + shift, height, lane) for shift in SHIFTS if y + shift + height <= top
    }
    shares = [(sum(b - a for a, b in room) / (height + n), -n) for n, room in rooms.items()]
    shift = -max(shares)[1]
    laid: list[list[float]] = []
    rest = list(left)
    for start, end in rooms[shift]:
        for i, x, up in filled_band(end - start, height, SLACK, sizes.widths, sizes.lengths, rest):
            laid.append([i, start + x, up])
            rest[int(i)] -= 1
    return y + shift, laid
