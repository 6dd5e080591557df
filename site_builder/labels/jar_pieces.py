"""The pieces of a jar's label in words: which are never left off, which come first."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from formulas.units import spoken_unit
from site_builder.labels.piece import (
    BOLD,
    HELD,
    PLAIN,
    TO_WRITE,
    Piece,
    hazard_pieces,
    ranked,
    supplier_pieces,
)
from site_builder.markup.elements import number

# What is never left off. A label too small for these is refused.
NEEDED = {
    "name": "what is in it",
    "signal": "the signal word",
    "pictogram": "the pictograms",
    "hazard": "the hazard statements, and the supplemental ones",
    "not-known": "that its hazards are not known, and what to copy, where no row tells of them",
}

# What is put on while there is room, the most important first. The order is ours.
ORDER = {
    "first-precautions": "the most important precautions",
    "sheet": "the date of the data sheet to read, or that none is held",
    "filled": "the day it was filled",
    "use-by": "the day after which it is not used",
    "more-precautions": "the other precautions",
    "amount": "how much it holds",
    "place": "where it stands",
    "shop": "the name of the shop",
    "address": "address and telephone, or lines for them",
}
NOT_KNOWN = "Hazards not known here: copy the label of the bottle it came from."


def jar_pieces(found: dict[str, Any]) -> Iterable[Piece]:
    """Give the pieces of a jar's label, each with its importance."""
    yield _piece("name", found["name"], "", BOLD)
    yield from _days(found)
    yield from hazard_pieces(ORDER, found)
    if not found["hazards_known"]:
        yield _piece("not-known", NOT_KNOWN, "", BOLD)
    yield _sheet(found)
    yield from supplier_pieces(ORDER, found["supplier"])


def _piece(kind: str, text: str, rank: str, style: str = PLAIN) -> Piece:
    return ranked(ORDER, kind, text, rank, style, told=kind.replace("-", " "))


def _days(found: dict[str, Any]) -> Iterable[Piece]:
    amount = found["amount"]
    if amount is not None:
        held = f"{number(amount.value)}{HELD}{spoken_unit(amount.unit)}"
        yield _piece("amount", held, "amount")
    elif not found["on_the_shelf"]:
        yield _piece("amount", "Amount", "amount", TO_WRITE)
    for kind, label, day in (
        ("filled", "Filled", found["filled"]),
        ("use-by", f"Use{HELD}by", found["use_by"]),
    ):
        text = f"{label}{HELD}{day}" if day else label
        yield _piece(kind, text, kind, PLAIN if day else TO_WRITE)
    place = f"Place: {found['place']}" if found["place"] else ""
    yield _piece("place", place, "place")


def _sheet(found: dict[str, Any]) -> Piece:
    if found["sheet_date"]:
        return _piece("sheet", f"See the data sheet of {found['sheet_date']}", "sheet")
    if found["on_the_shelf"]:
        return _piece("sheet", "Data sheet not held: ask the supplier for it", "sheet")
    return _piece("sheet", "See the data sheet of", "sheet", TO_WRITE)
