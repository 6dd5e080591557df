"""What the index lists: words of the trade, their twins, materials, blends, tests, glues."""

from __future__ import annotations

import functools
import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from formulas.term_checks import twins
from site_builder.parts.word_parts import by_word, sorted_by

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.first_year_entries import Term

Form = tuple[str, ...]

TOKEN = re.compile(r"[^\W_]+|[,.;:!?()|]")
BRACKETS = re.compile(r" \([^)]*\)")
ES = ("ches", "shes", "sses", "xes")
BLENDS, METHODS = "blends", "methods"  # the leaves that have all of a kind


@dataclass
class Listed:
    """A word of the index: the forms it has in a text, the leaf that tells most of it.

    `see` are the words it stands for, by their keys: a twin has no leaves of its own.
    """

    word: str
    forms: set[Form] = field(default_factory=set)
    leaf: str = ""
    see: list[str] = field(default_factory=list)

    @property
    def key(self) -> str:
        """What two lists of one word have in common."""
        return sorted_by(self.word)


@functools.cache
def singular(word: str) -> str:
    """Take a simple plural off a word.

    >>> [singular(word) for word in ("valves", "bodies", "boxes", "glass", "gas", "batches")]
    ['valve', 'body', 'box', 'glass', 'gas', 'batch']
    """
    if word.endswith("ies") and len(word) > 4:
        return f"{word[:-3]}y"
    if word.endswith(ES):
        return word[:-2]
    plural = len(word) > 3 and word.endswith("s") and not word.endswith("ss")
    return word[:-1] if plural else word


def tokens(text: str) -> list[str]:
    """Cut a text into words without case and plural; what ends a phrase is a word as well.

    >>> tokens("Touch-up wax, 5 to 2. Valves")
    ['touch', 'up', 'wax', ',', '5', 'to', '2', '.', 'valve']
    """
    return list(map(singular, TOKEN.findall(text.lower())))


def form(text: str) -> Form:
    """Give a phrase as a text holds it."""
    return tuple(tokens(text))


def listed(catalog: Catalog) -> dict[str, Listed]:
    """Give every word that the index lists, by its key; of one key the first counts."""
    found: dict[str, Listed] = {}
    terms = [term for term in catalog.terms.values() if term.listed]
    others = by_word(terms)
    for term in terms:
        _add(found, Listed(term.term, {form(term.term)}, term.leaf))
    for name in (method.name for method in catalog.methods.values()):
        _add_method(found, name, {sorted_by(twin): meant for twin, meant in others.items()})
    for blend in catalog.blends.values():
        _add(found, Listed(blend.name, {form(blend.name), form(blend.id)}, BLENDS))
    heads = _heads(catalog)
    for leaf, names in _tables(catalog).items():
        for name in names:
            _add(found, Listed(heads[name], _forms(name, heads[name]), leaf))
    for material in catalog.materials.values():
        found[sorted_by(heads[material.name])].forms.add(form(material.id))
    for twin, meant in others.items():
        _see(found, twin, [term.term for term in meant])
    also = [(one.name, one.also_called) for one in catalog.materials.values()]
    also += [(one.name, one.also_called) for one in catalog.solvents.values()]
    for name, others_of in also:
        for twin in twins(others_of):
            _see(found, twin, [heads[name]])
    return found


def _add(found: dict[str, Listed], one: Listed) -> None:
    first = found.setdefault(one.key, one)
    first.forms |= one.forms


def _add_method(found: dict[str, Listed], name: str, others: Mapping[str, Sequence[Term]]) -> None:
    """Add a test method; one that is a word of the trade, or a kind of it, is that word."""
    head = sorted_by(name.partition(", ")[0])
    keys = [sorted_by(term.term) for term in others.get(head, ())] or [head]
    if keys[0] in found:
        found[keys[0]].forms |= _forms(name, name)
    else:
        _add(found, Listed(name, _forms(name, name), METHODS))


def _see(found: dict[str, Listed], twin: str, words: Iterable[str]) -> None:
    first = found.setdefault(sorted_by(twin), Listed(twin))
    keys = [sorted_by(word) for word in words]
    first.see += [key for key in keys if key != first.key and key not in first.see]


def _forms(name: str, head: str) -> set[Form]:
    """Give the forms of a name: without brackets, turned round at its comma, and its head."""
    bare = BRACKETS.sub("", name)
    first, comma, rest = bare.partition(", ")
    turned = {form(f"{rest} {first}")} if comma else set()
    return {form(bare), form(head), *turned}


def _tables(catalog: Catalog) -> dict[str, list[str]]:
    """Give the names of what is listed, by the leaf that has all of its kind."""
    return {
        "materials": [one.name for one in catalog.materials.values()],
        "solvents": [one.name for one in catalog.solvents.values()],
        "glue": [one.name for one in catalog.glues.values()],
        "valve-stock": [one.name for one in catalog.valve_materials.values()],
        "gaskets": [one.name for one in catalog.gasket_materials.values()],
    }


def _heads(catalog: Catalog) -> dict[str, str]:
    """Give each name without what stands behind its comma, where no other begins alike.

    "Hide glue, hot" is listed as hide glue; two kinds of beeswax keep what tells them apart.
    """
    heads: dict[str, str] = {}
    for names in _tables(catalog).values():
        first = {name: re.split(r", | \(", name)[0] for name in names}
        count = Counter(first.values())
        heads |= {name: head if count[head] == 1 else name for name, head in first.items()}
    return heads
