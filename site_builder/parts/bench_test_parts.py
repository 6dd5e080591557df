"""Tables that the test leaves place: loads of a hung plate, rods of the bend, boiling water."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.frozen import Frozen
from formulas.units import printed, spoken_unit
from formulas.wax.bench_tests import boiling_points, hung_plates, loads_of, rods
from site_builder.markup.elements import number, paragraph, table, unknown, value
from site_builder.parts.bench_parts import known_id

if TYPE_CHECKING:
    from formulas.catalog import Catalog

WHOLE_FROM = 20  # a smaller value is printed with one decimal
WORDS = {3.0: "three times", 10.0: "ten times"}


def _between(ends: tuple[float, float], scale: float, unit: str) -> str:
    """Print a range of computed values; both ends with the decimals of the smaller."""
    low, high = (end * scale for end in ends)
    places = 0 if low >= WHOLE_FROM else 1
    return f"{printed(low, places)}\N{EN DASH}{printed(high, places)} {unit}".rstrip()


class _Spread(Frozen):
    """How far two readings of one person may lie apart, as a value with its basis."""

    low: float
    high: float
    unit: str
    basis: str


def inline_repeatability(catalog: Catalog, name: str) -> Element:
    """Give a method's repeatability for running text; what is not known says so."""
    method = catalog.methods[known_id(name, catalog.methods, "an id of methods.csv")]
    spread = method.repeatability
    if spread is None:
        return unknown("read one kept lot several times")
    row = _Spread(spread, spread, f"delta_{method.unit}", method.basis)
    return value(row, method.source)


def creep_loads(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what each plate size pulls, and what to hang on it for each load."""
    loads = loads_of(catalog)
    rash = catalog.figures["rash-weight"]
    weight = f"{number(rash.high or 0)} {spoken_unit(rash.unit)}"
    head = ["Plate", "Its own pull", "Its mass"]
    head += [f"To hang for {WORDS.get(load, f'{load:g} times')}" for load in loads]
    head += [f"{weight} would be"]
    rows = [
        [
            plate.name,
            _between(plate.stress, 1, "Pa"),
            _between(plate.mass, 1000, "g"),
            *(_between(plate.hung[load], 1000, "g") for load in loads),
            f"{_between(plate.rash, 1, '')} times",
        ]
        for plate in hung_plates(catalog)
    ]
    sizes = (
        "Worked out for the lightest and the heaviest plate of each length, without slots, tongues "
        "and valves; the sizes and the densities are from memory. Weigh and measure your own."
    )
    return [table(head, rows), paragraph(sizes)]


def bend_rods(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the rods of the cold bend with the strain that each asks for."""
    rows = [
        [f"{printed(width * 1000, 0)} mm", f"{printed(strain * 100, 1)} %"]
        for width, strain in rods(catalog)
    ]
    return [table(["Rod", "Stretch of the bead's outside"], rows)]


def boiling(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate where water boils at a few heights above the sea."""
    rows = [
        [f"{printed(height, 0)} m", f"{printed(heat, 1)} °C"]
        for height, heat in boiling_points(catalog)
    ]
    return [table(["Height above the sea", "Water boils at"], rows)]
