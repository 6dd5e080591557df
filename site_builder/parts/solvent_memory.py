"""What the tables of solvents hold from memory alone, for the list of all such values."""

from __future__ import annotations

from collections.abc import Iterator

from formulas.catalog import Catalog
from site_builder.markup.elements import span
from site_builder.parts.solvent_parts import NONE_SET, PRINTED

MEMORY = "memory"
TIMES = {"8h": "8 hours", "15min": "15 minutes", "ceiling": "ceiling"}


def remembered_solvents(catalog: Catalog) -> Iterator[tuple[str, str, str, str, str]]:
    """Give table, what, value, source and place of each row from memory."""
    for one in catalog.solvents.values():
        if one.basis == MEMORY:
            yield "solvents", one.name, one.used_for, one.source, one.where
    for row in catalog.solvent_facts:
        if row.basis == MEMORY and row.property in PRINTED:
            what = f"{catalog.solvents[row.solvent].name}, {PRINTED[row.property]}"
            yield "solvent facts", what, span(row.low, row.high, row.unit), row.source, row.where
    for limit in catalog.exposure_limits:
        if limit.basis == MEMORY:
            name = catalog.solvents[limit.solvent].name
            what = f"{name}, {limit.body} {limit.name} of {limit.year}, {TIMES[limit.kind]}"
            told = NONE_SET if limit.none_set else span(limit.value, limit.value, limit.unit)
            yield "exposure limits", what, told, limit.source, limit.where
    for name in catalog.solvents:
        codes = [row for row in catalog.solvent_hazards if row.solvent == name]
        rows = [row for row in codes if row.basis == MEMORY]
        if rows:
            told = " ".join(row.code for row in rows)
            who = catalog.solvents[name].name
            yield "solvent hazards", who, told, rows[0].source, rows[0].where
