"""Which test to make next: on plain lists, shared with the page's script.

The covariance belongs to the order of `blend_terms`, with one more place at its end: the error
of the rig, which every reading made with it shares. `noise` is the variance of a reading in a
new session, `lot` that of one lot of raw material. `resins` has a 1 for each resin of the blend.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.formula import procedure
from formulas.softening.mixture import (
    Z_95,
    blend_terms,
    body_shares,
    share_of,
    softener_share,
    too_much,
    turned,
)

TEST_STEPS = 20
MOST_TESTS = 60


@procedure("Two lists of terms and the covariance between them")
def joint_variance(
    x: Sequence[float], covariance: Sequence[Sequence[float]], y: Sequence[float]
) -> float:
    """Give x times the covariance times y."""
    return sum(
        x[i] * covariance[i][j] * y[j]
        for i in range(len(x))
        for j in range(len(y))
        if x[i] != 0 and covariance[i][j] != 0
    )


@procedure("Variance at one blend after a test of another")
def variance_left(
    wanted: Sequence[float],
    tested: Sequence[float],
    covariance: Sequence[Sequence[float]],
    noise: float,
) -> float:
    """Give what stays open at the wanted blend after one reading with variance `noise`."""
    shared = joint_variance(wanted, covariance, tested)
    own = joint_variance(tested, covariance, tested)
    return joint_variance(wanted, covariance, wanted) - shared**2 / (own + noise)


@procedure("Terms of a test: the blend's own, then the rig's error")
def tested_terms(shares: Sequence[float], bodies: int) -> list[float]:
    """Give the terms of a blend with a 1 for the rig behind them."""
    terms = blend_terms(body_shares(shares, bodies), softener_share(shares, bodies))
    terms.append(1.0)
    return terms


@procedure("Variance of a reading of one blend in a new session")
def reading_noise(shares: Sequence[float], noise: float, lot: float) -> float:
    """Give the variance of the reading itself, with that of the lots in the blend."""
    return noise + lot * sum(share**2 for share in shares)


@procedure("Which share to test next")
def share_to_test(
    shares: Sequence[float],
    of: int,
    bodies: int,
    limit: float,
    covariance: Sequence[Sequence[float]],
    noise: float,
    lot: float,
    resins: Sequence[int],
    method: str,
) -> list[float]:
    """Give the share whose test would shrink the band most here, and the half width after it.

    Only blends that stand the test are tried; the blend asked for must be one of them.
    """
    wanted = blend_terms(body_shares(shares, bodies), softener_share(shares, bodies))
    tried = [step / TEST_STEPS for step in range(TEST_STEPS + 1)]
    tried.append(shares[of])
    best = shares[of]
    least = -1.0
    for share in sorted(tried):
        blend = turned(shares, of, share)
        stands = too_much(method, share_of(blend, resins)) == ""
        if stands and softener_share(blend, bodies) <= limit + 1e-12:
            terms = tested_terms(blend, bodies)
            left = variance_left(wanted, terms, covariance, reading_noise(blend, noise, lot))
            if least < 0 or left < least - 1e-9:
                best = share
                least = left
    return [best, Z_95 * math.sqrt(least)]


@procedure("Covariance after a test")
def after_test(
    covariance: Sequence[Sequence[float]], tested: Sequence[float], noise: float
) -> list[list[float]]:
    """Give what is left of a covariance after one reading of the tested terms."""
    pull = [
        sum(covariance[i][j] * tested[j] for j in range(len(tested))) for i in range(len(tested))
    ]
    own = sum(tested[i] * pull[i] for i in range(len(tested))) + noise
    return [
        [covariance[i][j] - pull[i] * pull[j] / own for j in range(len(tested))]
        for i in range(len(tested))
    ]


@procedure("How many tests until the band is as narrow as wanted")
def tests_until(
    shares: Sequence[float],
    of: int,
    bodies: int,
    limit: float,
    covariance: Sequence[Sequence[float]],
    noise: float,
    lot: float,
    resins: Sequence[int],
    method: str,
    width: float,
) -> int:
    """Count the tests, each the best one, until the half width is at most `width`.

    Gives -1 where sixty are not enough: then the rig's own error stands in the way.
    """
    wanted = blend_terms(body_shares(shares, bodies), softener_share(shares, bodies))
    left = covariance
    made = 0
    half = Z_95 * math.sqrt(joint_variance(wanted, left, wanted))
    while half > width and made < MOST_TESTS:
        choice = share_to_test(shares, of, bodies, limit, left, noise, lot, resins, method)
        blend = turned(shares, of, choice[0])
        left = after_test(left, tested_terms(blend, bodies), reading_noise(blend, noise, lot))
        half = choice[1]
        made += 1
    return made if half <= width else -1


@procedure("Half width of the band after a test with a known share in what is held")
def half_width_with(
    wanted: Sequence[float],
    covariance: Sequence[Sequence[float]],
    shared: Sequence[float],
    own: float,
) -> float:
    """Give the half width after a reading of variance `own` whose covariance with each term is
    in `shared`.
    """
    common = sum(wanted[i] * shared[i] for i in range(len(wanted)))
    return Z_95 * math.sqrt(joint_variance(wanted, covariance, wanted) - common**2 / own)
