"""In words: what is cut for a slot, the verdict, what to do; rows of a rank and its runs."""

from __future__ import annotations

from collections.abc import Sequence

from formulas.formula import procedure
from formulas.units import printed
from formulas.valves.deciding import (
    NONE_SERVES,
    NOT_MEASURED,
    ONE_STOCK,
    WITH_HELPER,
    WITH_TOPPER,
    WITHOUT,
)
from formulas.valves.judging import REJECTED, SERVES, passed_of
from formulas.valves.valve_words import (
    INCH,
    REJECTED_SAID,
    hang_said,
    length_said,
    long_said,
    percent_said,
    reasons_of,
    table_said,
    times_said,
    value_said,
)

TELL = "Two valves decide each note: this one must open for its own, and shut for the other."
DO = {
    "serves": "Cut one, fit it without glue, hold it level at the glue line and read its droop:"
    " then ask again with that droop. It tells more than the ramp.",
    "perhaps": "Cut one and read its droop at the glue line before you cut the rest: an end of"
    " what is known passes a limit.",
    "topper": "Cut both strips. The film lies on the leather and is glued at the root only.",
    "helper": "Fit the helper spring first and set its pressure at the tip; test soft notes.",
    "without": "Leave it bare. If the instrument had a valve there, keep what it had.",
    "measure": "Push a strip over the ramp and weigh a piece. Take the stock if it hangs within"
    " the window.",
    "limp": "Too limp here: take a stiffer stock of no more weight, or lay a film over it.",
    "stiff": "Too stiff here: take a thinner or softer stock.",
    "other": "Neither stiffer nor softer helps: see the limit that is passed.",
}
"""What to do, by what was found; `to_do` gives the name."""


@procedure("What to do about a slot")
def to_do(kind: int, verdict: float, passed: Sequence[float]) -> str:
    """Give the name of what to do, as `DO` words it; `passed` with the farthest first."""
    if kind == WITHOUT:
        return "without"
    if kind == NOT_MEASURED:
        return "measure"
    if kind == WITH_TOPPER:
        return "topper"
    if kind == WITH_HELPER:
        return "helper"
    if kind == ONE_STOCK:
        return "serves" if verdict == SERVES else "perhaps"
    return side_of(passed)


@procedure("On which side of the window a stock lies")
def side_of(passed: Sequence[float]) -> str:
    """Give limp, stiff or other, by the limit that is passed the farthest."""
    for place in passed:
        for limp in (0, 1, 2, 6, 8, 9):
            if place == limp:
                return "limp"
        for stiff in (3, 4, 5, 10, 12):
            if place == stiff:
                return "stiff"
    return "other"


@procedure("The choice for a slot, in words")
def chosen_words(kind: int, name: str, topper: str) -> str:
    """Name what a slot gets."""
    if kind == WITH_TOPPER:
        return name + " + " + topper
    if kind == WITH_HELPER:
        return name + " + helper"
    if kind == WITHOUT:
        return "no valve"
    if kind == NOT_MEASURED:
        return "no stock measured"
    if kind == NONE_SERVES:
        return "none serves"
    return name


@procedure("The verdict on one slot, in words")
def verdict_words(kind: int, name: str, topper: str, verdict: float, margin: float) -> str:
    """Give the choice and how sure it is; with the margin; of nought no stock was judged."""
    chosen = chosen_words(kind, name, topper)
    if margin == 0:
        return chosen
    if kind == NONE_SERVES:
        return name + ": rejected"
    sure = "serves" if verdict == SERVES else "may serve"
    if verdict == REJECTED:
        sure = "serves with it only"
    return chosen + ": " + sure + ", margin " + times_said(margin)


@procedure("The sizes of a valve, in words")
def cut_words(sizes: Sequence[float], us: bool) -> str:
    """Say the strip to cut, and how it is made up; `sizes` as `blank.SIZES`."""
    return (
        long_said(sizes[6], us)
        + " long and "
        + long_said(sizes[5], us)
        + " wide: free length "
        + long_said(sizes[4], us)
        + " and glue land "
        + long_said(sizes[3], us)
        + "; over the slot by "
        + length_said(sizes[0], us)
        + " at each side and "
        + length_said(sizes[1], us)
        + " at the tip"
    )


@procedure("The window of overhang, in words")
def window_words(least: float, most: float, mass: float, us: bool) -> str:
    """Say how far a strip of this mass should hang over the ramp."""
    return (
        "a strip of " + printed(1000 * mass, 0) + " g/m² should hang " + hang_said(least, most, us)
    )


@procedure("A helper spring, in words")
def helper_words(helper: Sequence[float], least: float, light: str) -> str:
    """Say what the helper has to press; nothing where there is none.

    `light` is added where the force at the tip is below the `least` that a spring can be set to.
    """
    if len(helper) == 0:
        return ""
    said = (
        "presses with "
        + printed(helper[0], 1)
        + " Pa all over, or "
        + printed(1000 * helper[1], 2)
        + " mN at the tip; choke then at most "
        + percent_said(helper[2])
        + " at the softest"
    )
    return said + (light if helper[1] < least else "")


@procedure("A stock that was not chosen, in words")
def runner_words(
    stock: Sequence[float],
    found: Sequence[float],
    lows: Sequence[float],
    highs: Sequence[float],
    ratios: Sequence[float],
    ratios_low: Sequence[float],
    ratios_high: Sequence[float],
    here: Sequence[float],
    limits: Sequence[Sequence[float]],
    window: Sequence[float],
    abouts: Sequence[str],
    us: bool,
) -> str:
    """Give the reason that weighs most; of what only a table knows, how far a strip should hang.

    The arguments after the stock are those that `judging.judged` gives, and the window.
    """
    measured = stock[10] > 0
    weighed = ratios if measured else ratios_low
    against = passed_of(weighed, limits)
    if not measured and len(against) == 0:
        return table_said(stock[0], window[0], window[1], us)
    words = reasons_of(
        found, lows, highs, weighed, here, against, passed_of(ratios_high, limits), abouts, us
    )
    if len(against) > 0:
        return words[0][len(REJECTED_SAID) :]
    return words[0]


@procedure("One thing found beside its limit, as a row")
def found_row(
    about: str,
    found_place: int,
    value: float,
    low: float,
    high: float,
    limit: float,
    rejects: float,
    us: bool,
) -> list[str]:
    """Give what it is, what was found, its ends, the limit, and whether it is kept."""
    kept = "kept"
    if limit == 0:
        kept = ""
    if limit > 0 and value > limit:
        kept = "passed" if rejects > 0 else "told"
    return [
        about,
        value_said(found_place, value, us),
        value_said(found_place, low, us) + " to " + value_said(found_place, high, us),
        value_said(found_place, limit, us) if limit > 0 else "none",
        kept,
    ]


@procedure("The nearest of gap and choke")
def nearest_of(ratios: Sequence[float]) -> int:
    """Give the place of the limit that is nearest, of those that the margin is told by."""
    nearest = 0
    for place in (3, 4, 5):
        if ratios[place] > ratios[nearest]:
            nearest = place
    return nearest


@procedure("Two sides, in words")
def sides_words(length: float, width: float, us: bool) -> str:
    """Give length by width in millimetres or inches, without the unit."""
    if us:
        return printed(length / INCH, 2) + " × " + printed(width / INCH, 2)
    return printed(1000 * length, 1) + " × " + printed(1000 * width, 1)


@procedure("One slot as a row of its rank")
def rank_row(
    note_text: str,
    slot: Sequence[float],
    sizes: Sequence[float],
    kind: int,
    found: Sequence[float],
    ratios: Sequence[float],
    window: Sequence[float],
    nearest: Sequence[str],
    us: bool,
) -> list[str]:
    """Give note, slot, valve to cut, gap, choke soft, choke loud, the nearest limit.

    `nearest` words the limits at places 0, 3, 4 and 5. Where nothing is cut the last cell says
    how far a strip should hang.
    """
    head = [note_text, sides_words(slot[0], slot[1], us)]
    if len(found) == 0 or kind == NONE_SERVES:
        wanted = "" if kind == WITHOUT else "hang " + hang_said(window[0], window[1], us)
        return [head[0], head[1], "", "", "", "", wanted]
    place = nearest_of(ratios)
    words = nearest[0] if place == 0 else nearest[place - 2]
    return [
        head[0],
        head[1],
        sides_words(sizes[6], sizes[5], us),
        length_said(found[0], us),
        percent_said(found[3]),
        percent_said(found[5]),
        words + ", " + percent_said(ratios[place]),
    ]


NEAREST = ("gap", "choke softest", "choke quiet", "choke loud")


@procedure("A run of notes with one choice, in words")
def run_words(
    first_note: str,
    last_note: str,
    side: str,
    chosen_text: str,
    count: int,
    hang: str,
    hang_last: str,
) -> str:
    """Say the notes, what they get, and the window at both ends, as the command does.

    `side` is " inside" or " outside" where the faces differ; `count` counts slots.
    """
    notes = first_note + ("" if first_note == last_note else " to " + last_note)
    wanted = (
        first_note
        + " "
        + hang
        + ("" if first_note == last_note else ", " + last_note + " " + hang_last)
    )
    slots = str(count) + " slots; overhang wanted "
    return notes + side + ": " + chosen_text + ", " + slots + wanted
