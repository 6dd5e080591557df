"""Parts that list words: the glossary, and the place of the index that `term_index` fills.

A part knows no leaf: links to leaves stand here without words, and get the leaf's number when the
book is bound.
"""

from __future__ import annotations

import functools
import itertools
import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from xml.etree.ElementTree import Element

from formulas.catalog import Catalog
from formulas.first_year_entries import Term
from formulas.term_checks import twins
from site_builder.markup.elements import Content, element

LISTS = ("glossary", "term-index")
NO_LETTER = "0–9"
WORD = re.compile(r"[^\W_]+")
GLOSSARY_COLUMNS, INDEX_COLUMNS = 2, 3


@dataclass
class Entry:
    """A word of a list with what is said of it; `id` is where a link to it leads."""

    word: str
    said: list[Content]
    id: str = ""
    command: bool = False
    sort: str = field(init=False)

    def __post_init__(self) -> None:
        self.sort = sorted_by(self.word)


@functools.cache
def sorted_by(word: str) -> str:
    """Give what a word is put in order by: its letters and digits, without case and accents.

    >>> sorted(["key pad", "Éclat", "edge land"], key=sorted_by)
    ['Éclat', 'edge land', 'key pad']
    """
    bare = unicodedata.normalize("NFKD", word.casefold())
    return " ".join(WORD.findall("".join(c for c in bare if not unicodedata.combining(c))))


def headword(word: str) -> str:
    """Write a word with a capital, as it stands at the head of its line.

    >>> headword("slide hole"), headword("d-Limonene"), headword("n-heptane")
    ('Slide hole', 'd-Limonene', 'n-heptane')
    """
    first = word.split(" ")[0]
    kept = first != first.lower() or word[1:2] == "-"
    return word if kept else word[:1].upper() + word[1:]


def word_list(entries: Iterable[Entry], columns: int) -> Element:
    """Make a list of words in columns, by their first letters, each letter with its heading."""
    made = Element("wordlist", columns=str(columns))
    ordered = sorted(entries, key=lambda one: (one.sort, one.word))
    for letter, group in itertools.groupby(ordered, _letter):
        made.append(element("h2", letter, id=f"letter-{letter[0].lower()}"))
        lines = Element("dl")
        for one in group:
            head = (
                [element("code", one.word), " (command)"] if one.command else [headword(one.word)]
            )
            pair = element("div", element("dt", *head, id=one.id), element("dd", *one.said))
            lines.append(pair)
        made.append(lines)
    return made


def _letter(entry: Entry) -> str:
    first = entry.sort[:1].upper()
    return first if first.isalpha() else NO_LETTER


def by_word(terms: Iterable[Term]) -> dict[str, list[Term]]:
    """Give the terms that each other word stands for, by that word."""
    found: dict[str, list[Term]] = {}
    for term in terms:
        for twin in twins(term.also):
            found.setdefault(twin, []).append(term)
    return found


def glossary(catalog: Catalog, _: str) -> list[Element]:
    """List every word of the trade with its meaning, and each other word with where to look."""
    others = by_word(catalog.terms.values())
    words = {term.term.lower() for term in catalog.terms.values()}
    entries = [
        Entry(term.term, list(_meaning(term, others)), word_id(term))
        for term in catalog.terms.values()
    ]
    entries += [
        Entry(twin, ["see ", *_named(meant)])
        for twin, meant in others.items()
        if twin.lower() not in words
    ]
    return [word_list(entries, GLOSSARY_COLUMNS)]


def term_index(_: Catalog, __: str) -> list[Element]:
    """Make the place of the index; only a bound book knows what stands on which leaf."""
    return [Element("termindex")]


def word_id(term: Term) -> str:
    """Give the id of a word in the glossary."""
    return f"word-{term.id}"


def _named(meant: Iterable[Term]) -> Iterator[Content]:
    for place, term in enumerate(meant):
        if place:
            yield " or "
        yield element("a", term.term, href=f"#{word_id(term)}")


def _meaning(term: Term, others: dict[str, list[Term]]) -> Iterator[Content]:
    also = twins(term.also)
    if also:
        yield f"(also {', '.join(also)}) "
    yield term.meaning
    if term.not_this:
        yield f" {term.not_this}"
    meant = [one for word, found in others.items() if word.lower() == term.term for one in found]
    if meant:
        yield from (" See also ", *_named(meant), ".")
    if term.basis != "practice":
        yield from (" (", element("basis", kind=term.basis, source=term.source), ")")
    if term.leaf:
        yield from (" ", element("a", href=f"{term.leaf}.md"))
