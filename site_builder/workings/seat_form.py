"""The working of `seat`: which seats a plate may have, and what a gasket under it asks for."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.seating.asked import (
    CELLS,
    FASTENERS,
    GASKETS_M,
    HEAVY,
    METALS,
    PLATE_LENGTHS_M,
    PLATE_THICK_M,
    PLATE_WIDTHS_M,
    SERVES,
    SERVICES,
    WAS_M,
    Gasket,
    Plate,
    fastener_rule,
    fixed_facts,
    gasket_ends,
)
from formulas.seating.gasket_words import GASKET_ROWS
from formulas.seating.seat import seat
from formulas.units import convert
from formulas.valves.typed import in_si
from site_builder.markup.elements import element, paragraph, table
from site_builder.workings.screen_form import compact_table
from site_builder.workings.valve_data import is_us, length_unit
from site_builder.workings.worksheet import Field, Worksheet

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

HEADS = ("It speaks", "Reason")
LIST = ("Seat", "Verdict", "Reasons")
EXAMPLE = {
    "mm": {
        "thickness": "1.2",
        "plate_length": "300",
        "plate_width": "60",
        "plate_thickness": "2.8",
    },
    "in": {
        "thickness": "0.047",
        "plate_length": "11.8",
        "plate_width": "2.36",
        "plate_thickness": "0.11",
    },
}
FORM_WORDS = {
    "single": "single: one note, two tongues",
    "long": "long: many notes on one plate",
    "frame": "frame of a concertina, one tongue",
    "shoe": "tapered or dovetailed shoe",
    "harmonium": "harmonium reed in a groove",
}
BLOCK_WORDS = {
    "softwood": "softwood", "hardwood": "hardwood", "pan": "reed pan with slots", "metal": "metal",
}  # fmt: skip
NO_GASKET = ""
BEFORE = "Before knife, dust, glue or heat, tick each; sections S and P say what to do about it."
LIMIT = (
    "A place in the list is no promise, and a range from memory is no limit: seat one plate, and "
    "test it before the next."
)


def _length(
    catalog: Catalog, name: str, label: str, ends: tuple[float, float], *, blank: bool = False
) -> Field:
    unit = length_unit(catalog)
    # Ends in inches are rounded inward: the page takes nothing that the command refuses.
    low = math.ceil(convert(ends[0], "m", unit) * 1000 - 1e-6) / 1000
    high = math.floor(convert(ends[1], "m", unit) * 1000 + 1e-6) / 1000
    default = EXAMPLE[unit].get(name, "")
    return Field(
        name, label, unit, default=default, low=low, high=high, blank=blank, group="Gasket"
    )


def _fields(catalog: Catalog) -> list[Field]:
    plate, wish = "Plate", "What was there, and what is wished"
    found = ((one.id, one.name) for one in catalog.seating_methods.values())
    gaskets = [(one.id, one.name) for one in catalog.gasket_materials.values() if gasket_ends(one)]
    return [
        Field("form", "Form of the plate", kind="choice", group=plate, default="single",
              choices=tuple(FORM_WORDS.items())),
        Field("metal", "Metal", kind="choice", group=plate, choices=_same(METALS)),
        Field("block", "It lies on", kind="choice", group=plate,
              choices=tuple(BLOCK_WORDS.items())),
        Field("service", "Played", kind="choice", group=plate,
              choices=tuple(zip(SERVICES, SERVES, strict=True))),
        Field("found", "Found", kind="choice", group=wish, choices=(("", "not known"), *found)),
        Field("failed", "What was found", kind="choice", group=wish,
              choices=(("no", "held"), ("yes", "failed"))),
        Field("keep", "The original", kind="choice", group=wish, default="yes",
              choices=(("yes", "is to stay"), ("no", "may go"))),
        Field("later", "Wax later on", kind="choice", group=wish,
              choices=(("no", "not asked for"), ("yes", "must be possible"))),
        Field("gasket", "Gasket", kind="choice", group="Gasket", default=gaskets[0][0],
              choices=((NO_GASKET, "none"), *gaskets)),
        _length(catalog, "thickness", "Its thickness, new", GASKETS_M),
        _length(catalog, "plate_length", "Length of the plate", PLATE_LENGTHS_M),
        _length(catalog, "plate_width", "Width of the plate", PLATE_WIDTHS_M),
        _length(catalog, "plate_thickness", "Thickness of the plate", PLATE_THICK_M),
        _length(catalog, "was", "What lay there before (blank: bare wood)", WAS_M, blank=True),
        Field("cells", "Share of the plate over its cells (blank: not measured)", "%",
              low=100 * CELLS[0], high=100 * CELLS[1], blank=True, group="Gasket"),
        Field("fasteners", "Pulled down by", kind="choice", group="Gasket", default="screws",
              choices=_same(FASTENERS)),
    ]  # fmt: skip


def _same(names: Iterable[str]) -> tuple[tuple[str, str], ...]:
    return tuple((name, name) for name in names)


def _example(catalog: Catalog) -> Answer:
    unit = length_unit(catalog)
    each = 0.0254 if is_us(catalog) else 0.001
    thick, long, wide, plate = (in_si(float(text), each) for text in EXAMPLE[unit].values())
    known = [name for name, one in catalog.gasket_materials.items() if gasket_ends(one)]
    return seat(
        catalog, Plate("single", keep_original=True), Gasket(known[0], thick, long, wide, plate)
    )


def _tables(_: Catalog) -> list[Element]:
    return [compact_table("seats", HEADS)]


def _data(catalog: Catalog) -> dict[str, Any]:
    materials = {name: gasket_ends(one) for name, one in catalog.gasket_materials.items()}
    return {
        "us": is_us(catalog),
        "unit": length_unit(catalog),
        "metres": 0.0254 if is_us(catalog) else 0.001,
        "heavy": list(HEAVY),
        "services": list(SERVICES),
        "serves": list(SERVES),
        "seats": [
            {
                "id": one.id,
                "name": one.name,
                "forms": list(one.plate_forms),
                "metals": list(one.metals),
                "blocks": list(one.blocks),
                "facts": fixed_facts(one),
                "refused": one.refused,
                "never": one.never,
                "undone": one.reversed_by,
            }
            for one in catalog.seating_methods.values()
        ],
        "gaskets": {name: ends for name, ends in materials.items() if ends},
        "moduli": {name: list(catalog.span(f"{name}-modulus", "Pa")) for name in METALS},
        "rules": {name: fastener_rule(catalog, name) for name in FASTENERS},
        "cells": list(catalog.span("cell-opening-share", "dimensionless")),
        "loud": list(catalog.span("pressure-range-loud", "Pa")),
    }


def _worked(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the list of the example, then the gasket by hand, then blank rows."""
    yield paragraph(
        element("strong", "Worked example."),
        " A single plate of aluminium on softwood, indoors; what was there is not known, and the"
        " original is to stay.",
    )
    methods = answer.answer["methods"]
    shown = [one for one in methods if one["code"] != methods[-1]["code"]]
    yield table(list(LIST), [[one["name"], one["verdict"], one["points"]] for one in shown])
    gasket = answer.inputs["gasket"]
    name = catalog.gasket_materials[gasket["material"]].name
    sizes = EXAMPLE[length_unit(catalog)]
    unit = length_unit(catalog)
    yield paragraph(
        f"{name}, {sizes['thickness']} {unit}, under a plate of aluminium"
        f" {sizes['plate_length']} by {sizes['plate_width']} {unit},"
        f" {sizes['plate_thickness']} {unit} thick, on screws.",
    )
    said = answer.answer["gasket"]["said"]
    yield table(["Gasket", "Example", "Yours"], [[row, said[row], ""] for row in GASKET_ROWS])


WORKSHEET = Worksheet(
    id="seat",
    title="Seat and gasket",
    command="benchbinder seat --plate single --metal aluminium --block softwood",
    fields=_fields,
    formulas=(
        "gasket_pressure",
        "bearing_area",
        "gasket_force",
        "rise_filled",
        "rise_between",
        "fastener_span",
        "force_each",
        "squeeze_reached",
        "squeezed_thickness",
    ),
    example=_example,
    rows=tuple((f"gasket-{place}", words) for place, words in enumerate(GASKET_ROWS)),
    tables=_tables,
    worked=_worked,
    data=_data,
    lines=(
        "Instrument, block, plates",
        "Found: what holds, what seals, photograph",
        "Held or failed, and where",
        "Seat chosen, and why",
        "Gasket, lot, thickness",
        "Tested by, on",
    ),
    limit=LIMIT,
    before=BEFORE,
    rule="Put the same questions to each seat: form of the plate, metal, block, service, wish. Each"
    " reason counts one, for it or against it. A seat with a reason that nothing outweighs is never"
    " taken here, and one that was there and held is kept.",
)
