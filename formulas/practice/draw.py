"""Numbers drawn for an exercise: the same seed gives the same numbers, on every machine.

A mass is drawn in grams and put on the shop's scale, in whole steps and in its unit.
`in_turn` gives neighbours on a sheet different tasks; `within` refuses what is outside a range.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeVar

from formulas.adjusting.working_steps import mass_said, plainly
from formulas.fault import UnknownName
from formulas.frozen import Frozen
from formulas.practice.exercise import Silly
from formulas.units import convert
from formulas.wax.batch import decimals_of, mass_of, steps_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.first_year_entries import PracticeRange
    from formulas.practice.exercise import Made

T = TypeVar("T")
NEARLY = 1e-9  # of a step: an end that is a whole number of steps away counts
MELTED = "ratio-melted"  # the range of what is melted at once
LEAST_STEPS = 5  # fewer steps of a scale are not weighed in an exercise


class Scale(Frozen):
    """A scale: what it shows, what is melted at once at most, and how masses are written."""

    step: float
    unit: str
    most: float = math.inf

    @property
    def decimals(self) -> int:
        """The decimals that it shows."""
        return decimals_of(self.step)

    @property
    def room(self) -> float:
        """How far a mass lies off that was put on whole steps, beyond half the last decimal."""
        return max(0.0, (self.step - 10.0**-self.decimals) / 2)

    def put(self, mass: float) -> float:
        """Give a mass in the scale's unit as the scale shows it."""
        return mass_of(steps_of(mass, self.step), self.step)

    def said(self, mass: float) -> str:
        """Write a mass of the task, without noughts at its end."""
        return f"{plainly(mass)} {self.unit}"

    def shown(self, mass: float) -> str:
        """Write a mass with the decimals of the scale."""
        return mass_said(mass, self.decimals, self.unit)

    def fine(self, mass: float) -> str:
        """Write a mass with one decimal more, as a step of working carries it."""
        return mass_said(mass, self.decimals + 1, self.unit)

    def carried(self, times: float = 1.0) -> float:
        """Give what a step that was carried so moves an answer that takes it so many times."""
        return self.room + times * 0.5 / 10.0 ** (self.decimals + 1)

    def weighs(self, *masses: float) -> None:
        """Raise Silly for a mass of too few steps, or for more than is melted at once."""
        if min(masses) < LEAST_STEPS * self.step or max(masses) > self.most:
            raise Silly


STEPS = {"g": (0.01, 1.0), "oz": (0.001, 0.05)}  # the finest and the coarsest of an exercise


class Draw:
    """Draws the numbers of one exercise from the ranges of its topic."""

    def __init__(self, catalog: Catalog, key: str, turn: int = 0) -> None:
        self.catalog = catalog
        self.turn = turn
        # Not for secrets. Only `random()` of a text seed is promised to stay the same.
        self._source = random.Random(key)

    @property
    def scale(self) -> Scale:
        """The shop's scale; one that is too fine or too coarse to exercise on is brought near."""
        shop = self.catalog.shop
        finest, coarsest = STEPS[shop.scale_unit]
        unit = shop.scale_unit
        most = convert(self._row(MELTED).high, "g", unit)
        return Scale(min(max(shop.scale_step, finest), coarsest), unit, most)

    @property
    def grams(self) -> Scale:
        """The shop's scale where it shows grams, else one of tenths of a gram."""
        return self.scale if self.scale.unit == "g" else Scale(0.1, "g", self._row(MELTED).high)

    def whole(self, low: int, high: int) -> int:
        """Draw a whole number, both ends among them."""
        return low + int(self._source.random() * (high - low + 1))

    def one_of(self, held: Sequence[T]) -> T:
        """Draw one of several."""
        return held[self.whole(0, len(held) - 1)]

    def in_turn(self, held: Sequence[Callable[[Draw], Made]]) -> Made:
        """Make the task whose turn it is: exercises that follow one another differ."""
        return held[self.turn % len(held)](self)

    def ranged(self, name: str) -> float:
        """Draw a number of practice_ranges.csv by the id of its row, on its step.

        Raises UnknownName.
        """
        row = self._row(name)
        steps = int((row.high - row.low) / row.step + NEARLY)
        return float(f"{row.low + row.step * self.whole(0, steps):.6g}")

    def mass(self, name: str, scale: Scale | None = None) -> float:
        """Draw a mass of a range in grams, as the scale shows it, in the scale's unit."""
        on = scale or self.scale
        return on.put(convert(self.ranged(name), "g", on.unit))

    def within(self, name: str, value: float) -> float:
        """Give the value back. Raises Silly outside the range of that id, in its unit."""
        row = self._row(name)
        if not row.low - NEARLY <= value <= row.high + NEARLY:
            raise Silly
        return value

    def _row(self, name: str) -> PracticeRange:
        ranges = self.catalog.practice_ranges
        if name not in ranges:
            raise UnknownName("id of practice_ranges.csv", name, ranges)
        return ranges[name]
