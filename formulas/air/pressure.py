"""Vapour pressure at the heat of a room, as page and command take it from one row of numbers.

`law` is whether the curve is the liquid's own (1) or that of the one that stands in (0), its
three constants for a logarithm to the base ten of Pa and kelvin, its range in kelvin (nought where
there is no curve), then the heat in kelvin of the liquid's own row and its ends in Pa (nought
where there is none). The rules are those of `over_a_jar.vapour_pressure`, and a test holds both
together: no curve is used outside its range, and nothing is carried beyond what is known.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.air.conversion import antoine_pressure
from formulas.formula import procedure


@procedure("Whether a curve of vapour pressure reaches a heat")
def curve_reaches(law: Sequence[float], kelvin: float) -> int:
    """Give 1 inside its range, else 0."""
    return 1 if law[4] <= kelvin <= law[5] else 0


@procedure("Range of a vapour pressure at a heat")
def pressure_range(law: Sequence[float], kelvin: float) -> list[float]:
    """Give low and high in Pa; [0, high] where no more is known than a most, [0, 0] for nothing."""
    if law[0] == 1 and curve_reaches(law, kelvin) == 1:
        own = antoine_pressure(law[1], law[2], law[3], 1, kelvin)
        return [own, own]
    if law[8] <= 0 or law[6] <= 0:
        return [0, 0]
    if abs(kelvin - law[6]) < 0.005:
        return [law[7], law[8]]
    if kelvin < law[6]:
        return [0, law[8]]
    if curve_reaches(law, kelvin) * curve_reaches(law, law[6]) == 0:
        return [0, 0]
    there = antoine_pressure(law[1], law[2], law[3], 1, kelvin)
    rise = there / antoine_pressure(law[1], law[2], law[3], 1, law[6])
    return [law[7] * rise, law[8] * rise]
