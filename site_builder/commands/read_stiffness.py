"""Read what is typed after `stiffness`: strips with their overhangs, pieces on a scale."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from formulas import units
from formulas.fault import UnitFault

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valves.typed_readings import Typed, Weighed

STRIP = re.compile(r"\s*([\d.,/\s]*\d[\d.,/\s]*?)\s*([a-z]+)\s*")
PIECE = re.compile(r"\s*([\d.,]+)\s*[x×]\s*([\d.,]+)\s*([a-z]+)\s*=\s*(.+)")
SPAN = re.compile(r"\s*([\d.,]+)\s*-\s*([\d.,]+)\s*([a-z_]+)\s*")
STRIP_ACCEPTED = (
    "one strip: 52mm, or up to four overhangs with slashes, smooth face down at both ends and then"
    " soft face down: 52/53/50/51mm"
)
PIECE_ACCEPTED = "length and width with one unit, and the mass: 100x50mm=2.1g"
PLACES = 4


def typed_of(
    catalog: Catalog,
    overhang: Sequence[str],
    across: Sequence[str],
    angle: float | None,
    piece: Sequence[str],
    pieces: int,
    scale: str | None,
    thickness: str | None,
) -> Typed:
    """Give the readings. Raises UnitFault for what is none."""
    from formulas.valves.ramp import USUAL_ANGLE
    from formulas.valves.typed_readings import Typed

    step = catalog.shop.scale_g / 1000 if scale is None else _si(scale, "kg")
    return Typed(
        [strip(text) for text in overhang],
        [strip(text) for text in across],
        USUAL_ANGLE if angle is None else angle,
        [weighing(text, pieces, step) for text in piece],
        None if thickness is None else _thickness(thickness),
    )


def strip(text: str) -> list[float]:
    """Read the overhangs of one strip in metres; a place left empty is nought.

    >>> strip("52/54//53mm")
    [0.052, 0.054, 0.0, 0.053]
    """
    match = STRIP.fullmatch(text)
    places = match.group(1).split("/") if match else []
    if not match or len(places) > PLACES:
        raise UnitFault(text, STRIP_ACCEPTED)
    return [_si(one + match.group(2), "m") if one.strip() else 0.0 for one in places]


def weighing(text: str, pieces: int, step: float) -> Weighed:
    """Read one weighing of pieces that are cut alike."""
    from formulas.valves.typed_readings import Weighed

    match = PIECE.fullmatch(text)
    if not match:
        raise UnitFault(text, PIECE_ACCEPTED)
    length, width = (_si(match.group(place) + match.group(3), "m") for place in (1, 2))
    return Weighed(_si(match.group(4), "kg"), pieces, length, width, step)


def _si(text: str, unit: str) -> float:
    """Read a quantity as the page has it, to twelve decimals."""
    from formulas.valves.typed import in_si

    return in_si(units.read(text, unit), 1)


def _thickness(text: str) -> tuple[float, float]:
    """Read a thickness or its two ends, in metres."""
    match = SPAN.fullmatch(text)
    if not match:
        one = _si(text, "m")
        return one, one
    ends = sorted(_si(match.group(place) + match.group(3), "m") for place in (1, 2))
    return ends[0], ends[1]
