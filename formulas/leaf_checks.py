"""What no single cell of the prints shows: days out of order, a revision that goes back.

The rows stand in the order of the prints, as `reprint --printed` adds them.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence

from formulas.fault import CellFault
from formulas.table import Row

Rows = Mapping[str, Sequence[Row]]


def leaf_faults(rows: Rows) -> list[CellFault]:
    """Give every fault of the leaves that were printed and taken out."""
    whole = [row for row in rows["printed.csv"] if row.whole]
    faults = list(_days(whole))
    before: dict[str, Row] = {}
    for row in whole:
        faults += _follows(row, before.get(row["leaf"]))
        before[row["leaf"]] = row
    return faults


def _days(rows: Sequence[Row]) -> Iterator[CellFault]:
    for before, row in itertools.pairwise(rows):
        if row["date"] < before["date"]:
            yield row.fault("date", f"{before['date']} or later, the day of the row above")


def _follows(row: Row, before: Row | None) -> Iterator[CellFault]:
    """Report what cannot come after the leaf's row before."""
    if row["what"] == "removed":
        if before is None or before["what"] == "removed":
            yield row.fault("what", "printed; this leaf does not stand in the binder")
        elif row["revision"] != before["revision"]:
            accepted = f"{before['revision']}, the revision that stood in the binder"
            yield row.fault("revision", accepted)
        return
    for column in ("pages", "digest", "layout"):
        if not row[column]:
            yield row.fault(column, "what `reprint` writes for a leaf that was printed")
    if before is None:
        return
    last, same = before["revision"], before["digest"] == row["digest"]
    if row["revision"] < last:
        yield row.fault("revision", f"{last} or more, the revision of the row before")
    elif before["what"] == "printed" and row["revision"] == last and not same:
        yield row.fault("revision", f"{last + 1}, as another text stands on it than before")
    elif before["what"] == "removed" and row["revision"] == last:
        yield row.fault("revision", f"{last + 1}, as the leaf was taken out before")
