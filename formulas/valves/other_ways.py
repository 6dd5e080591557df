"""Other ways to a stiffness, for what is too limp, too stiff or too curly for the ramp.

The droop of a cut valve stands with the strip's own formulas.
"""

from __future__ import annotations

import math
from typing import Annotated

from formulas.formula import Q, formula


@formula("Bending length by a heart loop", symbol="c", unit="m", source="derived")
def bending_length_by_loop(
    L: Annotated[float, Q("m", "length of the strip from bar to bar")],
    h: Annotated[float, Q("m", "from the bar down to the lowest point of the loop")],
) -> float:
    """Give the bending length of a limp strip hung by both ends, within 6 in 1000.

    Fitted to the loop solved as an elastica, for h from 0.16 to 0.36 of L: for a lower loop take
    a shorter strip, for a higher one a longer.
    """
    x = math.log(h / L - 0.13386)
    y = -6.42093 - 5.47147 * x
    z = -2.6221 * x**2 - 0.60461 * x**3
    return L * math.exp(y + z - 0.05248 * x**4)


@formula("Rigidity on two rests", symbol="D", unit="N*m", source="beam-cases-page")
def rigidity_on_rests(
    F: Annotated[float, Q("N", "force on the middle, as the scale shows it times gravity")],
    s: Annotated[float, Q("m", "from rest to rest")],
    d: Annotated[float, Q("m", "how far the middle goes down")],
    b: Annotated[float, Q("m", "width of the strip")],
) -> float:
    """Give the rigidity by width of a stiff strip; keep d below a tenth of s."""
    return F * s**3 / (48 * d * b)
