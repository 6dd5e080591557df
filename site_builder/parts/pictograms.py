"""The pictograms of the UN GHS as drawings of our own: black on white, a red square on its point.

Frame and symbols follow the open standard; the lines are ours. Each is drawn in a box of 100 by
100 units, the tips of the frame in the middles of the box's sides, so that the side of the
square is 100 over the square root of 2.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from xml.etree.ElementTree import Element

from formulas.fault import NotKnown
from formulas.units import printed
from site_builder.markup.elements import element

RED, BLACK, WHITE = "#c8102e", "#000000", "#ffffff"
FRAME = 5.5  # width of the red frame, in hundredths of the box from tip to tip
TIPS = ((50.0, 0.0), (100.0, 50.0), (50.0, 100.0), (0.0, 50.0))


def drawn(name: str) -> list[Element]:
    """Draw one pictogram in its box of 100 by 100 units.

    Raises NotKnown for one that the handbook does not draw.
    """
    if name not in SYMBOLS:
        find_out = "stick a printed pictogram beside the label, and say so on the order for it."
        raise NotKnown(f"the drawing of the pictogram {name.replace('-', ' ')}", find_out)
    inner = 50 - FRAME * math.sqrt(2)
    white = [(50 + (x - 50) * inner / 50, 50 + (y - 50) * inner / 50) for x, y in TIPS]
    frame = element("polygon", points=_points(TIPS), fill=RED)
    return [frame, element("polygon", points=_points(white), fill=WHITE), *SYMBOLS[name]()]


def _points(corners: list[tuple[float, float]] | tuple[tuple[float, float], ...]) -> str:
    return " ".join(f"{printed(x, 2)},{printed(y, 2)}" for x, y in corners)


def _path(d: str, fill: str = BLACK) -> Element:
    return element("path", d=d, fill=fill)


def _stroke(d: str, width: float, colour: str = BLACK) -> Element:
    ends = {"stroke-width": f"{width:g}", "stroke-linecap": "round", "stroke-linejoin": "round"}
    return element("path", d=d, fill="none", stroke=colour, **ends)


def _disc(x: float, y: float, r: float, fill: str = BLACK) -> Element:
    return element("circle", cx=f"{x:g}", cy=f"{y:g}", r=f"{r:g}", fill=fill)


def _exclamation_mark() -> list[Element]:
    body = (
        "M50 20 C42.5 20 40.2 25.5 41 32 L45.2 56.5 C46 61.2 54 61.2 54.8 56.5"
        " L59 32 C59.8 25.5 57.5 20 50 20 Z"
    )
    return [_path(body), _disc(50, 71.5, 6.8)]


def _flame() -> list[Element]:
    body = (
        "M52 19 C54 28 64.5 35 65.5 48 C66.3 58.5 59.5 66.5 50 66.5 C40.5 66.5 33.5 59.5 34 50.5"
        " C34.4 44 38.5 41.5 39.5 35.5 C42.5 38 43.5 41 43.4 44.5 C49 37.5 52.5 28.5 52 19 Z"
    )
    heart = (
        "M51 40 C51.5 47 57.5 49.5 57 56 C56.7 60.5 53.6 63 50 63 C46 63 43 60.3 43.2 56.3"
        " C43.4 53 45.3 51.8 45.9 48.9 C47.7 50.3 48.3 51.8 48.3 53.3 C50.6 49.5 51.6 44.9 51 40 Z"
    )
    ground = element("rect", x="35.5", y="70", width="29", height="4.5", fill=BLACK)
    return [_path(body), _path(heart, WHITE), ground]


def _health_hazard() -> list[Element]:
    bust = (
        "M50 17.5 C57 17.5 60.3 22.5 60.3 28.5 C60.3 33.5 58 37.5 55.3 39.8 L55.3 43.5"
        " C63 45.5 69.5 49 69.5 58 L69.5 66.5 L60 76 L40 76 L30.5 66.5 L30.5 58"
        " C30.5 49 37 45.5 44.7 43.5 L44.7 39.8 C42 37.5 39.7 33.5 39.7 28.5"
        " C39.7 22.5 43 17.5 50 17.5 Z"
    )
    return [_path(bust), _path(_star(50, 59.5, 14.5, 5, 6), WHITE)]


def _star(x: float, y: float, outer: float, inner: float, rays: int) -> str:
    """Give the outline of a star with its first ray upright."""
    corners = []
    for step in range(2 * rays):
        reach = inner if step % 2 else outer
        turn = math.pi * step / rays
        across, up = reach * math.sin(turn), reach * math.cos(turn)
        corners.append(f"{printed(x + across, 2)} {printed(y - up, 2)}")
    return f"M{' L'.join(corners)} Z"


def _environment() -> list[Element]:
    ground = "M15.5 57.5 L20 53 L84.5 53 L80 57.5 Z"
    trunk = "M41 55 L43 40 L40.5 29 L45 29 L46.8 38 L49.5 55 Z"
    fish = (
        "M34 66 C39 58.5 50 57.5 57 62.5 L63.5 57.5 C62.5 61.5 62.5 65 64 69 L56.5 66"
        " C50.5 73 39.5 73 34 66 Z"
    )
    return [
        _path(ground),
        _path(trunk),
        _stroke("M42.5 33 L38.5 22.5 M41 28.5 L34.5 27 M44.5 32 L48 16.5 M46.5 25 L53.5 20.5", 2.4),
        _stroke("M45.5 40 L55.5 32 M51.5 35.5 L58.5 36.5 M43.5 45 L33.5 38 M38 41 L36.5 34.5", 2.4),
        _stroke("M34 66 C39 58.5 50 57.5 57 62.5", 3, WHITE),
        _path(fish),
        _stroke("M39 64 L42 67 M42 64 L39 67", 1.1, WHITE),
    ]


def _skull_and_crossbones() -> list[Element]:
    skull = (
        "M50 17 C61 17 67.5 24.5 67.5 33 C67.5 38.5 64.5 42.5 60.5 45 L60 51.5"
        " C59.8 54.5 40.2 54.5 40 51.5 L39.5 45 C35.5 42.5 32.5 38.5 32.5 33"
        " C32.5 24.5 39 17 50 17 Z"
    )
    nose = "M50 38.5 L53 44.5 L47 44.5 Z"
    bones = "M32 59 L68 71 M68 59 L32 71"
    ends = [(31, 60.5), (33, 57), (69, 60.5), (67, 57), (31, 69.5), (33, 73), (69, 69.5), (67, 73)]
    teeth = "M46 48 L46 53.6 M50 48 L50 53.8 M54 48 L54 53.6"
    return [
        _stroke(bones, 5),
        *(_disc(x, y, 3.2) for x, y in ends),
        _path(skull),
        _disc(42.8, 34.5, 4.8, WHITE),
        _disc(57.2, 34.5, 4.8, WHITE),
        _path(nose, WHITE),
        _stroke(teeth, 1.3, WHITE),
    ]


def _corrosion() -> list[Element]:
    left = "M24.5 39 L44 22 L50 29 L30.5 44 L27 44.5 Z"
    right = "M75.5 39 L56 22 L50 29 L69.5 44 L73 44.5 Z"
    drops = "M28.5 48.5 L28.5 52 M33 47 L33 55 M67 47 L67 53 M71.5 48.5 L71.5 55"
    bar = "M20 58 L27 58 C28.5 63 37 63 38.5 58 L48 58 L48 68 L30 68 Z"
    hand = "M52 66 L60 58 L63.5 58 C65 63 72 63 73.5 58 L80 58 L70 68 L62 74 L52 74 Z"
    return [_path(left), _path(right), _stroke(drops, 2.6), _path(bar), _path(hand)]


def _flame_over_circle() -> list[Element]:
    flame = (
        "M51.5 17 C53 24 62.5 28.5 62.5 38 C62.5 45.5 57 49 50 49 C43 49 37.5 45.5 37.5 38.5"
        " C37.5 33.5 41 31.5 42 27 C44.5 29 45.5 31.5 45.4 34 C49.3 29.5 51.8 24 51.5 17 Z"
    )
    ring = element(
        "circle", cx="50", cy="61", r="11", fill="none", stroke=BLACK, **{"stroke-width": "5"}
    )
    ground = element("rect", x="39", y="75.5", width="22", height="4", fill=BLACK)
    return [_path(flame), ring, ground]


SYMBOLS: dict[str, Callable[[], list[Element]]] = {
    "exclamation-mark": _exclamation_mark,
    "flame": _flame,
    "health-hazard": _health_hazard,
    "environment": _environment,
    "skull-and-crossbones": _skull_and_crossbones,
    "corrosion": _corrosion,
    "flame-over-circle": _flame_over_circle,
}
