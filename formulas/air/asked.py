"""What is asked of a room's air: a task checked, and its numbers in the order of the procedures."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from formulas.air.conversion import ICE_POINT
from formulas.air.heats import HEATS
from formulas.air.over_a_jar import CONSTANTS, CURVE, NATURAL
from formulas.air.solvents import SolventValue, bench_solvents, known_or_unknown, parts_of, rows_of
from formulas.fault import NotKnown, OutOfRange, UnknownName
from formulas.frozen import Frozen
from formulas.units import read

if TYPE_CHECKING:
    from formulas.air_entries import Solvent, SolventFact
    from formulas.catalog import Catalog

AMOUNTS_M3 = (0.0, 0.01)
AMOUNTS_KG = (0.0, 10.0)
TIMES_S = (60.0, 28800.0)
ROOMS_M3 = (5.0, 5000.0)
CHANGES_H = (0.1, 30.0)
FACES_M2 = (0.0, 2.0)
HEATS_C = (5.0, 40.0)
TASKS = (1, 20)
STARTS = (0.0, 0.1)
HOUR = 3600.0
ONE_BENCH = "one bench"
WORKDAY_FULL = "tasks that end within eight hours, from the start of the first"


class AirTask(Frozen):
    """One task, or several alike: what is used and how, and the room.

    `amount` is in m**3, or `mass` in kg; `seconds` how long one takes; `face` the wet face, None
    where all of it evaporates; `every` from start to start, None for one right after another;
    `changes` the air changes an hour; `start` the share of the air that is vapour at the start;
    `heats` what can light it.
    """

    solvent: str
    seconds: float
    amount: float | None = None
    mass: float | None = None
    room: float | None = None
    changes: float | None = None
    face: float | None = None
    celsius: float | None = None
    times: int = 1
    every: float | None = None
    start: float = 0.0
    heats: tuple[str, ...] = ()


def air_solvents(catalog: Catalog) -> list[Solvent]:
    """Give the solvents whose vapour is reckoned, the gentlest first: all but water."""
    return [one for one in bench_solvents(catalog) if one.kind != "water"]


def checked(catalog: Catalog, task: AirTask) -> None:
    """Raise UnknownName for a name that is not there, OutOfRange for a figure of no bench."""
    names = [one.id for one in air_solvents(catalog)]
    if task.solvent not in names:
        raise UnknownName("solvent", task.solvent, names)
    for heat in task.heats:
        if heat not in HEATS:
            raise UnknownName("heat", heat, HEATS)
    _above("amount", task.amount, AMOUNTS_M3, 1e6, "mL")
    _above("amount", task.mass, AMOUNTS_KG, 1e3, "g")
    _within("time of one task", task.seconds, TIMES_S, 1 / 60, "min")
    _within("room", task.room, ROOMS_M3, 1, "m3")
    _within("air changes an hour", task.changes, CHANGES_H, 1, "")
    _above("wet face", task.face, FACES_M2, 1e4, "cm2")
    _within("heat of the air", task.celsius, HEATS_C, 1, "degC")
    _within("tasks", task.times, TASKS, 1, "")
    _within("level at the start", task.start, STARTS, 1e6, "ppm")
    spacing = task.seconds if task.every is None else task.every
    if spacing < task.seconds:
        accepted = f"{task.seconds / 60:g} min or more, as long as one takes"
        raise OutOfRange("from start to start", spacing / 60, accepted, ONE_BENCH)
    ends = (task.times - 1) * spacing + task.seconds
    if ends > TIMES_S[1] * (1 + 1e-9):
        raise OutOfRange("end of the last task", ends / HOUR, WORKDAY_FULL, ONE_BENCH)


def _above(
    what: str, value: float | None, ends: tuple[float, float], each: float, unit: str
) -> None:
    if value is not None and not ends[0] < value <= ends[1]:
        accepted = f"{unit} above {ends[0] * each:g} up to {ends[1] * each:g}"
        raise OutOfRange(what, value * each, accepted, ONE_BENCH)


def _within(
    what: str, value: float | None, ends: tuple[float, float], each: float, unit: str
) -> None:
    if value is None:
        return
    low, high = (end * each for end in ends)
    # A change of units leaves a trace in the last digit of an end.
    if not low * (1 - 1e-9) <= value * each <= high * (1 + 1e-9):
        accepted = f"{f'{unit} ' if unit else ''}from {low:g} to {high:g}"
        raise OutOfRange(what, value * each, accepted, ONE_BENCH)


LIQUID = ("density", "molar-mass", "explosive-lower")
UNITS = {"density": "kg/m**3", "molar-mass": "kg/mol", "explosive-lower": "dimensionless"}


class LiquidPart(Frozen):
    """One part of a liquid in numbers: `numbers` as the page has them, and the rows behind.

    Share by volume, density, molar mass, lower explosive limit, each low and high; nought where a
    limit is not known. `law` is as `pressure.pressure_range` asks for it.
    """

    id: str
    numbers: tuple[float, ...]
    law: tuple[float, ...]
    rows: tuple[SolventFact, ...]
    told: tuple[str, ...]


def liquid_parts(catalog: Catalog, name: str) -> list[LiquidPart]:
    """Give the parts that a solvent is reckoned as: itself, or those of a mixture."""
    parts = [(one.id, one.low, one.high) for one in parts_of(catalog, name)] or [(name, 1.0, 1.0)]
    return [_part(catalog, of, low, high) for of, low, high in parts]


def _part(catalog: Catalog, name: str, low: float, high: float) -> LiquidPart:
    numbers = [low, high]
    rows: list[SolventFact] = []
    told: list[str] = []
    for prop in LIQUID:
        value = known_or_unknown(catalog, name, prop)
        if isinstance(value, SolventValue):
            numbers += value.ends(UNITS[prop])
            rows += value.rows
            told += [f"{prop.replace('-', ' ')}: {value.how}"] if value.how else []
        elif prop == "explosive-lower":
            numbers += [0.0, 0.0]
        else:
            raise NotKnown(value.what, value.find_out)
    law, more = pressure_law(catalog, name)
    return LiquidPart(name, tuple(numbers), law, (*rows, *more), tuple(told))


def pressure_law(catalog: Catalog, name: str) -> tuple[tuple[float, ...], tuple[SolventFact, ...]]:
    """Give the numbers that vapour pressure is taken from, and the rows they stand in."""
    own = [row for of in CONSTANTS for row in rows_of(catalog, name, of)]
    other = catalog.solvents[name].stands_in
    lent = [row for of in CONSTANTS for row in rows_of(catalog, other, of)] if other else []
    curve = own or lent
    known = known_or_unknown(catalog, name, "vapour-pressure")
    heat, ends = 0.0, (0.0, 0.0)
    rows: tuple[SolventFact, ...] = ()
    if isinstance(known, SolventValue):
        heat, ends, rows = _heat(known.rows), known.ends("Pa"), known.rows
    numbers = _curve(curve) if len(curve) == len(CONSTANTS) else [0.0] * 5
    return (float(bool(own)), *numbers, heat, *ends), (*curve, *rows)


def _curve(rows: Sequence[SolventFact]) -> list[float]:
    a, b, c = (row.low or 0.0 for row in rows)
    base = math.log(10) if rows[0].method == NATURAL else 1.0
    drawn = CURVE.fullmatch(rows[0].condition)
    assert drawn, rows[0].condition
    return [a / base, b / base, c, float(drawn[1]), float(drawn[2])]


def _heat(rows: Sequence[SolventFact]) -> float:
    return read(rows[0].condition, "degC") + ICE_POINT
