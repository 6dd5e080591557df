"""The three heat windows of wax work, and the ceilings above them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from formulas.answer import Quantity, Unknown
from formulas.catalog import Catalog
from formulas.entries import Fact
from formulas.fault import UnknownName
from formulas.formula import procedure
from formulas.frozen import Frozen
from formulas.melting.thermal import Thermal
from formulas.units import convert, fahrenheit, printed

PURPOSES = {
    "make-up": ("make-up heat", "make-up-window"),
    "holding": ("holding heat", "holding-window"),
    "touch-up": ("the heat of a touch-up iron", "iron-tip-limit"),
}
POTS = ("make-up", "holding")
WORDS = {
    "over-temperature": "the over-temperature ceiling of a pot",
    "water-bath": "the ceiling of a water bath, which stays below",
    "fume-onset": "the heat from which {name} fumes above all",
    "flash-point": "the lowest flash point in the pot ({name}) less the margin of a US rule",
    "window": "the upper end of {purpose}",
}
"""What each ceiling is, by its key."""
CUT_OUT = "With a separate cut-out at {limit}, which stays off once it has tripped."
FUME_BELOW = "The fume is there below as well, and grows steeply."
NO_SAFE_MARGIN = (
    "The margin is a rule on how heated liquids are classed and stored. It is not a safe margin for"
    " a pot."
)
LOOK_AT_A_DROP = "look at a drop on cold glass: clear and even is molten."
NO_FUME = Unknown("from which heat this blend fumes above all", "if it smokes, it is too hot.")
NO_COLOUR = Unknown("from which heat this blend colours", "hold a sample hot and compare it.")
HAIR = 1e-9  # degC; what a change of scale leaves of a temperature


@procedure("Floor of a heat window")
def window_floor(low: float, high: float, owns: Sequence[float]) -> float:
    """Give the least heat at which a blend may be clear.

    It is the window's own low end, or the melting heat of a component where that is higher and
    within the window. What melts above the window counts only where all of the blend does: in
    a blend it dissolves earlier, and by how much is not known.
    """
    floor = low
    for own in owns:
        if floor < own <= high + 1e-9:
            floor = own
    if len(owns) > 0:
        least = owns[0]
        for own in owns:
            least = min(least, own)
        floor = max(floor, least)
    return floor


@procedure("Which of several limits is the lowest")
def lowest_of(limits: Sequence[float]) -> int:
    """Give the place of the lowest limit, the first of equal ones."""
    place = 0
    for i in range(len(limits)):
        if limits[i] < limits[place]:
            place = i
    return place


@procedure("Flash point less its margin")
def below_flash(flash: float, margin: float) -> float:
    """Give the cap by a rule on how liquids are classed and stored. No safe margin."""
    return flash - margin


@procedure("A limit in whole degrees, never rounded up")
def whole_below(degrees: float) -> str:
    """Round a limit down for print: a ceiling printed too high is a danger."""
    return printed(math.floor(degrees + 1e-9), 0)


@procedure("A floor in whole degrees, never rounded down")
def whole_above(degrees: float) -> str:
    """Round a floor up for print, so that the printed heat lies within the window."""
    return printed(-math.floor(-degrees + 1e-9), 0)


class Ceiling(Frozen):
    """One upper limit: its key, its words, its heat in degC and what it rests on."""

    id: str
    words: str
    limit: float
    basis: str
    source: str = ""
    note: str = ""


class Window(Frozen):
    """The heats between which one kind of work is done, and the limits above it."""

    purpose: str
    floor: float
    floor_by: str
    ceilings: tuple[Ceiling, ...]
    unknown: tuple[Unknown, ...]

    @property
    def governing(self) -> Ceiling:
        """The lowest of the ceilings; of equal ones the first, which is the firmest."""
        return self.ceilings[lowest_of([one.limit for one in self.ceilings])]

    def as_json(self) -> dict[str, Any]:
        """Give floor, ceiling and the limit that governs."""
        return {
            "floor": Quantity(self.floor, "degC").as_json(),
            "floor_by": self.floor_by,
            "ceiling": Quantity(self.governing.limit, "degC").as_json(),
            "governed_by": self.governing.id,
        }


def limits(catalog: Catalog, purpose: str) -> tuple[float, float]:
    """Give a window's own ends in degC. The iron's tip has only an upper one."""
    low, high = catalog.span(PURPOSES[purpose][1], "degC")
    return (catalog.span("holding-window", "degC")[0] if purpose == "touch-up" else low), high


def owns(catalog: Catalog, parts: Sequence[Thermal], purpose: str) -> dict[str, float]:
    """Give the heat at which each component is molten, with the margin, by its id.

    A resin counts while it is dissolved; held, it is in solution already.
    """
    margin = catalog.span("melt-margin", "delta_degC")[1]
    return {
        one.material: one.floor + margin
        for one in parts
        if one.floor is not None and (not one.glass or purpose == "make-up")
    }


def window(catalog: Catalog, parts: Sequence[Thermal], purpose: str, *, bath: bool) -> Window:
    """Give one window for a blend: its floor, every ceiling, and what is not known."""
    if purpose not in PURPOSES:
        raise UnknownName("purpose", purpose, PURPOSES)
    low, high = limits(catalog, purpose)
    melting = owns(catalog, parts, purpose)
    floor = window_floor(low, high, list(melting.values()))
    by = next((name for name, own in melting.items() if own == floor > low), "window")
    floors = (unknown_floor(catalog, one, purpose) for one in parts)
    flashes = (unknown_flash(catalog, one) for one in parts)
    unknown = [one for one in (*floors, *flashes) if one]
    if all(one.fume is None for one in parts):
        unknown.append(NO_FUME)
    ceilings = _ceilings(catalog, parts, purpose, bath=bath)
    return Window(purpose, floor, by, ceilings, tuple(unknown))


def unknown_floor(catalog: Catalog, one: Thermal, purpose: str) -> Unknown | None:
    """Say where it is not known at which heat a component is molten or dissolves."""
    resin = one.glass and not one.liquid
    if one.liquid or (resin and purpose != "make-up"):
        return None
    name = catalog.material(one.material).name
    own = owns(catalog, [one], purpose).get(one.material)
    if own is None:
        what = "dissolves" if resin else "is molten"
        return Unknown(f"from which heat {name} {what}", LOOK_AT_A_DROP)
    if own > limits(catalog, purpose)[1] + HAIR:
        return Unknown(f"how far below its own melting heat {name} dissolves here", LOOK_AT_A_DROP)
    return None


def unknown_flash(catalog: Catalog, one: Thermal) -> Unknown | None:
    """Say where no flash point of a component stands in the tables: none is filled in."""
    if one.flash is not None:
        return None
    name = catalog.material(one.material).name
    return Unknown(f"the flash point of {name}", "it stands in the maker's safety data sheet.")


def _ceilings(
    catalog: Catalog, parts: Sequence[Thermal], purpose: str, *, bath: bool
) -> tuple[Ceiling, ...]:
    """Give every ceiling, the lowest first: it governs."""
    found = over_temperature(catalog) if purpose in POTS else []
    if bath and purpose in POTS:
        found.append(_figured(catalog, "water-bath", "water-bath-ceiling"))
    found += _fume(catalog, parts) + _flash(catalog, parts)
    end = _figured(catalog, "window", PURPOSES[purpose][1])
    found.append(replace(end, words=end.words.replace("{purpose}", PURPOSES[purpose][0])))
    return tuple(sorted(found, key=lambda one: one.limit))


def over_temperature(catalog: Catalog) -> list[Ceiling]:
    """Give the ceiling of any pot, with the cut-out that stands behind it."""
    cut_out = degrees(catalog, catalog.span("thermal-cut-out", "degC")[0])
    found = _figured(catalog, "over-temperature", "over-temperature-ceiling")
    return [replace(found, note=CUT_OUT.replace("{limit}", cut_out))]


def _figured(catalog: Catalog, key: str, name: str) -> Ceiling:
    figure = catalog.figure(name)
    limit = convert(figure.high, figure.unit, "degC")
    return Ceiling(key, WORDS[key], limit, figure.basis, figure.source, figure.note)


def _fume(catalog: Catalog, parts: Sequence[Thermal]) -> list[Ceiling]:
    """Give the heat of the heaviest fume, of what fumes first."""
    fuming = [(one.fume, one.material) for one in parts if one.fume is not None]
    if not fuming:
        return []
    limit, name = min(fuming, key=lambda one: one[0])
    words = WORDS["fume-onset"].replace("{name}", catalog.material(name).name)
    row = row_at(catalog, name, "fume-onset", limit)
    return [Ceiling("fume-onset", words, limit, row.basis, row.source, FUME_BELOW)]


def _flash(catalog: Catalog, parts: Sequence[Thermal]) -> list[Ceiling]:
    """Give the cap by the lowest flash point, and whose it is."""
    known = [(one.flash, one.material) for one in parts if one.flash is not None]
    if not known:
        return []
    flash, name = min(known, key=lambda one: one[0])
    limit = below_flash(flash, catalog.span("flash-margin", "delta_degC")[1])
    words = WORDS["flash-point"].replace("{name}", catalog.material(name).name)
    row = row_at(catalog, name, "flash-point", flash)
    return [Ceiling("flash-point", words, limit, row.basis, row.source, NO_SAFE_MARGIN)]


def row_at(catalog: Catalog, material: str, prop: str, value: float) -> Fact:
    """Give the row of the tables that a limit was taken from."""
    rows = [f for f in catalog.facts_of(material) if f.property == prop and f.low is not None]
    return min(rows, key=lambda f: abs(convert(f.low or 0, f.unit, "degC") - value))


def quality_limit(catalog: Catalog, parts: Sequence[Thermal]) -> dict[str, Any] | Unknown:
    """Give the heat above which a blend colours. A limit of quality, never of safety."""
    known = [(one.colour, one.material) for one in parts if one.colour is not None]
    if not known:
        return NO_COLOUR
    limit, name = min(known, key=lambda one: one[0])
    row = row_at(catalog, name, "colour-onset", limit)
    return {
        "material": name,
        "limit": Quantity(limit, "degC"),
        "basis": row.basis,
        "source": row.source,
    }


def degrees(catalog: Catalog, celsius: float) -> str:
    """Give a limit in the unit the shop reads, in whole degrees, never rounded up."""
    if catalog.shop.units == "US":
        return f"{whole_below(fahrenheit(celsius))} °F"
    return f"{whole_below(celsius)} °C"


def floor_degrees(catalog: Catalog, celsius: float) -> str:
    """Give a floor in the unit the shop reads, in whole degrees, never rounded down."""
    if catalog.shop.units == "US":
        return f"{whole_above(fahrenheit(celsius))} °F"
    return f"{whole_above(celsius)} °C"


def spoken_window(catalog: Catalog, purpose: str) -> str:
    """Say the ends of one window."""
    low, high = limits(catalog, purpose)
    return f"{floor_degrees(catalog, low)[:-3]} to {degrees(catalog, high)}"


def spoken_windows(catalog: Catalog) -> str:
    """Say the ends of all three windows in one line."""
    pots = [f"{PURPOSES[one][0]} {spoken_window(catalog, one)}" for one in reversed(POTS)]
    tip = degrees(catalog, limits(catalog, "touch-up")[1])
    return ", ".join([*pots, f"the tip of a touch-up iron at or below {tip}"])
