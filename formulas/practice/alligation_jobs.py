"""Whole jobs by the cross: lots told as ratios, what there is of each, three lots, old wax.

The tasks of `alligation` that take four steps and more; they are drawn there.
"""

from __future__ import annotations

from formulas.adjusting.alligation import corrected_total, cross_parts, shares_with
from formulas.adjusting.old_wax import old_wax_shares
from formulas.adjusting.within_reach import part_additions
from formulas.adjusting.working_steps import plainly
from formulas.practice.draw import Scale
from formulas.practice.exercise import Choice, Made, Silly, made, number_asked
from formulas.practice.lots import APART, MOST, lot, lots_said, mixed, percents
from formulas.practice.parts import parts_said
from formulas.units import printed
from formulas.wax.batch import part_shares

NEAR = 0.05  # of a mass: nearer than that, two are not told apart at a glance
LOTS = ("lot A", "lot B")


def ratios_to_a_total(scale: Scale, ratios: list[list[float]], total: float) -> Made:
    """Ask for the masses of two lots told as ratios; the third ratio is the wanted one."""
    a, b, aim = shares = [100 * part_shares(parts)[1] for parts in ratios]
    if not min(a, b) + APART <= aim <= max(a, b) - APART:
        raise Silly
    masses = mixed([0.0, 0.0], [lot(a), lot(b)], aim, total)
    scale.weighs(*masses)
    parts = cross_parts(aim, b), cross_parts(aim, a)
    first, second, together = (printed(one, 2) for one in (*parts, sum(parts)))
    told = [printed(share, 2) for share in shares]
    room = scale.carried(1) + 0.02 * total / sum(parts)
    high, low = (told[1], told[0]) if b > a else (told[0], told[1])
    to_high, to_low = (first, second) if b > a else (second, first)
    names = ("A", "B") if b > a else ("B", "A")
    return made(
        [
            f"Lot A is {parts_said(ratios[0])}, by mass. Lot B is {parts_said(ratios[1])}.",
            f"You want {scale.said(total)} with {parts_said(ratios[2])}.",
            "How much of each lot do you weigh?",
        ],
        [
            number_asked(f"Mass of {name}", mass, scale.unit, scale.decimals, room)
            for name, mass in zip(LOTS, masses, strict=True)
        ],
        [
            *(
                f"Rosin {where}: {plainly(r)} / ({plainly(w)} + {plainly(r)}) = {share} %."
                for where, (w, r), share in zip(
                    ("in A", "in B", "wanted"), ratios, told, strict=True
                )
            ),
            f"Across: {names[0]} gets {high} − {told[2]} = {to_high} parts, {names[1]} gets"
            f" {told[2]} − {low} = {to_low} parts. In all: {first} + {second} = {together}.",
            f"A: {scale.said(total)} × {first} / {together} = {scale.shown(masses[0])}.",
            f"B: {scale.said(total)} × {second} / {together} = {scale.shown(masses[1])}.",
        ],
        {
            "variant": "ratios-to-a-total",
            "ratios": [part for parts in ratios for part in parts],
            "total": total,
        },
    )


def as_much_as_there_is(scale: Scale, lots: list[float], aim: float, held: list[float]) -> Made:
    """Ask how much can be mixed of two lots of which there is only so much."""
    blends = [lot(one) for one in lots]
    masses = part_additions([0.0, 0.0], blends, held, lot(aim), 0.0, MOST)[1:]
    parts = percents(cross_parts(aim, lots[1]), cross_parts(aim, lots[0]))
    ones = [mass / part for mass, part in zip(held, parts, strict=True)]
    if abs(ones[0] - ones[1]) < NEAR * max(ones):
        raise Silly
    first = ones.index(min(ones))
    other = 1 - first
    scale.weighs(*held, *masses, sum(masses))
    total = sum(masses)
    one = printed(ones[first], scale.decimals + 2)
    a, b, wanted = plainly(lots[0]), plainly(lots[1]), plainly(aim)
    room = scale.carried(1) + 0.05 * 10.0**-scale.decimals * parts[other]
    return made(
        [
            lots_said(lots),
            f"There are {scale.said(held[0])} of A and {scale.said(held[1])} of B.",
            f"You want as much wax with {wanted} % of rosin as they give.",
            "Which lot is used up, how much of the other goes in, and how much is it in all?",
        ],
        [
            Choice("Used up", LOTS[first], LOTS),
            number_asked("Taken of the other", masses[other], scale.unit, scale.decimals, room),
            number_asked("Wax in all", total, scale.unit, scale.decimals, room),
        ],
        [
            f"Across: A gets {b} − {wanted} = {plainly(parts[0])} parts, B gets {wanted} − {a} ="
            f" {plainly(parts[1])} parts.",
            *(
                f"A part, by all of {name}: {scale.said(mass)} / {plainly(part)} ="
                f" {printed(each, scale.decimals + 2)} {scale.unit}."
                for name, mass, part, each in zip("AB", held, parts, ones, strict=True)
            ),
            f"{LOTS[first].replace('lot', 'Lot')} gives less, so it is used up. Of {LOTS[other]}:"
            f" {plainly(parts[other])} × {one} {scale.unit} = {scale.shown(masses[other])}.",
            f"In all: {scale.said(held[first])} + {scale.shown(masses[other])} ="
            f" {scale.shown(total)}.",
        ],
        {"variant": "as-much-as-there-is", "lots": lots, "wanted": aim, "held": held},
    )


def three_lots(
    scale: Scale, lots: list[float], aim: float, third: float, mass: float, total: float
) -> Made:
    """Ask for two lots when all of a third goes in as well."""
    pot = [mass * share for share in lot(third)]
    masses = mixed(pot, [lot(one) for one in lots], aim, total)
    rest = total - mass
    scale.weighs(mass, rest, *masses)
    if third in (*lots, aim):
        raise Silly
    wanted, there = total * aim / 100, mass * third / 100
    left = wanted - there
    share = 100 * left / rest
    parts = cross_parts(share, lots[1]), cross_parts(share, lots[0])
    if min(parts) < APART:
        raise Silly
    b, first = plainly(lots[1]), printed(share, 2)
    between = plainly(percents(sum(parts))[0])
    room = scale.carried(1) + rest / sum(parts) * (0.005 + 0.5 / 10.0**scale.decimals / rest)
    return made(
        [
            lots_said(lots),
            f"All {scale.said(mass)} of a third lot go in too. It holds {plainly(third)} % of"
            " rosin.",
            f"You want {scale.said(total)} in all with {plainly(aim)} % of rosin.",
            "How much of A and of B do you weigh?",
        ],
        [
            number_asked(f"Mass of {name}", one, scale.unit, scale.decimals, room)
            for name, one in zip(LOTS, masses, strict=True)
        ],
        [
            f"Rosin wanted: {scale.said(total)} × {plainly(aim)} / 100 = {scale.fine(wanted)}.",
            f"Rosin in the third lot: {scale.said(mass)} × {plainly(third)} / 100 ="
            f" {scale.fine(there)}.",
            f"A and B bring the rest: {scale.fine(wanted)} − {scale.fine(there)} ="
            f" {scale.fine(left)}, in {scale.said(total)} − {scale.said(mass)} ="
            f" {scale.said(percents(rest)[0])}.",
            f"Share that they need: {scale.fine(left)} / {scale.said(percents(rest)[0])} ="
            f" {first} %.",
            f"A, by the cross: {scale.said(percents(rest)[0])} × ({b} − {first}) / {between} ="
            f" {scale.shown(masses[0])}.",
            f"B: {scale.said(percents(rest)[0])} − {scale.shown(masses[0])} ="
            f" {scale.shown(masses[1])}.",
        ],
        {
            "variant": "three-lots", "lots": lots, "wanted": aim, "third": third, "mass": mass,
            "total": total,
        },
    )  # fmt: skip


def old_wax_between_ends(scale: Scale, mass: float, ends: list[float], aim: float) -> Made:
    """Ask for the beeswax by the middle of what old wax may hold, and where that may end."""
    low, high = ends
    middle = 100 * old_wax_shares([low / 100], [high / 100], 0.5)[1]
    if not aim < middle:
        raise Silly
    end = corrected_total([mass * (1 - middle / 100), mass * middle / 100], lot(aim))
    add = end - mass
    scale.weighs(mass, add, end)
    lowest, highest = (
        100 * shares_with([mass * share for share in lot(one)], [[1.0, 0.0]], [add])[1]
        for one in ends
    )
    half = 0.5 / 10.0**scale.decimals
    return made(
        [
            f"{scale.said(mass)} of old wax hold between {plainly(low)} and {plainly(high)} % of"
            " rosin; nobody knows better.",
            f"You want {plainly(aim)} % of rosin. Only plain beeswax is added, reckoned by the"
            " middle of"
            " the two.",
            "How much beeswax is it, and between which shares of rosin may the wax then lie?",
        ],
        [
            number_asked(
                "Beeswax to add", add, scale.unit, scale.decimals, scale.carried(end / mass)
            ),
            number_asked("Lowest share", lowest, "percent", 1, 100 * half / end),
            number_asked("Highest share", highest, "percent", 1, 100 * half / end),
        ],
        [
            f"The middle: ({plainly(low)} + {plainly(high)}) / 2 = {plainly(percents(middle)[0])}"
            ", in %.",
            f"All in the end: {scale.said(mass)} × {plainly(percents(middle)[0])} /"
            f" {plainly(aim)} = {scale.fine(end)}.",
            f"Beeswax: {scale.fine(end)} − {scale.said(mass)} = {scale.shown(add)}.",
            *(
                f"{name} share: {scale.said(mass)} × {plainly(one)} / 100 / {scale.fine(end)} ="
                f" {printed(share, 1)} %."
                for name, one, share in (("Lowest", low, lowest), ("Highest", high, highest))
            ),
        ],
        {"variant": "old-wax-between-ends", "mass": mass, "ends": ends, "wanted": aim},
    )
