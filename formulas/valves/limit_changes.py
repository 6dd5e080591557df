"""How far the choice hangs on each limit: what changes where one is a fifth tighter or wider."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from typing import TYPE_CHECKING

from formulas.frozen import Frozen
from formulas.valves.at_hand import at_hand, considered
from formulas.valves.choosing import Choosing, Limits, case_of
from formulas.valves.judging import JUDGED
from formulas.valves.rank import Slot, rank_slots
from formulas.valves.settings import settings

if TYPE_CHECKING:
    from formulas.catalog import Catalog

TIGHTER, WIDER = 0.8, 1.25
"""What a limit is multiplied with, one the other's inverse."""


class Run(Frozen):
    """Notes that follow one another and get something else under the changed limit."""

    first: str
    last: str
    before: str
    after: str
    slots: int

    def as_json(self) -> dict[str, object]:
        """Give it under the names of its parts."""
        return dataclasses.asdict(self)


class Sensitivity(Frozen):
    """What changes where one limit is tighter and where it is wider; of how many slots."""

    limit: str
    tighter: tuple[Run, ...]
    wider: tuple[Run, ...]
    slots: int

    def as_json(self) -> dict[str, object]:
        """Give it under the names of its parts."""
        return {"limit": self.limit, "tighter": self.tighter, "wider": self.wider}


def sensitivity(
    catalog: Catalog, instrument: str, rank: str, *, kind: str = ""
) -> list[Sensitivity]:
    """Give for each limit that rejects what a rank gets where it alone is changed.

    Raises UnknownName as `valves` does.
    """
    slots = rank_slots(catalog, instrument, rank)
    stocks = at_hand(catalog, considered(catalog, kind))
    others = [one for pair in zip(slots[1::2], slots[::2], strict=True) for one in pair]
    cases = [case_of(slot, other) for slot, other in zip(slots, others, strict=True)]
    choosing = {
        case: Choosing(catalog, slot, other, stocks)
        for case, slot, other in zip(cases, slots, others, strict=True)
    }

    def said(limits: Limits) -> list[str]:
        found = {case: one.said(limits) for case, one in choosing.items()}
        return [found[case] for case in cases]

    usual = settings(catalog).limits
    now = said(usual)
    return [
        Sensitivity(
            name,
            _runs(slots, now, said(_with(usual, place, TIGHTER))),
            _runs(slots, now, said(_with(usual, place, WIDER))),
            len(slots),
        )
        for place, name in enumerate(JUDGED)
        if usual[place][2] > 0
    ]


def _with(usual: Limits, place: int, times: float) -> Limits:
    """Give the limits with one of them changed, its value and its share."""
    return [
        [row[0] * times, row[1] * times, row[2]] if at == place else row
        for at, row in enumerate(usual)
    ]


def _runs(slots: Sequence[Slot], now: Sequence[str], then: Sequence[str]) -> tuple[Run, ...]:
    """Give the slots whose answer changes, neighbours of one change together."""
    runs: list[Run] = []
    for slot, before, after in zip(slots, now, then, strict=True):
        if before == after:
            continue
        last = runs[-1] if runs else None
        if last and (last.before, last.after) == (before, after):
            runs[-1] = dataclasses.replace(last, last=slot.sounds, slots=last.slots + 1)
        else:
            runs.append(Run(slot.sounds, slot.sounds, before, after, 1))
    return tuple(runs)
