"""The numbers of a quick needs list: its ranks, its wax, and all that its words ask for."""

from __future__ import annotations

from typing import Any

from formulas.answer import Band, Quantity
from formulas.frozen import Frozen
from formulas.jobs.quick_words import HANGS
from formulas.jobs.wax_needs import GEOMETRY, OWN, RULE, TO_HAVE


class QuickRank(Frozen):
    """A rank: its name, its lowest note and how many plates, a semitone apart."""

    name: str
    lowest: int
    plates: int

    @property
    def midis(self) -> list[float]:
        """Its notes."""
        return [float(self.lowest + place) for place in range(self.plates)]


class QuickWax(Frozen):
    """The wax of a quick list in kg: ends to melt by geometry, by the rule, by the shop's jobs.

    `ready` is what pots and shopping go by, from the lowest to the highest end. `shares` tell what
    the half width hangs on, in the order of `HANGS`.
    """

    melt: list[float]
    rule: list[float]
    own: list[float]
    ready: list[float]
    stays: float
    shares: list[float]

    def as_answer(self) -> dict[str, Any]:
        """Give it in grams, under names."""
        return {
            "by_plates": Band(1000 * self.melt[0], None, 1000 * self.melt[1], "g", GEOMETRY),
            "by_rule": Band(1000 * self.rule[0], None, 1000 * self.rule[1], "g", RULE),
            "by_own": Band(1000 * self.own[0], None, 1000 * self.own[1], "g", OWN)
            if self.own
            else None,
            "to_have": Band(1000 * self.ready[0], None, 1000 * self.ready[1], "g", TO_HAVE),
            "stays": Quantity(1000 * self.stays, "g"),
            "hangs_on": [
                {"what": name, "share": share}
                for name, share in zip(HANGS, self.shares, strict=True)
            ],
        }


class QuickNumbers(Frozen):
    """The numbers of a quick list as its words ask for them, in SI units."""

    classes: list[list[float]]
    valves: list[float]
    wax: QuickWax | None
    pots: list[float]
    solvent: list[float]
    glue: list[float]
    hours: list[list[float]]

    def as_json(self) -> None:
        """Give nothing: JSON has them under their names."""
