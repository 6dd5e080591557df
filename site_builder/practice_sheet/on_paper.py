"""A practice sheet as a PDF: the questions, then the key on sheets of paper of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import element, paragraph
from site_builder.paper.typesetting import compiled, quoted, visible
from site_builder.paper.typst_text import literal
from site_builder.paper.typst_writer import Writer
from site_builder.places import TEMPLATES
from site_builder.practice_sheet import pieces
from site_builder.texts.practice import command_line

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

LAYOUTS = ("binder.typ", "practice.typ")
KEY = "For the teacher: take these sheets off before the questions are handed out."


def pdf(answer: Answer, catalog: Catalog) -> bytes:
    """Set the sheet as one tagged PDF."""
    layout = "\n".join((TEMPLATES / name).read_text(encoding="utf-8") for name in LAYOUTS)
    return compiled(f"{layout}\n{visible(code(answer, catalog))}")


def code(answer: Answer, catalog: Catalog) -> str:
    """Give the sheet as Typst code: its two parts, the second from a new sheet of paper on."""
    title = pieces.title(answer)
    shop = catalog.shop
    settings = (
        f"#show: settings.with(book: {literal(title)}, shop: {literal(shop.name)}, "
        f"paper: {quoted(shop.paper)})\n#set document(keywords: ({quoted(pieces.MARK)},))"
    )
    asked = element("div", *pieces.about(answer), *pieces.cautions(answer))
    keyed = element("div", paragraph(KEY))
    for topic, held in pieces.by_topic(answer, catalog):
        heading = topic["name"]
        asked.extend([_heading(heading), paragraph(f"{topic['teaches']}.")])
        asked.extend(pieces.questions(catalog, held))
        keyed.extend([_heading(heading), *pieces.keys(held)])
    parts = [
        _part(answer, catalog, "Questions", title, asked, written=True),
        _part(answer, catalog, "Key", f"{title}, key and working", keyed, written=False),
    ]
    return "\n".join([settings, *parts]) + "\n"


def _heading(words: str) -> Element:
    return element("h2", words)


def _part(
    answer: Answer, catalog: Catalog, name: str, title: str, tree: Element, *, written: bool
) -> str:
    shop = catalog.shop
    owner = f"{shop.name} (invented)" if shop.invented else shop.name
    return (
        f"#sides(part: {literal(name)}, title: {literal(title)}, "
        f"seed: {literal(str(answer.answer['seed']))}, again: {quoted(command_line(answer))}, "
        f"shop: {literal(owner)}, named: {'true' if written else 'false'}, "
        f"{Writer('practice', {}, catalog).flow(tree)})"
    )
