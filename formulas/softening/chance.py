"""Chances from the normal distribution, shared with the page's script."""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.formula import procedure
from formulas.softening.mixture import (
    Z_95,
    blend_terms,
    body_shares,
    estimate_of,
    softener_share,
)
from formulas.softening.to_test_next import joint_variance

ROOT_TWO_PI = 2.5066282746310002
FARTHEST = 7.0  # beyond, the tail is lost in any print


@procedure("Share of a normal distribution below a value")
def normal_share(z: float) -> float:
    """Give the share of a standard normal distribution that lies below z.

    The series of positive terms for the middle; to 12 digits within seven spreads.
    """
    reach = abs(z)
    if reach > FARTHEST:
        return 0.0 if z < 0 else 1.0
    term = reach
    total = reach
    odd = 1
    while term > 1e-17 * total:
        odd += 2
        term = term * reach * reach / odd
        total += term
    half = total * math.exp(-reach * reach / 2) / ROOT_TWO_PI
    return 0.5 + half if z > 0 else 0.5 - half


@procedure("Chance that a value lies above another")
def chance_above(difference: float, variance: float) -> float:
    """Give the chance that a normal value of this middle and variance lies above nought."""
    return normal_share(difference / math.sqrt(variance))


@procedure("Variance that new lots add")
def lot_variance(shares: Sequence[float], lot: float) -> float:
    """Give the variance of a blend from lots of its own; `lot` is that of one material's lot."""
    return lot * sum(share**2 for share in shares)


@procedure("Band of a batch from new lots")
def new_lot_band(band: Sequence[float], shares: Sequence[float], lot: float) -> list[float]:
    """Widen a band of low end, middle and high end by what new lots shift."""
    half = (band[2] - band[0]) / 2
    wider = math.sqrt(half**2 + Z_95**2 * lot_variance(shares, lot))
    return [band[1] - wider, band[1], band[1] + wider]


@procedure("Chance that a batch from new lots holds a temperature")
def chance_of_floor(
    floor: float, band: Sequence[float], shares: Sequence[float], lot: float
) -> float:
    """Give the chance that the next batch lies above `floor`, from its band."""
    wider = new_lot_band(band, shares, lot)
    return chance_above(band[1] - floor, ((wider[2] - wider[0]) / 2 / Z_95) ** 2)


@procedure("Chance that one blend is firmer than another")
def chance_firmer(
    shares: Sequence[float],
    others: Sequence[float],
    bodies: int,
    ends: Sequence[float],
    bends: Sequence[Sequence[float]],
    skews: Sequence[Sequence[float]],
    slope: float,
    covariance: Sequence[Sequence[float]],
    lot: float,
) -> float:
    """Give the chance that the first softens above the second, each from lots of its own."""
    first = blend_terms(body_shares(shares, bodies), softener_share(shares, bodies))
    second = blend_terms(body_shares(others, bodies), softener_share(others, bodies))
    apart = [first[i] - second[i] for i in range(len(first))]
    lots = lot_variance(shares, lot) + lot_variance(others, lot)
    one = estimate_of(shares, bodies, ends, bends, skews, slope, covariance)
    two = estimate_of(others, bodies, ends, bends, skews, slope, covariance)
    return chance_above(one[1] - two[1], joint_variance(apart, covariance, apart) + lots)


@procedure("What is left of a whole")
def rest_of(share: float) -> float:
    """Give one less the share."""
    return 1 - share


@procedure("What a chance to be firmer says")
def verdict_of(chance: float) -> str:
    """Say firmer or softer only where four in five would, else that nobody can tell."""
    return "firmer" if chance >= 0.8 else "softer" if chance <= 0.2 else "cannot tell"
