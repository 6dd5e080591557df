"""How the state of a step, its tolerance and its marks are worded."""

from __future__ import annotations

from typing import Any

from formulas.first_year_entries import Step
from formulas.units import spoken_unit
from site_builder.markup.elements import number, span

NOUGHT = "none"


def stands(one: dict[str, Any]) -> str:
    """Say how far a step is."""
    state, until = one["state"], one["until"]
    if state == "alone":
        return f"alone {one['alone']} of {one['times']}"
    if state == "due again":
        return f"due again: {'; '.join(one['due'])}"
    if state == "done" and until:
        return f"done; without the task it holds until {until}"
    return str(state)


def came_to(mark: dict[str, Any]) -> str:
    """Say what was measured, and why a mark does not count."""
    value = "" if mark["value"] is None else _value(mark["value"], mark["unit"])
    why = f"does not count: {mark['why_not']}" if mark["why_not"] else ""
    limits = passes(mark["low"], mark["high"], mark["unit"])
    asked = "passes at 0" if limits == NOUGHT else f"passes: {limits}"
    asked = asked if value and limits else ""
    return "; ".join(filter(None, (value, asked, why)))


def _value(value: float, unit: str) -> str:
    return f"{number(value)} {spoken_unit(unit)}".rstrip()


def passes(low: float | None, high: float | None, unit: str) -> str:
    """Say what passes: `up to 0.1 mm`, `1 mm or more`, `none` where nought is the most.

    >>> passes(None, 0.1, "mm"), passes(1, None, "mm"), passes(None, 0, "")
    ('up to 0.1 mm', '1 mm or more', 'none')
    """
    if low is None and high == 0:
        return NOUGHT
    if high is None and low is not None:
        return f"{_value(low, unit)} or more"
    return span(low, high, unit)


def tolerance(step: Step) -> str:
    """Say what is measured of a step and what passes; "" where it is done or not done."""
    if not step.measured:
        return ""
    return f"{step.measured}: {passes(step.low, step.high, step.unit)}"
