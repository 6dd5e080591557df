"""What the safety leaves place: protection by task, what never meets, how fast heat burns."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import OutOfRange, UnknownName
from formulas.melting.burns import burn_rows, burn_seconds
from site_builder.markup.elements import (
    Cell,
    Content,
    basis,
    element,
    noted_table,
    paragraph,
    span,
    table,
)
from site_builder.parts.bench_parts import figure_value, known_id

if TYPE_CHECKING:
    from formulas.air_entries import Protection
    from formulas.catalog import Catalog
    from formulas.entries import Figure

WORN = (("Hands", "gloves"), ("Eyes", "eyes"), ("Breath", "breathing"))
CLASSES = (
    "Classes only: the make, the material and the filter come from the data sheet, your supplier "
    "and your local rules. What is worn comes last: the column before it comes first."
)
HEATS = "ids of figures.csv that are temperatures"


def protection(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what comes first and what is worn at each task."""
    rows: list[list[Cell]] = [
        [
            element("strong", one.task),
            one.harm,
            one.first,
            _worn(one),
            basis(one.basis, one.source, one.where),
            one.note,
        ]
        for one in catalog.protection.values()
    ]
    heads = ["Task", "What it harms", "First", "Then worn", "Basis", "Note"]
    return [noted_table(heads, rows), paragraph(CLASSES)]


def _worn(task: Protection) -> Sequence[Content]:
    """Say what is worn on hands, eyes and mouth, leaving out what is not asked for."""
    told = [(head, getattr(task, column)) for head, column in WORN if getattr(task, column)]
    return [
        piece
        for head, words in told
        for piece in (element("strong", f"{head}:"), f" {words[:1].lower()}{words[1:]}. ")
    ]


def incompatible(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what never meets, what happens where it does, and how to keep it apart."""
    rows: list[list[Cell]] = [
        [
            [element("strong", one.first), f" with {one.second[:1].lower()}{one.second[1:]}"],
            one.what_happens,
            one.keep_apart,
            basis(one.basis, one.source, one.where),
            one.note,
        ]
        for one in catalog.incompatible
    ]
    heads = ["Never together", "What happens", "Keep apart", "Basis", "Note"]
    return [noted_table(heads, rows)]


def burn_at(catalog: Catalog, argument: str) -> list[Element]:
    """Set the time to a burn beside figures of heat, each at its hotter end."""
    if not argument.split():
        raise UnknownName(HEATS, argument, [])
    heats = {name: one for name, one in catalog.figures.items() if one.unit == "degC"}
    found = [heats[known_id(name, heats, HEATS)] for name in argument.split()]
    rows: list[list[Cell]] = [
        [one.what, figure_value(one), _time(catalog, one), basis(one.basis, one.source)]
        for one in found
    ]
    return [table(["What is hot", "How hot", "Time to a burn", "Basis of its heat"], rows)]


def _time(catalog: Catalog, figure: Figure) -> str:
    """Say how long, at the hotter end; above the table only that it is shorter than its last."""
    ends = [end for end in (figure.low, figure.high) if end is not None]
    rows = burn_rows(catalog)
    try:
        seconds = burn_seconds(catalog, max(ends))
    except OutOfRange:
        (first, _), (last, shortest) = rows[0], rows[-1]
        if max(ends) < first:
            return f"not in the table, which begins at {span(first, first, 'degC')}"
        return f"less than {span(shortest, shortest, 's')}, hotter than {span(last, last, 'degC')}"
    return f"{span(seconds, seconds, 's')} or less"
