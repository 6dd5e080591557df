"""How masses and test results of the shop's books are worded on a terminal."""

from __future__ import annotations

from typing import Any

from formulas.answer import Answer, Quantity
from formulas.units import printed, spoken_unit
from site_builder.markup.elements import number
from site_builder.texts.words import wrapped


def weighed(quantity: Quantity) -> str:
    """Give a mass of the books with the decimals it was written with, never more than three."""
    return f"{in_book(quantity.value)} {spoken_unit(quantity.unit)}"


def in_book(value: float) -> str:
    """Give a mass without the noise of a sum: up to three decimals, no nought at the end."""
    return number(float(printed(value, 3)))


def seen(test: dict[str, Any]) -> str:
    """Say what a softening test showed, in the unit it was read in."""
    if test["result"] == "firmer":
        return f"outlasted {test['other']}"
    low, high = (
        f"{number(end.value, most=2)} {spoken_unit(end.unit)}" if end else ""
        for end in (test["low"], test["high"])
    )
    if test["result"] == "reading":
        return low
    held, moved = f"held {low}" if low else "", f"moved at {high}" if high else ""
    return ", ".join(filter(None, (held, moved)))


def noted(answer: Answer) -> list[str]:
    """Give the notes of an answer, a blank line before them."""
    return ["", *(wrapped(note, "  ") for note in answer.notes)] if answer.notes else []


def kept(one: dict[str, Any]) -> str:
    """Say what is kept back of one thing."""
    if one["kind"] == "skin":
        return f"skin {one['of']}"
    amount: Quantity = one["amount"]
    much = pieces(int(amount.value)) if amount.unit == "pieces" else weighed(amount)
    return f"{much} of {one['of']}"


def pieces(count: int) -> str:
    """Count pieces in words."""
    return "1 piece" if count == 1 else f"{count} pieces"
