"""The terminal text of `record use`."""

from __future__ import annotations

from formulas.answer import Answer
from formulas.catalog import Catalog
from site_builder.texts.book_words import noted, weighed
from site_builder.texts.words import shop_line


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the batch, the job, and what is left of the batch by the books."""
    found = answer.answer
    amount = f", {weighed(found['amount'])}" if found["amount"] else ""
    left = weighed(found["left"]) if found["left"] else "not known"
    return [
        f"Recorded {found['batch']} in {found['job']}{amount}",
        shop_line(catalog),
        f"Left of {found['batch']} by the books: {left}",
        *noted(answer),
    ]
