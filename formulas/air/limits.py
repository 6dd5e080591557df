"""A limit in a room: how often it is taken up, and how much air would keep it.

A limit is its terms, each the place of a part of the liquid, whether it goes by mass (1) or by
share of the air (0), and its value in SI; a limit of one vapour has one term, that of vapours
that act alike together has one of each.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.air.conversion import mass_in_air
from formulas.air.found import (
    NEAR,
    changes_range,
    clear_range,
    explosive_changes,
    explosive_share,
    levels_summed,
    mass_levels,
    ranges_summed,
    share_levels,
)
from formulas.air.liquid import (
    saturated_all,
    saturated_ratio,
    share_loads,
    start_shares,
    vapour_of,
)
from formulas.air.pressure import pressure_range
from formulas.air.room import QUARTER, WORKDAY
from formulas.formula import procedure


@procedure("Time over which a limit's mean counts")
def limit_span(which: int) -> float:
    """Give the span of the peak (0), of fifteen minutes (1) and of eight hours (2), in s."""
    return 1 if which == 0 else QUARTER if which == 1 else WORKDAY


@procedure("How often a limit is taken up")
def limit_ratio(
    terms: Sequence[Sequence[float]],
    level_place: int,
    part_shares: Sequence[Sequence[Sequence[float]]],
    part_masses: Sequence[Sequence[Sequence[float]]],
) -> list[float]:
    """Give the ratios of all terms added; `level_place` is a place of `vapour_levels`."""
    ratios = []
    for term in terms:
        part = int(term[0])
        pair = part_masses[part][level_place] if term[1] == 1 else part_shares[part][level_place]
        ratios.append([pair[0] / term[2], pair[1] / term[2]])
    return ranges_summed(ratios)


@procedure("Air changes that a limit asks for")
def limit_changes(
    terms: Sequence[Sequence[float]],
    which: int,
    vapours: Sequence[Sequence[float]],
    starts: Sequence[float],
    air_room: Sequence[float],
    air_task: Sequence[float],
    near_factors: Sequence[float],
) -> list[float]:
    """Give the air changes with which the limit holds, low and high, as `changes_range`."""
    loads = []
    begun = 0.0
    for term in terms:
        part = int(term[0])
        vapour = vapours[part]
        if term[1] == 1:
            start = mass_in_air(starts[part], vapour[3], air_room[5], air_room[3])
            pair = [vapour[0] / air_room[0], vapour[1] / air_room[0]]
        else:
            start = starts[part]
            pair = share_loads(vapour, air_room)
        loads.append([pair[0] / term[2], pair[1] / term[2]])
        begun = begun + start / term[2]
    return changes_range(ranges_summed(loads), begun, air_task, near_factors, 1, limit_span(which))


@procedure("One limit in a room")
def limit_found(
    terms: Sequence[Sequence[float]],
    which: int,
    vapours: Sequence[Sequence[float]],
    starts: Sequence[float],
    air_room: Sequence[float],
    air_task: Sequence[float],
    near_factors: Sequence[float],
    part_shares: Sequence[Sequence[Sequence[float]]],
    part_masses: Sequence[Sequence[Sequence[float]]],
) -> list[list[float]]:
    """Give the ratio in the room and near the source, then the air changes for each."""
    return [
        limit_ratio(terms, which, part_shares, part_masses),
        limit_ratio(terms, which + NEAR, part_shares, part_masses),
        limit_changes(terms, which, vapours, starts, air_room, air_task, [1, 1]),
        limit_changes(terms, which, vapours, starts, air_room, air_task, near_factors),
    ]


@procedure("The most of several air changes")
def most_changes(pairs: Sequence[Sequence[float]]) -> list[float]:
    """Give the largest of both ends; [-1, -1] where one cannot be reached, [0, 0] of none."""
    low = 0.0
    high = 0.0
    for pair in pairs:
        if pair[1] < 0:
            return [-1, -1]
        low = max(low, pair[0])
        high = max(high, pair[1])
    return [low, high]


@procedure("Vapour of every part of a liquid")
def air_vapours(
    liquid_rows: Sequence[Sequence[float]],
    laws: Sequence[Sequence[float]],
    volume: Sequence[float],
    air_room: Sequence[float],
    speed: Sequence[float],
    face: float,
    seconds: float,
) -> list[list[float]]:
    """Give the rows of `liquid.vapour_of`, each with its vapour pressure at the room's heat."""
    rows = []
    for part, law in zip(liquid_rows, laws, strict=True):
        pressure = pressure_range(law, air_room[3])
        rows.append(vapour_of(part, pressure, volume, air_room, speed, face, seconds))
    return rows


@procedure("What a task does to the air of a room")
def air_found(
    vapours: Sequence[Sequence[float]],
    start: float,
    air_room: Sequence[float],
    air_task: Sequence[float],
    air_rule: Sequence[float],
    limit_terms: Sequence[Sequence[Sequence[float]]],
    limit_kinds: Sequence[int],
) -> list[list[list[float]]]:
    """Give seven lists of pairs, then one a limit.

    Shares and masses (six levels each), shares of the explosive limit, air changes for it, air
    changes for every limit, times to clear, saturated vapour as a share and by the explosive
    limit. `air_rule` is the near factor, low and high, the share of the explosive limit that is
    kept under, the share cleared to, and how many times as long badly stirred air takes.
    """
    near_factors = [air_rule[0], air_rule[1]]
    starts = start_shares(vapours, start)
    part_shares = []
    part_masses = []
    for i in range(len(vapours)):
        part_shares.append(share_levels(vapours[i], starts[i], air_room, air_task, near_factors))
        part_masses.append(mass_levels(vapours[i], starts[i], air_room, air_task, near_factors))
    found = []
    for terms, which in zip(limit_terms, limit_kinds, strict=True):
        found.append(
            limit_found(
                terms,
                which,
                vapours,
                starts,
                air_room,
                air_task,
                near_factors,
                part_shares,
                part_masses,
            )
        )
    answer = [
        levels_summed(part_shares),
        levels_summed(part_masses),
        [
            explosive_share([one[0] for one in part_shares], vapours),
            explosive_share([one[NEAR] for one in part_shares], vapours),
        ],
        [
            explosive_changes(vapours, starts, air_room, air_task, [1, 1], air_rule[2]),
            explosive_changes(vapours, starts, air_room, air_task, near_factors, air_rule[2]),
        ],
        [most_changes([one[2] for one in found]), most_changes([one[3] for one in found])],
        [clear_range(air_rule[3], air_room, 1), clear_range(air_rule[3], air_room, air_rule[4])],
        [saturated_all(vapours, air_room), saturated_ratio(vapours, air_room)],
    ]
    for one in found:
        answer.append(one)  # noqa: PERF402 - the page's script has no extend
    return answer
