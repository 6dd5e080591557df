"""The terminal text of `melt`: the window and what governs it, then heat, time, pot and sink."""

from __future__ import annotations

from typing import Any

from formulas.answer import Answer, Band, Unknown
from formulas.catalog import Catalog
from formulas.melting.windows import PURPOSES, Window, degrees, floor_degrees
from formulas.units import convert, printed, spoken_unit
from site_builder.texts.words import amount, asked, foot, head, span, unknown, wrapped

BASIS_WORDS = {
    "measured": "measured",
    "invented": "invented",
    "published": "published",
    "practice": "common practice",
    "derived": "derived",
    "memory": "from memory",
}
"""The basis of a ceiling, as it stands beside it."""
GOVERNS = " (governs)"
PLACES = {"g": 0, "oz": 1, "mm": 0, "in": 2}
"""Decimals that are printed, by unit."""

QUALITY = "Quality, no limit of safety: {what} colours above {limit}. {passed}"
PASSED = "This heat passes it: keep it short."
NOT_PASSED = "It is not passed."
ROWS = {
    "solid": "Wax before it melts",
    "latent": "Melting",
    "melt": "The melt",
    "vessel": "Vessels",
    "bath": "Water bath",
    "together": "Together",
}
"""The parts of the heat, as they are printed."""


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the window with its ceilings, the energy and time, the pot, the sink, the unknown."""
    found = answer.answer
    lines = [*head(answer, catalog), *_window(answer, catalog), ""]
    if isinstance(found["energy"], Unknown):
        lines.append(unknown(found["energy"]))
    else:
        lines += [*_heat(answer), "", *_pot(answer, catalog)]
    lines += [unknown(one) for one in found["not_known"]]
    return [*lines, *foot(answer)]


def _window(answer: Answer, catalog: Catalog) -> list[str]:
    found = answer.answer
    lines = [
        wrapped(one, "  ")
        for one in (window_line(found["window"], catalog), governed_line(found["window"]))
    ]
    lines.append(f"Counted to {asked(found['to'].value, catalog)}.")
    for one in found["ceilings"]:
        mark = ">" if one["governs"] else " "
        limit = degrees(catalog, one["limit"].value)
        words = f"{one['what']} ({BASIS_WORDS[one['basis']]})"
        lines.append(wrapped(f"{mark} {limit:>7}  {words}", " " * 11))
        if one["note"]:
            lines.append(wrapped(f"{'':11}{one['note']}", " " * 11))
    lines.append(wrapped(quality_line(found["quality_limit"], found["to"].value, catalog), "  "))
    return lines


def window_line(window: Window, catalog: Catalog) -> str:
    """Say the window's ends."""
    words = PURPOSES[window.purpose][0]
    floor = floor_degrees(catalog, window.floor)
    by = "" if window.floor_by == "window" else f", by {catalog.material(window.floor_by).name}"
    top = degrees(catalog, window.governing.limit)
    return f"{words[0].upper()}{words[1:]}: floor {floor}{by}, ceiling {top}."


def governed_line(window: Window) -> str:
    """Say which ceiling is the lowest."""
    return f"Governed by {window.governing.words}."


def ceiling_cells(one: dict[str, Any], catalog: Catalog) -> list[str]:
    """Give the cells of one ceiling in a table: its words with their basis, and its limit."""
    words = f"{one['what'][0].upper()}{one['what'][1:]}{GOVERNS if one['governs'] else ''}."
    note = f" {one['note']}" if one["note"] else ""
    limit = degrees(catalog, one["limit"].value).split()[0]
    return [f"{words}{note} Basis: {BASIS_WORDS[one['basis']]}.", limit]


def quality_line(found: dict[str, Any] | Unknown, goal: float, catalog: Catalog) -> str:
    """Say from where the blend colours, and whether that is passed."""
    if isinstance(found, Unknown):
        return unknown(found)
    words = {
        "what": catalog.material(found["material"]).name,
        "limit": degrees(catalog, found["limit"].value),
        "passed": PASSED if goal > found["limit"].value else NOT_PASSED,
    }
    return QUALITY.format(**words)


def _heat(answer: Answer) -> list[str]:
    found, energy = answer.answer, answer.answer["energy"]
    lines = [
        f"  {words:<22}{span(energy[name]):>20}"
        for name, words in ROWS.items()
        if energy[name].high
    ]
    if isinstance(found["time"], Unknown):
        return [*lines, unknown(found["time"])]
    power = f"{answer.inputs['power_w']:g} W"
    return [*lines, f"Time at {power}: {span(found['time'])}"]


def _pot(answer: Answer, catalog: Catalog) -> list[str]:
    found = answer.answer
    lines = [
        f"Hot volume {span(found['hot_volume'])}; smallest pot {amount(found['pot'])} to the brim",
        f"Loses {span(found['contraction'])} of its hot volume as it sets",
    ]
    if isinstance(found["sink"], Unknown):
        lines.append(unknown(found["sink"]))
    else:
        mean, middle = (shown(found["sink"][name], catalog) for name in ("mean", "middle"))
        lines.append(f"Surface sinks {mean} on the mean, {middle} at the middle")
    lines.append(f"Top-up to the hot level {shown(found['top_up'], catalog)}")
    return lines


def shown(band: Band, catalog: Catalog) -> str:
    """Give a length in the unit the shop reads, a mass in that of its scale."""
    us = catalog.shop.units == "US"
    unit = catalog.shop.scale_unit if band.unit == "g" else "in" if us else "mm"
    low, high = (convert(end, band.unit, unit) for end in (band.low, band.high))
    places = PLACES[unit]
    return f"{printed(low, places)} to {printed(high, places)} {spoken_unit(unit)}"
