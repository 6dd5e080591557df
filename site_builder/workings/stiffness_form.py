"""The working of `stiffness`: ramp and scale."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.answer import Unknown
from formulas.units import convert
from formulas.valves.ramp import ANGLES
from formulas.valves.readings import expected_spread, limits_of
from formulas.valves.stiffness import stiffness
from formulas.valves.stiffness_words import FIGURES, NEXT, VERDICTS
from formulas.valves.typed_readings import (
    FACE_OF_PLACE,
    OVERHANGS,
    SIDES,
    THICKNESSES,
    Typed,
    Weighed,
)
from site_builder.markup.elements import element, paragraph, table
from site_builder.texts.stiffness import ROWS, across_lines, read_line, row_said
from site_builder.workings.paper_form import BLANK_ROWS
from site_builder.workings.worksheet import BEFORE_KNIFE, Field, Worksheet

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

STRIPS = 3
PLACES = ("smooth down, end a", "smooth down, end b", "soft down, end a", "soft down, end b")
EXAMPLE_STRIPS = ((62.0, 63.0, 60.0, 61.0), (64.0, 63.5, 61.5, 62.0), (61.0, 62.5, 60.5, 60.0))
EXAMPLE_ACROSS = (52.0, 53.0, 50.5, 51.0)
EXAMPLE_PIECE = {"length": 100.0, "width": 50.0, "pieces": 4, "mass": 4.7, "scale": 0.1}
EXAMPLE_THICK = 0.38
"""The worked example, in millimetres and grams; a shop that reads inches has it in inches."""
OUNCE = 28.349523125


def _us(catalog: Catalog) -> bool:
    return catalog.shop.units == "US"


def _length(catalog: Catalog, millimetres: float) -> str:
    """Write a length of the example in the unit the shop reads."""
    return f"{millimetres / 25.4:.3f}" if _us(catalog) else f"{millimetres:g}"


def _mass(catalog: Catalog, grams: float) -> str:
    return f"{grams / OUNCE:.3f}" if _us(catalog) else f"{grams:g}"


def _ends(catalog: Catalog, ends: tuple[float, float]) -> tuple[float, float]:
    low, high = (convert(one, "m", "in" if _us(catalog) else "mm") for one in ends)
    return float(f"{low:.3g}"), float(f"{high:.3g}")


def field_names(strip: int) -> list[str]:
    """Give the names of a strip's four fields; strip nought is the one across."""
    return [f"strip{strip}{end}" for end in ("a", "b", "c", "d")]


def _strip(catalog: Catalog, strip: int, group: str) -> list[Field]:
    unit = "in" if _us(catalog) else "mm"
    low, high = _ends(catalog, OVERHANGS)
    example = EXAMPLE_STRIPS[strip - 1] if strip else EXAMPLE_ACROSS
    return [
        Field(name, f"Overhang, {words}", unit, default=_length(catalog, value), low=low,
              high=high, blank=True, group=group)
        for name, words, value in zip(field_names(strip), PLACES, example, strict=True)
    ]  # fmt: skip


def _fields(catalog: Catalog) -> list[Field]:
    length, mass = ("in", "oz") if _us(catalog) else ("mm", "g")
    low, high = _ends(catalog, SIDES)
    thin, thick = _ends(catalog, THICKNESSES)
    strips = [
        field
        for strip in range(1, STRIPS + 1)
        for field in _strip(catalog, strip, f"Strip {strip}, along the backbone")
    ]
    piece = "Pieces on the scale"
    return [
        *strips,
        *_strip(catalog, 0, "Strip across the backbone"),
        Field("angle", "Angle of the ramp", "degrees", default="41.5", low=ANGLES[0],
              high=ANGLES[1], group="Ramp"),
        Field("piece_length", "Length of a piece", length, default=_length(catalog, 100), low=low,
              high=high, group=piece),
        Field("piece_width", "Width of a piece", length, default=_length(catalog, 50), low=low,
              high=high, group=piece),
        Field("pieces", "How many pieces", default="4", low=1, high=1000, whole=True, group=piece),
        Field("mass", "Mass of all together", mass, default=_mass(catalog, 4.7), above=0,
              high=20000, blank=True, group=piece),
        Field("scale", "Step of the scale", mass, default=_mass(catalog, 0.1), above=0, high=1000,
              group=piece),
        Field("thickness", "Thickness", length, default=_length(catalog, EXAMPLE_THICK), low=thin,
              high=thick, blank=True, group="Thickness"),
    ]  # fmt: skip


def example_typed(catalog: Catalog) -> Typed:
    """Give the readings of the example as the fields show them."""
    each = 0.0254 if _us(catalog) else 0.001

    def metres(millimetres: float) -> float:
        return round_trip(_length(catalog, millimetres), each)

    piece = EXAMPLE_PIECE
    kilograms = [
        round_trip(_mass(catalog, piece[name]), 0.001 * (OUNCE if _us(catalog) else 1))
        for name in ("mass", "scale")
    ]
    return Typed(
        [[metres(one) for one in strip] for strip in EXAMPLE_STRIPS],
        [[metres(one) for one in EXAMPLE_ACROSS]],
        weighings=[
            Weighed(kilograms[0], 4, metres(piece["length"]), metres(piece["width"]), kilograms[1])
        ],
        thickness=(metres(EXAMPLE_THICK), metres(EXAMPLE_THICK)),
    )


def round_trip(text: str, each: float) -> float:
    """Give what a field's text is worth."""
    from formulas.valves.typed import in_si

    return in_si(float(text), each)


def _example(catalog: Catalog) -> Answer:
    return stiffness(catalog, "", example_typed(catalog))


def _worked(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the worked example with the steps, then the table to fill in."""
    found, us = answer.answer, _us(catalog)
    unit = "in" if us else "mm"
    yield paragraph(
        element("strong", "Worked example."),
        f" {read_line(found)} Add the four readings of a strip and halve the sum twice: its mean."
        " The mean of the means, halved, is the bending length.",
    )
    rows = [
        [f"{number}", *(_length(catalog, one) for one in strip),
         _length(catalog, sum(strip) / 4), ""]
        for number, strip in enumerate(EXAMPLE_STRIPS, 1)
    ]  # fmt: skip
    rows.append(
        ["across", *(_length(catalog, one) for one in EXAMPLE_ACROSS),
         _length(catalog, sum(EXAMPLE_ACROSS) / 4), ""]
    )  # fmt: skip
    heads = ["Strip", *(f"{words}, {unit}" for words in PLACES), f"Mean, {unit}", "Yours"]
    yield table(heads, rows, right=[1, 2, 3, 4, 5])
    said = [
        f"{words}: {row_said(name, found[name], us)}"
        for name, words in ROWS
        if found[name] is not None and not isinstance(found[name], Unknown)
    ]
    yield paragraph("; ".join(said) + ".")
    for line in across_lines(found, us):
        yield paragraph(line)
    yield paragraph("Next: ", found["next"])
    yield paragraph(element("strong", "Yours."))
    yield table(heads[:-1], [[""] * (len(heads) - 1) for _ in range(BLANK_ROWS)])


def _data(catalog: Catalog) -> dict[str, Any]:
    us = _us(catalog)
    return {
        "us": us,
        "metres": 0.0254 if us else 0.001,
        "kilograms": convert(1, "oz" if us else "g", "kg"),
        "length": "in" if us else "mm",
        "mass": "oz" if us else "g",
        "faces": list(FACE_OF_PLACE),
        "ends": [place % 2 for place in range(len(PLACES))],
        "strips": [field_names(strip) for strip in range(1, STRIPS + 1)],
        "across": field_names(0),
        "limits": limits_of(catalog),
        "expected": list(expected_spread(catalog)),
        "cut": catalog.span("piece-cut", "m")[1],
        "counted": {name: catalog.span(figure, unit)[end] for name, figure, unit, end in FIGURES},
        "verdicts": {str(code): list(words) for code, words in VERDICTS.items()},
        "next": {str(code): words for code, words in NEXT.items()},
    }


WORKSHEET = Worksheet(
    id="stiffness",
    title="Ramp and scale",
    command="benchbinder stiffness --overhang 62/63/60/61mm --piece 100x50mm=4.7g --pieces 4",
    fields=_fields,
    formulas=("bending_length", "mass_per_area", "rigidity", "bending_modulus"),
    example=_example,
    rows=(
        ("read", "Read"),
        *ROWS,
        ("across", "Across"),
        ("verdicts", "Against the test"),
        ("next", "Next"),
    ),
    worked=_worked,
    data=_data,
    lines=(
        "Stock, lot, where it lies",
        "Date, air: temperature and humidity, how long it lay in it",
        "Thickness at four places, gauge and its pressure",
        "Mass per area",
        "Mean overhang along, bending length",
        "Rigidity",
        "Faces apart; spread of the strips",
        "Tested by",
    ),
    limit="It says how a strip bends, not how a valve plays: cut one, and test it on its slot.",
    before=BEFORE_KNIFE,
)
