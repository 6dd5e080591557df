"""What one row of the tables of seating and of whole jobs is.

A blank cell is None for a number and "" for a text: unknown, never nought. Dates are ISO texts.
"""

from __future__ import annotations

from formulas.frozen import Frozen


class SeatingMethod(Frozen):
    """A way to seat a plate. `tight` and `holding` run from 1, poor, to 3, as wax; None unknown."""

    id: str
    name: str
    group: str
    takes: tuple[str, ...]
    plate_forms: tuple[str, ...]
    metals: tuple[str, ...]
    blocks: tuple[str, ...]
    seal: str
    hold: str
    tight: int | None
    holding: int | None
    reversible: str
    reversed_by: str
    later_wax: str
    service_low: float | None
    service_high: float | None
    service_unit: str
    in_heat: str
    in_cold: str
    in_damp: str
    in_travel: str
    minutes_low: float | None
    minutes_high: float | None
    tools: str
    leak_paths: str
    found_in: str
    never: str
    last_resort: bool
    refused: str
    cautions: tuple[str, ...]
    basis: str
    source: str
    where: str
    note: str


class GasketMaterial(Frozen):
    """What gaskets are cut from; thickness in mm, squeeze in percent of it, modulus in MPa."""

    id: str
    name: str
    thickness_low: float | None
    thickness_high: float | None
    squeeze_low: float | None
    squeeze_high: float | None
    modulus_low: float | None
    modulus_high: float | None
    takes_set: str
    about: str
    basis: str
    source: str
    where: str
    note: str


class WorkStep(Frozen):
    """A step of a job; `minutes` are for one of what `per` says, on `face` only where it is told.

    `applies` holds "any", groups of seating methods, "kept-valves" and its like where the owner
    keeps these, or "found" where only a grade of the survey asks for it. `spared_by` names what,
    kept, makes the step fall away. `hold_point`: work stops there till it is signed.
    """

    id: str
    place: int
    name: str
    per: str
    face: str
    minutes_low: float
    minutes_high: float
    applies: tuple[str, ...]
    spared_by: tuple[str, ...]
    hold_point: bool
    done_when: str
    leaf: str
    cautions: tuple[str, ...]
    basis: str
    source: str
    where: str
    note: str


class SurveyGrade(Frozen):
    """A grade of what was found; `steps` are changes such as "lift-plate:1.3-2"."""

    id: str
    what: str
    grade: str
    rank: int
    looks: str
    how_to_tell: str
    implies: str
    keep: str
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    basis: str
    source: str
    where: str
    note: str


class Layout(Frozen):
    """A common layout of an instrument; its ranks stand in ranks.csv under the same id."""

    id: str
    name: str
    kind: str
    tongues_per_plate: int
    keys: int | None
    bass_buttons: int | None
    seating: str
    basis: str
    source: str
    where: str
    note: str


class JobEvent(Frozen):
    """What happened to a job on a day; the last one of a job says how it stands.

    `plates` are those of the whole job, `waxed` those of them that lie in wax: None, all.
    """

    job: str
    date: str
    what: str
    instrument: str
    file: str
    plates: int | None
    valves: int | None
    basis: str
    note: str
    waxed: int | None = None


class Reservation(Frozen):
    """What is kept back for a job; of one job and one thing the last row counts."""

    job: str
    date: str
    kind: str
    of: str
    amount: float
    unit: str
    basis: str
    note: str


class StockUse(Frozen):
    """A skin, or pieces of valve stock, that a job took."""

    job: str
    date: str
    stock: str
    skin: str
    pieces: int | None
    valves: int | None
    spent: bool
    used_by: str
    basis: str
    note: str


class HoursWorked(Frozen):
    """How long a step took for how many."""

    job: str
    date: str
    step: str
    done: int
    minutes: float
    worked_by: str
    basis: str
    note: str
