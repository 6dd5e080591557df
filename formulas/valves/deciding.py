"""Which stock a slot gets: one that serves, a pair, one with a helper, none, or "measure first".

A stock that only a table knows is never chosen: leather of one thickness differs by a factor
of twenty. For it there is the window.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.formula import procedure
from formulas.valves.flow import opening_ratio, swinging_area
from formulas.valves.judging import (
    REJECTED,
    before,
    helped_choke,
    helper_preload,
    limits_here,
    margin_of,
    passed_of,
    ratios_to,
    references_of,
    short_verdict,
    topped,
)
from formulas.valves.one_valve import valve_found
from formulas.valves.strip import rigidity

ONE_STOCK = 1
WITH_TOPPER = 2
WITH_HELPER = 3
WITHOUT = 4
NOT_MEASURED = 5
NONE_SERVES = 6


@procedure("All of one slot's valves, a stock each")
def founds_of(
    sizes: Sequence[float],
    slot: Sequence[float],
    openings: Sequence[float],
    pressures: Sequence[float],
    valve_stocks: Sequence[Sequence[float]],
) -> list[list[float]]:
    """Give what `one_valve.FOUND` names for each stock: no limit changes it."""
    return [
        valve_found(sizes, slot[0], slot[1], slot[2], openings[0], pressures, stock)
        for stock in valve_stocks
    ]


@procedure("Verdicts on all stocks")
def verdicts_of(
    here: Sequence[float],
    limits: Sequence[Sequence[float]],
    valve_stocks: Sequence[Sequence[float]],
    founds: Sequence[Sequence[float]],
) -> list[list[float]]:
    """Give verdict, margin and whether it may be chosen, of each stock.

    It may where it is measured (`stock[10]`) and stands alone (`stock[11]`), not only as topper;
    the others are not judged here. `here` are the limits as numbers, `founds` as in `decided`.
    """
    verdicts = []
    for i in range(len(valve_stocks)):
        if valve_stocks[i][10] * valve_stocks[i][11] > 0:
            found = short_verdict(founds[i], here, limits)
            verdicts.append([found[0], found[1], 1])
        else:
            verdicts.append([REJECTED, 0, 0])
    return verdicts


@procedure("Best stock by itself")
def best_stock(verdicts: Sequence[Sequence[float]]) -> int:
    """Give the place of the first in the order of `judging.ranked` that may be chosen, or -1."""
    best = -1
    for i in range(len(verdicts)):
        if verdicts[i][2] > 0 and (best < 0 or before(verdicts[i], verdicts[best])):
            best = i
    return best


@procedure("Best pair of a stock and a topper")
def best_pair(
    sizes: Sequence[float],
    slot: Sequence[float],
    openings: Sequence[float],
    pressures: Sequence[float],
    here: Sequence[float],
    limits: Sequence[Sequence[float]],
    valve_stocks: Sequence[Sequence[float]],
) -> list[int]:
    """Give the places of a leather and of the film over it that serve together, or -1 twice.

    The film is lighter than what it lies on.
    """
    best = [-1, -1]
    margin = 0.0
    for i in range(len(valve_stocks)):
        for j in range(len(valve_stocks)):
            fits = valve_stocks[i][5] == 0 and valve_stocks[j][5] == 1 and valve_stocks[i][11] > 0
            fits = fits and valve_stocks[j][0] < valve_stocks[i][0]
            if fits and valve_stocks[i][10] > 0 and valve_stocks[j][10] > 0:
                pair = topped(valve_stocks[i], valve_stocks[j])
                found = short_verdict(
                    valve_found(sizes, slot[0], slot[1], slot[2], openings[0], pressures, pair),
                    here,
                    limits,
                )
                if found[0] < REJECTED and found[1] > margin:
                    best = [i, j]
                    margin = found[1]
    return best


@procedure("Preload and choke with a helper")
def helped(
    sizes: Sequence[float],
    slot: Sequence[float],
    openings: Sequence[float],
    pressures: Sequence[float],
    found: Sequence[float],
    ratios: Sequence[float],
    stock: Sequence[float],
) -> list[float]:
    """Give the preload that brings the gap to its limit, in Pa, and the choke at three pressures.

    `found` and `ratios` are those of the stock alone. The choke is an upper bound; the delay is
    shortened with the gap.
    """
    D = rigidity(stock[0], stock[1])
    p_h = helper_preload(ratios, found, D, sizes[4])
    k = opening_ratio(sizes[4], sizes[5], D, swinging_area(openings[0], slot[0], slot[1]))
    return [
        p_h,
        helped_choke(pressures[0], p_h, k),
        helped_choke(pressures[1], p_h, k),
        helped_choke(pressures[2], p_h, k),
    ]


@procedure("Best stock with a helper")
def best_helped(
    sizes: Sequence[float],
    slot: Sequence[float],
    openings: Sequence[float],
    pressures: Sequence[float],
    here: Sequence[float],
    limits: Sequence[Sequence[float]],
    valve_stocks: Sequence[Sequence[float]],
    founds: Sequence[Sequence[float]],
) -> int:
    """Give the place of the measured stock that serves with a helper, the stiffest, or -1.

    Only the gap, and the delay that comes of it, may have spoken against it.
    """
    best = -1
    margin = 0.0
    for i in range(len(valve_stocks)):
        stock = valve_stocks[i]
        ratios = ratios_to(founds[i], here)
        other = [place for place in passed_of(ratios, limits) if place != 0 and place != 6]
        if stock[10] * stock[11] > 0 and len(other) == 0:
            with_it = helped(sizes, slot, openings, pressures, founds[i], ratios, stock)
            opens = with_it[1] <= here[3] and with_it[2] <= here[4] and with_it[3] <= here[5]
            if opens and margin_of(ratios) > margin:
                best = i
                margin = margin_of(ratios)
    return best


@procedure("What a slot gets")
def decided(
    sizes: Sequence[float],
    slot: Sequence[float],
    openings: Sequence[float],
    pressures: Sequence[float],
    limits: Sequence[Sequence[float]],
    valve_stocks: Sequence[Sequence[float]],
    founds: Sequence[Sequence[float]],
    without: bool,
) -> list[int]:
    """Give the kind of answer, the place of the stock, and that of its topper; -1 for none.

    Arguments as in `judging.judged`; `founds` is what `founds_of` gives, `without` where the rule
    says that no valve is the answer.
    """
    if without:
        return [WITHOUT, -1, -1]
    if sum(stock[10] * stock[11] for stock in valve_stocks) == 0:
        return [NOT_MEASURED, -1, -1]
    here = limits_here(limits, references_of(sizes[4], slot[3], pressures[0], slot[4]))
    verdicts = verdicts_of(here, limits, valve_stocks, founds)
    best = best_stock(verdicts)
    if verdicts[best][0] < REJECTED:
        return [ONE_STOCK, best, -1]
    pair = best_pair(sizes, slot, openings, pressures, here, limits, valve_stocks)
    if pair[0] >= 0:
        return [WITH_TOPPER, pair[0], pair[1]]
    place = best_helped(sizes, slot, openings, pressures, here, limits, valve_stocks, founds)
    if place >= 0:
        return [WITH_HELPER, place, -1]
    return [NONE_SERVES, best, -1]
