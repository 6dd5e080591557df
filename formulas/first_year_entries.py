"""What one row of the tables of words, of learning, of sign-offs and of prints is.

A blank cell is None for a number and "" for a text: unknown, never nought. Dates are ISO texts.
"""

from __future__ import annotations

from formulas.frozen import Frozen


class Term(Frozen):
    """A word of the trade; `also` are other words for it, with semicolons between."""

    id: str
    term: str
    also: str
    meaning: str
    not_this: str
    leaf: str
    listed: bool
    basis: str
    source: str
    where: str
    note: str


class Stage(Frozen):
    """A stage of learning, in its place of the order."""

    id: str
    place: int
    name: str
    about: str
    basis: str
    source: str
    where: str
    note: str


class Step(Frozen):
    """What is learned in one step, and when it counts as learned.

    Work done alone passes between `low` and `high`, in `unit`, and is done `times` times.
    `gives` names what may be done alone once it is signed.
    """

    id: str
    stage: str
    place: int
    name: str
    read: tuple[str, ...]
    shown: str
    helped: str
    alone: str
    explain: str
    measured: str
    low: float | None
    high: float | None
    unit: str
    times: int
    needs: tuple[str, ...]
    hot: bool
    solvent: bool
    by_batch: bool
    gives: str
    renew: bool
    new_material: bool
    topic: str
    cautions: tuple[str, ...]
    basis: str
    source: str
    where: str
    note: str


class PracticeTopic(Frozen):
    """What a practice sheet exercises, the leaf that teaches it, the command that answers it."""

    id: str
    place: int
    name: str
    teaches: str
    leaf: str
    command: str
    basis: str
    source: str
    where: str
    note: str


class PracticeRange(Frozen):
    """The ends and the step of a number that an exercise draws."""

    id: str
    topic: str
    what: str
    low: float
    high: float
    step: float
    unit: str
    basis: str
    source: str
    where: str
    note: str


class Person(Frozen):
    """Somebody who works in the shop; nothing of health is kept."""

    person: str
    role: str
    began: str
    adult_from: str
    left: str
    basis: str


class SignOff(Frozen):
    """One mark of one step for one person, with the tolerance as it stood on that day."""

    date: str
    person: str
    step: str
    mark: str
    value: float | None
    unit: str
    low: float | None
    high: float | None
    seen_on: str
    assessor: str
    basis: str


class PrintedLeaf(Frozen):
    """A leaf as it stands on paper, or that it was taken out."""

    date: str
    leaf: str
    title: str
    what: str
    revision: int
    pages: int | None
    digest: str
    layout: str
