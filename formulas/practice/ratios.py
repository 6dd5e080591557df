"""Exercises on ratios by mass: shares, grams of each, what runs out first, wax for plates.

Each task is a function of its numbers; the functions of VARIANTS draw them. The first part of a
ratio is beeswax, the second rosin.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from formulas.adjusting.working_steps import plainly
from formulas.practice.draw import Draw, Scale
from formulas.practice.exercise import (
    ABOVE,
    ONE_STEP,
    SOME_STEPS,
    WHOLE_JOB,
    Choice,
    Made,
    Silly,
    made,
    number_asked,
)
from formulas.practice.parts import MATERIALS, drawn_parts, drawn_three, parts_said
from formulas.practice.ratio_jobs import (
    batch_for_a_session,
    batch_for_plates,
    three_to_a_total,
    what_is_left_over,
)
from formulas.units import printed
from formulas.wax.batch import (
    component_mass,
    limited_total,
    mass_of,
    part_shares,
    share_by_mass,
    steps_of,
    total_for_plates,
    weigh_out,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog

NEAR = 0.05  # two masses nearer than that are not told apart at a glance


def exercise(_catalog: Catalog, grade: int, draw: Draw) -> Made:
    """Make an exercise on ratios and shares."""
    return draw.in_turn(VARIANTS[grade])


def share_of_ratio(parts: list[float]) -> Made:
    """Ask for the share of rosin in a ratio."""
    share = 100 * share_by_mass(parts[1], sum(parts))
    wax, rosin = map(plainly, parts)
    return made(
        [f"A wax is made of parts by mass: {parts_said(parts)}.", "What share of it is rosin?"],
        [number_asked("Share of rosin", share, "percent", 1)],
        [f"Rosin over all parts: {rosin} / ({wax} + {rosin}) = {printed(share, 1)} %."],
        {"variant": "share-of-ratio", "parts": parts},
    )


def part_of_batch(scale: Scale, total: float, share: float) -> Made:
    """Ask for the rosin of a batch by its share in percent."""
    mass = component_mass(total, share / 100)
    scale.weighs(mass)
    return made(
        [
            f"You weigh out {scale.said(total)} of a wax. {plainly(share)} % of it is rosin.",
            "How much rosin goes into it?",
        ],
        [number_asked("Rosin to weigh", mass, scale.unit, scale.decimals, scale.room)],
        [f"Rosin: {scale.said(total)} × {plainly(share)} / 100 = {scale.shown(mass)}."],
        {"variant": "part-of-batch", "total": total, "share": share},
    )


def wax_to_rosin(scale: Scale, parts: list[float], rosin: float) -> Made:
    """Ask for the beeswax to the rosin that is left."""
    shares = part_shares(parts)
    mass = component_mass(limited_total(rosin, shares[1]), shares[0])
    scale.weighs(rosin, mass)
    first, second = map(plainly, parts)
    return made(
        [
            f"{scale.said(rosin)} of rosin is left, and all of it is used.",
            f"The ratio by mass is {parts_said(parts)}.",
            "How much beeswax belongs to it?",
        ],
        [number_asked("Beeswax to weigh", mass, scale.unit, scale.decimals, scale.room)],
        [f"Beeswax: {scale.said(rosin)} / {second} × {first} = {scale.shown(mass)}."],
        {"variant": "wax-to-rosin", "parts": parts, "rosin": rosin},
    )


def wax_on_plates(scale: Scale, plates: float, each: float) -> Made:
    """Ask for the wax on a number of plates, without losses."""
    mass = total_for_plates(plates, each, 0, 0)
    return made(
        [
            f"{plainly(plates)} plates are to be bedded.",
            f"One takes {plainly(each)} {scale.unit} of wax.",
            "How much wax stays on the plates?",
        ],
        [number_asked("Wax on the plates", mass, scale.unit, scale.decimals, scale.room)],
        [f"Wax: {plainly(plates)} × {plainly(each)} {scale.unit} = {scale.shown(mass)}."],
        {"variant": "wax-on-plates", "plates": plates, "each": each},
    )


def to_a_total(scale: Scale, parts: list[float], total: float) -> Made:
    """Ask for the grams of each part of a batch of a stated total."""
    counts = weigh_out(part_shares(parts), steps_of(total, scale.step))
    masses = [mass_of(count, scale.step) for count in counts]
    scale.weighs(*masses)
    one = scale.fine(total / sum(parts))
    wax, rosin = map(plainly, parts)
    return made(
        [
            f"You weigh out {scale.said(total)} of wax in all.",
            f"The ratio by mass is {parts_said(parts)}.",
            "How much of each do you weigh?",
        ],
        [
            number_asked(f"Mass of {name}", mass, scale.unit, scale.decimals, scale.carried(part))
            for name, mass, part in zip(MATERIALS, masses, parts, strict=True)
        ],
        [
            f"One part: {scale.said(total)} / ({wax} + {rosin}) = {one}.",
            *(
                f"{name.capitalize()}: {plainly(part)} × {one} ="
                f" {scale.fine(total * part / sum(parts))}, on the scale {scale.shown(mass)}."
                for name, part, mass in zip(MATERIALS, parts, masses, strict=True)
            ),
        ],
        {"variant": "to-a-total", "parts": parts, "total": total},
    )


def runs_out_first(scale: Scale, parts: list[float], held: list[float]) -> Made:
    """Ask which of two materials runs out first, and how much wax comes of it."""
    shares = part_shares(parts)
    totals = [limited_total(mass, share) for mass, share in zip(held, shares, strict=True)]
    scale.weighs(*held, *totals)
    if abs(totals[0] - totals[1]) < NEAR * max(totals):
        raise Silly
    first = totals.index(min(totals))
    wax, rosin = map(plainly, parts)
    ones = [mass / part for mass, part in zip(held, parts, strict=True)]
    total, one = totals[first], ones[first]
    return made(
        [
            f"At hand are {scale.said(held[0])} of beeswax and {scale.said(held[1])} of rosin.",
            f"The ratio by mass is {parts_said(parts)}. You make as much as they give.",
            "Which runs out first, and how much wax is it in all?",
        ],
        [
            Choice("What runs out first", MATERIALS[first], MATERIALS),
            number_asked(
                "Wax in all", total, scale.unit, scale.decimals, scale.carried(sum(parts))
            ),
        ],
        [
            f"A part of beeswax: {scale.said(held[0])} / {wax} = {scale.fine(ones[0])}.",
            f"A part of rosin: {scale.said(held[1])} / {rosin} = {scale.fine(ones[1])}."
            f" The {MATERIALS[first]} gives less, so it runs out first.",
            f"In all: ({wax} + {rosin}) × {scale.fine(one)} = {scale.shown(total)}.",
        ],
        {"variant": "runs-out-first", "parts": parts, "held": held},
    )


def plates_with_losses(
    scale: Scale, plates: float, each: float, strained: float, left: float
) -> Made:
    """Ask for the wax to weigh out for plates; the losses are in percent."""
    on_plates = total_for_plates(plates, each, 0, 0)
    total = total_for_plates(plates, each, strained / 100, left / 100)
    cloth, pot = plainly(1 - strained / 100), plainly(1 - left / 100)
    return made(
        [
            f"{plainly(plates)} plates are to be bedded. One takes {plainly(each)} {scale.unit}"
            " of wax.",
            f"The straining cloth keeps {plainly(strained)} % of what is melted. Pot and stirrer"
            f" keep {plainly(left)} % of the rest.",
            "How much wax do you weigh out?",
        ],
        [
            number_asked(
                "Wax to weigh out", total, scale.unit, scale.decimals, scale.carried(1.2), ABOVE
            )
        ],
        [
            f"On the plates: {plainly(plates)} × {plainly(each)} {scale.unit} ="
            f" {scale.fine(on_plates)}.",
            f"The cloth leaves {cloth} and the pot {pot} of it: {scale.fine(on_plates)} /"
            f" ({cloth} × {pot}) = {scale.shown(total)}.",
        ],
        {
            "variant": "plates-with-losses", "plates": plates, "each": each,
            "strained": strained, "left": left,
        },
    )  # fmt: skip


def really_weighed(coarse: Scale, parts: list[float], total: float) -> Made:
    """Ask what a coarse scale makes of a ratio. Raises Silly where it changes nothing."""
    shares = part_shares(parts)
    counts = weigh_out(shares, steps_of(total, coarse.step))
    masses = [mass_of(count, coarse.step) for count in counts]
    coarse.weighs(*masses)
    exact = component_mass(total, shares[1])
    off = abs(exact - masses[1]) / coarse.step
    if not 0.05 < off < 0.45:  # nothing moved, or a toss between two steps
        raise Silly
    rest = component_mass(total, shares[0])
    cut = [mass_of(math.floor(mass / coarse.step), coarse.step) for mass in (rest, exact)]
    lost_most = MATERIALS[masses[1] > exact]
    weighed = 100 * share_by_mass(counts[1], sum(counts))
    wax, rosin = map(plainly, parts)
    return made(
        [
            f"You make {coarse.said(total)} of wax for a trial. The ratio by mass is"
            f" {parts_said(parts)}.",
            f"The scale shows steps of {coarse.said(coarse.step)}, and both masses together must"
            " still"
            f" be {coarse.said(total)}.",
            "How much rosin do you weigh, and what share of rosin is really in it?",
        ],
        [
            number_asked("Rosin on the scale", masses[1], coarse.unit, coarse.decimals),
            number_asked("Share of rosin really weighed", weighed, "percent", 2),
        ],
        [
            f"Beeswax: {coarse.said(total)} × {wax} / ({wax} + {rosin}) = {coarse.fine(rest)}."
            f" Rosin: {coarse.said(total)} × {rosin} / ({wax} + {rosin}) = {coarse.fine(exact)}.",
            f"Cut down to a step of the scale: {coarse.shown(cut[0])} of beeswax and"
            f" {coarse.shown(cut[1])} of rosin. One step is missing and goes to what lost most, the"
            f" {lost_most}: {coarse.shown(masses[0])} and {coarse.shown(masses[1])}.",
            f"Share of rosin: {coarse.shown(masses[1])} / {coarse.said(total)} ="
            f" {printed(weighed, 2)} %.",
        ],
        {"variant": "really-weighed", "parts": parts, "total": total, "step": coarse.step},
    )


def _coarse(draw: Draw) -> Made:
    scale = draw.scale
    coarse = Scale(mass_of(draw.one_of([2, 5, 10]), scale.step), scale.unit)
    return really_weighed(coarse, drawn_parts(draw), draw.mass("ratio-trial", coarse))


def drawn_losses(draw: Draw) -> tuple[float, float]:
    """Draw what the cloth and the pot keep, in percent."""
    return draw.ranged("ratio-straining-loss"), draw.ranged("ratio-pot-loss")


def drawn_held(draw: Draw) -> list[float]:
    """Draw what is at hand of beeswax and of rosin."""
    return [draw.mass("ratio-wax-left"), draw.mass("ratio-rosin-left")]


def _plates(draw: Draw) -> tuple[float, float]:
    return draw.ranged("ratio-plates"), draw.ranged("ratio-wax-a-plate")


VARIANTS = {
    ONE_STEP: (
        lambda draw: share_of_ratio(drawn_parts(draw)),
        lambda draw: part_of_batch(
            draw.scale, draw.mass("ratio-total"), draw.ranged("ratio-share")
        ),
        lambda draw: wax_to_rosin(draw.scale, drawn_parts(draw), draw.mass("ratio-rosin-left")),
        lambda draw: wax_on_plates(draw.grams, *_plates(draw)),
    ),
    SOME_STEPS: (
        lambda draw: to_a_total(draw.scale, drawn_parts(draw), draw.mass("ratio-total")),
        lambda draw: runs_out_first(draw.scale, drawn_parts(draw), drawn_held(draw)),
        lambda draw: plates_with_losses(draw.grams, *_plates(draw), *drawn_losses(draw)),
        _coarse,
    ),
    WHOLE_JOB: (
        lambda draw: batch_for_plates(
            draw.grams, *_plates(draw), *drawn_losses(draw), drawn_parts(draw)
        ),
        lambda draw: what_is_left_over(draw.scale, drawn_parts(draw), drawn_held(draw)),
        lambda draw: three_to_a_total(
            draw.scale,
            drawn_three(draw),
            draw.mass("ratio-total"),
        ),
        lambda draw: batch_for_a_session(
            draw.grams,
            draw.ranged("ratio-plates-hour"),
            draw.ranged("ratio-hours"),
            draw.ranged("ratio-wax-a-plate"),
            drawn_losses(draw),
            drawn_parts(draw),
        ),
    ),
}
