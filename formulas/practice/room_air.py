"""Exercises on vapour in a room: from millilitres on a rag to parts in a million.

No answer here lets anybody work: where heat or sparks are in the room, they go first.
"""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING

from formulas.air.conversion import ppm_in_air
from formulas.air.evaporation import liquid_mass
from formulas.air.found import clear_range
from formulas.air.room import WORKDAY, settled_level, time_to_clear
from formulas.practice.bench import between, ends_of, finished, number, over, percent, short, step
from formulas.practice.exercise import (
    ABOVE,
    ONE_STEP,
    SOME_STEPS,
    WHOLE_JOB,
    Choice,
    Made,
    made,
)
from formulas.practice.room_heat import first_things, what_goes_first
from formulas.practice.room_jobs import air_needed, bigger_rag, second_rag, wet_rag
from formulas.practice.vapour_words import (
    PASSED,
    PERCENT_TO_PPM,
    air_drawn,
    vapour_drawn,
)
from formulas.units import printed

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw


def exercise(catalog: Catalog, grade: int, draw: Draw) -> Made:
    """Make an exercise on vapour in a room."""
    return finished(draw.in_turn([partial(task, catalog) for task in VARIANTS[grade]]))


def _grams(catalog: Catalog, draw: Draw) -> Made:
    one, amount = vapour_drawn(catalog, draw), draw.ranged("room-air-amount")
    mass = 1000 * liquid_mass(amount / 1e6, 1000 * one.density)
    return made(
        (
            f"{amount:g} mL of {one.name} dry off a rag. The solvent weighs {one.density:g} g a"
            " mL.",
            "How many grams go into the air?",
        ),
        (number("Vapour", mass, "g", 1, ONE_STEP),),
        (step("Vapour", f"{amount:g} × {one.density:g}", mass, "g"),),
        {"variant": "grams", "amount_ml": amount, "density_g_ml": one.density},
    )


def _parts_in_a_million(catalog: Catalog, draw: Draw) -> Made:
    one, air = vapour_drawn(catalog, draw), air_drawn(catalog, draw)
    level = draw.ranged("room-air-level")
    ppm = ppm_in_air(level, one.molar, air.celsius, air.pascals)
    return made(
        (
            f"The air of a room holds {level:g} mg of {one.name} in each cubic metre. One mole of"
            f" it weighs {one.molar:g} g.",
            air.said,
            "How many ppm is that?",
        ),
        (number("Level", ppm, "ppm", 0, ONE_STEP, ABOVE),),
        (step("Level", f"{level:g} × {air.litres:g} / {one.molar:g}", ppm, "ppm"),),
        {
            "variant": "parts-in-a-million", "level_mg_m3": level, "molar_g_mol": one.molar,
            "celsius": air.celsius, "litres_mol": air.litres,
        },
    )  # fmt: skip


def _half_gone(_catalog: Catalog, draw: Draw) -> Made:
    changes, two = draw.ranged("room-air-changes"), float(printed(math.log(2), 4))
    minutes = time_to_clear(0.5, changes / 3600) / 60
    return made(
        (
            f"The air of a room is changed {changes:g} times an hour and well stirred. The rag is"
            " in its can, and nothing more evaporates.",
            f"The natural logarithm of 2 is {two:g}.",
            "After how many minutes is half of the level left?",
        ),
        (number("Time to half", minutes, "min", 0, ONE_STEP, ABOVE),),
        (step("Time", f"{two:g} / {changes:g} × 60", minutes, "min"),),
        {"variant": "half-gone", "changes_h": changes},
    )


def _of_the_explosive_limit(catalog: Catalog, draw: Draw) -> Made:
    one, level = vapour_drawn(catalog, draw), 10 * draw.ranged("room-air-level")
    share = one.explosive_percent(level)
    between(share, 1, 100)
    return made(
        (
            f"Near a rag the air holds {level:g} ppm of {one.name}.",
            one.explosive_said,
            "What share of that limit is it?",
        ),
        (number("Of the lower explosive limit", share, "percent", 1, ONE_STEP, ABOVE),),
        (
            step(
                "Share", f"{level:g} / ({one.explosive:g} × {PERCENT_TO_PPM}) × 100", share,
                "percent",
            ),
        ),
        {
            "variant": "of-the-explosive-limit", "level_ppm": level,
            "explosive_percent": one.explosive,
        },
    )  # fmt: skip


def _closed_room(catalog: Catalog, draw: Draw) -> Made:
    one, air = vapour_drawn(catalog, draw), air_drawn(catalog, draw)
    amount, room = draw.ranged("room-air-amount"), draw.ranged("room-air-room")
    mass = 1e6 * liquid_mass(amount / 1e6, 1000 * one.density)
    level = mass / room
    ppm = ppm_in_air(level, one.molar, air.celsius, air.pascals)
    between(ppm, 5, 1e5)
    return made(
        (
            f"{amount:g} mL of {one.name} dry off a rag in a closed room of {room:g} m³. The"
            f" solvent weighs {one.density:g} g a mL, and one mole of it {one.molar:g} g.",
            air.said,
            "If all of it were in the air at once and evenly, what would the level be?",
        ),
        (
            number("Level", level, "mg/m**3", 0, SOME_STEPS, ABOVE),
            number("The same in ppm", ppm, "ppm", 0, SOME_STEPS, ABOVE),
        ),
        (
            step("Vapour", f"{amount:g} × {one.density:g} × 1000", mass, "mg"),
            step("Level", f"{short(mass)} / {room:g}", level, "mg/m**3"),
            step("The same", f"{short(level)} × {air.litres:g} / {one.molar:g}", ppm, "ppm"),
        ),
        {
            "variant": "closed-room", "amount_ml": amount, "density_g_ml": one.density,
            "room_m3": room, "molar_g_mol": one.molar, "celsius": air.celsius,
            "litres_mol": air.litres,
        },
    )  # fmt: skip


def _cleared(catalog: Catalog, draw: Draw) -> Made:
    changes = draw.ranged("room-air-changes")
    left = ends_of(catalog, "clear-share", "dimensionless")[0]
    worst = ends_of(catalog, "air-mixing-worst", "1")[1]
    room = [1.0, changes / 3600, changes / 3600]
    well, badly = (clear_range(left, room, by)[0] / 60 for by in (1.0, worst))
    log = float(printed(math.log(1 / left), 3))
    return made(
        (
            f"The air of a room is changed {changes:g} times an hour. Nothing more evaporates.",
            f"Cleared means here that {percent(left):g} % of the level is left; the natural"
            f" logarithm of {1 / left:g} is {log:g}. Badly stirred air takes up to {worst:g} times"
            " as long.",
            "How many minutes does it take well stirred, and how many hours badly stirred?",
        ),
        (
            number("Well stirred", well, "min", 0, SOME_STEPS, ABOVE),
            number("Badly stirred", badly / 60, "h", 1, SOME_STEPS, ABOVE),
        ),
        (
            step("Well stirred", f"{log:g} / {changes:g} × 60", well, "min"),
            step("Badly stirred", f"{worst:g} × {short(well)} / 60", badly / 60, "h"),
        ),
        {"variant": "cleared", "changes_h": changes, "left": left, "worst": worst},
    )


def _kept_under(catalog: Catalog, draw: Draw) -> Made:
    one, level = vapour_drawn(catalog, draw), draw.ranged("room-air-level")
    near = ends_of(catalog, "near-source-factor", "1")[1]
    kept = 100 * ends_of(catalog, "explosive-share-kept", "dimensionless")[0]
    share = one.explosive_percent(near * level)
    right = PASSED[not over(share, kept)]
    between(share, 0.5, 60)
    return made(
        (
            f"Through the room the air holds {level:g} ppm of {one.name}. Near the source it counts"
            f" {near:g} times as much.",
            one.explosive_said,
            f"The book asks to stay under {kept:g} % of that limit, near the source as well, and"
            " still to have all heat and sparks out of the room.",
            f"What share of the limit is it near the source, and are the {kept:g} % passed?",
        ),
        (
            number("Near the source", share, "percent", 1, SOME_STEPS, ABOVE),
            Choice("The figure", right, PASSED),
        ),
        (
            step("Near the source", f"{near:g} × {level:g}", near * level, "ppm"),
            step(
                "Share", f"{short(near * level)} / ({one.explosive:g} × {PERCENT_TO_PPM}) × 100",
                share, "percent",
            ),
            f"{short(share)} % against {kept:g} %: {right}.",
        ),
        {
            "variant": "kept-under", "level_ppm": level, "near": near, "kept_percent": kept,
            "explosive_percent": one.explosive,
        },
    )  # fmt: skip


def _whole_day(catalog: Catalog, draw: Draw) -> Made:
    one, air = vapour_drawn(catalog, draw), air_drawn(catalog, draw)
    room, changes = draw.ranged("room-air-room"), draw.ranged("room-air-changes")
    limit, grams = one.limit(draw, "8h"), draw.ranged("room-air-day")
    hours = WORKDAY / 3600
    level = 1e6 * settled_level(grams / 1000 / WORKDAY, room, changes / 3600)
    ppm = ppm_in_air(level, one.molar, air.celsius, air.pascals)
    right = PASSED[not over(ppm, limit.value or 0.0)]
    return made(
        (
            f"In a day of {hours:g} hours {grams:g} g of {one.name} go evenly into a room of"
            f" {room:g} m³ whose air is changed {changes:g} times an hour. One mole of it weighs"
            f" {one.molar:g} g.",
            air.said,
            f"A limit: {limit.label}.",
            "At what level, in ppm, does the room settle, and is that limit passed?",
        ),
        (
            number("Level", ppm, "ppm", 0, SOME_STEPS, ABOVE),
            Choice("The limit", right, PASSED),
        ),
        (
            step(
                "Level", f"{grams:g} × 1000 / ({hours:g} × {changes:g} × {room:g})", level,
                "mg/m**3",
            ),
            step("The same", f"{short(level)} × {air.litres:g} / {one.molar:g}", ppm, "ppm"),
            f"{short(ppm)} ppm against {limit.value:g} ppm: {right}.",
        ),
        {
            "variant": "whole-day", "grams": grams, "hours": hours, "room_m3": room,
            "changes_h": changes, "molar_g_mol": one.molar, "celsius": air.celsius,
            "litres_mol": air.litres, "limit_ppm": limit.value or 0.0,
        },
    )  # fmt: skip


VARIANTS = {
    ONE_STEP: (
        _grams, what_goes_first, _parts_in_a_million, _of_the_explosive_limit, _half_gone,
    ),
    SOME_STEPS: (_closed_room, first_things, _cleared, _kept_under, _whole_day),
    WHOLE_JOB: (wet_rag, bigger_rag, air_needed, second_rag),
}  # fmt: skip
