"""The tests that would tell most of a blend by one method: which, how much, and how many."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from formulas.catalog import Catalog
from formulas.softening.estimate import Cut, Model, resins, unfit
from formulas.softening.mixture import blend_terms, body_shares, softener_share, turned
from formulas.softening.to_test_next import half_width_with, share_to_test, tests_until

Question = tuple[
    Sequence[float],
    int,
    int,
    float,
    Sequence[Sequence[float]],
    float,
    float,
    Sequence[int],
    str,
]
"""What `to_test_next` asks for: the blend, what may vary in it, what is known, the method."""


def proposed(
    catalog: Catalog,
    held: Model,
    part: Cut,
    shares: Mapping[str, float],
    *,
    place: int,
    limit: float,
    width: float | None,
) -> dict[str, Any]:
    """Give the next test, what the reference would tell, and how many tests until `width`.

    Where the blend does not stand the test there is none of these, only what it has too much of.
    """
    too_much = unfit(catalog, shares, held.method)
    if too_much:
        return {"too_much": too_much}
    chosen = resins(catalog, part.names)
    found: dict[str, Any] = {
        "next_test": _next_test(held, part, place, limit, chosen),
        "reference": _reference(held, part),
    }
    if width is not None:
        found["tests_until"] = _until(held, part, place, limit, chosen, width)
    return found


def _next_test(
    held: Model, part: Cut, place: int, limit: float, chosen: list[int]
) -> dict[str, Any]:
    """Give the blend whose test would shrink the band most at the blend in question."""
    share, after = share_to_test(*_question(held, part, place, limit, chosen))
    now = part.band(held.method)
    blend = turned(part.shares, place, share)
    return {
        "shares": dict(zip(part.names, blend, strict=True)),
        "method": held.method,
        "half_width_now": (now.high - now.low) / 2,
        "half_width_after": after,
    }


def _until(
    held: Model, part: Cut, place: int, limit: float, chosen: list[int], width: float
) -> int:
    return tests_until(*_question(held, part, place, limit, chosen), width)


def _question(held: Model, part: Cut, place: int, limit: float, chosen: list[int]) -> Question:
    return (
        part.shares,
        place,
        part.bodies,
        limit,
        part.covariance,
        held.noise,
        held.lot,
        chosen,
        held.method,
    )


def _reference(held: Model, part: Cut) -> dict[str, Any] | None:
    """Give what the reference wax would tell, where the newest session has none."""
    if held.reference is None:
        return None
    after = half_width_with(_terms(part), part.covariance, part.shared, held.reference.own)
    return {
        "material": held.reference.material,
        "session": held.reference.session,
        "half_width_after": after,
    }


def _terms(part: Cut) -> list[float]:
    return blend_terms(
        body_shares(part.shares, part.bodies), softener_share(part.shares, part.bodies)
    )
