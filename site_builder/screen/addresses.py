"""Where leaves, headings and sources stand on screen: in pages of their own, or in one file."""

from __future__ import annotations

import re
import urllib.parse
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from site_builder.markup.elements import plain
from site_builder.parts import bench_parts

if TYPE_CHECKING:
    from site_builder.content import Handbook

FRONT = "index"
SCHEMES = ("http", "https", "mailto")
UNSEEN = re.compile(r"[\x00-\x20\x7f-\xa0\u200b-\u200f\u2028-\u202f\u2060-\u206f\ufeff]")


@dataclass(frozen=True)
class Addresses:
    """Turns the names that a tree links by into addresses of one of the two forms.

    `whole` is the form in one file, where every id carries its leaf's slug. `sources` and `key`
    are the leaves that hold the list of sources and the key to the marks; "" where none does.
    """

    slugs: frozenset[str]
    sources: str
    key: str
    whole: bool = False

    def id(self, slug: str, name: str) -> str:
        """Give the id of something on a leaf."""
        return f"{slug}.{name}" if self.whole else name

    def leaf(self, slug: str, name: str = "") -> str:
        """Give the address of a leaf, or of something on it."""
        if self.whole:
            return f"#{self.id(slug, name) if name else slug}"
        return f"{slug}.html{f'#{name}' if name else ''}"

    def source(self, name: str) -> str:
        """Give the address of a source's row, or "" where no leaf lists the sources."""
        return self.leaf(self.sources, f"source-{name}") if self.sources and name else ""

    def link(self, href: str, here: str) -> str:
        """Give the address of a link on the leaf `here`.

        Raises UnknownName for a leaf that is not there and for a scheme that is not allowed.
        """
        parts = urllib.parse.urlsplit(UNSEEN.sub("", href))
        if parts.scheme in SCHEMES:
            return parts.geturl()
        if parts.scheme or parts.netloc:
            accepted = ["an inner link", *(f"{scheme}:" for scheme in SCHEMES)]
            raise UnknownName("the address of a link", href, accepted)
        slug = parts.path.removesuffix(".md").removesuffix(".html")
        slug = FRONT if slug == "front" else slug or here
        if slug not in self.slugs:
            raise UnknownName("the leaf of a link", slug, self.slugs)
        if slug == here and parts.fragment and not self.whole:
            return f"#{parts.fragment}"
        return self.leaf(slug, parts.fragment)


def of(handbook: Handbook, *, whole: bool) -> Addresses:
    """Give the addresses of a handbook in one of the two forms."""
    trees = [(leaf.slug, leaf.tree) for leaf in handbook.leaves] + [(FRONT, handbook.front)]
    key = plain(bench_parts.basis_key(handbook.catalog, "")[0])
    return Addresses(
        slugs=frozenset(slug for slug, _ in trees),
        sources=_first(
            slug for slug, tree in trees if any(_lists_a_source(one) for one in tree.iter())
        ),
        key=_first(
            slug for slug, tree in trees if any(plain(one) == key for one in tree.iter("table"))
        ),
        whole=whole,
    )


def _lists_a_source(element: Element) -> bool:
    return element.get("id", "").startswith("source-")


def _first(slugs: Iterable[str]) -> str:
    return next(iter(slugs), "")
