"""Exercises on the room that hot wax takes: volume, pot, sticks, and what is topped up."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from formulas.melting.heat import top_up_amount
from formulas.practice.bench import (
    between,
    counted,
    finished,
    number,
    over,
    percent,
    short,
    step,
)
from formulas.practice.exercise import (
    ABOVE,
    BELOW,
    ONE_STEP,
    SOME_STEPS,
    WHOLE_JOB,
    Choice,
    Made,
    made,
)
from formulas.practice.hot_volume_jobs import batch_to_sticks, for_plates, session, sunk_block
from formulas.practice.hot_wax import FITS, cast_sticks, drawn_blend, filled_said, filled_share
from formulas.wax.batch import melt_millilitres, pot_volume
from formulas.wax.session import stick_mass, stick_volume

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw


def exercise(catalog: Catalog, grade: int, draw: Draw) -> Made:
    """Make an exercise on the hot volume of wax."""
    return finished(draw.in_turn([partial(task, catalog) for task in VARIANTS[grade]]))


def _volume(catalog: Catalog, draw: Draw) -> Made:
    wax, mass = drawn_blend(catalog, draw), draw.ranged("hot-volume-batch")
    volume = melt_millilitres([mass / 1000], [1000 * wax.hot[0]])
    return made(
        (
            f"{mass:g} g of {wax.names[0]} are to be melted.",
            f"Hot it weighs {wax.hot[0]:g} g a mL at its lightest.",
            "How much room does it take hot?",
        ),
        (number("Hot volume", volume, "mL", 0, ONE_STEP, ABOVE),),
        (step("Hot volume", f"{mass:g} / {wax.hot[0]:g}", volume, "mL"),),
        {"variant": "volume", "mass_g": mass, "hot_g_ml": wax.hot[0]},
    )


def _brim(catalog: Catalog, draw: Draw) -> Made:
    volume, filled = draw.ranged("hot-volume-melt"), filled_share(catalog)
    pot = 1e6 * pot_volume(volume / 1e6, filled)
    return made(
        (
            f"A blend takes {volume:g} mL when it is hot.",
            filled_said(filled),
            "How much must the pot hold to its brim?",
        ),
        (number("Pot to its brim", pot, "mL", 0, ONE_STEP, ABOVE),),
        (step("To the brim", f"{volume:g} / {filled:g}", pot, "mL"),),
        {"variant": "brim", "melt_ml": volume, "filled": filled},
    )


def _stick(catalog: Catalog, draw: Draw) -> Made:
    wax = drawn_blend(catalog, draw)
    long, wide, deep = (draw.ranged(f"hot-volume-stick-{of}") for of in ("long", "wide", "deep"))
    mass = 1000 * stick_mass(stick_volume(long / 1e3, wide / 1e3, deep / 1e3), 1000 * wax.cold[0])
    return made(
        (
            f"The hollow of a stick mould is {long:g} × {wide:g} × {deep:g} mm.",
            f"Cold, {wax.names[0]} weighs {wax.cold[0]:g} g a mL; 1 mL is 1000 mm³.",
            "What does a full stick weigh?",
        ),
        (number("A full stick", mass, "g", 1, ONE_STEP),),
        (
            step("Stick", f"{long:g} × {wide:g} × {deep:g} / 1000 × {wax.cold[0]:g}", mass, "g"),
        ),
        {
            "variant": "stick", "hollow_mm": [long, wide, deep], "cold_g_ml": wax.cold[0],
        },
    )  # fmt: skip


def _top_up(catalog: Catalog, draw: Draw) -> Made:
    wax, mass = drawn_blend(catalog, draw), draw.ranged("hot-volume-batch")
    lost = draw.ranged("hot-volume-wax-loss") / 100
    more = top_up_amount(mass, lost)
    return made(
        (
            f"A block of {mass:g} g of {wax.names[0]} has set in its mould and sunk.",
            f"Setting took {percent(lost):g} % of the hot volume.",
            "What is poured on top shrinks by the same share.",
            "How much wax brings it up to the hot level?",
        ),
        (number("Wax to top up", more, "g", 0, ONE_STEP),),
        (step("Topped up", f"{mass:g} × {lost:g} / (1 − {lost:g})", more, "g"),),
        {"variant": "top-up", "mass_g": mass, "lost": lost},
    )


def _blend_volume(catalog: Catalog, draw: Draw) -> Made:
    wax = drawn_blend(catalog, draw)
    part = draw.ranged("hot-volume-part")
    masses = [part * each for each in wax.parts]
    volume = wax.millilitres(masses)
    between(volume, 100, 1500)
    return made(
        (
            f"A batch is {masses[0]:g} g of {wax.names[0]} and {masses[1]:g} g of {wax.names[1]}.",
            wax.hot_said,
            "How much room does the batch take hot?",
        ),
        (number("Hot volume", volume, "mL", 0, SOME_STEPS, ABOVE),),
        wax.warmed(sum(masses)),
        {"variant": "blend-volume", "masses_g": masses, "hot_g_ml": list(wax.hot)},
    )


def _fits(catalog: Catalog, draw: Draw) -> Made:
    wax, mass = drawn_blend(catalog, draw), draw.ranged("hot-volume-batch")
    pot, filled = draw.ranged("hot-volume-pot"), filled_share(catalog)
    volume = melt_millilitres([mass / 1000], [1000 * wax.hot[0]])
    right = FITS[over(volume, pot * filled)]
    between(volume / (pot * filled), 0.6, 1.5)
    return made(
        (
            f"{mass:g} g of {wax.names[0]} are to go into a pot of {pot:g} mL.",
            f"Hot it weighs {wax.hot[0]:g} g a mL at its lightest.",
            filled_said(filled),
            "How much room does it take hot?",
            "Does it leave the height free that the book asks for?",
        ),
        (
            number("Hot volume", volume, "mL", 0, SOME_STEPS, ABOVE),
            Choice("Free height", right, FITS),
        ),
        (
            step("Hot volume", f"{mass:g} / {wax.hot[0]:g}", volume, "mL"),
            step("May be filled", f"{pot:g} × {filled:g}", pot * filled, "mL"),
            f"{short(volume)} mL against {short(pot * filled)} mL: {right}.",
        ),
        {
            "variant": "fits", "mass_g": mass, "hot_g_ml": wax.hot[0], "pot_ml": pot,
            "filled": filled,
        },
    )  # fmt: skip


def _largest(catalog: Catalog, draw: Draw) -> Made:
    wax, pot, filled = (
        drawn_blend(catalog, draw),
        draw.ranged("hot-volume-pot"),
        filled_share(catalog),
    )
    room = pot * filled
    most = 1000 * room / melt_millilitres([1.0], [1000 * wax.hot[0]])
    return made(
        (
            f"A pot holds {pot:g} mL to its brim.",
            filled_said(filled),
            f"Hot, {wax.names[0]} weighs {wax.hot[0]:g} g a mL at its lightest.",
            "How much of it can be melted at once?",
        ),
        (number("Most wax", most, "g", 0, SOME_STEPS, BELOW),),
        (
            step("May be filled", f"{pot:g} × {filled:g}", room, "mL"),
            step("Wax", f"{short(room)} × {wax.hot[0]:g}", most, "g"),
        ),
        {"variant": "largest", "pot_ml": pot, "filled": filled, "hot_g_ml": wax.hot[0]},
    )


def _sticks(catalog: Catalog, draw: Draw) -> Made:
    wax, mass = drawn_blend(catalog, draw), draw.ranged("hot-volume-cast")
    cast = cast_sticks(draw, mass, wax.cold[0])
    return made(
        (
            f"{mass:g} g of strained {wax.names[0]} are cast into sticks.",
            cast.told,
            f"Cold the wax weighs {wax.cold[0]:g} g a mL; 1 mL is 1000 mm³.",
            "What does a full stick weigh?",
            "How many whole sticks are there?",
        ),
        (
            number("A full stick", cast.each, "g", 1, SOME_STEPS),
            counted("Whole sticks", cast.found),
        ),
        (
            *cast.steps(f"{mass:g}", f"{wax.cold[0]:g}"),
        ),
        {
            "variant": "sticks", "mass_g": mass, "hollow_mm": cast.sides, "cold_g_ml": wax.cold[0],
        },
    )  # fmt: skip


VARIANTS = {
    ONE_STEP: (_volume, _brim, _stick, _top_up),
    SOME_STEPS: (_blend_volume, _fits, _largest, _sticks),
    WHOLE_JOB: (for_plates, batch_to_sticks, sunk_block, session),
}
