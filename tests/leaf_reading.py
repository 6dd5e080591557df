"""Reading a leaf as a person does: from the top down."""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator
from xml.etree.ElementTree import Element

from formulas.catalog import Catalog, load
from site_builder import content
from site_builder.content import Handbook, Leaf
from site_builder.markup.elements import plain
from site_builder.places import CONTENT


@functools.cache
def trade() -> Catalog:
    """Give the trade's tables alone, read once a run."""
    return load(None)


@functools.cache
def handbook() -> Handbook:
    """Give the handbook of the trade's tables alone, read once a run."""
    return content.read(trade())


def leaf_of(number: str) -> Leaf:
    """Give the leaf of a number; that it is there is part of the test that asks for it."""
    (found,) = [leaf for leaf in handbook().leaves if leaf.number == number]
    return found


def leaves_of(*numbers: str) -> dict[str, Leaf]:
    """Give leaves of the handbook by their numbers."""
    return {number: leaf_of(number) for number in numbers}


def source(leaf: Leaf) -> str:
    """Give the text of a leaf's own file, below its head, without its commands."""
    text = (CONTENT.parent / leaf.file).read_text("utf-8").partition("\n\n")[2]
    return re.sub(r"```.*?```", "", text, flags=re.DOTALL)


READ = ("p", "li", "h2", "th")


def stands_before(leaf: Leaf, caution: str, words: str) -> bool:
    """Say whether a caution's box comes before the first place that holds these words."""
    order = list(leaf.tree.iter())
    box = next(place for place, one in enumerate(order) if one.get("id") == caution)
    steps = [
        place
        for place, one in enumerate(order)
        if one.tag in READ and words.lower() in plain(one).lower()
    ]
    assert steps, words
    return box < steps[0]


def placed(svg: Element) -> list[tuple[Element, float, float]]:
    """Give every text of a drawing with its place, groups that are moved counted in."""

    def walk(one: Element, across: float, up: float) -> Iterator[tuple[Element, float, float]]:
        move = re.match(r"translate\(([\d.-]+) ([\d.-]+)\)", one.get("transform", ""))
        if move:
            across, up = across + float(move[1]), up + float(move[2])
        if one.tag == "text":
            yield one, across + float(one.get("x", 0)), up + float(one.get("y", 0))
        for child in one:
            yield from walk(child, across, up)

    return list(walk(svg, 0.0, 0.0))
