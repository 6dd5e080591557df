"""Enter a batch in the pot book: its number, the targets beside what was weighed, its lots."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from formulas import units
from formulas.answer import Answer, Basis, Quantity, Unknown
from formulas.book_entries import PotBatch, PotLot
from formulas.books.appending import Cell
from formulas.books.records import (
    batch_names,
    grams_in,
    left_of_batch,
    left_of_lot,
    next_number,
    weighed_shares,
)
from formulas.catalog import Catalog
from formulas.fault import FormulasError, NotKnown, OutOfRange
from formulas.frozen import Frozen
from formulas.jobs.held import short_for_others
from formulas.people.gate import batch_notes
from formulas.ratio import parts_text, revision_of
from formulas.wax.batch import mass_of, shares_of, steps_of, weigh_out

Added = dict[str, list[dict[str, Cell]]]
FINE_G = 1e-6  # a mass below this is nothing
BOOK_DECIMALS = 6  # enough for a tenth of a milligram in kilograms


class Drawn(Frozen):
    """What was weighed in: a material and its lot, or no material and an older batch."""

    material: str
    lot: str
    amount: float
    unit: str

    @property
    def grams(self) -> float:
        """The mass in grams."""
        return self.amount * grams_in(self.unit)


class Sheet(Frozen):
    """What else the batch sheet says; a blank is not known."""

    date: str
    made_by: str = ""
    checked_by: str = ""
    top_temperature: float | None = None
    temperature_unit: str = ""
    make_up_minutes: float | None = None
    held_hours: float | None = None
    yielded: float | None = None
    unit: str = ""
    retest_by: str = ""
    wax: str = ""
    note: str = ""
    job: str = ""


def record_batch(
    catalog: Catalog,
    parts: Mapping[str, float],
    drawn: Sequence[Drawn],
    sheet: Sheet,
    *,
    total_g: float | None = None,
    blend: str = "",
) -> tuple[Answer, Added]:
    """Give the answer and the new rows, those of the lots before that of the batch.

    The targets are those of `mix` for the total, less what old wax brings along; without a
    total they are for what was weighed. Raises OutOfRange where nothing was weighed.
    """
    whole = sum(one.grams for one in drawn)
    if not whole > 0:
        raise OutOfRange("what was weighed in", whole, "at least one lot above 0 g", "the pot book")
    number = next_number("W", sheet.date, batch_names(catalog))
    basis = "invented" if catalog.shop.invented else "measured"
    goals = targets(catalog, parts, drawn, whole if total_g is None else total_g)
    lots = [
        PotLot(number, one.material, one.lot, goal, one.amount, one.unit, basis)
        for one, goal in zip(drawn, goals, strict=True)
    ]
    made = _batch(catalog, number, parts, sheet, blend, basis)
    after = dataclasses.replace(
        catalog,
        pot_book={**catalog.pot_book, number: made},
        pot_lots=[*catalog.pot_lots, *lots],
    )
    answer = Answer(
        "record-batch",
        _answer(after, made, lots),
        _inputs(parts, sheet, total_g, blend),
        _basis(catalog, blend, hot=sheet.top_temperature is not None),
        catalog.warned("record-batch"),
        list(_notes(after, parts, made, lots)),
    )
    return answer, {
        "pot_lots.csv": [dataclasses.asdict(lot) for lot in lots],
        "pot_book.csv": [_row(made)],
    }


def _batch(
    catalog: Catalog, number: str, parts: Mapping[str, float], sheet: Sheet, blend: str, basis: str
) -> PotBatch:
    scale = f"{catalog.shop.scale_step:g} {catalog.shop.scale_unit}"
    return PotBatch(
        batch=number,
        blend=blend,
        parts=parts_text(parts),
        revision=revision_of(parts),
        scale=scale,
        discarded="",
        basis=basis,
        **{field.name: getattr(sheet, field.name) for field in dataclasses.fields(sheet)},
    )


def _row(made: PotBatch) -> dict[str, Cell]:
    row: dict[str, Cell] = dataclasses.asdict(made)
    row["yield"] = row.pop("yielded")
    return row


def targets(
    catalog: Catalog, parts: Mapping[str, float], drawn: Sequence[Drawn], total_g: float
) -> list[float | None]:
    """Give what should have been weighed of each lot, in the unit it was weighed in.

    Several lots of one material share its target as they shared the weight. Old wax is its own
    target; where its make-up is not known no material has one.
    """
    try:
        brought = _brought(catalog, drawn)
    except FormulasError:
        return [None if one.material else one.amount for one in drawn]
    step, unit = catalog.shop.scale_step, catalog.shop.scale_unit
    old = sum(one.grams for one in drawn if not one.material)
    needs = {
        material: max(0.0, share * total_g - brought.get(material, 0.0))
        for material, share in shares_of(parts).items()
    }
    steps = steps_of(max(0.0, total_g - old) / grams_in(unit), step)
    counts = dict.fromkeys(needs, 0)
    if sum(needs.values()) > FINE_G:
        shares = [need / sum(needs.values()) for need in needs.values()]
        counts = dict(zip(needs, weigh_out(shares, steps), strict=True))
    return [_goal(one, drawn, counts, step, unit) for one in drawn]


def _goal(
    one: Drawn, drawn: Sequence[Drawn], counts: Mapping[str, int], step: float, unit: str
) -> float | None:
    if not one.material:
        return one.amount
    if one.material not in counts:
        return None
    alike = [other for other in drawn if other.material == one.material]
    whole = sum(other.grams for other in alike)
    shares = [other.grams / whole if whole else 1 / len(alike) for other in alike]
    place = next(i for i, other in enumerate(alike) if other is one)
    count = weigh_out(shares, counts[one.material])[place]
    goal = units.convert(mass_of(count, step), unit, one.unit)
    return float(units.printed(goal, BOOK_DECIMALS))


def _brought(catalog: Catalog, drawn: Sequence[Drawn]) -> dict[str, float]:
    """Give the grams of each material that old wax brings along."""
    brought: dict[str, float] = {}
    for one in drawn:
        if not one.material:
            for material, share in weighed_shares(catalog, one.lot).items():
                brought[material] = brought.get(material, 0.0) + share * one.grams
    return brought


def _answer(catalog: Catalog, made: PotBatch, lots: Sequence[PotLot]) -> dict[str, Any]:
    unit = catalog.shop.scale_unit
    whole = sum((lot.actual or 0.0) * grams_in(lot.unit) for lot in lots) / grams_in(unit)
    return {
        "batch": made.batch,
        "date": made.date,
        "revision": made.revision,
        "total": Quantity(whole, unit),
        "lots": [
            {
                "material": lot.material,
                "lot": lot.lot,
                "target": None if lot.target is None else Quantity(lot.target, lot.unit),
                "actual": Quantity(lot.actual or 0.0, lot.unit),
                "left": _left(catalog, lot),
            }
            for lot in lots
        ],
        "weighed_shares": _shares(catalog, made.batch),
        "yield": None if made.yielded is None else Quantity(made.yielded, made.unit),
        "retest_by": made.retest_by or None,
    }


def _left(catalog: Catalog, lot: PotLot) -> Quantity | None:
    if lot.material:
        return left_of_lot(catalog, lot.lot).left if lot.lot in catalog.lots else None
    return left_of_batch(catalog, lot.lot).left if lot.lot in catalog.pot_book else None


def _shares(catalog: Catalog, batch: str) -> dict[str, float] | Unknown:
    try:
        return weighed_shares(catalog, batch)
    except NotKnown as missing:
        return Unknown(missing.what, missing.find_out)


def _inputs(
    parts: Mapping[str, float], sheet: Sheet, total_g: float | None, blend: str
) -> dict[str, Any]:
    said = dataclasses.asdict(sheet)
    return {"blend": blend, "parts": dict(parts), "total_g": total_g, **said}


def _basis(catalog: Catalog, blend: str, *, hot: bool) -> list[Basis]:
    known = catalog.blends.get(blend)
    rested = [Basis(f"parts by mass of {blend}", known.basis, known.source)] if known else []
    ceiling = catalog.figure("over-temperature-ceiling")
    told = Basis("the ceiling for any pot", ceiling.basis, ceiling.source)
    return [*rested, told] if hot else rested


def _notes(
    catalog: Catalog, parts: Mapping[str, float], made: PotBatch, lots: Sequence[PotLot]
) -> Iterator[str]:
    """Say what should be looked at. Nothing of it keeps the record out: it says what was done."""
    yield from _blend_notes(parts, lots)
    yield from _lot_notes(catalog, lots, made.job)
    yield from _heat_notes(catalog, made)
    yield from batch_notes(catalog, made)
    whole = sum((lot.actual or 0.0) * grams_in(lot.unit) for lot in lots)
    if made.yielded is not None and made.unit and made.yielded * grams_in(made.unit) > whole:
        yield "More came out than was weighed in: read the scale again."
    if not made.checked_by or made.checked_by == made.made_by:
        yield "Nobody else has read the scale: have a second person check the weights."
    if not made.retest_by:
        yield "No day to test the kept stick again is written."


def _blend_notes(parts: Mapping[str, float], lots: Sequence[PotLot]) -> Iterator[str]:
    weighed = {lot.material for lot in lots}
    for material in parts:
        if "" not in weighed and material not in weighed:
            yield f"The blend asks for {material}, and none was weighed in."
    for material in sorted(weighed - {*parts, ""}):
        yield f"{material} is no part of this blend and was weighed in."


def _lot_notes(catalog: Catalog, lots: Sequence[PotLot], job: str) -> Iterator[str]:
    for lot in lots:
        left = _left(catalog, lot)
        if left is not None and left.value < 0:
            yield (
                f"More of {lot.lot} was drawn than the books hold, by {-left.value:g} {left.unit}."
                " The scale was right, the book is not: weigh what is there."
            )
        elif left is not None:
            short = short_for_others(catalog, "lot" if lot.material else "batch", lot.lot, job)
            yield from [short] if short else []
        if not lot.lot:
            yield f"The lot of {lot.material} is not written: a bad lot could not be traced here."


def _heat_notes(catalog: Catalog, made: PotBatch) -> Iterator[str]:
    if made.top_temperature is None or not made.temperature_unit:
        return
    ceiling = catalog.span("over-temperature-ceiling", "degC")[1]
    if units.convert(made.top_temperature, made.temperature_unit, "degC") > ceiling:
        yield (
            f"The pot was hotter than {ceiling:g} °C, the ceiling for any pot. Find out why"
            " before the next melt, and look at the colour of this one."
        )
