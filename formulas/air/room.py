"""A room whose air is one well-stirred whole: dC/dt = G/V - n C, in closed form.

C may be a mass in a volume or a share of the air: every law here is the same for both. What the
procedures call `load` is the level that one task would give a room without any change of air,
its vapour by the volume of the room. Air changes are by the second.

More vapour, a smaller room and less change of air each raise every level, mean and time here;
`tests/outside/test_room_air.py` holds them to it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Annotated

from formulas.formula import Q, formula, procedure

QUARTER = 900.0
"""s: fifteen minutes, the short time of the bodies' limits."""
WORKDAY = 28800.0
"""s: eight hours, the long time of the bodies' limits."""

GIVEN_OFF = Q("kg/s", "vapour given off")
ROOM = Q("m**3", "volume of the room", "V")
CHANGES = Q("1/s", "air changes", "n")
START = Q("kg/m**3", "level at the start", "C_0")
ELAPSED = Q("s", "time since then", "t")


@formula("Level a room settles at", symbol="C_e", unit="kg/m**3", source="definition")
def settled_level(
    G: Annotated[float, GIVEN_OFF],
    V: Annotated[float, ROOM],
    n: Annotated[float, CHANGES],
) -> float:
    """Give the level at which as much is carried off as is given off."""
    return G / (n * V)


@formula("Level while vapour is given off", symbol="C", unit="kg/m**3", source="derived")
def level_during(
    C_0: Annotated[float, START],
    C_e: Annotated[float, Q("kg/m**3", "level it settles at")],
    n: Annotated[float, CHANGES],
    t: Annotated[float, ELAPSED],
) -> float:
    """Give the level of a well-mixed room a time t into the task."""
    return C_e + (C_0 - C_e) * math.exp(-n * t)


@formula("Level after the task", symbol="C", unit="kg/m**3", source="derived")
def level_after(
    C_1: Annotated[float, Q("kg/m**3", "level at the end of the task")],
    n: Annotated[float, CHANGES],
    t: Annotated[float, ELAPSED],
) -> float:
    """Give the level once nothing more evaporates: no open jar, no wet rag, no wet face."""
    return C_1 * math.exp(-n * t)


@formula("Time to clear a room", symbol="t_c", unit="s", source="derived")
def time_to_clear(
    s: Annotated[float, Q("", "share of the level that may be left")],
    n: Annotated[float, CHANGES],
) -> float:
    """Give how long it takes once nothing more evaporates."""
    return math.log(1 / s) / n


@formula("Air changes to stay under a level", symbol="n", unit="1/s", source="derived")
def air_changes_for(
    m: Annotated[float, Q("kg", "vapour given off in all")],
    T: Annotated[float, Q("s", "time in which it is given off")],
    w: Annotated[float, Q("s", "time over which the mean counts")],
    V: Annotated[float, ROOM],
    L: Annotated[float, Q("kg/m**3", "level to stay under")],
) -> float:
    """Give the air changes with which no mean over w passes L, however long it goes on.

    Cautious: what the room takes up while it fills is not counted.
    """
    return m / (max(T, w) * V * L)


@formula("Air changes from a level that falls", symbol="n", unit="1/s", source="derived")
def air_changes_from_decay(
    C_1: Annotated[float, Q("1", "first reading")],
    C_2: Annotated[float, Q("1", "last reading")],
    C_o: Annotated[float, Q("1", "reading outdoors")],
    t: Annotated[float, Q("s", "time from the first to the last")],
) -> float:
    """Give the air changes of a room from a harmless gas that nothing gives off any more.

    Carbon dioxide does once everybody has left; the first reading stands well above the last,
    and the last above that outdoors.
    """
    return math.log((C_1 - C_o) / (C_2 - C_o)) / t


@procedure("Level of a room between two times")
def next_level(level: float, settled: float, changes: float, seconds: float) -> float:
    """Give the level after so many seconds at one rate of vapour."""
    return level_during(level, settled, changes, seconds)


@procedure("How far a level has filled up, on the mean of the time")
def filling_share(x: float) -> float:
    """Give 1 - (1 - exp(-x))/x, by its series where the subtraction would eat the digits."""
    if x > 0.5:
        return 1 - (1 - math.exp(-x)) / x
    term = 1.0
    total = 0.0
    for i in range(2, 18):
        term = -term * x / i
        total = total - term
    return total


@procedure("What a level adds up to over time")
def level_sum(level: float, settled: float, changes: float, seconds: float) -> float:
    """Give the level times time from here on, at one rate of vapour."""
    gone = (1 - math.exp(-changes * seconds)) / changes
    return settled * seconds * filling_share(changes * seconds) + level * gone


@procedure("Level of a room at one time")
def room_at(
    load: float, start: float, changes: float, air_task: Sequence[float], clock: float
) -> float:
    """Give the level at a time; `air_task` is how long one takes, from start to start, how many."""
    settled = load / (air_task[0] * changes)
    level = start
    then = 0.0
    for i in range(int(air_task[2])):
        end = min(i * air_task[1] + air_task[0], clock)
        if i * air_task[1] < clock:
            level = next_level(level, 0, changes, i * air_task[1] - then)
            level = next_level(level, settled, changes, end - i * air_task[1])
            then = end
    return next_level(level, 0, changes, clock - then)


@procedure("What the level of a room adds up to from the start")
def room_sum(
    load: float, start: float, changes: float, air_task: Sequence[float], clock: float
) -> float:
    """Give level times time from the start of the first task to a time."""
    settled = load / (air_task[0] * changes)
    level = start
    then = 0.0
    total = 0.0
    for i in range(int(air_task[2])):
        begin = i * air_task[1]
        end = min(begin + air_task[0], clock)
        if begin < clock:
            total = total + level_sum(level, 0, changes, begin - then)
            level = next_level(level, 0, changes, begin - then)
            total = total + level_sum(level, settled, changes, end - begin)
            level = next_level(level, settled, changes, end - begin)
            then = end
    return total + level_sum(level, 0, changes, clock - then)


@procedure("Highest level of a room")
def room_peak(load: float, start: float, changes: float, air_task: Sequence[float]) -> float:
    """Give the highest level: at the start, or at the end of one of the tasks."""
    highest = start
    for i in range(int(air_task[2])):
        highest = max(
            highest, room_at(load, start, changes, air_task, i * air_task[1] + air_task[0])
        )
    return highest


@procedure("Where a window of time may begin to be the worst")
def window_starts(
    load: float, start: float, changes: float, air_task: Sequence[float], mean_span: float
) -> list[float]:
    """Give the times at which a mean over a window can be the largest.

    The mean turns where the level at both ends of the window is the same. Between two times at
    which a task begins or ends at either end, that is one equation with one solution.
    """
    edges = [0.0]
    for i in range(int(air_task[2])):
        for edge in (i * air_task[1], i * air_task[1] + air_task[0]):
            edges.append(edge)
            edges.append(max(0, edge - mean_span))
    edges = sorted(edges)
    settled = load / (air_task[0] * changes)
    starts = [0.0]
    for i in range(len(edges) - 1):
        if edges[i + 1] > edges[i]:
            starts.append(edges[i])
            middle = (edges[i] + edges[i + 1]) / 2
            here = settled * task_runs(air_task, middle)
            there = settled * task_runs(air_task, middle + mean_span)
            level = room_at(load, start, changes, air_task, edges[i])
            later = room_at(load, start, changes, air_task, edges[i] + mean_span)
            fall = later - level + here - there
            share = (here - there) / fall if fall != 0 else 0
            if 0 < share < 1:
                starts.append(min(edges[i] - math.log(share) / changes, edges[i + 1]))
    return starts


@procedure("Whether a task runs at a time")
def task_runs(air_task: Sequence[float], clock: float) -> int:
    """Give 1 while one of the tasks runs, else 0."""
    for i in range(int(air_task[2])):
        if i * air_task[1] <= clock < i * air_task[1] + air_task[0]:
            return 1
    return 0


@procedure("Worst mean of a room over a window of time")
def worst_mean(
    load: float, start: float, changes: float, air_task: Sequence[float], mean_span: float
) -> float:
    """Give the highest mean over any stretch of that length from the first task on."""
    worst = 0.0
    for begin in window_starts(load, start, changes, air_task, mean_span):
        upto = room_sum(load, start, changes, air_task, begin + mean_span)
        worst = max(worst, upto - room_sum(load, start, changes, air_task, begin))
    return worst / mean_span


@procedure("Levels of a room: peak, quarter of an hour, eight hours")
def room_levels(
    load: float, start: float, changes: float, air_task: Sequence[float]
) -> list[float]:
    """Give the peak, the worst mean of fifteen minutes and the worst of eight hours."""
    return [
        room_peak(load, start, changes, air_task),
        worst_mean(load, start, changes, air_task, QUARTER),
        worst_mean(load, start, changes, air_task, WORKDAY),
    ]
