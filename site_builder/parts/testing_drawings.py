"""Line drawings of the shop's own tests: hung plates, cold bend, grip, weighing in water.

A drawing shows where things are; it is not to scale, and a measure in it comes from the tables.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.units import printed
from formulas.wax.bench_tests import loads_of, rods
from site_builder.markup.elements import element
from site_builder.parts import bath_drawings
from site_builder.parts.bath_drawings import ball, thermometer, told, vessel
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
    pointer,
    shape,
    wood,
    words,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog


def hung(x: float, weight: float) -> list[Element]:
    """Draw a plate under its board, cut across its middle, with a weight of some size below.

    The board has a cell above the plate; a screw in the plate carries hook and weight.
    """
    left, right = x - 44, x + 44
    marks = [
        wood(x - 62, 36, x - 30, 62), wood(x + 30, 36, x + 62, 62), wood(x - 62, 26, x + 62, 36),
        block(left, 62, right, 71, METAL),
        shape((left - 11, 62), (left, 62), (left, 71), (left + 4, 72), (left - 4, 70), fill=WAX),
        shape((right + 11, 62), (right, 62), (right, 71), (right - 4, 72), (right + 4, 70),
              fill=WAX),
    ]  # fmt: skip
    if weight:
        foot = 82
        marks += [
            block(x - 6, 57, x + 6, 62, METAL), line((x, 71), (x, foot), width=1.8),
            block(x - weight, foot, x + weight, foot + min(1.4 * weight, 12), METAL),
        ]  # fmt: skip
    return marks


def creep(catalog: Catalog) -> Element:
    """Draw step creep: the plate under its board, what is looked at, and the box round it."""
    moved = told(catalog.figures["creep-moved"])
    marks = [
        line((20, 16), (20, 196), (320, 196), (320, 16), (20, 16), width=1.6),
        line((20, 190), (320, 190), width=0.6), *hung(130, 15),
        thermometer(226, 30, 66),
        words((236, 40), "bulb level with", "the plate"),
        words((26, 128), "fillet only:"), words((26, 141), "no wax over the plate"),
        pointer((82, 118), (84, 73)),
        words((168, 124), "scribed line, on wood", "and plate: moved when", f"it has gone {moved}"),
        line((168, 55), (168, 71), width=1.6), pointer((198, 113), (169, 70)),
        words((131, 106), "hook and weight", anchor="middle"),
        line((96, 178), (166, 178), (170, 172), (92, 172), (96, 178), width=1.2),
        words((178, 168), "tray with sand close", "below: a short fall"),
        words((24, 212), "warm box, closed: thermostat, cut-out"),
    ]  # fmt: skip
    said = (
        "Section of a warm box. A board with a cell hangs in it, and under the board a plate, face "
        "down, held by a fillet of wax round its edge only. A screw through the plate has its head "
        "in the cell and carries a hook and a weight. A thermometer bulb stands level with the "
        "plate. A line is scribed over wood and plate on the outside; the plate has moved when the "
        f"two halves of the line are {moved} apart. A tray with sand stands close under the weight."
    )
    return drawing("Step creep: the plate hangs on its wax", said, *marks, size="0 0 340 218")


def loads(catalog: Catalog) -> Element:
    """Draw the three loads of step creep."""
    second, third = loads_of(catalog)
    pictures = [
        Panel("once: the plate alone", ("No hook, no weight.",), _lower(hung(82, 0))),
        Panel(f"load {second:g}", ("Hook and weight together", f"weigh {second - 1:g} plates."),
              _lower(hung(82, 5))),
        Panel(f"load {third:g}", ("Hook and weight together", f"weigh {third - 1:g} plates."),
              _lower(hung(82, 10))),
        Panel("rash", ("A great weight pulls off", "any wax: no answer."),
              _lower(hung(82, 30)), good=False),
    ]  # fmt: skip
    said = (
        "Four times the same plate under its board. First it carries nothing. Then a small weight, "
        "a larger one, and last one so heavy that it would pull off any wax, which is wrong."
    )
    return panels("The loads, in weights of the plate", said, *pictures)


def _lower(marks: list[Element]) -> list[Element]:
    return [element("g", *marks, transform="translate(0 -8)")]


def side_by_side(_: Catalog) -> Element:
    """Draw two plates in one box, their places changed for the second run."""

    def run(x: float, names: tuple[str, str]) -> Element:
        plates = []
        for place, name in zip((38, 108), names, strict=True):
            plates += [
                block(x + place - 22, 58, x + place + 22, 65, METAL),
                shape((x + place - 28, 58), (x + place - 22, 58), (x + place - 22, 65), fill=WAX),
                shape((x + place + 28, 58), (x + place + 22, 58), (x + place + 22, 65), fill=WAX),
                line((x + place, 65), (x + place, 76), width=1.6),
                block(x + place - 9, 76, x + place + 9, 90, METAL),
                words((x + place, 108), name, anchor="middle", bold=True),
            ]  # fmt: skip
        return element(
            "g", line((x, 22), (x, 134), (x + 148, 134), (x + 148, 22), (x, 22), width=1.6),
            wood(x + 6, 40, x + 142, 58), *plates,
        )  # fmt: skip

    marks = [
        run(12, ("A", "B")), run(180, ("B", "A")),
        words((12, 14), "first run"), words((180, 14), "second run: changed"),
        words((12, 150), "Same plate, load, fillet and age, one board.",
              "Written down: which of the two moved first."),
    ]  # fmt: skip
    said = (
        "Two boxes. In the first, two equal plates hang side by side under one board with equal "
        "weights, one on wax A and one on wax B. In the second run they have changed places."
    )
    return drawing("Side by side: which moves first", said, *marks, size="0 0 340 168")


def cold_bend(catalog: Catalog) -> Element:
    """Draw the rods of the cold bend, each with what it asks of the bead."""
    marks: list[Element] = []
    x = 8.0
    for width, strain in rods(catalog):
        size = width * 1000
        radius = size / 2
        centre = x + radius + 4
        marks += [
            ball(centre, 96 - radius, radius, PAPER),
            element("path", d=_round(centre, 96 - radius, radius + 2), fill="none", stroke=INK,
                    **{"stroke-width": "4"}),
            words((centre, 118), f"{printed(size, 0)} mm", f"{printed(100 * strain, 1)} %",
                  anchor="middle"),
        ]  # fmt: skip
        x += max(size, 34) + 26
    bead = told(catalog.figures["cold-bend-bead"])
    marks += [
        arrow((20, 146), (320, 146)),
        words((20, 162), f"Begin with the thickest. Bead: {bead}."),
    ]
    said = (
        "Four rods from thick to thin, each with a bead bent over its top. Under each stands its "
        "width and by how much it stretches the outside of the bead. Begin with the thickest."
    )
    return drawing("Cold bend: four rods", said, *marks, size="0 0 340 170")


def _round(x: float, y: float, radius: float) -> str:
    """Give the path of half a turn over the top of a rod."""
    left, right, height = (printed(value, 1) for value in (x - radius, x + radius, y))
    size = printed(radius, 1)
    return f"M {left} {height} A {size} {size} 0 0 1 {right} {height}"


def grip(_: Catalog) -> Element:
    """Draw the pull along the wood and the three ways in which a joint breaks."""
    pull = [
        wood(12, 50, 148, 72), shape((38, 50), (48, 50), (48, 42), fill=WAX),
        shape((112, 50), (122, 50), (112, 42), fill=WAX), block(48, 42, 112, 50, METAL),
        line((112, 46), (128, 46), width=1.4), arrow((128, 46), (156, 46)),
        block(148, 56, 158, 80, METAL),
    ]  # fmt: skip

    def broken(*left: Element) -> list[Element]:
        plate = block(52, 26, 116, 34, METAL)
        return [wood(12, 58, 148, 76), plate, *left]

    on_both = [
        shape((46, 58), (58, 58), (54, 51), (48, 54), fill=WAX),
        shape((52, 34), (62, 34), (58, 41), (54, 39), fill=WAX),
        shape((106, 34), (116, 34), (114, 40), fill=WAX),
        shape((108, 58), (120, 58), (112, 52), fill=WAX),
    ]  # fmt: skip
    on_wood = [shape((40, 58), (52, 58), (52, 49), fill=WAX),
               shape((116, 58), (128, 58), (116, 49), fill=WAX)]  # fmt: skip
    on_plate = [shape((42, 34), (52, 34), (52, 26), fill=WAX),
                shape((116, 34), (126, 34), (116, 26), fill=WAX)]  # fmt: skip
    pictures = [
        Panel("pull", ("Along the wood, slowly,", "by a spring balance."), pull),
        Panel("wax on both", ("The wax itself gave way:", "that is its strength."),
              broken(*on_both)),
        Panel("wax on the wood", ("It let go of the metal:", "dirt, or a cold plate."),
              broken(*on_wood)),
        Panel("wax on the plate", ("It let go of the wood:", "dust, oil, or cold wood."),
              broken(*on_plate)),
    ]  # fmt: skip
    said = (
        "Four pictures. A waxed plate is pulled along its piece of wood, which rests against a "
        "stop. Then three broken joints: wax is left on both wood and plate; wax is left on the "
        "wood only; wax is left on the plate only."
    )
    return panels("Grip: the pull, and where the wax is left", said, *pictures)


def weighing_in_water(_: Catalog) -> Element:
    """Draw the weighing of a floating lump with a sinker."""

    def stand(x: float, title: str, *load: Element) -> list[Element]:
        return [
            words((x, 14), title), line((x + 10, 24), (x + 90, 24), width=2),
            line((x + 50, 24), (x + 50, 60), width=0.8), vessel(x + 16, 50, x + 84, 132, 62),
            *load,
        ]  # fmt: skip

    marks = [
        words((10, 14), "m: lump in air"), line((20, 24), (100, 24), width=2),
        line((60, 24), (60, 66), width=0.8), ball(60, 78, 12, WAX),
        *stand(118, "s: sinker in water", line((168, 60), (168, 106), width=0.8),
               ball(168, 114, 8, METAL)),
        *stand(226, "c: both in water", line((276, 60), (276, 78), width=0.8),
               ball(276, 90, 12, WAX), ball(276, 114, 8, METAL)),
        words((10, 150), "Hang from the hook under the scale.",
              "No bubble on the lump, nothing at the glass."),
    ]  # fmt: skip
    said = (
        "Three weighings from a hook. First the lump of wax in air. Then the sinker alone under "
        "water. Then lump and sinker tied together under water."
    )
    return drawing("Density without a spirit bath", said, *marks, size="0 0 340 168")


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "step-creep": creep,
    "creep-loads": loads,
    "side-by-side": side_by_side,
    "cold-bend": cold_bend,
    "grip": grip,
    "weighing-in-water": weighing_in_water,
    **bath_drawings.DRAWINGS,
}
