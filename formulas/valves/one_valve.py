"""All that is reckoned of one valve on one slot: gap, choke, delay, slap, bulge, curl, room.

Two valves decide each note: its own must open, the one on the other slot of its plate must
shut. What is reckoned here of a valve as the silent one counts for the note of the other slot.
A valve is a flat strip under even pressure; small bending.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Annotated

from formulas.formula import Q, formula, procedure
from formulas.valves.flow import opening_ratio, swinging_area, valve_pressure
from formulas.valves.strip import (
    G,
    bulge,
    curl_lift,
    droop,
    first_frequency,
    lift,
    lifting_pressure,
    preload,
    rigidity,
    root_strain,
    second_frequency,
)


@formula("Gap under a valve at rest", symbol="G", unit="m", source="definition")
def rest_gap(
    d_g: Annotated[float, Q("m", "droop off the plate; negative where gravity presses it on")],
    d_k: Annotated[float, Q("m", "lift of the tip by curl; negative toward the plate")],
) -> float:
    """Give how far the tip stands off: droop and curl together, and never less than nought."""
    return max(0, d_g + d_k)


@formula("Pressure that shuts a valve", symbol="p_s", unit="Pa", source="definition")
def shutting_pressure(
    m: Annotated[float, Q("kg/m**2", "mass per area")],
    g: Annotated[float, Q("m/s**2", "pull of gravity")],
    n: Annotated[float, Q("", "share of gravity that pulls it off the plate")],
    p_k: Annotated[float, Q("Pa", "pressure that bends an outward curl straight")],
) -> float:
    """Give what presses a valve flat that hangs and curls. Whatever its droop, its weight."""
    return max(0, m * g * n + p_k)


@formula("Time until a valve is shut", symbol="t", unit="s", source="definition")
def shutting_time(
    m: Annotated[float, Q("kg/m**2", "mass per area")],
    G: Annotated[float, Q("m", "gap at rest")],
    p: Annotated[float, Q("Pa", "pressure beyond the one that shuts it")],
) -> float:
    """Give the time of an even fall over the gap, with the tip's mass all along: a long estimate.

    Its own spring and the air it pushes away are left out; good to a factor of about two.
    """
    return math.sqrt(2 * m * G / p)


@formula("Energy with which a valve lands", symbol="E", unit="J", source="definition")
def landing_energy(
    p: Annotated[float, Q("Pa", "pressure in the bellows")],
    L: Annotated[float, Q("m", "free length of the valve")],
    b: Annotated[float, Q("m", "width of the valve")],
    d: Annotated[float, Q("m", "lift of the tip from which it is thrown shut")],
) -> float:
    """Give the work of the pressure as it throws an open valve shut: compare, do not believe."""
    return 0.4 * p * L * b * d


@formula("Return of a valve by its own spring", symbol="t_r", unit="s", source="definition")
def return_time(f_1: Annotated[float, Q("1/s", "first frequency of the valve")]) -> float:
    """Give a quarter of the valve's own period."""
    return 1 / (4 * f_1)


FOUND = (
    "gap",
    "gap_bench",
    "shut_pressure",
    "choke_soft",
    "choke_quiet",
    "choke_loud",
    "delay",
    "slap",
    "bulge",
    "curl_outward",
    "preload",
    "lift_loud",
    "root_strain",
    "return_time",
    "first_frequency",
    "second_frequency",
)
"""What `valve_found` gives, in its order, in SI units."""
PRESSURES = ("softest", "quiet", "loud", "loudest", "medium")
STOCK = ("mass", "bending_length", "across", "thickness", "curvature", "film")
"""What a stock is to `valve_found`: across is its rigidity that way in rigidities along;
the curvature counts outward; film is 1, leather 0."""
NEVER = 1e9  # seconds: a valve that its own weight holds open against the pressure


@procedure("All of one valve on one slot")
def valve_found(
    sizes: Sequence[float],
    L_s: float,
    W_s: float,
    hanging: float,
    opening: float,
    pressures: Sequence[float],
    stock: Sequence[float],
) -> list[float]:
    """Give what `FOUND` names for a valve of these sizes (`blank.SIZES`) and this stock.

    `hanging` is the share of gravity that pulls it off, `opening` that of the slot which the
    tongue leaves open, `pressures` are those of `PRESSURES` in Pa.
    """
    L = sizes[4]
    b = sizes[5]
    m = stock[0]
    D = rigidity(m, stock[1])
    curl = curl_lift(stock[4], L)
    gap = rest_gap(droop(hanging, L, stock[1]), curl)
    flat = lifting_pressure(max(0, curl), D, L)
    shut = shutting_pressure(m, G, max(0, hanging), flat)
    k = opening_ratio(L, b, D, swinging_area(opening, L_s, W_s))
    taken = [valve_pressure(p, k) / p for p in pressures]
    delay = NEVER
    if shut < pressures[0]:
        delay = shutting_time(m, gap, pressures[0] - shut)
    loud = lift(taken[2] * pressures[2], D, L)
    medium = lift(taken[4] * pressures[4], D, L)
    f_1 = first_frequency(stock[1], L)
    return [
        gap,
        rest_gap(droop(1, L, stock[1]), curl),
        shut,
        taken[0],
        taken[1],
        taken[2],
        delay,
        landing_energy(pressures[4], L, b, medium),
        bulge(pressures[3], W_s, stock[2] * D),
        max(0, curl),
        preload(D, max(0, -stock[4]), L),
        loud,
        stock[5] * root_strain(stock[3], loud, L),
        return_time(f_1),
        f_1,
        second_frequency(f_1),
    ]


@procedure("Ends of all of one valve on one slot")
def valve_ends(
    sizes: Sequence[float],
    L_s: float,
    W_s: float,
    hanging: float,
    openings: Sequence[float],
    pressures: Sequence[float],
    stock: Sequence[float],
    stock_ends: Sequence[float],
) -> list[list[float]]:
    """Give the lowest and the highest of each of `FOUND` over the ends of what is not certain.

    `openings` are low and high; `stock_ends` are mass and bending length, low and high of each. All
    found move one way with each of the three, so the corners hold the ends; the delay of a
    valve that curls outward can be shorter between them, never longer.
    """
    low: list[float] = []
    high: list[float] = []
    for opening in openings:
        for mass in (stock_ends[0], stock_ends[1]):
            for bending in (stock_ends[2], stock_ends[3]):
                one = [mass, bending, stock[2], stock[3], stock[4], stock[5]]
                found = valve_found(sizes, L_s, W_s, hanging, opening, pressures, one)
                for i in range(len(found)):
                    if len(low) <= i:
                        low.append(found[i])
                        high.append(found[i])
                    low[i] = min(low[i], found[i])
                    high[i] = max(high[i], found[i])
    return [low, high]
