"""What a pass or a failure tells: a normal belief, cut by two bounds and matched by a normal again.

With m and s the middle and spread of what would be read, and a, b the bounds in units of s:
Z = Phi(b) - Phi(a), d = (phi(a) - phi(b)) / Z, w = 1 + (a phi(a) - b phi(b)) / Z - d**2.
The middle moves by d times the covariance over s; the covariance loses (1 - w) of its share.
Exact for one test; for more it is an approximation that keeps middle and spread.
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from formulas.frozen import Frozen

Array = npt.NDArray[np.float64]

FARTHEST = 8.0  # bounds further out than this many spreads pull no harder


class Cut(Frozen):
    """The moments of a standard normal between two bounds, and the chance of lying there."""

    chance: float
    shift: float
    width: float


def between(a: float, b: float) -> Cut:
    """Give the moments of a standard normal cut at a and b, a below b; either may be infinite."""
    a, b = min(max(a, -math.inf), FARTHEST), max(min(b, math.inf), -FARTHEST)
    chance = _mass(a, b)
    shift = (_density(a) - _density(b)) / chance
    width = 1 + (_moment(a) - _moment(b)) / chance - shift**2
    return Cut(chance, shift, min(max(width, 1e-6), 1.0))


def _mass(a: float, b: float) -> float:
    """Give the mass between two bounds, from the tail that keeps its digits."""
    if a > 0:
        return (math.erfc(a / math.sqrt(2)) - math.erfc(b / math.sqrt(2))) / 2
    if b < 0:
        return (math.erfc(-b / math.sqrt(2)) - math.erfc(-a / math.sqrt(2))) / 2
    return (math.erf(b / math.sqrt(2)) - math.erf(a / math.sqrt(2))) / 2


def _density(x: float) -> float:
    return math.exp(-x * x / 2) / math.sqrt(2 * math.pi)


def _moment(x: float) -> float:
    return 0.0 if math.isinf(x) else x * _density(x)


def bounded(
    mean: Array, covariance: Array, row: Array, low: float, high: float, variance: float
) -> tuple[Array, Array, float]:
    """Update a normal belief by bounds on row times it, read with an error of `variance`.

    Gives the new middle, the new covariance and the chance that was given to such a result
    before it was seen.
    """
    pull = covariance @ row
    spread = math.sqrt(float(row @ pull) + variance)
    middle = float(row @ mean)
    cut = between((low - middle) / spread, (high - middle) / spread)
    moved = mean + pull * cut.shift / spread
    narrowed = covariance - np.outer(pull, pull) * (1 - cut.width) / spread**2
    return moved, narrowed, cut.chance
