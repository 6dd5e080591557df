"""A strip clamped at one end: how it hangs, lifts, swings and curls, alone and in layers.

D is a rigidity by the strip's width, N m. Small bending: at a droop of L/8, L/4 and L/2 a strip
hangs 1, 5 and 15 in 100 less by its own weight than is said here, and lifts 0.4, 2 and 7 in 100
less by pressure, which turns with the strip.
"""

from __future__ import annotations

import math
from typing import Annotated

from formulas.formula import Q, formula

G = 9.80665  # m/s**2, the standard pull of gravity

MASS = Q("kg/m**2", "mass per area")
BENDING = Q("m", "bending length")
FREE = Q("m", "free length")
RIGIDITY = Q("N*m", "rigidity, by its width")
CURVATURE = Q("1/m", "curvature", "κ")


@formula("Bending length of a stock", symbol="c", unit="m", source="derived")
def bending_length(
    O: Annotated[float, Q("m", "overhang on a ramp of 41.5 degrees")],  # noqa: E741
) -> float:
    """Give half the overhang: for this angle alone, within two parts in ten thousand."""
    return O / 2


@formula("Rigidity of a stock", symbol="D", unit="N*m", source="definition")
def rigidity(
    m: Annotated[float, MASS],
    c: Annotated[float, BENDING],
) -> float:
    """Give the rigidity by width from two measurements. One part in c is three parts in D."""
    return m * G * c**3


@formula("Bending length from a rigidity", symbol="c", unit="m", source="definition")
def bending_length_of(
    D: Annotated[float, RIGIDITY],
    m: Annotated[float, MASS],
) -> float:
    """Give the bending length that a stock of this rigidity and mass has."""
    return (D / (m * G)) ** (1 / 3)  # type: ignore[no-any-return]


@formula("Rigidity of a solid strip", symbol="D", unit="N*m", source="beam-cases-page")
def rigidity_of(
    E: Annotated[float, Q("Pa", "bending modulus")],
    t: Annotated[float, Q("m", "thickness")],
) -> float:
    """Give the rigidity by width of one even layer. For leather E is not known within ten times."""
    return E * t**3 / 12


@formula("Bending modulus from a rigidity", symbol="E", unit="Pa", source="beam-cases-page")
def bending_modulus(
    D: Annotated[float, RIGIDITY],
    t: Annotated[float, Q("m", "thickness")],
) -> float:
    """Give what a solid strip of this rigidity and thickness would have. Thickness counts cubed."""
    return 12 * D / t**3


@formula("Droop of a valve", symbol="d_g", unit="m", source="beam-cases-page")
def droop(
    n: Annotated[float, Q("", "share of gravity that pulls it off the plate")],
    L: Annotated[float, FREE],
    c: Annotated[float, BENDING],
) -> float:
    """Give how far the tip hangs off by its own weight; negative where it is pressed on."""
    return n * L**4 / (8 * c**3)


@formula("Bending length by the droop of a valve", symbol="c", unit="m", source="beam-cases-page")
def bending_length_by_droop(
    n: Annotated[float, Q("", "share of gravity that pulls it off the plate")],
    L: Annotated[float, FREE],
    d: Annotated[float, Q("m", "droop of the tip")],
) -> float:
    """Give the bending length from the droop read on a cut valve. Beyond L/4 it reads too long."""
    return (n * L**4 / (8 * d)) ** (1 / 3)  # type: ignore[no-any-return]


@formula("Pressure that lifts a valve", symbol="p", unit="Pa", source="beam-cases-page")
def lifting_pressure(
    d: Annotated[float, Q("m", "lift of the tip")],
    D: Annotated[float, RIGIDITY],
    L: Annotated[float, FREE],
) -> float:
    """Give the even pressure that bends the strip until its tip stands at d."""
    return 8 * D * d / L**4


@formula("Lift of a valve", symbol="d", unit="m", source="beam-cases-page")
def lift(
    p: Annotated[float, Q("Pa", "pressure on the valve")],
    D: Annotated[float, RIGIDITY],
    L: Annotated[float, FREE],
) -> float:
    """Give the lift of the tip under an even pressure; at L/2 it lifts 7 in 100 less than this."""
    return p * L**4 / (8 * D)


@formula("First frequency of a valve", symbol="f_1", unit="1/s", source="derived")
def first_frequency(
    c: Annotated[float, BENDING],
    L: Annotated[float, FREE],
) -> float:
    """Give the frequency at which the bare strip swings; air and glue are left out."""
    return 0.559591 * math.sqrt(G * c**3) / L**2


@formula("Second frequency of a valve", symbol="f_2", unit="1/s", source="derived")
def second_frequency(
    f_1: Annotated[float, Q("1/s", "first frequency")],
) -> float:
    """Give the frequency of the second way an even strip swings."""
    return 6.266893 * f_1


@formula("Curvature of a strip that curls", symbol="κ", unit="1/m", source="derived")
def curl_curvature(
    h: Annotated[float, Q("m", "rise in the middle")],
    s: Annotated[float, Q("m", "chord")],
) -> float:
    """Give the curvature of a flat arc; two in a hundred high where h is a fourteenth of s."""
    return 8 * h / s**2


@formula("Lift of the tip by curl", symbol="d_k", unit="m", source="derived")
def curl_lift(
    kappa: Annotated[float, CURVATURE],
    L: Annotated[float, FREE],
) -> float:
    """Give how far curl alone holds the tip off, or would press it on where it is negative."""
    return kappa * L**2 / 2


@formula("Pressure by which curl holds a valve shut", symbol="p_k", unit="Pa", source="derived")
def preload(
    D: Annotated[float, RIGIDITY],
    kappa: Annotated[float, CURVATURE],
    L: Annotated[float, FREE],
) -> float:
    """Give the even pressure that just frees the tip of a strip curled toward its plate."""
    return 4 * D * kappa / L**2


@formula("Bulge of a shut valve into its slot", symbol="w", unit="m", source="beam-cases-page")
def bulge(
    p: Annotated[float, Q("Pa", "pressure on the shut valve")],
    W: Annotated[float, Q("m", "width of the slot")],
    D_across: Annotated[float, Q("N*m", "rigidity across the valve", "D_q")],
) -> float:
    """Give the sag between the edges of the slot, on which the valve merely rests."""
    return 5 * p * W**4 / (384 * D_across)


@formula("Strain at the root of a valve", symbol="ε", unit="", source="derived")
def root_strain(
    t: Annotated[float, Q("m", "thickness")],
    d: Annotated[float, Q("m", "lift of the tip")],
    L: Annotated[float, FREE],
) -> float:
    """Give the strain of the outer face where it leaves the glue."""
    return 2 * t * d / L**2


@formula("Mean lift of a valve", symbol="d_m", unit="m", source="derived")
def swept_mean(
    d: Annotated[float, Q("m", "lift of the tip")],
) -> float:
    """Give the lift on the mean of the length, under an even pressure."""
    return 0.4 * d


@formula("Rigidity of loose layers", symbol="D", unit="N*m", source="definition")
def loose_rigidity(
    D_1: Annotated[float, Q("N*m", "rigidity of the first layer")],
    D_2: Annotated[float, Q("N*m", "rigidity of the second layer")],
) -> float:
    """Give the rigidity of layers that hang together at the root only and slip elsewhere."""
    return D_1 + D_2


@formula("Rigidity of two bonded layers", symbol="D", unit="N*m", source="derived")
def bonded_rigidity(
    E_1: Annotated[float, Q("Pa", "modulus of the first layer")],
    t_1: Annotated[float, Q("m", "thickness of the first layer")],
    E_2: Annotated[float, Q("Pa", "modulus of the second layer")],
    t_2: Annotated[float, Q("m", "thickness of the second layer")],
) -> float:
    """Give the rigidity of layers bonded all over; the glue's own thickness is left out."""
    D_a = E_1 * t_1 * E_2 * t_2 * (t_1 + t_2) ** 2 / (4 * (E_1 * t_1 + E_2 * t_2))
    return (E_1 * t_1**3 + E_2 * t_2**3) / 12 + D_a


@formula("Pressure of a gauge's foot", symbol="p_f", unit="Pa", source="definition")
def foot_pressure(
    M: Annotated[float, Q("kg", "mass that loads the foot")],
    w: Annotated[float, Q("m", "width of the round foot")],
) -> float:
    """Give what a thickness gauge presses with; leather gives way under more."""
    return 4 * M * G / (math.pi * w**2)
