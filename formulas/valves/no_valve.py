"""Whether a slot is better off without a valve: its own rule, and it prints what spoke.

It does not fall out of droop and choke: a thin film passes both on reeds that the trade leaves
bare.
"""

from __future__ import annotations

from typing import Annotated

from formulas.formula import Q, formula, procedure


@formula("Open area round a silent tongue", symbol="A_u", unit="m**2", source="definition")
def wasted_area(
    L_t: Annotated[float, Q("m", "length of the tongue")],
    W_t: Annotated[float, Q("m", "width of the tongue")],
    h: Annotated[float, Q("m", "rest height of its tip over the plate")],
    x: Annotated[float, Q("m", "gap between tongue and slot at each side")],
) -> float:
    """Give what a slot without a valve lets through at rest: under the tip and round the edge."""
    return 0.8 * L_t * h + W_t * h + (2 * L_t + W_t) * x


@procedure("Whether no valve is the answer")
def goes_without(
    tongue: float,
    frequency: float,
    area: float,
    lightest: float,
    had_none: bool,
    rule: list[float],
) -> list[int]:
    """Give which of the three conditions speak for no valve: small, tight, choked or had none.

    `rule` is the longest tongue in m, the lowest note in Hz, the most area in m², and the share
    that the lightest stock may take. All three must speak, or the slot had none before.
    """
    small = 1 if tongue < rule[0] or frequency > rule[1] else 0
    tight = 1 if area < rule[2] else 0
    choked = 1 if lightest > rule[3] or had_none else 0
    return [small, tight, choked]
