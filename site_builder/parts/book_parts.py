"""The pot book on a leaf: its latest batches, and one batch as its sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.books.records import left_of_batch, left_of_lot, weighed_shares
from formulas.fault import NotKnown
from formulas.units import printed, spoken_unit
from site_builder.markup.elements import (
    Cell,
    basis,
    element,
    number,
    paragraph,
    table,
    unknown,
)
from site_builder.parts.bench_parts import known_id
from site_builder.texts.book_words import in_book

if TYPE_CHECKING:
    from formulas.answer import Quantity
    from formulas.book_entries import PotBatch, PotLot
    from formulas.catalog import Catalog

NONE_YET = "No batch stands in the book of this shop yet."
NEWEST = "latest"
SHOWN = 20  # rows of the newest batches; the whole book is pot_book.csv
NOT_WRITTEN = "it was not written down"


def pot_book(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the newest batches of the shop, the last one first."""
    made = _newest_first(catalog)
    if not made:
        return [paragraph(NONE_YET)]
    head = ["Batch", "Made", "Blend as made", "Yield", "Left", "Used in", "Test again by", "Basis"]
    rows: list[list[Cell]] = [
        [
            one.batch,
            one.date,
            one.blend or one.parts,
            _mass(one.yielded, one.unit),
            _left(catalog, one),
            ", ".join(_jobs(catalog, one.batch)) or "no job yet",
            f"thrown out {one.discarded}"
            if one.discarded
            else one.retest_by or unknown(NOT_WRITTEN),
            basis(one.basis),
        ]
        for one in made[:SHOWN]
    ]
    shown = table(head, rows)
    if len(made) <= SHOWN:
        return [shown]
    return [shown, paragraph(f"The newest {SHOWN} of {len(made)} batches.")]


def pot_sheet(catalog: Catalog, argument: str) -> list[Element]:
    """Show the sheet of one batch, filled in: a number of the pot book, or `latest`."""
    made = _newest_first(catalog)
    if argument == NEWEST and not made:
        return [paragraph(NONE_YET)]
    name = made[0].batch if argument == NEWEST else argument
    accepted = [*catalog.pot_book, NEWEST]
    one = catalog.pot_book[known_id(name, accepted, "a batch of pot_book.csv, or latest")]
    title = paragraph(
        element("strong", f"{one.batch}, made {one.date}"), ", basis ", *basis(one.basis)
    )
    return [title, _weighed(catalog, one.batch), table(["Line", "Written"], _lines(catalog, one))]


def _newest_first(catalog: Catalog) -> list[PotBatch]:
    return sorted(catalog.pot_book.values(), key=lambda one: (one.date, one.batch))[::-1]


def _weighed(catalog: Catalog, batch: str) -> Element:
    rows: list[list[Cell]] = [
        [
            catalog.materials[part.material].name if part.material else "Old wax",
            part.lot or unknown(NOT_WRITTEN),
            _mass(part.target, part.unit),
            _mass(part.actual, part.unit),
            _left_of(catalog, part),
        ]
        for part in catalog.lots_by_batch.get(batch, [])
    ]
    return table(["Material", "Lot", "Target", "Actual", "Left of it now"], rows, right=[2, 3, 4])


def _lines(catalog: Catalog, one: PotBatch) -> list[list[Cell]]:
    revision = f", revision {one.revision}" if one.revision else ""
    told: dict[str, Cell] = {
        "Blend": f"{one.blend or 'own ratio'}: {one.parts}{revision}",
        "Really weighed": _shares(catalog, one.batch),
        "Wax": one.wax,
        "Scale": one.scale,
        "Melted for": one.job,
        "Made by, checked by": ", ".join(filter(None, (one.made_by, one.checked_by))),
        "Hottest": _temperature(one),
        "In the make-up window": _time(one.make_up_minutes, "minutes"),
        "Hot, all in all": _time(one.held_hours, "hours"),
        "Yield": _mass(one.yielded, one.unit),
        "Left": _left(catalog, one),
        "Tests": ", ".join(t.test for t in catalog.softening_tests if t.sample == one.batch),
        "Used in": ", ".join(_jobs(catalog, one.batch)),
        "Test again by": one.retest_by,
        "Thrown out": one.discarded,
        "Note": one.note,
    }
    return [[label, said] for label, said in told.items() if said != ""]


def _shares(catalog: Catalog, batch: str) -> Cell:
    try:
        shares = weighed_shares(catalog, batch)
    except NotKnown as missing:
        return unknown(missing.find_out)
    return ", ".join(
        f"{catalog.materials[name].name} {printed(100 * share, 1)} %"
        for name, share in shares.items()
    )


def _jobs(catalog: Catalog, batch: str) -> list[str]:
    return sorted({use.job for use in catalog.pot_uses if use.batch == batch})


def _temperature(one: PotBatch) -> str:
    if one.top_temperature is None:
        return ""
    return f"{number(one.top_temperature)} {spoken_unit(one.temperature_unit)}"


def _time(value: float | None, unit: str) -> str:
    return "" if value is None else f"{number(value)} {unit}"


def _mass(value: float | None, unit: str) -> Cell:
    return unknown(NOT_WRITTEN) if value is None else f"{in_book(value)} {unit}"


def _left(catalog: Catalog, one: PotBatch) -> Cell:
    return _quantity(left_of_batch(catalog, one.batch).left)


def _left_of(catalog: Catalog, part: PotLot) -> Cell:
    if part.material:
        known = left_of_lot(catalog, part.lot).left if part.lot in catalog.lots else None
    else:
        known = left_of_batch(catalog, part.lot).left if part.lot in catalog.pot_book else None
    return _quantity(known)


def _quantity(found: Quantity | None) -> Cell:
    return _mass(found.value, found.unit) if found else unknown(NOT_WRITTEN)
