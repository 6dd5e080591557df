"""Which rows count: only those of the best basis present, and together the range they span."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol, TypeVar

from formulas.units import convert

RANK = {"measured": 0, "invented": 0, "published": 1, "practice": 2, "derived": 3, "memory": 4}
"""The best basis first. Invented demo rows stand in for the measured ones of a real shop."""


class Ranged(Protocol):
    """A row that holds a range with its unit and basis."""

    @property
    def low(self) -> float | None: ...
    @property
    def high(self) -> float | None: ...
    @property
    def unit(self) -> str: ...
    @property
    def basis(self) -> str: ...


R = TypeVar("R", bound=Ranged)


def counted(rows: Sequence[R]) -> list[R]:
    """Give those of the best basis present."""
    best = min(RANK[row.basis] for row in rows)
    return [row for row in rows if RANK[row.basis] == best]


def spanned(rows: Sequence[Ranged]) -> tuple[float, float]:
    """Give the range that several rows span, in the unit of the first."""
    ends = [
        convert(end, row.unit, rows[0].unit)
        for row in rows
        for end in (row.low, row.high)
        if end is not None
    ]
    return min(ends), max(ends)
