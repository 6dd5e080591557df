"""What a job costs by the shop's own prices; without a price a cost is not known."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING

from formulas.answer import Band
from formulas.fault import UnitFault
from formulas.units import quantity

if TYPE_CHECKING:
    from formulas.catalog import Catalog

HOUR = "bench-hour"
PIECES = ("pieces", "1")
COST = "shop's prices; seldom is all of it dear at once, so the ends are nearer than their sums"


def cost_of(catalog: Catalog, item: str, amount: float, unit: str) -> float | None:
    """Give what an amount costs in the shop's currency, or None where no price is of use."""
    price = catalog.prices.get(item)
    if price is None:
        return None
    if price.unit in PIECES or unit in PIECES:
        same = price.unit in PIECES and unit in PIECES
        return price.price * amount / price.amount if same else None
    try:
        bought = quantity(f"{price.amount!r} {price.unit}", unit)
    except UnitFault:
        return None
    return price.price * amount / float(bought.to(unit).magnitude)


def cost_band(catalog: Catalog, item: str, amount: Band) -> Band | None:
    """Give the cost of a band of an amount, end by end."""
    low = cost_of(catalog, item, amount.low, amount.unit)
    high = cost_of(catalog, item, amount.high, amount.unit)
    if low is None or high is None:
        return None
    return Band(low, None, high, catalog.shop.currency, "shop's prices")


def total(catalog: Catalog, bands: Iterable[Band | None]) -> Band | None:
    """Add costs that do not hang on each other: middles add, half widths go in quadrature.

    None where there is none to add.
    """
    known = [band for band in bands if band is not None]
    if not any(band.high > 0 for band in known):
        return None
    middle = math.fsum((band.low + band.high) / 2 for band in known)
    half = math.sqrt(math.fsum(((band.high - band.low) / 2) ** 2 for band in known))
    return Band(max(0.0, middle - half), None, middle + half, catalog.shop.currency, COST)
