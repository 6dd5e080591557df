"""Line drawings of what keeps heat and vapour away from people, right and wrong.

A drawing shows where things are; it is not to scale.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.parts.bath_drawings import ball, thermometer, vessel
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
    words,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog

BENCH = 72  # where the top of the bench lies in a panel


def bench_top(left: float = 6, right: float = 156) -> Element:
    """Draw the top of a bench."""
    return wood(left, BENCH, right, BENCH + 9)


def bench(edge: float = 8) -> list[Element]:
    """Draw the bench from its front edge to the wall at the right."""
    return [bench_top(edge, 154), block(154, 18, 158, BENCH + 9, INK)]


def pot(x: float, floor: float = BENCH) -> list[Element]:
    """Draw a hot plate with a pot of wax on it, open."""
    return [
        block(x, floor - 8, x + 44, floor, METAL),
        block(x + 8, floor - 22, x + 36, floor - 8, WAX),
        line((x + 8, floor - 30), (x + 8, floor - 8), (x + 36, floor - 8), (x + 36, floor - 30),
             width=2),
    ]  # fmt: skip


def lid(x: float, y: float) -> list[Element]:
    """Draw a metal lid with its knob, lying."""
    return [block(x, y - 4, x + 38, y, METAL), block(x + 16, y - 9, x + 22, y - 4, INK)]


def smoke(x: float, y: float, lean: float = 0) -> Element:
    """Draw a thread of smoke."""
    return line(
        (x, y), (x + 3 + lean / 3, y - 5), (x - 1 + 2 * lean / 3, y - 10), (x + 2 + lean, y - 15),
        width=1, dash="3 2", stroke=QUIET,
    )  # fmt: skip


def pot_and_lid(_: Catalog) -> Element:
    """Draw the lid on the side of the way out, and behind the pot."""
    near = [
        *bench(), *pot(98), thermometer(120, 20, 52), *lid(40, BENCH),
        arrow((62, 58), (98, 42)), arrow((32, 34), (6, 34)), words((8, 26), "way out"),
    ]  # fmt: skip
    behind = [
        *bench(), *pot(48), *lid(112, BENCH), smoke(70, 40), smoke(78, 40, 4),
        arrow((32, 34), (6, 34)), words((8, 26), "way out"),
        line((26, 60), (70, 28), (128, 60), width=1, dash="3 2"),
    ]  # fmt: skip
    pictures = [
        Panel("lid towards the way out", ("One hand slides it over,", "away from you."),
              near, good=True),
        Panel("lid behind the pot", ("The arm goes through the", "fire to reach it."),
              behind, good=False),
    ]  # fmt: skip
    told = (
        "Two benches from the side, the wall at the right, the way out at the left. Right: the lid "
        "lies between the person and the pot, a thermometer stands in the wax. Wrong: the pot "
        "stands in front, and an arm has to reach over it to the lid behind."
    )
    return panels("Where the lid is kept", told, *pictures)


def hot_plate(_: Catalog) -> Element:
    """Draw a hot plate at the back on a tray, and one at the edge with its cord in front."""
    tray = [line((82, 64), (84, BENCH - 1), (148, BENCH - 1), (150, 64), width=2)]
    back = [
        *bench(), *tray, *pot(94, BENCH - 2),
        line((138, 66), (146, 58), (154, 50), width=1.6), block(150, 44, 154, 54, INK),
        words((8, 40), "tray with a rim"), line((60, 44), (83, 66), width=0.7),
    ]  # fmt: skip
    front = [
        *bench(28), *pot(22), line((22, 68), (15, 71), (12, 78), (13, 86), width=1.6),
        shape((50, 50), (54, 50), (55, 64), (51, 64), fill=WAX),
    ]  # fmt: skip
    pictures = [
        Panel("at the back, on a tray", ("Level; cord behind, short,", "nothing above it."),
              back, good=True),
        Panel("over the edge", ("A sleeve, a child or pet", "pulls it by the cord."),
              front, good=False),
    ]  # fmt: skip
    told = (
        "Two benches from the side. Right: the hot plate stands at the back near the wall, on a "
        "metal tray with a rim, its cord behind it. Wrong: it stands over the front edge, its cord "
        "hangs down in front, and wax runs down outside the pot."
    )
    return panels("Where the hot plate stands", told, *pictures)


def rag(*places: Point) -> Element:
    """Draw a rag."""
    return shape(*places, fill=WAX)


def rags(_: Catalog) -> Element:
    """Draw rags laid flat outdoors, under water in a tin; and in a bin and a pocket."""
    heap = ((40, 79), (38, 54), (54, 45), (66, 51), (80, 43), (94, 51), (110, 48), (115, 79))
    outdoors = [
        line((4, 80), (158, 80), width=1.6),
        *(line((x, 80), (x + 4, 74), width=0.6) for x in range(8, 156, 12)),
        *(line((x, 80), (x, 52), width=1.4) for x in (30, 130)), line((26, 52), (134, 52), width=2),
        rag((34, 47), (76, 47), (76, 51), (34, 51)), rag((84, 47), (126, 47), (126, 51), (84, 51)),
        ball(142, 30, 8),
    ]  # fmt: skip
    tin = [
        vessel(48, 34, 112, 80, 44),
        rag((56, 74), (58, 64), (72, 60), (92, 64), (104, 60), (104, 74)),
        block(44, 28, 116, 34, METAL), block(76, 23, 84, 28, INK), words((120, 58), "water"),
    ]  # fmt: skip
    binned = [
        line((30, 34), (38, 80), (116, 80), (124, 34), width=1.6), rag(*heap),
        smoke(60, 42), smoke(88, 40, 5),
    ]  # fmt: skip
    pocket = [
        block(4, 36, 70, 82), line((14, 54), (60, 54), width=2),
        line((14, 54), (16, 78), (58, 78), (60, 54), width=1.2),
        rag((22, 54), (20, 42), (32, 46), (42, 38), (52, 46), (54, 54)), smoke(38, 38),
        line((78, 82), (160, 82), width=1.4),
        rag((84, 82), (88, 70), (100, 74), (110, 66), (122, 72), (136, 68), (152, 76), (156, 82)),
        rag((94, 72), (98, 58), (110, 64), (120, 56), (132, 62), (140, 70), (122, 72), (110, 66)),
        smoke(112, 54), smoke(128, 56, 5),
    ]  # fmt: skip
    pictures = [
        Panel("flat, outdoors", ("Single, until hard; away", "from wall and heat."),
              outdoors, good=True),
        Panel("under water, lid on", ("Metal, closed, marked;", "outdoors at night."),
              tin, good=True),
        Panel("in the bin", ("It warms itself, and", "burns when all are home."),
              binned, good=False),
        Panel("in a pocket or heap", ("The same: crumpled, it", "keeps its own heat."),
              pocket, good=False),
    ]  # fmt: skip
    told = (
        "Four places of an oily rag. Right: two rags lie flat side by side on a rack outdoors. "
        "Right: a rag lies under water in a metal can with its lid on. Wrong: rags in a heap in "
        "a bin, smoking. Wrong: a rag crumpled in a pocket, and rags in a heap on the floor, "
        "smoking."
    )
    return panels("An oily rag, the moment it is laid down", told, *pictures)


def face(x: float, y: float) -> list[Element]:
    """Draw a head from the side that looks to the right, in glasses."""
    return [
        ball(x, y, 11), line((x + 10, y - 1), (x + 14, y + 3), (x + 10, y + 4), width=1.2),
        block(x + 4, y - 5, x + 10, y, METAL), line((x - 10, y - 4), (x + 4, y - 3), width=1),
    ]  # fmt: skip


def iron(x: float, y: float) -> list[Element]:
    """Draw a touch-up iron whose tip is at a place, coming from the left."""
    return [
        shape((x, y), (x - 14, y - 9), (x - 10, y - 13), fill=METAL),
        shape((x - 12, y - 13), (x - 34, y - 30), (x - 29, y - 35), (x - 9, y - 16)),
    ]  # fmt: skip


def extraction(mouth: Sequence[Point], hose: Sequence[float], rise: float) -> list[Element]:
    """Draw the mouth of an extraction, and its hose that goes up to the right at two heights."""
    start = mouth[1][0]
    return [
        shape(*mouth, fill=PAPER),
        *(line((start, y), (158, y - rise), width=1.4) for y in hose),
    ]


def at_the_tip(_: Catalog) -> Element:
    """Draw the mouth of the extraction at the tip of the iron, and overhead."""
    work = [wood(62, 70, 120, 80), block(70, 66, 112, 70, METAL)]
    hose = extraction(((112, 54), (124, 48), (124, 72), (112, 66)), (54, 66), 8)
    right = [
        *work, *iron(96, 66), *hose, *face(28, 36),
        line((98, 62), (104, 60), (110, 60), width=1, dash="3 2", stroke=QUIET),
        arrow((132, 57), (150, 52)),
    ]  # fmt: skip
    hood = [
        shape((70, 28), (92, 20), (130, 20), (152, 28), fill=PAPER),
        line((104, 20), (104, 15), width=1.4), line((118, 20), (118, 15), width=1.4),
    ]  # fmt: skip
    wrong = [
        wood(78, 72, 136, 82), block(86, 68, 128, 72, METAL),
        *iron(116, 68), *hood, *face(114, 42),
        smoke(118, 67, 6), smoke(125, 55, 4), smoke(130, 43, -4),
    ]  # fmt: skip
    pictures = [
        Panel("mouth at the tip", ("A hand's width away; head", "beside the smoke."),
              right, good=True),
        Panel("hood overhead", ("The smoke goes past the", "face on its way up."),
              wrong, good=False),
    ]  # fmt: skip
    told = (
        "Two people with a touch-up iron on a plate. Right: the mouth of a hose stands beside the "
        "tip and draws the smoke away, the head is to the side. Wrong: a hood hangs overhead, and "
        "the head is between the tip and the hood, in the smoke."
    )
    return panels("Extraction at the iron", told, *pictures)


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "pot-and-lid": pot_and_lid,
    "hot-plate": hot_plate,
    "oily-rags": rags,
    "iron-extraction": at_the_tip,
}
