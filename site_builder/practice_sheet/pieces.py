"""What both forms of a practice sheet show: titles, exercises by topic, cautions."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.practice.exercise import GRADES
from site_builder.markup.elements import element, paragraph
from site_builder.parts.practice_parts import drawn, key, made

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog
    from formulas.practice.exercise import Exercise

MARK = "benchbinder practice sheet"
"""Stands in every sheet; a file without it is not written over."""

BEFORE = "Before any of this is done at the bench, read in the safety section of the handbook:"


def title(answer: Answer) -> str:
    """Name the sheet by its topic, where it has one only."""
    topics = answer.answer["topics"]
    return f"Practice: {topics[0]['name']}" if len(topics) == 1 else "Practice"


def by_topic(answer: Answer, catalog: Catalog) -> Iterator[tuple[dict[str, Any], list[Exercise]]]:
    """Give each topic with its exercises."""
    topics = {one["topic"]: one for one in answer.answer["topics"]}
    for name, run in groupby(answer.answer["exercises"], lambda one: one["topic"]):
        seed = answer.answer["seed"]
        yield topics[name], [made(catalog, name, one["grade"], seed, one["number"]) for one in run]


def numbered(one: Exercise) -> str:
    """Say which exercise of its topic it is, and how many steps it takes."""
    return f"{one.number}. {GRADES[one.grade].capitalize()}"


def questions(catalog: Catalog, held: list[Exercise]) -> list[Element]:
    """Draw the exercises of a topic."""
    return [drawn(catalog, one, numbered(one)) for one in held]


def keys(held: list[Exercise]) -> list[Element]:
    """Draw the keys of a topic."""
    return [key(one, numbered(one)) for one in held]


def about(answer: Answer) -> list[Element]:
    """Say how to use the sheet."""
    return [paragraph(note) for note in answer.notes]


def cautions(answer: Answer) -> list[Element]:
    """Name what is read before the bench."""
    titles = (element("li", one.title) for one in answer.cautions)
    return [paragraph(BEFORE), element("ul", *titles)]
