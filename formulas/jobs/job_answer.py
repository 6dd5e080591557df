"""The answer of `job`: the needs list of a job as every face shows it, and the rows of a total."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from formulas.answer import Answer, Band, Basis, Quantity
from formulas.fault import UnknownName
from formulas.jobs.job import Bought, Line, Part, Pot, StepNeed, Whole
from formulas.jobs.money import HOUR
from formulas.jobs.wax_figures import wax_bases

if TYPE_CHECKING:
    from formulas.catalog import Catalog

NO_PROMISE = (
    "Ranges, not promises: say them as ranges, and say again when the plates are out. No pitch is"
    " promised, and tuning is in none of the hours."
)
ENDS = (
    "The ends of wax hold 95 of 100 as far as the figures behind them do; hours are added at their"
    " ends."
)
FIGURES = (
    "solvent-per-plate",
    "glue-film",
    "glue-density",
    "glue-taken-times",
    "gasket-used-share",
)


def job_answer(catalog: Catalog, whole: Whole, trace: str = "") -> Answer:
    """Answer for a job that was worked out; `trace` names an item whose rows are given.

    Raises UnknownName for an item that stands in no line.
    """
    answer: dict[str, Any] = {
        "job": whole.job.job,
        "about": whole.job.about,
        "plates": count_of(whole, "plates"),
        "tongues": count_of(whole, "tongues"),
        "valves": sum(one.count for one in _lines(whole, "valves")),
        "valves_by_stock": {
            line.item: sum(part.count for part in line.parts)
            for line in whole.lines
            if line.group == "valves"
        },
        "wax": band_of(whole, "wax"),
        "wax_by_rule": whole.wax_by_rule,
        "wax_own": whole.wax_own,
        "wax_to_have": whole.wax_to_have,
        "wax_hangs_on": [{"what": what, "share": share} for what, share in whole.wax_weight[:3]],
        "hours": whole.hours,
        "cost": whole.cost,
        "without_price": without_price(catalog, whole),
        "pots": [_pot(one) for one in whole.pots],
        "to_buy": [bought_json(one) for one in whole.bought if one.buy.high > 0],
        "at_hand": [bought_json(one) for one in whole.bought if one.at_hand],
        "lines": [line_json(line) for line in whole.lines],
        "steps": [_step(one) for one in whole.steps],
        "hold_points": list(
            dict.fromkeys(one.step.name for one in whole.steps if one.step.hold_point)
        ),
    }
    if trace:
        answer["trace"] = line_json(line_of(whole, trace))
    inputs = {
        "file": whole.job.file,
        "layout": whole.job.layout,
        "blend": whole.job.blend,
        "valve_kind": whole.job.valve_kind,
        "blocks": [
            {"block": one.block, "seating": one.seating, "keep": list(one.keep),
             "found": dict(one.found)}
            for one in whole.job.blocks
        ],
        "trace": trace,
    }  # fmt: skip
    notes = [*whole.notes, NO_PROMISE, ENDS]
    return Answer("job", answer, inputs, _bases(catalog, whole), catalog.warned("job"), notes)


def _bases(catalog: Catalog, whole: Whole) -> list[Basis]:
    """Give what the totals rest on; the steps' minutes as one statement for each basis."""
    by_basis: dict[str, list[str]] = {}
    for one in whole.steps:
        names = by_basis.setdefault(one.basis, [])
        if one.step.id not in names:
            names.append(one.step.id)
    minutes = [
        Basis(_of_steps([whole.catalog.work_steps[name].name for name in names]), basis)
        for basis, names in by_basis.items()
    ]
    named = [catalog.figure(name) for name in FIGURES]
    supplies = [Basis(one.what, one.basis, one.source) for one in named]
    return [*wax_bases(catalog), *supplies, *minutes]


def _of_steps(names: list[str]) -> str:
    first = f"“{names[0]}”"
    return f"minutes of {len(names)} steps, such as {first}" if names[1:] else f"minutes of {first}"


def without_price(catalog: Catalog, whole: Whole) -> list[str]:
    """Give the items whose cost is in no total: no price of use stands in prices.csv."""
    items = [one.item for one in whole.bought if one.buy.high > 0 and one.cost is None]
    return items if HOUR in catalog.prices else [*items, HOUR]


def _lines(whole: Whole, group: str) -> list[Part]:
    return [part for line in whole.lines if line.group == group for part in line.parts]


def line_of(whole: Whole, item: str) -> Line:
    """Give one line of the needs list by its item. Raises UnknownName."""
    found = {line.item: line for line in whole.lines}
    if item not in found:
        raise UnknownName("line of the needs list", item, found)
    return found[item]


def count_of(whole: Whole, item: str) -> int:
    """Give a count, such as that of the plates."""
    return sum(part.count for part in line_of(whole, item).parts)


def band_of(whole: Whole, item: str) -> Band | None:
    """Give the band of a line, or None where the job takes nothing of it."""
    return next((line.amount for line in whole.lines if line.item == item), None)


def line_json(line: Line) -> dict[str, Any]:
    """Give a line with the rows it is the sum of."""
    return {
        "group": line.group,
        "item": line.item,
        "name": line.name,
        "amount": line.amount,
        "parts": [
            {"where": one.where, "count": one.count, "amount": one.amount} for one in line.parts
        ],
        "basis": line.basis,
        "note": line.note,
    }


def bought_json(one: Bought) -> dict[str, Any]:
    """Give a line of the shopping list."""
    return {
        "item": one.item,
        "name": one.name,
        "need": one.need,
        "at_hand": [
            {"kind": held.kind, "of": held.of, "amount": held.amount, "note": held.note}
            for held in one.at_hand
        ],
        "buy": one.buy,
        "cost": one.cost,
        "note": one.note,
    }


def _pot(one: Pot) -> dict[str, Any]:
    return {
        "pot": one.number,
        "blocks": list(one.blocks),
        "plates": one.plates,
        "amount": Quantity(one.grams, "g"),
        "ready": [{"batch": held.of, "amount": held.amount} for held in one.ready],
        "fresh": Quantity(one.fresh, "g"),
        "when": one.when,
    }


def _step(one: StepNeed) -> dict[str, Any]:
    return {
        "step": one.step.id,
        "block": one.block,
        "per": one.step.per,
        "count": one.count,
        "minutes": Band(one.low, None, one.high, "min", f"for each {one.step.per}"),
        "changed_by": list(one.changed_by),
        "hold_point": one.step.hold_point,
        "basis": one.basis,
    }
