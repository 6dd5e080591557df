"""How amounts of a job are worded in its folder: as its answer words them on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.answer import Band, Quantity
from formulas.units import printed, spoken_unit
from site_builder.texts import job as answered

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.jobs.job import Line


def band_said(catalog: Catalog, band: Band) -> str:
    """Give the ends of a band with its unit, once where both are printed alike.

    Hours are worth no decimals, money no more than three figures.
    """
    if band.unit == catalog.shop.currency:
        return answered.money_said(band)
    if band.unit == "h":
        low, high = printed(band.low, 0), printed(band.high, 0)
        return f"{low if low == high else f'{low} to {high}'} {spoken_unit(band.unit)}"
    return one_piece(answered.band_said(band, catalog.shop.units == "US"))


def amount_said(catalog: Catalog, value: float, unit: str) -> str:
    """Give one amount with its unit."""
    said = answered.quantity_said(Quantity(value, unit), catalog.shop.units == "US")
    return one_piece(said)


def one_piece(said: str) -> str:
    """Put one piece into the singular."""
    return "1 piece" if said == "1 pieces" else said


def middle_of(line: Line) -> float:
    """Give what the parts of a line add up to: its estimate, or the middle of its ends."""
    band = line.amount
    return (band.low + band.high) / 2 if band.estimate is None else band.estimate
