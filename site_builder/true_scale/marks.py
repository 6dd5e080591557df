"""What stands on a page of templates, in millimetres from its upper left corner."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from formulas.checks import PAPERS
from formulas.frozen import Frozen

Point = tuple[float, float]

SIDE, TOP, FOOT = 14.0, 34.0, 24.0  # margins of the drawing, below the head and above the foot


class Line(Frozen):
    """Straight pieces one after another; closed and hatched where it says so."""

    points: tuple[Point, ...]
    width: float = 0.25
    dash: bool = False
    closed: bool = False
    fill: float = 1.0


class Words(Frozen):
    """One line of words from its baseline."""

    x: float
    y: float
    text: str
    size: float = 2.4
    bold: bool = False


@dataclass
class Page:
    """One page: its title, what to know of it, and the marks; `true` where it is at true size."""

    title: str
    told: Sequence[str]
    true: bool = True
    lines: list[Line] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)

    def line(self, *points: Point, width: float = 0.25, dash: bool = False) -> None:
        """Draw straight pieces."""
        self.lines.append(Line(points, width, dash))

    def shape(self, *points: Point, width: float = 0.25, fill: float = 1.0) -> None:
        """Draw a closed shape; `fill` is its paper, white by default."""
        self.lines.append(Line(points, width, closed=True, fill=fill))

    def box(self, x: float, y: float, width: float, height: float, fill: float = 1.0) -> None:
        """Draw an upright rectangle by its upper left corner."""
        corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
        self.shape(*corners, fill=fill)

    def say(self, x: float, y: float, text: str, size: float = 2.4, bold: bool = False) -> None:
        """Write a line of words."""
        self.words.append(Words(x, y, text, size, bold))

    def arrow(self, x: float, y: float, length: float) -> None:
        """Draw an arrow that points up the page: the way of the backbone."""
        self.line((x, y + length), (x, y))
        self.line((x - 1, y + 2), (x, y), (x + 1, y + 2))


class Room(Frozen):
    """The room of a page for drawing, in millimetres."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """From the left to the right end."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From the upper to the lower end."""
        return self.bottom - self.top


def room_of(paper: str) -> Room:
    """Give the room for drawing on a sheet of paper."""
    width, height = PAPERS[paper]
    return Room(SIDE, TOP, width - SIDE, height - FOOT)
