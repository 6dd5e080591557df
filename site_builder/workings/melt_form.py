"""The working of `melt`: a pot on heat."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.answer import Band
from formulas.melting.melt import POWERS, STARTS, TOTALS_G, WIDTHS_MM, melt
from formulas.melting.pot import Heating, vessel_materials
from formulas.melting.windows import PURPOSES, floor_degrees
from formulas.units import convert, fahrenheit, printed, read, spoken_unit
from site_builder.markup.elements import element, paragraph, table
from site_builder.texts.melt import ROWS, ceiling_cells, quality_line, shown, window_line
from site_builder.texts.words import amount, span
from site_builder.workings.melt_data import melt_data
from site_builder.workings.mix_form import example_total
from site_builder.workings.paper_form import ratio
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

POWER = "300"
HEATED_BY = (
    ("bath", "a water bath"),
    ("thermostat", "a pot with thermostat and separate cut-out"),
    ("hot-plate", "a bare hot plate"),
    ("flame", "a flame"),
)
POT_IS = (
    ("dry", "dry, from the shelf"),
    ("dried", "from a water bath, wiped dry"),
    ("from-bath", "from a water bath, as it is"),
    ("wet", "wet, or what goes in is"),
)
METRIC = {"bath": "1.5", "width": "110", "start": "18", "vessel": "350", "second": "600"}
US = {"bath": "50", "width": "4.3", "start": "64.4", "vessel": "12", "second": "20"}


def example_sizes(catalog: Catalog) -> dict[str, str]:
    """Give the sizes of the worked example, in the units the shop reads."""
    return {
        **(US if catalog.shop.units == "US" else METRIC),
        **{
            name: (METRIC if catalog.shop.scale_unit == "g" else US)[name]
            for name in ("vessel", "second")
        },
    }


def _fields(catalog: Catalog) -> list[Field]:
    us = catalog.shop.units == "US"
    mass = spoken_unit(catalog.shop.scale_unit)
    most = float(f"{TOTALS_G[1] * catalog.shop.scale_step / catalog.shop.scale_g:.6g}")
    warmth = "°F" if us else "°C"
    starts = tuple(fahrenheit(one) if us else one for one in STARTS)
    widths = tuple(float(f"{convert(one, 'mm', 'in' if us else 'mm'):.4g}") for one in WIDTHS_MM)
    sizes = example_sizes(catalog)
    of = tuple((name, name) for name in vessel_materials(catalog))
    purposes = tuple((name, PURPOSES[name][0]) for name in ("holding", "make-up", "touch-up"))
    return [
        *blend_fields(catalog, 1e6),
        Field("purpose", "What for", kind="choice", choices=purposes, default="holding"),
        Field("to", "Heat wanted, if not the floor", warmth, low=-20, high=752, blank=True),
        Field("total", "Mass of the wax", mass, default=example_total(catalog), above=0, high=most),
        Field("way", "Heated by", kind="choice", choices=HEATED_BY, default="bath", group="Heater"),
        Field(
            "bath",
            "Water in the bath",
            spoken_unit("floz") if us else "L",
            default=sizes["bath"],
            above=0,
            high=1690 if us else 50,
            way="bath",
            group="Heater",
        ),
        Field("dry", "The pot is", kind="choice", choices=POT_IS, way="thermostat", group="Heater"),
        Field(
            "power",
            "Power of the heater",
            "W",
            default=POWER,
            low=POWERS[0],
            high=POWERS[1],
            blank=True,
            group="Heater",
        ),
        Field(
            "start",
            "Wax and water at the start",
            warmth,
            default=sizes["start"],
            low=starts[0],
            high=starts[1],
            group="Heater",
        ),
        Field(
            "vessel",
            "Pot of",
            kind="choice",
            choices=of,
            default="aluminium",
            group="Vessels",
        ),
        Field("vessel_mass", "It weighs", mass, default=sizes["vessel"], low=0, high=most,
              blank=True, group="Vessels"),
        Field("second", "Outer vessel of", kind="choice", choices=of, default="steel",
              group="Vessels"),
        Field("second_mass", "Outer vessel weighs", mass, default=sizes["second"], low=0,
              high=most, blank=True, group="Vessels"),
        Field("width", "Pot, inner width", "in" if us else "mm", default=sizes["width"],
              low=widths[0], high=widths[1], blank=True, group="Vessels"),
    ]  # fmt: skip


def _example(catalog: Catalog) -> Answer:
    blend, sizes, shop = example_blend(catalog), example_sizes(catalog), catalog.shop
    us = shop.units == "US"
    heating = Heating(
        "bath",
        float(POWER),
        [
            ("aluminium", read(f"{sizes['vessel']} {shop.scale_unit}", "g")),
            ("steel", read(f"{sizes['second']} {shop.scale_unit}", "g")),
        ],
        read(f"{sizes['bath']} {'floz' if us else 'L'}", "liter"),
        read(f"{sizes['start']} {'F' if us else 'C'}", "degC"),
    )
    return melt(
        catalog,
        blend.parts,
        total_g=read(f"{example_total(catalog)} {shop.scale_unit}", "g"),
        purpose="holding",
        heating=heating,
        width_mm=read(f"{sizes['width']} {'in' if us else 'mm'}", "mm"),
        blend=blend.id,
    )


def _tables(catalog: Catalog) -> list[Element]:
    return [
        answer_table("ceilings", ("Ceiling", f"Limit, {'°F' if _us(catalog) else '°C'}")),
        answer_table("heat", ("Heat of", "Least, kJ", "Most, kJ")),
    ]


def _us(catalog: Catalog) -> bool:
    return catalog.shop.units == "US"


def _worked(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the worked example of a pot, its ceilings, and the table to fill in."""
    found, given = answer.answer, answer.inputs
    yield paragraph(
        element("strong", "Worked example."),
        f" {_mass(given['total_g'], catalog)} of {ratio(answer, catalog)}, in a water bath.",
        f" {_given(answer, catalog)}",
        f" {window_line(found['window'], catalog)}",
        f" {quality_line(found['quality_limit'], found['to'].value, catalog)}",
    )
    rows = [[*ceiling_cells(one, catalog), ""] for one in found["ceilings"]]
    head = ["Ceiling", f"Limit, {'°F' if _us(catalog) else '°C'}", "Yours"]
    yield table(head, rows, right=[1])
    heat = [
        [words, *_ends(found["energy"][name]), "", ""]
        for name, words in ROWS.items()
        if found["energy"][name].high
    ]
    yield table(
        ["Heat of", "Least, kJ", "Most, kJ", "Yours, least", "Yours, most"], heat, right=[1, 2]
    )
    yield paragraph(
        f"Time at {POWER} W: {span(found['time'])}. Smallest pot {amount(found['pot'])} to the"
        f" brim. The surface sinks {shown(found['sink']['mean'], catalog)} on the mean,"
        f" {shown(found['sink']['middle'], catalog)} at the middle; top-up"
        f" {shown(found['top_up'], catalog)}."
    )
    yield paragraph(element("strong", "Yours."))


def _given(answer: Answer, catalog: Catalog) -> str:
    """Say what the example starts from and goes to, its vessels and its water."""
    sizes, us = example_sizes(catalog), _us(catalog)
    warmth, mass = "°F" if us else "°C", spoken_unit(catalog.shop.scale_unit)
    goal = floor_degrees(catalog, answer.answer["to"].value)
    return (
        f"From {sizes['start']} {warmth} to {goal}; {sizes['bath']}"
        f" {spoken_unit('floz') if us else 'L'} of water, a pot of aluminium of {sizes['vessel']}"
        f" {mass} in an outer vessel of steel of {sizes['second']} {mass}."
    )


def _mass(grams: float, catalog: Catalog) -> str:
    unit = catalog.shop.scale_unit
    return f"{convert(grams, 'g', unit):.6g} {spoken_unit(unit)}"


def _ends(band: Band) -> list[str]:
    return [printed(band.low, 0), printed(band.high, 0)]


WORKSHEET = Worksheet(
    id="melt",
    title="Heat a pot",
    command=f"benchbinder melt {EXAMPLE} --total 400g --for holding --bath 1.5L --power 300W",
    fields=_fields,
    formulas=("heat_together",),
    example=_example,
    rows=(
        ("window", "Window"),
        ("governed", "Ceiling"),
        ("quality", "Colour"),
        ("time", "Time at full power"),
        ("volume", "Hot volume"),
        ("pot", "Smallest pot, to the brim"),
        ("loses", "Lost on setting"),
        ("sink", "Surface sinks"),
        ("topup", "Top-up to the hot level"),
        ("unknown", "Not known"),
        ("notes", "To note"),
    ),
    tables=_tables,
    worked=_worked,
    data=melt_data,
    lines=(
        "Date and batch",
        "Blend and mass",
        "Window, its floor and its ceiling",
        "The lowest ceiling and what it is",
        "Heater, power, thermostat and cut-out tried",
        "Who stays at the pot, who is in call",
        "On at, clear at, off at",
        "Highest heat read in the wax",
    ),
    limit="An estimate of heat and time is no safe limit, and no reason to leave the pot.",
)
