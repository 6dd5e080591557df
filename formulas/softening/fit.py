"""One least-squares path: an ordinary fit, and a normal prior updated by readings.

A prior enters as rows of its own, so that with a flat prior the update is the ordinary fit.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from formulas.frozen import Frozen

Array = npt.NDArray[np.float64]
Rows = Sequence[Sequence[float]] | Array
Values = Sequence[float] | Array


class Fit(Frozen):
    """Coefficients with their covariance, in the order of the columns.

    `residual_sd` and `freedom` belong to an ordinary fit; an update with a known spread of the
    readings has none, and holds None and 0.
    """

    coefficients: Array
    covariance: Array
    residual_sd: float | None = None
    freedom: int = 0

    @property
    def standard_errors(self) -> Array:
        """The square roots of the covariance's diagonal."""
        return np.sqrt(np.diag(self.covariance))


def least_squares(x: Rows, y: Values) -> Fit:
    """Fit y = x b without an intercept of its own: give one as a column of ones if wanted.

    Raises numpy.linalg.LinAlgError where the columns do not determine the coefficients.
    """
    rows, values = np.asarray(x, float), np.asarray(y, float)
    coefficients, unscaled = _solved(rows, values)
    freedom = len(values) - rows.shape[1]
    residual = values - rows @ coefficients
    variance = float(residual @ residual) / freedom if freedom > 0 else float("nan")
    return Fit(coefficients, unscaled * variance, float(np.sqrt(variance)), freedom)


def update(x: Rows, y: Values, noise: Array, mean: Values, precision: Array) -> Fit:
    """Update a normal prior by readings y of rows x.

    `noise` holds the variance of each reading, or the covariance of them all. `precision` is
    the inverse of the prior's covariance; all noughts is a flat prior.
    """
    rows, values, middle = np.asarray(x, float), np.asarray(y, float), np.asarray(mean, float)
    rows, values = whitened(rows, values, np.asarray(noise, float))
    root = _root(precision)
    stacked = np.vstack([root, rows])
    coefficients, covariance = _solved(stacked, np.concatenate([root @ middle, values]))
    return Fit(coefficients, covariance)


def whitened(rows: Array, values: Array, noise: Array) -> tuple[Array, Array]:
    """Turn readings so that their errors are independent and of variance 1."""
    if noise.ndim == 1:
        root = np.sqrt(noise)
        return rows / root[:, None], values / root
    lower = np.linalg.cholesky(noise)
    return np.linalg.solve(lower, rows), np.linalg.solve(lower, values)


def _solved(rows: Array, values: Array) -> tuple[Array, Array]:
    """Solve by orthogonal factors, which lose half as many digits as the normal equations."""
    orthogonal, upper = np.linalg.qr(rows)
    inverse = np.linalg.inv(upper)
    return inverse @ (orthogonal.T @ values), inverse @ inverse.T


def _root(precision: Array) -> Array:
    """Give a matrix whose square is the precision; noughts stay noughts."""
    values, vectors = np.linalg.eigh(precision)
    root: Array = np.sqrt(np.clip(values, 0, None))[:, None] * vectors.T
    return root
