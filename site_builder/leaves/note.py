"""The change note: the page that goes before leaves to replace and to add."""

from __future__ import annotations

from site_builder.leaves.plan import ADD, REMOVE, Change, Plan
from site_builder.leaves.written import made
from site_builder.paper.typst_text import literal

NAME = "Change note"
PROOF = "A proof: nothing was recorded as printed. Do not put these leaves into the binder."
HOW = (
    "Work down the table, leaf by leaf: take the old leaf out, put the new one in its place, and "
    "set the tick. Then compare the binder with the list of effective leaves.",
    "Tear up what was taken out, or write VOID across it: an old leaf that lies about is read.",
)


def note(plan: Plan, on: str) -> tuple[str, str]:
    """Give the code of the change note, and the words of its foot."""
    sheets = sum(one.sheets for one in plan.changes)
    day = f"Printed on {on}." if on else PROOF
    counts = f"Leaves to put in: {len(plan.put_in)}, sheets of paper: {sheets}."
    rows = ", ".join(map(_row, plan.changes))
    words = "\n".join(f"par({literal(text)})" for text in (day, counts, *HOW))
    body = f"{{\n{words}\nchange-table({rows})\n}}"
    leaf = made(plan.book.handbook, NAME, NAME, literal(NAME), body)
    return leaf.code, f"printed on {on}" if on else "proof, not printed"


def _row(one: Change) -> str:
    out = "" if one.what == ADD else f"revision {one.old}"
    put = "" if one.what == REMOVE else f"revision {one.new}"
    counts = ("", "") if one.what == REMOVE else (str(one.sides), str(one.sheets))
    cells = (one.leaf, one.title, out or "none", put or "none", *counts)
    return f"({', '.join(map(literal, cells))})"
