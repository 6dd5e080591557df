"""The valves of a job: what each tongue gets, rank by rank, and the cut list of each stock."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.cutting.blanks import strip_said
from formulas.valves.deciding import NONE_SERVES, NOT_MEASURED, WITH_HELPER, WITHOUT
from formulas.valves.notes import midi_of
from site_builder.markup.elements import Cell, element, paragraph, table
from site_builder.parts.job_parts import at_work
from site_builder.parts.job_work_parts import chart_table, kept, own_page
from site_builder.texts import cut as cut_text

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.cutting.plan import Plan
    from formulas.jobs.job import JobPlate, Whole
    from formulas.valves.valves import Chosen

HEADS = ("Plate", "Note", "Inside", "Outside")
MEASURED = " ●"
KEPT, NO_SECOND = "kept", "–"
FACES = ("inside", "outside")
ROW_MM = "5.2"
BACKBONE = "Every strip of a skin lies along its backbone. Spares are for the ones that curl."
SAID = {WITHOUT: "no valve", NOT_MEASURED: "no stock measured", NONE_SERVES: "none serves"}


def valve_charts(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate for each rank what each plate gets on either face, two columns of plates a page."""
    whole = at_work(catalog)
    us = catalog.shop.units == "US"
    read = slots_read(catalog, whole)
    cut = sizes_cut(whole)
    found: list[Element] = []
    for rank in whole.job.ranks:
        plates = [one for one in whole.plates if one.rank == rank.rank]
        if plates and all(one.keeps_valves for one in plates):
            found.append(paragraph(f"{rank.name}: every plate keeps its valves."))
        elif plates:
            valves = {(one.note, one.face): one for one in whole.chosen if one.rank == rank.rank}
            name = f"{rank.name}, {plates[0].note} to {plates[-1].note}"
            found.append(kept(element("h3", name), _chart(name, plates, valves, read, cut, us)))
    return found


Cut = dict[tuple[str, str, str, str], tuple[float, float]]


def sizes_cut(whole: Whole) -> Cut:
    """Give length and width as the cut list has them, rounded up, by rank, plate, note and face."""
    return {
        (one.rank, one.plate, one.note, one.face): (blank.length, blank.width)
        for plan in whole.plan.answer["plans"]
        for blank in plan.blanks
        for one in blank.wanted
        if not one.topper
    }


def slots_read(catalog: Catalog, whole: Whole) -> set[tuple[str, int]]:
    """Give rank and note of each plate whose slots were measured."""
    return {
        (one.rank, midi_of(one.sounds))
        for one in catalog.plates
        if one.instrument == whole.job.job and None not in (one.slot_length, one.slot_width)
    }


def _chart(
    name: str,
    plates: Sequence[JobPlate],
    valves: dict[tuple[str, str], Chosen],
    read: set[tuple[str, int]],
    cut: Cut,
    us: bool,
) -> Element:
    rows = [
        [
            plate.mark,
            plate.note + (MEASURED if (plate.rank, plate.midi) in read else ""),
            *(_said(plate, valves.get((plate.note, face)), cut, us) for face in FACES),
        ]
        for plate in plates
    ]
    half = (len(rows) + 1) // 2
    right = [*rows[half:], *[[""] * len(HEADS)] * (2 * half - len(rows))]
    both = [[*one, *other] for one, other in zip(rows[:half], right, strict=True)]
    return chart_table(name, [*HEADS, *HEADS], both, row_mm=ROW_MM)


def _said(plate: JobPlate, one: Chosen | None, cut: Cut, us: bool) -> str:
    if one is None:
        return KEPT if plate.keeps_valves else NO_SECOND
    if not one.stock:
        return SAID.get(one.kind, SAID[NOT_MEASURED])
    stock = f"{one.stock} + {one.topper}" if one.topper else one.stock
    helper = ", helper" if one.kind == WITH_HELPER else ""
    sizes = cut.get((one.rank, one.plate, one.note, one.face), (one.length_m, one.width_m))
    size = strip_said(*sizes, us).removesuffix(" in" if us else " mm")
    return f"{size} {stock}{helper}"


def cut_lists(catalog: Catalog, _: str) -> list[Element]:
    """Give the cut list of each stock, as long strips and as it lies on what the shop has.

    It begins a page of its own, for the cutting board.
    """
    whole = at_work(catalog)
    us = catalog.shop.units == "US"
    found = [
        piece for plan in whole.plan.answer["plans"] for piece in _list(catalog, whole, plan, us)
    ]
    bought = cut_text.bought_said(whole.plan, us)
    told = paragraph(BACKBONE)
    lists = (*found, *(paragraph(one) for one in bought))
    return [own_page(element("h2", "Cut lists"), told, *lists)]


def _list(catalog: Catalog, whole: Whole, plan: Plan, us: bool) -> Iterator[Element]:
    yield element("h3", cut_text.stock_line(plan, catalog))
    rows: list[list[Cell]] = [
        [
            strip_said(one.length, one.width, us),
            str(one.count),
            str(one.spares),
            str(one.cut),
            cut_text.marks_said(one.wanted),
        ]
        for one in plan.blanks
    ]
    heads = ["Length × width", "Slots", "Spare", "Cut", "For"]
    yield table(heads, rows, right=[1, 2, 3])
    own = [one for one in whole.plan.answer["long_strips"] if one["stock"] == plan.stock]
    if own:
        yield paragraph(cut_text.long_strips_said(own, us))
    for sheet in plan.sheets:
        yield paragraph(cut_text.sheet_said(sheet, us))
