"""A job: an instrument as its job file describes it, its blocks, its plates, and what it needs."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING

from formulas.frozen import Frozen

if TYPE_CHECKING:
    from formulas.answer import Answer, Band, Quantity
    from formulas.catalog import Catalog
    from formulas.job_entries import WorkStep
    from formulas.valves.rank import Size
    from formulas.valves.valves import Chosen

AT_WORK = "job at work"
"""The name under which a catalog's memo holds the job whose folder is written."""
KEPT = ("valves", "wax", "plates")
"""What an owner may ask to keep as it was found."""
NOISE = 1e-9
"""Of a pot: what a sum of floats leaves, and no scale shows."""


class JobRank(Frozen):
    """A rank of the job: plates a semitone apart from `lowest`, or one a note of `notes`."""

    rank: str
    name: str
    lowest: str
    plates: int
    posture: str
    tongues: int
    notes: tuple[str, ...] = ()
    line: int = 0


class JobBlock(Frozen):
    """A block, or a pan: which plates of which rank it holds, and how they are seated.

    `first` and `last` count the plates of the rank from its lowest, from 1. `row_m` is the length
    along which plates stand side by side, `face_m` the width of the face that a plate lies across;
    None where nobody measured. `found` gives the id of a survey grade for what was graded.
    `long_plates` is how many plates carry all its notes; 0 where each note has its own.
    """

    block: str
    name: str
    rank: str
    first: int
    last: int
    row_m: float | None
    face_m: float | None
    gap_m: float | None
    seating: str
    gasket: str
    metal: str
    keep: tuple[str, ...]
    found: Mapping[str, str]
    line: int = 0
    long_plates: int = 0

    @property
    def count(self) -> int:
        """How many notes of its rank it holds: each has a plate, or a place on a long one."""
        return self.last - self.first + 1

    @property
    def plates(self) -> int:
        """How many plates are taken off it."""
        return self.long_plates or self.count


class TypedPlate(Frozen):
    """What was measured of one plate; lengths in m, None where it was not."""

    rank: str
    note: str
    length_m: float | None
    width_m: float | None
    thickness_m: float | None
    slot_length_m: float | None
    slot_width_m: float | None
    line: int = 0


class Job(Frozen):
    """A job file as read and checked. `invented` where it is a demo.

    `measured` names the instrument of plates.csv whose plates are this one's; "" where none are.
    """

    job: str
    about: str
    layout: str
    measured: str
    opened: str
    blend: str
    valve_kind: str
    glue: str
    reclaimed: bool
    session_s: float
    invented: bool
    ranks: tuple[JobRank, ...]
    blocks: tuple[JobBlock, ...]
    plates: tuple[TypedPlate, ...]
    file: str


class JobPlate(Frozen):
    """One plate of the job. `mark` is what is written on its box: block and position, "1-07".

    Positions count from 1 along the block, lowest note first. Lengths in m with their ends.
    """

    mark: str
    block: str
    position: int
    rank: str
    note: str
    midi: int
    length: Size
    width: Size
    thickness: Size
    seating: str
    metal: str
    tongues: int
    measured: bool
    keeps_valves: bool
    keeps_wax: bool


class Part(Frozen):
    """One row that a total is made of: where it comes from, and how much, in the total's unit."""

    where: str
    count: int
    amount: float


class Line(Frozen):
    """One line of the needs list: an item with its band, and the rows it is the sum of.

    The amounts of `parts` add up to `amount.estimate`, or to the middle of its ends where it has
    none.
    """

    group: str
    item: str
    name: str
    amount: Band
    parts: tuple[Part, ...]
    basis: str
    note: str = ""


class Held(Frozen):
    """What a job takes of something at hand: of a lot, a batch, a valve stock, a skin."""

    kind: str
    of: str
    amount: Quantity
    note: str = ""


class Bought(Frozen):
    """What must be bought of one item: the need, what is at hand, what is left to buy."""

    item: str
    name: str
    need: Band
    at_hand: tuple[Held, ...]
    buy: Band
    cost: Band | None
    note: str = ""


class StepNeed(Frozen):
    """The time of one step on one block (or the whole job: block ""), in minutes."""

    step: WorkStep
    block: str
    count: int
    low: float
    high: float
    changed_by: tuple[str, ...]
    basis: str


class Pot(Frozen):
    """One batch to melt: for which blocks, how much, when in the order of work.

    `ready` is what is melted first, of batches that stand ready; the rest is weighed out fresh.
    """

    number: int
    blocks: tuple[str, ...]
    plates: int
    grams: float
    when: str
    ready: tuple[Held, ...] = ()

    @property
    def fresh(self) -> float:
        """How many grams are weighed out of the materials themselves."""
        rest = self.grams - math.fsum(one.amount.value for one in self.ready)
        return rest if rest > NOISE * self.grams else 0.0


class Whole(Frozen):
    """A job worked out: everything the needs list and the job folder show.

    `catalog` is the shop's with the ranks and the measured plates of the job in it, under the
    instrument `job.job`: `rank_slots(whole.catalog, whole.job.job, rank)` and all of `valves`
    and `cut` work on it. `wax_to_have` is what pots and shopping go by, in g: from the lowest to
    the highest end of all that speaks of it. `wax_weight` tells which figure or rank the width of
    the wax by its geometry hangs on, as its share of the squared half width.
    """

    job: Job
    catalog: Catalog
    plates: tuple[JobPlate, ...]
    chosen: tuple[Chosen, ...]
    plan: Answer
    lines: tuple[Line, ...]
    steps: tuple[StepNeed, ...]
    pots: tuple[Pot, ...]
    bought: tuple[Bought, ...]
    wax_by_rule: Band
    wax_own: Band | None
    hours: Band
    cost: Band | None
    notes: tuple[str, ...] = field(default=())
    wax_to_have: Band | None = None
    wax_weight: tuple[tuple[str, float], ...] = field(default=())
