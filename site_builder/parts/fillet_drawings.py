"""Line drawings of how wax is counted: the section of a fillet, a shared gap, a row of plates.

Shapes follow the share of the rectangle that the table gives; the rest is not to scale.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.units import printed
from site_builder.markup.elements import span
from site_builder.parts.charts import drawing
from site_builder.parts.panels import FOOT, Panel, panels
from site_builder.parts.strokes import (
    METAL,
    WAX,
    Point,
    block,
    line,
    pointer,
    shape,
    span_mark,
    wood,
    words,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog

# A panel is 160 wide: heights, then places across.
FACE, TOP = 60, 28
LEFT, TOE, EDGE, RIGHT = 8, 44, 96, 152
STEPS = 10
STRAIGHT = 0.5


def slope(share: float, toe: float, edge: float) -> list[Point]:
    """Give a fillet that fills a share of its rectangle, from its toe up to the plate.

    Its height grows with a power of the way in: a power of n fills 1/(n + 1).
    """
    power = 1 / share - 1
    ways = [step / STEPS for step in range(STEPS + 1)]
    return [
        (toe + way * (edge - toe), FACE - (FACE - TOP) * way**power) for way in ways
    ] + [(edge, FACE)]  # fmt: skip


def _one(share: float) -> list[Element]:
    """Draw a fillet beside a plate, with the rectangle that it fills a share of."""
    rectangle = ((TOE, FACE), (TOE, TOP), (EDGE, TOP))
    return [
        wood(LEFT, FACE, RIGHT, FOOT),
        block(EDGE, TOP, RIGHT, FACE, METAL),
        shape(*slope(share, TOE, EDGE), fill=WAX),
        line(*rectangle, width=0.6, dash="3 2"),
    ]


def _percent(share: float) -> str:
    return f"{printed(100 * share, 0)} %"


def section(catalog: Catalog) -> Element:
    """Draw the section of a fillet: its measures, and how full it may be."""
    low, high = catalog.span("fillet-shape", "dimensionless")
    fillet = catalog.figures["fillet"]
    wide = span(fillet.low, fillet.high, fillet.unit)
    measured = [
        span_mark((TOE, FACE + 9), (EDGE, FACE + 9)),
        line((TOE - 9, TOP), (TOE - 9, FACE), width=1),
        line((TOE - 13, TOP), (TOE - 5, TOP), width=1),
        line((TOE - 13, FACE), (TOE - 5, FACE), width=1),
        words((EDGE + 28, 48), "plate", anchor="middle", on_metal=True),
    ]
    pictures = [
        Panel("What is measured", (f"Width: {wide}.", "Height: the plate's own."), [
            *_one(STRAIGHT), *measured]),
        Panel("Hollow", (f"{_percent(low)} of the rectangle:", "run thin, or wiped."), _one(low)),
        Panel("Straight", ("Half of the rectangle.",), _one(STRAIGHT)),
        Panel("Heaped", (f"{_percent(high)} of the rectangle:", "run cool, or twice."), _one(high)),
    ]  # fmt: skip
    told = (
        "Four sections of a fillet beside the edge of a plate, each with its rectangle in dashes: "
        "the width of the fillet and the thickness of the plate. A straight slope fills half of "
        "it, a hollow fillet less, a heaped one more."
    )
    return panels("The section of a fillet, and how full it may be", told, *pictures)


NARROW = (72, 88)
WIDE_GAP = (44, 116)


def _two(gap: Sequence[float], *waxes: Sequence[Point]) -> list[Element]:
    """Draw two plates with a gap between them, and wax."""
    left, right = gap
    return [
        wood(LEFT, FACE, RIGHT, FOOT),
        block(LEFT, TOP, left, FACE, METAL),
        block(right, TOP, RIGHT, FACE, METAL),
        *(shape(*places, fill=WAX) for places in waxes),
    ]


def _mirrored(places: Sequence[Point], about: float) -> list[Point]:
    return [(2 * about - x, y) for x, y in places]


def shared_gap(_: Catalog) -> Element:
    """Draw wax between two plates: narrow and wide, right and wrong."""
    full = ((72, FACE), (72, TOP), (88, TOP), (88, FACE))
    bridge = (
        (64, 20), (96, 20), (96, TOP), (88, TOP), (86, 37), (80, 40), (74, 37), (72, TOP),
        (64, TOP),
    )  # fmt: skip
    toward_right = slope(STRAIGHT, 86, 116)
    both = (_mirrored(toward_right, 80), toward_right)
    over = (
        (30, TOP), (35, 23), (60, 19), (100, 19), (125, 23), (130, TOP), (116, TOP), (116, FACE),
        (44, FACE), (44, TOP),
    )  # fmt: skip
    pictures = [
        Panel("Narrow: run full", ("Level with both plates,", "half of it for each."), [
            *_two(NARROW, full)], good=True),
        Panel("Bridged", ("Wax on top, air below:", "both plates leak."), [
            *_two(NARROW, bridge)], good=False),
        Panel("Wide: two fillets", ("Each plate has its own,", "wood shows between them."), [
            *_two(WIDE_GAP, *both)], good=True),
        Panel("Filled over the top", ("Far more wax, and rims", "and edges are hidden."), [
            *_two(WIDE_GAP, over)], good=False),
    ]  # fmt: skip
    told = (
        "Four sections across the gap between two plates. Right: a narrow gap is full of wax level "
        "with the plates, and a wide one has a fillet at each plate. Wrong: wax that bridges the "
        "top of a narrow gap with air below it, and a wide gap heaped over the rims of both plates."
    )
    return panels("Wax between two plates", told, *pictures)


def counted(catalog: Catalog) -> Element:
    """Draw a row of plates from above: where a whole fillet counts and where half a gap does."""
    low, high = catalog.span("plate-gap", "mm")
    top, foot, rim = 40, 118, 9
    lefts, wide = (40, 104, 168), 58
    ends = lefts[-1] + wide
    fillet = shape(
        (lefts[0] - rim, top - rim), (ends + rim, top - rim), (ends + rim, foot + rim),
        (lefts[0] - rim, foot + rim), fill=WAX,
    )  # fmt: skip
    plates = [block(left, top, left + wide, foot, METAL) for left in lefts]
    said = [
        words((2, 14), "free side: a whole fillet"), pointer((30, 18), (35, 70)),
        words((168, 14), "ends: a whole fillet"), pointer((196, 18), (196, 35)),
        words((31, 144), f"gap: run full, half for each, {span(low, high, 'mm')}"),
        pointer((165, 134), (165, 96)),
        words((31, 159), "Corners and laps over rims are not counted."),
    ]  # fmt: skip
    told = (
        "Three plates side by side, from above, with wax round them. At the ends of each plate and "
        "at the outer sides of the row a whole fillet counts; in each gap between two plates the "
        "wax is shared."
    )
    title = "What counts round a row of plates"
    return drawing(title, told, fillet, *plates, *said, size="0 0 340 166")


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "fillet-section": section,
    "shared-gap": shared_gap,
    "wax-counted": counted,
}
"""The drawings of how wax is counted, by name."""
