"""What the grades of the condition survey change: minutes of steps, steps added, what is kept."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from formulas.fault import UnknownName

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.job_entries import SurveyGrade, WorkStep
    from formulas.jobs.job import JobBlock

WRITTEN = re.compile(
    r"(?P<plus>\+?)(?P<step>[a-z0-9]+(?:-[a-z0-9]+)*)"
    r"(?::(?P<low>\d+(?:\.\d+)?)-(?P<high>\d+(?:\.\d+)?))?"
)
KEPT_PARTS = {"valves": ("leather",), "wax": ("wax", "gasket"), "plates": ("plates", "tongues")}
"""Which parts of the survey speak of what an owner may ask to keep."""
MAY_KEEP = {
    "some": "may be tried, each one tested",
    "no": "does not hold as it is: ask the owner again before the work is agreed",
}
INSIDE_SHUT = "the wax is kept, so no plate is lifted: its inside valves stay as they are"


class Change(NamedTuple):
    """What a grade does to the minutes of a step: low by low, high by high."""

    step: str
    low: float
    high: float
    grade: str


class Changes(NamedTuple):
    """What the grades of one block change: steps that take longer or shorter, and steps added.

    The numbers of an added step multiply its minutes: below 1 they are the share of what it
    counts that needs it, above 1 each takes longer.
    """

    times: tuple[Change, ...]
    added: tuple[Change, ...]


def read_change(text: str, grade: str) -> tuple[bool, Change] | None:
    """Read one change: whether it adds its step, and what it says; None where it is no change.

    >>> read_change("lift-plate:1.2-2", "wax-cracked")
    (False, Change(step='lift-plate', low=1.2, high=2.0, grade='wax-cracked'))
    >>> read_change("+derust-plate", "plates-corroded")
    (True, Change(step='derust-plate', low=1.0, high=1.0, grade='plates-corroded'))
    >>> read_change("lift-plate", "wax-cracked") is None
    True
    """
    match = WRITTEN.fullmatch(text)
    if match is None or not (match["plus"] or match["low"]):
        return None
    low, high = (float(match[end] or 1) for end in ("low", "high"))
    return bool(match["plus"]), Change(match["step"], low, high, grade)


def grade_of(catalog: Catalog, what: str, grade: str) -> SurveyGrade:
    """Give a grade by what it grades and its word, or by its whole id.

    Raises UnknownName with the words of that part.
    """
    own = {one.grade: one for one in catalog.survey_grades.values() if one.what == what}
    if not own:
        parts = dict.fromkeys(one.what for one in catalog.survey_grades.values())
        raise UnknownName("part of the survey", what, parts)
    word = grade.removeprefix(f"{what}-")
    if word not in own:
        raise UnknownName(f"grade of {what}", grade, own)
    return own[word]


def grades_of(catalog: Catalog, found: Mapping[str, str]) -> list[SurveyGrade]:
    """Give the grades that a block was given, in the order of the table."""
    named = [grade_of(catalog, what, grade) for what, grade in found.items()]
    return [one for one in catalog.survey_grades.values() if one in named]


def changes_of(catalog: Catalog, found: Mapping[str, str]) -> Changes:
    """Give what the grades found on a block change. A part without a grade changes nothing."""
    times: list[Change] = []
    added: list[Change] = []
    for grade in grades_of(catalog, found):
        for text in grade.steps:
            read = read_change(text, grade.id)
            assert read is not None, text  # the check of the tables refused all others
            (added if read[0] else times).append(read[1])
    return Changes(tuple(times), tuple(added))


def times_of(step: WorkStep, changes: Changes) -> tuple[float, float, tuple[str, ...]]:
    """Give by what the minutes of a step are multiplied, low and high, and by which grades.

    Several grades multiply. Several that add one step do not add it twice: the larger number
    counts, end by end.
    """
    low, high = 1.0, 1.0
    grades = []
    for one in changes.times:
        if one.step == step.id:
            low, high = low * one.low, high * one.high
            grades.append(one.grade)
    added = [one for one in changes.added if one.step == step.id]
    if added:
        low *= max(one.low for one in added)
        high *= max(one.high for one in added)
        grades += [one.grade for one in added]
    return low, high, tuple(grades)


def may_keep(catalog: Catalog, block: JobBlock) -> list[str]:
    """Give what to tell where an owner keeps something that the survey graded low."""
    return list(_kept(catalog, block))


def _kept(catalog: Catalog, block: JobBlock) -> Iterator[str]:
    for thing in block.keep:
        parts: Sequence[str] = KEPT_PARTS[thing]
        for grade in grades_of(catalog, {p: block.found[p] for p in parts if p in block.found}):
            if grade.keep in MAY_KEEP:
                word = grade.grade.replace("-", " ")
                yield (
                    f"Block {block.block}: {thing} are to be kept, and {grade.what}"
                    f" was graded '{word}'. That {MAY_KEEP[grade.keep]}. {grade.implies}."
                )
    if "wax" in block.keep and "valves" not in block.keep:
        yield f"Block {block.block}: {INSIDE_SHUT}; only the outside ones are renewed."
