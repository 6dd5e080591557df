"""Every valve stock as valves are judged by it: what was measured, else what a table tells.

Ramp and scale outrank any modulus of a table. A stock of which neither mass nor stiffness can
be told is not among them: `missing` says how to find out.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from formulas.answer import Unknown
from formulas.frozen import Frozen
from formulas.units import convert
from formulas.valves.curl import curl_of, plate_face
from formulas.valves.layers import Layer, stacked
from formulas.valves.ramp import CURLS, TOO_LIMP
from formulas.valves.readings import Ramp, direction_share, masses_of, ramp_of
from formulas.valves.strip import bending_length_of, rigidity_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.entries import Known
    from formulas.valve_entries import ValveStock

MODULI = ("bending-modulus", "tensile-modulus")
TABLE = "modulus of the table"


class Ends(NamedTuple):
    """A low end, what is counted with, a high end; what they rest on."""

    low: float
    middle: float
    high: float
    basis: str = ""
    how: str = ""


class Stock(Frozen):
    """One stock in SI units: bands as low, middle, high.

    `across` is the rigidity that way in rigidities along; `curvature` counts outward, with the
    face on the plate that the shop puts there; `alone` where it may lie on a plate by itself;
    `measured` where mass and bending length both are.
    """

    id: str
    name: str
    kind: str
    mass: tuple[float, float, float]
    bending_length: tuple[float, float, float]
    across: float
    thickness: tuple[float, float, float] | None
    curvature: float
    alone: bool
    measured: bool
    mass_basis: str
    bending_basis: str
    how: str
    face: str
    ramp: Ramp | None = None
    across_ramp: Ramp | None = None

    @property
    def film(self) -> bool:
        """Whether it is judged by its strain, as films are."""
        return self.kind == "film"

    @functools.cached_property
    def numbers(self) -> list[float]:
        """Give it as `one_valve.STOCK`, then the ends of mass and bending length, measured, alone.

        An unknown thickness is nought: the strain is then not judged.
        """
        return [
            self.mass[1],
            self.bending_length[1],
            self.across,
            self.thickness[1] if self.thickness else 0.0,
            self.curvature,
            1.0 if self.film else 0.0,
            self.mass[0],
            self.mass[2],
            self.bending_length[0],
            self.bending_length[2],
            1.0 if self.measured else 0.0,
            1.0 if self.alone else 0.0,
        ]


def stocks(catalog: Catalog) -> list[Stock]:
    """Give every stock whose mass and stiffness are known or in a table, in table order."""
    return [one for one in _all(catalog).values() if isinstance(one, Stock)]


def missing(catalog: Catalog) -> dict[str, Unknown]:
    """Give what is not known of the other stocks, by their ids."""
    return {name: one for name, one in _all(catalog).items() if isinstance(one, Unknown)}


def stock_or_unknown(catalog: Catalog, name: str) -> Stock | Unknown:
    """Give one stock, or what is not known of it. Raises UnknownName."""
    catalog.stock(name)
    return _all(catalog)[name]


def _all(catalog: Catalog) -> Mapping[str, Stock | Unknown]:
    if "valve stocks" not in catalog.memo:
        catalog.memo["valve stocks"] = {
            name: _stock(catalog, row) for name, row in catalog.valve_stock.items()
        }
    found: Mapping[str, Stock | Unknown] = catalog.memo["valve stocks"]
    return found


def _stock(catalog: Catalog, row: ValveStock) -> Stock | Unknown:
    ramp = ramp_of(catalog, row.stock, "along")
    across_ramp = ramp_of(catalog, row.stock, "across")
    thickness = thickness_of(row)
    mass = mass_of(catalog, row)
    bends = _bends(catalog, row, ramp, mass)
    if mass is None or bends is None:
        return _unknown(row, mass, bends)
    share = direction_share(catalog, kind_of(catalog, row), ramp, across_ramp)
    counts = ramp is not None and not {TOO_LIMP, CURLS} & set(ramp.verdicts)
    return Stock(
        row.stock,
        row.name,
        kind_of(catalog, row),
        mass[:3],
        bends[:3],
        share,
        thickness[:3] if thickness else None,
        curl_of(catalog, row),
        _alone(catalog, row, thickness),
        (counts or bends.how == "loose layers, each measured")
        and mass.how in ("weighed", "as given", "its layers"),
        mass.basis,
        bends.basis,
        bends.how,
        plate_face(catalog, row),
        ramp,
        across_ramp,
    )


def kind_of(catalog: Catalog, row: ValveStock) -> str:
    """Give leather, film, microfibre, woven or card; a stack with a film in it counts as film."""
    layers = [catalog.valve_stock[name] for name in row.layers] or [row]
    kinds = [catalog.valve_materials[one.material].kind for one in layers]
    return "film" if "film" in kinds else kinds[0]


def thickness_of(row: ValveStock) -> Ends | None:
    """Give the thickness in metres, or None where no one wrote it down."""
    if row.thickness_low is None or row.thickness_high is None:
        return None
    low, high = (
        convert(end, row.thickness_unit, "m") for end in (row.thickness_low, row.thickness_high)
    )
    return Ends(low, (low + high) / 2, high, row.basis, row.gauge)


def mass_of(catalog: Catalog, row: ValveStock) -> Ends | None:
    """Give the mass per area: weighed, else as given, else of the layers, else by density."""
    found = masses_of(catalog, row.stock)
    if found:
        return Ends(found[0], found[1], found[2], _basis(catalog, row.stock), "weighed")
    if row.mass_low is not None and row.mass_high is not None:
        low, high = (
            convert(end, row.mass_unit, "kg/m**2") for end in (row.mass_low, row.mass_high)
        )
        return Ends(low, (low + high) / 2, high, row.basis, "as given")
    if row.layers:
        layers = [mass_of(catalog, catalog.valve_stock[name]) for name in row.layers]
        known = [one for one in layers if one is not None]
        if len(known) < len(layers):
            return None
        low, middle, high = (sum(float(one[end]) for one in known) for end in range(3))
        return Ends(low, middle, high, "derived", "its layers")
    thickness, density = thickness_of(row), _known(catalog, row, ("density",), "kg/m**3")
    if thickness is None or density is None:
        return None
    low, high = thickness.low * density[0], thickness.high * density[1]
    return Ends(low, math.sqrt(low * high), high, "derived", "thickness and density of the table")


def table_modulus(catalog: Catalog, row: ValveStock) -> tuple[float, float, str] | None:
    """Give the ends of a stock's modulus in Pa by the table, and their basis; None for layers."""
    return None if row.layers else _known(catalog, row, MODULI, "Pa")


def _basis(catalog: Catalog, name: str) -> str:
    bases = {one.basis for one in catalog.stock_weighings if one.stock == name}
    return "invented" if "invented" in bases else "measured"


def _known(
    catalog: Catalog, row: ValveStock, properties: Sequence[str], unit: str
) -> tuple[float, float, str] | None:
    """Give the ends of the first of these properties that the tables hold."""
    from formulas.fault import NotKnown

    for prop in properties:
        try:
            known: Known = catalog.known_of_stock(row.material, prop)
        except NotKnown:
            continue
        low, high = (convert(end, known.unit, unit) for end in (known.low, known.high))
        return low, high, known.basis
    return None


def _bends(catalog: Catalog, row: ValveStock, ramp: Ramp | None, mass: Ends | None) -> Ends | None:
    """Give the bending length along: by the ramp, else of the layers, else by a modulus."""
    if ramp is not None:
        return Ends(*ramp.next_strip, ramp.basis, "ramp")
    if row.layers:
        return _of_layers(catalog, row)
    if row.material is None or mass is None:
        return None
    thickness, modulus = thickness_of(row), table_modulus(catalog, row)
    if thickness is None or modulus is None:
        return None
    density = (mass.low / thickness.low, mass.high / thickness.high)
    low = _solid(modulus[0], thickness.low, max(density))
    high = _solid(modulus[1], thickness.high, min(density))
    basis = "memory" if "memory" in (modulus[2], row.basis) else "derived"
    return Ends(low, math.sqrt(low * high), high, basis, TABLE)


def _solid(modulus: float, thickness: float, density: float) -> float:
    return bending_length_of(rigidity_of(modulus, thickness), density * thickness)


def _of_layers(catalog: Catalog, row: ValveStock) -> Ends | None:
    parts = [_layer(catalog, name) for name in row.layers]
    whole = [one for one in parts if one is not None]
    if len(whole) < len(parts):
        return None
    low, middle, high = stacked(whole, row.bond == "bonded")
    every = all(one.measured for one in whole)
    how = f"{row.bond} layers" + (", each measured" if every else "")
    return Ends(low, middle, high, "derived", how)


def _layer(catalog: Catalog, name: str) -> Layer | None:
    """Give a stock as a layer of a stack; None where its stiffness or thickness is not known."""
    one = _stock(catalog, catalog.valve_stock[name])
    if isinstance(one, Unknown) or one.thickness is None:
        return None
    return Layer(one.mass, one.bending_length, one.thickness[1], one.measured)


def _alone(catalog: Catalog, row: ValveStock, thickness: Ends | None) -> bool:
    """Tell whether a stock lies on a plate by itself: a bare film only as thin as the trade's."""
    if row.layers or kind_of(catalog, row) != "film" or row.soft_face == "yes" or not thickness:
        return True
    bare = catalog.span("bare-film", "m")[1]
    return thickness.low <= bare


def _unknown(row: ValveStock, mass: Ends | None, bends: Ends | None) -> Unknown:
    """Say what is not known of a stock, and the two readings that tell it."""
    gone = [
        words
        for words, known in (("mass per area", mass), ("bending length", bends))
        if known is None
    ]
    ways = []
    if mass is None:
        ways.append("weigh pieces of known size (stock_weighings.csv)")
    if bends is None:
        ways.append("push a strip over the ramp (ramp_tests.csv)")
    return Unknown(f"{row.name}: {' and '.join(gone)}", f"{'; '.join(ways)}.")
