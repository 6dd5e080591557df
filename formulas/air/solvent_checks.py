"""What no single cell of the tables of solvents shows: ends swapped, parts of nothing, rings."""

from __future__ import annotations

import graphlib
import re
from collections.abc import Iterator, Mapping, Sequence

from formulas.fault import CellFault, UnitFault, hint
from formulas.table import Row

Rows = Mapping[str, list[Row]]

KINDS = {
    "flash-point": "degC",
    "autoignition": "degC",
    "boiling-point": "degC",
    "explosive-lower": "percent",
    "explosive-upper": "percent",
    "molar-mass": "g/mol",
    "vapour-pressure": "kPa",
    "density": "kg/m**3",
    "antoine-a": "",
    "antoine-b": "K",
    "antoine-c": "K",
}
"""A unit of the kind that each property has."""
PART = re.compile(r"([a-z0-9-]+):(\d+(?:\.\d+)?)-(\d+(?:\.\d+)?)")
PARTS = "ids of solvents.csv with shares in percent, such as ethanol:90-96"
CUPS = ("closed-cup", "open-cup", "cup-not-stated")
CURVES = ("log10 of Pa", "ln of Pa")
RANGE = re.compile(r"[\d.]+ to [\d.]+ K")
ANTOINE = ("antoine-a", "antoine-b", "antoine-c")


def solvent_faults(all_rows: Rows) -> Iterator[CellFault]:
    """Give every fault of the tables of solvents that no cell shows alone."""
    names = {row["id"] for row in all_rows["solvents.csv"]} - {None}
    rows = {name: [row for row in table if row.whole] for name, table in all_rows.items()}
    tasks = {row["id"] for row in all_rows["cleaning_tasks.csv"]} - {None}
    yield from _solvents(rows["solvents.csv"], names, tasks)
    for row in rows["solvent_facts.csv"]:
        yield from _fact(row)
    yield from _curves(rows["solvent_facts.csv"])
    yield from _limits(rows["exposure_limits.csv"], names)
    yield from _twice(rows["solvent_hazards.csv"], ("solvent", "code"), "code")


def _solvents(rows: Sequence[Row], names: set[str], tasks: set[str]) -> Iterator[CellFault]:
    leads: dict[str, set[str]] = {}
    for row in rows:
        of, faults = _parts(row, names)
        yield from faults
        if row["stands_in"] is not None:
            of.add(row["stands_in"])
            if row["stands_in"] not in names:
                yield row.fault("stands_in", "an id of solvents.csv", hint(row["stands_in"], names))
        for task in (row["tasks"] or "").split():
            if task not in tasks:
                yield row.fault("tasks", "ids of cleaning_tasks.csv", hint(task, tasks))
        leads[row["id"]] = of
    ring = _ring(leads)
    yield from (
        row.fault("parts" if row["parts"] else "stands_in", "solvents that do not lead back to it")
        for row in rows
        if row["id"] in ring
    )


def _parts(row: Row, names: set[str]) -> tuple[set[str], list[CellFault]]:
    """Give the ids of a mixture's parts, and what is wrong with them."""
    found = [(text, PART.fullmatch(text)) for text in (row["parts"] or "").split()]
    if any(match is None for _, match in found):
        return set(), [row.fault("parts", PARTS)]
    shares = [(match[1], float(match[2]), float(match[3])) for _, match in found if match]
    faults = [
        row.fault("parts", "ids of solvents.csv", hint(name, names))
        for name, _, _ in shares
        if name not in names
    ]
    if any(low > high for _, low, high in shares):
        faults.append(row.fault("parts", "the low end of a share before its high end"))
    lowest, highest = sum(low for _, low, _ in shares), sum(high for _, _, high in shares)
    if shares and not lowest <= 100 <= highest:
        faults.append(row.fault("parts", "shares that can add up to 100 percent"))
    return {name for name, _, _ in shares}, faults


def _ring(leads: Mapping[str, set[str]]) -> set[str]:
    try:
        graphlib.TopologicalSorter(leads).prepare()
    except graphlib.CycleError as error:
        return set(error.args[1])
    return set()


def _fact(row: Row) -> Iterator[CellFault]:
    low, high, prop = row["low"], row["high"], row["property"]
    if (low is None) != (high is None):
        yield row.fault("high", "a number, where the low end stands, and none where it does not")
        return
    if low is None:
        return
    if low > high:
        yield row.fault("high", f"{low:g} or more, the low end beside it")
    if not _same_kind(row["unit"] or "", KINDS[prop]):
        yield row.fault("unit", f"a unit of the same kind as {KINDS[prop] or 'none'}")
    if prop == "flash-point" and row["method"] not in CUPS:
        yield row.fault("method", f"the cup: {', '.join(CUPS)}")
    if prop == "vapour-pressure" and not _same_kind_of_value(row["condition"]):
        yield row.fault("condition", "the heat at which it holds, such as 20 degC")
    if prop in ANTOINE and row["method"] not in CURVES:
        yield row.fault("method", f"what the constants give: {' or '.join(CURVES)}")
    if prop in ANTOINE and not RANGE.fullmatch(row["condition"] or ""):
        yield row.fault("condition", "the range they were drawn for, such as 277 to 370 K")


def _same_kind(unit: str, usual: str) -> bool:
    from formulas.units import quantity

    if not unit or usual in {"", "K"}:
        return unit == usual
    try:
        quantity(f"1 {unit}", usual)
    except UnitFault:
        return False
    return True


def _same_kind_of_value(text: str | None) -> bool:
    from formulas.units import quantity

    try:
        quantity(text or "", "degC")
    except UnitFault:
        return False
    return True


def _curves(rows: Sequence[Row]) -> Iterator[CellFault]:
    """Report constants that do not stand as one set of three."""
    sets: dict[str, list[Row]] = {}
    for row in rows:
        if row["property"] in ANTOINE:
            sets.setdefault(row["solvent"], []).append(row)
    for of in sets.values():
        held = [(row["property"], row["method"], row["condition"], row["source"]) for row in of]
        if sorted(one[0] for one in held) != list(ANTOINE) or len({one[1:] for one in held}) > 1:
            accepted = "each of the three constants once, of one method, range and source"
            yield of[0].fault("property", accepted)


def _limits(rows: Sequence[Row], names: set[str]) -> Iterator[CellFault]:
    for row in rows:
        if row["solvent"] not in names:
            yield row.fault("solvent", "an id of solvents.csv", hint(row["solvent"], names))
        if (row["value"] is None) != (row["none_set"] == "yes"):
            yield row.fault("value", "a limit, or none where none_set is yes")
        if (row["value"] is None) != (row["unit"] is None):
            yield row.fault("unit", "ppm or mg/m**3, where a limit stands, and none where not")
        if row["year"] is None:
            yield row.fault("year", "the year of the list: a limit without one is worth nothing")
    yield from _twice(rows, ("solvent", "body", "kind"), "kind")


def _twice(rows: Sequence[Row], columns: Sequence[str], told: str) -> Iterator[CellFault]:
    seen: set[tuple[str, ...]] = set()
    for row in rows:
        key = tuple(row[column] for column in columns)
        if key in seen:
            yield row.fault(told, f"each of {', '.join(columns)} once")
        seen.add(key)
