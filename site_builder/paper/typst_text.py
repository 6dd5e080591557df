"""Running text as Typst code.

No text becomes markup: every run of text is a string literal in code mode, so that nothing
a shop writes can be read as an instruction of the typesetter.
"""

from __future__ import annotations

import re
import unicodedata
import urllib.parse
from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, TypeVar
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from site_builder.markup.elements import BASES
from site_builder.markup.unbroken import held, ranges
from site_builder.paper.typesetting import quoted

if TYPE_CHECKING:
    from formulas.catalog import Catalog


SPACES = re.compile(r"[ \t\n\v\f\r\x85\u2028\u2029]+")
VARIATIONS = re.compile("[\ufe00-\ufe0f]")
W = TypeVar("W")


class Code(str):
    """A run that is Typst code already; every other run is text."""

    __slots__ = ()


def clean(text: str) -> str:
    r"""Drop what cannot be printed and fold white space; no-break spaces stay.

    Letters are joined with their marks where one character holds both.

    >>> clean("4\u200b:1\n  by mass\x07")
    '4:1 by mass'
    """
    if text.isascii() and text.isprintable() and "  " not in text:
        return text
    kept = printable(SPACES.sub(" ", text))
    return kept if kept.isascii() else unicodedata.normalize("NFC", SPACES.sub(" ", kept))


def printable(text: str) -> str:
    """Drop every character that cannot be printed; most texts hold none, and are told at a look."""
    if text.replace("\N{NO-BREAK SPACE}", " ").isprintable() and not VARIATIONS.search(text):
        return text
    return "".join(char for char in text if not unprintable(char))


def unprintable(char: str) -> bool:
    """Whether a character is a control, a format mark, half a pair or a variation selector."""
    return unicodedata.category(char) in {"Cc", "Cf", "Cs"} or "\ufe00" <= char <= "\ufe0f"


def literal(text: str) -> str:
    r"""Write text as a string literal, the only form in which text reaches the typesetter.

    >>> print(literal('a "b" \\ #c'))
    "a \"b\" \\ #c"
    """
    return quoted(clean(text))


def joined(runs: Iterable[str], *, trim: bool = False) -> str:
    """Join runs into one code block, each on its own line; `trim` cuts the outer white space."""
    merged: list[str] = []
    for run in runs:
        if merged and not isinstance(run, Code) and not isinstance(merged[-1], Code):
            merged[-1] += run
        else:
            merged.append(run)
    if trim and merged:
        if not isinstance(merged[0], Code):
            merged[0] = merged[0].lstrip(" \t\n\r")
        if not isinstance(merged[-1], Code):
            merged[-1] = merged[-1].rstrip(" \t\n\r")
    lines = [
        run if isinstance(run, Code) else literal(piece) if place % 2 == 0 else _whole(piece)
        for run in merged
        for place, piece in enumerate([run] if isinstance(run, Code) else ranges(held(run)))
        if piece
    ]
    return "{\n" + "\n".join(lines) + "\n}"


def _whole(words: str) -> str:
    return f"box({literal(words)})"


def plain(element: Element) -> str:
    """Give the text of an element without its marks."""
    return clean("".join(element.itertext())).strip(" ")


def shown(element: Element) -> str:
    """Give the text of an element as it will stand on paper, to measure a cell by."""
    text = held(plain(element))
    if not len(element):
        return text
    for code in element.iter("code"):
        if code.get("whole"):
            text = text.replace(plain(code), plain(code).replace("-", "\N{NON-BREAKING HYPHEN}"))
    marks = [basis_words(e.get("kind", ""), e.get("source", "")) for e in element.iter("basis")]
    marks += [BASES[e.get("basis", "")][1] for e in element.iter("value")]
    marks += [e.get("reason", "") for e in element.iter("unknown")]
    return " ".join(part for part in (text, *marks) if part)


def basis_words(kind: str, source: str) -> str:
    """Say a basis in words, with its source id in brackets."""
    words = BASES[kind][0]
    return f"{words} [{source}]" if source else words


class RunningText(ABC):
    """Writes running text; it knows its leaf's own name and where links may go."""

    def __init__(self, slug: str, numbers: Mapping[str, str], catalog: Catalog) -> None:
        self.slug, self.numbers, self.catalog = slug, numbers, catalog
        self.notes: dict[str, Element] = {}
        self.paper = catalog.shop.paper
        self.in_form = False
        self.capital = 0.0  # mm, of what is read from a distance; else nothing

    @abstractmethod
    def flow(self, element: Element) -> str:
        """Write a container that holds blocks, or running text, or both."""

    def runs(self, element: Element) -> list[str]:
        """List the runs of running text in an element."""
        found = [element.text or ""]
        for child in element:
            found += [Code(self.inline(child)), child.tail or ""]
        return found

    def anchor(self, element: Element) -> str:
        """Write the place that a link to this element's id leads to; nothing where it has none."""
        name = element.get("id", "")
        if not name or name.startswith("fn"):
            return ""
        return f"[#metadata(none) #label({quoted(f'{self.slug}#{name}')})]\n"

    def inside(self, element: Element) -> str:
        """Write running text within running text, its outer white space kept."""
        return joined(self.runs(element))

    def inline(self, element: Element) -> str:
        """Write one element of running text."""
        return writer_of(INLINE, element)(self, element)

    def code(self, element: Element) -> str:
        """Write a run of code; an id that is copied stands whole."""
        written = f"raw({literal(''.join(element.itertext()))})"
        return f"box({written})" if element.get("whole") else written

    def span(self, element: Element) -> str:
        """Write words with nothing of their own but that some stand in one line."""
        written = self.inside(element)
        return f"box({written})" if element.get("class") == "unbroken" else written

    def link(self, element: Element) -> str:
        """Write a link: an inner one with the leaf's number, an outer one with its address.

        The link that leads back from a footnote is left out: on paper the note is on its page.
        """
        if "footnote-backref" in element.get("class", ""):
            return ""
        address = urllib.parse.urlsplit(element.get("href", ""))
        if address.scheme:
            return self.outer_link(element)
        slug = address.path.rsplit(".", 1)[0] or self.slug
        number = self.numbers.get(slug, "")
        target = f"{slug}#{address.fragment}" if address.fragment else f"leaf:{number}"
        go = f"go({quoted(target)}, {self.inside(element)})"
        if slug == self.slug or not number or number in plain(element):
            return go
        return f"{{\n{go}\n{literal(f' ({number})')}\n}}"

    def outer_link(self, element: Element) -> str:
        """Write a link that leaves the binder, its address printed unless it is the text."""
        href = element.get("href", "")
        shown = href.removeprefix("mailto:")
        linked = f"link({literal(href)}, {self.inside(element)})"
        if plain(element) in (href, shown):
            return f"link({literal(href)}, {literal(shown)})"
        return f'{{\n{linked}\n" ("\nlink({literal(href)}, {literal(shown)})\n")"\n}}'

    def superscript(self, element: Element) -> str:
        """Write a raised run, or the note that a raised link names."""
        for link in element.iter("a"):
            note = self.notes.get(link.get("href", "").removeprefix("#"))
            if note is not None:
                return f"footnote({self.flow(note)})"
        return f"super({self.inside(element)})"

    def value(self, element: Element) -> str:
        """Write a number with its unit and the mark of its basis."""
        words = plain(element).replace(" ", "\u00a0")
        if self.capital:
            return literal(words)
        short = BASES[element.get("basis", "")][1]
        return f"{{\n{literal(words)}\nmark({literal(short)})\n}}"

    def basis(self, element: Element) -> str:
        """Write the words of a basis."""
        return literal(basis_words(element.get("kind", ""), element.get("source", "")))

    def unknown(self, element: Element) -> str:
        """Write what nobody has found out, and how to find it out."""
        reason = element.get("reason", "")
        words = f"emph({literal(plain(element) or 'not known')})"
        return f"{{\n{words}\n{literal(f' ({reason})')}\n}}" if reason else words


TextWriting = Callable[[RunningText, Element], str]

INLINE: dict[str, TextWriting] = {
    "em": lambda writer, element: f"emph({writer.inside(element)})",
    "strong": lambda writer, element: f"strong({writer.inside(element)})",
    "span": RunningText.span,
    "br": lambda _, __: "linebreak()",
    "code": RunningText.code,
    "a": RunningText.link,
    "sup": RunningText.superscript,
    "sub": lambda writer, element: f"sub({writer.inside(element)})",
    "value": RunningText.value,
    "basis": RunningText.basis,
    "unknown": RunningText.unknown,
}


def writer_of(writers: Mapping[str, W], element: Element) -> W:
    """Find what writes an element. Raises UnknownName for one outside the vocabulary."""
    if element.tag not in writers:
        kind = "element of a leaf on paper"
        raise UnknownName(kind, element.tag, writers)
    return writers[element.tag]
