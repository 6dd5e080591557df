"""Small linear programmes: the least of one sum, then of the next, under equations.

A tableau simplex by Bland's rule, in steps that the page shares. Made for a few dozen columns
whose numbers are scaled to about one: what is below TINY counts as nought.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.formula import procedure

TINY = 1e-11  # a number of the tableau below it is what rounding left
MISSING = 1e-9  # equations that stay open by more than this have no solution
TURNS = 5000  # by Bland's rule a programme of a bench takes some dozens


@procedure("Equations with their right sides last, none of these negative")
def tableau(rows: Sequence[Sequence[float]], rights: Sequence[float]) -> list[list[float]]:
    """Give each equation as one line; its signs are turned where its right side was negative."""
    table = []
    for row, right in zip(rows, rights, strict=True):
        sign = -1.0 if right < 0 else 1.0
        line = [sign * value for value in row]
        line.append(sign * right)
        table.append(line)
    return table


@procedure("A tableau turned on one of its places")
def turned_on(table: Sequence[Sequence[float]], row: int, column: int) -> list[list[float]]:
    """Give the tableau in which that column is 1 in that row and nought in the others."""
    pivot = [value / table[row][column] for value in table[row]]
    made = []
    for place in range(len(table)):
        factor = table[place][column]
        if place == row:
            made.append(pivot)
        else:
            made.append([a - factor * b for a, b in zip(table[place], pivot, strict=True)])
            made[place][column] = 0.0
    return made


@procedure("First column that lowers a sum")
def lowering_column(line: Sequence[float], chosen: Sequence[int]) -> int:
    """Give the first open column whose cost is negative, -1 where there is none."""
    for column in range(len(chosen)):
        if chosen[column] == 1 and line[column] < -TINY:
            return column
    return -1


@procedure("Row that a column drives out")
def leaving_row(table: Sequence[Sequence[float]], base: Sequence[int], column: int) -> int:
    """Give the row that reaches nought first; among equals, the one of the first column.

    `base` says which column each row holds. -1 where the sum falls without end.
    """
    best = -1
    least = 0.0
    for place in range(len(base)):
        if table[place][column] > TINY:
            ratio = table[place][-1] / table[place][column]
            near = best >= 0 and abs(ratio - least) <= TINY
            if best < 0 or (ratio < least and not near) or (near and base[place] < base[best]):
                best = place
                least = ratio
    return best


@procedure("Least of sums, one after another, under equations")
def least_in_turn(
    costs: Sequence[Sequence[float]], rows: Sequence[Sequence[float]], rights: Sequence[float]
) -> list[float]:
    """Give numbers from nought up that fulfil the equations and make the first sum least.

    Among those that do, the second sum is made least, and so on. Gives an empty list where no
    numbers fulfil the equations, or where a sum falls without end. Trusted to about 1e-9 where
    the numbers are about one; checked against another solver on random programmes.
    """
    width = len(costs[0])
    count = len(rows)
    table = tableau(rows, rights)
    base = [width + place for place in range(count)]
    missing = [-sum(table[place][column] for place in range(count)) for column in range(width + 1)]
    table.append(missing)
    for cost in costs:
        line = [cost[column] for column in range(width)]
        line.append(0.0)
        table.append(line)
    chosen = [1] * width
    turns = 0
    for stage in range(count, len(table)):
        column = lowering_column(table[stage], chosen)
        while column >= 0:
            row = leaving_row(table, base, column)
            turns += 1
            if row < 0 or turns > TURNS:
                return []
            table = turned_on(table, row, column)
            base[row] = column
            column = lowering_column(table[stage], chosen)
        if stage == count and -table[count][-1] > MISSING:
            return []
        chosen = [chosen[place] if table[stage][place] <= TINY else 0 for place in range(width)]
    values = [0.0] * width
    for place in range(count):
        if base[place] < width:
            values[base[place]] = max(0.0, table[place][-1])
    return values
