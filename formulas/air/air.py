"""The answer of `air`: what a task with a solvent puts into a room, against every limit known."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from formulas.air import air_notes
from formulas.air.air_words import AIR_ROWS
from formulas.air.asked import AirTask, checked
from formulas.air.found import NEAR
from formulas.air.heats import asked_for, refusal
from formulas.air.reckoned import LimitRow, Reckoned, reckoned
from formulas.answer import Answer, Band, Quantity, Unknown

if TYPE_CHECKING:
    from collections.abc import Sequence

    from formulas.catalog import Catalog

LEVELS = ("peak", "average_15min", "average_8h")
PPM, MASS = "ppm", "mg/m**3"
MEASURE = "measure length, width and height of the room, and give it as --room or in shop.toml"
CLEAR_FIRST = "clear the room, then begin"
IN_SHEET = "look for it in section 9 of the safety data sheet"


def air(catalog: Catalog, task: AirTask) -> Answer:
    """Answer what a task puts into the air of a room.

    A source of heat or sparks in the room is a refusal that stands first; the figures follow and
    lift nothing of it. Raises UnknownName, OutOfRange and NotKnown.
    """
    checked(catalog, task)
    found = reckoned(catalog, task)
    answer: dict[str, Any] = {
        "refused": [{"heat": heat, "reason": refusal(heat)} for heat in task.heats],
        "look_for": asked_for() if not task.heats else "",
        **(_levels(found) if found.known_room else _no_levels()),
        "saturation": _saturation(found),
        "against": [_against(one, found) for one in found.limits],
        "summary": found.summary,
        "said": dict(zip(AIR_ROWS, found.said, strict=True)),
    }
    return Answer(
        "air",
        answer,
        _inputs(catalog, task, found),
        found.basis,
        catalog.warned("air"),
        air_notes.notes(catalog, task, found),
    )


def _pair(pair: Sequence[float], each: float, unit: str, method: str = "well-mixed room") -> Band:
    return Band(pair[0] / each, None, pair[1] / each, unit, method)


def _places(mixed: Any, near: Any) -> dict[str, Any]:
    return {"mixed": mixed, "near_source": near}


def _levels(found: Reckoned) -> dict[str, Any]:
    """Give the levels, the explosive limit, the time to clear and the air it takes."""
    shares, masses, explosive, by_explosive, by_limits, clear = found.found[:6]
    answer: dict[str, Any] = {
        name: {
            "mixed": _pair(shares[place], 1e-6, PPM),
            "near_source": _pair(shares[place + NEAR], 1e-6, PPM, "near the source"),
            "mixed_mass": _pair(masses[place], 1e-6, MASS),
            "near_source_mass": _pair(masses[place + NEAR], 1e-6, MASS, "near the source"),
        }
        for place, name in enumerate(LEVELS)
    }
    known = explosive[1][1] > 0
    share, asked = (_places(*(_pair(one, 0.01, "percent") for one in explosive)),
                    _places(*(_changes(one) for one in by_explosive)))  # fmt: skip
    gone = Unknown("the lower explosive limit", IN_SHEET)
    return answer | {
        "share_of_lower_explosive_limit": share if known else gone,
        "time_to_clear": {
            "well_stirred": _pair(clear[0], 60, "min", "to the share cleared to"),
            "badly_stirred": _pair(clear[1], 60, "min", "to the share cleared to"),
        },
        "air_changes_needed": {
            "explosive": asked if known else gone,
            "limits": _places(*(_changes(one) for one in by_limits)),
        },
    }


def _changes(pair: Sequence[float]) -> Band | Unknown:
    if pair[1] < 0:
        return Unknown("air changes that keep it: the air stands at it from the start", CLEAR_FIRST)
    return _pair(pair, 1 / 3600, "1/h", "vapour of all tasks, no credit for filling")


def _no_levels() -> dict[str, Any]:
    names = (*LEVELS, "share_of_lower_explosive_limit", "time_to_clear", "air_changes_needed")
    return dict.fromkeys(names, Unknown("the volume of the room", MEASURE))


def _saturation(found: Reckoned) -> dict[str, Any]:
    share: Any = Unknown("the vapour pressure at this heat", IN_SHEET)
    ratio: Any = Unknown("the saturated vapour against the explosive limit", IN_SHEET)
    shares, ratios = found.found[6]
    if shares[0] <= shares[1]:
        share = _pair(shares, 0.01, "percent", "right over the liquid")
    if ratios[0] <= ratios[1]:
        ratio = _pair(ratios, 1, "dimensionless", "right over the liquid")
    can_light = ("no", "not known", "may", "yes")[found.verdict]
    return {"share": share, "of_lower_explosive_limit": ratio, "can_light": can_light}


def _against(one: LimitRow, found: Reckoned) -> dict[str, Any]:
    """Give one limit with its ratios; one that its body has not set, or without a room, as is."""
    row: dict[str, Any] = {
        "solvent": one.solvent,
        "body": one.body,
        "name": one.name,
        "kind": one.kind,
        "limit": Quantity(one.value, one.unit) if one.value is not None else None,
        "year": one.year,
        "basis": one.basis,
        "label": one.label,
        "ratio": None,
        "air_changes": None,
        "verdict": "not known" if one.terms else "none set",
    }
    if one.found and found.known_room:
        ratios = [_pair(pair, 1, "dimensionless") for pair in one.found[:2]]
        row["ratio"] = _places(*ratios)
        row["air_changes"] = _places(*(_changes(pair) for pair in one.found[2:]))
        row["verdict"] = one.said[0]
        row["said"] = list(one.said)
    return row


def _inputs(catalog: Catalog, task: AirTask, found: Reckoned) -> dict[str, Any]:
    return {
        "solvent": task.solvent,
        "name": catalog.solvents[task.solvent].name,
        "amount": None if task.amount is None else Quantity(task.amount * 1e6, "mL"),
        "mass": None if task.mass is None else Quantity(task.mass * 1e3, "g"),
        "over": Quantity(task.seconds / 60, "min"),
        "times": task.times,
        "every": None if task.every is None else Quantity(task.every / 60, "min"),
        "face": None if task.face is None else Quantity(task.face * 1e4, "cm**2"),
        "temperature": Quantity(found.celsius, "degC"),
        "room": Quantity(found.room[0], "m**3") if found.known_room else None,
        "air_changes": _pair(found.room[1:3], 1 / 3600, "1/h", found.changes_by),
        "start": Quantity(task.start * 1e6, PPM),
        "heats": list(task.heats),
    }
