"""What the exercises of the bench share: a key with its room, rounding on the way, silly draws."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from formulas.practice.exercise import (
    BOTH,
    ONE_STEP,
    SOME_STEPS,
    WHOLE_JOB,
    Given,
    Made,
    Silly,
    Wanted,
    number_asked,
)
from formulas.units import printed, spoken_unit

if TYPE_CHECKING:
    from formulas.catalog import Catalog

ROOM = {ONE_STEP: 0.002, SOME_STEPS: 0.008, WHOLE_JOB: 0.015}
"""Share of the key that its steps may lose by sensible rounding, by the grade."""
CLEAR = 0.05  # share by which what decides must be clear of what it is held against
COUNTED = 0.008  # the same of what is counted in whole pieces
FIGURES = 4  # of a number on the way, in the working
LARGEST = 1e6
TIMES = re.compile("[×/√∛^]")
NUMBERS = re.compile(r"\d+(?:\.\d+)?")


def number(what: str, value: float, unit: str, places: int, grade: int, side: str = BOTH) -> Wanted:
    """Give a number that is asked for, with room for the steps of its grade.

    One that something is kept to, or waited or bought for, has its cautious `side` alone.
    """
    return number_asked(what, value, unit, places, ROOM[grade] * abs(value), side)


def counted(what: str, value: float, unit: str = "") -> Wanted:
    """Give a whole number that is asked for: it is right or it is not."""
    return number_asked(what, value, unit, 0)


def step(words: str, expression: str, value: float, unit: str = "") -> str:
    """Give a line of the working; a sum has no more decimals than its largest number."""
    written = short(value)
    if not TIMES.search(expression):
        largest = max(float(one) for one in NUMBERS.findall(expression))
        written = trimmed(printed(value, places_of(largest)))
    return f"{words}: {expression} = {written} {spoken_unit(unit)}".rstrip() + "."


def parts_said(number: float) -> str:
    """Say how many parts.

    >>> parts_said(1), parts_said(2.5)
    ('1 part', '2.5 parts')
    """
    return f"{number:g} part{'' if number == 1 else 's'}"


def short(value: float) -> str:
    """Give a number on the way with four figures, without noughts at its end.

    >>> short(493.827), short(0.0123456), short(81000.4), short(2.5)
    ('493.8', '0.01235', '81000', '2.5')
    """
    return "0" if value == 0 else trimmed(printed(value, places_of(value)))


def fine(value: float) -> str:
    """Give a number on the way with two decimals, where a later line takes a difference of it."""
    return trimmed(printed(value, 2))


def places_of(value: float) -> int:
    """Give the decimals of a number that is written with four figures."""
    return max(0, FIGURES - 1 - math.floor(math.log10(abs(value))))


def trimmed(text: str) -> str:
    """Take the noughts off the end of a number."""
    return text.rstrip("0").rstrip(".") if "." in text else text


def over(value: float, limit: float) -> bool:
    """Tell whether a value is above a limit. Raises Silly where the two are too near."""
    if abs(value - limit) < CLEAR * abs(limit):
        raise Silly
    return value > limit


def whole_up(value: float) -> int:
    """Give the whole number above. Raises Silly where a step that was rounded could turn it."""
    _away_from_whole(value)
    return math.ceil(value)


def whole_down(value: float) -> int:
    """Give the whole number below. Raises Silly as `whole_up`."""
    _away_from_whole(value)
    return math.floor(value)


def _away_from_whole(value: float) -> None:
    near = math.floor(value + 0.5)
    if abs(value - near) < max(CLEAR, COUNTED * value):
        raise Silly


def between(value: float, low: float, high: float) -> None:
    """Raise Silly for what a bench does not see."""
    if not low <= value <= high:
        raise Silly


def finished(made: Made) -> Made:
    """Give an exercise back. Raises Silly for a key of nought, too large, or told already."""
    numbers = list(_numbers(made.given))
    for one in made.wanted:
        if isinstance(one, Wanted):
            if one.value == 0 or abs(one.value) > LARGEST:
                raise Silly
            if any(abs(one.value - told) < 0.5 * 10**-one.places for told in numbers):
                raise Silly
    return made


def _numbers(given: Given) -> Iterable[float]:
    for value in given.values():
        if isinstance(value, list):
            yield from value
        elif not isinstance(value, str):
            yield value


def material(catalog: Catalog, name: str) -> str:
    """Give a material's name as a sentence has it: "yellow beeswax"."""
    first, _, second = catalog.material(name).name.lower().partition(", ")
    return f"{second} {first}".strip()


def percent(share: float) -> float:
    """Give a share in percent, without the noise of a product.

    >>> percent(0.07)
    7.0
    """
    return float(printed(100 * share, 3))


def ends_of(catalog: Catalog, figure: str, unit: str) -> tuple[float, float]:
    """Give both ends of a figure in a unit, without the noise of a conversion."""
    low, high = catalog.span(figure, unit)
    return float(printed(low, 6)), float(printed(high, 6))
