"""The whole answer for one slot in one step: `choosing` words it, the page runs the same source."""

from __future__ import annotations

from collections.abc import Sequence

from formulas.formula import procedure
from formulas.valves.blank import valve_sizes
from formulas.valves.deciding import WITH_HELPER, WITH_TOPPER, decided, founds_of, helped
from formulas.valves.judging import helper_force, judged, passed_of, topped
from formulas.valves.no_valve import goes_without, wasted_area
from formulas.valves.window import window_of

ANSWER = (
    "sizes",
    "decided",
    "without",
    "found",
    "low",
    "high",
    "ratios",
    "least",
    "most",
    "limits",
    "verdict",
    "window",
    "helper",
    "passed",
    "unsure",
)
"""What `slot_answer` gives, in its order; from `found` on to `verdict` nothing where no stock was
judged. The window is followed by the mass it is for, the verdict by its margin; the helper is its
preload, its force at the tip and the choke at three pressures; then the limits that are passed,
and those that are passed at an end of what is known."""


@procedure("A slot as it is judged")
def slot_numbers_of(
    length: float, width: float, hanging: float, other_hertz: float, room: float
) -> list[float]:
    """Give length, width, share of gravity, period of the note of the other slot, and room."""
    return [length, width, hanging, 1 / other_hertz, room]


@procedure("Notes of a rank")
def notes_up(lowest: int, count: int) -> list[int]:
    """Give the numbers of so many notes, a semitone apart."""
    return [note for note in range(lowest, lowest + count)]  # noqa: C416 - shared with the page


@procedure("Last note of a rank")
def last_note(lowest: int, count: int) -> int:
    """Give the number of the highest note."""
    return lowest + count - 1


@procedure("Which conditions speak for no valve")
def without_of(
    slot: Sequence[float],
    frequency: float,
    had_none: bool,
    no_valve: list[float],
    tongue_rule: Sequence[float],
    valve_stocks: Sequence[Sequence[float]],
    founds: Sequence[Sequence[float]],
) -> list[int]:
    """Give the three of `no_valve.goes_without`; the lightest is the one that chokes least,
    of the shop's own where it has measured one.

    `founds` is what `deciding.founds_of` gives; `tongue_rule` is the tip's offset as a share of
    the tongue, and the gap round it in m.
    """
    tongue = slot[0] - tongue_rule[1]
    width = slot[1] - 2 * tongue_rule[1]
    area = wasted_area(tongue, width, tongue_rule[0] * tongue, tongue_rule[1])
    lightest = 1.0
    own = sum(stock[10] * stock[11] for stock in valve_stocks)
    for i in range(len(valve_stocks)):
        if valve_stocks[i][11] > 0 and (own == 0 or valve_stocks[i][10] > 0):
            lightest = min(lightest, founds[i][4])
    return goes_without(tongue, frequency, area, lightest, had_none, no_valve)


@procedure("Mean mass of the stocks that may stand alone")
def usual_mass(valve_stocks: Sequence[Sequence[float]], otherwise: float) -> float:
    """Give the mass that a window is told for where no stock was chosen."""
    alone = [stock[0] for stock in valve_stocks if stock[11] > 0]
    if len(alone) == 0:
        return otherwise
    return sum(alone) / len(alone)


@procedure("The answer for one slot")
def slot_answer(
    slot: Sequence[float],
    frequency: float,
    wall: float,
    edge: float,
    had_none: bool,
    rules: Sequence[float],
    openings: Sequence[float],
    pressures: Sequence[float],
    limits: Sequence[Sequence[float]],
    no_valve: list[float],
    tongue_rule: Sequence[float],
    valve_stocks: Sequence[Sequence[float]],
    otherwise: float,
) -> list[Sequence[float]]:
    """Give what `ANSWER` names. `slot` and the stocks as in `judging.judged`.

    `wall` or `edge` of nought is not known; `otherwise` is the mass of a window where no stock
    is at hand.
    """
    sizes = valve_sizes(slot[0], slot[1], wall, edge, rules)
    founds = founds_of(sizes, slot, openings, pressures, valve_stocks)
    spoke = without_of(slot, frequency, had_none, no_valve, tongue_rule, valve_stocks, founds)
    without = sum(spoke) == 3 or had_none
    answer = decided(sizes, slot, openings, pressures, limits, valve_stocks, founds, without)
    mass = usual_mass(valve_stocks, otherwise)
    none: list[float] = []
    result = [none, none, none, none, none, none, none, none]
    helper: list[float] = []
    passed: list[int] = []
    unsure: list[int] = []
    if answer[1] >= 0:
        stock = valve_stocks[answer[1]]
        if answer[0] == WITH_TOPPER:
            stock = topped(stock, valve_stocks[answer[2]])
        mass = stock[0]
        result = judged(sizes, slot, openings, pressures, limits, stock)
        passed = passed_of(result[3], limits)
        unsure = passed_of(result[5], limits)
        if answer[0] == WITH_HELPER:
            pressed = helped(sizes, slot, openings, pressures, result[0], result[3], stock)
            force = helper_force(pressed[0], sizes[4], sizes[5])
            helper = [pressed[0], force, pressed[1], pressed[2], pressed[3]]
    window = window_of(sizes, slot, openings, pressures, limits, mass)
    return [
        sizes,
        answer,
        spoke,
        result[0],
        result[1],
        result[2],
        result[3],
        result[4],
        result[5],
        result[6],
        result[7],
        [window[0], window[1], mass],
        helper,
        passed,
        unsure,
    ]
