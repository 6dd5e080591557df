"""Limits of a shop's own: what its good instruments measured, in the form of valve_limits rows.

The worst reading of an instrument that plays well is what a shop may allow elsewhere.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from formulas.units import convert
from formulas.valve_entries import ValveLimit

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valve_entries import ValveTest

BENCH = "bench"
FEW = 3
"""Readings below which one valve decides too much; it is said, and nothing is left out."""


def instruments_of_limits(catalog: Catalog) -> list[str]:
    """Give the instruments that a shop takes limits from, in the order of its tests."""
    return list(dict.fromkeys(one.instrument for one in catalog.valve_tests if _good(one)))


def limits_of_instrument(catalog: Catalog, instrument: str) -> list[ValveLimit]:
    """Give the limits that the good examples of an instrument set, each as a row of the table.

    A gap is its largest value and, where every reading has a length, its largest share of the
    free length, whichever is more: a share alone would reject short valves that no reading
    speaks of. The share is rounded up to a thousandth, so that the example keeps its own limit.
    Readings without a number, slaps by grade, leaks and sticking set none.
    """
    sets: dict[str, list[ValveTest]] = {}
    for one in catalog.valve_tests:
        if one.instrument == instrument and _good(one) and _limit(one):
            sets.setdefault(_limit(one), []).append(one)
    order = [name for name in catalog.valve_limits if name in sets]
    return [_row(catalog.limit(name), instrument, sets[name]) for name in order]


def _good(test: ValveTest) -> bool:
    return test.good_example == "yes" and test.passed != "no" and test.value is not None


def _limit(test: ValveTest) -> str:
    """Name the limit that a test speaks to, "" for none.

    A droop is a gap that weight alone makes: read on the bench, it is that limit's.
    """
    if test.what in ("gap", "droop"):
        return "gap-bench" if test.posture == BENCH else "gap-playing"
    return {"late": "delay", "pitch-soft": "pitch-soft"}.get(test.what, "")


def _row(limit: ValveLimit, instrument: str, tests: Sequence[ValveTest]) -> ValveLimit:
    by_length = limit.share_of == "valve-length" and all(one.length for one in tests)
    basis = "measured" if all(one.basis == "measured" for one in tests) else "invented"
    dates = sorted({one.date for one in tests})
    return dataclasses.replace(
        limit,
        value=max(_value(one, limit.unit) for one in tests),
        share=_thousandth(max(_share(one) for one in tests)) if by_length else None,
        share_of=limit.share_of if by_length else "",
        instrument=instrument,
        basis=basis,
        source="",
        where=dates[0] if len(dates) == 1 else f"{dates[0]} to {dates[-1]}",
        note=_note(tests),
    )


def _value(test: ValveTest, unit: str) -> float:
    return convert(abs(test.value or 0.0), test.value_unit, unit)


def _share(test: ValveTest) -> float:
    return _value(test, "m") / convert(test.length or 0.0, test.unit, "m")


def _thousandth(share: float) -> float:
    return math.ceil(1000 * share) / 1000


def _note(tests: Sequence[ValveTest]) -> str:
    count = len({(one.plate, one.face) for one in tests})
    said = f"The worst of {count} good valves." if count > 1 else "From one good valve."
    return said if count >= FEW else f"{said} Read more before you lean on it."
