"""Ratios of beeswax to rosin, and of both to carnauba wax, as exercises draw and tell them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.adjusting.working_steps import plainly
from formulas.practice.draw import Draw
from formulas.practice.exercise import Silly
from formulas.wax.batch import part_shares

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


def drawn_three(draw: Draw) -> list[float]:
    """Draw a ratio of beeswax to rosin to carnauba wax in its lowest numbers. Raises Silly."""
    parts = [draw.ranged(f"ratio-{which}-of-three") for which in ("wax", "rosin", "carnauba")]
    if math.gcd(*map(int, parts)) > 1:
        raise Silly
    return parts
