"""Every leaf of a book as Typst code, written once: what revisions, prints and pages rest on."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.frozen import Frozen
from site_builder.leaves import opening
from site_builder.paper.typesetting import missing
from site_builder.paper.typst_text import literal
from site_builder.paper.typst_writer import Writer
from site_builder.places import TEMPLATES

if TYPE_CHECKING:
    from formulas.holes import Holes
    from site_builder.content import Handbook, Leaf, Section

TEMPLATE = TEMPLATES / "binder.typ"
TITLE, EFFECTIVE, CONTENTS, FRONT = "Title", "Effective leaves", "Contents", "Front"
TAB = "Tab"
NO_HEAD = literal("")
FOREIGN = re.compile("[^\x00-\x7f]")  # characters that a font may not have
SHORT = 12  # signs of a digest, as printed.csv holds it


class Written(Frozen):
    """One leaf: its number or name, and the code of all that its print depends on.

    Revision and date are not in the code. `counts` are the leaves whose sides stand on it.
    """

    name: str
    title: str
    letter: str
    code: str
    counts: tuple[str, ...] = ()

    def digest(self, sides: Mapping[str, int]) -> str:
        """Give the short digest of what stands on the leaf."""
        shown = [[name, sides[name]] for name in self.counts]
        return short(f"{self.code}\n{json.dumps(shown)}" if shown else self.code)


class Book(Frozen):
    """A handbook written: its leaves in the order of the binder, without the list of them."""

    handbook: Handbook
    leaves: Mapping[str, Written]
    preamble: str
    layout: str
    glyphs: Mapping[int, str]

    @property
    def names(self) -> list[str]:
        """Every leaf of the binder in order, the list of effective leaves among them."""
        names = list(self.leaves)
        return names if self.handbook.cover.sides == 1 else [TITLE, EFFECTIVE, *names[1:]]

    @property
    def missing(self) -> dict[str, list[str]]:
        """The characters no font has, each with the leaves that hold it."""
        return {
            chr(char): [leaf.name for leaf in self.leaves.values() if chr(char) in leaf.code]
            for char in self.glyphs
        }


def short(text: str) -> str:
    """Give a short digest of a text."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:SHORT]


def written(handbook: Handbook) -> Book:
    """Write every leaf of a book, and tell which characters cannot be set."""
    sections = filled(handbook)
    leaves = [*_opening(handbook), _front(handbook)]
    for section in sections:
        if handbook.cover.sides != 1:
            leaves.append(_tab(handbook, section))
        leaves += [leaf_of(leaf, handbook) for leaf in section.leaves]
    preamble = _preamble(handbook, sections)
    signs = "".join({char for leaf in leaves for char in FOREIGN.findall(leaf.code)})
    glyphs = {ord(char): f"[U+{ord(char):04X}]" for char in missing(signs)}
    return Book(handbook, {leaf.name: leaf for leaf in leaves}, preamble, _layout(preamble), glyphs)


def filled(handbook: Handbook) -> list[Section]:
    """Give the sections that hold a leaf."""
    return [section for section in handbook.sections if section.leaves]


def leaf_of(leaf: Leaf, handbook: Handbook) -> Written:
    """Write one leaf of a section."""
    return made(
        handbook,
        leaf.number,
        leaf.title,
        numbered(leaf.number, leaf.title),
        _text(handbook, leaf.slug, leaf.tree),
        leaf.section,
    )


def made(
    handbook: Handbook,
    name: str,
    title: str,
    head: str,
    body: str,
    section: Section | None = None,
    counts: Iterable[str] = (),
) -> Written:
    """Give a leaf with its running head and its owner; `head` is the code of its heading."""
    shop = handbook.catalog.shop
    owner = f"{shop.name} (invented)" if shop.invented else shop.name
    letter = section.letter if section else ""
    code = (
        f"number: {literal(name)}, head: {head}, "
        f"section: {literal(section.title if section else '')}, letter: {literal(letter)}, "
        f"shop: {literal(owner)}, {body}"
    )
    return Written(name, title, letter, code, tuple(counts))


def numbered(number: str, title: str) -> str:
    """Write the heading of a leaf with its number."""
    return f'{literal(number)} + "  " + {literal(title)}'


def tab_of(section: Section) -> str:
    """Give the name of the page before a section."""
    return f"{TAB} {section.letter}"


def _opening(handbook: Handbook) -> list[Written]:
    """Write the title and the contents, which share a page in a book of one side."""
    sections = filled(handbook)
    front = [(FRONT, handbook.cover.front)]
    if handbook.cover.sides == 1:
        lists = opening.contents(front, sections)
        page = opening.title_and_contents(handbook, lists)
        return [made(handbook, TITLE, "Title and contents", NO_HEAD, page)]
    tabs = [tab_of(section) for section in sections]
    numbers = [leaf.number for section in sections for leaf in section.leaves]
    lists = opening.contents([(EFFECTIVE, "List of effective leaves"), *front], sections)
    counts = (TITLE, EFFECTIVE, CONTENTS, FRONT, *tabs, *numbers)
    page = opening.title_page(handbook)
    return [
        made(handbook, TITLE, "Title page", NO_HEAD, page),
        made(handbook, CONTENTS, CONTENTS, literal(CONTENTS), lists, counts=counts),
    ]


def _front(handbook: Handbook) -> Written:
    words = handbook.cover.front
    text = _text(handbook, "index", handbook.front)
    return made(handbook, FRONT, words, numbered(FRONT, words), text)


def _tab(handbook: Handbook, section: Section) -> Written:
    title = f"Section {section.letter}: {section.title}"
    return made(handbook, tab_of(section), title, NO_HEAD, opening.tab(section), section)


def _text(handbook: Handbook, slug: str, tree: Element) -> str:
    numbers = {leaf.slug: leaf.number for leaf in handbook.leaves}
    return Writer(slug, numbers, handbook.catalog).leaf(tree)


def _preamble(handbook: Handbook, sections: Iterable[Section]) -> str:
    """Give what the pages of every leaf look like by the shop's settings and the sections."""
    shop = handbook.catalog.shop
    edges = "".join(f"{literal(section.letter)}, " for section in sections)
    return (
        f'#let bound = (sides: {handbook.cover.sides}, paper: "{shop.paper}", '
        f"edges: ({edges}), holes: {_holes(handbook)})"
    )


def _holes(handbook: Handbook) -> str:
    if handbook.catalog.shop.holes == "none":
        return "none"
    from formulas.holes import holes

    found: Holes | None = holes(handbook.catalog)
    if found is None:
        return "none"
    tops = "".join(f"{top:g}mm, " for top in found.tops)
    return f"(edge: {found.edge:g}mm, across: {found.across:g}mm, tops: ({tops}))"


def _layout(preamble: str) -> str:
    """Give the short digest of the layout: template, typesetter, paper, marks in the margins."""
    from importlib.metadata import version

    return short(f"typst {version('typst')}\n{preamble}\n{TEMPLATE.read_text(encoding='utf-8')}")
