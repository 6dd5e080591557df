"""What is at hand and what is kept back for jobs: nothing is counted twice.

What the books leave of a thing is there for all; of it, open jobs keep some back. What a job has
drawn since it kept something back counts against what it keeps, as the books have counted it
already. A day is the finest the books know: what was drawn on the day of the row counts as after.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import Any

from formulas.answer import Quantity
from formulas.books.records import EMPTY, grams_in, left_of_batch, left_of_lot
from formulas.catalog import Catalog
from formulas.fault import UnknownName
from formulas.frozen import Frozen
from formulas.job_entries import JobEvent, Reservation
from formulas.units import printed

OPEN, DONE, DROPPED = "open", "done", "dropped"
STATES = {"opened": OPEN, "reopened": OPEN, "done": DONE, "dropped": DROPPED}
"""How a job stands after each event."""

Key = tuple[str, str]
"""Kind and id of a thing."""
Drawn = dict[tuple[str, Key], list[tuple[str, float]]]
"""What each job drew of each thing: day, and grams or pieces."""


class _Books(Frozen):
    """The books grouped once: events of each job, what is kept of each thing, what was taken."""

    events: dict[str, list[JobEvent]]
    live: list[Reservation]
    live_of: dict[Key, list[Reservation]]
    pieces_taken: dict[str, int]
    spent: set[str]
    drawn: Drawn


def events_of(catalog: Catalog, job: str) -> list[JobEvent]:
    """Give what happened to a job, by date and then in the order of the book."""
    return _books(catalog).events.get(job, [])


def jobs_known(catalog: Catalog) -> list[str]:
    """Name every job of jobs.csv, in the order in which they were first entered."""
    return list(_books(catalog).events)


def state_of(catalog: Catalog, job: str) -> str:
    """Give how a job stands: "open", "done", "dropped", or "" where the books do not know it."""
    events = events_of(catalog, job)
    return STATES[events[-1].what] if events else ""


def live_reservations(catalog: Catalog, but_for: str = "") -> list[Reservation]:
    """Give what open jobs keep back, less what each has drawn of it since.

    Of one job and one thing the last row counts, and nought gives it back. What a job kept
    before it was last done or dropped does not come back when it is reopened.
    """
    return [one for one in _books(catalog).live if one.job != but_for]


def kept_of(catalog: Catalog, kind: str, of: str, but_for: str = "") -> list[Reservation]:
    """Give what open jobs keep back of one thing."""
    return [one for one in _books(catalog).live_of.get((kind, of), []) if one.job != but_for]


def free_of_lot(catalog: Catalog, lot: str, job: str = "") -> Quantity | None:
    """Give what is left of a lot by the books and not kept back for another job than `job`.

    Below nought where more was drawn or kept than there was. Raises UnknownName.
    """
    return _less(left_of_lot(catalog, lot).left, kept_of(catalog, "lot", lot, job))


def free_of_batch(catalog: Catalog, batch: str, job: str = "") -> Quantity | None:
    """Give the same of a batch: nothing once it was thrown out, None where no yield is written.

    Raises UnknownName for a batch that stands not in the pot book.
    """
    if batch not in catalog.pot_book:
        raise UnknownName("batch", batch, catalog.pot_book)
    left = left_of_batch(catalog, batch).left
    if catalog.pot_book[batch].discarded:
        left = Quantity(0.0, left.unit if left else catalog.shop.scale_unit)
    return _less(left, kept_of(catalog, "batch", batch, job))


def _less(left: Quantity | None, kept: list[Reservation]) -> Quantity | None:
    if left is None:
        return None
    grams = sum(one.amount * grams_in(one.unit) for one in kept)
    free = left.value - grams / grams_in(left.unit)
    return Quantity(0.0 if abs(free) < EMPTY * abs(left.value) else free, left.unit)


def free_pieces(catalog: Catalog, stock: str, job: str = "") -> int | None:
    """Give the whole pieces of a valve stock that are there and not kept for another job.

    None where the stock's row counts no pieces, as with skins. Raises UnknownName.
    """
    pieces = catalog.stock(stock).pieces
    if pieces is None:
        return None
    kept = sum(int(one.amount) for one in kept_of(catalog, "stock", stock, job))
    return pieces - _books(catalog).pieces_taken.get(stock, 0) - kept


def free_skins(catalog: Catalog, stock: str, job: str = "") -> list[str]:
    """Name the skins of a stock that are not spent and not kept for another job."""
    catalog.stock(stock)
    spent = _books(catalog).spent
    return [
        skin.skin
        for skin in catalog.skins.values()
        if skin.stock == stock
        and skin.skin not in spent
        and not kept_of(catalog, "skin", skin.skin, job)
    ]


def free_of(catalog: Catalog, kind: str, of: str, job: str = "") -> Quantity | None:
    """Give what is free of a thing of any kind for a job; None where the books do not know."""
    if kind == "lot":
        return free_of_lot(catalog, of, job)
    if kind == "batch":
        return free_of_batch(catalog, of, job)
    if kind == "stock":
        pieces = free_pieces(catalog, of, job)
        return None if pieces is None else Quantity(pieces, "pieces")
    if kind == "skin":
        there = 0 if is_spent(catalog, of) else 1
        return Quantity(there - len(kept_of(catalog, kind, of, job)), "pieces")
    return None


def as_kept(one: Reservation) -> dict[str, Any]:
    """Give what is kept back as an answer shows it."""
    return {
        "job": one.job,
        "kind": one.kind,
        "of": one.of,
        "amount": Quantity(one.amount, one.unit),
        "since": one.date,
    }


def short_for_others(catalog: Catalog, kind: str, of: str, job: str) -> str:
    """Say who goes short where a thing no longer holds what other jobs keep back; else ""."""
    free = free_of(catalog, kind, of, job)
    others = ", ".join(one.job for one in kept_of(catalog, kind, of, job))
    if free is None or free.value >= 0 or not others:
        return ""
    return (
        f"{of} is kept back for {others}, and what is left is {said(-free.value)} {free.unit} too"
        " little for that: tell whoever works on it."
    )


def said(amount: float) -> str:
    """Give an amount in words as a book shows it: up to three decimals, no noise of a sum."""
    return f"{float(printed(amount, 3)):g}"


def is_spent(catalog: Catalog, skin: str) -> bool:
    """Tell whether nothing worth keeping is left of a skin."""
    return skin in _books(catalog).spent


def drawn_since(catalog: Catalog, one: Reservation) -> float:
    """Give what a job has drawn of a thing since the day of a row, in the row's unit."""
    return _since(_books(catalog).drawn, one)


def _books(catalog: Catalog) -> _Books:
    """Give the books grouped, from the catalog's memory where they were grouped before."""
    found = catalog.memo.get("what is held")
    if not isinstance(found, _Books):
        found = catalog.memo["what is held"] = _grouped(catalog)
    return found


def _grouped(catalog: Catalog) -> _Books:
    events: dict[str, list[JobEvent]] = {}
    for event in catalog.jobs:
        events.setdefault(event.job, []).append(event)
    for own in events.values():
        own.sort(key=lambda event: event.date)  # a stable sort: the order of a day stays
    taken: dict[str, int] = {}
    spent = set()
    for use in catalog.stock_uses:
        taken[use.stock] = taken.get(use.stock, 0) + (use.pieces or 0)
        if use.spent:
            spent.add(use.skin)
    drawn = _drawn(catalog, {job for job, own in events.items() if STATES[own[-1].what] == OPEN})
    live = list(_live(catalog, events, spent, drawn))
    live_of: dict[Key, list[Reservation]] = {}
    for one in live:
        live_of.setdefault((one.kind, one.of), []).append(one)
    return _Books(events, live, live_of, taken, spent, drawn)


def _live(
    catalog: Catalog, events: dict[str, list[JobEvent]], spent: set[str], drawn: Drawn
) -> Iterator[Reservation]:
    closed = {job: _closed(own) for job, own in events.items() if STATES[own[-1].what] == OPEN}
    last: dict[tuple[str, Key], Reservation] = {}
    for one in catalog.reservations:
        key = one.job, (one.kind, one.of)
        if one.job in closed and (key not in last or one.date >= last[key].date):
            last[key] = one
    for (job, _), one in last.items():
        if one.date < closed[job] or (one.kind == "skin" and one.of in spent):
            continue
        rest = one.amount - _since(drawn, one)
        if rest > EMPTY * one.amount:
            yield dataclasses.replace(one, amount=rest)


def _since(drawn: Drawn, one: Reservation) -> float:
    draws = drawn.get((one.job, (one.kind, one.of)), [])
    much = sum(much for date, much in draws if date >= one.date)
    return much / (1 if one.unit == "pieces" else grams_in(one.unit))


def _closed(events: list[JobEvent]) -> str:
    """Give the day on which a job was last done or dropped, or "" where it never was."""
    return max((event.date for event in events if STATES[event.what] != OPEN), default="")


def _drawn(catalog: Catalog, jobs: set[str]) -> Drawn:
    """Give what these jobs drew, where it can be told; a draw without its day cannot be."""
    drawn: Drawn = {}

    def add(job: str, kind: str, of: str, date: str, much: float) -> None:
        if job in jobs and date:
            drawn.setdefault((job, (kind, of)), []).append((date, much))

    for use in catalog.pot_uses:
        if use.amount is not None:
            add(use.job, "batch", use.batch, use.date, use.amount * grams_in(use.unit))
    for batch, parts in catalog.lots_by_batch.items():
        for job, share in _jobs_of(catalog, batch):
            for part in parts:
                if part.actual is not None:
                    grams = share * part.actual * grams_in(part.unit)
                    kind = "lot" if part.material else "batch"
                    add(job, kind, part.lot, catalog.pot_book[batch].date, grams)
    for taken in catalog.stock_uses:
        add(taken.job, "stock", taken.stock, taken.date, taken.pieces or 0)
    return drawn


def _jobs_of(catalog: Catalog, batch: str) -> Iterator[tuple[str, float]]:
    """Give the jobs that a batch was melted for, each with its share of what went in.

    The job that its row names; else those that it was used in, by the grams of each. A batch
    that stands in no book, or was used in several jobs by unknown amounts, tells nothing.
    """
    made = catalog.pot_book.get(batch)
    if made is None:
        return
    if made.job:
        yield made.job, 1.0
        return
    used: dict[str, float] = {}
    known = True
    for use in catalog.uses_by_batch.get(batch, []):
        known &= use.amount is not None
        grams = (use.amount or 0.0) * grams_in(use.unit or "g")
        used[use.job] = used.get(use.job, 0.0) + grams
    whole = sum(used.values())
    if len(used) == 1:
        yield next(iter(used)), 1.0
    elif known and whole > 0:
        for job, grams in used.items():
            yield job, grams / whole
