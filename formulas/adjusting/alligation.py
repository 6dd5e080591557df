"""What to add to a pot, or to take of each lot, so that a ratio comes out: formulas and steps.

Masses are in one unit throughout, whichever it is. `blends` has one line an addition: the shares by
mass of the components in it. A stock of nought means that there is no limit.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Annotated

from formulas.adjusting.linear import least_in_turn
from formulas.formula import Q, formula, procedure
from formulas.wax.batch import mass_of, steps_of, weigh_out

NOTHING = 1e-9  # shares, and masses as shares of a pot, below it are what rounding left


@formula("Least mass a pot comes to", symbol="M", unit="kg", source="definition")
def corrected_total(
    p: Annotated[Sequence[float], Q("kg", "mass of each component in the pot")],
    t: Annotated[Sequence[float], Q("1", "its wanted share by mass")],
) -> float:
    """Give the mass after the least addition of pure components without limits.

    The component that divided by its share comes out largest is kept; the others are brought up
    to it. A wanted share of nought has no answer: what is in a pot does not come out again.
    """
    return max(p[i] / t[i] for i in range(len(p)))


@formula("Mass of a component to add", symbol="a", unit="kg", source="definition")
def component_addition(
    t: Annotated[float, Q("1", "its wanted share by mass")],
    M: Annotated[float, Q("kg", "mass that the pot comes to")],
    p: Annotated[float, Q("kg", "mass of it in the pot")],
) -> float:
    """Give what must be there less what is there."""
    return t * M - p


@formula("Parts of a lot, by the cross", symbol="n_A", unit="1", source="definition")
def cross_parts(
    t: Annotated[float, Q("1", "wanted share of a component")],
    b: Annotated[float, Q("1", "its share in the other lot")],
) -> float:
    """Give the parts of one lot: how far the other lot lies from what is wanted.

    The wanted share lies between those of the two lots, else no mixture of them has it.
    """
    return abs(t - b)


@procedure("Masses of the components with what is added")
def masses_with(
    pot: Sequence[float], blends: Sequence[Sequence[float]], added: Sequence[float]
) -> list[float]:
    """Give the mass of each component in the pot and in what was added together."""
    return [
        pot[i] + sum(blends[j][i] * added[j] for j in range(len(added))) for i in range(len(pot))
    ]


@procedure("Shares of the components with what is added")
def shares_with(
    pot: Sequence[float], blends: Sequence[Sequence[float]], added: Sequence[float]
) -> list[float]:
    """Give the share by mass of each component in the pot and in what was added together."""
    masses = masses_with(pot, blends, added)
    whole = sum(masses)
    return [mass / whole for mass in masses]


@procedure("Largest distance of two lists of shares")
def largest_miss(shares: Sequence[float], others: Sequence[float]) -> float:
    """Give how far the share that lies farthest is off."""
    return max(abs(shares[i] - others[i]) for i in range(len(shares)))


@procedure("Line of nought with a few numbers in it")
def filled_line(size: int, places: Sequence[int], numbers: Sequence[float]) -> list[float]:
    """Give a line of noughts with these numbers at these places."""
    line = [0.0] * size
    for place, number in zip(places, numbers, strict=True):
        line[place] = number
    return line


@procedure("Turns in which additions are used up")
def named_order(size: int, count: int) -> list[float]:
    """Give costs by which what is named first is used first."""
    return [j + 1.0 if j < count else 0.0 for j in range(size)]


@procedure("Limits of the stock, for a mass of one")
def stock_lines(
    stocks: Sequence[float], whole: float, asked: float, size: int, place: int
) -> list[list[float]]:
    """Give a line for each limited addition, its right side last.

    Columns: the additions, the pot, then from `place` on what each limit leaves over; all as
    shares of the mass in the end, which is `asked`, or open where that is nought.
    """
    lines: list[list[float]] = []
    for j in range(len(stocks)):
        if stocks[j] > 0:
            scale = max(whole, stocks[j], asked)
            bound = 0.0 if asked > 0 else -stocks[j] / scale
            mass = asked if asked > 0 else whole
            places = [j, len(stocks), place + len(lines), size]
            right = stocks[j] / scale if asked > 0 else 0.0
            lines.append(filled_line(size + 1, places, [mass / scale, bound, 1.0, right]))
    return lines


@procedure("How many additions have a limit")
def limits_in(stocks: Sequence[float]) -> int:
    """Count the stocks that are limited."""
    return len([1 for stock in stocks if stock > 0])


@procedure("Masses of shares of the mass in the end")
def masses_of_shares(found: Sequence[float], whole: float, asked: float) -> list[float]:
    """Give the masses of the additions; `found` holds their shares, then that of the pot."""
    end = asked if asked > 0 else whole / found[-1]
    return [share * end for share in found[:-1]]


@procedure("Line that says how large the pot's share is")
def pot_line(whole: float, asked: float, most: float, count: int, size: int) -> list[float]:
    """Give the line, its right side last: the mass in the end is `asked`, else at most `most`."""
    if whole > 0 and asked == 0:
        return filled_line(size + 1, [count, size - 1, size], [1.0, -1.0, whole / most])
    return filled_line(size + 1, [count, size], [1.0, whole / asked if asked > 0 else 0.0])


@procedure("Least additions that bring a pot to its ratio")
def least_additions(
    pot: Sequence[float],
    blends: Sequence[Sequence[float]],
    stocks: Sequence[float],
    shares: Sequence[float],
    asked: float,
    most: float,
) -> list[float]:
    """Give the mass of each addition, or an empty list where no additions do it.

    With `asked` above nought the mass in the end is that, and what is named first is used first;
    else the additions together are the least, and the mass in the end is at most `most`.
    """
    whole = sum(pot)
    count = len(blends)
    size = count + 2 + limits_in(stocks)
    lines = []
    for i in range(len(pot)):
        line = [blends[j][i] for j in range(count)]
        line.append(pot[i] / whole if whole > 0 else 0.0)
        while len(line) < size:
            line.append(0.0)
        line.append(shares[i])
        lines.append(line)
    limits = stock_lines(stocks, whole, asked, size, count + 1)
    ends = [pot_line(whole, asked, most, count, size)]
    equations = [line for block in [lines, limits, ends] for line in block]
    cost = named_order(size, count) if asked > 0 else filled_line(size, [count], [-1.0])
    found = least_in_turn(
        [cost], [line[:-1] for line in equations], [line[-1] for line in equations]
    )
    return masses_of_shares(found[: count + 1], whole, asked) if len(found) > 0 else []


@procedure("Additions in whole steps of the scale")
def weighed_additions(masses: Sequence[float], stocks: Sequence[float], step: float) -> list[int]:
    """Round additions to steps of the scale, their sum to the nearest, none above its stock."""
    whole = sum(masses)
    if whole <= 0:
        return [0 for mass in masses]
    counts = weigh_out([mass / whole for mass in masses], steps_of(whole, step))
    for j in range(len(counts)):
        if stocks[j] > 0 and counts[j] * step > stocks[j]:
            counts[j] = min(counts[j], math.floor(stocks[j] / step + NOTHING))
    return counts


@procedure("Mass of all together")
def whole_of(masses: Sequence[float]) -> float:
    """Add masses up."""
    return sum(masses)


@procedure("Masses in whole steps of the scale")
def on_the_scale(counts: Sequence[int], step: float) -> list[float]:
    """Give what the scale shows for each number of steps."""
    return [mass_of(count, step) for count in counts]


@procedure("How far the scale moves a share")
def scale_drift(
    pot: Sequence[float],
    blends: Sequence[Sequence[float]],
    masses: Sequence[float],
    weighed: Sequence[float],
) -> float:
    """Give how far the farthest share moves where masses are weighed in steps of the scale."""
    if sum(pot) + sum(weighed) <= 0 or sum(pot) + sum(masses) <= 0:
        return 0.0
    return largest_miss(shares_with(pot, blends, weighed), shares_with(pot, blends, masses))
