"""What the pages of one valve and of a whole rank know of the tables, as `data.valves`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from formulas.units import convert, printed
from formulas.valves.notes import NAMES, midi_of, note_name
from formulas.valves.one_valve import FOUND
from formulas.valves.plate_spreads import lines_and_spreads
from formulas.valves.plates_read import plates_read
from formulas.valves.rank import generic_land, ranks_of
from formulas.valves.reed_sizes import MEASURES, figure_in
from formulas.valves.settings import settings
from formulas.valves.slot_answer import ANSWER
from formulas.valves.slot_choice import ALONE, LOOK_FOR, VERDICTS
from formulas.valves.slot_words import DO, NEAREST
from formulas.valves.stock import Stock, stocks
from formulas.valves.typed_rank import HIGHEST, LOWEST
from formulas.valves.typed_stock import known_before, one_strip, piece
from formulas.valves.valve_words import ABOUT, REJECTED_SAID
from formulas.valves.valves import TWO
from formulas.valves.window_marks import SMALL
from site_builder.texts.valves import LIGHT, NOTHING_MEASURED

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valve_entries import Rank

TITLE = "What serves, by slot and bending length"
NOT_SURE = "Where ? stands the slot was not measured, or an end of what is known passes a limit."
PIECES = ("leather", "film")
FEW = 3
"""Plates of a rank that the page begins with."""


def is_us(catalog: Catalog) -> bool:
    """Tell whether the shop reads inches."""
    return catalog.shop.units == "US"


def length_unit(catalog: Catalog) -> str:
    """Name the unit of lengths."""
    return "in" if is_us(catalog) else "mm"


def areal_unit(catalog: Catalog) -> str:
    """Name the unit of masses per area, as the command reads it."""
    return "oz/yd2" if is_us(catalog) else "g/m2"


def areal_shown(catalog: Catalog) -> str:
    """Name the unit of masses per area, as it is printed."""
    return areal_unit(catalog).replace("2", "²")


def length_typed(catalog: Catalog, metres: float, decimals: int = 1) -> str:
    """Write a length as it is typed: tenths of a millimetre, or thousandths of an inch."""
    if is_us(catalog):
        return printed(convert(metres, "m", "in"), 3)
    return printed(convert(metres, "m", "mm"), decimals)


def areal_typed(catalog: Catalog, mass: float) -> str:
    """Write a mass per area as it is typed."""
    if is_us(catalog):
        return printed(convert(mass, "kg/m**2", "oz/yd**2"), 2)
    return printed(convert(mass, "kg/m**2", "g/m**2"), 0)


def note_choices() -> tuple[tuple[str, str], ...]:
    """Give every note that can be asked for; its value is its number."""
    return tuple((str(midi), note_name(midi)) for midi in range(LOWEST, HIGHEST + 1))


def posture_choices(catalog: Catalog) -> tuple[tuple[str, str], ...]:
    """Give the postures."""
    return tuple((one.id, one.name) for one in catalog.postures.values())


def first_plates(catalog: Catalog, rank: Rank) -> list[tuple[int, float, float]]:
    """Give up to three of the plates that a shop measured of a rank: the ends and the middle."""
    read = plates_read(catalog, rank)
    widths = {one.midi: one.size for one in read.by_plate("width")}
    found = sorted(
        (one.midi, one.size, widths[one.midi])
        for one in read.by_plate("length")
        if one.midi in widths
    )
    if len(found) <= FEW:
        return found
    return [found[0], found[len(found) // 2 - 1], found[-1]]


def valve_data(catalog: Catalog) -> dict[str, Any]:
    """Give `data.valves`, as plain lists and dicts."""
    held = settings(catalog)
    us = is_us(catalog)
    return {
        "us": us,
        "metres": 0.0254 if us else 0.001,
        "length": length_unit(catalog),
        "areal": areal_unit(catalog),
        "kilograms": convert(1, "oz/yd**2" if us else "g/m**2", "kg/m**2"),
        "rules": held.rules,
        "pressures": held.pressures,
        "openings": held.opening,
        "limits": held.limits,
        "told": held.told,
        "no_valve": held.no_valve,
        "tongue": held.tongue,
        "mass": held.mass,
        "least_helper": held.least_helper,
        "pitch": catalog.shop.pitch_of_a,
        "wall": figure_in(catalog, "slot-wall", "m"),
        "edge": generic_land(catalog),
        "factor": one_strip(catalog),
        "droop_error": catalog.span("droop-reading", "m")[0],
        "lines": [list(lines_and_spreads(catalog)[measure]) for measure in MEASURES],
        "postures": {one.id: [one.inside, one.outside] for one in catalog.postures.values()},
        "notes": list(NAMES),
        "stocks": {one.id: _stock(one) for one in stocks(catalog)},
        "pieces": {kind: _stock(piece(catalog, kind)) for kind in PIECES},
        "ranks": {one.rank: _rank(catalog, one) for one in ranks_of_shop(catalog)},
        "highest": HIGHEST,
        "answer": list(ANSWER),
        "chart": list(SMALL),
        "words": {
            "abouts": list(ABOUT),
            "others": [name.replace("_", " ") for name in FOUND[len(ABOUT) :]],
            "nearest": list(NEAREST),
            "do": DO,
            "light": LIGHT,
            "nothing": NOTHING_MEASURED,
            "rejected": REJECTED_SAID,
            "alone": ALONE,
            "look_for": LOOK_FOR,
            "verdicts": [VERDICTS[code] for code in sorted(VERDICTS)],
            "title": TITLE,
            "two": TWO,
            "odd": NOT_SURE,
        },
    }


def ranks_of_shop(catalog: Catalog) -> list[Rank]:
    """Give the ranks of the shop's instrument."""
    return ranks_of(catalog, catalog.shop.instrument)


def _stock(one: Stock) -> dict[str, Any]:
    """Give a stock with the numbers that it is judged by, and what was measured of it."""
    return {
        "name": one.name, "kind": one.kind, "numbers": one.numbers, "known": known_before(one),
    }  # fmt: skip


def _rank(catalog: Catalog, rank: Rank) -> dict[str, Any]:
    """Give what a rank fills the form with."""
    return {
        "lowest": str(midi_of(rank.lowest)),
        "count": str(rank.plates),
        "posture": rank.posture,
        "plates": [
            [str(midi), length_typed(catalog, length), length_typed(catalog, width, 2)]
            for midi, length, width in first_plates(catalog, rank)
        ],
    }
