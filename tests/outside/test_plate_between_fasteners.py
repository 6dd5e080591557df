"""The plate between two fasteners against a beam that is solved anew, and on a bed that eases."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from formulas.seating.gasket import fastener_span, rise_between

PLATES = [
    # pressure Pa, span m, modulus Pa, thickness m
    (0.9e6, 0.040, 69e9, 0.0028),
    (3.9e6, 0.028, 73e9, 0.0028),
    (0.05e6, 0.060, 80e9, 0.0020),
    (1.0e6, 0.015, 200e9, 0.0012),
]


def solved(p, s, E, t, *, held=False, bed=0.0):
    """Give the rise in the middle of a span, for a strip as wide as it is loaded.

    `bed` is by how much the pressure eases for each metre the plate rises; `held` where the ends
    cannot turn.
    """
    D = E * t**3 / 12
    x = np.linspace(0, 1, 81)

    # w'''' = (p - bed w) / D in the length of the span, w in units of what a free span rises.
    scale = p * s**4 / D
    eased = bed * s**4 / D

    def slopes(_, y):
        return np.vstack((y[1], y[2], y[3], 1 - eased * y[0]))

    def ends(a, b):
        turn = 1 if held else 2
        return np.array([a[0], a[turn], b[0], b[turn]])

    found = solve_bvp(slopes, ends, x, np.zeros((4, x.size)), tol=1e-9, max_nodes=20000)
    assert found.success
    return float(found.sol(0.5)[0]) * scale


@pytest.mark.parametrize("plate", PLATES)
def test_the_rise_is_that_of_a_span_free_to_turn(plate):
    """5/384 of a beam solved as a boundary problem, to the tolerance of the solver."""
    assert rise_between(*plate) == pytest.approx(solved(*plate), rel=1e-6)


@pytest.mark.parametrize("plate", PLATES)
def test_the_rise_is_on_the_cautious_side(plate):
    """A plate that runs on over its fasteners rises a fifth of that; one on a bed rises less."""
    p, s, E, t = plate
    free = rise_between(p, s, E, t)
    assert solved(p, s, E, t, held=True) == pytest.approx(free / 5, rel=1e-6)
    # A gasket of 1 mm whose pressure eases to nought where it stands at its whole thickness again.
    eased = solved(p, s, E, t, bed=p / 0.0003)
    assert 0 < eased < free


@pytest.mark.parametrize("plate", PLATES)
def test_the_span_is_the_rise_turned_round(plate):
    """At the span given, a beam solved anew rises just so far."""
    p, _, E, t = plate
    for rise in (0.00005, 0.0003):
        s = fastener_span(rise, p, E, t)
        assert solved(p, s, E, t) == pytest.approx(rise, rel=1e-6)
