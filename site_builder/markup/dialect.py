"""The handbook's Markdown: text in, one tree of elements out, every fault with its line.

The dialect is plain Markdown with tables, definition lists, footnotes, fenced code, placed
parts (`/// name | argument` … `///`) and values in running text (`[[material:property]]`).
HTML is shown as the text it is. Indented code, pictures, reference links, hard line breaks and
underlined headings are left out: each is one more way to write what the dialect has a way for.
"""

from __future__ import annotations

import copy
import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from xml.etree.ElementTree import Element, SubElement

from markdown import Markdown
from markdown.extensions.def_list import DefListExtension
from markdown.extensions.fenced_code import FencedCodeExtension
from markdown.extensions.footnotes import FootnoteExtension
from markdown.extensions.tables import TableExtension, TableProcessor
from markdown.inlinepatterns import InlineProcessor
from pymdownx.blocks import BlocksExtension
from pymdownx.blocks.block import Block

from formulas.catalog import Catalog
from formulas.fault import Faults, UnknownName, hint
from site_builder.markup import links, tidy
from site_builder.markup.source_text import ITEM, Placed, SourceText
from site_builder.parts.shelf import HOLDING, LARGE, ONE_PAGE, TICKS, Shelf

VALUE = r"(?<!\\)\[\[([^\[\]\n]*)\]\]"

LINKED = (*tidy.HEADINGS, "tr", "dt")
"""What a link may lead to, where it has an id."""

WRAPPED = {LARGE: "large", ONE_PAGE: "onepage"}
"""The parts that hold text of the leaf whole, and the element each becomes."""

UNUSED = {
    "preprocessors": ("html_block",),
    "parser.blockprocessors": ("code", "setextheader", "reference"),
    "inlinePatterns": (
        "html",
        "entity",
        "reference",
        "short_reference",
        "image_link",
        "image_reference",
        "short_image_ref",
        "automail",
        "linebreak",
    ),
    "treeprocessors": ("prettify", "footnote-reorder", "footnote-duplicate"),
}


@dataclass
class Parsed:
    """The tree of one text, the links it holds, and the text with its faults so far."""

    source: SourceText
    tree: Element
    links: list[str]

    @property
    def ids(self) -> set[str]:
        """Every place in the tree that a link may name."""
        named = (found.get("id") for found in self.tree.iter() if found.tag in LINKED)
        return {name for name in named if name}


class PartBlock(Block):  # type: ignore[misc]  # the library ships no types
    """A placed part; it stands in the tree as a placeholder until the text around it is done."""

    NAME = "part"
    ARGUMENT = None

    def on_create(self, parent: Element) -> Element:
        """Make the placeholder."""
        return SubElement(parent, "part", name=self.NAME, argument=self.argument or "")

    def on_markdown(self) -> str:
        """Read what stands inside as blocks."""
        return "block"


class PartBlocks(BlocksExtension):  # type: ignore[misc]  # the library ships no types
    """Registers one block for each part that can be placed."""

    def __init__(self, names: Iterable[str]) -> None:
        super().__init__()
        self.names = list(names)

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: object) -> None:  # noqa: N802, ARG002
        """Register the blocks."""
        for name in (*self.names, *HOLDING):
            block_mgr.register(type("Part", (PartBlock,), {"NAME": name}), {})  # type: ignore[attr-defined]


class ValuePattern(InlineProcessor):
    """Replaces `[[name]]` by the value of that name."""

    def __init__(self, dialect: Dialect) -> None:
        super().__init__(VALUE)
        self.dialect = dialect

    def handleMatch(  # type: ignore[override]  # noqa: N802 - the library's name
        self,
        m: re.Match[str],
        data: str,  # noqa: ARG002
    ) -> tuple[Element | None, int | None, int | None]:
        """Give the element of the value; a name that is not there was reported already."""
        value = self.dialect.value(m[1])
        return (None, None, None) if value is None else (value, m.start(0), m.end(0))


class Tables(TableProcessor):
    """Tables that report a row with more cells than the header, which would be cut."""

    dialect: Dialect

    def _build_row(self, row: str, parent: Element, align: list[str | None]) -> None:
        cells = len(self._split_row(row))  # type: ignore[attr-defined]
        if cells > len(align):
            source = self.dialect.source
            source.fault(
                source.line_with(row), "table", row, f"at most {len(align)} cells in a row"
            )
        super()._build_row(row, parent, align)  # type: ignore[misc]


class Dialect:
    """One Markdown reader for all leaves; it draws each part and each value once.

    `shelf` is what leaves may place: that of the handbook where none is given.
    """

    def __init__(self, catalog: Catalog, shelf: Shelf | None = None) -> None:
        self.catalog, self.shelf = catalog, shelf or _of_the_handbook()
        self.source = SourceText("", "")
        self.tree = Element("div")
        self.drawn: dict[tuple[str, str], list[list[Element]]] = {}
        self.values: dict[str, Element] = {}
        self.notes = FootnoteExtension(SEPARATOR="-", USE_DEFINITION_ORDER=False)
        self.markdown = self._reader()

    def _reader(self) -> Markdown:
        reader = Markdown(
            extensions=[
                TableExtension(use_align_attribute=True),
                DefListExtension(),
                self.notes,
                FencedCodeExtension(),
                PartBlocks(self.shelf.parts),
            ]
        )
        for place, names in UNUSED.items():
            registry = reader.parser.blockprocessors if "." in place else getattr(reader, place)
            for name in names:
                registry.deregister(name)
        tables = Tables(reader.parser, {"use_align_attribute": True})
        tables.dialect = self
        reader.parser.blockprocessors.register(tables, "table", 75)
        reader.inlinePatterns.register(ValuePattern(self), "value", 185)
        reader.serializer = self._take
        reader.stripTopLevelTags = False
        return reader

    def _take(self, tree: Element) -> str:
        self.tree = tree
        return ""

    def parse(self, source: SourceText) -> Parsed:
        """Read one text. Its faults go into the source; links are left to `links.check`."""
        self.source, self.tree = source, Element("div")
        source.check()
        for placed in source.placed():
            self._check_part(placed)
        for match in re.finditer(VALUE, source.text):
            self.value(match[1], source.line(match.start()))
        self.markdown.reset().convert(source.raw)
        order = [self.notes.makeFootnoteId(name) for name in self.notes.footnote_order]
        stash = [str(code) for code in self.markdown.htmlStash.rawHtmlBlocks]
        found = tidy.tidy(self.tree, source, stash, order)
        self._put_parts(self.tree)
        return Parsed(source, self.tree, found)

    def value(self, name: str, line: int = 0) -> Element | None:
        """Give a value by its name, or note the fault and give None."""
        if name not in self.values:
            try:
                self.values[name] = self.shelf.inline(self.catalog, name.strip())
            except UnknownName as error:
                for at in [line] if line else self.source.lines_of(f"[[{name}]]"):
                    self._unknown(at, "value", error)
                return None
        return copy.deepcopy(self.values[name])

    def _unknown(self, line: int, column: str, error: UnknownName) -> None:
        also = hint(error.found, error.accepted)
        self.source.fault(line, column, error.found, error.kind, also)

    def _check_part(self, placed: Placed) -> None:
        if placed.name in HOLDING:
            self._check_holding(placed)
            return
        if self._frames(placed.name):
            if not placed.inside:
                self.source.fault(placed.line, "part", placed.name, "the words that stand in it")
        elif placed.inside:
            self.source.fault(
                placed.line, "part", placed.inside[0].strip(), "nothing inside a part"
            )
        try:
            drawn = self.shelf.place(self.catalog, placed.name, placed.argument)
        except UnknownName as error:
            also = hint(error.found, error.accepted)
            if placed.name not in self.shelf.parts:
                also = hint(error.found, [*self.shelf.parts, *HOLDING])
            self.source.fault(placed.line, "part", error.found, error.kind, also)
        else:
            self.drawn.setdefault((placed.name, placed.argument), []).append(drawn)

    def _frames(self, name: str) -> bool:
        return name in self.shelf.parts and self.shelf.parts[name].holds

    def _check_holding(self, placed: Placed) -> None:
        if placed.argument:
            self.source.fault(placed.line, "part", placed.argument, "no argument")
        if placed.name in WRAPPED:
            if not placed.inside:
                self.source.fault(placed.line, "part", placed.name, "the words that go into it")
        elif not placed.inside or not ITEM.match(placed.inside[0].lstrip("> ")):
            found = placed.inside[0].strip() if placed.inside else ""
            self.source.fault(placed.line, "part", found, "a list of things to tick, a - each")

    def _put_parts(self, parent: Element) -> None:
        children = list(parent)
        for child in children:
            self._put_parts(child)
        if any(child.tag == "part" for child in children):
            parent[:] = [made for child in children for made in self._drawn(child)]

    def _drawn(self, child: Element) -> Iterator[Element]:
        if child.tag != "part":
            yield child
        elif child.get("name") in WRAPPED:
            wrapped = Element(WRAPPED[child.get("name", "")])
            wrapped.extend(child)
            yield wrapped
        elif child.get("name") == TICKS:
            for inner in child:
                inner.tag = "ticks" if inner.tag in ("ul", "ol") else inner.tag
                yield inner
        else:
            named = child.get("name", ""), child.get("argument", "")
            waiting = self.drawn.get(named)
            made = waiting.pop(0) if waiting else []
            if made and self._frames(named[0]):
                made[0].extend(child)
            yield from made


def _of_the_handbook() -> Shelf:
    from site_builder.parts.registry import SHELF

    return SHELF


def parse(
    text: str, file: str, catalog: Catalog, leaves: Mapping[str, Collection[str]] | None = None
) -> Element:
    """Parse one text alone. Raises Faults with every fault in it, in the order of its lines."""
    parsed = Dialect(catalog).parse(SourceText(file, text))
    links.check(parsed.source, parsed.links, parsed.ids, leaves or {})
    if parsed.source.faults:
        raise Faults(sorted(parsed.source.faults, key=lambda fault: fault.row))
    return parsed.tree
