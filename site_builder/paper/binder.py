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
REVISION = "draft"
TITLE, CONTENTS, FRONT = "Title", "Contents", "Front"
FRONT_TITLE = "What this handbook is for"
ABOUT = (
    "A bench handbook for the repair of free-reed instruments: what the materials are, what can "
    "go wrong with them, and how to reckon a batch.",
    "Each leaf does one job and carries its own number, and its pages are counted inside the "
    "leaf. Every leaf starts on a right-hand page: take one out, put its new print in, and no "
    "other leaf changes.",
)
DEFERRAL = (
    "The law where you work, the safety data sheet of the material in your hand and a doctor's "
    "advice come before anything printed here. Where one of them says otherwise, follow it.",
    "This book certifies nothing and replaces no training.",
)


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
    leaves = {TITLE: _title(handbook), CONTENTS: _contents(handbook), FRONT: _front(handbook)}
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
    leaves = [_title(handbook), _contents(handbook), _front(handbook)]
    leaves += [leaf_code(leaf, handbook) for leaf in handbook.leaves]
    return "\n".join([_settings(handbook), *leaves]) + "\n"


def _settings(handbook: Handbook) -> str:
    shop = handbook.catalog.shop
    return f"#show: settings.with(shop: {literal(shop.name)}, paper: {quoted(shop.paper)})"


def _leaf(
    handbook: Handbook, number: str, title: str, body: str, section: str, *, headed: bool = True
) -> str:
    shop = handbook.catalog.shop
    owner = f"{shop.name} (invented)" if shop.invented else shop.name
    return (
        f"#leaf(number: {literal(number)}, title: {literal(title)}, section: {literal(section)}, "
        f"shop: {literal(owner)}, revision: {quoted(REVISION)}, "
        f"headed: {'true' if headed else 'false'}, {body})"
    )


def _title(handbook: Handbook) -> str:
    shop = handbook.catalog.shop
    page = (
        f"title-page(shop: {literal(shop.name)}, "
        f"notice: {literal(INVENTED if shop.invented else '')}, "
        f"deferral: {_array(DEFERRAL)}, about: {_array(ABOUT)})"
    )
    return _leaf(handbook, TITLE, "", page, "", headed=False)


def _contents(handbook: Handbook) -> str:
    lists = [f'contents-section("", "At the front", "", ("{FRONT}", "{FRONT_TITLE}"))']
    lists += [
        f"contents-section({literal(section.letter)}, {literal(section.title)}, "
        f"{literal(section.summary)}, {_rows(section.leaves)})"
        for section in handbook.sections
        if section.leaves
    ]
    return _leaf(handbook, CONTENTS, "", "{\n" + "\n".join(lists) + "\n}", "")


def _front(handbook: Handbook) -> str:
    body = _written(handbook, "index", handbook.front)
    return _leaf(handbook, FRONT, FRONT_TITLE, body, "")


def _written(handbook: Handbook, slug: str, tree: Element) -> str:
    numbers = {leaf.slug: leaf.number for leaf in handbook.leaves}
    return Writer(slug, numbers, handbook.catalog).leaf(tree)


def _rows(leaves: Iterable[Leaf]) -> str:
    return ", ".join(f"({literal(leaf.number)}, {literal(leaf.title)})" for leaf in leaves)


def _array(words: Iterable[str]) -> str:
    return "(" + "".join(f"{literal(text)}, " for text in words) + ")"
