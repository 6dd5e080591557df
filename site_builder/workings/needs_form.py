"""The working of the quick needs list: ranks, seating, what is kept."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.jobs.quick import (
    APART,
    BED,
    LAST_RESORT,
    NO_FOUND,
    NOT_TUNING,
    OTHER_SEAT,
    RANKS,
    SEATING,
    SESSION_S,
    SESSIONS_S,
    TONGUES,
    UNSEEN,
    WAX,
    has_valves,
    quick,
    ranks_of_layout,
)
from formulas.jobs.quick_tables import SEAMS, quick_tables, step_rows
from formulas.jobs.quick_words import HANGS, TOLD
from formulas.jobs.wax_figures import wax_figures_of
from formulas.units import printed
from formulas.valves.typed_rank import PLATES
from site_builder.markup.elements import element, paragraph, table
from site_builder.texts.job_quick import ALL_HOURS, hangs_on, hours_said, need_rows
from site_builder.workings.screen_form import asked_table, compact_table, number_input
from site_builder.workings.valve_data import note_choices
from site_builder.workings.worksheet import Field, Worksheet

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog
    from formulas.job_entries import SeatingMethod

EXAMPLE = "forty-one-key"
OWN_RANKS = ("", "ranks of your own, typed below")
NEEDS = ("What", "How much", "From what")
HOURS = ("Work of one hand", "Hours")
KEEPING = (("no", "new valves"), ("yes", "the valves that are there"))
LIMIT = (
    "It knows a layout, not an instrument: a range is no offer. Lift one block, weigh and time it,"
    " and test it before you promise anything."
)
BEFORE = (
    "This form heats and cuts nothing; the work it counts does. Tick each before that work begins:"
    " sections S, W and V say what to do about it."
)
HOUR_S = 3600.0


def example_layout(catalog: Catalog) -> str:
    """Give the layout that the form begins with."""
    return EXAMPLE if EXAMPLE in catalog.layouts else next(iter(catalog.layouts))


def offered(catalog: Catalog) -> list[SeatingMethod]:
    """Give the seating methods that may be asked for: all but those that are refused."""
    return [one for one in catalog.seating_methods.values() if not one.refused]


def _fields(catalog: Catalog) -> list[Field]:
    first = catalog.layouts[example_layout(catalog)]
    layouts = tuple((one.id, one.name) for one in catalog.layouts.values())
    seatings = tuple((one.id, one.name) for one in offered(catalog))
    plates, work = "Plates", "Work"
    least, most = (end / HOUR_S for end in SESSIONS_S)
    return [
        Field("layout", "Layout", kind="choice", default=first.id, choices=(OWN_RANKS, *layouts),
              group=plates),
        Field("ranks", "Ranks", kind="drawn", group=plates, draw=lambda _: _ranks(catalog)),
        Field("tongues", "Tongues on each plate", default=f"{first.tongues_per_plate}",
              low=TONGUES[0], high=TONGUES[1], whole=True, group=plates),
        Field("seating", "Seating", kind="choice", default=first.seating, choices=seatings,
              group=work),
        Field("kept", "Valves", kind="choice", choices=KEEPING, default="no", group=work),
        Field("session", "Time at the bench on a day", "h", default=f"{SESSION_S / HOUR_S:g}",
              low=round_up(least), high=most, group=work),
    ]  # fmt: skip


def round_up(hours: float) -> float:
    """Give the least session as it is printed, no less than what the command takes."""
    return float(printed(hours + 0.005, 2))


def _ranks(catalog: Catalog) -> Element:
    """Draw the table of ranks: the lowest note and how many plates, a row a rank."""
    found = ranks_of_layout(catalog, example_layout(catalog))
    rows = []
    for number in range(1, RANKS[1] + 1):
        rank = found[number - 1] if number <= len(found) else None
        lowest = _lowest(number, str(rank.lowest) if rank else "")
        field = Field("count", f"Rank {number}, plates", low=PLATES[0], high=PLATES[1], whole=True,
                      blank=True)  # fmt: skip
        count = number_input(field, name=f"count{number}", value=f"{rank.plates}" if rank else "")
        count.set("aria-label", field.label)
        rows.append(
            element(
                "tr",
                element("th", f"{number}", scope="row"),
                element("td", lowest),
                element("td", count),
            )
        )
    heads = ("Rank", "Lowest note", "Plates")
    note = "A semitone from plate to plate. A row left blank counts not."
    return asked_table(note, heads, rows)


def _lowest(number: int, chosen: str) -> Element:
    options = []
    for value, words in (("", "none"), *note_choices()):
        option = element("option", words, selected="selected" if value == chosen else "")
        option.set("value", value)
        options.append(option)
    label = f"Rank {number}, lowest note"
    return element(
        "select", *options, name=f"lowest{number}", **{"aria-label": label, "data-label": label}
    )


def _tables(_: Catalog) -> list[Element]:
    return [compact_table("needs", NEEDS), compact_table("hours", HOURS)]


def _example(catalog: Catalog) -> Answer:
    return quick(catalog, layout=example_layout(catalog))


def _data(catalog: Catalog) -> dict[str, Any]:
    """Give `data.needs`: what it takes from the tables beside `data.valves`, layouts, seatings."""
    held, figures = quick_tables(catalog), wax_figures_of(catalog)
    steps = _steps(catalog)
    rows = [list(row) for row in dict.fromkeys(tuple(row) for own in steps.values() for row in own)]
    return {
        "plate_rule": held.plate_rule,
        "names": held.names,
        "classes": held.classes,
        "edges": held.edges,
        "bare": held.bare,
        "band": held.band,
        "glue": held.glue,
        "solvent": held.solvent,
        "rates": held.rates,
        "rule_each": held.rule_each,
        "losses": held.losses,
        "own_each": held.own_each,
        "figures": [figures.low, figures.mid, figures.high],
        "hangs": list(HANGS),
        "told": TOLD,
        "groups": [name for name, _ in SEAMS],
        "seating": SEATING,
        "session": SESSION_S / HOUR_S,
        "step_rows": rows,
        "steps": {name: [rows.index(row) for row in own] for name, own in steps.items()},
        "seatings": {one.id: _seating(one) for one in offered(catalog)},
        "layouts": {
            one.id: {
                "seating": one.seating,
                "tongues": f"{one.tongues_per_plate}",
                "ranks": [
                    [f"{rank.lowest}", f"{rank.plates}"]
                    for rank in ranks_of_layout(catalog, one.id)
                ],
            }
            for one in catalog.layouts.values()
        },
        "words": {
            "all": ALL_HOURS, "unseen": UNSEEN, "apart": APART, "other": OTHER_SEAT,
            "last": LAST_RESORT, "found": NO_FOUND, "tuning": NOT_TUNING,
        },
    }  # fmt: skip


def _steps(catalog: Catalog) -> dict[str, list[list[float]]]:
    """Give the steps by seating group, whether valves are kept, and whether there are any."""
    kinds = dict.fromkeys((one.group, _yes(has_valves(one))) for one in offered(catalog))
    return {
        f"{group} {kept} {valved}": step_rows(catalog, group, kept == "yes", valved == "yes")
        for group, valved in kinds
        for kept in ("no", "yes")
    }


def _yes(true: bool) -> str:
    return "yes" if true else "no"


def _seating(one: SeatingMethod) -> dict[str, Any]:
    return {
        "group": one.group,
        "wax": one.group == WAX,
        "bedded": 1 if BED in one.takes else 0,
        "valved": _yes(has_valves(one)),
        "last": one.last_resort,
    }


def _worked(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the example's rows, then blank ones to count by hand."""
    named = catalog.layouts[answer.inputs["layout"]].name
    seating = catalog.seating_methods[answer.inputs["seating"]].name
    yield paragraph(element("strong", "Worked example."), f" {named}. {seating}.")
    yield table(NEEDS, need_rows(answer, catalog))
    yield table(HOURS, hours_said(answer))
    yield paragraph(f"The range of the wax hangs on {hangs_on(answer)}.")
    yield paragraph(element("strong", "Yours."))
    head = ["Rank or block", "Plates", "Tongues", "Valves", "Wax: plates by g a plate", "Hours"]
    yield table(head, [[""] * len(head) for _ in range(RANKS[1])])


WORKSHEET = Worksheet(
    id="needs",
    title="What a job needs, before it was seen",
    command="benchbinder job --layout forty-one-key --seating wax-fillet",
    fields=_fields,
    formulas=("total_for_plates",),
    example=_example,
    rows=(
        ("hangs", "The range of the wax hangs on"),
        ("note", "To note"),
    ),
    tables=_tables,
    worked=_worked,
    data=_data,
    lines=(
        "Instrument, by its own number; never its owner's name",
        "Plates counted, by, date",
        "First block: plates, wax weighed, minutes",
        "Range told to the owner, date",
    ),
    limit=LIMIT,
    before=BEFORE,
    asks="job",
)
