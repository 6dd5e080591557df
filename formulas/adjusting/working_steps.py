"""The steps of a correction as the trade writes them on paper, one text a step.

The page has the same functions, so that terminal, page and paper say the same. A text that
begins with two blanks is a line of the cross: its columns stand under one another.
Arguments are those of `alligation`; `names` are the components, `labels` the additions.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.adjusting.alligation import (
    NOTHING,
    component_addition,
    corrected_total,
    cross_parts,
    masses_with,
)
from formulas.formula import procedure
from formulas.units import printed
from formulas.wax.batch import decimals_of, mass_of


@procedure("Texts in a row")
def joined(texts: Sequence[str], mark: str) -> str:
    """Put texts behind one another with a mark between them."""
    line = ""
    for text in texts:
        line = text if line == "" else line + mark + text
    return line


@procedure("A number with the decimals it was given with")
def plainly(number: float) -> str:
    """Write a number without noughts at its end, to six decimals at most."""
    return printed(number, decimals_of(number))


@procedure("A mass in words")
def mass_said(mass: float, decimals: int, unit: str) -> str:
    """Write a mass with its unit."""
    return printed(mass, decimals) + " " + unit


@procedure("A share in words")
def share_said(share: float) -> str:
    """Write a share as a percentage with two decimals."""
    return printed(100 * share, 2) + " %"


@procedure("Text filled up with blanks in front")
def set_right(text: str, columns: int) -> str:
    """Set a text to the right of a column."""
    line = text
    while len(line) < columns:
        line = " " + line
    return line


@procedure("What is in the pot")
def pot_said(names: Sequence[str], pot: Sequence[float], decimals: int, unit: str) -> str:
    """Say the mass of each component and of all."""
    inside = [
        names[i] + " " + mass_said(pot[i], decimals, unit) for i in range(len(pot)) if pot[i] > 0
    ]
    whole = mass_said(sum(pot), decimals, unit)
    return "The pot holds " + joined(inside, "; ") + ": " + whole + " in all."


@procedure("What the ratio is")
def ratio_said(names: Sequence[str], parts: Sequence[float]) -> str:
    """Say the wanted parts by mass."""
    wanted = [names[i] + " " + plainly(parts[i]) for i in range(len(parts)) if parts[i] > 0]
    whole = plainly(sum(parts))
    return "It must be, in parts by mass: " + joined(wanted, "; ") + ": " + whole + " in all."


@procedure("What must be there less what is there")
def addition_said(
    name: str, part: float, one: float, there: float, decimals: int, unit: str
) -> str:
    """Say one component's step: `one` is the mass of one part."""
    share = plainly(part) + " × " + mass_said(one, decimals + 1, unit)
    wanted = name + " must be " + share + " = " + mass_said(part * one, decimals + 1, unit)
    add = component_addition(part, one, there)
    if add <= NOTHING * part * one:
        return wanted + "; that is there: add none."
    if there == 0:
        return wanted + "; none is there: add it all."
    less = mass_said(there, decimals + 1, unit)
    return wanted + ", less " + less + " there: add " + mass_said(add, decimals + 1, unit) + "."


@procedure("What is there divided by its parts")
def divided_said(
    names: Sequence[str],
    parts: Sequence[float],
    pot: Sequence[float],
    decimals: int,
    unit: str,
) -> str:
    """Say for each component in the pot how much of it there is for one of its parts."""
    divided = []
    for i in range(len(pot)):
        if pot[i] > 0 and parts[i] > 0:
            there = names[i] + " " + mass_said(pot[i], decimals, unit)
            one = mass_said(pot[i] / parts[i], decimals + 1, unit)
            divided.append(there + " / " + plainly(parts[i]) + " = " + one)
    return "Divide what is there by its parts: " + joined(divided, "; ") + "."


@procedure("Steps for a pot and pure materials")
def pot_steps(
    names: Sequence[str],
    parts: Sequence[float],
    pot: Sequence[float],
    total: float,
    decimals: int,
    unit: str,
) -> list[str]:
    """Say how much a part weighs, then each component's step.

    A part is the largest mass of a component over its parts; with a total, the total over all.
    """
    steps = []
    one = total / sum(parts)
    whole = mass_said(total, decimals + 1, unit)
    least = corrected_total(
        [pot[i] for i in range(len(pot)) if parts[i] > 0],
        [part / sum(parts) for part in parts if part > 0],
    )
    if sum(pot) > 0:
        steps.append(pot_said(names, pot, decimals, unit))
    steps.append(ratio_said(names, parts))
    if sum(pot) > 0 and total <= least * (1 + NOTHING):
        steps.append(divided_said(names, parts, pot, decimals, unit))
        largest = sorted(
            [i for i in range(len(pot)) if parts[i] > 0], key=lambda i: -pot[i] / parts[i]
        )[0]
        one = pot[largest] / parts[largest]
        kept = "Keep the " + names[largest] + ", which gives the most for a part: "
        steps.append(kept + mass_said(one, decimals + 1, unit) + ".")
    else:
        parted = "One part is " + whole + " / " + plainly(sum(parts)) + " = "
        steps.append(parted + mass_said(one, decimals + 1, unit) + ".")
    for i in range(len(pot)):
        if parts[i] > 0:
            steps.append(addition_said(names[i], parts[i], one, pot[i], decimals, unit))
    return steps


@procedure("The cross")
def cross_lines(a: float, b: float, aim: float) -> list[str]:
    """Write the shares at the left, the wanted one in the middle, the parts across from each."""
    first = set_right(printed(100 * a, 2), 7)
    second = set_right(printed(100 * b, 2), 7)
    middle = set_right(printed(100 * aim, 2), 12)
    of_first = set_right(printed(100 * cross_parts(aim, b), 2), 10)
    of_second = set_right(printed(100 * cross_parts(aim, a), 2), 10)
    return [
        "  A" + first + of_first + " parts A",
        "   " + middle,
        "  B" + second + of_second + " parts B",
    ]


@procedure("Component to count by in a cross")
def telling_component(first: Sequence[float], second: Sequence[float]) -> int:
    """Give the component whose shares lie farthest apart; among equals the last."""
    best = 0
    for i in range(len(first)):
        if abs(first[i] - second[i]) >= abs(first[best] - second[best]) - NOTHING:
            best = i
    return best


@procedure("Steps by the cross")
def cross_steps(
    name: str,
    labels: Sequence[str],
    a: float,
    b: float,
    aim: float,
    masses: Sequence[float],
    poured: bool,
    decimals: int,
    unit: str,
) -> list[str]:
    """Say the cross of two lots, A and B, of which `masses` are taken; `poured`: A is the pot."""
    of_first = cross_parts(aim, b)
    of_second = cross_parts(aim, a)
    known = masses[0] if poured else masses[0] + masses[1]
    parts = 100 * of_first if poured else 100 * (of_first + of_second)
    one = mass_said(known / parts, decimals + 2, unit)
    opening = [
        "A is " + labels[0] + ", B is " + labels[1] + "; count the " + name + ".",
        "Its share at the left, the wanted one in the middle, across from each the difference:",
    ]
    steps = [line for block in [opening, cross_lines(a, b, aim)] for line in block]
    together = printed(parts, 2) + " parts are " + mass_said(known, decimals, unit)
    steps.append(together + ", so one part is " + one + ".")
    if not poured:
        first = printed(100 * of_first, 2) + " × " + one + " = "
        steps.append("A: " + first + mass_said(masses[0], decimals + 1, unit) + ".")
    second = printed(100 * of_second, 2) + " × " + one + " = "
    steps.append("B: " + second + mass_said(masses[1], decimals + 1, unit) + ".")
    return steps


@procedure("Steps that check a mixture")
def balance_steps(
    names: Sequence[str],
    labels: Sequence[str],
    parts: Sequence[float],
    pot: Sequence[float],
    blends: Sequence[Sequence[float]],
    masses: Sequence[float],
    decimals: int,
    unit: str,
) -> list[str]:
    """Add up all that goes together, then each component, against what is wanted of it."""
    whole = sum(pot) + sum(masses)
    taken = [j for j in range(len(masses)) if masses[j] > NOTHING * whole]
    fine = decimals + 1
    there = mass_said(sum(pot), fine, unit) + " from the pot"
    together = [there] if sum(pot) > 0 else []
    for j in taken:
        together.append(mass_said(masses[j], fine, unit) + " of " + labels[j])
    steps = [joined(together, " + ") + " = " + mass_said(whole, fine, unit) + " in all."]
    for i in range(len(names)):
        terms = [printed(pot[i], fine)] if pot[i] > 0 else []
        for j in taken:
            if blends[j][i] > NOTHING:
                terms.append(share_said(blends[j][i]) + " of " + printed(masses[j], fine))
        inside = mass_said(masses_with(pot, blends, masses)[i], fine, unit)
        share = parts[i] / sum(parts)
        wanted = share_said(share) + " of " + printed(whole, fine) + " = "
        summed = names[i] + ": " + (joined(terms, " + ") if len(terms) > 0 else "none") + " = "
        steps.append(
            summed + inside + "; wanted " + wanted + mass_said(share * whole, fine, unit) + "."
        )
    return steps


@procedure("What to put on the scale")
def scale_said(
    labels: Sequence[str], counts: Sequence[int], step: float, decimals: int, unit: str
) -> str:
    """Say what to weigh, in steps of the scale."""
    weights = [
        labels[j] + ": " + mass_said(mass_of(counts[j], step), decimals, unit)
        for j in range(len(counts))
        if counts[j] > 0
    ]
    if len(weights) == 0:
        return "Weigh nothing: less than a step of the scale is missing."
    steps = "On the scale, in its steps of " + plainly(step) + " " + unit + ": "
    return steps + joined(weights, "; ") + "."
