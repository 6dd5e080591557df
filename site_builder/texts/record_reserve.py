"""The terminal text of `record reserve`."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from formulas.answer import Answer
from formulas.catalog import Catalog
from site_builder.texts.book_words import kept, noted, weighed
from site_builder.texts.words import shop_line


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give what the job keeps back from now on, and what stays free for others."""
    found = answer.answer
    lines = [f"Recorded for {found['job']} on {found['date']}", shop_line(catalog)]
    return [*lines, *_kept(found["kept"]), *noted(answer)]


def _kept(rows: list[dict[str, Any]]) -> Iterator[str]:
    for one in rows:
        if not one["amount"].value:
            yield f"  gives back {one['of']}"
            continue
        free = one["stays_free"]
        left = "" if free is None or one["kind"] == "skin" else f"; {weighed(free)} stay free"
        yield f"  keeps back {kept(one)}{left}"
