"""The figures of the bench tests against outside judges and printed values."""

from __future__ import annotations

import math

import numpy as np
import pytest
from chemicals.iapws import iapws95_Tsat
from fluids.atmosphere import ATMOSPHERE_1976

from formulas.catalog import load
from formulas.units import registry
from formulas.wax.bench_tests import (
    ball_mass,
    bend_strain,
    boiling_at_height,
    boiling_points,
    ester_acid_ratio,
    joint_stress,
)

CATALOG = load(None)


def boils(height):
    """Where water boils, degC: the US standard atmosphere of 1976 and IAPWS-95."""
    return iapws95_Tsat(ATMOSPHERE_1976(height).P) - 273.15


# Tolerance: the table starts from 100 and not from 99.97, and its line is straight.
@pytest.mark.parametrize("place", range(5))
def test_boiling_points_are_those_of_steam_tables(place):
    """Each height of the table is right to a tenth of a degree."""
    height, heat = boiling_points(CATALOG)[place]
    assert heat == pytest.approx(boils(height), abs=0.1)


def test_the_fall_is_what_steam_tables_give():
    """Over each stretch of the range the fall for 100 m lies inside the figure's ends."""
    fall = CATALOG.figures["boiling-fall"]
    low, high = CATALOG.span("boiling-fall-heights", "m")
    for start in np.linspace(low, high - 100, 20):
        assert fall.low <= boils(start) - boils(start + 100) <= fall.high


def test_a_thousand_metres_above_the_range_the_line_still_serves():
    """The straight line is off by less than what the weather does, a fifth of it."""
    per_metre = CATALOG.figures["boiling-fall"].typical / 100
    assert boiling_at_height(100, per_metre, 3000) == pytest.approx(
        boils(3000), abs=CATALOG.figures["boiling-weather"].high / 5
    )


def test_the_weather_moves_boiling_water_by_the_figure():
    """980 and 1045 hPa, the pressures the row names, lie inside it and nearly at its end."""
    figure = CATALOG.figures["boiling-weather"]
    assert "980 and 1045 hPa" in figure.note
    middle = iapws95_Tsat(101325)
    moves = [abs(iapws95_Tsat(pressure) - middle) for pressure in (98000, 104500)]
    assert max(moves) <= figure.high
    assert min(moves) > 0.8 * figure.high


# ASTM E28-18, sections 3, 6 and 7: steel ball of 9.53 mm and 3.45 to 3.55 g, fall 25.4 mm.
def test_the_printed_ball_is_a_ball_of_steel():
    """Width and mass as printed ask for a density that bearing steel has."""
    width = CATALOG.span("ball-width", "m")[0]
    assert width == pytest.approx(9.53e-3)
    steel = CATALOG.span("steel-density", "kg/m**3")
    light, heavy = (ball_mass(rho, width) for rho in steel)
    low, high = CATALOG.span("ball-mass", "kg")
    assert (low, high) == pytest.approx((3.45e-3, 3.55e-3))
    assert light < high
    assert heavy > low
    assert light == pytest.approx(7700 * 4 / 3 * math.pi * (4.765e-3) ** 3, rel=1e-12)


@pytest.mark.parametrize(("width_mm", "density"), [(10.0, 7800), (9.0, 7800), (9.53, 2500)])
def test_another_ball_is_noticed_on_the_scale(width_mm, density):
    """A ball of 9 or 10 mm, or one of glass, is outside the printed mass."""
    low, high = CATALOG.span("ball-mass", "kg")
    mass = ball_mass(density, width_mm / 1000)
    assert not low <= mass <= high


# Bead of 2 mm, rods of 80, 40, 20 and 10 mm: 2.4, 4.8, 9.1 and 16.7 %, worked out by hand.
@pytest.mark.parametrize(
    ("rod_mm", "percent"), [(80, 2.4), (40, 4.8), (20, 9.1), (10, 16.7)]
)  # tolerance: half of the last digit
def test_the_strain_of_a_bent_bead(rod_mm, percent):
    """The formula gives the four figures."""
    assert 100 * bend_strain(2e-3, rod_mm / 1000) == pytest.approx(percent, abs=0.05)


def test_the_strain_is_that_of_an_arc_measured_in_pieces():
    """The outside of a bent bead, added up in small chords, against its middle."""
    bead, rod = 2.0, 20.0
    angle = np.linspace(0, math.pi, 20001)

    def along(radius):
        return np.hypot(np.diff(radius * np.cos(angle)), np.diff(radius * np.sin(angle))).sum()

    middle, outside = along(rod / 2 + bead / 2), along(rod / 2 + bead)
    assert bend_strain(bead, rod) == pytest.approx(outside / middle - 1, rel=1e-8)


def test_the_pull_of_a_plate_in_other_units():
    """A plate of 1 oz with 6 in of edge 0.1 in high, on quantities of another system."""
    unit = registry().Quantity
    found = joint_stress.at(
        m=unit(1, "oz"), g=unit(9.80665, "m/s**2"), U=unit(6, "in"), h=unit(0.1, "in")
    )
    # 0.028349523125 kg * 9.80665 m/s2 = 0.278014 N; 0.6 in2 = 3.870960e-4 m2.
    assert found.to("Pa").magnitude == pytest.approx(0.278014 / 3.870960e-4, rel=2e-6)  # digits


# Specification sheet: acid value 17 to 22, ester value 70 to 80; Hübl 1884: 3.6 to 3.8.
def test_a_wax_in_the_middle_of_its_sheet_has_the_old_ratio():
    """The middle of the sheet's values lies where the work of 1884 puts pure beeswax."""
    acid = (17 + 22) / 2
    found = ester_acid_ratio((70 + 80) / 2 + acid, acid)
    known = CATALOG.known("beeswax-yellow", "ester-acid-ratio")
    assert known.low <= round(found, 1) <= known.high


def test_a_little_rosin_leaves_the_old_ratio():
    """A twentieth of rosin, by the rosin's own values, pulls the ratio far below the range."""
    acid, saponification = (0.95 * wax + 0.05 * rosin for wax, rosin in ((19.5, 165), (94.5, 175)))
    found = ester_acid_ratio(saponification, acid)
    assert found < CATALOG.known("beeswax-yellow", "ester-acid-ratio").low - 0.5
