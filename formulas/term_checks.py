"""What no single cell of the words of the trade shows: a word that stands twice, a long meaning."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from formulas.fault import CellFault
from formulas.table import Row

Rows = Mapping[str, Sequence[Row]]

LONGEST = 200  # characters of a meaning: one plain sentence
SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def twins(also: str | None) -> list[str]:
    """Give the other words for a term, which stand with semicolons between.

    >>> twins("reed; voice"), twins(None)
    (['reed', 'voice'], [])
    """
    return [word.strip() for word in also.split(";")] if also else []


def term_faults(all_rows: Rows) -> Iterator[CellFault]:
    """Give every fault of the words of the trade that no cell shows alone.

    A word may mean two things only where one of its rows says so, by naming the other's word.
    """
    rows = [row for row in all_rows["terms.csv"] if row.whole]
    owners: dict[str, Row] = {}
    for row in rows:
        first = owners.setdefault(row["term"].lower(), row)
        if first is not row:
            yield row.fault("term", f"a word of its own, {first['id']} has it")
    for row in rows:
        yield from _sentences(row)
        yield from _twins(row, owners)


def _sentences(row: Row) -> Iterator[CellFault]:
    for column in ("meaning", "not_this"):
        if row[column] is not None and len(row[column]) > LONGEST:
            yield row.fault(column, f"{LONGEST} characters at most")
    if row["meaning"][-1] != ".":
        yield row.fault("meaning", "a sentence with its full stop")
    if row["leaf"] is not None and not SLUG.fullmatch(row["leaf"]):
        yield row.fault("leaf", "the file name of a leaf, without number and ending")


def _twins(row: Row, owners: dict[str, Row]) -> Iterator[CellFault]:
    """Report a twin that stands twice, is blank, or means something else in silence.

    The owner of each twin is noted, so that the next row that gives it is held against this one.
    """
    seen = {row["term"].lower()}
    for word in twins(row["also"]):
        key = word.lower()
        if not word or key in seen:
            yield row.fault("also", "each other word once, semicolons between")
            continue
        seen.add(key)
        other = owners.setdefault(key, row)
        if other is not row and not (_says(row, other) or _says(other, row)):
            accepted = f"a word that not_this tells apart from '{other['term']}'"
            yield row.fault("also", accepted)


def _says(row: Row, other: Row) -> bool:
    """Say whether a row names the term of another where it tells what it is not."""
    return other["term"].lower() in (row["not_this"] or "").lower()
