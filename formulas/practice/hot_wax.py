"""The blends and the pots that exercises on hot volume are told of."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import TYPE_CHECKING

from formulas.melting.thermal import thermal
from formulas.practice.bench import ends_of, material, parts_said, percent, short, step
from formulas.units import printed
from formulas.wax.batch import component_mass, melt_millilitres, part_shares
from formulas.wax.mix import hot_volume

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
