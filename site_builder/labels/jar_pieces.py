"""The pieces of a jar's label in words: which are never left off, which come first."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from formulas.units import spoken_unit
from site_builder.labels.piece import BOLD, HELD, PLAIN, TO_WRITE, Piece
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
FIRST_PRECAUTIONS = 3
NOT_KNOWN = "Hazards not known here: copy the label of the bottle it came from."


def jar_pieces(found: dict[str, Any]) -> Iterable[Piece]:
    """Give the pieces of a jar's label, each with its importance."""
    yield _piece("name", found["name"], "", BOLD)
    yield from _days(found)
    yield _piece("signal", found["signal_word"], "", BOLD)
    for one in found["hazard_statements"]:
        yield _piece("hazard", one.text, "")
    for one in found["supplemental"]:
        yield _piece("supplement", one.text, "")
    for place, one in enumerate(found["precautionary_statements"]):
        rank = "first-precautions" if place < FIRST_PRECAUTIONS else "more-precautions"
        yield _piece("precaution", one.text, rank, told=one.code)
    if not found["hazards_known"]:
        yield _piece("not-known", NOT_KNOWN, "", BOLD)
    yield from _foot(found)


def _piece(kind: str, text: str, rank: str, style: str = PLAIN, told: str = "") -> Piece:
    importance = list(ORDER).index(rank) + 1 if rank in ORDER else 0
    return Piece(kind, text, importance, style, told or kind.replace("-", " "))


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


def _foot(found: dict[str, Any]) -> Iterable[Piece]:
    if found["sheet_date"]:
        yield _piece("sheet", f"See the data sheet of {found['sheet_date']}", "sheet")
    elif found["on_the_shelf"]:
        yield _piece("sheet", "Data sheet not held: ask the supplier for it", "sheet")
    else:
        yield _piece("sheet", "See the data sheet of", "sheet", TO_WRITE)
    supplier = found["supplier"]
    yield _piece("shop", supplier["name"], "shop")
    for kind in ("address", "telephone"):
        text = supplier[kind]
        style = PLAIN if text else TO_WRITE
        yield _piece(kind, text or kind.capitalize(), "address", style)
