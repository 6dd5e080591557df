"""The pieces of a wax label in words: which are never left off, which come first."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from formulas.answer import Answer, Band
from formulas.catalog import Catalog
from site_builder.labels.jar_pieces import jar_pieces
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
from site_builder.texts.words import band_shown, span

# What is never left off. A label too small for these is refused.
NEEDED = {
    "name": "what it is: the name of the blend",
    "ratio": "the ratio, in parts by mass",
    "batch": "the batch, or a line for it",
    "wax": "that the wax is reclaimed, where it is",
    "signal": "the signal word",
    "pictogram": "the pictogram",
    "hazard": "the hazard statement",
    "supplement": "the statements of a blend that is not classified but holds a sensitiser",
}

# What is put on while there is room, the most important first. The order is ours.
ORDER = {
    "shop": "the name of the shop",
    "date": "the date it was made",
    "first-precautions": "gloves, what to do on the skin, when to see a doctor",
    "address": "address and telephone, or lines for them",
    "retest": "the day by which it is tested again",
    "more-precautions": "how to throw it away, work clothes, dust and fume",
    "not-known": "materials whose hazards are not known here",
    "softening": "the softening with its test method and band",
    "lots": "the lots of the materials",
    "weighed": "what was really weighed",
    "fresh": "that the wax is fresh",
}
TOLD = {
    "not-known": "hazards not known",
    "retest": "test again by",
    "weighed": "weighed masses",
    "wax": "fresh wax",
}
RATIO = re.compile(r"(?<=\d) to (?=\d)")  # stays in one line


def pieces(answer: Answer, catalog: Catalog) -> list[Piece]:
    """Give the pieces of a label in reading order."""
    found = answer.answer
    if "jar" in found:
        return sorted((one for one in jar_pieces(found) if one.text), key=lambda one: one.place)
    made = [
        *_identity(found),
        *hazard_pieces(ORDER, found),
        *_not_known(found),
        *_facts(found, catalog),
        *supplier_pieces(ORDER, found["supplier"]),
    ]
    return sorted((piece for piece in made if piece.text), key=lambda piece: piece.place)


def _piece(kind: str, text: str, rank: str, style: str = PLAIN) -> Piece:
    return ranked(ORDER, kind, text, rank, style, told=TOLD.get(kind, kind))


def _identity(found: dict[str, Any]) -> Iterable[Piece]:
    yield _piece("name", RATIO.sub(f"{HELD}to{HELD}", found["name"]), "", BOLD)
    parts = "; ".join(f"{number(one['parts'])}{HELD}{one['name']}" for one in found["parts"])
    yield _piece("ratio", f"Parts by mass: {parts}", "")
    if found["batch"]:
        yield _piece("batch", f"Batch {found['batch']}", "", BOLD)
    else:
        yield _piece("batch", "Batch", "", TO_WRITE)
    if found["date"]:
        yield _piece("date", f"Made{HELD}{found['date']}", "date")
    else:
        yield _piece("date", "Made", "date", TO_WRITE)
    if found["wax"] == "fresh":
        yield _piece("wax", "Fresh wax", "fresh")
    elif found["wax"]:
        said = {"reclaimed": "RECLAIMED WAX", "mixed": "FRESH AND RECLAIMED WAX"}
        yield _piece("wax", said.get(found["wax"], found["wax"]), "", BOLD)


def _not_known(found: dict[str, Any]) -> Iterable[Piece]:
    if found["not_known"]:
        names = "; ".join(found["not_known"])
        rank = "not-known" if found["hazard_statements"] or found["supplemental"] else ""
        yield _piece("not-known", f"Hazards not known here: {names}. Read the data sheet.", rank)


def _facts(found: dict[str, Any], catalog: Catalog) -> Iterable[Piece]:
    band = found["softening"]
    if isinstance(band, Band):
        shown = span(band_shown(band, catalog)).replace(" °", HELD + "°")
        method = catalog.methods[band.method].name.lower()
        text = f"Estimate: softens at {shown} by {method}; no service limit."
        yield _piece("softening", text, "softening")
    if found["batch"]:
        by = found["retest_by"]
        retest = f"Test again by {by}" if by else "Test again by"
        yield _piece("retest", retest, "retest", PLAIN if by else TO_WRITE)
    yield _piece("lots", f"Lots: {', '.join(found['lots'])}" if found["lots"] else "", "lots")
    weighed = "; ".join(
        f"{number(one['mass'].value)}{HELD}{one['mass'].unit} {one['of']}"
        for one in found["weighed"]
    )
    yield _piece("weighed", f"Weighed: {weighed}" if weighed else "", "weighed")
