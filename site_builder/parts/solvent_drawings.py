"""Line drawings of the solvent jar: small and shut, wide and open, beside heat, without a name.

A drawing shows where things are; it is not to scale.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.parts.bath_drawings import vessel
from site_builder.parts.panels import Panel, panels
from site_builder.parts.safety_drawings import BENCH, bench_top, pot, smoke
from site_builder.parts.strokes import (
    INK,
    METAL,
    PAPER,
    arrow,
    block,
    line,
    shape,
    vapour,
    words,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog


def _jar(x: float) -> list[Element]:
    """Draw a small jar with its lid on and a label."""
    return [
        vessel(x, 40, x + 28, BENCH, 56),
        block(x - 2, 34, x + 30, 40, METAL),
        block(x + 3, 50, x + 25, 66, PAPER),
        line((x + 6, 55), (x + 22, 55)),
        line((x + 6, 59), (x + 18, 59)),
        line((x + 6, 63), (x + 20, 63)),
    ]


def jars(_: Catalog) -> Element:
    """Draw one jar as it should stand, and three as they should not."""
    swab = [line((98, 68), (132, 52), width=1.6), shape((92, 70), (98, 66), (100, 71), (94, 74))]
    good = [bench_top(), *_jar(34), *swab, arrow((14, 26), (60, 26)), words((64, 30), "air")]
    wide = [
        bench_top(), vessel(30, 58, 126, BENCH, 62),
        *(smoke(x, 56) for x in (44, 66, 88, 110)), vapour((126, 66), (140, 70), (156, 71)),
    ]  # fmt: skip
    heat = [
        bench_top(), vessel(14, 50, 44, BENCH, 58), smoke(28, 48),
        vapour((44, 64), (58, 69), (76, 70), (94, 68)), *pot(98),
        shape((92, 71), (96, 60), (99, 66), (102, 56), (106, 71), fill=PAPER),
    ]  # fmt: skip
    cup = [
        bench_top(), vessel(50, 44, 92, BENCH, 54),
        line((92, 50), (106, 51), (106, 65), (92, 66), width=2, stroke=INK),
        words((64, 66), "?", bold=True),
    ]  # fmt: skip
    pictures = [
        Panel("small, shut, named", ("Lid on between dips; air", "moves away from you."),
              good, good=True),
        Panel("an open bowl", ("The wider the face, the", "more goes into the room."),
              wide, good=False),
        Panel("in a room with heat", ("Vapour runs to the hot", "plate, the flame runs back."),
              heat, good=False),
        Panel("a cup without a name", ("Somebody drinks it, or", "pours the wrong one in."),
              cup, good=False),
    ]  # fmt: skip
    told = (
        "Four vessels with solvent on a bench. Right: a small jar with its lid on and a label, a "
        "swab beside it, air moving across. Wrong: a wide open bowl from which vapour rises and "
        "runs along the bench. Wrong: an open jar beside a hot plate, the vapour running to it and "
        "a flame there. Wrong: a drinking cup without a label."
    )
    return panels("The jar that the solvent is dipped from", told, *pictures)


DRAWINGS: dict[str, Callable[[Catalog], Element]] = {"solvent-jar": jars}
