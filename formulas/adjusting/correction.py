"""One correction as lists of numbers, in the unit of the shop's scale, and what solves it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from formulas import units
from formulas.adjusting.alligation import masses_with, on_the_scale, shares_with, weighed_additions
from formulas.adjusting.portions import OldWax, Portion
from formulas.adjusting.within_reach import solved
from formulas.catalog import Catalog
from formulas.fault import OutOfRange
from formulas.frozen import Frozen
from formulas.wax.batch import decimals_of, part_shares
from formulas.wax.mix import TOTALS_G

LIMITS = "more than 0 g, at most 1000 kg"


class Asked(Frozen):
    """What is in the pot, what may be added, and what it is to come to; masses in grams."""

    parts: Mapping[str, float]
    pot: Sequence[Portion]
    add: Sequence[Portion]
    old: OldWax | None
    total_g: float | None

    @property
    def pot_g(self) -> float:
        """The mass of the pot."""
        return sum(one.grams or 0 for one in self.pot) + (self.old.grams if self.old else 0)

    def check(self) -> None:
        """Raise OutOfRange for a mass that no shop weighs, or a mixture without any measure."""
        masses = {f"mass of {one.name} in the pot": one.grams or 0 for one in self.pot}
        masses |= {f"stock of {one.name}": one.grams for one in self.add if one.grams is not None}
        masses |= {"mass of old wax": self.old.grams} if self.old else {}
        masses |= {"total": self.total_g} if self.total_g is not None else {}
        masses |= {"mass of the pot": self.pot_g} if self.pot_g else {}
        for what, grams in masses.items():
            if not TOTALS_G[0] < grams <= TOTALS_G[1]:
                raise OutOfRange(what, grams, LIMITS, "what a shop can weigh")
        unlimited = any(one.grams is None for one in self.add)
        if not self.pot_g and self.total_g is None and unlimited:
            raise OutOfRange(
                "masses in the pot", 0, "a pot, a total, or the stock of every lot", "how much"
            )


class Question(Frozen):
    """A correction as lists, in the unit of the scale; see `alligation` for what each holds."""

    materials: list[str]
    names: list[str]
    labels: list[str]
    parts: list[float]
    pot: list[float]
    blends: list[list[float]]
    stocks: list[float]
    total: float
    most: float
    near: float
    step: float
    unit: str

    @property
    def shares(self) -> list[float]:
        """The wanted shares."""
        return part_shares(self.parts)

    @property
    def decimals(self) -> int:
        """The decimals that the scale shows."""
        return decimals_of(self.step)


class Found(Frozen):
    """What solves a question: the additions as computed, in steps of the scale, and as weighed.

    Out of reach they are the nearest, and `part` says how much of the pot comes right.
    """

    reachable: bool
    masses: list[float]
    counts: list[int]
    added: list[float]
    part: list[float]


def question(catalog: Catalog, asked: Asked, height: float = 0.5) -> Question:
    """Write a correction as lists; old wax has its make-up at that height of its band."""
    unit = catalog.shop.scale_unit
    pot = [(one.shares, one.grams or 0.0) for one in asked.pot]
    if asked.old:
        pot.append((asked.old.shares(height), asked.old.grams))
    inside = (*(shares for shares, _ in pot), *(one.shares for one in asked.add))
    materials = list(dict.fromkeys([*asked.parts, *(name for shares in inside for name in shares)]))
    return Question(
        materials=materials,
        names=[catalog.material(name).name for name in materials],
        labels=[one.name for one in asked.add],
        parts=[asked.parts.get(name, 0.0) for name in materials],
        pot=masses_with(
            [0.0] * len(materials),
            [[shares.get(name, 0.0) for name in materials] for shares, _ in pot],
            [in_unit(grams, unit) for _, grams in pot],
        ),
        blends=[[one.shares.get(name, 0.0) for name in materials] for one in asked.add],
        stocks=[in_unit(one.grams or 0.0, unit) for one in asked.add],
        total=in_unit(asked.total_g or 0.0, unit),
        most=in_unit(TOTALS_G[1], unit),
        near=catalog.figure("correct-up-to").high,
        step=catalog.shop.scale_step,
        unit=unit,
    )


def in_unit(grams: float, unit: str) -> float:
    """Give a mass in the unit of the scale."""
    return units.convert(grams, "g", unit)


def solution(asked: Question) -> Found:
    """Solve a question; out of reach, the additions are the nearest."""
    added, nearest, part = solved(
        asked.pot, asked.blends, asked.stocks, asked.shares, asked.total, asked.most, asked.near
    )
    masses = added or nearest
    counts = weighed_additions(masses, asked.stocks, asked.step)
    return Found(bool(added), masses, counts, on_the_scale(counts, asked.step), part)


def reached(asked: Question, added: Sequence[float]) -> list[float]:
    """Give the shares with what was really weighed; nothing where nothing is there at all."""
    if sum(asked.pot) + sum(added) <= 0:
        return []
    return shares_with(asked.pot, asked.blends, added)
