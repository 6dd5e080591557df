"""What a reed plate of a note is likely to measure, before anybody has measured it.

The lines are from memory and stand in figures.csv: they find the right shelf, not the right
valve. Makers' scales differ from them by as much as the spread says; measure your own.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

from formulas.formula import Q, formula, procedure
from formulas.units import convert

if TYPE_CHECKING:
    from formulas.catalog import Catalog


@formula("Size of a tongue", symbol="s", unit="m", source="definition")
def tongue_size(
    f: Annotated[float, Q("Hz", "frequency of the note")],
    s_0: Annotated[float, Q("m", "size at the reference frequency")],
    e: Annotated[float, Q("", "exponent of the generic line")],
    f_0: Annotated[float, Q("Hz", "reference frequency")],
) -> float:
    """Give the length or the width of a tongue by the generic line: a middle, with its spread."""
    return s_0 * (f / f_0) ** e  # type: ignore[no-any-return]


@formula("Length of a slot", symbol="L_s", unit="m", source="definition")
def slot_length(
    L_t: Annotated[float, Q("m", "free length of the tongue")],
    x: Annotated[float, Q("m", "gap between tongue and slot at each side")],
) -> float:
    """Give the slot of a tongue; at the rivet end the tongue runs out over the plate."""
    return L_t + x


@formula("Width of a slot", symbol="W_s", unit="m", source="definition")
def slot_width(
    W_t: Annotated[float, Q("m", "width of the tongue")],
    x: Annotated[float, Q("m", "gap between tongue and slot at each side")],
) -> float:
    """Give the slot of a tongue, with a gap at both sides."""
    return W_t + 2 * x


@formula("Length of a plate", symbol="L_p", unit="m", source="definition")
def plate_length(
    L_t: Annotated[float, Q("m", "free length of the tongue")],
    k: Annotated[float, Q("", "share of the tongue's length")],
    l_0: Annotated[float, Q("m", "what the plate is longer than that")],
) -> float:
    """Give the length of a plate from its tongue, by the trade's rule of thumb."""
    return k * L_t + l_0


@formula("Width of a plate", symbol="W_p", unit="m", source="definition")
def plate_width(
    W_s: Annotated[float, Q("m", "width of one slot")],
    l_0: Annotated[float, Q("m", "metal beside the slots, wall and both lands together")],
) -> float:
    """Give the width of a plate of two slots side by side."""
    return 2 * W_s + l_0


@formula("Metal between a slot and the long edge", symbol="e", unit="m", source="definition")
def land_beside(
    l_0: Annotated[float, Q("m", "metal beside the slots, wall and both lands together")],
    w: Annotated[float, Q("m", "wall between the slots")],
) -> float:
    """Give half of what the wall leaves: the land on one side."""
    return (l_0 - w) / 2


@formula("Spread of a line", symbol="sigma", unit="", source="definition")
def spread_of(
    p: Annotated[float, Q("", "share by which 95 % lie apart from the middle at most")],
    z: Annotated[float, Q("", "standard deviations that hold 95 %")],
) -> float:
    """Give the standard deviation of the logarithm: the band is times and over, not plus."""
    return math.log(1 + p) / z


@procedure("Generic size of the slot of a note")
def generic_size(f: float, reed_line: Sequence[float]) -> float:
    """Give the middle of a slot's length or width in m; `reed_line` holds what `LINE` names."""
    return tongue_size(f, reed_line[0], reed_line[1], reed_line[2]) + reed_line[3]


@procedure("Generic sizes of a rank")
def generic_sizes(frequencies: Sequence[float], reed_line: Sequence[float]) -> list[list[float]]:
    """Give low, middle and high of the slot for each frequency, before any plate is measured."""
    found = []
    for f in frequencies:
        middle = generic_size(f, reed_line)
        found.append([middle / (1 + reed_line[4]), middle, middle * (1 + reed_line[4])])
    return found


LINE = ("size", "exponent", "reference", "gap", "spread")
"""A generic line: the tongue's size at the reference frequency in m, the exponent, the reference
in Hz, what the slot is larger than the tongue in m, and the spread as a share."""
MEASURES = ("length", "width")


def line_of(catalog: Catalog, measure: str) -> list[float]:
    """Give the line of the "length" or the "width" of slots, as `LINE` names it."""
    tongue = figure_in(catalog, f"tongue-{measure}", "m")
    clearance = figure_in(catalog, "tongue-clearance", "m")
    slot = slot_length(tongue, clearance) if measure == "length" else slot_width(tongue, clearance)
    return [
        tongue,
        figure_in(catalog, f"tongue-{measure}-exponent", "dimensionless"),
        figure_in(catalog, "tongue-reference", "Hz"),
        slot - tongue,
        figure_in(catalog, f"tongue-{measure}-spread", "dimensionless"),
    ]


def figure_in(catalog: Catalog, name: str, unit: str) -> float:
    """Give the typical value of a bench figure in a unit, or the middle of its ends."""
    figure = catalog.figure(name)
    middle = (figure.low + figure.high) / 2 if figure.typical is None else figure.typical
    return convert(middle, figure.unit, unit)
