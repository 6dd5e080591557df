"""The terminal text of `record job`."""

from __future__ import annotations

from formulas.answer import Answer
from formulas.catalog import Catalog
from site_builder.texts.book_words import kept, noted
from site_builder.texts.words import shop_line, wrapped

COUNTS = (("plates", "plates"), ("waxed", "of them in wax"), ("valves", "valves"))


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give what happened, what was counted, and what the job gives back."""
    found = answer.answer
    counted = [f"{found[key]} {words}" for key, words in COUNTS if found[key] is not None]
    lines = [f"Recorded {found['job']}: {found['what']} on {found['date']}", shop_line(catalog)]
    if counted:
        lines.append(f"Counted: {', '.join(counted)}")
    if found["gives_back"]:
        freed = ", ".join(kept(one) for one in found["gives_back"])
        lines.append(wrapped(f"Gives back: {freed}", "  "))
    elif found["state"] != "open":
        lines.append("It kept nothing back.")
    return [*lines, *noted(answer)]
