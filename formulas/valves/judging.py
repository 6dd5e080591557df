"""What is found of a valve against its limits, and which stock keeps the widest margin.

Limits are settings. A verdict rests on the middle of what is known; the ends say how sure it is.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.formula import procedure
from formulas.valves.flow import valve_pressure
from formulas.valves.one_valve import valve_ends, valve_found
from formulas.valves.strip import bending_length_of, rigidity

JUDGED = (
    "gap-playing",
    "gap-bench",
    "shut-pressure",
    "choke-soft",
    "choke-quiet",
    "choke-loud",
    "delay",
    "slap",
    "bulge",
    "curl-outward",
    "preload",
    "free-space",
    "root-strain",
    "repeat",
)
"""Ids of the limits, in the order of `one_valve.FOUND`; the frequencies have none."""
HIGHEST = 1e6  # a ratio to a limit is told up to here
SERVES = 0
PERHAPS = 1
REJECTED = 2


@procedure("Limits of one valve")
def limits_here(limits: Sequence[Sequence[float]], references: Sequence[float]) -> list[float]:
    """Give each limit as a number: its value, or its share of what it refers to if that is more.

    `limits` are value, share and whether it rejects (1) or is told (0), in the order of
    `JUDGED`; `references` what each share is a share of. A limit of nought is no limit.
    """
    return [max(one[0], one[1] * by) for one, by in zip(limits, references, strict=True)]


@procedure("What each share refers to")
def references_of(length: float, period: float, softest: float, space: float) -> list[float]:
    """Give valve length, period, softest pressure and room where `JUDGED` needs them."""
    return [length, length, softest, 0, 0, 0, period, 0, 0, length, 0, space, 0, 0]


@procedure("Ratios to the limits")
def ratios_to(found: Sequence[float], here: Sequence[float]) -> list[float]:
    """Give what is found in limits: above 1 it is passed. Without a limit nought."""
    return [min(HIGHEST, found[i] / here[i]) if here[i] > 0 else 0.0 for i in range(len(here))]


@procedure("Limits that are passed")
def passed_of(ratios: Sequence[float], limits: Sequence[Sequence[float]]) -> list[int]:
    """Give the places of the limits that reject and are passed, the farthest first."""
    places = [i for i in range(len(ratios)) if ratios[i] > 1 and limits[i][2] > 0]
    left = [1 for _ in places]
    order = []
    for _ in range(len(places)):
        worst = -1
        for j in range(len(places)):
            if left[j] > 0 and (worst < 0 or ratios[places[j]] > ratios[places[worst]]):
                worst = j
        left[worst] = 0
        order.append(places[worst])
    return order


@procedure("Margin to both sides")
def margin_of(ratios: Sequence[float]) -> float:
    """Give how often the nearest of gap and choke goes into its limit; below 1 it is passed."""
    nearest = max(max(ratios[0], ratios[3]), max(ratios[4], ratios[5]))
    return 1 / max(1 / HIGHEST, nearest)


@procedure("One stock on one slot, judged")
def judged(
    sizes: Sequence[float],
    slot: Sequence[float],
    openings: Sequence[float],
    pressures: Sequence[float],
    limits: Sequence[Sequence[float]],
    stock: Sequence[float],
) -> list[list[float]]:
    """Give what is found, its low and high ends, the ratios, their ends, and the verdict.

    `slot` is its length and width, the share of gravity that pulls the valve off, the period of
    the note of the other slot, and the room over the valve (nought: not known); `openings` the
    tongue's mean opening, its low and high end. `stock` is `one_valve.STOCK`, then low and high
    of the mass, low and high of the bending length, 1 where both were measured, 1 where it may
    stand alone. The verdict is `SERVES`, `PERHAPS` where the ends disagree, or `REJECTED`, and
    the margin beside it.
    What only a table tells is rejected where no end of it serves, and is never more than
    `PERHAPS`.
    """
    found = valve_found(sizes, slot[0], slot[1], slot[2], openings[0], pressures, stock)
    ends = valve_ends(
        sizes,
        slot[0],
        slot[1],
        slot[2],
        [openings[1], openings[2]],
        pressures,
        stock,
        [stock[6], stock[7], stock[8], stock[9]],
    )
    here = limits_here(limits, references_of(sizes[4], slot[3], pressures[0], slot[4]))
    ratios = ratios_to(found, here)
    least = ratios_to(ends[0], here)
    most = ratios_to(ends[1], here)
    measured = stock[10] > 0
    verdict = SERVES
    if not measured or len(passed_of(most, limits)) > 0:
        verdict = PERHAPS
    if len(passed_of(ratios if measured else least, limits)) > 0:
        verdict = REJECTED
    return [found, ends[0], ends[1], ratios, least, most, here, [verdict, margin_of(ratios)]]


@procedure("Verdict on what is found, in short")
def short_verdict(
    found: Sequence[float], here: Sequence[float], limits: Sequence[Sequence[float]]
) -> list[float]:
    """Give the verdict and the margin by the middle of what is known, as `judged` does.

    `here` are the limits as numbers. What serves by its middle is `SERVES` here, however unsure
    its ends are: this is for a stock that was measured.
    """
    ratios = ratios_to(found, here)
    verdict = SERVES
    if len(passed_of(ratios, limits)) > 0:
        verdict = REJECTED
    return [verdict, margin_of(ratios)]


@procedure("Stocks in the order of their margin")
def ranked(verdicts: Sequence[Sequence[float]]) -> list[int]:
    """Give the places of the stocks, those that serve first, each by its margin.

    `verdicts` are verdict and margin. Equal ones keep their order.
    """
    left = [1 for _ in verdicts]
    order = []
    for _ in range(len(verdicts)):
        best = -1
        for i in range(len(verdicts)):
            if left[i] > 0 and (best < 0 or before(verdicts[i], verdicts[best])):
                best = i
        left[best] = 0
        order.append(best)
    return order


@procedure("Whether one stock goes before another")
def before(verdict: Sequence[float], other_verdict: Sequence[float]) -> bool:
    """Tell whether the first is not rejected where the other is, or has the wider margin."""
    out = 1 if verdict[0] == REJECTED else 0
    other_out = 1 if other_verdict[0] == REJECTED else 0
    return out < other_out or (out == other_out and verdict[1] > other_verdict[1])


@procedure("A stock with a topper over it")
def topped(leather: Sequence[float], film: Sequence[float]) -> list[float]:
    """Give a valve with a second strip over it, glued at the root only: the layers slide.

    Masses and rigidities add. Thickness and curl are those of the leather; strain is not judged.
    """
    m = leather[0] + film[0]
    D = rigidity(leather[0], leather[1]) + rigidity(film[0], film[1])
    across = leather[2] * rigidity(leather[0], leather[1]) + film[2] * rigidity(film[0], film[1])
    m_1 = leather[6] + film[6]
    m_2 = leather[7] + film[7]
    D_1 = rigidity(leather[6], leather[8]) + rigidity(film[6], film[8])
    D_2 = rigidity(leather[7], leather[9]) + rigidity(film[7], film[9])
    c = bending_length_of(D, m)
    low = min(c, bending_length_of(D_1, m_1))
    high = max(c, bending_length_of(D_2, m_2))
    return [
        m,
        c,
        across / D,
        leather[3],
        leather[4],
        0,
        m_1,
        m_2,
        low,
        high,
        leather[10] * film[10],
        1,
    ]


@procedure("Preload of a helper")
def helper_preload(ratios: Sequence[float], found: Sequence[float], D: float, L: float) -> float:
    """Give the even pressure with which a helper must press so that the gap comes to its limit.

    Nought where the gap keeps it without.
    """
    if ratios[0] <= 1:
        return 0.0
    return 8 * D * (found[0] - found[0] / ratios[0]) / L**4


@procedure("Force of a helper at the tip")
def helper_force(p_h: float, L: float, b: float) -> float:
    """Give the force at the tip that bends a strip as far as an even pressure does, in newtons.

    p L^4/(8 D) against F L^3/(3 D b): F = 3 p b L/8.
    """
    return 3 * p_h * b * L / 8


@procedure("Choke of a valve with a helper")
def helped_choke(p: float, p_h: float, k: float) -> float:
    """Give the share that a valve takes which opens only beyond its helper's pressure.

    An upper bound: p_h + x, where x (1 + (k x)^2) = p - p_h. The whole where it does not open.
    """
    if p <= p_h:
        return 1.0
    return (p_h + valve_pressure(p - p_h, k)) / p
