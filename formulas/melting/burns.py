"""How long skin may touch a hot liquid, by the table of burn times and never beyond it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.fault import OutOfRange
from formulas.units import convert

if TYPE_CHECKING:
    from formulas.catalog import Catalog

SOURCE = "burns.csv"
WHAT = "heat on the skin in °C"


def burn_rows(catalog: Catalog) -> list[tuple[float, float]]:
    """Give the table as (degC, seconds), coolest first."""
    return sorted(
        (
            convert(one.temperature, one.unit_temperature, "degC"),
            convert(one.time, one.unit_time, "s"),
        )
        for one in catalog.burns
    )


def burn_seconds(catalog: Catalog, heat: float) -> float:
    """Give the time to a serious burn at `heat` in degC, never longer than the table has it.

    Between two rows the time of the hotter one counts: a shorter time errs to the side of the
    skin. Raises OutOfRange below the first row, where the table promises nothing, and above the
    last, where the time is shorter still by an amount that nobody printed.
    """
    rows = burn_rows(catalog)
    low, high = rows[0][0], rows[-1][0]
    if not low <= heat <= high:
        raise OutOfRange(WHAT, heat, f"{low:g} to {high:g}, the ends of the table", SOURCE)
    return next(seconds for degrees, seconds in rows if degrees >= heat)
