"""Small pictures two in a row, each marked right, wrong or neither."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from formulas.frozen import Frozen
from site_builder.parts.charts import drawing
from site_builder.parts.strokes import cross, moved, tick, words

FOOT = 84  # where the words of a panel begin, below its picture


class Panel(Frozen):
    """One small picture with its words; `good` draws a tick, False a cross, None neither.

    The words begin at `foot`, below the picture.
    """

    title: str
    told: Sequence[str]
    marks: Sequence[Element]
    good: bool | None = None
    foot: float = FOOT

    def drawn(self, x: float, y: float) -> Element:
        """Draw the panel at its place."""
        mark = {True: [tick((4, 11))], False: [cross((4, 11))], None: []}[self.good]
        head = words((20 if mark else 4, 11), self.title, bold=True)
        return moved(x, y, *mark, head, *self.marks, words((4, self.foot + 14), *self.told))


PANEL = 128  # height of a panel, with two lines below it


def panels(title: str, description: str, *pictures: Panel, height: float = PANEL) -> Element:
    """Set pictures two in a row."""
    rows = (len(pictures) + 1) // 2
    placed = [
        one.drawn(172 * (place % 2), 4 + height * (place // 2))
        for place, one in enumerate(pictures)
    ]
    size = f"0 0 340 {rows * height + 2:g}"
    return drawing(title, description, *placed, size=size)
