"""Strokes that line drawings share: what is wood, metal, wax is told by its pattern, not colour."""

from __future__ import annotations

from collections.abc import Iterable
from xml.etree.ElementTree import Element

from formulas.units import printed
from site_builder.markup.elements import element

Point = tuple[float, float]

INK, QUIET, PAPER = "#1a1a1a", "#555555", "#ffffff"
WAX, METAL = "#c9cdcd", "#4a4a4a"
SMALL = 11  # size of type; at 340 units wide a unit is a pixel of the narrowest screen
SPACING = 13


def points(places: Iterable[Point]) -> str:
    """Write places as a drawing has them."""
    return " ".join(f"{printed(x, 1)},{printed(y, 1)}" for x, y in places)


def line(*places: Point, width: float = 1, dash: str = "", stroke: str = INK) -> Element:
    """Draw a line through places."""
    return element(
        "polyline",
        points=points(places),
        fill="none",
        stroke=stroke,
        **{"stroke-width": f"{width:g}", "stroke-dasharray": dash},
    )


def shape(*places: Point, fill: str = PAPER, width: float = 0.8) -> Element:
    """Draw a closed shape."""
    return element(
        "polygon", points=points(places), fill=fill, stroke=INK, **{"stroke-width": f"{width:g}"}
    )


def block(left: float, top: float, right: float, foot: float, fill: str = PAPER) -> Element:
    """Draw an upright rectangle between its edges."""
    return shape((left, top), (right, top), (right, foot), (left, foot), fill=fill)


def wood(left: float, top: float, right: float, foot: float) -> Element:
    """Draw a piece of wood: an outline with grain."""
    grain = [
        line((left, y), (right, y), width=0.4, stroke=QUIET)
        for y in _between(top, foot, 5)
        if right - left > 3
    ]
    return element("g", block(left, top, right, foot), *grain)


def vapour(*places: Point) -> Element:
    """Draw the way of vapour, broken."""
    return line(*places, width=1.2, dash="4 3", stroke=QUIET)


def _between(first: float, last: float, step: float) -> list[float]:
    count = int((last - first) / step)
    return [first + step * place for place in range(1, count + 1) if first + step * place < last]


RIM = {
    "stroke": PAPER,
    "stroke-width": "3",
    "stroke-linejoin": "round",
    "paint-order": "stroke",
}


def words(
    place: Point,
    *lines: str,
    anchor: str = "start",
    bold: bool = False,
    on_metal: bool = False,
) -> Element:
    """Write lines of text, the first at a place, with a rim of paper round the letters.

    On dark metal they are white, and without a rim.
    """
    x, y = place
    rim, fill = ({}, PAPER) if on_metal else (RIM, INK)
    look = {
        **rim,
        "text-anchor": anchor,
        "font-size": f"{SMALL}",
        "font-weight": "bold" if bold else "",
    }
    return element(
        "g",
        *(
            element(
                "text", text, x=printed(x, 1), y=printed(y + row * SPACING, 1), fill=fill, **look
            )
            for row, text in enumerate(lines)
        ),
    )


def pointer(start: Point, end: Point) -> Element:
    """Draw a thin line from words to what they name, with a dot at its end."""
    x, y = end
    dot = element("circle", cx=printed(x, 1), cy=printed(y, 1), r="1.8", fill=INK)
    return element("g", line(start, end, width=0.7), dot)


def arrow(start: Point, end: Point) -> Element:
    """Draw an arrow."""
    (x1, y1), (x2, y2) = start, end
    length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    along, across = (x2 - x1) / length, (y2 - y1) / length
    head = [
        (x2, y2),
        (x2 - 7 * along - 3 * across, y2 - 7 * across + 3 * along),
        (x2 - 7 * along + 3 * across, y2 - 7 * across - 3 * along),
    ]
    shaft = line(start, (x2 - 5 * along, y2 - 5 * across), width=1.5)
    return element("g", shaft, shape(*head, fill=INK, width=0.1))


def span_mark(left: Point, right: Point) -> Element:
    """Draw a level measure between two places: a line with an upright stroke at each end."""
    (x1, y), (x2, _) = left, right
    ends = [line((x, y - 4), (x, y + 4)) for x in (x1, x2)]
    return element("g", line((x1, y), (x2, y)), *ends)


def tick(place: Point) -> Element:
    """Draw the mark of what is right."""
    x, y = place
    return line((x, y - 4), (x + 4, y), (x + 11, y - 9), width=2.4)


def cross(place: Point) -> Element:
    """Draw the mark of what is wrong."""
    x, y = place
    strokes = (line((x, y), (x + 9, y - 9), width=2.4), line((x, y - 9), (x + 9, y), width=2.4))
    return element("g", *strokes)


def moved(x: float, y: float, *marks: Element) -> Element:
    """Draw marks with their origin elsewhere."""
    return element("g", *marks, transform=f"translate({printed(x, 1)} {printed(y, 1)})")
