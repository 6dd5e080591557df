"""Record forms: tables with blank rows to write in."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from site_builder.markup.elements import element

if TYPE_CHECKING:
    from formulas.catalog import Catalog

FORM = "heads with ; between them, a bar | and how many rows to write in, such as Plate; Tap | 6"
BETWEEN = "; "
CHOICE = "a label, a colon, and words to ring with ; between them, such as Wax: sound; cracked"
MOST_HEADS = 9  # on an upright page a tenth column is too narrow to write in
IN_WORDS = ("What ", "How it ", "Cause", "Cure", "Remarks")
"""How heads begin that are answered in words: their column is wider."""
MOST_ROWS = 24  # a page holds no more rows of this height


def form_table(_: Catalog, argument: str) -> list[Element]:
    """Rule a table to write in: `Plate; Tap; Thumb | 6`.

    Raises UnknownName for an argument of another form, for a head that stands twice, and for
    more columns or rows than a page has room for.
    """
    words, bar, count = argument.rpartition("|")
    heads = [head.strip() for head in words.split(";")]
    fits = len(heads) <= MOST_HEADS and len(set(heads)) == len(heads) and all(heads)
    if not (bar and fits and re.fullmatch(r"[1-9]\d?", count.strip())) or int(count) > MOST_ROWS:
        raise UnknownName(FORM, argument, [])
    told = BETWEEN.join(head for head in heads if head.startswith(IN_WORDS))
    return [element("formtable", heads=BETWEEN.join(heads), rows=count.strip(), told=told)]


def form_choice(_: Catalog, argument: str) -> list[Element]:
    """Set words to ring beside their label: `Wax: sound; hard; cracked`.

    Raises UnknownName where there is no label, no choice, or a word that stands twice.
    """
    label, colon, rest = argument.partition(":")
    words = [word.strip() for word in rest.split(";")]
    if not (colon and label.strip() and len(words) > 1 and all(words)):
        raise UnknownName(CHOICE, argument, [])
    if len(set(words)) != len(words):
        raise UnknownName(CHOICE, argument, [])
    return [choice(label.strip(), words)]


def new_page(_: Catalog, __: str) -> list[Element]:
    """Begin a page of paper; a screen shows nothing of it."""
    return [element("ownpage")]


def choice(label: str, words: Sequence[str]) -> Element:
    """Make a label with words to ring."""
    return element("formchoice", label=label, options=BETWEEN.join(words))
