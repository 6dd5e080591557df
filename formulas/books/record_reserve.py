"""Keep something back for a job, as typed or straight from its needs list.

More than is free is refused: what other jobs keep back is theirs, and a promise made twice is
broken once.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from formulas.answer import Answer, Quantity
from formulas.books.record_entry import Added, basis_of
from formulas.books.record_job import known_job
from formulas.books.records import grams_in
from formulas.catalog import Catalog
from formulas.fault import FormulasError, UnknownName
from formulas.job_checks import KINDS, MASSES
from formulas.job_entries import Reservation
from formulas.jobs.held import (
    OPEN,
    as_kept,
    drawn_since,
    free_of,
    is_spent,
    kept_of,
    live_reservations,
    said,
    state_of,
)
from formulas.units import convert, printed

if TYPE_CHECKING:
    from formulas.jobs.job import Whole

PIECES = "pieces"
BOOK_DECIMALS = 6
FINE = 1e-6  # of an amount: the last decimal of the book
Asked = tuple[str, str, float, str]
"""Kind, id, amount and unit of what a job wants kept back."""


class NotFree(FormulasError, ValueError):
    """More was to be kept back than is free, with the amounts and who holds the rest."""

    def __init__(self, job: str, shorts: Sequence[str]) -> None:
        self.job, self.shorts = job, list(shorts)
        super().__init__("\n".join([*self.shorts, "Nothing was kept back."]))


class NotOpen(FormulasError, ValueError):
    """A job that keeps nothing back, because it is done or dropped."""

    def __init__(self, job: str, state: str) -> None:
        self.job, self.state = job, state
        super().__init__(
            f"job: found '{job}', which is {state}, accepted: a job that is open."
            f" `benchbinder record job {job} --what reopened` opens it again."
        )


def reserve(
    catalog: Catalog, job: str, asked: Sequence[Asked], date: str, note: str = ""
) -> tuple[Answer, Added]:
    """Give the answer and the new rows of what a job keeps back from now on.

    A row says what is kept from it on, in place of the job's last row of that thing; nought
    gives it back. Raises UnknownName, NotOpen, or NotFree with all that is short.
    """
    known_job(catalog, job)
    state = state_of(catalog, job)
    if state != OPEN and any(amount for _, _, amount, _ in asked):
        raise NotOpen(job, state)
    for kind, of, _, _ in asked:
        _known(catalog, kind, of)
    shorts = [text for one in asked for text in _short(catalog, job, one)]
    if shorts:
        raise NotFree(job, shorts)
    kept = [Reservation(job, date, *one, basis_of(catalog), note) for one in asked]
    answer = {"job": job, "date": date, "kept": [_told(catalog, one) for one in kept]}
    inputs = {"job": job, "date": date, "asked": [list(one) for one in asked]}
    notes = list(_notes(catalog, kept))
    cautions = catalog.warned("record-reserve")
    found = Answer("record-reserve", answer, inputs, [], cautions, notes)
    return found, {"reservations.csv": [_row(catalog, one) for one in kept]}


def reservations_of(catalog: Catalog, whole: Whole, date: str) -> tuple[Answer, Added]:
    """Give the same for all that the needs list of a job takes of what is at hand.

    `catalog` is the shop's own, not that of `whole`, which is without what others keep back.
    What several lines take of one thing is kept back together; masses are rounded up to the
    step of the scale, where so much is free. What the job kept back and needs no longer is
    given back.
    """
    sums: dict[tuple[str, str], float] = {}
    units: dict[tuple[str, str], str] = {}
    for bought in whole.bought:
        for held in bought.at_hand:
            key = held.kind, held.of
            unit = _unit(held.kind, held.amount.unit)
            amount = held.amount.value
            if unit != PIECES:
                units.setdefault(key, unit if unit in MASSES else catalog.shop.scale_unit)
                amount = convert(amount, unit, units[key])
            sums[key] = sums.get(key, 0.0) + amount
    job = whole.job.job
    asked = [
        (kind, of, *_whole_amount(catalog, job, (kind, of, amount, units.get((kind, of), PIECES))))
        for (kind, of), amount in sums.items()
    ]
    asked += [
        (one.kind, one.of, 0.0, one.unit)
        for one in live_reservations(catalog)
        if one.job == job and one.kind != "item" and (one.kind, one.of) not in sums
    ]
    return reserve(catalog, job, asked, date, "from the needs list")


def _unit(kind: str, unit: str) -> str:
    return PIECES if PIECES in KINDS[kind][2] and unit in {"", "1", "piece", PIECES} else unit


def _whole_amount(catalog: Catalog, job: str, asked: Asked) -> tuple[float, str]:
    """Round up to whole pieces or to a step of the scale, but never past what is free."""
    kind, of, amount, unit = asked
    if unit == PIECES:
        return (1.0 if kind == "skin" else float(math.ceil(amount - FINE))), unit
    step = convert(catalog.shop.scale_step, catalog.shop.scale_unit, unit)
    up = math.ceil(amount / step - FINE) * step
    free = free_of(catalog, kind, of, job)
    if free is not None and amount <= free.value * grams_in(free.unit) / grams_in(unit) < up:
        up = amount
    return float(printed(up, BOOK_DECIMALS)), unit


def _known(catalog: Catalog, kind: str, of: str) -> None:
    tables: dict[str, Iterable[str]] = {
        "lot": catalog.lots,
        "batch": catalog.pot_book,
        "stock": catalog.valve_stock,
        "skin": catalog.skins,
        "item": catalog.prices,
    }
    if of not in tables[kind]:
        raise UnknownName(kind, of, tables[kind])


def _short(catalog: Catalog, job: str, asked: Asked) -> Iterator[str]:
    kind, of, amount, unit = asked
    free = free_of(catalog, kind, of, job)
    if free is None or not amount:
        return
    others = _holders(catalog, kind, of, job)
    there = free.value if unit == PIECES else convert(free.value, free.unit, unit)
    if kind == "skin" and there < 1:
        yield f"skin {of}: found '{of}', accepted: a skin that is free{others}"
    elif amount > there + FINE * max(amount, 1.0):
        yield (
            f"{kind} {of}: found {said(amount)} {unit}, accepted: at most"
            f" {said(max(there, 0.0))} {unit}, which is free{others}"
        )


def _holders(catalog: Catalog, kind: str, of: str, job: str) -> str:
    others = [
        f"{one.job} keeps {'it' if kind == 'skin' else f'back {said(one.amount)} {one.unit}'}"
        for one in kept_of(catalog, kind, of, job)
    ]
    if kind == "batch" and catalog.pot_book[of].discarded:
        others.append(f"it was thrown out on {catalog.pot_book[of].discarded}")
    if kind == "skin" and is_spent(catalog, of):
        others.append("it is spent")
    return f"; {', '.join(others)}." if others else "; no other job keeps any of it back."


def _told(catalog: Catalog, one: Reservation) -> dict[str, Any]:
    """Give a row as an answer shows it, with what stays free for others."""
    free = free_of(catalog, one.kind, one.of, one.job)
    if free is not None:
        mine = one.amount if one.unit == PIECES else convert(one.amount, one.unit, free.unit)
        free = Quantity(free.value - mine, free.unit)
    return {**as_kept(one), "stays_free": free}


def _row(catalog: Catalog, one: Reservation) -> dict[str, Any]:
    """Give the row: what the job drew on its day or later is added, as it counts against it."""
    drawn = drawn_since(catalog, one)
    if not drawn or not one.amount:
        return dataclasses.asdict(one)
    amount = float(printed(one.amount + drawn, BOOK_DECIMALS))
    told = f"{said(drawn)} {one.unit} of it drawn already"
    note = f"{one.note}; {told}" if one.note else told
    return dataclasses.asdict(dataclasses.replace(one, amount=amount, note=note))


def _notes(catalog: Catalog, kept: Sequence[Reservation]) -> Iterator[str]:
    for one in kept:
        later = [
            other.date
            for other in catalog.reservations
            if (other.job, other.kind, other.of) == (one.job, one.kind, one.of)
            and other.date > one.date
        ]
        if later:
            yield f"The row of {one.of} of {max(later)} is later than this one: that one counts."
        if one.amount and free_of(catalog, one.kind, one.of, one.job) is None:
            yield (
                f"The books do not say how much of {one.of} is there, so nobody has checked this:"
                " look on the shelf."
            )
