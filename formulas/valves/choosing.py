"""What one slot gets, from the shared procedures: the choice with its reasons and runners-up."""

from __future__ import annotations

import dataclasses
import functools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from formulas.answer import Band
from formulas.valves.blank import valve_sizes
from formulas.valves.deciding import (
    NONE_SERVES,
    NOT_MEASURED,
    ONE_STOCK,
    WITH_HELPER,
    WITH_TOPPER,
    WITHOUT,
    decided,
    helped,
)
from formulas.valves.judging import (
    PERHAPS,
    REJECTED,
    helper_force,
    judged,
    passed_of,
    ranked,
    topped,
)
from formulas.valves.no_valve import goes_without, wasted_area
from formulas.valves.one_valve import FOUND, valve_found
from formulas.valves.rank import Slot
from formulas.valves.settings import Settings, settings
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

UNITS = ("m", "m", "Pa", "1", "1", "1", "s", "J", "m", "m", "Pa", "m", "1", "s", "Hz", "Hz")
KINDS = {
    ONE_STOCK: "one stock",
    WITH_TOPPER: "stock with a topper",
    WITH_HELPER: "stock with a helper spring",
    WITHOUT: "no valve",
    NOT_MEASURED: "no stock measured",
    NONE_SERVES: "none serves",
}
TO_CUT = (ONE_STOCK, WITH_TOPPER, WITH_HELPER)
"""The kinds of answer for which a valve is cut."""
VERDICTS = {0: "serves", PERHAPS: "may serve", REJECTED: "rejected"}
ALONE = "without the helper: "
LOOK_FOR = (
    "look for a lighter stock that hangs within the window, and keep what the instrument had"
    " until you have one"
)
METHOD = "strip on a slot, small bending"


@dataclass(frozen=True)
class RunnerUp:
    """A stock that was not chosen: what is said of it, and the reason that weighs most."""

    stock: str
    verdict: str
    margin: float
    reason: str


@dataclass(frozen=True)
class Helper:
    """What a helper spring has to press, in Pa all over or in N at the tip, and the choke then.

    `settable` where a spring can be set to so little.
    """

    preload: float
    force: float
    choke: tuple[float, float, float]
    settable: bool

    def as_json(self) -> dict[str, object]:
        """Give it under the names of its parts."""
        return {
            "preload": {"value": self.preload, "unit": "Pa"},
            "force_at_tip": {"value": self.force, "unit": "N"},
            "choke_at_most": list(self.choke),
            "settable": self.settable,
        }


@dataclass(frozen=True)
class SlotChoice:
    """The choice for one slot. `found` and its ends stand as `one_valve.FOUND`, `[]` for none."""

    slot: Slot
    sizes: list[float]
    kind: int
    stock: str
    topper: str
    sure: bool
    margin: float
    found: list[float]
    low: list[float]
    high: list[float]
    limits: list[float]
    window: list[float]
    window_mass: float
    helper: Helper | None
    reasons: tuple[str, ...]
    told: tuple[str, ...]
    without: tuple[int, ...]
    more: Choosing = dataclasses.field(repr=False, compare=False)

    @functools.cached_property
    def runners_up(self) -> tuple[RunnerUp, ...]:
        """What is said of the stocks that were not chosen, the best first."""
        return tuple(self.more.runners(self.stock if not self.topper else ""))

    @functools.cached_property
    def at_ends(self) -> tuple[str, ...]:
        """What a slot that was not measured gets at the low and at the high end of its size."""
        return () if self.slot.measured else self.more.at_ends()

    @property
    def names(self) -> tuple[str, ...]:
        """What was found, by name; nothing where no stock was judged."""
        return FOUND if self.found else ()

    @property
    def to_cut(self) -> bool:
        """Whether a valve is cut for it."""
        return self.kind in TO_CUT

    @property
    def kind_said(self) -> str:
        """The kind of answer in words."""
        return KINDS[self.kind]

    def value(self, name: str) -> Band | None:
        """Give one thing found with its ends, or None where nothing was judged."""
        if not self.found:
            return None
        place = FOUND.index(name)
        return Band(self.low[place], self.found[place], self.high[place], UNITS[place], METHOD)


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


def choose(
    catalog: Catalog, slot: Slot, partner: Slot, stocks: Sequence[tuple[Stock, bool]]
) -> SlotChoice:
    """Give what a slot gets of these stocks, each with whether it may stand alone.

    Two slots that are alike are worked out once.
    """
    memo: dict[object, SlotChoice] = catalog.memo.setdefault("valve choices", {})
    key = (
        *slot_numbers(slot, partner), slot.slot_length.low, slot.slot_length.high, slot.valved,
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
        *slot_numbers(slot, partner), slot.valved, slot.frequency, slot.wall, slot.edge_land,
        tuple((one.id, *stock_numbers(one, alone)) for one, alone in stocks),
    )  # fmt: skip
    if key not in memo:
        memo[key] = Choosing(catalog, slot, partner, stocks).alone()
    found: tuple[list[float], int, str, str] = memo[key]
    return found


class Choosing:
    """One slot, its settings and the stocks to choose from."""

    def __init__(
        self,
        catalog: Catalog,
        slot: Slot,
        partner: Slot,
        stocks: Sequence[tuple[Stock, bool]],
        under: Settings | None = None,
    ) -> None:
        self.slot, self.partner = slot, partner
        self.stocks = [one for one, _ in stocks]
        self.numbers = [stock_numbers(one, alone) for one, alone in stocks]
        self.set: Settings = under or settings(catalog)
        self.us = catalog.shop.units == "US"

    def _case(self, end: str) -> tuple[list[float], list[float]]:
        numbers = slot_numbers(self.slot, self.partner, end)
        sizes = valve_sizes(
            numbers[0], numbers[1], self.slot.wall, self.slot.edge_land, self.set.rules
        )
        return sizes, numbers

    def _without(self, sizes: Sequence[float], numbers: Sequence[float]) -> list[int]:
        """Give which of the three conditions speak for no valve.

        The lightest stock is that of the shop's own, where it has measured one.
        """
        offset, gap = self.set.tongue
        tongue, width = numbers[0] - gap, numbers[1] - 2 * gap
        area = wasted_area(tongue, width, offset * tongue, gap)
        openings, pressures = self.set.opening, self.set.pressures
        own = [one for one in self.numbers if one[10] and one[11]]
        taken = [
            valve_found(sizes, numbers[0], numbers[1], numbers[2], openings[0], pressures, one)
            for one in own or [one for one in self.numbers if one[11]]
        ]
        lightest = min((found[4] for found in taken), default=1.0)
        return goes_without(
            tongue, self.slot.frequency, area, lightest, self.slot.valved == "no", self.set.no_valve
        )

    def _decided(self, end: str) -> list[int]:
        sizes, numbers = self._case(end)
        without = sum(self._without(sizes, numbers)) == 3
        return decided(
            sizes, numbers, self.set.opening, self.set.pressures, self.set.limits, self.numbers,
            without or self.slot.valved == "no",
        )  # fmt: skip

    def alone(self) -> tuple[list[float], int, str, str]:
        """Give sizes, kind, stock and topper."""
        kind, place, topper = self._decided("estimate")
        named = [self.stocks[one].id if one >= 0 else "" for one in (place, topper)]
        return self._case("estimate")[0], kind, named[0], named[1]

    def said(self) -> str:
        """Give the stock, the pair or the kind of answer in words."""
        return self._said(self._decided("estimate"))

    def _said(self, answer: Sequence[int]) -> str:
        kind, place, topper = answer
        if kind == WITH_TOPPER:
            return f"{self.stocks[place].id} + {self.stocks[topper].id}"
        if kind == WITH_HELPER:
            return f"{self.stocks[place].id} + helper"
        return self.stocks[place].id if kind == ONE_STOCK else KINDS[kind]

    def choice(self) -> SlotChoice:
        """Give the choice, its reasons, what is told beside, and the runners-up."""
        sizes, numbers = self._case("estimate")
        without = self._without(sizes, numbers)
        answer = self._decided("estimate")
        kind, place, topper = answer
        numbers_of = self.numbers[place] if place >= 0 else []
        if kind == WITH_TOPPER:
            numbers_of = topped(numbers_of, self.numbers[topper])
        common = (sizes, numbers, self.set.opening, self.set.pressures, self.set.limits)
        result = judged(*common, numbers_of) if numbers_of else []
        mass = numbers_of[0] if numbers_of else self._usual_mass()
        return SlotChoice(
            slot=self.slot,
            sizes=sizes,
            kind=kind,
            stock=self.stocks[place].id if place >= 0 else "",
            topper=self.stocks[topper].id if topper >= 0 else "",
            sure=bool(result) and result[7][0] == 0 and self.slot.measured,
            margin=result[7][1] if result else 0.0,
            found=result[0] if result else [],
            low=result[1] if result else [],
            high=result[2] if result else [],
            limits=result[6] if result else [],
            window=window_of(*common, mass)[:2],
            window_mass=mass,
            helper=self._helper(sizes, numbers, result, numbers_of)
            if kind == WITH_HELPER
            else None,
            reasons=tuple(self._reasons(kind, result, without)),
            told=tuple(self._told(result, sizes)),
            without=tuple(without),
            more=self,
        )

    def _usual_mass(self) -> float:
        """Give the mean mass of the stocks at hand: the window needs one."""
        masses = [one[0] for one in self.numbers if one[11]] or [self.set.mass]
        return sum(masses) / len(masses)

    def _helper(
        self,
        sizes: list[float],
        slot: list[float],
        result: list[list[float]],
        stock: Sequence[float],
    ) -> Helper:
        preload, soft, quiet, loud = helped(
            sizes, slot, self.set.opening, self.set.pressures, result[0], result[3], stock
        )
        force = helper_force(preload, sizes[4], sizes[5])
        return Helper(preload, force, (soft, quiet, loud), force >= self.set.least_helper)

    def _reasons(self, kind: int, result: list[list[float]], without: Sequence[int]) -> list[str]:
        if kind == WITHOUT:
            return without_said(without, self.slot.valved == "no")
        if not result:
            return []
        found, low, high, ratios, _, most, here, _ = result
        reasons = reasons_of(
            found, low, high, ratios, here,
            passed_of(ratios, self.set.limits), passed_of(most, self.set.limits), ABOUT, self.us,
        )  # fmt: skip
        if kind == WITH_HELPER:
            return [one.replace(REJECTED_SAID, ALONE) for one in reasons]
        return [*reasons, LOOK_FOR] if kind == NONE_SERVES else reasons

    def _told(self, result: list[list[float]], sizes: Sequence[float]) -> list[str]:
        if not result:
            return []
        found, _, _, ratios, _, _, here, _ = result
        return told_of(
            found, ratios, here, sizes[4], self.slot.frequency, self.set.told, ABOUT, self.us
        )

    def at_ends(self) -> tuple[str, ...]:
        """Give what the slot gets at either end of its size."""
        return tuple(self._said(self._decided(end)) for end in ("low", "high"))

    def runners(self, but: str) -> list[RunnerUp]:
        """Give what is said of each stock but one, those that serve first, by their margins."""
        sizes, numbers = self._case("estimate")
        common = (sizes, numbers, self.set.opening, self.set.pressures, self.set.limits)
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
