"""Parts of the leaves on a whole job: the order of work, its times, grades, the survey's form."""

from __future__ import annotations

import functools
import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from formulas.jobs.job import KEPT
from formulas.jobs.order import ALWAYS, FOUND, in_order, order_of_work
from formulas.jobs.survey import read_change
from site_builder.markup.elements import (
    BASES,
    Cell,
    Content,
    basis,
    element,
    noted_table,
    number,
    paragraph,
    span,
    table,
)
from site_builder.parts.bench_parts import known_id
from site_builder.parts.form_parts import BETWEEN, choice
from site_builder.places import CONTENT

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.job_entries import SurveyGrade, WorkStep

WHEN = {
    FOUND: "if found",
    "kept-valves": "if valves are kept",
    "kept-wax": "if wax is kept",
    "kept-plates": "if plates are kept",
}
MAY = {"yes": "yes", "some": "try, and test", "no": "no"}
HOLD = "HOLD POINT"
EVERY = "all"
FEWEST = 3  # words that tell one step from another
ROWS = 8  # of plates that differ from their block, on the form of one page


@functools.cache
def handbook_leaves() -> frozenset[str]:
    """Give the names by which the handbook's own leaves are linked."""
    return frozenset(path.stem[3:] for path in CONTENT.glob("[0-9][0-9]-*/[0-9][0-9]-*.md"))


def when(step: WorkStep) -> str:
    """Say in words when a step is done; nothing where it always is."""
    if ALWAYS in step.applies:
        return ""
    return " or ".join(WHEN.get(one, one) for one in step.applies)


def steps_list(steps: Sequence[WorkStep], linked: Collection[str] = ()) -> list[Element]:
    """List steps with a box before each; a hold point parts the list and asks for a name.

    `linked` are the leaves that may be linked: those of the book in which the list stands.
    """
    made: list[Element] = []
    waiting: list[Element] = []
    for step in steps:
        if not step.hold_point:
            waiting.append(element("li", *_told(step, linked)))
            continue
        made += [element("ticks", *waiting)] if waiting else []
        waiting = []
        made.append(paragraph(element("strong", f"{HOLD}: "), *_told(step, linked)))
        made.append(element("formline", label="Signed by, a learner with a second name; on"))
    return [*made, element("ticks", *waiting)] if waiting else made


def _told(step: WorkStep, linked: Collection[str]) -> Iterator[Content]:
    if when(step):
        yield element("em", f"{when(step)}: ")
    if step.leaf in linked:
        yield element("a", step.name, href=f"{step.leaf}.md")
    else:
        yield step.name
    yield f". {step.done_when}."


def work_order(catalog: Catalog, argument: str) -> list[Element]:
    """List the order of work of every seat, `all`, or of one group of seats, such as `wax`."""
    if argument == EVERY:
        return steps_list(in_order(catalog), handbook_leaves())
    groups = {method.group for method in catalog.seating_methods.values()}
    known_id(argument, [EVERY, *groups], "all, or a group of seating_methods.csv")
    return steps_list(order_of_work(catalog, {argument}), handbook_leaves())


def step_times(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what each step takes, for one of what it counts, with its basis."""
    rows: list[list[Cell]] = [
        [
            step.name,
            f"{step.face} {step.per}".strip(),
            span(step.minutes_low, step.minutes_high, "min") if step.minutes_high else "none",
            when(step),
            basis(step.basis, step.source, step.where),
            step.note,
        ]
        for step in in_order(catalog)
    ]
    return [noted_table(["Step", "For one", "Time", "When", "Basis", "Note"], rows)]


def _of(catalog: Catalog, argument: str) -> list[SurveyGrade]:
    parts = [one.what for one in catalog.survey_grades.values()]
    known_id(argument, dict.fromkeys(parts), "a part of survey_grades.csv")
    found = [one for one in catalog.survey_grades.values() if one.what == argument]
    return sorted(found, key=lambda one: one.rank)


def grade_word(grade: SurveyGrade) -> str:
    """Give a grade as it stands on the form."""
    return grade.grade.replace("-", " ")


def survey_grades(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate the grades of one part, from good to bad."""
    heads = ["Grade", "Looks", "How to tell", "What it implies", "Keep?", "Changes"]
    grades = _of(catalog, argument)
    rows: list[list[Cell]] = [
        [
            [element("strong", grade_word(one))],
            one.looks,
            one.how_to_tell,
            f"{one.implies}. {one.note}".rstrip(),
            MAY[one.keep],
            changes_words(catalog, one),
        ]
        for one in grades
    ]
    kinds = dict.fromkeys(BASES[one.basis][0] for one in grades)
    return [table(heads, rows), paragraph(f"Basis of the rows: {', '.join(kinds)}.")]


def changes_words(catalog: Catalog, grade: SurveyGrade) -> str:
    """Say what a grade changes in the minutes of the job."""
    return "; ".join(_changed(catalog, grade)) or "nothing"


def _changed(catalog: Catalog, grade: SurveyGrade) -> Iterable[str]:
    for text in grade.steps:
        read = read_change(text, grade.id)
        if read is None:
            raise UnknownName("change of a step", text, catalog.work_steps)
        added, one = read
        name, ends = said_step(catalog.work_steps[one.step]), (one.low, one.high)
        if not added:
            yield f"{name}: times {_from_to(*ends)}"
        elif ends == (1, 1):
            yield f"adds {name}"
        elif one.high < 1:
            yield f"adds {name} for {span(*_percent(*ends), 'percent')} of them"
        else:
            yield f"adds {name}, times {_from_to(*ends)}"


def said_step(step: WorkStep) -> str:
    """Name a step as its list does, as far as it takes to know it: three words at least."""
    marks = [one.start() for one in re.finditer("[,:;]", step.name)]
    ends = [at for at in marks if len(step.name[:at].split()) >= FEWEST]
    return f"“{step.name[: ends[0]] if ends else step.name}”"


def _from_to(low: float, high: float) -> str:
    return number(low) if low == high else f"{number(low)} to {number(high)}"


def _percent(low: float, high: float) -> tuple[float, float]:
    return float(f"{100 * low:.6g}"), float(f"{100 * high:.6g}")


def survey_form(catalog: Catalog, _: str) -> list[Element]:
    """Make the page of one block: lines, the words of each part to ring, plates that differ."""
    parts = dict.fromkeys(one.what for one in catalog.survey_grades.values())
    words = [[grade_word(one) for one in _of(catalog, part)] for part in parts]
    return [
        element("formline", label="Job; block and its name"),
        element("formline", label="Rank; plates from, to; counted; metal; how they are seated"),
        *(choice(part.capitalize(), options) for part, options in zip(parts, words, strict=True)),
        choice("Owner keeps", [*KEPT, "nothing", "not asked"]),
        element(
            "formtable",
            heads=BETWEEN.join(["Plate", "What", "Grade", "How it was told", "Photograph"]),
            rows=str(ROWS),
        ),
        element("formline", label="Stop and ask, about"),
        element("formline", label="Graded by, in which light, on"),
    ]


def grade_scale(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the words of the form, part by part, from good to bad."""
    parts = dict.fromkeys(one.what for one in catalog.survey_grades.values())
    found = {part: {one.rank: grade_word(one) for one in _of(catalog, part)} for part in parts}
    ranks = sorted({rank for words in found.values() for rank in words})
    rows: list[list[Cell]] = [
        [[element("strong", part)], *(words.get(rank, "") for rank in ranks)]
        for part, words in found.items()
    ]
    return [table(["Part", *(str(rank) for rank in ranks)], rows)]
