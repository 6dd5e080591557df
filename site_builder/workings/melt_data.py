"""What the page of `melt` knows of the tables: materials, windows, ceilings and their words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from formulas.answer import Unknown
from formulas.melting import melt, pot, refusals, windows
from formulas.melting.thermal import thermal
from formulas.units import convert
from site_builder.texts import melt as texts
from site_builder.texts.words import plain_unknown

if TYPE_CHECKING:
    from formulas.catalog import Catalog


def melt_data(catalog: Catalog) -> dict[str, Any]:
    """Give `data.melt`, as plain lists and dicts. No flash point is filled in: it is null."""
    us = catalog.shop.units == "US"
    return {
        "materials": {name: _material(catalog, name) for name in catalog.materials},
        "purposes": {name: _purpose(catalog, name) for name in windows.PURPOSES},
        "ceilings": _ceilings(catalog),
        "figures": _figures(catalog),
        "vessels": {name: pot.vessel_heat(catalog, name) for name in pot.vessel_materials(catalog)},
        "words": _words(catalog),
        "cubic_metres": convert(1, "floz" if us else "liter", "m**3"),
        "metres": convert(1, "in" if us else "mm", "m"),
        "from_millimetres": convert(1, "mm", "in") if us else 1,
        "length": "in" if us else "mm",
        "volume": "floz" if us else "L",
        "places": texts.PLACES,
        "rows": texts.ROWS,
    }


def _material(catalog: Catalog, name: str) -> dict[str, Any]:
    one = thermal(catalog, name)
    return {
        "heat": one.heat,
        "latent": one.latent,
        "melting": one.melting,
        "shrink": one.shrink,
        "density": one.density,
        "flash": one.flash,
        "flash_basis": _basis_at(catalog, name, "flash-point", one.flash),
        "fume": one.fume,
        "fume_basis": _basis_at(catalog, name, "fume-onset", one.fume),
        "colour": one.colour,
        "no_melting": melt.no_melting(catalog, one),
        "told": melt.told(catalog, one) if one.told else "",
        "own": {
            purpose: windows.owns(catalog, [one], purpose).get(name) for purpose in windows.PURPOSES
        },
        "floor_unknown": {
            purpose: _said(windows.unknown_floor(catalog, one, purpose))
            for purpose in windows.PURPOSES
        },
        "flash_unknown": _said(windows.unknown_flash(catalog, one)),
    }


def _basis_at(catalog: Catalog, name: str, prop: str, value: float | None) -> str:
    """Say the basis of the row that a limit was taken from."""
    if value is None:
        return ""
    return texts.BASIS_WORDS[windows.row_at(catalog, name, prop, value).basis]


def _said(one: Unknown | None) -> str:
    return plain_unknown(one) if one else ""


def _purpose(catalog: Catalog, purpose: str) -> dict[str, Any]:
    low, high = windows.limits(catalog, purpose)
    words, name = windows.PURPOSES[purpose]
    figure = catalog.figure(name)
    return {
        "words": words,
        "low": low,
        "high": high,
        "pot": purpose in windows.POTS,
        "note": figure.note,
        "basis": texts.BASIS_WORDS[figure.basis],
    }


def _ceilings(catalog: Catalog) -> dict[str, Any]:
    """Give the ceilings that belong to no material, and the words of those that do."""
    (over,) = windows.over_temperature(catalog)
    bath = catalog.figure("water-bath-ceiling")
    return {
        "over-temperature": {
            "limit": over.limit,
            "words": over.words,
            "note": over.note,
            "basis": texts.BASIS_WORDS[over.basis],
        },
        "water-bath": {
            "limit": catalog.span("water-bath-ceiling", "degC")[0],
            "words": windows.WORDS["water-bath"],
            "note": bath.note,
            "basis": texts.BASIS_WORDS[bath.basis],
        },
        "fume-onset": {"words": windows.WORDS["fume-onset"], "note": windows.FUME_BELOW},
        "flash-point": {"words": windows.WORDS["flash-point"], "note": windows.NO_SAFE_MARGIN},
        "window": {"words": windows.WORDS["window"]},
    }


def _figures(catalog: Catalog) -> dict[str, Any]:
    span = catalog.span
    return {
        "margin": span("flash-margin", "delta_degC")[1],
        "lead": span("bath-lead", "delta_degC"),
        "water_heat": span("water-heat", "J/(kg*K)"),
        "water_density": span("water-density", "kg/m**3")[1],
        "deeper": span("sink-middle", "dimensionless"),
        "lost": {
            "bath": pot.lost_share(catalog, bath=True),
            "thermostat": pot.lost_share(catalog, bath=False),
        },
    }


def _words(catalog: Catalog) -> dict[str, Any]:
    return {
        "reasons": refusals.REASONS,
        "also": refusals.ALSO,
        "windows": windows.spoken_windows(catalog),
        "holding": windows.spoken_window(catalog, "holding"),
        "no_fume": plain_unknown(windows.NO_FUME),
        "no_colour": plain_unknown(windows.NO_COLOUR),
        "no_iron": plain_unknown(melt.NO_IRON),
        "no_power": plain_unknown(pot.NO_POWER),
        "no_width": plain_unknown(pot.NO_WIDTH),
        "governs": texts.GOVERNS,
        "quality": texts.QUALITY,
        "passed": texts.PASSED,
        "not_passed": texts.NOT_PASSED,
        "stay": melt.STAY,
        "by_power": melt.BY_POWER,
        "kinds": melt.LIMIT_KINDS,
        "melts_same": melt.MELTS_SAME,
        "higher_up": melt.HIGHER_UP,
    }
