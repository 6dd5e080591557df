"""Scaling, rounding and volume of a batch: the laws they keep."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulas.catalog import load
from formulas.fault import OutOfRange, UnknownName
from formulas.wax import batch
from formulas.wax.mix import mix

PARTS = st.lists(st.floats(0.01, 100), min_size=1, max_size=6)
STEPS = st.sampled_from([0.01, 0.05, 0.1, 0.5, 1.0, 5.0])


@pytest.fixture(scope="module")
def trade():
    """The trade's tables alone."""
    return load(None)


@given(PARTS, st.integers(0, 100000))
def test_steps_add_up_and_stay_near_their_share(parts, steps):
    """Rounded weights add up to the total exactly, each less than one step off its share."""
    shares = [part / sum(parts) for part in parts]
    counts = batch.weigh_out(shares, steps)
    assert sum(counts) == steps
    assert all(
        abs(count - share * steps) < 1 + 1e-6 for count, share in zip(counts, shares, strict=True)
    )


def test_largest_remainder_is_the_nearest_ratio():
    """No other way to share out whole steps comes nearer to the ratio (tried: all of them)."""
    for parts in ([4, 1], [1, 1, 1], [5, 3, 2], [16, 4, 1]):
        shares = [part / sum(parts) for part in parts]
        for steps in range(1, 12):
            counts = batch.weigh_out(shares, steps)
            off = sum(abs(c - s * steps) for c, s in zip(counts, shares, strict=True))
            tried = itertools.product(range(steps + 1), repeat=len(parts))
            best = min(
                sum(abs(c - s * steps) for c, s in zip(other, shares, strict=True))
                for other in tried
                if sum(other) == steps
            )
            assert off == pytest.approx(best, abs=1e-9)


@given(PARTS, st.floats(1, 1000), STEPS)
def test_twice_the_total_halved_is_the_same(parts, total, step):
    """Scaling by 2 and by 1/2 is the identity, before the scale rounds."""
    whole = sum(parts)
    for part in parts:
        share = batch.share_by_mass(part, whole)
        assert batch.component_mass(2 * total, share) / 2 == batch.component_mass(total, share)


@given(st.integers(0, 10**6), STEPS)
def test_a_mass_shows_no_digit_that_the_scale_lacks(count, step):
    """Steps turn into a mass and back without loss."""
    mass = batch.mass_of(count, step)
    assert batch.steps_of(mass, step) == count
    assert round(mass, batch.decimals_of(step)) == pytest.approx(mass, abs=1e-12)


# Ideal mixing, a standard pharmacy exercise (from memory): 1000 mL of specific gravity 1.300,
# 400 mL of 1.250 and 1000 mL of 0.950 give 2400 mL of 1.1458. To half the last digit.
def test_ideal_mixing_of_three_liquids():
    """The density of the mixture is its mass over the sum of its volumes."""
    masses, densities = [1.3, 0.5, 0.95], [1300.0, 1250.0, 950.0]
    volume = batch.melt_volume(masses, densities)
    assert volume == pytest.approx(2.4e-3)
    assert sum(masses) / volume / 1000 == pytest.approx(1.1458, abs=5e-5)


# Density to volume, US army medical pharmacology course MD0802 (question read, answer computed):
# 250 g of a liquid of specific gravity 1.65 take up 151.5 mL. To half the last digit.
def test_volume_of_a_heavy_liquid():
    """Mass over density is volume."""
    assert batch.melt_volume([0.25], [1650.0]) * 1e6 == pytest.approx(151.5, abs=0.05)


@given(PARTS, st.sampled_from([0.1, 0.5, 1.0]), st.floats(50, 5000))
def test_the_weights_of_a_batch_add_up(parts, step, total):
    """A batch's weights add up to its total to the last digit the scale shows."""
    counts = batch.weigh_out([part / sum(parts) for part in parts], batch.steps_of(total, step))
    decimals = batch.decimals_of(step)
    scaled = [round(batch.mass_of(count, step) * 10**decimals) for count in counts]
    assert sum(scaled) == round(batch.mass_of(batch.steps_of(total, step), step) * 10**decimals)


FOUR_ONE = {"beeswax-yellow": 4.0, "gum-rosin": 1.0}


def masses(answer):
    """Give the masses to weigh, by material."""
    return {part["material"]: part["mass"].value for part in answer.answer["components"]}


def test_a_total_is_shared_out(trade):
    """400 g of four to one are 320 g and 80 g."""
    assert masses(mix(trade, FOUR_ONE, total_g=400)) == {"beeswax-yellow": 320, "gum-rosin": 80}


def test_what_is_at_hand_is_never_overdrawn(trade):
    """A limited component is used up to the scale's step and no further."""
    for held in (85.0, 84.99, 0.73, 123.456):
        found = masses(mix(trade, FOUR_ONE, have_g={"gum-rosin": held}))
        assert held - 0.1 < found["gum-rosin"] <= held + 1e-9


def test_the_scarcer_of_two_limits_the_batch(trade):
    """With two limited components the scarcer one decides."""
    have = {"gum-rosin": 85.0, "beeswax-yellow": 100.0}
    assert masses(mix(trade, FOUR_ONE, have_g=have)) == {"beeswax-yellow": 100, "gum-rosin": 25}


def test_plates_are_weighed_out_for_the_high_end(trade):
    """The batch for plates is what the most wax a plate and the most loss ask for."""
    found = mix(trade, FOUR_ONE, plates=224)
    # 224 plates x 1.5 g over what 10 % straining and 5 % pot loss leave (the figures' high ends)
    assert found.answer["needed"].high == pytest.approx(224 * 1.5 / (0.90 * 0.95))
    assert found.answer["total"].value == pytest.approx(found.answer["needed"].high, abs=0.05)


def test_a_blend_of_one_is_that_one(trade):
    """A blend of one component weighs all of it."""
    assert masses(mix(trade, {"beeswax-yellow": 3.0}, total_g=50)) == {"beeswax-yellow": 50}


def test_the_order_of_partners_does_not_matter(trade):
    """Turning a blend round changes no mass and no band."""
    one, other = (
        mix(trade, FOUR_ONE, total_g=123),
        mix(trade, dict(reversed(FOUR_ONE.items())), total_g=123),
    )
    assert masses(one) == masses(other)
    assert one.answer["softening"].low == pytest.approx(other.answer["softening"].low)


def test_the_pot_holds_the_largest_volume_with_headroom(trade):
    """The smallest pot leaves a third of it empty at the high end of the volume."""
    found = mix(trade, FOUR_ONE, total_g=400).answer
    assert found["pot"].value * 0.66 >= found["hot_volume"].high
    assert (found["pot"].value - 50) * 0.66 < found["hot_volume"].high


def test_an_unknown_melt_is_counted_at_its_lightest(trade):
    """Where a liquid density is not known the pot is chosen for the lightest melt known."""
    # 80 g of rosin at the tables' lightest melt, paraffin's 780 kg/m3; 320 g of beeswax at 810.
    found = mix(trade, FOUR_ONE, total_g=400).answer["hot_volume"]
    assert found.high == pytest.approx(320 / 0.810 + 80 / 0.780)


def test_a_cost_without_a_price_is_not_known(trade):
    """No price means no cost, and says where to enter one."""
    cost = mix(trade, FOUR_ONE, total_g=400).answer["cost"]
    assert "prices.csv" in cost.find_out


REFUSED = [
    ({"parts": FOUR_ONE, "total_g": 0.0}, OutOfRange, "total"),
    ({"parts": FOUR_ONE, "total_g": -3.0}, OutOfRange, "total"),
    ({"parts": FOUR_ONE, "total_g": 0.2}, OutOfRange, "each component weighs at least one step"),
    ({"parts": FOUR_ONE, "plates": 0}, OutOfRange, "plates"),
    ({"parts": FOUR_ONE, "have_g": {"gum-rosn": 5.0}}, UnknownName, "did you mean 'gum-rosin'"),
    ({"parts": FOUR_ONE, "have_g": {"gum-rosin": 0.0}}, OutOfRange, "mass of gum-rosin"),
    ({"parts": {"beeswx-yellow": 1.0}, "total_g": 5.0}, UnknownName, "'beeswax-yellow'"),
    ({"parts": {"gum-rosin": -1.0}, "total_g": 5.0}, OutOfRange, "parts of gum-rosin"),
    ({"parts": {}, "total_g": 5.0}, OutOfRange, "components"),
    ({"parts": FOUR_ONE}, OutOfRange, "ways to say how much"),
]


@pytest.mark.parametrize(("call", "error", "said"), REFUSED)
def test_what_cannot_be_weighed_is_refused(trade, call, error, said):
    """A batch of no use is refused with what is accepted."""
    with pytest.raises(error, match=said):
        mix(trade, **call)
