"""A stock with readings that were typed, not yet in the shop's tables: ramp, scale, own droop."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from typing import TYPE_CHECKING

from formulas.fault import UnknownName
from formulas.formula import procedure
from formulas.valves.ramp import EITHER, ramp_found, times_and_over
from formulas.valves.readings import direction_share, expected_spread
from formulas.valves.stock import Stock
from formulas.valves.strip import bending_length, bending_length_by_droop

if TYPE_CHECKING:
    from formulas.catalog import Catalog

KINDS = ("leather", "film", "microfibre")
"""What a piece can be that stands in no table."""
READ = ("measured", "invented")
TYPED = "typed"


@procedure("A stock with readings of its own")
def with_readings(
    stock: Sequence[float],
    overhang: float,
    mass: float,
    thickness: float,
    factor: float,
    known: Sequence[float],
) -> list[float]:
    """Give a stock (as in `judging.judged`) with what was typed of it; nought keeps what it has.

    One overhang counts as one strip: its band is times and over by `factor`. A mass counts as
    typed. `known` is 1 where its bending length and where its mass was measured before.
    """
    one = [number + 0 for number in stock]
    if overhang > 0:
        band = times_and_over(bending_length(overhang), factor)
        one[8] = band[0]
        one[1] = band[1]
        one[9] = band[2]
    if mass > 0:
        one[0] = mass
        one[6] = mass
        one[7] = mass
    if thickness > 0:
        one[3] = thickness
    bends = overhang > 0 or known[0] > 0
    weighs = mass > 0 or known[1] > 0
    one[10] = 1.0 if bends and weighs else 0.0
    return one


@procedure("A stock by the droop of a valve cut from it")
def with_droop(
    stock: Sequence[float], droop_read: float, error: float, length: float
) -> list[float]:
    """Give a stock that bends as a valve of this free length does; the curl is in the reading."""
    one = [number + 0 for number in stock]
    one[8] = bending_length_by_droop(1, length, droop_read + error)
    one[1] = bending_length_by_droop(1, length, droop_read)
    one[9] = bending_length_by_droop(1, length, droop_read - error)
    one[4] = 0.0
    one[10] = 1.0
    return one


@procedure("Least droop that a rule tells")
def least_droop(error: float) -> float:
    """Give twice the error of the reading."""
    return 2 * error


@procedure("Largest droop that bends as a straight line")
def largest_droop(length: float, share: float) -> float:
    """Give the share of the free length beyond which straight-line bending misleads."""
    return share * length


@procedure("Half of a length as typed")
def half(length: float) -> float:
    """Give the bending length of an overhang, in the unit that it was typed in."""
    return length / 2


@procedure("Whether a number lies outside two ends")
def outside(value: float, least: float, most: float) -> bool:
    """Tell whether a number lies below the least or above the most."""
    return value < least or value > most


def one_strip(catalog: Catalog) -> float:
    """Give the times and over of a single overhang: what a valve cut from the stock may be."""
    return ramp_found([0.05], [0], [EITHER], *expected_spread(catalog))[5]


def known_before(stock: Stock) -> list[float]:
    """Tell whether bending length and mass of a stock were measured, each 1 or 0."""
    bends = stock.measured or stock.bending_basis in READ
    weighs = stock.measured or stock.mass_basis in READ
    return [float(bends), float(weighs)]


def piece(catalog: Catalog, kind: str) -> Stock:
    """Give a piece of which nothing is known but its kind. Raises UnknownName."""
    if kind not in KINDS:
        raise UnknownName("valve stock or kind", kind, {*catalog.valve_stock, *KINDS})
    nothing = (0.0, 0.0, 0.0)
    share = direction_share(catalog, kind, None, None)
    return Stock(
        kind, f"A piece of {kind}", kind, nothing, nothing, share, None, 0.0, True, False,
        TYPED, TYPED, TYPED, "either",
    )  # fmt: skip


def typed_stock(
    catalog: Catalog, base: Stock, overhang: float, mass: float, thickness: float = 0.0
) -> Stock:
    """Give a stock with what was typed of it, in metres and kg/m**2; nought keeps what it has."""
    numbers = with_readings(
        base.numbers, overhang, mass, thickness, one_strip(catalog), known_before(base)
    )
    return dataclasses.replace(
        base,
        mass=(numbers[6], numbers[0], numbers[7]),
        bending_length=(numbers[8], numbers[1], numbers[9]),
        thickness=(numbers[3],) * 3 if numbers[3] else None,
        measured=numbers[10] > 0,
        how=TYPED,
    )


def with_typed(
    from_these: Sequence[tuple[Stock, bool]], typed: Sequence[Stock]
) -> list[tuple[Stock, bool]]:
    """Give the stocks to choose from, those typed in their places, what is new at the end."""
    named = {one.id: one for one in typed}
    ids = {one.id for one, _ in from_these}
    return [
        *(
            (named[one.id], True) if alone and one.id in named else (one, alone)
            for one, alone in from_these
        ),
        *((one, True) for one in typed if one.id not in ids),
    ]
