"""What the leaves of a logbook may place: where its owner stands, and the marks of each step."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.people.may import WHAT, WORDS, may
from formulas.people.standing import ALONE, DONE, DUE, EXPLAINED, HELPED, SHOWN, Mark, Standing
from formulas.people.who import next_steps, standings
from site_builder.markup.elements import Cell, day, element, paragraph, table
from site_builder.parts import bench_parts, form_parts
from site_builder.parts.people_parts import how_far, signing, to_write_in
from site_builder.parts.shelf import Part, Shelf
from site_builder.texts.people_words import came_to, tolerance

if TYPE_CHECKING:
    from formulas.catalog import Catalog

OWNER = "owner of the logbook"
"""Under this name a catalog remembers whose logbook is made, and of which day."""

OWN_HEADS = ["Alone with", "On that day", "Through", "Why not"]
NEXT_HEADS = ["Step", "What is done", "What passes"]
STAGE_HEADS = ["Stage", "Steps", "Done", "Begun", "Due again"]
STEP_HEADS = ["What", "Date", "Measured, and what was said of it", "Seen by"]
OPEN_HEADS = ["Still open", "Date", "Measured", "Seen by"]
EXPLAINED_HEADS = ["Date", "Step", "Heard by"]
ROW_TO_SIGN_MM = "9"
NOTHING_NEXT = "Nothing is open: show a step to somebody."
NOT_YET = "Nothing is written of it yet."
WHAT_IT_WAS = {SHOWN: "Shown", HELPED: "With help", ALONE: "Alone", EXPLAINED: "Explained"}


def _owner(catalog: Catalog) -> tuple[str, str]:
    found: tuple[str, str] = catalog.memo[OWNER]
    return found


def own_standing(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what the owner may do alone on the day of the print."""
    name, on = _owner(catalog)
    person = catalog.people[name]
    rows: list[list[Cell]] = []
    for what in WHAT:
        found = may(catalog, name, what, on)
        rows.append(
            [
                WORDS[what],
                "yes" if found.may else "no",
                day(found.until) or "no day is set" if found.may else "",
                "; ".join(_named(catalog, why) for why in found.why_not),
            ]
        )
    said = f"{name}, {person.role}, here since {day(person.began)}. By the books on {day(on)}."
    return [paragraph(said), table(OWN_HEADS, rows)]


def _named(catalog: Catalog, why: str) -> str:
    """Put the names of steps for their ids."""
    return " ".join(_step_name(catalog, word) for word in why.split(" "))


def _step_name(catalog: Catalog, word: str) -> str:
    step = catalog.first_year_steps.get(word.rstrip(","))
    comma = "," if word.endswith(",") else ""
    opened, closed = "\N{LEFT SINGLE QUOTATION MARK}", "\N{RIGHT SINGLE QUOTATION MARK}"
    return f"{opened}{step.name}{closed}{comma}" if step else word


def own_next(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the steps that come next."""
    name, on = _owner(catalog)
    found = next_steps(catalog, standings(catalog, name, on), on)
    if not found:
        return [paragraph(NOTHING_NEXT)]
    return [table(NEXT_HEADS, [[one.step.name, _to_do(one), tolerance(one.step)] for one in found])]


def _to_do(one: Standing) -> str:
    if one.state == DUE:
        return f"once more alone: {'; '.join(one.due)}"
    step = one.step
    after = {SHOWN: step.helped, HELPED: step.alone, ALONE: step.alone}
    if one.state == ALONE and one.passed >= step.times:
        return step.explain
    return after.get(one.state, step.shown)


def own_stages(catalog: Catalog, _: str) -> list[Element]:
    """Count the steps of each stage."""
    name, on = _owner(catalog)
    rows: list[list[Cell]] = []
    for stage, run in groupby(standings(catalog, name, on), lambda one: one.step.stage):
        states = [one.state for one in run]
        begun = sum(state in {SHOWN, HELPED, ALONE} for state in states)
        counts = (len(states), states.count(DONE), begun, states.count(DUE))
        rows.append([catalog.first_year_stages[stage].name, *(str(one) for one in counts)])
    return [table(STAGE_HEADS, rows, right=[1, 2, 3, 4])]


def own_steps(catalog: Catalog, _: str) -> list[Element]:
    """Set every step with its marks, and a line for each that is still open."""
    name, on = _owner(catalog)
    made: list[Element] = []
    for stage, run in groupby(standings(catalog, name, on), lambda one: one.step.stage):
        steps, title = list(run), catalog.first_year_stages[stage].name
        made.append(element("h2", title, id=stage))
        for one in steps:
            made += [element("ownpage", *_step(one), kept="yes")] if one.marks else []
        rest = [
            (". ".join(filter(None, (one.step.name, tolerance(one.step)))), one.step.times)
            for one in steps
            if not one.marks
        ]
        if rest:
            begun = [element("h3", f"Not begun: {title}")] if len(rest) < len(steps) else []
            made.append(
                element("ownpage", *begun, signing(rest, title, ROW_TO_SIGN_MM), kept="yes")
            )
    return made


def _step(one: Standing) -> list[Element]:
    """Set a step that was begun: its marks, and a row to write on for each that is open."""
    asked = tolerance(one.step)
    said = f"{asked}. " if asked else ""
    head = element("h3", one.step.name, id=one.step.id)
    told = paragraph(said, element("em", f"Stands: {how_far(one)}."))
    made = [head, told, table(STEP_HEADS, [_mark(mark) for mark in one.marks])]
    missing = [[what] for what in still_open(one)]
    return [*made, to_write_in(OPEN_HEADS, missing, one.step.name)] if missing else made


def still_open(one: Standing) -> list[str]:
    """Name the marks that a step still asks for."""
    if one.state == DONE:
        return []
    if one.state == DUE:
        return ["Once more alone"]
    counted = [mark.signoff.mark for mark in one.marks if not mark.why_not]
    wanted = [SHOWN] * (SHOWN not in counted) + [HELPED] * (HELPED not in counted)
    wanted += [ALONE] * (one.step.times - one.passed) + [EXPLAINED]
    return [WHAT_IT_WAS[mark] for mark in wanted]


def _mark(mark: Mark) -> list[Cell]:
    one = mark.signoff
    told = {
        **{name: getattr(one, name) for name in ("value", "unit", "low", "high")},
        "why_not": mark.why_not,
    }
    seen = f"on {one.seen_on}" if one.seen_on else ""
    said = "; ".join(filter(None, (came_to(told), seen)))
    return [WHAT_IT_WAS[one.mark], day(one.date), said, one.assessor]


def own_explained(catalog: Catalog, _: str) -> list[Element]:
    """List what the owner explained, and who heard it."""
    name, on = _owner(catalog)
    rows: list[list[Cell]] = [
        [day(mark.signoff.date), one.step.name, mark.signoff.assessor]
        for one in standings(catalog, name, on)
        for mark in one.marks
        if mark.signoff.mark == EXPLAINED and not mark.why_not
    ]
    return [table(EXPLAINED_HEADS, rows)] if rows else [paragraph(NOT_YET)]


PARTS = {
    "caution": Part(bench_parts.caution, argument=True),
    "form-lines": Part(bench_parts.form_lines, argument=True),
    "form-table": Part(form_parts.form_table, argument=True),
    "own-explained": Part(own_explained, argument=False),
    "own-next": Part(own_next, argument=False),
    "own-stages": Part(own_stages, argument=False),
    "own-standing": Part(own_standing, argument=False),
    "own-steps": Part(own_steps, argument=False),
}


def inline(catalog: Catalog, name: str) -> Element:
    """Give `figure:id`. Raises UnknownName."""
    names = [f"figure:{one}" for one in catalog.figures]
    bench_parts.known_id(name, names, "figure:id of figures.csv")
    return bench_parts.inline_figure(catalog, name.partition(":")[2])


SHELF = Shelf(PARTS, inline)
