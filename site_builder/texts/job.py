"""The terminal text of `job`: counts, wax three ways, hours, pots, what to buy, what it costs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

from formulas.answer import Band, Quantity
from formulas.jobs.quick_words import coarse_decimals
from formulas.units import convert, printed, spoken_unit
from site_builder.texts.words import foot, shop_line, wrapped

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

AREA = "m**2"
US = {"g": "oz", "mL": "floz", AREA: "ft**2"}
GROUPS = {
    "plates": "Plates",
    "valves": "Valves to cut",
    "wax": "Wax",
    "glue": "Glue",
    "solvent": "Solvent",
    "gaskets": "Gaskets",
    "fasteners": "Fasteners",
    "hours": "Hours",
}
TAKEN = ("glue", "solvent", "gaskets", "fasteners")
NO_COST = "Cost not known: no price of what is bought, and none of a bench-hour, in prices.csv."
PLAIN = ("1", "pieces")
FIGURES = 3


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the needs list, or the rows of one total where they were asked for."""
    found, us = answer.answer, catalog.shop.units == "US"
    head = [f"Job {found['job']}: {found['about']}", shop_line(catalog), ""]
    if "trace" in found:
        return [*head, *trace_said(found["trace"], us), *foot(answer)]
    lines = [*head, *counts_said(found), "", *wax_said(found, us), "", *taken_said(found, us)]
    lines += ["", hours_said(found["hours"]), "", *pots_said(found["pots"], us)]
    lines += ["", *shopping_said(found, us), "", *cost_said(found)]
    return [*(wrapped(line, "    ") for line in lines), *foot(answer)]


def counts_said(found: dict[str, Any]) -> Iterator[str]:
    """Say plates, tongues and valves."""
    yield f"  {found['plates']} plates, {found['tongues']} tongues"
    stocks = ", ".join(f"{count} of {stock}" for stock, count in found["valves_by_stock"].items())
    yield f"  {found['valves']} valves to cut{': ' + stocks if stocks else ''}"


def wax_said(found: dict[str, Any], us: bool) -> Iterator[str]:
    """Say the wax by its geometry, beside the rule of thumb and the shop's own figure."""
    if found["wax"] is None:
        yield "  No wax: no plate is bedded anew."
        return
    yield f"  Wax to melt, by its geometry: {band_said(found['wax'], us)}"
    if found["wax_own"] is not None:
        yield f"  by what this shop's own jobs took: {band_said(found['wax_own'], us)}"
    yield f"  by the rule of thumb for one plate: {band_said(found['wax_by_rule'], us)}"
    yield f"  to have ready, pots and shopping go by it: {band_said(found['wax_to_have'], us)}"


def taken_said(found: dict[str, Any], us: bool) -> Iterator[str]:
    """Say what else is used up."""
    for line in found["lines"]:
        if line["group"] in TAKEN:
            yield f"  {line['name']}: {band_said(line['amount'], us)}"


def hours_said(hours: Band) -> str:
    """Say the hours of the whole job."""
    return f"  Hours: {printed(hours.low, 0)} to {printed(hours.high, 0)} h, without tuning"


def pots_said(pots: Iterable[dict[str, Any]], us: bool) -> Iterator[str]:
    """Say the pots by session."""
    for pot in pots:
        amount = quantity_said(pot["amount"], us)
        ready = [f"{one['batch']} {quantity_said(one['amount'], us)}" for one in pot["ready"]]
        first = f"; melt first: {', '.join(ready)}" if ready else ""
        yield f"  Pot {pot['pot']}: {amount}, {pot['plates']} plates, {pot['when']}{first}"


def shopping_said(found: dict[str, Any], us: bool) -> Iterator[str]:
    """Say what comes from the shelf and what is to buy."""
    for one in found["at_hand"]:
        helds = ", ".join(held_said(held, us) for held in one["at_hand"])
        yield f"  From the shelf for {one['name']}: {helds}"
    for one in found["to_buy"]:
        note = f" ({one['note']})" if one["note"] else ""
        yield f"  To buy: {one['name']}, {band_said(one['buy'], us)}{note}"
    if not found["to_buy"]:
        yield "  Nothing to buy."


def held_said(held: dict[str, Any], us: bool) -> str:
    """Say what is taken of one thing at hand."""
    amount = held["amount"]
    said = "" if amount.unit in PLAIN and amount.value == 1 else f" {quantity_said(amount, us)}"
    note = f" ({held['note']})" if held["note"] else ""
    return f"{held['kind']} {held['of']}{said}{note}"


def cost_said(found: dict[str, Any]) -> Iterator[str]:
    """Say what it costs, as far as prices are known, and what has none."""
    cost = found["cost"]
    if cost is None:
        yield f"  {NO_COST}"
        return
    yield f"  Cost of hours and purchases: {money_said(cost)}"
    if found["without_price"]:
        missing = ", ".join(found["without_price"])
        yield f"  In no cost, for want of a price in prices.csv: {missing}"


def trace_said(line: dict[str, Any], us: bool) -> Iterator[str]:
    """Say the rows that a total is the sum of, at the middle of each."""
    yield f"  {line['name']}: {band_said(line['amount'], us)}"
    for part in line["parts"]:
        amount = quantity_said(Quantity(part["amount"], line["amount"].unit), us)
        yield f"    {part['where']:<44} {amount:>12}"
    whole = sum(part["amount"] for part in line["parts"])
    said = quantity_said(Quantity(whole, line["amount"].unit), us)
    yield f"    {'together, at the middle':<44} {said:>12}"


def money_said(cost: Band) -> str:
    """Say a cost with three figures at most; no range of a job is known any better."""
    if 0 < cost.high < 0.5:
        return f"under 1 {cost.unit}"
    noughts = max(0, len(printed(cost.high, 0)) - FIGURES)
    low, high = (
        printed(end / 10**noughts, 0) + "0" * noughts if end >= 10**noughts / 2 else "0"
        for end in (cost.low, cost.high)
    )
    return f"{low if low == high else f'{low} to {high}'} {cost.unit}"


def band_said(band: Band, us: bool) -> str:
    """Say a band in the unit the shop reads, one number where its ends are printed alike.

    Both ends have the decimals that the upper one asks for; a lower one that would print as nought
    and is not brings its own.
    """
    read = _unit_read(band.high, band.unit, us)
    low, high = (_worth(end, band.unit, read) for end in (band.low, band.high))
    if band.unit in PLAIN:
        decimals = 0
    else:
        decimals = coarse_decimals(high)
        if 0 < low < 0.5:
            decimals = max(decimals, coarse_decimals(low))
    first, last = printed(low, decimals) if low else "0", printed(high, decimals)
    said = last if low == high or first == last else f"{first} to {last}"
    unit = _spoken(read)
    return said if unit == "" else f"{said} {unit}"


def quantity_said(quantity: Quantity, us: bool) -> str:
    """Say one amount in the unit the shop reads."""
    read = _unit_read(quantity.value, quantity.unit, us)
    worth = _worth(quantity.value, quantity.unit, read)
    said, unit = printed(worth, _places(worth, read)), _spoken(read)
    return said if unit == "" else f"{said} {unit}"


def _unit_read(value: float, unit: str, us: bool) -> str:
    """Give the unit that a shop reads: an area below a square metre in one that can be seen."""
    if unit == AREA and value < 1:
        return "in**2" if us else "cm**2"
    return US.get(unit, unit) if us else unit


def _worth(value: float, unit: str, read: str) -> float:
    return convert(value, unit, read) if read != unit else value


def _spoken(read: str) -> str:
    return spoken_unit("" if read == "1" else read)


def _places(value: float, unit: str) -> int:
    """Give decimals for three figures at most, two of minutes; counts have none."""
    if unit in PLAIN or abs(value) >= 100:
        return 0
    if unit == "min":
        return coarse_decimals(abs(value))
    return 1 if abs(value) >= 10 else 2
