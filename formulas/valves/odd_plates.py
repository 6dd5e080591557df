"""Plates that do not fit the others of their rank: told, and taken for what they are.

An odd plate is never left out. It may come from another instrument, or be a slip of the rule:
what it deviates by is counted as its own, so that it tells little of its neighbours.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.formula import procedure
from formulas.valves.plate_spreads import Z_95, plate_deviations, plates_covariance
from formulas.valves.solving import solved_down, solved_up, triangular_root


@procedure("What each plate is expected to be by the others")
def expected_by_others(
    pitch_of_a: float,
    reed_line: Sequence[float],
    reed_spreads: Sequence[float],
    plate_midis: Sequence[float],
    slot_sizes: Sequence[float],
) -> list[list[float]]:
    """Give low, middle and high of each reading, and its distance in standard deviations.

    Each is expected from all the others, the error of its own reading counted in.
    """
    own = [reed_spreads[2] ** 2 for _ in plate_midis]
    root = triangular_root(
        plates_covariance(plate_midis, slot_sizes, own, pitch_of_a, reed_line, reed_spreads)
    )
    deviations = plate_deviations(plate_midis, slot_sizes, pitch_of_a, reed_line)
    weights = solved_up(root, solved_down(root, deviations))
    found = []
    for i in range(len(plate_midis)):
        only = [0.0 for _ in plate_midis]
        only[i] = 1.0
        sure = sum(part**2 for part in solved_down(root, only))
        middle = slot_sizes[i] * math.exp(-weights[i] / sure)
        times = math.exp(Z_95 * math.sqrt(1 / sure))
        found.append([middle / times, middle, middle * times, weights[i] / math.sqrt(sure)])
    return found


@procedure("Plates that lie far from what the others lead to expect")
def odd_plates(
    pitch_of_a: float,
    reed_line: Sequence[float],
    reed_spreads: Sequence[float],
    plate_midis: Sequence[float],
    slot_sizes: Sequence[float],
) -> list[list[float]]:
    """Give place, low, middle and high expected of each odd plate, the oddest first.

    Each is set aside while the next is looked for, so that it does not make its neighbours odd.
    Of two plates that do not fit each other either may be the odd one.
    """
    places = [place for place, _ in enumerate(plate_midis)]
    odd = []
    while len(places) > 0:
        notes = [plate_midis[place] for place in places]
        read = [slot_sizes[place] for place in places]
        expected = expected_by_others(pitch_of_a, reed_line, reed_spreads, notes, read)
        worst = 0
        for i in range(len(expected)):
            if abs(expected[i][3]) > abs(expected[worst][3]):
                worst = i
        if abs(expected[worst][3]) <= reed_spreads[6]:
            break
        odd.append([places[worst], expected[worst][0], expected[worst][1], expected[worst][2]])
        places = [place for place in places if place != places[worst]]
    return odd


@procedure("What each plate has for itself")
def own_variances(
    pitch_of_a: float,
    reed_line: Sequence[float],
    reed_spreads: Sequence[float],
    plate_midis: Sequence[float],
    slot_sizes: Sequence[float],
) -> list[float]:
    """Give the variance of each plate about the scale: of an odd one, what it is off by as well."""
    own = [reed_spreads[2] ** 2 for _ in plate_midis]
    for odd in odd_plates(pitch_of_a, reed_line, reed_spreads, plate_midis, slot_sizes):
        place = int(odd[0])
        own[place] += math.log(slot_sizes[place] / odd[2]) ** 2
    return own
