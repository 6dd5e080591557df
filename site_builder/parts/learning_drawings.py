"""Line drawings of right and wrong for who learns: overlap, lie, seat and wall of a cell.

A drawing shows where things are; it is not to scale.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import element
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
    shape,
    wood,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog

TONGUE, VALVE, GLUE = "#d2d4d4", "#f3f3f3", "#9a9c9c"

# A plate from above, in the units of a panel 160 wide: its rim, the slot, the tongue beside it.
SLOT = (50, 36, 122, 46)
BESIDE = (38, 62, 118, 72)
# The same plate cut across: the metal beside and between its slots.
TOP, FOOT = 50, 60
METAL_AT = ((14, 40), (64, 96), (120, 146))


def box_line(left: float, top: float, right: float, foot: float) -> Element:
    """Draw the outline of what lies under a valve."""
    corners = ((left, top), (right, top), (right, foot), (left, foot), (left, top))
    return line(*corners, width=0.8, dash="4 3", stroke=QUIET)


def from_above() -> list[Element]:
    """Draw a plate from above: a slot at the top, the tongue of the other one below it."""
    return [
        block(8, 22, 152, 82, PAPER),
        block(*SLOT, METAL),
        block(BESIDE[2] - 80, BESIDE[1] - 2, BESIDE[2] + 4, BESIDE[3] + 2, METAL),
        block(*BESIDE, TONGUE),
        element("circle", cx="44", cy="67", r="3", fill=METAL, stroke=INK),
    ]


def laid(left: float, top: float, right: float, foot: float, *, glued: float) -> list[Element]:
    """Draw a valve from above, its glue hatched up to a place along it."""
    step = 6
    hatch = [
        line((x, foot), (min(x + step, glued), top), width=0.6)
        for x in range(int(left) + 2, int(glued) - 2, step)
    ]
    return [block(left, top, right, foot, VALVE), *hatch, box_line(*SLOT)]


def blot(x: float, y: float) -> Element:
    """Draw a blot of glue."""
    return shape(
        (x - 7, y), (x - 3, y - 5), (x + 4, y - 4), (x + 8, y + 1), (x + 2, y + 5), (x - 5, y + 4),
        fill=GLUE,
    )  # fmt: skip


def overlap(_: Catalog) -> Element:
    """Draw the right overlap of a valve and five wrong ones, from above."""
    right = laid(26, 31, 130, 51, glued=46)
    pictures = [
        Panel("right", ("Even at both sides, over", "at the tip, glue short."), [
            *from_above(), *right], good=True),
        Panel("too narrow", ("The slot shows at one", "side, and air goes by."), [
            *from_above(), block(26, 40, 130, 52, VALVE), box_line(50, 40, 122, 46),
            *(line((x, 52), (x + 6, 40), width=0.6) for x in range(28, 40, 6))], good=False),
        Panel("over the neighbour", ("The tongue beside it", "ticks, or is silent."), [
            *from_above(), block(26, 31, 130, 68, VALVE),
            *(line((x, 68), (x + 6, 31), width=0.6) for x in range(28, 42, 6)),
            box_line(*SLOT), box_line(BESIDE[0], BESIDE[1], BESIDE[2], BESIDE[3])], good=False),
        Panel("glue in the slot", ("It shuts the root of the", "slot and stays stiff."), [
            *from_above(), *laid(26, 31, 130, 51, glued=72), blot(76, 41)], good=False),
        Panel("land too short", ("A thread of glue holds", "it: the root lifts."), [
            *from_above(), *laid(40, 31, 130, 51, glued=47)], good=False),
        Panel("glue carried over", ("A drop on the tongue", "beside: its pitch moves."), [
            *from_above(), *right, blot(98, 67)], good=False),
    ]  # fmt: skip
    told = (
        "Six plates from above, each with a valve over its slot and the tongue of the other slot "
        "below it. Right: the valve covers the slot evenly at both sides and beyond the tip, and "
        "its glue, hatched, ends before the slot. Wrong: it is as narrow as the slot, which shows; "
        "it lies over the tongue beside it; its glue runs into the slot; its land is too short to "
        "hold; a drop of glue lies on the tongue beside it."
    )
    return panels("Overlap: right, and five faults", told, *pictures)


def across() -> list[Element]:
    """Draw a plate cut across, with the tongue of its first slot on the lower face."""
    metal = [block(left, TOP, right, FOOT, METAL) for left, right in METAL_AT]
    return [*metal, line((43, FOOT + 2), (61, FOOT + 2), width=2)]


def tip_on(*places: Point) -> Element:
    """Draw the tip of a valve as it is seen end-on."""
    return line(*places, width=2.6)


def end_on(_: Catalog) -> Element:
    """Draw the tip of a valve end-on, and one that does not fall: right and wrong."""
    below = [block(left, 36, right, 46, METAL) for left, right in METAL_AT]
    pictures = [
        Panel("right", ("One line with the metal,", "at both sides."), [
            *across(), tip_on((34, TOP - 2), (70, TOP - 2))], good=True),
        Panel("twisted", ("One corner is up, and no", "finger lays it down."), [
            *across(), tip_on((34, TOP - 2), (44, TOP - 4), (56, TOP - 10), (70, TOP - 19))],
            good=False),
        Panel("hollow across", ("Both sides stand off:", "it hisses all along."), [
            *across(), tip_on((32, TOP - 14), (40, TOP - 5), (52, TOP - 2), (63, TOP - 5),
                              (71, TOP - 14))], good=False),
        Panel("stuck", ("Valve below: it stays;", "wax or glue holds it."), [
            *below, line((43, 34), (61, 34), width=2), tip_on((34, 48), (70, 48)),
            shape((31, 46), (38, 46), (40, 51), (35, 53), (30, 51), fill=WAX),
            arrow((88, 50), (88, 74)), line((74, 66), (82, 72)), line((74, 72), (82, 66))],
            good=False),
    ]  # fmt: skip
    told = (
        "Four plates cut across, a valve over the first slot, its tip toward you. Right: the tip "
        "is one straight line on the metal at both sides. Wrong: one corner stands up; both sides "
        "stand off because the strip is hollow across; the plate is held with the valve below and "
        "the valve does not fall, because a crumb of wax or glue holds it."
    )
    return panels("The tip toward you: right, and three faults", told, *pictures)


def cell(*, left_top: float = 58, right_top: float = 58) -> list[Element]:
    """Draw both walls of a cell with its floor."""
    return [
        wood(14, left_top, 34, 84), wood(126, right_top, 146, 84), wood(34, 76, 126, 84),
    ]  # fmt: skip


def lying(top: float = 46, foot: float = 58) -> list[Element]:
    """Draw a plate cut across, lying on the walls."""
    return [
        block(left, top, right, foot, METAL) for left, right in ((18, 48), (68, 92), (112, 142))
    ]


def seated(_: Catalog) -> Element:
    """Draw a plate that lies and three that do not."""
    crumb = shape((19, 58), (23, 53), (30, 54), (33, 58), fill=WAX)
    pictures = [
        Panel("it lies", ("Metal on wood all round;", "paper does not go in."), [
            *cell(), *lying()], good=True),
        Panel("rocks on a crumb", ("Press a corner: the far", "one lifts and clicks."), [
            *cell(), crumb, element("g", *lying(), transform="rotate(2.6 142 58)"),
            arrow((134, 24), (134, 42)), arrow((24, 38), (24, 24))], good=False),
        Panel("the wood is hollow", ("Pressed it is still: the", "lamp shows under a side."), [
            *cell(left_top=62), *lying(), arrow((4, 60), (16, 60))], good=False),
        Panel("off its place", ("The slot stands over the", "wall; its valve rubs."), [
            *cell(), element("g", *lying(), transform="translate(14 0)")], good=False),
    ]  # fmt: skip
    told = (
        "Four plates on the walls of their cells, cut across. Right: both edges lie on the wood. "
        "Wrong: a crumb of old wax holds one edge up, and the plate rocks. Wrong: one wall is "
        "lower, and light shows under that edge. Wrong: the plate is pushed sideways, so that one "
        "edge lies beside its wall."
    )
    return panels("A plate on its cell: it lies, or it rocks", told, *pictures)


def crumbs(places: Sequence[Point]) -> list[Element]:
    """Draw crumbs of old wax."""
    return [shape((x, y), (x + 2, y - 5), (x + 8, y - 4), (x + 10, y), fill=WAX) for x, y in places]


def walls(_: Catalog) -> Element:
    """Draw a clean wall between two cells and three that are not."""
    pair = [wood(14, 40, 30, 84), wood(70, 40, 90, 84), wood(130, 40, 146, 84)]
    floors = [wood(30, 74, 70, 84), wood(90, 74, 130, 84)]
    sharp = [*pair, *floors]
    lamp = [
        element("circle", cx="50", cy="64", r="5", fill=PAPER, stroke=INK),
        *(line((50 + x, 64 + y), (50 + 1.9 * x, 64 + 1.9 * y), width=0.8)
          for x, y in ((0, -6), (5, -4), (-5, -4), (6, 1), (-6, 1))),
    ]  # fmt: skip
    through = ((70, 62), (76, 60), (81, 64), (90, 61))
    pictures = [
        Panel("clean", ("Bare wood, sharp edges,", "nothing lies in a cell."), sharp, good=True),
        Panel("old wax on it", ("It shines in low light;", "the plate rides on it."), [
            *sharp, *crumbs(((16, 40), (74, 40), (134, 40))), *crumbs(((44, 74), (104, 74)))],
            good=False),
        Panel("cracked", ("A lamp in one cell is", "seen in the next."), [
            *sharp, line(*through, width=2.2), *lamp, arrow((92, 61), (112, 56))], good=False),
        Panel("rounded off", ("Faced or pared too far:", "no edge to lie on."), [
            wood(14, 40, 30, 84), wood(130, 40, 146, 84), *floors,
            shape((70, 84), (70, 52), (72, 45), (77, 41), (83, 41), (88, 45), (90, 52), (90, 84)),
            *(line((70, y), (90, y), width=0.4, stroke=QUIET) for y in (56, 61, 66, 71, 76, 81))],
            good=False),
    ]  # fmt: skip
    told = (
        "Four times the wall between two open cells, cut across. Right: bare wood with sharp "
        "edges. Wrong: crumbs of old wax lie on the walls and in the cells. Wrong: a crack goes "
        "through the wall, and the light of a lamp in one cell comes out in the next. Wrong: the "
        "top of the wall is rounded, so that a plate finds no edge."
    )
    return panels("The wall between two cells", told, *pictures)


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "valve-overlap": overlap,
    "valve-end-on": end_on,
    "plate-seated": seated,
    "cell-walls": walls,
}
