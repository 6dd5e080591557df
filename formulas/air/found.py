"""What a task puts into the air of a room, from the lowest corner of what goes in to the highest.

`vapour` and `air_room` are those of `liquid`. `air_task` is how long one takes, from start to
start, how many. `near_factors` is how many times the mixed level stands at the source, low and
high.

A level rises with the mass and falls with volume and air changes; as a share of the air it falls
with molar mass and pressure. So both ends stand at corners.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.air.conversion import mass_in_air
from formulas.air.liquid import saturated_mass, saturated_range, share_loads
from formulas.air.room import (
    air_changes_for,
    room_levels,
    time_to_clear,
)
from formulas.formula import procedure

PEAK = 0
SHORT = 1
LONG = 2
"""Which level counts: the peak, the mean of fifteen minutes, that of eight hours."""
NEAR = 3  # from a mixed level to the same near the source


@procedure("Levels of one vapour in a room")
def vapour_levels(
    loads: Sequence[float],
    starts: Sequence[float],
    most_held: Sequence[float],
    air_room: Sequence[float],
    air_task: Sequence[float],
    near_factors: Sequence[float],
) -> list[list[float]]:
    """Give peak, 15 minutes, 8 hours, mixed and then near the source, each low and high.

    No level goes above what air can hold.
    """
    low = room_levels(loads[0], min(starts[0], most_held[0]), air_room[2], air_task)
    high = room_levels(loads[1], min(starts[1], most_held[1]), air_room[1], air_task)
    levels = []
    for i in range(3):
        levels.append([min(low[i], most_held[0]), min(high[i], most_held[1])])
    for i in range(3):
        levels.append(
            [
                min(near_factors[0] * low[i], most_held[0]),
                min(near_factors[1] * high[i], most_held[1]),
            ]
        )
    return levels


@procedure("Levels of one vapour as shares of the air")
def share_levels(
    vapour: Sequence[float],
    start: float,
    air_room: Sequence[float],
    air_task: Sequence[float],
    near_factors: Sequence[float],
) -> list[list[float]]:
    """Give the six levels of one part as shares of the air; `start` is the share at the start."""
    loads = share_loads(vapour, air_room)
    return vapour_levels(
        loads, [start, start], saturated_range(vapour, air_room), air_room, air_task, near_factors
    )


@procedure("Levels of one vapour as masses in a volume")
def mass_levels(
    vapour: Sequence[float],
    start: float,
    air_room: Sequence[float],
    air_task: Sequence[float],
    near_factors: Sequence[float],
) -> list[list[float]]:
    """Give the six levels of one part as masses in a volume of air."""
    loads = [vapour[0] / air_room[0], vapour[1] / air_room[0]]
    starts = [
        mass_in_air(start, vapour[2], air_room[4], air_room[3]),
        mass_in_air(start, vapour[3], air_room[5], air_room[3]),
    ]
    return vapour_levels(
        loads, starts, saturated_mass(vapour, air_room), air_room, air_task, near_factors
    )


@procedure("Ranges added up")
def ranges_summed(pairs: Sequence[Sequence[float]]) -> list[float]:
    """Add low to low and high to high."""
    low = 0.0
    high = 0.0
    for pair in pairs:
        low = low + pair[0]
        high = high + pair[1]
    return [low, high]


@procedure("Levels of all vapours together")
def levels_summed(levels: Sequence[Sequence[Sequence[float]]]) -> list[list[float]]:
    """Add the six levels of the parts."""
    return [ranges_summed([one[i] for one in levels]) for i in range(6)]


@procedure("Share of the lower explosive limit")
def explosive_share(
    peaks: Sequence[Sequence[float]], vapours: Sequence[Sequence[float]]
) -> list[float]:
    """Add up each vapour's share of its own limit; [0, 0] where one of the limits is not known."""
    low = 0.0
    high = 0.0
    known = 1
    for i in range(len(peaks)):
        if vapours[i][6] <= 0:
            known = 0
        else:
            low = low + peaks[i][0] / vapours[i][7]
            high = high + peaks[i][1] / vapours[i][6]
    return [low, high] if known == 1 else [0.0, 0.0]


@procedure("Time until a share is left in the room")
def clear_range(left: float, air_room: Sequence[float], mixing: float) -> list[float]:
    """Give the time to clear; `mixing` is how many times as long badly stirred air takes."""
    return [mixing * time_to_clear(left, air_room[2]), mixing * time_to_clear(left, air_room[1])]


@procedure("Air changes that one vapour asks for")
def changes_range(
    loads: Sequence[float],
    start: float,
    air_task: Sequence[float],
    near_factors: Sequence[float],
    level: float,
    mean_span: float,
) -> list[float]:
    """Give the air changes to keep the mean over `mean_span` at or under a level, low and high.

    [-1, -1] where the air stands at it from the start: then no air change keeps it so. Nought
    where the room alone holds all of it.
    """
    needed = []
    for i in range(2):
        room_left = level / near_factors[i] - start
        all_of_it = loads[i] * air_task[2]
        lasts = air_task[0] * air_task[2]
        if room_left <= 0:
            return [-1, -1]
        if all_of_it <= room_left:
            needed.append(0.0)
        else:
            needed.append(air_changes_for(all_of_it, lasts, mean_span, 1, room_left))
    return needed


@procedure("Air changes that a mixture asks for under a share of its explosive limit")
def explosive_changes(
    vapours: Sequence[Sequence[float]],
    starts: Sequence[float],
    air_room: Sequence[float],
    air_task: Sequence[float],
    near_factors: Sequence[float],
    kept: float,
) -> list[float]:
    """Reckon each part's load by its own limit and add them; [-1, -1] as above."""
    loads = []
    begun = 0.0
    for i in range(len(vapours)):
        if vapours[i][6] <= 0:
            return [-1, -1]
        pair = share_loads(vapours[i], air_room)
        loads.append([pair[0] / vapours[i][7], pair[1] / vapours[i][6]])
        begun = begun + starts[i] / vapours[i][6]
    return changes_range(ranges_summed(loads), begun, air_task, near_factors, kept, 1)
