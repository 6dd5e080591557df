"""The terminal text of `reprint`."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from formulas.answer import Answer
from formulas.catalog import Catalog
from site_builder.texts.words import shop_line, wrapped

HEADS = {"remove": "Take out", "replace": "Replace", "add": "Add"}


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give what to take out, to replace and to add, each with its reason."""
    found = answer.answer
    lines = ["The binder on the shelf against the handbook", shop_line(catalog)]
    if not found["changes"]:
        lines += ["", "Nothing to reprint: every leaf stands in the binder as it is now."]
    for what, head in HEADS.items():
        rows = [one for one in found["changes"] if one["what"] == what]
        if rows:
            lines += ["", head, *_lines(rows)]
    return [*lines, *_layout(found["other_layout"]), *_end(found)]


def _lines(rows: list[dict[str, Any]]) -> Iterator[str]:
    for one in rows:
        sides = f", {one['sides']} side{'' if one['sides'] == 1 else 's'}" if one["new"] else ""
        said = f"  {one['leaf']}  {one['title']}: {one['why']}, {_revision(one)}{sides}"
        yield wrapped(said, "    ")


def _revision(one: dict[str, Any]) -> str:
    if one["old"] and one["new"]:
        return f"revision {one['old']} -> {one['new']}"
    return f"revision {one['new'] or one['old']}"


def _layout(count: int) -> Iterator[str]:
    if count:
        them = "1 leaf was" if count == 1 else f"{count} leaves were"
        yield ""
        yield wrapped(
            f"The layout changed since {them} printed. Their content is the same, so none is"
            " named for it.",
            "  ",
        )


def _end(found: dict[str, Any]) -> Iterator[str]:
    if not found["changes"]:
        return
    yield ""
    sheets = f"{found['sheets']} sheet{'' if found['sheets'] == 1 else 's'} of paper"
    if not found["file"]:
        yield f"{sheets}. Nothing was written."
    elif found["printed"]:
        yield f"{found['file']}: change note and leaves, {sheets}"
        yield f"Recorded in printed.csv as printed on {found['printed']}."
    else:
        yield f"{found['file']}: a proof, {sheets}. Nothing was recorded."
