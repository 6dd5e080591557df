"""Answer for a correction: what to add to a pot, or take of each lot, to come to a ratio."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from formulas.adjusting.alligation import (
    largest_miss,
    on_the_scale,
    scale_drift,
    weighed_additions,
    whole_of,
)
from formulas.adjusting.correction import (
    Asked,
    Found,
    Question,
    in_unit,
    question,
    reached,
    solution,
)
from formulas.adjusting.old_wax import larger_of, smaller_of
from formulas.adjusting.portions import OldWax, Portion, portion
from formulas.adjusting.reach_words import nearest_steps, why_not
from formulas.adjusting.within_reach import in_reach, part_of_pot
from formulas.adjusting.working_order import correction_notes, told_with_old_wax, working_of
from formulas.answer import Answer, Band, Basis, Quantity
from formulas.catalog import Catalog
from formulas.wax.batch import shares_of

BAND_OF = "the old wax as it was told, the additions as weighed"


def adjust(
    catalog: Catalog,
    parts: Mapping[str, float],
    *,
    pot: Sequence[Portion] = (),
    add: Sequence[Portion] = (),
    old: OldWax | None = None,
    total_g: float | None = None,
    blend: str = "",
) -> Answer:
    """Give the least additions that bring a pot to a ratio, or a mixture of lots with that ratio.

    Without `add`, the pure materials of the ratio may be added without a limit. Without a pot,
    `add` are the lots; then a total is named, or each lot has a limit. Out of reach, the answer
    says why and gives the nearest. The masses are in the unit of the shop's scale.
    Raises OutOfRange for masses of no use, UnknownName for a material of no table.
    """
    shares_of(parts)
    asked = Asked(parts, pot, list(add) or [portion(catalog, name) for name in parts], old, total_g)
    asked.check()
    lists = question(catalog, asked)
    found = solution(lists)
    answer = _answer(lists, asked, found)
    if old:
        answer |= _over_the_band(catalog, asked, found)
        answer["working"] = told_with_old_wax(answer["working"])
    old_wax = bool(old) or any(one.wax != "fresh" for one in (*pot, *asked.add))
    answer["wax"] = "reclaimed" if old_wax else "fresh"
    return Answer(
        "adjust",
        answer,
        _inputs(lists, asked, blend),
        _basis(catalog, asked, blend, found.reachable),
        catalog.warned("adjust"),
        _notes(lists, found, old_wax),
    )


def _answer(lists: Question, asked: Asked, found: Found) -> dict[str, Any]:
    """Give the additions and the result; out of reach, why, and both under `nearest`."""
    weighed = {
        "additions": _additions(lists, asked, found.added),
        "result": _result(lists, found.added),
    }
    if found.reachable:
        return {"reachable": True, **weighed, "working": _working(lists, found)}
    shares = reached(lists, found.added)
    return {
        "reachable": False,
        "additions": [],
        "result": _result(lists, [0.0] * len(lists.blends)),
        "why": _why(lists, found),
        "nearest": {**weighed, "farthest": largest_miss(shares, lists.shares) if shares else None},
        "part": _part(lists, asked, found.part),
        "working": _working_of_nearest(lists, found),
    }


def _additions(lists: Question, asked: Asked, added: Sequence[float]) -> list[dict[str, Any]]:
    """Give what to weigh of each; what is not needed is left out."""
    return [
        {
            "material": one.id,
            "name": one.name,
            "mass": Quantity(mass, lists.unit),
            "stock": None
            if one.grams is None
            else Quantity(in_unit(one.grams, lists.unit), lists.unit),
        }
        for one, mass in zip(asked.add, added, strict=True)
        if mass > 0
    ]


def _result(lists: Question, added: Sequence[float]) -> dict[str, Any] | None:
    """Give the mass in the end, and the shares as weighed beside those wanted."""
    shares = reached(lists, added)
    if not shares:
        return None
    return {
        "total": Quantity(whole_of([*lists.pot, *added]), lists.unit),
        "shares": [
            {"material": name, "wanted": wanted, "share": share}
            for name, wanted, share in zip(lists.materials, lists.shares, shares, strict=True)
        ],
    }


def _working(lists: Question, found: Found) -> list[str]:
    return working_of(
        lists.names,
        lists.labels,
        lists.parts,
        lists.pot,
        lists.blends,
        lists.stocks,
        found.masses,
        lists.total,
        lists.step,
        found.counts,
        lists.decimals,
        lists.unit,
    )


def _working_of_nearest(lists: Question, found: Found) -> list[str]:
    return nearest_steps(
        lists.names,
        lists.labels,
        lists.parts,
        lists.pot,
        lists.blends,
        lists.stocks,
        found.masses,
        lists.step,
        found.counts,
        lists.decimals,
        lists.unit,
    )


def _why(lists: Question, found: Found) -> list[str]:
    return why_not(
        lists.names,
        lists.labels,
        lists.parts,
        lists.pot,
        lists.blends,
        lists.stocks,
        found.part,
        lists.most,
        lists.decimals,
        lists.unit,
    )


def _part(lists: Question, asked: Asked, part: Sequence[float]) -> dict[str, Any] | None:
    """Give the part of the pot that comes right with what there is, and what to add to it."""
    whole = sum(lists.pot)
    if not whole or not in_reach(part, whole, lists.most):
        return None
    counts = weighed_additions(part[1:], lists.stocks, lists.step)
    added = on_the_scale(counts, lists.step)
    taken = part_of_pot(part, lists.pot)
    return {
        "of_pot": Quantity(taken, lists.unit),
        "additions": _additions(lists, asked, added),
        "total": Quantity(whole_of([taken, *added]), lists.unit),
    }


def _over_the_band(catalog: Catalog, asked: Asked, found: Found) -> dict[str, Any]:
    """Give what serves the low and the high end of old wax, what serves both, and where the
    result lies if the additions for the middle are weighed.

    Every share of the result lies between its two ends exactly: it moves evenly with the band.
    """
    ends = {
        name: question(catalog, asked, height) for name, height in (("low", 0.0), ("high", 1.0))
    }
    solved = {name: solution(lists) for name, lists in ends.items()}
    both = smaller_of(*(one.added for one in solved.values()))
    lists = ends["low"]
    results = [reached(lists, found.added) for lists in ends.values()]
    spread = zip(lists.materials, smaller_of(*results), larger_of(*results), strict=True)
    return {
        "ends": {
            name: {
                "reachable": one.reachable,
                "additions": _additions(ends[name], asked, one.added),
                "result": _result(ends[name], one.added),
            }
            for name, one in solved.items()
        },
        "serves_both_ends": _additions(lists, asked, both),
        "band_of_result": [
            {"material": name, "share": Band(100 * low, None, 100 * high, "percent", BAND_OF)}
            for name, low, high in spread
        ],
    }


def _notes(lists: Question, found: Found, old_wax: bool) -> list[str]:
    whole, end = whole_of(lists.pot), whole_of([*lists.pot, *found.added])
    drift = scale_drift(lists.pot, lists.blends, found.masses, found.added)
    return correction_notes(whole, end, lists.near, drift, old_wax, lists.decimals, lists.unit)


def _inputs(lists: Question, asked: Asked, blend: str) -> dict[str, Any]:
    def mass(grams: float | None) -> Quantity | None:
        return None if grams is None else Quantity(in_unit(grams, lists.unit), lists.unit)

    old = asked.old
    return {
        "blend": blend,
        "parts": dict(asked.parts),
        "pot": [{"of": one.id, "mass": mass(one.grams)} for one in asked.pot],
        "old_wax": old
        and {
            "mass": mass(old.grams),
            "rest": old.rest,
            "holds": {
                name: Band(100 * low, None, 100 * high, "percent", "as told")
                for name, (low, high) in old.held.items()
            },
        },
        "may_be_added": [
            {"of": one.id, "name": one.name, "stock": mass(one.grams)} for one in asked.add
        ],
        "total_g": asked.total_g,
        "scale": Quantity(lists.step, lists.unit),
    }


def _basis(catalog: Catalog, asked: Asked, blend: str, reachable: bool) -> list[Basis]:
    found = []
    if blend and blend in catalog.blends:
        known = catalog.blend(blend)
        found.append(Basis(f"parts by mass of {blend}", known.basis, known.source))
    found += [one.basis for one in (*asked.pot, *asked.add) if one.basis]
    if asked.old:
        found.append(Basis("make-up of the old wax, as it was told here", "memory"))
    found.append(Basis("masses and shares: what goes in comes out", "derived"))
    if not reachable and asked.pot_g:
        figure = catalog.figure("correct-up-to")
        found.append(Basis(figure.what, figure.basis, figure.source))
    return list(dict.fromkeys(found))
