"""Exercises of a whole job with vapour: a rag, a bigger one, a second one, the air it asks for."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from formulas.air.conversion import mg_per_m3, ppm_in_air
from formulas.air.evaporation import liquid_mass
from formulas.air.room import (
    WORKDAY,
    air_changes_for,
    level_after,
    level_during,
    settled_level,
)
from formulas.practice.bench import between, ends_of, number, over, short, step
from formulas.practice.exercise import ABOVE, BELOW, WHOLE_JOB, Choice, Made, made
from formulas.practice.vapour_words import (
    FIRST,
    PASSED,
    PERCENT_TO_PPM,
    Air,
    Vapour,
    air_drawn,
    heat_drawn,
    vapour_drawn,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw

WINDOW = ("more than a window can be counted on for", "not more, by this reckoning")


def _left(words: str, times: float) -> str:
    rest = short(math.exp(-times))
    return f"{words}, by table or calculator: e to the minus {short(times)} = {rest}."


def _at_the_end(one: Vapour, amount: float, room: float, changes: float, minutes: float) -> float:
    """Give the level in mg/m3 at the end of a task that began in clean air."""
    seconds, n = 60 * minutes, changes / 3600
    mass = liquid_mass(amount / 1e6, 1000 * one.density)
    return 1e6 * level_during(0.0, settled_level(mass / seconds, room, n), n, seconds)


def _level_steps(
    one: Vapour, amount: float, room: float, changes: float, minutes: float
) -> list[str]:
    """Give the lines from an amount to the level at the end of a task."""
    mass = 1000 * amount * one.density
    rate, times = mass / minutes * 60, changes * minutes / 60
    settled, rest = rate / (changes * room), math.exp(-times)
    level = _at_the_end(one, amount, room, changes, minutes)
    return [
        step("Vapour", f"{amount:g} × {one.density:g} × 1000", mass, "mg"),
        step("In an hour", f"{short(mass)} / {minutes:g} × 60", rate, "mg"),
        step("It would settle at", f"{short(rate)} / ({changes:g} × {room:g})", settled, "mg/m**3"),
        step("Air changes in the task", f"{changes:g} × {minutes:g} / 60", times),
        _left("Still missing", times),
        step("Level at the end", f"{short(settled)} × (1 − {short(rest)})", level, "mg/m**3"),
    ]


def _told(one: Vapour, amount: float, room: float, changes: float, minutes: float) -> str:
    return (
        f"{amount:g} mL of {one.name} dry evenly off a rag in {minutes:g} minutes. The solvent"
        f" weighs {one.density:g} g a mL, one mole of it {one.molar:g} g. The room is {room:g}"
        " m³, well"
        f" stirred, clean at the start, and its air is changed {changes:g} times an hour."
    )


def _given(
    one: Vapour, air: Air, amount: float, room: float, changes: float, minutes: float
) -> dict[str, float | str | list[float]]:
    return {
        "amount_ml": amount, "density_g_ml": one.density, "molar_g_mol": one.molar,
        "room_m3": room, "changes_h": changes, "minutes": minutes, "celsius": air.celsius,
        "litres_mol": air.litres, "explosive_percent": one.explosive,
    }  # fmt: skip


def _task(draw: Draw) -> tuple[float, float, float, float]:
    names = ("amount", "room", "changes", "minutes")
    amount, room, changes, minutes = (draw.ranged(f"room-air-{name}") for name in names)
    return amount, room, changes, minutes


def wet_rag(catalog: Catalog, draw: Draw) -> Made:
    """Ask for the level at the end of a task, and what comes before all of it."""
    one, air, task = vapour_drawn(catalog, draw), air_drawn(catalog, draw), _task(draw)
    heat, said, first = heat_drawn(draw)
    level = _at_the_end(one, *task)
    ppm = ppm_in_air(level, one.molar, air.celsius, air.pascals)
    share = one.explosive_percent(ppm)
    between(share, 0.2, 50)
    return made(
        (
            _told(one, *task),
            air.said,
            one.explosive_said,
            said,
            "What is the level in the room at the end, what share of the explosive limit is it, and"
            " what has to be done first?",
        ),
        (
            number("Level at the end", ppm, "ppm", 0, WHOLE_JOB, ABOVE),
            number("Of the lower explosive limit", share, "percent", 2, WHOLE_JOB, ABOVE),
            Choice("What comes first", first, FIRST),
        ),
        (
            *_level_steps(one, *task),
            step("The same", f"{short(level)} × {air.litres:g} / {one.molar:g}", ppm, "ppm"),
            step(
                "Share", f"{short(ppm)} / ({one.explosive:g} × {PERCENT_TO_PPM}) × 100", share,
                "percent",
            ),
            f"However small it is, first: {first}.",
        ),
        {"variant": "wet-rag", **_given(one, air, *task), "heat": heat},
    )  # fmt: skip


def bigger_rag(catalog: Catalog, draw: Draw) -> Made:
    """Ask from which amount on the share that is kept under is reached near the source."""
    one, air, task = vapour_drawn(catalog, draw), air_drawn(catalog, draw), _task(draw)
    near = ends_of(catalog, "near-source-factor", "1")[1]
    kept = 100 * ends_of(catalog, "explosive-share-kept", "dimensionless")[0]
    more = draw.ranged("room-air-bigger")
    level = _at_the_end(one, *task)
    ppm = ppm_in_air(level, one.molar, air.celsius, air.pascals)
    share = one.explosive_percent(near * ppm)
    most = task[0] * kept / share
    right = PASSED[not over(more, most)]
    between(most, 5, 500)
    return made(
        (
            _told(one, *task),
            air.said,
            f"{one.explosive_said} The book asks to stay under {kept:g} % of that limit near the"
            f" source, where the level counts {near:g} times that of the room.",
            f"The next rag holds {more:g} mL and dries in the same time. All heat and sparks are"
            " out of the room.",
            "What share of the limit does the first rag bring near the source, from how many mL on"
            f" are the {kept:g} % reached, and does the next rag pass them?",
        ),
        (
            number("First rag", share, "percent", 1, WHOLE_JOB, ABOVE),
            number("Reached from", most, "mL", 0, WHOLE_JOB, BELOW),
            Choice("The figure", right, PASSED),
        ),
        (
            *_level_steps(one, *task),
            step("The same", f"{short(level)} × {air.litres:g} / {one.molar:g}", ppm, "ppm"),
            step(
                "Near the source",
                f"{near:g} × {short(ppm)} / ({one.explosive:g} × {PERCENT_TO_PPM}) × 100",
                share, "percent",
            ),
            step("Reached from", f"{task[0]:g} × {kept:g} / {short(share)}", most, "mL"),
            f"{more:g} mL against {short(most)} mL: {right}.",
        ),
        {
            "variant": "bigger-rag", **_given(one, air, *task), "near": near,
            "kept_percent": kept, "bigger_ml": more,
        },
    )  # fmt: skip


def air_needed(catalog: Catalog, draw: Draw) -> Made:
    """Ask for the air changes that a limit of eight hours asks for."""
    one, air = vapour_drawn(catalog, draw), air_drawn(catalog, draw)
    amount, times = draw.ranged("room-air-amount"), draw.ranged("room-air-times")
    room, limit = draw.ranged("room-air-room"), one.limit(draw, "8h")
    window = ends_of(catalog, "air-changes-window", "1/h")[0]
    day = 1e6 * liquid_mass(times * amount / 1e6, 1000 * one.density)
    most = mg_per_m3(limit.value or 0.0, one.molar, air.celsius, air.pascals)
    changes = 3600 * air_changes_for(day / 1e6, WORKDAY, WORKDAY, room, most / 1e6)
    right = WINDOW[not over(changes, window)]
    between(changes, 0.2, 20)
    hours = WORKDAY / 3600
    return made(
        (
            f"On a day of {hours:g} hours {times:g} rags dry in a room of {room:g} m³, each with"
            f" {amount:g} mL of {one.name}. The solvent weighs {one.density:g} g a mL, one mole"
            f" of it {one.molar:g} g.",
            air.said,
            f"A limit: {limit.label}.",
            f"An open window can be counted on for {window:g} change an hour.",
            "How many milligrams in a cubic metre is the limit, how many air changes an hour does"
            " it ask for, and is that more than a window gives?",
        ),
        (
            number("The limit", most, "mg/m**3", 0, WHOLE_JOB, BELOW),
            number("Air changes", changes, "1/h", 2, WHOLE_JOB, ABOVE),
            Choice("A window", right, WINDOW),
        ),
        (
            step("In the day", f"{times:g} × {amount:g} × {one.density:g} × 1000", day, "mg"),
            step("The limit", f"{limit.value:g} × {one.molar:g} / {air.litres:g}", most, "mg/m**3"),
            step(
                "Air changes", f"{short(day)} / ({hours:g} × {room:g} × {short(most)})", changes,
                "1/h",
            ),
            f"{short(changes)} against {window:g}: {right}. The source itself stands higher.",
        ),
        {
            "variant": "air-needed", "amount_ml": amount, "times": times,
            "density_g_ml": one.density, "molar_g_mol": one.molar, "room_m3": room,
            "hours": hours, "celsius": air.celsius, "litres_mol": air.litres,
            "limit_ppm": limit.value or 0.0, "window_h": window,
        },
    )  # fmt: skip


def second_rag(catalog: Catalog, draw: Draw) -> Made:
    """Ask for what is left of one task when the next begins, and for the level after both."""
    one, task = vapour_drawn(catalog, draw), _task(draw)
    amount, room, changes, _ = task
    level, pause = draw.ranged("room-air-level"), draw.ranged("room-air-pause")
    heat, said, first = heat_drawn(draw)
    air = air_drawn(catalog, draw)
    n, times = changes / 3600, changes * pause / 60
    rest = level_after(level, n, 60 * pause)
    mass = 1e6 * liquid_mass(amount / 1e6, 1000 * one.density)
    spilt = mass / room
    added = ppm_in_air(spilt, one.molar, air.celsius, air.pascals)
    both = rest + added
    between(rest, 5, 0.95 * level)
    return made(
        (
            f"At the end of a task the air of a room of {room:g} m³ holds {level:g} ppm of"
            f" {one.name}. The rag goes into its can; the air is well stirred and changed"
            f" {changes:g} times an hour.",
            f"After {pause:g} minutes {amount:g} mL more are spilt and are in the air at once. The"
            f" solvent weighs {one.density:g} g a mL, one mole of it {one.molar:g} g.",
            air.said,
            said,
            "What level is left before the spill, what is the level after it, and what has to be"
            " done first?",
        ),
        (
            number("Left before", rest, "ppm", 0, WHOLE_JOB, ABOVE),
            number("Level after", both, "ppm", 0, WHOLE_JOB, ABOVE),
            Choice("What comes first", first, FIRST),
        ),
        (
            step("Air changes", f"{changes:g} × {pause:g} / 60", times),
            _left("Share left", times),
            step("Left before", f"{level:g} × {short(math.exp(-times))}", rest, "ppm"),
            step("Spilt", f"{amount:g} × {one.density:g} × 1000 / {room:g}", spilt, "mg/m**3"),
            step("The same", f"{short(spilt)} × {air.litres:g} / {one.molar:g}", added, "ppm"),
            step("Level after", f"{short(rest)} + {short(added)}", both, "ppm"),
            f"Whatever the level, first: {first}.",
        ),
        {
            "variant": "second-rag", "level_ppm": level, "pause_min": pause,
            "amount_ml": amount, "density_g_ml": one.density, "molar_g_mol": one.molar,
            "room_m3": room, "changes_h": changes, "celsius": air.celsius,
            "litres_mol": air.litres, "heat": heat,
        },
    )  # fmt: skip
