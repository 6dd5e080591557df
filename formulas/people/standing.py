"""How far somebody stands in a step of the first year, on a day.

Shown, then done with help, then done alone as often as the step asks, then explained: a mark
counts in that order only, and only where somebody who may assess saw it. What failed is kept and
does not count. Rules, not settings: nothing of a shop folder but its marks changes an outcome.
"""

from __future__ import annotations

import datetime
from typing import TYPE_CHECKING

from formulas.fault import UnknownName
from formulas.frozen import Frozen

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.first_year_entries import Person, SignOff, Step

SHOWN, HELPED, ALONE, EXPLAINED = "shown", "helped", "alone", "explained"
OPEN, DONE, DUE = "open", "done", "due again"
ASSESSOR = "assessor"
OF_PEOPLE = "sign-offs of each person and step"


class Mark(Frozen):
    """A mark as it was written, and why it does not count; "" where it does."""

    signoff: SignOff
    why_not: str = ""


class Standing(Frozen):
    """How far a person stands in a step on a day.

    `passed` counts the work done alone that counts, `last` is the last day on which the task is
    known to have been done alone, `until` the day through which that holds, `due` says why it is
    to be checked again.
    """

    person: str
    step: Step
    state: str
    passed: int
    marks: tuple[Mark, ...]
    last: str = ""
    until: str = ""
    due: tuple[str, ...] = ()

    @property
    def holds(self) -> bool:
        """Whether the step is done and not due again."""
        return self.state == DONE


def named_person(catalog: Catalog, name: str) -> Person:
    """Give a person by name. Raises UnknownName with the nearest of people.csv."""
    if name not in catalog.people:
        raise UnknownName("person", name, catalog.people)
    return catalog.people[name]


def named_step(catalog: Catalog, name: str) -> Step:
    """Give a step by its id. Raises UnknownName with the nearest one."""
    if name not in catalog.first_year_steps:
        raise UnknownName("step", name, catalog.first_year_steps)
    return catalog.first_year_steps[name]


def in_order(catalog: Catalog) -> list[Step]:
    """Give every step in the order in which it is learned."""
    stages = catalog.first_year_stages
    return sorted(
        catalog.first_year_steps.values(), key=lambda one: (stages[one.stage].place, one.place)
    )


def is_adult(person: Person, day: str) -> bool:
    """Whether somebody is an adult on a day; a blank cell is an adult."""
    return day >= person.adult_from


def is_here(person: Person, day: str) -> bool:
    """Whether somebody works here on a day; the day of leaving is the last one."""
    return person.began <= day and (not person.left or day <= person.left)


def harms(step: Step) -> bool:
    """Whether a step is done with heat or with an open jar of solvent."""
    return step.hot or step.solvent


def standing(catalog: Catalog, name: str, step_id: str, day: str) -> Standing:
    """Give how far a person stands in a step on a day. Raises UnknownName."""
    key = ("standing", name, step_id, day)
    if key not in catalog.memo:
        step = named_step(catalog, step_id)
        catalog.memo[key] = _standing(catalog, named_person(catalog, name), step, day)
    found: Standing = catalog.memo[key]
    return found


def _standing(catalog: Catalog, person: Person, step: Step, day: str) -> Standing:
    marks: list[Mark] = []
    counted: list[SignOff] = []
    for one in _marks_of(catalog, person.person, step.id):
        if one.date <= day:
            why_not = _why_not(catalog, person, step, one, counted)
            marks.append(Mark(one, why_not))
            counted += [] if why_not else [one]
    told = {mark: [one.date for one in counted if one.mark == mark] for mark in ORDER}
    passes = told[ALONE]
    if not told[EXPLAINED]:
        state = next((mark for mark in (ALONE, HELPED, SHOWN) if told[mark]), OPEN)
        return Standing(person.person, step, state, len(passes), tuple(marks))
    last = _last(catalog, person, step, passes[-1], day)
    until = _later(last, _days(catalog)) if step.renew else ""
    due = []
    if until and until < day:
        due.append(f"more than {_days(catalog)} days without it since {last}")
    if step.new_material:
        due += _new_materials(catalog, passes[-1], day)
    state = DUE if due else DONE
    return Standing(person.person, step, state, len(passes), tuple(marks), last, until, tuple(due))


ORDER = (SHOWN, HELPED, ALONE, EXPLAINED)


def _marks_of(catalog: Catalog, person: str, step: str) -> list[SignOff]:
    """Give the marks of a person and a step by date, those of one day as they were written."""
    if OF_PEOPLE not in catalog.memo:
        grouped: dict[tuple[str, str], list[SignOff]] = {}
        for one in sorted(catalog.signoffs, key=lambda mark: mark.date):
            grouped.setdefault((one.person, one.step), []).append(one)
        catalog.memo[OF_PEOPLE] = grouped
    found: list[SignOff] = catalog.memo[OF_PEOPLE].get((person, step), [])
    return found


def _why_not(
    catalog: Catalog, person: Person, step: Step, one: SignOff, counted: list[SignOff]
) -> str:
    """Say why a mark does not count after those that do; "" where it does."""
    assessor = catalog.people.get(one.assessor)
    done = [mark.mark for mark in counted]
    before = {HELPED: SHOWN, ALONE: HELPED}.get(one.mark)
    why = ""
    if one.assessor == person.person:
        why = "nobody signs for himself or herself"
    elif assessor is None or assessor.role != ASSESSOR:
        why = f"{one.assessor} may not assess"
    elif not (is_here(person, one.date) and is_here(assessor, one.date)):
        why = "one of the two did not work here on that day"
    elif before and before not in done:
        why = f"nothing stands before it that says '{before}'"
    elif one.mark == EXPLAINED and done.count(ALONE) < step.times:
        why = f"it was done alone {done.count(ALONE)} of {step.times} times"
    elif one.mark == ALONE:
        why = _why_no_pass(step, one) or why_not_alone(catalog, person, step, one.date)
    return why


def _why_no_pass(step: Step, one: SignOff) -> str:
    """Say why work done alone does not pass by the tolerance written beside it."""
    if one.low is None and one.high is None:
        return "no tolerance stands beside it" if step.measured else ""
    if one.value is None:
        return "nothing was measured"
    low = one.low is not None and one.value < one.low
    high = one.high is not None and one.value > one.high
    return "outside the tolerance" if low or high else ""


def why_not_alone(catalog: Catalog, person: Person, step: Step, day: str) -> str:
    """Say why somebody may not be tried alone at a step on a day; "" where nothing speaks.

    Only heat and solvent ask: for an adult, and for the steps before, done and not due again.
    """
    if not harms(step):
        return ""
    if not is_adult(person, day):
        years = int(catalog.figure("adult-age").low)
        return f"under {years} until {person.adult_from}: with help only"
    missing = [name for name in step.needs if not standing(catalog, person.person, name, day).holds]
    return f"not done, or due again: {', '.join(missing)}" if missing else ""


def _days(catalog: Catalog) -> int:
    return int(catalog.span("recheck-after", "day")[0])


def _later(day: str, days: int) -> str:
    """Give the day so many days later, at most the last one of the calendar."""
    ordinal = datetime.date.fromisoformat(day).toordinal() + days
    return datetime.date.fromordinal(min(ordinal, datetime.date.max.toordinal())).isoformat()


def _last(catalog: Catalog, person: Person, step: Step, passed: str, day: str) -> str:
    """Give the last day of the task: passed alone, or by batches made before it ran out.

    What has run out does not come back by a batch: it is checked again.
    """
    last = passed
    for made in sorted(_batches(catalog, person.person)) if step.by_batch else []:
        if last < made <= min(day, _later(last, _days(catalog))):
            last = made
    return last


def _batches(catalog: Catalog, person: str) -> list[str]:
    return [made.date for made in catalog.pot_book.values() if made.made_by == person]


def _new_materials(catalog: Catalog, passed: str, day: str) -> list[str]:
    """Name the materials whose first lot came after a step was last passed alone."""
    first: dict[str, str] = {}
    for lot in catalog.lots.values():
        if lot.bought:
            first[lot.material] = min(lot.bought, first.get(lot.material, lot.bought))
    return [
        f"new material: {catalog.material(name).name} on the shelf since {bought}"
        for name, bought in first.items()
        if passed < bought <= day
    ]
