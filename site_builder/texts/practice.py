"""The terminal text of `practice`: the questions, and the key apart from them, after all."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import groupby
from typing import TYPE_CHECKING, Any

from formulas.practice.checking import right_said
from formulas.practice.exercise import GRADES, Wanted
from formulas.units import printed, spoken_unit
from site_builder.markup.elements import number
from site_builder.texts.words import shop_line, wrapped

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

SAID = {"practice": "common practice", "memory": "from memory"}


def command_line(answer: Answer) -> str:
    """Give the command that makes the same sheet again."""
    asked = answer.inputs
    topics = [] if asked["every_topic"] else [f"--topic {name}" for name in asked["topics"]]
    grades = [] if asked["grades"] == list(GRADES) else [f"--grade {n}" for n in asked["grades"]]
    rest = [f"--count {asked['count']}", f"--seed {asked['seed']}"]
    return " ".join(["benchbinder practice", *topics, *rest, *grades])


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the questions; the key only where it is asked for, or a line on the file written."""
    found = answer.answer
    lines = [shop_line(catalog), *_again(answer), ""]
    if found.get("print"):
        lines += [found["print"]["said"]]
    else:
        lines += _part(answer, _question)
        if answer.inputs.get("key"):
            lines += ["", "KEY AND WORKING", "", *_part(answer, _key)]
    lines += ["", *(wrapped(f"  {note}", "  ") for note in answer.notes), "", "Basis"]
    return [*lines, *_basis(answer)]


def _again(answer: Answer) -> Iterator[str]:
    yield f"Seed {answer.answer['seed']}. The same again:"
    yield f"  {command_line(answer)}"


def _part(answer: Answer, say: Any) -> Iterator[str]:
    names = {one["topic"]: one["name"] for one in answer.answer["topics"]}
    for topic, run in groupby(answer.answer["exercises"], lambda one: one["topic"]):
        yield names[topic]
        for one in run:
            yield ""
            yield from say(one)
        yield ""


def _question(one: dict[str, Any]) -> Iterator[str]:
    yield wrapped(f"{one['number']:>3}. ({GRADES[one['grade']]}) {' '.join(one['told'])}", " " * 5)
    for wanted in one["wanted"]:
        if "of" in wanted:
            said = f"{wanted['what']}: {' / '.join(wanted['of'])}?"
        else:
            said = f"{wanted['what']}: ______ {spoken_unit(wanted['value'].unit)}".rstrip()
        yield wrapped(f"     {said}", " " * 7)
    if one["rounding"]:
        yield wrapped(f"     {one['rounding']}", " " * 5)


def _key(one: dict[str, Any]) -> Iterator[str]:
    for place, wanted in enumerate(one["wanted"]):
        head = f"{one['number']:>3}. " if place == 0 else " " * 5
        yield wrapped(f"{head}{wanted['what']}: {key_said(wanted)}", " " * 7)
    for line in one["working"]:
        yield wrapped(f"       {line}", " " * 9)


def key_said(wanted: dict[str, Any]) -> str:
    """Say the key of one answer, and how far off still counts."""
    if "of" in wanted:
        return str(wanted["right"])
    value, places, off = wanted["value"], wanted["places"], wanted["tolerance"]
    unit = spoken_unit(value.unit)
    key = Wanted(wanted["what"], value.value, value.unit, places, off, wanted["side"])
    right = right_said(key, f"{number(off)} {unit}".rstrip())
    return f"{f'{printed(value.value, places)} {unit}'.rstrip()} (right {right})"


def _basis(answer: Answer) -> Iterator[str]:
    """Count the ranges that were drawn from by what they rest on; JSON names each."""
    for kind, count in Counter(one.basis for one in answer.basis).items():
        rows = "1 range" if count == 1 else f"{count} ranges"
        yield f"  {rows} that numbers were drawn from: {SAID.get(kind, kind)}"
    yield "  The keys: the formulas of the commands that answer the same."
