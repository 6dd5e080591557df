"""Which face lies to the plate, and what a stock's own curl does to a valve that lies so.

A curl toward the face on the plate holds the tip down; away from it, it holds the tip off.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from formulas.formula import procedure
from formulas.units import convert
from formulas.valves.strip import curl_curvature

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valve_entries import CurlTest, ValveStock

OTHER = {"smooth": "soft", "soft": "smooth"}


def plate_face(catalog: Catalog, row: ValveStock) -> str:
    """Give the face of a stock that lies on the plate: its own row, else the shop's setting."""
    if row.soft_face:
        return "soft" if row.soft_face == "yes" else "smooth"
    return catalog.shop.face_to_plate


@procedure("Curvature away from the plate")
def outward(rise: float, chord: float, toward_plate: bool) -> float:
    """Give the curvature of a strip laid on its plate: outward counts, toward it is negative."""
    return -curl_curvature(rise, chord) if toward_plate else curl_curvature(rise, chord)


def curl_of(catalog: Catalog, row: ValveStock) -> float:
    """Give the curvature away from the plate, per metre; nought where no curl was measured.

    The mean of the tests in the air of a room, of all tests where none was made there.
    """
    tests = [one for one in catalog.curl_tests if one.stock == row.stock]
    low, high = catalog.span("room-humidity", "percent")
    usual = [one for one in tests if one.humidity is None or low <= one.humidity <= high]
    face = plate_face(catalog, row)
    found = [_outward(one, face) for one in usual or tests]
    return sum(found) / len(found) if found else 0.0


def _outward(test: CurlTest, face: str) -> float:
    rise, chord = (convert(value, test.unit, "m") for value in (test.rise, test.chord))
    return outward(rise, chord, test.toward == face)


def face_by_curl(tests: Sequence[CurlTest]) -> str:
    """Give the face that dry air curls a stock toward, "" where no two airs were tested.

    Laid with that face to the plate, a valve is held shut in dry air and not opened by it.
    """
    known = sorted((one for one in tests if one.humidity is not None), key=_humidity)
    if len(known) < 2 or _humidity(known[0]) == _humidity(known[-1]):
        return ""
    change = _outward(known[0], "smooth") - _outward(known[-1], "smooth")
    if change == 0:
        return ""
    return "soft" if change > 0 else "smooth"


def _humidity(test: CurlTest) -> float:
    return test.humidity or 0.0
