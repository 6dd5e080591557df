"""One softening test as evidence on a model's coefficients, and what its errors share.

A test bears on the coefficients through a row of terms. Its errors come in layers: the rig
(thermometer and bath) is off in every session, a session is off in all of its readings, a lot
of raw material is off wherever it stands, and each reading is off for itself.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from formulas.frozen import Frozen

INFINITE = math.inf


class Spreads(Frozen):
    """Standard deviations in degC of each layer of error."""

    reading: float
    rig: float
    rig_checked: float
    session: float
    lot: float

    @property
    def new_session(self) -> float:
        """Variance of a lone reading in a new session, the rig and the lots left out."""
        return self.reading**2 + self.session**2

    def of_rig(self, *, checked: bool) -> float:
        """Give the spread of a rig whose thermometer was checked, or was not."""
        return self.rig_checked if checked else self.rig


@dataclass(frozen=True)
class Evidence:
    """One test: its row of terms and what was seen, in degC.

    A reading has `low` equal to `high`. Bounds say that the value lies between them; either
    may be infinite. `lots` gives each lot's share of the sample. In a comparison, where the
    terms are those of one sample less those of another, rig and session fall out. `bridged`
    marks a reading by another method, moved here by an offset that is itself not known well.
    """

    test: str
    date: str
    session: str
    rig: str
    checked: bool
    terms: Sequence[float]
    low: float
    high: float
    lots: Mapping[str, float] = field(default_factory=dict)
    comparison: bool = False
    bridged: bool = False

    @property
    def is_reading(self) -> bool:
        """Whether one value was read, not two bounds."""
        return self.low == self.high

    @property
    def order(self) -> tuple[str, str, str]:
        """Where a test stands in time: by date, then session, then its own name."""
        return self.date, self.session, self.test

    @property
    def rig_key(self) -> str:
        """The rig as a layer of error: once checked it counts as another one."""
        return f"{self.rig} {'checked' if self.checked else 'unchecked'}"


def duplicates(evidence: Sequence[Evidence]) -> list[tuple[float, float]]:
    """Give pairs of readings of one sample in one session; each reading counts once.

    The sample is the same where its terms and its lots are.
    """
    groups: dict[tuple[object, ...], list[float]] = {}
    for one in evidence:
        if one.is_reading and not one.bridged:
            key = (one.session, tuple(one.terms), tuple(sorted(one.lots.items())))
            groups.setdefault(key, []).append(one.low)
    return [
        (values[i], values[i + 1])
        for values in groups.values()
        for i in range(0, len(values) - 1, 2)
    ]


def pooled_spread(pairs: Sequence[tuple[float, float]]) -> float:
    """Give the standard deviation of one reading from duplicate pairs.

    The variance of a difference is twice that of a reading.
    """
    return math.sqrt(sum((a - b) ** 2 for a, b in pairs) / (2 * len(pairs)))
