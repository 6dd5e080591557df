"""Enter a person, or a mark of a sign-off. The tolerance is copied from the step, as it stands."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from formulas.answer import Answer
from formulas.fault import FormulasError, UnknownName
from formulas.people.may import WHAT, may
from formulas.people.standing import (
    ALONE,
    ASSESSOR,
    Standing,
    is_adult,
    named_person,
    named_step,
    standing,
    why_not_alone,
)
from formulas.people.who import as_told

if TYPE_CHECKING:
    from formulas.books.appending import Cell
    from formulas.catalog import Catalog
    from formulas.first_year_entries import Person, SignOff, Step

    Added = dict[str, list[dict[str, Cell]]]


class NotSigned(FormulasError, ValueError):
    """A mark that is not entered, and why."""

    def __init__(self, person: str, step: str, why: str) -> None:
        self.person, self.step, self.why = person, step, why
        super().__init__(f"{person}, {step}: {why}; nothing was changed.")


def record_person(catalog: Catalog, person: Person) -> tuple[Answer, Added]:
    """Give the answer and the new row of somebody who works here."""
    person = dataclasses.replace(person, basis=_basis(catalog))
    answer: dict[str, Any] = {
        "person": person.person,
        "role": person.role,
        "began": person.began,
        "adult_from": person.adult_from or None,
    }
    notes = list(_person_notes(catalog, person))
    inputs = dataclasses.asdict(person)
    cautions = catalog.warned("record-person")
    return Answer("record-person", answer, inputs, [], cautions, notes), {"people.csv": [inputs]}


def _basis(catalog: Catalog) -> str:
    return "invented" if catalog.shop.invented else "measured"


def _person_notes(catalog: Catalog, person: Person) -> Iterator[str]:
    years = int(catalog.figure("adult-age").low)
    if not is_adult(person, person.began):
        yield (
            f"Under {years} until {person.adult_from}: shown and with help only, never alone with"
            " heat or solvent. The law asks for more care; ask what holds in your place."
        )
    elif not person.adult_from:
        yield f"No day is written on which the person turns {years}: taken for an adult."
    if person.role == ASSESSOR:
        yield "An assessor may work alone by the shop's own word, and signs for others."


def record_signoff(catalog: Catalog, mark: SignOff) -> tuple[Answer, Added]:
    """Give the answer and the new row of a mark.

    Raises UnknownName for a name of no table, NotSigned where the mark may not be set: for an
    assessor who is none or who is the person, a value that is missing or not asked for, and work
    alone with heat or solvent by somebody who may not be tried at it.
    """
    person, step = named_person(catalog, mark.person), named_step(catalog, mark.step)
    _seen_by(catalog, mark)
    alone = mark.mark == ALONE
    why_not = why_not_alone(catalog, person, step, mark.date) if alone else ""
    if why_not:
        others = f" `--mark helped` is entered, with {mark.assessor} beside."
        raise NotSigned(person.person, step.id, f"not alone: {why_not}.{others}")
    _measured(mark, step)
    low, high, unit = (step.low, step.high, step.unit) if alone else (None, None, "")
    mark = dataclasses.replace(mark, low=low, high=high, unit=unit, basis=_basis(catalog))
    before = standing(catalog, person.person, step.id, mark.date)
    after_it = dataclasses.replace(catalog, signoffs=[*catalog.signoffs, mark])
    after = standing(after_it, person.person, step.id, mark.date)
    answer: dict[str, Any] = {
        "person": person.person,
        "date": mark.date,
        "mark": mark.mark,
        "value": mark.value,
        "assessor": mark.assessor,
        "before": before.state,
        **as_told(after),
        "counts": not _why_not(after, mark),
        "why_not": _why_not(after, mark),
        "may_now": _gained(catalog, after_it, mark),
    }
    del answer["marks"]
    row = dataclasses.asdict(mark)
    cautions = catalog.warned("record-signoff")
    notes = list(_mark_notes(catalog, person, step, mark))
    return Answer("record-signoff", answer, row, [], cautions, notes), {"signoffs.csv": [row]}


def _seen_by(catalog: Catalog, mark: SignOff) -> None:
    assessors = [one.person for one in catalog.people.values() if one.role == ASSESSOR]
    if mark.assessor not in catalog.people:
        raise UnknownName("assessor", mark.assessor, assessors)
    if mark.assessor == mark.person:
        raise NotSigned(mark.person, mark.step, "nobody signs for himself or herself")
    if mark.assessor not in assessors:
        named = ", ".join(assessors) or "nobody yet"
        why = f"found {mark.assessor} as assessor, accepted: {named}"
        raise NotSigned(mark.person, mark.step, why)


def _measured(mark: SignOff, step: Step) -> None:
    asked = mark.mark == ALONE and step.measured
    if asked and mark.value is None:
        why = f"value: found nothing, accepted: what was measured ({said_measured(step)})"
        raise NotSigned(mark.person, mark.step, why)
    if not asked and mark.value is not None:
        why = f"value: found {mark.value:g}, accepted: nothing; no value is asked for here"
        raise NotSigned(mark.person, mark.step, why)


def said_measured(step: Step) -> str:
    """Say what is measured, and in which unit."""
    from formulas.units import spoken_unit

    return f"{step.measured}, in {spoken_unit(step.unit)}" if step.unit else step.measured


def _why_not(after: Standing, mark: SignOff) -> str:
    """Say why the new mark, which stands last among those of its day, does not count."""
    return next(one.why_not for one in reversed(after.marks) if one.signoff == mark)


def _gained(before: Catalog, after: Catalog, mark: SignOff) -> list[str]:
    """Give what the person may do alone on that day by this mark."""
    return [
        what
        for what in WHAT
        if may(after, mark.person, what, mark.date).may
        and not may(before, mark.person, what, mark.date).may
    ]


def _mark_notes(catalog: Catalog, person: Person, step: Step, mark: SignOff) -> Iterator[str]:
    missing = [
        name for name in step.needs if not standing(catalog, person.person, name, mark.date).holds
    ]
    if missing:
        yield f"These come before it and do not hold on that day: {', '.join(missing)}."
    if mark.mark != ALONE:
        why = why_not_alone(catalog, person, step, mark.date)
        if why:
            yield f"Not to be tried alone yet: {why}."
