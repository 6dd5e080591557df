"""Small first years: two steps, a few people, marks in one line each."""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Mapping, Sequence

from book_trials import batch, blank
from leaf_reading import trade

from formulas.book_entries import PotBatch
from formulas.catalog import Catalog
from formulas.entries import Lot
from formulas.first_year_entries import Person, SignOff, Stage, Step

DAY0 = datetime.date(2026, 1, 1)
COLD, HOT = "cold", "hot"
LEARNER, ASSESSOR, WORKER = "Lena", "Anna", "Willi"


def on(day: int) -> str:
    """Give the date of a day counted from the first."""
    return (DAY0 + datetime.timedelta(day)).isoformat()


def mark(
    day: int | str, step: str, what: str, value: float | None = None, by: str = ASSESSOR
) -> SignOff:
    """Write one mark of the learner; work alone passes from 0 to 1."""
    date = day if isinstance(day, str) else on(day)
    ends = {"low": 0.0, "high": 1.0} if what == "alone" else {}
    cells = {"step": step, "mark": what, "value": value, "assessor": by, "basis": "measured"}
    made: SignOff = blank(SignOff, date=date, person=LEARNER, **cells, **ends)
    return made


def done(day: int | str, *steps: str) -> list[SignOff]:
    """Write all marks of steps that are done on one day."""
    return [
        mark(day, step, what, 0.5 if what == "alone" else None)
        for step in steps
        for what in ("shown", "helped", "alone", "explained")
    ]


STEPS = {
    COLD: blank(
        Step, id=COLD, stage="one", place=10, times=1, measured="miss", high=1.0, renew=True,
        read=(), needs=(), cautions=(),
    ),
    HOT: blank(
        Step, id=HOT, stage="one", place=20, times=1, measured="miss", high=1.0, needs=(COLD,),
        hot=True, by_batch=True, gives="hot-wax-alone", renew=True, new_material=True,
        read=(), cautions=(),
    ),
}  # fmt: skip
STAGES = {"one": blank(Stage, id="one", place=10, name="One")}


def first_year(
    marks: Sequence[SignOff] = (),
    *,
    adult_from: str = "",
    left: str = "",
    days: int | None = None,
    batches: Sequence[str] = (),
    bought: Sequence[str] = (),
    steps: Mapping[str, Step] | None = None,
) -> Catalog:
    """Give the trade with two steps, three people and these marks.

    `days` is how long a sign-off holds, where it is not that of the trade.
    """
    people = [
        Person(LEARNER, "learner", on(0), adult_from, left, "measured"),
        Person(ASSESSOR, "assessor", "2000-01-01", "", "", "measured"),
        Person(WORKER, "worker", "2000-01-01", "", "", "measured"),
    ]
    figures = dict(trade().figures)
    if days is not None:
        old = figures["recheck-after"]
        figures["recheck-after"] = dataclasses.replace(old, low=days, high=days, typical=days)
    lots = [
        blank(Lot, lot=str(at), material="beeswax-yellow", bought=one)
        for at, one in enumerate(bought)
    ]
    pots: list[PotBatch] = [batch(str(at), one, made_by=LEARNER) for at, one in enumerate(batches)]
    return dataclasses.replace(
        trade(),
        figures=figures,
        first_year_stages=STAGES,
        first_year_steps=dict(steps or STEPS),
        people={one.person: one for one in people},
        signoffs=list(marks),
        pot_book={one.batch: one for one in pots},
        lots={one.lot: one for one in lots},
    )
