"""What fits on a label: what is never left off, then the rest by its written order."""

from __future__ import annotations

import math
from collections.abc import Sequence

from formulas.catalog import Catalog
from formulas.fault import FormulasError
from site_builder.labels.layout import AIR_MM, Laid, tried
from site_builder.labels.piece import Piece
from site_builder.labels.sheets import Sheet, Sizes, sheet, sizes


class TooSmall(FormulasError, ValueError):
    """A label without room for what is never left off, with the smallest sheet that has it."""

    def __init__(self, stock: str, serves: str) -> None:
        self.stock, self.serves = stock, serves
        accepted = f"'{serves}', the smallest that serves," if serves else "none of label_stock.csv"
        super().__init__(
            f"label: found '{stock}', too small for what is never left off, accepted: {accepted}"
            " or a larger one"
        )


def laid(
    pieces: Sequence[Piece], signs: Sequence[str], size: tuple[float, float], kept: Sizes
) -> Laid | None:
    """Lay out a label: what is never left off, then each other piece for which there is room.

    Gives None where not even the first fits.
    """
    taken = [place for place, piece in enumerate(pieces) if piece.importance == 0]
    chosen = [pieces[place] for place in taken]
    best = tried(chosen, signs, size, kept)
    if best is None:
        return None
    left_off = []
    others = [place for place, piece in enumerate(pieces) if piece.importance]
    for place in sorted(others, key=lambda place: pieces[place].importance):
        more = sorted([*taken, place])
        wider = [pieces[one] for one in more]
        fitted = tried(wider, signs, size, kept)
        if fitted is None:
            left_off.append(pieces[place])
        else:
            taken, chosen, best = more, wider, fitted
    airy = (tried(chosen, signs, size, kept, air) for air in AIR_MM)
    best = next(filter(None, airy), best)
    best.left_off = left_off
    return best


def on_stock(
    catalog: Catalog, name: str, pieces: Sequence[Piece], signs: Sequence[str]
) -> tuple[Sheet, Laid]:
    """Lay out a label on a sheet. Raises TooSmall with the smallest sheet that serves."""
    kept, found = sizes(catalog), sheet(catalog, name)
    made = laid(pieces, signs, found.label, kept)
    if made is None:
        paper = catalog.label_stock[name].paper
        raise TooSmall(name, _smallest(catalog, paper, pieces, signs))
    return found, made


def _smallest(catalog: Catalog, paper: str, pieces: Sequence[Piece], signs: Sequence[str]) -> str:
    kept = sizes(catalog)
    serving = [
        (math.prod(found.label), name)
        for name, stock in catalog.label_stock.items()
        for found in [sheet(catalog, name)]
        if stock.paper == paper and laid(pieces, signs, found.label, kept)
    ]
    return min(serving)[1] if serving else ""
