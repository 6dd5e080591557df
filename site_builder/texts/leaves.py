"""The terminal text of `leaves`."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from typing import Any

from formulas.answer import Answer
from formulas.catalog import Catalog
from site_builder.texts.words import shop_line

OPENING = "At the front"


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the leaves by section, each with its revision and sides."""
    rows = answer.answer["leaves"]
    lines = ["Leaves in force", shop_line(catalog)]
    for letter, held in itertools.groupby(rows, lambda row: row["section"]):
        lines += ["", f"Section {letter}" if letter else OPENING, *_lines(list(held))]
    drafts = sum(row["revision"] is None for row in rows)
    lines += ["", f"{_leaves(len(rows))}, {drafts} of them draft."]
    if answer.answer["file"]:
        lines.append(f"{answer.answer['file']}: {_leaves(len(rows))}")
    return lines


def _lines(rows: list[dict[str, Any]]) -> Iterator[str]:
    for row in rows:
        sides = f"{row['sides']} side{'' if row['sides'] == 1 else 's'}"
        yield f"  {row['leaf']:<16}  {row['title'][:36]:<36}  {row['words']}, {sides}"


def _leaves(count: int) -> str:
    return f"{count} {'leaf' if count == 1 else 'leaves'}"
