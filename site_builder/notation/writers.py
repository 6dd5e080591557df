"""A formula's own source as JavaScript, Typst mathematics, MathML and plain text.

Nothing here runs when a command answers: a build and the tests ask for it.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable, Mapping
from typing import Any

from formulas.formula import Formula
from formulas.frozen import Frozen
from site_builder.notation.maths import spoken, typst_math
from site_builder.notation.script import javascript
from site_builder.notation.source import source_of
from site_builder.notation.spelling import Plain, Typst, name_of

__all__ = ["Symbol", "javascript", "mathml", "mathml_of", "spoken", "symbols", "typst_math"]

MADE = re.compile(r'<div id="m(\d+)">\s*(<math\b.*?</math>)\s*</div>', re.DOTALL)

RESTS_ON = {
    "definition": "true by definition",
    "derived": "derived: worked out for this handbook, checked another way in its tests",
}
"""The words for a formula that no work is named for."""


class Symbol(Frozen):
    """One symbol of a formula as its text shows it, with indices where it is a list."""

    name: str
    typst: str
    plain: str
    meaning: str
    unit: str


@functools.cache
def symbols(formula: Formula[..., Any]) -> tuple[Symbol, ...]:
    """Give the result's symbol and those of the arguments, for the list beside a formula."""
    source = source_of(formula)
    listed = [Symbol("", *_spelt(formula.symbol, 0), formula.title, formula.unit)]
    for name, q in formula.arguments.items():
        spelt = _spelt(q.symbol or name, source.depth(name))
        listed.append(Symbol(name, *spelt, q.meaning, q.unit))
    return tuple(listed)


def _spelt(symbol: str, depth: int) -> tuple[str, str]:
    name, letters = name_of(symbol), "ijk"[:depth]
    return Typst().symbol(name, letters).text, Plain().symbol(name, letters).text


def mathml(formulas: Iterable[Formula[..., Any]]) -> dict[str, str]:
    """Give each formula's MathML by its name, all from one run of the compiler."""
    return mathml_of({formula.name: typst_math(formula) for formula in formulas})


def mathml_of(written: Mapping[str, str]) -> dict[str, str]:
    """Turn Typst mathematics, each under a key, into MathML by Typst's HTML export."""
    import typst

    if not written:
        return {}
    document = "\n".join(
        f'#html.elem("div", attrs: (id: "m{place}"))[$ {text} $]'
        for place, text in enumerate(written.values())
    )
    page = typst.compile(document.encode(), format="html", ignore_system_fonts=True)
    assert isinstance(page, bytes)
    made = {int(place): text for place, text in MADE.findall(page.decode())}
    return {key: made[place] for place, key in enumerate(written)}
