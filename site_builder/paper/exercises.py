"""An exercise on paper: its task, room for the pencil, and a line for each answer."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.practice.exercise import ONE_STEP, SOME_STEPS, WHOLE_JOB
from site_builder.paper.typst_text import Code, joined, literal

if TYPE_CHECKING:
    from site_builder.paper.typst_text import RunningText

ROOM_MM = {ONE_STEP: 18, SOME_STEPS: 34, WHOLE_JOB: 52}
"""Of the room to work in."""

SYMBOL = r"(?:[0-9.]+|[A-Za-z+×])[²³⁴]?"
BRACKET = re.compile(rf"(?: /)? \({SYMBOL}(?: {SYMBOL})*\)|\({SYMBOL}(?: {SYMBOL})*\)")
"""What a formula in a sentence divides by, or has in brackets: no line ends inside it."""


def unbroken(text: str) -> str:
    r"""Keep the brackets of a formula in one line, with the stroke before them.

    >>> unbroken("The lift is p L⁴ / (8 D), in mm (of a plate)")
    'The lift is p L⁴\xa0/\xa0(8\xa0D), in mm (of a plate)'
    """
    return BRACKET.sub(lambda found: found[0].replace(" ", "\N{NO-BREAK SPACE}"), text)


def written(writer: RunningText, exercise: Element) -> str:
    """Write an exercise, whole on one page; a box to write in has its unit behind it."""
    tasks = [_task(writer, one) for one in exercise.iterfind("p")]
    lines = [_line(one) for one in exercise.iterfind("wanted")]
    room = ROOM_MM[int(exercise.get("grade", "1"))]
    body = "{\n" + "\n".join(tasks) + "\n}"
    return (
        f"exercise(title: {literal(exercise.get('title', ''))}, room: {room}mm, "
        f"rounding: {literal(exercise.get('rounding', ''))}, {body}, {', '.join(lines)})"
    )


def _task(writer: RunningText, words: Element) -> str:
    runs = [run if isinstance(run, Code) else unbroken(run) for run in writer.runs(words)]
    return f"par({joined(runs, trim=True)})"


def _line(wanted: Element) -> str:
    what = literal(wanted.get("what", ""))
    words = [literal(word.text or "") for word in wanted.iterfind("word")]
    return (
        f"({what}, {literal(wanted.get('unit', ''))}, ({''.join(f'{word}, ' for word in words)}))"
    )
