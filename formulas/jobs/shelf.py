"""What a job can draw on: old batches, raw lots, skins and pieces, less what other jobs keep."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import TYPE_CHECKING

from formulas.answer import Quantity
from formulas.books.records import grams_in
from formulas.jobs.held import free_of_batch, free_of_lot, free_pieces, free_skins
from formulas.jobs.job import Held, Job

if TYPE_CHECKING:
    from formulas.catalog import Catalog

RECLAIMED = ("reclaimed", "mixed")
"""Kinds of wax that go into a job only where its file allows it."""


def with_free_stock(catalog: Catalog, job: Job) -> Catalog:
    """Give the catalog with the valve stock and the skins that no other job keeps back."""
    stock = {}
    for name, one in catalog.valve_stock.items():
        free_ones = free_pieces(catalog, name, job.job) if one.pieces is not None else None
        pieces = None if free_ones is None else max(0, free_ones)
        stock[name] = dataclasses.replace(one, pieces=pieces)
    names = {one.stock for one in catalog.skins.values()}
    free = {skin for name in names for skin in free_skins(catalog, name, job.job)}
    skins = {name: one for name, one in catalog.skins.items() if name in free}
    return dataclasses.replace(catalog, valve_stock=stock, skins=skins)


def batches_at_hand(catalog: Catalog, job: Job) -> Iterator[Held]:
    """Give the wax of the job's blend that stands ready, the oldest first, in g."""
    for name, batch in sorted(catalog.pot_book.items(), key=lambda one: one[1].date):
        usable = batch.blend == job.blend and not batch.discarded
        if not usable or (batch.wax in RECLAIMED and not job.reclaimed):
            continue
        grams = _grams(free_of_batch(catalog, name, job.job))
        if grams > 0:
            fresh = batch.wax if batch.wax in RECLAIMED else ""
            due = f"test its kept stick, due {batch.retest_by}" if batch.retest_by else ""
            note = "; ".join(part for part in (fresh, due) if part)
            yield Held("batch", name, Quantity(grams, "g"), note)


def lots_at_hand(catalog: Catalog, job: Job, material: str) -> Iterator[Held]:
    """Give the raw lots of a material, the oldest first, in g.

    A lot that plain wax is tested from stays on the shelf: it is the reference of later tests.
    """
    kept = reference_lots(catalog)
    lots = [one for one in catalog.lots.values() if one.material == material]
    lots = [one for one in lots if one.lot not in kept]
    for lot in sorted(lots, key=lambda one: one.bought):
        grams = _grams(free_of_lot(catalog, lot.lot, job.job))
        if grams > 0:
            yield Held("lot", lot.lot, Quantity(grams, "g"))


def reference_lots(catalog: Catalog) -> set[str]:
    """Give the lots that stand beside tests as plain material."""
    tests = (test for test in catalog.softening_tests if test.sample in catalog.materials)
    return {lot for test in tests for lot in test.lots.split()}


def _grams(held: Quantity | None) -> float:
    return 0.0 if held is None else held.value * grams_in(held.unit)


def drawn(helds: Iterator[Held], wanted: float) -> tuple[list[Held], float]:
    """Draw an amount from what is at hand in its order; give the draws and what is missing."""
    found: list[Held] = []
    for held in helds:
        if wanted <= 0:
            break
        taken = min(wanted, held.amount.value)
        found.append(dataclasses.replace(held, amount=Quantity(taken, held.amount.unit)))
        wanted -= taken
    return found, max(0.0, wanted)
