"""Line drawings of seats: four sections side by side, gaskets and frames right and wrong.

A drawing shows where things are; it is not to scale.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import element
from site_builder.parts.bedding_drawings import (
    BED,
    CELL,
    EDGE,
    FACE,
    RIGHT_FILLET,
    edge,
    wall,
    wax,
)
from site_builder.parts.panels import FOOT, Panel, panels
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
    shape,
    wood,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog

# A long plate cut along, in the units of a panel 160 wide.
LEFT, RIGHT, PLATE_TOP, PLATE_FOOT, WOOD_TOP = 8, 152, 40, 50, 60
SLANT = 6


def gasket(left: float, top: float, right: float, foot: float) -> Element:
    """Draw a gasket: an outline with slanting strokes."""
    strokes = [
        line((x, foot), (min(x + (foot - top), right), top), width=0.5)
        for x in range(int(left), int(right) - 2, SLANT)
    ]
    return element("g", block(left, top, right, foot, PAPER), *strokes)


def screw(x: float, head: float, foot: float) -> Element:
    """Draw a screw: a head, and a shank that goes into the wood."""
    return element(
        "g",
        line((x, head), (x, foot), width=3, stroke=PAPER),
        line((x, head), (x, foot), width=2, dash="2 1"),
        shape((x - 7, head), (x + 7, head), (x + 4, head - 5), (x - 4, head - 5), fill=INK),
    )


def four_seats(_: Catalog) -> Element:
    """Draw one edge of a plate on each of three seats, and a frame in its slot."""
    lower = FACE + 6
    pictures = [
        Panel("dry, with a fillet", ("Metal on flat wood;", "wax in the corner."), [
            wall(), *edge(), *wax(RIGHT_FILLET)]),
        Panel("thin bed and fillet", ("Wax under the rim too;", "none over the cell."), [
            wall(FACE + 4), *edge(), *wax(BED, RIGHT_FILLET)]),
        Panel("gasket and screw", ("A soft sheet, squeezed;", "no wax."), [
            wall(lower), *edge(), gasket(EDGE, FACE, CELL, lower), screw(76, 38, 78)]),
        Panel("frame in a dovetail", ("Held by the wedge, tight", "at its slanting sides."), [
            slot_wood(), frame(), reed()]),
    ]  # fmt: skip
    told = (
        "Four sections. First: a plate lies dry on the wall of its cell, with a fillet of wax in "
        "the corner. Second: a thin layer of wax lies under its rim as well. Third: a gasket lies "
        "under it, and a screw goes through plate and gasket into the wood. Fourth: the frame of a "
        "concertina reed sits in a slot whose sides slant inward."
    )
    return panels("Four seats, cut across", told, *pictures)


def long_wood() -> Element:
    """Draw the wood below a long plate."""
    return wood(LEFT, WOOD_TOP, RIGHT, FOOT)


def long_plate(*rise: Point) -> Element:
    """Draw a long plate cut along, straight or through the given places of its upper face."""
    upper = rise or ((LEFT, PLATE_TOP), (RIGHT, PLATE_TOP))
    thick = PLATE_FOOT - PLATE_TOP
    lower = [(x, y + thick) for x, y in reversed(upper)]
    return shape(*upper, *lower, fill=METAL)


def gasket_faults(_: Catalog) -> Element:
    """Draw a gasket that is squeezed evenly, and three that are not."""
    bowed = ((LEFT, 42), (44, 37), (80, 33), (116, 37), (RIGHT, 42))
    dipped = ((LEFT, 38), (24, 45), (50, 38), (80, 45), (110, 38), (136, 45), (RIGHT, 38))
    pictures = [
        Panel("right", ("One thickness from end", "to end."), [
            long_wood(), gasket(LEFT, PLATE_FOOT, RIGHT, WOOD_TOP), long_plate(),
            *(screw(x, PLATE_TOP, 76) for x in (24, 80, 136))], good=True),
        Panel("too far apart", ("The plate springs up", "between two screws."), [
            long_wood(), gasket(LEFT, 52, RIGHT, WOOD_TOP), long_plate(*bowed),
            *(screw(x, y, 76) for x, y in ((16, 41), (144, 41))), arrow((80, 78), (80, 48))],
            good=False),
        Panel("tightened till it stops", ("Crushed at each screw;", "the plate goes wavy."), [
            long_wood(), gasket(LEFT, 48, RIGHT, WOOD_TOP), long_plate(*dipped),
            *(screw(x, 45, 76) for x in (24, 80, 136))], good=False),
        Panel("cut short", ("It ends before the wall", "of the cell: a leak."), [
            wall(FACE + 6), *edge(), gasket(EDGE, FACE, 76, FACE + 6), arrow((128, 72), (84, 59))],
            good=False),
    ]  # fmt: skip
    told = (
        "Four sections. Right: a long plate lies straight on a gasket of even thickness, with "
        "three screws. Wrong: two screws far apart, the plate bowed up between them; screws "
        "tightened until the gasket is crushed at each and the plate is wavy; a gasket that ends "
        "before the edge of the cell, so that air creeps under the plate."
    )
    return panels("Gaskets: one right, three wrong", told, *pictures)


def slot_wood(wider: float = 0, beyond: float = 0) -> Element:
    """Draw the wood of a pan with a dovetail slot, wider at its left and at its right."""
    left, right = 50 - wider, 110 + beyond
    marks = [
        wood(8, 66, 66, FOOT), wood(94, 66, 152, FOOT),
        shape((8, 46), (left, 46), (left - 10, 66), (8, 66)),
        shape((152, 46), (right, 46), (right + 10, 66), (152, 66)),
    ]  # fmt: skip
    for y in (51, 56, 61):  # the grain goes on between the slanting sides
        slant = (y - 46) / 2
        marks.append(line((8, y), (left - slant, y), width=0.4, stroke=QUIET))
        marks.append(line((right + slant, y), (152, y), width=0.4, stroke=QUIET))
    return element("g", *marks)


def frame() -> Element:
    """Draw a frame across: two sides of metal with the slot for the tongue between."""
    return element(
        "g",
        shape((50, 46), (70, 46), (70, 66), (40, 66), fill=METAL),
        shape((110, 46), (90, 46), (90, 66), (120, 66), fill=METAL),
    )


def reed() -> Element:
    """Draw the tongue over its slot."""
    return line((72, 43), (88, 43), width=2.2)


def frame_faults(_: Catalog) -> Element:
    """Draw a frame that sits right, a shimmed one, and two that do not."""
    shim = [line((48, 46), (38, 66), width=2.4)]
    pictures = [
        Panel("right", ("Flush, and touching", "along both sides."), [
            slot_wood(), frame(), reed()], good=True),
        Panel("loose, shimmed", ("One strip of paper along", "one side, dry."), [
            slot_wood(4), frame(), reed(), *shim], good=True),
        Panel("loose", ("The wood has dried: air", "passes both sides."), [
            slot_wood(6, 6), frame(), reed(), arrow((42, 34), (42, 52)),
            arrow((118, 34), (118, 52))], good=False),
        Panel("waxed in", ("It cannot come out, and", "damp wood pinches it."), [
            slot_wood(6, 6), frame(), reed(),
            *(shape(*places, fill=WAX) for places in (
                ((44, 46), (50, 46), (40, 66), (34, 66)),
                ((116, 46), (110, 46), (120, 66), (126, 66))))], good=False),
    ]  # fmt: skip
    told = (
        "Four sections across a frame in its slot. Right: the frame is flush and touches along "
        "both slanting sides. Right: a slot a little too wide, with one strip of paper along one "
        "side. Wrong: a gap at both sides, where air passes. Wrong: both gaps filled with wax."
    )
    return panels("A frame in its slot", told, *pictures)


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "four-seats": four_seats,
    "gasket-faults": gasket_faults,
    "frame-faults": frame_faults,
}
