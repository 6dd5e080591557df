"""What a valve takes of the pressure that its own tongue should have.

Valve and slot are two openings in a row through which the same air goes. Steady flow, the same
contraction at both: an estimate that ranks valves; a played note swings.
"""

from __future__ import annotations

import math
from typing import Annotated

from formulas.formula import Q, formula


@formula("Curtain under a lifted valve", symbol="A_c", unit="m**2", source="definition")
def curtain_area(
    d: Annotated[float, Q("m", "lift of the tip")],
    L: Annotated[float, Q("m", "free length of the valve")],
    b: Annotated[float, Q("m", "width of the valve")],
) -> float:
    """Give the area through which air leaves at both sides and the tip of a bent strip.

    A strip under even pressure stands at 0.4 of its tip's lift on the mean.
    """
    return 0.8 * L * d + b * d


@formula("Open area of a slot as its tongue swings", symbol="A_s", unit="m**2", source="definition")
def swinging_area(
    phi: Annotated[float, Q("", "share of the slot that the tongue leaves open, on the mean", "φ")],
    L_s: Annotated[float, Q("m", "length of the slot")],
    W_s: Annotated[float, Q("m", "width of the slot")],
) -> float:
    """Give the area a swinging tongue leaves open on the mean of a cycle.

    With the whole slot in its place a valve would seem to choke two to three times as much.
    """
    return phi * L_s * W_s


@formula("Lift that opens as much as the slot", symbol="d_c", unit="m", source="definition")
def full_lift(
    A_s: Annotated[float, Q("m**2", "open area of the slot")],
    L: Annotated[float, Q("m", "free length of the valve")],
    b: Annotated[float, Q("m", "width of the valve")],
) -> float:
    """Give the lift at which the curtain is as large as the opening of the slot."""
    return A_s / (0.8 * L + b)


@formula("Opening of the valve against the slot", symbol="k", unit="1/Pa", source="definition")
def opening_ratio(
    L: Annotated[float, Q("m", "free length of the valve")],
    b: Annotated[float, Q("m", "width of the valve")],
    D: Annotated[float, Q("N*m", "rigidity of the valve, by its width")],
    A_s: Annotated[float, Q("m**2", "open area of the slot")],
) -> float:
    """Give the curtain that each pascal on the valve opens, in openings of the slot."""
    return (0.8 * L + b) * L**4 / (8 * D * A_s)


@formula("Pressure that the own valve takes", symbol="p_v", unit="Pa", source="definition")
def valve_pressure(
    p: Annotated[float, Q("Pa", "pressure in the bellows")],
    k: Annotated[float, Q("1/Pa", "opening of the valve against the slot, for each pascal")],
) -> float:
    """Give the one real root of p_v (1 + (k p_v)^2) = p: two openings in a row, steady flow.

    The valve is taken to be shut and without weight until pressure lifts it.
    """
    return 2 / (k * math.sqrt(3)) * math.sinh(math.asinh(1.5 * math.sqrt(3) * k * p) / 3)


@formula("Opening that a valve must have", symbol="k_min", unit="1/Pa", source="definition")
def least_opening_ratio(
    p: Annotated[float, Q("Pa", "pressure in the bellows")],
    s: Annotated[float, Q("1", "share of it that the valve may take, below 1")],
) -> float:
    """Give the least opening for each pascal at which the valve takes no more than its share."""
    return math.sqrt(1 / s - 1) / (s * p)


@formula("Rigidity that a valve may have", symbol="D_max", unit="N*m", source="definition")
def most_rigidity(
    L: Annotated[float, Q("m", "free length of the valve")],
    b: Annotated[float, Q("m", "width of the valve")],
    A_s: Annotated[float, Q("m**2", "open area of the slot")],
    k_min: Annotated[float, Q("1/Pa", "opening it must have, for each pascal")],
) -> float:
    """Give the rigidity at which a valve opens just enough. Stiffer chokes."""
    return (0.8 * L + b) * L**4 / (8 * k_min * A_s)
