"""A working as a form for the pencil: its formulas, a worked example and blank rows."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.units import printed, spoken_unit
from site_builder.markup.elements import element, paragraph

if TYPE_CHECKING:
    from formulas.answer import Answer, Band
    from formulas.catalog import Catalog
    from site_builder.workings.worksheet import Worksheet

BLANK_ROWS = 4


def paper_form(worksheet: Worksheet, catalog: Catalog) -> Element:
    """Draw one working for paper, in the vocabulary of the leaves."""
    return element(
        "div",
        _leading(element("strong", f"{worksheet.title}: form for the pencil")),
        _leading(element("strong", worksheet.limit)),
        _leading(worksheet.before),
        element("ticks", *to_tick(worksheet.warned_as, catalog)),
        *(element("math", formula=name) for name in worksheet.formulas),
        *_rule(worksheet.rule),
        *worksheet.worked(worksheet.example(catalog), catalog),
        *(element("formline", label=label) for label in worksheet.lines),
    )


def _leading(said: Element | str) -> Element:
    """Set a paragraph that stays on the page of what stands below it."""
    made = paragraph(said)
    made.set("lead", "yes")
    return made


def _rule(words: str) -> Iterable[Element]:
    if words:
        yield paragraph(element("strong", "The rule."), f" {words}")


def to_tick(command: str, catalog: Catalog) -> Iterable[Element]:
    """Give the title of each caution of a command, under the caution's id."""
    for caution in catalog.cautions_for(command):
        yield element("li", caution.title, caution=caution.id)


def ratio(answer: Answer, catalog: Catalog) -> str:
    """Say the parts of an answer's blend."""
    parts = answer.inputs["parts"]
    said = ", ".join(f"{catalog.materials[name].name} {part:g}" for name, part in parts.items())
    return f"{said} (parts by mass)"


def whole_span(band: Band) -> str:
    """Give the ends of a band as whole numbers with their unit."""
    return f"{printed(band.low, 0)} to {printed(band.high, 0)} {spoken_unit(band.unit)}"
