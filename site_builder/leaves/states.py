"""The revision of each leaf: what printed.csv says of it, and whether that is what it is now.

A revision is that of the newest print with the very same content; its date is the day on which
that revision was first printed. What differs from its newest print is a draft.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from formulas.frozen import Frozen
from site_builder.leaves import opening
from site_builder.leaves.written import (
    CONTENTS,
    EFFECTIVE,
    FRONT,
    TITLE,
    Book,
    Written,
    filled,
    made,
    numbered,
    tab_of,
)
from site_builder.paper.typst_text import literal

if TYPE_CHECKING:
    from formulas.first_year_entries import PrintedLeaf

PRINTED, REMOVED = "printed", "removed"
EFFECTIVE_TITLE = "List of effective leaves"
Said = Callable[[str], tuple[str, str]]
"""Revision and date of a leaf by its name, as Typst code."""


class State(Frozen):
    """How a leaf stands: its revision and the day of it, or that it is a draft.

    `last` is the newest revision that was ever printed, 0 before the first.
    """

    leaf: Written
    digest: str
    sides: int
    revision: int | None
    date: str
    last: int
    newest: PrintedLeaf | None
    given: str = ""

    @property
    def words(self) -> str:
        """Give the words of the leaf's foot: those given for the whole book, or its own."""
        if self.given:
            return self.given
        if self.revision is not None:
            return f"revision {self.revision} of {self.date}"
        return f"draft, after revision {self.last}" if self.last else "draft"

    @property
    def mark(self) -> str:
        """Give the words of the list of effective leaves."""
        if self.revision is not None:
            return str(self.revision)
        return f"draft, after {self.last}" if self.last else "draft"


def rows_of(book: Book) -> dict[str, list[PrintedLeaf]]:
    """Give the rows of each leaf in the order of the prints."""
    rows: dict[str, list[PrintedLeaf]] = {}
    for row in book.handbook.catalog.printed:
        rows.setdefault(row.leaf, []).append(row)
    return rows


def states(book: Book, sides: Mapping[str, int] | None, on: str = "") -> dict[str, State]:
    """Give the state of every leaf in the order of the binder.

    `sides` are those of the layout; without them a leaf that shows any is a draft. With a day
    `on`, every draft stands as it will once it is printed on that day.
    """
    rows = rows_of(book)
    counted = None if sides is None else _kept_sides(book, sides)
    found = {}

    def add(leaf: Written) -> None:
        state = _state(leaf, rows.get(leaf.name, []), sides or {}, counted, on)
        found[leaf.name] = dataclasses.replace(state, given=book.handbook.cover.revision)

    for leaf in book.leaves.values():
        add(leaf)
    if book.handbook.cover.sides != 1:
        add(effective(book, lambda name: _said(found[name])))
    return {name: found[name] for name in book.names}


def _state(
    leaf: Written,
    rows: list[PrintedLeaf],
    sides: Mapping[str, int],
    counted: Mapping[str, int] | None,
    on: str,
) -> State:
    newest = rows[-1] if rows else None
    last = max((row.revision for row in rows), default=0)
    digest = "" if leaf.counts and counted is None else leaf.digest(counted or {})
    count = sides.get(leaf.name, 0)
    if newest and newest.what == PRINTED and newest.digest == digest:
        first = next(row for row in rows if row.revision == newest.revision)
        return State(leaf, digest, count, newest.revision, first.date, last, newest)
    return State(leaf, digest, count, last + 1 if on else None, on, last, newest)


def words(book: Book) -> dict[str, str]:
    """Give the words of the foot of each leaf of the text, for who does not lay it out."""
    return {name: state.words for name, state in states(book, None).items()}


def _kept_sides(book: Book, sides: Mapping[str, int]) -> Mapping[str, int]:
    """Give the sides that count: of a leaf that another layout printed, those on the shelf."""
    kept = dict(sides)
    for name, rows in rows_of(book).items():
        row, leaf = rows[-1], book.leaves.get(name)
        if name in kept and row.pages and row.layout != book.layout and row.what == PRINTED:
            same = leaf is None or leaf.counts or row.digest == leaf.digest({})
            kept[name] = row.pages if same else kept[name]
    return kept


def _said(state: State) -> tuple[str, str]:
    return literal(state.mark), literal(state.date)


def effective(book: Book, said: Said) -> Written:
    """Write the list of effective leaves; it does not list itself."""
    handbook = book.handbook
    sections = filled(handbook)
    groups = [(literal("At the front"), [TITLE, CONTENTS, FRONT])]
    groups += [
        (numbered(one.letter, one.title), [tab_of(one), *(leaf.number for leaf in one.leaves)])
        for one in sections
    ]
    rows = [
        (heading, [(name, book.leaves[name].title, *said(name)) for name in names])
        for heading, names in groups
    ]
    counts = [name for _, names in groups for name in names]
    body = opening.effective(rows)
    head = literal(EFFECTIVE_TITLE)
    return made(handbook, EFFECTIVE, EFFECTIVE_TITLE, head, body, counts=counts)
