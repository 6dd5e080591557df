"""The window of a rank as marks of a drawing: paper and page turn the same marks into strokes.

A mark is its kind and what it needs: "region" (places), "line" (places, width, dash), "dot" (x,
y, filled, ring), "words" (x, y, anchor, text). A drawing counts from its upper left corner.
"""

from __future__ import annotations

from collections.abc import Sequence

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
from formulas.valves.deciding import ONE_STOCK, WITH_HELPER, WITH_TOPPER, WITHOUT
from formulas.valves.judging import topped
from formulas.valves.valve_words import long_said

SMALL = (340.0, 310.0)
WIDE = (500.0, 230.0)
"""Width and height of the drawing: for a leaf and the page, and for a chart above the bench."""
LEFT = 34.0
RIGHT = 34.0
TOP = 30.0
FOOT = 36.0
LINE = 12.0  # from one line of words to the next
NAMED = 48.0  # about as wide as the name of a stock
MOST_MARKS = 7.0
HEADROOM = 33.0  # from the top down to the highest stock: two lines of words and clear of both


@procedure("Frame of a window chart")
def window_frame(
    note_rows: Sequence[Sequence[float]], stock_bends: Sequence[float], height: float
) -> list[float]:
    """Give the least and the most slot length, and the most bending length, that are drawn.

    Over the highest stock there is room for its name and for the words at the top.
    """
    x_1 = note_rows[0][0]
    x_2 = note_rows[0][0]
    top = 0.0
    for row in note_rows:
        x_1 = min(x_1, row[0])
        x_2 = max(x_2, row[0])
        top = max(top, 1.12 * max(row[1], row[2]))
    below = max(0.5, 1 - HEADROOM / height)
    for bends in stock_bends:
        top = max(top, bends / below)
    room = max(0.03 * (x_2 - x_1), 0.0003)
    return [x_1 - room, x_2 + room, top]


@procedure("Words as a mark of a drawing")
def words_mark(x: float, y: float, anchor: str, text: str) -> list[str]:
    """Give words at a place; `anchor` says which end of them stands there."""
    return ["words", printed(x, 1), printed(y, 1), anchor, text]


@procedure("Axes of a window chart")
def window_axes(
    frame: Sequence[float], width: float, height: float, each: float, unit: str
) -> list[list[str]]:
    """Give the frame, its marks and its titles: slot across, bending length and overhang up."""
    foot = TOP + height
    right = LEFT + width
    marks = [
        [
            "line",
            places_said([LEFT, LEFT, right, right], [TOP, foot, foot, TOP]),
            "1",
            "",
        ]
    ]
    step = mark_step((frame[1] - frame[0]) / each, MOST_MARKS)
    for value in axis_marks(frame[0] / each, frame[1] / each, step):
        x = axis_place(value * each, frame[0], frame[1], LEFT, width)
        marks.append(["line", places_said([x, x], [foot, foot + 4]), "1", ""])
        marks.append(words_mark(x, foot + 15, "middle", printed(value, step_decimals(step))))
    step = mark_step(frame[2] / each, MOST_MARKS)
    for value in axis_marks(0, frame[2] / each, step):
        y = axis_place(value * each, 0, frame[2], foot, -height)
        marks.append(["line", places_said([LEFT - 4, LEFT], [y, y]), "1", ""])
        marks.append(["line", places_said([right, right + 4], [y, y]), "1", ""])
        marks.append(words_mark(LEFT - 6, y + 4, "end", printed(value, step_decimals(step))))
        marks.append(words_mark(right + 6, y + 4, "start", printed(2 * value, step_decimals(step))))
    marks.append(["words", "2", "12", "start", "bending length, " + unit])
    marks.append(
        ["words", printed(right + RIGHT - 2, 1), "12", "end", "overhang on the ramp, " + unit]
    )
    marks.append(words_mark(LEFT + width / 2, foot + 31, "middle", "slot length, " + unit))
    return marks


@procedure("Edge of the slots without a valve on a window chart")
def bare_edge(note_rows: Sequence[Sequence[float]], frame: Sequence[float], width: float) -> float:
    """Give how far across the slots reach that go without: the left edge where none does."""
    last = -1
    for i in range(len(note_rows)):
        if note_rows[i][3] == WITHOUT:
            last = i
    if last < 0:
        return LEFT
    end = frame[1]
    if last + 1 < len(note_rows):
        end = (note_rows[last][0] + note_rows[last + 1][0]) / 2
    return axis_place(end, frame[0], frame[1], LEFT, width)


@procedure("Where the words of a window chart begin")
def words_edge(note_rows: Sequence[Sequence[float]], frame: Sequence[float], width: float) -> float:
    """Give the edge of the slots without a valve, or the left one where they leave no room."""
    edge = bare_edge(note_rows, frame, width)
    return edge if edge < LEFT + width / 2 else LEFT


@procedure("Band of a window chart")
def window_band(
    note_rows: Sequence[Sequence[float]], frame: Sequence[float], width: float, height: float
) -> list[list[str]]:
    """Give the band between droops and chokes: a region, an upright line a slot, dashed edges."""
    foot = TOP + height
    xs = [axis_place(row[0], frame[0], frame[1], LEFT, width) for row in note_rows]
    lows = [axis_place(row[1], 0, frame[2], foot, -height) for row in note_rows]
    highs = [axis_place(max(row[1], row[2]), 0, frame[2], foot, -height) for row in note_rows]
    marks = [["region", band_said(xs, lows, highs)]]
    for i in range(len(xs)):
        marks.append(["line", places_said([xs[i], xs[i]], [lows[i], highs[i]]), "0.4", ""])
    marks.append(["line", places_said(xs, lows), "1.2", "5 2"])
    marks.append(["line", places_said(xs, highs), "1.2", "5 2"])
    x = words_edge(note_rows, frame, width) + 5
    marks.append(words_mark(x, TOP + 13, "start", "above: chokes"))
    marks.append(words_mark(LEFT + width - 5, foot - 6, "end", "below: droops"))
    return marks


@procedure("Stocks of a window chart")
def window_stocks(
    note_rows: Sequence[Sequence[float]],
    stock_bends: Sequence[float],
    stock_names: Sequence[str],
    frame: Sequence[float],
    width: float,
    height: float,
) -> list[list[str]]:
    """Give a level line a stock, its name where the band is not, and a point where it is chosen.

    A name stands over its line at the left where the band lies lower, else under it at the right.
    A filled point is a stock alone, a ring one with a topper or a helper.
    """
    foot = TOP + height
    marks: list[list[str]] = []
    ys = [axis_place(bends, 0, frame[2], foot, -height) for bends in stock_bends]
    edge = words_edge(note_rows, frame, width)
    band_top = 0.0
    for row in note_rows:
        if axis_place(row[0], frame[0], frame[1], LEFT, width) <= edge + NAMED:
            band_top = max(band_top, max(row[1], row[2]))
    on_left = [1 if bends >= band_top else 0 for bends in stock_bends]
    for side in (0, 1):
        places = [i for i in range(len(ys)) if on_left[i] == side]
        beside = -4 if side == 1 else LINE + 2
        kept = kept_apart([ys[i] + beside for i in places], LINE, TOP + 13 + LINE, foot - 6 - LINE)
        for j in range(len(places)):
            i = places[j]
            marks.append(["line", places_said([LEFT, LEFT + width], [ys[i], ys[i]]), "1", ""])
            marks.append(
                words_mark(
                    edge + 5 if side == 1 else LEFT + width - 5,
                    kept[j],
                    "start" if side == 1 else "end",
                    stock_names[i],
                )
            )
    for row in note_rows:
        if row[4] > 0:
            x = axis_place(row[0], frame[0], frame[1], LEFT, width)
            y = axis_place(row[4], 0, frame[2], foot, -height)
            filled = "yes" if row[3] == ONE_STOCK else "no"
            inner = "yes" if row[3] == WITH_TOPPER else "no"
            marks.append(["dot", printed(x, 1), printed(y, 1), filled, inner])
    return marks


@procedure("Slots without a valve on a window chart")
def window_bare(
    note_rows: Sequence[Sequence[float]], frame: Sequence[float], width: float, height: float
) -> list[list[str]]:
    """Give slanted lines over the slots that go without, and the words for them."""
    marks: list[list[str]] = []
    x_2 = bare_edge(note_rows, frame, width)
    if x_2 == LEFT:
        return marks
    foot = TOP + height
    marks.append(["line", places_said([x_2, x_2], [TOP, foot]), "1.4", "2 3"])
    y = TOP + LINE
    while y < foot:
        fall = min(x_2 - LEFT, foot - y)
        marks.append(["line", places_said([LEFT, LEFT + fall], [y, y + fall]), "0.5", ""])
        y = y + LINE
    edge = words_edge(note_rows, frame, width)
    said = "no valve" if edge == LEFT else "left: no valve"
    marks.append(words_mark(edge + 5, foot - 6, "start", said))
    return marks


@procedure("The window of a rank as marks of a drawing")
def window_marks(
    note_rows: Sequence[Sequence[float]],
    stock_bends: Sequence[float],
    stock_names: Sequence[str],
    drawing_size: Sequence[float],
    each: float,
    unit: str,
) -> list[list[str]]:
    """Give all marks of the chart, what lies behind first.

    `note_rows` are, the shortest slot first: slot length, least and most bending length, the
    kind of answer, and the bending length of what was chosen (nought: none); in m. `stock_bends`
    are those of the stocks that were measured; `each` is the unit of the axes in m.
    """
    width = drawing_size[0] - LEFT - RIGHT
    height = drawing_size[1] - TOP - FOOT
    frame = window_frame(note_rows, stock_bends, height)
    marks: list[list[str]] = []
    for layer in (
        window_band(note_rows, frame, width, height),
        window_bare(note_rows, frame, width, height),
        window_axes(frame, width, height, each, unit),
        window_stocks(note_rows, stock_bends, stock_names, frame, width, height),
    ):
        for mark in layer:
            marks.append(mark)  # noqa: PERF402 - the page's script has no extend
    return marks


@procedure("One slot of a window chart")
def chart_row(
    length: float,
    window: Sequence[float],
    answer: Sequence[int],
    valve_stocks: Sequence[Sequence[float]],
) -> list[float]:
    """Give slot length, window, kind of answer and bending length of what was chosen.

    `answer` is kind, stock and topper, as `deciding.decided` gives them.
    """
    bends = 0.0
    if answer[0] == ONE_STOCK or answer[0] == WITH_HELPER:
        bends = valve_stocks[answer[1]][1]
    if answer[0] == WITH_TOPPER:
        bends = topped(valve_stocks[answer[1]], valve_stocks[answer[2]])[1]
    return [length, window[0], window[1], answer[0], bends]


@procedure("A window chart in words")
def chart_words(note_rows: Sequence[Sequence[float]], said: Sequence[str], us: bool) -> str:
    """Say what the chart shows; `said` are the runs of notes with their windows."""
    text = (
        "Chart. Across: slot length, "
        + long_said(note_rows[0][0], us)
        + " to "
        + long_said(note_rows[len(note_rows) - 1][0], us)
        + ". Up: bending length at the left, overhang on the ramp at the right. Between two dashed"
        + " lines a stock serves: above them it chokes, below them it droops."
    )
    for one in said:
        text = text + " " + one + "."
    return text


@procedure("Rows of a window chart")
def chart_rows(note_rows: Sequence[Sequence[float]]) -> list[Sequence[float]]:
    """Give the rows by their slot length, the shortest first."""
    return sorted(note_rows, key=lambda row: row[0])
