"""The answer of `air` for rosin fume: nobody's rate is made up, a reading is held to the guides."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from formulas.air.air_words import often_said, passed_said, upward
from formulas.answer import Answer, Band, Basis, Quantity, Unknown
from formulas.fault import OutOfRange
from formulas.units import convert

if TYPE_CHECKING:
    from formulas.catalog import Catalog

ROSIN_FUME = "rosin-fume"
GUIDES = {"8h": "rosin-fume-limit-8h", "15min": "rosin-fume-limit-15min"}
FOUND = "rosin-fume-measured"
READINGS = (0.0, 1e-3)
"""kg/m**3: what a reading of fume in a room can be."""
MASS = "mg/m**3"
RATE = "how much fume a pot or an iron gives off"
NO_RATE = (
    "it goes with heat, face, age of the wax and draught. Have a competent person take a sample at"
    " the breathing height of who works, over a whole task, and give the reading as --measured"
)
AT_THE_TIP = (
    "Extraction works at the tip of the iron and at the rim of the pot, or not at all: a strip of"
    " tissue there must be drawn in. Opening a window is no extraction."
)
GUIDES_ONLY = (
    "The guides were written for solder flux. As rosin can make the lungs allergic for good, as"
    " little as can be done is the aim, and neither guide is a line below which nothing happens."
)
ONCE = "Once somebody is sensitised, no figure here holds for them: they stop, and see a doctor."
NOT_RECKONED = (
    "peak",
    "average_15min",
    "average_8h",
    "share_of_lower_explosive_limit",
    "time_to_clear",
    "air_changes_needed",
    "saturation",
)


def fume(catalog: Catalog, measured: float | None = None) -> Answer:
    """Answer what is published of rosin fume, and hold a reading in kg/m**3 to the guides.

    Raises OutOfRange for a reading that no room shows.
    """
    if measured is not None and not READINGS[0] < measured <= READINGS[1]:
        accepted = f"mg/m3 above 0 up to {READINGS[1] * 1e6:g}"
        raise OutOfRange("measured", measured * 1e6, accepted, "one room")
    guides = {kind: catalog.figure(name) for kind, name in GUIDES.items()}
    values = {kind: convert(one.low, one.unit, "kg/m**3") for kind, one in guides.items()}
    elsewhere = catalog.span(FOUND, "kg/m**3")
    answer: dict[str, Any] = dict.fromkeys(NOT_RECKONED, Unknown(RATE, NO_RATE))
    answer |= {
        "refused": [],
        "look_for": "",
        "against": [
            {
                "body": "UK",
                "kind": kind,
                "limit": Quantity(one.low, one.unit),
                "basis": one.basis,
                "label": one.what,
                "ratio": None if measured is None else _times(measured, values[kind]),
                "verdict": "not known"
                if measured is None
                else passed_said(*[[measured / values[kind]] * 2] * 2),
            }
            for kind, one in guides.items()
        ],
        "found_elsewhere": Band(elsewhere[0] * 1e6, None, elsewhere[1] * 1e6, MASS, "published"),
        "extraction": {
            kind: Band(_least(elsewhere[0], value), None, elsewhere[1] / value, "dimensionless",
                       "that the level is divided by")
            for kind, value in values.items()
        },
        "summary": _summary(measured, values),
        "said": _said(measured, values, elsewhere),
    }  # fmt: skip
    figures = [*guides.values(), catalog.figure(FOUND)]
    return Answer(
        "air",
        answer,
        {
            "solvent": ROSIN_FUME,
            "name": "Rosin fume",
            "measured": None if measured is None else Quantity(measured * 1e6, MASS),
            "heats": [],
        },
        [Basis(one.what, one.basis, one.source) for one in figures],
        catalog.warned("air"),
        [AT_THE_TIP, GUIDES_ONLY, ONCE],
    )


def _times(measured: float, value: float) -> Band:
    return Band(measured / value, None, measured / value, "dimensionless", "the reading")


def _least(level: float, value: float) -> float:
    """Give what a level is to be divided by at least: by 1 where it is not above the guide."""
    return max(1.0, level / value)


def _summary(measured: float | None, values: dict[str, float]) -> str:
    if measured is None:
        return f"Rosin fume: not known. {RATE.capitalize()} stands in no table, and none is made up"
    worst = max(measured / value for value in values.values())
    said = "a guide is reached or passed" if worst >= 1 else "no guide is passed by this reading"
    return f"Rosin fume: {upward(measured * 1e6)} mg/m³ read; {said}"


def _said(
    measured: float | None, values: dict[str, float], elsewhere: tuple[float, float]
) -> dict[str, str]:
    words = {"8h": "Guide, mean of 8 hours", "15min": "Guide, mean of 15 minutes"}
    rows = {}
    for kind, value in values.items():
        guide = f"{value * 1e6:g} mg/m³"
        if measured is None:
            rows[words[kind]] = guide
        else:
            ratio = measured / value
            rows[words[kind]] = f"{guide}; the reading is {often_said([ratio, ratio])} that"
    low, high = (f"{one * 1e6:g}" for one in elsewhere)
    rows["Found where people solder"] = f"{low} to {high} mg/m³ of resin acids"
    factors = " and ".join(
        f"by up to {upward(elsewhere[1] / value)} for {'8 hours' if kind == '8h' else '15 minutes'}"
        for kind, value in values.items()
    )
    rows["Extraction must divide that"] = factors
    if measured is not None:
        least = upward(max(1.0, measured / values["8h"]))
        rows["Extraction must divide yours"] = f"by {least} at least, held over 8 hours"
    return rows
