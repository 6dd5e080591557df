"""How far a caption stands below its drawing: some drawings end at their lowest stroke."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from xml.etree.ElementTree import Element

AIR_PT = 10.0  # from the lowest stroke to the caption
LEAST_PT = 2.1  # below the view box, however much air is in it
DESCENDER = 0.25  # of the size of type: what letters reach below their line
TYPE = 11.0  # units, where a drawing names no size
MOVED = re.compile(r"translate\(\s*[-\d.]+[\s,]+([-\d.]+)\s*\)")


def caption_gap(drawing: Element, scale: float) -> float:
    """Give the points between view box and caption; `scale` is points a unit."""
    _, top, _, height = map(float, drawing.get("viewBox", "").split())
    low = max(_lowest(drawing, 0.0), default=top + height)
    return max(LEAST_PT, AIR_PT - (top + height - low) * scale)


def _lowest(element: Element, moved: float) -> Iterator[float]:
    """Give how low each part reaches; a path is left out, its numbers are not all places."""
    shift = MOVED.fullmatch(element.get("transform", ""))
    moved += float(shift[1]) if shift else 0.0
    y = float(element.get("y", "0"))
    if element.tag in ("text", "tspan") and element.text and element.get("y"):
        yield moved + y + DESCENDER * float(element.get("font-size", TYPE))
    elif element.tag == "rect":
        yield moved + y + float(element.get("height", "0"))
    elif element.tag == "circle":
        yield moved + float(element.get("cy", "0")) + float(element.get("r", "0"))
    elif element.tag in ("polyline", "polygon"):
        numbers = re.split(r"[\s,]+", element.get("points", "").strip())
        yield from (moved + float(one) for one in itertools.islice(numbers, 1, None, 2))
    for child in element:
        yield from _lowest(child, moved)
