"""Line drawings of valve stock: the ramp, the four readings, other ways, the gauge, the curl.

A drawing shows where things are; it is not to scale, and a measure in it comes from the tables.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.units import printed
from site_builder.markup.elements import span
from site_builder.parts.charts import drawing
from site_builder.parts.panels import Panel, panels
from site_builder.parts.strokes import (
    METAL,
    PAPER,
    arrow,
    block,
    line,
    shape,
    span_mark,
    wood,
    words,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.entries import Figure

STEPS = 24
STRIP = 2.6  # width of the line that stands for a strip seen from its edge


def told(figure: Figure) -> str:
    """Give a figure as it stands in a drawing."""
    return span(figure.low, figure.high, figure.unit)


def curve(places: list[tuple[float, float]], width: float = STRIP) -> Element:
    """Draw a strip seen from its edge."""
    return line(*places, width=width)


def sagging(x: float, y: float, length: float, drop: float) -> list[tuple[float, float]]:
    """Give a strip that leaves an edge level and ends `drop` lower, `length` farther."""
    shares = [place / STEPS for place in range(STEPS + 1)]
    return [(x + length * one, y + drop * (one**4 - 4 * one**3 + 6 * one**2) / 3) for one in shares]


def ramp(catalog: Catalog) -> Element:
    """Draw the ramp from its side with a strip whose tip has met it."""
    degrees = catalog.figures["ramp-angle"].low or 0.0
    fall = math.tan(math.radians(degrees))
    edge, top, foot = 150.0, 60.0, 196.0
    reach = 112.0
    tip = reach * fall
    marks = [
        shape((edge, top), (edge + (foot - top) / fall, foot), (edge, foot), fill=PAPER),
        wood(20, top, edge, foot),
        curve([(34, top - 2), *sagging(edge, top - 2, reach, tip)]),
        block(48, top - 11, edge, top - 4, METAL),
        span_mark((edge, 38), (edge + reach, 38)),
        words((edge + 6, 14), "slid out by the overhang O,", "read on the rule"),
        words((edge + 86, foot - 8), f"{printed(degrees, 1)}°"),
        words((14, 14), "rule on the strip, both", "slide out together"),
        arrow((58, 38), (96, 38)),
        words((edge + reach + 4, top + tip - 26), "tip touches", "the line"),
        words((20, foot + 16), "block: level, smooth, edge not rounded"),
    ]
    said = (
        "A level block with a sharp edge, and from the edge a ramp that falls at "
        f"{printed(degrees, 1)} degrees. A strip lies on the block under a rule; both are slid out "
        "until the tip of the strip, bent down by its own weight, touches the ramp. How far it was "
        "slid out is read on the rule."
    )
    return drawing("Ruler and ramp", said, *marks, size="0 0 340 218")


def _strip(face: str, end: str) -> list[Element]:
    """Draw a strip from above, pushed to the left; its number stands on the soft face."""
    smooth_down = face == "smooth"
    left, right = ("a", "b") if end == "a" else ("b", "a")
    way = ((58, 68), (102, 68)) if end == "a" else ((102, 68), (58, 68))
    seen = [words((74, 51), "no. 1")] if smooth_down else []
    return [
        block(24, 34, 144, 60, PAPER if smooth_down else METAL),
        words((30, 30), left, bold=True),
        words((130, 30), right, bold=True),
        *seen,
        arrow((24, 47), (4, 47)),
        arrow(*way),
        words((4, 82), "backbone, as marked"),
    ]


def readings(_: Catalog) -> Element:
    """Draw the four readings of one strip."""
    pictures = [
        Panel("1", ("Smooth face down,", "end a goes first."), _strip("smooth", "a")),
        Panel("2", ("Smooth face down,", "end b goes first."), _strip("smooth", "b")),
        Panel("3", ("Soft face down,", "end a goes first."), _strip("soft", "a")),
        Panel("4", ("Soft face down,", "end b goes first."), _strip("soft", "b")),
    ]
    said = (
        "The same strip four times, seen from above. It is pushed out with its end a first, then "
        "with its end b first; then it is turned over and both are done again."
    )
    return panels("Four readings of one strip", said, *pictures)


def _loop() -> list[Element]:
    half: list[tuple[float, float]] = [
        (80, 30), (75, 22), (66, 19), (58, 24), (55, 34), (57, 46), (63, 58), (71, 68), (80, 73),
    ]  # fmt: skip
    other: list[tuple[float, float]] = [(160 - x, y) for x, y in half]
    return [
        curve(half), curve(other), block(74, 24, 86, 34, METAL),
        line((118, 30), (118, 73), width=1), line((114, 30), (122, 30), width=1),
        line((114, 73), (122, 73), width=1), words((124, 56), "h"),
    ]  # fmt: skip


def _cut_valve() -> list[Element]:
    return [
        wood(8, 34, 60, 60), block(14, 24, 60, 31, METAL), curve([(20, 33), (60, 33)]),
        curve(sagging(60, 33, 84, 18)), line((60, 33), (150, 33), dash="3 2"),
        line((146, 33), (146, 51), width=1), words((150, 46), "d"),
    ]  # fmt: skip


def _rests() -> list[Element]:
    bend = [(24 + 112 * s / 16, 44 + 12 * math.sin(math.pi * s / 16)) for s in range(17)]
    return [
        shape((20, 60), (28, 60), (24, 46), fill=METAL), curve(bend),
        shape((132, 60), (140, 60), (136, 46), fill=METAL), block(14, 60, 146, 70, PAPER),
        arrow((80, 20), (80, 50)), words((86, 26), "F"), words((28, 82), "on the scale's pan"),
    ]  # fmt: skip


def _long() -> list[Element]:
    return [
        wood(8, 26, 46, 80), shape((46, 26), (108, 80), (46, 80), fill=PAPER),
        curve([(10, 24), *sagging(46, 24, 54, 48)]),
    ]  # fmt: skip


def other_ways(_: Catalog) -> Element:
    """Draw what to do where the ramp does not serve."""
    pictures = [
        Panel(
            "limp: heart loop",
            ("Both ends in one clip,", "pointing up."),
            _loop(),
        ),
        Panel(
            "any: the cut valve",
            ("Held level at its glue", "line: read its droop."),
            _cut_valve(),
        ),
        Panel(
            "stiff: two rests",
            ("Press its middle down by a", "known distance, read the scale."),
            _rests(),
        ),
        Panel(
            "stiff: a taller ramp",
            ("The same angle and", "a longer strip."),
            _long(),
        ),
    ]
    said = (
        "Four pictures. A heart-shaped loop whose two ends are clamped together pointing up, its "
        "height h marked. A cut valve held at its glue line, its droop d marked. A strip on two "
        "rests on the pan of a scale, pressed down at its middle. A taller ramp."
    )
    return panels("Other ways to the number", said, *pictures, height=132)


def gauge(catalog: Catalog) -> Element:
    """Draw the foot of the thickness gauge, and what a firm calliper does."""
    width = told(catalog.figures["gauge-foot-width"])
    mass = told(catalog.figures["gauge-foot-mass"])
    foot = [
        block(20, 60, 140, 66, PAPER), block(52, 66, 108, 80, METAL), block(56, 30, 104, 60, METAL),
        line((80, 14), (80, 30), width=3),
    ]  # fmt: skip
    squeezed = [
        shape((10, 52), (60, 52), (70, 57), (90, 57), (100, 52), (150, 52), (150, 66), (10, 66),
              fill=PAPER),
        block(70, 22, 90, 57, METAL), block(70, 66, 90, 80, METAL),
    ]  # fmt: skip
    pictures = [
        Panel("gauge", (f"A flat foot {width} wide,", f"loaded with {mass}."), foot, good=True),
        Panel(
            "calliper by hand",
            ("Narrow jaws sink in,", "and it reads thin."),
            squeezed,
            good=False,
        ),
    ]
    said = (
        "Left, a wide flat foot rests on leather with a set weight, which is right. Right, the "
        "narrow jaws of a calliper have sunk into the leather, which reads too thin."
    )
    return panels("Thickness: the pressure belongs to it", said, *pictures)


def _arc(up: bool) -> list[tuple[float, float]]:
    sign = 1 if up else -1
    return [
        (20 + 120 * s / STEPS, 48 + sign * 14 * (1 - (2 * s / STEPS - 1) ** 2) - (7 if up else -7))
        for s in range(STEPS + 1)
    ]


def _lying(rising: bool) -> list[Element]:
    plate = block(14, 66, 146, 76, METAL)
    shares = [s / STEPS for s in range(STEPS + 1)]
    if rising:
        valve = [(30 + 104 * s, 64 - 22 * s * s) for s in shares]
        return [plate, curve(valve), arrow((126, 30), (134, 20))]
    valve = [(30 + 104 * s, 64 - 8 * s * (1 - s)) for s in shares]
    return [plate, curve(valve), arrow((134, 44), (134, 58))]


def curl(_: Catalog) -> Element:
    """Draw the curl test and what it means on the plate."""
    chord = [
        curve(_arc(up=True)), line((20, 41), (140, 41), dash="3 2"),
        line((80, 41), (80, 54), width=1), words((84, 52), "h"), words((60, 34), "chord s"),
    ]  # fmt: skip
    stand = [
        block(10, 22, 150, 78, PAPER),
        curve([(x, y + 4) for x, y in _arc(up=True)]),
        words((16, 36), "glass, from above"),
    ]
    pictures = [
        Panel("what to read", ("Chord, rise, and the face", "on the hollow side."), chord),
        Panel("how it stands", ("On its long edge: its", "weight cannot bend it."), stand),
        Panel(
            "hollow to the plate",
            ("The tip is pressed on:", "shut at rest."),
            _lying(rising=False),
            good=True,
        ),
        Panel(
            "hollow away",
            ("The tip stands off:", "it leaks."),
            _lying(rising=True),
            good=False,
        ),
    ]
    said = (
        "Four pictures. A curved strip seen from its edge with the chord and the rise in its "
        "middle. The same strip from above, standing on its long edge on glass. A valve whose "
        "hollow face lies on the plate, its tip pressed on, which is right. A valve whose hollow "
        "face is away from the plate, its tip standing off, which is wrong."
    )
    return panels("Curl: which face to the plate", said, *pictures)


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "ramp": ramp,
    "strip-readings": readings,
    "stiffness-other-ways": other_ways,
    "thickness-gauge": gauge,
    "stock-curl": curl,
}
