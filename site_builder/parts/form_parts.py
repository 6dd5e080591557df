"""Record forms: tables with blank rows to write in."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from site_builder.markup.elements import element

if TYPE_CHECKING:
    from formulas.catalog import Catalog

FORM = "heads with ; between them, a bar | and how many rows to write in, such as Plate; Tap | 6"
BETWEEN = "; "
MOST_HEADS = 9  # on an upright page a tenth column is too narrow to write in
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
    return [element("formtable", heads=BETWEEN.join(heads), rows=count.strip())]
