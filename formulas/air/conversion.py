"""Vapour in air: share by volume, mass in a volume of air, vapour pressure; all in kelvin and Pa.

An ideal gas: at a bench, vapour far below its own pressure, that is off by less than one part
in a hundred, while the figures it works on are off by a tenth and more.
"""

from __future__ import annotations

from typing import Annotated

from formulas.formula import Q, formula, procedure

GAS_CONSTANT = 8.31446261815324
"""J/(mol*K): the product of two numbers that the SI fixes, so it is exact."""
ICE_POINT = 273.15  # K at 0 degC
ATMOSPHERE = 101325.0
"""Pa: the standard atmosphere, at which the bodies print their limits."""

SHARE = Q("", "share of the air that is vapour, by volume", "x")
MASS = Q("kg/m**3", "mass of vapour in a volume of air", "C")
MOLAR = Q("kg/mol", "molar mass", "M")
AIR = Q("Pa", "pressure of the air", "p")
HEAT = Q("K", "heat of the air, absolute", "T")


@formula("Mass of vapour in air", symbol="C", unit="kg/m**3", source="definition")
def mass_in_air(
    x: Annotated[float, SHARE],
    M: Annotated[float, MOLAR],
    p: Annotated[float, AIR],
    T: Annotated[float, HEAT],
) -> float:
    """Give the mass of vapour in a cubic metre of air from its share by volume."""
    return x * M * p / (GAS_CONSTANT * T)


@formula("Share of vapour in air", symbol="x", unit="", source="definition")
def share_in_air(
    C: Annotated[float, MASS],
    M: Annotated[float, MOLAR],
    p: Annotated[float, AIR],
    T: Annotated[float, HEAT],
) -> float:
    """Give the share by volume from the mass in a cubic metre: the other way round."""
    return C * GAS_CONSTANT * T / (M * p)


@formula("Share of vapour over an open jar", symbol="x_s", unit="", source="definition")
def saturated_share(
    p_v: Annotated[float, Q("Pa", "vapour pressure of the liquid", "p_v")],
    p: Annotated[float, AIR],
) -> float:
    """Give the most vapour that air holds beside its liquid; all air where the liquid boils."""
    return min(1, p_v / p)


@formula("Vapour pressure by Antoine's constants", symbol="p_v", unit="Pa", source="definition")
def antoine_pressure(
    A: Annotated[float, Q("", "first constant, logarithm to the base ten")],
    B: Annotated[float, Q("K", "second constant")],
    C_A: Annotated[float, Q("K", "third constant, for an absolute heat")],
    u: Annotated[float, Q("Pa", "unit of pressure that the constants give")],
    T: Annotated[float, Q("K", "heat of the liquid, absolute")],
) -> float:
    """Give the vapour pressure inside the range for which the constants were drawn, not beyond.

    A third constant that goes with degrees Celsius is turned into one in kelvin by taking
    273.15 off it.
    """
    return u * 10 ** (A - B / (T + C_A))


@procedure("Milligrams in a cubic metre from parts in a million")
def mg_per_m3(ppm: float, grams_per_mole: float, celsius: float, pascals: float) -> float:
    """Give the mass by volume of so many parts in a million, in the units of the lists.

    >>> round(mg_per_m3(1000, 58.08, 25, ATMOSPHERE))
    2374
    """
    kelvin = celsius + ICE_POINT
    return mass_in_air(ppm / 1e6, grams_per_mole / 1e3, pascals, kelvin) * 1e6


@procedure("Parts in a million from milligrams in a cubic metre")
def ppm_in_air(milligrams: float, grams_per_mole: float, celsius: float, pascals: float) -> float:
    """Give the parts in a million of so many milligrams in a cubic metre."""
    kelvin = celsius + ICE_POINT
    return share_in_air(milligrams / 1e6, grams_per_mole / 1e3, pascals, kelvin) * 1e6
