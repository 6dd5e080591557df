"""Enter a softening test, or where wax of a batch was used."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import Any

from formulas.answer import Answer, Quantity
from formulas.book_entries import PotUse, SofteningTest
from formulas.books.appending import Cell
from formulas.books.records import left_of_batch, next_number
from formulas.catalog import Catalog
from formulas.fault import UnknownName
from formulas.jobs.held import short_for_others, state_of

Added = dict[str, list[dict[str, Cell]]]


def basis_of(catalog: Catalog) -> str:
    """Give the basis of what is entered: measured, or invented where the shop is."""
    return "invented" if catalog.shop.invented else "measured"


def record_test(catalog: Catalog, seen: SofteningTest) -> tuple[Answer, Added]:
    """Give the answer and the new row of a test; its number and its basis are made here."""
    number = next_number("T", seen.date, (test.test for test in catalog.softening_tests))
    test = dataclasses.replace(seen, test=number, basis=basis_of(catalog))
    alike = [one for one in catalog.softening_tests if one.method == test.method]
    answer = {
        "test": number,
        "method": test.method,
        "result": test.result,
        "sample": test.sample,
        "other": test.other or None,
        "low": None if test.low is None else Quantity(test.low, test.unit),
        "high": None if test.high is None else Quantity(test.high, test.unit),
        "tests_by_this_method": len(alike) + 1,
    }
    row: dict[str, Cell] = {**dataclasses.asdict(test), "checked": "yes" if test.checked else "no"}
    notes = list(_test_notes(catalog, test))
    inputs = dataclasses.asdict(seen)
    found = Answer("record-test", answer, inputs, [], catalog.warned("record-test"), notes)
    return found, {"softening_tests.csv": [row]}


def _test_notes(catalog: Catalog, test: SofteningTest) -> Iterator[str]:
    if not test.checked and test.result != "firmer":
        yield "The thermometer was not checked in ice and boiling water: it counts as less sure."
    session = test.session or test.date
    beside = [
        one
        for one in catalog.softening_tests
        if (one.session or one.date) == session and one.sample in catalog.materials
    ]
    if test.result == "reading" and test.sample not in catalog.materials and not beside:
        yield "No reference wax was read in this session: test plain wax of a kept lot beside it."
    if test.left_out:
        yield "The test is left out and does not count."


def record_use(catalog: Catalog, use: PotUse) -> tuple[Answer, Added]:
    """Give the answer and the new row of a use. Raises UnknownName for a batch of no book."""
    if use.batch not in catalog.pot_book:
        raise UnknownName("batch", use.batch, catalog.pot_book)
    use = dataclasses.replace(use, basis=basis_of(catalog))
    after = dataclasses.replace(catalog, pot_uses=[*catalog.pot_uses, use])
    left = left_of_batch(after, use.batch).left
    answer: dict[str, Any] = {
        "batch": use.batch,
        "job": use.job,
        "amount": None if use.amount is None else Quantity(use.amount, use.unit),
        "left": left,
    }
    notes = list(_use_notes(after, use, left))
    cautions = catalog.warned("record-use")
    found = Answer("record-use", answer, dataclasses.asdict(use), [], cautions, notes)
    return found, {"pot_uses.csv": [dataclasses.asdict(use)]}


def _use_notes(after: Catalog, use: PotUse, left: Quantity | None) -> Iterator[str]:
    made = after.pot_book[use.batch]
    if left is not None and left.value < 0:
        yield (
            f"More of {use.batch} was used than the books hold, by {-left.value:g} {left.unit}."
            " The scale was right, the book is not."
        )
    short = short_for_others(after, "batch", use.batch, use.job)
    if short:
        yield short
    if after.jobs and not state_of(after, use.job):
        yield f"{use.job} stands not in jobs.csv: is this the right job?"
    if made.discarded and (use.date or made.discarded) >= made.discarded:
        yield f"{use.batch} was thrown out on {made.discarded}: is this the right batch?"
    if made.retest_by and use.date > made.retest_by:
        yield f"{use.batch} was to be tested again by {made.retest_by}: test its kept stick."
