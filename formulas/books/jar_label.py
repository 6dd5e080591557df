"""What a label says of a jar: a chemical of the shelf, or a solvent filled into one.

The statements of the chemical's own data sheet count before the tables'. Where neither tells of
it the label says that its hazards are not known, and what to copy: never that there are none.
"""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, Any

from formulas.answer import Answer, Basis, Quantity
from formulas.books.hazard_class import HazardClass, of_codes
from formulas.books.label import drawn, left_off, supplier
from formulas.books.register import SHEET, codes_in_tables, codes_of
from formulas.fault import NotKnown, UnknownName

if TYPE_CHECKING:
    from formulas.air_entries import Chemical
    from formulas.catalog import Catalog

NOT_OVER_A_MAKERS = "A maker's label stays on its bottle: this one is for what is filled over."
NO_HAZARDS = HazardClass("", (), (), (), (), (), (), ())


def jar_label(catalog: Catalog, name: str) -> Answer:
    """Give every element of the label of one jar.

    `name` is a chemical of the shelf, or the id of a solvent: what only the shelf tells is then
    left to be written. Raises UnknownName for a name of neither.
    """
    if name in catalog.chemicals:
        return _of(catalog, catalog.chemicals[name])
    if name not in catalog.solvents:
        raise UnknownName("jar", name, [*catalog.chemicals, *catalog.solvents])
    solvent = catalog.solvents[name]
    try:
        codes = codes_in_tables(catalog, name, solvent.name)
    except NotKnown:
        return _answer(catalog, solvent.name, None, NO_HAZARDS, name)
    hazards = of_codes(catalog, codes, solvent.name, _of_table(catalog, name))
    return _answer(catalog, solvent.name, None, hazards, name)


def _of(catalog: Catalog, one: Chemical) -> Answer:
    try:
        codes, told_by = codes_of(catalog, one)
    except NotKnown:
        return _answer(catalog, one.chemical, one, NO_HAZARDS, one.chemical)
    of_sheet = Basis(f"hazard statements of {one.chemical}, from its {SHEET}", one.basis)
    because = of_sheet if told_by == SHEET else _of_table(catalog, one.solvent)
    hazards = of_codes(catalog, codes, one.chemical, because)
    return _answer(catalog, one.chemical, one, hazards, one.chemical)


def _of_table(catalog: Catalog, name: str) -> Basis:
    """Give what the statements of a solvent or material rest on: the weakest of its rows."""
    rows = [(row.basis, row.source) for row in catalog.solvent_hazards if row.solvent == name]
    rows += [(row.basis, row.source) for row in catalog.hazards if row.material == name]
    basis, source = next((row for row in rows if row[0] != "published"), rows[0])
    return Basis(f"hazard statements of {name}", basis, source if basis == "published" else "")


def _answer(
    catalog: Catalog, name: str, one: Chemical | None, hazards: HazardClass, asked: str
) -> Answer:
    known = bool(hazards.hazards or hazards.supplements)
    amount = None if one is None or one.amount is None else Quantity(one.amount, one.unit)
    found: dict[str, Any] = {
        "jar": asked,
        "name": name,
        "batch": "",
        "on_the_shelf": one is not None,
        "amount": amount,
        "filled": one.opened if one else "",
        "use_by": one.use_by if one else "",
        "place": one.place if one else "",
        "sheet_held": bool(one and one.sheet_held),
        "sheet_date": one.sheet_date if one else "",
        **hazards.elements(),
        "hazards_known": known,
        "supplier": supplier(catalog),
    }
    row = [] if one is None else [Basis(f"row of {one.chemical} in chemicals.csv", one.basis)]
    inputs = {"jar": asked, "chemical": None if one is None else dataclasses.asdict(one)}
    notes = left_off(found)
    if hazards.pictograms:
        notes.append(f"Pictograms: {drawn(catalog, found)}.")
    notes.append(NOT_OVER_A_MAKERS)
    cautions = catalog.warned("label-jar")
    return Answer("label-jar", found, inputs, [*row, *hazards.basis], cautions, notes)
