"""A shelf of parts: what the leaves of a book may place, by name, and the values in its text."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from formulas.frozen import Frozen

if TYPE_CHECKING:
    from formulas.catalog import Catalog

    Drawing = Callable[[Catalog, str], list[Element]]
    Inline = Callable[[Catalog, str], Element]

# The parts that hold text of the leaf: a list that becomes boxes to tick, words to be read at
# arm's length, and what has a page of paper to itself, to be pinned up.
TICKS = "tick-list"
LARGE = "large-words"
ONE_PAGE = "one-page"
HOLDING = (TICKS, LARGE, ONE_PAGE)
NOTHING = "no argument"


class Part(Frozen):
    """What can be placed by name: how it is drawn, and whether an argument names what.

    One that `holds` is drawn as a frame round the words that stand inside it on the leaf.
    """

    draw: Drawing
    argument: bool
    holds: bool = False


class Shelf(Frozen):
    """Parts by name, and what gives a value in running text by its name."""

    parts: Mapping[str, Part]
    inline: Inline

    def place(self, catalog: Catalog, name: str, argument: str) -> list[Element]:
        """Draw one part. Raises UnknownName for a part or an argument that is not there."""
        if name not in self.parts:
            raise UnknownName("the name of a part", name, self.parts)
        part = self.parts[name]
        if argument and not part.argument:
            raise UnknownName(NOTHING, argument, [])
        return part.draw(catalog, argument)
