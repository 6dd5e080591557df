"""Whole jobs on a pot that is off: its brim, what is left, both additions, three, out of reach.

The tasks of `adjusting` that take four steps and more; they are drawn there.
"""

from __future__ import annotations

from formulas.adjusting.alligation import (
    component_addition,
    corrected_total,
    least_additions,
)
from formulas.adjusting.within_reach import part_additions, part_of_pot
from formulas.adjusting.working_steps import plainly
from formulas.practice.draw import Scale
from formulas.practice.exercise import ABOVE, BELOW, Choice, Made, Silly, made, number_asked
from formulas.practice.lots import MOST, MUCH, REACH, lot, percents
from formulas.practice.parts import MATERIALS, OF_THREE, parts_said
from formulas.units import printed
from formulas.wax.batch import part_shares

PURE_ROSIN = [[0.0, 1.0]]
CLEAR = 0.05  # by how much of a pot a limit must tell


def _told(scale: Scale, pot: list[float], parts: list[float]) -> list[str]:
    return [
        f"The pot holds {scale.said(pot[0])} of beeswax and {scale.said(pot[1])} of rosin.",
        f"It should be {parts_said(parts)}, by mass.",
    ]


def pot_with_a_limit(scale: Scale, pot: list[float], parts: list[float], room: float) -> Made:
    """Ask what to ladle out and what to add where all of it would overfill the pot."""
    shares, whole = part_shares(parts), sum(pot)
    end = corrected_total(pot, shares)
    if pot[0] < end * shares[0] * (1 - CLEAR / 10) or not whole < room < end * (1 - CLEAR / 2):
        raise Silly
    part = part_additions(pot, PURE_ROSIN, [0.0], shares, room, MOST)
    kept, add = part_of_pot(part, pot), part[1]
    scale.weighs(*pot, add, whole - kept)
    wax = room * shares[0]
    parted = f"({plainly(parts[0])} + {plainly(parts[1])})"
    all_of_it = scale.said(percents(whole)[0])
    times = 1 + whole / pot[0]
    return made(
        [
            *_told(scale, pot, parts),
            f"The pot may hold {scale.said(room)}, and it is to be filled to that.",
            "How much do you ladle out first, and how much rosin do you then add?",
        ],
        [
            number_asked(
                "Ladled out", whole - kept, scale.unit, scale.decimals, scale.carried(times), ABOVE
            ),
            number_asked(
                "Rosin to add", add, scale.unit, scale.decimals, scale.carried(times), BELOW
            ),
        ],
        [
            f"In the pot: {scale.said(pot[0])} + {scale.said(pot[1])} = {all_of_it}.",
            f"All of it would come to {scale.said(pot[0])} × {parted} / {plainly(parts[0])} ="
            f" {scale.fine(end)}, which is too much.",
            f"Beeswax in the full pot: {scale.said(room)} × {plainly(parts[0])} / {parted} ="
            f" {scale.fine(wax)}.",
            f"It is in so much of the old pot: {scale.fine(wax)} × {all_of_it} /"
            f" {scale.said(pot[0])} = {scale.fine(kept)}.",
            f"Ladle out: {all_of_it} − {scale.fine(kept)} = {scale.fine(whole - kept)}.",
            f"Rosin: {scale.said(room)} − {scale.fine(kept)} = {scale.fine(add)}.",
        ],
        {"variant": "pot-with-a-limit", "pot": pot, "parts": parts, "room": room},
    )


def only_what_is_left(scale: Scale, pot: list[float], parts: list[float], left: float) -> Made:
    """Ask how much of a pot comes right with the rosin that is left, which is too little."""
    shares, whole = part_shares(parts), sum(pot)
    end = corrected_total(pot, shares)
    missing = component_addition(shares[1], end, pot[1])
    if left > missing * (1 - CLEAR) or left < missing * CLEAR:
        raise Silly
    part = part_additions(pot, PURE_ROSIN, [left], shares, 0.0, MOST)
    kept = part_of_pot(part, pot)
    scale.weighs(*pot, left, kept, whole - kept)
    must = end * shares[1]
    all_of_it = scale.said(percents(whole)[0])
    share = printed(part[0], 4)
    room = scale.carried(1) + whole * (0.00005 + 0.5 * 10.0**-scale.decimals / missing)
    return made(
        [
            *_told(scale, pot, parts),
            f"Only {scale.said(left)} of rosin is left, and there is no more.",
            "How much of the pot can be put right with it, and what does that part then weigh?",
        ],
        [
            number_asked("Of the pot", kept, scale.unit, scale.decimals, room),
            number_asked("Put right in all", kept + left, scale.unit, scale.decimals, room),
        ],
        [
            f"Rosin must be: {scale.said(pot[0])} × {plainly(parts[1])} / {plainly(parts[0])} ="
            f" {scale.fine(must)}.",
            f"Missing: {scale.fine(must)} − {scale.said(pot[1])} = {scale.fine(missing)}.",
            f"The rosin that is left, as a share of that: {scale.said(left)} /"
            f" {scale.fine(missing)} = {share}.",
            f"So much of the pot comes right: {share} × ({scale.said(pot[0])} +"
            f" {scale.said(pot[1])}) = {scale.shown(kept)}.",
            f"With the rosin: {scale.shown(kept)} + {scale.said(left)} ="
            f" {scale.shown(kept + left)}. The rest of the {all_of_it} stays out.",
        ],
        {"variant": "only-what-is-left", "pot": pot, "parts": parts, "left": left},
    )


def both_to_a_total(scale: Scale, pot: list[float], parts: list[float], total: float) -> Made:
    """Ask for both additions that bring a pot to a ratio and a total."""
    shares = part_shares(parts)
    found = least_additions(pot, [[1.0, 0.0], [0.0, 1.0]], [0.0, 0.0], shares, total, MOST)
    if not found:
        raise Silly
    scale.weighs(*pot, *found, total)
    one = scale.fine(total / sum(parts))
    must = [total * share for share in shares]
    return made(
        [
            *_told(scale, pot, parts),
            f"In the end the pot is to hold {scale.said(total)}.",
            "How much beeswax and how much rosin do you add?",
        ],
        [
            number_asked(
                f"{name.capitalize()} to add", add, scale.unit, scale.decimals,
                scale.carried(part + 1),
            )
            for name, add, part in zip(MATERIALS, found, parts, strict=True)
        ],
        [
            f"One part: {scale.said(total)} / ({plainly(parts[0])} + {plainly(parts[1])}) = {one}.",
            *(
                f"{name.capitalize()} must be: {plainly(part)} × {one} = {scale.fine(mass)}."
                for name, part, mass in zip(MATERIALS, parts, must, strict=True)
            ),
            *(
                f"{name.capitalize()} to add: {scale.fine(mass)} − {scale.said(there)} ="
                f" {scale.shown(add)}."
                for name, mass, there, add in zip(MATERIALS, must, pot, found, strict=True)
            ),
        ],
        {"variant": "both-to-a-total", "pot": pot, "parts": parts, "total": total},
    )  # fmt: skip


def three_in_a_pot(scale: Scale, pot: list[float], parts: list[float]) -> Made:
    """Ask of which of three there is most, and what all additions come to."""
    end = corrected_total(pot, part_shares(parts))
    adds = [
        component_addition(share, end, there)
        for share, there in zip(part_shares(parts), pot, strict=True)
    ]
    kept = adds.index(min(adds))
    others = [place for place in range(3) if place != kept]
    scale.weighs(*pot, *(adds[place] for place in others), end)
    if end > MUCH * sum(pot):
        raise Silly
    one = scale.fine(pot[kept] / parts[kept])
    told = [plainly(part) for part in parts]
    room = scale.carried(sum(parts[place] for place in others) + 2)
    to_add = [
        f"{OF_THREE[place].capitalize()} to add: {told[place]} × {one} − {scale.said(pot[place])} ="
        f" {scale.fine(adds[place])}."
        for place in others
    ]
    return made(
        [
            f"The pot holds {scale.said(pot[0])} of beeswax, {scale.said(pot[1])} of rosin and"
            f" {scale.said(pot[2])} of carnauba wax.",
            f"It should be {told[0]} of beeswax to {told[1]} of rosin to {told[2]} of carnauba"
            " wax, by mass. You add as little as brings it there.",
            "Of which do you add nothing, and how much of the other two do you add together?",
        ],
        [
            Choice("Nothing is added of", OF_THREE[kept], OF_THREE),
            number_asked(
                "The other two together", sum(adds[place] for place in others), scale.unit,
                scale.decimals, room,
            ),
        ],
        [
            *(
                f"A part of {name}: {scale.said(there)} / {text} = {scale.fine(there / part)}."
                for name, there, text, part in zip(OF_THREE, pot, told, parts, strict=True)
            ),
            f"The {OF_THREE[kept]} gives the largest part, so none is added. {to_add[0]}",
            to_add[1],
            f"Together: {' + '.join(scale.fine(adds[place]) for place in others)} ="
            f" {scale.shown(sum(adds[place] for place in others))}.",
        ],
        {"variant": "three-in-a-pot", "pot": pot, "parts": parts},
    )  # fmt: skip


def two_lots_at_hand(scale: Scale, pot: list[float], parts: list[float], lots: list[float]) -> Made:
    """Ask whether two lots bring a pot to a ratio; they are told in percent of rosin."""
    held, aim = 100 * part_shares(pot)[1], 100 * part_shares(parts)[1]
    scale.weighs(*pot)
    least = min(abs(one - aim) for one in (held, *lots))
    if least < 1 or abs(lots[0] - lots[1]) < 1 or min(abs(one - held) for one in lots) < 1:
        raise Silly
    found = least_additions(
        pot, [lot(one) for one in lots], [0.0, 0.0], part_shares(parts), 0.0, MOST
    )
    right = REACH[0] if found else REACH[1]
    lowest, highest = min(held, *lots), max(held, *lots)
    low, high, wanted = printed(lowest, 1), printed(highest, 1), printed(aim, 1)
    return made(
        [
            *_told(scale, pot, parts),
            f"All there is to add are two lots, with {plainly(lots[0])} % and {plainly(lots[1])} %"
            " of rosin.",
            "What share of rosin is in the pot, what share is wanted, and can it be reached?",
        ],
        [
            number_asked("Share in the pot", held, "percent", 1),
            number_asked("Share wanted", aim, "percent", 1),
            Choice("Can it be reached", right, REACH),
        ],
        [
            f"In the pot: {scale.said(pot[1])} / ({scale.said(pot[0])} + {scale.said(pot[1])}) ="
            f" {printed(held, 1)} %.",
            f"Wanted: {plainly(parts[1])} / ({plainly(parts[0])} + {plainly(parts[1])}) ="
            f" {wanted} %.",
            f"Of the pot and both lots, the poorest holds {low} % and the richest {high} %.",
            f"{wanted} % {'lies' if found else 'does not lie'} between them, so it {right}.",
        ],
        {"variant": "two-lots-at-hand", "pot": pot, "parts": parts, "lots": lots},
    )
