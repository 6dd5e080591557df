"""Line drawings of fitting and testing: laying down, the gap, the paper strip, the box.

A drawing shows where things are; it is not to scale, and a measure in it comes from the tables.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import element, span
from site_builder.parts.charts import drawing
from site_builder.parts.panels import Panel, panels
from site_builder.parts.strokes import (
    INK,
    METAL,
    PAPER,
    WAX,
    arrow,
    block,
    line,
    moved,
    pointer,
    shape,
    wood,
    words,
)
from site_builder.parts.valve_drawings import (
    FOOT,
    LYING,
    ROOT,
    TIP,
    cut_plate,
    glue,
    valve,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog


def figure(catalog: Catalog, name: str) -> str:
    """Give a figure of the tables with its unit."""
    one = catalog.figures[name]
    return span(one.low, one.high, one.unit)


def laying(_: Catalog) -> Element:
    """Draw how a valve is laid on its land, and how a tongue gets pushed."""
    held = [
        *cut_plate(), glue(), valve((*ROOT, (TIP, LYING - 22))),
        line((TIP - 6, LYING - 30), (TIP + 1, LYING - 22), (TIP + 14, LYING - 28), width=1.2),
        arrow((32, 22), (32, 38)),
    ]  # fmt: skip
    pressed = [
        *cut_plate(), glue(), valve((*ROOT, (66, LYING - 1), (88, LYING + 14), (TIP, LYING))),
        line((22, FOOT + 2), (80, FOOT + 10), (118, FOOT + 22), width=1, dash="3 2"),
        arrow((88, 22), (88, 50)),
    ]  # fmt: skip
    pictures = [
        Panel("root first", ("Tip up; press the land,", "then let the tip down."), held,
              good=True),
        Panel("pressed on the slot", ("It sinks in and pushes", "the tongue below."),
              pressed, good=False),
    ]  # fmt: skip
    told = (
        "Two sections along a slot. Right: the root of the valve is pressed on its glued land "
        "while tweezers hold the tip up. Wrong: a finger presses over the slot, the valve sinks "
        "into it and pushes the tongue on the other face."
    )
    return panels("Lay it down from the root", told, *pictures)


def strip(catalog: Catalog) -> Element:
    """Draw the paper strip that holds a valve open while its note is sounded."""
    marks = [
        moved(
            74, 30, *cut_plate(), glue(),
            valve((*ROOT, (60, LYING - 5), (96, LYING - 10), (TIP, LYING - 18))),
            shape((TIP - 8, LYING - 14), (TIP + 40, LYING - 14), (TIP + 40, LYING + 1),
                  (TIP - 8, LYING + 1), fill=PAPER),
            *(line((TIP - 8, y), (TIP + 40, y), width=0.5) for y in (32, 36, 40)),
        ),
        words((2, 16), "own valve, held off"), pointer((110, 20), (150, 66)),
        words((338, 16), "folded paper at its tip,", f"high {figure(catalog, 'strip-lift')}",
              anchor="end"),
        pointer((264, 34), (236, 60)),
        words((2, 122), "its tongue, free: the paper ends on metal"),
        pointer((130, 112), (140, 96)),
    ]  # fmt: skip
    told = (
        "A section along one slot. A small pad of folded paper lies on the metal beyond the tip of "
        "the slot and holds the tip of the own valve off the plate. The paper does not reach over "
        "the slot, and the tongue on the other face is free."
    )
    return drawing("Hold the own valve open with paper", told, *marks, size="0 0 340 130")


def gap(_: Catalog) -> Element:
    """Draw how the gap under a hanging valve is read."""
    marks = [
        block(70, 44, 112, 60, METAL), block(184, 44, 270, 60, METAL),
        block(82, 60, 106, 62, INK),
        line((82, 63), (116, 64), (150, 70), (196, 84), width=2.4),
        line((96, 42), (181, 40), width=2),
        line((200, 60), (212, 60), width=1), line((200, 84), (212, 84), width=1),
        line((206, 60), (206, 84), width=1),
        block(216, 62, 226, 118, PAPER),
        *(line((216, y), (221, y), width=0.6) for y in range(66, 116, 4)),
        words((2, 16), "plate held level, the valve below it"), pointer((90, 20), (90, 42)),
        words((236, 82), "gap: from metal", "to tip"),
        words((236, 114), "rule, beside it"),
        words((2, 92), "edge of the glue:", "clamp a trial strip", "along this line"),
        pointer((84, 82), (106, 64)),
    ]  # fmt: skip
    told = (
        "A plate held level with its valve below it, cut along the slot. The valve hangs from the "
        "edge of its glue. The gap is read at the tip, from the metal to the valve, against a rule "
        "that stands beside it and touches nothing."
    )
    return drawing("Read the gap at the tip", told, *marks, size="0 0 340 128")


def box(_: Catalog) -> Element:
    """Draw the test box: one slot over a soft rim, a bulb and a bent tube at its side."""
    plate = [
        block(60, 58, 96, 70, METAL), block(168, 58, 210, 70, METAL),
        line((66, 56), (172, 56), width=2.4),
        line((72, 72), (164, 74), width=2),
    ]  # fmt: skip
    marks = [
        block(60, 70, 72, 84, PAPER), block(198, 70, 210, 84, PAPER),
        wood(50, 84, 72, 140), wood(198, 84, 220, 140), wood(50, 140, 220, 152),
        *plate,
        block(220, 112, 252, 120, PAPER),
        element("ellipse", cx="276", cy="116", rx="26", ry="18", fill=PAPER, stroke=INK),
        line((28, 120), (50, 120), width=1), line((28, 128), (50, 128), width=1),
        line((28, 120), (28, 160), (20, 168), (12, 160), (12, 96), width=1.2),
        shape((10, 132), (14, 132), (14, 160), (10, 160), fill=WAX),
        words((2, 14), "valve up; its tongue hangs", "free in the box"),
        pointer((120, 30), (120, 53)),
        words((338, 14), "tape over the other slot", anchor="end"),
        pointer((290, 18), (204, 55)),
        words((338, 44), "soft rim", anchor="end"), pointer((296, 46), (206, 76)),
        words((338, 84), "bulb", anchor="end"), pointer((316, 88), (286, 102)),
        words((2, 186), "bent tube with water, if you have one"),
    ]  # fmt: skip
    told = (
        "A wooden box with a soft rim on top, cut open. A plate lies on the rim, the valve to be "
        "tested up, its tongue hanging free in the box; tape covers the other slot. A squeezed "
        "bulb at the side draws air from the box, so the valve is drawn shut. A bent tube with "
        "water shows the suction."
    )
    return drawing("A test box for one valve", told, *marks, size="0 0 340 194")


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "lay-a-valve": laying,
    "paper-strip": strip,
    "gap-at-the-tip": gap,
    "valve-test-box": box,
}
