"""Where additions cannot bring a pot to its ratio: the nearest they can, and how much they can.

Arguments are those of `alligation`.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.adjusting.alligation import (
    NOTHING,
    filled_line,
    least_additions,
    limits_in,
    masses_of_shares,
    named_order,
    pot_line,
    stock_lines,
)
from formulas.adjusting.linear import least_in_turn
from formulas.formula import procedure


@procedure("Lines that hold every share within one distance of what is wanted")
def distance_lines(
    pot: Sequence[float], blends: Sequence[Sequence[float]], shares: Sequence[float], size: int
) -> list[list[float]]:
    """Give two lines a component, then the one by which all shares add up; right sides last.

    Columns: the additions, the pot, the distance, then what each line leaves over.
    """
    whole = sum(pot)
    count = len(blends)
    lines: list[list[float]] = []
    for side in [1.0, -1.0]:
        for i in range(len(pot)):
            line = [blends[j][i] for j in range(count)]
            line.append(pot[i] / whole if whole > 0 else 0.0)
            line.append(-side)
            while len(line) < size:
                line.append(0.0)
            line[count + 2 + len(lines)] = side
            line.append(shares[i])
            lines.append(line)
    line = [1.0] * (count + 1)
    while len(line) < size:
        line.append(0.0)
    line.append(1.0)
    lines.append(line)
    return lines


@procedure("Mass in the end that the stock allows")
def stocked_total(stocks: Sequence[float], found: Sequence[float], most: float) -> float:
    """Give the largest mass of a mixture of lots whose shares are `found`."""
    whole = most
    for stock, share in zip(stocks, found, strict=False):
        if stock > 0 and share * whole > stock:
            whole = stock / share
    return whole


@procedure("Additions that come nearest to a ratio")
def nearest_additions(
    pot: Sequence[float],
    blends: Sequence[Sequence[float]],
    stocks: Sequence[float],
    shares: Sequence[float],
    asked: float,
    most: float,
) -> list[float]:
    """Give the additions whose farthest share is off the least, and of these the smallest.

    With `asked` above nought the mass in the end is that; else at most `most`, and without a
    pot as large as the stock allows. An empty list where the stock does not make it.
    """
    whole = sum(pot)
    count = len(blends)
    free = whole == 0 and asked == 0
    limits = [0.0 if free else stock for stock in stocks]
    first = count + 2 + 2 * len(pot)
    size = first + limits_in(limits) + 1
    near = distance_lines(pot, blends, shares, size)
    stocked = stock_lines(limits, whole, asked, size, first)
    ends = [pot_line(whole, asked, most, count, size)]
    equations = [line for block in [near, stocked, ends] for line in block]
    farthest = filled_line(size, [count + 1], [1.0])
    smallest = filled_line(size, [count], [-1.0])
    cost = named_order(size, count) if whole == 0 or asked > 0 else smallest
    found = least_in_turn(
        [farthest, cost],
        [line[:-1] for line in equations],
        [line[-1] for line in equations],
    )
    if len(found) == 0:
        return []
    if free:
        return masses_of_shares(found[: count + 1], whole, stocked_total(stocks, found, most))
    return masses_of_shares(found[: count + 1], whole, asked)


@procedure("How much of a pot, or of a mixture, the stock brings to the ratio")
def part_additions(
    pot: Sequence[float],
    blends: Sequence[Sequence[float]],
    stocks: Sequence[float],
    shares: Sequence[float],
    asked: float,
    most: float,
) -> list[float]:
    """Give the share of the pot that comes right within stock and mass, then the additions to it.

    As much of the pot as can be, then as near to the mass asked for as can be; without a pot the
    largest mixture. All nought where not even a crumb of it comes right.
    """
    whole = sum(pot)
    count = len(blends)
    end = asked if asked > 0 else most
    scale = whole if whole > 0 else sum(stocks)
    scale = min(scale, end) if scale > 0 else end
    size = count + 4 + limits_in(stocks)
    rows = []
    rights = []
    for i in range(len(pot)):
        line = [blends[j][i] for j in range(count)]
        line.append(pot[i] / scale)
        line.append(-shares[i])
        while len(line) < size:
            line.append(0.0)
        rows.append(line)
        rights.append(0.0)
    for j in range(count):
        if stocks[j] > 0:
            bound = max(stocks[j], scale)
            left = count + 4 + len(rows) - len(pot)
            rows.append(filled_line(size, [j, left], [scale / bound, 1.0]))
            rights.append(stocks[j] / bound)
    rows.append(filled_line(size, [count, count + 2], [1.0, 1.0]))
    rights.append(1.0)
    rows.append(filled_line(size, [count + 1, count + 3], [scale / end, 1.0]))
    rights.append(1.0)
    larger = -1.0 if asked > 0 or whole == 0 else 1.0
    costs = [
        filled_line(size, [count], [-1.0 if whole > 0 else 0.0]),
        filled_line(size, [count + 1], [larger]),
        named_order(size, count),
    ]
    found = least_in_turn(costs, rows, rights)
    part = [found[count] if whole > 0 else 0.0]
    for j in range(count):
        part.append(found[j] * scale)
    return part


@procedure("Whether all or a part of a pot comes right")
def in_reach(part: Sequence[float], whole: float, most: float) -> bool:
    """Say whether what `part_additions` found is more than what rounding leaves."""
    return part[0] > NOTHING if whole > 0 else sum(part) > NOTHING * most


@procedure("Additions, the nearest ones, and what a part of the pot takes")
def solved(
    pot: Sequence[float],
    blends: Sequence[Sequence[float]],
    stocks: Sequence[float],
    shares: Sequence[float],
    asked: float,
    most: float,
    near: float,
) -> list[list[float]]:
    """Give three lists: the additions, empty where none serve; the nearest; the part.

    The last two are empty where the first is not. The nearest keep the pot within `near` times
    what it blends, so that what is too much is not drowned in a mountain of wax.
    """
    whole = sum(pot)
    if whole == 0 and asked == 0:
        part = part_additions(pot, blends, stocks, shares, asked, most)
        if in_reach(part, whole, most):
            return [part[1:], [], []]
        return [[], nearest_additions(pot, blends, stocks, shares, asked, most), part]
    added = least_additions(pot, blends, stocks, shares, asked, most)
    if len(added) > 0:
        return [added, [], []]
    part = part_additions(pot, blends, stocks, shares, asked, most)
    if whole == 0 and in_reach(part, whole, most):
        return [[], part[1:], part]
    end = min(most, near * whole) if whole > 0 else most
    nearest = nearest_additions(pot, blends, stocks, shares, asked, end)
    if len(nearest) == 0:
        nearest = nearest_additions(pot, blends, stocks, shares, 0.0, end)
    return [[], nearest, part]


@procedure("Part of the pot that comes right")
def part_of_pot(part: Sequence[float], pot: Sequence[float]) -> float:
    """Give its mass; `part` is what `part_additions` found."""
    return part[0] * sum(pot)
