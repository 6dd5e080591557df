"""What to print again: the handbook as it is against the leaves that stand in the binder."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from formulas.frozen import Frozen
from site_builder.leaves import states
from site_builder.leaves.states import PRINTED, REMOVED, State, rows_of
from site_builder.leaves.written import EFFECTIVE, Book

if TYPE_CHECKING:
    from formulas.first_year_entries import PrintedLeaf

SOME_DAY = "the day of the print"
REPLACE, ADD, REMOVE = "replace", "add", "remove"


class Change(Frozen):
    """One leaf to take out, to put in, or both; revisions are None where there is none."""

    leaf: str
    title: str
    what: str
    why: str
    old: int | None
    new: int | None
    sides: int

    @property
    def sheets(self) -> int:
        """Give the sheets of paper that are put in, printed on both sides."""
        return -(-self.sides // 2)


class Plan(Frozen):
    """The changes in the order of the binder, what goes out first.

    `now` is how each leaf stands, `then` how it will once it is printed; `relaid` counts the
    leaves in the binder that are the same and were set with another layout.
    """

    book: Book
    at: Mapping[str, tuple[int, int]]
    now: Mapping[str, State]
    then: Mapping[str, State]
    changes: list[Change]
    relaid: int

    @property
    def put_in(self) -> list[str]:
        """Give the names of the leaves to print."""
        return [one.leaf for one in self.changes if one.what != REMOVE]


def plan(book: Book, at: Mapping[str, tuple[int, int]], on: str = "") -> Plan:
    """Compare a book with printed.csv. `at` are the pages of each leaf, `on` a day to print."""
    sides = {name: last - first + 1 for name, (first, last) in at.items()}
    now = states.states(book, sides)
    then = states.states(book, sides, on or SOME_DAY)
    changes = [*_out(book), *_in(then)]
    relaid = sum(
        state.newest is not None
        and state.digest == state.newest.digest
        and state.newest.layout != book.layout
        for state in then.values()
    )
    return Plan(book, at, now, then, changes, relaid)


def _out(book: Book) -> Iterator[Change]:
    for name, rows in rows_of(book).items():
        newest = rows[-1]
        if newest.what == PRINTED and name not in book.names:
            why = "no longer in the handbook"
            yield Change(name, newest.title, REMOVE, why, newest.revision, None, 0)


def _in(then: Mapping[str, State]) -> Iterator[Change]:
    for name, state in then.items():
        newest = state.newest
        if newest and newest.what == PRINTED and newest.digest == state.digest:
            continue
        what = REPLACE if newest and newest.what == PRINTED else ADD
        old = newest.revision if newest and what == REPLACE else None
        yield Change(
            name,
            state.leaf.title,
            what,
            _why(name, newest, what),
            old,
            state.last + 1,
            state.sides,
        )


def _why(name: str, newest: PrintedLeaf | None, what: str) -> str:
    if what == ADD:
        return f"was taken out on {newest.date}" if newest else "new in the binder"
    if name == EFFECTIVE:
        return "it lists the revisions, so it goes with every change"
    return "content changed"


def rows(made: Plan, on: str) -> list[dict[str, Any]]:
    """Give the rows of printed.csv that a print on a day adds."""
    return [
        {
            "date": on,
            "leaf": one.leaf,
            "title": one.title,
            "what": REMOVED if one.what == REMOVE else PRINTED,
            "revision": one.old if one.what == REMOVE else one.new,
            "pages": None if one.what == REMOVE else one.sides,
            "digest": None if one.what == REMOVE else made.then[one.leaf].digest,
            "layout": None if one.what == REMOVE else made.book.layout,
        }
        for one in made.changes
    ]
