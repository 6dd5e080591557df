"""The working of `mix`: weigh out a batch."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.units import printed, read, spoken_unit
from formulas.wax.batch import POT_STEP_ML, decimals_of
from formulas.wax.mix import PLATES, TOTALS_G, hot_densities, mix
from site_builder.markup.elements import element, paragraph, table
from site_builder.workings.paper_form import BLANK_ROWS, ratio, whole_span
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


def _fields(catalog: Catalog) -> list[Field]:
    shop = catalog.shop
    unit = spoken_unit(shop.scale_unit)
    most = float(f"{TOTALS_G[1] * shop.scale_step / shop.scale_g:.6g}")
    ways = (
        ("total", "to a total mass"),
        ("have", "as far as one material goes"),
        ("plates", "for a number of plates"),
    )
    return [
        *blend_fields(catalog, TOTALS_G[1]),
        Field("way", "How much", kind="choice", choices=ways, default="total"),
        Field(
            "total",
            "Total mass",
            unit,
            default=example_total(catalog),
            above=0,
            high=most,
            way="total",
        ),
        Field("of", "Material that is short", kind="choice", way="have", of="parts"),
        Field("held", "Mass at hand", unit, default="", above=0, high=most, way="have"),
        Field("plates", "Plates", default="", low=1, high=PLATES[1], whole=True, way="plates"),
        Field(
            "step", "Step of the scale", unit, default=f"{shop.scale_step:g}", above=0, high=most
        ),
    ]


def example_total(catalog: Catalog) -> str:
    """Give the total of the worked example, in the unit of the shop's scale."""
    return "400" if catalog.shop.scale_unit == "g" else "14"


def _example(catalog: Catalog) -> Answer:
    blend = example_blend(catalog)
    total = read(f"{example_total(catalog)} {catalog.shop.scale_unit}", "g")
    return mix(catalog, blend.parts, total_g=total, blend=blend.id)


def _tables(catalog: Catalog) -> list[Element]:
    unit = spoken_unit(catalog.shop.scale_unit)
    heads = ("Material", "Share", f"Weigh, {unit}", "As weighed")
    return [answer_table("weights", heads, total=2)]


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


def _hot(answer: Answer, catalog: Catalog) -> str:
    """Say by which densities the melt takes its room, and how the pot follows."""
    said = []
    for material in answer.inputs["parts"]:
        lightest, heaviest, known = hot_densities(catalog, material)
        why = "" if known else " (not known hot: the lightest melt of the tables to its own cold)"
        said.append(f"{catalog.materials[material].name} {lightest:g} to {heaviest:g}{why}")
    filled = printed(catalog.span("pot-headroom", "dimensionless")[1], 2)
    return (
        f"Room of the melt: each mass over its density in kg/m³, added up: {'; '.join(said)}. The"
        f" pot: the most room over {filled}, then up to the next whole {POT_STEP_ML} mL."
    )


def _weighed(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the worked example of a batch and the table to fill in."""
    found = answer.answer
    total = printed(found["total"].value, decimals_of(answer.inputs["scale"].value))
    volume, pot = found["hot_volume"], found["pot"]
    yield paragraph(
        element("strong", "Worked example."),
        f" {total} {spoken_unit(found['total'].unit)} of {ratio(answer, catalog)}. Hot volume"
        f" {whole_span(volume)}, smallest pot {printed(pot.value, 0)} {spoken_unit(pot.unit)}.",
    )
    yield weights(answer, catalog)
    yield paragraph(_hot(answer, catalog))
    yield paragraph(element("strong", "Yours."))
    blank = [[""] * 5 for _ in range(BLANK_ROWS)]
    yield table(_weighed_head(answer), [*blank, ["Total", "", "", "", ""]])


WORKSHEET = Worksheet(
    id="mix",
    title="Mix a batch",
    command=f"benchbinder mix {EXAMPLE} --total 400g",
    fields=_fields,
    formulas=("share_by_mass", "component_mass", "limited_total", "total_for_plates"),
    example=_example,
    rows=(
        ("left", "Left after straining and pot"),
        ("volume", "Hot volume"),
        ("pot", "Smallest pot, to the brim"),
        ("cost", "Cost of the materials"),
        ("softening", "Softening, no safe limit"),
        ("notes", "To note"),
    ),
    tables=_tables,
    worked=_weighed,
    lines=(
        "Date and batch",
        "Blend and its parts by mass",
        "Total, material at hand, or plates",
        "Step of the scale",
        "Hot volume and pot",
        "Lots of the materials",
        "Weighed by",
    ),
)
