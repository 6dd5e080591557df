"""Line drawings of a bedded plate: the names of its parts, the two methods, right and wrong wax.

A drawing shows where things are; it is not to scale, and a measure in it comes from the tables.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import element, span
from site_builder.parts.charts import drawing
from site_builder.parts.panels import FOOT, Panel, panels
from site_builder.parts.strokes import (
    METAL,
    PAPER,
    WAX,
    Point,
    arrow,
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

# One edge of a plate seen close, in the units of a panel 160 wide: heights, then places across.
FACE, TOP = 56, 38
WOOD, EDGE, CELL, SLOT, REST, END = 8, 52, 96, 108, 134, 152

LOW_FOOT, LOW_PANEL = 78, 115  # of pictures that stand under a paragraph on one page

RIGHT_FILLET = (
    (24, FACE), (EDGE, FACE), (EDGE, TOP), (64, TOP), (57, 34), (50, 36), (40, 46), (32, 52),
)  # fmt: skip
THIN_FILLET = ((44, FACE), (EDGE, FACE), (EDGE, 46), (49, 52))
COLD_BEAD = (
    (19, 52), (24, 54), (44, 54), (49, 51), (49, 37), (45, 30), (35, 28), (23, 32), (17, 42),
)  # fmt: skip
BRIDGE = (
    (EDGE, FACE), (EDGE, 59), (SLOT, 60), (117, 62), (122, 52), (116, 42), (SLOT, TOP),
    (SLOT, FACE),
)  # fmt: skip
HIDING_FILLET = (
    (20, FACE), (58, FACE), (54, 47), (51, 28), (63, 29), (56, 23), (47, 26), (34, 43),
)  # fmt: skip
OVER_VALVE = (
    (24, FACE), (EDGE, FACE), (EDGE, TOP), (100, TOP), (105, 35), (120, 34), (112, 30), (80, 31),
    (56, 31), (40, 44),
)  # fmt: skip
BED = ((EDGE - 2, FACE), (CELL, FACE), (CELL, FACE + 4), (EDGE - 2, FACE + 4))
LATER_WAX = (
    (12, FACE), (24, FACE), (32, 52), (40, 46), (50, 36), (57, 34), (68, TOP), (66, 31), (52, 25),
    (36, 34), (20, 48),
)  # fmt: skip


def wall(face: float = FACE, foot: float = FOOT) -> Element:
    """Draw the wall of a cell; the cell is open at its right."""
    return wood(WOOD, face, CELL, foot)


def edge(*, inside: bool = True) -> list[Element]:
    """Draw one edge of a plate with its first slot: the tongue inside, the valve outside."""
    metal = [block(EDGE, TOP, SLOT, FACE, METAL), block(REST, TOP, END, FACE, METAL)]
    tongue = line((SLOT + 2, FACE + 2), (REST - 2, FACE + 2), width=2)
    return [*metal, tongue] if inside else metal


def valve() -> Element:
    """Draw the valve on top of that slot."""
    return line((SLOT - 6, TOP - 2), (REST + 6, TOP - 2), width=2, dash="4 1.5")


def wax(*shapes: Sequence[Point]) -> list[Element]:
    """Draw wax."""
    return [shape(*places, fill=WAX) for places in shapes]


def whole_section() -> Element:
    """Draw one plate on both walls of its cell, cut across: two slots, tongues and valves."""

    def side(x: float, way: int) -> Element:
        return shape(
            (x, 134), (x + way * 27, 134), (x + way * 27, 116), (x + way * 38, 116),
            (x + way * 31, 111), (x + way * 22, 116), (x + way * 12, 127), fill=WAX,
        )  # fmt: skip

    metal = ((79, 110), (142, 196), (228, 259))
    return element(
        "g",
        wood(39, 134, 97, 210), wood(241, 134, 299, 210), wood(97, 196, 241, 210),
        *(block(left, 116, right, 134, METAL) for left, right in metal),
        line((114, 113), (138, 113), width=2.5), line((200, 137), (224, 137), width=2.5),
        line((105, 137), (147, 137), width=2.2, dash="5 2"),
        line((191, 113), (233, 113), width=2.2, dash="5 2"),
        side(52, 1), side(286, -1),
    )  # fmt: skip


def names(catalog: Catalog) -> Element:
    """Draw a bedded plate with the name of each thing, and the measures of its fillet."""
    fillet, land = catalog.figures["fillet"], catalog.figures["bare-land"]
    rim = f"{span(land.low, land.high, land.unit)}, no valve there"
    named = [
        words((2, 12), "fillet, on the wood:", span(fillet.low, fillet.high, fillet.unit)),
        span_mark((52, 64), (79, 64)),
        line((66, 60), (66, 30), width=0.7),
        line((52, 68), (52, 132), width=0.5, dash="2 2"),
        line((79, 68), (79, 114), width=0.5, dash="2 2"),
        words((338, 12), "bare metal for the wax:", rim, anchor="end"),
        span_mark((248, 64), (259, 64)),
        line((254, 60), (254, 30), width=0.7),
        line((248, 68), (248, 112), width=0.5, dash="2 2"),
        line((259, 68), (259, 112), width=0.5, dash="2 2"),
        words((205, 60), "outside valve", anchor="middle"), pointer((212, 64), (212, 111)),
        words((162, 82), "reed plate", anchor="middle"), pointer((168, 86), (168, 122)),
        words((110, 96), "tongue", anchor="middle"), pointer((121, 99), (125, 111)),
        words((104, 162), "inside valve"), pointer((126, 152), (126, 139)),
        words((194, 162), "tongue"), pointer((212, 152), (212, 139)),
        words((169, 186), "cell", anchor="middle"),
        words((39, 228), "block: walls and floor of the cell"), pointer((62, 218), (62, 175)),
    ]  # fmt: skip
    told = (
        "Section across one plate on its block. The plate lies with both sides on the walls of its "
        "cell. Each slot has its tongue at one face and its valve at the other: one valve is "
        "inside, in the cell, and out of reach once the plate is bedded. A fillet of wax stands on "
        "the wood beside the plate, climbs its edge and laps a rim of bare metal."
    )
    return drawing("A bedded plate, cut across", told, whole_section(), *named, size="0 0 340 234")


def two_methods(_: Catalog) -> Element:
    """Draw the two ways in which a plate is bedded."""
    beside = ((24, FACE), (EDGE, FACE), (EDGE, FACE + 4), (18, FACE + 4))
    pictures = [
        Panel("a: seated dry", ("Metal on wood; wax only", "round the edge."), [
            wall(), *edge(), *wax(RIGHT_FILLET)]),
        Panel("b: thin bed and fillet", ("Wax under the edge too,", "and none over the cell."), [
            wall(FACE + 4), *edge(), *wax(BED, RIGHT_FILLET, beside)]),
    ]  # fmt: skip
    told = (
        "Two sections of one edge. First: the plate lies dry on the flat wood, and wax stands only "
        "beside its edge. Second: a thin layer of wax lies between plate and wood as well, and "
        "ends where the cell begins; the same fillet stands beside it."
    )
    return panels("Two methods: write down which one you found", told, *pictures)


def fillets(_: Catalog) -> Element:
    """Draw the right fillet and five wrong ones."""
    lifted = element("g", *edge(), valve(), transform="rotate(6 152 56)")
    whole = [wall(), *edge(), valve()]
    pictures = [
        Panel("right", ("Runs out thin, and wets", "wood and metal."), [
            *whole, *wax(RIGHT_FILLET)], good=True),
        Panel("too thin", ("Only a line at the edge:", "it cracks, then leaks."), [
            *whole, *wax(THIN_FILLET)], good=False),
        Panel("cold joint", ("A round bead that lies", "loose on both."), [
            *whole, *wax(COLD_BEAD)], good=False),
        Panel("bridge into the slot", ("Wax crept under it, and", "stands at the tongue."), [
            *whole, *wax(BRIDGE, RIGHT_FILLET)], good=False),
        Panel("plate lifted", ("It stands off the wood,", "and the wax hides it."), [
            wall(), lifted, *wax(HIDING_FILLET)], good=False),
        Panel("wax at a valve", ("It cannot shut, and the", "leather keeps the wax."), [
            *whole, *wax(OVER_VALVE)], good=False),
    ]  # fmt: skip
    told = (
        "Six sections of one edge. Right: a hollow fillet that runs out thin on the wood and on "
        "the rim of the plate. Wrong: a fillet that is only a thin line; a round bead with a gap "
        "round it, which is a cold joint; wax that crept under the plate into a slot; a plate that "
        "stands off the wood; wax that reaches over the outside valve."
    )
    return panels("A fillet: right, and five faults", told, *pictures)


def cracks(*ways: Sequence[Point]) -> list[Element]:
    """Draw cracks through a fillet."""
    return [line(*way, width=1.8) for way in ways]


def lifted_fillet(degrees: int) -> Element:
    """Draw the right fillet turned off the wood."""
    return element("g", *wax(RIGHT_FILLET), transform=f"rotate({degrees} 64 38)")


def old_joints(_: Catalog) -> Element:
    """Draw four old joints as they are found."""
    base = [wall(foot=LOW_FOOT), *edge()]
    cracked = cracks(
        ((30, 56), (36, 50), (38, 44)),
        ((41, 57), (45, 47), (44, 40)),
        ((51, 56), (53, 45), (51, 36)),
    )
    pictures = [
        Panel("whole", ("Runs out thin; nothing", "moves."), [*base, *wax(RIGHT_FILLET)],
            foot=LOW_FOOT),
        Panel("cracked through", ("A nail catches in lines", "across and at the edge."), [
            *base, *wax(RIGHT_FILLET), *cracked], foot=LOW_FOOT),
        Panel("lifted edge", ("Thin paper slides under;", "the wood is bare."), [
            *base, lifted_fillet(9), arrow((6, 30), (22, 44))], foot=LOW_FOOT),
        Panel("waxed again", ("A ridge, two colours:", "new wax over the old."), [
            *base, *wax(RIGHT_FILLET), shape(*LATER_WAX, fill=PAPER)], foot=LOW_FOOT),
    ]  # fmt: skip
    told = (
        "Four sections of one edge of an old joint. Whole: the fillet runs out thin. Cracked: "
        "lines go through the fillet. Lifted: a gap lies between fillet and wood. Waxed again: a "
        "second, paler layer lies over the first."
    )
    return panels("Old joints, as they are found", told, *pictures, height=LOW_PANEL)


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "bedded-plate": names,
    "two-methods": two_methods,
    "fillets": fillets,
    "old-joints": old_joints,
}
