"""The terminal text of `record signoff`."""

from __future__ import annotations

from formulas.answer import Answer
from formulas.catalog import Catalog
from formulas.people.may import WORDS
from site_builder.texts.book_words import noted
from site_builder.texts.people_words import stands, tolerance
from site_builder.texts.words import shop_line, wrapped


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give what was signed, what passes, how far the step is and what may be done alone now."""
    found = answer.answer
    lines = [
        f"Recorded {found['person']}, {found['step']}: {found['mark']} on {found['date']},"
        f" seen by {found['assessor']}",
        shop_line(catalog),
    ]
    asked = tolerance(catalog.first_year_steps[found["step"]])
    if found["value"] is not None:
        lines.append(wrapped(f"Measured {found['value']:g}. {asked}", "  "))
    if not found["counts"]:
        lines.append(wrapped(f"It is kept, and does not count: {found['why_not']}", "  "))
    lines.append(wrapped(f"{found['name']}: {stands(found)}", "  "))
    lines += [
        f"{found['person']} may work alone with {WORDS[what]} from now on."
        for what in found["may_now"]
    ]
    return [*lines, *noted(answer)]
