"""Exercises on what an instrument needs: plates, tongues, valves, wax, pots, strips, glue."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from formulas.jobs.quick_steps import pots_range, valves_range
from formulas.jobs.supplies import glue_mass
from formulas.practice.bench import (
    between,
    counted,
    ends_of,
    finished,
    number,
    percent,
    short,
    step,
    whole_down,
    whole_up,
)
from formulas.practice.exercise import ABOVE, ONE_STEP, SOME_STEPS, WHOLE_JOB, Made, made
from formulas.practice.hot_wax import drawn_blend, losses
from formulas.practice.needs_jobs import stock_to_buy, supplies_to_buy, wax_to_buy
from formulas.practice.needs_words import gap_of, ranks_drawn, side_by_side
from formulas.wax.batch import component_mass, plates_total

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw


def exercise(catalog: Catalog, grade: int, draw: Draw) -> Made:
    """Make an exercise on a needs list."""
    return finished(draw.in_turn([partial(task, catalog) for task in VARIANTS[grade]]))


def _plates(catalog: Catalog, draw: Draw) -> Made:
    ranks = ranks_drawn(catalog, draw)
    return made(
        (ranks.said, "How many plates are there?"),
        (counted("Plates", ranks.plates),),
        (ranks.counted,),
        {"variant": "plates", "ranks": ranks.given},
    )


def _wax(catalog: Catalog, draw: Draw) -> Made:
    plates, each = draw.ranged("needs-list-plates"), draw.ranged("needs-list-plate-wax")
    strain, left = losses(catalog)
    total = plates_total(plates, each / 1000, strain, left, 1.0)
    return made(
        (
            f"{plates:g} plates take {each:g} g of wax each. The straining cloth keeps"
            f" {percent(strain):g} % of the batch, pot and stirrer {percent(left):g} % of what is"
            " left.",
            "How much wax is weighed out?",
        ),
        (number("Wax to weigh out", total, "g", 0, ONE_STEP, ABOVE),),
        (
            step(
                "Wax", f"{plates:g} × {each:g} / ((1 − {strain:g}) × (1 − {left:g}))", total, "g"
            ),
        ),
        {
            "variant": "wax", "plates": plates, "plate_wax_g": each, "strained": strain,
            "left_in_pot": left,
        },
    )  # fmt: skip


def _pots(_catalog: Catalog, draw: Draw) -> Made:
    plates, rate = draw.ranged("needs-list-plates"), draw.ranged("needs-list-plates-hour")
    hours = draw.ranged("needs-list-hours")
    each = plates / (rate * hours)
    whole_up(each)
    pots = pots_range(plates, 3600 * hours, [rate / 3600, rate / 3600], 1.0)[0]
    return made(
        (
            f"{plates:g} plates are to be bedded, {rate:g} in an hour. A session is {hours:g}"
            " hours, and each session has its own pot.",
            "How many pots is that?",
        ),
        (counted("Pots", pots),),
        (step("Sessions", f"{plates:g} / ({rate:g} × {hours:g})", each) + f" So {pots:g}.",),
        {"variant": "pots", "plates": plates, "plates_hour": rate, "hours": hours},
    )


def _to_buy(catalog: Catalog, draw: Draw) -> Made:
    wax, total = drawn_blend(catalog, draw), draw.ranged("needs-list-wax")
    have = draw.ranged("needs-list-have")
    buy = component_mass(total, wax.shares[0]) - have
    between(buy, 10, 1000)
    return made(
        (
            f"A job takes {total:g} g of {wax.said}.",
            f"On the shelf are {have:g} g of {wax.names[0]} that no other job keeps back.",
            f"How much {wax.names[0]} is bought?",
        ),
        (number("To buy", buy, "g", 0, ONE_STEP, ABOVE),),
        (
            step(
                "To buy", f"{total:g} × {wax.parts[0]:g} / {sum(wax.parts):g} − {have:g}", buy, "g"
            ),
        ),
        {"variant": "to-buy", "wax_g": total, "parts": list(wax.parts), "have_g": have},
    )


def _valves(catalog: Catalog, draw: Draw) -> Made:
    ranks, bare = ranks_drawn(catalog, draw), draw.ranged("needs-list-bare")
    tongues = ranks.plates * ranks.tongues
    valves = valves_range(tongues, [bare, bare, bare])[1]
    return made(
        (
            ranks.said,
            f"Each plate has {ranks.tongues:g} tongues, and each tongue has a valve, but for the"
            f" {bare:g} smallest at the top.",
            "How many tongues and how many valves are there?",
        ),
        (counted("Tongues", tongues), counted("Valves", valves)),
        (
            ranks.counted,
            step("Tongues", f"{ranks.plates:g} × {ranks.tongues:g}", tongues),
            step("Valves", f"{tongues:g} − {bare:g}", valves),
        ),
        {"variant": "valves", "ranks": ranks.given, "tongues": ranks.tongues, "bare": bare},
    )


def _wax_less_sticks(catalog: Catalog, draw: Draw) -> Made:
    plates, each = draw.ranged("needs-list-plates"), draw.ranged("needs-list-plate-wax")
    have, (_, left) = draw.ranged("needs-list-have"), losses(catalog)
    total = plates_total(plates, each / 1000, 0.0, left, 1.0)
    between(total - have, 10, 1000)
    return made(
        (
            f"{plates:g} plates take {each:g} g of wax each. Sticks that were strained before are"
            f" melted; pot and stirrer keep {percent(left):g} % of them.",
            f"{have:g} g of sticks are ready and kept for no other job.",
            "How many grams of sticks does the job take, and how many are still to be cast?",
        ),
        (
            number("Sticks in all", total, "g", 0, SOME_STEPS),
            number("Still to cast", total - have, "g", 0, SOME_STEPS),
        ),
        (
            step("On the plates", f"{plates:g} × {each:g}", plates * each, "g"),
            step("Sticks", f"{short(plates * each)} / (1 − {left:g})", total, "g"),
            step("To cast", f"{short(total)} − {have:g}", total - have, "g"),
        ),
        {
            "variant": "wax-less-sticks", "plates": plates, "plate_wax_g": each,
            "left_in_pot": left, "have_g": have,
        },
    )  # fmt: skip


def _strips(catalog: Catalog, draw: Draw) -> Made:
    wanted, long = draw.ranged("needs-list-strips"), draw.ranged("needs-list-strip-long")
    room, gap = draw.ranged("needs-list-piece-long"), gap_of(catalog)
    whole_down((room + gap) / (long + gap))
    each = side_by_side(room, long, gap)
    strips = whole_up(wanted / each)
    return made(
        (
            f"{wanted:g} valves of one width, {long:g} mm long, are snipped from long strips of"
            f" {room:g} mm. Between two of them {gap:g} mm is left.",
            "How many come from one long strip, and how many long strips are cut?",
        ),
        (counted("Valves from one strip", each), counted("Long strips", strips)),
        (
            step(
                "From one", f"({room:g} + {gap:g}) / ({long:g} + {gap:g})",
                (room + gap) / (long + gap),
            )
            + f" So {each:g} whole ones.",
            step("Long strips", f"{wanted:g} / {each:g}", wanted / each) + f" So {strips:g}.",
        ),
        {
            "variant": "strips", "wanted": wanted, "long_mm": long, "room_mm": room, "gap_mm": gap,
        },
    )  # fmt: skip


def _glue(catalog: Catalog, draw: Draw) -> Made:
    valves, wide = draw.ranged("needs-list-valves"), draw.ranged("needs-list-strip-wide")
    land = draw.ranged("needs-list-land")
    film, density = (
        ends_of(catalog, "glue-film", "mm")[1],
        ends_of(catalog, "glue-density", "g/cm**3")[1],
    )
    times = ends_of(catalog, "glue-taken-times", "dimensionless")[1]
    one = 1e6 * glue_mass(wide / 1000, land / 1000, film / 1000, 1000 * density)
    stays, taken = one * valves / 1000, times * one * valves / 1000
    return made(
        (
            f"{valves:g} valves, {wide:g} mm wide, are glued on a land of {land:g} mm. The wet film"
            f" is {film:g} mm, and 1 mm³ of glue weighs {density:g} mg.",
            f"From the tin {times:g} times as much is taken as stays under the valves.",
            "How much glue stays under the valves, and how much is taken?",
        ),
        (
            number("Glue that stays", stays, "g", 2, SOME_STEPS),
            number("Glue taken", taken, "g", 1, SOME_STEPS),
        ),
        (
            step("One valve", f"{wide:g} × {land:g} × {film:g} × {density:g}", one, "mg"),
            step("All", f"{valves:g} × {short(one)} / 1000", stays, "g"),
            step("Taken", f"{times:g} × {short(stays)}", taken, "g"),
        ),
        {
            "variant": "glue", "valves": valves, "width_mm": wide, "land_mm": land,
            "film_mm": film, "density_mg_mm3": density, "times": times,
        },
    )  # fmt: skip


VARIANTS = {
    ONE_STEP: (_plates, _wax, _pots, _to_buy),
    SOME_STEPS: (_valves, _wax_less_sticks, _strips, _glue),
    WHOLE_JOB: (wax_to_buy, stock_to_buy, supplies_to_buy),
}
