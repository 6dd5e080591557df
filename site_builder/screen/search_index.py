"""The search index of the handbook: which word stands how often in which leaf.

The page's script cuts a question into words by the same rule; `tests/pages` compares the two.
"""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.formula import FORMULAS

if TYPE_CHECKING:
    from site_builder.content import Handbook, Leaf

WORD = re.compile(r"[^\W_]+")
TITLE, HEADING, SUMMARY = 6, 3, 2  # how often a word there counts
SPOKEN_ATTRIBUTES = ("title", "alt", "label")


def words(text: str) -> Iterator[str]:
    """Cut text into words without case, accents and a plural's s.

    >>> list(words("Dammar, softens at 80 °C; waxes and wax-glass"))
    ['dammar', 'soften', 'at', '80', 'c', 'waxe', 'and', 'wax', 'glass']
    """
    return map(_singular, WORD.findall(_bare(text)))


def _bare(text: str) -> str:
    bare = unicodedata.normalize("NFKD", text.lower())
    for char in {char for char in set(bare) if unicodedata.combining(char)}:
        bare = bare.replace(char, "")
    return bare


def _singular(word: str) -> str:
    plural = len(word) > 3 and word.endswith("s") and not word.endswith("ss")
    return word[:-1] if plural else word


def text_of(tree: Element) -> Iterator[str]:
    """Give every text of a tree, with what its parts say in their attributes."""
    for element in tree.iter():
        if element.attrib:
            yield from (element.get(name, "") for name in SPOKEN_ATTRIBUTES)
        if element.tag == "math":
            yield FORMULAS[element.get("formula", "")].title
        if element.text:
            yield element.text
        if element.tail:
            yield element.tail


def counted(leaf: Leaf) -> Counter[str]:
    """Count the words of a leaf, those of its title and headings for more."""
    found: Counter[str] = Counter()
    for word, count in Counter(WORD.findall(_bare(" ".join(text_of(leaf.tree))))).items():
        found[_singular(word)] += count
    headings = ["".join(h.itertext()) for h in leaf.tree.iter() if h.tag in {"h2", "h3", "h4"}]
    for weight, text in (
        (TITLE, f"{leaf.number} {leaf.title}"),
        (HEADING, " ".join(headings)),
        (SUMMARY, leaf.summary),
    ):
        for word in words(text):
            found[word] += weight
    return found


def index(handbook: Handbook) -> dict[str, Any]:
    """Give the index: the leaves, their lengths, and each word with leaf and count in turn."""
    counts = [counted(leaf) for leaf in handbook.leaves]
    found: dict[str, list[int]] = {word: [] for word in sorted(set().union(*counts))}
    for place, count in enumerate(counts):
        for word, often in count.items():
            found[word] += (place, often)
    return {
        "leaves": [[leaf.number, leaf.slug, leaf.title, leaf.summary] for leaf in handbook.leaves],
        "lengths": [count.total() for count in counts],
        "words": found,
    }
