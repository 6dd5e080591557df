"""Line drawings of a reed plate: both slots and their ends, ways of the air, how to take sizes.

A drawing shows where things are; it is not to scale, and a measure in it comes from the tables.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import element
from site_builder.parts.charts import drawing
from site_builder.parts.strokes import (
    INK,
    METAL,
    PAPER,
    QUIET,
    Point,
    arrow,
    block,
    line,
    pointer,
    span_mark,
    wood,
    words,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog

TONGUE, VALVE = "#d2d4d4", "#f3f3f3"
# Heights of the plate seen from above: its ends and those of its slots.
HEAD, FOOT, SLOT_HEAD, SLOT_FOOT = 40, 268, 76, 232
LEFT, RIGHT = (128, 152), (188, 212)  # the two slots, from side to side
SIDES = (106, 234)


def rivet(x: float, y: float) -> Element:
    """Draw the head of a rivet."""
    return element("circle", cx=f"{x:g}", cy=f"{y:g}", r="5", fill=METAL, stroke=INK)


def standing_mark(top: Point, foot: Point) -> Element:
    """Draw an upright measure between two places."""
    (x, y1), (_, y2) = top, foot
    ends = [line((x - 4, y), (x + 4, y)) for y in (y1, y2)]
    return element("g", line((x, y1), (x, y2)), *ends)


def far_valve(left: float, right: float, head: float, foot: float) -> Element:
    """Draw the outline of a valve on the other face."""
    corners = ((left, head), (right, head), (right, foot), (left, foot), (left, head))
    return line(*corners, width=1, dash="4 3", stroke=QUIET)


def plate_seen() -> Element:
    """Draw the plate from the outside: a tongue on this face at the left, a valve at the right."""
    (a, b), (c, d) = LEFT, RIGHT
    hatch = [line((c - 6, y + 8), (d + 6, y), width=0.6) for y in range(50, 66, 5)]
    return element(
        "g",
        block(SIDES[0], HEAD, SIDES[1], FOOT),
        block(a, SLOT_HEAD, b, SLOT_FOOT, METAL),
        block(a + 2, SLOT_HEAD + 3, b - 2, SLOT_FOOT + 24, TONGUE),
        rivet(140, SLOT_FOOT + 14),
        far_valve(a - 6, b + 6, SLOT_HEAD - 8, SLOT_FOOT + 28),
        block(c - 6, HEAD + 8, d + 6, SLOT_FOOT + 8, VALVE),
        *hatch,
        line((c, SLOT_HEAD), (d, SLOT_HEAD), (d, SLOT_FOOT), (c, SLOT_FOOT), (c, SLOT_HEAD),
             width=0.8, dash="4 3", stroke=QUIET),
    )  # fmt: skip


def two_slots(_: Catalog) -> Element:
    """Draw a plate from the outside, with the name of each slot, end and measure."""
    (a, b), (c, d) = LEFT, RIGHT
    named = [
        words((100, 34), "head", anchor="end", bold=True),
        words((170, 324), "foot: the end at the foot of the block", anchor="middle", bold=True),
        # on the left the slot of the inside valve
        words((2, 62), "tip of the", "tongue"), pointer((58, 66), (a + 8, SLOT_HEAD + 8)),
        words((2, 104), "slot of the", "inside valve:", "its tongue lies", "on this face"),
        pointer((76, 115), (a + 8, 122)),
        standing_mark((98, SLOT_HEAD), (98, SLOT_FOOT)),
        line((98, SLOT_HEAD), (a, SLOT_HEAD), width=0.5, dash="2 2"),
        line((98, SLOT_FOOT), (a, SLOT_FOOT), width=0.5, dash="2 2"),
        words((94, 168), "slot length", anchor="end"),
        words((2, 192), "inside valve,", "behind: drawn", "broken"),
        pointer((46, 216), (a - 6, 224)),
        words((2, 258), "rivet end at", "the foot"), pointer((66, 256), (136, SLOT_FOOT + 15)),
        # on the right the slot of the outside valve
        words((242, 28), "outside valve,", "glued at the", "rivet end of", "its slot, here"),
        words((242, 80), "the head"), pointer((240, 50), (d + 2, 60)),
        words((242, 122), "slot of the", "outside valve:", "its tongue is", "behind, with"),
        words((242, 174), "the rivet at", "the head"), pointer((240, 134), (d - 6, 134)),
        # measures across
        span_mark((b, 20), (c, 20)), words((170, 12), "wall", anchor="middle"),
        line((b, 24), (b, SLOT_HEAD), width=0.5, dash="2 2"),
        line((c, 24), (c, SLOT_HEAD), width=0.5, dash="2 2"),
        span_mark((a, 284), (b, 284)), words((140, 302), "slot width", anchor="middle"),
        line((a, SLOT_FOOT), (a, 280), width=0.5, dash="2 2"),
        line((b, SLOT_FOOT), (b, 280), width=0.5, dash="2 2"),
        span_mark((d, 284), (SIDES[1], 284)), words((223, 302), "edge land", anchor="middle"),
        line((d, SLOT_FOOT), (d, 280), width=0.5, dash="2 2"),
        line((SIDES[1], FOOT), (SIDES[1], 280), width=0.5, dash="2 2"),
    ]  # fmt: skip
    told = (
        "A reed plate seen from the outside of its block, head up. The left slot has its tongue on "
        "this face, riveted at the foot; its valve lies behind, inside the cell: it is the slot of "
        "the inside valve. The right slot is covered by its valve on this face, glued at the head, "
        "where the rivet of its tongue is on the face behind: it is the slot of the outside valve. "
        "Marked are slot length and width, the wall between the slots and the land at the edge."
    )
    return drawing("One plate, two slots", told, plate_seen(), *named, size="0 0 340 332")


def press_and_draw(_: Catalog) -> Element:
    """Draw a plate cut across, with the way of the air on press and draw, and the rooms."""
    metal = ((70, 132), (156, 186), (210, 272))
    plates = [block(left, 104, right, 122, METAL) for left, right in metal]
    section = [
        wood(40, 122, 88, 210), wood(252, 122, 300, 210), wood(88, 196, 252, 210),
        wood(40, 26, 300, 36),
        *plates,
        line((132, 101), (155, 101), width=2.5), line((187, 125), (210, 125), width=2.5),
        line((126, 125), (161, 125), width=2.2, dash="5 2"),
        line((181, 101), (216, 101), width=2.2, dash="5 2"),
    ]  # fmt: skip
    named = [
        words((170, 16), "bellows side: the next block, or the case", anchor="middle"),
        arrow((144, 54), (144, 94)), arrow((144, 132), (144, 166)),
        words((138, 60), "press", anchor="end", bold=True),
        arrow((198, 160), (198, 132)), arrow((198, 94), (198, 54)),
        words((204, 62), "draw", bold=True),
        standing_mark((294, 36), (294, 101)), words((289, 52), "outside", "space", anchor="end"),
        line((216, 101), (298, 101), width=0.5, dash="2 2"),
        standing_mark((236, 125), (236, 196)), words((231, 178), "cell", "depth", anchor="end"),
        line((212, 128), (240, 128), width=0.5, dash="2 2"),
        words((126, 84), "tongue", anchor="end"), pointer((112, 88), (136, 100)),
        words((208, 84), "outside valve"), pointer((226, 88), (212, 100)),
        words((92, 186), "inside valve"), pointer((128, 176), (134, 127)),
        words((170, 228), "cell side: the way to the key's hole", anchor="middle"),
    ]  # fmt: skip
    told = (
        "Section across one plate on its cell. On press the air goes in, past the tongue on the "
        "outer face, through its slot, and opens the inside valve into the cell; the outside valve "
        "is pressed shut. On draw it goes the other way, past the tongue on the inner face, and "
        "opens the outside valve. The cell depth is the room over the inside valve, the outside "
        "space the room over the outside one."
    )
    return drawing("Press and draw", told, *section, *named, size="0 0 340 236")


def held_off(_: Catalog) -> Element:
    """Draw a plate on two strips of card over the glass of a scanner, a rule beside it."""
    marks = [
        words((155, 14), "plate: the face to be read looks down", anchor="middle"),
        pointer((155, 18), (155, 50)),
        block(20, 74, 320, 86, PAPER), words((270, 102), "glass, no lid", anchor="middle"),
        block(60, 60, 92, 74, TONGUE), block(218, 60, 250, 74, TONGUE),
        block(60, 40, 250, 60, METAL),
        line((104, 63), (206, 66), width=2.2), rivet(98, 63),
        block(274, 60, 308, 74, TONGUE), block(264, 54, 318, 60, VALVE),
        *[line((x, 60), (x, 57), width=0.6) for x in range(268, 317, 5)],
        words((14, 40), "card"), pointer((32, 44), (68, 67)),
        words((338, 26), "steel rule at", "that height", anchor="end"),
        pointer((290, 42), (290, 56)),
        words((20, 108), "tongue of this face:", "it must not touch"),
        pointer((130, 100), (160, 66)),
    ]  # fmt: skip
    told = (
        "A plate lies over the glass of a scanner on two strips of card of one thickness, so that "
        "the tongue of the lower face hangs free. A steel rule lies beside it, on card of the same "
        "thickness, so that it stands in the picture at the height of the face. There is no lid."
    )
    return drawing("A plate over the glass", told, *marks, size="0 0 340 130")


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "plate-two-slots": two_slots,
    "plate-press-and-draw": press_and_draw,
    "plate-over-glass": held_off,
}
