"""What no single cell of the job books shows: names that name nothing, an order that cannot be.

Every rule looks at whole rows only and reports all of its faults.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence

from formulas.fault import CellFault, hint
from formulas.table import Row

Rows = Mapping[str, Sequence[Row]]

OPENED = "opened"
AFTER = {
    "opened": (),
    "reopened": ("done", "dropped"),
    "done": ("opened", "reopened"),
    "dropped": ("opened", "reopened"),
}
"""What may have happened to a job just before each event; before it is opened nothing has."""
MASSES = ("g", "kg", "oz", "lb")
KINDS = {
    "lot": ("lots.csv", "lot", MASSES),
    "batch": ("pot_book.csv", "batch", MASSES),
    "stock": ("valve_stock.csv", "stock", ("pieces",)),
    "skin": ("skins.csv", "skin", ("pieces",)),
    "item": ("prices.csv", "item", (*MASSES, "pieces")),
}
"""Where a thing that is kept back stands, in which column, and the units it is kept in."""
FILE = re.compile(r"[^/\\\s]+\.toml")


def job_faults(rows: Rows) -> list[CellFault]:
    """Give every fault of jobs, of what is kept back for them, and of what they took."""
    whole = {name: [row for row in table if row.whole] for name, table in rows.items()}
    named = _ids(rows["jobs.csv"], "job")
    begun = _begun(whole["jobs.csv"])
    return [
        *_events(whole["jobs.csv"]),
        *_counts(whole["jobs.csv"]),
        *_kept(whole["reservations.csv"], rows),
        *_cut(whole["stock_uses.csv"], rows),
        *_steps(whole["hours.csv"], rows),
        *_in_time(whole, begun, named),
    ]


def _named(row: Row, column: str, accepted: Collection[str], what: str) -> Iterator[CellFault]:
    if row[column] is not None and row[column] not in accepted:
        yield row.fault(column, what, hint(row[column], accepted))


def _ids(rows: Sequence[Row], column: str) -> set[str]:
    """Give the names in a column, those of faulty rows with them: a fault is told once."""
    return {row[column] for row in rows} - {None}


def _by_day(jobs: Sequence[Row]) -> dict[str, list[Row]]:
    """Give what happened to each job, by date and then in the order of the file."""
    events: dict[str, list[Row]] = {}
    for row in sorted(jobs, key=lambda row: row["date"]):
        events.setdefault(row["job"], []).append(row)
    return events


def _events(jobs: Sequence[Row]) -> Iterator[CellFault]:
    for events in _by_day(jobs).values():
        before: Row | None = None
        for row in events:
            if (before["what"] if before else None) not in (AFTER[row["what"]] or (None,)):
                yield row.fault("what", _wanted(before))
            else:
                before = row


def _wanted(before: Row | None) -> str:
    if before is None:
        return f"{OPENED}, the first that happens to a job"
    may = " or ".join(what for what, earlier in AFTER.items() if before["what"] in earlier)
    return f"{may}, after the line {before.line} that says {before['what']}"


def _counts(jobs: Sequence[Row]) -> Iterator[CellFault]:
    for row in jobs:
        if row["waxed"] is not None and row["waxed"] > (row["plates"] or 0):
            most = row["plates"] if row["plates"] is not None else "the plates beside it"
            yield row.fault("waxed", f"no more than {most}, of which they are a part")
        if row["file"] is not None and not FILE.fullmatch(row["file"]):
            yield row.fault("file", "the name of a file in the folder jobs, such as 26-021.toml")


def _kept(kept: Sequence[Row], rows: Rows) -> Iterator[CellFault]:
    known = {kind: _ids(rows[table], key) for kind, (table, key, _) in KINDS.items()}
    for row in kept:
        table, _, units = KINDS[row["kind"]]
        yield from _named(row, "of", known[row["kind"]], f"one that stands in {table}")
        if row["unit"] not in units:
            yield row.fault("unit", f"{' or '.join(units)}, for a {row['kind']}")
        elif row["unit"] == "pieces" and row["amount"] % 1:
            yield row.fault("amount", "whole pieces")
        elif row["kind"] == "skin" and row["amount"] > 1:
            yield row.fault("amount", "1, or 0 to give it back: a skin is one piece")


def _cut(cut: Sequence[Row], rows: Rows) -> Iterator[CellFault]:
    skins = {row["skin"]: row for row in rows["skins.csv"] if row["skin"] is not None}
    stocks = _ids(rows["valve_stock.csv"], "stock")
    spent: dict[str, Row] = {}
    for row in sorted(cut, key=lambda row: row["date"]):
        yield from _named(row, "stock", stocks, "a stock of valve_stock.csv")
        yield from _named(row, "skin", skins.keys(), "a skin of skins.csv")
        skin = skins.get(row["skin"])
        if skin and skin["stock"] not in {None, row["stock"]}:
            yield row.fault("stock", f"{skin['stock']}, which is what skin {row['skin']} is of")
        if row["spent"] == "yes" and row["skin"] is None:
            yield row.fault("skin", "the skin of which nothing is left")
        if row["skin"] in spent:
            gone = spent[row["skin"]]
            yield row.fault("skin", f"another skin: line {gone.line} says that it is spent")
        elif row["spent"] == "yes" and row["skin"] is not None:
            spent[row["skin"]] = row


def _steps(hours: Sequence[Row], rows: Rows) -> Iterator[CellFault]:
    steps = _ids(rows["work_steps.csv"], "id")
    for row in hours:
        yield from _named(row, "step", steps, "an id of work_steps.csv")


def _begun(jobs: Sequence[Row]) -> dict[str, Row]:
    """Give the row with which each job was opened."""
    begun: dict[str, Row] = {}
    for job, events in _by_day(jobs).items():
        opening = [row for row in events if row["what"] == OPENED]
        begun |= {job: opening[0]} if opening else {}
    return begun


def _in_time(whole: Rows, begun: Mapping[str, Row], named: set[str]) -> Iterator[CellFault]:
    """Report what a job kept, took or worked before it was opened, or without being a job.

    Wax was used in jobs before there was a book of jobs: there an unknown job is no fault.
    """
    for table in ("reservations.csv", "stock_uses.csv", "hours.csv", "pot_uses.csv"):
        for row in whole[table]:
            first = begun.get(row["job"])
            if row["job"] not in named and table != "pot_uses.csv":
                yield row.fault("job", "a job of jobs.csv", hint(row["job"], named))
            elif first and row["date"] is not None and row["date"] < first["date"]:
                accepted = f"{first['date']} or later: line {first.line} of jobs.csv opens the job"
                yield row.fault("date", accepted)
