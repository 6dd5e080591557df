"""Line drawings of where vapour goes in a room, right and wrong. They are not to scale."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.parts.panels import Panel, panels
from site_builder.parts.safety_drawings import extraction, face
from site_builder.parts.strokes import (
    INK,
    METAL,
    arrow,
    block,
    line,
    shape,
    vapour,
    wood,
    words,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog

BENCH = 62  # where the top of the bench lies in a panel
FLOOR = 84


def jar(x: float, foot: float = BENCH) -> list[Element]:
    """Draw a small open jar with a little in it."""
    return [
        block(x, foot - 8, x + 14, foot - 1, METAL),
        line((x, foot - 16), (x, foot - 1), (x + 14, foot - 1), (x + 14, foot - 16), width=1.6),
    ]


def bench(left: float, right: float) -> list[Element]:
    """Draw a bench on its floor."""
    return [
        line((2, FLOOR), (160, FLOOR), width=1.4), wood(left, BENCH, right, BENCH + 6),
        *(line((x, BENCH + 6), (x, FLOOR), width=2) for x in (left + 6, right - 6)),
    ]  # fmt: skip


def where_vapour_goes(_: Catalog) -> Element:
    """Draw air that carries vapour from the face and to it, and vapour that runs to the floor."""
    drawn_off = [
        *bench(58, 128), *face(26, 40), *jar(78),
        *extraction(((106, 44), (122, 36), (122, 58), (106, 52)), (41, 53), 7),
        arrow((1, 40), (14, 40)), arrow((44, 40), (66, 42)), arrow((130, 45), (150, 41)),
        vapour((85, 46), (92, 43), (104, 48)),
    ]  # fmt: skip
    blown = [
        *bench(58, 128), *face(26, 40), *jar(78),
        line((146, 34), (146, FLOOR), width=2), line((140, 24), (152, 44), width=2),
        line((140, 44), (152, 24), width=2), arrow((134, 36), (104, 40)),
        vapour((84, 46), (70, 42), (56, 40), (44, 40)),
    ]  # fmt: skip
    apart = [
        *bench(14, 84), *jar(34), line((104, 18), (104, FLOOR), width=3),
        block(124, 62, 146, FLOOR, METAL), words((112, 54), "heater, off"),
        vapour((41, 46), (56, 50), (88, 56), (94, 78)),
    ]  # fmt: skip
    to_the_floor = [
        *bench(14, 84), *jar(34), block(124, 62, 146, FLOOR, METAL),
        shape((132, 70), (135, 64), (138, 70), (135, 74), fill=INK),
        vapour((41, 46), (56, 50), (88, 56), (92, 76), (106, 80), (122, 78)),
        words((110, 54), "heater"),
    ]  # fmt: skip
    pictures = [
        Panel("past the work, and out", ("From behind you over the", "jar into the extraction."),
              drawn_off, good=True),
        Panel("a fan at the work", ("More vapour off the jar,", "all of it to the face."),
              blown, good=False),
        Panel("heat behind a shut door", ("Off and cold before the", "jar is opened."),
              apart, good=True),
        Panel("heat in the same room", ("It runs off the bench,", "along the floor, to it."),
              to_the_floor, good=False),
    ]  # fmt: skip
    told = (
        "Four rooms from the side with a small open jar on a bench. Right: air comes from behind"
        " the person and takes the vapour over the jar into the mouth of an extraction. Wrong: a"
        " fan beyond the jar blows its vapour to the face. Right: a shut door stands between the"
        " jar and a heater that is off. Wrong: vapour runs off the bench and along the floor to"
        " the flame of a heater."
    )
    return panels("Where vapour goes", told, *pictures)


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {"where-vapour-goes": where_vapour_goes}
