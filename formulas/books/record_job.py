"""Enter what happened to a job, the hours of a step, and the stock that was cut for it."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import Any

from formulas.answer import Answer, Quantity
from formulas.books.appending import Cell
from formulas.books.record_entry import Added, basis_of
from formulas.catalog import Catalog
from formulas.fault import UnknownName
from formulas.job_entries import HoursWorked, JobEvent, Reservation, StockUse
from formulas.jobs.held import (
    DONE,
    OPEN,
    STATES,
    as_kept,
    free_pieces,
    jobs_known,
    kept_of,
    live_reservations,
    state_of,
)

ROWS = "reservations.csv"


def known_job(catalog: Catalog, job: str) -> str:
    """Give a job's name. Raises UnknownName with the nearest of jobs.csv."""
    known = jobs_known(catalog)
    if job not in known:
        raise UnknownName("job", job, known)
    return job


def record_job(catalog: Catalog, event: JobEvent) -> tuple[Answer, Added]:
    """Give the answer and the new rows of what happened to a job.

    A job that is done or dropped gives back all that it kept: a row of nought for each thing,
    written before the event, so that nothing of it comes back when the job is opened again.
    """
    if event.what != "opened":
        known_job(catalog, event.job)
    event = dataclasses.replace(event, basis=basis_of(catalog))
    state = STATES[event.what]
    kept = [one for one in live_reservations(catalog) if one.job == event.job]
    freed = [] if state == OPEN else kept
    answer: dict[str, Any] = {
        "job": event.job,
        "what": event.what,
        "date": event.date,
        "state": state,
        "plates": event.plates,
        "waxed": event.waxed,
        "valves": event.valves,
        "gives_back": [as_kept(one) for one in freed],
    }
    added: Added = {}
    if freed:
        added[ROWS] = [_given_back(one, event) for one in freed]
    added["jobs.csv"] = [dataclasses.asdict(event)]
    inputs = dataclasses.asdict(event)
    notes = list(_job_notes(catalog, event))
    return Answer("record-job", answer, inputs, [], catalog.warned("record-job"), notes), added


def _given_back(one: Reservation, event: JobEvent) -> dict[str, Cell]:
    back = dataclasses.replace(
        one, date=max(one.date, event.date), amount=0.0, basis=event.basis, note=event.what
    )
    return dataclasses.asdict(back)


def _job_notes(catalog: Catalog, event: JobEvent) -> Iterator[str]:
    if event.what == "reopened":
        yield "What it kept back before was given back: keep back again what it needs."
    if event.what != DONE:
        return
    if event.plates is None:
        yield (
            "No plates are counted: without them this job tells nothing of grams a plate. Count"
            " them now, and add the number to its row."
        )
    elif not any(use.job == event.job for use in catalog.pot_uses):
        yield "No wax is written for it: `benchbinder record use` says which batch it got."
    if not any(one.job == event.job for one in catalog.hours):
        yield "No hours are written for it: `benchbinder record hours` says what each step took."


def record_hours(catalog: Catalog, worked: HoursWorked) -> tuple[Answer, Added]:
    """Give the answer and the new row of the hours of a step.

    Raises UnknownName for a job or a step of no table.
    """
    known_job(catalog, worked.job)
    if worked.step not in catalog.work_steps:
        raise UnknownName("step", worked.step, catalog.work_steps)
    step = catalog.work_steps[worked.step]
    worked = dataclasses.replace(worked, basis=basis_of(catalog))
    before = [one for one in catalog.hours if one.job == worked.job and one.step == worked.step]
    answer: dict[str, Any] = {
        "job": worked.job,
        "step": worked.step,
        "name": step.name,
        "per": step.per,
        "done": worked.done,
        "minutes": Quantity(worked.minutes, "min"),
        "each": Quantity(worked.minutes / worked.done, "min"),
        "trade": {"low": step.minutes_low, "high": step.minutes_high, "basis": step.basis},
        "done_in_job": worked.done + sum(one.done for one in before),
    }
    cautions = catalog.warned("record-hours")
    notes = list(_not_open(catalog, worked.job))
    found = Answer("record-hours", answer, dataclasses.asdict(worked), [], cautions, notes)
    return found, {"hours.csv": [dataclasses.asdict(worked)]}


def record_stock(catalog: Catalog, use: StockUse) -> tuple[Answer, Added]:
    """Give the answer and the new row of stock that a job took.

    Raises UnknownName for a job, a stock or a skin of no table.
    """
    known_job(catalog, use.job)
    catalog.stock(use.stock)
    if use.skin and use.skin not in catalog.skins:
        raise UnknownName("skin", use.skin, catalog.skins)
    use = dataclasses.replace(use, basis=basis_of(catalog))
    after = dataclasses.replace(catalog, stock_uses=[*catalog.stock_uses, use])
    answer: dict[str, Any] = {
        "job": use.job,
        "stock": use.stock,
        "skin": use.skin or None,
        "pieces": use.pieces,
        "valves": use.valves,
        "spent": use.spent,
        "free_pieces": free_pieces(after, use.stock, use.job),
    }
    row: dict[str, Cell] = {**dataclasses.asdict(use), "spent": "yes" if use.spent else ""}
    kept = kept_of(catalog, "skin", use.skin, use.job) if use.skin else []
    notes = [f"{use.skin} is kept back for {one.job}: tell whoever works on it." for one in kept]
    notes += _stock_notes(after, use)
    cautions = catalog.warned("record-stock")
    found = Answer("record-stock", answer, dataclasses.asdict(use), [], cautions, notes)
    return found, {"stock_uses.csv": [row]}


def _stock_notes(after: Catalog, use: StockUse) -> Iterator[str]:
    free = free_pieces(after, use.stock, use.job)
    if use.pieces and free is not None and free < 0:
        yield (
            f"{-free} more pieces of {use.stock} were taken than are there and not kept back for"
            " another job. Count the shelf."
        )
    if not use.pieces and not use.skin and not use.valves:
        yield "Neither a piece, a skin nor valves are said: the row only says that some was cut."
    yield from _not_open(after, use.job)


def _not_open(catalog: Catalog, job: str) -> Iterator[str]:
    if state_of(catalog, job) != OPEN:
        yield f"{job} is {state_of(catalog, job)}, not open: is this the right job?"
