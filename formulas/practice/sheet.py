"""A practice sheet: exercises of one topic by seed and grade.

No two of a topic, grade and seed are alike: `one` draws again where a lower number has the same
task. Which task comes first goes by the seed, then they follow one another.
"""

from __future__ import annotations

import importlib
import math
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from formulas.fault import FormulasError, UnknownName
from formulas.practice.carried import settled
from formulas.practice.draw import Draw
from formulas.practice.exercise import GRADES, Exercise, Made, Silly, Wanted

if TYPE_CHECKING:
    from formulas.catalog import Catalog

    Maker = Callable[[Catalog, int, Draw], Made]

TRIES = 200  # draws for one exercise
PATIENCE = 25  # draws after which the next task is tried


class NoExercise(FormulasError, RuntimeError):
    """A topic whose ranges give no sensible exercise."""


def maker(topic: str) -> Maker:
    """Give what makes the exercises of a topic: `exercise` of the module of its name."""
    module = importlib.import_module(f"formulas.practice.{topic.replace('-', '_')}")
    made: Maker = module.exercise
    return made


def exercises(
    catalog: Catalog, topic: str, count: int, seed: int, grades: Sequence[int] = tuple(GRADES)
) -> list[Exercise]:
    """Make exercises of a topic, the easier ones first. Raises UnknownName, NoExercise."""
    if topic not in catalog.practice_topics:
        raise UnknownName("topic", topic, catalog.practice_topics)
    held = sorted(grades)
    return [
        one(catalog, topic, held[place * len(held) // count], seed, place + 1)
        for place in range(count)
    ]


def one(catalog: Catalog, topic: str, grade: int, seed: int, number: int) -> Exercise:
    """Make one exercise. Raises NoExercise."""
    told: dict[int, Made] = catalog.memo.setdefault(("practice", topic, grade, seed), {})
    for place in range(1, number + 1):
        if place not in told:
            told[place] = _unlike(catalog, topic, grade, seed, place, list(told.values()))
    return Exercise(topic, grade, seed, number, told[number])


def _unlike(
    catalog: Catalog, topic: str, grade: int, seed: int, number: int, others: Sequence[Made]
) -> Made:
    """Draw until the numbers make sense and the task is none of the others."""
    make = maker(topic)
    taken = {other.told for other in others}
    for attempt in range(TRIES):
        turn = seed + number + attempt // PATIENCE
        draw = Draw(catalog, f"{topic} {grade} {seed} {number} {attempt}", turn)
        try:
            made = settled(make(catalog, grade, draw))
            refuse_silly(made)
        except Silly:
            continue
        if made.told not in taken:
            return made
    raise NoExercise(f"{topic}, grade {grade}: no sensible numbers in {TRIES} draws")


def refuse_silly(made: Made) -> None:
    """Raise Silly for an answer of nought, of no size, or that the task itself tells."""
    given: list[float] = []
    for value in made.given.values():
        if not isinstance(value, str):
            given += value if isinstance(value, list) else [value]
    for asked in made.wanted:
        if isinstance(asked, Wanted) and (
            not math.isfinite(asked.value) or asked.value == 0 or asked.value in given
        ):
            raise Silly
