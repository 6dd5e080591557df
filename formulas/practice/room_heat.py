"""Exercises on heat and sparks in a room with solvent: they go first, whatever the level."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.air.heats import HEATS
from formulas.practice.bench import between, number, step
from formulas.practice.exercise import ABOVE, SOME_STEPS, Choice, Made, Silly, made
from formulas.practice.vapour_words import (
    FIRST,
    NOT_HOT,
    ORDINALS,
    PERCENT_TO_PPM,
    heat_drawn,
    vapour_drawn,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw


def what_goes_first(catalog: Catalog, draw: Draw) -> Made:
    """Ask which of three things goes out of the room before a can is opened."""
    one, heat = vapour_drawn(catalog, draw), draw.one_of(list(HEATS))
    what, why = HEATS[heat]
    others = [draw.one_of(NOT_HOT), draw.one_of(NOT_HOT)]
    if others[0] == others[1]:
        raise Silly
    place = draw.whole(0, 2)
    there = (*others[:place], what, *others[place:])
    return made(
        (
            f"A rag is to be wetted with {one.name}. In the room there are: {'; '.join(there)}.",
            "Which of them must be out of the room, or off and cold, before the can is opened?",
        ),
        (Choice("Out first", ORDINALS[place], ORDINALS),),
        (f"Out goes {ORDINALS[place]}, {what}: {why}",),
        {"variant": "what-goes-first", "there": "|".join(there)},
    )


def first_things(catalog: Catalog, draw: Draw) -> Made:
    """Ask for the share of the explosive limit, and what comes before any figure."""
    one, level = vapour_drawn(catalog, draw), draw.ranged("room-air-level")
    heat, said, first = heat_drawn(draw)
    share = one.explosive_percent(level)
    between(share, 0.3, 8)
    return made(
        (
            f"A task with {one.name} brings {level:g} ppm into the room. {one.explosive_said}",
            said,
            "What share of the explosive limit is it, and what has to be done first?",
        ),
        (
            number("Of the lower explosive limit", share, "percent", 1, SOME_STEPS, ABOVE),
            Choice("What comes first", first, FIRST),
        ),
        (
            step(
                "Share", f"{level:g} / ({one.explosive:g} × {PERCENT_TO_PPM}) × 100", share,
                "percent",
            ),
            f"Over the liquid itself it is far more, and the figure lifts nothing: {first}.",
        ),
        {
            "variant": "first-things", "level_ppm": level, "explosive_percent": one.explosive,
            "heat": heat,
        },
    )  # fmt: skip
