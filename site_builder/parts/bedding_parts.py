"""Parts of the practice leaves: faults with their cures."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import (
    BASES,
    Cell,
    contents,
    element,
    noted_table,
    paragraph,
    table,
)
from site_builder.parts.bench_parts import known_id

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.entries import FaultAndCure

# The words over the columns, by the group that a table of faults shows.
HEADS = {
    "old-joint": ("What you see", "How to tell", "What it says", "What to do"),
    "joint": ("What you see or hear", "How to tell", "Cause", "Cure"),
    "mistake": ("Mistake", "How to tell", "Why it happens", "How to undo it"),
    "valve": ("What you see or hear", "How to tell", "Cause", "Cure"),
    "valve-mistake": ("Mistake", "How to tell", "Why it happens", "How to undo it"),
    "first-year": ("Mistake", "How it looks, how to tell", "Why it happens", "What to do at once"),
}
UNDO = "To undo the cure"
LEARNED = "first-year"
ASK = "Stop and ask."


def faults(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate the faults of one group, and say once what all of its rows rest on."""
    held = {one.group for one in catalog.faults_and_cures.values()}
    heads = HEADS[known_id(argument, held, "a group of faults_and_cures.csv")]
    rows = [one for one in catalog.faults_and_cures.values() if one.group == argument]
    return [noted_table([*heads, UNDO], [_cells(one) for one in rows]), *_rests(rows)]


def mistakes(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate mistakes to expect of who learns, by their ids, each with how to undo it."""
    held = {one.id: one for one in catalog.faults_and_cures.values() if one.group == LEARNED}
    kind = "an id of faults_and_cures.csv, group first-year"
    rows = [held[known_id(name, held, kind)] for name in argument.split() or [""]]
    heads = [*HEADS[LEARNED], "How to undo it"]
    return [table(heads, [_named(_cells(one)) for one in rows]), *_rests(rows)]


def _named(cells: list[Cell]) -> list[Cell]:
    first, *rest = cells
    return [element("strong", *contents(first)), *rest]


def _cells(fault: FaultAndCure) -> list[Cell]:
    cure: Cell = [element("strong", ASK), f" {fault.cure}"] if fault.ask else fault.cure
    return [fault.symptom, fault.how_to_tell, fault.cause, cure, fault.undo]


def _quoted(symptoms: Sequence[str]) -> str:
    return ", ".join(f'"{symptom}"' for symptom in symptoms)


def _rests(rows: Sequence[FaultAndCure]) -> list[Element]:
    """Say what the rows rest on: together where it is the same, by name where it differs."""
    kinds: dict[str, list[str]] = {}
    for row in rows:
        kinds.setdefault(row.basis, []).append(row.symptom)
    usual, *others = sorted(kinds, key=lambda kind: -len(kinds[kind]))
    told = "; ".join(f"{BASES[kind][0]}: {_quoted(kinds[kind])}" for kind in others)
    but = f"; but {told}" if told else ""
    return [paragraph(f"Basis of the rows: {BASES[usual][0]}{but}.")]
