"""What this shop really uses: grams a plate and minutes a step, from its own books.

Each job gives one value, whatever its size, so that one large instrument does not drown the rest.
One job is a value without a spread. From two jobs on the figure is their mean, and its band is
where one more job is to be expected with 95 of 100: Student's t over the spread of the jobs, the
error of the mean with it. The spread is never taken as less than what the last digit of the rows
leaves open. Jobs are held to be alike: a band from accordions says little of a reed organ.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any

from formulas.books.records import grams_in
from formulas.catalog import Catalog
from formulas.entries import Figure
from formulas.frozen import Frozen
from formulas.jobs.held import DONE, events_of, jobs_known, state_of
from formulas.jobs.student import student_t

WAX = "wax-per-plate"
"""The figure of the trade that grams a plate stand beside."""
NO_SPREAD = 12.0  # a reading rounded to a step has the variance of the step squared over twelve
COLUMNS = ["of", "job", "amount", "count", "open"]
OWN_WAX, OWN_MINUTES, ELSEWHERE = "own wax", "own minutes", "own figures from elsewhere"
"""Where a catalog's memory holds the two tables of figures, and what tells them from elsewhere."""


class OwnFigure(Frozen):
    """A figure of this shop: of how many jobs, how many plates or pieces in them, and its band.

    `low` and `high` are None with one job only: it has no spread.
    """

    what: str
    jobs: int
    count: int
    low: float | None
    middle: float
    high: float | None
    unit: str

    def as_json(self) -> dict[str, Any]:
        """Give it under the names of its parts."""
        return dataclasses.asdict(self)

    def replaces(self, low: float, high: float) -> bool:
        """Tell whether it takes the place of a range of the trade.

        It does once its band is no wider than that range, or lies wholly beside it.
        """
        if self.low is None or self.high is None:
            return False
        beside = self.low > high or self.high < low
        return beside or self.high - self.low <= high - low


def grams_per_plate(catalog: Catalog) -> OwnFigure | None:
    """Give the wax on one plate over all jobs that are done and tell it; None without one."""
    found = _figures(catalog, OWN_WAX, list(_wax_rows(catalog)), "g")
    return found.get(WAX)


def minutes_of(catalog: Catalog, step: str) -> OwnFigure | None:
    """Give the minutes that one of a step's pieces took; None where no hours are written."""
    return minutes_by_step(catalog).get(step)


def minutes_by_step(catalog: Catalog) -> dict[str, OwnFigure]:
    """Give the minutes of every step that hours are written of, in the order of the work.

    Hours of a job that is not done count as well: they say for how many they are.
    """
    rows = [
        (one.step, one.job, one.minutes, one.done, _open(one.minutes) ** 2) for one in catalog.hours
    ]
    found = _figures(catalog, OWN_MINUTES, rows, "min")
    return {step: found[step] for step in catalog.work_steps if step in found}


def silent_jobs(catalog: Catalog) -> list[tuple[str, str]]:
    """Give each job that is done and tells nothing of the wax on a plate, with the reason."""
    weighed, unweighed = _used(catalog)
    said = []
    for job in jobs_known(catalog):
        if state_of(catalog, job) == DONE:
            if not _waxed(catalog, job):
                said.append((job, "no plates in wax were counted"))
            elif job in unweighed:
                said.append((job, "a use of wax has no weight"))
            elif job not in weighed:
                said.append((job, "no wax is written for it"))
    return said


def verdict(own: OwnFigure | None, low: float, high: float) -> str:
    """Say whether the figure of the shop or the range of the trade counts."""
    if own is None:
        return "No job of this shop tells it yet: the range of the trade stands."
    if own.low is None:
        return "One job has no spread: the range of the trade stands, and the one value beside it."
    if own.replaces(low, high):
        return f"The shop's own figure takes the place of the trade's: {own.jobs} jobs."
    return (
        f"The band of this shop's {own.jobs} jobs is still wider than the range of the trade,"
        " which stands: every further job narrows it."
    )


def wax_of_trade(catalog: Catalog) -> Figure:
    """Give the rule of thumb that grams a plate stand beside."""
    return catalog.figure(WAX)


Figures = dict[str, dict[str, OwnFigure]]
"""The tables of figures by their name in a catalog's memory, each by what its figures are of."""


def figures_of(catalog: Catalog) -> Figures:
    """Give both tables of figures, so that they can be handed on."""
    grams_per_plate(catalog)
    minutes_by_step(catalog)
    return {name: catalog.memo[name] for name in (OWN_WAX, OWN_MINUTES)}


def reckoned_elsewhere(catalog: Catalog, told: Callable[[], Mapping[str, Any]]) -> None:
    """Have the figures told by who reckons them beside, once they are needed.

    A table that is not told is reckoned here.
    """
    catalog.memo[ELSEWHERE] = told


Row = tuple[str, str, float, int, float]
"""Of what, job, amount, how many, and the square of what its last digit leaves open."""


def _wax_rows(catalog: Catalog) -> Iterator[Row]:
    weighed, unweighed = _used(catalog)
    for job, amounts in weighed.items():
        plates = _waxed(catalog, job)
        if job not in unweighed and plates and state_of(catalog, job) == DONE:
            grams = sum(amount * grams_in(unit) for amount, unit in amounts)
            left_open = sum((_open(amount) * grams_in(unit)) ** 2 for amount, unit in amounts)
            yield WAX, job, grams, plates, left_open


def _used(catalog: Catalog) -> tuple[dict[str, list[tuple[float, str]]], set[str]]:
    """Give the wax that each job used, and the jobs with a use that was not weighed."""
    weighed: dict[str, list[tuple[float, str]]] = {}
    unweighed = set()
    for use in catalog.pot_uses:
        if use.amount is None:
            unweighed.add(use.job)
        else:
            weighed.setdefault(use.job, []).append((use.amount, use.unit))
    return weighed, unweighed


def _waxed(catalog: Catalog, job: str) -> int:
    """Give how many plates of a job lie in wax, as counted when it was last done."""
    done = [event for event in events_of(catalog, job) if event.what == DONE]
    if not done or done[-1].plates is None:
        return 0
    return done[-1].plates if done[-1].waxed is None else done[-1].waxed


def _open(value: float) -> float:
    """Give the step of the last digit that a value was written with."""
    exponent = Decimal(repr(float(value))).normalize().as_tuple().exponent
    return 10.0 ** min(0, int(exponent))


def _figures(catalog: Catalog, name: str, rows: Sequence[Row], unit: str) -> dict[str, OwnFigure]:
    """Give the figures of all that rows tell of, from the catalog's memory where they were made."""
    if name not in catalog.memo and rows and ELSEWHERE in catalog.memo:
        catalog.memo.update(catalog.memo.pop(ELSEWHERE)())
    if name not in catalog.memo:
        catalog.memo[name] = _figured(rows, unit) if rows else {}
    found: dict[str, OwnFigure] = catalog.memo[name]
    return found


def _figured(rows: Sequence[Row], unit: str) -> dict[str, OwnFigure]:
    import pandas

    frame = pandas.DataFrame(rows, columns=COLUMNS)
    jobs = frame.groupby(["of", "job"], sort=False)[["amount", "count", "open"]].sum()
    jobs["each"] = jobs["amount"] / jobs["count"]
    jobs["unread"] = jobs["open"] / NO_SPREAD / jobs["count"] ** 2
    told = jobs.groupby("of", sort=False).agg(
        jobs=("each", "size"),
        count=("count", "sum"),
        middle=("each", "mean"),
        spread=("each", "var"),
        unread=("unread", "mean"),
    )
    return {row.Index: _figure(row, unit) for row in told.itertuples()}


def _figure(row: Any, unit: str) -> OwnFigure:
    """Make a figure of what a group's jobs say: their number, mean and variance."""
    jobs, middle = int(row.jobs), float(row.middle)
    if jobs < 2:
        return OwnFigure(row.Index, jobs, int(row.count), None, middle, None, unit)
    variance = max(float(row.spread), float(row.unread)) * (1 + 1 / jobs)
    half = student_t(jobs - 1) * variance**0.5
    low = max(0.0, middle - half)  # neither wax nor time is below nought
    return OwnFigure(row.Index, jobs, int(row.count), low, middle, middle + half, unit)
