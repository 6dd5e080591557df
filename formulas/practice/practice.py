"""The answer of `practice`: exercises with their keys and working, which a seed gives again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from formulas.answer import Answer, Basis, Quantity, Warned
from formulas.fault import OutOfRange, UnknownName
from formulas.practice.exercise import GRADES, Exercise, Wanted
from formulas.practice.sheet import exercises

if TYPE_CHECKING:
    from formulas.catalog import Catalog

SUBJECT = "practice"
MOST = 100  # exercises of one topic on one sheet
DEFER = "defer"
ONE_SHEET = "a practice sheet"
ROUNDING = "Round only at the end: a step that was rounded carries its error on."
ASK = "A wrong answer is a question for the teacher, and nobody counts it."
WATCHED = "An exercise is done at a desk. It allows nothing at the bench."


def in_order(catalog: Catalog) -> list[str]:
    """Give every topic in the order of learning."""
    topics = catalog.practice_topics.values()
    return [one.id for one in sorted(topics, key=lambda one: one.place)]


def practice(
    catalog: Catalog,
    topics: Sequence[str] = (),
    count: int = 1,
    seed: int = 1,
    grades: Sequence[int] = (),
) -> Answer:
    """Give exercises of the topics, or of all of them in order, `count` of each.

    Raises UnknownName for a topic, OutOfRange for a count, a seed or a grade, NoExercise.
    """
    known = in_order(catalog)
    for name in topics:
        if name not in known:
            raise UnknownName("topic of practice_topics.csv", name, known)
    if not 1 <= count <= MOST:
        raise OutOfRange("count", count, f"1 to {MOST}", ONE_SHEET)
    if seed < 0:
        raise OutOfRange("seed", seed, "0 or more", ONE_SHEET)
    asked = [name for name in known if name in topics] or known
    steps = sorted(set(grades)) or list(GRADES)
    if not set(steps) <= GRADES.keys():
        strange = next(one for one in steps if one not in GRADES)
        raise OutOfRange("grade", strange, f"{min(GRADES)} to {max(GRADES)}", ONE_SHEET)
    made = [one for name in asked for one in exercises(catalog, name, count, seed, steps)]
    return Answer(
        command=SUBJECT,
        answer={
            "topics": [_topic(catalog, name) for name in asked],
            "seed": seed,
            "count": count,
            "exercises": [told(one) for one in made],
        },
        inputs={
            "topics": asked,
            "every_topic": not topics,
            "count": count,
            "seed": seed,
            "grades": steps,
        },
        basis=[
            Basis(
                f"{row.what}: drawn from {row.low:g} to {row.high:g} {row.unit}".rstrip(),
                row.basis,
                row.source,
            )
            for row in catalog.practice_ranges.values()
            if row.topic in asked
        ],
        cautions=warned(catalog, asked),
        notes=[ROUNDING, ASK, WATCHED],
    )


def _topic(catalog: Catalog, name: str) -> dict[str, Any]:
    one = catalog.practice_topics[name]
    return {"topic": name, "name": one.name, "teaches": one.teaches, "command": one.command}


def told(one: Exercise) -> dict[str, Any]:
    """Give an exercise with its key under the names of its parts."""
    made = one.made
    return {
        "topic": one.topic,
        "grade": one.grade,
        "number": one.number,
        "told": list(made.told),
        "wanted": [_wanted(each) for each in made.wanted],
        "rounding": made.rounding,
        "working": list(made.working),
        "given": dict(made.given),
    }


def _wanted(one: Any) -> dict[str, Any]:
    if isinstance(one, Wanted):
        return {
            "what": one.what,
            "value": Quantity(one.value, one.unit),
            "places": one.places,
            "tolerance": one.tolerance,
            "side": one.side,
        }
    return {"what": one.what, "right": one.right, "of": list(one.of)}


def warned(catalog: Catalog, topics: Iterable[str]) -> list[Warned]:
    """Give the cautions of practice that belong to the commands the topics train for.

    What sends to the data sheet, the local rules and the doctor is always among them.
    """
    commands = {catalog.practice_topics[name].command for name in topics}
    return [
        Warned(one.id, one.title, one.text, one.codes)
        for one in catalog.cautions_for(SUBJECT)
        if one.id == DEFER or commands & set(one.applies_to)
    ]
