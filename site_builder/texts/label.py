"""The terminal text of `label`."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from formulas.answer import Answer, Unknown
from formulas.catalog import Catalog
from site_builder.labels.piece import TO_WRITE
from site_builder.labels.pieces import pieces
from site_builder.texts.words import foot, shop_line, unknown, wrapped


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the label word for word, then what was printed and what it rests on."""
    found = answer.answer
    signs = [catalog.pictograms[name] for name in found["pictograms"]]
    lines = [shop_line(catalog), "", "On the label:"]
    lines += [f"  [{one.code} {one.name.lower()}]" for one in signs]
    for piece in pieces(answer, catalog):
        blank = " ____________" if piece.style == TO_WRITE else ""
        lines.append(wrapped(f"  {piece.text}{blank}", "    "))
    if isinstance(found.get("softening"), Unknown):
        lines += ["", unknown(found["softening"])]
    return [*lines, *_printed(found.get("print")), *foot(answer)]


def _printed(told: dict[str, Any] | None) -> Iterable[str]:
    if told is None:
        return
    yield ""
    labels = f"{told['labels']} label{'' if told['labels'] == 1 else 's'}"
    sheets = f"{told['sheets']} sheet{'' if told['sheets'] == 1 else 's'}"
    yield f"{told['file']}: {labels} on {sheets} of {told['stock']}, from place {told['start']} on"
