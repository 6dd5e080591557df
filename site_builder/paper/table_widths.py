"""Column widths of a printed table, from what its cells hold, so that none leaves the page."""

from __future__ import annotations

import functools
import math
import re
from collections.abc import Sequence

from formulas.frozen import Frozen

TEXT_WIDTH_MM = {"a4": 170.0, "letter": 175.9}  # 210 - 25 - 15; 215.9 - 25 - 15
INSET_MM = 3.2  # both sides of a cell
INSET_HIGH_MM = 2.6  # above and below
CAPITAL, LEADING = 0.65, 0.5  # of the lines of a cell, in ems
CHARACTER = 0.45  # mean width of a character, in ems
MILLIMETRES_A_POINT = 25.4 / 72
WORD, LINE = 1.3, 1.08  # what one word, and one line, may need above that mean
BLANK_CHARACTERS = 12  # room to write in where a cell is empty
SIZES_PT = (9.5, 9.0, 8.5, 8.0)
CHART_PT, CHART_INSET_MM = 8.5, 2.4  # of a chart to write in, as the layout sets them
SHORT = 10  # characters
TICKED_MM = 7.2  # a box to tick
LEAST_BLANK_MM = 25.0  # of a column of a chart that words are written into
WIDEST_TOLD_MM = 62.0  # a longer text of a chart takes more lines, and its row more height
DATE = re.compile(r"\d{4}\D\d\d\D\d\d")
DATE_CHARACTERS = 8  # what a day takes, in characters of a word: figures are no wider than the mean
ID_CHARACTERS = 0.88  # of a word's character: what one of an id takes, in type of one width
WHOLE_VALUE = 16  # characters of a number with its unit that stay in one line
HYPHEN = re.compile(r"-(?!\d)")  # a line ends behind a hyphen, but not before a digit
UNBROKEN_CHARACTERS = 700  # a cell with more text may run on over the page


def text_width(paper: str) -> float:
    """Give the width of the lines of a page, in points."""
    return TEXT_WIDTH_MM[paper] / MILLIMETRES_A_POINT


def breakable(text: str) -> bool:
    """Whether a cell holds so much that its row may be split between pages."""
    return len(text) > UNBROKEN_CHARACTERS


class Columns(Frozen):
    """Widths as Typst writes them, the size of type in points, and whether words may break.

    `high_mm` is about how high the table comes out.
    """

    widths: str
    size: float
    hyphenated: bool
    high_mm: float


def columns(
    rows: Sequence[Sequence[str]],
    paper: str,
    *,
    full: bool = False,
    sizes: Sequence[float] = SIZES_PT,
) -> Columns:
    """Fit a table to the page by what its cells hold.

    A table that fits keeps its natural widths. Another, and one that is to be written in
    (`full`), fills the line: each column gets its longest word, and shares what is left by how
    much text it holds. The type is made smaller only where the longest words do not fit side
    by side, and words are broken only where the smallest type is not small enough.
    """
    count = max(len(row) for row in rows)
    cells = [[row[place] if place < len(row) else "" for row in rows] for place in range(count)]
    longest = [max(len(text) or BLANK_CHARACTERS for text in column) for column in cells]
    words = [max(_longest_word(text) for text in column) for column in cells]
    room = TEXT_WIDTH_MM[paper] - count * INSET_MM
    fitting = (size for size in sizes if WORD * _character(size) * sum(words) <= room)
    size = next(fitting, sizes[-1])
    character = _character(size)
    hyphenated = WORD * character * sum(words) > room
    if not full and LINE * character * (sum(longest) + count) <= room:
        return Columns("auto, " * count, size, hyphenated, _height([1] * len(rows), size))
    least = [WORD * character * word for word in words]
    most = [room if full else LINE * character * (length + 1) for length in longest]
    weights = [_weight(column, length) for column, length in zip(cells, longest, strict=True)]
    widths = _shared(room, least, most, weights)
    written = "".join(f"{width + INSET_MM:.1f}fr, " for width in widths)
    lines = [_lines(row, widths, character) for row in rows]
    return Columns(written, size, hyphenated, _height(lines, size))


def _lines(row: Sequence[str], widths: Sequence[float], character: float) -> int:
    """Give about how many lines the fullest cell of a row takes."""
    filled = zip(row, widths, strict=False)  # a row may end before its last column
    return max(1, *(math.ceil(LINE * character * len(text) / width) for text, width in filled))


def _height(lines: Sequence[int], size: float) -> float:
    ems = sum((CAPITAL + LEADING) * count - LEADING for count in lines)
    return INSET_HIGH_MM * len(lines) + ems * size * MILLIMETRES_A_POINT


class ChartColumns(Frozen):
    """Widths of a chart in mm: of its printed columns as Typst writes them, of a wide blank one.

    A chart whose texts keep to one line has rows of a fixed height.
    """

    told: str
    wide: float
    fixed: bool


def chart_columns(
    rows: Sequence[Sequence[str]], ticked: int, blank: int, paper: str
) -> ChartColumns:
    """Fit a chart to the page: printed columns by their longest text, what is left to write in."""
    count = max(len(row) for row in rows)
    longest = [max(len(row[place]) for row in rows) for place in range(count)]
    needed = [CHART_INSET_MM + _one_line(length, CHART_PT) for length in longest]
    room = TEXT_WIDTH_MM[paper] - ticked * TICKED_MM
    most = WIDEST_TOLD_MM if blank else max(needed)
    widths = [min(width, most) for width in needed]
    left = room - (0 if ticked else LEAST_BLANK_MM * blank)
    if (not blank or not ticked) and sum(widths) > left:
        widths = [width * left / sum(widths) for width in widths]
    wide = (room - sum(widths)) / (blank - ticked) if blank > ticked else 0.0
    told = ", ".join(f"{width:.1f}" for width in widths)
    fits = all(width >= one - 0.01 for width, one in zip(widths, needed, strict=True))
    return ChartColumns(told, wide, fits)


def _one_line(length: int, size: float) -> float:
    """Give what a text of so many characters needs at the most: a long one is nearer its mean."""
    return (LINE if length > SHORT else WORD) * _character(size) * (length + 1)


def _shared(
    room: float, least: Sequence[float], most: Sequence[float], weights: Sequence[float]
) -> list[float]:
    """Share the room by weight, no column below its least or above what it can use."""
    widths = list(least)
    growing = set(range(len(least)))
    while growing and (left := room - sum(widths)) > 0.1:
        share = left / sum(weights[place] for place in growing)
        for place in sorted(growing):
            widths[place] += share * weights[place]
            if widths[place] >= most[place]:
                widths[place] = max(most[place], least[place])
                growing.discard(place)
    return widths


def _longest_word(text: str) -> int:
    """Give how many characters stay together: a short value stays whole, with its unit."""
    pieces = [piece for word in text.split(" ") for piece in _pieces(word)]
    return max(map(len, pieces), default=BLANK_CHARACTERS // 2)


@functools.lru_cache(maxsize=8192)
def _pieces(word: str) -> list[str]:
    if DATE.fullmatch(word):
        return [word[:DATE_CHARACTERS]]
    if "\N{NON-BREAKING HYPHEN}" in word:
        return [word[: math.ceil(ID_CHARACTERS * len(word))]]
    if "\N{NO-BREAK SPACE}" in word and len(word) <= WHOLE_VALUE:
        return [word]
    return HYPHEN.sub("- ", word).replace("/", "/ ").split()


def _weight(column: Sequence[str], longest: int) -> float:
    """How much a column gains by being wide: between its mean and its longest text."""
    filled = [len(text) for text in column if text] or [BLANK_CHARACTERS]
    return math.sqrt(longest * sum(filled) / len(filled))


def _character(size: float) -> float:
    return size * CHARACTER * MILLIMETRES_A_POINT
