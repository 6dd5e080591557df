"""The fall of a whole instrument by its own weight: its pressure, and the air it lets go."""

from __future__ import annotations

from typing import Annotated

from formulas.formula import Q, formula


@formula("Pressure in hanging bellows", symbol="p", unit="Pa", source="definition")
def drop_pressure(
    m: Annotated[float, Q("kg", "mass of the half that moves, with what hangs on it")],
    A: Annotated[float, Q("m**2", "cross-section of the bellows")],
    g: Annotated[float, Q("m/s**2", "pull of gravity")],
) -> float:
    """Give the mean pressure, or suction. The spring of the folds is left out."""
    return m * g / A


@formula("Air let by in a fall", symbol="Q", unit="m**3/s", source="definition")
def drop_flow(
    A: Annotated[float, Q("m**2", "cross-section of the bellows")],
    s: Annotated[float, Q("m", "length of the timed fall")],
    t: Annotated[float, Q("s", "drop time")],
) -> float:
    """Give the mean flow through all that leaks, between the two marks."""
    return A * s / t
