"""The ruler-and-ramp test: from overhangs to a bending length, its spread and its band.

A strip is slid out over an edge until its tip meets a ramp. Nothing of it asks for a force.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Annotated

from formulas.formula import Q, formula, procedure
from formulas.valves.strip import bending_length

USUAL_ANGLE = 41.5  # degrees; the one for which half the overhang is the bending length
ANGLES = (30.0, 60.0)  # degrees between which `angle_factor` was fitted
SAME_ANGLE = 0.05  # degrees; nobody cuts a ramp truer

SMOOTH = 1
SOFT = -1
EITHER = 0
FACES = {"smooth": SMOOTH, "soft": SOFT, "either": EITHER}
"""The face of the strip that looked down, as `ramp_found` counts it."""

TOO_LIMP = 1
TOO_STIFF = 2
CURLS = 3
UNLIKE = 4
"""What speaks against a test, as `ramp_verdicts` gives it."""


@formula("Bending length on another ramp", symbol="c", unit="m", source="derived")
def bending_length_at(
    O: Annotated[float, Q("m", "overhang")],  # noqa: E741
    theta: Annotated[float, Q("", "angle of the ramp in degrees", "θ")],
) -> float:
    """Give the bending length by a ramp of 30 to 60 degrees, within three parts in 100 000.

    Fitted to the heavy elastica solved at every quarter of a degree; outside it says nothing.
    """
    x = (theta - 41.5) / 10
    y = 0.499913 - 0.068826 * x + 0.004519 * x**2
    return O * (y - 0.001535 * x**3 + 0.000246 * x**4 - 0.000054 * x**5)


@procedure("Bending length by a ramp")
def bending_length_on(overhang: float, degrees: float) -> float:
    """Give half the overhang on the usual ramp, by the solved strip on another one."""
    if abs(degrees - USUAL_ANGLE) < SAME_ANGLE:
        return bending_length(overhang)
    return bending_length_at(overhang, degrees)


@procedure("Overhang as on the usual ramp")
def usual_overhang(overhang: float, degrees: float) -> float:
    """Give the overhang that the same strip would have on a ramp of the usual angle."""
    return 2 * bending_length_on(overhang, degrees)


@formula("Factor of Student's distribution", symbol="t", unit="", source="derived")
def student_factor(
    f: Annotated[float, Q("", "degrees of freedom, 4 or more")],
) -> float:
    """Give the factor for 95 of 100, by a series in 1/f; low by less than one in 2000 at 4."""
    z = 1.959963984540054
    first = (z**3 + z) / 4
    second = (5 * z**5 + 16 * z**3 + 3 * z) / 96
    third = (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384
    fourth = (79 * z**9 + 776 * z**7 + 1482 * z**5 - 1920 * z**3 - 945 * z) / 92160
    return z + first / f + second / f**2 + third / f**3 + fourth / f**4


@formula("Spread of strips", symbol="s", unit="", source="derived")
def pooled_spread(
    s: Annotated[float, Q("", "spread of these strips, as a share of their mean", "s_k")],
    k: Annotated[float, Q("", "how many strips")],
    s_0: Annotated[float, Q("", "spread expected before any test")],
    f_0: Annotated[float, Q("", "how many strips that counts as")],
) -> float:
    """Give the spread that counts: what is expected, and what the strips showed, by weight."""
    return math.sqrt((f_0 * s_0**2 + (k - 1) * s**2) / (f_0 + k - 1))


@formula("Factor of the band of a stock", symbol="q", unit="", source="definition")
def stock_factor(
    t: Annotated[float, Q("", "factor of Student's distribution")],
    s: Annotated[float, Q("", "spread of strips")],
    k: Annotated[float, Q("", "how many strips")],
) -> float:
    """Give the times and over of the mean bending length: what is known of the stock."""
    return 1 + t * s / math.sqrt(k)


@formula("Factor of the band of the next strip", symbol="q_n", unit="", source="definition")
def next_factor(
    t: Annotated[float, Q("", "factor of Student's distribution")],
    s: Annotated[float, Q("", "spread of strips")],
    k: Annotated[float, Q("", "how many strips")],
) -> float:
    """Give the times and over of one more strip: what a valve cut from the stock may be."""
    return 1 + t * s * math.sqrt(1 + 1 / k)


@procedure("Mean of some numbers")
def mean_of(numbers: Sequence[float]) -> float:
    """Give the mean; nought of none."""
    return 0.0 if len(numbers) == 0 else sum(numbers) / len(numbers)


@procedure("How many strips there are")
def strip_count(strips: Sequence[int]) -> int:
    """Count the strips of readings that name theirs by number, from nought."""
    count = 0
    for strip in strips:
        count = max(count, strip + 1)
    return count


@procedure("Mean of each strip")
def strip_means(
    overhangs: Sequence[float], strips: Sequence[int], faces: Sequence[int]
) -> list[float]:
    """Give the mean of each strip; with both faces read, each face counts half.

    `strips` gives the number of each reading's strip, from nought; `faces` as in `FACES`.
    """
    means = []
    for strip in range(strip_count(strips)):
        every = [overhangs[i] for i in range(len(overhangs)) if strips[i] == strip]
        smooth = [
            overhangs[i] for i in range(len(overhangs)) if strips[i] == strip and faces[i] == SMOOTH
        ]
        soft = [
            overhangs[i] for i in range(len(overhangs)) if strips[i] == strip and faces[i] == SOFT
        ]
        both = len(smooth) > 0 and len(soft) > 0
        means.append((mean_of(smooth) + mean_of(soft)) / 2 if both else mean_of(every))
    return means


@procedure("What one face differs from the other")
def faces_apart(
    overhangs: Sequence[float], strips: Sequence[int], faces: Sequence[int]
) -> list[float]:
    """Give by how much smooth-down hangs farther than soft-down, as a share; and of how many.

    The mean over the strips of which both faces were read.
    """
    apart = []
    for strip in range(strip_count(strips)):
        smooth = [
            overhangs[i] for i in range(len(overhangs)) if strips[i] == strip and faces[i] == SMOOTH
        ]
        soft = [
            overhangs[i] for i in range(len(overhangs)) if strips[i] == strip and faces[i] == SOFT
        ]
        if len(smooth) > 0 and len(soft) > 0:
            middle = (mean_of(smooth) + mean_of(soft)) / 2
            apart.append((mean_of(smooth) - mean_of(soft)) / middle)
    return [mean_of(apart), len(apart)]


@procedure("Spread of some numbers about their mean")
def relative_spread(numbers: Sequence[float]) -> float:
    """Give the standard deviation as a share of the mean; nought of one."""
    if len(numbers) < 2:
        return 0.0
    middle = mean_of(numbers)
    return math.sqrt(sum((one - middle) ** 2 for one in numbers) / (len(numbers) - 1)) / middle


RAMP = ("mean", "seen", "spread", "strips", "stock", "next", "apart", "both")
"""What `ramp_found` gives: mean overhang, spread of the strips as seen, the spread that counts,
how many strips, the two factors of the bands, the faces apart, strips read on both faces."""


@procedure("What the ramp tells")
def ramp_found(
    overhangs: Sequence[float],
    strips: Sequence[int],
    faces: Sequence[int],
    expected: float,
    weight: float,
) -> list[float]:
    """Give what `RAMP` names. `expected` is the spread before any test, `weight` its strips."""
    means = strip_means(overhangs, strips, faces)
    count = len(means)
    seen = relative_spread(means)
    counts = pooled_spread(seen, count, expected, weight)
    factor = student_factor(weight + count - 1)
    apart = faces_apart(overhangs, strips, faces)
    return [
        mean_of(means),
        seen,
        counts,
        count,
        stock_factor(factor, counts, count),
        next_factor(factor, counts, count),
        apart[0],
        apart[1],
    ]


@procedure("What speaks against a ramp test")
def ramp_verdicts(
    overhangs: Sequence[float], ramp_told: Sequence[float], ramp_limits: Sequence[float]
) -> list[int]:
    """Give the codes of what is wrong; `ramp_told` is what `ramp_found` gives.

    `ramp_limits` are the shortest and the longest overhang, the faces apart and the spread of
    strips beyond which the test does not count.
    """
    verdicts = []
    if ramp_told[0] < ramp_limits[0]:
        verdicts.append(TOO_LIMP)
    if len([one for one in overhangs if one > ramp_limits[1]]) > 0:
        verdicts.append(TOO_STIFF)
    if abs(ramp_told[6]) > ramp_limits[2]:
        verdicts.append(CURLS)
    if ramp_told[1] > ramp_limits[3]:
        verdicts.append(UNLIKE)
    return verdicts


@procedure("A band, times and over")
def times_and_over(middle: float, factor: float) -> list[float]:
    """Give low end, middle and high end."""
    return [middle / factor, middle, middle * factor]


@procedure("Rigidity across in rigidities along")
def rigidity_share(across: float, along: float) -> float:
    """Give what two bending lengths of one stock say: the cube of their ratio."""
    return (across / along) ** 3


@procedure("How many strips more")
def strips_more(strips_asked: int, strips_read: int) -> int:
    """Give how many are still to be cut."""
    return strips_asked - strips_read


MOST_STRIPS = 40


@procedure("How many strips it takes")
def strips_wanted(spread: float, weight: float, width: float) -> int:
    """Give how many strips bring the stock's band to plus or minus `width`, 40 at the most.

    The spread is taken to stay as it is.
    """
    count = 1
    while count < MOST_STRIPS and (
        stock_factor(student_factor(weight + count - 1), spread, count) > 1 + width
    ):
        count = count + 1
    return count
