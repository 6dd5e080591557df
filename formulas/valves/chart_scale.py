"""Places, steps and marks of a chart's axes, shared by the drawing on paper and the live one."""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.formula import procedure
from formulas.units import printed


@procedure("Place along an axis")
def axis_place(value: float, low: float, high: float, start: float, length: float) -> float:
    """Give where a value stands on an axis that runs from `start` over `length`."""
    return start + length * (value - low) / (high - low)


@procedure("Step between the marks of an axis")
def mark_step(reach: float, most: float) -> float:
    """Give 1, 2 or 5 times a power of ten, so that no more than `most` marks stand in the reach."""
    power = 0.0001
    while power * 10 * most < reach:
        power = power * 10
    for times in (1, 2, 5):
        if power * times * most >= reach:
            return power * times
    return power * 10


@procedure("Decimals of a step")
def step_decimals(step: float) -> int:
    """Give how many decimals a step has."""
    count = 0
    for one in (1, 0.1, 0.01, 0.001):
        if step < 0.999 * one:
            count = count + 1
    return count


@procedure("Marks of an axis")
def axis_marks(low: float, high: float, step: float) -> list[float]:
    """Give the multiples of a step from low to high."""
    marks = []
    first = math.floor(low / step + 0.999999)
    last = math.floor(high / step + 0.000001)
    for count in range(first, last + 1):
        marks.append(count * step)
    return marks


@procedure("A place as a drawing has it")
def place_said(x: float, y: float) -> str:
    """Write a place with one decimal."""
    return printed(x, 1) + "," + printed(y, 1)


@procedure("Places as a drawing has them")
def places_said(xs: Sequence[float], ys: Sequence[float]) -> str:
    """Write places one after the other."""
    text = ""
    for x, y in zip(xs, ys, strict=True):
        text = text + (" " if text != "" else "") + place_said(x, y)
    return text


@procedure("Outline of a band as a drawing has it")
def band_said(xs: Sequence[float], lows: Sequence[float], highs: Sequence[float]) -> str:
    """Write the places round a band: along its one edge, and back along the other."""
    round_xs = []
    round_ys = []
    for i in range(len(xs)):
        round_xs.append(xs[i])
        round_ys.append(lows[i])
    for i in range(len(xs)):
        round_xs.append(xs[len(xs) - 1 - i])
        round_ys.append(highs[len(xs) - 1 - i])
    return places_said(round_xs, round_ys)


@procedure("Heights kept apart")
def kept_apart(heights: Sequence[float], gap: float, ceiling: float, floor: float) -> list[float]:
    """Give the heights of labels so that none lies on another, as near to their own as it goes.

    `ceiling` is the smallest and `floor` the largest height allowed: a drawing counts downward.
    """
    left = [1 for _ in heights]
    moved = [max(height, ceiling) for height in heights]
    order = []
    for _ in range(len(heights)):
        next_one = -1
        for i in range(len(heights)):
            if left[i] > 0 and (next_one < 0 or heights[i] < heights[next_one]):
                next_one = i
        left[next_one] = 0
        order.append(next_one)
    above = ceiling - gap
    for place in order:
        moved[place] = max(moved[place], above + gap)
        above = moved[place]
    below = floor + gap
    for back in range(len(order)):
        place = order[len(order) - 1 - back]
        moved[place] = min(moved[place], below - gap)
        below = moved[place]
    return moved
