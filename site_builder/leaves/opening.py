"""The Typst code of the leaves before the text: title, lists of leaves, the tab of a section."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from site_builder.paper.typst_text import literal
from site_builder.places import INVENTED

if TYPE_CHECKING:
    from site_builder.content import Handbook, Section

Named = tuple[str, str]
"""A leaf by its number or name, and its title."""
Listed = tuple[str, str, str, str]
"""The same with its revision and its date, each as Typst code."""


def title_page(handbook: Handbook) -> str:
    """Write the title page."""
    return f"title-page({_title_words(handbook)})"


def title_and_contents(handbook: Handbook, lists: str) -> str:
    """Write the one opening page of a small book."""
    return f"title-and-contents({_title_words(handbook)}, {lists})"


def contents(front: Sequence[Named], sections: Iterable[Section]) -> str:
    """Write the leaves by section; their sides and pages come from the layout."""
    lists = [f'contents-section(places, "", "At the front", "", {_rows(front)})']
    lists += [
        f"contents-section(places, {literal(section.letter)}, {literal(section.title)}, "
        f"{literal(section.summary)}, {_rows(_leaves(section))})"
        for section in sections
    ]
    return "{\n" + "\n".join(lists) + "\n}"


def tab(section: Section) -> str:
    """Write the page before a section."""
    return (
        f"tab-page({literal(section.letter)}, {literal(section.title)}, "
        f"{literal(section.summary)}, {_rows(_leaves(section))})"
    )


def effective(groups: Iterable[tuple[str, Sequence[Listed]]]) -> str:
    """Write the list of effective leaves: groups, each under the code of its heading.

    The sides come from the layout.
    """
    lists = [
        f"effective-section(places, {heading}, {', '.join(map(_listed, rows))})"
        for heading, rows in groups
    ]
    return "{\neffective-words\n" + "\n".join(lists) + "\n}"


def _listed(row: Listed) -> str:
    name, title, revision, date = row
    return f"({literal(name)}, {literal(title)}, {revision}, {date})"


def _leaves(section: Section) -> list[Named]:
    return [(leaf.number, leaf.title) for leaf in section.leaves]


def _rows(leaves: Iterable[Named]) -> str:
    return ", ".join(f"({literal(name)}, {literal(title)})" for name, title in leaves)


def _title_words(handbook: Handbook) -> str:
    shop, cover = handbook.catalog.shop, handbook.cover
    return (
        f"book: {literal(cover.book)}, under: {literal(cover.under)}, "
        f"shop: {literal(shop.name)}, notice: {literal(INVENTED if shop.invented else '')}, "
        f"deferral: {array(cover.deferral)}, about: {array(cover.about)}"
    )


def array(words: Iterable[str]) -> str:
    """Write texts as an array."""
    return "(" + "".join(f"{literal(text)}, " for text in words) + ")"
