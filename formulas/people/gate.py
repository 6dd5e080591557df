"""What the books say beside the gate: a pot was melted by somebody who may not do it alone.

What happened is written whatever the rules say; they say so beside it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from formulas.fault import nearest
from formulas.people.may import HOT_WAX, may, who_may

if TYPE_CHECKING:
    from formulas.book_entries import PotBatch
    from formulas.catalog import Catalog


def people_notices(catalog: Catalog) -> list[str]:
    """Give what a check should say of batches, though no cell is at fault."""
    return [
        f"pot_book.csv: {made.batch}: {said}"
        for made in catalog.pot_book.values()
        if not _beside(catalog, made)
        for said in _not_alone(catalog, made)
    ]


def batch_notes(catalog: Catalog, made: PotBatch) -> Iterator[str]:
    """Say of a batch that is being entered who must have been beside, or is not known."""
    for said in _not_alone(catalog, made):
        beside = _beside(catalog, made)
        must = f"{beside}, who checked, must have been beside all the time." if beside else ""
        yield f"{said} {must}".rstrip()
    if catalog.people and made.made_by and made.made_by not in catalog.people:
        close = nearest(made.made_by, catalog.people)
        meant = f" Was {close} meant?" if close else ""
        yield f"{made.made_by} stands not in people.csv: no sign-off tells of hot wax.{meant}"


def _not_alone(catalog: Catalog, made: PotBatch) -> Iterator[str]:
    if made.made_by not in catalog.people:
        return
    found = may(catalog, made.made_by, HOT_WAX, made.date)
    if found.may:
        return
    why = "; ".join(found.why_not)
    said = f"{made.made_by} may not work hot wax alone on {made.date}: {why}."
    if not _beside(catalog, made):
        others = [name for name in who_may(catalog, HOT_WAX, made.date) if name != made.made_by]
        names = " or ".join(others) or "nobody of people.csv, on that day"
        said += f" Somebody who may must have been beside: {names}; write who it was as checked_by."
    yield said


def _beside(catalog: Catalog, made: PotBatch) -> str:
    """Give who checked a batch, where that one may work hot wax alone; else ""."""
    other = made.checked_by
    if other not in catalog.people:
        return ""
    return other if may(catalog, other, HOT_WAX, made.date).may else ""
