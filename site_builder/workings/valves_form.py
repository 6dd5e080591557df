"""The working of `valves` on a whole rank, with its window chart."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.units import convert
from formulas.valves.at_hand import considered
from formulas.valves.judging import ratios_to
from formulas.valves.notes import midi_of, note_name
from formulas.valves.one_slot import SLOTS
from formulas.valves.slot_choice import SlotChoice
from formulas.valves.slot_words import NEAREST, rank_row, window_words
from formulas.valves.stock import Stock, stocks
from formulas.valves.typed_rank import PITCHES, PLATES, typed_rank
from formulas.valves.window_marks import SMALL
from site_builder.markup.elements import element, paragraph, table
from site_builder.parts.charts import drawing
from site_builder.parts.window_charts import KEY
from site_builder.texts.valves import alike, chosen_said, runs
from site_builder.workings.one_valve_form import MASSES, OVERHANGS
from site_builder.workings.screen_form import asked_table, compact_table, number_input
from site_builder.workings.valve_data import (
    FEW,
    TITLE,
    areal_shown,
    areal_typed,
    first_plates,
    is_us,
    length_typed,
    length_unit,
    note_choices,
    posture_choices,
    ranks_of_shop,
    valve_data,
)
from site_builder.workings.worksheet import BEFORE_KNIFE, Field, Worksheet

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog
    from formulas.valve_entries import Rank

HEADS = ("Note", "Slot", "Cut", "Gap", "Choke, soft", "Loud", "Nearest limit")
OWN_RANK = ("", "a rank of your own, typed below")
BLANKS = 8
LIMIT = "It ranks stocks by rule: cut one valve of each run, fit it dry, and test it by ear."


def example_rank(catalog: Catalog) -> Rank:
    """Give the rank that the form begins with: the longest of the shop's instrument."""
    ranks = ranks_of_shop(catalog)
    middle = [one for one in ranks if one.rank == "middle"]
    return middle[0] if middle else max(ranks, key=lambda one: one.plates)


def _fields(catalog: Catalog) -> list[Field]:
    first = example_rank(catalog)
    ranks = tuple((one.rank, one.name) for one in ranks_of_shop(catalog))
    rank = "Rank"
    return [
        Field("rank", "Rank", kind="choice", default=first.rank, choices=(OWN_RANK, *ranks),
              group=rank),
        Field("lowest", "Lowest note", kind="choice", default=str(midi_of(first.lowest)),
              choices=note_choices(), group=rank),
        Field("count", "Plates", default=str(first.plates), low=PLATES[0], high=PLATES[1],
              whole=True, group=rank),
        Field("pitch", "Pitch of A", "Hz", default=f"{catalog.shop.pitch_of_a:g}", low=PITCHES[0],
              high=PITCHES[1], group=rank),
        Field("posture", "In play", kind="choice", default=first.posture,
              choices=posture_choices(catalog), group=rank),
        *_plates(catalog, first),
        Field("stocks", "Valve stock", kind="drawn", group="Valve stock",
              draw=lambda working: _stocks(working, catalog)),
    ]  # fmt: skip


def _plates(catalog: Catalog, rank: Rank) -> Iterator[Field]:
    """Give the fields of the plates that were measured, those of the shop's book filled in."""
    found = [
        (str(midi), length_typed(catalog, length), length_typed(catalog, width, 2))
        for midi, length, width in first_plates(catalog, rank)
    ]
    unit, group = length_unit(catalog), "Plates that you measured"
    low, high = (float(f"{convert(end, 'm', unit):.3g}") for end in SLOTS)
    for place in range(FEW):
        note, length, width = found[place] if place < len(found) else ("", "", "")
        number = place + 1
        yield Field(f"note{number}", f"Plate {number} sounds", kind="choice", default=note,
                    choices=(("", "none"), *note_choices()), group=group)  # fmt: skip
        yield Field(f"length{number}", f"Its slot, length {number}", unit, default=length, low=low,
                    high=high, blank=True, group=group)  # fmt: skip
        yield Field(f"width{number}", f"Its slot, width {number}", unit, default=width, above=0,
                    high=high, blank=True, group=group)  # fmt: skip


def _stocks(working: str, catalog: Catalog) -> Element:
    """Draw the table of stocks: a box to tick, and room for what a strip shows now."""
    unit = length_unit(catalog)
    heads = ("Stock", f"Overhang, {unit}", f"Mass, {areal_shown(catalog)}")
    ticked = {one.id for one in considered(catalog)}
    rows = [
        _stock(working, catalog, one, ticked=one.id in ticked)
        for one in stocks(catalog)
        if one.alone
    ]
    note = (
        "What stands in grey is what the tables have; type a new reading over it. A stock without"
        " an overhang is not chosen: none was measured. A film that is not ticked may still lie"
        " over a leather."
    )
    return asked_table(note, heads, rows)


def _stock(working: str, catalog: Catalog, one: Stock, *, ticked: bool) -> Element:
    name = f"{working}-take-{one.id}"
    box = element(
        "input",
        type="checkbox",
        id=name,
        name=f"take-{one.id}",
        value="yes",
        checked="checked" if ticked else "",
    )
    label = element("label", box, " ", one.id, **{"for": name})
    unit = length_unit(catalog)
    low, high = (float(f"{convert(end, 'm', unit):.3g}") for end in OVERHANGS)
    areal = "oz/yd**2" if is_us(catalog) else "g/m**2"
    light, heavy = (float(f"{convert(end, 'kg/m**2', areal):.2g}") for end in MASSES)
    hangs = Field("", f"{one.id}, overhang", unit, low=low, high=high, blank=True)
    weighs = Field("", f"{one.id}, mass", areal_shown(catalog), low=light, high=heavy, blank=True)
    shown = length_typed(catalog, 2 * one.bending_length[1]) if one.measured else "none"
    return element(
        "tr",
        element("th", label, scope="row"),
        element("td", _reading(hangs, f"hangs-{one.id}", shown)),
        element("td", _reading(weighs, f"weighs-{one.id}", areal_typed(catalog, one.mass[1]))),
    )


def _reading(field: Field, name: str, shown: str) -> Element:
    made = number_input(field, name=name, placeholder=shown)
    made.set("aria-label", field.label)
    return made


def _example(catalog: Catalog) -> Answer:
    first = example_rank(catalog)
    each = 0.0254 if is_us(catalog) else 0.001
    plates = {
        note_name(midi): (
            float(length_typed(catalog, length)) * each,
            float(length_typed(catalog, width, 2)) * each,
        )
        for midi, length, width in first_plates(catalog, first)
    }
    return typed_rank(catalog, first.lowest, first.plates, posture=first.posture, plates=plates)


def _tables(_: Catalog) -> list[Element]:
    svg = drawing(TITLE, TITLE, size=f"0 0 {SMALL[0]:g} {SMALL[1]:g}")
    svg.set("data-chart", "window")
    chart = element("figure", svg, element("figcaption", f"{TITLE}. {KEY}"), alt=TITLE)
    return [element("ul", **{"data-rows": "runs"}), chart, compact_table("notes", HEADS)]


def said_runs(found: Sequence[SlotChoice], us: bool) -> list[str]:
    """Give the runs of notes, a line each."""
    return [line.strip() for line in runs(found, us)]


def rank_rows(found: Sequence[SlotChoice], us: bool) -> list[list[str]]:
    """Give the rows of a rank: before each run of notes with one choice a row that names it."""
    both = {face for _, face in alike(found)} == {"both"}
    rows: list[list[str]] = []
    for face in ("inside",) if both else ("inside", "outside"):
        last = ""
        for one in found:
            if one.slot.face != face:
                continue
            chosen = chosen_said(one) + ("" if both else f", {face}")
            if chosen != last:
                rows.append([chosen])
            last = chosen
            rows.append(note_row(one, us))
    return rows


def note_row(one: SlotChoice, us: bool) -> list[str]:
    """Give the row of one slot."""
    sure = "" if one.sure or not one.to_cut else " ?"
    return rank_row(
        one.slot.sounds + sure,
        [one.slot.slot_length.estimate, one.slot.slot_width.estimate],
        one.sizes,
        one.kind,
        one.found,
        ratios_to(one.found, one.limits) if one.found else [],
        one.window,
        NEAREST,
        us,
    )


def _worked(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the runs of the example rank and some of its notes, then blank rows."""
    found: list[SlotChoice] = answer.answer["choices"]
    us = is_us(catalog)
    yield paragraph(
        element("strong", "Worked example."),
        f" {example_rank(catalog).name}, {answer.inputs['rank']}, A at {answer.inputs['pitch']:g}"
        " Hz, from the plates that stand in the form.",
    )
    yield element("ul", *(element("li", line) for line in said_runs(found, us)))
    notes = [one for one, face in alike(found) if face != "outside"][:: _every(found)]
    yield table(HEADS, [note_row(one, us) for one in notes], right=[3, 4, 5])
    first = found[0]
    wanted = window_words(first.window[0], first.window[1], first.window_mass, us)
    yield paragraph(f"At {first.slot.sounds} {wanted}.")
    yield paragraph(element("strong", "Yours."))
    head = ["Note", "Slot", "Stock", "Hangs", "Window, from and to", "Cut", "Droop read"]
    yield table(head, [[""] * len(head) for _ in range(BLANKS)])


def _every(found: Sequence[SlotChoice]) -> int:
    return max(1, len(found) // 16)


WORKSHEET = Worksheet(
    id="valves",
    title="Valves of a whole rank",
    command="benchbinder valves --rank middle",
    fields=_fields,
    formulas=("frequency", "least_bending_length", "most_rigidity", "bending_length_of"),
    example=_example,
    rows=(("odd", "Not sure"), ("note", "To note")),
    worked=_worked,
    tables=_tables,
    data=valve_data,
    lines=(
        "Instrument, rank, posture",
        "Plates measured: notes, by whom, date",
        "Stocks, with overhang and mass per area of each",
        "Border between two stocks: last note of the lower one",
        "First note without a valve, and what the instrument had",
        "Valve cut for trial: note, stock, droop read",
        "Checked against the plates by, date",
    ),
    limit=LIMIT,
    before=BEFORE_KNIFE,
    rule="A stock serves a slot where its strip hangs within the window. Of those that serve take"
    " the one that keeps farthest from both limits, gap and choke. Where none serves, try a film"
    " over a leather, then a helper; a slot may also go without a valve.",
)
