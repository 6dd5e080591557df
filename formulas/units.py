"""Units at the edge: one small registry, quantities as people write them, one way to print.

Inside the package all numbers are floats whose unit stands in a signature or a column name.
"""

from __future__ import annotations

import functools
import math
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

from formulas.fault import UnitFault
from formulas.formula import procedure

if TYPE_CHECKING:
    import pint

DEFINITIONS = Path(__file__).parent / "tables" / "units.txt"

SPOKEN = {
    "degC": "°C",
    "degF": "°F",
    "percent": "%",
    "deg": "degrees",
    "day": "days",
    "year": "years",
    "1": "",
    "": "",
    "dimensionless": "",
    "delta_degC/percent": "°C for each %",
    "floz": "fl oz",
    "inH2O": "inches of water",
    "leather_ounce": "leather ounces",
    "semitone": "semitones",
    "cent": "cents",
    "1/h": "an hour",
}

ONE = {
    "day": "day",
    "year": "year",
    "deg": "degree",
    "inH2O": "inch of water",
    "leather_ounce": "leather ounce",
    "semitone": "semitone",
    "cent": "cent",
}

SHOWN = [
    ("**2", "²"),
    ("**3", "³"),
    ("**-1", "⁻¹"),
    ("*", "·"),
    ("delta_degC", "°C"),
    ("delta_degF", "°F"),
    ("degC", "°C"),
    ("degF", "°F"),
    ("percent", "%"),
]

WRITTEN = {
    "°C": "degC",
    "°F": "degF",
    "C": "degC",
    "F": "degF",
    "degC": "degC",
    "degF": "degF",
    "%": "percent",
    "fl oz": "floz",
    "fl. oz.": "floz",
    "lbs": "lb",
    "l": "liter",
    "L": "liter",
    "gramme": "g",
    "grammes": "g",
    "grams": "g",
    "kilo": "kg",
    "ounces": "oz",
    "pounds": "lb",
}

NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?", re.IGNORECASE)


@functools.cache
def registry() -> pint.UnitRegistry[Any]:
    """Give the package's one registry, made on first use."""
    import pint

    return pint.UnitRegistry(DEFINITIONS, autoconvert_offset_to_baseunit=False, cache_folder=None)


def number(text: str) -> float:
    """Read a number with a point or a comma; refuse what float() would let through.

    >>> number("0,5"), number("1e3")
    (0.5, 1000.0)

    Raises UnitFault for anything else: nan, inf, 1_000, 1.234,5.
    """
    stripped = text.strip()
    if not NUMBER.fullmatch(stripped):
        raise UnitFault(text, "a number such as 12.5 or 12,5")
    value = float(stripped.replace(",", "."))
    if not math.isfinite(value):
        raise UnitFault(text, "a number that is not too large to hold")
    return value


def quantity(text: str, unit: str) -> Any:
    """Read "400 g", "14oz", "62 °C" or "144F" as a pint quantity of the same kind as `unit`.

    A bare number is refused: a unit is never guessed. Raises UnitFault.
    """
    accepted = f"a number with a unit, such as {example(unit)}"
    match = NUMBER.match(text.strip())
    if not match:
        raise UnitFault(text, accepted)
    name = text.strip()[match.end() :].strip()
    if not name:
        raise UnitFault(text, accepted)
    import pint

    try:
        read_unit = _unit(WRITTEN.get(name, name))
    except (pint.UndefinedUnitError, pint.DefinitionSyntaxError, ValueError, TypeError) as error:
        raise UnitFault(text, accepted) from error
    if read_unit.dimensionality != _unit(unit or "dimensionless").dimensionality:
        raise UnitFault(text, accepted)
    return registry().Quantity(number(match.group()), read_unit)


@functools.cache
def _unit(name: str) -> Any:
    """Give a unit of the registry by its name, which takes long to read."""
    return registry().Unit(name)


def read(text: str, unit: str) -> float:
    """Read a quantity as people write it and give it as a float in `unit`.

    >>> round(read("14 oz", "g"), 3)
    396.893
    >>> round(read("144F", "degC"), 1)
    62.2
    """
    return float(magnitude(quantity(text, unit), unit))


def magnitude(value: Any, unit: str) -> Any:
    """Give a pint quantity (or a list of them) as floats in `unit`; a bare number only where
    the unit is a pure number. Raises UnitFault for a wrong dimension.
    """
    import pint

    if isinstance(value, list | tuple):
        return [magnitude(item, unit) for item in value]
    if not hasattr(value, "dimensionality"):
        if unit in {"", "1"}:
            return value
        raise UnitFault(f"{value}", f"a quantity in {unit}")
    try:
        return float(value.to(unit or "dimensionless").magnitude)
    except pint.DimensionalityError as error:
        raise UnitFault(f"{value}", f"a quantity in {unit or 'no unit'}") from error


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """Convert a float from one unit to another.

    >>> convert(212, "degF", "degC")
    100.0

    A temperature difference is no temperature: convert it as kelvin and 5/9 kelvin.
    """
    if from_unit == to_unit:
        return value
    scale = _scale(from_unit, to_unit)
    if scale is None:
        worth = float(registry().Quantity(value, from_unit).to(to_unit).magnitude)
    else:
        worth = value * scale
    return round(worth, 12)


@functools.cache
def _scale(from_unit: str, to_unit: str) -> float | None:
    """Give what a number of one unit is multiplied by, or None where the noughts lie apart.

    The registry multiplies by the same; to ask it each time took most of a choice of valves.
    """
    nought, one = (registry().Quantity(end, from_unit).to(to_unit).magnitude for end in (0.0, 1.0))
    return float(one) if nought == 0 else None


def example(unit: str) -> str:
    """Give one quantity of this kind as a person would write it."""
    return {"g": "400 g or 14 oz", "degC": "62 °C or 144 °F", "mm": "5 mm or 0.2 in"}.get(
        unit, f"1 {spoken_unit(unit, 1)}"
    )


def spoken_unit(unit: str, count: float | None = None) -> str:
    """Give a unit as it is printed, behind a count where one is given.

    >>> spoken_unit("kg/m**3"), spoken_unit("degC"), spoken_unit("kJ/(kg*K)")
    ('kg/m³', '°C', 'kJ/(kg·K)')
    >>> spoken_unit("day", 365), spoken_unit("year", 1)
    ('days', 'year')
    """
    if count == 1 and unit in ONE:
        return ONE[unit]
    if unit in SPOKEN:
        return SPOKEN[unit]
    for written, shown in SHOWN:
        unit = unit.replace(written, shown)
    return unit


@procedure("A number rounded for print")
def printed(value: float, decimals: int) -> str:
    """Round half away from nought to `decimals` places, the same on paper and on the page.

    >>> printed(2.5, 0), printed(-0.04, 1), printed(1234.5678, 2)
    ('3', '0.0', '1234.57')
    """
    scale = 10**decimals
    whole = math.floor(abs(value) * scale + 0.5)
    head = math.floor(whole / scale)
    text = str(whole - head * scale)
    while len(text) < decimals:
        text = "0" + text
    text = str(head) if decimals == 0 else str(head) + "." + text
    return "-" + text if value < 0 and whole > 0 else text


@procedure("Degrees Fahrenheit")
def fahrenheit(celsius: float) -> float:
    """Turn degrees Celsius into degrees Fahrenheit."""
    return celsius * 9 / 5 + 32


@procedure("Degrees Celsius")
def celsius_of(fahrenheit_degrees: float) -> float:
    """Turn degrees Fahrenheit into degrees Celsius."""
    return (fahrenheit_degrees - 32) * 5 / 9
