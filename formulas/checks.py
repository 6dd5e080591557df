"""What no single cell shows: rows that miss their partner, ends the wrong way round."""

from __future__ import annotations

import functools
from collections.abc import Iterable, Mapping
from pathlib import Path

from formulas.air.solvent_checks import solvent_faults
from formulas.book_checks import book_faults
from formulas.fault import CellFault, UnitFault, hint
from formulas.first_year_checks import first_year_faults
from formulas.job_checks import job_faults
from formulas.jobs.survey_checks import survey_faults
from formulas.leaf_checks import leaf_faults
from formulas.register_checks import register_faults
from formulas.safety_checks import safety_faults
from formulas.seat_checks import seat_faults
from formulas.table import Row, Schema
from formulas.term_checks import term_faults
from formulas.valve_checks import valve_faults

Rows = Mapping[str, list[Row]]


SPREADSHEETS = "~$"  # the mark that one lays beside a file it has open


def names(shop: Path, accepted: list[str], faults: list[CellFault]) -> None:
    """Report a table whose name is nearly one of ours: it would be left out in silence."""
    for path in sorted(shop.glob("*.csv")):
        ours = path.name in accepted or path.name.startswith(SPREADSHEETS)
        close = "" if ours else hint(path.name, accepted)
        if close:
            faults.append(
                CellFault(path.name, 1, "(file)", path.name, "a table of the shop folder", close)
            )


def references(rows: Rows, schemas: Mapping[str, Schema], faults: list[CellFault]) -> None:
    """Report every cell that names a row of another table which is not there."""
    for name, schema in schemas.items():
        for reference in schema["schema"].get("foreignKeys", []):
            column = reference["fields"]
            target = f"{reference['reference']['resource']}.csv".replace("-", "_")
            accepted = {row[reference["reference"]["fields"]] for row in rows[target]} - {None}
            faults.extend(_missing(rows[name], column, accepted, target))
    materials = {row["id"] for row in rows["materials.csv"]} - {None}
    methods = {row["id"] for row in rows["methods.csv"]} - {None}
    codes = {row["code"] for row in rows["statements.csv"]} - {None}
    faults.extend(_prices(rows))
    faults.extend(_missing(rows["lots.csv"], "material", materials, "materials.csv"))
    softening = [row for row in rows["facts.csv"] if row["property"] == "softening-point"]
    faults.extend(_missing(softening, "method", methods, "methods.csv"))
    faults.extend(
        row.fault("codes", "codes of statements.csv", hint(code, codes))
        for row in rows["cautions.csv"]
        for code in (row["codes"] or "").split()
        if code not in codes
    )


BESIDE = {"bench-hour", "screw", "pin", "hook", "solvent"}
"""Items that have a price and stand in no table."""
PRICED = ("materials.csv", "glues.csv", "gasket_materials.csv")


def _prices(rows: Rows) -> Iterable[CellFault]:
    """Report a price of something that no table knows."""
    known = {row["id"] for table in PRICED for row in rows[table]}
    known |= {row["stock"] for row in rows["valve_stock.csv"]} | BESIDE
    tables = ", ".join((*PRICED, "valve_stock.csv"))
    for row in rows["prices.csv"]:
        if row.whole and row["item"] not in known:
            accepted = f"an id of {tables}, or one of {', '.join(sorted(BESIDE))}"
            yield row.fault("item", accepted, hint(row["item"], known - {None}))


def _missing(
    rows: Iterable[Row], column: str, accepted: set[str], target: str
) -> Iterable[CellFault]:
    for row in rows:
        if row.whole and row[column] is not None and row[column] not in accepted:
            yield row.fault(column, f"an id of {target}", hint(row[column], accepted))


def rules(rows: Rows, faults: list[CellFault]) -> None:
    """Report what no single cell shows: ends the wrong way round, a source that is missing."""
    faults.extend(book_faults(rows))
    faults.extend(valve_faults(rows))
    faults.extend(safety_faults(rows))
    faults.extend(solvent_faults(rows))
    faults.extend(seat_faults(rows))
    faults.extend(survey_faults(rows))
    faults.extend(job_faults(rows))
    faults.extend(register_faults(rows))
    faults.extend(first_year_faults(rows))
    faults.extend(leaf_faults(rows))
    faults.extend(term_faults(rows))
    read = {row["id"] for row in rows["sources.csv"] if row["read"] != "no"}
    parted = {row["blend"] for row in rows["blend_parts.csv"]}
    rows = {name: [row for row in table if row.whole] for name, table in rows.items()}
    for name, low, high in (
        ("facts.csv", "low", "high"),
        ("figures.csv", "low", "high"),
        ("blends.csv", "service_low", "service_high"),
        ("blends.csv", "working_low", "working_high"),
    ):
        faults.extend(
            row.fault(high, f"{row[low]:g} or more, the low end beside it")
            for row in rows[name]
            if None not in (row[low], row[high]) and row[low] > row[high]
        )
    for table_rows in rows.values():
        faults.extend(
            row.fault("source", "an id of sources.csv that was read, where the basis is published")
            for row in table_rows
            if row.cells.get("basis") == "published"
            and "source" in row.cells
            and row["source"] not in read
        )
    faults.extend(
        row.fault("id", "a blend with at least one row in blend_parts.csv")
        for row in rows["blends.csv"]
        if row["id"] not in parted
    )
    faults.extend(
        row.fault("parts", "a number above 0")
        for row in rows["blend_parts.csv"]
        if row["parts"] == 0
    )
    _units(rows["facts.csv"], faults)
    _labels(rows, faults)


def _units(facts: list[Row], faults: list[CellFault]) -> None:
    """Report a unit of another kind than the one the property's first row has."""
    first: dict[str, str] = {}
    for row in facts:
        unit, usual = row["unit"] or "", first.setdefault(row["property"], row["unit"] or "")
        if unit != usual and row["low"] is not None and not _same_kind(unit, usual):
            faults.append(row.fault("unit", f"a unit of the same kind as {usual or 'none'}"))


PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height of the sheets of paper that are printed on, in mm."""
MILLIMETRES = {"mm": 1.0, "in": 25.4}
NEARLY_MM = 0.005  # thirds of an inch are written with five digits


def _labels(rows: Rows, faults: list[CellFault]) -> None:
    """Report a sheet of labels that overlap or leave the paper, and a rule with no statement."""
    codes = {row["code"] for row in rows["statements.csv"]}
    faults.extend(
        row.fault("gives", "codes of statements.csv", hint(code, codes))
        for row in rows["mixture_rules.csv"]
        for code in row["gives"].split()
        if code not in codes
    )
    for row in rows["label_stock.csv"]:
        each = MILLIMETRES[row["unit"]]
        ways = (("across", "left", "width"), ("down", "top", "height"))
        for (count, margin, size), end in zip(ways, PAPERS[row["paper"]], strict=True):
            pitch = f"pitch_{count}"
            if row[pitch] < row[size] - NEARLY_MM / each:
                faults.append(row.fault(pitch, f"{row[size]:g} or more, the {size} of a label"))
            last = row[margin] + (row[count] - 1) * row[pitch] + row[size]
            if last * each > end + NEARLY_MM:
                faults.append(row.fault(count, f"no more than fit on {end / each:g} {row['unit']}"))


@functools.cache
def _same_kind(unit: str, usual: str) -> bool:
    from formulas.units import quantity

    try:
        quantity(f"1 {unit}", usual)
    except UnitFault:
        return False
    return True
