"""Wax for one session at the pot, and the sticks that a batch gives."""

from __future__ import annotations

import math
from typing import Annotated

from formulas.formula import Q, formula


@formula("Wax to melt for one session", symbol="m_s", unit="kg", source="definition")
def session_wax(
    r: Annotated[float, Q("1/s", "plates bedded in a time, by your own count")],
    t: Annotated[float, Q("s", "time at the bench")],
    g: Annotated[float, Q("kg", "wax that one plate takes")],
    l_s: Annotated[float, Q("1", "share lost in straining, nought for strained sticks")],
    l_p: Annotated[float, Q("1", "share left in the pot")],
) -> float:
    """Give the wax that a session uses, so that no pot stands hot for the next one.

    As good as the count of plates: most of its range is the worker and the instrument.
    Neither share may reach 1.
    """
    return r * t * g / ((1 - l_s) * (1 - l_p))


@formula("Hollow of a stick mould", symbol="V", unit="m**3", source="definition")
def stick_volume(
    l: Annotated[float, Q("m", "length inside")],  # noqa: E741
    b: Annotated[float, Q("m", "width inside")],
    d: Annotated[float, Q("m", "depth inside")],
) -> float:
    """Give the hollow of a mould with straight sides, its lining in place."""
    return l * b * d


@formula("Wax in one stick", symbol="m_1", unit="kg", source="definition")
def stick_mass(
    V: Annotated[float, Q("m**3", "hollow of the mould")],
    rho: Annotated[float, Q("kg/m**3", "density of the cold wax", "ρ")],
) -> float:
    """Give the wax of a stick without a dip. One pour of hot wax holds less, by the shrinkage."""
    return rho * V


@formula("Whole sticks from a batch", symbol="n", unit="1", source="definition")
def stick_count(
    m: Annotated[float, Q("kg", "mass of the strained wax")],
    V: Annotated[float, Q("m**3", "hollow of the mould")],
    rho: Annotated[float, Q("kg/m**3", "density of the cold wax", "ρ")],
) -> float:
    """Give the least number of whole sticks: each is counted full, as if topped up.

    Filled in one pour they come out lighter by the dip, and more of them. What is left over
    is less than one stick.
    """
    return math.floor(m / (rho * V))
