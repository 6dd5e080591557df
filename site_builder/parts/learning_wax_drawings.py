"""Line drawings of right and wrong wax for who learns: skin of a fillet, bed, pot, stick.

A drawing shows where things are; it is not to scale.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import element
from site_builder.parts.bath_drawings import thermometer
from site_builder.parts.bedding_drawings import BED, CELL, EDGE, FACE, edge, wall, wax
from site_builder.parts.panels import Panel, panels
from site_builder.parts.safety_drawings import BENCH, bench_top
from site_builder.parts.strokes import (
    INK,
    METAL,
    PAPER,
    QUIET,
    WAX,
    block,
    line,
    shape,
    wood,
    words,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog

LOW = FACE + 4  # the wood under a bed
POT_TOP, POT_FOOT = 24, 64  # rim and bottom of the pot in its panel
MARK = 38  # its mark of the highest fill


def along(*marks: Element) -> list[Element]:
    """Draw a stretch of fillet from above: wood, wax, the rim of the plate."""
    return [
        wood(8, 22, 152, 42), block(8, 62, 152, 82, METAL), block(8, 42, 152, 62, WAX), *marks,
    ]  # fmt: skip


def skin(_: Catalog) -> Element:
    """Draw a fillet from above, right and with three faults of its skin."""
    net = [
        line(*way, width=1.2)
        for way in (
            ((20, 42), (26, 50), (22, 57), (28, 62)), ((26, 50), (40, 48), (48, 53), (46, 62)),
            ((40, 48), (43, 42)), ((48, 53), (62, 50), (70, 55), (66, 62)),
            ((62, 50), (66, 42)), ((70, 55), (86, 51), (92, 56), (90, 62)),
            ((86, 51), (84, 42)), ((92, 56), (108, 52), (114, 57), (118, 62)),
            ((108, 52), (112, 42)), ((114, 57), (130, 51), (136, 42)), ((130, 51), (142, 58)),
        )
    ]  # fmt: skip
    pits = [
        element("circle", cx=f"{x}", cy=f"{y}", r=f"{size}", fill=PAPER, stroke=INK)
        for x, y, size in (
            (22, 50, 2), (38, 56, 3), (54, 48, 1.5), (70, 54, 2.5), (88, 49, 2), (100, 57, 1.5),
            (118, 52, 3), (136, 48, 2),
        )
    ]  # fmt: skip
    seam = line((82, 42), (78, 48), (84, 54), (79, 62), width=2.2)
    pictures = [
        Panel("right", ("One even band, its edges", "thin, no line in it."), along(), good=True),
        Panel("crazed", ("A net of cracks: brittle", "wax, or chilled."), along(*net),
              good=False),
        Panel("pitted", ("Bubbles: stirred fast,", "or damp in the wax."), along(*pits),
              good=False),
        Panel("two strokes", ("A seam across: it opens", "there first."), along(seam), good=False),
    ]  # fmt: skip
    told = (
        "Four stretches of fillet from above, the wood at the top, the plate below. Right: an even "
        "band. Wrong: a net of fine cracks all over it. Wrong: small pits. Wrong: one crack "
        "straight across where two strokes met."
    )
    return panels("The skin of a fillet, from above", told, *pictures)


def bed(_: Catalog) -> Element:
    """Draw a right bed and three wrong ones, one edge of a plate cut across."""
    thin = [wall(LOW), *edge(), *wax(BED)]
    ooze = ((CELL, LOW - 2), (CELL + 10, LOW), (CELL + 14, LOW + 8), (CELL + 8, LOW + 13),
            (CELL, LOW + 7))  # fmt: skip
    raised = element("g", *edge(), transform="translate(0 -4)")
    patches = [((left, FACE), (right, FACE), (right, LOW), (left, LOW))
               for left, right in ((EDGE + 1, 60), (74, 81))]  # fmt: skip
    high = FACE - 4
    rough = ((EDGE - 2, FACE + 1), (60, high), (66, FACE + 3), (73, high), (80, FACE + 3),
             (88, high), (CELL, FACE + 2), (CELL, LOW), (EDGE - 2, LOW))  # fmt: skip
    pictures = [
        Panel("right", ("A film, even, that ends", "where the cell begins."), thin, good=True),
        Panel("too thick", ("It is pressed into the", "cell, to the valve."), [
            wall(LOW), raised,
            *wax(((EDGE - 2, FACE - 4), (CELL, FACE - 4), (CELL, LOW), (EDGE - 2, LOW)), ooze)],
            good=False),
        Panel("patchy", ("Air finds its way past", "the patches."), [
            wall(LOW), *edge(), *wax(*patches)], good=False),
        Panel("set too cold", ("The plate stands on dull", "ridges and rocks."), [
            wall(LOW), raised, *wax(rough)], good=False),
    ]  # fmt: skip
    told = (
        "Four sections of one edge of a plate on its wall, before the fillet. Right: a thin even "
        "film of wax under the metal, which ends at the cell. Wrong: a thick layer that is pressed "
        "out into the cell. Wrong: patches with air between. Wrong: ridges of wax that had set "
        "before the plate came down."
    )
    return panels("A thin bed: right, and three faults", told, *pictures)


def pot_of(level: float) -> list[Element]:
    """Draw a pot on its plate, filled to a level, with its mark."""
    return [
        bench_top(), block(40, POT_FOOT, 124, BENCH, METAL),
        block(48, level, 116, POT_FOOT, WAX),
        line((48, POT_TOP), (48, POT_FOOT), (116, POT_FOOT), (116, POT_TOP), width=2),
        line((110, MARK), (124, MARK), width=1.6),
    ]  # fmt: skip


def fill(_: Catalog) -> Element:
    """Draw a pot filled right and three that are not."""
    run = [
        shape((116, POT_TOP), (121, POT_TOP + 2), (122, 52), (119.5, 60), (117, 54), fill=WAX),
        shape((48, POT_TOP), (62, 20), (80, 24), (98, 19), (116, POT_TOP), fill=WAX),
    ]
    drops = [
        *(shape((x, y), (x + 3, y + 6), (x, y + 9), (x - 3, y + 6))
          for x, y in ((43, 28), (41, 46), (122, 44), (125, 26))),
        shape((20, BENCH), (26, 68), (38, 68), (40, BENCH), fill=PAPER),
    ]  # fmt: skip
    pictures = [
        Panel("right", ("At the mark at most; bulb", "in the wax, pot dry."), [
            *pot_of(MARK), thermometer(82, 17, 52), words((128, 42), "mark")], good=True),
        Panel("too full", ("It foams, or one stick", "more, and it runs over."), [
            *pot_of(POT_TOP), *run], good=False),
        Panel("bulb in the air", ("It reads the room, and", "the wax climbs unseen."), [
            *pot_of(56), thermometer(82, 17, 40)], good=False),
        Panel("wet from the bath", ("A drop under hot wax", "throws it out."), [
            *pot_of(MARK), *drops], good=False),
    ]  # fmt: skip
    told = (
        "Four pots on closed plates, cut open. Right: the wax stands at the mark, well below the "
        "rim, and the bulb of the thermometer is in it. Wrong: the wax stands over the rim and "
        "runs down outside. Wrong: so little wax that the bulb hangs in the air above it. Wrong: "
        "drops of water on the outside of the pot and a puddle beside it."
    )
    return panels("How full a pot is", told, *pictures)


def stick(left: float = 24, right: float = 136) -> Element:
    """Draw a stick of wax, lying."""
    return block(left, 44, right, 60, WAX)


def label(left: float, top: float, *rows: float) -> list[Element]:
    """Draw a label with lines of writing of these lengths."""
    lines = [
        line((left + 5, top + 8 + 7 * at), (left + 5 + long, top + 8 + 7 * at), width=1.2)
        for at, long in enumerate(rows)
    ]
    return [block(left, top, left + 66, top + 36, PAPER), *lines]


def sticks(_: Catalog) -> Element:
    """Draw a stick with its label and three without one that serves."""
    mark = [
        shape((102, 42), (109, 49), (102, 56), (95, 49), fill=PAPER, width=1.4),
        words((102, 53), "!", anchor="middle", bold=True),
    ]
    blur = [
        line((58, y), (72, y + 2), (86, y - 2), (100, y + 2), (112, y), width=3, stroke=QUIET)
        for y in (44, 52, 60)
    ]
    pictures = [
        Panel("right", ("Parts, batch, date and", "warning, on each stick."), [
            stick(), *label(48, 34, 40, 30, 34, 26), *mark], good=True),
        Panel("bare", ("Nobody can tell by look", "or smell what it is."), [
            stick(), words((74, 36), "?", bold=True)], good=False),
        Panel("smeared", ("Hot fingers: no line can", "be read at arm's length."), [
            stick(), *label(52, 34), *blur], good=False),
        Panel("on the lid only", ("Lids wander: the sticks", "are of any batch now."), [
            block(30, 54, 98, 82, METAL), *(block(x, 40, x + 12, 54, WAX) for x in (36, 56, 76)),
            block(106, 60, 152, 82, METAL), block(111, 64, 147, 78, PAPER),
            line((115, 69), (141, 69), width=1.2), line((115, 73), (133, 73), width=1.2)],
            good=False),
    ]  # fmt: skip
    told = (
        "Four times wax sticks. Right: a stick with a label of four lines and a warning sign. "
        "Wrong: a bare stick with a question mark. Wrong: a stick whose label is smeared. Wrong: "
        "an open tin of bare sticks, with the only label on the lid that lies beside it."
    )
    return panels("A stick and its label", told, *pictures)


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "fillet-skin": skin,
    "thin-bed": bed,
    "pot-fill": fill,
    "labelled-stick": sticks,
}
