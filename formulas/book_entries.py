"""What one row of the shop's books is: batches, what went in, where they went, their tests.

A blank cell is None for a number and "" for a text: unknown, never nought. Dates are ISO texts.
"""

from __future__ import annotations

from formulas.frozen import Frozen


class PotBatch(Frozen):
    """A batch that was melted. `parts` is the ratio as made; `revision` stands for it.

    `yielded` is the column `yield`, a word that the language keeps for itself.
    """

    batch: str
    date: str
    blend: str
    parts: str
    revision: str
    wax: str
    scale: str
    made_by: str
    checked_by: str
    top_temperature: float | None
    temperature_unit: str
    make_up_minutes: float | None
    held_hours: float | None
    yielded: float | None
    unit: str
    retest_by: str
    discarded: str
    basis: str
    note: str
    job: str = ""


class PotLot(Frozen):
    """What was weighed into a batch from one lot; no material where the lot is an older batch."""

    batch: str
    material: str
    lot: str
    target: float | None
    actual: float | None
    unit: str
    basis: str


class PotUse(Frozen):
    """Where some of a batch was used."""

    batch: str
    job: str
    date: str
    amount: float | None
    unit: str
    used_by: str
    basis: str
    note: str


class SofteningTest(Frozen):
    """One softening test of this shop, in the unit it was read in.

    A reading stands in `low`. Bounds: `low` held, `high` moved, one may be None. `firmer`:
    `sample` outlasted `other`. A test with a reason in `left_out` does not count.
    """

    test: str
    date: str
    session: str
    rig: str
    checked: bool
    method: str
    result: str
    sample: str
    other: str
    low: float | None
    high: float | None
    unit: str
    plate: str
    own_stress: float | None
    load: float | None
    lots: str
    tested_by: str
    left_out: str
    basis: str
    note: str
