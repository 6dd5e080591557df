"""What the command `seat` was asked, read from its words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from formulas import units
from formulas.fault import UnitFault
from formulas.valves.typed import in_si

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

SIZE = "a size as 300x60mm: length of the plate, width"
SHARE = "a share as 40%"


def answered(catalog: Catalog, asked: Mapping[str, Any]) -> Answer:
    """Give the answer. Raises UnitFault for words that are no size."""
    from formulas.seating.asked import Gasket, Plate
    from formulas.seating.seat import seat

    plate = gasket = None
    if asked["plate"]:
        plate = Plate(
            asked["plate"],
            metal=asked["metal"],
            block=asked["block"],
            service=asked["service"],
            found=asked["found"],
            failed=asked["failed"],
            keep_original=asked["keep_original"],
            later_wax=asked["later_wax"],
        )
    if asked["gasket"]:
        length, width = _size(asked["size"])
        gasket = Gasket(
            asked["gasket"],
            thickness=_metres(asked["thickness"]),
            length=length,
            width=width,
            plate_thickness=_metres(asked["plate_thickness"]),
            metal=asked["metal"],
            fasteners=asked["fasteners"],
            was=_metres(asked["was"]) if asked["was"] else 0.0,
            cells=_share(asked["cells"]) if asked["cells"] else None,
        )
    return seat(catalog, plate, gasket)


def _metres(text: str) -> float:
    """Read a length and clean it as the page does, so that both print the same digits."""
    return in_si(units.read(text, "m"), 1)


def _size(text: str) -> tuple[float, float]:
    found = re.fullmatch(r"\s*([\d.,]+)\s*[x×]\s*([\d.,]+)\s*([a-zA-Z]+)\s*", text)
    if not found:
        raise UnitFault(text, SIZE)
    one, other, unit = found.groups()
    return _metres(f"{one} {unit}"), _metres(f"{other} {unit}")


def _share(text: str) -> float:
    found = re.fullmatch(r"\s*([\d.,]+)\s*%\s*", text)
    if not found:
        raise UnitFault(text, SHARE)
    return units.number(found.group(1)) / 100
