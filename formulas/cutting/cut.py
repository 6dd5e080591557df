"""The answer of `cut`: the cut list with spares, how it lies on skins and pieces, what to buy."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from formulas.answer import Answer, Band, Quantity
from formulas.cutting.blanks import area_to_buy, long_strips, steps_up, used_share
from formulas.cutting.plan import (
    PIECE,
    SKIN,
    TO_BUY,
    Blank,
    Place,
    Plan,
    Sheet,
    blanks_of,
    outline_of,
    places_of,
    planned,
)
from formulas.cutting.rules import CutRules, cut_rules, rule_bases
from formulas.cutting.wanted import (
    ANY,
    NotCut,
    Typed,
    Wanted,
    by_stock,
    of_chosen,
    of_instrument,
    of_typed,
)
from formulas.fault import OutOfRange, UnknownName
from formulas.units import printed

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valves.valves import Chosen

LENGTHS_M = (0.002, 0.5)
WIDTHS_M = (0.001, 0.1)
COUNTS = (1, 5000)
PIECES_M = (0.02, 3.0)

DIRECTION = (
    "Every strip of a skin lies with its length along the backbone, which is marked before the"
    " first cut; of a roll or a sheet, along one way of it. Leather and what has a direction is"
    " never turned."
)
UP = (
    "Sizes are rounded up only. Lay each valve on dry before it is glued, and trim what would"
    " touch the neighbouring tongue or the wax."
)
LAID = (
    "The layout is the best of several that were tried, not the best there is. What lies beyond"
    " the last cut across goes back on the shelf and is not counted as used up."
)
NOT_ON_PAGE = "A skin with an outline is laid out by this command and on the printed plan only."


def cut(
    catalog: Catalog,
    *,
    instrument: str = "",
    ranks: Sequence[str] = (),
    typed: Sequence[Typed] = (),
    chosen: Sequence[Chosen] | None = None,
    kind: str = "",
    stock: str = "",
    skins: Sequence[str] = (),
    piece_m: tuple[float, float] | None = None,
    pieces: int = 0,
    may_turn: bool = False,
    rules: CutRules | None = None,
) -> Answer:
    """Answer for the sizes typed, for what was chosen, or for an instrument as `valves` chooses.

    `piece_m` is length along the backbone and width of pieces to lay on, at most `pieces` of
    them (nought: as many as it takes), in place of what the shop has; `may_turn` where they
    have no direction. `skins` are the skins to lay on. Raises UnknownName for a name that is
    not there and OutOfRange for a size nobody cuts.
    """
    _refuse(catalog, typed, stock, skins, piece_m)
    if typed:
        wanted, not_cut = of_typed(typed, stock), NotCut(0, 0)
    elif chosen is not None:
        wanted, not_cut = of_chosen(catalog, chosen, stock=stock)
    else:
        instrument = instrument or catalog.shop.instrument
        wanted, not_cut = of_instrument(catalog, instrument, ranks, kind=kind, stock=stock)
    held = rules or cut_rules(catalog)
    plans = [
        planned(
            name,
            blanks_of(name, strips, held),
            _places(catalog, name, skins, piece_m, pieces),
            held,
            may_turn=may_turn if piece_m else turns(catalog, name),
        )
        for name, strips in by_stock(wanted).items()
    ]
    inputs = {
        "instrument": "" if typed else instrument,
        "ranks": list(ranks),
        "strips": [
            f"{1000 * one.length_m:g}x{1000 * one.width_m:g}mm={one.count}" for one in typed
        ],
        "stock": stock,
        "skins": list(skins),
        "piece_mm": [1000 * one for one in piece_m] if piece_m else [],
        "width_step_mm": 1000 * held.width_step,
        "length_step_mm": 1000 * held.length_step,
        "spares": held.spares,
        "gap_mm": 1000 * held.gap,
        "margin_mm": 1000 * held.margin,
    }
    return _answered(catalog, plans, not_cut, inputs, held)


def _refuse(
    catalog: Catalog,
    typed: Sequence[Typed],
    stock: str,
    skins: Sequence[str],
    piece_m: tuple[float, float] | None,
) -> None:
    def within(what: str, value: float, ends: tuple[float, float], each: float, unit: str) -> None:
        if not ends[0] <= value <= ends[1]:
            said = f"{ends[0] * each:g} to {ends[1] * each:g}{unit}"
            raise OutOfRange(what, value * each, said, "cut list")

    for one in typed:
        within("length of a strip", one.length_m, LENGTHS_M, 1000, " mm")
        within("width of a strip", one.width_m, WIDTHS_M, 1000, " mm")
        within("strips of one size", one.count, COUNTS, 1, "")
    for side in piece_m or ():
        within("side of a piece", side, PIECES_M, 1000, " mm")
    if stock and stock not in catalog.valve_stock:
        raise UnknownName("valve stock", stock, catalog.valve_stock)
    for name in skins:
        if name not in catalog.skins:
            raise UnknownName("skin", name, catalog.skins)


def _places(
    catalog: Catalog,
    stock: str,
    skins: Sequence[str],
    piece_m: tuple[float, float] | None,
    pieces: int,
) -> list[Place]:
    """Give what to lay a stock on; sizes without a stock lie on any skin that is named."""
    if piece_m:
        name = stock or "piece"
        return [Place(name, PIECE, piece_m[1], piece_m[0], pieces)]
    if stock == ANY:
        return [Place(name, SKIN, outline=outline_of(catalog, name)) for name in skins]
    found = places_of(catalog, stock)
    return [one for one in found if one.kind != SKIN or not skins or one.name in skins]


def turns(catalog: Catalog, stock: str) -> bool:
    """Whether strips of a stock may lie across the piece: where no layer of it has a direction."""
    if stock == ANY:
        return False
    held = catalog.valve_stock[stock]
    layers = [catalog.valve_stock[name] for name in held.layers] or [held]
    return all(catalog.valve_materials[one.material].backbone == "no" for one in layers)


def _answered(
    catalog: Catalog,
    plans: Sequence[Plan],
    not_cut: NotCut,
    inputs: dict[str, Any],
    rules: CutRules,
) -> Answer:
    sheets = [sheet for plan in plans for sheet in plan.sheets]
    area = sum(one.width * one.length for sheet in sheets for one in sheet.strips)
    cut_into = sum(sheet.cut_into for sheet in sheets)
    return Answer(
        "cut",
        {
            "blanks": [_blank(one) for plan in plans for one in plan.blanks],
            "long_strips": [
                {
                    "stock": plan.stock,
                    "width": Quantity(wide * rules.width_step, "m"),
                    "strips": count,
                    "length": Quantity(long * rules.length_step, "m"),
                }
                for plan in plans
                for wide, count, long in long_strips(steps_of(plan.blanks, rules))
            ],
            "sheets": [_sheet(sheet) for sheet in sheets],
            "yield": used_share(area, cut_into) if sheets else None,
            "to_buy": [one for plan in plans for one in _to_buy(catalog, plan)],
            "slots_without": not_cut.without,
            "slots_undecided": not_cut.undecided,
            "plans": Kept(plans),
        },
        inputs,
        rule_bases(catalog),
        catalog.warned("cut"),
        [*_notes(plans, not_cut)],
    )


class Kept(list[Plan]):
    """The plans themselves, for text, page and paper; JSON has them as blanks and sheets."""

    def as_json(self) -> int:
        """Give how many stocks there are."""
        return len(self)


def steps_of(blanks: Sequence[Blank], rules: CutRules) -> list[list[float]]:
    """Give a cut list as `long_strips` asks for it: width and length in steps, and the count."""
    return [
        [steps_up(one.width, rules.width_step), steps_up(one.length, rules.length_step), one.cut]
        for one in blanks
    ]


def _blank(one: Blank) -> dict[str, Any]:
    return {
        "stock": one.stock,
        "length": Quantity(one.length, "m"),
        "width": Quantity(one.width, "m"),
        "count": one.count,
        "spares": one.spares,
        "cut": one.cut,
        "slots": [_slot(wanted) for wanted in one.wanted if wanted.note],
    }


def _slot(one: Wanted) -> dict[str, Any]:
    return {
        "rank": one.rank,
        "plate": one.plate,
        "note": one.note,
        "face": one.face,
        "topper": one.topper,
    }


def _sheet(sheet: Sheet) -> dict[str, Any]:
    return {
        "name": sheet.name,
        "kind": sheet.kind,
        "stock": sheet.stock,
        "width": Quantity(sheet.width, "m"),
        "length": Quantity(sheet.length, "m"),
        "turned": sheet.turned,
        "lanes": sheet.lanes,
        "cut_into": Quantity(sheet.cut_into, "m**2"),
        "used": sheet.used,
        "strips": [
            {
                "number": one.number,
                "x_mm": float(printed(1000 * one.x, 2)),
                "y_mm": float(printed(1000 * one.y, 2)),
                "width_mm": float(printed(1000 * one.width, 2)),
                "length_mm": float(printed(1000 * one.length, 2)),
            }
            for one in sheet.strips
        ],
    }


def _to_buy(catalog: Catalog, plan: Plan) -> list[dict[str, Any]]:
    """Give pieces of a known size by number, and what has no place by area."""
    bought = [sheet for sheet in plan.sheets if sheet.kind == TO_BUY]
    found: list[dict[str, Any]] = []
    if bought:
        found.append(
            {
                "stock": plan.stock,
                "pieces": len(bought),
                "length": Quantity(bought[0].length, "m"),
                "width": Quantity(bought[0].width, "m"),
                "strips": sum(len(sheet.strips) for sheet in bought),
                "area": None,
            }
        )
    if any(plan.missing):
        least, most = catalog.span("skin-used-share", "dimensionless")
        area = plan.missing_area
        found.append(
            {
                "stock": plan.stock,
                "pieces": None,
                "length": None,
                "width": None,
                "strips": sum(plan.missing),
                "area": Band(
                    area_to_buy(area, most), None, area_to_buy(area, least), "m**2", "used share"
                ),
            }
        )
    return found


def _notes(plans: Sequence[Plan], not_cut: NotCut) -> list[str]:
    said = [DIRECTION, UP]
    if any(plan.sheets for plan in plans):
        said.append(LAID)
    if any(sheet.kind == SKIN for plan in plans for sheet in plan.sheets):
        said.append(NOT_ON_PAGE)
    if not_cut.undecided:
        said.append(
            f"{not_cut.undecided} slots have no stock chosen yet: see `benchbinder valves`, or"
            " name one with --stock."
        )
    return said
