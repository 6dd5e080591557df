"""One piece of a label, where each kind of piece stands on it, and the pieces that all share."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from formulas.frozen import Frozen

BOLD, PLAIN, TO_WRITE = "bold", "plain", "to write"
HELD = "\N{NO-BREAK SPACE}"

FIRST_PRECAUTIONS = 3

# Where each kind stands on the label, from the top down.
READING = (
    *("name", "ratio", "weighed", "batch", "date", "wax", "amount", "filled", "use-by", "place"),
    *("signal", "hazard", "supplement", "precaution", "not-known", "softening", "retest"),
    *("lots", "sheet", "shop", "address", "telephone"),
)


class Piece(Frozen):
    """One piece of a label: where it stands, its words, its importance; 0 is never left off."""

    kind: str
    text: str
    importance: int
    style: str = PLAIN
    told: str = ""

    @property
    def place(self) -> int:
        """Where it stands on the label, from the top down."""
        return READING.index(self.kind)


def ranked(
    order: Mapping[str, str], kind: str, text: str, rank: str, style: str = PLAIN, told: str = ""
) -> Piece:
    """Make a piece as important as its rank in an order; one of no rank is never left off."""
    importance = {name: place for place, name in enumerate(order, 1)}.get(rank, 0)
    return Piece(kind, text, importance, style, told or kind)


def hazard_pieces(order: Mapping[str, str], found: dict[str, Any]) -> Iterable[Piece]:
    """Give the signal word, the statements and the precautions of a label."""
    yield ranked(order, "signal", found["signal_word"], "", BOLD)
    for one in found["hazard_statements"]:
        yield ranked(order, "hazard", one.text, "")
    for one in found["supplemental"]:
        yield ranked(order, "supplement", one.text, "")
    for place, one in enumerate(found["precautionary_statements"]):
        rank = "first-precautions" if place < FIRST_PRECAUTIONS else "more-precautions"
        yield ranked(order, "precaution", one.text, rank, told=one.code)


def supplier_pieces(order: Mapping[str, str], supplier: dict[str, str]) -> Iterable[Piece]:
    """Give the name of the shop, and its address and telephone or lines for them."""
    yield ranked(order, "shop", supplier["name"], "shop")
    for kind in ("address", "telephone"):
        text = supplier[kind]
        style = PLAIN if text else TO_WRITE
        yield ranked(order, kind, text or kind.capitalize(), "address", style)
