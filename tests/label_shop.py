"""A pot book made by hand for the tests of the labels; every batch and lot in it is made up."""

from __future__ import annotations

import dataclasses

from formulas.book_entries import PotBatch, PotLot
from formulas.catalog import Catalog, load

TRADE = load(None)
FOUR_ONE = "beeswax-rosin-4-1"


def batch(name: str, parts: str, **changed: str) -> PotBatch:
    """Make a batch of a pot book; what is left out is blank."""
    row = {field.name: "" for field in dataclasses.fields(PotBatch)}
    row |= {"batch": name, "date": "2026-03-02", "parts": parts, "wax": "fresh"}
    numbers = dict.fromkeys(("top_temperature", "make_up_minutes", "held_hours", "yielded"))
    return PotBatch(**{**row, **numbers, "basis": "measured", **changed})


def lot(of: str, material: str, name: str, actual: float | None) -> PotLot:
    """Make a lot weighed into a batch."""
    return PotLot(of, material, name, actual, actual, "g", "measured")


def shop(*batches: PotBatch, lots: tuple[PotLot, ...] = ()) -> Catalog:
    """Give the trade's catalog with a pot book."""
    book = {one.batch: one for one in batches}
    return dataclasses.replace(TRADE, pot_book=book, pot_lots=list(lots))


WAX_LOT = lot("W-26-003", "beeswax-yellow", "BW-1", 320.4)
ROSIN_LOT = lot("W-26-003", "gum-rosin", "GR-1", 80.1)
BOOK = shop(
    batch("W-26-003", "beeswax-yellow 4; gum-rosin 1", blend=FOUR_ONE, retest_by="2027-03-02"),
    lots=(WAX_LOT, ROSIN_LOT),
)
