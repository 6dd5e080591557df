"""The mixture polynomial of softening on plain lists, shared with the page's script.

A blend stands here as a list of shares: first its waxes and resins, `bodies` of them, in the
order of the model, then its softeners. `of` is the place in that list of the share that is
turned. A model is what `softening.model` gives, cut down to the bodies of the blend.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Annotated

from formulas.formula import Q, formula, procedure

Z_95 = 1.96  # of the normal distribution, 95 % in the middle
RESIN_RICH = 0.5  # share of resin; common practice: above it ring and ball, up to it the drop tests
SCAN_STEPS = 200
BISECTIONS = 60


@formula("Bend of the pairs in a blend", symbol="B", unit="delta_degC", source="scheffe-1958")
def pair_bends(
    w: Annotated[Sequence[float], Q("1", "share of each wax or resin among them")],
    bend: Annotated[Sequence[Sequence[float]], Q("delta_degC", "bend of each pair", "β")],
    skew: Annotated[Sequence[Sequence[float]], Q("delta_degC", "one-sided bend of a pair", "γ")],
) -> float:
    """Give how far the pairs of materials move a blend off the straight line between them.

    The one-sided bend lets the curve turn nearer to one end than to the other, as it does where
    one material begins to crystallise.
    """
    return sum(
        w[i] * w[j] * (bend[i][j] + skew[i][j] * (w[i] - w[j]))
        for i in range(len(w))
        for j in range(i + 1, len(w))
    )


@formula("Softening point of a blend", symbol="T", unit="degC", source="scheffe-1958")
def softening_point(
    w: Annotated[Sequence[float], Q("1", "share of each wax or resin among them")],
    beta: Annotated[Sequence[float], Q("degC", "softening point of each alone", "β")],
    B: Annotated[float, Q("delta_degC", "bend of the pairs")],
    s: Annotated[float, Q("1", "share of softeners in the blend")],
    a: Annotated[float, Q("delta_degC", "slope for softeners, per unit of share")],
) -> float:
    """Give the middle of the estimate, for the test method that the coefficients belong to.

    Holds for shares of softener up to the limit in the figures, about a tenth.
    """
    return sum(w[i] * beta[i] for i in range(len(w))) + B + a * s


@formula("Half width of the 95 % band", symbol="h", unit="K", source="definition")
def band_half_width(
    x: Annotated[Sequence[float], Q("1", "terms: shares, their products, softener")],
    S: Annotated[Sequence[Sequence[float]], Q("K**2", "covariance of the coefficients")],
) -> float:
    """Give how far the band reaches to either side of the estimate.

    What stands in the covariance behind the terms of x, the rig's own error, does not count.
    """
    return 1.96 * math.sqrt(
        sum(x[i] * x[j] * S[i][j] for i in range(len(x)) for j in range(len(x)))
    )


@procedure("The terms of the mixture polynomial")
def blend_terms(shares: Sequence[float], softener: float) -> list[float]:
    """Give the shares, each pair's product, each pair's one-sided product, then the softener."""
    terms = [share for share in shares]  # noqa: C416 - list() has no twin in the page's script
    for i in range(len(shares)):
        for j in range(i + 1, len(shares)):
            terms.append(shares[i] * shares[j])
    for i in range(len(shares)):
        for j in range(i + 1, len(shares)):
            terms.append(shares[i] * shares[j] * (shares[i] - shares[j]))
    terms.append(softener)
    return terms


@procedure("Share of the chosen components")
def share_of(shares: Sequence[float], chosen: Sequence[int]) -> float:
    """Give the sum of the shares whose place in `chosen` is 1 and not 0."""
    return sum(shares[i] * chosen[i] for i in range(len(shares)))


@procedure("Test method fit for a blend")
def method_for(resin: float) -> str:
    """Give ring and ball only where resin is more than half: a wax-rich blend leaves the ring."""
    return "ring-and-ball" if resin > RESIN_RICH else "drop-point"


@procedure("What a blend has too much of for a test")
def too_much(method: str, resin: float) -> str:
    """Give "wax" or "rosin" where a blend does not stand the test, else nothing.

    Of the tests of the laboratory each has its half of the shares; creep takes any blend.
    """
    drops = method == "drop-point" or method == "congealing-point"
    lacking = "wax" if method == "ring-and-ball" and resin <= RESIN_RICH else ""
    return "rosin" if drops and resin > RESIN_RICH else lacking


@procedure("A blend with one share turned and the rest in their proportion")
def turned(shares: Sequence[float], of: int, share: float) -> list[float]:
    """Give the shares when one of them becomes `share`."""
    rest = 1 - shares[of]
    changed = [(1 - share) * part / rest if rest != 0 else 0.0 for part in shares]
    changed[of] = share
    return changed


@procedure("Share of softeners in a blend")
def softener_share(shares: Sequence[float], bodies: int) -> float:
    """Give what the waxes and resins leave over."""
    return sum(shares[i] for i in range(bodies, len(shares)))


@procedure("Shares of the waxes and resins among themselves")
def body_shares(shares: Sequence[float], bodies: int) -> list[float]:
    """Give the shares of the bodies as if no softener were there."""
    whole = 1 - softener_share(shares, bodies)
    return [shares[i] / whole for i in range(bodies)]


@procedure("Estimate and 95 % band of a blend")
def estimate_of(
    shares: Sequence[float],
    bodies: int,
    ends: Sequence[float],
    bends: Sequence[Sequence[float]],
    skews: Sequence[Sequence[float]],
    slope: float,
    covariance: Sequence[Sequence[float]],
) -> list[float]:
    """Give low end, middle and high end in degC."""
    body = body_shares(shares, bodies)
    softener = softener_share(shares, bodies)
    middle = softening_point(body, ends, pair_bends(body, bends, skews), softener, slope)
    half = band_half_width(blend_terms(body, softener), covariance)
    return [middle - half, middle, middle + half]


@procedure("By how much a band misses a target")
def band_misses(
    target: float,
    shares: Sequence[float],
    bodies: int,
    limit: float,
    ends: Sequence[float],
    bends: Sequence[Sequence[float]],
    skews: Sequence[Sequence[float]],
    slope: float,
    covariance: Sequence[Sequence[float]],
) -> float:
    """Give a number above nought where the band misses, below where it holds the target.

    A blend with more softener than the limit counts as missing it: its band is not known.
    """
    if softener_share(shares, bodies) > limit + 1e-12:
        return 1.0
    band = estimate_of(shares, bodies, ends, bends, skews, slope, covariance)
    return max(band[0] - target, target - band[2])


@procedure("Where a band begins or ceases to hold a target")
def edge_between(
    low: float,
    high: float,
    target: float,
    shares: Sequence[float],
    of: int,
    bodies: int,
    limit: float,
    ends: Sequence[float],
    bends: Sequence[Sequence[float]],
    skews: Sequence[Sequence[float]],
    slope: float,
    covariance: Sequence[Sequence[float]],
) -> float:
    """Give the share between two others at which the band's edge meets the target."""
    first = band_misses(
        target, turned(shares, of, low), bodies, limit, ends, bends, skews, slope, covariance
    )
    for _ in range(BISECTIONS):
        middle = (low + high) / 2
        there = band_misses(
            target, turned(shares, of, middle), bodies, limit, ends, bends, skews, slope, covariance
        )
        if (there < 0) == (first < 0):
            low = middle
        else:
            high = middle
    return (low + high) / 2


@procedure("Shares that a target leaves open")
def open_shares(
    target: float,
    shares: Sequence[float],
    of: int,
    bodies: int,
    limit: float,
    ends: Sequence[float],
    bends: Sequence[Sequence[float]],
    skews: Sequence[Sequence[float]],
    slope: float,
    covariance: Sequence[Sequence[float]],
) -> list[list[float]]:
    """Give the ranges of one share whose band holds the target, by scan and bisection.

    A single share at which the band only touches the target is no range.
    """
    tried = [step / SCAN_STEPS for step in range(SCAN_STEPS + 1)]
    missed = [
        band_misses(
            target, turned(shares, of, share), bodies, limit, ends, bends, skews, slope, covariance
        )
        for share in tried
    ]
    ranges: list[list[float]] = []
    if missed[0] <= 0:
        ranges.append([0.0, 1.0])
    for k in range(SCAN_STEPS):
        if (missed[k] <= 0) != (missed[k + 1] <= 0):
            edge = edge_between(
                tried[k],
                tried[k + 1],
                target,
                shares,
                of,
                bodies,
                limit,
                ends,
                bends,
                skews,
                slope,
                covariance,
            )
            if missed[k + 1] <= 0:
                ranges.append([edge, 1.0])
            else:
                ranges[len(ranges) - 1][1] = edge
    return [one for one in ranges if one[1] - one[0] > 1e-9]
