"""The answers of `leaves` and `reprint`, and the files they write."""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Sequence
from pathlib import Path
from typing import Any

from formulas.answer import Answer
from formulas.catalog import Catalog
from formulas.fault import FormulasError, UnknownName
from site_builder import content, own_file
from site_builder.leaves import note, states
from site_builder.leaves import plan as planning
from site_builder.leaves.plan import Plan
from site_builder.leaves.written import Book, written
from site_builder.paper import binder
from site_builder.paper.typesetting import compiled

FILE = "file of leaves"
Added = dict[str, list[dict[str, Any]]]


class NotThisDay(FormulasError, ValueError):
    """A day on which nothing can have been printed, with the days that can be."""

    def __init__(self, found: str, accepted: str) -> None:
        self.found, self.accepted = found, accepted
        super().__init__(f"--printed: found '{found}', accepted: {accepted}; nothing was changed.")


def leaves(
    catalog: Catalog, wanted: Sequence[str] = (), section: str = "", out: Path | None = None
) -> Answer:
    """Give the list of effective leaves, all or some, and write these as a file of their own.

    Raises UnknownName for a leaf or a section that is not there, NotOurFile for a file that is
    none of ours.
    """
    book = written(content.read(catalog))
    names = _wanted(book, wanted, section)
    at = binder.ranges(book)
    found = states.states(book, binder.sides_of(at))
    if out:
        title = f"{book.handbook.cover.book}: {catalog.shop.name}, {len(names)} leaves"
        data = compiled(binder.some(book, found, names, at, title))
        own_file.write(data, out, binder.MARK, FILE)
    answer = {
        "leaves": [
            {
                "leaf": name,
                "title": state.leaf.title,
                "section": state.leaf.letter,
                "revision": state.revision,
                "date": state.date,
                "last_revision": state.last,
                "words": state.words,
                "sides": state.sides,
            }
            for name, state in found.items()
            if name in names
        ],
        "file": str(out) if out else None,
    }
    inputs = {"leaves": list(wanted), "section": section}
    return Answer("leaves", answer, inputs, [], catalog.warned("leaves"))


def _wanted(book: Book, wanted: Sequence[str], section: str) -> Collection[str]:
    """Give the names of the leaves asked for, all where none are."""
    letters = [one.letter for one in book.handbook.sections if one.leaves]
    if section and section.upper() not in letters:
        raise UnknownName("section", section, letters)
    known = {name.casefold(): name for name in book.names}
    for name in wanted:
        if name.casefold() not in known:
            raise UnknownName("leaf", name, book.names)
    if not wanted and not section:
        return book.names
    asked = {known[name.casefold()] for name in wanted}
    if section:
        asked |= {one.name for one in book.leaves.values() if one.letter == section.upper()}
    return asked


def reprint(
    catalog: Catalog, out: Path | None = None, on: str = "", today: str = ""
) -> tuple[Answer, Added]:
    """Give what to print again, and the rows that say it was printed on a day.

    The file is written first. Raises NotThisDay for a day before the last print or after today.
    """
    if on:
        _check_day(catalog, on, today)
    book = written(content.read(catalog))
    made = planning.plan(book, binder.ranges(book), on)
    written_to = out if made.changes else None
    if written_to:
        own_file.write(pdf(made, on), written_to, binder.MARK, FILE)
    answer = {
        "changes": [{**dataclasses.asdict(one), "sheets": one.sheets} for one in made.changes],
        "sheets": sum(one.sheets for one in made.changes),
        "other_layout": made.relaid,
        "printed": on,
        "file": str(written_to) if written_to else None,
    }
    found = Answer("reprint", answer, {"printed": on}, [], catalog.warned("reprint"))
    return found, {"printed.csv": planning.rows(made, on)} if on and made.changes else {}


def _check_day(catalog: Catalog, on: str, today: str) -> None:
    last = max((row.date for row in catalog.printed), default="")
    if on < last:
        raise NotThisDay(on, f"{last} or later, the day of the last print")
    if on > today:
        raise NotThisDay(on, f"{today} or earlier: what is printed later is recorded then")


def pdf(made: Plan, on: str) -> bytes:
    """Set the change note and the leaves to print, with their new revision or as a proof."""
    book = made.book
    cover, shop = book.handbook.cover, book.handbook.catalog.shop
    title = f"{cover.book}: {shop.name}, {f'leaves printed on {on}' if on else 'proof'}"
    found = made.then if on else made.now
    before = [note.note(made, on)]
    return compiled(binder.some(book, found, made.put_in, made.at, title, before))
