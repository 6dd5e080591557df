"""Vapours together: limits of those that act alike, and the lower explosive limit of a mixture."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

from formulas.formula import Q, formula

SHARES_OF_VAPOUR = Q("", "share of each part in the vapour, adding up to 1", "y")
EXPLOSIVE = Q("", "lower explosive limit of each part, share by volume", "x_L")


@formula("Sum for vapours that act alike", symbol="E", unit="", source="cfr-1910-1000")
def alike_sum(
    C: Annotated[Sequence[float], Q("kg/m**3", "level of each vapour")],
    L: Annotated[Sequence[float], Q("kg/m**3", "limit of each vapour")],
) -> float:
    """Give the sum of the ratios; from 1 on the limits together are passed, each one kept or not.

    It holds for vapours that do the same harm. Where that is not known it is the cautious side.
    """
    return sum(level / limit for level, limit in zip(C, L, strict=True))


@formula("Lower explosive limit of a mixture", symbol="x_m", unit="", source="derived")
def mixture_explosive_limit(
    y: Annotated[Sequence[float], SHARES_OF_VAPOUR],
    x_L: Annotated[Sequence[float], EXPLOSIVE],
) -> float:
    """Give the rule that is named after Le Chatelier: each part takes up its share of its limit.

    The rule is from memory. It says that the shares of the limits add up, which is how the share
    of the lower explosive limit of a mixture is reckoned here.
    """
    return 1 / sum(share / limit for share, limit in zip(y, x_L, strict=True))
