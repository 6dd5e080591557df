"""What a subject answers: one form for the terminal, the page, the leaf and the label."""

from __future__ import annotations

from dataclasses import field
from typing import Any

from formulas.frozen import Frozen


class Quantity(Frozen):
    """A value with its unit."""

    value: float
    unit: str

    def as_json(self) -> dict[str, Any]:
        """Give the value and its unit under their names."""
        return {"value": self.value, "unit": self.unit}


class Band(Frozen):
    """A range, its middle where there is an honest one, its unit and the test or rule behind it.

    `estimate` is None where only the ends are known: a middle is never invented.
    """

    low: float
    estimate: float | None
    high: float
    unit: str
    method: str

    def as_json(self) -> dict[str, Any]:
        """Give the band under the names of its parts."""
        return {
            "low": self.low,
            "estimate": self.estimate,
            "high": self.high,
            "unit": self.unit,
            "method": self.method,
        }


class Unknown(Frozen):
    """What no table holds, and how the shop can find it out."""

    what: str
    find_out: str

    def as_json(self) -> dict[str, Any]:
        """Give what is not known and how to find it out."""
        return {"known": False, "what": self.what, "find_out": self.find_out}


class Basis(Frozen):
    """One statement an answer rests on."""

    what: str
    basis: str
    source: str = ""

    def as_json(self) -> dict[str, Any]:
        """Give what rests on it, the kind of basis and the source id."""
        return {"what": self.what, "basis": self.basis, "source": self.source}


class Warned(Frozen):
    """One caution as an answer carries it."""

    id: str
    title: str
    text: str
    codes: tuple[str, ...]

    def as_json(self) -> dict[str, Any]:
        """Give the caution's words and statement codes."""
        return {"id": self.id, "title": self.title, "text": self.text, "codes": list(self.codes)}


class Answer(Frozen):
    """What was computed, from what, on what basis, and the cautions that go with it."""

    command: str
    answer: dict[str, Any]
    inputs: dict[str, Any]
    basis: list[Basis]
    cautions: list[Warned]
    notes: list[str] = field(default_factory=list)

    def as_json(self) -> dict[str, Any]:
        """Give the whole answer as plain dicts and lists, ready for a JSON writer."""
        return {
            "answer": plain(self.answer),
            "inputs": plain(self.inputs),
            "basis": plain(self.basis),
            "cautions": plain(self.cautions),
            "notes": list(self.notes),
        }


def plain(value: Any) -> Any:
    """Turn the parts of an answer into dicts, lists, strings and numbers."""
    if hasattr(value, "as_json"):
        return plain(value.as_json())
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    return value
