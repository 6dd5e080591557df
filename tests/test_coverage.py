"""Simulated shops: does the 95 % band hold the truth, and does testing as told save tests."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest
from simulated_shop import PRIOR, SPREADS, reading, share_terms

from formulas.softening import to_test_next
from formulas.softening.learning import learn
from formulas.softening.mixture import Z_95, blend_terms

TRUTHS = 500
ASKED = 0.2


def own_curve(chance):
    """Draw a curve from the prior itself."""
    coefficients = chance.multivariate_normal(PRIOR.mean, PRIOR.covariance)
    return lambda share: float(share_terms(share) @ coefficients)


def kinked_curve(chance):
    """Draw a curve that falls to a kink, as where rosin holds up the wax's crystals, and rises."""
    wax, rosin = chance.normal(PRIOR.mean[:2], np.sqrt(np.diag(PRIOR.covariance)[:2]))
    kink, slope = chance.uniform(0.2, 0.5), -chance.uniform(10, 25)
    foot = wax + slope * kink
    return lambda share: (
        wax + slope * share if share < kink else foot + (rosin - foot) * (share - kink) / (1 - kink)
    )


def shop_tests(chance, curve, count, *, bias=None, spread=2.5, bounds=False, in_session=2):
    """Let a shop test: every second sample is the reference, the others lie at random."""
    rig = chance.normal() * SPREADS.rig if bias is None else bias
    lots = chance.normal(size=2) * SPREADS.lot
    session = 0.0
    tests = []
    for place in range(count):
        if place % in_session == 0:
            session = 0.0 if bias is not None else chance.normal() * SPREADS.session
        share = 0.0 if place % 2 == 0 and not bounds else float(chance.uniform(0, 0.5))
        value = curve(share) + rig + session + (1 - share) * lots[0] + share * lots[1]
        value += chance.normal() * spread
        one = reading(f"t{place:02}", share, value, f"s{place // in_session:02}")
        one = dataclasses.replace(one, lots={"wax a": 1 - share, "rosin a": share})
        if bounds:
            low = 5.0 * math.floor(value / 5)
            one = dataclasses.replace(one, low=low, high=low + 5)
        tests.append(one)
    return tests


def coverage(seed, draw, count, **how):
    """Give the share of hidden curves that lie in the band at the asked share of rosin."""
    chance = np.random.default_rng(seed)
    row = share_terms(ASKED)
    held = 0
    for _ in range(TRUTHS):
        curve = draw(chance)
        learned = learn(PRIOR, shop_tests(chance, curve, count, **how), SPREADS)
        middle = float(row @ learned.mean[:4])
        reach = Z_95 * math.sqrt(row @ learned.covariance[:4, :4] @ row)
        held += abs(curve(ASKED) - middle) <= reach
    return int(held) / TRUTHS


@pytest.mark.parametrize("count", [2, 5, 10])
def test_the_band_covers_truths_of_its_own_prior(count, record_property):
    """Of 500 truths drawn from the prior, 93 to 97 % lie in the 95 % band."""
    found = coverage(20261125, own_curve, count)
    record_property("coverage", found)
    assert 0.93 <= found <= 0.97


@pytest.mark.parametrize("count", [3, 6])
def test_bounds_cover_as_readings_do(count, record_property):
    """Steps that were held and moved count honestly too."""
    found = coverage(7, own_curve, count, bounds=True)
    record_property("coverage", found)
    assert 0.93 <= found <= 0.97


@pytest.mark.parametrize("count", [5, 10, 20])
def test_the_band_holds_when_the_thermometer_is_off(count, record_property):
    """Two degrees of bias in every session, with the reference beside: 90 % and more."""
    found = coverage(11, own_curve, count, bias=2.0)
    record_property("coverage", found)
    assert found >= 0.90


def test_the_band_holds_when_one_session_is_all_there_is(record_property):
    """Ten readings of a single session with a thermometer that is off: 90 % and more."""
    found = coverage(13, own_curve, 10, bias=2.0, in_session=10)
    record_property("coverage", found)
    assert found >= 0.90


@pytest.mark.parametrize("count", [5, 10, 20])
def test_the_band_holds_when_the_curve_has_a_kink(count, record_property):
    """A curve that no polynomial is: 90 % and more."""
    found = coverage(17, kinked_curve, count)
    record_property("coverage", found)
    assert found >= 0.90


def test_a_naive_fit_would_not_hold():
    """The same shops with a rig taken to be perfect: the band fails, so the layers are needed."""
    perfect = dataclasses.replace(SPREADS, rig=1e-4, session=1e-4, reading=1.2)
    chance = np.random.default_rng(13)
    row = share_terms(ASKED)
    held = 0
    for _ in range(200):
        curve = own_curve(chance)
        tests = shop_tests(chance, curve, 10, bias=2.0, in_session=10)
        learned = learn(PRIOR, tests, perfect)
        reach = Z_95 * math.sqrt(row @ learned.covariance[:4, :4] @ row)
        held += abs(curve(ASKED) - float(row @ learned.mean[:4])) <= reach
    assert held / 200 < 0.80


# A rig checked in ice and boiling water, each test in a session of its own.
def _start():
    covariance = np.zeros((6, 6))
    covariance[:4, :4] = PRIOR.covariance
    covariance[4, 4] = 1.0
    covariance[5, 5] = SPREADS.rig_checked**2
    return covariance.tolist()


def equally_spaced(width, grid):
    """Count the tests of equally spaced shares, in turn, until the band is that narrow."""
    wanted, left, made = blend_terms([1 - ASKED, ASKED], 0.0), _start(), 0
    while (
        Z_95 * math.sqrt(to_test_next.joint_variance(wanted, left, wanted)) > width and made < 300
    ):
        blend = [1 - grid[made % len(grid)], grid[made % len(grid)]]
        noise = to_test_next.reading_noise(blend, SPREADS.new_session, SPREADS.lot**2)
        left = to_test_next.after_test(left, to_test_next.tested_terms(blend, 2), noise)
        made += 1
    return made


@pytest.mark.parametrize("grid", [[0, 0.25, 0.5, 0.75, 1], [0, 0.125, 0.25, 0.375, 0.5]])
def test_testing_as_told_reaches_two_degrees_with_fewer_tests(grid, record_property):
    """The proposed test each time reaches give or take 2 °C sooner than equal steps do."""
    blend = [1 - ASKED, ASKED]
    told = to_test_next.tests_until(
        blend, 1, 2, 0.1, _start(), SPREADS.new_session, SPREADS.lot**2, [0, 1], "drop-point", 2.0
    )
    spaced = equally_spaced(2.0, grid)
    record_property("told", told)
    record_property("spaced", spaced)
    assert 0 < told < spaced


def test_an_unchecked_rig_cannot_reach_two_degrees():
    """The rig's own error stands in the way, and the count says so."""
    covariance = _start()
    covariance[5][5] = SPREADS.rig**2
    blend = [1 - ASKED, ASKED]
    asked = (blend, 1, 2, 0.1, covariance, 8.5, SPREADS.lot**2, [0, 1], "drop-point")
    assert to_test_next.tests_until(*asked, 2.0) == -1
