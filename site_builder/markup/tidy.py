"""The Markdown reader's own tree, brought to the vocabulary that the faces write."""

from __future__ import annotations

import html
import re
from collections.abc import Sequence
from xml.etree.ElementTree import Element, SubElement

from markdown.extensions.footnotes import NBSP_PLACEHOLDER
from markdown.extensions.toc import slugify, unique
from markdown.util import ETX, HTML_PLACEHOLDER_RE, STX

from site_builder.markup.elements import plain
from site_builder.markup.source_text import SourceText

HEADINGS = ("h2", "h3", "h4")
KEPT = {"a": "href", "sup": "id", "li": "id", "div": "class", "th": "align", "td": "align"}
PLACED = ("part", "value", "unknown")
ESCAPED = re.compile(f"{STX}(\\d+){ETX}")
CODE = re.compile(r"<pre[^>]*><code[^>]*>(.*)</code></pre>", re.DOTALL)


def tidy(
    tree: Element, source: SourceText, stash: Sequence[str], notes: Sequence[str]
) -> list[str]:
    """Bring a tree to the vocabulary, note what does not fit, and give the links it holds.

    `stash` holds the fenced code, `notes` the ids of the footnotes in the order of their marks.
    """
    links: list[str] = []
    ids: set[str] = set()
    _order_notes(tree, source, notes)
    for parent in list(tree.iter()):
        _put_code(parent, source, stash)
        if parent is not tree and parent.tag != "part":
            _refuse_headings(parent, source)
        if parent.tag == "a" and not parent.get("class"):
            parent.set("href", ESCAPED.sub(lambda m: chr(int(m[1])), parent.get("href", "")))
            links.append(parent.get("href", ""))
        if parent.tag not in PLACED:
            kept = KEPT.get(parent.tag)
            parent.attrib = {name: text for name, text in parent.items() if name == kept}
        if parent.tag in HEADINGS:
            parent.set("id", unique(slugify(plain(parent), "-"), ids))
    return links


def _order_notes(tree: Element, source: SourceText, order: Sequence[str]) -> None:
    """Put the notes in the order of their marks, without the links that lead back.

    The library's own ordering stops at a note without text, which is a fault here.
    """
    for items in tree.iterfind("div[@class='footnote']/ol"):
        items[:] = sorted(items, key=lambda note: _place(order, note.get("id", "")))
        for note in items:
            _drop_back_links(note)
            if not len(note):
                mark = f"[^{note.get('id', '').removeprefix('fn-')}]:"
                source.fault(source.line_with(mark), "footnote", mark, "its text")


def _place(order: Sequence[str], name: str) -> int:
    return order.index(name) if name in order else len(order)


def _drop_back_links(note: Element) -> None:
    """Take out the link that leads from a note back to its mark, and the space before it."""
    for parent in list(note.iter()):
        for child in [one for one in parent if one.get("class") == "footnote-backref"]:
            parent.remove(child)
        for piece in [parent, *parent]:
            piece.text = (piece.text or "").replace(NBSP_PLACEHOLDER, "") or None
            piece.tail = (piece.tail or "").replace(NBSP_PLACEHOLDER, "") or None
    for last in [one for one in note if one.tag == "p" and not len(one) and not one.text]:
        note.remove(last)


def _refuse_headings(parent: Element, source: SourceText) -> None:
    for child in parent:
        if re.fullmatch("h[1-6]", child.tag):
            words = f"{'#' * int(child.tag[1])} {plain(child)}".strip()
            accepted = "a heading outside of lists, notes and quotations"
            source.fault(source.line_with(words), "heading", words, accepted)


def _put_code(parent: Element, source: SourceText, stash: Sequence[str]) -> None:
    """Put fenced code back where it stands alone, and give code its own characters again."""
    if parent.tag == "code":
        parent.text = html.unescape(parent.text or "")
    for place, child in enumerate(parent):
        alone = HTML_PLACEHOLDER_RE.fullmatch((child.text or "").strip())
        if child.tag == "p" and alone and not len(child):
            parent[place] = _code(stash[int(alone[1])])
            continue
        for inside in HTML_PLACEHOLDER_RE.findall(f"{child.text} {child.tail}"):
            words = (plain(_code(stash[int(inside)])).strip() or "~~~").splitlines()[0]
            accepted = "fenced code outside of lists, with a blank line around it"
            source.fault(source.line_with(words), "code", words, accepted)


def _code(stashed: str) -> Element:
    match = CODE.fullmatch(stashed)
    text = html.unescape(match[1] if match else stashed)
    block = Element("pre")
    SubElement(block, "code").text = text.rstrip("\n") + "\n"
    return block
