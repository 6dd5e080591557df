"""Exercises on mixing lots by the cross: two lots to a third, old wax, lots told as ratios.

Shares of rosin are in percent. Each task is a function of its numbers; VARIANTS draw them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.adjusting.alligation import (
    corrected_total,
    cross_parts,
    shares_with,
)
from formulas.adjusting.working_steps import plainly
from formulas.practice.alligation_jobs import (
    as_much_as_there_is,
    old_wax_between_ends,
    ratios_to_a_total,
    three_lots,
)
from formulas.practice.draw import Draw, Scale
from formulas.practice.exercise import (
    ONE_STEP,
    SOME_STEPS,
    WHOLE_JOB,
    Made,
    Silly,
    made,
    number_asked,
)
from formulas.practice.lots import (
    drawn_lots,
    lot,
    lots_said,
    mixed,
    percents,
    to_all_of_the_second,
)
from formulas.practice.parts import drawn_parts, parts_said
from formulas.units import printed
from formulas.wax.batch import part_shares

if TYPE_CHECKING:
    from formulas.catalog import Catalog


def exercise(_catalog: Catalog, grade: int, draw: Draw) -> Made:
    """Make an exercise on mixing lots by the cross."""
    return draw.in_turn(VARIANTS[grade])


def share_of_the_first(lots: list[float], aim: float) -> Made:
    """Ask what share of a mixture the first lot is."""
    first, second = cross_parts(aim, lots[1]), cross_parts(aim, lots[0])
    share = 100 * part_shares([first, second])[0]
    a, b, wanted = plainly(lots[0]), plainly(lots[1]), plainly(aim)
    return made(
        [lots_said(lots), f"You want {wanted} % of rosin. What share of the mixture is lot A?"],
        [number_asked("Share of lot A", share, "percent", 1)],
        [
            f"By the cross, B less wanted over B less A: ({b} − {wanted}) / ({b} − {a}) ="
            f" {printed(share, 1)} %."
        ],
        {"variant": "share-of-the-first", "lots": lots, "wanted": aim},
    )


def share_of_a_mixture(scale: Scale, lots: list[float], masses: list[float]) -> Made:
    """Ask what share two lots come to together."""
    scale.weighs(*masses, sum(masses))
    share = 100 * shares_with([0.0, 0.0], [lot(one) for one in lots], masses)[1]
    (a, b), (first, second) = map(plainly, lots), map(plainly, masses)
    return made(
        [
            lots_said(lots),
            f"You melt {scale.said(masses[0])} of A and {scale.said(masses[1])} of B together.",
            "What share of the mixture is rosin?",
        ],
        [number_asked("Share of rosin", share, "percent", 1)],
        [
            f"Rosin over all: ({first} × {a} / 100 + {second} × {b} / 100) / ({first} + {second})"
            f" = {printed(share, 1)} %."
        ],
        {"variant": "share-of-a-mixture", "lots": lots, "masses": masses},
    )


def thinned_to(scale: Scale, mass: float, share: float, aim: float) -> Made:
    """Ask what a lot comes to when plain beeswax thins it."""
    end = corrected_total([mass * (1 - share / 100), mass * share / 100], lot(aim))
    scale.weighs(mass, end - mass, end)
    return made(
        [
            f"{scale.said(mass)} of wax hold {plainly(share)} % of rosin.",
            f"You thin it with plain beeswax until {plainly(aim)} % of it are rosin.",
            "What does the thinned wax weigh in the end?",
        ],
        [number_asked("Mass in the end", end, scale.unit, scale.decimals, scale.room)],
        [
            "The rosin stays what it is: "
            f"{scale.said(mass)} × {plainly(share)} / {plainly(aim)} = {scale.shown(end)}."
        ],
        {"variant": "thinned-to", "mass": mass, "share": share, "wanted": aim},
    )


def lot_to_a_lot(scale: Scale, lots: list[float], aim: float, second: float) -> Made:
    """Ask for the mass of lot A that belongs to all of lot B."""
    mass = to_all_of_the_second(lots, aim, second)
    scale.weighs(mass, second, mass + second)
    a, b, wanted = plainly(lots[0]), plainly(lots[1]), plainly(aim)
    return made(
        [
            lots_said(lots),
            f"You want {wanted} % of rosin in the mixture. All {scale.said(second)} of B go in.",
            "How much of A goes in?",
        ],
        [number_asked("Mass of lot A", mass, scale.unit, scale.decimals, scale.room)],
        [
            f"By the cross: {scale.said(second)} × ({b} − {wanted}) / ({wanted} − {a}) ="
            f" {scale.shown(mass)}."
        ],
        {"variant": "lot-to-a-lot", "lots": lots, "wanted": aim, "second": second},
    )


def two_lots_to_a_total(scale: Scale, lots: list[float], aim: float, total: float) -> Made:
    """Ask for the mass of each of two lots that make a total."""
    masses = mixed([0.0, 0.0], [lot(one) for one in lots], aim, total)
    scale.weighs(*masses)
    parts = percents(cross_parts(aim, lots[1]), cross_parts(aim, lots[0]))
    together = percents(sum(parts))[0]
    a, b, wanted = plainly(lots[0]), plainly(lots[1]), plainly(aim)
    share = masses[0] / total
    return made(
        [
            lots_said(lots),
            f"You want {scale.said(total)} with {wanted} % of rosin.",
            "How much of each lot do you weigh?",
        ],
        [
            number_asked(f"Mass of lot {name}", mass, scale.unit, scale.decimals, scale.carried(1))
            for name, mass in zip("AB", masses, strict=True)
        ],
        [
            f"Across: A gets {b} − {wanted} = {plainly(parts[0])} parts, B gets {wanted} − {a} ="
            f" {plainly(parts[1])} parts, {plainly(together)} in all.",
            f"A: {scale.said(total)} × {plainly(parts[0])} / {plainly(together)} ="
            f" {scale.shown(total * share)}.",
            f"B: {scale.said(total)} × {plainly(parts[1])} / {plainly(together)} ="
            f" {scale.shown(total - total * share)}.",
        ],
        {"variant": "two-lots-to-a-total", "lots": lots, "wanted": aim, "total": total},
    )


def plain_wax_to_old_wax(scale: Scale, mass: float, share: float, aim: float) -> Made:
    """Ask for the plain beeswax that thins old wax of a known share."""
    end = corrected_total([mass * (1 - share / 100), mass * share / 100], lot(aim))
    add = end - mass
    scale.weighs(mass, add, end)
    return made(
        [
            f"{scale.said(mass)} of old wax hold {plainly(share)} % of rosin, as its label says.",
            f"You want {plainly(aim)} %. Only plain beeswax is added.",
            "How much beeswax do you add?",
        ],
        [
            number_asked(
                "Beeswax to add", add, scale.unit, scale.decimals, scale.carried(end / mass)
            )
        ],
        [
            f"Rosin in it: {scale.said(mass)} × {plainly(share)} / 100 ="
            f" {scale.fine(mass * share / 100)}.",
            f"That is {plainly(aim)} % of all in the end: {scale.fine(mass * share / 100)} × 100 /"
            f" {plainly(aim)} = {scale.fine(end)}.",
            f"Beeswax: {scale.fine(end)} − {scale.said(mass)} = {scale.shown(add)}.",
        ],
        {"variant": "plain-wax-to-old-wax", "mass": mass, "share": share, "wanted": aim},
    )


def lots_told_as_ratios(first: list[float], second: list[float], aim: float) -> Made:
    """Ask what share of a mixture the first of two lots is that are told as ratios."""
    lots = [100 * part_shares(parts)[1] for parts in (first, second)]
    if not min(lots) + 2 < aim < max(lots) - 2:
        raise Silly
    share = 100 * part_shares([cross_parts(aim, lots[1]), cross_parts(aim, lots[0])])[0]
    (w, r), (v, s) = map(plainly, first), map(plainly, second)
    a, b, wanted = printed(lots[0], 2), printed(lots[1], 2), plainly(aim)
    above, below = (b, wanted), (b, a)
    if lots[1] < lots[0]:
        above, below = (wanted, b), (a, b)
    return made(
        [
            f"Lot A is {parts_said(first)}, by mass. Lot B is {parts_said(second)}.",
            f"You want a mixture with {wanted} % of rosin. What share of it is lot A?",
        ],
        [number_asked("Share of lot A", share, "percent", 1, 0.5 / abs(lots[0] - lots[1]))],
        [
            f"Rosin in A: {r} / ({w} + {r}) = {a} %.",
            f"Rosin in B: {s} / ({v} + {s}) = {b} %.",
            f"By the cross, B less wanted over B less A: ({above[0]} − {above[1]}) / ({below[0]} −"
            f" {below[1]}) = {printed(share, 1)} %.",
        ],
        {"variant": "lots-told-as-ratios", "first": first, "second": second, "wanted": aim},
    )


def all_of_a_lot(scale: Scale, lots: list[float], aim: float, second: float) -> Made:
    """Ask for lot A to all of lot B, and what both come to."""
    mass = to_all_of_the_second(lots, aim, second)
    scale.weighs(mass, second, mass + second)
    a, b, wanted = plainly(lots[0]), plainly(lots[1]), plainly(aim)
    parts = percents(cross_parts(aim, lots[1]), cross_parts(aim, lots[0]))
    room = scale.carried(1)
    return made(
        [
            lots_said(lots),
            f"You want a mixture with {wanted} % of rosin. All {scale.said(second)} of B go in.",
            "How much of A goes in, and how much is it in all?",
        ],
        [
            number_asked("Mass of lot A", mass, scale.unit, scale.decimals, scale.room),
            number_asked("Mass of both", mass + second, scale.unit, scale.decimals, room),
        ],
        [
            f"Across: A gets {b} − {wanted} = {plainly(parts[0])} parts, B gets {wanted} − {a} ="
            f" {plainly(parts[1])} parts.",
            f"A: {scale.said(second)} × {plainly(parts[0])} / {plainly(parts[1])} ="
            f" {scale.shown(mass)}.",
            f"Both: {scale.shown(mass)} + {scale.said(second)} = {scale.shown(mass + second)}.",
        ],
        {"variant": "all-of-a-lot", "lots": lots, "wanted": aim, "second": second},
    )


def _thinned(draw: Draw) -> tuple[Scale, float, float, float]:
    share, aim = draw.ranged("alligation-old-share"), draw.ranged("alligation-wanted")
    if not 3 <= share - aim <= 25:
        raise Silly
    return draw.scale, draw.mass("alligation-old-wax"), share, aim


def _second(draw: Draw) -> tuple[Scale, list[float], float, float]:
    return draw.scale, *drawn_lots(draw), draw.mass("alligation-lot")


def _masses(draw: Draw) -> tuple[Scale, list[float], list[float]]:
    lots, _ = drawn_lots(draw)
    return draw.scale, lots, [draw.mass("alligation-lot"), draw.mass("alligation-lot")]


def _banded(draw: Draw) -> Made:
    scale, mass, share, aim = _thinned(draw)
    half = draw.ranged("alligation-half-band")
    return old_wax_between_ends(scale, mass, [share - half, share + half], aim)


VARIANTS = {
    ONE_STEP: (
        lambda draw: share_of_the_first(*drawn_lots(draw)),
        lambda draw: share_of_a_mixture(*_masses(draw)),
        lambda draw: thinned_to(*_thinned(draw)),
        lambda draw: lot_to_a_lot(*_second(draw)),
    ),
    SOME_STEPS: (
        lambda draw: two_lots_to_a_total(
            draw.scale, *drawn_lots(draw), draw.mass("alligation-total")
        ),
        lambda draw: plain_wax_to_old_wax(*_thinned(draw)),
        lambda draw: lots_told_as_ratios(
            drawn_parts(draw), drawn_parts(draw), draw.ranged("alligation-wanted")
        ),
        lambda draw: all_of_a_lot(*_second(draw)),
    ),
    WHOLE_JOB: (
        lambda draw: ratios_to_a_total(
            draw.scale,
            [drawn_parts(draw) for _ in range(3)],
            draw.mass("alligation-total"),
        ),
        lambda draw: as_much_as_there_is(
            draw.scale,
            *drawn_lots(draw),
            [draw.mass("alligation-lot"), draw.mass("alligation-lot")],
        ),
        lambda draw: three_lots(
            draw.scale,
            *drawn_lots(draw),
            draw.ranged("alligation-old-share"),
            draw.mass("alligation-third-lot"),
            draw.mass("alligation-total"),
        ),
        _banded,
    ),
}
