"""The window of a slot: bending lengths between too limp and too stiff, for one mass per area.

Below the window a valve stands open at rest, above it it chokes its own note. It is what a
shop needs before it has measured anything: how far a strip has to hang over the ramp.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

from formulas.formula import Q, formula, procedure
from formulas.valves.flow import least_opening_ratio, most_rigidity, swinging_area
from formulas.valves.judging import limits_here, references_of
from formulas.valves.strip import G, bending_length_of


@formula("Least bending length", symbol="c_min", unit="m", source="definition")
def least_bending_length(
    n: Annotated[float, Q("", "share of gravity that pulls it off the plate")],
    L: Annotated[float, Q("m", "free length of the valve")],
    G_max: Annotated[float, Q("m", "gap allowed at rest")],
) -> float:
    """Give the bending length at which a valve without curl droops to the gap allowed."""
    return (max(0, n) * L**4 / (8 * G_max)) ** (1 / 3)  # type: ignore[no-any-return]


@formula("Gap that shuts in time", symbol="G_t", unit="m", source="definition")
def gap_in_time(
    t: Annotated[float, Q("s", "time allowed")],
    p: Annotated[float, Q("Pa", "softest pressure, beyond the one that shuts the valve")],
    m: Annotated[float, Q("kg/m**2", "mass per area")],
) -> float:
    """Give the gap that an even fall closes in the time allowed."""
    return t**2 * p / (2 * m)


@formula("Gap times opening pressure", symbol="W", unit="Pa*m", source="definition")
def gap_times_pressure(
    n: Annotated[float, Q("", "share of gravity that pulls it off the plate")],
    m: Annotated[float, Q("kg/m**2", "mass per area")],
    g: Annotated[float, Q("m/s**2", "pull of gravity")],
    d: Annotated[float, Q("m", "lift it must reach")],
) -> float:
    """Give what stiffness cannot change: droop times the pressure that lifts the tip by d.

    Where it is more than the gap allowed times the pressure allowed, no stock of this mass
    serves: take a lighter one, or a helper.
    """
    return n * m * g * d


FAR = 1.0  # m; the gap allowed where none is limited
NEARLY_SHUT = 1e-9  # 1/Pa; the opening asked for where no choke is limited
WINDOW = ("least", "most", "gap", "rigidity")


@procedure("Window of bending length for a slot")
def window_of(
    sizes: Sequence[float],
    slot: Sequence[float],
    openings: Sequence[float],
    pressures: Sequence[float],
    limits: Sequence[Sequence[float]],
    mass: float,
) -> list[float]:
    """Give least and most bending length, the gap that counts, and the rigidity that may be.

    Arguments as in `judging.judged`; no curl; a limit of nought limits nothing. The window is
    empty where least is above most.
    """
    here = limits_here(limits, references_of(sizes[4], slot[3], pressures[0], slot[4]))
    hanging = max(0, slot[2])
    shut = hanging * mass * G
    gap = here[0] if here[0] > 0 else FAR
    if here[6] > 0 and shut < pressures[0]:
        gap = min(gap, gap_in_time(here[6], pressures[0] - shut, mass))
    area = swinging_area(openings[0], slot[0], slot[1])
    k = NEARLY_SHUT
    for i in range(3):
        if here[3 + i] > 0 and here[3 + i] < 1:
            k = max(k, least_opening_ratio(pressures[i], here[3 + i]))
    D = most_rigidity(sizes[4], sizes[5], area, k)
    least = least_bending_length(hanging, sizes[4], gap)
    return [least, bending_length_of(D, mass), gap, D]


@procedure("Windows of a rank")
def windows_of(
    lengths: Sequence[Sequence[float]],
    slots: Sequence[Sequence[float]],
    openings: Sequence[float],
    pressures: Sequence[float],
    limits: Sequence[Sequence[float]],
    mass: float,
) -> list[list[float]]:
    """Give the window of each slot; `lengths` are the sizes of each valve."""
    return [
        window_of(sizes, slot, openings, pressures, limits, mass)
        for sizes, slot in zip(lengths, slots, strict=True)
    ]
