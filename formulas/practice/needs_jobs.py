"""Exercises of a whole job with a needs list: what is bought of wax, stock, solvent and glue."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.cutting.blanks import spare_strips
from formulas.jobs.quick_steps import pots_range, valves_range
from formulas.jobs.supplies import glue_mass
from formulas.practice.bench import (
    between,
    counted,
    ends_of,
    number,
    percent,
    short,
    step,
    whole_down,
    whole_up,
)
from formulas.practice.exercise import ABOVE, WHOLE_JOB, Made, Silly, made
from formulas.practice.hot_wax import drawn_blend, losses
from formulas.practice.needs_words import gap_of, ranks_drawn, side_by_side
from formulas.wax.batch import plates_total

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw


def wax_to_buy(catalog: Catalog, draw: Draw) -> Made:
    """Go from the ranks to pots and to the wax that is bought."""
    ranks, wax = ranks_drawn(catalog, draw), drawn_blend(catalog, draw)
    each, have = draw.ranged("needs-list-plate-wax"), draw.ranged("needs-list-have")
    rate, hours = draw.ranged("needs-list-plates-hour"), draw.ranged("needs-list-hours")
    strain, left = losses(catalog)
    total = plates_total(ranks.plates, each / 1000, strain, left, 1.0)
    body = wax.masses(total)[0]
    sessions = ranks.plates / (rate * hours)
    whole_up(sessions)
    pots = pots_range(ranks.plates, 3600 * hours, [rate / 3600, rate / 3600], 1.0)[0]
    between(body - have, 0.1 * body, body)
    return made(
        (
            ranks.said,
            f"Each plate takes {each:g} g of wax. The straining cloth keeps {percent(strain):g} %"
            f" of the batch, pot and stirrer {percent(left):g} % of what is left.",
            f"The wax is {wax.said}. On the shelf are {have:g} g of {wax.names[0]} that no"
            " other job keeps back.",
            f"{rate:g} plates are bedded in an hour, in sessions of {hours:g} hours, each with a"
            " pot of its own.",
            f"How much wax is weighed out in all, how much {wax.names[0]} is bought, and how many"
            " pots is it?",
        ),
        (
            number("Wax to weigh out", total, "g", 0, WHOLE_JOB, ABOVE),
            number("To buy", body - have, "g", 0, WHOLE_JOB, ABOVE),
            counted("Pots", pots),
        ),
        (
            ranks.counted,
            step("On the plates", f"{ranks.plates:g} × {each:g}", ranks.plates * each, "g"),
            step(
                "To weigh out",
                f"{short(ranks.plates * each)} / ((1 − {strain:g}) × (1 − {left:g}))", total, "g",
            ),
            *wax.shared(total)[:1],
            step("To buy", f"{short(body)} − {have:g}", body - have, "g"),
            step("Sessions", f"{ranks.plates:g} / ({rate:g} × {hours:g})", sessions),
        ),
        {
            "variant": "wax-to-buy", "ranks": ranks.given, "plate_wax_g": each,
            "strained": strain, "left_in_pot": left, "parts": list(wax.parts), "have_g": have,
            "plates_hour": rate, "hours": hours,
        },
    )  # fmt: skip


def stock_to_buy(catalog: Catalog, draw: Draw) -> Made:
    """Go from the plates of a rank to the pieces of stock that are bought."""
    plates, bare = draw.ranged("needs-list-keys"), draw.ranged("needs-list-bare")
    tongues = plates * ends_of(catalog, "tongues-per-plate", "1")[0]
    share = (catalog.figure("cut-spares").typical or 0.0) / 100
    least = ends_of(catalog, "cut-spares-least", "1")[0]
    long, wide = draw.ranged("needs-list-strip-long"), draw.ranged("needs-list-strip-wide")
    room = draw.ranged("needs-list-piece-long"), draw.ranged("needs-list-piece-wide")
    have, gap = draw.ranged("needs-list-pieces"), gap_of(catalog)
    valves = valves_range(tongues, [bare, bare, bare])[1]
    between(valves, 20, 200)
    spares = spare_strips(valves, share, least)
    whole_up(valves * share)
    each = _room_for(room[0], long, gap)
    whole_up((valves + spares) / each)
    strips = -(-(valves + spares) // each)
    across = _room_for(room[1], wide, gap)
    pieces = whole_up(strips / across)
    if pieces <= have:
        raise Silly
    return made(
        (
            f"A rank has {plates:g} plates with two tongues each. All get valves of one size but"
            f" the {bare:g} smallest tongues, which get none.",
            f"Spares are {percent(share):g} % of the valves, up to the next whole one.",
            f"A valve is {long:g} × {wide:g} mm as it is cut. Long strips of {wide:g} mm are cut"
            f" from pieces of {room[0]:g} × {room[1]:g} mm, along the first side, and snipped to"
            f" length. Between two cuts {gap:g} mm is left.",
            f"Pieces on the shelf: {have:g}.",
            "How many valves are cut with the spares, how many long strips are that, and how many"
            " pieces are bought?",
        ),
        (
            counted("Valves to cut", valves + spares),
            counted("Long strips", strips),
            counted("Pieces to buy", pieces - have),
        ),
        (
            step("Valves", f"2 × {plates:g} − {bare:g}", valves),
            step("Spares", f"{share:g} × {valves:g}", share * valves)
            + f" So {spares:g} spares.",
            step("To cut", f"{valves:g} + {spares:g}", valves + spares),
            step("From one strip", f"({room[0]:g} + {gap:g}) / ({long:g} + {gap:g})",
                 (room[0] + gap) / (long + gap)) + f" So {each:g}.",
            step("Long strips", f"{valves + spares:g} / {each:g}", (valves + spares) / each)
            + f" So {strips:g}.",
            step("Strips on a piece", f"({room[1]:g} + {gap:g}) / ({wide:g} + {gap:g})",
                 (room[1] + gap) / (wide + gap)) + f" So {across:g}.",
            step("Pieces", f"{strips:g} / {across:g}", strips / across) + f" So {pieces:g}.",
            step("To buy", f"{pieces:g} − {have:g}", pieces - have),
        ),
        {
            "variant": "stock-to-buy", "plates": plates, "bare": bare, "spare_share": share,
            "strip_mm": [long, wide], "piece_mm": list(room), "gap_mm": gap, "have": have,
        },
    )  # fmt: skip


def _room_for(room: float, size: float, gap: float) -> int:
    whole_down((room + gap) / (size + gap))
    return side_by_side(room, size, gap)


def supplies_to_buy(catalog: Catalog, draw: Draw) -> Made:
    """Go from the ranks to valves, solvent and glue."""
    ranks, bare = ranks_drawn(catalog, draw), draw.ranged("needs-list-bare")
    wide, land = draw.ranged("needs-list-strip-wide"), draw.ranged("needs-list-land")
    bottle = draw.ranged("needs-list-bottle")
    solvent = ends_of(catalog, "solvent-per-plate", "mL")[1]
    film = ends_of(catalog, "glue-film", "mm")[1]
    density = ends_of(catalog, "glue-density", "g/cm**3")[1]
    times = ends_of(catalog, "glue-taken-times", "dimensionless")[1]
    tongues = ranks.plates * ranks.tongues
    valves = valves_range(tongues, [bare, bare, bare])[1]
    most = ranks.plates * solvent
    between(most - bottle, 0.1 * most, most)
    one = 1e6 * glue_mass(wide / 1000, land / 1000, film / 1000, 1000 * density)
    taken = times * one * valves / 1000
    return made(
        (
            ranks.said,
            f"Each plate has {ranks.tongues:g} tongues. All get a valve but the {bare:g} smallest.",
            f"To wipe a plate takes up to {solvent:g} mL of solvent; {bottle:g} mL stand on the"
            " shelf.",
            f"The valves are {wide:g} mm wide on the mean, the glue land is {land:g} mm, the wet"
            f" film {film:g} mm, and 1 mm³ of glue weighs {density:g} mg. {times:g} times as much"
            " is taken from the tin as stays under the valves.",
            "How many valves are there, how much solvent is bought, and how much glue is taken?",
        ),
        (
            counted("Valves", valves),
            number("Solvent to buy", most - bottle, "mL", 0, WHOLE_JOB, ABOVE),
            number("Glue taken", taken, "g", 1, WHOLE_JOB),
        ),
        (
            ranks.counted,
            step("Tongues", f"{ranks.plates:g} × {ranks.tongues:g}", tongues),
            step("Valves", f"{tongues:g} − {bare:g}", valves),
            step("Solvent", f"{ranks.plates:g} × {solvent:g}", most, "mL"),
            step("To buy", f"{short(most)} − {bottle:g}", most - bottle, "mL"),
            step("Glue of one", f"{wide:g} × {land:g} × {film:g} × {density:g}", one, "mg"),
            step("Taken", f"{times:g} × {valves:g} × {short(one)} / 1000", taken, "g"),
        ),
        {
            "variant": "supplies-to-buy", "ranks": ranks.given, "tongues": ranks.tongues,
            "bare": bare, "solvent_ml": solvent, "bottle_ml": bottle, "width_mm": wide,
            "land_mm": land, "film_mm": film, "density_mg_mm3": density, "times": times,
        },
    )  # fmt: skip
