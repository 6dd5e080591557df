"""An exercise on paper: its task, room for the pencil, and a line for each answer."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.practice.exercise import ONE_STEP, SOME_STEPS, WHOLE_JOB
from site_builder.paper.typst_text import joined, literal

if TYPE_CHECKING:
    from site_builder.paper.typst_text import RunningText

ROOM_MM = {ONE_STEP: 18, SOME_STEPS: 34, WHOLE_JOB: 52}
"""Of the room to work in."""


def written(writer: RunningText, exercise: Element) -> str:
    """Write an exercise, whole on one page; a box to write in has its unit behind it."""
    tasks = [f"par({joined(writer.runs(one), trim=True)})" for one in exercise.iterfind("p")]
    lines = [_line(one) for one in exercise.iterfind("wanted")]
    room = ROOM_MM[int(exercise.get("grade", "1"))]
    body = "{\n" + "\n".join(tasks) + "\n}"
    return (
        f"exercise(title: {literal(exercise.get('title', ''))}, room: {room}mm, "
        f"rounding: {literal(exercise.get('rounding', ''))}, {body}, {', '.join(lines)})"
    )


def _line(wanted: Element) -> str:
    what = literal(wanted.get("what", ""))
    words = [literal(word.text or "") for word in wanted.iterfind("word")]
    return (
        f"({what}, {literal(wanted.get('unit', ''))}, ({''.join(f'{word}, ' for word in words)}))"
    )
