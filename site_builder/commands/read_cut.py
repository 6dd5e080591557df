"""What the command `cut` was asked, read from its words: sizes, a piece, steps, spares."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from formulas import units
from formulas.cutting.rules import cut_rules
from formulas.cutting.wanted import Typed
from formulas.fault import UnitFault

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

STRIP = "a strip as 38x6.5mm=24: length along the backbone, width, how many"
PIECE = "a piece as 297x210mm: length along the backbone, width"
STEP = "steps as 0.5x1mm: in width, in length"
SPARES = "a share as 10%"


def answered(catalog: Catalog, asked: Mapping[str, Any]) -> Answer:
    """Give the answer. Raises UnitFault for words that are no size."""
    from formulas.cutting.cut import cut

    width_step, length_step = _two(asked["step"], STEP) if asked["step"] else (None, None)
    rules = cut_rules(
        catalog,
        width_step=width_step,
        length_step=length_step,
        spares=_share(asked["spares"]),
        gap=_metres(asked["gap"]),
        margin=_metres(asked["margin"]),
    )
    return cut(
        catalog,
        instrument=asked["instrument"],
        ranks=asked["rank"],
        typed=[_strip(text) for text in asked["strip"]],
        kind=asked["kind"],
        stock=asked["stock"],
        skins=asked["skin"],
        piece_m=_two(asked["piece"], PIECE) if asked["piece"] else None,
        pieces=asked["pieces"],
        may_turn=asked["turn"],
        rules=rules,
    )


def _two(text: str, accepted: str) -> tuple[float, float]:
    """Read two lengths with one unit between them: 38x6.5mm, 1.5x0.25in."""
    found = re.fullmatch(r"\s*([\d.,]+)\s*[x×]\s*([\d.,]+)\s*([a-zA-Z]+)\s*", text)
    if not found:
        raise UnitFault(text, accepted)
    one, other, unit = found.groups()
    return units.read(f"{one} {unit}", "m"), units.read(f"{other} {unit}", "m")


def _strip(text: str) -> Typed:
    size, equals, count = text.partition("=")
    if not equals or not count.strip().isdigit():
        raise UnitFault(text, STRIP)
    length, width = _two(size, STRIP)
    return Typed(length, width, int(count))


def _share(text: str | None) -> float | None:
    if text is None:
        return None
    found = re.fullmatch(r"\s*([\d.,]+)\s*%\s*", text)
    if not found:
        raise UnitFault(text, SPARES)
    return units.number(found.group(1)) / 100


def _metres(text: str | None) -> float | None:
    return None if text is None else units.read(text, "m")
