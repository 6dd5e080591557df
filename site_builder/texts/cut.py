"""The terminal text of `cut`: a list for each stock, long strips, what it lies on, what to buy."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from formulas.cutting.blanks import long_strip_said, side_said, strip_said
from formulas.cutting.pieces import areas_said
from formulas.cutting.plan import SKIN, Blank, Plan, Sheet
from formulas.cutting.wanted import Wanted
from formulas.valves.typed import area_printed
from formulas.valves.valve_words import percent_said
from site_builder.texts.words import foot, shop_line, so_many, wrapped

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

NO_STOCK = "sizes as typed"
HEADS = ("Length x width", "slots", "spare", "cut")


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give each stock's list, then what was laid, what is to buy, and the basis."""
    us = catalog.shop.units == "US"
    lines = [title(answer), shop_line(catalog)]
    for plan in answer.answer["plans"]:
        lines += ["", stock_line(plan, catalog), *_table(plan.blanks, us)]
        own = [one for one in answer.answer["long_strips"] if one["stock"] == plan.stock]
        lines += [wrapped(f"  {long_strips_said(own, us)}", "    ")]
        lines += [wrapped(f"  {sheet_said(sheet, us)}", "    ") for sheet in plan.sheets]
    lines += ["", *(wrapped(one, "  ") for one in bought_said(answer, us))]
    return [*lines, *foot(answer)]


def title(answer: Answer) -> str:
    """Say what is cut."""
    asked = answer.inputs
    if asked["strips"]:
        return "Cut list of the sizes typed"
    ranks = f", {', '.join(asked['ranks'])}" if asked["ranks"] else ", every rank"
    return f"Cut list of {asked['instrument']}{ranks}"


def stock_line(plan: Plan, catalog: Catalog) -> str:
    """Name a stock with the count of its strips."""
    name = f"{plan.stock} ({catalog.valve_stock[plan.stock].name})" if plan.stock else NO_STOCK
    count = sum(one.count for one in plan.blanks)
    cut = sum(one.cut for one in plan.blanks)
    valves, sizes = so_many(count, "valve"), so_many(len(plan.blanks), "size")
    return f"{name}: {valves} in {sizes}, {cut} with spares"


def _table(blanks: Sequence[Blank], us: bool) -> Iterator[str]:
    yield f"  {HEADS[0]:<18}{HEADS[1]:>6}{HEADS[2]:>7}{HEADS[3]:>5}"
    for one in blanks:
        size = strip_said(one.length, one.width, us)
        line = f"  {size:<18}{one.count:>6}{one.spares:>7}{one.cut:>5}"
        yield wrapped(f"{line}  {marks_said(one.wanted)}".rstrip(), " " * 40)


def marks_said(wanted: Iterable[Wanted]) -> str:
    """Say for which notes a size is, rank by rank, each note once."""
    ranks: dict[str, list[str]] = {}
    for one in wanted:
        if one.note and one.note not in ranks.setdefault(one.rank, []):
            ranks[one.rank].append(one.note)
    return "; ".join(f"{rank} {' '.join(notes)}" for rank, notes in ranks.items())


def long_strips_said(strips: Sequence[dict[str, Any]], us: bool) -> str:
    """Say the same as long strips of one width."""
    each = (
        long_strip_said(one["width"].value, one["strips"], one["length"].value, us)
        for one in strips
    )
    return f"The same as long strips: {'; '.join(each)}."


def sheet_said(sheet: Sheet, us: bool) -> str:
    """Say what lies on a skin or a piece."""
    lanes = ""
    if sheet.lanes > 1:
        way = "the backbone" if sheet.kind == SKIN else "its length"
        lanes = f", in lanes along {way}, {sheet.lanes} to its width"
    turned = ", turned: strips run along its width" if sheet.turned else ""
    size = strip_said(sheet.length, sheet.width, us)
    kind = "skin" if sheet.kind == SKIN else f"{sheet.kind}, {size}"
    strips = so_many(len(sheet.strips), "strip")
    return (
        f"On {sheet.name} ({kind}): {strips}{lanes}{turned}; used share"
        f" {percent_said(sheet.used)} of {area_printed(sheet.cut_into, us)} cut into."
    )


def bought_said(answer: Answer, us: bool) -> list[str]:
    """Say what must be bought, or that nothing must."""
    found = answer.answer["to_buy"]
    if not found:
        return ["Nothing to buy: all of it has its place."]
    return [_bought(one, us) for one in found]


def _bought(one: dict[str, Any], us: bool) -> str:
    name = one["stock"] or "stock for the sizes typed"
    strips = so_many(one["strips"], "strip")
    if one["pieces"]:
        pieces = so_many(one["pieces"], "piece")
        size = strip_said(one["length"].value, one["width"].value, us)
        return f"To buy of {name}: {pieces} of {size}, for {strips}."
    area = areas_said(one["area"].low, one["area"].high, us)
    return f"To buy of {name}: {area} for {strips} without a place."


def side(metres: float, us: bool) -> str:
    """Give one side with its unit."""
    return f"{side_said(metres, us)} {'in' if us else 'mm'}"
