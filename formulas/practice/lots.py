"""Lots of beeswax with rosin, as exercises on mixing and on correcting tell them."""

from __future__ import annotations

from collections.abc import Sequence

from formulas.adjusting.alligation import least_additions
from formulas.adjusting.old_wax import share_of_percent
from formulas.adjusting.working_steps import plainly
from formulas.practice.draw import Draw
from formulas.practice.exercise import Silly
from formulas.units import printed

MOST = 1e6  # a mass above it ends the search for a mixture
REACH = ("can be reached", "cannot be reached with these")
MUCH = 2.0  # times what was in a pot: nobody corrects it to more
APART = 3.0  # % by which what is wanted lies off each of two lots, at least


def lot(percent: float) -> list[float]:
    """Give the shares of beeswax and of rosin in a lot."""
    share = share_of_percent(percent)
    return [1 - share, share]


def percents(*values: float) -> list[float]:
    """Give percentages without the noise of a difference."""
    return [float(printed(value, 6)) for value in values]


def lots_said(lots: Sequence[float]) -> str:
    """Say what two lots hold."""
    a, b = map(plainly, lots)
    return f"Lot A holds {a} % of rosin and lot B {b} %. The rest of both is beeswax."


def mixed(pot: list[float], blends: list[list[float]], aim: float, total: float) -> list[float]:
    """Give the masses of lots that bring a pot to a share and a total. Raises Silly."""
    found = least_additions(pot, blends, [0.0] * len(blends), lot(aim), total, MOST)
    if not found:
        raise Silly
    return found


def to_all_of_the_second(lots: list[float], aim: float, second: float) -> float:
    """Give the mass of the first lot to a mass of the second. Raises Silly."""
    pot = [second * share for share in lot(lots[1])]
    found = least_additions(pot, [lot(lots[0])], [0.0], lot(aim), 0.0, MOST)
    if not found:
        raise Silly
    return found[0]


def drawn_lots(draw: Draw) -> tuple[list[float], float]:
    """Draw two lots, the poorer first, and a share well between them."""
    lots = [draw.ranged("alligation-poor-lot"), draw.ranged("alligation-rich-lot")]
    aim = draw.ranged("alligation-wanted")
    if not lots[0] + APART <= aim <= lots[1] - APART:
        raise Silly
    return lots, aim
