"""The index of a bound book: which word is told on which leaf, read from its finished leaves.

A list of words tells of none: what stands in the glossary or in the index itself is not counted.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.formula import FORMULAS
from site_builder.listed_words import Form, Listed, listed, tokens
from site_builder.markup.elements import Content, element
from site_builder.parts.word_parts import INDEX_COLUMNS, Entry, headword, word_list

if TYPE_CHECKING:
    from site_builder.content import Handbook, Leaf

MOST = 6  # leaves of an entry
LITTLE = 6  # a leaf that counts less than the best by this factor is left out
WEIGHTS = {"title": (100, 1), "heading": (20, 3), "prose": (3, 10), "cell": (1, 3)}
"""What a word counts in each kind of place, and how often it counts there at most.

A boxed caution stands on many leaves: a word counts there only where it stands nowhere else.
"""
INLINE = frozenset(["em", "strong", "span", "sub", "sup", "code", "a", "value", "basis"])
KINDS = {**dict.fromkeys(("h2", "h3", "h4"), "heading"), "caution": "caution"}
CELLS: Mapping[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "table": (("td", "th"), ()),
    "figure": (("text", "figcaption"), ()),
    "formline": ((), ("label",)),
    "formtable": ((), ("heads",)),
    "formchoice": ((), ("label", "options")),
}
"""What holds no sentences: the elements of it that are read, and the attributes."""
SKIPPED = frozenset(["wordlist", "termindex", "working"])
LISTS_OF_OTHERS = frozenset(["sources", "from-memory"])
"""Leaves that list what stands on others and tell nothing of it."""
COMMAND = re.compile(r"benchbinder (record [a-z]+|[a-z]+)")

Counts = Mapping[str, Mapping[str, Mapping[str, int]]]
"""How often each key of a word stands on each leaf, by kind of place: key, slug, kind."""


def fill(handbook: Handbook) -> None:
    """Give each list of words in a book its leaf numbers, and fill the place of the index."""
    numbers = {leaf.slug: leaf.number for leaf in handbook.leaves}
    trees = [handbook.front, *(leaf.tree for leaf in handbook.leaves)]
    for tree in trees:
        for words in tree.iter("wordlist"):
            _number(words, numbers)
    places = [place for tree in trees for place in tree.iter("termindex")]
    if places:
        made = word_list(entries(handbook), INDEX_COLUMNS)
        for place in places:
            place.tag, place.attrib = made.tag, dict(made.attrib)
            place[:] = list(made)


def _number(words: Element, numbers: Mapping[str, str]) -> None:
    """Write a leaf's number into each link that has no words; one that leads nowhere is dropped."""
    for holder in words.iter("dd"):
        for link in [one for one in holder if one.tag == "a" and not one.text]:
            number = numbers.get(link.get("href", "").removesuffix(".md"))
            if number:
                link.text = number
            else:
                holder.remove(link)


def entries(handbook: Handbook) -> Iterator[Entry]:
    """Give every line of the index: a word with the leaves that tell of it, the main one first."""
    words = listed(handbook.catalog)
    counts = _counted(handbook.leaves, words)
    order = {leaf.slug: leaf for leaf in handbook.leaves}
    found = {
        key: _leaves(counts[key], one.leaf, order) for key, one in words.items() if key in counts
    }
    for key, one in words.items():
        seen = [(words[other], found[other][0]) for other in one.see if other in found]
        said = [*_links(found.get(key, [])), *_seen(seen, bool(found.get(key)))]
        if said:
            yield Entry(one.word, said)
    for name, counted in sorted(_commands(handbook.leaves).items()):
        yield Entry(name, list(_links(_leaves(counted, "", order))), command=True)


def _links(leaves: Sequence[Leaf]) -> Iterator[Content]:
    for place, leaf in enumerate(leaves):
        if place:
            yield ", "
        link = element("a", leaf.number, href=f"{leaf.slug}.md")
        yield link if place else element("strong", link)


def _seen(seen: Sequence[tuple[Listed, Leaf]], told: bool) -> Iterator[Content]:
    for place, (other, main) in enumerate(seen):
        begin = "; " if place else ("; see also " if told else "see ")
        yield f"{begin}{headword(other.word)} "
        yield from _links([main])


def _leaves(
    counted: Mapping[str, Mapping[str, int]], main: str, order: Mapping[str, Leaf]
) -> list[Leaf]:
    """Choose the leaves of a word: those that tell most, the main one first, then in order."""
    scores = {slug: _score(kinds) for slug, kinds in counted.items()}
    if not any(scores.values()):
        scores = {slug: kinds["caution"] for slug, kinds in counted.items()}
    best = max(scores, key=lambda slug: scores[slug])
    first = main if main in scores else best
    told = [slug for slug in scores if scores[slug] * LITTLE >= scores[best] and slug != first]
    told = sorted(told, key=lambda slug: -scores[slug])[: MOST - 1]
    places = {slug: place for place, slug in enumerate(order)}
    return [order[slug] for slug in (first, *sorted(told, key=lambda slug: places[slug]))]


def _score(kinds: Mapping[str, int]) -> int:
    return sum(weight * min(kinds.get(kind, 0), most) for kind, (weight, most) in WEIGHTS.items())


def _counted(leaves: Iterable[Leaf], words: Mapping[str, Listed]) -> Counts:
    """Count every form of every word on every leaf; of two that begin alike the longer counts."""
    starts: dict[str, list[tuple[Form, str]]] = {}
    for key, one in words.items():
        for words_of in one.forms:
            starts.setdefault(words_of[0], []).append((words_of, key))
    for forms in starts.values():
        forms.sort(key=lambda pair: (-len(pair[0]), pair))
    counts: dict[str, dict[str, dict[str, int]]] = {}
    for leaf in leaves:
        if leaf.slug in LISTS_OF_OTHERS:
            continue
        for kind, text in _texts(leaf).items():
            for key in _met(tokens(text), starts):
                kinds = counts.setdefault(key, {}).setdefault(leaf.slug, {})
                kinds[kind] = kinds.get(kind, 0) + 1
    return counts


def _met(text: list[str], starts: Mapping[str, list[tuple[Form, str]]]) -> Iterator[str]:
    after = 0
    for at in [at for at, word in enumerate(text) if word in starts]:
        if at >= after:
            for words, key in starts[text[at]]:
                if tuple(text[at : at + len(words)]) == words:
                    yield key
                    after = at + len(words)
                    break


def _texts(leaf: Leaf) -> dict[str, str]:
    """Give the text of a leaf by kind of place, a mark between what does not read on."""
    found: dict[str, list[str]] = defaultdict(list)
    found["title"].append(leaf.title)
    _gather(leaf.tree, "prose", found)
    return {kind: "".join(pieces) for kind, pieces in found.items()}


def _gather(tree: Element, kind: str, found: dict[str, list[str]]) -> None:
    pieces = found[kind]
    pieces += ["|", tree.text or ""]
    for child in tree:
        name = child.tag
        if name in INLINE:
            pieces += child.itertext()
        elif name in CELLS and kind != "caution":
            found["cell"] += _cells(child)
        elif name == "math":
            pieces += ("|", FORMULAS[child.get("formula", "")].title, "|")
        elif name not in SKIPPED:
            inside = kind if kind == "caution" else KINDS.get(name, kind)
            found[inside] += ("|", child.get("title", ""))
            _gather(child, inside, found)
        if child.tail:
            pieces.append(child.tail)
    pieces.append("|")


def _cells(element: Element) -> Iterator[str]:
    """Give what stands in a table, on a drawing or beside the lines of a form."""
    tags, printed = CELLS[element.tag]
    for name in printed:
        yield from ("|", element.get(name, ""))
    for cell in element.iter():
        if cell.tag in tags:
            yield from ("|", *cell.itertext())
    yield "|"


def _commands(leaves: Iterable[Leaf]) -> dict[str, dict[str, dict[str, int]]]:
    """Count each command of the command line on each leaf that shows it."""
    counts: dict[str, dict[str, dict[str, int]]] = {}
    for leaf in leaves:
        for code in leaf.tree.iter("code"):
            for name in COMMAND.findall(code.text or ""):
                kinds = counts.setdefault(name, {}).setdefault(leaf.slug, {"prose": 0})
                kinds["prose"] += 1
    return counts
