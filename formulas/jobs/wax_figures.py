"""The figures that the wax of plates is reckoned by, low, middle and high, in SI units."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from formulas.answer import Basis
from formulas.entries import Known
from formulas.jobs.fillet import WAX_FIGURES
from formulas.units import convert
from formulas.valves.reed_sizes import figure_in
from formulas.wax.batch import melt_volume, shares_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog

UNITS = {"fillet": "m", "bed-thickness": "m", "plate-gap": "m"}
"""The rest of the figures are shares."""
DENSITY = "density"


class WaxFigures(NamedTuple):
    """Three lists in the order of `WAX_FIGURES`."""

    low: list[float]
    mid: list[float]
    high: list[float]


def wax_figures_of(catalog: Catalog, blend: str = "") -> WaxFigures:
    """Give the figures for a blend, the shop's usual one or, where it has none, any blend.

    Raises UnknownName.
    """
    rows = [
        _density(catalog, blend or catalog.shop.usual)
        if name == DENSITY
        else _figure(catalog, name)
        for name in WAX_FIGURES
    ]
    return WaxFigures(*([row[end] for row in rows] for end in range(3)))


def _figure(catalog: Catalog, name: str) -> tuple[float, float, float]:
    unit = UNITS.get(name, "dimensionless")
    low, high = catalog.span(name, unit)
    return low, figure_in(catalog, name, unit), high


def _density(catalog: Catalog, blend: str) -> tuple[float, float, float]:
    """Give the density of the cold blend by ideal mixing of its components' volumes."""
    ends = [_blended(catalog, name) for name in ([blend] if blend else catalog.blends)]
    low, high = min(low for low, _ in ends), max(high for _, high in ends)
    return low, (low + high) / 2, high


def _blended(catalog: Catalog, blend: str) -> tuple[float, float]:
    shares = shares_of(catalog.blend(blend).parts)
    ends = [_cold(catalog, material) for material in shares]
    low, high = (
        1 / melt_volume(list(shares.values()), [one[end] for one in ends]) for end in (0, 1)
    )
    return low, high


def _cold(catalog: Catalog, material: str) -> tuple[float, float]:
    """Give the ends of its density, those of all in the tables where it is not known."""
    known = catalog.known_or_unknown(material, "density-solid")
    if isinstance(known, Known):
        low, high = (convert(end, known.unit, "kg/m**3") for end in (known.low, known.high))
        return low, high
    rows = [
        (convert(fact.low, fact.unit, "kg/m**3"), convert(fact.high, fact.unit, "kg/m**3"))
        for fact in catalog.facts
        if fact.property == "density-solid" and fact.low and fact.high
    ]
    return min(low for low, _ in rows), max(high for _, high in rows)


def wax_bases(catalog: Catalog) -> list[Basis]:
    """Give the basis of every figure that the wax rests on."""
    named = [catalog.figure(name) for name in WAX_FIGURES if name != DENSITY]
    density = Basis("density of the cold blend: ideal mixing of its components", "derived")
    return [*(Basis(one.what, one.basis, one.source) for one in named), density]
