"""The terminal text of the quick needs list: counts, wax beside the rule of thumb, hours, pots."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from formulas.jobs.quick_tables import SEAMS, quick_tables
from formulas.jobs.quick_words import (
    HANGS,
    TOLD,
    count_rows,
    hangs_said,
    hour_rows,
    pots_row,
    used_rows,
    wax_rows_said,
)
from site_builder.texts.words import foot, shop_line, wrapped

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog
    from formulas.jobs.quick_numbers import QuickNumbers

ALL_HOURS = "All together"
HANGS_ON = "The range of the wax hangs on"


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the rows of needs, the hours by group, what the wax's range hangs on, the basis."""
    lines = [title(answer, catalog), shop_line(catalog), ""]
    lines += _table(need_rows(answer, catalog))
    lines += ["", "Work of one hand"]
    lines += _table([[*row, ""] for row in hours_said(answer)])
    said = hangs_on(answer)
    if said:
        lines += ["", wrapped(f"{HANGS_ON} {said}.", "  ")]
    return [*lines, *foot(answer)]


def title(answer: Answer, catalog: Catalog) -> str:
    """Say what is needed for what."""
    asked = answer.inputs
    named = catalog.layouts[asked["layout"]].name if asked["layout"] else ", ".join(asked["ranks"])
    seating = catalog.seating_methods[asked["seating"]].name
    return wrapped(f"Quick needs list: {named}; {lowered(seating)}", "  ")


def lowered(words: str) -> str:
    """Begin words with a small letter."""
    return words[:1].lower() + words[1:]


def need_rows(answer: Answer, catalog: Catalog) -> list[list[str]]:
    """Give what, how much and from what, a row each."""
    numbers: QuickNumbers = answer.answer["numbers"]
    asked, tables = answer.inputs, quick_tables(catalog)
    us, kept = catalog.shop.units == "US", bool(asked["keep"])
    rows = count_rows(
        answer.answer["rank_counts"],
        asked["tongues"],
        numbers.classes,
        tables.names,
        tables.classes,
        numbers.valves,
        kept,
        answer.answer["valved"],
    )
    if numbers.wax:
        wax = numbers.wax
        rows += wax_rows_said(wax.melt, wax.rule, tables.rule_each, wax.own, wax.ready, us)
        rows.append(pots_row(numbers.pots, asked["session_h"], us))
    return rows + used_rows(numbers.solvent, numbers.glue, us)


def hours_said(answer: Answer) -> list[list[str]]:
    """Give the groups of steps with their hours, and the sum."""
    numbers: QuickNumbers = answer.answer["numbers"]
    return hour_rows(numbers.hours, [*(name for name, _ in SEAMS), ALL_HOURS])


def hangs_on(answer: Answer) -> str:
    """Say what widens the wax's range most; nothing where no wax is melted."""
    numbers: QuickNumbers = answer.answer["numbers"]
    return hangs_said(numbers.wax.shares, list(HANGS), TOLD) if numbers.wax else ""


def _table(rows: Sequence[Sequence[str]]) -> Iterator[str]:
    head = max(len(row[0]) for row in rows)
    number = max(len(row[1]) for row in rows)
    for what, how_much, of in rows:
        line = f"  {what:<{head}}  {how_much:>{number}}  {of}"
        yield wrapped(line.rstrip(), " " * (head + number + 6))
