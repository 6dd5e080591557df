"""Read what is typed after `record`: masses and temperatures in their own units, lots, days.

A number is kept in the unit it was read in: the book holds what the scale showed.
"""

from __future__ import annotations

import datetime
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from formulas.books.record_batch import Drawn
    from formulas.catalog import Catalog

LOT = "a lot as gum-rosin=GR-26-01:85.2g, gum-rosin=85.2g where it is not known, or W-26-003=50g"


def day(text: str, option: str) -> str:
    """Give a day as it was typed. Raises UsageError for what is no day."""
    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError as error:
        fault = f"{option}: found '{text}', accepted: a day such as 2026-11-02"
        raise click.UsageError(fault) from error


def mass(text: str | None) -> tuple[float | None, str]:
    """Give a mass and its unit, as typed. Raises UnitFault."""
    return _typed(text, ("g", "kg", "oz", "lb"))


def held_amount(text: str | None) -> tuple[float | None, str]:
    """Give how much a jar holds and its unit, by volume or by mass, as typed. Raises UnitFault."""
    from formulas.fault import UnitFault

    try:
        return _typed(text, ("mL", "L", "floz"))
    except UnitFault:
        return mass(text)


def temperature(text: str | None, unit: str = "") -> tuple[float | None, str]:
    """Give a temperature and its unit, as typed or in the unit named. Raises UnitFault."""
    return _typed(text, (unit,) if unit else ("degC", "degF"))


def _typed(text: str | None, kept: tuple[str, ...]) -> tuple[float | None, str]:
    """Read a quantity; its unit stays where it is among those a book keeps, else the first."""
    from formulas import units

    if text is None:
        return None, ""
    found = units.quantity(text, kept[0])
    for unit in kept:
        if found.units == units.registry().Unit(unit):
            return float(found.magnitude), unit
    return units.read(text, kept[0]), kept[0]


def drawn_lots(catalog: Catalog, given: tuple[str, ...]) -> list[Drawn]:
    """Read each "gum-rosin=GR-26-01:85.2g". Raises UsageError, or UnitFault for the mass."""
    from formulas.books.record_batch import Drawn

    found = []
    for text in given:
        name, equals, rest = text.partition("=")
        lot, _, amount = rest.rpartition(":")
        if not equals or not name.strip():
            fault = f"--lot: found '{text}', accepted: {LOT}"
            raise click.UsageError(fault)
        weighed, unit = mass(amount)
        assert weighed is not None
        name = name.strip()
        old = name in catalog.pot_book and not lot
        found.append(Drawn("" if old else name, name if old else lot.strip(), weighed, unit))
    return found
