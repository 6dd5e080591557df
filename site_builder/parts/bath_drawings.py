"""Line drawings of the tests in a bath or a jar: drop point, congealing point, ring and ball.

A drawing shows where things are; it is not to scale, and a measure in it comes from the tables.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import element, span
from site_builder.parts.charts import drawing
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
    words,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.entries import Figure


def told(figure: Figure) -> str:
    """Give a figure with its unit."""
    return span(figure.low, figure.high, figure.unit)


def ball(x: float, y: float, radius: float, fill: str = PAPER) -> Element:
    """Draw a circle."""
    return element(
        "circle", cx=f"{x:g}", cy=f"{y:g}", r=f"{radius:g}", fill=fill, stroke=INK,
        **{"stroke-width": "1"},
    )  # fmt: skip


def thermometer(x: float, top: float, foot: float) -> Element:
    """Draw an upright thermometer with its bulb at the foot."""
    marks = [line((x - 3, y), (x, y), width=0.6) for y in range(int(top) + 10, int(foot) - 16, 8)]
    return element(
        "g", block(x - 3, top, x + 3, foot), *marks, line((x, top + 14), (x, foot), width=1.4),
        ball(x, foot + 3, 5, METAL),
    )  # fmt: skip


def vessel(left: float, top: float, right: float, foot: float, level: float) -> Element:
    """Draw an open glass with a level of liquid in it."""
    ripples = [
        line((x, y), (x + 8, y), width=0.5, stroke=QUIET)
        for row, y in enumerate(range(int(level) + 8, int(foot) - 3, 9))
        for x in range(int(left) + 5 + 7 * (row % 2), int(right) - 10, 18)
    ]
    return element(
        "g", *ripples, line((left + 1, level), (right - 1, level), width=0.8),
        line((left, top), (left, foot), (right, foot), (right, top), width=1.6),
    )  # fmt: skip


def drop_point(_: Catalog) -> Element:
    """Draw the dipped thermometer in its tube, in its bath."""
    marks = [
        vessel(70, 50, 210, 186, 66),
        shape((109, 34), (171, 34), (171, 169), (109, 169), width=0),
        line((71, 66), (112, 66), width=0.8), line((168, 66), (209, 66), width=0.8),
        line((112, 34), (112, 166), (168, 166), (168, 34), width=1.4),
        block(108, 28, 172, 38, WAX), thermometer(140, 6, 116),
        shape((133, 106), (147, 106), (150, 122), (144, 129), (136, 129), (130, 122), fill=WAX),
        ball(140, 119, 5, METAL),
        shape((140, 133), (143, 139), (140, 143), (137, 139), fill=WAX),
        thermometer(192, 20, 116),
        words((4, 24), "bored cork, with a notch", "for the air"), pointer((70, 37), (110, 34)),
        words((4, 96), "dry tube:", "no water", "in it"), pointer((44, 108), (111, 128)),
        words((222, 102), "wax on the bulb"), pointer((222, 98), (150, 116)),
        words((222, 136), "first drop:", "read now"), pointer((222, 138), (145, 139)),
        words((222, 30), "thermometer", "of the bath"), pointer((222, 32), (196, 34)),
        words((222, 174), "water bath"), pointer((222, 170), (198, 160)),
        *(arrow((x, 208), (x, 192)) for x in (100, 140, 180)),
        words((222, 206), "slow, closed heat"),
    ]  # fmt: skip
    said = (
        "Section of a water bath on slow heat. A dry glass tube stands in the water. In the tube "
        "hangs a thermometer through a notched cork; its bulb carries a coat of wax and touches "
        "nothing. A drop falls from the bulb. A second thermometer stands in the water."
    )
    return drawing("Drop point: the dipped thermometer", said, *marks, size="0 0 340 214")


def congealing(_: Catalog) -> Element:
    """Draw the turning thermometer with its drop, liquid and set."""

    def level(y: float, *drop: Point) -> Element:
        return element(
            "g", line((200, y - 21), (270, y - 21), (270, y + 21), (200, y + 21), width=1.6),
            block(194, y - 19, 208, y + 19, WAX), block(24, y - 3, 240, y + 3),
            *(line((x, y - 3), (x, y), width=0.6) for x in range(40, 200, 8)),
            ball(244, y, 6, METAL), shape(*drop, fill=WAX), ball(244, y, 4, METAL),
        )  # fmt: skip

    turn = "M 70 {0} A 6 14 0 1 1 70 {1}"
    marks = [
        words((10, 16), "Liquid: the drop hangs below, always."),
        level(44, (235, 40), (252, 40), (256, 48), (250, 60), (240, 60), (233, 48)),
        element("path", d=turn.format(56, 32), fill="none", stroke=INK),
        arrow((69, 32), (75, 33)),
        words((10, 96), "Set: it goes round with the bulb. Read now."),
        level(124, (235, 128), (252, 128), (259, 118), (252, 107), (240, 107), (232, 118)),
        element("path", d=turn.format(136, 112), fill="none", stroke=INK),
        arrow((69, 112), (75, 113)),
        words((276, 36), "warm jar,", "out of", "draughts"),
    ]  # fmt: skip
    said = (
        "Two views of a thermometer that lies level and is turned slowly between the fingers, its "
        "bulb in a warm jar that a bored cork closes. First the drop of wax on the bulb is liquid "
        "and hangs down. Then it has set and is carried round by the bulb."
    )
    return drawing("Congealing point: the turning thermometer", said, *marks, size="0 0 340 150")


def ring_and_ball(catalog: Catalog) -> Element:
    """Draw the ring-and-ball rig with its measures."""
    figures = catalog.figures
    fall, width = told(figures["ring-and-ball-fall"]), told(figures["ball-width"])
    mass, rate = told(figures["ball-mass"]), told(figures["ball-rate"])
    bore, depth = told(figures["ring-bore"]), told(figures["ring-depth"])
    ring = [
        block(92, 70, 104, 84, METAL), block(140, 70, 152, 84, METAL),
        block(104, 71, 140, 84, WAX), ball(122, 60, 11, METAL),
    ]  # fmt: skip
    frame = [
        line((66, 84), (234, 84), width=2), line((66, 146), (234, 146), width=3),
        line((70, 20), (70, 146), width=1.4), line((230, 20), (230, 146), width=1.4),
    ]  # fmt: skip
    marks = [
        vessel(54, 28, 246, 178, 38), *frame, *ring, thermometer(82, 6, 74),
        line((122, 84), (122, 130), width=0.6, dash="2 2"), ball(122, 135, 11),
        element("g", line((206, 86), (206, 144)), line((202, 86), (210, 86)),
                line((202, 144), (210, 144))),
        words((256, 112), "fall:", fall), pointer((256, 116), (207, 116)),
        words((256, 150), "plate"), pointer((256, 147), (224, 146)),
        words((98, 12), f"ball: {width},", mass), line((122, 28), (122, 50), width=0.7),
        words((254, 48), "hole:", f"{bore},", f"deep {depth}"), pointer((256, 66), (146, 76)),
        words((2, 104), "bulb level"), words((2, 117), "with the"), words((2, 130), "ring"),
        line((38, 93), (77, 79), width=0.7),
        words((256, 170), f"{rate}"), arrow((122, 202), (122, 184)), arrow((176, 202), (176, 184)),
        words((256, 185), "water or", "glycerol,", "never oil"), pointer((256, 181), (236, 166)),
    ]  # fmt: skip
    said = (
        "Section of a glass with a bath in it. A frame carries a ring filled with resin, with a "
        f"steel ball of {width} and {mass} on it, and a plate {fall} below. A thermometer bulb "
        f"stands level with the ring. The hole of the ring is {bore} wide and {depth} deep. The "
        f"bath rises by {rate}. Read when the ball in its bag of resin touches the plate."
    )
    return drawing("Ring and ball", said, *marks, size="0 0 340 214")


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "drop-point": drop_point,
    "congealing-point": congealing,
    "ring-and-ball": ring_and_ball,
}
