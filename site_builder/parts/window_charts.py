"""The window chart of a rank: which bending lengths serve which slots, and what was chosen."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from formulas.valves.rank import rank_of, ranks_of
from formulas.valves.slot_choice import SlotChoice
from formulas.valves.stock import Stock, stocks
from formulas.valves.valves import choices
from formulas.valves.window_marks import (
    SMALL,
    WIDE,
    chart_row,
    chart_rows,
    chart_words,
    window_marks,
)
from site_builder.markup.elements import element
from site_builder.parts.charts import INK, PAPER, TINT, drawing
from site_builder.texts.valves import runs

if TYPE_CHECKING:
    from formulas.catalog import Catalog

Mark = Sequence[str]
LETTERS = "11"
KEY = (
    "The band is for the mass of what was chosen. Point: chosen alone. Ring with a dot: with a"
    " topper. Ring: with a helper."
)
INCH, MILLIMETRE = 0.0254, 0.001


def window_chart(catalog: Catalog, instrument: str, rank: str, *, wide: bool = False) -> Element:
    """Draw the window of a rank of an instrument as the shop has it. Raises UnknownName."""
    named = rank_of(catalog, instrument, rank)
    found = choices(catalog, instrument, rank)
    title = f"{named.name}: what serves, by slot and bending length"
    return chart_of(catalog, found, stocks(catalog), title, wide=wide)


def placed_chart(catalog: Catalog, argument: str) -> list[Element]:
    """Place the window chart of a rank of the shop's instrument. Raises UnknownName."""
    instrument = catalog.shop.instrument
    ranks = [one.rank for one in ranks_of(catalog, instrument)]
    if argument not in ranks:
        raise UnknownName("rank", argument, ranks)
    return [window_chart(catalog, instrument, argument)]


def chart_of(
    catalog: Catalog,
    found: Sequence[SlotChoice],
    known: Sequence[Stock],
    title: str,
    *,
    wide: bool = False,
) -> Element:
    """Draw the window of these choices. `known` are the stocks that they were made from."""
    us = catalog.shop.units == "US"
    size = WIDE if wide else SMALL
    shown = drawn_stocks(found, known)
    rows = chart_rows([note_row(one, known) for one in found])
    marks = window_marks(
        rows,
        [one.bending_length[1] for one in shown],
        [one.id for one in shown],
        size,
        INCH if us else MILLIMETRE,
        "in" if us else "mm",
    )
    described = chart_words(rows, [line.strip() for line in runs(found, us)], us)
    svg = drawing(title, described, *strokes(marks), size=f"0 0 {size[0]:g} {size[1]:g}")
    caption = element("figcaption", f"{title}. {KEY}")
    return element("figure", svg, caption, alt=described)


def drawn_stocks(found: Sequence[SlotChoice], known: Sequence[Stock]) -> list[Stock]:
    """Give the stocks that have a line: measured, and chosen or of a kind that was."""
    chosen = {one.stock for one in found}
    kinds = {one.kind for one in known if one.id in chosen}
    return [one for one in known if one.measured and (one.id in chosen or one.kind in kinds)]


def note_row(one: SlotChoice, known: Sequence[Stock]) -> list[float]:
    """Give a choice as `window_marks` asks for it."""
    ids = [stock.id for stock in known]
    places = [ids.index(name) if name else -1 for name in (one.stock, one.topper)]
    numbers = [stock.numbers for stock in known]
    return chart_row(one.slot.slot_length.estimate, one.window, [one.kind, *places], numbers)


def strokes(marks: Sequence[Mark]) -> list[Element]:
    """Turn marks into elements of a drawing; the page's script does the same."""
    return [stroke for mark in marks for stroke in STROKES[mark[0]](*mark[1:])]


def _region(places: str) -> list[Element]:
    return [element("polygon", points=places, fill=TINT)]


def _line(places: str, width: str, dash: str) -> list[Element]:
    more = {"stroke-width": width, "stroke-dasharray": dash}
    return [element("polyline", points=places, fill="none", stroke=INK, **more)]


def _dot(x: str, y: str, filled: str, inner: str) -> list[Element]:
    outline = {"stroke": INK, "stroke-width": "1.3"}
    fill = INK if filled == "yes" else PAPER
    ring = element("circle", cx=x, cy=y, r="2.6", fill=fill, **outline)
    return [ring, element("circle", cx=x, cy=y, r="1", fill=INK)] if inner == "yes" else [ring]


def _words(x: str, y: str, anchor: str, text: str) -> list[Element]:
    rim = {
        "stroke": PAPER, "stroke-width": "3", "stroke-linejoin": "round", "paint-order": "stroke",
        "text-anchor": anchor, "font-size": LETTERS,
    }  # fmt: skip
    return [element("text", text, x=x, y=y, fill=INK, **rim)]


STROKES: dict[str, Callable[..., list[Element]]] = {
    "region": _region,
    "line": _line,
    "dot": _dot,
    "words": _words,
}
