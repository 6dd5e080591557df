"""Tests of fitted valves: leaks, cents, sticking, which of the two, limits of one instrument."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulas.catalog import load
from formulas.valve_entries import ValveTest
from formulas.valves import fitting_tests as subject
from formulas.valves.own_limits import instruments_of_limits, limits_of_instrument
from formulas.valves.strip import bending_length_by_droop, droop
from site_builder.markup.elements import plain
from site_builder.parts import registry
from site_builder.places import DEMO_SHOP

CATALOG = load(None)
DEMO = load(DEMO_SHOP)

TIMES = st.floats(min_value=0.5, max_value=60)
VOLUMES = st.floats(min_value=1e-6, max_value=1e-2)
PRESSURES = st.floats(min_value=10, max_value=3000)
AIR, FULL = 1.2, 0.6

# Leaks


def test_a_leak_by_hand():
    """50 ml in 5 s at 600 Pa, 1.2 kg/m3: 10 ml/s; sqrt(2 600/1.2) = 31.623 m/s; a full hole."""
    flow = subject.leak_flow(50e-6, 5)
    assert flow == pytest.approx(1e-5)
    assert subject.leak_area(flow, 600, AIR, 1) == pytest.approx(1e-5 / 31.6227766, rel=1e-8)


@given(VOLUMES, TIMES, PRESSURES)
def test_twice_the_time_is_half_the_leak(volume, time, pressure):
    """A leak goes with one over the time, and more pressure asks for less of a hole."""

    def area(t, p):
        return subject.leak_area(subject.leak_flow(volume, t), p, AIR, FULL)

    assert area(2 * time, pressure) == pytest.approx(area(time, pressure) / 2)
    assert area(time, 4 * pressure) == pytest.approx(area(time, pressure) / 2)


@given(VOLUMES, TIMES, st.floats(min_value=20, max_value=800), st.floats(1.05, 3))
def test_the_fall_of_a_gauge_is_the_sum_of_its_small_steps(volume, time, low, ratio):
    """Stepped in time with the flow of each moment, the pressure ends where the formula says."""
    high, outside = low * ratio, 101325.0
    area = subject.leak_area_by_fall(volume, time, high, low, outside, AIR, FULL)
    pressure, steps = high, 2000
    for _ in range(steps):
        flow = FULL * area * math.sqrt(2 * pressure / AIR)
        pressure -= outside * flow / volume * time / steps
    # a step of Euler errs by about the fall's square over twice the steps
    assert pressure == pytest.approx(low, rel=2e-3)


# Cents and blame


def test_cents_by_hand():
    """An octave is 1200, a semitone 100, and a fall is negative."""
    assert subject.cents_moved(440, 880) == pytest.approx(1200)
    assert subject.cents_moved(440, 440 * 2 ** (1 / 12)) == pytest.approx(100)
    assert subject.cents_moved(440, 439) < 0


# The table of V-12, row by row: pitch beyond the limit of three, card helps.
BLAMED = [
    (6, False, subject.OWN),
    (-6, False, subject.OWN),
    (1, True, subject.PARTNER),
    (6, True, subject.BOTH),
    (1, False, subject.NEITHER),
    (3, False, subject.NEITHER),
]


@pytest.mark.parametrize(("moved", "helped", "blamed"), BLAMED)
def test_the_two_tests_tell_which_valve(moved, helped, blamed):
    """Strip and card together, either way of the pitch; the limit itself passes."""
    assert subject.which_valve(moved, CATALOG.limit("pitch-soft").value, helped) == blamed


# Sticking


@given(PRESSURES, st.floats(0.01, 0.08), st.floats(0.003, 0.012))
def test_the_weight_on_the_tip_carries_what_the_propped_tip_would(pressure, length, width):
    """With that reaction at the tip, droop and lift of a strip cancel there.

    q L^4/(8 D) of an even load against R L^3/(3 D) of the tip: nought where R = 3 q L/8.
    """
    mass = subject.tip_mass(pressure, length, width, 9.8)
    even = pressure * width * length**4 / 8
    tip = mass * 9.8 * length**3 / 3
    assert even == pytest.approx(tip)


def number(name):
    """Give the single value of a figure."""
    figure = CATALOG.figures[name]
    assert figure.low == figure.high
    return figure.low


def test_derived_figures_of_sticking_follow_from_their_notes():
    """The height of water and the weights on the tip, to half of their last digit."""
    free, g = number("stick-free"), number("gravity")
    height = subject.water_height(free, number("water-density"), g)
    assert 1000 * height == pytest.approx(number("stick-free-water"), abs=0.05)
    note = CATALOG.figures["stick-free-tip"].note
    assert "valves 15 by 4 and 50 by 8 mm" in note
    small = subject.tip_mass(free, 0.015, 0.004, g)
    large = subject.tip_mass(free, 0.050, 0.008, g)
    figure = CATALOG.figures["stick-free-tip"]
    assert (figure.low, figure.high) == pytest.approx((1000 * small, 1000 * large), abs=0.005)


def test_a_valve_frees_itself_before_the_pressure_that_passes():
    """Its own weight alone pulls less than the mark: falling free is the stronger pass."""
    for stock in CATALOG.valve_stock.values():
        if stock.mass_high is not None and stock.mass_unit == "g/m**2":
            assert stock.mass_high / 1000 * number("gravity") < number("stick-free")


@given(st.floats(0.02, 0.06), st.floats(0.02, 0.08))
def test_the_gap_of_a_cut_valve_gives_its_bending_length_back(length, bending):
    """What hangs level tells the stiffness that made it hang so."""
    hung = droop(1, length, bending)
    assert bending_length_by_droop(1, length, hung) == pytest.approx(bending)


# Limits of one instrument


def reading(what, value, read_in, **more):
    """Give a reading of a good instrument."""
    usual = {
        "date": "2026-02-01", "instrument": "good", "plate": "A-1", "face": "inside",
        "sounds": "", "stock": "", "length": None, "width": None, "unit": "", "what": what,
        "posture": "upright-block", "value": value, "value_unit": read_in, "passed": "yes",
        "good_example": "yes", "tested_by": "", "basis": "measured", "note": "",
    }  # fmt: skip
    return ValveTest(**{**usual, **more})


def limits(*tests):
    """Give the limits of these readings by id."""
    catalog = dataclasses.replace(CATALOG, valve_tests=list(tests))
    return {one.id: one for one in limits_of_instrument(catalog, "good")}


def test_the_worst_of_the_good_is_the_limit():
    """Of three readings the largest, in the unit of the limit, either way of the pitch."""
    found = limits(
        reading("late", 6, "ms"), reading("late", 0.009, "s", plate="A-2"),
        reading("late", 4, "ms", plate="A-3"), reading("pitch-soft", -2.5, "cent"),
    )  # fmt: skip
    assert found["delay"].value == pytest.approx(9)
    assert found["pitch-soft"].value == pytest.approx(2.5)
    assert (found["delay"].share, found["delay"].share_of) == (None, "")


def test_a_gap_counts_as_a_share_where_every_length_is_known():
    """The share of the worst for its length stands beside the largest gap; the larger counts."""
    long = {"length": 50.0, "unit": "mm"}
    short = {"length": 1.0, "unit": "in", "plate": "A-2"}
    found = limits(reading("gap", 1, "mm", **long), reading("gap", 0.635, "mm", **short))
    assert found["gap-playing"].share == pytest.approx(0.025)  # 0.635 / 25.4
    assert found["gap-playing"].value == 1
    mixed = limits(reading("gap", 1, "mm", **long), reading("gap", 0.6, "mm", plate="A-2"))
    assert (mixed["gap-playing"].value, mixed["gap-playing"].share) == (1, None)


def test_the_bench_has_a_limit_of_its_own():
    """A gap or a droop read with the plate level goes there."""
    found = limits(reading("droop", 2, "mm", posture="bench"), reading("gap", 0.4, "mm"))
    assert (found["gap-bench"].value, found["gap-playing"].value) == (2, 0.4)


LEFT_OUT = [
    reading("slap", 2, "grade"),
    reading("leak", 7, "s"),
    reading("stick", None, ""),
    reading("gap", 3, "mm", passed="no"),
    reading("gap", 3, "mm", good_example=""),
    reading("gap", 3, "mm", instrument="other"),
]


@pytest.mark.parametrize("test", LEFT_OUT)
def test_what_sets_no_limit_is_left_out(test):
    """Grades, counts, failures, and instruments that are no example."""
    assert limits(test) == {}


def test_a_limit_of_the_shop_is_a_row_of_the_table():
    """It keeps what it limits and whether it rejects, and names instrument, dates and basis."""
    (found,) = limits(
        reading("late", 6, "ms"), reading("late", 5, "ms", date="2026-01-05", basis="invented")
    ).values()
    table = CATALOG.limit("delay")
    assert (found.id, found.what, found.counts, found.unit) == (
        table.id, table.what, table.counts, table.unit,
    )  # fmt: skip
    assert (found.instrument, found.basis, found.where) == (
        "good", "invented", "2026-01-05 to 2026-02-01",
    )  # fmt: skip
    assert "Read more" in found.note


def test_the_demo_shop_shows_the_limits_of_its_good_example():
    """The instrument marked good, and not the one under repair, stands on the leaf."""
    assert instruments_of_limits(DEMO) == ["lantern-box"]
    (made,) = registry.place(DEMO, "own-limits", "")
    text = plain(made)
    assert "lantern-box" in text
    assert "forty-one-key" not in text
    # by hand: 0.4/37.5 = 1.07 %, 0.3/29.0 = 1.03 %, 0.2/24.5 = 0.82 %; worst of 1.5, 2, 1 cents;
    # on the bench 1.1/37.5 = 2.93 %, 0.7/29.0 = 2.41 %; rounded up to a thousandth
    rows = {one.id: one for one in limits_of_instrument(DEMO, "lantern-box")}
    assert (rows["gap-playing"].share, rows["gap-bench"].share) == (0.011, 0.03)
    assert "0.4 mm or 1.1 % of the free length, whichever is more" in text
    assert rows["pitch-soft"].value == 2


def test_without_a_good_example_the_leaf_says_so():
    """No table of nothing."""
    (made,) = registry.place(CATALOG, "own-limits", "")
    assert "No good example" in plain(made)
