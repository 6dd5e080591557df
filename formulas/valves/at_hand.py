"""The stocks that a choice is made from: of one kind, or named, and the films to lie over them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from formulas.fault import UnknownName
from formulas.valves.stock import Stock, stocks

if TYPE_CHECKING:
    from formulas.catalog import Catalog

FILM = "film"
ANY = "any"


def considered(catalog: Catalog, kind: str = "", only: Sequence[str] = ()) -> list[Stock]:
    """Give the stocks to choose from: all, those of one kind, or those named.

    Blank is the kind that the shop cuts. Raises UnknownName for a kind or a stock that is not
    there.
    """
    every = stocks(catalog)
    names = {one.id for one in every}
    for name in only:
        if name not in names:
            raise UnknownName("valve stock", name, names)
    if only:
        return [one for one in every if one.id in only]
    kind = kind or catalog.shop.valve_kind or ANY
    kinds = {one.kind for one in every} | {ANY}
    if kind not in kinds:
        raise UnknownName("kind of valve stock", kind, kinds)
    return [one for one in every if kind in (ANY, one.kind)]


def at_hand(catalog: Catalog, taken: Sequence[Stock]) -> list[tuple[Stock, bool]]:
    """Give the stocks taken, and the films that may only lie over one of them."""
    own = {one.id for one in taken}
    return [(one, one.id in own) for one in stocks(catalog) if one.id in own or one.kind == FILM]
