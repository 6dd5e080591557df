"""A ratio as the pot book writes it, and the six signs that stand for it."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

from formulas.fault import UnitFault
from formulas.units import number


def parts_text(parts: Mapping[str, float]) -> str:
    """Write a ratio as the pot book holds it.

    >>> parts_text({"beeswax-yellow": 4.0, "gum-rosin": 1.0})
    'beeswax-yellow 4; gum-rosin 1'
    """
    return "; ".join(f"{material} {part:.10g}" for material, part in parts.items())


def parts_read(text: str) -> dict[str, float]:
    """Read a ratio as the pot book holds it. Raises UnitFault for what is no number above 0.

    >>> parts_read("beeswax-yellow 4; gum-rosin 1")
    {'beeswax-yellow': 4.0, 'gum-rosin': 1.0}
    """
    parts: dict[str, float] = {}
    for piece in filter(None, map(str.strip, text.split(";"))):
        material, _, amount = piece.rpartition(" ")
        if not material.strip() or material.strip() in parts or not number(amount) > 0:
            raise UnitFault(piece, "a material once with its part above 0, such as gum-rosin 1")
        parts[material.strip()] = number(amount)
    if not parts:
        raise UnitFault(text, "materials with their parts, such as beeswax-yellow 4; gum-rosin 1")
    return parts


def revision_of(parts: Mapping[str, float]) -> str:
    """Give the six signs that stand for a ratio, whatever the order it is written in.

    >>> revision_of({"b": 1, "a": 4}) == revision_of({"a": 4.0, "b": 1.0})
    True
    """
    ordered = parts_text({name: parts[name] for name in sorted(parts)})
    return hashlib.sha256(ordered.encode()).hexdigest()[:6]
