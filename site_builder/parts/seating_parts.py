"""What the leaves of seating place: the seats, their service and leaks, the gaskets."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.seating.asked import FASTENERS, Gasket, gasket_ends
from formulas.seating.gasket_words import reach_said, squeezes_said
from formulas.seating.seat import gasket_answer
from formulas.units import printed
from formulas.valves.typed import lengths_printed
from site_builder.markup.elements import (
    Cell,
    basis,
    element,
    noted_table,
    paragraph,
    span,
    table,
    unknown,
)
from site_builder.parts.bench_parts import known_id

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.job_entries import SeatingMethod

FIND_OUT = "seat one plate of your own and test it"
WORDS = {"yes": "yes", "some": "in part", "no": "no"}
TIGHT = {3: "as wax", 2: "while new", 1: "always leaks a little"}
HOLDS = {3: "well", 2: "enough", 1: "hardly"}
SERVICE = (
    ("Hot", "in_heat"),
    ("Cold", "in_cold"),
    ("Damp and dry", "in_damp"),
    ("Carried", "in_travel"),
    ("Comes out", "reversible"),
    ("Wax later", "later_wax"),
)
ITS_WAX = "as its wax"


def seats(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate the seats of one group that are not refused: how each works, what to expect."""
    groups = {one.group for one in catalog.seating_methods.values()}
    group = known_id(argument, groups, "a group of seating_methods.csv")
    found = [
        one for one in catalog.seating_methods.values() if one.group == group and not one.refused
    ]
    works = [[one.name, one.seal, one.hold, one.reversed_by, one.tools] for one in found]
    expect: list[list[Cell]] = [
        [one.name, one.found_in, one.never, _minutes(one), basis(one.basis, one.source, one.where),
         one.note]
        for one in found
    ]  # fmt: skip
    return [
        table(["Seat", "Sealed by", "Held by", "Comes out by", "Tools"], works),
        noted_table(["Seat", "Found in", "Never for", "Minutes a plate", "Basis", "Note"], expect),
    ]


def _minutes(one: SeatingMethod) -> Cell:
    if one.minutes_low is None:
        return unknown(FIND_OUT)
    return span(one.minutes_low, one.minutes_high, "min")


def seats_by_service(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what every seat that is not refused says to each service and wish."""
    heads = ["Seat", "Tight", "Holds", *(head for head, _ in SERVICE), "Service heat"]
    rows: list[list[Cell]] = [
        [
            one.name,
            TIGHT.get(one.tight or 0, "") or unknown(FIND_OUT),
            HOLDS.get(one.holding or 0, "") or unknown(FIND_OUT),
            *(_answer(getattr(one, name)) for _, name in SERVICE),
            _heat(one),
        ]
        for one in catalog.seating_methods.values()
        if not one.refused
    ]
    return [table(heads, rows)]


def _answer(word: str) -> Cell:
    return WORDS[word] if word else unknown(FIND_OUT)


def _heat(one: SeatingMethod) -> Cell:
    if one.service_low is not None:
        return span(one.service_low, one.service_high, one.service_unit)
    return ITS_WAX if one.group == "wax" else unknown("none found")


def seat_leaks(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate where each seat leaks when it does."""
    rows = [
        [one.name, one.leak_paths] for one in catalog.seating_methods.values() if not one.refused
    ]
    return [table(["Seat", "Where it leaks"], rows)]


def seats_refused(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what is refused, why, and what it leaves behind."""
    rows = [
        [one.name, one.refused, one.never, one.reversed_by, basis(one.basis, one.source, one.where)]
        for one in catalog.seating_methods.values()
        if one.refused
    ]
    return [table(["Sealant", "Why it is refused", "Never for", "How it comes off", "Basis"], rows)]


def gaskets(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the materials of gaskets."""
    rows: list[list[Cell]] = [
        [
            one.name,
            _ends(one.thickness_low, one.thickness_high, "mm"),
            _ends(one.squeeze_low, one.squeeze_high, "percent"),
            _ends(one.modulus_low, one.modulus_high, "MPa"),
            _answer(one.takes_set),
            basis(one.basis, one.source, one.where),
        ]
        for one in catalog.gasket_materials.values()
    ]
    told = [[one.name, one.about, one.note] for one in catalog.gasket_materials.values()]
    heads = ["Gasket", "Thickness", "Squeezed by", "Load over squeeze", "Stays flat", "Basis"]
    return [table(heads, rows), noted_table(["Gasket", "About it", "Note"], told)]


def _ends(low: float | None, high: float | None, unit: str) -> Cell:
    return unknown("measure it on scrap") if low is None else span(low, high, unit)


def gasket_fasteners(catalog: Catalog, _: str) -> list[Element]:
    """Say for a middle single plate which fasteners squeeze which gasket, and how far apart."""
    us = catalog.shop.units == "US"
    long, wide, thick = (
        sum(catalog.span(f"test-plate-small-{side}", "m")) / 2
        for side in ("length", "width", "thickness")
    )
    rows: list[list[Cell]] = []
    verdicts: dict[str, list[str]] = {}
    for name, material in catalog.gasket_materials.items():
        ends = (material.thickness_low, material.thickness_high)
        if gasket_ends(material) is None or ends[0] is None or ends[1] is None:
            continue
        new = (ends[0] + ends[1]) / 2000
        for fasteners in FASTENERS:
            asked = Gasket(name, new, long, wide, thick, fasteners=fasteners)
            found = gasket_answer(catalog, asked)
            assert isinstance(found, dict)
            apart, reached = found["spacing"], found["squeeze_reached"]
            verdict = reach_said(reached.low, reached.high, found["squeeze"].low)
            pair = f"{material.name}, {fasteners}"
            verdicts.setdefault(verdict, []).append(pair)
            rows.append(
                [
                    pair,
                    lengths_printed(apart.low, apart.high, us),
                    found["said"]["How many"],
                    squeezes_said(reached.low, reached.high),
                ]
            )
    size = " × ".join(printed(1000 * one, 1) for one in (long, wide, thick))
    return [
        paragraph(
            f"For a plate of aluminium of {size} mm, a middle one from memory, on a gasket of the"
            " middle of its thicknesses:"
        ),
        table(["Gasket and fastener", "One to the next", "How many", "They squeeze it by"], rows),
        *_so(verdicts),
        paragraph("Derived from the sheets and the pulls above, all from memory."),
    ]


def _so(verdicts: dict[str, list[str]]) -> Iterator[Element]:
    """Say below a table what follows: of most rows once, of the others by their names."""
    usual, *others = sorted(verdicts, key=lambda said: -len(verdicts[said]))
    for said in others:
        yield paragraph(element("strong", f"{'; '.join(verdicts[said])}:"), f" {said}.")
    rest = "All others" if others else "All of them"
    yield paragraph(element("strong", f"{rest}:"), f" {usual}.")
