"""Who may do what alone on a day: hot wax, the iron, solvent.

Every step that is asked for is done and not due again, the person is an adult on that day and
works here on it. An assessor may by the shop's own word, never under the age of an adult. There
is no other way: no option, no setting and no argument reaches these rules.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.frozen import Frozen
from formulas.people.standing import (
    ASSESSOR,
    DUE,
    Standing,
    in_order,
    is_adult,
    is_here,
    named_person,
    standing,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.first_year_entries import Person, Step

HOT_WAX, IRON, SOLVENT = "hot-wax-alone", "iron-alone", "solvent-alone"
WHAT = (HOT_WAX, IRON, SOLVENT)
WORDS = {HOT_WAX: "hot wax", IRON: "the iron", SOLVENT: "solvent"}


class May(Frozen):
    """Whether somebody may do something alone on a day, through which day, and why not.

    `until` is "" where no day is set: nothing runs out by itself.
    """

    person: str
    what: str
    may: bool
    until: str
    why_not: tuple[str, ...]


def needed_for(catalog: Catalog, what: str) -> list[Step]:
    """Give the steps that give something, after all that they need, in the order of learning."""
    wanted: set[str] = set()
    waiting = [one.id for one in catalog.first_year_steps.values() if one.gives == what]
    while waiting:
        name = waiting.pop()
        if name not in wanted:
            wanted.add(name)
            waiting += catalog.first_year_steps[name].needs
    return [one for one in in_order(catalog) if one.id in wanted]


def may(catalog: Catalog, name: str, what: str, day: str) -> May:
    """Say whether a person may do something alone on a day. Raises UnknownName."""
    person = named_person(catalog, name)
    why_not = [*_not_here(person, day), *_too_young(catalog, person, day)]
    ends = [person.left]
    if person.role != ASSESSOR:
        steps = [standing(catalog, name, one.id, day) for one in needed_for(catalog, what)]
        why_not += _not_done(steps) if steps else [f"no step of the first year gives {what}"]
        ends += [one.until for one in steps]
    until = min(filter(None, ends), default="")
    return May(name, what, not why_not, "" if why_not else until, tuple(why_not))


def who_may(catalog: Catalog, what: str, day: str) -> list[str]:
    """Name everybody who may do something alone on a day."""
    return [name for name in catalog.people if may(catalog, name, what, day).may]


def _not_here(person: Person, day: str) -> list[str]:
    if is_here(person, day):
        return []
    return [f"begins on {person.began}" if day < person.began else f"left on {person.left}"]


def _too_young(catalog: Catalog, person: Person, day: str) -> list[str]:
    if is_adult(person, day):
        return []
    years = int(catalog.figure("adult-age").low)
    return [f"under {years} until {person.adult_from}: never alone with heat or solvent"]


def _not_done(steps: list[Standing]) -> list[str]:
    missing = [one.step.id for one in steps if not one.holds and one.state != DUE]
    said = [f"not done: {', '.join(missing)}"] if missing else []
    for reason in dict.fromkeys(reason for one in steps for reason in one.due):
        names = [one.step.id for one in steps if reason in one.due]
        said.append(f"due again: {', '.join(names)} ({reason})")
    return said
