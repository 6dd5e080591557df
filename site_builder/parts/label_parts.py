"""Parts about labels: the sheets, the pictograms, the picture of one label."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.books.jar_label import jar_label
from formulas.books.label import label as answer_of
from formulas.fault import UnknownName
from formulas.units import printed
from site_builder.labels import jar_pieces
from site_builder.labels.fitting import laid, on_stock
from site_builder.labels.layout import Laid
from site_builder.labels.piece import Piece
from site_builder.labels.pieces import NEEDED, ORDER, pieces
from site_builder.labels.sheets import sheet, sizes
from site_builder.markup.elements import Cell, basis, element, noted_table, number, table
from site_builder.parts.pictograms import drawn

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog
    from formulas.hazard_entries import LabelStock

POINTS = 72 / 25.4  # a drawing is set at one point a unit, so that a label's is of its true size
PICTURED = {"a4": "a4-8-99x68", "letter": "letter-6-102x85"}
NAMED = "an id of blends.csv or of solvents.csv, or a batch of pot_book.csv"
SIGN_UNITS, APART = 100.0, 112.0
INK, QUIET, PAPER = "#000000", "#8a8a8a", "#ffffff"
TYPE = "DejaVu Sans Mono, ui-monospace, Menlo, Consolas, monospace"


def label(catalog: Catalog, argument: str) -> list[Element]:
    """Draw one label: `beeswax-rosin-4-1`, a batch or a solvent, with a sheet where it matters."""
    name, _, stock = argument.partition(" ")
    found = _answer(catalog, name)
    held = pieces(found, catalog)
    stock = stock.strip() or PICTURED[catalog.shop.paper]
    shape, made = on_stock(catalog, stock, held, found.answer["pictograms"])
    width, height = (f"{number(side, 1)}" for side in shape.label)
    said = "; ".join(piece.text for piece in held if piece not in made.left_off)
    signs = ", ".join(catalog.pictograms[one].name.lower() for one in found.answer["pictograms"])
    shown = f"Pictogram{'s' if ', ' in signs else ''}: {signs}. " if signs else ""
    alt = f"A label, {width} by {height} mm. {shown}It says: {said}."
    caption = element("figcaption", f"A label of {width} by {height} mm, on paper in true size")
    return [element("figure", picture(made), caption, alt=alt)]


def _answer(catalog: Catalog, name: str) -> Answer:
    if name in catalog.pot_book:
        return answer_of(catalog, batch=name)
    if name in catalog.blends:
        return answer_of(catalog, blend=name)
    if name in catalog.solvents:
        return jar_label(catalog, name)
    raise UnknownName(NAMED, name, [*catalog.blends, *catalog.pot_book, *catalog.solvents])


def picture(made: Laid) -> Element:
    """Draw a label as it is laid out, one unit a point."""
    width, height = made.width * POINTS, made.height * POINTS
    edge = element(
        "rect", x="0.5", y="0.5", width=_units(width - 1), height=_units(height - 1), rx="3",
        fill=PAPER, stroke=QUIET, **{"stroke-width": "0.8"},
    )  # fmt: skip
    marks = [*_signs(made), *_words(made), *_rules(made)]
    return element("svg", edge, *marks, viewBox=f"0 0 {_units(width)} {_units(height)}")


def _signs(made: Laid) -> Iterable[Element]:
    for sign in made.signs:
        scale = sign.width * POINTS / SIGN_UNITS
        place = f"translate({_units(sign.x * POINTS)} {_units(sign.y * POINTS)})"
        yield element("g", *drawn(sign.name), transform=f"{place} scale({printed(scale, 4)})")


def _words(made: Laid) -> Iterable[Element]:
    for words in made.words:
        for place, runs in enumerate(words.lines):
            spans = [
                element("tspan", text, **{"font-weight": "bold"} if bold else {})
                for text, bold in runs
            ]
            base = (words.y + place * words.pitch) * POINTS
            size = {"font-size": _units(words.size * POINTS), "font-family": TYPE}
            yield element(
                "text", *spans, x=_units(words.x * POINTS), y=_units(base), fill=INK, **size
            )


def _rules(made: Laid) -> Iterable[Element]:
    for rule in made.rules:
        left, base, right = (_units(v * POINTS) for v in (rule.x, rule.y, rule.x + rule.width))
        stroke = {"stroke": INK, "stroke-width": "0.5"}
        yield element("line", x1=left, y1=base, x2=right, y2=base, **stroke)


def _units(value: float) -> str:
    return printed(value, 2)


def label_stock(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate the sheets of labels, and what each has room for on a label of one blend."""
    found = _answer(catalog, argument)
    held = pieces(found, catalog)
    rows: list[list[Cell]] = [
        [
            one.name,
            element("code", one.id, whole="yes"),
            f"{number(one.left, 4)} and {number(one.top, 4)} {one.unit}",
            f"{number(one.pitch_across, 4)} and {number(one.pitch_down, 4)} {one.unit}",
            _room(catalog, one, held, found.answer["pictograms"]),
            [*basis(one.basis, one.source, one.where), f". {one.note}" if one.note else ""],
        ]
        for one in catalog.label_stock.values()
    ]
    name = catalog.blends[argument].name if argument in catalog.blends else argument
    sides = ["First label, from left and top", "From one to the next, across and down"]
    return [table(["Sheet", "Id", *sides, f"Left off, {name}", "Basis"], rows)]


def _room(catalog: Catalog, stock: LabelStock, held: list[Piece], signs: list[str]) -> str:
    made = laid(held, signs, sheet(catalog, stock.id).label, sizes(catalog))
    if made is None:
        return "too small: refused"
    return "; ".join(dict.fromkeys(piece.told for piece in made.left_off)) or "nothing"


def label_order(_: Catalog, __: str) -> list[Element]:
    """Tabulate what is never left off a label, and the order in which the rest is put on."""
    return [_order(NEEDED, ORDER)]


def jar_label_order(_: Catalog, __: str) -> list[Element]:
    """Tabulate the same of the label of a jar."""
    return [_order(jar_pieces.NEEDED, jar_pieces.ORDER)]


def _order(needed: Mapping[str, str], order: Mapping[str, str]) -> Element:
    rows = [["never left off", "; ".join(needed.values())]]
    rows += [[f"{place}", words] for place, words in enumerate(order.values(), start=1)]
    return table(["Order", "What"], rows)


def pictograms(catalog: Catalog, _: str) -> list[Element]:
    """Show the pictograms that the handbook draws, with their names and what they warn of."""
    signs = list(catalog.pictograms.values())
    drawings = [
        element("g", *drawn(one.id), _code(one.code), transform=f"translate({place * APART} 2)")
        for place, one in enumerate(signs)
    ]
    wide = APART * len(signs) - (APART - SIGN_UNITS)
    alt = "Pictograms, each a red square on its point with a black symbol on white. " + " ".join(
        f"{one.code}, {one.name.lower()}: {one.looks}" for one in signs
    )
    rows: list[list[Cell]] = [
        [
            one.code,
            one.name,
            one.looks,
            one.stands_for,
            basis(one.basis, one.source, one.where),
            one.note,
        ]
        for one in signs
    ]
    caption = element("figcaption", "Pictograms: red frame, black symbol, white ground")
    svg = element("svg", *drawings, viewBox=f"0 0 {wide:g} 120")
    head = ["Code", "Name", "What is seen", "Warns of", "Basis", "Note"]
    return [element("figure", svg, caption, alt=alt), noted_table(head, rows)]


def _code(code: str) -> Element:
    size = {"font-size": "12", "font-family": TYPE, "text-anchor": "middle"}
    return element("text", code, x="50", y="114", fill=INK, **size)


INCHES = {"in": "inches"}
"""The unit whose sign is a word of its own."""


def stock_sizes(stock: LabelStock) -> str:
    """Say the sizes of a sheet of labels in its own unit."""
    unit = INCHES.get(stock.unit, stock.unit)
    return (
        f"{stock.across} by {stock.down} labels of {number(stock.width)} by"
        f" {number(stock.height)}; the first {number(stock.left)} from the left and"
        f" {number(stock.top)} from the top; {number(stock.pitch_across)} and"
        f" {number(stock.pitch_down)} from one to the next; all in {unit}"
    )
