"""Mass per area from pieces on a scale, with the band that the scale's step leaves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

from formulas.formula import Q, formula, procedure


@formula("Mass per area of pieces", symbol="m", unit="kg/m**2", source="definition")
def mass_per_area(
    M: Annotated[float, Q("kg", "mass of all pieces together")],
    n: Annotated[float, Q("", "how many pieces")],
    a: Annotated[float, Q("m", "length of one piece")],
    b: Annotated[float, Q("m", "width of one piece")],
) -> float:
    """Give the mass of a square metre from pieces that are cut alike."""
    return M / (n * a * b)


@formula("Area that a scale can weigh", symbol="A_w", unit="m**2", source="definition")
def weighable_area(
    s: Annotated[float, Q("kg", "step of the scale")],
    m: Annotated[float, Q("kg/m**2", "mass per area")],
    x: Annotated[float, Q("", "error allowed, as a share")],
) -> float:
    """Give the area whose mass a scale's half step changes by no more than the error allowed."""
    return s / (2 * x * m)


@procedure("Mass of an area")
def mass_of_area(area: float, mass: float) -> float:
    """Give what an area of a stock weighs."""
    return area * mass


@procedure("Half band of a mass as a share")
def mass_error(low: float, middle: float, high: float) -> float:
    """Give the wider of the two sides of a band, as a share of its middle."""
    return max(high / middle - 1, 1 - low / middle)


@procedure("Mass per area with its ends")
def weighed(
    masses: Sequence[float],
    counts: Sequence[float],
    piece_lengths: Sequence[float],
    piece_widths: Sequence[float],
    scales: Sequence[float],
    cut: float,
) -> list[float]:
    """Give the low end, the middle and the high end of the mass per area; kg and metres.

    Half a step of the scale either way, and the error `cut` of each side of a piece. Several
    weighings are taken together, and each alone widens the ends where it lies outside them.
    """
    area = sum(n * a * b for n, a, b in zip(counts, piece_lengths, piece_widths, strict=True))
    most = sum(
        n * (a + cut) * (b + cut)
        for n, a, b in zip(counts, piece_lengths, piece_widths, strict=True)
    )
    least = sum(
        n * max(a / 2, a - cut) * max(b / 2, b - cut)
        for n, a, b in zip(counts, piece_lengths, piece_widths, strict=True)
    )
    middle = sum(masses) / area
    alone = [
        mass_per_area(M, n, a, b)
        for M, n, a, b in zip(masses, counts, piece_lengths, piece_widths, strict=True)
    ]
    half = sum(scales) / 2
    low = min(max(0, sum(masses) - half) / most, min(alone))
    high = max((sum(masses) + half) / least, max(alone))
    return [low, middle, high]
