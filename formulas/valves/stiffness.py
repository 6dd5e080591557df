"""The answer of `stiffness`: how a stock bends and what it weighs, from readings or a table."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from formulas.answer import Answer, Band, Basis, Quantity, Unknown
from formulas.valves.curl import face_by_curl
from formulas.valves.next_reading import next_reading
from formulas.valves.ramp import (
    RAMP,
    rigidity_share,
    strips_wanted,
)
from formulas.valves.readings import Ramp, expected_spread
from formulas.valves.stiffness_words import FIGURES, next_said, verdicts_said
from formulas.valves.stock import (
    TABLE,
    Ends,
    kind_of,
    stock_or_unknown,
    table_modulus,
)
from formulas.valves.strip import bending_modulus, rigidity, rigidity_of
from formulas.valves.typed_readings import Found, Typed, check, found_of
from formulas.valves.weighing import mass_error

if TYPE_CHECKING:
    from formulas.catalog import Catalog


def stiffness(catalog: Catalog, stock: str = "", typed: Typed | None = None) -> Answer:
    """Answer for a stock of the tables, for typed readings, or for a stock with readings typed.

    What is typed replaces what the shop's tables hold of the same kind. Raises UnknownName for
    a stock that is not there, OutOfRange for a reading that no bench has.
    """
    given = typed or Typed()
    check(given)
    found = found_of(catalog, stock, given)
    counted = _counted(catalog, found)
    answer: dict[str, Any] = {"stock": stock, "name": _name(catalog, stock)}
    answer |= _ramp_said(found.along) | _across_said(found)
    answer |= _bands(catalog, stock, found)
    answer["verdicts"] = verdicts_said(catalog, found.along, counted)
    answer["next"] = next_said(catalog, _code(found, counted), counted)
    answer |= _curl_said(catalog, stock)
    inputs = {"stock": stock, "typed": not given.empty, "angle": given.angle}
    return Answer(
        "stiffness",
        answer,
        inputs,
        _basis(catalog, answer, found),
        catalog.warned("stiffness"),
        _notes(catalog, stock, found),
    )


def _name(catalog: Catalog, stock: str) -> str:
    return catalog.stock(stock).name if stock else "Readings typed"


def _counted(catalog: Catalog, found: Found) -> dict[str, float]:
    """Give the numbers that the words about a test need, in SI units."""
    counted = {name: catalog.span(figure, unit)[end] for name, figure, unit, end in FIGURES}
    weight = expected_spread(catalog)[1]
    ramp = found.along
    if ramp:
        told = dict(zip(RAMP, ramp.found, strict=True))
        counted |= {
            "overhang": told["mean"],
            "apart": abs(told["apart"]),
            "spread": told["seen"],
            "strips": told["strips"],
            "asked": strips_wanted(told["spread"], weight, counted["wanted"]),
            "both": told["both"],
        }
    if found.mass:
        counted |= {"scale": found.scale, "mass": found.mass.middle}
    return counted


def _code(found: Found, counted: Mapping[str, float]) -> int:
    mass, ramp = found.mass, found.along
    error = -1.0
    if mass and found.weighed:
        error = mass_error(mass.low, mass.middle, mass.high)
    return next_reading(
        ramp.verdicts if ramp else (),
        ramp.count if ramp else 0,
        int(counted.get("both", 0)),
        ramp.both_ends if ramp else False,
        int(counted.get("asked", 0)),
        error,
        counted["mass_wanted"],
        found.across is not None,
        found.thickness is not None,
    )


def _ramp_said(ramp: Ramp | None) -> dict[str, Any]:
    if ramp is None:
        return {"strips": 0, "readings": 0, "overhang": None, "spread": None, "next_strip": None}
    low, middle, high = ramp.next_strip
    return {
        "strips": ramp.count,
        "readings": len(ramp.overhangs),
        "overhang": Quantity(2 * ramp.bending_length, "m"),
        "spread": ramp.found[RAMP.index("seen")],
        "next_strip": Band(low, middle, high, "m", "one more strip, 95 of 100"),
    }


def _across_said(found: Found) -> dict[str, Any]:
    if found.across is None:
        return {"across": None}
    low, middle, high = found.across.stock_band
    share = None
    if found.along:
        share = rigidity_share(found.across.bending_length, found.along.bending_length)
    return {
        "across": {
            "bending_length": Band(low, middle, high, "m", "ramp, across the backbone"),
            "rigidity_share": share,
        }
    }


def _bands(catalog: Catalog, stock: str, found: Found) -> dict[str, Any]:
    """Give bending length, rigidity, mass and modulus; what is not known says how to find out."""
    bends: tuple[float, float | None, float] | None = None
    mass = found.mass
    how, bends_basis = "ramp", ""
    if found.along:
        bends, bends_basis = found.along.stock_band, found.along.basis
    elif stock:
        one = stock_or_unknown(catalog, stock)
        if not isinstance(one, Unknown):
            low, middle, high = one.bending_length
            tabled = one.how == TABLE
            bends, how, bends_basis = (
                (low, None if tabled else middle, high),
                one.how,
                one.bending_basis,
            )
    said: dict[str, Any] = {"how": how if bends else "", "bends_basis": bends_basis}
    said["mass_per_area"] = (
        Band(mass.low, mass.middle if found.weighed else None, mass.high, "kg/m**2", mass.how)
        if mass
        else Unknown("the mass per area", "weigh pieces of known size together.")
    )
    said["bending_length"] = (
        Band(*bends, "m", how)
        if bends
        else Unknown("the bending length", "push a strip over the ramp.")
    )
    by_table = _by_table(catalog, stock, found) if how == TABLE else None
    return said | (by_table or _worked(bends, mass, found))


def _by_table(catalog: Catalog, stock: str, found: Found) -> dict[str, Any] | None:
    """Give rigidity and modulus of a stock that only a table knows, by its modulus."""
    modulus, thick = table_modulus(catalog, catalog.stock(stock)), found.thickness
    if modulus is None or thick is None:
        return None
    low, high = rigidity_of(modulus[0], thick.low), rigidity_of(modulus[1], thick.high)
    return {
        "rigidity": Band(low, None, high, "N*m", TABLE),
        "modulus": Band(modulus[0], None, modulus[1], "Pa", "table"),
    }


def _worked(
    bends: tuple[float, float | None, float] | None, mass: Ends | None, found: Found
) -> dict[str, Any]:
    if bends is None or mass is None:
        gone = Unknown("the rigidity", "it takes the mass per area and the bending length.")
        return {"rigidity": gone, "modulus": gone}
    low, high = rigidity(mass.low, bends[0]), rigidity(mass.high, bends[2])
    middle = None if bends[1] is None else rigidity(mass.middle, bends[1])
    stiff = Band(low, middle, high, "N*m", "mass and bending length")
    thick = found.thickness
    if thick is None:
        gone = Unknown("the modulus", "it takes the thickness: read it and note the gauge.")
        return {"rigidity": stiff, "modulus": gone}
    return {
        "rigidity": stiff,
        "modulus": Band(
            bending_modulus(low, thick.high),
            None if middle is None else bending_modulus(middle, thick.middle),
            bending_modulus(high, thick.low),
            "Pa",
            "rigidity and thickness",
        ),
    }


def _curl_said(catalog: Catalog, stock: str) -> dict[str, Any]:
    """Say which face goes to the plate by the shop's setting and by the curl in two airs."""
    if not stock:
        return {"face_to_plate": catalog.shop.face_to_plate, "face_by_curl": ""}
    one = stock_or_unknown(catalog, stock)
    face = catalog.shop.face_to_plate if isinstance(one, Unknown) else one.face
    curls = [test for test in catalog.curl_tests if test.stock == stock]
    return {"face_to_plate": face, "face_by_curl": face_by_curl(curls)}


def _basis(catalog: Catalog, answer: Mapping[str, Any], found: Found) -> list[Basis]:
    rests = []
    if answer["how"]:
        rests.append(Basis(f"bending length: {answer['how']}", answer["bends_basis"]))
    if found.mass:
        rests.append(Basis(f"mass per area: {found.mass.how}", found.mass.basis))
    if found.thickness:
        rests.append(Basis("thickness", found.thickness.basis))
    figures = ["ramp-angle", "strip-spread"] if found.along else []
    figures += [figure for _, figure, _, _ in FIGURES] if found.along else []
    figures += ["piece-cut"] if found.weighed else []
    return rests + [
        Basis(one.what, one.basis, one.source) for one in (catalog.figure(name) for name in figures)
    ]


CALLIPER = (
    "The thickness is a calliper's: it squeezes leather more than the standard's foot does, and the"
    " modulus comes out too high."
)
TABLE_ONLY = (
    "Only a table tells how this bends: leather of one thickness differs by a factor of twenty."
    " No valve is chosen from it before a strip was on the ramp."
)
NO_AIR = (
    "No air is noted with the readings: leather bends by its air. Note both, and test in one air."
)


def _notes(catalog: Catalog, stock: str, found: Found) -> list[str]:
    notes = []
    if found.thickness and found.thickness.how == "calliper":
        notes.append(CALLIPER)
    leather = not stock or kind_of(catalog, catalog.stock(stock)) != "film"
    if found.along is None:
        if leather:
            notes.append(TABLE_ONLY)
    elif leather and stock and found.along.humidity is None:
        notes.append(NO_AIR)
    elif leather and found.along.humidity is not None:
        low, high = catalog.span("conditioning-humidity", "percent")
        airs = found.along.humidity
        if airs[0] < low or airs[1] > high:
            notes.append(
                f"The strips were read at {airs[0]:g} to {airs[1]:g} % humidity; the standard's air"
                f" is {low:g} to {high:g} %. Compare stocks only within one air."
            )
    return notes
