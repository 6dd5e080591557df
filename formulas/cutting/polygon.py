"""Outlines on plain lists of points: area, what lies inside, where a whole band is usable.

A ring closes by itself from its last point to the first. A piece is an outline less its zones:
holes, and what is left out as belly or flank. Nothing is sampled: between two neighbouring
corners or crossings every edge is straight, so that all that is reckoned here is exact.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

Point = tuple[float, float]
Ring = Sequence[Point]
Edge = tuple[Point, Point]
Span = tuple[float, float]


def edges(ring: Ring) -> Iterator[Edge]:
    """Give the edges of a ring, the one that closes it last."""
    return zip(ring, [*ring[1:], *ring[:1]], strict=True)


def signed_area(ring: Ring) -> float:
    """Give the area of a ring, negative where its points go round with the clock.

    >>> signed_area([(0, 0), (4, 0), (4, 3)])
    6.0
    """
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in edges(ring)) / 2


def _turn(a: Point, b: Point, c: Point) -> float:
    """Give twice the signed area of a triangle: on which side of a to b the point c lies."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _between(a: Point, b: Point, c: Point) -> bool:
    """Whether c, on one line with a and b, lies on the stretch between them."""
    return min(a[0], b[0]) <= c[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])


def touch(one: Edge, other: Edge) -> bool:
    """Whether two edges have a point in common."""
    (a, b), (c, d) = one, other
    turns = _turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b)
    if turns[0] * turns[1] < 0 and turns[2] * turns[3] < 0:
        return True
    ends = ((a, b, c), (a, b, d), (c, d, a), (c, d, b))
    return any(turn == 0 and _between(*end) for turn, end in zip(turns, ends, strict=True))


def self_touching(ring: Ring) -> int:
    """Give the place of the first point whose edge touches or runs back over another, or -1."""
    own = list(edges(ring))
    for i, j in itertools.combinations(range(len(own)), 2):
        one, other = own[i], own[j]
        if j == i + 1 or (i == 0 and j == len(own) - 1):
            a, b, c = (*one, other[1]) if j == i + 1 else (*other, one[1])
            back = (a[0] - b[0]) * (c[0] - b[0]) + (a[1] - b[1]) * (c[1] - b[1])
            if _turn(a, b, c) == 0 and back > 0:
                return j
        elif touch(one, other):
            return j
    return -1


def inside(ring: Ring, point: Point) -> bool:
    """Whether a point lies inside a ring; for one on the edge either may be said."""
    x, y = point
    found = False
    for a, b in edges(ring):
        if (a[1] > y) != (b[1] > y) and x < _crossing_x(a, b, y):
            found = not found
    return found


def _crossing_x(a: Point, b: Point, y: float) -> float:
    """Give x of an edge at a height that lies between its ends."""
    return a[0] + (y - a[1]) * (b[0] - a[0]) / (b[1] - a[1])


def spans(outline: Ring, zones: Sequence[Ring], low: float, high: float) -> list[Span]:
    """Give where the whole height from low to high is inside the outline and outside all zones."""
    return Edges(outline, zones).spans(low, high)


class Edges:
    """The edges of a piece that is asked for many rows, sorted by their lower ends once."""

    def __init__(self, outline: Ring, zones: Sequence[Ring]) -> None:
        self.zones = len(zones)
        self.edges = sorted(
            (min(a[1], b[1]), max(a[1], b[1]), number, a, b)
            for number, ring in enumerate((outline, *zones))
            for a, b in edges(ring)
        )

    def spans(self, low: float, high: float) -> list[Span]:
        """Give where, from low to high, the whole height is inside and outside every zone.

        Each edge blocks the stretch of x over which it passes through the band. Between blocked
        stretches no edge passes, so that one point tells of all.
        """
        middle = (low + high) / 2
        blocked: list[Span] = []
        crossed: list[list[float]] = [[] for _ in range(self.zones + 1)]
        for under, over, number, a, b in self.edges:
            if under >= high:
                break
            if over <= low:
                continue
            one, other = _x_within(a, b, low, high), _x_within(b, a, low, high)
            blocked.append((one, other) if one <= other else (other, one))
            if (a[1] > middle) != (b[1] > middle):
                crossed[number].append(_crossing_x(a, b, middle))
        found: list[Span] = []
        reached = min(blocked)[1] if blocked else 0.0
        for left, right in sorted(blocked):
            if left > reached:
                x = (reached + left) / 2
                if _odd(crossed[0], x) and not any(_odd(xs, x) for xs in crossed[1:]):
                    found.append((reached, left))
            if right > reached:
                reached = right
        return found


def _x_within(a: Point, b: Point, low: float, high: float) -> float:
    """Give x of the first end of an edge, or of where the edge enters the band there."""
    if a[1] < low:
        return _crossing_x(a, b, low)
    return _crossing_x(a, b, high) if a[1] > high else a[0]


def _odd(crossed: Sequence[float], x: float) -> bool:
    """Whether a point has an odd number of edges beyond it: it is then inside their ring."""
    return sum([x < at for at in crossed]) % 2 == 1


def _x_at(a: Point, b: Point, y: float) -> float:
    """Give x of an edge that is not level, at a height between its ends."""
    if y == a[1]:
        return a[0]
    if y == b[1]:
        return b[0]
    return _crossing_x(a, b, y)


class Usable:
    """The usable area of a piece up to any height: cut into slices between its corners once."""

    def __init__(self, outline: Ring, zones: Sequence[Ring]) -> None:
        self.outline, self.zones = outline, zones
        every = [edge for ring in (outline, *zones) for edge in edges(ring)]
        ys = {y for a, b in every for y in (a[1], b[1])}
        ys |= {
            y for one, other in itertools.combinations(every, 2) for y in _crossing_y(one, other)
        }
        self.levels = sorted(ys)
        self.below = [0.0]
        for low, high in itertools.pairwise(self.levels):
            self.below.append(self.below[-1] + self._slice(low, high))

    def _slice(self, low: float, high: float) -> float:
        """Give the area between two heights with no corner between: its middle width counts."""
        return self._width((low + high) / 2) * (high - low)

    def _width(self, y: float) -> float:
        cuts = [(x, 0) for x in _crossed(self.outline, y)]
        cuts += [(x, n) for n, zone in enumerate(self.zones, 1) for x in _crossed(zone, y)]
        within = [False] * (len(self.zones) + 1)
        wide, last = 0.0, 0.0
        for x, ring in sorted(cuts):
            if within[0] and not any(within[1:]):
                wide += x - last
            within[ring] = not within[ring]
            last = x
        return wide

    def up_to(self, y: float) -> float:
        """Give the usable area below a height."""
        if y <= self.levels[0]:
            return 0.0
        for place, level in enumerate(self.levels):
            if y <= level:
                return self.below[place - 1] + self._slice(self.levels[place - 1], y)
        return self.below[-1]

    @property
    def whole(self) -> float:
        """The usable area of the whole piece."""
        return self.below[-1]


def _crossed(ring: Ring, y: float) -> list[float]:
    return [_x_at(a, b, y) for a, b in edges(ring) if (a[1] > y) != (b[1] > y)]


def _crossing_y(one: Edge, other: Edge) -> Iterator[float]:
    """Give the height at which two edges cross, where they do."""
    (a, b), (c, d) = one, other
    first, second = _turn(c, d, a), _turn(c, d, b)
    if first * second < 0 and _turn(a, b, c) * _turn(a, b, d) < 0:
        yield a[1] + (b[1] - a[1]) * first / (first - second)
