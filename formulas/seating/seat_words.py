"""A seat in words: its verdict, its reasons, the first of all: the same on every face."""

from __future__ import annotations

from collections.abc import Sequence

from formulas.formula import procedure
from formulas.seating.which_seat import (
    SEAT_AGAINST,
    SEAT_FOR,
    SEAT_MAY,
    SEAT_NEVER,
    SEAT_NOT_HERE,
    SEAT_NOT_KNOWN,
    SEAT_TOLD,
    SEAT_TRY_FIRST,
    SEAT_WITH_CARE,
    reasons_counted,
)

NONE_OF_THEM = "None of them: what was asked goes together with no seat of the table."


@procedure("Verdict in words")
def seat_verdict_said(seat_code: int) -> str:
    """Name a verdict."""
    if seat_code == SEAT_MAY:
        return "may"
    if seat_code == SEAT_WITH_CARE:
        return "may, with care"
    if seat_code == SEAT_TRY_FIRST:
        return "not known: try it on scrap"
    if seat_code == SEAT_NOT_HERE:
        return "never here"
    return "keep it" if seat_code < SEAT_MAY else "last resort"


@procedure("Points of a seat in words")
def seat_points_said(seat_weights: Sequence[float]) -> str:
    """Count what speaks for it and against it.

    >>> seat_points_said([1, 1, -1, 0])
    '2 for, 1 against'
    """
    against = reasons_counted(seat_weights, SEAT_AGAINST) + reasons_counted(
        seat_weights, SEAT_NEVER
    )
    said = str(reasons_counted(seat_weights, SEAT_FOR)) + " for, " + str(against) + " against"
    unknown = reasons_counted(seat_weights, SEAT_NOT_KNOWN)
    return said + ", " + str(unknown) + " not known" if unknown > 0 else said


@procedure("What a reason does, in a word")
def reason_kind(reason_weight: float) -> str:
    """Name a weight.

    >>> reason_kind(1), reason_kind(0), reason_kind(-3)
    ('for', 'told', 'never')
    """
    if reason_weight == SEAT_NOT_KNOWN:
        return "not known"
    if reason_weight == SEAT_NEVER:
        return "never"
    if reason_weight == SEAT_AGAINST:
        return "against"
    return "for" if reason_weight > SEAT_TOLD else "told"


@procedure("A seat of the list in words")
def seat_head_said(seat_rank: int, name: str, seat_code: int, text: str) -> str:
    """Say its place, its verdict and how many reasons it has.

    >>> seat_head_said(1, "Gasket and pins", 1, "1 for, 0 against")
    '1. Gasket and pins: may (1 for, 0 against)'
    """
    return str(seat_rank) + ". " + name + ": " + seat_verdict_said(seat_code) + " (" + text + ")"


@procedure("The first seat in words")
def first_seat_said(name: str, seat_code: int, text: str) -> str:
    """Say which stands first, and never that it is a promise."""
    if seat_code == SEAT_NOT_HERE:
        return NONE_OF_THEM
    return "First to look at: " + name + " (" + seat_verdict_said(seat_code) + "; " + text + ")."
