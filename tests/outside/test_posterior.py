"""The learned estimate against outside judges: statsmodels, SciPy's quadrature, brute force."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest
import statsmodels.api as sm
from scipy import integrate, stats
from simulated_shop import PRIOR, SPREADS, reading, share_terms

from formulas.softening.chance import normal_share
from formulas.softening.evidence import Spreads
from formulas.softening.fit import least_squares, update
from formulas.softening.learning import Prior, learn
from formulas.softening.one_sided import bounded


def random_shop(seed, count=14):
    """Give readings with two rigs, sessions and lots, all at random."""
    chance = np.random.default_rng(seed)
    tests = []
    for place in range(count):
        share = float(chance.uniform(0, 0.6))
        one = reading(f"t{place:02}", share, float(chance.normal(62, 5)), f"s{place // 3}")
        rig = f"r{place % 2}"
        lots = {"wax a": 1 - share, f"rosin {place % 3}": share}
        tests.append(dataclasses.replace(one, rig=rig, lots=lots, checked=bool(place % 2)))
    return tests


def written_out(tests, spreads):
    """Give the covariance of all errors of the tests, written out pair by pair."""
    joint = np.zeros((len(tests), len(tests)))
    for i, one in enumerate(tests):
        for j, two in enumerate(tests):
            if i == j:
                joint[i, j] += spreads.reading**2
            if one.session == two.session:
                joint[i, j] += spreads.session**2
            if one.rig_key == two.rig_key:
                joint[i, j] += spreads.of_rig(checked=one.checked) ** 2
            joint[i, j] += spreads.lot**2 * sum(
                share * two.lots.get(lot, 0.0) for lot, share in one.lots.items()
            )
    return joint


# A prior of spread 1e5 is no wholly flat one: it pulls by about (error / spread) squared.
FLAT = 1e-5


# The lots stay below four of a kind here, so that their spread is the tables'.
@pytest.mark.parametrize("seed", range(5))
def test_learning_is_conditioning_of_one_joint_normal(seed):
    """Middle and covariance are those of the textbook's conditional normal, on random data."""
    tests = [
        dataclasses.replace(one, lots={"wax a": one.terms[0], "rosin b": one.terms[1]})
        for one in random_shop(seed)
    ]
    learned = learn(PRIOR, tests, SPREADS)
    rows = np.array([one.terms for one in tests])
    seen = np.array([one.low for one in tests])
    joint = rows @ PRIOR.covariance @ rows.T + written_out(tests, SPREADS)
    gain = PRIOR.covariance @ rows.T @ np.linalg.inv(joint)
    size = learned.terms
    assert learned.mean[:size] == pytest.approx(
        PRIOR.mean + gain @ (seen - rows @ PRIOR.mean), rel=1e-8
    )
    assert learned.covariance[:size, :size] == pytest.approx(
        PRIOR.covariance - gain @ rows @ PRIOR.covariance, rel=1e-6, abs=1e-8
    )


@pytest.mark.parametrize("seed", range(5))
def test_a_flat_prior_gives_generalised_least_squares(seed):
    """With next to no prior the coefficients and errors are those of statsmodels' GLS."""
    tests = [dataclasses.replace(one, lots={}) for one in random_shop(seed, 20)]
    rows = np.array([one.terms for one in tests])
    seen = np.array([one.low for one in tests])
    flat = Prior(np.zeros(4), np.eye(4) * 1e10)
    learned = learn(flat, tests, SPREADS)
    judge = sm.GLS(seen, rows, sigma=written_out(tests, SPREADS)).fit(cov_type="fixed scale")
    assert learned.mean[:4] == pytest.approx(judge.params, rel=FLAT)
    assert np.sqrt(np.diag(learned.covariance[:4, :4])) == pytest.approx(
        np.asarray(judge.bse), rel=FLAT
    )


def test_a_flat_prior_is_exactly_ordinary_least_squares():
    """No precision at all and equal errors: the coefficients of statsmodels' OLS."""
    tests = random_shop(3, 20)
    rows = np.array([one.terms for one in tests])
    seen = np.array([one.low for one in tests])
    found = update(rows, seen, np.full(20, 2.5**2), np.zeros(4), np.zeros((4, 4)))
    assert found.coefficients == pytest.approx(sm.OLS(seen, rows).fit().params, rel=1e-9)


# A statistics text's concrete blocks: n = 10, mean 1312, s = 25, the next value lies within
# 1312 +/- 59 with 95 % (t of 9 = 2.262). Tolerance: the text rounds to a whole number.
def test_prediction_of_the_next_value_is_the_text_s():
    """The fit's own covariance and spread give the printed prediction interval."""
    found = least_squares([[1.0]] * 10, _ten_of(1312.0, 25.0))
    spread = math.sqrt(found.residual_sd**2 + found.covariance[0, 0])
    assert found.coefficients[0] == pytest.approx(1312)
    assert stats.t.ppf(0.975, 9) * spread == pytest.approx(59, abs=0.5)


def _ten_of(mean, spread):
    """Give ten values of this mean and standard deviation."""
    steps = np.arange(10) - 4.5
    return mean + spread * steps / np.std(steps, ddof=1)


def test_prediction_intervals_are_statsmodels():
    """On random data the prediction interval of a new reading is statsmodels' own."""
    tests = random_shop(11, 20)
    rows = np.array([one.terms for one in tests])
    seen = np.array([one.low for one in tests])
    found = least_squares(rows, seen)
    new = share_terms(0.25)
    spread = math.sqrt(found.residual_sd**2 + new @ found.covariance @ new)
    low, high = sm.OLS(seen, rows).fit().get_prediction(new).conf_int(obs=True)[0]
    reach = stats.t.ppf(0.975, found.freedom) * spread
    middle = float(new @ found.coefficients)
    assert (middle - reach, middle + reach) == pytest.approx((low, high), rel=1e-9)


BOUNDS = [(60.0, math.inf), (-math.inf, 58.0), (55.0, 60.0), (70.0, 75.0), (-math.inf, 45.0)]


@pytest.mark.parametrize(("low", "high"), BOUNDS)
def test_one_bound_is_exact_against_quadrature(low, high):
    """Middle, spread and chance after one bound are the integrals' own."""
    middle, spread, error = 61.0, 4.0, 2.5
    moved, narrowed, chance = bounded(
        np.array([middle]), np.array([[spread**2]]), np.array([1.0]), low, high, error**2
    )

    def seen(value):
        upper = stats.norm.cdf((high - value) / error)
        return upper - stats.norm.cdf((low - value) / error)

    def moment(power):
        return integrate.quad(
            lambda v: v**power * stats.norm.pdf(v, middle, spread) * seen(v),
            middle - 12 * spread,
            middle + 12 * spread,
            limit=400,
            epsabs=1e-13,
        )[0]

    whole, first, second = (moment(power) for power in (0, 1, 2))
    assert chance == pytest.approx(whole, rel=1e-9)
    assert moved[0] == pytest.approx(first / whole, rel=1e-9)
    assert narrowed[0, 0] == pytest.approx(second / whole - (first / whole) ** 2, rel=1e-6)


def test_many_bounds_stay_near_the_true_posterior():
    """Ten bounds at one blend: middle and spread within a few percent of a fine grid's."""
    spreads = Spreads(2.5, 0.0001, 0.0001, 0.0001, 0.0001)
    prior = Prior(np.array([60.0]), np.array([[64.0]]))
    chance = np.random.default_rng(5)
    tests = []
    for place in range(10):
        value = 57 + chance.normal() * 2.5
        low = 5 * math.floor(value / 5)
        one = reading(f"t{place}", 0.0, 0.0, f"s{place}")
        tests.append(dataclasses.replace(one, terms=(1.0,), low=low, high=low + 5.0))
    learned = learn(prior, tests, spreads)
    grid = np.linspace(30, 90, 24001)
    weight = stats.norm.pdf(grid, 60, 8)
    for one in tests:
        weight *= stats.norm.cdf((one.high - grid) / 2.5) - stats.norm.cdf((one.low - grid) / 2.5)
    weight /= weight.sum()
    middle = float(weight @ grid)
    spread = math.sqrt(float(weight @ (grid - middle) ** 2))
    # Matched moments, one after another: no exact law, so a tenth of the spread is allowed.
    assert learned.mean[0] == pytest.approx(middle, abs=0.1 * spread)
    assert math.sqrt(learned.covariance[0, 0]) == pytest.approx(spread, rel=0.05)


@pytest.mark.parametrize("z", [-9, -6.5, -3, -1.96, -0.1, 0, 1e-9, 0.7, 1.644854, 2.5, 6.9, 8])
def test_normal_share_is_scipy_s(z):
    """The share of the normal distribution that the page uses is SciPy's, to ten digits."""
    assert normal_share(z) == pytest.approx(stats.norm.cdf(z), abs=1e-10)


def test_a_flag_is_what_leaving_the_test_out_shows():
    """The error printed for an outlier is its distance from a fit without it."""
    tests = [reading(f"t{i}", 0.05 * i, 60 + 0.1 * i, f"s{i // 2}") for i in range(8)]
    strange = reading("z", 0.2, 92, "s3")
    (flag,) = learn(PRIOR, [*tests, strange], SPREADS).flags
    rows = np.array([one.terms for one in tests])
    seen = np.array([one.low for one in tests])
    new = np.array(strange.terms)
    joint = rows @ PRIOR.covariance @ rows.T + written_out(tests, SPREADS)
    across = new @ PRIOR.covariance @ rows.T + SPREADS.of_rig(checked=False) ** 2
    across += [SPREADS.session**2 if one.session == "s3" else 0.0 for one in tests]
    put = new @ PRIOR.mean + across @ np.linalg.solve(joint, seen - rows @ PRIOR.mean)
    assert flag.said.startswith(f"{92 - put:+.1f} °C")
