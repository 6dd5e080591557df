"""Exercises on a leaf, and their key with the working for another leaf."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from formulas.practice import sheet
from formulas.practice.checking import right_said
from formulas.practice.exercise import GRADES, Exercise, Wanted
from formulas.practice.practice import in_order
from formulas.units import printed, spoken_unit
from site_builder.markup.elements import Cell, element, number, paragraph, table
from site_builder.markup.unbroken import held

if TYPE_CHECKING:
    from formulas.catalog import Catalog

PLACED = "a topic of practice_topics.csv with its seed behind it, such as alligation 1"
KEY_HEADS = ["Asked", "Key", "Counts as right"]


def made(catalog: Catalog, topic: str, grade: int, seed: int, place: int = 1) -> Exercise:
    """Make an exercise, once for all faces of one build."""
    name = ("exercise", topic, grade, seed, place)
    if name not in catalog.memo:
        catalog.memo[name] = sheet.one(catalog, topic, grade, seed, place)
    found: Exercise = catalog.memo[name]
    return found


def named(one: Exercise) -> str:
    """Name an exercise by what gives it again."""
    return f"{one.topic} {one.grade} {one.seed} {one.number}"


def by_name(catalog: Catalog, name: str) -> Exercise:
    """Make the exercise of a name."""
    topic, *numbers = name.split()
    grade, seed, place = map(int, numbers)
    return made(catalog, topic, grade, seed, place)


def asked_for(one: Exercise) -> str:
    """Give the command that makes the same exercise, as one of its own or out of its sheet."""
    if one.number == 1:
        return (
            f"benchbinder practice --topic {one.topic} --grade {one.grade}"
            f" --count 1 --seed {one.seed}"
        )
    return f"benchbinder practice --topic {one.topic} --seed {one.seed}, exercise {one.number}"


def exercises(catalog: Catalog, argument: str) -> list[Element]:
    """Place an exercise of each grade of a topic: `alligation 1`, the 1 being its seed."""
    return [drawn(catalog, one, GRADES[one.grade].capitalize()) for one in _each(catalog, argument)]


def keys(catalog: Catalog, argument: str) -> list[Element]:
    """Place the key and the working of the same exercises."""
    return [key(one, GRADES[one.grade].capitalize()) for one in _each(catalog, argument)]


def _each(catalog: Catalog, argument: str) -> Iterator[Exercise]:
    found = re.fullmatch(r"([a-z0-9-]+) (\d{1,6})", argument.strip())
    if not found or found[1] not in catalog.practice_topics:
        raise UnknownName(PLACED, argument, [f"{name} 1" for name in in_order(catalog)])
    for grade in GRADES:
        yield made(catalog, found[1], grade, int(found[2]))


def drawn(catalog: Catalog, one: Exercise, title: str) -> Element:
    """Make the element of an exercise: the task, what is asked, nothing of the key."""
    task = one.made
    asked = [
        element("wanted", what=each.what, unit=spoken_unit(each.unit))
        if isinstance(each, Wanted)
        else element("wanted", *(element("word", word) for word in each.of), what=each.what)
        for each in task.wanted
    ]
    return element(
        "exercise",
        paragraph(held(" ".join(task.told))),
        *asked,
        name=named(one),
        grade=str(one.grade),
        title=title,
        about=f"{catalog.practice_topics[one.topic].name}: {title[0].lower()}{title[1:]}",
        rounding=task.rounding,
    )


def key(one: Exercise, title: str) -> Element:
    """Make the key of an exercise with the way to it, kept on one page."""
    rows: list[list[Cell]] = [
        [each.what, shown(each), near(each)]
        if isinstance(each, Wanted)
        else [each.what, each.right, ""]
        for each in one.made.wanted
    ]
    way = element("ol", *(element("li", held(line)) for line in one.made.working))
    return element(
        "ownpage",
        paragraph(element("strong", title)),
        table(KEY_HEADS, rows),
        way,
        kept="yes",
    )


def shown(one: Wanted) -> str:
    """Give the key of a number as it is printed."""
    return f"{printed(one.value, one.places)} {spoken_unit(one.unit)}".rstrip()


def near(one: Wanted) -> str:
    """Say how far off an answer still counts as right."""
    return right_said(one, f"{number(one.tolerance)} {spoken_unit(one.unit)}".rstrip())
