"""Whole jobs on ratios by mass: a batch for plates, for a session, of three, of what is at hand.

The tasks of `ratios` that take four steps and more; they are drawn there.
"""

from __future__ import annotations

from formulas.adjusting.working_steps import plainly
from formulas.practice.draw import Scale
from formulas.practice.exercise import (
    ABOVE,
    Choice,
    Made,
    Silly,
    Wanted,
    made,
    number_asked,
    rounded,
)
from formulas.practice.parts import MATERIALS, OF_THREE, parts_said, refuse_unlike_sum
from formulas.wax.batch import (
    component_mass,
    limited_total,
    mass_of,
    part_shares,
    steps_of,
    total_for_plates,
    weigh_out,
)
from formulas.wax.session import session_wax

MANY = 4  # times the fewest steps: a step more or less must not tell much
CLEAR = 0.1  # what is left over of a material, of what there was of it, at least


def batch_for_plates(
    scale: Scale, plates: float, each: float, strained: float, left: float, parts: list[float]
) -> Made:
    """Ask for the batch for plates and its parts; the losses are in percent."""
    on_plates = total_for_plates(plates, each, 0, 0)
    total = total_for_plates(plates, each, strained / 100, left / 100)
    start = f"On the plates: {plainly(plates)} × {plainly(each)} {scale.unit}"
    wanted, lines = _both(scale, total, parts)
    return made(
        [
            f"{plainly(plates)} plates are to be bedded. One takes {plainly(each)} {scale.unit}"
            " of wax.",
            *_losses_said(strained, left),
            f"The ratio by mass is {parts_said(parts)}.",
            "How much wax do you weigh out in all, and how much of each?",
        ],
        wanted,
        [
            f"{start} = {scale.fine(on_plates)}.",
            _with_losses(scale, on_plates, strained, left, total),
            *lines,
        ],
        {
            "variant": "batch-for-plates", "plates": plates, "each": each, "strained": strained,
            "left": left, "parts": parts,
        },
    )  # fmt: skip


def batch_for_a_session(
    scale: Scale,
    rate: float,
    hours: float,
    each: float,
    losses: tuple[float, float],
    parts: list[float],
) -> Made:
    """Ask for the batch of a session at the bench; the losses are in percent."""
    strained, left = losses
    on_plates = session_wax(rate, hours, each, 0, 0)
    total = session_wax(rate, hours, each, strained / 100, left / 100)
    plates = rate * hours
    wanted, lines = _both(scale, total, parts)
    return made(
        [
            f"You bed {plainly(rate)} plates an hour, for {plainly(hours)} hours. One plate takes"
            f" {plainly(each)} {scale.unit} of wax.",
            *_losses_said(strained, left),
            f"The ratio by mass is {parts_said(parts)}.",
            "How much wax do you melt for this session in all, and how much of each?",
        ],
        wanted,
        [
            f"Plates: {plainly(rate)} × {plainly(hours)} = {plainly(plates)}.",
            f"On the plates: {plainly(plates)} × {plainly(each)} {scale.unit} ="
            f" {scale.fine(on_plates)}.",
            _with_losses(scale, on_plates, strained, left, total),
            *lines,
        ],
        {
            "variant": "batch-for-a-session", "rate": rate, "hours": hours, "each": each,
            "strained": strained, "left": left, "parts": parts,
        },
    )  # fmt: skip


def _losses_said(strained: float, left: float) -> list[str]:
    return [
        f"The straining cloth keeps {plainly(strained)} % of what is melted. Pot and stirrer keep"
        f" {plainly(left)} % of the rest."
    ]


def _with_losses(scale: Scale, on_plates: float, strained: float, left: float, total: float) -> str:
    cloth, pot = plainly(1 - strained / 100), plainly(1 - left / 100)
    return (
        f"The cloth leaves {cloth} and the pot {pot} of it: {scale.fine(on_plates)} /"
        f" ({cloth} × {pot}) = {scale.fine(total)}."
    )


def _both(scale: Scale, total: float, parts: list[float]) -> tuple[list[Wanted], list[str]]:
    """Give what is asked of a batch of two, and the steps from its total to its parts."""
    masses = [component_mass(total, share) for share in part_shares(parts)]
    scale.weighs(*masses, total)
    refuse_unlike_sum(rounded(total, scale.decimals, ABOVE), masses, scale.decimals)
    one = scale.fine(total / sum(parts))
    wax, rosin = map(plainly, parts)
    asked = [
        number_asked("Wax in all", total, scale.unit, scale.decimals, scale.carried(2.3), ABOVE),
        *(
            number_asked(
                f"Mass of {name}", mass, scale.unit, scale.decimals, scale.carried(1.6 * part)
            )
            for name, mass, part in zip(MATERIALS, masses, parts, strict=True)
        ),
    ]
    lines = [
        f"One part: {scale.fine(total)} / ({wax} + {rosin}) = {one}.",
        f"Beeswax: {wax} × {one} = {scale.shown(masses[0])}.",
        f"Rosin: {rosin} × {one} = {scale.shown(masses[1])}.",
    ]
    return asked, lines


def what_is_left_over(scale: Scale, parts: list[float], held: list[float]) -> Made:
    """Ask what runs out first, how much wax that gives, and what is left of the other."""
    shares = part_shares(parts)
    totals = [limited_total(mass, share) for mass, share in zip(held, shares, strict=True)]
    total = min(totals)
    first = totals.index(total)
    other = 1 - first
    used = component_mass(total, shares[other])
    over = held[other] - used
    scale.weighs(*held, over, total)
    if over < CLEAR * held[other]:
        raise Silly
    ones = [mass / part for mass, part in zip(held, parts, strict=True)]
    one, names = scale.fine(ones[first]), MATERIALS
    return made(
        [
            f"At hand are {scale.said(held[0])} of beeswax and {scale.said(held[1])} of rosin.",
            f"The ratio by mass is {parts_said(parts)}. You make as much as they give.",
            "Which runs out first, how much wax is it in all, and what is left of the other?",
        ],
        [
            Choice("What runs out first", names[first], names),
            number_asked(
                "Wax in all", total, scale.unit, scale.decimals, scale.carried(sum(parts))
            ),
            number_asked(
                "Left of the other", over, scale.unit, scale.decimals,
                scale.carried(parts[other] + 1),
            ),
        ],
        [
            *(
                f"A part of {name}: {scale.said(mass)} / {plainly(part)} = {scale.fine(each)}."
                for name, mass, part, each in zip(names, held, parts, ones, strict=True)
            ),
            f"The {names[first]} gives less, so it runs out first. In all:"
            f" ({plainly(parts[0])} + {plainly(parts[1])}) × {one} = {scale.shown(total)}.",
            f"Of the {names[other]} goes in: {plainly(parts[other])} × {one} = {scale.fine(used)}.",
            f"Left of it: {scale.said(held[other])} − {scale.fine(used)} = {scale.shown(over)}.",
        ],
        {"variant": "what-is-left-over", "parts": parts, "held": held},
    )  # fmt: skip


def three_to_a_total(scale: Scale, parts: list[float], total: float) -> Made:
    """Ask for the masses of three materials that add up to a total on the scale."""
    counts = weigh_out(part_shares(parts), steps_of(total, scale.step))
    masses = [mass_of(count, scale.step) for count in counts]
    scale.weighs(min(masses) / MANY)
    one = scale.fine(total / sum(parts))
    told = [plainly(part) for part in parts]
    return made(
        [
            f"You weigh out {scale.said(total)} of wax in all. The ratio by mass is {told[0]} of"
            f" beeswax to {told[1]} of rosin to {told[2]} of carnauba wax.",
            "How much of each do you weigh, so that the sum is right on the scale?",
        ],
        [
            number_asked(
                f"Mass of {name}", mass, scale.unit, scale.decimals,
                scale.carried(part) + scale.step,
            )
            for name, mass, part in zip(OF_THREE, masses, parts, strict=True)
        ],
        [
            f"One part: {scale.said(total)} / ({' + '.join(told)}) = {one}.",
            *(
                f"{name.capitalize()}: {text} × {one} = {scale.fine(total * part / sum(parts))}."
                for name, text, part in zip(OF_THREE, told, parts, strict=True)
            ),
            "On the scale, with the steps that are missing given to what lost most:"
            f" {' + '.join(map(scale.shown, masses))} = {scale.shown(total)}.",
        ],
        {"variant": "three-to-a-total", "parts": parts, "total": total},
    )  # fmt: skip
