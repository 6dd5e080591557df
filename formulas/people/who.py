"""The answer of `who`: who may do what alone on a day, or how far one person stands."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from formulas.answer import Answer, Basis
from formulas.fault import UnknownName
from formulas.people.may import WHAT, May, may
from formulas.people.standing import (
    DONE,
    DUE,
    Standing,
    harms,
    in_order,
    is_adult,
    is_here,
    named_person,
    standing,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.first_year_entries import Person

NEXT = 3  # steps named as the next ones
NOBODY = "Nobody stands in people.csv yet: `benchbinder record person` enters somebody."
NOT_TODAY = "It tells of {day}: another day has another answer."


def who(catalog: Catalog, day: str, name: str = "", what: str = "") -> Answer:
    """Give who may do what alone on a day: everybody, or one person with every step.

    Raises UnknownName for a person or a permission that is not there.
    """
    if what and what not in WHAT:
        raise UnknownName("what may be done alone", what, WHAT)
    people = [named_person(catalog, name)] if name else list(catalog.people.values())
    answer: dict[str, Any] = {
        "on": day,
        "people": [_person(catalog, one, day, [what] if what else WHAT) for one in people],
    }
    if name and not what:
        found = standings(catalog, name, day)
        answer["steps"] = [as_told(one) for one in found]
        answer["next"] = [one.step.id for one in next_steps(catalog, found, day)]
    notes = [] if catalog.people else [NOBODY]
    inputs = {"on": day, "person": name or None, "may": what or None}
    return Answer("who", answer, inputs, rests_on(catalog), catalog.warned("who"), notes)


def standings(catalog: Catalog, name: str, day: str) -> list[Standing]:
    """Give how far a person stands in every step, in the order of learning."""
    return [standing(catalog, name, one.id, day) for one in in_order(catalog)]


def next_steps(catalog: Catalog, found: list[Standing], day: str) -> list[Standing]:
    """Give what comes next: what is due again, then steps begun or open whose needs hold.

    Somebody who may not be tried alone yet is still shown hot work, and does it with help.
    """
    holds = {one.step.id for one in found if one.holds}
    ready = [one for one in found if set(one.step.needs) <= holds]
    due = [one for one in ready if one.state == DUE]
    rest = [one for one in ready if one.state not in {DONE, DUE}]
    if found and not is_adult(catalog.people[found[0].person], day):
        rest = [one for one in rest if not harms(one.step) or not one.step.gives]
    return [*due, *rest][:NEXT]


def _person(
    catalog: Catalog, one: Person, day: str, asked: tuple[str, ...] | list[str]
) -> dict[str, Any]:
    return {
        "person": one.person,
        "role": one.role,
        "here": is_here(one, day),
        "may": {what: _told(may(catalog, one.person, what, day)) for what in asked},
    }


def _told(found: May) -> dict[str, Any]:
    return {"may": found.may, "until": found.until or None, "why_not": list(found.why_not)}


def as_told(one: Standing) -> dict[str, Any]:
    """Give a standing under the names of an answer."""
    return {
        "step": one.step.id,
        "name": one.step.name,
        "stage": one.step.stage,
        "state": one.state,
        "alone": one.passed,
        "times": one.step.times,
        "until": one.until or None,
        "due": list(one.due),
        "marks": [
            {
                "date": mark.signoff.date,
                "mark": mark.signoff.mark,
                "value": mark.signoff.value,
                "unit": mark.signoff.unit,
                "low": mark.signoff.low,
                "high": mark.signoff.high,
                "seen_on": mark.signoff.seen_on,
                "assessor": mark.signoff.assessor,
                "counts": not mark.why_not,
                "why_not": mark.why_not,
            }
            for mark in one.marks
        ],
    }


def rests_on(catalog: Catalog) -> list[Basis]:
    """Give what the answer rests on: the shop's own marks, the steps, the two figures."""
    kinds = dict.fromkeys(one.basis for one in catalog.people.values())
    rows = [Basis("People and sign-offs", kind) for kind in kinds]
    tolerances = dict.fromkeys(one.basis for one in catalog.first_year_steps.values())
    rows += [Basis("Steps of the first year and what passes", kind) for kind in tolerances]
    figures = (catalog.figure("recheck-after"), catalog.figure("adult-age"))
    return [*rows, *(Basis(one.what, one.basis, one.source) for one in figures)]
