"""The ramp at true size: two cheeks to glue on card or board, the strip, and a ruler."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from site_builder.true_scale.marks import Page, room_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog

SHELF = 45.0  # of the cheek before the edge, where the strip lies
RULER = 170.0  # as long as both papers have room for
STEP = 10
TOLD = (
    "Glue this page on card or thin board, cut along the lines, make two cheeks and join them",
    "with cross pieces as wide as the strip and a little more. The edge must be sharp and level.",
    "Check the angle with a set square: the fall over the run is printed beside the slope.",
)


def ramp_page(catalog: Catalog, paper: str) -> Page:
    """Draw the ramp's cheek, a strip and a ruler; the angle is the figure's."""
    page, room = Page("Ramp for the ruler-and-ramp test", TOLD), room_of(paper)
    (angle, _), (run, _) = catalog.span("ramp-angle", "deg"), catalog.span("ramp-run", "mm")
    fall = run * math.tan(math.radians(angle))
    left, top = room.left + 2, room.top + 6
    edge = (left + SHELF, top)
    foot = (edge[0] + run, top + fall)
    page.shape((left, top), edge, foot, (left, foot[1]), width=0.35)
    page.say(left + 3, top + 6, "the strip lies here")
    page.say(left + 3, top + 12, "cheek: cut two", bold=True)
    page.say(edge[0] - 8, top - 2, "edge")
    page.say(edge[0] + 6, top + fall - 8, f"{angle:g} degrees")
    page.say(edge[0] + 6, top + fall - 3, f"run {run:g} mm, fall {fall:.1f} mm")
    page.line(edge, (edge[0], foot[1]), dash=True)
    below = foot[1] + 16
    _ruler(page, left, below)
    _strip(page, catalog, left, below + 18)
    return page


def _ruler(page: Page, x: float, y: float) -> None:
    """Draw a ruler with a mark each millimetre; it begins at the edge of the ramp."""
    page.line((x, y), (x + RULER, y), width=0.35)
    for millimetre in range(int(RULER) + 1):
        long = 6.0 if millimetre % STEP == 0 else 4.5 if millimetre % 5 == 0 else 3.0
        page.line((x + millimetre, y), (x + millimetre, y + long), width=0.15)
        if millimetre % STEP == 0:
            page.say(x + millimetre + 0.4, y + 9, str(millimetre), size=2)
    page.say(x, y - 2, "ruler, millimetres: lay it on the shelf with nought at the edge")


def _strip(page: Page, catalog: Catalog, x: float, y: float) -> None:
    """Draw the outline of a strip, its width the figure's."""
    (width, _) = catalog.span("ramp-strip-width", "mm")
    page.box(x, y, RULER, width)
    page.say(x + 3, y + width / 2, "strip: cut along the backbone, mark face and end at once")
    page.say(x, y + width + 4, f"{width:g} mm wide; longer is better")
