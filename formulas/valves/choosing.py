"""What one slot gets, from the shared procedures: the choice with its reasons and runners-up."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from formulas.valves.blank import valve_sizes
from formulas.valves.deciding import (
    NONE_SERVES,
    ONE_STOCK,
    WITH_HELPER,
    WITH_TOPPER,
    WITHOUT,
    decided,
    founds_of,
)
from formulas.valves.judging import SERVES, judged, passed_of, ranked
from formulas.valves.rank import Slot
from formulas.valves.settings import Settings, settings
from formulas.valves.slot_answer import slot_answer, without_of
from formulas.valves.slot_choice import (
    ALONE,
    KINDS,
    LOOK_FOR,
    VERDICTS,
    Helper,
    RunnerUp,
    SlotChoice,
)
from formulas.valves.valve_words import (
    ABOUT,
    REJECTED_SAID,
    reasons_of,
    table_said,
    told_of,
    without_said,
)
from formulas.valves.window import window_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valves.stock import Stock

Limits = Sequence[Sequence[float]]


def stock_numbers(stock: Stock, alone: bool) -> list[float]:
    """Give a stock as `judging.judged` asks for it; `alone` where it is no mere topper."""
    return [*stock.numbers[:11], 1.0 if alone and stock.alone else 0.0]


def slot_numbers(slot: Slot, partner: Slot, end: str = "estimate") -> list[float]:
    """Give a slot as `judging.judged` asks for it; `partner` is the other slot of the plate."""
    return [
        getattr(slot.slot_length, end),
        getattr(slot.slot_width, end),
        slot.hanging,
        1 / partner.frequency,
        slot.free_space or 0.0,
    ]


def case_of(slot: Slot, partner: Slot) -> tuple[object, ...]:
    """Give all that the middle of a slot's answer hangs on, but the stocks and the settings."""
    return (
        *slot_numbers(slot, partner), slot.valved, slot.frequency, slot.wall, slot.edge_land,
    )  # fmt: skip


def choose(
    catalog: Catalog, slot: Slot, partner: Slot, stocks: Sequence[tuple[Stock, bool]]
) -> SlotChoice:
    """Give what a slot gets of these stocks, each with whether it may stand alone.

    Two slots that are alike are worked out once.
    """
    memo: dict[object, SlotChoice] = catalog.memo.setdefault("valve choices", {})
    key = (
        *slot_numbers(slot, partner), slot.slot_length, slot.slot_width, slot.valved,
        slot.frequency, slot.wall, slot.edge_land, slot.measured,
        tuple((one.id, *stock_numbers(one, alone)) for one, alone in stocks),
    )  # fmt: skip
    if key not in memo:
        memo[key] = Choosing(catalog, slot, partner, stocks).choice()
    return dataclasses.replace(memo[key], slot=slot)


def choice_alone(
    catalog: Catalog, slot: Slot, partner: Slot, stocks: Sequence[tuple[Stock, bool]]
) -> tuple[list[float], int, str, str]:
    """Give sizes, kind, stock and topper without any reason: for a whole instrument at once."""
    memo = catalog.memo.setdefault("valve choices alone", {})
    key = (
        *case_of(slot, partner),
        tuple((one.id, *stock_numbers(one, alone)) for one, alone in stocks),
    )
    if key not in memo:
        memo[key] = Choosing(catalog, slot, partner, stocks).alone()
    found: tuple[list[float], int, str, str] = memo[key]
    return found


class Case(NamedTuple):
    """A slot at one end of its size: what no limit changes.

    The valve's sizes, the slot in numbers, what each stock would do, and whether it goes without.
    """

    sizes: list[float]
    numbers: list[float]
    founds: list[list[float]]
    without: bool


class Choosing:
    """One slot, its settings and the stocks to choose from."""

    def __init__(
        self,
        catalog: Catalog,
        slot: Slot,
        partner: Slot,
        stocks: Sequence[tuple[Stock, bool]],
    ) -> None:
        self.slot, self.partner = slot, partner
        self.stocks = [one for one, _ in stocks]
        self.numbers = [stock_numbers(one, alone) for one, alone in stocks]
        self.set: Settings = settings(catalog)
        self.had_none = slot.valved == "no"
        self._cases: dict[str, Case] = {}
        self.us = catalog.shop.units == "US"

    def _case(self, end: str) -> Case:
        if end not in self._cases:
            numbers = slot_numbers(self.slot, self.partner, end)
            sizes = valve_sizes(
                numbers[0], numbers[1], self.slot.wall, self.slot.edge_land, self.set.rules
            )
            founds = founds_of(sizes, numbers, self.set.opening, self.set.pressures, self.numbers)
            spoke = without_of(
                numbers, self.slot.frequency, self.had_none, self.set.no_valve, self.set.tongue,
                self.numbers, founds,
            )  # fmt: skip
            without = sum(spoke) == 3 or self.had_none
            self._cases[end] = Case(sizes, numbers, founds, without)
        return self._cases[end]

    def _decided(self, end: str, limits: Limits | None = None) -> list[int]:
        case = self._case(end)
        return decided(
            case.sizes, case.numbers, self.set.opening, self.set.pressures,
            limits or self.set.limits, self.numbers, case.founds, case.without,
        )  # fmt: skip

    def alone(self) -> tuple[list[float], int, str, str]:
        """Give sizes, kind, stock and topper."""
        kind, place, topper = self._decided("estimate")
        named = [self.stocks[one].id if one >= 0 else "" for one in (place, topper)]
        return self._case("estimate").sizes, kind, named[0], named[1]

    def said(self, limits: Limits | None = None) -> str:
        """Give the stock, the pair or the kind of answer in words; under other limits where given.

        Which slots go without a valve hangs on no limit.
        """
        return self._said(self._decided("estimate", limits))

    def _said(self, answer: Sequence[int]) -> str:
        kind, place, topper = answer
        if kind == WITH_TOPPER:
            return f"{self.stocks[place].id} + {self.stocks[topper].id}"
        if kind == WITH_HELPER:
            return f"{self.stocks[place].id} + helper"
        return self.stocks[place].id if kind == ONE_STOCK else KINDS[kind]

    def choice(self) -> SlotChoice:
        """Give the choice, its reasons, what is told beside, and the runners-up."""
        (
            sizes, answer, spoke, found, low, high, ratios, _, _, here, verdict, window, helper,
            passed, unsure,
        ) = slot_answer(
            slot_numbers(self.slot, self.partner), self.slot.frequency, self.slot.wall,
            self.slot.edge_land, self.had_none, self.set.rules, self.set.opening,
            self.set.pressures, self.set.limits, self.set.no_valve, self.set.tongue, self.numbers,
            self.set.mass,
        )  # fmt: skip
        kind, place, topper = (int(one) for one in answer)
        reasons: list[str] = []
        told: list[str] = []
        if kind == WITHOUT:
            reasons = without_said([int(one) for one in spoke], self.had_none)
        elif found:
            which = ([int(one) for one in passed], [int(one) for one in unsure])
            reasons = self._worded(
                kind, reasons_of(found, low, high, ratios, here, *which, ABOUT, self.us)
            )
            told = told_of(
                found, ratios, here, sizes[4], self.slot.frequency, self.set.told, ABOUT, self.us
            )
        return SlotChoice(
            slot=self.slot,
            sizes=list(sizes),
            kind=kind,
            stock=self.stocks[place].id if place >= 0 else "",
            topper=self.stocks[topper].id if topper >= 0 else "",
            sure=bool(verdict) and verdict[0] == SERVES and self.slot.measured,
            margin=verdict[1] if verdict else 0.0,
            found=list(found),
            low=list(low),
            high=list(high),
            limits=list(here),
            window=list(window[:2]),
            window_mass=window[2],
            helper=self._helper(helper) if helper else None,
            reasons=tuple(reasons),
            told=tuple(told),
            without=tuple(int(one) for one in spoke),
            more=self,
        )

    def _helper(self, helper: Sequence[float]) -> Helper:
        preload, force, soft, quiet, loud = helper
        return Helper(preload, force, (soft, quiet, loud), force >= self.set.least_helper)

    def _worded(self, kind: int, reasons: list[str]) -> list[str]:
        if kind == WITH_HELPER:
            return [one.replace(REJECTED_SAID, ALONE) for one in reasons]
        return [*reasons, LOOK_FOR] if kind == NONE_SERVES else reasons

    def at_ends(self) -> tuple[str, ...]:
        """Give what the slot gets at either end of its size."""
        return tuple(self._said(self._decided(end)) for end in ("low", "high"))

    def runners(self, but: str) -> list[RunnerUp]:
        """Give what is said of each stock but one, those that serve first, by their margins."""
        case = self._case("estimate")
        common = (case.sizes, case.numbers, self.set.opening, self.set.pressures, self.set.limits)
        others = [
            (stock, row)
            for stock, row in zip(self.stocks, self.numbers, strict=True)
            if row[11] and stock.id != but
        ]
        found = [judged(*common, row) for _, row in others]
        return [
            self._runner(common, *others[place], found[place])
            for place in ranked([[*one[7], 1] for one in found])
        ]

    def _runner(
        self,
        common: tuple[list[float], list[float], list[float], list[float], list[list[float]]],
        stock: Stock,
        row: Sequence[float],
        result: Sequence[list[float]],
    ) -> RunnerUp:
        found, low, high, ratios, least, most, here, verdict = result
        weighed = ratios if row[10] else least
        against = passed_of(weighed, self.set.limits)
        if not row[10] and not against:
            least_c, most_c, *_ = window_of(*common, row[0])
            reason = table_said(row[0], least_c, most_c, self.us)
        else:
            unsure = passed_of(most, self.set.limits)
            words = reasons_of(found, low, high, weighed, here, against, unsure, ABOUT, self.us)
            reason = words[0].removeprefix(REJECTED_SAID)
        return RunnerUp(stock.id, VERDICTS[int(verdict[0])], verdict[1], reason)
