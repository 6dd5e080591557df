"""Enter what was put on the shelf that can harm, with its data sheet."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from formulas.answer import Answer, Quantity
from formulas.books.appending import Cell
from formulas.books.record_entry import Added, basis_of
from formulas.books.register import NOT_KNOWN, codes_of, register_notices
from formulas.fault import NotKnown, UnknownName

if TYPE_CHECKING:
    from formulas.air_entries import Chemical
    from formulas.catalog import Catalog


def record_chemical(catalog: Catalog, one: Chemical, on: str) -> tuple[Answer, Added]:
    """Give the answer and the new row of a chemical; `on` is the day that ages are told against.

    Raises UnknownName for an id of neither solvents.csv nor materials.csv. A name that stands
    already is refused when the row is checked: it is changed in the file.
    """
    known = [*catalog.solvents, *catalog.materials]
    if one.solvent and one.solvent not in known:
        raise UnknownName("solvent or material", one.solvent, known)
    one = dataclasses.replace(one, basis=basis_of(catalog))
    after = dataclasses.replace(catalog, chemicals={**catalog.chemicals, one.chemical: one})
    try:
        codes, told_by = codes_of(catalog, one)
    except NotKnown:
        codes, told_by = (), ""
    answer: dict[str, Any] = {
        "chemical": one.chemical,
        "solvent": one.solvent or None,
        "amount": None if one.amount is None else Quantity(one.amount, one.unit),
        "place": one.place,
        "sheet_date": one.sheet_date or None,
        "use_by": one.use_by or None,
        "hazard_codes": list(codes),
        "hazards_from": told_by or None,
    }
    row: dict[str, Cell] = {
        **dataclasses.asdict(one),
        "sheet_held": "yes" if one.sheet_held else "no",
        "hazard_codes": " ".join(one.hazard_codes),
    }
    notes = list(_notes(catalog, after, one, told_by, on))
    cautions = catalog.warned("record-chemical")
    inputs = dataclasses.asdict(one)
    found = Answer("record-chemical", answer, inputs, [], cautions, notes)
    return found, {"chemicals.csv": [row]}


def _notes(before: Catalog, after: Catalog, one: Chemical, told_by: str, on: str) -> Iterator[str]:
    if not told_by:
        yield f"Its hazards are not known here: {NOT_KNOWN}"
    said = set(register_notices(before, on))
    yield from (notice for notice in register_notices(after, on) if notice not in said)
    yield f'Its label: benchbinder label --jar "{one.chemical}"'
