"""The working of `air`: how much vapour a task puts into a room, with its curve over time."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas import units
from formulas.air.air import air
from formulas.air.air_marks import (
    AIR_SIZE,
    air_chart_words,
    air_curve,
    air_marks,
    curve_times,
    limit_line,
)
from formulas.air.air_words import AIR_ROWS, level_said, upward
from formulas.air.asked import (
    AMOUNTS_M3,
    CHANGES_H,
    FACES_M2,
    HEATS_C,
    ROOMS_M3,
    STARTS,
    TASKS,
    TIMES_S,
    AirTask,
    air_solvents,
    liquid_parts,
)
from formulas.air.heats import HEATS, REFUSED, asked_for
from formulas.air.liquid import share_loads, start_shares
from formulas.air.reckoned import (
    flash_ends,
    limit_rows,
    room_of,
    rules,
    times_of,
    vapours_of,
)
from formulas.air.room import level_during, settled_level
from formulas.units import fahrenheit, printed
from formulas.valves.typed import in_si
from site_builder.markup.elements import element, paragraph, table
from site_builder.parts.charts import drawing
from site_builder.parts.window_charts import strokes
from site_builder.workings.screen_form import compact_table
from site_builder.workings.valve_data import is_us
from site_builder.workings.worksheet import Field, Worksheet

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

YOURS = "Yours: through the room; near the source"
TITLE = "The air of the room over time"
KEY = (
    "Band: the mixed room, from the lowest corner of what went in to the highest. Dashed: the"
    " highest near the source. Dotted: limits, each with its letter, for the mean of its own time."
)
HEADS = ("The limit is", "Through the room", "Near the source", "Air changes that keep it there")
EXAMPLE = "acetone"
AMOUNT = {False: "20", True: "0.7"}
ROOM = {False: "30", True: "1000"}
OVER = "15"
CHANGES = "1"
METRIC = ("mL", "m3", "cm2", "C")
US = ("floz", "ft3", "in2", "F")
"""Units of amount, room, face and heat as the command reads them."""
SHOWN = {
    "floz": "fl oz", "mL": "mL", "m3": "m³", "ft3": "ft³", "cm2": "cm²", "in2": "in²",
    "C": "°C", "F": "°F",
}  # fmt: skip
PINT = {"floz": "floz", "mL": "mL", "m3": "m**3", "ft3": "ft**3", "cm2": "cm**2", "in2": "in**2"}
BEFORE = (
    "Before a jar is opened, tick each; section S says what to do about it. Walk round the room"
    " and write down every source of heat and sparks: any one of them is a no."
)
LIMIT = (
    "No figure here is a safe limit or a clearance to work: it is one reckoning of a well-stirred"
    " room, and nothing was measured."
)


def typed_units(catalog: Catalog) -> tuple[str, ...]:
    """Give the units that are typed: of amount, room, face and heat."""
    return US if is_us(catalog) else METRIC


def each_in_si(unit: str) -> float:
    """Give one of a unit in SI."""
    return float(units.read(f"1 {PINT[unit]}", {"L": "m**3", "A": "m**2"}[_kind(unit)]))


def _kind(unit: str) -> str:
    return "A" if unit.endswith("2") else "L"


def _ends(unit: str, ends: tuple[float, float]) -> tuple[float, float]:
    """Give ends in a typed unit, rounded inward: the page takes nothing the command refuses."""
    low, high = (end / each_in_si(unit) for end in ends)
    return math.ceil(low * 100 - 1e-6) / 100, math.floor(high * 100 + 1e-6) / 100


def _heats(catalog: Catalog) -> tuple[float, float]:
    low, high = HEATS_C
    return (fahrenheit(low), fahrenheit(high)) if is_us(catalog) else (low, high)


def _fields(catalog: Catalog) -> list[Field]:
    liquid, room, face, heat = typed_units(catalog)
    us, shop = is_us(catalog), catalog.shop
    minutes = tuple(end / 60 for end in TIMES_S)
    own = shop.room_m3 and f"{shop.room_m3 / each_in_si(room):.6g}"
    changes = "blank: not measured" if shop.air_changes is None else "blank: the shop's own"
    used = [(one.id, one.name) for one in air_solvents(catalog)]
    (_, most), (least, widest), (_, largest) = (
        _ends(unit, ends)
        for unit, ends in ((liquid, AMOUNTS_M3), (room, ROOMS_M3), (face, FACES_M2))
    )
    warm = _heats(catalog)
    task, place = "Task", "Room"
    return [
        Field("solvent", "Solvent", kind="choice", choices=tuple(used), default=EXAMPLE,
              group=task),
        Field("amount", "Used in one task", SHOWN[liquid], default=AMOUNT[us], above=0, high=most,
              group=task),
        Field("over", "One task takes", "min", default=OVER, low=minutes[0], high=minutes[1],
              group=task),
        Field("repeat", "Such tasks in a day", default="1", low=TASKS[0], high=TASKS[1],
              whole=True, group=task),
        Field("every", "From start to start (blank: one right after another)", "min",
              low=minutes[0], high=minutes[1], blank=True, group=task),
        Field("area", "Wet face (blank: all of it evaporates)", SHOWN[face], above=0, high=largest,
              blank=True, group=task),
        Field("room", "Volume", SHOWN[room], default=own or ROOM[us], low=least, high=widest,
              group=place),
        Field("changes", f"Air changes an hour ({changes})", default="" if shop.air_changes
              else CHANGES, low=CHANGES_H[0], high=CHANGES_H[1], blank=True, group=place),
        Field("temperature", "Heat of the air (blank: not read)", SHOWN[heat], low=warm[0],
              high=warm[1], blank=True, group=place),
        Field("start", "Vapour in it before (blank: none)", "ppm", low=0, high=STARTS[1] * 1e6,
              blank=True, group=place),
        Field("heat", "Heat or sparks in it", kind="choice", group=place,
              choices=(("", "none named yet"), *((id_, what) for id_, (what, _) in HEATS.items()))),
    ]  # fmt: skip


def example_task(catalog: Catalog) -> AirTask:
    """Give the worked example, as it is typed."""
    liquid, room, *_ = typed_units(catalog)
    us = is_us(catalog)
    return AirTask(
        EXAMPLE,
        seconds=float(OVER) * 60,
        amount=in_si(float(AMOUNT[us]), each_in_si(liquid)),
        room=in_si(float(ROOM[us]), each_in_si(room)),
        changes=float(CHANGES),
    )


def _example(catalog: Catalog) -> Answer:
    return air(catalog, example_task(catalog))


def _tables(_: Catalog) -> list[Element]:
    svg = drawing(TITLE, TITLE, size=f"0 0 {AIR_SIZE[0]:g} {AIR_SIZE[1]:g}")
    svg.set("data-chart", "air")
    chart = element("figure", svg, element("figcaption", f"{TITLE}. {KEY}"), alt=TITLE)
    return [chart, compact_table("limits", HEADS)]


def _data(catalog: Catalog) -> dict[str, Any]:
    figures, us = rules(catalog), is_us(catalog)
    liquid, room, face, heat = typed_units(catalog)
    return {
        "us": us,
        "units": {"amount": liquid, "room": room, "area": face, "temperature": heat},
        "each": {"amount": each_in_si(liquid), "room": each_in_si(room), "area": each_in_si(face)},
        "rule": figures.rule,
        "pressure": figures.pressure,
        "speed": figures.speed,
        "window": figures.window,
        "unknown": figures.unknown,
        "celsius": figures.celsius,
        "changes": catalog.shop.air_changes,
        "longest": TIMES_S[1],
        "size": list(AIR_SIZE),
        "title": TITLE,
        "heats": {name: list(words) for name, words in HEATS.items()},
        "refused": REFUSED,
        "look": asked_for(),
        "solvents": {one.id: _solvent(catalog, one.id) for one in air_solvents(catalog)},
    }


def _solvent(catalog: Catalog, name: str) -> dict[str, Any]:
    parts = liquid_parts(catalog, name)
    return {
        "name": catalog.solvents[name].name,
        "parts": [_short(one.numbers) for one in parts],
        "laws": [_short(one.law) for one in parts],
        "flash": _short(flash_ends(catalog, name)),
        "limits": [
            [one.label, one.which, *map(list, one.terms)] for one in limit_rows(catalog, name)
        ],
    }


def _short(numbers: Iterable[float]) -> list[float]:
    """Give whole numbers as such: they take less room in the page's data."""
    return [int(one) if one == int(one) else one for one in numbers]


def _worked(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the example step by step, then its answer, then its limits."""
    asked, unit = AMOUNT[is_us(catalog)], typed_units(catalog)
    name = catalog.solvents[EXAMPLE].name
    yield paragraph(
        element("strong", "Worked example."),
        f" {name}, {asked} {SHOWN[unit[0]]} used up in {OVER} minutes in a room of"
        f" {ROOM[is_us(catalog)]} {SHOWN[unit[1]]} with {CHANGES} air change an hour; no heat and"
        " no sparks in the room.",
    )
    yield table(["By hand", "Example", "Yours"], [[*row, ""] for row in _steps(catalog)])
    yield chart_of(catalog, example_task(catalog))
    said = answer.answer["said"]
    yield table(["Found", "Example", YOURS], [[row, said[row], ""] for row in AIR_ROWS])
    rows = [[one["label"], *one["said"][1:3], ""] for one in answer.answer["against"]]
    yield table(["Limit", *HEADS[1:3], "Yours"], rows)


def chart_of(catalog: Catalog, task: AirTask) -> Element:
    """Draw the air of a room over time as the page does, from the same marks."""
    figures, parts = rules(catalog), liquid_parts(catalog, task.solvent)
    room, _ = room_of(catalog, task, figures)
    vapours, times = vapours_of(task, parts, room, figures), times_of(task)
    starts, seconds = start_shares(vapours, task.start), curve_times(times)
    low, high, near = (
        air_curve(vapours, starts, room, times, seconds, corner, factor)
        for corner, factor in ((0, 1.0), (1, 1.0), (1, figures.rule[1]))
    )
    rows = [one for one in limit_rows(catalog, task.solvent) if one.terms and len(parts) == 1]
    levels = [limit_line(one.terms[0][2], int(one.terms[0][1]), vapours[0], room) for one in rows]
    names = [one.label.rpartition(" (")[0] for one in rows]
    marks = air_marks(seconds, low, high, near, levels, names, AIR_SIZE)
    words = air_chart_words(seconds, low, high, near, levels, names)
    svg = drawing(TITLE, words, *strokes(marks), size=f"0 0 {AIR_SIZE[0]:g} {AIR_SIZE[1]:g}")
    return element("figure", svg, element("figcaption", f"{TITLE}. {KEY}"), alt=words)


def _steps(catalog: Catalog) -> Iterable[tuple[str, str]]:
    """Give the steps by hand at the high corner, each with its number."""
    task, figures = example_task(catalog), rules(catalog)
    parts = liquid_parts(catalog, EXAMPLE)
    room, _ = room_of(catalog, task, figures)
    (vapour,) = vapours_of(task, parts, room, figures)
    mass, volume, changes = vapour[1], room[0], room[1]
    settled = settled_level(mass / task.seconds, volume, changes)
    at_end = level_during(0, settled, changes, task.seconds)
    yield "Liquid", f"{upward(mass * 1e3)} g"
    yield "By the volume of the room", f"{upward(mass / volume * 1e6)} mg/m³"
    yield "It would settle at", f"{upward(settled * 1e6)} mg/m³"
    yield "At the end of the task", f"{upward(at_end * 1e6)} mg/m³"
    share = share_loads([at_end * volume] * 2 + vapour[2:], room)
    yield "The same by volume", level_said(share, [at_end, at_end])
    yield "Times the near factor", f"{printed(figures.rule[0], 0)} to {printed(figures.rule[1], 0)}"


WORKSHEET = Worksheet(
    id="air",
    title="How much vapour is in the room",
    command="benchbinder air acetone --amount 20mL --over 15min --room 30m3",
    fields=_fields,
    formulas=(
        "liquid_mass",
        "vapour_given_off",
        "settled_level",
        "level_during",
        "level_after",
        "mass_in_air",
        "share_in_air",
        "saturated_share",
        "alike_sum",
        "time_to_clear",
        "air_changes_for",
    ),
    example=_example,
    rows=(
        ("look", "Look for"),
        *((f"air-{place}", words) for place, words in enumerate(AIR_ROWS)),
    ),
    tables=_tables,
    worked=_worked,
    data=_data,
    lines=(
        "Liquid, can, safety data sheet of",
        "Heat and sparks found in the room",
        "Extraction on, or outdoors",
        "Who is told, who stays within call",
        "Cleared and looked at again, at",
    ),
    limit=LIMIT,
    before=BEFORE,
)
