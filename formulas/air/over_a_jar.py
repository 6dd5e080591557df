"""Vapour over an open jar: its pressure at a heat, its share of the air, whether that can burn.

Two ways lead to the same question and the worse of both counts: the saturated vapour against the
lower explosive limit, and the heat of the room against the flash point.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from formulas.air.conversion import ATMOSPHERE, ICE_POINT, antoine_pressure, saturated_share
from formulas.air.solvents import (
    FIND_OUT,
    SolventValue,
    between,
    known_or_unknown,
    parts_of,
    rows_of,
    solvent,
    stood_in,
    union,
)
from formulas.answer import Band, Unknown
from formulas.best_basis import counted
from formulas.fault import NotKnown, OutOfRange
from formulas.frozen import Frozen
from formulas.units import read

if TYPE_CHECKING:
    from formulas.air_entries import SolventFact
    from formulas.catalog import Catalog

ROOMS = (-20.0, 60.0)  # degC, the heats at which a bench asks
NEAR = 0.005  # K, one heat and the same
CONSTANTS = ("antoine-a", "antoine-b", "antoine-c")
CURVE = re.compile(r"([\d.]+) to ([\d.]+) K")
NATURAL = "ln of Pa"

BURNS_NOT, NOBODY_KNOWS, MAY_REACH, REACHES = range(4)
"""Verdicts in the order of danger."""
VERDICTS = (
    "by these figures the air over an open jar is too lean to burn",
    "whether the air over an open jar can burn is not known",
    "the air over an open jar may be able to burn",
    "the air over an open jar can burn",
)
WATER = "it gives off nothing that burns"
NO_PROMISE = (
    "That is no permission: a warm hand, a warm plate, a wet rag, a spray and a grade that flashes"
    " lower each bring the vapour there sooner."
)


class OverTheJar(Frozen):
    """What stands over an open jar at a heat; a verdict is a place of VERDICTS."""

    flash: SolventValue | Unknown
    lower: SolventValue | Unknown
    pressure: SolventValue | Unknown
    share: Band | Unknown
    by_vapour: int
    by_flash: int
    verdict: int
    said: str


def curve_pressure(catalog: Catalog, name: str, celsius: float) -> SolventValue | None:
    """Give the vapour pressure by Antoine's constants, None where they do not reach the heat."""
    rows = [row for of in CONSTANTS for row in rows_of(catalog, name, of)]
    kelvin = celsius + ICE_POINT
    if not rows or not _drawn(rows)[0] <= kelvin <= _drawn(rows)[1]:
        return None
    pascals = _on_the_curve(rows, kelvin)
    return SolventValue(pascals, pascals, "Pa", rows[0].basis, "", tuple(rows))


def _drawn(rows: Sequence[SolventFact]) -> tuple[float, float]:
    """Give the range in kelvin for which constants were drawn."""
    found = CURVE.search(rows[0].condition)
    assert found is not None, "the tables were checked"
    return float(found[1]), float(found[2])


def _on_the_curve(rows: Sequence[SolventFact], kelvin: float) -> float:
    a, b, c = (row.low or 0.0 for row in rows)
    base = math.log(10) if rows[0].method == NATURAL else 1.0
    return antoine_pressure(a / base, b / base, c, 1.0, kelvin)


def vapour_pressure(catalog: Catalog, name: str, celsius: float) -> SolventValue:
    """Give the vapour pressure at a heat.

    Own constants, then own rows of that heat, then no more than at a warmer row, then parts and
    stand-in. No constants are used outside their range. Raises NotKnown.
    """
    one = solvent(catalog, name)
    by_curve = curve_pressure(catalog, name, celsius)
    if by_curve:
        return by_curve
    rows = rows_of(catalog, name, "vapour-pressure")
    here = [row for row in rows if abs(_heat(row) - celsius) < NEAR]
    if here:
        return union(counted(here))
    warmer = [row for row in rows if _heat(row) > celsius]
    if warmer:
        return _no_more_than(counted(warmer))
    if one.parts:
        parts = parts_of(catalog, name)
        return between(catalog, [vapour_pressure(catalog, part.id, celsius) for part in parts])
    if one.stands_in:
        return _as_the_stand_in(catalog, one.stands_in, rows, celsius)
    raise NotKnown(f"{one.name}: vapour pressure at {celsius:g} degC", FIND_OUT)


def _as_the_stand_in(
    catalog: Catalog, name: str, rows: Sequence[SolventFact], celsius: float
) -> SolventValue:
    """Give the stand-in's pressure, or own colder rows raised as the stand-in's rises."""
    there = vapour_pressure(catalog, name, celsius)
    if not rows:
        return stood_in(catalog, there, name)
    own = union(counted(rows))
    then = vapour_pressure(catalog, name, _heat(own.rows[0]))
    rise = [hot / cold for hot, cold in zip(there.ends("Pa"), then.ends("Pa"), strict=True)]
    low, high = (end * by for end, by in zip(own.ends("Pa"), rise, strict=True))
    how = f"its own at {_said_heat(own.rows[0])}, raised as that of {catalog.solvents[name].name}"
    return SolventValue(low, high, "Pa", "derived", how, (*own.rows, *there.rows))


def _said_heat(row: SolventFact) -> str:
    return row.condition.replace("degC", "°C")


def _heat(row: SolventFact) -> float:
    return read(row.condition, "degC")


def _no_more_than(rows: Sequence[SolventFact]) -> SolventValue:
    top = union(rows)
    how = f"no more than at {_said_heat(rows[0])}"
    return SolventValue(0.0, top.high, top.unit, "derived", how, top.rows)


def flash_and_room(
    catalog: Catalog, name: str, celsius: float, pascals: float = ATMOSPHERE
) -> OverTheJar:
    """Tell whether the air over an open jar at a heat can reach the lower explosive limit.

    Raises OutOfRange for a heat at which no bench works.
    """
    if not ROOMS[0] <= celsius <= ROOMS[1]:
        raise OutOfRange("heat of the room", celsius, "-20 to 60 °C", "solvent")
    one = solvent(catalog, name)
    flash = known_or_unknown(catalog, name, "flash-point")
    lower = known_or_unknown(catalog, name, "explosive-lower")
    pressure = _pressure_or_unknown(catalog, name, celsius)
    share = _share(pressure, pascals)
    by_vapour, by_flash = _by_vapour(share, lower), _by_flash(celsius, flash)
    verdict = BURNS_NOT if one.kind == "water" else _worse(by_vapour, by_flash)
    said = WATER if one.kind == "water" else VERDICTS[verdict]
    return OverTheJar(flash, lower, pressure, share, by_vapour, by_flash, verdict, said)


def _pressure_or_unknown(catalog: Catalog, name: str, celsius: float) -> SolventValue | Unknown:
    try:
        return vapour_pressure(catalog, name, celsius)
    except NotKnown as error:
        return Unknown(error.what, error.find_out)


def _share(pressure: SolventValue | Unknown, pascals: float) -> Band | Unknown:
    if isinstance(pressure, Unknown):
        return pressure
    low, high = (100 * saturated_share(end, pascals) for end in pressure.ends("Pa"))
    return Band(low, None, high, "percent", pressure.how)


def _by_vapour(share: Band | Unknown, lower: SolventValue | Unknown) -> int:
    if isinstance(share, Unknown) or isinstance(lower, Unknown):
        return NOBODY_KNOWS
    low, high = lower.ends("percent")
    if share.high < low:
        return BURNS_NOT
    return REACHES if share.low >= high else MAY_REACH


def _by_flash(celsius: float, flash: SolventValue | Unknown) -> int:
    if isinstance(flash, Unknown):
        return NOBODY_KNOWS
    low, high = flash.ends("degC")
    if celsius < low:
        return BURNS_NOT
    return REACHES if celsius >= high else MAY_REACH


def _worse(by_vapour: int, by_flash: int) -> int:
    """Give the worse of two verdicts; one that nobody knows leaves the other to speak."""
    spoken = [one for one in (by_vapour, by_flash) if one != NOBODY_KNOWS]
    return max(spoken, default=NOBODY_KNOWS)
