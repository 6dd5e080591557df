"""Links checked: each leads to a leaf, to a place in one, or to an address of an open kind."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping

from formulas.fault import hint
from site_builder.markup.source_text import SourceText

OUTER = re.compile(r"https?://[^\s/?#<>]\S*|mailto:[^\s@<>]+@[^\s@<>]+", re.IGNORECASE)
INNER = re.compile(r"(?:(?P<slug>[\w-]+)\.md)?(?:#(?P<id>[^\s#]+))?")
ACCEPTED = "a leaf, a heading of one, or an http, https or mailto address"


def check(
    source: SourceText,
    links: Iterable[str],
    own: Collection[str],
    leaves: Mapping[str, Collection[str]],
) -> None:
    """Note every link of a text that leads nowhere, or where no link may lead.

    `own` holds the ids of the text itself, `leaves` those of every leaf by its slug.
    """
    for link in dict.fromkeys(links):
        if not OUTER.fullmatch(link) and not _leads(link, own, leaves):
            also = hint(link, _places(own, leaves))
            for line in source.lines_of(link):
                source.fault(line, "link", link, ACCEPTED, also)


def _leads(link: str, own: Collection[str], leaves: Mapping[str, Collection[str]]) -> bool:
    match = INNER.fullmatch(link)
    if not match or not link:
        return False
    slug, name = match["slug"], match["id"]
    ids = own if slug is None else leaves.get(slug)
    return ids is not None and (name is None or name in ids)


def _places(own: Collection[str], leaves: Mapping[str, Collection[str]]) -> list[str]:
    here = [f"#{name}" for name in sorted(own)]
    names = [f"{slug}.md#{name}" for slug, ids in leaves.items() for name in sorted(ids)]
    return [*(f"{slug}.md" for slug in leaves), *here, *names]
