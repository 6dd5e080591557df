"""The terminal text of `record hours`."""

from __future__ import annotations

from formulas.answer import Answer
from formulas.catalog import Catalog
from formulas.units import printed
from site_builder.texts.book_words import noted
from site_builder.texts.words import shop_line


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the minutes for each, beside the range of the table."""
    found = answer.answer
    trade = found["trade"]
    per = found["per"]
    return [
        f"Recorded {found['job']}: {found['name']}, {found['done']} in"
        f" {found['minutes'].value:g} min",
        shop_line(catalog),
        f"{printed(found['each'].value, 1)} min for each {per}; the table says"
        f" {trade['low']:g} to {trade['high']:g}",
        f"Done of this step in {found['job']}: {found['done_in_job']}",
        *noted(answer),
    ]
