"""When an answer to an exercise counts as right: one rule for the page, the key and the tests."""

from __future__ import annotations

from formulas.formula import procedure
from formulas.practice.exercise import ABOVE, BELOW, BOTH, Wanted, in_pieces
from formulas.units import WRITTEN, spoken_unit

ANSWER_SLACK = 1e-9
"""Of the key: the end of a tolerance counts, whatever the digits of a binary number make of it."""

RIGHT_SAID = {
    BOTH: "within {}",
    BELOW: "up to {} below, never above",
    ABOVE: "up to {} above, never below",
}
"""What counts as right by the side of a key, with its tolerance put in."""

EXACTLY = "exactly"
"""What counts as right of pieces that are counted."""


def right_said(key: Wanted, tolerance: str) -> str:
    """Say what counts as right; `tolerance` is that of the key as it is printed.

    >>> right_said(Wanted("Pots", 3, "", 0, 0.5), "0.5")
    'exactly'
    """
    return EXACTLY if in_pieces(key) else RIGHT_SAID[key.side].format(tolerance)


@procedure("Whether an answer to an exercise is right")
def answer_right(
    typed_answer: float, key_answer: float, key_tolerance: float, key_side: str
) -> bool:
    """Say whether a number lies within the tolerance of the key, the ends counted in.

    Only the cautious side of a limit counts: `below` it, or `above` it; else `both`.
    """
    slack = ANSWER_SLACK * (abs(key_answer) + key_tolerance)
    off = typed_answer - key_answer
    under = slack if key_side == "above" else key_tolerance + slack
    over = slack if key_side == "below" else key_tolerance + slack
    return off >= -under and off <= over


def spellings(unit: str) -> list[str]:
    """List how people write a unit behind a number, in small letters.

    >>> spellings("degC"), spellings("percent"), spellings("")
    (['degc', '°c', 'c'], ['percent', '%'], [])
    """
    found = [unit, spoken_unit(unit), *(text for text, name in WRITTEN.items() if name == unit)]
    return list(dict.fromkeys(text.lower() for text in found if text and text != "1"))
