"""Sheets of labels in millimetres: where each label stands, and the sizes that every one keeps."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable

from formulas.catalog import Catalog
from formulas.checks import PAPERS
from formulas.fault import OutOfRange, UnknownName
from formulas.frozen import Frozen
from formulas.hazard_entries import LabelStock
from formulas.units import convert

X_HEIGHT = 1120 / 2048  # of the type that labels are set in, DejaVu Sans Mono, in its size
SIZES = ("left", "top", "pitch_across", "pitch_down", "width", "height")
MOST_COPIES = 2000


class Sheet(Frozen):
    """A sheet of labels in millimetres, the places of the labels row by row."""

    id: str
    paper: tuple[float, float]
    label: tuple[float, float]
    places: tuple[tuple[float, float], ...]
    cut: bool


class Sizes(Frozen):
    """The sizes that every label keeps, in millimetres, from the bench figures."""

    type_size: float
    line: float
    rim: float
    writing: float
    pictogram: Callable[[float, float], float]


def sheet(catalog: Catalog, name: str) -> Sheet:
    """Give a sheet of labels in millimetres. Raises UnknownName."""
    if name not in catalog.label_stock:
        raise UnknownName("label stock", name, catalog.label_stock)
    stock = catalog.label_stock[name]
    left, top, across, down, width, height = (_mm(stock, size) for size in SIZES)
    places = tuple(
        (left + column * across, top + row * down)
        for row in range(stock.down)
        for column in range(stock.across)
    )
    return Sheet(name, PAPERS[stock.paper], (width, height), places, stock.cut)


def _mm(stock: LabelStock, size: str) -> float:
    return convert(getattr(stock, size), stock.unit, "mm")


def sizes(catalog: Catalog) -> Sizes:
    """Give the sizes of every label from the bench figures."""
    size = catalog.span("label-x-height", "mm")[0] / X_HEIGHT
    least, wished = (
        catalog.span(name, "mm")[0] for name in ("pictogram-side-least", "pictogram-side-wished")
    )
    part = catalog.figure("pictogram-part").low

    def tip_to_tip(width: float, height: float) -> float:
        side = min(wished, max(least, math.sqrt(width * height / part)))
        return side * math.sqrt(2)

    return Sizes(
        size,
        size * catalog.span("label-line-spacing", "dimensionless")[0],
        catalog.span("label-bare-rim", "mm")[0],
        catalog.span("label-writing-height", "mm")[0],
        tip_to_tip,
    )


def filled(sheet_of: Sheet, copies: int, start: int) -> list[list[tuple[float, float]]]:
    """Give the places of `copies` labels, sheet by sheet, from the free place `start` on.

    Raises OutOfRange for a place that the sheet does not have, or for no label.
    """
    count = len(sheet_of.places)
    if not 1 <= start <= count:
        raise OutOfRange("first free place", start, f"1 to {count}", sheet_of.id)
    if not 1 <= copies <= MOST_COPIES:
        raise OutOfRange("copies", copies, f"1 to {MOST_COPIES}", "one print")
    wanted = itertools.islice(itertools.count(start - 1), copies)
    sheets: dict[int, list[tuple[float, float]]] = {}
    for place in wanted:
        sheets.setdefault(place // count, []).append(sheet_of.places[place % count])
    return list(sheets.values())
