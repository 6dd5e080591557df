"""The terminal text of `who`: who may work alone, or how far one person stands."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from formulas.answer import Answer
from formulas.catalog import Catalog
from formulas.people.may import WORDS
from site_builder.texts.people_words import came_to, stands
from site_builder.texts.words import foot, shop_line, wrapped

NAME, ROLE, MAY = 14, 11, 20


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the people with what each may do alone, why not, and the steps of one person."""
    found = answer.answer
    lines = [f"Who may work alone on {found['on']}", shop_line(catalog)]
    if found["people"]:
        lines += ["", *_matrix(found["people"]), *_reasons(found["people"])]
    if "steps" in found:
        lines += _steps(found["steps"], catalog)
        lines += _next(found, catalog)
    return [*lines, *foot(answer)]


def _matrix(people: list[dict[str, Any]]) -> list[str]:
    asked = list(people[0]["may"])
    head = "".join(f"{WORDS[what]:<{MAY}}" for what in asked)
    lines = [f"  {'Person':<{NAME}}{'Role':<{ROLE}}{head}".rstrip()]
    for one in people:
        cells = "".join(f"{_cell(one['may'][what]):<{MAY}}" for what in asked)
        lines.append(f"  {one['person']:<{NAME}}{one['role']:<{ROLE}}{cells}".rstrip())
    return lines


def _cell(told: dict[str, Any]) -> str:
    if not told["may"]:
        return "no"
    return f"until {told['until']}" if told["until"] else "yes"


def _reasons(people: list[dict[str, Any]]) -> list[str]:
    said = [
        wrapped(f"  {one['person']}, {WORDS[what]}: {'; '.join(told['why_not'])}", "    ")
        for one in people
        for what, told in one["may"].items()
        if not told["may"]
    ]
    return ["", "Not alone, and why", *said] if said else []


def _steps(steps: list[dict[str, Any]], catalog: Catalog) -> list[str]:
    lines: list[str] = []
    for stage, run in groupby(steps, lambda one: str(one["stage"])):
        lines += ["", catalog.first_year_stages[stage].name]
        for one in run:
            lines.append(wrapped(f"  {one['step']}: {stands(one)}", "    "))
            lines += [
                wrapped(f"    {mark['date']} {mark['mark']}: {came_to(mark)}", "      ")
                for mark in one["marks"]
                if not mark["counts"]
            ]
    return lines


def _next(found: dict[str, Any], catalog: Catalog) -> list[str]:
    steps = [catalog.first_year_steps[name] for name in found["next"]]
    said = [wrapped(f"  {one.id}: {one.name}", "    ") for one in steps]
    return ["", "What comes next", *(said or ["  Nothing is open."])]
