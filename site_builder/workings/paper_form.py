"""A working as a form for the pencil: its formulas, a worked example and blank rows."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.answer import Band, Unknown
from formulas.batch import decimals_of
from formulas.units import printed, spoken_unit
from site_builder.markup.elements import element, paragraph, table
from site_builder.terminal import band_shown
from site_builder.workings.screen_form import NO_LIMIT

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog
    from site_builder.workings.worksheets import Worksheet

BLANK_ROWS = 4
WEIGHED_LINES = (
    "Date and batch",
    "Blend and its parts by mass",
    "Total, material at hand, or plates",
    "Step of the scale",
    "Hot volume and pot",
    "Lots of the materials",
    "Weighed by",
)
ESTIMATED_LINES = (
    "Date and blend",
    "Parts by mass",
    "Test method",
    "Reading of the kept reference wax in the same session",
    "Reading of the blend",
    "Thermometer and bath",
    "Tested by",
)


def paper_form(worksheet: Worksheet, catalog: Catalog) -> Element:
    """Draw one working for paper, in the vocabulary of the leaves."""
    answer = worksheet.example(catalog)
    worked, lines = (
        (_weighed(answer, catalog), WEIGHED_LINES)
        if worksheet.id == "mix"
        else (_estimated(answer, catalog), ESTIMATED_LINES)
    )
    return element(
        "div",
        paragraph(element("strong", f"{worksheet.title}: form for the pencil")),
        paragraph(element("strong", NO_LIMIT)),
        paragraph(
            "Before any heat, tick each; the boxes of sections S and W say what to do about it."
        ),
        element("ticks", *to_tick(worksheet.id, catalog)),
        *(element("math", formula=name) for name in worksheet.formulas),
        *worked,
        *(element("formline", label=label) for label in lines),
    )


def to_tick(command: str, catalog: Catalog) -> Iterable[Element]:
    """Give the title of each caution of a command, under the caution's id."""
    for caution in catalog.cautions_for(command):
        yield element("li", caution.title, caution=caution.id)


def weights(answer: Answer, catalog: Catalog) -> Element:
    """Give the table of a batch: what to weigh of each component, and the total."""
    found, parts = answer.answer, answer.inputs["parts"]
    decimals = decimals_of(answer.inputs["scale"].value)
    rows: list[list[str]] = [
        [
            catalog.materials[row["material"]].name,
            f"{parts[row['material']]:g}",
            printed(100 * row["share"], 2),
            printed(row["mass"].value, decimals),
            printed(100 * row["weighed_share"], 2),
        ]
        for row in found["components"]
    ]
    total = printed(found["total"].value, decimals)
    rows.append(["Total", f"{sum(parts.values()):g}", "100.00", total, "100.00"])
    return table(_weighed_head(answer), rows, right=range(1, 5))


def _weighed_head(answer: Answer) -> list[str]:
    unit = spoken_unit(answer.answer["total"].unit)
    return ["Material", "Parts", "Share, %", f"Weigh, {unit}", "Really weighed, %"]


def _weighed(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the worked example of a batch and the table to fill in."""
    found = answer.answer
    total = printed(found["total"].value, decimals_of(answer.inputs["scale"].value))
    volume, pot = found["hot_volume"], found["pot"]
    yield paragraph(
        element("strong", "Worked example."),
        f" {total} {spoken_unit(found['total'].unit)} of {_ratio(answer, catalog)}. Hot volume"
        f" {_span(volume)}, smallest pot {printed(pot.value, 0)} {spoken_unit(pot.unit)}.",
    )
    yield weights(answer, catalog)
    yield paragraph(element("strong", "Yours."))
    blank = [[""] * 5 for _ in range(BLANK_ROWS)]
    yield table(_weighed_head(answer), [*blank, ["Total", "", "", "", ""]])


def _estimated(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the worked example of an estimate and the table for the shop's own tests."""
    found = answer.answer
    rows = [
        [catalog.methods[name].name, *_ends(band, catalog)]
        for name, band in found["by_method"].items()
    ]
    yield paragraph(
        element("strong", "Worked example."),
        f" {_ratio(answer, catalog)}. Rests on {found['tests_used']} tests of this shop:"
        " the ratio does not decide this.",
    )
    yield table(["Test method", "Low end", "High end"], rows, right=[1, 2])
    if found["next_test"]:
        yield paragraph(f"Test first: {_next(found['next_test'], catalog)}.")
    yield paragraph(element("strong", "Yours."))
    head = ["Test method", "Low end", "High end", "Reading", "Date"]
    yield table(head, [[""] * 5 for _ in range(BLANK_ROWS)])


def _ratio(answer: Answer, catalog: Catalog) -> str:
    parts = answer.inputs["parts"]
    said = ", ".join(f"{catalog.materials[name].name} {part:g}" for name, part in parts.items())
    return f"{said} (parts by mass)"


def _span(band: Band) -> str:
    return f"{printed(band.low, 0)} to {printed(band.high, 0)} {spoken_unit(band.unit)}"


def _ends(band: Band | Unknown, catalog: Catalog) -> list[str]:
    if isinstance(band, Unknown):
        return ["not known", "not known"]
    shown = band_shown(band, catalog)
    unit = spoken_unit(shown.unit)
    return [f"{printed(shown.low, 0)} {unit}", f"{printed(shown.high, 0)} {unit}"]


def _next(test: dict[str, Any], catalog: Catalog) -> str:
    shares = ", ".join(
        f"{printed(100 * share, 0)} % {catalog.materials[name].name}"
        for name, share in test["shares"].items()
    )
    return f"{shares}, by {catalog.methods[test['method']].name.lower()}"
