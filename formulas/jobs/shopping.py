"""What a job must buy: each need once, less what is at hand and kept for no other job."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from formulas.answer import Band, Quantity
from formulas.cutting.plan import PIECE, SKIN
from formulas.jobs.job import NOISE, Bought, Held, Job, Line, Pot
from formulas.jobs.money import cost_band
from formulas.jobs.shelf import batches_at_hand, drawn, lots_at_hand
from formulas.jobs.wax_needs import WaxNeeds
from formulas.wax.batch import shares_of

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog
    from formulas.cutting.plan import Plan

NEED = "the high end, so that no block is left half done"
LOOK = "Look on the shelf first: the books hold no stock of it."
READY = "Of all the wax, as much as stands ready"
FRESH = "Of all the wax, what is weighed out fresh beside the ready wax"


def shopping(
    catalog: Catalog, job: Job, wax: WaxNeeds, plan: Answer, lines: Sequence[Line]
) -> list[Bought]:
    """Give everything that the job takes, with where it comes from and what is left to buy."""
    return [
        *(_wax(catalog, job, wax) if wax.plates else ()),
        *_stock(catalog, plan),
        *(_bought(catalog, line.item, line.name, line.amount, LOOK) for line in lines),
    ]


def _wax(catalog: Catalog, job: Job, wax: WaxNeeds) -> Iterator[Bought]:
    """Draw on ready batches first, then on raw lots; the rest is bought by material."""
    need = wax.to_have
    ready, missing = drawn(batches_at_hand(catalog, job), need.high)
    covered = need.high - missing
    name = f"Wax {job.blend}, ready"
    nothing = Band(0.0, None, 0.0, "g", NEED)
    if ready:
        used = Band(min(need.low, covered), None, covered, "g", NEED)
        yield Bought(job.blend, name, used, tuple(ready), nothing, None, READY)
    short = Band(max(0.0, need.low - covered), None, missing, "g", NEED)
    if missing <= 0:
        return
    for material, share in shares_of(catalog.blend(job.blend).parts).items():
        part = Band(share * short.low, None, share * short.high, "g", NEED)
        lots, wanting = drawn(lots_at_hand(catalog, job, material), part.high)
        held = part.high - wanting
        buy = Band(max(0.0, part.low - held), None, wanting, "g", NEED)
        yield Bought(
            material, catalog.material(material).name, part, tuple(lots), buy,
            cost_band(catalog, material, buy), FRESH if ready else "",
        )  # fmt: skip


def pots_filled(pots: Sequence[Pot], bought: Sequence[Bought], blend: str) -> list[Pot]:
    """Share the ready batches of a blend out among the pots, in the order in which both stand.

    So the sheets of all pots together take what the needs list takes, and no more.
    """
    ready = [held for one in bought if one.item == blend for held in one.at_hand]
    found = []
    for pot in pots:
        taken, _ = drawn(iter(ready), pot.grams)
        ready = _rest(ready, taken)
        found.append(dataclasses.replace(pot, ready=tuple(taken)))
    return found


def _rest(helds: Sequence[Held], taken: Sequence[Held]) -> list[Held]:
    """Give what is left of each after a draw."""
    used = {one.of: one.amount.value for one in taken}
    rest = []
    for one in helds:
        left = one.amount.value - used.get(one.of, 0.0)
        if left > NOISE * one.amount.value:
            amount = Quantity(left, one.amount.unit)
            rest.append(dataclasses.replace(one, amount=amount))
    return rest


def _stock(catalog: Catalog, plan: Answer) -> Iterator[Bought]:
    """Give each valve stock in strips: what lies on skins and pieces of the shop, what is short."""
    for one in plan.answer["plans"]:
        cut = float(sum(blank.cut for blank in one.blanks))
        buy, cost, note = _short(catalog, plan, one.stock)
        yield Bought(
            one.stock,
            catalog.valve_stock[one.stock].name,
            Band(cut, None, cut, "1", "strips with spares"),
            tuple(_laid(one)),
            buy,
            cost,
            note,
        )


def _laid(plan: Plan) -> Iterator[Held]:
    """Give the skins and the pieces that strips lie on; a skin is taken whole."""
    pieces = sum(sheet.kind == PIECE for sheet in plan.sheets)
    for sheet in plan.sheets:
        if sheet.kind == SKIN:
            said = _strips(len(sheet.strips))
            yield Held("skin", sheet.name, Quantity(1.0, "pieces"), said)
    if pieces:
        strips = sum(len(sheet.strips) for sheet in plan.sheets if sheet.kind == PIECE)
        yield Held("stock", plan.stock, Quantity(float(pieces), "pieces"), _strips(strips))


def _strips(count: int) -> str:
    return "1 strip" if count == 1 else f"{count} strips"


def _short(catalog: Catalog, plan: Answer, stock: str) -> tuple[Band, Band | None, str]:
    """Give what must be bought of a stock: pieces of its size, or an area, and its cost."""
    found: list[dict[str, Any]] = [one for one in plan.answer["to_buy"] if one["stock"] == stock]
    pieces = sum(one["pieces"] or 0 for one in found)
    areas = [one["area"] for one in found if one["area"] is not None]
    if areas:
        band = areas[0]
        strips = sum(one["strips"] for one in found if one["area"] is not None)
        return band, cost_band(catalog, stock, band), f"{_strips(strips)} without a place"
    bought = Band(float(pieces), None, float(pieces), "pieces", "whole pieces")
    return bought, cost_band(catalog, stock, bought) if pieces else None, ""


def _bought(catalog: Catalog, item: str, name: str, need: Band, note: str) -> Bought:
    return Bought(item, name, need, (), need, cost_band(catalog, item, need), note)
