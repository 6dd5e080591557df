"""The terminal text of `record stock`."""

from __future__ import annotations

from formulas.answer import Answer
from formulas.catalog import Catalog
from site_builder.texts.book_words import noted, pieces
from site_builder.texts.words import shop_line


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give what was taken, and how many pieces are there for others."""
    found = answer.answer
    taken = [
        pieces(found["pieces"]) if found["pieces"] is not None else "",
        f"skin {found['skin']}{', spent' if found['spent'] else ''}" if found["skin"] else "",
        f"{found['valves']} valves" if found["valves"] is not None else "",
    ]
    said = ", ".join(filter(None, taken))
    lines = [
        f"Recorded {found['stock']} in {found['job']}{': ' if said else ''}{said}",
        shop_line(catalog),
    ]
    if found["free_pieces"] is not None:
        lines.append(f"Pieces of {found['stock']} free for this job: {found['free_pieces']}")
    return [*lines, *noted(answer)]
