"""The level of a room over time as marks of a drawing, as `window_marks` has them.

The band runs from the lowest corner of what goes in to the highest, the dashed line is the
highest near the source, level lines are limits. A limit's letter stands at the end of its line,
beyond the curves, and its name under the letter's below the drawing: nothing covers a curve.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.air.air_words import upward
from formulas.air.liquid import saturated_range, share_loads
from formulas.air.room import WORKDAY, room_at
from formulas.formula import procedure
from formulas.units import printed
from formulas.valves.chart_scale import (
    axis_marks,
    axis_place,
    band_said,
    kept_apart,
    mark_step,
    places_said,
    step_decimals,
)

AIR_SIZE = (360.0, 310.0)
"""Width and height of the drawing, with the names of its limits."""
AIR_LEFT = 46.0
AIR_RIGHT = 34.0  # the letters of the limits
AIR_TOP = 24.0
AIR_FOOT = 36.0
AIR_LINE = 13.0  # from one line of words to the next
AIR_GAP = 6.0  # above the names of the limits
AIR_ALIKE = 1.0  # lines that lie as near as that are one line
AIR_STEPS = 72
AIR_MARKS = 6.0
SHORTEST = 3600.0  # s, the least that the drawing shows


@procedure("Times at which a level is drawn")
def curve_times(air_task: Sequence[float]) -> list[float]:
    """Give even steps to three times the tasks' length, within a workday, and every turn."""
    last = (air_task[2] - 1) * air_task[1] + air_task[0]
    reach = min(WORKDAY, max(SHORTEST, 3 * last))
    times = [reach * i / AIR_STEPS for i in range(AIR_STEPS + 1)]
    for i in range(int(air_task[2])):
        times.append(i * air_task[1])
        times.append(i * air_task[1] + air_task[0])
    return sorted(times)


@procedure("Level of all vapours over time")
def air_curve(
    vapours: Sequence[Sequence[float]],
    starts: Sequence[float],
    air_room: Sequence[float],
    air_task: Sequence[float],
    curve_seconds: Sequence[float],
    corner: int,
    factor: float,
) -> list[float]:
    """Give the share of the air at each time, at the low (0) or high (1) corner, `factor` times."""
    levels = [0.0 for _ in curve_seconds]
    for i in range(len(vapours)):
        load = share_loads(vapours[i], air_room)[corner]
        most = saturated_range(vapours[i], air_room)[corner]
        start = min(starts[i], most)
        for j in range(len(curve_seconds)):
            level = room_at(load, start, air_room[2 - corner], air_task, curve_seconds[j])
            levels[j] = levels[j] + min(factor * level, most)
    return levels


@procedure("Highest of a curve, in parts in a million")
def curve_top(curve: Sequence[float]) -> float:
    """Give the highest level of a curve of shares."""
    top = 0.0
    for level in curve:
        top = max(top, 1e6 * level)
    return top


@procedure("Axes of a chart of a room's air")
def air_axes(reach: float, top: float, width: float, height: float) -> list[list[str]]:
    """Give the frame, its marks and its titles: time across, parts in a million up."""
    foot = AIR_TOP + height
    right = AIR_LEFT + width
    marks = [["line", places_said([AIR_LEFT, AIR_LEFT, right], [AIR_TOP, foot, foot]), "1", ""]]
    each = 60 if reach < 7200 else 3600
    step = mark_step(reach / each, AIR_MARKS)
    for value in axis_marks(0, reach / each, step):
        x = axis_place(value * each, 0, reach, AIR_LEFT, width)
        words = printed(value, step_decimals(step))
        marks.append(["line", places_said([x, x], [foot, foot + 4]), "1", ""])
        marks.append(["words", printed(x, 1), printed(foot + 15, 1), "middle", words])
    step = mark_step(top, AIR_MARKS)
    for value in axis_marks(0, top, step):
        y = axis_place(value, 0, top, foot, -height)
        words = printed(value, step_decimals(step))
        marks.append(["line", places_said([AIR_LEFT - 4, AIR_LEFT], [y, y]), "1", ""])
        marks.append(["words", printed(AIR_LEFT - 6, 1), printed(y + 4, 1), "end", words])
    marks.append(["words", "2", "12", "start", "vapour in the air, ppm"])
    title = "minutes" if each == 60 else "hours"
    middle = printed(AIR_LEFT + width / 2, 1)
    marks.append(
        [
            "words",
            middle,
            printed(foot + 31, 1),
            "middle",
            title + " from the start of the first task",
        ]
    )
    return marks


@procedure("Limits of a room's air as lettered lines")
def limit_marks(
    heights: Sequence[float], level_names: Sequence[str], width: float, foot: float
) -> list[list[str]]:
    """Give the lines, from the highest down, a letter at the end of each, and their names below.

    Lines that lie on one another share their place with all their letters.
    """
    right = AIR_LEFT + width
    alphabet = "abcdefghijklmnopqrstuvwxyz"
    marks = []
    places: list[float] = []
    letters: list[str] = []
    for i in range(len(heights)):
        y = heights[i]
        marks.append(["line", places_said([AIR_LEFT, right], [y, y]), "1", "2 3"])
        last = len(places) - 1
        if last >= 0 and y - places[last] < AIR_ALIKE:
            letters[last] = letters[last] + " " + alphabet[i]
        else:
            places.append(y)
            letters.append(alphabet[i])
        below = foot + AIR_FOOT + AIR_GAP + AIR_LINE * (i + 1) - 4
        named = alphabet[i] + ": " + level_names[i]
        marks.append(["words", printed(AIR_LEFT, 1), printed(below, 1), "start", named])
    kept = kept_apart([y + 4 for y in places], AIR_LINE, AIR_TOP + 4, foot)
    for i in range(len(kept)):
        marks.append(["words", printed(right + 5, 1), printed(kept[i], 1), "start", letters[i]])
    return marks


@procedure("The air of a room over time as marks of a drawing")
def air_marks(
    curve_seconds: Sequence[float],
    low_curve: Sequence[float],
    high_curve: Sequence[float],
    near_curve: Sequence[float],
    limit_levels: Sequence[float],
    level_names: Sequence[str],
    drawing_size: Sequence[float],
) -> list[list[str]]:
    """Give all marks, what lies behind first; curves in shares of the air, `limit_levels` in ppm.

    A level above twice what is reached is not drawn: it would press the curve to the floor.
    """
    reach = curve_seconds[len(curve_seconds) - 1]
    highest = max(0.1, curve_top(near_curve))
    drawn = [i for i in range(len(limit_levels)) if limit_levels[i] <= 2 * highest]
    shown = sorted(drawn, key=lambda i: -limit_levels[i])
    top = 1.1 * (max(highest, limit_levels[shown[0]]) if len(shown) > 0 else highest)
    names_height = AIR_GAP + AIR_LINE * len(shown) if len(shown) > 0 else 0
    width = drawing_size[0] - AIR_LEFT - AIR_RIGHT
    height = drawing_size[1] - AIR_TOP - AIR_FOOT - names_height
    foot = AIR_TOP + height
    xs = [axis_place(time, 0, reach, AIR_LEFT, width) for time in curve_seconds]
    lows = [axis_place(level * 1e6, 0, top, foot, -height) for level in low_curve]
    highs = [axis_place(level * 1e6, 0, top, foot, -height) for level in high_curve]
    nears = [axis_place(level * 1e6, 0, top, foot, -height) for level in near_curve]
    marks = [["region", band_said(xs, lows, highs)]]
    for mark in air_axes(reach, top, width, height):
        marks.append(mark)  # noqa: PERF402 - the page's script has no extend
    heights = [axis_place(limit_levels[i], 0, top, foot, -height) for i in shown]
    for mark in limit_marks(heights, [level_names[i] for i in shown], width, foot):
        marks.append(mark)  # noqa: PERF402 - as above
    marks.append(["line", places_said(xs, lows), "0.8", ""])
    marks.append(["line", places_said(xs, highs), "1.6", ""])
    marks.append(["line", places_said(xs, nears), "1.4", "6 3"])
    return marks


@procedure("A chart of a room's air in words")
def air_chart_words(
    curve_seconds: Sequence[float],
    low_curve: Sequence[float],
    high_curve: Sequence[float],
    near_curve: Sequence[float],
    limit_levels: Sequence[float],
    level_names: Sequence[str],
) -> str:
    """Say what the chart shows, and where its limits lie."""
    text = (
        "Chart. Across: time from the start of the first task, "
        + upward(curve_seconds[len(curve_seconds) - 1] / 60)
        + " minutes. Up: vapour in the air. Through the room it goes up to "
        + upward(curve_top(low_curve))
        + " to "
        + upward(curve_top(high_curve))
        + " ppm, near the source, dashed, up to "
        + upward(curve_top(near_curve))
        + " ppm. Dotted: limits."
    )
    for i in range(len(limit_levels)):
        text = text + " " + level_names[i] + "."
    return text


@procedure("A limit as a line of the chart")
def limit_line(
    value: float, by_mass: int, vapour: Sequence[float], air_room: Sequence[float]
) -> float:
    """Give a limit in parts in a million; one by mass at the middle of molar mass and pressure."""
    if by_mass == 0:
        return value * 1e6
    loads = share_loads([value, value, vapour[2], vapour[3], 0, 0, 0, 0], air_room)
    return 1e6 * air_room[0] * (loads[0] + loads[1]) / 2
