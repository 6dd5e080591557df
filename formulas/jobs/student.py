"""Student's t for whole degrees of freedom, by its finite sums."""

from __future__ import annotations

import functools
import math

NEAR = 1e-12  # share of t within which the search ends


def within(t: float, freedom: int) -> float:
    """Give the share of Student's t that lies from -t to t.

    The two sums end by themselves, one for odd degrees of freedom and one for even.
    """
    angle = math.atan(t / math.sqrt(freedom))
    cosine = math.cos(angle)
    odd = freedom % 2
    term = cosine if odd else 1.0
    total = 0.0
    for k in range(2 + odd, freedom + 1, 2):
        total += term
        term *= cosine**2 * (k - 1) / k
    if not odd:
        return math.sin(angle) * total
    return 2 / math.pi * (angle + math.sin(angle) * total)


@functools.cache
def student_t(freedom: int, share: float = 0.95) -> float:
    """Give the t within which that share of Student's t lies, to either side of nought."""
    low, high = 0.0, 1.0
    while within(high, freedom) < share:
        high *= 2
    while high - low > NEAR * high:
        middle = (low + high) / 2
        if within(middle, freedom) < share:
            low = middle
        else:
            high = middle
    return (low + high) / 2
