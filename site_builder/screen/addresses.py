"""Where leaves, headings and sources stand on screen: in pages of their own, or in one file."""

from __future__ import annotations

import re
import urllib.parse
from collections.abc import Iterable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from formulas.frozen import Frozen
from site_builder.markup.elements import plain
from site_builder.parts import bench_parts

if TYPE_CHECKING:
    from site_builder.content import Handbook

FRONT = "index"
SCHEMES = ("http", "https", "mailto")
UNSEEN = re.compile(r"[\x00-\x20\x7f-\xa0\u200b-\u200f\u2028-\u202f\u2060-\u206f\ufeff]")


class Address(str):
    """An address or an id, in which marks of the open form may stand."""

    __slots__ = ()


class Form(Frozen):
    """How one form writes an id of a leaf, the address of a leaf, and headings of each level.

    `own` stands before an id, `{}` in it for the leaf; an address is `to`, the leaf, then `at`
    and the id, or `page`.
    """

    own: str
    to: str
    at: str
    page: str
    levels: str


PAGES = Form(own="", to="", at=".html#", page=".html", levels="123456")
WHOLE = Form(own="{}.", to="#", at=".", page="", levels="123456")
OPEN = Form(own="\x01", to="\x02", at="\x03", page="\x04", levels="\x0e\x0f\x10\x11\x12\x13")
"""What both forms share is written once, with marks that no text can hold for what differs."""


def placed(text: str, slug: str, form: Form, lower: int = 0) -> str:
    r"""Give what was written of a leaf in the open form in another; its headings may stand lower.

    >>> placed("<h\x0f id='\x01a'>, \x02room\x03b", "leaf", PAGES)
    "<h2 id='a'>, room.html#b"
    >>> placed("<h\x0f id='\x01a'>, \x02room\x03b", "leaf", WHOLE, 1)
    "<h3 id='leaf.a'>, #room.b"
    """
    marks = {OPEN.own: form.own.format(slug), OPEN.to: form.to, OPEN.at: form.at}
    marks |= {OPEN.page: form.page}
    last = len(form.levels) - 1
    marks |= {mark: form.levels[min(at + lower, last)] for at, mark in enumerate(OPEN.levels)}
    for mark, words in marks.items():
        text = text.replace(mark, words)
    return text


class Addresses(Frozen):
    """Turns the names that a tree links by into addresses of one of the forms.

    In one file every id carries its leaf's slug. `sources` and `key` are the leaves that hold
    the list of sources and the key to the marks; "" where none does.
    """

    slugs: frozenset[str]
    sources: str
    key: str
    form: Form = PAGES

    @property
    def whole(self) -> bool:
        """Whether all leaves stand in one file."""
        return self.form is WHOLE

    def id(self, slug: str, name: str) -> Address:
        """Give the id of something on a leaf."""
        return Address(f"{self.form.own.format(slug)}{name}")

    def level(self, level: int) -> str:
        """Give the level of a heading, 1 to 6."""
        return self.form.levels[level - 1]

    def leaf(self, slug: str, name: str = "") -> Address:
        """Give the address of a leaf, or of something on it."""
        form = self.form
        return Address(f"{form.to}{slug}{form.at}{name}" if name else f"{form.to}{slug}{form.page}")

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
        if slug == here and parts.fragment:
            return Address(f"#{self.id(slug, parts.fragment)}")
        return self.leaf(slug, parts.fragment)


def of(handbook: Handbook, form: Form = PAGES) -> Addresses:
    """Give the addresses of a handbook in one of the forms."""
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
        form=form,
    )


def _lists_a_source(element: Element) -> bool:
    return element.get("id", "").startswith("source-")


def _first(slugs: Iterable[str]) -> str:
    return next(iter(slugs), "")
