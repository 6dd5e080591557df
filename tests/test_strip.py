"""A clamped strip: laws between its formulas, and what a unit trap would show."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulas.valves import strip
from formulas.valves.laminate import bonded_stack, loose_stack

LENGTHS = st.floats(0.008, 0.12)
BENDS = st.floats(0.01, 0.12)
MASSES = st.floats(0.02, 1.5)
LIFTS = st.floats(1e-5, 0.02)
MODULI = st.floats(1e6, 6e9)
THICK = st.floats(2e-5, 2e-3)


@given(MASSES, BENDS, LENGTHS, LIFTS)
def test_droop_times_opening_pressure_is_weight_times_lift(m, c, L, d):
    """Stiffness cancels: only a lighter stock betters droop and opening pressure together."""
    D = strip.rigidity(m, c)
    product = strip.droop(1, L, c) * strip.lifting_pressure(d, D, L)
    assert product == pytest.approx(m * 9.80665 * d, rel=1e-9)


@given(MASSES, BENDS)
def test_rigidity_and_bending_length_are_each_others_inverse(m, c):
    """What a rigidity came from comes back from it."""
    assert strip.bending_length_of(strip.rigidity(m, c), m) == pytest.approx(c, rel=1e-9)


@given(st.floats(0.05, 1), LENGTHS, BENDS)
def test_the_droop_of_a_cut_valve_gives_its_bending_length_back(n, L, c):
    """Droop read on a valve and the bending length behind it are one statement."""
    assert strip.bending_length_by_droop(n, L, strip.droop(n, L, c)) == pytest.approx(c, rel=1e-9)


@given(LENGTHS, LIFTS, MASSES, BENDS)
def test_lift_and_pressure_are_each_others_inverse(L, d, m, c):
    """The pressure that lifts a tip so far lifts it so far."""
    D = strip.rigidity(m, c)
    assert strip.lift(strip.lifting_pressure(d, D, L), D, L) == pytest.approx(d, rel=1e-9)


@given(MODULI, THICK)
def test_modulus_and_rigidity_are_each_others_inverse(E, t):
    """The modulus of a solid strip comes back from its rigidity."""
    assert strip.bending_modulus(strip.rigidity_of(E, t), t) == pytest.approx(E, rel=1e-9)


@given(MASSES, BENDS, LENGTHS, st.floats(-9, 9))
def test_the_preload_of_a_curl_just_lifts_its_tip(m, c, L, kappa):
    """The pressure that frees a curled tip is the one that lifts as far as the curl presses."""
    D = strip.rigidity(m, c)
    lifted = strip.lift(strip.preload(D, kappa, L), D, L)
    assert lifted == pytest.approx(strip.curl_lift(kappa, L), rel=1e-9, abs=1e-15)


@given(MODULI, THICK, st.floats(0.05, 0.95))
def test_equal_layers_bonded_are_one_solid_strip(E, t, share):
    """A strip cut through its thickness and bonded again bends as it did before."""
    whole = strip.rigidity_of(E, t)
    assert strip.bonded_rigidity(E, share * t, E, t - share * t) == pytest.approx(whole, rel=1e-9)
    parts = [share * t, (1 - share) * t / 2, (1 - share) * t / 2]
    assert bonded_stack([E] * 3, parts) == pytest.approx(whole, rel=1e-9)


@given(st.lists(st.tuples(MODULI, THICK), min_size=1, max_size=5))
def test_bonding_never_softens_and_turning_over_changes_nothing(layers):
    """Bonded is at least as stiff as loose; a stack bends alike with either face up."""
    moduli, thick = [E for E, _ in layers], [t for _, t in layers]
    bonded = bonded_stack(moduli, thick)
    assert bonded >= loose_stack(moduli, thick) * (1 - 1e-9)
    assert bonded_stack(moduli[::-1], thick[::-1]) == pytest.approx(bonded, rel=1e-6)


@given(MODULI, THICK, MODULI, THICK)
def test_two_layers_are_a_stack_of_two(E1, t1, E2, t2):
    """The formula of two layers and the stack of any number agree; loose layers add."""
    assert strip.bonded_rigidity(E1, t1, E2, t2) == pytest.approx(
        bonded_stack([E1, E2], [t1, t2]), rel=1e-6
    )
    parts = strip.rigidity_of(E1, t1), strip.rigidity_of(E2, t2)
    assert strip.loose_rigidity(*parts) == pytest.approx(loose_stack([E1, E2], [t1, t2]))


def test_four_equal_layers_loose_and_bonded():
    """N equal layers are n times one when loose and n^3 times one when bonded."""
    one = strip.rigidity_of(5e7, 3e-4)
    assert loose_stack([5e7] * 4, [3e-4] * 4) == pytest.approx(4 * one)
    assert bonded_stack([5e7] * 4, [3e-4] * 4) == pytest.approx(64 * one)


def test_curvature_of_a_flat_arc():
    """A true arc of radius 200 mm over a chord of 60 mm gives its curvature within 0.6 %."""
    radius, chord = 0.2, 0.06
    rise = radius - math.sqrt(radius**2 - chord**2 / 4)
    # exact: 8 h/s^2 = (2/R)/(1 + sqrt(1 - (s/2R)^2)); (s/2R)^2/4 = 0.0056 too high
    assert strip.curl_curvature(rise, chord) == pytest.approx(1 / radius, rel=0.006)
    assert strip.curl_curvature(rise, chord) > 1 / radius


def test_root_strain_is_that_of_the_bent_root():
    """Even pressure bends the root to a curvature of 4 d/L^2; half the thickness times that."""
    t, d, L = 2e-4, 3e-3, 0.03
    assert strip.root_strain(t, d, L) == pytest.approx(t / 2 * 4 * d / L**2)


def test_units_are_carried_in():
    """Grams, millimetres and newtons come out right through the quantities."""
    from formulas.units import registry

    unit = registry().Quantity
    got = strip.rigidity.at(m=unit(236, "g/m**2"), c=unit(31.2, "mm"))
    # 0.236 * 9.80665 * 0.0312^3 = 2.31437 * 3.0371e-5 = 7.0290e-5
    assert got.to("uN*m").magnitude == pytest.approx(70.29, abs=0.01)
    ounces = strip.rigidity.at(m=unit(6.96, "oz/yd**2"), c=unit(1.2283, "in"))
    # 6.96 is written to half of a hundredth, 0.7 in 1000; 1.2283, cubed, adds 0.1
    assert ounces.to("uN*m").magnitude == pytest.approx(70.29, rel=1e-3)
