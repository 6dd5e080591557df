"""The solvents that exercises on room air are told of, and what heat in the room means."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.air.asked import air_solvents, liquid_parts
from formulas.air.conversion import GAS_CONSTANT, ICE_POINT
from formulas.air.found import explosive_share
from formulas.air.heats import HEATS
from formulas.air.reckoned import LimitRow, limit_rows
from formulas.frozen import Frozen
from formulas.practice.exercise import Silly
from formulas.units import printed

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw

TAKE_AWAY = "take the heat away, let it go cold outside, and clear the room"
LOOK_FIRST = "look for everything that is hot or can spark"
FIRST = (TAKE_AWAY, LOOK_FIRST)
ORDINALS = ("the first", "the second", "the third")
PASSED = ("it is passed", "it is not passed by this reckoning")
NOT_HOT = ("a steel rule", "a wooden clamp", "a tin of pins", "a stack of card", "a bag of felt")
PPM = 1e6
PERCENT_TO_PPM = 10000


class Vapour(Frozen):
    """A solvent: density in g a mL, molar mass in g/mol, lower explosive limit in %, its limits."""

    name: str
    density: float
    molar: float
    explosive: float
    limits: tuple[LimitRow, ...]

    def limit(self, draw: Draw, kind: str) -> LimitRow:
        """Draw a limit of a kind. Raises Silly where there is none."""
        found = [one for one in self.limits if one.kind == kind]
        if not found:
            raise Silly
        return draw.one_of(found)

    def explosive_percent(self, ppm: float) -> float:
        """Give what share of the lower explosive limit a level is, in percent."""
        share = ppm / PPM
        row = [0.0] * 6 + [self.explosive / 100] * 2
        return 100 * explosive_share([[share, share]], [row])[0]

    @property
    def explosive_said(self) -> str:
        """The lower explosive limit in a sentence."""
        return (
            f"Its lower explosive limit is {self.explosive:g} % of the air; 1 % is"
            f" {PERCENT_TO_PPM} ppm."
        )


class Air(Frozen):
    """The air of a room: degC, Pa, and the litres that one mole of vapour fills."""

    celsius: float
    pascals: float

    @property
    def litres(self) -> float:
        """What one mole fills, as it is told."""
        kelvin = self.celsius + ICE_POINT
        return float(printed(1000 * GAS_CONSTANT * kelvin / self.pascals, 2))

    @property
    def said(self) -> str:
        """The same in a sentence."""
        return (
            f"At {self.celsius:g} °C one mole of vapour fills {self.litres:g} L, so ppm are mg/m³"
            f" × {self.litres:g}, divided by the grams of one mole."
        )


def vapour_drawn(catalog: Catalog, draw: Draw) -> Vapour:
    """Draw a solvent of which one figure each is known."""
    key = "practice: vapours"
    if key not in catalog.memo:
        found = (_vapour(catalog, one.id) for one in air_solvents(catalog))
        catalog.memo[key] = [one for one in found if one]
    known: list[Vapour] = catalog.memo[key]
    return draw.one_of(known)


def _vapour(catalog: Catalog, name: str) -> Vapour | None:
    parts = liquid_parts(catalog, name)
    _, _, light, heavy, least, most, explosive, _ = parts[0].numbers
    if len(parts) > 1 or light != heavy or least != most or not explosive:
        return None
    limits = tuple(one for one in limit_rows(catalog, name) if one.value and one.unit == "ppm")
    return Vapour(
        catalog.solvents[name].name[0].lower() + catalog.solvents[name].name[1:],
        float(printed(light / 1000, 4)),
        float(printed(1000 * least, 3)),
        float(printed(100 * explosive, 3)),
        limits,
    )


def air_drawn(catalog: Catalog, draw: Draw) -> Air:
    """Draw the air of a room at the usual pressure."""
    return Air(draw.ranged("room-air-heat"), catalog.figure("air-pressure").typical or 0.0)


def heat_drawn(draw: Draw) -> tuple[str, str, str]:
    """Draw whether a source of heat or sparks is named: its id, the sentence, what comes first."""
    if draw.whole(0, 1):
        return "", "Nobody has said what else is in the room.", LOOK_FIRST
    name = draw.one_of(list(HEATS))
    return name, f"In the same room there is {HEATS[name][0]}.", TAKE_AWAY
