"""The rules of a cut list: steps, spares, gap and margin, from the bench figures or as typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.answer import Basis
from formulas.cutting.blanks import steps_up
from formulas.fault import OutOfRange
from formulas.frozen import Frozen
from formulas.units import convert

if TYPE_CHECKING:
    from formulas.catalog import Catalog

FIGURES = (
    "cut-width-step",
    "cut-length-step",
    "cut-spares",
    "cut-spares-least",
    "cut-gap",
    "cut-edge-margin",
    "skin-used-share",
)
STEPS_M = (1e-4, 0.01)
"""What a step may be, in m."""
SPARES = (0.0, 2.0)
GAPS_M = (0.0, 0.01)
MARGINS_M = (0.0, 0.1)
GRAIN_M = 1e-5


class CutRules(Frozen):
    """Steps, gap and margin in m, spares as a share and at least so many a size."""

    width_step: float
    length_step: float
    spares: float
    least: float
    gap: float
    margin: float

    @property
    def gap_laid(self) -> int:
        """The gap as strips are laid, in hundredths of a millimetre."""
        return steps_up(self.gap, GRAIN_M)

    @property
    def margin_laid(self) -> int:
        """The margin as strips are laid, in hundredths of a millimetre."""
        return steps_up(self.margin, GRAIN_M)


def cut_rules(
    catalog: Catalog,
    *,
    width_step: float | None = None,
    length_step: float | None = None,
    spares: float | None = None,
    gap: float | None = None,
    margin: float | None = None,
) -> CutRules:
    """Give the rules; what is None comes from the bench figures.

    Raises OutOfRange for what nobody cuts by.
    """

    def typical(name: str, unit: str) -> float:
        figure = catalog.figure(name)
        middle = figure.low if figure.typical is None else figure.typical
        return convert(middle, figure.unit, unit)

    def taken(value: float | None, name: str, unit: str, ends: tuple[float, float]) -> float:
        found = typical(name, unit) if value is None else value
        if not ends[0] <= found <= ends[1]:
            what = catalog.figure(name).what
            raise OutOfRange(what, found, f"{ends[0]:g} to {ends[1]:g} {unit}", "cut list")
        return found

    return CutRules(
        width_step=taken(width_step, "cut-width-step", "m", STEPS_M),
        length_step=taken(length_step, "cut-length-step", "m", STEPS_M),
        spares=taken(spares, "cut-spares", "dimensionless", SPARES),
        least=typical("cut-spares-least", "dimensionless"),
        gap=taken(gap, "cut-gap", "m", GAPS_M),
        margin=taken(margin, "cut-edge-margin", "m", MARGINS_M),
    )


def rule_bases(catalog: Catalog) -> list[Basis]:
    """Give the basis of every figure that a cut list rests on."""
    figures = (catalog.figure(name) for name in FIGURES)
    return [Basis(one.what, one.basis, one.source) for one in figures]
