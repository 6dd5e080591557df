"""A gasket under a reed plate: its squeeze, the force that asks for, the plate between fasteners.

Load and squeeze go in proportion here, within the squeeze that the table gives: cork, leather and
felt do so only roughly, and their moduli are wide for that reason.
"""

from __future__ import annotations

from typing import Annotated

from formulas.formula import Q, formula

MODULUS = Q("Pa", "modulus of the gasket at that squeeze", "E_g")
SQUEEZE = Q("", "squeeze, share of the thickness", "q")
PLATE_MODULUS = Q("Pa", "modulus of the metal of the plate", "E_p")
PLATE_THICKNESS = Q("m", "thickness of the plate", "t_p")


@formula("Pressure that squeezes a gasket", symbol="p_g", unit="Pa", source="definition")
def gasket_pressure(
    E_g: Annotated[float, MODULUS],
    q: Annotated[float, SQUEEZE],
) -> float:
    """Give the pressure on the face of the gasket at a squeeze."""
    return E_g * q


@formula("Thickness of a squeezed gasket", symbol="t_q", unit="m", source="definition")
def squeezed_thickness(
    t_g: Annotated[float, Q("m", "thickness of the gasket, new")],
    q: Annotated[float, SQUEEZE],
) -> float:
    """Give what is left of its thickness under the plate."""
    return t_g * (1 - q)


@formula("Area of a plate that bears on its gasket", symbol="A_g", unit="m**2", source="definition")
def bearing_area(
    L_p: Annotated[float, Q("m", "length of the plate")],
    W_p: Annotated[float, Q("m", "width of the plate")],
    phi: Annotated[float, Q("", "share of the face that lies over its cells", "φ")],
) -> float:
    """Give the face of the plate without what lies over the cells."""
    return L_p * W_p * (1 - phi)


@formula("Force on a gasket", symbol="F_g", unit="N", source="definition")
def gasket_force(
    p_g: Annotated[float, Q("Pa", "pressure on the gasket")],
    A_g: Annotated[float, Q("m**2", "area that bears on it")],
) -> float:
    """Give what all fasteners together have to pull."""
    return p_g * A_g


@formula("Force of one fastener", symbol="F_1", unit="N", source="definition")
def force_each(
    F_g: Annotated[float, Q("N", "force on the gasket")],
    n: Annotated[float, Q("", "number of fasteners")],
) -> float:
    """Give the share of one, where all pull alike."""
    return F_g / n


@formula("Squeeze that fasteners reach", symbol="q_r", unit="", source="derived")
def squeeze_reached(
    n: Annotated[float, Q("", "number of fasteners")],
    F_1: Annotated[float, Q("N", "pull of one fastener")],
    E_g: Annotated[float, MODULUS],
    A_g: Annotated[float, Q("m**2", "area that bears on it")],
) -> float:
    """Give the mean squeeze; beyond the squeeze of the table it says no more than: enough."""
    return n * F_1 / (E_g * A_g)


@formula("Rise of a plate between two fasteners", symbol="w", unit="m", source="beam-cases-page")
def rise_between(
    p_g: Annotated[float, Q("Pa", "pressure of the gasket")],
    s: Annotated[float, Q("m", "from one fastener to the next")],
    E_p: Annotated[float, PLATE_MODULUS],
    t_p: Annotated[float, PLATE_THICKNESS],
) -> float:
    """Give 5 p b s^4 / (384 E I) with I = b t^3 / 12, so the width b drops out.

    Cautious three times: a span whose ends are free to turn rises five times as far as one that
    is held; the pressure is taken as if it did not ease where the plate rises; and the metal over
    the cells counts for nothing.
    """
    return 5 * p_g * s**4 / (32 * E_p * t_p**3)


@formula("Farthest from one fastener to the next", symbol="s", unit="m", source="beam-cases-page")
def fastener_span(
    w: Annotated[float, Q("m", "rise that the gasket still fills")],
    p_g: Annotated[float, Q("Pa", "pressure of the gasket")],
    E_p: Annotated[float, PLATE_MODULUS],
    t_p: Annotated[float, PLATE_THICKNESS],
) -> float:
    """Give the span at which the plate rises by w between two fasteners."""
    return (32 * E_p * t_p**3 * w / (5 * p_g)) ** (1 / 4)  # type: ignore[no-any-return]


@formula("Rise that a gasket still fills", symbol="w", unit="m", source="definition")
def rise_filled(
    t_g: Annotated[float, Q("m", "thickness of the gasket, new")],
    q_h: Annotated[float, Q("", "squeeze at a fastener")],
    q_l: Annotated[float, Q("", "squeeze that still seals")],
) -> float:
    """Give by how much it may stand thicker between two fasteners than at one."""
    return t_g * (q_h - q_l)
