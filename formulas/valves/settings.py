"""The settings that valves are judged by, from the tables: limits, pressures, sizes, openings.

All in SI units and in the order that the procedures of this package ask for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.answer import Basis
from formulas.frozen import Frozen
from formulas.units import convert
from formulas.valves.blank import RULES
from formulas.valves.judging import JUDGED
from formulas.valves.strip import G

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.entries import Figure
    from formulas.valve_entries import ValveLimit

SI = {
    "mm": "m",
    "in": "m",
    "Pa": "Pa",
    "percent": "dimensionless",
    "ms": "s",
    "1": "dimensionless",
    "mm**2": "m**2",
    "Hz": "Hz",
    "mJ": "J",
    "uJ": "J",
}
NO_VALVE = ("no-valve-tongue", "no-valve-note", "no-valve-gap", "no-valve-choke")


class Settings(Frozen):
    """What the procedures need beside slot and stock.

    `tongue` is its offset and clearance, `mass` that of a stock where none is at hand,
    `least_helper` the least force of a helper at the tip, in N.
    """

    rules: list[float]
    pressures: list[float]
    opening: list[float]
    limits: list[list[float]]
    told: list[float]
    no_valve: list[float]
    tongue: list[float]
    mass: float
    least_helper: float


def settings(catalog: Catalog) -> Settings:
    """Give the settings of a shop, once for each catalog."""
    if "valve settings" not in catalog.memo:
        catalog.memo["valve settings"] = _settings(catalog)
    found: Settings = catalog.memo["valve settings"]
    return found


def _settings(catalog: Catalog) -> Settings:
    def typical(name: str, unit: str) -> float:
        return convert(_middle(catalog.figure(name)), catalog.figure(name).unit, unit)

    def ends(name: str, count: int) -> list[float]:
        return list(catalog.span(name, "m")) if count == 2 else [typical(name, "m")]

    return Settings(
        rules=[number for name, count in RULES for number in ends(name, count)],
        pressures=[
            *(_pressure(catalog.limit(f"choke-{how}")) for how in ("soft", "quiet", "loud")),
            _pressure(catalog.limit("bulge")),
            typical("pressure-medium", "Pa"),
        ],
        opening=[
            typical("tongue-opening", "dimensionless"),
            *catalog.span("tongue-opening", "dimensionless"),
        ],
        limits=[_limit(catalog.limit(name)) for name in JUDGED],
        told=[
            typical("large-lift", "dimensionless"),
            typical("large-lift-told", "dimensionless"),
            value_of(catalog.limit("mode-low")),
            value_of(catalog.limit("mode-high")),
        ],
        no_valve=[value_of(catalog.limit(name)) for name in NO_VALVE],
        tongue=[typical("tongue-offset", "dimensionless"), typical("tongue-clearance", "m")],
        mass=typical("valve-mass", "kg/m**2"),
        least_helper=G * typical("least-helper", "kg"),
    )


def _middle(figure: Figure) -> float:
    return (figure.low + figure.high) / 2 if figure.typical is None else figure.typical


def _pressure(limit: ValveLimit) -> float:
    return limit.at_pressure or 0.0


def value_of(limit: ValveLimit) -> float:
    """Give a limit's value in SI units, nought where it has none."""
    if limit.value is None:
        return 0.0
    return convert(limit.value, limit.unit, SI[limit.unit])


def _limit(limit: ValveLimit) -> list[float]:
    """Give value, share and whether it rejects."""
    return [value_of(limit), limit.share or 0.0, 1.0 if limit.counts == "rejects" else 0.0]


def bases(catalog: Catalog) -> list[Basis]:
    """Give the basis of every limit and figure that a verdict rests on."""
    figures = [name for name, _ in RULES] + [
        "pressure-medium",
        "tongue-opening",
        "tongue-offset",
        "tongue-clearance",
    ]
    return [
        *(
            Basis(one.what, one.basis, one.source or one.instrument)
            for one in (catalog.limit(name) for name in (*JUDGED, *NO_VALVE))
        ),
        *(
            Basis(one.what, one.basis, one.source)
            for one in (catalog.figure(name) for name in figures)
        ),
    ]
