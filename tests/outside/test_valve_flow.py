"""What a valve takes of the pressure, against a bracketing root finder and plain integration."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from formulas.valves.flow import (
    curtain_area,
    full_lift,
    least_opening_ratio,
    most_rigidity,
    opening_ratio,
    swinging_area,
    valve_pressure,
)
from formulas.valves.judging import helped_choke, helper_force
from formulas.valves.strip import lift

# brentq stops at 1e-12 of the root here; ten times that is allowed.
CLOSE = 1e-11


def slot(chance: random.Random) -> dict[str, float]:
    """Draw a valve over a slot, from the smallest treble reed to the largest bass reed."""
    length, width = chance.uniform(0.008, 0.08), chance.uniform(0.0015, 0.007)
    return {
        "L": length + 0.003,
        "b": width + 0.003,
        "D": 10 ** chance.uniform(-6, -2.5),
        "A_s": swinging_area(chance.uniform(0.1, 0.5), length, width),
    }


def two_openings(p: float, valve: dict[str, float], preload: float = 0) -> float:
    """Solve for the pressure on a valve by equal flow: A_c^2 p_v = A_s^2 (p - p_v)."""

    def surplus(p_v: float) -> float:
        lifted = lift(max(0, p_v - preload), valve["D"], valve["L"])
        opened = curtain_area(lifted, valve["L"], valve["b"])
        return opened**2 * p_v - valve["A_s"] ** 2 * (p - p_v)

    return float(brentq(surplus, 0, p, xtol=1e-15 * p, rtol=1e-12))


def test_the_closed_form_is_the_root_of_two_openings_in_a_row():
    """The pressure the own valve takes is the one at which both openings pass the same air."""
    chance = random.Random(1)
    for _ in range(1000):
        valve, p = slot(chance), chance.uniform(20, 1500)
        found = valve_pressure(p, opening_ratio(**valve))
        assert found == pytest.approx(two_openings(p, valve), rel=CLOSE)


def test_a_helper_costs_at_most_what_is_told():
    """The choke with a helper is an upper bound of the exact one, and exact without preload."""
    chance = random.Random(2)
    for _ in range(500):
        valve, p = slot(chance), chance.uniform(20, 1500)
        preload = chance.uniform(0, 0.9) * p
        k = opening_ratio(**valve)
        exact = two_openings(p, valve, preload) / p
        assert helped_choke(p, preload, k) >= exact * (1 - CLOSE)
        assert helped_choke(p, 0, k) == pytest.approx(valve_pressure(p, k) / p, rel=CLOSE)
    assert helped_choke(50, 60, 1) == 1


def test_the_stiffest_valve_allowed_takes_just_its_share():
    """A valve of the most rigidity takes the share allowed, a stiffer one more."""
    chance = random.Random(3)
    for _ in range(200):
        valve, p, share = slot(chance), chance.uniform(20, 1500), chance.uniform(0.02, 0.9)
        k = least_opening_ratio(p, share)
        rigid = most_rigidity(valve["L"], valve["b"], valve["A_s"], k)
        taken = valve_pressure(p, opening_ratio(**valve | {"D": rigid})) / p
        assert taken == pytest.approx(share, rel=CLOSE)
        assert valve_pressure(p, opening_ratio(**valve | {"D": 1.01 * rigid})) / p > share


def test_a_strip_under_even_pressure_stands_at_two_fifths_of_its_tip():
    """The curtain's 0.8 is twice the mean of the shape of a clamped strip under even load."""

    # The shape of a clamped strip under even load, in lifts of its tip; every handbook of beams.
    def shape(x: float) -> float:
        return (x**4 - 4 * x**3 + 6 * x**2) / 3

    mean, _ = quad(shape, 0, 1)
    assert mean == pytest.approx(0.4, rel=1e-12)
    assert curtain_area(0.002, 0.03, 0.006) == pytest.approx(
        0.002 * (2 * mean * 0.03 + 0.006), rel=1e-12
    )


def test_at_the_full_lift_the_curtain_is_the_slot():
    """The full lift opens as much as the slot does."""
    area = swinging_area(0.25, 0.03, 0.004)
    assert curtain_area(full_lift(area, 0.033, 0.007), 0.033, 0.007) == pytest.approx(area)


def test_a_force_at_the_tip_bends_as_far_as_the_pressure_it_stands_for():
    """F L^3/(3 D b) is p L^4/(8 D): both formulas stand in every handbook of beams."""
    L, b, D, p = 0.06, 0.009, 1e-3, 7.0
    force = helper_force(p, L, b)
    assert force * L**3 / (3 * D * b) == pytest.approx(lift(p, D, L), rel=1e-12)


def test_the_whole_slot_in_its_place_would_overstate_the_choke():
    """With all of the slot counted open a medium leather seems to choke 2 to 3 times as much."""
    # Density and modulus of a medium valve skin, from memory in the tables: 650 kg/m3, 20 MPa.
    m, t = 650 * 0.55e-3, 0.55e-3
    valve = {"L": 0.035, "b": 0.0065, "D": 20e6 * t**3 / 12}
    assert m > 0
    part, whole = (
        valve_pressure(50, opening_ratio(**valve, A_s=swinging_area(phi, 0.032, 0.0037)))
        for phi in (0.25, 1.0)
    )
    assert 2 < whole / part < 3


def test_weak_and_strong_flow_have_the_limits_of_one_opening():
    """A wide open valve takes nearly nothing, a shut one nearly all."""
    # At k p = 1e8 the valve takes 1/(k p)^(2/3); the next term is a third of that share, 1.6e-6.
    assert valve_pressure(100, 1e6) / 100 == pytest.approx(1 / np.cbrt(1e16), rel=2e-6)
    # The next term of the series at k p = 1e-4 is 1e-8 of it.
    assert valve_pressure(100, 1e-6) / 100 == pytest.approx(1, abs=2e-8)
    assert not math.isnan(valve_pressure(1e-9, 1e-9))
