"""The table of factors from other units; every figure comes from the registry of units."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.practice.unit_pairs import FACTORS, factor_of, one_of_it
from formulas.units import convert, fahrenheit, printed, spoken_unit
from site_builder.markup.elements import table

if TYPE_CHECKING:
    from formulas.catalog import Catalog

HEADS = ["One", "Is", "From the first to the second", "Back"]
SAME = 1e-12  # as near as a factor that is exact comes to what is printed of it
NINTHS = 9  # the largest denominator of a step of one scale on the other


def unit_factors(_catalog: Catalog, _argument: str) -> list[Element]:
    """Tabulate what one of each other unit is, and how heats and differences of heat turn."""
    return [table(HEADS, [_row(*one) for one in FACTORS]), _heats()]


def _row(large: str, small: str, digits: int) -> list[str]:
    factor, unit = factor_of(large, small, digits), spoken_unit(small)
    near = abs(float(factor) - convert(1, large, small)) > SAME
    return [
        one_of_it(large),
        f"{'about ' if near else ''}{factor} {unit}",
        f"times {factor}",
        f"divided by {factor}",
    ]


def _heats() -> Element:
    ice = printed(fahrenheit(0), 0)
    up = Fraction(convert(1, "delta_degC", "delta_degF")).limit_denominator(NINTHS)
    times, back = (f"{one.numerator} / {one.denominator}" for one in (up, 1 / up))
    return table(
        ["Heat", "From °C to °F", "From °F to °C"],
        [
            ["What a thermometer shows", f"times {times}, then plus {ice}",
             f"less {ice}, then times {back}"],
            ["How far it rises or falls", f"times {times}, without {ice}",
             f"times {back}, without {ice}"],
        ],
    )  # fmt: skip
