"""The answers of `record jobs` and `record figures`, and what a check should say of jobs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from formulas.answer import Answer, Band, Basis, Quantity
from formulas.books.record_entry import basis_of
from formulas.books.records import grams_in
from formulas.catalog import Catalog
from formulas.job_entries import Reservation
from formulas.jobs.held import (
    OPEN,
    as_kept,
    events_of,
    free_of,
    jobs_known,
    kept_of,
    live_reservations,
    said,
    state_of,
)
from formulas.jobs.own_figures import (
    OwnFigure,
    grams_per_plate,
    minutes_by_step,
    silent_jobs,
    verdict,
    wax_of_trade,
)

BAND = "95 of 100 further jobs"
OWN_ROWS = "this shop's own rows"


def jobs(catalog: Catalog) -> Answer:
    """List every job: how it stands, its wax, its hours, its plates, what is kept back for it."""
    grams, minutes, unweighed = _used(catalog)
    kept: dict[str, list[Reservation]] = {}
    for one in live_reservations(catalog):
        kept.setdefault(one.job, []).append(one)
    listed = [
        {
            "job": job,
            "state": state_of(catalog, job),
            "since": events_of(catalog, job)[-1].date,
            "instrument": _last(catalog, job, "instrument"),
            "file": _last(catalog, job, "file"),
            "plates": _last(catalog, job, "plates"),
            "valves": _last(catalog, job, "valves"),
            "wax": Quantity(grams[job], "g") if job in grams else None,
            "wax_not_weighed": job in unweighed,
            "hours": Quantity(minutes[job] / 60, "h") if job in minutes else None,
            "kept_back": [as_kept(one) for one in kept.get(job, [])],
        }
        for job in jobs_known(catalog)
    ]
    return Answer("record-jobs", {"jobs": listed}, {}, [], [], job_notices(catalog))


def _used(catalog: Catalog) -> tuple[dict[str, float], dict[str, float], set[str]]:
    """Give grams and minutes by job, and the jobs in which a use of wax has no weight."""
    grams: dict[str, float] = {}
    minutes: dict[str, float] = {}
    unweighed = set()
    for use in catalog.pot_uses:
        if use.amount is None:
            unweighed.add(use.job)
        else:
            grams[use.job] = grams.get(use.job, 0.0) + use.amount * grams_in(use.unit)
    for one in catalog.hours:
        minutes[one.job] = minutes.get(one.job, 0.0) + one.minutes
    return grams, minutes, unweighed


def _last(catalog: Catalog, job: str, column: str) -> Any:
    """Give what the last row that says it says."""
    said = [getattr(event, column) for event in events_of(catalog, job)]
    return next((one for one in reversed(said) if one not in {None, ""}), None)


def figures(catalog: Catalog) -> Answer:
    """Give what this shop really uses, each figure beside the trade's, and which of them counts."""
    trade = wax_of_trade(catalog)
    own = grams_per_plate(catalog)
    wax = _beside(own, Band(trade.low, None, trade.high, trade.unit, trade.basis))
    steps = []
    for name, figure in minutes_by_step(catalog).items():
        step = catalog.work_steps[name]
        band = Band(step.minutes_low, None, step.minutes_high, "min", step.basis)
        steps.append({"step": name, "name": step.name, "per": step.per, **_beside(figure, band)})
    silent = [{"job": job, "why": why} for job, why in silent_jobs(catalog)]
    answer = {"grams_per_plate": wax, "minutes_by_step": steps, "jobs_that_tell_nothing": silent}
    basis = [Basis(OWN_ROWS, basis_of(catalog))] if own or steps else []
    basis.append(Basis(f"trade: {trade.what}", trade.basis, trade.source))
    basis += [Basis(f"trade: {one['name']}", one["trade"].method) for one in steps]
    return Answer("record-figures", answer, {}, basis, [], [])


def _beside(own: OwnFigure | None, trade: Band) -> dict[str, Any]:
    return {
        "own": own,
        "band": BAND if own and own.low is not None else None,
        "trade": trade,
        "counts": "own" if own and own.replaces(trade.low, trade.high) else "trade",
        "verdict": verdict(own, trade.low, trade.high),
    }


def job_notices(catalog: Catalog) -> list[str]:
    """Give what a check should say of jobs though no cell is at fault.

    More kept back than is left, and a job that was closed by hand with something still kept.
    """
    return [*_kept_too_much(catalog), *_kept_by_closed(catalog)]


def _kept_too_much(catalog: Catalog) -> Iterator[str]:
    for kind, of in dict.fromkeys((one.kind, one.of) for one in live_reservations(catalog)):
        free = free_of(catalog, kind, of)
        if free is not None and free.value < 0:
            holders = ", ".join(one.job for one in kept_of(catalog, kind, of))
            yield (
                f"reservations.csv: {of}: {said(-free.value)} {free.unit} more is"
                f" kept back than is left, for {holders}. Count what is there, then give some back."
            )


def _kept_by_closed(catalog: Catalog) -> Iterator[str]:
    last = {(one.job, one.kind, one.of): one for one in sorted(catalog.reservations, key=_day)}
    left: dict[str, list[str]] = {}
    for one in last.values():
        if one.amount and state_of(catalog, one.job) not in {OPEN, ""}:
            left.setdefault(one.job, []).append(one.of)
    for job, things in left.items():
        yield (
            f"reservations.csv: {job} is {state_of(catalog, job)} and its rows still keep back"
            f" {', '.join(things)}: they are free for others. Give them back with a row of 0."
        )


def _day(one: Reservation) -> str:
    return one.date
