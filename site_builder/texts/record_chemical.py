"""The terminal text of `record chemical`."""

from __future__ import annotations

from formulas.answer import Answer
from formulas.catalog import Catalog
from site_builder.markup.elements import number
from site_builder.texts.book_words import noted
from site_builder.texts.words import shop_line, wrapped

HAZARDS_FROM = {"data sheet": "from its data sheet", "table": "from the table"}


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give what was put on the shelf, and what its hazards rest on."""
    found = answer.answer
    amount = found["amount"]
    held = f", {number(amount.value)} {amount.unit}" if amount else ""
    sheet = f"data sheet of {found['sheet_date']}" if found["sheet_date"] else "no data sheet held"
    codes = " ".join(found["hazard_codes"]) or "not known"
    told_by = HAZARDS_FROM.get(found["hazards_from"] or "", "")
    return [
        wrapped(f"Recorded {found['chemical']}{held}, in {found['place']}; {sheet}", "  "),
        shop_line(catalog),
        wrapped(f"Hazard statements: {codes}{f', {told_by}' if told_by else ''}", "  "),
        *noted(answer),
    ]
