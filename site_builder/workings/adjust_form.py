"""The working of `adjust`: correct a pot, or mix lots, with the steps as they go on paper."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.adjusting.adjust import adjust
from formulas.adjusting.correction import in_unit
from formulas.adjusting.portions import portion
from formulas.units import printed, read, spoken_unit
from formulas.wax.batch import decimals_of
from formulas.wax.mix import TOTALS_G
from site_builder.markup.elements import element, paragraph, table
from site_builder.texts.adjust import CROSS
from site_builder.workings.paper_form import BLANK_ROWS, ratio
from site_builder.workings.screen_form import answer_table
from site_builder.workings.worksheet import (
    EXAMPLE,
    Field,
    Worksheet,
    blend_fields,
    example_blend,
)

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

POT = "In the pot"
OLD = "Reclaimed wax in it, if any"
WANTED = "It must be"
ADDED = "May be added"
NO_LIMIT = (
    "Blank: as much as it takes. Nought: not at all. With no row, the materials of the ratio."
)


def _fields(catalog: Catalog) -> list[Field]:
    unit = spoken_unit(catalog.shop.scale_unit)
    most = _most(catalog)
    materials = tuple((name, one.name) for name, one in catalog.materials.items())

    def mass(name: str, label: str, group: str) -> Field:
        return Field(name, label, unit, above=0, high=most, blank=True, group=group)

    def percent(name: str, label: str) -> Field:
        return Field(name, label, "%", low=0, high=100, blank=True, group=OLD)

    def material(name: str, label: str, default: str) -> Field:
        return Field(name, label, kind="choice", choices=materials, default=default, group=OLD)

    return [
        _table("pot", f"Mass in the pot, {unit}", most, _example_pot(catalog), POT),
        mass("old", "Its mass", OLD),
        material("holds", "It holds", "gum-rosin"),
        percent("least", "From"),
        percent("highest", "Up to"),
        material("rest", "The rest is", "beeswax-yellow"),
        *(dataclasses.replace(one, group=WANTED) for one in blend_fields(catalog, TOTALS_G[1])),
        mass("total", "Total in the end, if it matters", WANTED),
        _table("may", f"Stock, {unit}", most, "", ADDED, left_out=NO_LIMIT),
        Field(
            "step", "Step of the scale", unit, default=f"{catalog.shop.scale_step:g}", above=0,
            high=most, group=ADDED,
        ),
    ]  # fmt: skip


def _table(
    name: str, label: str, most: float, default: str, group: str, left_out: str = ""
) -> Field:
    """Give a table of materials and blends, each with a mass."""
    return Field(
        name, label, kind="parts", each=label[0].lower() + label[1:], low=0, high=most, blank=True,
        default=default, group=group, offers="blends", left_out=left_out,
    )  # fmt: skip


def _most(catalog: Catalog) -> float:
    return float(f"{TOTALS_G[1] * catalog.shop.scale_step / catalog.shop.scale_g:.6g}")


def _amounts(catalog: Catalog) -> dict[str, str]:
    """Give the pot of the worked example, in the unit of the shop's scale."""
    held = ("300", "50") if catalog.shop.scale_unit == "g" else ("12", "2")
    return dict(zip(("beeswax-yellow", "gum-rosin"), held, strict=True))


def _example_pot(catalog: Catalog) -> str:
    return " ".join(f"{name}*{amount}" for name, amount in _amounts(catalog).items())


def _example(catalog: Catalog) -> Answer:
    blend = example_blend(catalog)
    unit = catalog.shop.scale_unit
    pot = [
        portion(catalog, name, read(f"{amount} {unit}", "g"))
        for name, amount in _amounts(catalog).items()
    ]
    return adjust(catalog, blend.parts, pot=pot, blend=blend.id)


def _by_cross(catalog: Catalog) -> Answer:
    """Give the second worked example: two lots to a total."""
    blend = example_blend(catalog)
    total = "500" if catalog.shop.scale_unit == "g" else "18"
    lots = [portion(catalog, name) for name in ("beeswax-rosin-2-1", "beeswax-rosin-10-1")]
    grams = read(f"{total} {catalog.shop.scale_unit}", "g")
    return adjust(catalog, blend.parts, add=lots, total_g=grams, blend=blend.id)


def _data(catalog: Catalog) -> dict[str, Any]:
    return {
        "most": in_unit(TOTALS_G[1], catalog.shop.scale_unit),
        "near": catalog.figure("correct-up-to").high,
    }


def _tables(catalog: Catalog) -> list[Element]:
    unit = spoken_unit(catalog.shop.scale_unit)
    return [
        answer_table("weights", ("What", f"Weigh, {unit}")),
        answer_table("result", ("Material", "Wanted", "As weighed")),
        paragraph(element("strong", "Working")),
        element("ol", **{"data-rows": "steps", "class": "steps"}),
    ]


def written(working: Sequence[str]) -> Iterable[Element]:
    """Give the steps of a working as a numbered list; a cross stands under its step."""
    items: list[Element] = []
    for step in working:
        if not step.startswith(CROSS):
            items.append(element("li", step))
        elif len(items[-1]):
            code = items[-1][0][0]
            code.text = f"{code.text}\n{step}"
        else:
            items[-1].append(element("pre", element("code", step)))
    yield element("ol", *items)


def _worked(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give both worked examples step by step, and the tables to fill in."""
    cross = _by_cross(catalog)
    yield paragraph(
        element("strong", "Worked example: a pot."), f" It must be {ratio(answer, catalog)}."
    )
    yield from written(answer.answer["working"])
    yield paragraph(
        element("strong", "Worked example: two lots, by the cross."),
        f" {_total(cross)} of {ratio(cross, catalog)} is wanted.",
    )
    yield from written(cross.answer["working"])
    yield paragraph(element("strong", "Yours: a pot."))
    unit = spoken_unit(catalog.shop.scale_unit)
    head = ["Material", f"There, {unit}", "Parts", "There / parts", "Must be", "Add", "Weighed"]
    blank = [[""] * len(head) for _ in range(BLANK_ROWS)]
    yield table(head, [*blank, ["Total", *[""] * (len(head) - 1)]])
    yield paragraph(element("strong", "Yours: two lots."))
    head = ["Lot", "Its share, %", "Wanted, %", "Parts, across", "Times one part", "Weighed"]
    yield table(head, [[name, *[""] * (len(head) - 1)] for name in ("A", "B", "Total")])


def _total(answer: Answer) -> str:
    total = answer.answer["result"]["total"]
    decimals = decimals_of(answer.inputs["scale"].value)
    return f"{printed(total.value, decimals)} {spoken_unit(total.unit)}"


WORKSHEET = Worksheet(
    id="adjust",
    title="Adjust a pot",
    command=f"benchbinder adjust --pot beeswax-yellow=300g --pot gum-rosin=50g --to {EXAMPLE}",
    fields=_fields,
    formulas=("corrected_total", "component_addition", "cross_parts"),
    example=_example,
    rows=(
        ("total", "Then there are"),
        ("spread", "Range of the result"),
        ("part", "Or a part of the pot"),
        ("low", "Old wax at its low end"),
        ("high", "Old wax at its high end"),
        ("both", "Serves both ends"),
        ("notes", "To note"),
    ),
    tables=_tables,
    worked=_worked,
    lines=(
        "Date, pot, and its batches",
        "What is in it, and how that is known",
        "It must be, in parts by mass",
        "Added, with lots",
        "Test, method and reading before and after",
        "Fresh or reclaimed, as labelled",
        "Weighed by, checked by",
    ),
    data=_data,
    limit="A ratio that is right is not a wax that holds: test it before a plate is bedded in it.",
)
