"""The blends and the pots that exercises on hot volume are told of."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import TYPE_CHECKING

from formulas.melting.thermal import thermal
from formulas.practice.bench import (
    ends_of,
    material,
    parts_said,
    percent,
    short,
    step,
    whole_down,
)
from formulas.units import printed
from formulas.wax.batch import component_mass, melt_millilitres, part_shares
from formulas.wax.mix import hot_volume
from formulas.wax.session import stick_count, stick_mass, stick_volume

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw

FITS = ("it fits", "it is too much for the pot")
LOSSES = ("straining-loss", "pot-loss")


@dataclasses.dataclass(frozen=True)
class Two:
    """A blend of two: their ids and names, parts by mass, density hot and cold in g a mL."""

    names: tuple[str, str]
    parts: tuple[float, float]
    hot: tuple[float, float]
    cold: tuple[float, float]

    @property
    def shares(self) -> list[float]:
        """The shares by mass."""
        return part_shares(self.parts)

    @property
    def said(self) -> str:
        """What it is made of."""
        (first, second), (one, other) = self.names, self.parts
        return f"{parts_said(one)} {first} to {other:g} of {second}, by mass"

    @property
    def hot_said(self) -> str:
        """What hot wax weighs."""
        (first, second), (one, other) = self.names, self.hot
        return (
            f"Hot, {first} weighs {one:g} g a mL and {second} counts as {other:g} g a mL, the"
            " lightest that the tables allow."
        )

    def masses(self, total: float) -> list[float]:
        """Give the masses of both, in the unit of the total."""
        return [component_mass(total, share) for share in self.shares]

    def shared(self, total: float) -> list[str]:
        """Say how a total is parted."""
        whole = sum(self.parts)
        return [
            step(name.capitalize(), f"{short(total)} × {part:g} / {whole:g}", mass, "g")
            for name, part, mass in zip(self.names, self.parts, self.masses(total), strict=True)
        ]

    def warmed(self, total: float) -> list[str]:
        """Say what room a total takes hot: that of each, and of both."""
        masses = self.masses(total)
        each = [self.millilitres([masses[0], 0]), self.millilitres([0, masses[1]])]
        return [
            *(
                step(f"Hot {name}", f"{short(mass)} / {rho:g}", volume, "mL")
                for name, mass, rho, volume in zip(self.names, masses, self.hot, each, strict=True)
            ),
            step("Together", f"{short(each[0])} + {short(each[1])}", sum(each), "mL"),
        ]

    def millilitres(self, masses: list[float]) -> float:
        """Give the hot volume of masses in g."""
        return melt_millilitres([m / 1000 for m in masses], [1000 * rho for rho in self.hot])


def blends_of_two(catalog: Catalog) -> list[Two]:
    """Give the blends of a wax and a resin, which a learner can reckon by hand."""
    key = "practice: blends of two"
    if key not in catalog.memo:
        kinds = [
            [catalog.material(name).kind for name in blend.parts]
            for blend in catalog.blends.values()
        ]
        catalog.memo[key] = [
            _two(catalog, blend.parts)
            for blend, of in zip(catalog.blends.values(), kinds, strict=True)
            if of == ["wax", "resin"]
        ]
    found: list[Two] = catalog.memo[key]
    return found


def _two(catalog: Catalog, parts: Mapping[str, float]) -> Two:
    first, second = parts
    hot = [1000 / hot_volume(catalog, {name: 1.0})[0].high for name in parts]
    cold = [thermal(catalog, name).density[0] / 1000 for name in parts]
    return Two(
        (material(catalog, first), material(catalog, second)),
        (parts[first], parts[second]),
        (float(printed(hot[0], 3)), float(printed(hot[1], 3))),
        (float(printed(cold[0], 3)), float(printed(cold[1], 3))),
    )


def drawn_blend(catalog: Catalog, draw: Draw) -> Two:
    """Draw a blend."""
    return draw.one_of(blends_of_two(catalog))


def filled_share(catalog: Catalog) -> float:
    """Give the largest share of a pot that may be filled."""
    return ends_of(catalog, "pot-headroom", "dimensionless")[1]


def filled_said(filled: float) -> str:
    """Say it."""
    return f"The book has a pot filled to {percent(filled):g} % of its brim at most."


def losses(catalog: Catalog) -> list[float]:
    """Give the high ends of what the cloth and what the pot keeps, as shares."""
    return [ends_of(catalog, name, "dimensionless")[1] for name in LOSSES]


@dataclasses.dataclass(frozen=True)
class Sticks:
    """Sticks of one mould: its sides in mm, its hollow in m³, grams of one, how many are whole."""

    sides: list[float]
    hollow: float
    each: float
    mass: float
    found: float

    @property
    def size(self) -> str:
        """The sides of the hollow as they are printed."""
        return " × ".join(f"{side:g}" for side in self.sides)

    @property
    def told(self) -> str:
        """What the task tells of the mould."""
        return (
            f"The hollow of the mould is {self.size} mm, and each stick is topped up until it is"
            " full."
        )

    def steps(self, mass: str, density: str) -> tuple[str, str, str]:
        """Work from the mould to the count, with mass and density as they were printed."""
        return (
            step("Hollow", f"{self.size} / 1000", 1e6 * self.hollow, "mL"),
            step("Stick", f"{short(1e6 * self.hollow)} × {density}", self.each, "g"),
            step("Sticks", f"{mass} / {short(self.each)}", self.mass / self.each),
        )


def cast_sticks(draw: Draw, mass: float, density: float) -> Sticks:
    """Draw a mould and cast so many grams of a density in g/mL. Raises Silly for no whole stick."""
    sides = [draw.ranged(f"hot-volume-stick-{of}") for of in ("long", "wide", "deep")]
    hollow = stick_volume(*(side / 1000 for side in sides))
    each = 1000 * stick_mass(hollow, 1000 * density)
    whole_down(mass / each)
    return Sticks(sides, hollow, each, mass, stick_count(mass / 1000, hollow, 1000 * density))
