"""The estimate of plates against the textbook's normal, an ordinary fit, and the own update."""

from __future__ import annotations

import numpy as np
import pytest
import simulated_reeds as reeds
import statsmodels.api as sm
from scipy import linalg, stats

from formulas.softening.fit import update
from formulas.valves.measured_plates import sizes_of_rank
from formulas.valves.notes import frequency
from formulas.valves.odd_plates import expected_by_others
from formulas.valves.plate_spreads import SPREADS
from formulas.valves.reed_sizes import generic_size
from formulas.valves.solving import solved_down, solved_up, triangular_root

LINE, SPREAD = reeds.line_and_spreads()
CALM = [1e9 if name == "odd" else value for name, value in zip(SPREADS, SPREAD, strict=True)]
WANTED = [50.0, 66.0, 80.5, 95.0]


def generic(notes):
    """Give the generic sizes of notes."""
    return np.array([generic_size(frequency(note, 440), LINE) for note in notes])


def places(notes):
    """Give the logarithm of frequency over the reference."""
    return np.log([frequency(note, 440) / LINE[2] for note in notes])


def plates(seed, count=6):
    """Give notes and readings of a rank, at random."""
    chance = np.random.default_rng(seed)
    notes = sorted(float(note) for note in chance.choice(np.arange(53, 94), count, replace=False))
    return notes, generic(notes) * np.exp(chance.normal(0, 0.04, count))


def covariances(first, second):
    """Give the covariance of scale and slope between notes, written out."""
    apart = np.abs(np.subtract.outer(first, second)) / SPREAD[4]
    scale = SPREAD[0] ** 2 * (1 + apart) * np.exp(-apart)
    return scale + SPREAD[1] ** 2 * np.outer(places(first), places(second))


@pytest.mark.parametrize("seed", range(5))
def test_the_estimate_is_the_conditional_normal(seed):
    """Middle and band are those of the textbook's conditional normal, by general solvers."""
    notes, read = plates(seed)
    noise = SPREAD[2] ** 2 + SPREAD[3] ** 2 + (SPREAD[5] / read) ** 2
    whole = covariances(notes, notes) + np.diag(noise)
    cross = covariances(WANTED, notes)
    mean = cross @ linalg.solve(whole, np.log(read / generic(notes)))
    left = covariances(WANTED, WANTED) - cross @ linalg.solve(whole, cross.T)
    spread = np.sqrt(np.diag(left) + SPREAD[2] ** 2 + SPREAD[3] ** 2)
    found = np.log(sizes_of_rank(WANTED, 440, LINE, CALM, notes, list(read)))
    assert found[:, 1] == pytest.approx(np.log(generic(WANTED)) + mean, rel=1e-9)
    assert (found[:, 2] - found[:, 0]) / 2 / 1.96 == pytest.approx(spread, rel=1e-9)


@pytest.mark.parametrize("seed", range(5))
def test_with_a_flat_prior_it_is_the_ordinary_fit(seed):
    """With nothing held before, middle and band are those of statsmodels' straight line.

    A reach without end makes the scale a level; level and slope of spread 300 pull by about
    (0.01 / 300) squared, which rounding of the solution outweighs: 1e-5 is asked for. The
    spread of a plate is known here, so that the band counts with a normal, not with t.
    """
    notes, read = plates(seed)
    flat = [300.0, 300.0, 0.01, 0.0, 1e12, 1e-12, 1e9]
    found = np.log(sizes_of_rank(WANTED, 440, LINE, flat, notes, list(read)))
    fit = sm.OLS(np.log(read / generic(notes)), sm.add_constant(places(notes))).fit()
    asked = np.column_stack([np.ones(len(WANTED)), places(WANTED)])
    assert found[:, 1] == pytest.approx(np.log(generic(WANTED)) + fit.predict(asked), abs=1e-5)
    spread = 0.01 * np.sqrt(1 + np.diag(asked @ fit.normalized_cov_params @ asked.T))
    # the band is a small difference of large variances, of spreads of 300: a few digits are left
    assert (found[:, 2] - found[:, 0]) / 2 / 1.96 == pytest.approx(spread, rel=1e-3)


def test_it_is_the_least_squares_update_of_the_softening_tests():
    """The slope learned, and what the scale adds, are those of the package's other update.

    The slope is a coefficient there, the scale an error that readings share.
    """
    notes, read = plates(7)
    apart = np.abs(np.subtract.outer(notes, notes)) / SPREAD[4]
    shared = SPREAD[0] ** 2 * (1 + apart) * np.exp(-apart)
    noise = SPREAD[2] ** 2 + SPREAD[3] ** 2 + (SPREAD[5] / read) ** 2
    whole = shared + np.diag(noise)
    rows, values = places(notes)[:, None], np.log(read / generic(notes))
    (slope,) = update(rows, values, whole, [0.0], np.array([[SPREAD[1] ** -2]])).coefficients
    far = np.abs(np.subtract.outer(WANTED, notes)) / SPREAD[4]
    cross = SPREAD[0] ** 2 * (1 + far) * np.exp(-far)
    scale = cross @ np.linalg.solve(whole, values - rows[:, 0] * slope)
    found = np.log(sizes_of_rank(WANTED, 440, LINE, CALM, notes, list(read)))
    wanted = np.log(generic(WANTED)) + places(WANTED) * slope + scale
    assert found[:, 1] == pytest.approx(wanted, rel=1e-8)


@pytest.mark.parametrize("place", range(6))
def test_what_others_lead_to_expect_is_the_estimate_without_the_plate(place):
    """Taking the plate away and estimating it anew gives the same band, its reading counted in."""
    notes, read = plates(11)
    low, middle, high, distance = expected_by_others(440, LINE, CALM, notes, list(read))[place]
    rest = [*notes[:place], *notes[place + 1 :]], [*read[:place], *read[place + 1 :]]
    ((_, alone, above),) = sizes_of_rank([notes[place]], 440, LINE, CALM, *rest)
    spread = np.hypot(np.log(above / alone) / 1.96, SPREAD[5] / read[place])
    assert middle == pytest.approx(alone, rel=1e-9)
    assert np.log(high / low) / 2 / 1.96 == pytest.approx(spread, rel=1e-9)
    assert distance == pytest.approx(np.log(read[place] / alone) / spread, rel=1e-6)


@pytest.mark.parametrize("size", [1, 2, 7, 30])
def test_the_triangular_root_is_the_libraries(size):
    """Root and both solutions are those of LAPACK, on random covariances."""
    matrix = stats.wishart.rvs(size + 3, np.eye(size), random_state=size).reshape(size, size)
    root = triangular_root(matrix.tolist())
    values = np.arange(1.0, size + 1)
    padded = np.array([row + [0.0] * (size - len(row)) for row in root])
    assert padded == pytest.approx(np.linalg.cholesky(matrix), abs=1e-10)
    both = solved_up(root, solved_down(root, values.tolist()))
    assert both == pytest.approx(np.linalg.solve(matrix, values), rel=1e-8)
