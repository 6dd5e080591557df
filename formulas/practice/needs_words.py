"""The instruments and strips that exercises on a needs list are told of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.cutting.band import filled_column
from formulas.cutting.blanks import GRAIN
from formulas.frozen import Frozen
from formulas.practice.bench import ends_of, step
from formulas.units import printed

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw

MANY = 1000  # strips, more than any piece has room for


class Ranks(Frozen):
    """The ranks of an instrument: treble ranks and keys, bass ranks and notes, tongues a plate."""

    treble: float
    keys: float
    bass: float
    notes: float
    tongues: float

    @property
    def plates(self) -> float:
        """All plates."""
        return self.treble * self.keys + self.bass * self.notes

    @property
    def said(self) -> str:
        """The instrument in a sentence."""
        return (
            f"An instrument has {self.treble:g} treble ranks of {self.keys:g} plates and"
            f" {self.bass:g} bass ranks of {self.notes:g}."
        )

    @property
    def counted(self) -> str:
        """The line that counts the plates."""
        return step(
            "Plates", f"{self.treble:g} × {self.keys:g} + {self.bass:g} × {self.notes:g}",
            self.plates,
        )  # fmt: skip

    @property
    def given(self) -> list[float]:
        """The counts, for somebody else to reckon with."""
        return [self.treble, self.keys, self.bass, self.notes]


def ranks_drawn(catalog: Catalog, draw: Draw) -> Ranks:
    """Draw an instrument."""
    return Ranks(
        draw.ranged("needs-list-treble-ranks"),
        draw.ranged("needs-list-keys"),
        draw.ranged("needs-list-bass-ranks"),
        ends_of(catalog, "bass-notes", "1")[0],
        ends_of(catalog, "tongues-per-plate", "1")[0],
    )


def gap_of(catalog: Catalog) -> float:
    """Give what is left between two strips, in mm."""
    return 1000 * (catalog.figure("cut-gap").typical or 0.0) / 1000


def side_by_side(room_mm: float, size_mm: float, gap_mm: float) -> int:
    """Count the strips of one size that a length has room for, a gap between each two."""
    grains = [float(printed(mm / 1000 / GRAIN, 0)) for mm in (room_mm + gap_mm, size_mm + gap_mm)]
    return len(filled_column(1.0, grains[0], 0.0, [1.0], [grains[1]], [MANY]))
