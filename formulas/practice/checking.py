"""When an answer to an exercise counts as right: one rule for the page, the key and the tests."""

from __future__ import annotations

from formulas.formula import procedure
from formulas.units import WRITTEN, spoken_unit

ANSWER_SLACK = 1e-9
"""Of the key: the end of a tolerance counts, whatever the digits of a binary number make of it."""


@procedure("Whether an answer to an exercise is right")
def answer_right(typed_answer: float, key_answer: float, key_tolerance: float) -> bool:
    """Say whether a number lies within the tolerance of the key, the ends counted in."""
    room = key_tolerance + ANSWER_SLACK * (abs(key_answer) + key_tolerance)
    return abs(typed_answer - key_answer) <= room


def spellings(unit: str) -> list[str]:
    """List how people write a unit behind a number, in small letters.

    >>> spellings("degC"), spellings("percent"), spellings("")
    (['degc', '°c', 'c'], ['percent', '%'], [])
    """
    found = [unit, spoken_unit(unit), *(text for text, name in WRITTEN.items() if name == unit)]
    return list(dict.fromkeys(text.lower() for text in found if text and text != "1"))
