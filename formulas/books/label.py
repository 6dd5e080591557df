"""What a label says of a batch from the pot book, or of a stick of a blend without a batch.

Hazards come from the shares as made and as weighed, whichever is the larger; the softening is the
estimate with its band and never a limit of service. Where something is not known the label says so
or leaves a line to write on.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from formulas.answer import Answer, Basis, Quantity
from formulas.books import records
from formulas.books.hazard_class import HazardClass, classify
from formulas.catalog import Catalog
from formulas.fault import FormulasError, NotKnown, UnknownName
from formulas.ratio import parts_read
from formulas.softening import estimate as softening
from formulas.wax.batch import shares_of

if TYPE_CHECKING:
    from formulas.book_entries import PotBatch, PotLot

NEARLY = 1e-9  # of a share: a ratio written in other numbers is the same ratio
OWN_RATIO = "Wax for reed plates, own ratio"
WITH_DATA_SHEETS = (
    "Not known here is not harmless: read section 2 of the supplier's safety data sheet."
)


class Discarded(FormulasError, ValueError):
    """A batch that was thrown away: it gets no label."""

    def __init__(self, batch: str, day: str) -> None:
        self.batch, self.day = batch, day
        super().__init__(f"found '{batch}', discarded on {day}, accepted: a batch that is in use")


def label(catalog: Catalog, *, batch: str = "", blend: str = "") -> Answer:
    """Give every element of one label; exactly one of `batch` and `blend` is named.

    Raises UnknownName for a name of no table, Discarded for a batch that was thrown away.
    """
    if batch:
        return _of_batch(catalog, _batch(catalog, batch))
    known = catalog.blend(blend)
    shares = shares_of(known.parts)
    found = _common(catalog, known.parts, shares, classify(catalog, shares))
    found |= {"name": known.name, "batch": "", "date": "", "wax": "", "retest_by": ""}
    inputs = {"batch": "", "blend": blend, "parts": dict(known.parts)}
    return _answer(catalog, found, inputs, shares, Basis(f"parts of {blend}", known.basis))


def _batch(catalog: Catalog, name: str) -> PotBatch:
    if name not in catalog.pot_book:
        raise UnknownName("batch", name, catalog.pot_book)
    found = catalog.pot_book[name]
    if found.discarded:
        raise Discarded(name, found.discarded)
    return found


def in_use(catalog: Catalog) -> list[str]:
    """Name the batches of the pot book that were not discarded, as they stand there."""
    return [name for name, batch in catalog.pot_book.items() if not batch.discarded]


def _of_batch(catalog: Catalog, made: PotBatch) -> Answer:
    parts = parts_read(made.parts)
    shares = shares_of(parts)
    lots = catalog.lots_by_batch.get(made.batch, [])
    weighed = _weighed_shares(catalog, made.batch)
    older = not weighed and any(not lot.material for lot in lots)
    larger = _larger(shares, weighed)
    hazards = classify(catalog, larger, reclaimed=made.wax != "fresh" or older)
    found = _common(catalog, parts, shares, hazards)
    found |= {
        "name": _name(catalog, made.blend, shares),
        "batch": made.batch,
        "date": made.date,
        "wax": made.wax,
        "retest_by": made.retest_by,
        "lots": [_lot(lot) for lot in lots],
        "weighed": _weighed(catalog, lots),
    }
    inputs = {"batch": made.batch, "blend": made.blend, "parts": parts}
    return _answer(catalog, found, inputs, shares, Basis(f"batch {made.batch}", made.basis))


def _name(catalog: Catalog, blend: str, shares: Mapping[str, float]) -> str:
    """Give the blend's name, where the batch was made to its ratio."""
    if not blend:
        return OWN_RATIO
    meant = shares_of(catalog.blend(blend).parts)
    same = meant.keys() == shares.keys() and all(
        abs(meant[name] - share) < NEARLY for name, share in shares.items()
    )
    return catalog.blend(blend).name if same else OWN_RATIO


def _weighed_shares(catalog: Catalog, batch: str) -> dict[str, float]:
    """Give the shares as weighed; nothing where the books do not tell them."""
    try:
        return records.weighed_shares(catalog, batch)
    except NotKnown:
        return {}


def _larger(made: Mapping[str, float], weighed: Mapping[str, float]) -> dict[str, float]:
    return {name: max(made.get(name, 0), weighed.get(name, 0)) for name in {**made, **weighed}}


def _lot(lot: PotLot) -> str:
    return lot.lot or f"{lot.material}: lot not known"


def _weighed(catalog: Catalog, lots: Iterable[PotLot]) -> list[dict[str, Any]]:
    """Give what was really weighed of each lot, in table order."""
    return [
        {
            "of": catalog.material(lot.material).name if lot.material else f"batch {lot.lot}",
            "mass": Quantity(lot.actual, lot.unit),
        }
        for lot in lots
        if lot.actual is not None
    ]


def _common(
    catalog: Catalog,
    parts: Mapping[str, float],
    shares: Mapping[str, float],
    hazards: HazardClass,
) -> dict[str, Any]:
    return {
        "parts": [
            {"material": name, "name": catalog.material(name).name, "parts": part,
             "share": shares[name]}
            for name, part in parts.items()
        ],
        "lots": [],
        "weighed": [],
        "softening": softening.best_estimate(catalog, shares),
        **hazards.elements(),
        "not_known": list(hazards.not_known),
        "basis_of_hazards": list(hazards.basis),
        "supplier": supplier(catalog),
    }  # fmt: skip


def supplier(catalog: Catalog) -> dict[str, str]:
    """Give who stands behind a label: the shop, and where it is found."""
    shop = catalog.shop
    return {
        "name": f"{shop.name} (invented)" if shop.invented else shop.name,
        "address": shop.address,
        "telephone": shop.telephone,
    }


def left_off(found: Mapping[str, Any]) -> list[str]:
    """Say which precautions a label leaves off, and why."""
    return [f"{one.code} is left off: {one.because}" for one in found["statements_left_out"]]


def drawn(catalog: Catalog, found: Mapping[str, Any]) -> str:
    """Name the pictograms of a label."""
    return ", ".join(catalog.pictograms[name].name.lower() for name in found["pictograms"])


def _answer(
    catalog: Catalog,
    found: dict[str, Any],
    inputs: dict[str, Any],
    shares: Mapping[str, float],
    made: Basis,
) -> Answer:
    basis = [made, *found.pop("basis_of_hazards"), *softening.basis_of(catalog, shares)]
    return Answer("label", found, inputs, basis, catalog.warned("label"), _notes(catalog, found))


def _notes(catalog: Catalog, found: dict[str, Any]) -> list[str]:
    notes = left_off(found)
    if found["not_known"]:
        names = "; ".join(found["not_known"])
        notes.append(f"Hazards not known: {names}. {WITH_DATA_SHEETS}")
    if found["pictograms"]:
        notes.append(f"Pictogram: {drawn(catalog, found)}.")
    notes.append("The softening is an estimate, no service temperature.")
    return notes
