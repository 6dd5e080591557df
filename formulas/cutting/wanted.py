"""What is to be cut: by the choice of `valves`, or as sizes that were typed; one row a strip."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from formulas.fault import UnknownName
from formulas.frozen import Frozen

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valves.valves import Chosen

ANY = ""
"""The stock of sizes that were typed without one."""


class Typed(Frozen):
    """A size that was typed, in m, and how many of it."""

    length_m: float
    width_m: float
    count: int


class Wanted(Frozen):
    """Strips of one size and stock; `mark` says for which note, blank where none is known."""

    stock: str
    length_m: float
    width_m: float
    count: int
    rank: str = ""
    plate: str = ""
    note: str = ""
    face: str = ""
    topper: bool = False


class NotCut(Frozen):
    """Slots for which nothing is cut: those that go without, and those with no choice yet."""

    without: int
    undecided: int


def of_typed(sizes: Iterable[Typed], stock: str) -> list[Wanted]:
    """Give typed sizes as strips of one stock."""
    return [Wanted(stock, one.length_m, one.width_m, one.count) for one in sizes]


def of_instrument(
    catalog: Catalog, instrument: str, ranks: Sequence[str], *, kind: str = "", stock: str = ""
) -> tuple[list[Wanted], NotCut]:
    """Give the strips of an instrument or of some of its ranks, and how many slots get none.

    With a `stock` every slot that takes a valve is cut from it, whatever was chosen. Raises
    UnknownName for an instrument, a rank or a stock that is not there.
    """
    from formulas.valves.rank import ranks_of
    from formulas.valves.valves import chosen

    known = [one.rank for one in ranks_of(catalog, instrument)]
    for rank in ranks:
        if rank not in known:
            raise UnknownName("rank", rank, known)
    found = (
        one for rank in (ranks or known) for one in chosen(catalog, instrument, rank, kind=kind)
    )
    return of_chosen(catalog, found, stock=stock)


def of_chosen(
    catalog: Catalog, chosen: Iterable[Chosen], *, stock: str = ""
) -> tuple[list[Wanted], NotCut]:
    """Give the strips of what was chosen, all from one `stock` where it is named."""
    from formulas.valves.deciding import WITHOUT

    found: list[Wanted] = []
    without = undecided = 0
    for one in chosen:
        if one.kind == WITHOUT:
            without += 1
        elif stock or one.stock:
            marks = (one.length_m, one.width_m, 1, one.rank, one.plate, one.note, one.face)
            found.append(Wanted(stock or one.stock, *marks))
            if one.topper and not stock:
                found.append(Wanted(one.topper, *marks, topper=True))
        else:
            undecided += 1
    return list(_layered(catalog, found)), NotCut(without, undecided)


def _layered(catalog: Catalog, wanted: Iterable[Wanted]) -> Iterator[Wanted]:
    """Give a strip of each layer where the layers lie loose on each other."""
    from dataclasses import replace

    for one in wanted:
        made = catalog.valve_stock[one.stock]
        if made.layers and made.bond == "loose":
            yield from (replace(one, stock=layer) for layer in made.layers)
        else:
            yield one


def by_stock(wanted: Iterable[Wanted]) -> Mapping[str, list[Wanted]]:
    """Put together what is cut from one stock, in the order in which stocks first stand."""
    found: dict[str, list[Wanted]] = {}
    for one in wanted:
        found.setdefault(one.stock, []).append(one)
    return found
