"""Line drawings of valves: at work, on both faces of a plate, their sizes, right and wrong lie.

A drawing shows where things are; it is not to scale, and a measure in it comes from the tables.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import element, span
from site_builder.parts.charts import drawing
from site_builder.parts.panels import Panel, panels
from site_builder.parts.strokes import (
    INK,
    METAL,
    PAPER,
    QUIET,
    WAX,
    Point,
    arrow,
    block,
    line,
    pointer,
    shape,
    span_mark,
    words,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog

# One slot cut along, in the units of a panel 160 wide: heights, then places along the plate.
TOP, FOOT = 44, 60
START, LAND, GLUED, SLOT, SLOT_END, TIP, END = 8, 20, 44, 50, 122, 132, 152
LYING = TOP - 2
ON_GLUE = TOP - 4.4  # the glue lies between leather and metal
TONGUE, VALVE = "#d2d4d4", "#f3f3f3"

ROOT = ((LAND, ON_GLUE), (GLUED, ON_GLUE))
FLAT = (*ROOT, (TIP, LYING))
CURLED = (*ROOT, (64, LYING - 4), (90, LYING - 8), (114, LYING - 14), (TIP, LYING - 22))
OPEN = (*ROOT, (56, LYING - 4), (84, LYING - 10), (110, LYING - 18), (TIP, LYING - 27))
SHORT = (*ROOT, (SLOT_END - 8, LYING))
FULL = (*ROOT, (SLOT_END, LYING), (END - 2, LYING))
STIFF = ((LAND, ON_GLUE), (SLOT + 14, ON_GLUE), (TIP, LYING))


def valve(places: Sequence[Point]) -> Element:
    """Draw a valve seen from its edge."""
    return line(*places, width=2.6)


def glue(end: float = GLUED) -> Element:
    """Draw the glue between valve and land, up to a place along the plate."""
    return block(LAND, ON_GLUE + 1, end, TOP, TONGUE)


def cut_plate(foot: float = FOOT) -> list[Element]:
    """Draw a plate cut along one slot, with its tongue on the lower face."""
    return [
        block(START, TOP, SLOT, foot, METAL),
        block(SLOT_END, TOP, END, foot, METAL),
        line((START + 14, foot + 2), (SLOT_END - 3, foot + 4), width=2),
        element("circle", cx="30", cy=f"{foot + 2:g}", r="3.5", fill=METAL, stroke=INK),
    ]


def over_the_middle(*marks: Element) -> Element:
    """Draw a cut plate the other way up: what was above it is below."""
    return element("g", *marks, transform=f"translate(0 {TOP + FOOT}) scale(1 -1)")


def skew_plan() -> list[Element]:
    """Draw a slot from above with a valve that sits askew."""
    return [
        block(START, 26, END, 76, PAPER),
        block(SLOT, 44, SLOT_END, 56, METAL),
        element(
            "g",
            shape((LAND, 38), (TIP, 38), (TIP, 62), (LAND, 62), fill=VALVE),
            *[line((x, 62), (x + 8, 38), width=0.5) for x in range(LAND, GLUED - 7, 6)],
            transform="rotate(7 32 50)",
        ),
        line((SLOT, 44), (SLOT_END, 44), (SLOT_END, 56), (SLOT, 56), (SLOT, 44), width=0.8,
             dash="4 3", stroke=QUIET),
    ]  # fmt: skip


def lies(_: Catalog) -> Element:
    """Draw the right lie of a valve and five wrong ones."""
    waxed = shape((126, TOP), (134, 36), (144, 34), (158, 44), (158, FOOT + 6), (END, FOOT + 6),
                  (END, TOP), fill=WAX)  # fmt: skip
    plate = cut_plate()
    pictures = [
        Panel("right", ("Flat, its tip on metal,", "glue short of the slot."), [
            *plate, glue(), valve(FLAT)], good=True),
        Panel("curled off", ("Off at rest: hiss, a", "late start, a slap."), [
            *plate, glue(), valve(CURLED)], good=False),
        Panel("glue beyond the land", ("A stiff root: the valve", "opens late."), [
            *plate, glue(SLOT + 14), valve(STIFF)], good=False),
        Panel("tip too short", ("It ends on the slot and", "leaks there."), [
            *plate, glue(), valve(SHORT)], good=False),
        Panel("skewed", ("One side barely covers,", "the other is in the way."), [
            *skew_plan()], good=False),
        Panel("under the wax", ("Wax holds the tip, and", "has no rim to grip."), [
            *plate, glue(), valve(FULL), waxed], good=False),
    ]  # fmt: skip
    told = (
        "Six pictures of one valve on its slot. Right: glued at the rivet end, short of the slot, "
        "flat to its tip, which lies on metal. Wrong: the tip is curled off the plate; the glue "
        "runs on over the slot; the tip ends on the open slot; the valve sits askew; the tip "
        "reaches the rim and lies under the wax."
    )
    return panels("How a valve lies: right, and five faults", told, *pictures)


def at_work(_: Catalog) -> Element:
    """Draw the two valves of a plate while one note sounds."""
    swung = line((22, FOOT + 2), (70, FOOT + 3), (SLOT_END - 4, FOOT + 10), width=1, dash="3 2")
    pictures = [
        Panel("its own valve: open", ("Air from its tongue's", "side lifts the valve."), [
            *cut_plate(), swung, glue(), valve(OPEN),
            arrow((86, 82), (86, 68)), arrow((98, 52), (114, 36)), arrow((138, 36), (152, 24))]),
        Panel("its partner: shut", ("The same air presses it", "on: its tongue is mute."), [
            over_the_middle(*cut_plate(), glue(), valve(FLAT)),
            *(arrow((x, 82), (x, 67)) for x in (62, 86, 110))]),
    ]  # fmt: skip
    told = (
        "Two slots of one plate, each cut along; air comes from below at both. The slot that"
        " sounds has its tongue below and its valve above: the air goes through, bends the valve"
        " up and leaves at the sides and the tip. The other slot has its valve below and its"
        " tongue above: the same air presses that valve flat, and none reaches the tongue."
    )
    return panels("Two valves, one note", told, *pictures)


def face_plan(valve_on: Point, tongue_on: Point, glued: float, rivet: float) -> list[Element]:
    """Draw one face of a plate: the valve over one slot, the tongue on the other.

    Slots are their upper and lower edge; `glued` is the end of the valve that is glued, `rivet`
    where the tongue's rivet stands.
    """
    (valve_top, valve_foot), (top, foot) = valve_on, tongue_on
    left, right = (22, 115) if rivet < 80 else (43, 136)
    near, far = (22, 126) if glued < 80 else (32, 136)
    return [
        block(4, 24, 154, 82, PAPER),
        block(40, top, 118, foot, METAL),
        block(left, top + 1.5, right, foot - 1.5, TONGUE),
        element("circle", cx=f"{rivet:g}", cy=f"{(top + foot) / 2:g}", r="3.5", fill=METAL,
                stroke=INK),
        block(near, valve_top - 3, far, valve_foot + 3, VALVE),
        *(line((x - 4, valve_foot + 3), (x + 3, valve_top - 3), width=0.5)
          for x in (glued - 5, glued + 1, glued + 7)),
    ]  # fmt: skip


UPPER, LOWER = (34, 46), (60, 72)
LEFT_END, RIGHT_END = 30, 128


def both_faces(_: Catalog) -> Element:
    """Draw both faces of one plate."""
    pictures = [
        Panel("outside face", ("Above a valve, glued", "right; below a tongue."), [
            *face_plan(UPPER, LOWER, RIGHT_END, LEFT_END)]),
        Panel("turned over: inside",
              ("Above that one's valve,", "below the other tongue."), [
            *face_plan(UPPER, LOWER, LEFT_END, RIGHT_END)]),
    ]  # fmt: skip
    told = (
        "Both faces of one plate. On the outside face the upper slot is covered by its valve, "
        "glued at the right, and the lower slot shows its tongue, riveted at the left. "
        "Turned over about its long edge, the plate shows the valve of that tongue above, "
        "glued at the left, and below it the other tongue, riveted at the right. Each valve is "
        "glued at the end at which its own tongue is riveted on the other face."
    )
    return panels("A plate with two valves on opposite faces", told, *pictures)


def sizes(catalog: Catalog) -> Element:
    """Draw a valve over its slot from above, with the measures of glue land and overlap."""

    def of(name: str) -> str:
        figure = catalog.figures[name]
        return span(figure.low, figure.high, figure.unit)

    plate = [
        block(16, 92, 324, 196, PAPER),
        block(84, 118, 258, 136, METAL),
        block(44, 108, 276, 146, VALVE),
        *(line((x - 10, 146), (x, 108), width=0.6) for x in range(54, 75, 6)),
        line((84, 118), (258, 118), (258, 136), (84, 136), (84, 118), width=0.8, dash="4 3",
             stroke=QUIET),
        block(84, 162, 258, 180, METAL),
        block(88, 164, 290, 178, TONGUE),
        line((20, 100), (320, 100), width=0.8, dash="2 3", stroke=QUIET),
    ]  # fmt: skip
    marks = [
        words((2, 12), "glue land", of("glue-land")),
        line((54, 30), (54, 80), width=0.6), span_mark((44, 84), (74, 84)),
        line((44, 88), (44, 108), width=0.5, dash="2 2"),
        line((74, 88), (74, 108), width=0.5, dash="2 2"),
        words((88, 44), "glue stays short of", f"the slot by {of('glue-clear-of-slot')}"),
        line((92, 62), (79, 76), width=0.6), span_mark((74, 78), (84, 78)),
        line((84, 82), (84, 118), width=0.5, dash="2 2"),
        words((338, 12), "overlap at the tip", of("valve-tip-overlap"), anchor="end"),
        line((267, 30), (267, 80), width=0.6), span_mark((258, 84), (276, 84)),
        line((258, 88), (258, 118), width=0.5, dash="2 2"),
        line((276, 88), (276, 108), width=0.5, dash="2 2"),
        words((118, 74), "overlap at each side", of("valve-side-overlap")),
        pointer((180, 90), (180, 113)),
        line((204, 214), (222, 214), width=0.7),
        words((2, 218), f"kept from the tongue beside it: {of('neighbour-clearance')}"),
        pointer((222, 214), (222, 154)),
        line((204, 232), (312, 232), width=0.7),
        words((2, 236), f"bare metal for the wax, all round: {of('wax-land')}"),
        pointer((312, 232), (312, 96)),
        words((150, 175), "the other's tongue", anchor="middle"),
    ]  # fmt: skip
    told = (
        "A valve over its slot, seen from above, the rivet end at the left. The valve is glued on "
        "its land and the glue stops short of the slot. It overlaps the slot at both sides and "
        "beyond the tip. It keeps away from the tongue of the slot beside it, and from the rim of "
        "the plate, which stays bare for the wax. Each measure is written beside it."
    )
    title = "Glue land and overlap, never over the tongue beside it"
    return drawing(title, told, *plate, *marks, size="0 0 340 244")


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "valve-at-work": at_work,
    "valve-both-faces": both_faces,
    "valve-lies": lies,
    "valve-sizes": sizes,
}
