"""The handbook as a binder on paper: tree -> Typst -> PDF/UA-1, and where each leaf stands.

The same handbook gives the same bytes: no date, no font of the machine, no file read but the
template. Pages are counted inside each leaf, so that a leaf can be replaced alone.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

import typst

from site_builder.paper.typesetting import compiled, missing, quoted, visible
from site_builder.paper.typst_text import literal
from site_builder.paper.typst_writer import Writer
from site_builder.places import INVENTED, TEMPLATES

if TYPE_CHECKING:
    from site_builder.content import Handbook, Leaf

TEMPLATE = TEMPLATES / "binder.typ"
TITLE, CONTENTS, FRONT = "Title", "Contents", "Front"


def write(handbook: Handbook, outfile: Path) -> None:
    """Write the binder as one tagged PDF. Raises PaperFault, and then writes nothing."""
    outfile.write_bytes(compiled(code(handbook)))


def code(handbook: Handbook) -> str:
    """Give the whole binder as Typst code, with a visible mark for each missing glyph."""
    return TEMPLATE.read_text(encoding="utf-8") + "\n" + visible(_body(handbook))


def leaf_code(leaf: Leaf, handbook: Handbook) -> str:
    """Give the Typst code of one leaf: all that its print depends on but template and fonts."""
    return _leaf(
        handbook,
        leaf.number,
        leaf.title,
        _written(handbook, leaf.slug, leaf.tree),
        leaf.section.title,
    )


def missing_glyphs(handbook: Handbook) -> dict[str, list[str]]:
    """Tell which characters no font of the binder has, and the leaves that hold each.

    They are printed as [U+4E2D]. A character of the title, the contents or the front page
    stands under that name.
    """
    leaves = {**_opening(handbook), FRONT: _front(handbook)}
    leaves |= {leaf.number: leaf_code(leaf, handbook) for leaf in handbook.leaves}
    return {
        char: [number for number, text in leaves.items() if char in text]
        for char in missing("".join(leaves.values()))
    }


def page_ranges(handbook: Handbook) -> dict[str, tuple[int, int]]:
    """Give the first and last page in the PDF of each leaf, title and contents among them."""
    found = typst.eval(
        code(handbook).encode(),
        'query(label("leaf")).map(mark => (mark.value, mark.location().page(), '
        'locate(label("last:" + mark.value)).page()))',
        ignore_system_fonts=True,
    )
    return {number: (first, last) for number, first, last in json.loads(found)}


def _body(handbook: Handbook) -> str:
    leaves = [*_opening(handbook).values(), _front(handbook)]
    leaves += [leaf_code(leaf, handbook) for leaf in handbook.leaves]
    return "\n".join([_settings(handbook), *leaves]) + "\n"


def _settings(handbook: Handbook) -> str:
    shop = handbook.catalog.shop
    return (
        f"#show: settings.with(book: {literal(handbook.cover.book)}, shop: {literal(shop.name)}, "
        f"paper: {quoted(shop.paper)}, sides: {handbook.cover.sides})"
    )


def _leaf(
    handbook: Handbook, number: str, title: str, body: str, section: str, *, headed: bool = True
) -> str:
    shop = handbook.catalog.shop
    owner = f"{shop.name} (invented)" if shop.invented else shop.name
    return (
        f"#leaf(number: {literal(number)}, title: {literal(title)}, section: {literal(section)}, "
        f"shop: {literal(owner)}, revision: {quoted(handbook.cover.revision)}, "
        f"sides: {handbook.cover.sides}, headed: {'true' if headed else 'false'}, {body})"
    )


def _opening(handbook: Handbook) -> dict[str, str]:
    """Give the title and the contents, which share a page in a book of one side."""
    if handbook.cover.sides == 1:
        page = f"title-and-contents({_title_words(handbook)}, {_lists(handbook)})"
        return {TITLE: _leaf(handbook, TITLE, "", page, "", headed=False)}
    page = f"title-page({_title_words(handbook)})"
    return {
        TITLE: _leaf(handbook, TITLE, "", page, "", headed=False),
        CONTENTS: _leaf(handbook, CONTENTS, "", _lists(handbook), ""),
    }


def _title_words(handbook: Handbook) -> str:
    shop, cover = handbook.catalog.shop, handbook.cover
    return (
        f"book: {literal(cover.book)}, under: {literal(cover.under)}, "
        f"shop: {literal(shop.name)}, notice: {literal(INVENTED if shop.invented else '')}, "
        f"deferral: {_array(cover.deferral)}, about: {_array(cover.about)}"
    )


def _lists(handbook: Handbook) -> str:
    front = f"({quoted(FRONT)}, {literal(handbook.cover.front)})"
    lists = [f'contents-section("", "At the front", "", {front})']
    lists += [
        f"contents-section({literal(section.letter)}, {literal(section.title)}, "
        f"{literal(section.summary)}, {_rows(section.leaves)})"
        for section in handbook.sections
        if section.leaves
    ]
    return "{\n" + "\n".join(lists) + "\n}"


def _front(handbook: Handbook) -> str:
    body = _written(handbook, "index", handbook.front)
    return _leaf(handbook, FRONT, handbook.cover.front, body, "")


def _written(handbook: Handbook, slug: str, tree: Element) -> str:
    numbers = {leaf.slug: leaf.number for leaf in handbook.leaves}
    return Writer(slug, numbers, handbook.catalog).leaf(tree)


def _rows(leaves: Iterable[Leaf]) -> str:
    return ", ".join(f"({literal(leaf.number)}, {literal(leaf.title)})" for leaf in leaves)


def _array(words: Iterable[str]) -> str:
    return "(" + "".join(f"{literal(text)}, " for text in words) + ")"
