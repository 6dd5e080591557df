"""What no single cell of the register of chemicals shows: half a data sheet, days that cannot be.

Every rule looks at whole rows only and reports all of its faults. How old a sheet is depends on
the day it is asked on and is no fault: that is told in `formulas.books.register`.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from formulas.fault import CellFault, hint
from formulas.table import Row

Rows = Mapping[str, Sequence[Row]]

HAZARDS = ("H", "EUH")
"""How the codes of hazard statements begin; a precaution is no hazard."""


def register_faults(rows: Rows) -> list[CellFault]:
    """Give every fault of the chemicals on the shelf."""
    known = {row["id"] for table in ("solvents.csv", "materials.csv") for row in rows[table]}
    codes = {row["code"] for row in rows["statements.csv"]} - {None}
    hazards = {code for code in codes if code.startswith(HAZARDS)}
    return [
        fault
        for row in rows["chemicals.csv"]
        if row.whole
        for fault in (
            *_named(row, known - {None}),
            *_amount(row),
            *_sheet(row),
            *_days(row),
            *_codes(row, hazards),
        )
    ]


def _named(row: Row, known: Collection[str]) -> Iterator[CellFault]:
    if row["solvent"] is not None and row["solvent"] not in known:
        accepted = "an id of solvents.csv or materials.csv, or nothing where it is neither"
        yield row.fault("solvent", accepted, hint(row["solvent"], known))


def _amount(row: Row) -> Iterator[CellFault]:
    if row["amount"] is not None and row["unit"] is None:
        yield row.fault("unit", "the unit of the amount beside it")
    if row["unit"] is not None and row["amount"] is None:
        yield row.fault("amount", f"how many {row['unit']} there are at most")


def _sheet(row: Row) -> Iterator[CellFault]:
    held = row["sheet_held"] == "yes"
    if held and row["sheet_date"] is None:
        yield row.fault("sheet_date", "the date printed on the data sheet that is held")
    if not held and row["sheet_date"] is not None:
        accepted = f"yes, for the data sheet of {row['sheet_date']}, or no date beside it"
        yield row.fault("sheet_held", accepted)


def _days(row: Row) -> Iterator[CellFault]:
    opened, use_by = row["opened"], row["use_by"]
    if opened is not None and use_by is not None and use_by < opened:
        yield row.fault("use_by", f"{opened} or later: it was opened on that day")


def _codes(row: Row, hazards: Collection[str]) -> Iterator[CellFault]:
    for code in (row["hazard_codes"] or "").split():
        if code not in hazards:
            yield CellFault(
                row.file,
                row.line,
                "hazard_codes",
                code,
                "hazard statements of statements.csv, blanks between",
                hint(code, hazards),
            )
