"""Running text as HTML: every text escaped, every attribute of a known name, every id its own."""

from __future__ import annotations

import contextlib
import functools
import html
import re
from abc import ABC, abstractmethod
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any, NewType
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from site_builder.markup.elements import BASES
from site_builder.markup.unbroken import held, ranges
from site_builder.screen.addresses import Address
from site_builder.screen.html_vocabulary import ATTRIBUTES, EMPTY, REFERENCES

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from site_builder.screen.addresses import Addresses

Html = NewType("Html", str)
"""What is HTML already; a text becomes it by `escape` alone."""
NOTHING = Html("")

# Controls, half pairs, and marks that turn the direction of what follows.
UNSHOWN = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\u202a-\u202e\u2066-\u2069]")
LONGEST = 17  # characters; a longer word of a table may be broken at its signs
SPACES = re.compile(r"(\s+)")
BREAKS = re.compile(r"(?<=[/._:()])(?=[^/._:()\s])")
JOINED = re.compile(r"(?<=\d)(?=\+[HP]\d)")  # statement codes of one row: P302+P352
LEAF = re.compile(r"[A-Z]-\d\d")
OPTION = re.compile(r"(?<!\S)(--[\w-]+)")  # of a typed line: never broken after its hyphens
SHORT = 24  # characters; a value up to this stays in one line
WRITTEN_ON = frozenset({"formline", "formtable", "formchoice"})
NAMED = re.compile(r"url\(#([^)]+)\)")


def cleaned(words: str) -> str:
    """Leave out what is never shown."""
    return words if words.isprintable() else UNSHOWN.sub("", words)


def escape(words: str) -> Html:
    """Write text as HTML."""
    return Html(html.escape(words))


def tag(name: str, inner: Html | None, attributes: Mapping[str, str] | None = None) -> Html:
    """Write an element; names are our own or were checked, every value is escaped."""
    opening = f"<{name}"
    for key, value in (attributes or {}).items():
        shown_value = value if type(value) is Address else cleaned(value)
        opening += f' {key}="{html.escape(shown_value)}"'
    return Html(f"{opening}>" if name in EMPTY else f"{opening}>{inner or ''}</{name}>")


def together(pieces: Iterable[Html]) -> Html:
    """Join what is written already."""
    return Html("".join(pieces))


@functools.lru_cache(maxsize=8192)
def in_cell(words: str) -> Html:
    """Write text of a table: a number stays beside its unit, and an address may break."""
    return in_line(words, _broken)


def in_line(words: str, write: Callable[[str], Html] = escape) -> Html:
    """Write text; a number stays beside its unit, and a range beside its other end."""
    pieces = ranges(held(words))
    if len(pieces) == 1:
        return write(pieces[0])
    return together(
        tag("span", escape(piece), {"class": "unbroken"}) if place % 2 else write(piece)
        for place, piece in enumerate(pieces)
    )


def _broken(words: str) -> Html:
    if len(words) <= LONGEST and "+" not in words:
        return escape(words)
    return together(
        Html("<wbr>".join(map(escape, (BREAKS if len(word) > LONGEST else JOINED).split(word))))
        for word in SPACES.split(words)
    )


def shown(element: Element) -> str:
    """Give the text of an element in one line."""
    return " ".join("".join(element.itertext()).split())


def lone_paragraph(element: Element) -> Element:
    """Give the only paragraph of an element that holds nothing else, or the element."""
    if len(element) == 1 and element[0].tag == "p":
        outside = f"{element.text or ''}{element[0].tail or ''}"
        if not outside.strip():
            return element[0]
    return element


class _Held(contextlib.AbstractContextManager[None]):
    """A state that a writer holds for a while: every cell and paragraph asks for one."""

    __slots__ = ("before", "state", "writer")

    def __init__(self, writer: RunningText, state: dict[str, Any]) -> None:
        self.writer, self.state = writer, state

    def __enter__(self) -> None:
        held_now = self.writer.__dict__
        self.before = {name: held_now[name] for name in self.state}
        held_now.update(self.state)

    def __exit__(self, *_: object) -> None:
        self.writer.__dict__.update(self.before)


class RunningText(ABC):
    """Writes running text; it knows its leaf's own name and where links may go."""

    def __init__(
        self,
        slug: str,
        number: str,
        addresses: Addresses,
        catalog: Catalog,
        maths: Mapping[str, str],
    ) -> None:
        self.slug, self.number = slug, number
        self.addresses, self.catalog, self.maths = addresses, catalog, maths
        self.running = self.in_working = self.in_cell = False
        self.heads: list[str] = []
        self.labels: dict[str, str] = {}
        self.counts: Counter[str] = Counter()
        self.last_lines: set[Element] = set()

    @abstractmethod
    def element(self, element: Element) -> Html:
        """Write one element by its tag."""

    def set(self, **state: Any) -> contextlib.AbstractContextManager[None]:
        """Hold a state while what is inside is written."""
        return _Held(self, state)

    def count(self, kind: str) -> int:
        """Count one more thing of a kind on this leaf, and give its number."""
        self.counts[kind] += 1
        return self.counts[kind]

    def text(self, words: str | None) -> Html:
        """Write text; in a table an address may break."""
        if not words:
            return NOTHING
        clean = cleaned(words)
        if self.in_cell:
            return in_cell(clean)
        return in_line(clean) if self.running else escape(clean)

    def typed(self, words: str) -> Html:
        """Write what is typed at the command line: an option stays in one line."""
        return together(
            tag("span", escape(piece), {"class": "unbroken"})
            if OPTION.fullmatch(piece)
            else self.text(piece)
            for piece in OPTION.split(words)
        )

    def inside(self, element: Element) -> Html:
        """Write the text and the elements that stand in an element."""
        children = list(element)
        if any(child.tag in WRITTEN_ON for child in children):
            following = [*children[1:], None]
            self.last_lines |= {
                one
                for one, after in zip(children, following, strict=True)
                if one.tag in WRITTEN_ON and (after is None or after.tag not in WRITTEN_ON)
            }
        pieces = [self.text(element.text)]
        for child in children:
            pieces += [self.element(child), self.text(child.tail)]
        return together(pieces)

    def attributes(self, element: Element) -> dict[str, str]:
        """Give an element's attributes; ids and what names them carry the leaf's slug.

        Raises UnknownName for an attribute that no element of a leaf may have.
        """
        made = {}
        for name, value in element.attrib.items():
            if name not in ATTRIBUTES and not name.startswith(("data-", "aria-")):
                raise UnknownName(f"attribute of {element.tag}", name, ATTRIBUTES)
            made[name] = self.named(name, value)
        return made

    def named(self, name: str, value: str) -> str:
        """Give an attribute's value with the ids in it made the leaf's own."""
        clean = cleaned(value)
        if name == "id" or name in REFERENCES:
            return Address(" ".join(self.addresses.id(self.slug, one) for one in clean.split()))
        if "url(" not in clean:
            return clean
        own = self.addresses.id
        return Address(NAMED.sub(lambda match: f"url(#{own(self.slug, match[1])})", clean))

    def code(self, element: Element) -> Html:
        """Write a run of code."""
        return tag("code", self.typed("".join(element.itertext())))

    def link(self, element: Element) -> Html:
        """Write a link."""
        attributes = self.attributes_without(element, "href")
        attributes["href"] = self.addresses.link(element.get("href", ""), self.slug)
        if LEAF.fullmatch(shown(element)):
            attributes.setdefault("class", "unbroken")
        return tag("a", self.inside(element), attributes)

    def attributes_without(self, element: Element, name: str) -> dict[str, str]:
        """Give an element's attributes but one."""
        rest = {key: value for key, value in element.attrib.items() if key != name}
        return self.attributes(Element(element.tag, rest))

    def superscript(self, element: Element) -> Html:
        """Write a raised run."""
        return tag("sup", self.inside(element), self.attributes(element))

    def value(self, element: Element) -> Html:
        """Write a number with its unit and the mark of its basis."""
        words = cleaned(shown(element))
        mark = self.mark(element.get("basis", ""), element.get("source", ""))
        kind = "value short" if len(words) <= SHORT else "value"
        return tag("span", together((in_line(words), mark)), {"class": kind})

    def mark(self, kind: str, source: str) -> Html:
        """Write the short mark of a basis, which leads to the key of the marks."""
        words, short, _ = BASES[kind]
        title = f"{words}: {self.source_title(source)}" if source else words
        inner = tag("abbr", self.text(short), {"title": title})
        if self.addresses.key:
            address = self.addresses.leaf(self.addresses.key)
            inner = tag("a", inner, {"href": address})
        return tag("sup", inner, {"class": "mark"})

    def basis(self, element: Element) -> Html:
        """Write a basis: a short mark in running text, words anywhere else."""
        kind, source = element.get("kind", ""), element.get("source", "")
        return self.mark(kind, source) if self.running else self.basis_words(kind, source)

    def basis_words(self, kind: str, source: str) -> Html:
        """Write a basis in words, which lead to the row of its source."""
        words = BASES[kind][0]
        return self.source_link(source, words) if source else self.text(words)

    def source_link(self, source: str, words: str) -> Html:
        """Write words that lead to the row of a source."""
        address = self.addresses.source(source)
        attributes = {"href": address, "title": self.source_title(source)}
        return tag("a", self.text(words), attributes) if address else self.text(words)

    def source_title(self, source: str) -> str:
        """Name a source by its title, or by its id where the tables do not hold it."""
        found = self.catalog.sources.get(source)
        return found.title if found else source

    def unknown(self, element: Element) -> Html:
        """Write what nobody has found out, and how to find it out."""
        reason = element.get("reason", "")
        words = tag("em", self.text(shown(element) or "not known"))
        how = tag("span", self.text(f" ({reason})"), {"class": "how"}) if reason else NOTHING
        return tag("span", together((words, how)), {"class": "unknown"})

    def symbol(self, symbol: str) -> Html:
        """Write a symbol with its index lowered."""
        head, *indices = symbol.split("_")
        index = tag("sub", self.text(" ".join(indices))) if indices else NOTHING
        return tag("var", together((self.text(head), index)))
