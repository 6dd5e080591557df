"""The least-squares path against published fits and their printed errors."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formulas.softening.fit import least_squares, update
from formulas.softening.mixture import blend_terms, pair_bends, softening_point

# Yarn elongation on a {3,2} lattice: Cornell, Experiments with Mixtures, 3rd edition 2002; the
# same fit is shown in the NIST/SEMATECH e-Handbook 5.5.4.2 (that from memory).
YARN = [
    ((1, 0, 0), (11.0, 12.4)),
    ((0.5, 0.5, 0), (15.0, 14.8, 16.1)),
    ((0, 1, 0), (8.8, 10.0)),
    ((0, 0.5, 0.5), (10.0, 9.7, 11.8)),
    ((0, 0, 1), (16.8, 16.0)),
    ((0.5, 0, 0.5), (17.7, 16.4, 16.6)),
]
# Printed to one decimal; the data are so round that the fit gives them exactly.
COEFFICIENTS = [11.7, 9.4, 16.4, 19.0, 11.4, -9.6]
# Printed to six decimals.
ERRORS = [0.603692] * 3 + [2.608249] * 3


@pytest.fixture(scope="module")
def yarn():
    """The fit of the yarn data by the terms of the softening model."""
    rows = [blend_terms(w, 0.0)[:6] for w, readings in YARN for _ in readings]
    return least_squares(rows, [y for _, readings in YARN for y in readings])


def test_yarn_coefficients_are_the_printed_ones(yarn):
    """The mixture polynomial's six coefficients are those of the book."""
    # Exact in the book's round data: what is left is rounding of doubles, 7e-15 to 1.4e-14 by the
    # machine.
    assert yarn.coefficients == pytest.approx(COEFFICIENTS, abs=1e-13)


def test_yarn_standard_errors_are_the_printed_ones(yarn):
    """The standard errors are those of the book, to half its last digit."""
    assert yarn.standard_errors == pytest.approx(ERRORS, abs=5e-7)  # half of the sixth decimal


def test_yarn_residual_spread(yarn):
    """The residual spread is 0.85375 on nine degrees of freedom (statsmodels on the same data)."""
    assert yarn.freedom == 9
    assert yarn.residual_sd == pytest.approx(0.85375, abs=5e-6)  # half of the fifth decimal


def test_yarn_prediction_is_the_polynomial(yarn):
    """The model's own formula predicts what the fit's row gives, here at equal thirds."""
    b = yarn.coefficients
    bend = [[0, b[3], b[4]], [0, 0, b[5]], [0, 0, 0]]
    thirds, none = [1 / 3] * 3, [[0.0] * 3] * 3
    # By hand: (11.7 + 9.4 + 16.4) / 3 + (19.0 + 11.4 - 9.6) / 9
    assert softening_point(
        thirds, b[:3], pair_bends(thirds, bend, none), 0.0, 0.0
    ) == pytest.approx(12.5 + 20.8 / 9)


# NIST StRD, data set Norris: certified values, 36 observations.
NORRIS = [
    (0.2, 0.1), (337.4, 338.8), (118.2, 118.1), (884.6, 888.0), (10.1, 9.2), (226.5, 228.1),
    (666.3, 668.5), (996.3, 998.5), (448.6, 449.1), (777.0, 778.9), (558.2, 559.2), (0.4, 0.3),
    (0.6, 0.1), (775.5, 778.1), (666.9, 668.8), (338.0, 339.3), (447.5, 448.9), (11.6, 10.8),
    (556.0, 557.7), (228.1, 228.3), (995.8, 998.0), (887.6, 888.8), (120.2, 119.6), (0.3, 0.3),
    (0.3, 0.6), (556.8, 557.6), (339.1, 339.3), (887.2, 888.0), (999.0, 998.5), (779.0, 778.9),
    (11.1, 10.2), (118.3, 117.6), (229.2, 228.9), (669.1, 668.4), (448.9, 449.2), (0.5, 0.2),
]  # fmt: skip


def test_norris_to_the_certified_digits():
    """Slope, intercept, their errors and the spread agree with the certified values."""
    fit = least_squares([[1.0, x] for x, _ in NORRIS], [y for _, y in NORRIS])
    # Readings from 0.1 to 999 leave the intercept about twelve of a double's sixteen digits: it is
    # off by 9e-13.
    assert fit.coefficients[0] == pytest.approx(-0.262323073774029, rel=5e-12)
    # The others keep nearly all of the fifteen digits that are certified: off by 1.1e-14 at most,
    # and another machine rounds otherwise.
    assert fit.coefficients[1] == pytest.approx(1.00211681802045, rel=1e-13)
    assert fit.standard_errors[0] == pytest.approx(0.232818234301152, rel=1e-13)
    assert fit.standard_errors[1] == pytest.approx(0.000429796848199937, rel=1e-13)


SHAPES = st.integers(min_value=0, max_value=2**32 - 1)


@given(SHAPES)
@settings(max_examples=50, deadline=None)
def test_a_flat_prior_gives_the_ordinary_fit(seed):
    """With no prior and equal errors an update is least squares, whatever the data."""
    random = np.random.default_rng(seed)
    x, y = random.normal(size=(8, 3)), random.normal(size=8)
    flat = update(x, y, np.eye(8) * 2.5**2, [0.0] * 3, np.zeros((3, 3)))
    # Rounding of doubles: 3e-15 at most on 3,000 seeds; one in millions is nearly singular.
    assert flat.coefficients == pytest.approx(least_squares(x, y).coefficients, abs=1e-10)


@given(SHAPES)
@settings(max_examples=50, deadline=None)
def test_an_update_is_the_textbook_posterior(seed):
    """The update equals the normal-equation form of Bayesian linear regression."""
    random = np.random.default_rng(seed)
    x, y, mean = random.normal(size=(5, 3)), random.normal(size=5), random.normal(size=3)
    precision, noise = np.diag(random.uniform(0.1, 2, 3)), np.eye(5) + 0.5
    found = update(x, y, noise, mean, precision)
    inside = np.linalg.inv(precision + x.T @ np.linalg.inv(noise) @ x)
    wanted = inside @ (precision @ mean + x.T @ np.linalg.inv(noise) @ y)
    # Rounding of doubles: 3e-15 at most on 3,000 seeds, and the prior keeps it from singular.
    assert found.coefficients == pytest.approx(wanted, rel=0, abs=1e-13)
    assert found.covariance == pytest.approx(inside, rel=0, abs=1e-13)
