"""What is typed or kept of a stock, checked and taken together for the answer of `stiffness`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from formulas.fault import OutOfRange
from formulas.frozen import Frozen
from formulas.valves.ramp import ANGLES, USUAL_ANGLE, usual_overhang
from formulas.valves.readings import Ramp, masses_of, ramp_from, ramp_of
from formulas.valves.stock import Ends, mass_of, thickness_of
from formulas.valves.weighing import weighed

if TYPE_CHECKING:
    from formulas.catalog import Catalog

OVERHANGS = (0.001, 2.0)
"""Shortest and longest overhang that is read at all, in metres."""
FACE_OF_PLACE = (1, 1, -1, -1)
"""The face that looks down at each place of a strip: smooth at both ends, then soft at both."""
SIDES = (0.005, 2.0)
MASSES = (1e-6, 20.0)
THICKNESSES = (1e-6, 0.02)


class Weighed(Frozen):
    """Pieces on a scale together, in metres and kilograms."""

    mass: float
    pieces: int
    length: float
    width: float
    scale: float


class Typed(Frozen):
    """What was typed of a stock: strips as four overhangs in metres, nought where not read.

    The order of a strip is smooth face down from end a and from end b, then soft face down.
    """

    along: Sequence[Sequence[float]] = ()
    across: Sequence[Sequence[float]] = ()
    angle: float = USUAL_ANGLE
    weighings: Sequence[Weighed] = ()
    thickness: tuple[float, float] | None = None

    @property
    def empty(self) -> bool:
        """Whether nothing was typed."""
        return not (self.along or self.across or self.weighings or self.thickness)


class Found(Frozen):
    """What is known of a stock: both ramps, mass, thickness, and the step of the scale used."""

    along: Ramp | None
    across: Ramp | None
    mass: Ends | None
    thickness: Ends | None
    scale: float
    weighed: bool


def check(typed: Typed) -> None:
    """Raise OutOfRange for a reading that no bench has."""
    readings = [one for strip in (*typed.along, *typed.across) for one in strip if one]
    checked = [("overhang", one, OVERHANGS) for one in readings]
    for one in typed.weighings:
        checked += [("side of a piece", side, SIDES) for side in (one.length, one.width)]
        if not MASSES[0] <= one.mass <= MASSES[1]:
            raise OutOfRange("mass", 1000 * one.mass, "g from 0.001 to 20000", "a bench scale")
        if not 0 < one.scale <= one.mass:
            raise OutOfRange(
                "step of the scale", 1000 * one.scale, "g above 0, up to the mass", "a bench scale"
            )
        if one.pieces < 1:
            raise OutOfRange("pieces", one.pieces, "1 or more", "what was weighed")
    checked += [("thickness", one, THICKNESSES) for one in typed.thickness or ()]
    for what, value, (low, high) in checked:
        if not low <= value <= high:
            accepted = f"mm from {1000 * low:g} to {1000 * high:g}"
            raise OutOfRange(what, 1000 * value, accepted, "a strip on a bench")
    if not ANGLES[0] <= typed.angle <= ANGLES[1]:
        accepted = f"degrees from {ANGLES[0]:g} to {ANGLES[1]:g}"
        raise OutOfRange("angle of the ramp", typed.angle, accepted, "the solved strip")


def found_of(catalog: Catalog, stock: str, typed: Typed) -> Found:
    """Give what is known of a stock: what was typed, else what the tables hold of it."""
    row = catalog.stock(stock) if stock else None
    along = _ramp_typed(catalog, typed.along, typed.angle)
    across = _ramp_typed(catalog, typed.across, typed.angle)
    mass, scale = _mass_typed(catalog, typed)
    thickness = Ends(
        typed.thickness[0], sum(typed.thickness) / 2, typed.thickness[1], "measured"
    ) if typed.thickness else None  # fmt: skip
    if row:
        along = along or ramp_of(catalog, stock, "along")
        across = across or ramp_of(catalog, stock, "across")
        mass = mass or mass_of(catalog, row)
        thickness = thickness or thickness_of(row)
    of_shop = catalog.shop.scale_g / 1000
    was = bool(typed.weighings) or bool(stock and masses_of(catalog, stock))
    return Found(along, across, mass, thickness, scale or of_shop, was)


def _ramp_typed(catalog: Catalog, strips: Sequence[Sequence[float]], angle: float) -> Ramp | None:
    """Take typed strips together; one without a reading does not count."""
    read = [strip for strip in strips if any(strip)]
    if not read:
        return None
    places = [
        (number, place, value)
        for number, strip in enumerate(read)
        for place, value in enumerate(strip)
        if value
    ]
    return ramp_from(
        catalog,
        [usual_overhang(value, angle) for _, _, value in places],
        [number for number, _, _ in places],
        [FACE_OF_PLACE[place] for _, place, _ in places],
        both_ends=len({place % 2 for _, place, _ in places}) > 1,
    )


def _mass_typed(catalog: Catalog, typed: Typed) -> tuple[Ends | None, float]:
    if not typed.weighings:
        return None, 0.0
    found = weighed(
        [one.mass for one in typed.weighings],
        [one.pieces for one in typed.weighings],
        [one.length for one in typed.weighings],
        [one.width for one in typed.weighings],
        [one.scale for one in typed.weighings],
        catalog.span("piece-cut", "m")[1],
    )
    scale = max(one.scale for one in typed.weighings)
    return Ends(found[0], found[1], found[2], "measured", "weighed"), scale
