"""Books of jobs for tests: rows made by hand, blank where nothing is said."""

from __future__ import annotations

import dataclasses
from typing import Any

from book_trials import batch, blank

from formulas.book_entries import PotLot, PotUse
from formulas.catalog import Catalog
from formulas.entries import Lot
from formulas.job_entries import HoursWorked, JobEvent, Reservation, StockUse
from formulas.valve_entries import Skin

LOT_G, BATCH_G, PIECES = 1000.0, 300.0, 5


def event(job: str, what: str = "opened", date: str = "2026-02-01", **cells: Any) -> JobEvent:
    """Make a row of jobs.csv."""
    made: JobEvent = blank(JobEvent, job=job, what=what, date=date, **cells)
    return made


def keep(
    job: str, kind: str, of: str, amount: float, unit: str = "g", date: str = "2026-03-01"
) -> Reservation:
    """Make a row of reservations.csv."""
    return Reservation(job, date, kind, of, amount, unit, "measured", "")


def use(job: str, grams: float | None, date: str = "2026-03-02", of: str = "W-1") -> PotUse:
    """Make a row of pot_uses.csv, in grams."""
    made: PotUse = blank(PotUse, batch=of, job=job, date=date, amount=grams, unit="g")
    return made


def draw(batch_name: str, grams: float, lot: str = "BW-1") -> PotLot:
    """Make a row of pot_lots.csv, in grams; of a batch that is melted again with no material."""
    material = "" if lot.startswith("W-") else "beeswax-yellow"
    return PotLot(batch_name, material, lot, None, grams, "g", "measured")


def cut(job: str, date: str = "2026-03-02", **cells: Any) -> StockUse:
    """Make a row of stock_uses.csv."""
    made: StockUse = blank(StockUse, job=job, date=date, **{"stock": "film", **cells})
    return made


def worked(job: str, step: str, done: int, minutes: float, date: str = "2026-03-02") -> HoursWorked:
    """Make a row of hours.csv."""
    return HoursWorked(job, date, step, done, minutes, "", "measured", "")


def shelf(catalog: Catalog, **tables: Any) -> Catalog:
    """Give a catalog with a lot of a kilogram, a batch of 300 g, a film of 5 pieces, two skins."""
    lot = Lot("BW-1", "beeswax-yellow", "", LOT_G, "g", "measured", "")
    some = next(iter(catalog.valve_stock.values()))
    stocks = {
        "film": dataclasses.replace(some, stock="film", pieces=PIECES),
        "kid": dataclasses.replace(some, stock="kid", pieces=None),
    }
    skins = {name: Skin(name, "kid", "", "measured", "") for name in ("kid-A", "kid-B")}
    made = {
        "lots": {"BW-1": lot},
        "pot_book": {"W-1": batch("W-1", yielded=BATCH_G, unit="g")},
        "valve_stock": {**catalog.valve_stock, **stocks},
        "skins": skins,
    }
    return dataclasses.replace(catalog, **{**made, **tables})
