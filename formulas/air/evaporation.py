"""What goes into the air: all of the liquid, or what its wet face gives off in the time."""

from __future__ import annotations

from typing import Annotated

from formulas.formula import Q, formula


@formula("Liquid by its volume", symbol="m_a", unit="kg", source="definition")
def liquid_mass(
    a: Annotated[float, Q("m**3", "volume of the liquid")],
    rho: Annotated[float, Q("kg/m**3", "its density", "ρ")],
) -> float:
    """Give the mass of what was used."""
    return a * rho


@formula("Vapour given off", symbol="m", unit="kg", source="derived")
def vapour_given_off(
    m_a: Annotated[float, Q("kg", "liquid that is there")],
    k: Annotated[float, Q("m/s", "how fast air takes vapour off a wet face")],
    C_s: Annotated[float, Q("kg/m**3", "vapour that the air right over it holds")],
    A: Annotated[float, Q("m**2", "wet face: mouth of the jar, or what was wiped")],
    T: Annotated[float, Q("s", "how long it is wet")],
) -> float:
    """Give what a wet face gives off, and never more than there is.

    The air of the room is taken as clean, which makes it more, and the face as not cooling,
    which makes it more again.
    """
    return min(m_a, k * C_s * A * T)
