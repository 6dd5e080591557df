"""Find the handbook's text, read its sections and leaves, add the shop's own leaves."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.catalog import Catalog
from formulas.fault import CellFault, Faults, hint
from site_builder import term_index
from site_builder.cover import Cover
from site_builder.markup import links
from site_builder.markup.dialect import Dialect, Parsed
from site_builder.markup.source_text import SourceText, head
from site_builder.parts import word_parts
from site_builder.places import CONTENT

if TYPE_CHECKING:
    from site_builder.parts.shelf import Shelf

NUMBERED = re.compile(r"\d\d-(?P<slug>[a-z0-9]+(?:-[a-z0-9]+)*)")
SLUG = re.compile(r"(?:\d\d-)?(?P<slug>[a-z0-9]+(?:-[a-z0-9]+)*)")
RESERVED = ("index", "handbook", "front")
FRONT = "front.md"


@dataclass(frozen=True, eq=False)
class Section:
    """A section of the handbook: its letter, its words, its leaves by number."""

    letter: str
    title: str
    summary: str
    folder: str
    leaves: list[Leaf] = field(default_factory=list, repr=False)


@dataclass(frozen=True, eq=False)
class Leaf:
    """One leaf: what its head says, the file it was read from, its text as a tree."""

    number: str
    slug: str
    title: str
    summary: str
    section: Section
    file: str
    tree: Element = field(repr=False)


@dataclass(frozen=True, eq=False)
class Handbook:
    """A whole book of leaves as the faces write it: the handbook, or the folder of a job."""

    front: Element
    sections: list[Section]
    catalog: Catalog
    cover: Cover = field(default_factory=Cover)

    @property
    def leaves(self) -> list[Leaf]:
        """Every leaf in order."""
        return [leaf for section in self.sections for leaf in section.leaves]


@dataclass
class Read:
    """A leaf on its way: its whole file, its parsed text, its head, the section it asks for."""

    source: SourceText
    parsed: Parsed
    slug: str
    head: Mapping[str, str]
    letter: str

    @property
    def number(self) -> str:
        """The leaf's number as its head gives it."""
        return self.head.get("leaf", "")


class Reader:
    """Reads the files of a handbook, all of them, and keeps every fault it meets."""

    def __init__(self, catalog: Catalog, content: Path, shelf: Shelf | None = None) -> None:
        self.catalog, self.content = catalog, content
        self.dialect = Dialect(catalog, shelf)
        self.sources: list[SourceText] = []

    def open(self, path: Path, shown: str) -> SourceText:
        """Read a file as text; one that is not there or no text is a fault."""
        try:
            text, fault = path.read_bytes().decode("utf-8-sig"), None
        except UnicodeDecodeError as error:
            line = error.object[: error.start].count(b"\n") + 1
            text, fault = (
                "",
                CellFault(shown, line, "(file)", "bytes that are no text", "UTF-8 text"),
            )
        except FileNotFoundError:
            text, fault = "", CellFault(shown, 1, "(file)", "", "this file, with its head lines")
        source = SourceText(shown, text, [fault] if fault else [])
        self.sources.append(source)
        return source

    def shown(self, path: Path) -> str:
        """Give a file of the handbook's own text as faults name it."""
        return f"content/{path.relative_to(self.content).as_posix()}"

    def front(self, name: str = FRONT) -> Parsed:
        """Read the front page."""
        path = self.content / name
        return self._text(self.open(path, self.shown(path)), (), ("title", "summary"))[0]

    def sections(self, named: re.Pattern[str] = NUMBERED) -> dict[str, Section]:
        """Read the sections by letter, in the order of their folders, which are `named` so."""
        found: dict[str, Section] = {}
        for folder in sorted(self.content.iterdir()):
            if folder.is_dir() and named.fullmatch(folder.name):
                path = folder / "section.md"
                source = self.open(path, self.shown(path))
                if not source.faults:
                    self._section(source, folder, found)
        return found

    def _section(self, source: SourceText, folder: Path, found: dict[str, Section]) -> None:
        words, text = head(source.raw, source, ("title", "letter", "summary"))
        letter = words.get("letter", "")
        if text.strip():
            source.fault(
                source.line_with(text.split()[0]), "text", text.split()[0], "head lines only"
            )
        if letter and not re.fullmatch("[A-Z]", letter):
            source.fault(source.line_with("letter:"), "letter", letter, "one capital letter")
        elif letter in found:
            other = found[letter].folder
            source.fault(
                source.line_with("letter:"),
                "letter",
                letter,
                f"a letter of its own, {other} has it",
            )
        elif letter:
            title, summary = words.get("title", ""), words.get("summary", "")
            found[letter] = Section(letter, title, summary, folder.name)

    def leaves(self, sections: Mapping[str, Section]) -> Iterator[Read]:
        """Read every leaf of the trade, then the shop's own."""
        yield from self.given_leaves(sections)
        shop = self.catalog.shop.folder
        for path in sorted((shop / "pages").glob("*.md")) if shop else []:
            yield self._shop_leaf(self.open(path, f"pages/{path.name}"), path, sections)

    def given_leaves(self, sections: Mapping[str, Section]) -> Iterator[Read]:
        """Read every leaf that stands in the folder of a section."""
        for section in sections.values():
            for path in sorted((self.content / section.folder).glob("*.md")):
                if path.name not in ("section.md", FRONT):
                    source = self.open(path, self.shown(path))
                    yield self._leaf(source, path, section.letter)

    def _leaf(self, source: SourceText, path: Path, letter: str) -> Read:
        match = NUMBERED.fullmatch(path.stem)
        if not match:
            source.fault(1, "(file)", path.name, "a name such as 30-wax-blends.md")
        parsed, words = self._text(source, ("leaf", "title", "summary"))
        return Read(source, parsed, match["slug"] if match else path.stem, words, letter)

    def _shop_leaf(self, source: SourceText, path: Path, sections: Mapping[str, Section]) -> Read:
        match = SLUG.fullmatch(path.stem)
        if not match:
            source.fault(1, "(file)", path.name, "a name such as our-pot.md")
        parsed, words = self._text(source, ("section", "leaf", "title", "summary"))
        letter = words.get("section", "")
        if letter and letter not in sections:
            line = source.line_with("section:")
            accepted = f"the letter of a section ({', '.join(sections)})"
            source.fault(line, "section", letter, accepted, hint(letter, sections))
        return Read(source, parsed, match["slug"] if match else path.stem, words, letter)

    def _text(
        self, source: SourceText, needed: tuple[str, ...], also: tuple[str, ...] = ()
    ) -> tuple[Parsed, Mapping[str, str]]:
        if source.faults and not source.raw:
            return Parsed(source, Element("div"), []), {}
        words, text = head(source.raw, source, needed, also)
        body = SourceText(source.file, text, source.faults)
        return self.dialect.parse(body), words


def read(catalog: Catalog, content: Path = CONTENT) -> Handbook:
    """Read the handbook: the trade's text and the shop's own pages.

    Raises Faults with every fault of every file, in file order.
    """
    reader = Reader(catalog, content)
    front = reader.front()
    sections = reader.sections()
    return bound(reader, front, sections, list(reader.leaves(sections)), Cover())


def bound(
    reader: Reader, front: Parsed, sections: dict[str, Section], leaves: list[Read], cover: Cover
) -> Handbook:
    """Bind what was read to a book. Raises Faults with every fault of every file."""
    _check_names(leaves)
    targets = {leaf.slug: leaf.parsed.ids for leaf in leaves}
    for parsed in [front, *(leaf.parsed for leaf in leaves)]:
        links.check(parsed.source, parsed.links, parsed.ids, targets)
    faults = [
        fault
        for source in reader.sources
        for fault in sorted(source.faults, key=lambda fault: fault.row)
    ]
    if faults:
        raise Faults(faults)
    for leaf in sorted(leaves, key=lambda leaf: leaf.number):
        section = sections[leaf.letter]
        section.leaves.append(_made(leaf, section))
    book = Handbook(front.tree, list(sections.values()), reader.catalog, cover)
    if any(name in word_parts.LISTS for name, _ in reader.dialect.drawn):
        term_index.fill(book)
    return book


def _made(leaf: Read, section: Section) -> Leaf:
    return Leaf(
        number=leaf.number,
        slug=leaf.slug,
        title=leaf.head["title"],
        summary=leaf.head["summary"],
        section=section,
        file=leaf.parsed.source.file,
        tree=leaf.parsed.tree,
    )


def _check_names(leaves: list[Read]) -> None:
    """Note every slug and every leaf number that stands twice, or is no number of its section."""
    slugs: dict[str, str] = dict.fromkeys(RESERVED, "a page of the build")
    numbers: dict[str, str] = {}
    for leaf in leaves:
        source = leaf.source
        line = source.line_with("leaf:") if leaf.number else 1
        if leaf.slug in slugs:
            source.fault(1, "(file)", leaf.slug, f"a name of its own, {slugs[leaf.slug]} has it")
        if leaf.number and not re.fullmatch(rf"{leaf.letter or '[A-Z]'}-\d\d", leaf.number):
            accepted = f"a number such as {leaf.letter or 'W'}-07"
            source.fault(line, "leaf", leaf.number, accepted)
        elif leaf.number in numbers:
            accepted = f"a number of its own, {numbers[leaf.number]} has it"
            source.fault(line, "leaf", leaf.number, accepted)
        slugs.setdefault(leaf.slug, source.file)
        if leaf.number:
            numbers.setdefault(leaf.number, source.file)
