"""Wax round a bedded plate, from the size of the plate and of its fillet."""

from __future__ import annotations

from typing import Annotated

from formulas.formula import Q, formula


@formula("Wax in a fillet of triangular section", symbol="m_f", unit="kg", source="definition")
def fillet_mass(
    U: Annotated[float, Q("m", "way round the plate")],
    b: Annotated[float, Q("m", "width of the fillet on the wood")],
    h: Annotated[float, Q("m", "thickness of the plate")],
    rho: Annotated[float, Q("kg/m**3", "density of the cold wax", "ρ")],
) -> float:
    """Give the wax of a fillet as high as the plate is thick, that no neighbour shares.

    A real one is hollow, laps the rim and thickens at the corners: trust it to a third.
    """
    return rho * U * b * h / 2
