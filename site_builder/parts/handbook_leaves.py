"""The leaves of the handbook by their names, read from the heads of their files only.

For a book beside the handbook, which names its leaves without reading them.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from site_builder.markup.elements import element
from site_builder.places import CONTENT

if TYPE_CHECKING:
    from formulas.catalog import Catalog

FOLDER = re.compile(r"\d\d-[a-z0-9-]+")
SLUG = re.compile(r"(?:\d\d-)?([a-z0-9]+(?:-[a-z0-9]+)*)")
MEMO = "leaves of the handbook"


def leaves(catalog: Catalog) -> dict[str, tuple[str, str]]:
    """Give number and title of each leaf of the trade and of the shop, by its slug."""
    if MEMO not in catalog.memo:
        folders = [one for one in sorted(CONTENT.iterdir()) if FOLDER.fullmatch(one.name)]
        if catalog.shop.folder:
            folders.append(catalog.shop.folder / "pages")
        catalog.memo[MEMO] = dict(
            _read(path) for one in folders for path in sorted(one.glob("*.md"))
        )
    found: dict[str, tuple[str, str]] = catalog.memo[MEMO]
    return found


def _read(path: Path) -> tuple[str, tuple[str, str]]:
    head: dict[str, str] = {}
    with path.open(encoding="utf-8-sig") as file:
        for line in file:
            key, colon, words = line.partition(":")
            if not colon:
                break
            head[key.strip().lower()] = words.strip()
    match = SLUG.fullmatch(path.stem)
    return match[1] if match else path.stem, (head.get("leaf", ""), head.get("title", ""))


def leaf_number(catalog: Catalog, slug: str) -> str:
    """Give the number of a leaf, "" where no leaf of that name is there."""
    return leaves(catalog).get(slug, ("", ""))[0]


def leaf_said(catalog: Catalog, slug: str) -> Element:
    """Name a leaf of the handbook by number and title. Raises UnknownName."""
    known = leaves(catalog)
    if not known.get(slug, ("", ""))[0]:
        raise UnknownName("leaf:name of a leaf", f"leaf:{slug}", [f"leaf:{one}" for one in known])
    number, title = known[slug]
    return element("em", f"{number} {title}")
