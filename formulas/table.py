"""Read one CSV by its schema, and report every fault in it by the cell an editor shows.

The schema is the table's own entry in a Frictionless data package. The reader takes what
spreadsheets write: UTF-8 with or without a byte order mark, `,` or `;` or a tab between cells,
decimal point or comma, any line ending, blank lines, stray spaces, `#` remark lines.
It never guesses a unit and never fills a cell.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from formulas.cell import NotAccepted, read_cell
from formulas.cell import Schema as Schema
from formulas.fault import CellFault, hint
from formulas.frozen import Frozen


class Row(Frozen):
    """One row of a table: its cells by column, and where it stands.

    A cell with a fault holds None, and the row is then not `whole`: no rule looks at it again.
    """

    file: str
    line: int
    cells: Mapping[str, Any]
    whole: bool = True

    def __getitem__(self, column: str) -> Any:
        return self.cells[column]

    def fault(self, column: str, accepted: str, also: str = "") -> CellFault:
        """Make the fault of one cell of this row."""
        found = self.cells[column]
        return CellFault(
            self.file, self.line, column, "" if found is None else str(found), accepted, also
        )


class Dialect(Frozen):
    """How a file was written, so that a row can be added in the same hand."""

    separator: str
    decimal_comma: bool
    newline: str
    mark: bool


def schemas(package: Path) -> dict[str, Schema]:
    """Give the resources of a data package by file name."""
    described = json.loads(package.read_text(encoding="utf-8"))
    return {resource["path"]: resource for resource in described["resources"]}


def read(path: Path, schema: Schema, faults: list[CellFault], shown: str = "") -> list[Row]:
    """Read every row of a file; add each fault to `faults`."""
    file = shown or path.name
    try:
        text = path.read_bytes().decode("utf-8")
    except UnicodeDecodeError as error:
        line = path.read_bytes()[: error.start].count(b"\n") + 1
        faults.append(CellFault(file, line, "(file)", "bytes that are no text", "UTF-8 text"))
        return []
    return read_text(text, file, schema, faults)


def read_text(text: str, file: str, schema: Schema, faults: list[CellFault]) -> list[Row]:
    """Read every row of a file's text; add each fault to `faults`."""
    text = text.removeprefix("\ufeff")
    fields = {field["name"]: field for field in schema["schema"]["fields"]}
    lines = list(_lines(text, _separator(text), file, faults))
    if not lines:
        faults.append(CellFault(file, 1, "(header)", "", _named(fields)))
        return []
    first, header = lines[0]
    before = len(faults)
    _check_header(file, first, header, fields, schema.get("otherColumns", ""), faults)
    if len(faults) > before:
        return []
    columns = [
        (name, _Known(field), header.index(name) if name in header else -1)
        for name, field in fields.items()
    ]
    rows = [_row(file, line, len(header), columns, faults) for line in lines[1:]]
    check_keys(rows, schema, faults)
    return rows


def dialect(text: str) -> Dialect:
    """Tell how a file is written: its separator, its decimal mark, its line endings, its mark."""
    separator = _separator(text)
    comma = separator != "," and re.search(r"(^|[;\t])\s*-?\d+,\d+\s*($|[;\t])", text, re.M)
    newline = "\r\n" if "\r\n" in text else "\n"
    return Dialect(separator, bool(comma), newline, text.startswith("\ufeff"))


def _separator(text: str) -> str:
    """Give the separator of the first line that is neither blank nor a remark.

    It is the one most frequent outside quotes in the header, where no cell holds one.
    """
    lines = (line.rstrip("\r\n") for line in io.StringIO(text.lstrip("\ufeff"), newline=""))
    head = next((line for line in lines if _speaks(line)), "")
    return max(";\t,", key=head.count) if any(mark in head for mark in ";\t,") else ","


def _speaks(line: str) -> bool:
    return bool(line.strip(' ";,\t')) and not line.lstrip(' "').startswith("#")


def _lines(
    text: str, separator: str, file: str, faults: list[CellFault]
) -> Iterator[tuple[int, list[str]]]:
    """Give each line that says something, with the number an editor shows for its start."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    start = 1
    try:
        for cells in reader:
            stripped = [cell.strip() for cell in cells]
            if any(stripped) and not stripped[0].startswith("#"):
                yield start, stripped
            start = reader.line_num + 1
    except csv.Error as error:
        faults.append(CellFault(file, start, "(line)", str(error), "cells with paired quotes"))


def _named(fields: Mapping[str, Schema]) -> str:
    return "the columns " + ", ".join(fields)


def _check_header(
    file: str,
    line: int,
    header: Sequence[str],
    fields: Mapping[str, Schema],
    others: str,
    faults: list[CellFault],
) -> None:
    """Report columns that are not of the table; `others` is what the schema says of any such."""
    for name in header:
        if name not in fields and name:
            also = f"{f'; {others}' if others else ''}{hint(name, fields)}"
            faults.append(CellFault(file, line, "(header)", name, _named(fields), also))
        if name and header.count(name) > 1 and header.index(name) != len(header) - 1:
            twice = CellFault(file, line, "(header)", name, "each column once")
            if str(twice) not in map(str, faults):
                faults.append(twice)
    for name, field in fields.items():
        if name not in header and field.get("constraints", {}).get("required"):
            faults.append(CellFault(file, line, "(header)", "", f"a column '{name}'"))


class _Known(dict[str, Any]):
    """What the texts of one column were read as: most cells of a book stand there again."""

    def __init__(self, field: Schema) -> None:
        super().__init__()
        self.field = field

    def __missing__(self, text: str) -> Any:
        self[text] = value = read_cell(text, self.field)
        return value


Columns = Sequence[tuple[str, _Known, int]]
"""Name, reader and place of each column; a column that the file has not stands last, blank."""


def _row(
    file: str,
    numbered: tuple[int, list[str]],
    width: int,
    columns: Columns,
    faults: list[CellFault],
) -> Row:
    line, texts = numbered
    before = len(faults)
    beyond = [text for text in texts[width:] if text]
    if beyond:
        faults.append(
            CellFault(file, line, "(line)", beyond[0], f"{width} cells, as the header has")
        )
    blanks = [""] * (max(width - len(texts), 0) + 1)
    texts = [*texts[:width], *blanks]
    try:
        cells = {name: known[texts[place]] for name, known, place in columns}
    except NotAccepted:
        cells = _each(file, line, texts, columns, faults)
    return Row(file, line, cells, whole=len(faults) == before)


def _each(
    file: str, line: int, texts: list[str], columns: Columns, faults: list[CellFault]
) -> dict[str, Any]:
    """Read a row cell by cell; a cell that is not accepted is a fault and holds None."""
    cells: dict[str, Any] = {}
    for name, known, place in columns:
        cells[name] = None
        try:
            cells[name] = known[texts[place]]
        except NotAccepted as wrong:
            faults.append(CellFault(file, line, name, texts[place], *wrong.args))
    return cells


def check_keys(rows: Sequence[Row], schema: Schema, faults: list[CellFault]) -> None:
    """Report every row whose primary key, or unique cell, stands on an earlier line."""
    described = schema["schema"]
    key = described.get("primaryKey", [])
    unique = {(key,) if isinstance(key, str) else tuple(key)} if key else set()
    unique |= {
        (field["name"],)
        for field in described["fields"]
        if field.get("constraints", {}).get("unique")
    }
    for columns in sorted(unique):
        seen: dict[tuple[Any, ...], int] = {}
        for row in rows:
            values = tuple(row[column] for column in columns)
            if None in values:
                continue
            if values in seen:
                also = f"; '{values[-1]}' stands already on line {seen[values]}"
                faults.append(row.fault(columns[-1], "each once", also))
            seen.setdefault(values, row.line)
