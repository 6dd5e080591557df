"""What the tests of fitted valves reckon: leaks by bulb and by gauge, cents, sticking, blame.

Readings at a bench: a leak area is good to a factor of two, cents to about one.
"""

from __future__ import annotations

import math
from typing import Annotated

from formulas.formula import Q, formula, procedure


@formula("Leak by a bulb", symbol="Q", unit="m**3/s", source="definition")
def leak_flow(
    V: Annotated[float, Q("m**3", "air that the bulb takes back")],
    t: Annotated[float, Q("s", "time until it is round again")],
) -> float:
    """Give the mean flow through all that leaks. A bulb springs back harder at first."""
    return V / t


@formula("Area of a leak by its flow", symbol="A_l", unit="m**2", source="definition")
def leak_area(
    Q_l: Annotated[float, Q("m**3/s", "flow through the leak", "Q")],
    p: Annotated[float, Q("Pa", "pressure across it")],
    rho: Annotated[float, Q("kg/m**3", "density of air", "ρ")],
    C: Annotated[float, Q("", "share of the crack that the air fills")],
) -> float:
    """Give the area of one sharp hole that would leak as much."""
    return Q_l / (C * math.sqrt(2 * p / rho))


@formula("Area of a leak by the fall of a gauge", symbol="A_l", unit="m**2", source="definition")
def leak_area_by_fall(
    V: Annotated[float, Q("m**3", "volume of the stiff box, hose and gauge")],
    t: Annotated[float, Q("s", "time of the fall")],
    p_1: Annotated[float, Q("Pa", "pressure at first")],
    p_2: Annotated[float, Q("Pa", "pressure at last")],
    p_a: Annotated[float, Q("Pa", "pressure of the air outside")],
    rho: Annotated[float, Q("kg/m**3", "density of air", "ρ")],
    C: Annotated[float, Q("", "share of the crack that the air fills")],
) -> float:
    """Give the area from a fall of pressure, or of suction, in a box that does not give way.

    Both pressures are above the outside, and far below it in size; the heat of the air is kept.
    """
    return math.sqrt(2 * rho) * V * (math.sqrt(p_1) - math.sqrt(p_2)) / (C * p_a * t)


@formula("Pitch moved", symbol="x", unit="cent", source="definition")
def cents_moved(
    f: Annotated[float, Q("Hz", "frequency as it plays")],
    f_o: Annotated[float, Q("Hz", "frequency with the own valve held open")],
) -> float:
    """Give how far the pitch rises as the own valve is held open; negative where it falls."""
    return 1200 * math.log(f_o / f) / math.log(2)


@formula("Height of water", symbol="h", unit="m", source="definition")
def water_height(
    p: Annotated[float, Q("Pa", "pressure")],
    rho: Annotated[float, Q("kg/m**3", "density of water", "ρ")],
    g: Annotated[float, Q("m/s**2", "pull of gravity")],
) -> float:
    """Give how high that pressure holds a column of water, in a tube bent to a U."""
    return p / (rho * g)


@formula("Weight on the tip for a pressure", symbol="m_t", unit="kg", source="definition")
def tip_mass(
    p: Annotated[float, Q("Pa", "pressure on the whole valve")],
    L: Annotated[float, Q("m", "free length of the valve")],
    b: Annotated[float, Q("m", "width of the valve")],
    g: Annotated[float, Q("m/s**2", "pull of gravity")],
) -> float:
    """Give what hangs on a stuck tip to pull there as hard as that pressure would.

    A strip held at its root and its tip carries three eighths of an even load at the tip.
    """
    return 3 * p * L * b / (8 * g)


NEITHER, OWN, PARTNER, BOTH = 0, 1, 2, 3


@procedure("Which of the two valves")
def which_valve(moved: float, limit: float, helped: bool) -> int:
    """Give `OWN`, `PARTNER`, `BOTH` or `NEITHER` from the two tests of a note.

    `moved` is how far the pitch moves with the own valve held open, in cents either way, `limit`
    what is allowed; `helped` whether the fault went away with the partner held shut.
    """
    own = abs(moved) > limit
    if own and helped:
        return BOTH
    if own:
        return OWN
    if helped:
        return PARTNER
    return NEITHER
