"""Exercises on a pot that is off: what is missing, the least addition, what cannot be reached.

Masses are on the shop's scale; shares of rosin are in percent. Each task is a function of its
numbers; VARIANTS draw them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.adjusting.alligation import (
    component_addition,
    corrected_total,
    cross_parts,
    least_additions,
)
from formulas.adjusting.working_steps import plainly
from formulas.practice.adjusting_jobs import (
    both_to_a_total,
    only_what_is_left,
    pot_with_a_limit,
    three_in_a_pot,
    two_lots_at_hand,
)
from formulas.practice.draw import Draw, Scale
from formulas.practice.exercise import (
    ONE_STEP,
    SOME_STEPS,
    WHOLE_JOB,
    Choice,
    Made,
    Silly,
    made,
    number_asked,
)
from formulas.practice.lots import MOST, MUCH, REACH, lot, percents
from formulas.practice.parts import MATERIALS, drawn_parts, drawn_three, parts_said
from formulas.units import printed
from formulas.wax.batch import component_mass, part_shares

if TYPE_CHECKING:
    from formulas.catalog import Catalog

ENOUGH = ("it is enough", "it is not enough")
FEWEST = 2.0  # parts of a cross that is drawn
NEAR = 0.05  # of a mass: nearer than that, two are not told apart at a glance


def exercise(_catalog: Catalog, grade: int, draw: Draw) -> Made:
    """Make an exercise on putting a pot right."""
    return draw.in_turn(VARIANTS[grade])


def pure_addition(scale: Scale, pot: list[float], parts: list[float], of: int) -> Made:
    """Ask for the beeswax (0) or the rosin (1) that a pot lacks. Raises Silly where it does not."""
    end = corrected_total(pot, part_shares(parts))
    add = component_addition(part_shares(parts)[of], end, pot[of])
    scale.weighs(*pot, add, end)
    if end > MUCH * sum(pot):
        raise Silly
    kept, name = 1 - of, MATERIALS[of]
    return made(
        [
            _pot_said(scale, pot),
            f"It should be {parts_said(parts)}, by mass. Only {name} is added.",
            f"How much {name} do you add?",
        ],
        [number_asked(f"{name.capitalize()} to add", add, scale.unit, scale.decimals, scale.room)],
        [
            f"{name.capitalize()} wanted less {name} there: {scale.said(pot[kept])} ×"
            f" {plainly(parts[of])} / {plainly(parts[kept])} − {scale.said(pot[of])} ="
            f" {scale.shown(add)}."
        ],
        {"variant": "pure-addition", "pot": pot, "parts": parts},
    )


def what_is_missing(scale: Scale, pot: list[float], parts: list[float]) -> Made:
    """Ask which of two materials a pot lacks."""
    scale.weighs(*pot)
    end = corrected_total(pot, part_shares(parts))
    adds = [
        component_addition(share, end, there)
        for share, there in zip(part_shares(parts), pot, strict=True)
    ]
    if max(adds) < NEAR * pot[adds.index(max(adds))]:
        raise Silly
    short = MATERIALS[adds.index(max(adds))]
    there, wanted = printed(pot[0] / pot[1], 2), plainly(parts[1])
    return made(
        [
            _pot_said(scale, pot),
            f"It should be {parts_said(parts)}, by mass.",
            "Of which of the two is there too little?",
        ],
        [Choice("Too little of", short, MATERIALS)],
        [
            f"Beeswax to {wanted} of rosin: {scale.said(pot[0])} / {scale.said(pot[1])} ×"
            f" {wanted} = {printed(pot[0] / pot[1] * parts[1], 2)}, and {plainly(parts[0])} is"
            f" wanted: too little {short}."
            if parts[1] != 1
            else f"Beeswax to 1 of rosin: {scale.said(pot[0])} / {scale.said(pot[1])} = {there},"
            f" and {plainly(parts[0])} is wanted: too little {short}."
        ],
        {"variant": "what-is-missing", "pot": pot, "parts": parts},
    )


def one_lot_at_hand(held: float, added: float, aim: float) -> Made:
    """Ask whether a lot brings a pot to a share; all in percent of rosin."""
    if min(abs(held - aim), abs(added - aim), abs(held - added)) < 1:
        raise Silly
    found = least_additions(lot(held), [lot(added)], [0.0], lot(aim), 0.0, MOST)
    right = REACH[0] if found else REACH[1]
    low, high = sorted((held, added))
    lies = "lies between" if found else "does not lie between"
    return made(
        [
            f"The pot holds {plainly(held)} % of rosin, the rest is beeswax.",
            f"All there is to add is a lot with {plainly(added)} % of rosin.",
            f"You want {plainly(aim)} % of rosin in the pot. Can that be reached?",
        ],
        [Choice("Can it be reached", right, REACH)],
        [f"{plainly(aim)} % {lies} {plainly(low)} % and {plainly(high)} %, so it {right}."],
        {"variant": "one-lot-at-hand", "held": held, "added": added, "wanted": aim},
    )


def ratio_to_ratio(scale: Scale, total: float, first: list[float], then: list[float]) -> Made:
    """Ask what brings a pot of one ratio to another; both have one part of rosin or more."""
    pot = [component_mass(total, share) for share in part_shares(first)]
    end = corrected_total(pot, part_shares(then))
    adds = [
        component_addition(share, end, there)
        for share, there in zip(part_shares(then), pot, strict=True)
    ]
    of = adds.index(max(adds))
    kept, name, add = 1 - of, MATERIALS[of], max(adds)
    scale.weighs(*pot, add, end)
    whole = " + ".join(map(plainly, first))
    times = 1 + then[of] / then[kept]
    return made(
        [
            f"The pot holds {scale.said(total)} of wax, {parts_said(first)}, by mass.",
            f"It should be {parts_said(then)}. You add as little as brings it there.",
            "What do you add, and how much of it?",
        ],
        [
            Choice("What is added", name, MATERIALS),
            number_asked("How much of it", add, scale.unit, scale.decimals, scale.carried(times)),
        ],
        [
            *(
                f"{what.capitalize()} in the pot: {scale.said(total)} × {plainly(part)} / ({whole})"
                f" = {scale.fine(mass)}."
                for what, part, mass in zip(MATERIALS, first, pot, strict=True)
            ),
            f"The {MATERIALS[kept]} stays, so {name} is missing: {scale.fine(pot[kept])} ×"
            f" {plainly(then[of])} / {plainly(then[kept])} − {scale.fine(pot[of])} ="
            f" {scale.shown(add)}.",
        ],
        {"variant": "ratio-to-ratio", "total": total, "first": first, "then": then},
    )


def lot_to_a_pot(scale: Scale, mass: float, held: float, added: float, aim: float) -> Made:
    """Ask how much of a lot brings a pot to a share, by the cross."""
    pot = [mass * share for share in lot(held)]
    found = least_additions(pot, [lot(added)], [0.0], lot(aim), 0.0, MOST)
    if not found:
        raise Silly
    add = found[0]
    scale.weighs(mass, add, mass + add)
    of_pot, of_lot = percents(cross_parts(aim, added), cross_parts(aim, held))
    low, high = (held, added) if held < added else (added, held)
    to_pot, to_lot = (
        (f"{plainly(high)} − {plainly(aim)}", f"{plainly(aim)} − {plainly(low)}")
        if held < added
        else (f"{plainly(aim)} − {plainly(low)}", f"{plainly(high)} − {plainly(aim)}")
    )
    return made(
        [
            f"The pot holds {scale.said(mass)} of wax with {plainly(held)} % of rosin.",
            f"You have a lot with {plainly(added)} % of rosin and want {plainly(aim)} % in the"
            " pot.",
            "How much of the lot do you add, and how much is then in the pot?",
        ],
        [
            number_asked("Of the lot", add, scale.unit, scale.decimals, scale.room),
            number_asked("In the pot", mass + add, scale.unit, scale.decimals, scale.carried(1)),
        ],
        [
            f"Across: the pot counts {to_pot} = {plainly(of_pot)} parts, the lot {to_lot} ="
            f" {plainly(of_lot)} parts.",
            f"Of the lot: {scale.said(mass)} × {plainly(of_lot)} / {plainly(of_pot)} ="
            f" {scale.shown(add)}.",
            f"In the pot: {scale.said(mass)} + {scale.shown(add)} = {scale.shown(mass + add)}.",
        ],
        {"variant": "lot-to-a-pot", "mass": mass, "held": held, "added": added, "wanted": aim},
    )


def is_it_enough(scale: Scale, pot: list[float], parts: list[float], left: float) -> Made:
    """Ask for the rosin that a pot lacks, and whether what is left is enough."""
    shares = part_shares(parts)
    end = corrected_total(pot, shares)
    add = component_addition(shares[1], end, pot[1])
    scale.weighs(*pot, add, left, end)
    if not NEAR * left < abs(add - left) < 3 * left:
        raise Silly
    stocked = least_additions(pot, [[0.0, 1.0]], [left], shares, 0.0, MOST)
    right = ENOUGH[0] if stocked else ENOUGH[1]
    must = pot[0] * parts[1] / parts[0]
    return made(
        [
            _pot_said(scale, pot),
            f"It should be {parts_said(parts)}, by mass. {scale.said(left)} of rosin is left.",
            "How much rosin is missing, and is what is left enough?",
        ],
        [
            number_asked("Rosin missing", add, scale.unit, scale.decimals, scale.carried(1)),
            Choice("Is it enough", right, ENOUGH),
        ],
        [
            f"Rosin must be: {scale.said(pot[0])} × {plainly(parts[1])} / {plainly(parts[0])} ="
            f" {scale.fine(must)}.",
            f"Missing: {scale.fine(must)} − {scale.said(pot[1])} = {scale.shown(add)}."
            f" {scale.said(left)} is left: {right}.",
        ],
        {"variant": "is-it-enough", "pot": pot, "parts": parts, "left": left},
    )


def _pot_said(scale: Scale, pot: list[float]) -> str:
    return f"The pot holds {scale.said(pot[0])} of beeswax and {scale.said(pot[1])} of rosin."


def _pot(draw: Draw) -> list[float]:
    pot = [draw.mass("adjusting-wax"), draw.mass("adjusting-rosin")]
    draw.within("ratio-rosin-share", 100 * part_shares(pot)[1])
    return pot


def _shares(draw: Draw) -> list[float]:
    return [draw.ranged(f"adjusting-{which}") for which in ("held", "lot", "wanted")]


def _lot(draw: Draw) -> Made:
    held, added, aim = _shares(draw)
    if min(abs(held - aim), abs(added - aim)) < FEWEST:
        raise Silly
    return lot_to_a_pot(draw.scale, draw.mass("adjusting-pot"), held, added, aim)


VARIANTS = {
    ONE_STEP: (
        lambda draw: pure_addition(draw.scale, _pot(draw), drawn_parts(draw), 0),
        lambda draw: pure_addition(draw.scale, _pot(draw), drawn_parts(draw), 1),
        lambda draw: what_is_missing(draw.scale, _pot(draw), drawn_parts(draw)),
        lambda draw: one_lot_at_hand(*_shares(draw)),
    ),
    SOME_STEPS: (
        lambda draw: ratio_to_ratio(
            draw.scale, draw.mass("adjusting-pot"), drawn_parts(draw), drawn_parts(draw)
        ),
        _lot,
        lambda draw: is_it_enough(
            draw.scale, _pot(draw), drawn_parts(draw), draw.mass("adjusting-left")
        ),
    ),
    WHOLE_JOB: (
        lambda draw: pot_with_a_limit(
            draw.scale, _pot(draw), drawn_parts(draw), draw.mass("adjusting-room")
        ),
        lambda draw: only_what_is_left(
            draw.scale, _pot(draw), drawn_parts(draw), draw.mass("adjusting-left")
        ),
        lambda draw: both_to_a_total(
            draw.scale, _pot(draw), drawn_parts(draw), draw.mass("adjusting-total")
        ),
        lambda draw: three_in_a_pot(
            draw.scale,
            [*_pot(draw), draw.mass("adjusting-carnauba")],
            drawn_three(draw),
        ),
        lambda draw: two_lots_at_hand(
            draw.scale,
            _pot(draw),
            drawn_parts(draw),
            [draw.ranged("adjusting-lot"), draw.ranged("adjusting-lot")],
        ),
    ),
}
