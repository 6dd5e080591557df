"""Line drawings of the survey: valves and plates by grade, a tray of plates, where air goes.

A drawing shows where things are; it is not to scale.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.parts.bedding_drawings import (
    COLD_BEAD,
    RIGHT_FILLET,
    cracks,
    edge,
    lifted_fillet,
    wall,
    wax,
)
from site_builder.parts.charts import drawing
from site_builder.parts.handling_drawings import number
from site_builder.parts.panels import Panel, panels
from site_builder.parts.strokes import (
    INK,
    METAL,
    PAPER,
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

LEFT, RIGHT = 12, 152
SLOT, SLOT_END, FACE = 44, 122, 52  # a plate cut along one of its slots; its upper face
ROOT, GLUED, TIP = 22, 38, 132
FLAT = ((ROOT, FACE - 3), (TIP, FACE - 3))
CURLED = ((ROOT, FACE - 3), (70, FACE - 5), (102, FACE - 13), (TIP - 4, FACE - 27))
HARD = ((ROOT, FACE - 3), (58, FACE - 3), (60, FACE - 5), (TIP - 2, FACE - 17))
EATEN = (((ROOT, FACE - 3), (62, FACE - 3)), ((70, FACE - 3), (88, FACE - 4)),
         ((97, FACE - 3), (116, FACE - 5)))  # fmt: skip


def _slotted() -> list[Element]:
    return [
        block(LEFT, FACE, SLOT, FACE + 12, METAL), block(SLOT_END, FACE, RIGHT, FACE + 12, METAL),
        line((SLOT, FACE + 12), (SLOT_END, FACE + 12), width=0.5, dash="2 2"),
        block(ROOT, FACE - 2, GLUED, FACE, WAX),
    ]  # fmt: skip


def _leather(*pieces: Sequence[Point]) -> list[Element]:
    return [line(*piece, width=3) for piece in pieces]


def valves(_: Catalog) -> Element:
    """Draw a sound valve, and one curled, one hard, one eaten."""
    pictures = [
        Panel("sound", ("Flat to the tip; falls", "shut by itself."),
              [*_slotted(), *_leather(FLAT)], good=True),
        Panel("curled", ("The tip stands off, and", "springs back or not."),
              [*_slotted(), *_leather(CURLED)]),
        Panel("hard", ("Bends in one place, and", "cracks there."),
              [*_slotted(), *_leather(HARD), line((56, 41), (60, 48), (57, 54), width=1)]),
        Panel("mouldy or eaten", ("Holes and fluff; green", "or white at the metal."),
              [*_slotted(), *_leather(*EATEN), *_specks((30, 60, 74, 90, 112), FACE - 9)],
              good=False),
    ]  # fmt: skip
    told = (
        "Four sections along a slot with its valve. Sound: the valve lies flat over the slot to "
        "its tip. Curled: it rises in a bow from its root. Hard: it is flat, then kinks in one "
        "place, with a crack. Eaten: pieces of it are missing and specks lie on it."
    )
    return panels("Valves by their grade", told, *pictures)


def joints(_: Catalog) -> Element:
    """Draw a sound joint, and one cracked, one lifted, one of another material."""
    base = [wall(), *edge()]
    cracked = cracks(
        ((28, 56), (35, 50), (38, 44)),
        ((40, 56), (45, 47), (44, 40)),
        ((51, 55), (53, 45), (51, 36)),
    )
    paper = line((2, 46), (16, 53), (32, 55), (50, 55), width=1.8)
    peeled = line((50, 30), (34, 22), (20, 26), (14, 16), width=2.4)
    pictures = [
        Panel("sound", ("Runs out thin; paper", "goes in nowhere."),
              [*base, *wax(RIGHT_FILLET)], good=True),
        Panel("cracked", ("A nail catches in lines;", "those cells leak."),
              [*base, *wax(RIGHT_FILLET), *cracked]),
        Panel("lifted", ("Paper slides under, to", "the plate."),
              [*base, lifted_fillet(11), paper]),
        Panel("wrong material", ("A bead that peels off in", "a skin, or springs back."),
              [*base, shape(*COLD_BEAD, fill=PAPER), peeled], good=False),
    ]  # fmt: skip
    told = (
        "Four sections of one edge of a plate. Sound: the fillet runs out thin on wood and metal. "
        "Cracked: lines go through it. Lifted: it stands off the wood, and a strip of paper lies "
        "under it. Wrong material: a round bead from which a skin is peeled."
    )
    return panels("Wax by its grade", told, *pictures)


def _specks(places: Sequence[float], height: float) -> list[Element]:
    return [
        shape((x, height), (x + 2, height - 3), (x + 4, height), (x + 2, height + 2), fill=PAPER)
        for x in places
    ]


def _from_above(*marks: Element) -> list[Element]:
    """Draw a plate from above, its two slots side by side."""
    return [
        block(LEFT, 28, RIGHT, 72, WAX),
        block(34, 34, 112, 44, PAPER), block(52, 56, 130, 66, PAPER), *marks,
    ]  # fmt: skip


def plates(_: Catalog) -> Element:
    """Draw a bright plate, and one corroded, one bowed, one cracked."""
    rough = ((14, 29), (30, 31), (60, 29), (96, 31), (126, 29), (144, 31), (146, 50), (145, 66),
             (16, 54), (15, 67), (40, 69), (80, 70), (104, 69), (136, 70))  # fmt: skip
    bow = ((LEFT, 58), (48, 50), (82, 47), (116, 50), (RIGHT, 58))
    under = tuple((x, y + 9) for x, y in reversed(bow))
    pictures = [
        Panel("bright", ("Even metal, with sharp", "edges."), _from_above(), good=True),
        Panel("corroded", ("Powder and pits at the", "rim, under the wax."),
              _from_above(*_specks([x for x, _ in rough[:6]], 31), *_specks((16, 44, 82, 118), 70),
                          *(block(x, y, x + 2, y + 2, INK) for x, y in rough[6:10]))),
        Panel("bowed", ("Light in the middle of", "the straightedge."),
              [shape(*bow, *under, fill=METAL), block(LEFT, 68, RIGHT, 74, PAPER),
               arrow((82, 84), (82, 62)), words((60, 38), "straightedge below")]),
        Panel("cracked", ("From a slot to the edge,", "seen with the lens."),
              _from_above(line((112, 38), (122, 41), (128, 37), (140, 40), (RIGHT, 38), width=1.8)),
              good=False),
    ]  # fmt: skip
    told = (
        "Four plates. Bright: even metal with two clean slots. Corroded: specks and pits along the "
        "rim. Bowed, from the side: the plate stands off a straightedge in its middle. Cracked: a "
        "crooked line runs from the end of a slot to the edge of the plate."
    )
    return panels("Plates by their grade", told, *pictures)


def boxes(_: Catalog) -> Element:
    """Draw plates in a box with a place each, and plates in a heap."""

    def place(x: float, y: float, mark: str) -> list[Element]:
        return [
            block(x, y, x + 46, y + 27, PAPER), block(x + 5, y + 3, x + 41, y + 13, METAL),
            words((x + 23, y + 24), mark, anchor="middle"),
        ]  # fmt: skip

    kept = [
        one
        for row in range(2)
        for column in range(3)
        for one in place(8 + 48 * column, 20 + 29 * row, f"B-0{3 * row + column + 1}")
    ]
    heap = [
        shape((20, 66), (66, 52), (69, 60), (23, 74), fill=METAL),
        shape((48, 74), (98, 60), (100, 68), (50, 82), fill=METAL),
        shape((60, 40), (70, 34), (104, 70), (94, 75), fill=METAL),
        shape((86, 54), (138, 50), (138, 58), (87, 62), fill=METAL),
        line((104, 60), (122, 44), width=2),
        words((100, 34), "tongue"),
    ]
    pictures = [
        Panel("a place each", ("Mark on the box too, the", "way round as it lay."),
              kept, good=True),
        Panel("in a heap", ("A plate bends another's", "tongue; order is lost."),
              heap, good=False),
    ]  # fmt: skip
    told = (
        "Two ways to lay plates down. Right: a box with compartments, one plate in each, and its "
        "mark written below it. Wrong: four plates in a heap, one of them on another's tongue."
    )
    return panels("Boxes for the plates", told, *pictures)


def _bellows(x: float, way: int) -> Element:
    """Draw the folds of the bellows down one side."""
    folds = [(x + way * (8 if fold % 2 else 0), 166 + 9 * fold) for fold in range(7)]
    return line(*folds, width=1.6)


def air(_: Catalog) -> Element:
    """Draw a section of one half with a block in it, and the six ways by which air leaves."""
    body = [
        wood(24, 84, 148, 94), wood(164, 84, 316, 94), wood(24, 94, 34, 150),
        wood(306, 94, 316, 150),
        block(24, 150, 34, 155, INK), block(306, 150, 316, 155, INK),
        wood(24, 155, 34, 166), wood(306, 155, 316, 166),
        _bellows(29, -1), _bellows(311, 1), wood(24, 220, 316, 229),
        block(140, 72, 174, 84, WAX), line((157, 72), (157, 62), (210, 58), width=2),
    ]  # fmt: skip
    seat = [
        block(112, 95, 148, 98, PAPER), block(164, 95, 202, 98, PAPER),
        wood(124, 99, 148, 107), wood(164, 99, 190, 107), wood(180, 107, 190, 192),
        wood(134, 184, 180, 192),
        block(126, 108, 134, 122, METAL), block(126, 166, 134, 190, METAL),
        shape((126, 108), (118, 108), (126, 116), fill=WAX),
        shape((134, 192), (126, 196), (122, 190), (126, 184), fill=WAX),
        line((124, 124), (124, 164), width=2.2),
        line((136, 120), (136, 170), width=2, dash="5 2"),
    ]  # fmt: skip
    paths = [
        arrow((44, 192), (10, 192)), arrow((296, 153), (334, 153)), arrow((157, 92), (132, 78)),
        arrow((214, 114), (168, 98)), arrow((92, 122), (124, 112)), arrow((92, 146), (146, 146)),
    ]  # fmt: skip
    marks = [
        *number(52, 192, "1"), *number(286, 153, "2"), *number(122, 76, "3"),
        *number(222, 118, "4"), *number(84, 122, "5"), *number(84, 146, "6"),
    ]  # fmt: skip
    named = [
        words((214, 56), "key pad, shut"), words((40, 78), "outside"),
        words((157, 152), "cell", anchor="middle"), words((200, 178), "block"),
        words((170, 210), "inside: air under pressure", anchor="middle"),
        words((8, 14), "Always: 1 bellows, 2 gasket, 3 key pad."),
        words((8, 28), "Only while the key is open: 4 foot, slide,"),
        words((8, 42), "5 seat of the plate, 6 valve."),
    ]  # fmt: skip
    told = (
        "Section of one half of a bellows instrument. On a board lies a key pad over a hole; under "
        "the board hangs a block, whose cell opens to that hole past a slide, and whose side is a "
        "reed plate in wax. Arrows show six ways of the air: through a fold of the bellows, "
        "through the gasket between box and bellows, under the key pad; and into the cell under "
        "the foot of the block, past the wax of the plate, and past the valve."
    )
    return drawing(
        "Six ways out: three always, three only while the key is open",
        told, *body, *seat, *paths, *marks, *named, size="0 0 340 234",
    )  # fmt: skip


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "survey-wax": joints,
    "survey-valves": valves,
    "survey-plates": plates,
    "plate-boxes": boxes,
    "where-the-air-goes": air,
}
