"""The handbook as a binder on paper: tree -> Typst -> PDF/UA-1, and where each leaf stands.

The same handbook gives the same bytes: no date, no font of the machine, no file read but the
template. Pages are counted inside each leaf, so that a leaf can be replaced alone.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import typst

from site_builder.leaves import states
from site_builder.leaves.states import State
from site_builder.leaves.written import (
    CONTENTS,
    EFFECTIVE,
    FRONT,
    TEMPLATE,
    TITLE,
    Book,
    Written,
    leaf_of,
    written,
)
from site_builder.paper.typesetting import compiled, quoted, visible
from site_builder.paper.typst_text import literal

if TYPE_CHECKING:
    from site_builder.content import Handbook, Leaf

__all__ = ["CONTENTS", "EFFECTIVE", "FRONT", "TEMPLATE", "TITLE", "written"]

MARK = "benchbinder leaves"
"""Stands in the keywords of every file of single leaves; a file without it is not written over."""

PLACES = (
    'query(label("leaf")).map(mark => (mark.value, mark.location().page(), '
    'locate(label("last:" + mark.value)).page()))'
)


def write(handbook: Handbook, outfile: Path) -> None:
    """Write the binder as one tagged PDF. Raises PaperFault, and then writes nothing."""
    outfile.write_bytes(compiled(code(handbook)))


def code(handbook: Handbook) -> str:
    """Give the whole binder as Typst code, with a visible mark for each missing glyph."""
    return whole(written(handbook))


def leaf_code(leaf: Leaf, handbook: Handbook) -> str:
    """Give the Typst code of one leaf: all that its print depends on but template and fonts."""
    return leaf_of(leaf, handbook).code


def missing_glyphs(handbook: Handbook) -> dict[str, list[str]]:
    """Tell which characters no font of the binder has, and the leaves that hold each.

    They are printed as [U+4E2D].
    """
    return written(handbook).missing


def page_ranges(handbook: Handbook) -> dict[str, tuple[int, int]]:
    """Give the first and last page in the PDF of each leaf, title and contents among them."""
    return ranges(written(handbook))


def ranges(book: Book) -> dict[str, tuple[int, int]]:
    """Give the first and last page in the PDF of each leaf of a written book."""
    found = typst.eval(whole(book).encode(), PLACES, ignore_system_fonts=True)
    return {name: (first, last) for name, first, last in json.loads(found)}


def sides_of(found: Mapping[str, tuple[int, int]]) -> dict[str, int]:
    """Give how many sides each leaf has."""
    return {name: last - first + 1 for name, (first, last) in found.items()}


def whole(book: Book) -> str:
    """Give the code of the whole binder.

    The revision of a leaf that shows sides of others rests on the layout, which is not known
    here. It was printed with certain sides: the layout itself takes the one wording where it
    comes to the same, else the other.
    """
    printed = states.printed_sides(book)
    other = states.states(book, None)
    then = states.states(book, printed) if printed else other
    leaves = [
        _leaf(leaf, _either(then[name].words, other[name].words))
        for name, leaf in _with_list(book, then, other)
    ]
    told = "".join(f"({literal(name)}, {count}), " for name, count in (printed or {}).items())
    return _document(book, ["#let places = none", f"#let told = told-by(({told}))"], leaves)


def _with_list(
    book: Book, then: Mapping[str, State], other: Mapping[str, State]
) -> Iterable[tuple[str, Written]]:
    """Give the leaves in order; the list says of each what the layout will show to be so."""

    def said(name: str) -> tuple[str, str]:
        one, two = then[name], other[name]
        return _either(one.mark, two.mark), _either(one.date, two.date)

    leaves = dict(book.leaves)
    if EFFECTIVE in then:
        leaves[EFFECTIVE] = states.effective(book, said)
    return [(name, leaves[name]) for name in book.names]


def some(
    book: Book,
    found: Mapping[str, State],
    names: Iterable[str],
    at: Mapping[str, tuple[int, int]],
    title: str,
    before: Iterable[tuple[str, str]] = (),
) -> str:
    """Give the code of some leaves as a document of their own, in the order of the binder.

    Sides and pages that stand on them are those of the whole binder. `before` are leaves that
    come first, each by its code and the words of its foot.
    """
    wanted = set(names)
    places = "".join(
        f"{quoted(name)}: ({last - first + 1}, {first}), " for name, (first, last) in at.items()
    )
    leaves = [_call(text, literal(words)) for text, words in before]
    leaves += [
        _leaf(found[name].leaf, literal(found[name].words)) for name in book.names if name in wanted
    ]
    return _document(book, [f"#let places = ({places})"], leaves, title, MARK)


def _document(
    book: Book, given: Iterable[str], leaves: Iterable[str], title: str = "", mark: str = ""
) -> str:
    """Put a document together; what no font has is made visible in it."""
    handbook = book.handbook
    shop = handbook.catalog.shop
    named = title or f"{handbook.cover.book}: {shop.name}"
    settings = (
        f"#show: settings.with(title: {literal(named)}, shop: {literal(shop.name)}, "
        f"mark: {quoted(mark or handbook.cover.mark)}, paper: {quoted(shop.paper)}, "
        f"sides: {handbook.cover.sides})"
    )
    template = TEMPLATE.read_text(encoding="utf-8")
    body = "\n".join([book.preamble, *given, settings, *leaves]) + "\n"
    if title:
        return f"{template}\n{visible(body)}"
    return f"{template}\n{body.translate(book.glyphs) if book.glyphs else body}"


def _leaf(leaf: Written, revision: str) -> str:
    return _call(leaf.code, revision)


def _call(code: str, revision: str) -> str:
    return f"#leaf(bound, revision: {revision}, {code})"


def _either(then: str, other: str) -> str:
    """Write words, or both where they depend on the layout."""
    if then == other:
        return literal(then)
    return f"told({literal(then)}, {literal(other)})"
