"""What one cell of a table may hold by its schema, and what its text is read as."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping
from typing import Any

from formulas.fault import UnitFault, hint
from formulas.units import number

Schema = Mapping[str, Any]


class NotAccepted(Exception):
    """A text that a cell may not hold: what is accepted, and a hint."""


def read_cell(text: str, field: Schema) -> Any:
    """Give a cell's value, None where it is blank. Raises NotAccepted for what it may not hold."""
    rules = field.get("constraints", {})
    if text == "":
        if rules.get("required"):
            raise NotAccepted(_accepted(field))
        return None
    value = READERS[field["type"]](text, field)
    _check_value(text, value, rules, field)
    return value


def _check_value(text: str, value: Any, rules: Schema, field: Schema) -> None:
    if "enum" in rules and value not in rules["enum"]:
        raise NotAccepted(_accepted(field), hint(text, map(str, rules["enum"])))
    within = (
        rules.get("minimum", value) <= value <= rules.get("maximum", value)
        and value > rules.get("exclusiveMinimum", float("-inf"))
        if isinstance(value, int | float)
        else True
    )
    if not within or ("pattern" in rules and not re.fullmatch(rules["pattern"], text)):
        raise NotAccepted(_accepted(field))


KINDS = {"date": "a date such as 2026-03-31", "boolean": "yes or no"}


def _accepted(field: Schema) -> str:
    """Say what a cell may hold, from its schema."""
    rules = field.get("constraints", {})
    if "enum" in rules:
        return "one of " + ", ".join(map(str, rules["enum"]))
    if field["type"] in {"number", "integer"}:
        kind = "a whole number" if field["type"] == "integer" else "a number"
        low, high = rules.get("minimum"), rules.get("maximum")
        if low is not None and high is not None:
            return f"{kind} from {low} to {high}"
        if low is not None:
            return f"{kind}, {low} or more"
        return f"{kind}, {high} or less" if high is not None else kind
    return KINDS.get(field["type"]) or str(field.get("description", "a text"))


def _number(text: str, field: Schema) -> float:
    try:
        return number(text)
    except UnitFault as error:
        raise NotAccepted(_accepted(field)) from error


def _integer(text: str, field: Schema) -> int:
    if not re.fullmatch(r"[+-]?\d{1,15}", text):
        raise NotAccepted(_accepted(field))
    return int(text)


def _date(text: str, field: Schema) -> datetime.date:
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
        raise NotAccepted(_accepted(field))
    try:
        return datetime.date.fromisoformat(text)
    except ValueError as error:
        raise NotAccepted(_accepted(field)) from error


def _boolean(text: str, field: Schema) -> bool:
    if text.lower() not in {"yes", "no", "true", "false"}:
        raise NotAccepted(_accepted(field))
    return text.lower() in {"yes", "true"}


READERS: dict[str, Callable[[str, Schema], Any]] = {
    "string": lambda text, _field: text,
    "number": _number,
    "integer": _integer,
    "date": _date,
    "boolean": _boolean,
}
