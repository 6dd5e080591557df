"""What is typed of a stock, brought to SI, and what is found, printed: the same on every face."""

from __future__ import annotations

import math

from formulas.formula import procedure
from formulas.units import printed


@procedure("A typed number in SI")
def in_si(value: float, each: float) -> float:
    """Give a typed number times its unit, to twelve decimals, as the tables' units give it."""
    return math.floor(value * each * 1e12 + 0.5) / 1e12


@procedure("A length as it is printed")
def length_printed(metres: float, us: bool) -> str:
    """Give tenths of a millimetre, or thousandths of an inch."""
    if us:
        return printed(metres / 0.0254, 3) + " in"
    return printed(1000 * metres, 1) + " mm"


@procedure("Two lengths as they are printed")
def lengths_printed(low: float, high: float, us: bool) -> str:
    """Give a range of lengths."""
    if us:
        return printed(low / 0.0254, 3) + " to " + length_printed(high, us)
    return printed(1000 * low, 1) + " to " + length_printed(high, us)


@procedure("A share in whole percent")
def share_printed(share: float) -> str:
    """Give a share in whole percent."""
    return printed(100 * share, 0) + " %"


@procedure("An area as it is printed")
def area_printed(area: float, us: bool) -> str:
    """Give square centimetres, or square inches."""
    if us:
        return printed(area / 0.0254**2, 0) + " in²"
    return printed(10000 * area, 0) + " cm²"


@procedure("A mass as it is printed")
def mass_printed(kilograms: float, us: bool) -> str:
    """Give grams, or ounces."""
    if us:
        return printed(kilograms / 0.028349523125, 2) + " oz"
    return printed(1000 * kilograms, 1) + " g"


@procedure("A mass per area as it is printed")
def areal_printed(low: float, high: float, us: bool) -> str:
    """Give a range in grams to the square metre, or ounces to the square yard."""
    if us:
        each = 0.028349523125 / 0.9144**2
        return printed(low / each, 2) + " to " + printed(high / each, 2) + " oz/yd²"
    return printed(1000 * low, 0) + " to " + printed(1000 * high, 0) + " g/m²"


@procedure("A rigidity as it is printed")
def rigidity_printed(low: float, high: float) -> str:
    """Give a range in millionths of a newton metre, for each width; whole from a hundred on."""
    places = 0 if 1e6 * high >= 100 else 1
    return printed(1e6 * low, places) + " to " + printed(1e6 * high, places) + " µN·m"


@procedure("A modulus as it is printed")
def modulus_printed(low: float, high: float) -> str:
    """Give a range in megapascal."""
    return printed(low / 1e6, 1) + " to " + printed(high / 1e6, 1) + " MPa"
