"""One stock's cut list, laid on what the shop has of it: skins first, then pieces, then to buy."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from formulas.cutting.blanks import (
    GRAIN,
    cut_list,
    laid_size,
    spare_strips,
    steps_up,
    strip_area,
    used_share,
)
from formulas.cutting.pieces import laid_out
from formulas.cutting.rules import CutRules
from formulas.cutting.skins import Outline, Sizes, laid_on_skin
from formulas.cutting.wanted import Wanted
from formulas.frozen import Frozen
from formulas.units import convert

if TYPE_CHECKING:
    from formulas.catalog import Catalog

SKIN, PIECE, TO_BUY = "skin", "piece", "piece to buy"
MOST_PIECES = 500
"""More pieces than this are not laid one by one."""


class Blank(Frozen):
    """A size of the cut list, in m: how many for slots, how many spare, for which slots."""

    stock: str
    length: float
    width: float
    count: int
    spares: int
    wanted: tuple[Wanted, ...]

    @property
    def cut(self) -> int:
        """How many are cut."""
        return self.count + self.spares

    @property
    def area(self) -> float:
        """The area of all of them, in m**2."""
        return self.cut * strip_area(self.width, self.length)


class Strip(Frozen):
    """A strip on a plan: its size by its place in the cut list, its lower left corner, in m."""

    number: int
    blank: int
    x: float
    y: float
    width: float
    length: float


@dataclass
class Sheet:
    """A skin or a piece with the strips laid on it, in m; y runs along the backbone."""

    name: str
    kind: str
    stock: str
    width: float
    length: float
    lanes: int = 1
    turned: bool = False
    strips: list[Strip] = field(default_factory=list)
    cut_into: float = 0.0
    outline: tuple[tuple[float, float], ...] = ()
    zones: tuple[tuple[tuple[float, float], ...], ...] = ()
    lane_ends: tuple[float, ...] = ()
    """Where it is cut along the backbone first, up to the last lane that is cut into."""

    @property
    def as_laid(self) -> tuple[float, float]:
        """Width and length as strips lie on it: those of a turned piece change places."""
        return (self.length, self.width) if self.turned else (self.width, self.length)

    @property
    def used(self) -> float:
        """The share that ends as strips of what was cut into."""
        return used_share(sum(one.width * one.length for one in self.strips), self.cut_into)


class Place(Frozen):
    """What strips may be laid on: a skin by its outline, or pieces of one size, in m."""

    name: str
    kind: str
    width: float = 0.0
    length: float = 0.0
    most: int = 0
    outline: Outline | None = None


@dataclass
class Plan:
    """One stock: its cut list, what was laid where, and what is missing by size."""

    stock: str
    blanks: list[Blank]
    sheets: list[Sheet]
    missing: list[int]

    @property
    def missing_area(self) -> float:
        """The area of the strips that have no place, in m**2."""
        pairs = zip(self.blanks, self.missing, strict=True)
        return sum(count * strip_area(one.width, one.length) for one, count in pairs)


def blanks_of(stock: str, wanted: Sequence[Wanted], rules: CutRules) -> list[Blank]:
    """Give the cut list of one stock, the widest and longest first."""
    rows = cut_list(
        [one.length_m for one in wanted],
        [one.width_m for one in wanted],
        [one.count for one in wanted],
        rules.length_step,
        rules.width_step,
    )
    of_size: dict[tuple[float, float], list[Wanted]] = {}
    for one in wanted:
        size = (
            steps_up(one.width_m, rules.width_step),
            steps_up(one.length_m, rules.length_step),
        )
        of_size.setdefault(size, []).append(one)
    return [
        Blank(
            stock,
            long * rules.length_step,
            wide * rules.width_step,
            int(count),
            spare_strips(count, rules.spares, rules.least),
            tuple(of_size[wide, long]),
        )
        for wide, long, count in rows
    ]


def planned(
    stock: str, blanks: list[Blank], places: Iterable[Place], rules: CutRules, *, may_turn: bool
) -> Plan:
    """Lay the strips of one stock, place by place, each as full as it gets."""
    plan = Plan(stock, blanks, [], [one.cut for one in blanks])
    for place in places:
        if not any(plan.missing):
            break
        if place.outline:
            _on_skin(plan, place, place.outline, rules)
        else:
            _on_pieces(plan, place, rules, may_turn=may_turn)
    return plan


def sizes_of(plan: Plan, rules: CutRules) -> Sizes:
    """Give the strips that are missing as they are laid, each with the gap to the next."""

    def laid(metres: float) -> int:
        return laid_size(metres, 1.0) + rules.gap_laid

    return Sizes(
        [laid(one.width) for one in plan.blanks],
        [laid(one.length) for one in plan.blanks],
        list(plan.missing),
    )


def _on_skin(plan: Plan, place: Place, outline: Outline, rules: CutRules) -> None:
    made = laid_on_skin(outline, sizes_of(plan, rules), rules.margin_laid, rules.gap_laid)
    if not made.strips:
        return
    points = [(x * GRAIN, y * GRAIN) for x, y in outline.ring]
    sheet = Sheet(
        place.name,
        SKIN,
        plan.stock,
        max(x for x, _ in points) - min(x for x, _ in points),
        max(y for _, y in points) - min(y for _, y in points),
        lanes=made.lanes,
        cut_into=made.cut_into * GRAIN**2,
        outline=tuple(points),
        zones=tuple(tuple((x * GRAIN, y * GRAIN) for x, y in zone) for zone in outline.zones),
        lane_ends=tuple(GRAIN * end for end in made.lane_ends),
    )
    _add(plan, sheet, made.strips)


def _on_pieces(plan: Plan, place: Place, rules: CutRules, *, may_turn: bool) -> None:
    """Lay strips along the piece, or across it where that takes less and it may be."""
    turned, cut_into, lanes, strips = laid_out(
        [[one.width, one.length] for one in plan.blanks],
        plan.missing,
        [place.width, place.length],
        place.most or MOST_PIECES,
        [rules.gap, rules.margin, rules.width_step],
        may_turn,
    )
    full = place.width * place.length
    last = max((int(one[0]) for one in strips), default=-1)
    across = place.length if turned else place.width
    lane = (across - 2 * rules.margin + rules.gap) / lanes
    for number in range(last + 1):
        name = place.name if place.most == 1 else f"{place.name} {number + 1}"
        sheet = Sheet(
            name,
            place.kind,
            plan.stock,
            place.width,
            place.length,
            lanes=int(lanes),
            turned=turned > 0,
            cut_into=full if number < last else cut_into * GRAIN**2 - last * full,
            lane_ends=tuple(rules.margin + k * lane for k in range(1, int(lanes))),
        )
        _add(plan, sheet, [(int(i), x, y) for n, i, x, y, _ in strips if n == number])


def _add(plan: Plan, sheet: Sheet, laid: Iterable[tuple[int, float, float]]) -> None:
    """Put strips on a sheet, numbered from its lower left corner, and count them off."""
    for number, (i, x, y) in enumerate(sorted(laid, key=lambda one: (one[2], one[1])), 1):
        blank = plan.blanks[i]
        sheet.strips.append(Strip(number, i, x * GRAIN, y * GRAIN, blank.width, blank.length))
        plan.missing[i] -= 1
    right = max((one.x + one.width for one in sheet.strips), default=0.0)
    reached = sum(end < right for end in sheet.lane_ends) + 1
    sheet.lane_ends = sheet.lane_ends[:reached]
    plan.sheets.append(sheet)


def places_of(catalog: Catalog, stock: str) -> list[Place]:
    """Give what the shop has of a stock: its skins as they stand in the table, then its pieces.

    Pieces whose number is not known are pieces to buy.
    """
    found = [
        Place(skin.skin, SKIN, outline=outline_of(catalog, skin.skin))
        for skin in catalog.skins.values()
        if skin.stock == stock
    ]
    held = catalog.valve_stock[stock]
    if held.length is not None and held.width is not None:
        length, width = (convert(one, held.unit, "m") for one in (held.length, held.width))
        if held.pieces:
            found.append(Place(stock, PIECE, width, length, held.pieces))
        found.append(Place(stock, TO_BUY, width, length))
    return found


def outline_of(catalog: Catalog, skin: str) -> Outline:
    """Give the outline of a skin, in hundredths of a millimetre."""
    rings: dict[str, list[tuple[int, tuple[float, float]]]] = {}
    for one in catalog.skin_outlines:
        if one.skin == skin:
            place = tuple(convert(end, one.unit, "m") / GRAIN for end in (one.x, one.y))
            rings.setdefault(one.ring, []).append((one.point, (place[0], place[1])))
    points = {name: tuple(at for _, at in sorted(ring)) for name, ring in rings.items()}
    return Outline(skin, points.pop("outline"), tuple(points.values()))
