"""What the leaves on learning place: a stage to sign, what a sign-off asks, who may do what.

Paper does not know today: what runs out is told with its day, and the page tells of the day of
the last entry in the books.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.people.may import WHAT, WORDS, may, needed_for
from formulas.people.standing import DONE, DUE, in_order, is_here, standing
from formulas.units import printed
from site_builder.markup.elements import (
    Cell,
    Content,
    basis,
    day,
    element,
    number,
    paragraph,
    table,
)
from site_builder.parts.bench_parts import known_id
from site_builder.parts.form_parts import BETWEEN
from site_builder.parts.handbook_leaves import leaves
from site_builder.texts.people_words import passes, tolerance

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.first_year_entries import Person, Step
    from formulas.people.may import May
    from formulas.people.standing import Standing

STEP_HEADS = ["Step", "Shown", "With help", "Alone", "Explained"]
TEST_HEADS = ["What is measured", "Passes", "First time", "Second time"]
NEED_HEADS = ["Step", "What passes", "How often", "Without the task"]
MAY_HEADS = ["Person", *(WORDS[what].capitalize() for what in WHAT)]
FIRST_YEAR = "A-02"
ROW_MM, LOW_ROW_MM = "7.8", "7.1"  # room for a date over initials, or beside them
SHARING = 5  # steps; a stage of no more may stand on a page with another
MANY = 7  # steps; a stage of more gets low rows to sign, so that it stays on its page
LEAST_ROWS, MOST_ROWS = 3, 9  # to write on, of the page to pin up
AT_THE_DOOR_M = 1.0
PEOPLE_A_TABLE = 5
NOBODY = "No name stands in the books of this shop yet: write them in by hand."
NO_DAY = "Nothing is signed in the books of this shop yet."
ON_THE_PAGE = (
    "Through: the last day, where the task is not done before it. A name that is not here works"
    " beside somebody who is. Under age: never alone. An entry that is missing is asked for, not"
    " guessed."
)
MARKS = {
    DONE: "done",
    DUE: "DUE AGAIN",
    "open": "",
}


def first_year(catalog: Catalog, argument: str) -> list[Element]:
    """Set one stage: each step in words, then lines for who saw it and when.

    A short stage is kept whole and may share a page with its neighbour, a long one begins a page;
    where that page is too short for it, all its lines stand on the next, under its name.
    """
    name = known_id(argument, catalog.first_year_stages, "an id of first_year_stages.csv")
    stage = catalog.first_year_stages[name]
    steps = [one for one in in_order(catalog) if one.stage == name]
    head = element("h2", stage.name, id=name)
    told = table(STEP_HEADS, [_step(catalog, one) for one in steps])
    signed = signing([(one.name, one.times) for one in steps], stage.name)
    page = [head, paragraph(stage.about), *_warned(catalog, steps), told, signed]
    if len(steps) <= SHARING:
        return [element("ownpage", *page, kept="yes")]
    return [element("ownpage", *page[:-1], element("ownpage", signed, kept="yes"))]


def _step(catalog: Catalog, one: Step) -> list[Cell]:
    asked = tolerance(one)
    return [
        [element("strong", one.name), ". Read ", *_read(catalog, one), "."],
        one.shown,
        one.helped,
        [
            f"{one.alone}. ",
            element("em", asked or "Done, or not done"),
            " (",
            *basis(one.basis, one.source, one.where),
            ")",
        ],
        one.explain,
    ]


def _read(catalog: Catalog, one: Step) -> Iterator[Content]:
    """Name the leaves to read by their numbers, each a link."""
    known = leaves(catalog)
    for place, slug in enumerate(one.read):
        if place:
            yield ", "
        title = known.get(slug, ("", ""))[0]
        yield element("a", title, href=f"{slug}.md") if title else slug


def signing(steps: Sequence[tuple[str, int]], name: str, row: str = "") -> Element:
    """Rule a row a step: date and initials for each mark, work alone as often as it is asked.

    A step is its words, and how often it is done alone. `row` is how high each is, in mm; without
    it the rows of a long stage are low.
    """
    most = max(times for _, times in steps)
    alone = [f"Alone, {place + 1}" for place in range(most)]
    many = len(steps) > MANY
    first = f"{name}: date and initials" if many else "Date and initials"
    heads = [first, "Shown", "With help", *alone, "Explained"]
    high = row or (LOW_ROW_MM if many else ROW_MM)
    return to_write_in(heads, [[words] for words, _ in steps], f"{name}: to sign", high)


def to_write_in(
    heads: Sequence[str], rows: Sequence[Sequence[str]], name: str, row: str = ROW_MM
) -> Element:
    """Rule a chart whose rows begin with printed cells; the rest of each is blank."""
    lines = [element("tr", *(element("td", words) for words in cells)) for cells in rows]
    sizes = {"told": str(len(rows[0])), "ticked": "0", "row": row, "name": name}
    return element("charttable", *lines, heads=BETWEEN.join(heads), **sizes)


def _warned(catalog: Catalog, steps: Sequence[Step]) -> list[Element]:
    """Name the cautions of a stage that have no box at the head of the leaf, by their titles."""
    boxed = {one.id for one in catalog.cautions_for(FIRST_YEAR)}
    names = dict.fromkeys(name for one in steps for name in one.cautions if name not in boxed)
    if not names:
        return []
    kind = "an id of cautions.csv"
    known = [catalog.cautions[known_id(name, catalog.cautions, kind)] for name in names]
    titles = " ".join(one.title for one in known)
    return [paragraph(element("strong", "Beside the boxes at the head of this leaf: "), titles)]


def step_needs(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate what is signed before something is done alone: `hot-wax-alone`."""
    what = known_id(argument, WHAT, "what a step of the first year gives")
    days = printed(catalog.span("recheck-after", "day")[0], 0)
    rows: list[list[Cell]] = [
        [
            [element("strong", one.name) if one.gives == what else one.name],
            [tolerance(one) or "done, or not done", " (", *basis(one.basis, one.source), ")"],
            "once" if one.times == 1 else f"{one.times} times",
            _lapses(one, days),
        ]
        for one in needed_for(catalog, what)
    ]
    return [table(NEED_HEADS, rows)]


def test_sheet(catalog: Catalog, argument: str) -> list[Element]:
    """Rule a sheet for the practical test: what is measured, what passes, what was found twice."""
    what = known_id(argument, WHAT, "what a step of the first year gives")
    asked = [one for one in needed_for(catalog, what) if one.measured]
    rows = [
        [one.measured, passes(one.low, one.high, one.unit)]
        for one in asked
        if one.hot or one.solvent
    ]
    return [to_write_in(TEST_HEADS, rows, f"Practical test: {WORDS[what]}")]


def _lapses(one: Step, days: str) -> str:
    said = [f"after {days} days"] if one.renew else []
    said += ["at a new material"] if one.new_material else []
    return f"again {', and '.join(said)}" if said else "stays"


def books_day(catalog: Catalog) -> str:
    """Give the day of the newest entry that who may do what hangs on; "" where there is none."""
    days = [one.date for one in catalog.signoffs]
    days += [one.began for one in catalog.people.values()]
    days += [one.date for one in catalog.pot_book.values()]
    return max([*days, *(one.bought for one in catalog.lots.values() if one.bought)], default="")


def who_may_do_what(catalog: Catalog, _: str) -> list[Element]:
    """Set on one page, to be pinned up, what each may do alone and through which day."""
    on = books_day(catalog)
    here = [one for one in catalog.people.values() if is_here(one, on)]
    rows = [[f"{one.person}, {one.role}", *_allowed(catalog, one, on)] for one in here]
    blank = max(LEAST_ROWS, MOST_ROWS - len(rows))
    rows += [[""] * len(MAY_HEADS)] * blank
    shop = f"{catalog.shop.name}{', invented' if catalog.shop.invented else ''}"
    head = element("h2", f"Alone, and through which day: {shop}", id="alone-and-through-which-day")
    said = f"By the books as they stood on {day(on)}, their last entry." if here else NOBODY
    told = [paragraph(said), table(MAY_HEADS, rows), paragraph(ON_THE_PAGE)]
    capital = number(AT_THE_DOOR_M * catalog.span("reading-height-per-metre", "mm")[0])
    return [element("onepage", head, *told, capital=capital)]


def _allowed(catalog: Catalog, one: Person, on: str) -> list[str]:
    return [_cell(catalog, may(catalog, one.person, what, on), one, on) for what in WHAT]


def _cell(catalog: Catalog, found: May, one: Person, on: str) -> str:
    if found.may:
        return f"through {day(found.until)}" if found.until else "yes"
    if on < one.adult_from:
        return f"NO, not before {day(one.adult_from)}"
    states = [
        standing(catalog, one.person, step.id, on).state for step in needed_for(catalog, found.what)
    ]
    return "NO, due again" if set(states) <= {DONE, DUE} else "NO, not signed"


def steps_by_people(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate how far each is in each step, stage by stage, a few people a table."""
    on = books_day(catalog)
    names = [
        one.person
        for one in catalog.people.values()
        if is_here(one, on) and any(mark.person == one.person for mark in catalog.signoffs)
    ]
    if not names:
        return [paragraph(NO_DAY)]
    runs = [names[at : at + PEOPLE_A_TABLE] for at in range(0, len(names), PEOPLE_A_TABLE)]
    return [table(["Step", *run], [*_standings(catalog, run, on)]) for run in runs]


def _standings(catalog: Catalog, names: Sequence[str], on: str) -> Iterator[list[Cell]]:
    for stage, steps in groupby(in_order(catalog), key=lambda one: one.stage):
        yield [element("strong", catalog.first_year_stages[stage].name), *[""] * len(names)]
        for step in steps:
            found = [standing(catalog, name, step.id, on) for name in names]
            yield [step.name, *(how_far(one) for one in found)]


def how_far(one: Standing) -> str:
    """Say in a word or two how far a step is; nothing where it is open."""
    if one.state == "alone":
        return f"alone {one.passed} of {one.step.times}"
    if one.state == DONE and one.until:
        return f"through {day(one.until)}"
    return MARKS.get(one.state, one.state)
