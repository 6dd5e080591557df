"""Line drawings of cutting: the zones of a skin with its rows, and ways that strips may lie."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.parts.charts import drawing
from site_builder.parts.panels import Panel, panels
from site_builder.parts.strokes import (
    METAL,
    WAX,
    arrow,
    block,
    line,
    pointer,
    shape,
    words,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog

SKIN = (
    (96, 14), (150, 14), (156, 40), (206, 52), (226, 74), (208, 96), (212, 168), (232, 196),
    (206, 222), (160, 214), (126, 230), (86, 214), (40, 222), (16, 198), (38, 168), (40, 96),
    (20, 76), (42, 52), (90, 40),
)  # fmt: skip


def skin_zones(_: Catalog) -> Element:
    """Draw a skin from above: backbone, rows of strips, and what is left out."""
    rows = [
        block(72 + 9 * place, top, 79.5 + 9 * place, top + high)
        for top, high in ((62, 44), (108, 40), (150, 34))
        for place in range(12)
        if not (top == 108 and place in (9, 10))
    ]
    left_out = [
        shape((20, 76), (42, 52), (60, 56), (54, 96), (40, 96), fill=WAX),
        shape((226, 74), (206, 52), (190, 56), (196, 96), (208, 96), fill=WAX),
        shape((40, 222), (16, 198), (38, 168), (56, 186), (64, 218), fill=WAX),
        shape((206, 222), (232, 196), (212, 168), (196, 186), (186, 218), fill=WAX),
    ]
    hole = shape((152, 120), (160, 114), (170, 122), (166, 136), (156, 138), fill=METAL)
    marks = [
        shape(*SKIN),
        *left_out,
        *rows,
        hole,
        arrow((124, 226), (124, 22)),
        words((246, 24), "neck: thick"),
        pointer((244, 22), (128, 26)),
        words((246, 50), "shank, grey:", "left out"),
        pointer((244, 54), (206, 74)),
        words((246, 84), "flank: loose,", "left out"),
        pointer((244, 88), (198, 108)),
        words((246, 118), "hole, with", "its margin"),
        pointer((244, 122), (166, 126)),
        words((246, 158), "rows across,", "each of one", "length"),
        pointer((244, 162), (178, 166)),
        words((246, 212), "arrow: the", "backbone"),
        pointer((244, 212), (126, 214)),
    ]
    return drawing(
        "A skin from above",
        "Zones of a skin: rows of strips lie along the backbone in its middle; flanks,"
        " shanks, neck and holes are left out.",
        *marks,
        size="0 0 340 244",
    )


def strips_lie(_: Catalog) -> Element:
    """Draw how strips may lie on a skin and how not."""
    along = [block(20 + 14 * place, 24, 31 + 14 * place, 76) for place in range(8)]
    across = [block(20, 24 + 14 * place, 72, 35 + 14 * place) for place in range(4)]
    upright = [block(82 + 14 * place, 24, 93 + 14 * place, 76) for place in range(4)]
    flank = [
        block(10 + 14 * place, 24, 21 + 14 * place, 76, WAX if place > 5 else "#ffffff")
        for place in range(9)
    ]
    snip = [
        line((20, 24), (20, 76)),
        line((34, 24), (34, 76)),
        line((20, 24), (34, 24)),
        *(line((16, y), (38, y), dash="3 2") for y in (42, 60, 76)),
    ]
    pattern = [
        block(96, 24, 110, 76),
        block(96, 62, 110, 76, WAX),
        words((116, 44), "one by", "one"),
    ]
    return panels(
        "How strips lie",
        "Right: all along the backbone, in rows. Wrong: some turned; into the loose flank. Two"
        " ways to the sizes: long strips snipped to length, or one by one by the template.",
        Panel("all along it", ("one direction, straight", "cuts through"), along, good=True),
        Panel("some turned", ("these bend otherwise:", "limper, never flat"),
              [*across, *upright], good=False),
        Panel("into the flank", ("thin and loose: sort out", "what lies in grey"), flank,
              good=False),
        Panel("two ways", ("snip long strips, or", "cut round a template"), [*snip, *pattern]),
    )  # fmt: skip


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {
    "skin-zones": skin_zones,
    "strips-lie": strips_lie,
}
