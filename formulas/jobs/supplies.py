"""What a job uses up beside wax and valve stock: glue, solvent, gaskets, what fastens them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Annotated

from formulas.answer import Band
from formulas.formula import Q, formula
from formulas.jobs.instrument import by_block
from formulas.jobs.job import Job, JobPlate, Line, Part

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valves.valves import Chosen

SUM = "ends of every figure taken together"
FASTENERS = {"pins": "pin", "hooks": "hook", "screws": "screw"}
"""What a seating takes, and the item of prices.csv that it is."""


@formula("Glue under one valve", symbol="m_g", unit="kg", source="definition")
def glue_mass(
    b: Annotated[float, Q("m", "width of the valve")],
    l_g: Annotated[float, Q("m", "length of its glue land")],
    t: Annotated[float, Q("m", "thickness of the wet glue")],
    rho: Annotated[float, Q("kg/m**3", "density of the wet glue", "ρ")],
) -> float:
    """Give what stays under the valve; several times as much is taken from the tin."""
    return b * l_g * t * rho


@formula("Gasket to cut from", symbol="A", unit="m**2", source="definition")
def gasket_area(
    L: Annotated[float, Q("m", "length of the plate")],
    W: Annotated[float, Q("m", "width of the plate")],
    u: Annotated[float, Q("1", "share of a sheet that ends as gaskets")],
) -> float:
    """Give the area of sheet for the gasket of one plate; `u` is not nought."""
    return L * W / u


def supplies(
    catalog: Catalog, job: Job, plates: Sequence[JobPlate], chosen: Sequence[Chosen]
) -> list[Line]:
    """Give a line for each thing that is used up, with a part a block. Amounts of nought are left
    out.
    """
    lines = [_glue(catalog, job, plates, chosen), _solvent(catalog, job)]
    lines += _gaskets(catalog, job, plates)
    lines += _fasteners(catalog, job)
    return [line for line in lines if line.amount.high > 0]


def _glue(catalog: Catalog, job: Job, plates: Sequence[JobPlate], chosen: Sequence[Chosen]) -> Line:
    film = catalog.span("glue-film", "m")
    density = catalog.span("glue-density", "kg/m**3")
    times = catalog.span("glue-taken-times", "dimensionless")
    blocks = {(one.rank, one.note): one.block for one in plates}

    def grams(one: Chosen, end: int) -> float:
        land = one.length_m - one.free_m
        return 1000 * times[end] * glue_mass(one.width_m, land, film[end], density[end])

    ends: dict[str, list[tuple[float, float]]] = {}
    for one in chosen:
        if one.stock:
            block = blocks[one.rank, one.note]
            ends.setdefault(block, []).append((grams(one, 0), grams(one, 1)))
    named = catalog.glues[job.glue].name if job.glue else "Glue for valves, none named"
    note = "" if job.glue else "Name one in the job file: `glue = …`."
    return _line("glue", job.glue or "glue", named, "g", ends, "valves", "memory", note)


def _solvent(catalog: Catalog, job: Job) -> Line:
    low, high = catalog.span("solvent-per-plate", "mL")
    basis = catalog.figure("solvent-per-plate").basis
    ends = {block.block: [(low, high)] * block.plates for block in job.blocks}
    name = "Solvent to degrease plates"
    return _line("solvent", "solvent", name, "mL", ends, "plates", basis)


def _gaskets(catalog: Catalog, job: Job, plates: Sequence[JobPlate]) -> Iterator[Line]:
    share = catalog.span("gasket-used-share", "dimensionless")
    blocks = {block.block: block for block in job.blocks}
    for material in dict.fromkeys(block.gasket for block in job.blocks if block.gasket):
        ends = {
            block: [
                (
                    gasket_area(one.length.low, one.width.low, share[1]),
                    gasket_area(one.length.high, one.width.high, share[0]),
                )
                for one in own
            ]
            for block, own in by_block(list(plates)).items()
            if blocks[block].gasket == material
        }
        name = f"Gasket: {catalog.gasket_materials[material].name}"
        yield _line("gaskets", material, name, "m**2", ends, "plates", "derived")


def _fasteners(catalog: Catalog, job: Job) -> Iterator[Line]:
    each = catalog.span("fasteners-per-plate", "1")
    long = catalog.span("fasteners-per-long-plate", "1")
    basis = catalog.figure("fasteners-per-plate").basis
    for kind, item in FASTENERS.items():
        ends = {
            block.block: [long if block.long_plates else each] * block.plates
            for block in job.blocks
            if kind in catalog.seating_methods[block.seating].takes
        }
        yield _line(
            "fasteners", item, f"{kind.capitalize()} for plates", "1", ends, "plates", basis
        )


def _line(
    group: str,
    item: str,
    name: str,
    unit: str,
    ends: dict[str, list[tuple[float, float]]],
    counted: str,
    basis: str,
    note: str = "",
) -> Line:
    """Make a line of what each block takes; one hand and one tin, so the ends are added."""
    parts, low, high = [], 0.0, 0.0
    for block, ones in ends.items():
        least, most = math.fsum(one[0] for one in ones), math.fsum(one[1] for one in ones)
        low, high = low + least, high + most
        where = f"block {block}, {len(ones)} {counted}"
        parts.append(Part(where, len(ones), (least + most) / 2))
    return Line(group, item, name, Band(low, None, high, unit, SUM), tuple(parts), basis, note)
