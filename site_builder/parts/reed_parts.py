"""What the leaf of plates places: generic sizes, which plates to measure, measured and expected."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.units import convert, printed
from formulas.valves.compared_plates import (
    ComparedPlate,
    compared,
    expected_of_note,
    plate_of_note,
    share_left,
    to_measure_first,
)
from formulas.valves.notes import note_name
from formulas.valves.rank import Size, rank_oddities, ranks_of
from formulas.valves.reed_sizes import MEASURES
from site_builder.markup.elements import Cell, element, noted_table, paragraph, span, table

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valve_entries import Rank

DECIMALS = {"length": 1, "width": 2}
COUNTS = (1, 2, 3, 4, 5, 7)
NONE_YET = (
    "No plate stands in the book of this shop yet. Until one does, every size is that of the "
    "generic line."
)


def _mm(size: float, measure: str) -> str:
    return printed(convert(size, "m", "mm"), DECIMALS[measure])


def _ends(size: Size, measure: str) -> str:
    return f"{_mm(size.low, measure)}\N{EN DASH}{_mm(size.high, measure)}"


def reed_sizes(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the plates of each rank to measure first, and the sizes to expect."""
    rows: list[list[Cell]] = []
    for rank in ranks_of(catalog, catalog.shop.instrument):
        for midi in to_measure_first(catalog, rank):
            plate = " × ".join(
                printed(convert(side, "m", "mm"), 0) for side in plate_of_note(catalog, midi)
            )
            sizes = [_expected(catalog, midi, measure) for measure in MEASURES]
            rows.append([f"{note_name(midi)}, {rank.name}; plate about {plate}", *sizes])
    said = (
        "All in millimetres. In brackets what holds 95 of 100; yours may be one of the others. "
        "From memory, over makers and over instruments."
    )
    heads = ["Note and rank", "Slot length", "Slot width"]
    return [table(heads, rows), paragraph(said)]


def _expected(catalog: Catalog, midi: int, measure: str) -> str:
    size = expected_of_note(catalog, midi, measure)
    return f"{_mm(size.estimate, measure)} ({_ends(size, measure)})"


def measuring_helps(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate how true the sizes of the longest rank are known after so many plates."""
    rank = max(ranks_of(catalog, catalog.shop.instrument), key=lambda rank: rank.plates)
    rows = [
        [
            printed(count, 0) if count else "none",
            *(
                f"±\u00a0{printed(100 * share_left(catalog, rank, count, m), 0)} %"
                for m in MEASURES
            ),
        ]
        for count in (0, *_counts(rank))
    ]
    heads = ["Read", "Others, length", "Others, width"]
    said = (
        f"{rank.name}, {rank.plates} plates, those read spread evenly; of the others the worst "
        "known:"
    )
    return [paragraph(said), table(heads, rows, right=(1, 2))]


def _counts(rank: Rank) -> list[int]:
    return [count for count in COUNTS if count < rank.plates]


def plates_compared(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate every plate measured of the shop's instrument against what was to be expected."""
    instrument = catalog.shop.instrument
    rows: dict[tuple[str, str], list[Cell]] = {}
    for rank in ranks_of(catalog, instrument):
        for one in compared(catalog, instrument, rank.rank):
            cells = rows.setdefault((rank.rank, one.plate), [f"{one.plate}, {one.sounds}", "", ""])
            cells[1 + MEASURES.index(one.measure)] = _compared(one)
    if not rows:
        return [paragraph(NONE_YET)]
    heads = ["Plate", "Slot length, mm, and what the others lead to expect", "Slot width"]
    unlike = [
        paragraph(
            f"Plate {one.plate}: its two slots differ in {one.measure} by more than slots of one "
            "plate do. Measure both again."
        )
        for rank in ranks_of(catalog, instrument)
        for one in rank_oddities(catalog, instrument, rank.rank)
        if one.unlike
    ]
    return [table(heads, rows.values()), *unlike]


def _compared(one: ComparedPlate) -> Cell:
    read = f"{_mm(one.found, one.measure)} ({_ends(one.expected, one.measure)})"
    return [read, ": ", element("strong", "odd, measure again")] if one.odd else read


def valve_classes(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what the trade puts on tongues of a length."""
    rows: list[list[Cell]] = [
        [
            span(one.tongue_low, one.tongue_high, "mm"),
            one.words,
            span(one.leather_low, one.leather_high, "mm"),
            span(one.film_low, one.film_high, "mm"),
            one.helper,
            element("basis", kind=one.basis, source=""),
            one.note,
        ]
        for one in catalog.valve_classes.values()
    ]
    heads = ["Tongue", "What the trade puts on", "Leather", "Film", "Helper", "Basis", "Note"]
    return [noted_table(heads, rows)]
