"""Labels for the strips of each note: to cut apart and keep with the cut valves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from formulas.cutting.blanks import strip_said
from formulas.valves.deciding import WITHOUT
from formulas.valves.valves import Chosen, chosen
from site_builder.true_scale.marks import Page, room_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog

WIDE, HIGH = 45.0, 17.0
LETTERS = 29
TOLD = (
    "Cut apart, one for each plate; keep it with its two valves from the board to the plate.",
    "Sizes are those of the valve as it is glued, not rounded up.",
)


def ticket_pages(catalog: Catalog, paper: str) -> Iterable[Page]:
    """Give the tickets of every plate of the shop's instrument, rank by rank."""
    room = room_of(paper)
    across, down = int(room.width // WIDE), int(room.height // HIGH)
    every = list(_plates(chosen(catalog, catalog.shop.instrument)))
    for start in range(0, len(every), across * down):
        page = Page("Labels for the valves of each plate", TOLD)
        for place, pair in enumerate(every[start : start + across * down]):
            x = room.left + place % across * WIDE
            y = room.top + place // across * HIGH
            _ticket(catalog, page, x, y, pair)
        yield page


def _plates(every: list[Chosen]) -> Iterator[tuple[Chosen, Chosen]]:
    """Give the two slots of each plate, the inside valve's first."""
    yield from zip(every[::2], every[1::2], strict=True)


def _ticket(catalog: Catalog, page: Page, x: float, y: float, pair: tuple[Chosen, Chosen]) -> None:
    page.box(x, y, WIDE, HIGH)
    first = pair[0]
    plate = f", plate {first.plate}" if first.plate else ""
    page.say(x + 1.5, y + 3.6, _short(f"{first.note}  {first.rank}{plate}"), bold=True)
    us = catalog.shop.units == "US"
    for place, one in enumerate(pair):
        stock = f"{one.stock} + {one.topper}" if one.topper else one.stock
        stock = stock or ("no valve" if one.kind == WITHOUT else "not decided")
        size = strip_said(one.length_m, one.width_m, us) if one.stock else ""
        line = y + 7.4 + 4.6 * place
        page.say(x + 1.5, line, _short(f"{one.face}: {stock}"), size=2.1)
        page.say(x + 4.5, line + 2.3, size, size=2.1)


def _short(text: str) -> str:
    return text if len(text) <= LETTERS else text[: LETTERS - 1] + "…"
