"""Strokes of a printed page in millimetres from its top left, read by an outside program.

The layout draws what is written on in one hand: a hair line half a point wide, in one grey. A
line to write on is such a stroke alone; a cell to write in lies between four of them.
"""

from __future__ import annotations

import ctypes
import itertools
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pypdfium2 as pdfium
from pypdfium2 import raw

POINTS_A_MM = 72 / 25.4
HAIR_PT, HAIR_GREY = 0.5, 115  # 45 % of 255
HEAD_MM, FOOT_MM = 21.0, 20.0  # above and below lie the running head and foot with their rules
TOUCH_MM = 0.3
FOOT = re.compile(r"([A-Z]-\d\d) · (\d+) of \d+")


@dataclass(frozen=True)
class Stroke:
    """A straight stroke: where it lies across its own direction, and from where to where."""

    at: float
    start: float
    end: float

    @property
    def length(self) -> float:
        """How long it is."""
        return self.end - self.start

    def reaches(self, at: float) -> bool:
        """Whether it passes or ends at a place along it."""
        return self.start - TOUCH_MM <= at <= self.end + TOUCH_MM

    def meets(self, other: Stroke) -> bool:
        """Whether a stroke of the other direction crosses or touches it."""
        return self.reaches(other.at) and other.reaches(self.at)


@dataclass(frozen=True)
class Cell:
    """A cell of a ruled table: its upper edge, its sides, and the words in it."""

    top: float
    height: float
    width: float
    words: str


@dataclass(frozen=True)
class Written:
    """What a pencil finds on one page: lines to write on, and cells of ruled tables."""

    leaf: str
    lines: list[Stroke]
    cells: list[Cell]

    @property
    def blanks(self) -> list[Cell]:
        """The cells with nothing in them."""
        return [cell for cell in self.cells if not cell.words]


def written_on(path: Path) -> list[Written]:
    """Read every page of a leaf; the leaf is named by the page's own foot."""
    found = []
    with pdfium.PdfDocument(path) as document:
        for page in document:
            width, _ = page.get_size()
            foot = page.get_textpage().get_text_bounded(0, 0, width, FOOT_MM * POINTS_A_MM)
            named = FOOT.search(foot)
            if named:
                found.append(_page(page, named[1]))
    return found


def _page(page: pdfium.PdfPage, leaf: str) -> Written:
    height = page.get_height() / POINTS_A_MM
    level, upright = _hairs(page, height)
    ruled = [one for one in level if any(one.meets(other) for other in upright)]
    lines = [one for one in level if one not in ruled]
    text = page.get_textpage()

    def words(left: float, top: float, right: float, bottom: float) -> str:
        box = (left, height - bottom, right, height - top)
        return str(text.get_text_bounded(*(POINTS_A_MM * side for side in box))).strip()

    return Written(leaf, lines, list(_cells(ruled, upright, words)))


def _cells(ruled: list[Stroke], upright: list[Stroke], words) -> Iterator[Cell]:
    for top in ruled:
        below = [
            one.at
            for one in ruled
            if one.at > top.at + 1 and one.start < top.end - 1 and one.end > top.start + 1
        ]
        if not below:
            continue
        bottom = min(below)
        sides = sorted(
            one.at
            for one in upright
            if one.reaches(top.at) and one.reaches(bottom) and top.reaches(one.at)
        )
        for left, right in itertools.pairwise(sides):
            said = words(left + 0.4, top.at + 0.4, right - 0.4, bottom - 0.4)
            yield Cell(top.at, bottom - top.at, right - left, said)


def _hairs(page: pdfium.PdfPage, height: float) -> tuple[list[Stroke], list[Stroke]]:
    """Give the level and the upright hair lines between head and foot, pieces put together."""
    level, upright = [], []
    for points in _paths(page):
        for (x, y), (right, down) in itertools.pairwise(points):
            above, under = height - y, height - down
            if abs(above - under) < 0.05 and HEAD_MM < above < height - FOOT_MM:
                level.append(Stroke(above, min(x, right), max(x, right)))
            elif abs(x - right) < 0.05:
                upright.append(Stroke(x, min(above, under), max(above, under)))
    return _joined(level), _joined(upright)


def _joined(strokes: Iterable[Stroke]) -> list[Stroke]:
    joined: list[Stroke] = []
    for one in sorted(strokes, key=lambda one: (round(one.at, 1), one.start)):
        last = joined[-1] if joined else None
        if last and abs(last.at - one.at) < TOUCH_MM and one.start <= last.end + TOUCH_MM:
            joined[-1] = Stroke(last.at, last.start, max(last.end, one.end))
        else:
            joined.append(one)
    return joined


def _paths(page: pdfium.PdfPage) -> Iterator[list[tuple[float, float]]]:
    """Give the points of each hair line in millimetres; what bends is none, as a ring of words."""
    for path in page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH], max_depth=1):
        if not _is_hair(path):
            continue
        matrix, points = path.get_matrix(), []
        for place in range(raw.FPDFPath_CountSegments(path)):
            segment = raw.FPDFPath_GetPathSegment(path, place)
            if raw.FPDFPathSegment_GetType(segment) == raw.FPDF_SEGMENT_BEZIERTO:
                points = []
                break
            x, y = ctypes.c_float(), ctypes.c_float()
            raw.FPDFPathSegment_GetPoint(segment, x, y)
            points.append(tuple(side / POINTS_A_MM for side in matrix.on_point(x.value, y.value)))
        yield points


def _is_hair(path: pdfium.PdfObject) -> bool:
    width = ctypes.c_float()
    raw.FPDFPageObj_GetStrokeWidth(path, width)
    red, green, blue, alpha = (ctypes.c_uint() for _ in range(4))
    raw.FPDFPageObj_GetStrokeColor(path, red, green, blue, alpha)
    return abs(width.value - HAIR_PT) < 0.01 and abs(red.value - HAIR_GREY) <= 1
