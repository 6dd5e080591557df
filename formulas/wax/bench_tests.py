"""What a shop reckons for its own tests: loads on a hung plate, bends, a ball, a thermometer.

All are geometry and balance of forces: trust them as far as the measures that go in.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Annotated

from formulas.formula import Q, formula
from formulas.frozen import Frozen

if TYPE_CHECKING:
    from formulas.catalog import Catalog

PI = math.pi


@formula("Way round a plate", symbol="U", unit="m", source="definition")
def way_round(
    L: Annotated[float, Q("m", "length of the plate")],
    b: Annotated[float, Q("m", "width of the plate")],
) -> float:
    """Give the length of the wax line of a plate with square corners."""
    return 2 * (L + b)


@formula("Mass of a blank plate", symbol="m", unit="kg", source="definition")
def plate_mass(
    rho: Annotated[float, Q("kg/m**3", "density of its metal", "ρ")],
    L: Annotated[float, Q("m", "length of the plate")],
    b: Annotated[float, Q("m", "width of the plate")],
    h: Annotated[float, Q("m", "thickness of the plate")],
) -> float:
    """Give the mass of a plate without slots, tongues and valves: a real one is to be weighed."""
    return rho * L * b * h


@formula("Pull of a hung plate on its wax", symbol="τ", unit="Pa", source="definition")
def joint_stress(
    m: Annotated[float, Q("kg", "mass that hangs on the wax")],
    g: Annotated[float, Q("m/s**2", "pull of gravity")],
    U: Annotated[float, Q("m", "way round the plate")],
    h: Annotated[float, Q("m", "thickness of the plate")],
) -> float:
    """Give the mean stress where wax that climbs the whole edge carries the plate alone.

    Wax that laps the face, or climbs half the edge only, moves it by as much as its area.
    """
    return m * g / (U * h)


@formula("Load of a test, in weights of the plate", symbol="n", unit="", source="definition")
def load_multiple(
    m: Annotated[float, Q("kg", "mass of the bare plate")],
    m_h: Annotated[float, Q("kg", "all that hangs on it: hook and weight")],
) -> float:
    """Give how many times its own weight the wax of a hung plate carries."""
    return (m + m_h) / m


@formula("Mass to hang for a load", symbol="m_h", unit="kg", source="definition")
def hung_mass(
    n: Annotated[float, Q("", "load in weights of the plate, 1 or more")],
    m: Annotated[float, Q("kg", "mass of the bare plate")],
) -> float:
    """Give what has to hang on the plate, hook and weight together."""
    return (n - 1) * m


@formula("Strain of the outside of a bent bead", symbol="ε", unit="", source="definition")
def bend_strain(
    t: Annotated[float, Q("m", "thickness of the bead")],
    d: Annotated[float, Q("m", "thickness of the rod")],
) -> float:
    """Give how far the outside of a bead is stretched that lies round a rod.

    Its middle keeps its length: true of an even bead that touches the rod all along.
    """
    return t / (d + t)


@formula("Mass of a ball", symbol="m", unit="kg", source="definition")
def ball_mass(
    rho: Annotated[float, Q("kg/m**3", "density of the ball", "ρ")],
    d: Annotated[float, Q("m", "width of the ball")],
) -> float:
    """Give the mass of a full ball."""
    return rho * PI * d**3 / 6


@formula("Boiling water at a height", symbol="T_b", unit="degC", source="definition")
def boiling_at_height(
    T_0: Annotated[float, Q("degC", "boiling point at sea level")],
    f: Annotated[float, Q("K/m", "fall for each metre")],
    H: Annotated[float, Q("m", "height above the sea")],
) -> float:
    """Give where pure water boils on a day of mean air pressure.

    The weather moves it either way, so it is good to the figure that stands beside it.
    """
    return T_0 - f * H


@formula("Reading put right", symbol="T", unit="degC", source="definition")
def corrected_reading(
    r: Annotated[float, Q("degC", "reading in the test")],
    i: Annotated[float, Q("degC", "reading in melting ice")],
    k: Annotated[float, Q("degC", "reading in boiling water")],
    T_b: Annotated[float, Q("degC", "what boiling water has there")],
) -> float:
    """Put a reading right by a straight line through ice, which is nought, and boiling water.

    It takes the scale between the two for even. Raises ZeroDivisionError where both readings
    are the same.
    """
    return (r - i) / (k - i) * T_b


@formula("Density by weighing in water", symbol="ρ", unit="kg/m**3", source="definition")
def density_in_water(
    m: Annotated[float, Q("kg", "mass of the lump in air")],
    s: Annotated[float, Q("kg", "reading with the sinker alone under water")],
    c: Annotated[float, Q("kg", "reading with sinker and lump under water")],
    rho_w: Annotated[float, Q("kg/m**3", "density of the water", "ρ_w")],
) -> float:
    """Give the density of a lump, also of one that floats, tied to a sinker.

    An air bubble on the lump, or inside it, makes it read light. Raises ZeroDivisionError where
    the three masses fit no lump.
    """
    return rho_w * m / (m + s - c)


@formula("Ester value to acid value", symbol="q", unit="", source="definition")
def ester_acid_ratio(
    S: Annotated[float, Q("mg/g", "saponification value")],
    A: Annotated[float, Q("mg/g", "acid value")],
) -> float:
    """Give the ratio by which a laboratory looks for resin in beeswax.

    The ester value is what the saponification value has above the acid value.
    """
    return (S - A) / A


class HungPlate(Frozen):
    """A plate size of the tables, as ranges: its own pull, its mass, what to hang, a rash load.

    Stress in Pa, masses in kg; `hung` by the load in weights of the plate; `rash` is that load
    where the weight people reach for hangs on it.
    """

    id: str
    name: str
    stress: tuple[float, float]
    mass: tuple[float, float]
    hung: dict[float, tuple[float, float]]
    rash: tuple[float, float]


# Plate sizes of figures.csv with the metals that they are made of.
PLATES = (("small", "aluminium"), ("large", "aluminium"), ("large", "zinc"))
LOADS = ("creep-load-second", "creep-load-third")


def loads_of(catalog: Catalog) -> list[float]:
    """Give the loads beside the plate's own, in weights of the plate."""
    return [catalog.span(name, "dimensionless")[0] for name in LOADS]


def hung_plates(catalog: Catalog) -> Iterator[HungPlate]:
    """Give what each plate size of the tables pulls and what to hang on it.

    The lightest and the heaviest plate of each size: real ones have slots and tongues.
    """
    (g, _) = catalog.span("gravity", "m/s**2")
    rash = catalog.span("rash-weight", "kg")[1]
    for size, metal in PLATES:
        ends = list(zip(*_sizes(catalog, size, metal), strict=True))
        masses = [plate_mass(*end) for end in ends]
        stresses = [
            joint_stress(m, g, way_round(L, b), h)
            for m, (_, L, b, h) in zip(masses, ends, strict=True)
        ]
        hung = {n: _pair(hung_mass(n, m) for m in masses) for n in loads_of(catalog)}
        loads = sorted(load_multiple(m, rash) for m in masses)
        length = catalog.figures[f"test-plate-{size}-length"].low
        yield HungPlate(
            f"{metal}-{size}",
            f"{metal}, {length:g} mm",
            _pair(stresses),
            _pair(masses),
            hung,
            _pair(loads),
        )


def _sizes(catalog: Catalog, size: str, metal: str) -> list[tuple[float, float]]:
    """Give density, length, width and thickness, the least and the most of each."""
    names = ("length", "width", "thickness")
    lengths = [catalog.span(f"test-plate-{size}-{name}", "m") for name in names]
    return [catalog.span(f"{metal}-density", "kg/m**3"), *lengths]


def _pair(values: Iterable[float]) -> tuple[float, float]:
    low, high = values
    return low, high


RODS = ("first", "second", "third", "last")


def rods(catalog: Catalog) -> list[tuple[float, float]]:
    """Give each rod of the cold bend in m, the thickest first, with the strain it asks for."""
    bead = catalog.span("cold-bend-bead", "m")[0]
    widths = [catalog.span(f"cold-bend-rod-{name}", "m")[0] for name in RODS]
    return [(width, bend_strain(bead, width)) for width in widths]


def boiling_points(catalog: Catalog) -> list[tuple[float, float]]:
    """Give heights in m with the heat of boiling water there in degC, for the table's heights."""
    sea = catalog.span("water-boils", "degC")[0]
    fall = catalog.figures["boiling-fall"]
    low, high = catalog.span("boiling-fall-heights", "m")
    per_metre = (fall.typical or 0.0) / 100
    count = 5
    heights = [low + (high - low) * place / (count - 1) for place in range(count)]
    return [(height, boiling_at_height(sea, per_metre, height)) for height in heights]
