"""A shop's own readings of a stock, taken together: overhangs by strip, pieces on the scale."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from formulas.frozen import Frozen
from formulas.units import convert
from formulas.valves.ramp import (
    EITHER,
    FACES,
    RAMP,
    USUAL_ANGLE,
    ramp_found,
    ramp_verdicts,
    rigidity_share,
    times_and_over,
    usual_overhang,
)
from formulas.valves.strip import bending_length
from formulas.valves.weighing import weighed

if TYPE_CHECKING:
    from formulas.catalog import Catalog


class Ramp(Frozen):
    """What the ramp told of one direction of a stock: lengths in metres.

    `overhangs` as if all were read on the usual ramp; `found` as `ramp.RAMP`, `verdicts` the
    codes of `ramp`. `smooth`, `soft`, `ends` say whether both were read.
    """

    overhangs: tuple[float, ...]
    strips: tuple[int, ...]
    faces: tuple[int, ...]
    found: tuple[float, ...]
    verdicts: tuple[int, ...]
    both_ends: bool
    humidity: tuple[float, float] | None
    basis: str

    def _of(self, name: str) -> float:
        return self.found[RAMP.index(name)]

    @property
    def count(self) -> int:
        """How many strips were read."""
        return int(self._of("strips"))

    @property
    def bending_length(self) -> float:
        """The mean bending length."""
        return bending_length(self._of("mean"))

    @property
    def stock_band(self) -> tuple[float, float, float]:
        """The bending length of the stock, as 95 of 100 tests like this would have it."""
        return self._band(self._of("stock"))

    @property
    def next_strip(self) -> tuple[float, float, float]:
        """The bending length of one more strip."""
        return self._band(self._of("next"))

    def _band(self, factor: float) -> tuple[float, float, float]:
        low, middle, high = times_and_over(self.bending_length, factor)
        return low, middle, high


def limits_of(catalog: Catalog) -> list[float]:
    """Give shortest and longest overhang, the faces apart, the spread: for `ramp_verdicts`."""
    return [
        catalog.span("overhang-least", "m")[0],
        catalog.span("overhang-most", "m")[1],
        catalog.span("faces-apart", "dimensionless")[1],
        catalog.span("strips-unlike", "dimensionless")[1],
    ]


def expected_spread(catalog: Catalog) -> tuple[float, float]:
    """Give the spread of strips before any test, and how many strips that counts as."""
    return (
        catalog.span("strip-spread", "dimensionless")[1],
        catalog.span("strip-spread-weight", "dimensionless")[0],
    )


def ramp_from(
    catalog: Catalog,
    overhangs: Sequence[float],
    strips: Sequence[int],
    faces: Sequence[int],
    *,
    both_ends: bool = False,
    humidity: tuple[float, float] | None = None,
    basis: str = "measured",
) -> Ramp:
    """Take readings in metres together, on the usual ramp."""
    found = ramp_found(overhangs, strips, faces, *expected_spread(catalog))
    verdicts = ramp_verdicts(overhangs, found, limits_of(catalog))
    return Ramp(
        tuple(overhangs),
        tuple(strips),
        tuple(faces),
        tuple(found),
        tuple(verdicts),
        both_ends,
        humidity,
        basis,
    )


def ramp_of(catalog: Catalog, stock: str, direction: str) -> Ramp | None:
    """Give a stock's ramp tests in one direction, or None; what was left out does not count."""
    tests = [
        one
        for one in catalog.ramp_tests
        if one.stock == stock and one.direction == direction and not one.left_out
    ]
    if not tests:
        return None
    names = list(dict.fromkeys((one.strip, one.date) for one in tests))
    airs = [one.humidity for one in tests if one.humidity is not None]
    return ramp_from(
        catalog,
        [
            usual_overhang(
                convert(one.overhang, one.unit, "m"),
                USUAL_ANGLE if one.angle is None else one.angle,
            )
            for one in tests
        ],
        [names.index((one.strip, one.date)) for one in tests],
        [FACES.get(one.down, EITHER) for one in tests],
        both_ends=len({one.end for one in tests}) > 1,
        humidity=(min(airs), max(airs)) if airs else None,
        basis="invented" if any(one.basis == "invented" for one in tests) else "measured",
    )


def masses_of(catalog: Catalog, stock: str) -> list[float] | None:
    """Give low end, middle and high end of the mass per area as weighed, or None."""
    rows = [one for one in catalog.stock_weighings if one.stock == stock]
    if not rows:
        return None
    return weighed(
        [convert(one.mass, one.mass_unit, "kg") for one in rows],
        [one.pieces for one in rows],
        [convert(one.length, one.unit, "m") for one in rows],
        [convert(one.width, one.unit, "m") for one in rows],
        [convert(one.scale, one.mass_unit, "kg") for one in rows],
        catalog.span("piece-cut", "m")[1],
    )


def direction_share(catalog: Catalog, kind: str, along: Ramp | None, across: Ramp | None) -> float:
    """Give the rigidity across in rigidities along: by both ramps, else what a table tells."""
    if along and across:
        return rigidity_share(across.bending_length, along.bending_length)
    if kind == "film":
        return 1.0
    figure = catalog.figure("rigidity-across")
    return convert(figure.typical or figure.low, figure.unit, "dimensionless")
