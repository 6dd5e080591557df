"""What a slot gets, as an answer holds it: the choice, its figures with ends, its runners-up."""

from __future__ import annotations

import dataclasses
import functools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from formulas.answer import Band
from formulas.frozen import Frozen
from formulas.valves.deciding import (
    NONE_SERVES,
    NOT_MEASURED,
    ONE_STOCK,
    WITH_HELPER,
    WITH_TOPPER,
    WITHOUT,
)
from formulas.valves.judging import PERHAPS, REJECTED
from formulas.valves.one_valve import FOUND
from formulas.valves.rank import Slot

if TYPE_CHECKING:
    from formulas.valves.choosing import Choosing

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


class RunnerUp(Frozen):
    """A stock that was not chosen: what is said of it, and the reason that weighs most."""

    stock: str
    verdict: str
    margin: float
    reason: str


class Helper(Frozen):
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
