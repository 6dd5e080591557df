"""The text of a table with rows added in its own hand, checked before anybody writes it.

A file keeps its separator, its decimal mark, its line endings, its order of columns, its
remarks and blank lines: only lines at its end are new.
"""

from __future__ import annotations

import csv
import datetime
import io
import re
from collections.abc import Mapping, Sequence

from formulas import catalog, table
from formulas.fault import CellFault, Faults
from formulas.frozen import Frozen
from formulas.table import Dialect, Row, Schema

Cell = str | float | None
POINTED = re.compile(r"(^|;)\s*-?\d+\.\d+\s*($|;)", re.MULTILINE)


class Addition(Frozen):
    """A table's whole new text, and the rows that are new in it."""

    name: str
    text: str
    rows: list[Row]


def appended(name: str, text: str, schema: Schema, rows: Sequence[Mapping[str, Cell]]) -> Addition:
    """Add rows to the text of a table that was read and has no fault.

    Texts lose the blanks at their ends, as a reader takes them off; a line break within one is
    written as one sign. Raises Faults where a cell is not accepted, or where it would not be
    the same when it is read again.
    """
    rows = [{column: _tidy(cell) for column, cell in row.items()} for row in rows]
    hand = _hand(text)
    header = _header(text, hand)
    faults = _without_column(name, header, rows)
    if faults:
        raise Faults(faults)
    old = text if not text or text.endswith(("\n", "\r")) else text + hand.newline
    piece = "".join(_line([row.get(column) for column in header], hand) for row in rows)
    # The lines before are read as blank ones, so that a fault names the line an editor shows.
    before = hand.newline * (len(list(io.StringIO(old, newline=""))) - 1)
    read = table.read_text(_line(list(header), hand) + before + piece, name, schema, faults)
    if not faults:
        faults += _changed(name, header, rows, read)
    if faults:
        raise Faults(faults)
    return Addition(name, old + piece, read)


def check(tables: catalog.Tables, additions: Sequence[Addition]) -> None:
    """Check all tables with the new rows among them. Raises Faults, and changes nothing."""
    together = dict(tables)
    faults: list[CellFault] = []
    for added in additions:
        together[added.name] = tables[added.name] + added.rows
        table.check_keys(together[added.name], catalog.all_schemas()[added.name], faults)
    catalog.check(together, faults)


def _tidy(cell: Cell) -> Cell:
    if isinstance(cell, str):
        return cell.strip().replace("\r\n", "\n").replace("\r", "\n") or None
    return cell


def _hand(text: str) -> Dialect:
    """Give the dialect of a file; with semicolons and no number yet, numbers take a comma."""
    found = table.dialect(text)
    if found.separator == ";" and not POINTED.search(text):
        return Dialect(found.separator, True, found.newline, found.mark)
    return found


def _header(text: str, hand: Dialect) -> list[str]:
    reader = csv.reader(
        io.StringIO(text.removeprefix("\ufeff"), newline=""), delimiter=hand.separator
    )
    cells = ([cell.strip() for cell in line] for line in reader)
    return next(line for line in cells if any(line) and not line[0].startswith("#"))


def _without_column(
    name: str, header: Sequence[str], rows: Sequence[Mapping[str, Cell]]
) -> list[CellFault]:
    """Report what would be lost because the file has no column for it."""
    lost = {c: v for row in rows for c, v in row.items() if v is not None and c not in header}
    return [
        CellFault(name, 1, "(header)", "", f"a column '{column}', to hold '{value}'")
        for column, value in lost.items()
    ]


def _line(cells: Sequence[Cell], hand: Dialect) -> str:
    line = io.StringIO()
    writer = csv.writer(line, delimiter=hand.separator, lineterminator=hand.newline)
    writer.writerow([_written(cell, hand) for cell in cells])
    return line.getvalue()


def _written(cell: Cell, hand: Dialect) -> str:
    if cell is None or isinstance(cell, str):
        return cell or ""
    text = f"{cell:.12g}"
    return text.replace(".", ",") if hand.decimal_comma else text


def _changed(
    name: str, header: Sequence[str], given: Sequence[Mapping[str, Cell]], read: Sequence[Row]
) -> list[CellFault]:
    """Report a cell that did not come back: at the start of a line a # makes it a remark."""
    remark = [row for row in given if str(row.get(header[0]) or "").startswith("#")]
    if remark or len(read) != len(given):
        found = str(remark[0][header[0]]) if remark else ""
        accepted = "a text that begins with another sign than #, in the file's first column"
        return [CellFault(name, read[0].line if read else 1, header[0], found, accepted)]
    return [
        row.fault(column, f"a text that stays the same when it is read, not '{cell}'")
        for row, cells in zip(read, given, strict=True)
        for column, cell in cells.items()
        if not _same(row[column], cell)
    ]


def _same(read: object, given: Cell) -> bool:
    if isinstance(given, float | int) and isinstance(read, float | int):
        return abs(read - given) <= 1e-11 * abs(given)
    return given == (read.isoformat() if isinstance(read, datetime.date) else read)
