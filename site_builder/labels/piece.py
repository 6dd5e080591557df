"""One piece of a label, and where each kind of piece stands on it."""

from __future__ import annotations

from dataclasses import dataclass

BOLD, PLAIN, TO_WRITE = "bold", "plain", "to write"
HELD = "\N{NO-BREAK SPACE}"

# Where each kind stands on the label, from the top down.
READING = (
    *("name", "ratio", "weighed", "batch", "date", "wax", "amount", "filled", "use-by", "place"),
    *("signal", "hazard", "supplement", "precaution", "not-known", "softening", "retest"),
    *("lots", "sheet", "shop", "address", "telephone"),
)


@dataclass(frozen=True)
class Piece:
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
