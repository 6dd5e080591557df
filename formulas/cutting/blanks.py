"""The cut list: sizes a shop can cut, always rounded up, how many of each, with spares.

Sizes are counted in whole steps and laid in hundredths of a millimetre, so that page and command
add the same whole numbers.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Annotated

from formulas.formula import Q, formula, procedure
from formulas.units import printed

GRAIN = 1e-5
"""What strips are laid in, in m: a hundredth of a millimetre."""
FORGIVEN = 1e-6
"""The part of a step by which a size may stand over it and still count as on it."""


@formula("Area of a strip", symbol="A_s", unit="m**2", source="definition")
def strip_area(
    b: Annotated[float, Q("m", "width of the strip")],
    L_c: Annotated[float, Q("m", "length of the strip, glue land included")],
) -> float:
    """Give the area of one strip as it is cut."""
    return b * L_c


@formula("Used share of what was cut into", symbol="u", unit="1", source="definition")
def used_share(
    A: Annotated[float, Q("m**2", "area of all strips")],
    A_o: Annotated[float, Q("m**2", "usable area up to the last cut across")],
) -> float:
    """Give strips over stock: what lies beyond the last cut across goes back on the shelf whole."""
    return A / A_o


@formula("Area to buy", symbol="A_b", unit="m**2", source="definition")
def area_to_buy(
    A: Annotated[float, Q("m**2", "area of the strips that are missing")],
    u: Annotated[float, Q("1", "used share to reckon with")],
) -> float:
    """Give the area of stock for strips that nothing on the shelf has room for."""
    return A / u


def rows_by_hand(
    count: int, width: float, piece_width: float, margin: float, gap: float
) -> tuple[int, int]:
    """Give how many strips stand side by side in a row of a piece, and how many rows it takes.

    All in m. The gap of the last strip is left beside it, so that a row is rather too short.

    >>> rows_by_hand(27, 0.0065, 0.210, 0.005, 0.0005)
    (28, 1)
    """
    beside = math.floor((piece_width - 2 * margin) / (width + gap) + FORGIVEN)
    return beside, math.ceil(count / beside)


@procedure("Whole steps that a size is rounded up to")
def steps_up(size: float, step: float) -> int:
    """Round a size up to whole steps, never down; what is on a step stays.

    >>> steps_up(0.0062, 0.0005), steps_up(0.0065, 0.0005)
    (13, 13)
    """
    return -math.floor(-(size / step - FORGIVEN))


@procedure("Size of so many steps as it is laid")
def laid_size(steps: float, step: float) -> int:
    """Give a size in hundredths of a millimetre, up where a step is no whole number of them."""
    return steps_up(steps * step, GRAIN)


@procedure("Spare strips of one size")
def spare_strips(count: float, share: float, least: float) -> int:
    """Give a share of the count, up, and not under the least; a share of nought is none at all.

    >>> spare_strips(24, 0.1, 1), spare_strips(4, 0.1, 1), spare_strips(4, 0, 1)
    (3, 1, 0)
    """
    if share <= 0:
        return 0
    return max(math.floor(least), -math.floor(-(count * share - FORGIVEN)))


@procedure("Cut list in steps, the widest and longest first")
def cut_list(
    cut_lengths: Sequence[float],
    cut_widths: Sequence[float],
    cut_counts: Sequence[float],
    length_step: float,
    width_step: float,
) -> list[list[float]]:
    """Give width and length in steps and the count of each size; sizes alike are put together."""
    found: list[list[float]] = []
    for i in range(len(cut_lengths)):
        wide = steps_up(cut_widths[i], width_step)
        long = steps_up(cut_lengths[i], length_step)
        place = -1
        for k in range(len(found)):
            if found[k][0] == wide and found[k][1] == long:
                place = k
        if place >= 0:
            found[place][2] += cut_counts[i]
        else:
            found.append([wide, long, cut_counts[i]])
    by_length = sorted(found, key=lambda one: -one[1])
    return sorted(by_length, key=lambda one: -one[0])


@procedure("Long strips of one width, to be snipped to length")
def long_strips(cut_sizes: Sequence[Sequence[float]]) -> list[list[float]]:
    """Give each width in steps with the number of its strips and their length in steps together.

    `cut_sizes` are rows of width and length in steps and a count, sorted by width.
    """
    found: list[list[float]] = []
    for wide, long, count in cut_sizes:
        if len(found) == 0 or found[-1][0] != wide:
            found.append([wide, 0, 0])
        found[-1][1] += count
        found[-1][2] += count * long
    return found


@procedure("A size to cut, as it is printed")
def side_said(metres: float, us: bool) -> str:
    """Give millimetres with no more decimals than it has, two at most, or thousandths of an inch.

    >>> side_said(0.038, False), side_said(0.0065, False), side_said(0.0254, True)
    ('38', '6.5', '1.000')
    """
    if us:
        return printed(metres / 0.0254, 3)
    hundredths = math.floor(metres * 1e5 + 0.5)
    tenths = math.floor(hundredths / 10)
    if tenths * 10 != hundredths:
        return printed(1000 * metres, 2)
    return printed(1000 * metres, 1 if math.floor(tenths / 10) * 10 != tenths else 0)


@procedure("Length and width to cut, as they are printed")
def strip_said(length: float, width: float, us: bool) -> str:
    """Give length by width with the unit.

    >>> strip_said(0.038, 0.0065, False)
    '38 × 6.5 mm'
    """
    return side_said(length, us) + " × " + side_said(width, us) + (" in" if us else " mm")


@procedure("Long strips of one width, in words")
def long_strip_said(width: float, count: int, length: float, us: bool) -> str:
    """Say how much of one width is cut, to be snipped to the lengths of the list."""
    together = printed(length / 0.0254, 0) + " in" if us else printed(100 * length, 0) + " cm"
    wide = side_said(width, us) + (" in" if us else " mm")
    return wide + " wide: " + str(count) + " to snip from " + together
