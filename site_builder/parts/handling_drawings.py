"""Line drawings of the handling of a plate: lifting, straightedge, order of the wax, suction.

A drawing shows where things are; it is not to scale, and a measure in it comes from the tables.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import element, span
from site_builder.parts.bedding_drawings import wax
from site_builder.parts.charts import drawing
from site_builder.parts.panels import Panel, panels
from site_builder.parts.strokes import (
    INK,
    METAL,
    PAPER,
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


def ring(x: float, y: float, radius: float) -> Element:
    """Draw an empty circle."""
    return element("circle", cx=f"{x:g}", cy=f"{y:g}", r=f"{radius:g}", fill=PAPER, stroke=INK)


def number(x: float, y: float, text: str) -> list[Element]:
    """Draw a number in a circle."""
    return [ring(x, y, 8), words((x, y + 4), text, anchor="middle", bold=True)]


def cell(left: float) -> list[Element]:
    """Draw one cell with its plate, its slide hole at the foot."""
    return [
        wood(left, 62, left + 12, 112), wood(left + 88, 62, left + 100, 112),
        wood(left + 12, 100, left + 42, 112), wood(left + 58, 100, left + 88, 112),
        block(left + 6, 54, left + 34, 62, METAL), block(left + 46, 54, left + 54, 62, METAL),
        block(left + 66, 54, left + 94, 62, METAL),
    ]  # fmt: skip


def lifting(_: Catalog) -> Element:
    """Draw how a plate is lifted straight and how it is bowed."""
    base = [wood(8, 50, 152, 72)]
    straight = [
        *base, *wax(((14, 50), (22, 50), (18, 46)), ((138, 50), (146, 50), (142, 46))),
        block(26, 30, 134, 38, fill=METAL), arrow((42, 28), (42, 14)), arrow((118, 28), (118, 14)),
        line((26, 49), (134, 49), dash="3 2"),
    ]  # fmt: skip
    bowed = [
        *base, *wax(((120, 50), (146, 50), (142, 40), (132, 38))),
        shape((26, 24), (60, 33), (96, 39), (132, 42), (132, 50), (95, 47), (59, 41), (24, 32),
              fill=METAL),
        shape((8, 46), (10, 50), (48, 37), (46, 34)), arrow((12, 46), (12, 30)),
    ]  # fmt: skip
    pictures = [
        Panel("cut round, then lift", ("Both ends rise together,", "nothing holds any more."),
              straight, good=True),
        Panel("levered at one end", ("The far end still holds:", "plate and slots bend."),
              bowed, good=False),
    ]  # fmt: skip
    told = (
        "Two views along a plate. Right: the wax is cut at both ends and the plate rises level. "
        "Wrong: a blade levers one end up while wax still holds the other, and the plate bends."
    )
    return panels("Lift a plate level", told, *pictures)


def straightedge(catalog: Catalog) -> Element:
    """Draw the straightedge against a lamp, and the most light that passes."""
    limit = catalog.figures["plate-bow-limit"]
    gap = span(limit.low, limit.high, limit.unit)
    rays = ((0, 11), (8, 8), (-8, 8), (11, 0), (-11, 0))
    marks = [
        block(30, 28, 310, 52),
        words((40, 44), "straightedge"),
        shape((30, 52), (100, 54), (170, 56.5), (240, 54), (310, 52), (310, 66), (240, 68),
              (170, 70.5), (100, 68), (30, 66), fill=METAL),
        words((150, 14), f"light: {gap} at most"), pointer((196, 18), (171, 54)),
        words((30, 88), "plate, its bow drawn large"),
        ring(230, 100, 9),
        *(line((230 + x, 100 - y), (230 + 1.8 * x, 100 - 1.8 * y)) for x, y in rays),
        words((256, 104), "lamp behind"),
    ]  # fmt: skip
    told = (
        "A plate seen from its side with a straightedge on it and a lamp behind. Light shows in "
        f"the middle where the plate is hollow; at most {gap} may show."
    )
    return drawing("A plate under the straightedge", told, *marks, size="0 0 340 114")


def order(_: Catalog) -> Element:
    """Draw in which order the edges of a plate are waxed."""
    plan = [
        wood(10, 26, 330, 124),
        block(60, 52, 280, 98, fill=METAL),
        block(84, 60, 214, 70),
        block(126, 80, 256, 90),
        *wax(((52, 44), (288, 44), (280, 52), (60, 52)),
             ((52, 106), (288, 106), (280, 98), (60, 98)),
             ((52, 44), (60, 52), (60, 98), (52, 106)),
             ((288, 44), (280, 52), (280, 98), (288, 106))),
        ring(74, 65, 4), ring(266, 85, 4),
        *number(52, 44, "1"), *number(288, 106, "1"),
        *number(170, 48, "2"), *number(170, 102, "3"), *number(55, 76, "4"), *number(285, 76, "4"),
        words((10, 14), "From above: two slots, each with its rivet"),
        words((10, 142), "1: a drop at two corners; look, press, compare"),
        words((10, 156), "2: one long side, 3: the other, 4: both ends"),
    ]  # fmt: skip
    told = (
        "A plate seen from above on its block. First a drop of wax at two opposite corners holds "
        "it. Then one long side, then the other, then both ends, so that the fillet closes all "
        "round."
    )
    return drawing("Order of the wax round a plate", told, *plan, size="0 0 340 162")


def suction(_: Catalog) -> Element:
    """Draw the suction test of one cell, with the tissue at its neighbour."""
    marks = [
        *cell(10), *cell(98),
        *wax(*(((x, 62), (x + 6, 54), (x + 6, 62)) for x in (10, 98))),
        *wax(((104, 62), (104, 54), (98, 62)), ((192, 62), (192, 54), (198, 62))),
        block(32, 44, 88, 54, fill=PAPER),
        *(line((x, 44), (x + 6, 54), width=0.5) for x in range(34, 86, 8)),
        words((10, 14), "soft pad over both slots,", "clear of the wax"),
        pointer((56, 30), (56, 44)),
        shape((54, 112), (66, 112), (66, 124), (54, 124)),
        element("ellipse", cx="60", cy="134", rx="22", ry="10", fill=PAPER, stroke=INK),
        words((90, 150), "squeezed bulb: must stay flat"),
        line((140, 113), (142, 124), (139, 136)), line((156, 113), (158, 124), (155, 136)),
        line((140, 113), (156, 113)), line((139, 136), (155, 136)),
        words((166, 130), "tissue: must hang still"),
        words((206, 78), "slide holes are", "at the foot"),
        pointer((214, 94), (152, 106)),
    ]  # fmt: skip
    told = (
        "Section of two neighbour cells. A soft pad covers both slots of the first plate from "
        "outside, clear of the wax. A squeezed rubber bulb sits on the slide hole at the foot of "
        "that cell and must stay flat. A strip of tissue hangs at the slide hole of the "
        "neighbour and must not move."
    )
    return drawing("Suction on one cell, tissue at its neighbour", told, *marks, size="0 0 340 166")


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "lifting": lifting,
    "straightedge": straightedge,
    "bedding-order": order,
    "suction": suction,
}
