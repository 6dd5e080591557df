"""Ratios of beeswax to rosin, and of both to carnauba wax, as exercises draw and tell them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.adjusting.working_steps import plainly
from formulas.practice.draw import Draw
from formulas.practice.exercise import Silly
from formulas.units import printed
from formulas.wax.batch import mass_of, part_shares, steps_of, weigh_out

MATERIALS = ("beeswax", "rosin")
OF_THREE = ("beeswax", "rosin", "carnauba wax")


def parts_said(parts: Sequence[float]) -> str:
    """Say a ratio of beeswax and rosin."""
    return f"{plainly(parts[0])} of beeswax to {plainly(parts[1])} of rosin"


def drawn_parts(draw: Draw) -> list[float]:
    """Draw a ratio of beeswax to rosin in its lowest numbers. Raises Silly."""
    parts = [draw.ranged("ratio-wax-parts"), draw.ranged("ratio-rosin-parts")]
    if math.gcd(int(parts[0]), int(parts[1])) > 1:
        raise Silly
    draw.within("ratio-rosin-share", 100 * part_shares(parts)[1])
    return parts


def refuse_unlike_sum(total: float, masses: Sequence[float], places: int) -> None:
    """Raise Silly where masses rounded one by one are not those that `weigh_out` gives a total."""
    step = 10.0**-places
    counts = weigh_out(part_shares(masses), steps_of(total, step))
    for count, mass in zip(counts, masses, strict=True):
        if printed(mass_of(count, step), places) != printed(mass, places):
            raise Silly


def drawn_three(draw: Draw) -> list[float]:
    """Draw a ratio of beeswax to rosin to carnauba wax in its lowest numbers. Raises Silly."""
    parts = [draw.ranged(f"ratio-{which}-of-three") for which in ("wax", "rosin", "carnauba")]
    if math.gcd(*map(int, parts)) > 1:
        raise Silly
    return parts
