"""Cutting templates of every size of the cut list, and the gauges to trim a valve by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from formulas.cutting.blanks import strip_said
from formulas.frozen import Frozen
from formulas.valves.valves import chosen
from site_builder.true_scale.marks import Page, Room, room_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.cutting.plan import Blank, Plan

COLUMN, GAP, BELOW = 26.0, 4.0, 15.0
LETTERS = 18  # of a line of words in a column, at the size they are set
TEMPLATES = (
    "Glue on card, cut out, and cut valves round it with a sharp blade along a steel rule.",
    "The grey end is the glue land, on the rivet end of the slot. The arrow is the backbone.",
    "A size holds every valve named below it: lay each on dry, and trim what is too long.",
)
GAUGES = (
    "Lengths: lay the glue end at the stop line; the valve ends at its mark or before it.",
    "Widths: the valve lies between the two lines of its step and covers neither.",
)


class Template(Frozen):
    """One size to cut, in millimetres, with its glue land and what it is for."""

    length: float
    width: float
    land: float
    told: tuple[str, ...]


def templates(catalog: Catalog, plans: Sequence[Plan]) -> list[Template]:
    """Give a template for each size of the cut list, the widest and longest first."""
    lands = _lands(catalog)
    return [
        Template(
            1000 * one.length,
            1000 * one.width,
            max((lands.get(_key(wanted), 0.0) for wanted in one.wanted), default=0.0),
            tuple(_told(catalog, one)),
        )
        for plan in plans
        for one in plan.blanks
    ]


def _key(one: object) -> tuple[str, ...]:
    return tuple(str(getattr(one, name)) for name in ("rank", "plate", "note", "face"))


def _lands(catalog: Catalog) -> Mapping[tuple[str, ...], float]:
    """Give the glue land of each slot of the shop's instrument, in millimetres."""
    every = chosen(catalog, catalog.shop.instrument)
    return {_key(one): 1000 * (one.length_m - one.free_m) for one in every}


def _told(catalog: Catalog, one: Blank) -> Iterator[str]:
    yield strip_said(one.length, one.width, catalog.shop.units == "US")
    yield f"{one.stock}: {one.cut}"
    notes = dict.fromkeys(f"{wanted.rank} {wanted.note}" for wanted in one.wanted if wanted.note)
    named = list(notes)
    if named:
        yield named[0]
    if len(named) > 1:
        yield f"to {named[-1]}"


def template_pages(catalog: Catalog, plans: Sequence[Plan], paper: str) -> Iterable[Page]:
    """Lay the templates in rows, each row as high as its longest."""
    room = room_of(paper)
    across = int((room.width + GAP) // (COLUMN + GAP))
    page, y = Page("Cutting templates", TEMPLATES), room.top
    every = templates(catalog, plans)
    for start in range(0, len(every), across):
        row = every[start : start + across]
        high = max(one.length for one in row) + BELOW
        if y + high > room.bottom:
            yield page
            page, y = Page("Cutting templates, continued", TEMPLATES), room.top
        for place, one in enumerate(row):
            _draw(page, room.left + place * (COLUMN + GAP), y, one)
        y += high + GAP
    if page.lines:
        yield page


def _draw(page: Page, x: float, y: float, one: Template) -> None:
    page.box(x, y, one.width, one.length)
    if one.land:
        page.box(x, y + one.length - one.land, one.width, one.land, fill=0.85)
    page.arrow(x + one.width + 2.5, y + 1, min(9.0, one.length - 2))
    for place, line in enumerate(one.told):
        words = line if len(line) <= LETTERS else line[: LETTERS - 1] + "…"
        page.say(x, y + one.length + 3.2 + 3 * place, words, size=2.1, bold=place == 0)


STEP_HIGH, STEP_GAP = 4.0, 1.5


def gauge_page(catalog: Catalog, plans: Sequence[Plan], paper: str) -> Iterable[Page]:
    """Draw a gauge for every length and every width of the cut list."""
    room = room_of(paper)
    blanks = [one for plan in plans for one in plan.blanks]
    us = catalog.shop.units == "US"
    lengths = sorted({one.length for one in blanks}, reverse=True)
    widths = sorted({one.width for one in blanks}, reverse=True)
    if not lengths:
        return
    page, y = Page("Trimming gauges", GAUGES), _lengths(lengths, us, room)
    page.lines, page.words = y.lines, y.words
    _widths(page, widths, us, room)
    yield page


def _lengths(lengths: Sequence[float], us: bool, room: Room) -> Page:
    """Draw one bar a length from the stop line, as many as there is room for."""
    page = Page("", ())
    page.say(room.left, room.top + 2, "stop", bold=True)
    y = room.top + 4
    high = min(STEP_HIGH, (room.height - 8) / len(lengths) - 0.3)
    for length in lengths:
        page.box(room.left, y, 1000 * length, high)
        said = strip_said(length, 0, us).split(" × ")[0]
        page.say(room.left + 1000 * length + 1, y + high - 0.8, said, size=min(2.1, high))
        y += high + 0.3
    page.line((room.left, room.top + 3), (room.left, y), width=0.5)
    return page


def _widths(page: Page, widths: Sequence[float], us: bool, room: Room) -> None:
    """Draw one step a width at the right end of the page."""
    x, y = room.right - 34, room.top + 4
    page.say(x, room.top + 2, "widths", bold=True)
    for width in widths:
        high = 1000 * width
        page.box(x, y, 16, high)
        said = strip_said(0, width, us).split(" × ")[1]
        page.say(x + 17.5, y + high / 2 + 0.8, said, size=2.1)
        y += high + STEP_GAP
