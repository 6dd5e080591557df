"""One valve on one slot: laws that hold whatever the numbers, and the ends of what is known."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as some

from formulas.catalog import load
from formulas.valves.blank import SIZES, valve_sizes
from formulas.valves.flow import opening_ratio, swinging_area, valve_pressure
from formulas.valves.judging import JUDGED, judged, limits_here, margin_of, references_of, topped
from formulas.valves.one_valve import FOUND, NEVER, rest_gap, valve_ends, valve_found
from formulas.valves.settings import settings
from formulas.valves.strip import G, droop, lifting_pressure, rigidity
from formulas.valves.window import gap_times_pressure, window_of

lengths = some.floats(0.01, 0.08)
masses = some.floats(0.03, 1.0)
bendings = some.floats(0.01, 0.12)
EXACT = 1e-9
"""What rounding of a few hundred steps in doubles can come to."""


@pytest.fixture(scope="module")
def setting():
    """Give the trade's settings."""
    return settings(load())


def stock(m: float, c: float, *, curl: float = 0, film: float = 0, spread: float = 0.0):
    """Give a measured stock as the procedures take it."""
    low, high = 1 - spread, 1 + spread
    return [m, c, 1.0, 5e-4, curl, film, m * low, m * high, c * low, c * high, 1.0, 1.0]


@given(lengths, masses, bendings, some.floats(0, 1), some.floats(1e-4, 0.02))
def test_stiffness_cancels_out_of_gap_times_pressure(L, m, c, n, d):
    """Droop times the pressure that lifts the tip by d is n m g d, whatever the stiffness."""
    product = droop(n, L, c) * lifting_pressure(d, rigidity(m, c), L)
    assert product == pytest.approx(gap_times_pressure(n, m, G, d), rel=EXACT)


@given(lengths, some.floats(0.0015, 0.007), masses, some.floats(0.05, 1))
def test_the_window_ends_where_a_limit_is_met(setting, L_s, W_s, m, n):
    """At the least bending length gap or delay meets its limit, at the most one of the chokes."""
    sizes = valve_sizes(L_s, W_s, 0, 0, setting.rules)
    slot = [L_s, W_s, n, 1 / 200, 0]
    least, most, *_ = window_of(sizes, slot, setting.opening, setting.pressures, setting.limits, m)
    low = judged(sizes, slot, setting.opening, setting.pressures, setting.limits, stock(m, least))
    high = judged(sizes, slot, setting.opening, setting.pressures, setting.limits, stock(m, most))
    # The delay goes with the root of the gap, so both are at 1 together.
    assert max(low[3][0], low[3][6]) == pytest.approx(1, rel=EXACT)
    assert max(high[3][3:6]) == pytest.approx(1, rel=EXACT)


def test_the_ends_enclose_all_between_them(setting):
    """Whatever mass, bending length and opening lie between their ends, so does all found.

    But for the delay of a valve that curls outward, which may be shorter between.
    """
    chance = random.Random(4)
    for _ in range(50):
        sizes = valve_sizes(chance.uniform(0.01, 0.07), 0.004, 0, 0, setting.rules)
        m, c = chance.uniform(0.05, 0.8), chance.uniform(0.02, 0.09)
        curl = chance.choice([0, chance.uniform(-2, 2)])
        one = stock(m, c, curl=curl, film=1)
        low, high = valve_ends(
            sizes, 0.03, 0.004, 0.25, [0.1, 0.5], setting.pressures, one,
            [0.8 * m, 1.2 * m, 0.7 * c, 1.3 * c],
        )  # fmt: skip
        for _ in range(20):
            between = stock(
                m * chance.uniform(0.8, 1.2), c * chance.uniform(0.7, 1.3), curl=curl, film=1
            )
            found = valve_found(
                sizes, 0.03, 0.004, 0.25, chance.uniform(0.1, 0.5), setting.pressures, between
            )
            for name, least, value, most in zip(FOUND, low, found, high, strict=True):
                assert value <= most * (1 + EXACT), name
                assert value >= least * (1 - EXACT) or (name == "delay" and curl > 0), name


def test_a_valve_pressed_on_by_gravity_has_no_gap_and_shuts_at_once(setting):
    """Lying on its plate a flat valve stands off by nothing and needs no time."""
    sizes = valve_sizes(0.03, 0.004, 0, 0, setting.rules)
    found = dict(
        zip(
            FOUND,
            valve_found(sizes, 0.03, 0.004, -1, 0.25, setting.pressures, stock(0.3, 0.03)),
            strict=True,
        )
    )
    assert found["gap"] == 0
    assert found["delay"] == 0
    assert found["gap_bench"] > 0


def test_a_valve_too_heavy_for_the_softest_never_shuts(setting):
    """Where weight and curl hold it open against the pressure the delay says so."""
    sizes = valve_sizes(0.03, 0.004, 0, 0, setting.rules)
    found = valve_found(sizes, 0.03, 0.004, 1, 0.25, setting.pressures, stock(6, 0.05))
    assert found[FOUND.index("delay")] == NEVER


def test_curl_toward_the_plate_closes_the_gap_and_presses():
    """Inward curl takes from the droop, and never makes the gap less than nought."""
    assert rest_gap(0.001, -0.0004) == pytest.approx(0.0006)
    assert rest_gap(0.001, -0.002) == 0


def test_sizes_grow_with_the_slot_and_leave_room(setting):
    """Overlaps lie between their two ends; wax and the neighbouring tongue come first."""
    small = dict(zip(SIZES, valve_sizes(0.008, 0.002, 0, 0, setting.rules), strict=True))
    large = dict(zip(SIZES, valve_sizes(0.09, 0.006, 0, 0, setting.rules), strict=True))
    assert small["side"] == pytest.approx(0.0008)  # the figure's low end, mm to m
    assert large["tip"] == pytest.approx(0.003)  # its high end
    assert large["width"] == pytest.approx(0.006 + 2 * large["side"])
    tight = dict(zip(SIZES, valve_sizes(0.05, 0.005, 0.0015, 0.01, setting.rules), strict=True))
    assert tight["side"] == pytest.approx(0.0015 - 0.0005)  # wall less the clearance
    waxed = dict(zip(SIZES, valve_sizes(0.05, 0.005, 0.01, 0.002, setting.rules), strict=True))
    assert waxed["side"] == pytest.approx(0.002 - 0.0015)  # land less the bare metal for the wax


def test_the_larger_of_value_and_share_is_the_limit(setting):
    """A long valve may stand off by a fiftieth of its length, a short one by half a millimetre."""
    short, long = (
        limits_here(setting.limits, references_of(length, 0.001, 50, 0))[0]
        for length in (0.015, 0.06)
    )
    assert short == pytest.approx(0.0005)
    assert long == pytest.approx(0.06 / 50)
    assert len(setting.limits) == len(JUDGED)


def test_the_margin_is_that_of_the_nearer_side():
    """The margin says how often the nearer of gap and choke goes into its limit."""
    ratios = [0.5] + [0.0] * 2 + [0.2, 0.8, 0.1] + [9.0] * 8
    assert margin_of(ratios) == pytest.approx(1 / 0.8)


def test_a_topper_adds_mass_and_rigidity():
    """Layers that slide add what they weigh and how they resist; the pair of two alike is 2 D."""
    one = stock(0.3, 0.03, spread=0.1)
    pair = topped(one, one)
    assert pair[0] == pytest.approx(0.6)
    assert rigidity(pair[0], pair[1]) == pytest.approx(2 * rigidity(0.3, 0.03), rel=EXACT)
    assert pair[1] == pytest.approx(0.03, rel=EXACT)
    assert pair[8] < pair[1] < pair[9]


@given(lengths, some.floats(0.1, 0.5), some.floats(1e-6, 1e-3), some.floats(1.01, 5))
def test_the_opening_of_the_tongue_does_not_change_which_stock_chokes_more(L, phi, D, stiffer):
    """The weakest figure moves the choke of every stock, and keeps their order."""
    area = swinging_area(phi, L, 0.004)
    less, more = (
        valve_pressure(50, opening_ratio(L, 0.007, rigid, area)) for rigid in (D, stiffer * D)
    )
    assert less < more


@pytest.mark.parametrize("m", [0.05, 0.2, 0.36, 0.6])
def test_a_valve_that_only_hangs_is_shut_by_a_few_pascals(setting, m):
    """Droop alone is no leak: what presses a flat valve shut is its weight, under 6 Pa level."""
    sizes = valve_sizes(0.03, 0.004, 0, 0, setting.rules)
    found = valve_found(sizes, 0.03, 0.004, 1, 0.25, setting.pressures, stock(m, 0.03))
    assert found[FOUND.index("shut_pressure")] == pytest.approx(m * G)
    assert m * G < 6
