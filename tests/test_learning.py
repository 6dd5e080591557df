"""What the shop's tests teach: layers of error, bounds, repeats, lots, outliers, the next test."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from simulated_shop import PRIOR, SPREADS, reading, share_terms

from formulas.softening.evidence import Evidence, duplicates, pooled_spread
from formulas.softening.learning import learn
from formulas.softening.one_sided import between, bounded

ROSIN_20 = share_terms(0.2)


def band_at(learned, share=0.2):
    """Give middle and spread of what is held at a share of rosin."""
    row = share_terms(share)
    size = learned.terms
    variance = row @ learned.covariance[:size, :size] @ row
    return float(row @ learned.mean[:size]), math.sqrt(variance)


def test_no_test_leaves_the_prior():
    """Without a test nothing has moved."""
    learned = learn(PRIOR, [], SPREADS)
    assert learned.mean == pytest.approx(PRIOR.mean)
    assert learned.covariance == pytest.approx(PRIOR.covariance)
    assert learned.counted == 0


def test_readings_count_in_any_order():
    """The order in which readings were written down does not matter."""
    tests = [reading(f"t{i}", 0.1 * i, 60 + i, session=f"s{i // 2}") for i in range(6)]
    forward, backward = (learn(PRIOR, order, SPREADS) for order in (tests, tests[::-1]))
    assert forward.mean == pytest.approx(backward.mean)
    assert forward.covariance == pytest.approx(backward.covariance)


def test_ten_readings_of_one_session_tell_less_than_ten_of_ten():
    """The error that a session shares does not average out within it."""
    one = [reading(f"t{i}", 0.2, 60, session="s") for i in range(10)]
    many = [reading(f"t{i}", 0.2, 60, session=f"s{i}") for i in range(10)]
    assert band_at(learn(PRIOR, one, SPREADS))[1] > band_at(learn(PRIOR, many, SPREADS))[1]


def test_a_rig_that_is_off_stays_off_for_ever():
    """However many sessions, the error of an unchecked rig stays in the band."""
    tests = [reading(f"t{i}", 0.2, 60, session=f"s{i}") for i in range(300)]
    checked = [dataclasses.replace(one, checked=True) for one in tests]
    stuck, freed = (band_at(learn(PRIOR, each, SPREADS))[1] for each in (tests, checked))
    assert stuck > 1.5
    assert freed < stuck - 0.2


def test_the_reference_wax_takes_the_session_out():
    """Plain beeswax read beside the blend narrows the blend's own band."""
    alone = [reading("t1", 0.2, 60)]
    beside = [*alone, reading("t2", 0.0, 66)]
    assert band_at(learn(PRIOR, beside, SPREADS))[1] < band_at(learn(PRIOR, alone, SPREADS))[1]


def test_a_high_reference_pulls_the_blend_down():
    """Where the reference reads too high, so did the blend."""
    low = learn(PRIOR, [reading("t1", 0.2, 60), reading("t2", 0.0, 63.5)], SPREADS)
    high = learn(PRIOR, [reading("t1", 0.2, 60), reading("t2", 0.0, 69)], SPREADS)
    assert band_at(high)[0] < band_at(low)[0]


def test_pairs_of_one_sample_and_session_count_as_repeats():
    """Only readings of the same sample in the same session are repeats, each counted once."""
    tests = [
        reading("a", 0.2, 60.0),
        reading("b", 0.2, 62.0),
        reading("c", 0.2, 61.0),
        reading("d", 0.3, 61.0),
        reading("e", 0.2, 60.0, session="other"),
    ]
    assert duplicates(tests) == [(60.0, 62.0)]


def test_pooled_spread_of_pairs():
    """By hand: differences 1, 1 and 2 give the root of 6 over 6, which is 1."""
    assert pooled_spread([(60, 61), (59, 58), (62, 64)]) == pytest.approx(1.0)


def test_four_pairs_give_the_rig_its_own_spread():
    """From four pairs on the shop's own spread takes the place of the tables'; not from three."""

    def pairs(count):
        return [
            reading(f"{i}{k}", 0.2, 60 + k, session=f"s{i}") for i in range(count) for k in (0, 1)
        ]

    assert learn(PRIOR, pairs(3), SPREADS).spreads.reading == SPREADS.reading
    four = learn(PRIOR, pairs(4), SPREADS)
    assert four.own_spread
    assert four.spreads.reading == pytest.approx(1 / math.sqrt(2))


def test_four_lots_give_the_lots_their_own_spread():
    """Lots that lie close together are found to, where the tables say more; not from three."""

    def of_lots(count):
        return [
            dataclasses.replace(
                reading(f"{i}{k}", 0.0, 63.5, session=f"s{i}{k}"),
                lots={f"wax {i}": 1.0}, checked=True,
            )
            for i in range(count)
            for k in range(6)
        ]  # fmt: skip

    assert learn(PRIOR, of_lots(3), SPREADS).spreads.lot == SPREADS.lot
    four = learn(PRIOR, of_lots(4), SPREADS)
    assert four.own_lots
    assert four.spreads.lot < SPREADS.lot


def test_an_outlier_is_named_and_still_counts():
    """A reading far from where the others put it is flagged; it is not dropped."""
    tests = [reading(f"t{i}", 0.2, 60 + 0.1 * i, session=f"s{i}") for i in range(8)]
    strange = reading("t9", 0.2, 95, session="s9")
    learned = learn(PRIOR, [*tests, strange], SPREADS)
    assert [flag.test for flag in learned.flags] == ["t9"]
    assert learned.counted == 9
    assert band_at(learned)[0] > band_at(learn(PRIOR, tests, SPREADS))[0]


def test_no_reading_is_strange_among_its_like():
    """Readings of one shop that agree are not flagged."""
    tests = [reading(f"t{i}", 0.2, 60 + 0.3 * i, session=f"s{i}") for i in range(8)]
    assert learn(PRIOR, tests, SPREADS).flags == ()


@given(st.floats(0, 0.5), st.floats(45, 80))
def test_a_hold_never_lowers_and_a_failure_never_raises(share, temperature):
    """What was held moves the estimate up or not at all, what moved moves it down."""
    before = band_at(learn(PRIOR, [], SPREADS), share)[0]
    held = dataclasses.replace(reading("t", share, 0.0), low=temperature, high=math.inf)
    moved = dataclasses.replace(reading("t", share, 0.0), low=-math.inf, high=temperature)
    assert band_at(learn(PRIOR, [held], SPREADS), share)[0] >= before - 1e-9
    assert band_at(learn(PRIOR, [moved], SPREADS), share)[0] <= before + 1e-9


@given(st.floats(-12, 12), st.floats(0, 20))
def test_a_cut_normal_keeps_its_moments_in_reach(a, width):
    """Far out as in the middle: chance, shift and width stay what such moments can be."""
    cut = between(a, a + width + 1e-6)
    assert 0 <= cut.chance <= 1
    assert 0 < cut.width <= 1
    assert math.isfinite(cut.shift)


def test_a_contradicted_bound_is_named():
    """A plate that slid far below where all readings put it is flagged."""
    tests = [reading(f"t{i}", 0.2, 60, session=f"s{i}") for i in range(12)]
    slid = dataclasses.replace(reading("u", 0.2, 0, session="u"), low=-math.inf, high=30.0)
    assert [flag.test for flag in learn(PRIOR, [*tests, slid], SPREADS).flags] == ["u"]


def test_side_by_side_needs_no_thermometer():
    """Which of two moved first orders them, and a rig that is far off changes nothing."""
    apart = share_terms(0.1) - share_terms(0.3)
    one = Evidence("t", "2026-01-01", "s", "r", False, apart, 0.0, math.inf, comparison=True)
    other = dataclasses.replace(one, rig="another", checked=True, session="u")
    learned, same = learn(PRIOR, [one], SPREADS), learn(PRIOR, [other], SPREADS)
    assert band_at(learned, 0.1)[0] - band_at(learned, 0.3)[0] > (
        PRIOR.mean @ share_terms(0.1) - PRIOR.mean @ share_terms(0.3)
    )
    assert learned.mean == pytest.approx(same.mean)
    assert learned.columns == ()


def test_a_bound_s_session_counts_within_it_alone():
    """Two bounds of one session tell less than two of two sessions."""

    def held(name, session):
        return dataclasses.replace(reading(name, 0.2, 0, session=session), low=60.0, high=65.0)

    same = learn(PRIOR, [held("a", "s"), held("b", "s"), held("c", "t")], SPREADS)
    apart = learn(PRIOR, [held("a", "s"), held("b", "u"), held("c", "t")], SPREADS)
    assert band_at(same)[1] > band_at(apart)[1]


def test_a_bridged_reading_counts_through_its_offset():
    """A drop point that speaks for creep is moved by the offset, and its doubt stays."""
    prior = dataclasses.replace(PRIOR, offset=(15.0, 8.0))
    bridged = dataclasses.replace(reading("t", 0.2, 70), bridged=True)
    own = reading("t", 0.2, 55)
    by_bridge, by_own = learn(prior, [bridged], SPREADS), learn(prior, [own], SPREADS)
    assert band_at(by_own)[1] < band_at(by_bridge)[1] < band_at(learn(prior, [], SPREADS))[1]


def test_bounded_leaves_everything_else_of_a_sure_thing():
    """A bound that was sure to be met teaches nothing."""
    mean, covariance = np.array([60.0]), np.array([[4.0]])
    moved, narrowed, chance = bounded(mean, covariance, np.array([1.0]), -math.inf, 200.0, 1.0)
    assert chance == pytest.approx(1.0)
    assert moved == pytest.approx(mean)
    assert narrowed == pytest.approx(covariance)


def held_spread(tests):
    """Give the spread at a fifth of rosin after some tests, the rig's own error left out."""
    sure = dataclasses.replace(SPREADS, rig=1e-4, lot=1e-4)
    return band_at(learn(PRIOR, tests, sure))[1]


def test_ten_readings_of_one_session_tell_as_much_as_three_of_three():
    """What the leaf of the shop's tests says: 2.5**2 / 10 + 1.5**2 is (2.5**2 + 1.5**2) / 3."""
    # shares a hair apart, so that they are no repeats from which the shop's own spread is taken
    one = held_spread([reading(f"t{i}", 0.2 + 1e-9 * i, 62, session="s") for i in range(10)])
    three = held_spread([reading(f"t{i}", 0.2, 62, session=f"s{i}") for i in range(3)])
    # 2.875 against 2.833: equal to 2 % in variance, so to 1 % in spread
    assert one == pytest.approx(three, rel=0.01)


def test_a_hold_alone_tells_less_than_half_of_a_reading():
    """Told as the precision gained, with the step in the middle of the band."""
    middle, before = band_at(learn(PRIOR, [], SPREADS))
    read = reading("t", 0.2, middle)
    held = dataclasses.replace(read, low=middle, high=math.inf)
    gained = [held_spread([one]) ** -2 - before**-2 for one in (held, read)]
    assert 0 < gained[0] < gained[1] / 2
