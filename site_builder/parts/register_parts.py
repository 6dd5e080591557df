"""The shelf on one page, and pages whose every letter is read from a distance."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.books.register import codes_of
from formulas.fault import NotKnown, UnknownName
from site_builder.markup.elements import day, element, number, paragraph, table
from site_builder.parts.bench_parts import form_lines

if TYPE_CHECKING:
    from formulas.air_entries import Chemical
    from formulas.catalog import Catalog

HEADS = ("In the jar", "Most", "Place", "Danger", "Data sheet", "Use by")
AT_THE_SHELF_M = 1.0
# About what the layout gives to the rows of the shelf, on the lower of the two papers, in mm.
ROOM_MM, LINE_MM, RIM_MM, BLANK_MM = 222.0, 5.1, 2.8, 9.2
CHARACTERS = (12, 8, 11, 18, 11, 11)  # on a line of each column
LEAST_BLANK, MOST_BLANK = 3, 14
TOLD = (
    "Danger: as its own label and data sheet say. Not known is not harmless."
    " What stands on the shelf and not on this page is written on it now."
)
NO_SHEET, NOT_KNOWN = "NONE: ask", "not known"
DISTANCE = "a distance of 1 to 5 m, such as 2 m"


def read_from(catalog: Catalog, argument: str) -> list[Element]:
    """Frame a page of its own that is read from a distance: `2 m`."""
    found = re.fullmatch(r"([1-5](?:\.\d)?) m", argument)
    if not found:
        raise UnknownName(DISTANCE, argument, [])
    return [_page(catalog, float(found[1]))]


def _page(catalog: Catalog, metres: float, *content: Element) -> Element:
    """Make a page on which no capital is lower than its distance asks."""
    capital = metres * catalog.span("reading-height-per-metre", "mm")[0]
    return element("onepage", *content, capital=number(capital))


def form_halves(catalog: Catalog, argument: str) -> list[Element]:
    """Rule lines to write on, two side by side where a page is read from a distance."""
    lines = form_lines(catalog, argument)
    for line in lines:
        line.set("half", "yes")
    return lines


def chemical_register(catalog: Catalog, _: str) -> list[Element]:
    """Set the chemicals of the shelf on one page, with rows to write on."""
    rows = [_row(catalog, one) for one in catalog.chemicals.values()]
    rows += [[""] * len(HEADS)] * _blank(rows)
    shop = f"{catalog.shop.name}{', invented' if catalog.shop.invented else ''}"
    head = element("h2", f"On the shelf: {shop}", id="on-the-shelf")
    return [_page(catalog, AT_THE_SHELF_M, head, table(HEADS, rows), paragraph(TOLD))]


def _blank(rows: Sequence[Sequence[str]]) -> int:
    """Give how many rows to write on stand below, so that the page is full and no more."""
    lines = sum(
        max(math.ceil(len(cell) / most) for cell, most in zip(row, CHARACTERS, strict=True))
        for row in rows
    )
    left = ROOM_MM - LINE_MM * lines - RIM_MM * len(rows)
    return int(min(MOST_BLANK, max(LEAST_BLANK, left // BLANK_MM)))


def _row(catalog: Catalog, one: Chemical) -> list[str]:
    amount = "" if one.amount is None else f"{number(one.amount)}\N{NO-BREAK SPACE}{one.unit}"
    return [
        one.chemical,
        amount or NOT_KNOWN,
        one.place,
        danger(catalog, one),
        day(one.sheet_date) if one.sheet_held else NO_SHEET,
        day(one.use_by) if one.use_by else "none set",
    ]


def danger(catalog: Catalog, one: Chemical) -> str:
    """Say what a chemical warns of: its signal word and its pictograms in words."""
    try:
        codes, _ = codes_of(catalog, one)
    except NotKnown:
        return NOT_KNOWN
    held = [catalog.statements[code] for code in sorted(codes)]
    signals = {statement.signal for statement in held}
    word = next((one for one in ("Danger", "Warning") if one in signals), "")
    signs = dict.fromkeys(statement.pictogram for statement in held if statement.pictogram)
    names = ", ".join(catalog.pictograms[sign].name.lower() for sign in signs)
    return ": ".join(part for part in (word.upper(), names) if part) or ", ".join(sorted(codes))
