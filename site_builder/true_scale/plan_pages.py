"""The plan of each skin and piece with its numbered strips, smaller than it is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from formulas.cutting.blanks import strip_said
from formulas.units import printed
from site_builder.true_scale.marks import Page, Point, room_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.cutting.plan import Plan, Sheet

LIST = 44.0  # mm at the right for the list of sizes
LINE = 3.0
TOLD = (
    "A plan, not at true size: cut by the sizes in the list, not by this drawing.",
    "The arrow is the backbone; every strip lies along it. What is grey is left out.",
)


def plan_pages(catalog: Catalog, plans: Sequence[Plan], paper: str) -> Iterable[Page]:
    """Give a page for each skin or piece that strips were laid on."""
    for plan in plans:
        for sheet in plan.sheets:
            yield _page(catalog, plan, sheet, paper)


def _page(catalog: Catalog, plan: Plan, sheet: Sheet, paper: str) -> Page:
    room = room_of(paper)
    wide, high = (1000 * side for side in sheet.as_laid)
    part = min(1.0, (room.width - LIST - 6) / wide, (room.height - 8) / high)
    used = printed(100 * sheet.used, 0)
    title = f"Plan: {sheet.kind} {sheet.name}, {plan.stock}"
    scale = f"Drawn 1 to {printed(1 / part, 2)}; used share {used} % up to the last cut across."
    if sheet.lane_ends:
        scale += " Cut along the dashed lines first."
    page = Page(title, (*TOLD, scale), true=False)
    low = min((y for _, y in sheet.outline), default=0.0)
    left = min((x for x, _ in sheet.outline), default=0.0)

    def at(x: float, y: float) -> Point:
        """Give the place of a point of the skin: y runs up the page, as the backbone does."""
        return (
            room.left + 6 + 1000 * (x - left) * part,
            room.top + (high - 1000 * (y - low)) * part,
        )

    if sheet.outline:
        page.shape(*(at(x, y) for x, y in sheet.outline), width=0.4)
    else:
        page.shape(*(at(x, y) for x, y in _corners(0, 0, *sheet.as_laid)), width=0.4)
    for zone in sheet.zones:
        page.shape(*(at(*_on(point, (left, low), sheet.as_laid)) for point in zone), fill=0.8)
    for one in sheet.strips:
        page.shape(*(at(x, y) for x, y in _corners(one.x, one.y, one.width, one.length)))
        x, y = at(one.x, one.y)
        number = str(one.blank + 1)
        size = min(2.2, 1000 * one.width * part / (0.65 * len(number)))
        page.say(x + 0.3, y - 0.5, number, size=max(0.8, size))
    for end in sheet.lane_ends:
        page.line(at(end, low), at(end, low + sheet.as_laid[1]), dash=True)
    page.arrow(room.left + 2, room.top + 2, 14)
    _list(catalog, plan, sheet, page, room.right - LIST + 2, room.top + 2)
    return page


def _on(point: Point, corner: Point, sides: Point) -> Point:
    """Draw a zone no farther than the skin reaches: it may be written down larger."""
    (x, y), (left, low), (wide, long) = point, corner, sides
    return min(max(x, left), left + wide), min(max(y, low), low + long)


def _corners(x: float, y: float, width: float, length: float) -> tuple[Point, ...]:
    return ((x, y), (x + width, y), (x + width, y + length), (x, y + length))


def _list(catalog: Catalog, plan: Plan, sheet: Sheet, page: Page, x: float, y: float) -> None:
    """List the sizes that lie on this piece, with how many of each."""
    us = catalog.shop.units == "US"
    page.say(x, y, "No. size, how many", size=2.2, bold=True)
    held: dict[int, int] = {}
    for one in sheet.strips:
        held[one.blank] = held.get(one.blank, 0) + 1
    for place, (blank, count) in enumerate(sorted(held.items()), start=1):
        size = strip_said(plan.blanks[blank].length, plan.blanks[blank].width, us)
        page.say(x, y + LINE * place, f"{blank + 1}: {size}, {count}", size=2.0)
