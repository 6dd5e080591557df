"""Reclaimed wax, whose make-up is known as a lowest and a highest share alone.

Every share of a mixture with it moves evenly between its two ends, so the ends are all there is
to reckon.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.formula import procedure


@procedure("Share of a percentage")
def share_of_percent(percentage: float) -> float:
    """Give a percentage as a share of the whole."""
    return percentage / 100


@procedure("Make-up of old wax at one height of its band")
def old_wax_shares(lows: Sequence[float], highs: Sequence[float], height: float) -> list[float]:
    """Give the share of the rest, then of each material: at its low end by 0, at its high end by 1.

    Materials are taken to be low together and high together.
    """
    found = [low + height * (high - low) for low, high in zip(lows, highs, strict=True)]
    return [share for block in [[1 - sum(found)], found] for share in block]


@procedure("The smaller of each two")
def smaller_of(ones: Sequence[float], others: Sequence[float]) -> list[float]:
    """Give the smaller number at each place: what is right whichever of the two holds."""
    return [min(a, b) for a, b in zip(ones, others, strict=True)]


@procedure("The larger of each two")
def larger_of(ones: Sequence[float], others: Sequence[float]) -> list[float]:
    """Give the larger number at each place."""
    return [max(a, b) for a, b in zip(ones, others, strict=True)]
