"""How far plates lie from the generic line, and how much of that two plates of a rank share.

The logarithm of a slot's size lies about the line, apart from it by what the maker's scale, the
plate and the slot do: three normals and a slope, all from memory.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from formulas.formula import procedure
from formulas.valves.notes import frequency
from formulas.valves.reed_sizes import MEASURES, figure_in, generic_size, line_of, spread_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog

Z_95 = 1.96  # of the normal distribution, 95 % in the middle
SPREADS = ("scale", "slope", "plate", "slot", "reach", "reading", "odd")
"""Standard deviations of the logarithm by the maker's scale, the slope, a plate and a slot; the
reach in semitones; the standard deviation of a reading in m; how many make a plate odd."""


@procedure("What the scale gives two plates in common")
def shared_deviation(
    one_midi: float,
    other_midi: float,
    pitch_of_a: float,
    reference: float,
    reed_spreads: Sequence[float],
) -> float:
    """Give the covariance of what two notes deviate from the generic line.

    The scale is taken to bend slowly (a Matern of three halves): a kink or a step of a few
    percent stays within what it allows.
    """
    x = math.log(frequency(one_midi, pitch_of_a) / reference)
    y = math.log(frequency(other_midi, pitch_of_a) / reference)
    apart = abs(one_midi - other_midi) / reed_spreads[4]
    scale = reed_spreads[0] ** 2 * (1 + apart) * math.exp(-apart)
    return scale + reed_spreads[1] ** 2 * x * y


@procedure("Spread of the plates read")
def plates_covariance(
    plate_midis: Sequence[float],
    slot_sizes: Sequence[float],
    plate_variances: Sequence[float],
    pitch_of_a: float,
    reed_line: Sequence[float],
    reed_spreads: Sequence[float],
) -> list[list[float]]:
    """Give the covariance of the logarithms of sizes read, a row for each plate."""
    rows = []
    for i in range(len(plate_midis)):
        row = [
            shared_deviation(plate_midis[i], other, pitch_of_a, reed_line[2], reed_spreads)
            + (min(plate_variances[i], variance) if plate_midis[i] == other else 0.0)
            for other, variance in zip(plate_midis, plate_variances, strict=True)
        ]
        row[i] += reed_spreads[3] ** 2 + (reed_spreads[5] / slot_sizes[i]) ** 2
        rows.append(row)
    return rows


@procedure("Deviations of plates from the generic line")
def plate_deviations(
    plate_midis: Sequence[float],
    slot_sizes: Sequence[float],
    pitch_of_a: float,
    reed_line: Sequence[float],
) -> list[float]:
    """Give the logarithm of each size read over the generic one of its note."""
    return [
        math.log(size / generic_size(frequency(midi, pitch_of_a), reed_line))
        for midi, size in zip(plate_midis, slot_sizes, strict=True)
    ]


def lines_and_spreads(catalog: Catalog) -> dict[str, tuple[list[float], list[float]]]:
    """Give line and spreads of the "length" and of the "width", once for each catalog."""
    if "reed sizes" not in catalog.memo:
        catalog.memo["reed sizes"] = {
            measure: (line_of(catalog, measure), spreads_of(catalog, measure))
            for measure in MEASURES
        }
    found: dict[str, tuple[list[float], list[float]]] = catalog.memo["reed sizes"]
    return found


def spreads_of(catalog: Catalog, measure: str) -> list[float]:
    """Give the spreads of the "length" or the "width" of slots, as `SPREADS` names them."""

    def logarithm(name: str) -> float:
        return spread_of(figure_in(catalog, name, "dimensionless"), Z_95)

    plate, slot = logarithm("plate-scatter"), logarithm("slot-scatter")
    whole = logarithm(f"tongue-{measure}-spread")
    exponent = catalog.figure(f"tongue-{measure}-exponent")
    return [
        math.sqrt(whole**2 - plate**2 - slot**2),
        (exponent.high - exponent.low) / 2 / Z_95,
        plate,
        slot,
        figure_in(catalog, "plate-reach", "semitone"),
        figure_in(catalog, f"slot-{measure}-reading", "m") / Z_95,
        figure_in(catalog, "odd-plate", "dimensionless"),
    ]
