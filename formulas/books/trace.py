"""From a job to its batches to their lots, and back: what to call in when a lot was bad."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from formulas.answer import Answer, Quantity
from formulas.book_entries import PotBatch, SofteningTest
from formulas.books.records import (
    Left,
    ancestors,
    descendants,
    left_of_batch,
    left_of_lot,
    newer_than,
    older_in,
)
from formulas.catalog import Catalog
from formulas.fault import UnknownName
from formulas.job_entries import HoursWorked, StockUse
from formulas.jobs.held import as_kept, jobs_known, live_reservations, state_of


def find(catalog: Catalog, name: str) -> Answer:
    """Follow a batch, a lot or a job both ways through the books, old wax included.

    Upward: the lots and the older batches that are in it. Downward: the later batches it went
    into, and the jobs. Raises UnknownName for a name that stands in none of the books.
    """
    uses = [use for use in catalog.pot_uses if use.job == name]
    hours = [one for one in catalog.hours if one.job == name]
    stock = [one for one in catalog.stock_uses if one.job == name]
    drew = {part.batch for part in catalog.draws_by_lot.get(name, []) if part.material}
    kinds = [
        kind
        for kind, there in (
            ("batch", name in catalog.pot_book or name in catalog.lots_by_batch),
            ("lot", name in catalog.lots or bool(drew)),
            ("job", bool(uses) or bool(state_of(catalog, name)) or bool(hours) or bool(stock)),
        )
        if there
    ]
    if not kinds:
        jobs = {use.job for use in catalog.pot_uses} | {*jobs_known(catalog)}
        raise UnknownName("batch, lot or job", name, {*catalog.pot_book, *catalog.lots, *jobs})
    named = {name} if "batch" in kinds else set()
    inside = named | {use.batch for use in uses}
    upward = inside | _all(ancestors(catalog, batch) for batch in inside)
    started = named | drew
    downward = started | _all(descendants(catalog, batch) for batch in started)
    lots = {part.lot for batch in upward for part in catalog.lots_by_batch.get(batch, [])}
    lots = {lot for lot in lots if lot in catalog.lots} | ({name} & catalog.lots.keys())
    jobs_of = [use for use in catalog.pot_uses if use.batch in downward or use.job == name]
    answer = {
        "name": name,
        "kinds": kinds,
        "batches": [_batch(catalog, batch) for batch in sorted(upward | downward)],
        "lots": [_lot(catalog, lot) for lot in sorted(lots)],
        "jobs": [
            {
                "job": use.job,
                "batch": use.batch,
                "date": use.date or None,
                "amount": _quantity(use.amount, use.unit),
                "used_by": use.used_by or None,
            }
            for use in sorted(jobs_of, key=lambda use: (use.job, use.batch, use.date))
        ],
        "state": state_of(catalog, name) or None,
        "hours": [_hours(catalog, one) for one in hours],
        "stock": [_stock(one) for one in stock],
        "kept_back": [as_kept(one) for one in live_reservations(catalog) if one.job == name],
    }
    return Answer("record-find", answer, {"name": name}, [], [], [])


def _hours(catalog: Catalog, one: HoursWorked) -> dict[str, Any]:
    step = catalog.work_steps[one.step]
    return {
        "step": one.step,
        "name": step.name,
        "per": step.per,
        "date": one.date,
        "done": one.done,
        "minutes": Quantity(one.minutes, "min"),
        "worked_by": one.worked_by or None,
    }


def _stock(one: StockUse) -> dict[str, Any]:
    return {
        "stock": one.stock,
        "skin": one.skin or None,
        "date": one.date,
        "pieces": one.pieces,
        "valves": one.valves,
        "spent": one.spent,
        "used_by": one.used_by or None,
    }


def _all(found: Iterable[set[str]]) -> set[str]:
    return set().union(*found)


def _batch(catalog: Catalog, name: str) -> dict[str, Any]:
    made = catalog.pot_book.get(name)
    return {
        "batch": name,
        **(_sheet(catalog, made) if made else {"in_the_pot_book": False}),
        "lots": [
            {
                "material": part.material or None,
                "lot": part.lot or None,
                "target": _quantity(part.target, part.unit),
                "actual": _quantity(part.actual, part.unit),
            }
            for part in catalog.lots_by_batch.get(name, [])
        ],
        "holds_batches": older_in(catalog, name),
        "went_into_batches": newer_than(catalog, name),
        "jobs": sorted({use.job for use in catalog.pot_uses if use.batch == name}),
        "tests": [_test(test) for test in catalog.softening_tests if test.sample == name],
    }


def _sheet(catalog: Catalog, made: PotBatch) -> dict[str, Any]:
    return {
        "in_the_pot_book": True,
        "date": made.date,
        "blend": made.blend or None,
        "parts": made.parts,
        "revision": made.revision or None,
        "melted_for": made.job or None,
        "made_by": made.made_by or None,
        "checked_by": made.checked_by or None,
        "top_temperature": _quantity(made.top_temperature, made.temperature_unit),
        "retest_by": made.retest_by or None,
        "discarded": made.discarded or None,
        **_as_left(left_of_batch(catalog, made.batch), "yield"),
    }


def _lot(catalog: Catalog, name: str) -> dict[str, Any]:
    lot = catalog.lots[name]
    batches = {part.batch for part in catalog.draws_by_lot.get(name, []) if part.material}
    return {
        "lot": name,
        "material": lot.material,
        "bought": lot.bought or None,
        **_as_left(left_of_lot(catalog, name), "held"),
        "batches": sorted(batches),
    }


def _as_left(left: Left, held: str) -> dict[str, Quantity | None]:
    return {held: left.held, "drawn": left.drawn, "left": left.left}


def _test(test: SofteningTest) -> dict[str, Any]:
    return {
        "test": test.test,
        "date": test.date,
        "method": test.method,
        "result": test.result,
        "other": test.other or None,
        "low": _quantity(test.low, test.unit),
        "high": _quantity(test.high, test.unit),
        "load": test.load,
        "plate": test.plate or None,
        "left_out": test.left_out or None,
    }


def _quantity(value: float | None, unit: str) -> Quantity | None:
    return None if value is None else Quantity(value, unit)
