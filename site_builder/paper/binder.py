"""The handbook as a binder on paper: tree -> Typst -> PDF/UA-1, and where each leaf stands.

The same handbook gives the same bytes: no date, no font of the machine, no file read but the
template. Pages are counted inside each leaf, so that a leaf can be replaced alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

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
from site_builder.paper.typesetting import Desk, PaperFault, desk, quoted, visible
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
SHEET = 2  # sides
MOST_LAYOUTS = 5
Places = Mapping[str, tuple[int, int]]
"""The first and the last page in the PDF of each leaf by its name."""


def write(handbook: Handbook, outfile: Path) -> None:
    """Write the binder as one tagged PDF. Raises PaperFault, and then writes nothing."""
    outfile.write_bytes(pdf(written(handbook)))


def pdf(book: Book) -> bytes:
    """Set the whole binder. Raises PaperFault."""
    return laid(book, {})[0]


def laid(book: Book, sides: Mapping[str, int]) -> tuple[bytes, Places]:
    """Set the whole binder, and tell where its leaves stand. Raises PaperFault.

    Where the sides of the leaves are known from another time, given or as printed, it is set as
    if each leaf had them still, and once more only where one has others now.
    """
    before = sides or last_printed(book)
    at = expected(book, before)
    with desk() as typesetter:
        made = typesetter.compiled(whole(book, at)) if before else None
        found = settled(book, at, typesetter)
        if made is None or found != at:
            made = typesetter.compiled(whole(book, found))
    return made, found


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
    return dict(ranges(written(handbook)))


def ranges(book: Book) -> Places:
    """Give the first and last page in the PDF of each leaf of a written book."""
    with desk() as typesetter:
        return settled(book, expected(book, last_printed(book)), typesetter)


def last_printed(book: Book) -> dict[str, int]:
    """Give the sides of each leaf that was ever printed, as they last were."""
    return {row.leaf: row.pages for row in book.handbook.catalog.printed if row.pages}


def expected(book: Book, before: Mapping[str, int]) -> Places:
    """Tell where each leaf will stand by the sides it last had; a new one is taken for a sheet."""
    at, first = {}, 1
    for name in book.names:
        last = first + before.get(name, SHEET) - 1
        at[name] = (first, last)
        first = last + 1
        if book.handbook.cover.sides != 1:
            first += last % 2
    return at


def settled(book: Book, at: Places, typesetter: Desk) -> Places:
    """Lay a book out until each leaf stands where the book says it does. Raises PaperFault."""
    for _ in range(MOST_LAYOUTS):
        rows = typesetter.told(whole(book, at), PLACES)
        found = {name: (first, last) for name, first, last in rows}
        if found == at:
            return at
        at = found
    raise PaperFault(f"the leaves stand elsewhere after each of {MOST_LAYOUTS} layouts")


def sides_of(at: Places) -> dict[str, int]:
    """Give how many sides each leaf has."""
    return {name: last - first + 1 for name, (first, last) in at.items()}


def whole(book: Book, at: Places) -> str:
    """Give the code of the whole binder, the leaves of which stand where `at` says."""
    found = states.states(book, sides_of(at))
    leaves = [_leaf(state.leaf, literal(state.words)) for state in found.values()]
    return _document(book, at, leaves)


def some(
    book: Book,
    found: Mapping[str, State],
    names: Iterable[str],
    at: Places,
    title: str,
    before: Iterable[tuple[str, str]] = (),
) -> str:
    """Give the code of some leaves as a document of their own, in the order of the binder.

    Sides and pages that stand on them are those of the whole binder. `before` are leaves that
    come first, each by its code and the words of its foot.
    """
    wanted = set(names)
    leaves = [_call(text, literal(words)) for text, words in before]
    leaves += [
        _leaf(found[name].leaf, literal(found[name].words)) for name in book.names if name in wanted
    ]
    return _document(book, at, leaves, title, MARK)


def _document(
    book: Book, at: Places, leaves: Iterable[str], title: str = "", mark: str = ""
) -> str:
    """Put a document together, the whole where it has no title of its own.

    What no font has is made visible in it.
    """
    handbook = book.handbook
    shop = handbook.catalog.shop
    named = title or f"{handbook.cover.book}: {shop.name}"
    settings = (
        f"#show: settings.with(title: {literal(named)}, shop: {literal(shop.name)}, "
        f"mark: {quoted(mark or handbook.cover.mark)}, paper: {quoted(shop.paper)}, "
        f"sides: {handbook.cover.sides})"
    )
    pages = "".join(
        f"{quoted(name)}: ({last - first + 1}, {first}), " for name, (first, last) in at.items()
    )
    given = [
        f"#let places = (whole: {'false' if title else 'true'}, of: ({pages}))",
        "#let go = go-to.with(places)",
        "#let tab-page = tab-page.with(places)",
    ]
    template = TEMPLATE.read_text(encoding="utf-8")
    body = "\n".join([book.preamble, *given, settings, *leaves]) + "\n"
    if title:
        return f"{template}\n{visible(body)}"
    return f"{template}\n{body.translate(book.glyphs) if book.glyphs else body}"


def _leaf(leaf: Written, revision: str) -> str:
    return _call(leaf.code, revision)


def _call(code: str, revision: str) -> str:
    return f"#leaf(bound, revision: {revision}, {code})"
