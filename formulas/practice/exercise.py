"""What an exercise is: what it tells, what it asks, the key, and the working as on paper.

A line of working that reckons is written so that a pencil can follow it, and a test does:
words and a colon, then `4 × 45.00 g = 180.0 g`, with `+ − × /`, parentheses and `%`. A number
that a later line takes up is written there as it was written in the line that gave it.
`number_asked` makes a Wanted, `made` puts an exercise together.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import filterfalse

from formulas.frozen import Frozen
from formulas.units import printed, spoken_unit

ONE_STEP, SOME_STEPS, WHOLE_JOB = 1, 2, 3
BOTH, BELOW, ABOVE = "both", "below", "above"
GRADES = {ONE_STEP: "one step", SOME_STEPS: "two or three steps", WHOLE_JOB: "a whole job"}


class Wanted(Frozen):
    """A number that is asked for: the key in `unit`, rounded to `places`.

    An answer within `tolerance` of the key is right: it is never less than half the last place.
    The key of a limit is rounded to its cautious `side`, and no answer beyond it is right.
    """

    what: str
    value: float
    unit: str
    places: int
    tolerance: float
    side: str = BOTH


class Choice(Frozen):
    """A word that is asked for, out of `of`; `right` is one of them."""

    what: str
    right: str
    of: tuple[str, ...]


Given = dict[str, float | str | list[float]]


@dataclass(frozen=True)
class Made:
    """What a topic makes of one draw: an exercise without its place on the sheet.

    `told` are the sentences of the task, `rounding` says to what the answers are rounded.
    `working` is the way to the key, one line a step. `given` are the numbers of the task by
    name, in the units of the task, so that somebody else can solve it.
    """

    told: tuple[str, ...]
    wanted: tuple[Wanted | Choice, ...]
    rounding: str
    working: tuple[str, ...]
    given: Given = field(default_factory=dict)


class Exercise(Frozen):
    """One exercise. Topic, grade, seed and number together give it again."""

    topic: str
    grade: int
    seed: int
    number: int
    made: Made


class Silly(Exception):
    """Numbers that were drawn make no sensible task."""


TOSS = 1e-4  # of a place
ON_THE_STEP = 1e-6  # of a place: what falls on a step is not rounded on to the next
LEFT_OVER = 1e-9  # of half a place: what rounding in the machine leaves


def rounded(value: float, places: int, side: str = BOTH) -> float:
    """Round for a key: half away from nought, or down or up where only one side is cautious.

    >>> rounded(78.36, 0), rounded(78.36, 0, BELOW), rounded(78.36, 1, ABOVE), rounded(78, 0, ABOVE)
    (78.0, 78.0, 78.4, 78.0)
    """
    if side == BOTH:
        return float(printed(value, places))
    steps = value * 10**places
    whole = math.floor(steps + 0.5)
    if abs(steps - whole) > ON_THE_STEP:
        whole = math.floor(steps) if side == BELOW else math.ceil(steps)
    return float(printed(whole / 10**places, places))


def number_asked(
    what: str, value: float, unit: str, places: int, room: float = 0.0, side: str = BOTH
) -> Wanted:
    """Give a number that is asked for, its key rounded to `places`, to its cautious `side`.

    `room` is what the rounding of the steps before may move it. Half the last place is added,
    and the tolerance is written in whole halves of that place.
    Raises Silly for a key of nought or less, of no size, or so near to where the rounding turns
    that the last digit of a machine would say which is right.
    """
    if not math.isfinite(value) or value <= 0:
        raise Silly
    turns = 0.5 if side == BOTH else 0.0
    near = abs((value * 10**places - turns + 0.5) % 1 - 0.5)
    if near < TOSS and (side == BOTH or near > ON_THE_STEP):
        raise Silly
    key = rounded(value, places, side)
    if key == 0:
        raise Silly
    half = 0.5 / 10**places
    halves = 1 + math.ceil(room / half - LEFT_OVER)
    return Wanted(what, key, unit, places, float(printed(halves * half, places + 1)), side)


WAYS = {BOTH: "", BELOW: "down ", ABOVE: "up "}


def in_pieces(one: Wanted) -> bool:
    """Tell whether a number counts whole pieces: the question decides it, and no rounding.

    >>> in_pieces(Wanted("Pots", 3, "", 0, 0.5)), in_pieces(Wanted("Wax", 3, "g", 0, 0.5))
    (True, False)
    """
    return one.unit in {"", "1"} and one.places == 0 and one.tolerance <= 0.5 and one.side == BOTH


def rounding_said(wanted: Sequence[Wanted | Choice]) -> str:
    """Say to what the numbers are rounded, and to which side; nothing where none is asked.

    Where the sides differ, what is rounded to one of them is named. Pieces are not rounded:
    12.33 strips may be 13 to cut or 12 whole ones.
    """
    asked = [one for one in wanted if isinstance(one, Wanted)]
    pieces, numbers = filter(in_pieces, asked), list(filterfalse(in_pieces, asked))
    sides = dict.fromkeys(one.side for one in numbers)
    said = []
    for side in sides:
        held = [one for one in numbers if one.side == side]
        steps = " and to ".join(dict.fromkeys(map(_step_said, held)))
        names = f"{', '.join(one.what for one in held)}: round" if len(sides) > 1 else "Round"
        said.append(f"{names} {WAYS[side]}to {steps}.")
    said += [_pieces_said([one.what for one in pieces], alone=not numbers)]
    return " ".join(filter(None, said))


def _pieces_said(names: Sequence[str], *, alone: bool) -> str:
    if not names:
        return ""
    one = len(names) == 1
    if alone:
        return "A whole number." if one else "Whole numbers."
    return f"{', '.join(names)}: {'a whole number' if one else 'whole numbers'}."


def _step_said(one: Wanted) -> str:
    step = f"{printed(10**-one.places, one.places)} {spoken_unit(one.unit)}".strip()
    return "a whole number" if step == "1" else step


def made(
    told: Sequence[str],
    wanted: Sequence[Wanted | Choice],
    working: Sequence[str],
    given: Given,
) -> Made:
    """Put an exercise together; what its answers are rounded to is said by themselves."""
    return Made(tuple(told), tuple(wanted), rounding_said(wanted), tuple(working), given)
