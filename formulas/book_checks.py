"""What no single cell of the shop's books shows: names that name nothing, halves of a statement.

Every rule looks at whole rows only and reports all of its faults.
"""

from __future__ import annotations

import functools
import graphlib
from collections.abc import Iterable, Iterator, Mapping, Sequence

from formulas.fault import CellFault, UnitFault, hint
from formulas.ratio import parts_read, revision_of
from formulas.table import Row

Rows = Mapping[str, list[Row]]

CREEP = "step-creep"
CREEP_ONLY = ("plate", "own_stress", "load")


def book_faults(all_rows: Rows) -> list[CellFault]:
    """Give every fault of the four books, and of the names they share with other tables."""
    names = _Names(all_rows)
    rows = {name: [row for row in table if row.whole] for name, table in all_rows.items()}
    return [
        *_batches(rows["pot_book.csv"], names),
        *_draws(rows["pot_lots.csv"], names),
        *_uses(rows["pot_uses.csv"], names),
        *_tests(rows["softening_tests.csv"], names),
    ]


class _Names:
    """The names that the books may use, faulty rows included: a fault is told once."""

    def __init__(self, rows: Rows) -> None:
        def column(table: str, name: str) -> dict[str, Row]:
            return {row[name]: row for row in rows[table] if row[name] is not None}

        self.batches = column("pot_book.csv", "batch")
        self.blends = column("blends.csv", "id")
        self.materials = column("materials.csv", "id")
        self.lots = column("lots.csv", "lot")
        self.methods = [row["id"] for row in rows["methods.csv"] if row["estimated"] == "yes"]
        self.samples = {**self.materials, **self.blends, **self.batches}


def _named(row: Row, column: str, accepted: Mapping[str, Row], what: str) -> Iterator[CellFault]:
    name = row[column]
    if name is not None and name not in accepted:
        yield row.fault(column, what, hint(name, accepted))


def _with_unit(row: Row, column: str, unit: str) -> Iterator[CellFault]:
    if row[column] is not None and row[unit] is None:
        yield row.fault(unit, f"a unit, where {column} stands")


def _batches(rows: Sequence[Row], names: _Names) -> Iterator[CellFault]:
    others = {"blends.csv": names.blends, "materials.csv": names.materials, "lots.csv": names.lots}
    for row in rows:
        for file, taken in others.items():
            if row["batch"] in taken:
                yield row.fault("batch", f"a name that does not stand in {file} as well")
        yield from _named(row, "blend", names.blends, "an id of blends.csv")
        yield from _parts(row, names)
        yield from _with_unit(row, "yield", "unit")
        yield from _with_unit(row, "top_temperature", "temperature_unit")


def _parts(row: Row, names: _Names) -> Iterator[CellFault]:
    try:
        parts, revision = _ratio(row["parts"])
    except UnitFault as fault:
        yield row.fault("parts", fault.accepted)
        return
    for material in parts:
        if material not in names.materials:
            also = hint(material, names.materials)
            yield row.fault("parts", "ids of materials.csv, each with its part", also)
    if row["revision"] not in {None, revision}:
        yield row.fault("revision", f"{revision}, which stands for these parts, or nothing")


@functools.cache
def _ratio(text: str) -> tuple[tuple[str, ...], str]:
    parts = parts_read(text)
    return tuple(parts), revision_of(parts)


def _draws(rows: Sequence[Row], names: _Names) -> Iterator[CellFault]:
    within: dict[str, set[str]] = {}
    for row in rows:
        for column in ("target", "actual"):
            if row[column] is not None and row["unit"] is None:
                yield row.fault("unit", f"a unit, where {column} stands")
                break
        if row["material"] is not None:
            yield from _raw(row, names)
        else:
            yield from _old_wax(row, names)
            within.setdefault(row["batch"], set()).add(row["lot"] or "")
    yield from _rings(rows, within)


def _raw(row: Row, names: _Names) -> Iterator[CellFault]:
    yield from _named(row, "material", names.materials, "an id of materials.csv")
    yield from _named(row, "lot", names.lots, "a lot of lots.csv, or nothing where not known")
    lot = names.lots.get(row["lot"])
    if lot and lot["material"] not in {None, row["material"]}:
        yield row.fault("material", f"{lot['material']}, which is what lot {row['lot']} holds")


def _old_wax(row: Row, names: _Names) -> Iterator[CellFault]:
    if row["lot"] is None:
        yield row.fault("material", "an id of materials.csv, or an older batch as the lot")
    elif row["lot"] in names.lots:
        yield row.fault("material", f"{names.lots[row['lot']]['material']}, what that lot holds")
    else:
        yield from _named(
            row, "lot", names.batches, "an older batch of pot_book.csv, where no material stands"
        )
    made, older = names.batches.get(row["batch"]), names.batches.get(row["lot"])
    dates = [one["date"] for one in (made, older) if one and one["date"] is not None]
    if len(dates) > 1 and dates[1] > dates[0]:
        yield row.fault("lot", f"a batch made by {dates[0]}, the day of this one")


def _rings(rows: Sequence[Row], within: Mapping[str, set[str]]) -> Iterator[CellFault]:
    try:
        graphlib.TopologicalSorter(within).prepare()
    except graphlib.CycleError as error:
        ring = list(dict.fromkeys(error.args[1]))
        for row in rows:
            if row["material"] is None and row["batch"] in ring and row["lot"] in ring:
                yield row.fault("lot", "an older batch, and none that this one went into")
                return


def _uses(rows: Sequence[Row], names: _Names) -> Iterator[CellFault]:
    for row in rows:
        yield from _named(row, "batch", names.batches, "a batch of pot_book.csv")
        yield from _with_unit(row, "amount", "unit")


def _tests(rows: Sequence[Row], names: _Names) -> Iterator[CellFault]:
    sample = "a batch of pot_book.csv, else an id of blends.csv, else one of materials.csv"
    for row in rows:
        if row["method"] not in names.methods:
            accepted = f"one of {', '.join(names.methods)}"
            yield row.fault("method", accepted, hint(row["method"], names.methods))
        yield from _named(row, "sample", names.samples, sample)
        yield from _named(row, "other", names.samples, sample)
        for lot in (row["lots"] or "").split():
            if lot not in names.lots:
                yield row.fault("lots", "lots of lots.csv", hint(lot, names.lots))
        yield from RESULTS[row["result"]](row)
        yield from _creep(row)


def _reading(row: Row) -> Iterator[CellFault]:
    if row["low"] is None:
        yield row.fault("low", "the temperature that was read")
    yield from _blank(row, ("high", "other"), "for a reading")
    yield from _with_unit(row, "low", "unit")


def _bounds(row: Row) -> Iterator[CellFault]:
    low, high = row["low"], row["high"]
    if low is None and high is None:
        yield row.fault("low", "the highest step that held, or in high the lowest that moved")
    elif low is not None and high is not None and low >= high:
        yield row.fault("high", f"more than {low:g}, the step beside it that held")
    yield from _blank(row, ("other",), "for bounds")
    yield from _with_unit(row, "low" if low is not None else "high", "unit")


def _firmer(row: Row) -> Iterator[CellFault]:
    if row["other"] is None:
        yield row.fault("other", "the sample that moved first")
    elif row["other"] == row["sample"]:
        yield row.fault("other", "another sample than the one that outlasted it")
    yield from _blank(row, ("low", "high"), "where two samples were compared")


RESULTS = {"reading": _reading, "bounds": _bounds, "firmer": _firmer}


def _blank(row: Row, columns: Iterable[str], when: str) -> Iterator[CellFault]:
    for column in columns:
        if row[column] is not None:
            yield row.fault(column, f"nothing {when}")


def _creep(row: Row) -> Iterator[CellFault]:
    if not row["method"].startswith(CREEP):
        yield from _blank(row, CREEP_ONLY, f"for any method but {CREEP}")
        return
    for column in CREEP_ONLY:
        if row[column] is None:
            yield row.fault(column, f"what {CREEP} needs: its plate, own_stress and load")
