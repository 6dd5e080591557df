"""A gasket with its fasteners, as ranges: the same for the command and the page."""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.formula import procedure
from formulas.seating.gasket import (
    bearing_area,
    fastener_span,
    force_each,
    gasket_force,
    gasket_pressure,
    rise_filled,
    squeeze_reached,
    squeezed_thickness,
)

GASKET_FOUND = (
    "squeeze",
    "thickness",
    "rise_filled",
    "pressure",
    "area",
    "force",
    "span",
    "spacing",
    "rows",
    "along",
    "fasteners",
    "force_each",
    "squeeze_reached",
    "raised",
    "loud",
)
"""The order of what `gasket_found` gives, a low and a high end each."""
FORGIVEN_SPAN = 1e-6


@procedure("Fasteners along one side")
def fasteners_along(length: float, edge: float, span: float) -> int:
    """Count those along a side, the first and the last an edge from its ends; two at least.

    >>> fasteners_along(0.3, 0.005, 0.029), fasteners_along(0.016, 0.005, 0.03)
    (11, 2)
    """
    return max(2, 1 - math.floor(FORGIVEN_SPAN - (length - 2 * edge) / span))


@procedure("Spacing within what is done")
def spacing_within(span: float, least: float, most: float) -> float:
    """Give the span, no closer and no farther than fasteners are set."""
    return min(max(span, least), most)


@procedure("A gasket and its fasteners, as ranges")
def gasket_found(
    gasket_sizes: Sequence[float],
    gasket_ends: Sequence[float],
    plate_moduli: Sequence[float],
    fastener_rule: Sequence[float],
    loud_ends: Sequence[float],
) -> list[list[float]]:
    """Give a low and a high end for each of GASKET_FOUND.

    `gasket_sizes`: thickness of the gasket, length, width and thickness of the plate, the share
    over the cells at least and at most, and what lay under the plate before, all in m.
    `gasket_ends`: least and largest squeeze, softest and hardest modulus. `fastener_rule`: edge,
    closest, farthest, least and largest pull of one. `loud_ends`: pressure of loud playing.
    """
    thick, long, wide, plate = gasket_sizes[0], gasket_sizes[1], gasket_sizes[2], gasket_sizes[3]
    least, most = gasket_ends[0], gasket_ends[1]
    soft, hard = gasket_ends[2], gasket_ends[3]
    edge, close, far = fastener_rule[0], fastener_rule[1], fastener_rule[2]
    area = [
        bearing_area(long, wide, gasket_sizes[5]),
        bearing_area(long, wide, gasket_sizes[4]),
    ]
    left = [squeezed_thickness(thick, most), squeezed_thickness(thick, least)]
    pressure = [gasket_pressure(soft, least), gasket_pressure(hard, most)]
    force = [gasket_force(pressure[0], area[0]), gasket_force(pressure[1], area[1])]
    filled = rise_filled(thick, most, least)
    span = [
        fastener_span(filled, gasket_pressure(hard, most), plate_moduli[0], plate),
        fastener_span(filled, gasket_pressure(soft, most), plate_moduli[1], plate),
    ]
    apart = [spacing_within(span[0], close, far), spacing_within(span[1], close, far)]
    along = [fasteners_along(long, edge, apart[1]), fasteners_along(long, edge, apart[0])]
    rows = [fasteners_along(wide, edge, apart[1]), fasteners_along(wide, edge, apart[0])]
    count = [along[0] * rows[0], along[1] * rows[1]]
    each = [force_each(force[0], count[1]), force_each(force[1], count[0])]
    reached = [
        squeeze_reached(count[0], fastener_rule[3], hard, area[1]),
        squeeze_reached(count[1], fastener_rule[4], soft, area[0]),
    ]
    raised = [left[0] - gasket_sizes[6], left[1] - gasket_sizes[6]]
    loud = [
        gasket_force(loud_ends[0], bearing_area(long, wide, 0)),
        gasket_force(loud_ends[1], bearing_area(long, wide, 0)),
    ]
    return [
        [least, most],
        left,
        [filled, filled],
        pressure,
        area,
        force,
        span,
        apart,
        [rows[0], rows[1]],
        [along[0], along[1]],
        [count[0], count[1]],
        each,
        reached,
        raised,
        loud,
    ]
