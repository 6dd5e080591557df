"""What the shop's books say together: what a batch is made of, and what is left of each lot.

Old wax goes into new pots, so a batch may hold lots that were weighed into an older one.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Iterable, Mapping

from formulas.answer import Quantity
from formulas.catalog import Catalog
from formulas.fault import NotKnown, UnknownName
from formulas.frozen import Frozen
from formulas.units import convert

EMPTY = 1e-9  # share of a lot below which what is left is nothing but the sum's own error
WRITE_IT = "write what the scale showed into pot_lots.csv, or test the batch as wax of its own."


@functools.cache
def grams_in(unit: str) -> float:
    """Give the grams of one unit of mass."""
    return convert(1, unit, "g")


def weighed_shares(catalog: Catalog, batch: str) -> dict[str, float]:
    """Give the shares by mass of each material really weighed into a batch, old wax included.

    Losses are taken to fall on all parts alike. Raises NotKnown where a part has no weight or
    its own make-up is not known, UnknownName for a batch that does not stand in the pot book.
    """
    if batch not in catalog.pot_book:
        raise UnknownName("batch", batch, catalog.pot_book)
    shares: dict[str, dict[str, float]] = {}
    for name in _oldest_first(catalog, batch):
        shares[name] = _own_shares(catalog, name, shares)
    return shares[batch]


def _own_shares(
    catalog: Catalog, batch: str, known: Mapping[str, Mapping[str, float]]
) -> dict[str, float]:
    masses: dict[str, float] = {}
    for part in catalog.lots_by_batch.get(batch, []):
        if part.actual is None:
            raise NotKnown(f"{batch}: the mass of {part.material or part.lot}", WRITE_IT)
        inside = {part.material: 1.0} if part.material else known.get(part.lot, {})
        for material, share in inside.items():
            grams = share * part.actual * grams_in(part.unit)
            masses[material] = masses.get(material, 0.0) + grams
    whole = sum(masses.values())
    if not whole > 0:
        raise NotKnown(f"{batch}: what was weighed in", WRITE_IT)
    return {material: mass / whole for material, mass in masses.items()}


def _oldest_first(catalog: Catalog, batch: str) -> list[str]:
    """Give a batch after all that were melted into it. Raises NotKnown for a ring of batches."""
    import graphlib

    parents = {name: older_in(catalog, name) for name in {batch, *ancestors(catalog, batch)}}
    try:
        return list(graphlib.TopologicalSorter(parents).static_order())
    except graphlib.CycleError as error:
        ring = " into ".join(error.args[1])
        raise NotKnown(f"{batch}: its make-up ({ring} is a ring)", WRITE_IT) from error


def older_in(catalog: Catalog, batch: str) -> list[str]:
    """Give the older batches that were melted into a batch, without those inside them."""
    parts = catalog.lots_by_batch.get(batch, [])
    return sorted({part.lot for part in parts if part.lot and not part.material})


def ancestors(catalog: Catalog, batch: str) -> set[str]:
    """Give every batch that is somewhere inside a batch."""
    return _reached(batch, lambda name: older_in(catalog, name))


def descendants(catalog: Catalog, batch: str) -> set[str]:
    """Give every batch that a batch was melted into, at first or at last."""
    return _reached(batch, lambda name: newer_than(catalog, name))


def newer_than(catalog: Catalog, batch: str) -> list[str]:
    """Give the batches that a batch was melted into, without those they went into."""
    draws = catalog.draws_by_lot.get(batch, [])
    return sorted({part.batch for part in draws if not part.material})


def _reached(start: str, step: Callable[[str], Iterable[str]]) -> set[str]:
    """Follow steps from a name to every name they reach; a ring ends where it was begun."""
    reached: set[str] = set()
    waiting = [start]
    while waiting:
        found = [name for name in step(waiting.pop()) if name not in reached]
        reached.update(found)
        waiting += found
    return reached - {start}


class Left(Frozen):
    """What a lot or a batch held, what was taken of it, and what is left, in one unit.

    None where the books do not say what it held.
    """

    held: Quantity | None
    drawn: Quantity
    left: Quantity | None


def left_of_lot(catalog: Catalog, lot: str) -> Left:
    """Give what is left of a lot by the books.

    What stood there when its row in lots.csv was entered, less every draw in pot_lots.csv, also
    for a batch that never got its row. Spills and samples are in no book: the scale is right.
    """
    if lot not in catalog.lots:
        raise UnknownName("lot", lot, catalog.lots)
    held = catalog.lots[lot]
    drawn = sum(
        (part.actual or 0.0) * grams_in(part.unit) / grams_in(held.unit)
        for part in catalog.draws_by_lot.get(lot, [])
        if part.material
    )
    return _left(held.amount, drawn, held.unit)


def left_of_batch(catalog: Catalog, batch: str) -> Left:
    """Give what is left of a batch: its yield less the uses and what went into later pots."""
    made = catalog.pot_book[batch]
    unit = made.unit or catalog.shop.scale_unit
    draws = [part for part in catalog.draws_by_lot.get(batch, []) if not part.material]
    taken = [(part.actual, part.unit) for part in draws]
    taken += [(use.amount, use.unit) for use in catalog.uses_by_batch.get(batch, [])]
    drawn = sum(
        amount * grams_in(of) / grams_in(unit) for amount, of in taken if amount is not None
    )
    return _left(made.yielded, drawn, unit)


def _left(held: float | None, drawn: float, unit: str) -> Left:
    if held is None:
        return Left(None, Quantity(drawn, unit), None)
    left = held - drawn
    if abs(left) < EMPTY * held:
        left = 0.0
    return Left(Quantity(held, unit), Quantity(drawn, unit), Quantity(left, unit))


def notices(catalog: Catalog) -> list[str]:
    """Give what a check should say though no cell is at fault.

    A record that was cut off between its two tables leaves draws without their batch; a lot of
    which more was drawn than it held says that a book is wrong, not the scale.
    """
    orphans = sorted(set(catalog.lots_by_batch) - set(catalog.pot_book))
    said = [
        f"pot_lots.csv: stock drawn for no batch: {name} stands not in pot_book.csv. Write the"
        " batch's row, or take the rows out; till then they count as drawn."
        for name in orphans
    ]
    for lot in catalog.lots:
        left = left_of_lot(catalog, lot).left
        if left is not None and left.value < 0:
            said.append(
                f"lots.csv: {lot}: {-left.value:g} {left.unit} more was drawn than it held."
                " Weigh what is there and put its row right."
            )
    return said


NUMBERED = r"{letter}-{year}-(\d{{3,}})"


def next_number(letter: str, date: str, used: Iterable[str]) -> str:
    """Give the next free number of a year, such as W-26-014, above every one ever written.

    >>> next_number("W", "2026-11-01", ["W-26-002", "W-26-010", "W-25-400", "pot 7"])
    'W-26-011'
    """
    pattern = re.compile(NUMBERED.format(letter=letter, year=date[2:4]))
    found = [int(match.group(1)) for name in used if (match := pattern.fullmatch(name))]
    return f"{letter}-{date[2:4]}-{max(found, default=0) + 1:03d}"


def batch_names(catalog: Catalog) -> set[str]:
    """Give every name that stands anywhere for a batch, orphans included."""
    return {
        *catalog.pot_book,
        *catalog.lots_by_batch,
        *catalog.draws_by_lot,
        *(use.batch for use in catalog.pot_uses),
        *(test.sample for test in catalog.softening_tests),
    }
