"""Read the leaves of a logbook with a person's marks in them, and write it as one PDF."""

from __future__ import annotations

import dataclasses
import re
from typing import TYPE_CHECKING

from site_builder import own_file
from site_builder.content import Handbook, Reader, bound
from site_builder.cover import Cover
from site_builder.logbook.shelf import OWNER, SHELF
from site_builder.places import CONTENT

if TYPE_CHECKING:
    from pathlib import Path

    from formulas.catalog import Catalog

FOLDER = "logbook"
MARK = "benchbinder logbook"
"""Stands in the keywords of every logbook; a file without it is not written over."""

ABOUT = (
    "What one person was shown, did alone and explained, as the shop's books say on the day "
    "under the name, with lines for what is still open.",
    "Print it on one side of the paper. It belongs to the person, and goes along when the person "
    "leaves.",
)
NO_PROMISE = (
    "A mark says that something was seen on a day. It is no certificate and no leave to work "
    "alone somewhere else.",
    "The law where you work, the safety data sheet of the material in your hand and a doctor's "
    "advice come before anything printed here.",
)


def cover_of(name: str, on: str) -> Cover:
    """Give the words on the cover of a logbook."""
    return Cover(
        book=f"Logbook of {name}",
        front="What this logbook is for",
        under=f"As the books stand on {on}",
        about=ABOUT,
        deferral=NO_PROMISE,
        revision=f"logbook of {name}, {on}",
        searched=False,
        sides=1,
        mark=MARK,
    )


def read(catalog: Catalog, name: str, on: str) -> Handbook:
    """Read the leaves of a person's logbook on a day. Raises Faults."""
    own = dataclasses.replace(catalog)
    own.memo[OWNER] = (name, on)
    reader = Reader(own, CONTENT, SHELF)
    front = reader.front(f"{FOLDER}/front.md")
    sections = reader.sections(re.compile(FOLDER))
    leaves = list(reader.given_leaves(sections))
    return bound(reader, front, sections, leaves, cover_of(name, on))


def pdf(catalog: Catalog, name: str, on: str) -> bytes:
    """Set a person's logbook as one tagged PDF."""
    from site_builder.paper import binder

    return binder.pdf(binder.written(read(catalog, name, on)))


def write(catalog: Catalog, name: str, on: str, path: Path) -> None:
    """Write a person's logbook. Raises NotOurFile where a file stands that is none of ours."""
    own_file.write(pdf(catalog, name, on), path, MARK, "logbook")
