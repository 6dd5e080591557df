"""Where the leaves of a binder are punched, from the edge they are bound at and from the top."""

from __future__ import annotations

from formulas.catalog import Catalog
from formulas.checks import PAPERS
from formulas.frozen import Frozen

KINDS = {"iso-2": (2, "iso"), "iso-4": (4, "iso"), "us-3": (3, "us")}
"""How many holes each way of punching has, and whose figures tell where."""


class Holes(Frozen):
    """The middles of the holes of one leaf, and how wide each is, in mm."""

    edge: float
    tops: tuple[float, ...]
    across: float


def holes(catalog: Catalog) -> Holes | None:
    """Give the holes of the shop's paper, the middle of their row at half its height.

    Gives None for a shop that wants no marks.
    """
    shop = catalog.shop
    if shop.holes not in KINDS:
        return None
    count, whose = KINDS[shop.holes]
    edge, apart, across = (
        catalog.span(f"hole-{what}-{whose}", "mm")[0] for what in ("edge", "apart", "across")
    )
    middle = PAPERS[shop.paper][1] / 2
    tops = tuple(middle + (place - (count - 1) / 2) * apart for place in range(count))
    return Holes(edge, tops, across)
