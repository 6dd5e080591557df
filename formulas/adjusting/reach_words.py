"""In words: why a ratio is out of reach, and how near the nearest mixture comes.

Arguments are those of `alligation`, `within_reach` and `working_steps`.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.adjusting.alligation import NOTHING, largest_miss, shares_with
from formulas.adjusting.within_reach import in_reach
from formulas.adjusting.working_order import used_up, working_of
from formulas.adjusting.working_steps import (
    balance_steps,
    joined,
    mass_said,
    pot_said,
    ratio_said,
    scale_said,
    share_said,
)
from formulas.formula import procedure

AS_NEAR = "These do not come to that ratio. Nearest, with the farthest share off least:"


@procedure("What the stock or the mass stops, in words")
def short_said(
    labels: Sequence[str],
    stocks: Sequence[float],
    part: Sequence[float],
    whole: float,
    decimals: int,
    unit: str,
) -> str:
    """Say what runs out, and how far the pot comes with it."""
    spent = [labels[j] for j in used_up(stocks, part[1:])]
    made = part[0] * whole + sum(part[1:])
    come = mass_said(made, decimals, unit)
    if whole > 0 and part[0] < 1 - NOTHING:
        some = mass_said(part[0] * whole, decimals, unit) + " of the pot"
        if len(spent) > 0:
            return joined(spent, " and ") + ": all there is brings only " + some + " to the ratio."
        least = mass_said(made / part[0], decimals, unit)
        return (
            "The whole pot comes right at "
            + least
            + " and no less; in "
            + come
            + " only "
            + some
            + "."
        )
    if len(spent) > 0:
        return joined(spent, " and ") + ": all there is makes " + come + " at the ratio, no more."
    return "It comes right at " + come + ", and nothing that may be added has the ratio itself."


@procedure("Components that stand in the way, in words")
def in_the_way(
    names: Sequence[str],
    parts: Sequence[float],
    pot: Sequence[float],
    blends: Sequence[Sequence[float]],
) -> list[str]:
    """Say of which components there is too little, or too much, in all that goes in."""
    whole = sum(pot)
    little = []
    much = []
    for i in range(len(names)):
        shares = [line[i] for line in blends]
        if whole > 0:
            shares.append(pot[i] / whole)
        wanted = parts[i] / sum(parts)
        highest = max(share for share in shares)
        lowest = min(share for share in shares)
        if parts[i] == 0 and pot[i] > 0:
            much.append(
                names[i]
                + " is in the pot and not in the ratio: additions thin it, none takes it out."
            )
        elif highest < NOTHING < wanted:
            little.append(names[i] + " is wanted, and nothing here holds any.")
        elif highest < wanted - NOTHING:
            most = "wanted, and nothing here holds more than " + share_said(highest) + "."
            little.append(names[i] + ": " + share_said(wanted) + " " + most)
        elif lowest > wanted + NOTHING:
            least = "wanted, and everything here holds " + share_said(lowest) + " or more."
            much.append(names[i] + ": " + share_said(wanted) + " " + least)
    found = little if len(little) > 0 else much
    return found if len(found) > 0 else ["No mixture of these has all the wanted shares at once."]


@procedure("Why a ratio is out of reach, in words")
def why_not(
    names: Sequence[str],
    labels: Sequence[str],
    parts: Sequence[float],
    pot: Sequence[float],
    blends: Sequence[Sequence[float]],
    stocks: Sequence[float],
    part: Sequence[float],
    most: float,
    decimals: int,
    unit: str,
) -> list[str]:
    """Name the component in the way, or what runs out; `part` is what `part_additions` found."""
    whole = sum(pot)
    if in_reach(part, whole, most):
        return [short_said(labels, stocks, part, whole, decimals, unit)]
    return in_the_way(names, parts, pot, blends)


@procedure("How near the nearest mixture comes, in words")
def miss_said(names: Sequence[str], shares: Sequence[float], others: Sequence[float]) -> str:
    """Name the component farthest off: `shares` are reached, `others` wanted."""
    miss = largest_miss(shares, others)
    far = [i for i in range(len(names)) if abs(shares[i] - others[i]) >= miss - NOTHING][-1]
    reached = share_said(shares[far]) + " reached, " + share_said(others[far]) + " wanted."
    return "Farthest off: " + names[far] + ", " + reached


@procedure("Steps of the nearest mixture")
def nearest_steps(
    names: Sequence[str],
    labels: Sequence[str],
    parts: Sequence[float],
    pot: Sequence[float],
    blends: Sequence[Sequence[float]],
    stocks: Sequence[float],
    masses: Sequence[float],
    step: float,
    counts: Sequence[int],
    decimals: int,
    unit: str,
) -> list[str]:
    """Add up the nearest mixture, and say which component is farthest from what is wanted.

    Where only the mass falls short, the steps are those of a mixture that has the ratio.
    """
    wanted = [part / sum(parts) for part in parts]
    shares = shares_with(pot, blends, masses)
    if largest_miss(shares, wanted) <= NOTHING:
        return working_of(
            names, labels, parts, pot, blends, stocks, masses, 0.0, step, counts, decimals, unit
        )
    start = [pot_said(names, pot, decimals, unit)] if sum(pot) > 0 else []
    opening = [ratio_said(names, parts), AS_NEAR]
    sums = balance_steps(names, labels, parts, pot, blends, masses, decimals, unit)
    weighed = [scale_said(labels, counts, step, decimals, unit)] if sum(counts) > 0 else []
    said = [start, opening, sums, [miss_said(names, shares, wanted)], weighed]
    return [line for block in said for line in block]
