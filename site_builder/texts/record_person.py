"""The terminal text of `record person`."""

from __future__ import annotations

from formulas.answer import Answer
from formulas.catalog import Catalog
from site_builder.texts.book_words import noted
from site_builder.texts.words import shop_line


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give who was entered."""
    found = answer.answer
    said = f"Recorded {found['person']}, {found['role']}, since {found['began']}"
    return [said, shop_line(catalog), *noted(answer)]
