"""The terminal text of `record test`."""

from __future__ import annotations

from formulas.answer import Answer
from formulas.catalog import Catalog
from site_builder.texts.book_words import noted, seen
from site_builder.texts.words import shop_line


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the number of the test, what was seen, and how many there are by this method."""
    found = answer.answer
    method = catalog.methods[found["method"]].name.lower()
    return [
        f"Recorded {found['test']}: {found['sample']} by {method}: {seen(found)}",
        shop_line(catalog),
        f"Tests of this shop by {method}: {found['tests_by_this_method']}",
        *noted(answer),
    ]
