"""Which way a correction is shown by, and what to note beside it.

Arguments are those of `alligation` and `working_steps`.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.adjusting.alligation import NOTHING
from formulas.adjusting.working_steps import (
    balance_steps,
    cross_steps,
    mass_said,
    pot_said,
    pot_steps,
    ratio_said,
    scale_said,
    share_said,
    telling_component,
)
from formulas.formula import procedure
from formulas.wax.batch import TELLING_DRIFT

SPENT = 1e-7  # of a stock: less than this left over counts as none
NOT_FIRMER = (
    "Test before use. A pot that is too soft does not surely get firmer by more rosin: it may melt"
    " earlier, and it gets brittle sooner in the cold."
)
OLD_WAX = (
    "Old wax is in it: label it reclaimed, and keep it out of fresh wax until it was tested as a"
    " new blend."
)
OLD_MIDDLE = "Old wax is counted at the middle of its range; it may lie anywhere in it."
LADLE_OUT = "If that is more than you need, ladle some of the pot out first and correct the rest."


@procedure("Component that an addition is made of alone")
def pure_of(shares: Sequence[float]) -> int:
    """Give the component, -1 where the addition is a mixture."""
    for i in range(len(shares)):
        if shares[i] >= 1 - NOTHING:
            return i
    return -1


@procedure("Whether additions are pure, one a component")
def all_pure(blends: Sequence[Sequence[float]]) -> bool:
    """Say whether each component's step can be reckoned by itself."""
    found = [0] * (len(blends[0]) if len(blends) > 0 else 0)
    for shares in blends:
        place = pure_of(shares)
        if place < 0 or found[place] > 0:
            return False
        found[place] = 1
    return True


@procedure("Which of the additions run out")
def used_up(stocks: Sequence[float], masses: Sequence[float]) -> list[int]:
    """Give the additions of which all there is was taken."""
    return [j for j in range(len(masses)) if 0 < stocks[j] <= masses[j] * (1 + SPENT)]


@procedure("Steps of a mixture of several additions")
def mixture_steps(
    names: Sequence[str],
    labels: Sequence[str],
    parts: Sequence[float],
    pot: Sequence[float],
    blends: Sequence[Sequence[float]],
    stocks: Sequence[float],
    masses: Sequence[float],
    asked: float,
    decimals: int,
    unit: str,
) -> list[str]:
    """Say by which rule the additions were chosen and what ran out, then check the sum of each."""
    steps = [pot_said(names, pot, decimals, unit)] if sum(pot) > 0 else []
    steps.append(ratio_said(names, parts))
    if len([1 for mass in masses if mass > 0]) > 1:
        steps.append(
            "More than one mixture may serve. Taken here: what is named first, as far as it goes."
            if asked > 0 or sum(pot) == 0
            else "More than one mixture may serve. Taken here: the one that adds least."
        )
    for j in used_up(stocks, masses):
        steps.append(
            "Of " + labels[j] + " all goes in: " + mass_said(stocks[j], decimals, unit) + "."
        )
    sums = balance_steps(names, labels, parts, pot, blends, masses, decimals, unit)
    return [line for block in [steps, sums] for line in block]


@procedure("Steps of a pot and one addition, or of two lots")
def crossed_steps(
    names: Sequence[str],
    labels: Sequence[str],
    parts: Sequence[float],
    pot: Sequence[float],
    blends: Sequence[Sequence[float]],
    masses: Sequence[float],
    taken: Sequence[int],
    decimals: int,
    unit: str,
) -> list[str]:
    """Say the cross of the first and the last that go together; the pot comes before all else.

    With more than two components the sums of all follow: the cross counts only one.
    """
    whole = sum(pot)
    poured = whole > 0
    first = [mass / whole for mass in pot] if poured else blends[taken[0]]
    second = blends[taken[-1]]
    of = telling_component(first, second)
    cross = cross_steps(
        names[of],
        ["the pot" if poured else labels[taken[0]], labels[taken[-1]]],
        first[of],
        second[of],
        parts[of] / sum(parts),
        [whole if poured else masses[taken[0]], masses[taken[-1]]],
        poured,
        decimals,
        unit,
    )
    start = [pot_said(names, pot, decimals, unit)] if poured else []
    sums = balance_steps(names, labels, parts, pot, blends, masses, decimals, unit)
    after = sums if len(names) > 2 else []
    said = [start, [ratio_said(names, parts)], cross, after]
    return [line for block in said for line in block]


@procedure("The working of a correction")
def working_of(
    names: Sequence[str],
    labels: Sequence[str],
    parts: Sequence[float],
    pot: Sequence[float],
    blends: Sequence[Sequence[float]],
    stocks: Sequence[float],
    masses: Sequence[float],
    asked: float,
    step: float,
    counts: Sequence[int],
    decimals: int,
    unit: str,
) -> list[str]:
    """Give the steps by which a person finds these additions, or checks them, on paper.

    Pure additions one by one, two lots by the cross, a pot and one lot by the cross, else the
    sums. `asked` is nought where no mass was asked for; `masses` lead to the wanted ratio.
    """
    whole = sum(pot)
    end = whole + sum(masses)
    taken = [j for j in range(len(masses)) if masses[j] > NOTHING * end]
    crossed = len(taken) == 1 if whole > 0 else len(taken) == 2
    if all_pure([blends[j] for j in taken]) and (whole == 0 or len(taken) > 0):
        steps = pot_steps(names, parts, pot, end, decimals, unit)
    elif crossed:
        steps = crossed_steps(names, labels, parts, pot, blends, masses, taken, decimals, unit)
    else:
        steps = mixture_steps(
            names, labels, parts, pot, blends, stocks, masses, asked, decimals, unit
        )
    if len(taken) == 0:
        steps.append("The ratio is there: add nothing.")
    else:
        steps.append(scale_said(labels, counts, step, decimals, unit))
    return steps


@procedure("A working that counts old wax")
def told_with_old_wax(texts: Sequence[str]) -> list[str]:
    """Put before the steps where in its range the old wax is counted."""
    return [line for block in [[OLD_MIDDLE], texts] for line in block]


@procedure("What to note beside a correction")
def correction_notes(
    whole: float, end: float, near: float, drift: float, reclaimed: bool, decimals: int, unit: str
) -> list[str]:
    """Give the notes: `drift` is how far the scale moved a share, `near` a pot grown too large."""
    notes = [NOT_FIRMER]
    if reclaimed:
        notes.append(OLD_WAX)
    if 0 < whole * near < end:
        grown = "The pot grows from " + mass_said(whole, decimals, unit) + " to "
        notes.append(grown + mass_said(end, decimals, unit) + ". " + LADLE_OUT)
    if drift > TELLING_DRIFT:
        notes.append(
            "The steps of the scale move a share by "
            + share_said(drift)
            + ": correct more at once,"
            " or use a finer scale."
        )
    return notes
