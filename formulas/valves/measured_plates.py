"""From a handful of measured plates of one rank to all the others.

What is measured updates the generic line, plates near by more than those far off; some octaves
on, the generic line is all that is left. Lengths and widths are taken each by itself.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.formula import procedure
from formulas.valves.notes import frequency
from formulas.valves.odd_plates import own_variances
from formulas.valves.plate_spreads import (
    Z_95,
    plate_deviations,
    plates_covariance,
    shared_deviation,
)
from formulas.valves.reed_sizes import generic_size
from formulas.valves.solving import solved_down, triangular_root


@procedure("Variance of a plate for itself")
def own_variance(
    one_midi: float, plate_midis: Sequence[float], plate_variances: Sequence[float], usual: float
) -> float:
    """Give that of the plate measured at this note, or the usual one where none was."""
    found = usual
    for midi, variance in zip(plate_midis, plate_variances, strict=True):
        if midi == one_midi:
            found = variance
    return found


@procedure("What a note shares with the plates measured")
def shared_with_plates(
    one_midi: float,
    plate_midis: Sequence[float],
    plate_variances: Sequence[float],
    pitch_of_a: float,
    reed_line: Sequence[float],
    reed_spreads: Sequence[float],
) -> list[float]:
    """Give the covariance of a slot of this note with each reading; its own plate's is closest."""
    return [
        shared_deviation(one_midi, midi, pitch_of_a, reed_line[2], reed_spreads)
        + (variance if midi == one_midi else 0.0)
        for midi, variance in zip(plate_midis, plate_variances, strict=True)
    ]


@procedure("Slot sizes of a rank from the plates that were measured")
def sizes_of_rank(
    midis: Sequence[float],
    pitch_of_a: float,
    reed_line: Sequence[float],
    reed_spreads: Sequence[float],
    plate_midis: Sequence[float],
    slot_sizes: Sequence[float],
) -> list[list[float]]:
    """Give low, middle and high of the size of a slot for each note, in m; 95 of 100 lie within.

    `reed_line` holds what `reed_sizes.LINE` names, `reed_spreads` what `SPREADS` names;
    `plate_midis` are notes and `slot_sizes` what was read of them, in m, in any order, one a
    plate. Without any it is the generic line.
    """
    plate_variances = own_variances(pitch_of_a, reed_line, reed_spreads, plate_midis, slot_sizes)
    root = triangular_root(
        plates_covariance(
            plate_midis, slot_sizes, plate_variances, pitch_of_a, reed_line, reed_spreads
        )
    )
    learned = solved_down(root, plate_deviations(plate_midis, slot_sizes, pitch_of_a, reed_line))
    found = []
    for note in midis:
        shared = solved_down(
            root,
            shared_with_plates(
                note, plate_midis, plate_variances, pitch_of_a, reed_line, reed_spreads
            ),
        )
        whole = (
            shared_deviation(note, note, pitch_of_a, reed_line[2], reed_spreads)
            + own_variance(note, plate_midis, plate_variances, reed_spreads[2] ** 2)
            + reed_spreads[3] ** 2
        )
        left = max(0, whole - sum(part**2 for part in shared))
        told = sum(a * b for a, b in zip(shared, learned, strict=True))
        middle = generic_size(frequency(note, pitch_of_a), reed_line) * math.exp(told)
        times = math.exp(Z_95 * math.sqrt(left))
        found.append([middle / times, middle, middle * times])
    return found
