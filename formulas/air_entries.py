"""What one row of the tables of solvents, of air limits and of the shelf is.

A blank cell is None for a number and "" for a text: unknown, never nought. Dates are ISO texts.
"""

from __future__ import annotations

from formulas.frozen import Frozen


class Solvent(Frozen):
    """A solvent of the bench; `gentle` is the order in which it is tried, 1 first.

    `parts` are what a mixture is reckoned as, "ethanol:90-96" in volume percent; `stands_in` is
    the solvent whose vapour is taken where its own is not known.
    """

    id: str
    name: str
    also_called: str
    cas: str
    kind: str
    parts: tuple[str, ...]
    stands_in: str
    gentle: int
    used_for: str
    never_for: str
    leather_finish: str
    shellac: str
    celluloid: str
    wax: str
    rosin: str
    tasks: tuple[str, ...]
    about: str
    basis: str
    source: str
    where: str
    note: str


class CleaningTask(Frozen):
    """What is to come off a part of an instrument, and what is tried before any solvent."""

    id: str
    name: str
    dry: str
    done: str
    basis: str
    source: str
    where: str
    note: str


class SolventFact(Frozen):
    """A value of a solvent, in the unit of its source."""

    solvent: str
    property: str
    low: float | None
    high: float | None
    unit: str
    method: str
    condition: str
    basis: str
    source: str
    where: str
    note: str


class ExposureLimit(Frozen):
    """A limit that a body set for the air of a workplace; `none_set` where it has set none."""

    solvent: str
    body: str
    kind: str
    value: float | None
    unit: str
    none_set: bool
    name: str
    year: int | None
    basis: str
    source: str
    where: str
    note: str


class SolventHazard(Frozen):
    """A hazard statement of a solvent."""

    solvent: str
    code: str
    basis: str
    source: str
    where: str
    note: str


class Incompatible(Frozen):
    """Two things that do not stand together, and what happens where they meet."""

    first: str
    second: str
    what_happens: str
    keep_apart: str
    basis: str
    source: str
    where: str
    note: str


class Protection(Frozen):
    """What to do first and what to wear at a task, in general classes."""

    id: str
    task: str
    harm: str
    first: str
    gloves: str
    eyes: str
    breathing: str
    cautions: tuple[str, ...]
    basis: str
    source: str
    where: str
    note: str


class Chemical(Frozen):
    """What stands on the shop's shelf that can harm, and its safety data sheet."""

    chemical: str
    solvent: str
    amount: float | None
    unit: str
    place: str
    sheet_held: bool
    sheet_date: str
    opened: str
    use_by: str
    hazard_codes: tuple[str, ...]
    basis: str
    note: str
