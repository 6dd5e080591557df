"""The answer of `valves`: what each slot of a rank gets, or one slot that was measured, and why."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, overload

from formulas.answer import Answer, Band, Quantity
from formulas.fault import UnknownName
from formulas.valves.at_hand import at_hand, considered
from formulas.valves.choosing import choice_alone, choose
from formulas.valves.limit_changes import sensitivity
from formulas.valves.notes import midi_of
from formulas.valves.rank import Slot, rank_oddities, rank_slots, ranks_of
from formulas.valves.settings import bases
from formulas.valves.slot_choice import TO_CUT, RunnerUp, SlotChoice

if TYPE_CHECKING:
    from formulas.catalog import Catalog


@dataclasses.dataclass(frozen=True)
class Chosen:
    """What is to be cut for one slot; `stock` is "" where it gets no valve or none is known."""

    instrument: str
    rank: str
    plate: str
    note: str
    face: str
    stock: str
    topper: str
    length_m: float
    width_m: float
    free_m: float
    kind: int


def choices(
    catalog: Catalog,
    instrument: str,
    rank: str,
    *,
    kind: str = "",
    only: Sequence[str] = (),
    posture: str = "",
) -> list[SlotChoice]:
    """Give the choice for every slot of a rank, by note, the inside valve first."""
    slots = [_posed(catalog, slot, posture) for slot in rank_slots(catalog, instrument, rank)]
    from_these = at_hand(catalog, considered(catalog, kind, only))
    pairs = zip(slots[::2], slots[1::2], strict=True)
    return [
        choose(catalog, slot, partner, from_these)
        for inside, outside in pairs
        for slot, partner in ((inside, outside), (outside, inside))
    ]


def _posed(catalog: Catalog, slot: Slot, posture: str) -> Slot:
    """Give a slot as it hangs in a posture; as its rank has it where none is named."""
    if not posture:
        return slot
    if posture not in catalog.postures:
        raise UnknownName("posture", posture, catalog.postures)
    held = catalog.postures[posture]
    hanging = held.inside if slot.face == "inside" else held.outside
    return dataclasses.replace(slot, posture=posture, hanging=hanging)


def chosen(catalog: Catalog, instrument: str, rank: str = "", *, kind: str = "") -> list[Chosen]:
    """Give what is to be cut for an instrument, or one rank of it: for `cut`."""
    ranks = [rank] if rank else [one.rank for one in ranks_of(catalog, instrument)]
    from_these = at_hand(catalog, considered(catalog, kind))
    found = []
    for name in ranks:
        slots = rank_slots(catalog, instrument, name)
        for inside, outside in zip(slots[::2], slots[1::2], strict=True):
            for slot, partner in ((inside, outside), (outside, inside)):
                sizes, how, stock, topper = choice_alone(catalog, slot, partner, from_these)
                to_cut = how in TO_CUT
                found.append(
                    Chosen(
                        instrument, slot.rank, slot.plate, slot.sounds, slot.face,
                        stock if to_cut else "", topper if to_cut else "", sizes[6], sizes[5],
                        sizes[4], how,
                    )
                )  # fmt: skip
    return found


def valves(
    catalog: Catalog,
    rank: str,
    *,
    instrument: str = "",
    note: str = "",
    kind: str = "",
    only: Sequence[str] = (),
    posture: str = "",
    sensitive: bool = False,
) -> Answer:
    """Answer for a rank of an instrument, or one note of it.

    `sensitive` adds what changes with each limit, for the whole rank. `kind` of "any" takes every
    stock, blank the kind that the shop cuts. Raises UnknownName for a rank, an instrument, a
    stock, a posture or a note that is not there, UnitFault for a note that is none.
    """
    instrument = instrument or catalog.shop.instrument
    found = choices(catalog, instrument, rank, kind=kind, only=only, posture=posture)
    if note:
        found = [one for one in found if one.slot.midi == midi_of(note)]
        if not found:
            names = [slot.sounds for slot in rank_slots(catalog, instrument, rank)]
            raise UnknownName("note of the rank", note, names)
    notes = [
        f"{odd.plate} ({odd.sounds}): {odd.measure} {1000 * odd.found:.2f} mm lies apart from"
        f" {1000 * odd.expected.low:.2f} to {1000 * odd.expected.high:.2f} mm, which the others"
        " lead to expect: measure it again."
        for odd in rank_oddities(catalog, instrument, rank)
    ]
    inputs = {"instrument": instrument, "rank": rank, "note": note, "kind": kind}
    more = {"sensitivity": sensitivity(catalog, instrument, rank, kind=kind)} if sensitive else {}
    return answered(catalog, found, inputs, notes, more)


def answered(
    catalog: Catalog,
    found: Sequence[SlotChoice],
    inputs: dict[str, Any],
    notes: Iterable[str] = (),
    more: Mapping[str, Any] = MappingProxyType({}),
) -> Answer:
    """Put choices into the form that every face shows."""
    return Answer(
        "valves",
        {"reeds": _Reeds(found), "choices": _Kept(found), **more},
        inputs,
        bases(catalog),
        catalog.warned("valves"),
        [*notes, *_common(found)],
    )


class _Reeds(Sequence[dict[str, Any]]):
    """The choices as JSON has them, each made when it is asked for."""

    def __init__(self, found: Sequence[SlotChoice]) -> None:
        self.found = found

    def __len__(self) -> int:
        return len(self.found)

    @overload
    def __getitem__(self, place: int) -> dict[str, Any]: ...

    @overload
    def __getitem__(self, place: slice) -> list[dict[str, Any]]: ...

    def __getitem__(self, place: int | slice) -> dict[str, Any] | list[dict[str, Any]]:
        if isinstance(place, slice):
            return [as_reed(one) for one in self.found[place]]
        return as_reed(self.found[place])

    def as_json(self) -> list[dict[str, Any]]:
        """Give all of them."""
        return self[:]


class _Kept(list[SlotChoice]):
    """The choices themselves, for text and page; JSON has them as reeds."""

    def as_json(self) -> int:
        """Give how many there are."""
        return len(self)


TWO = (
    "Two valves decide each note: its own has to open, the one on the other face of its plate has"
    " to shut. What stands under gap, delay and shutting pressure counts for the other note."
)


INSIDE = (
    "Inside valves are out of reach once the plate is waxed: fit them, let them rest, check them"
    " again and sign them off before bedding."
)


def _common(found: Sequence[SlotChoice]) -> list[str]:
    said = [TWO]
    if any(one.to_cut and one.slot.face == "inside" for one in found):
        said.append(INSIDE)
    if any(not one.slot.measured for one in found):
        said.append(
            "Slots that were not measured come from the generic line or from their neighbours:"
            " measure a plate before a set is cut."
        )
    return said


def as_reed(one: SlotChoice) -> dict[str, Any]:
    """Give a choice as it stands in the JSON answer."""
    slot, at = one.slot, one.value
    return {
        "note": slot.sounds,
        "frequency": Quantity(slot.frequency, "Hz"),
        "plate": slot.plate,
        "face": slot.face,
        "direction": slot.direction,
        "slot_length": slot.slot_length.as_band(slot.how),
        "slot_width": slot.slot_width.as_band(slot.how),
        "slot_measured": slot.measured,
        "valve": {
            name: Quantity(value, "m")
            for name, value in zip(
                ("side_overlap", "tip_overlap", "root", "glue_land", "free_length", "width",
                 "cut_length"),
                one.sizes, strict=True,
            )
        },
        "kind": one.kind_said,
        "choice": one.stock if one.to_cut else None,
        "topper": one.topper or None,
        "choice_at_ends_of_slot": list(one.at_ends),
        "sure": one.sure,
        "margin": one.margin,
        "droop": at("gap"),
        "loss_soft": at("choke_soft"),
        "loss_quiet": at("choke_quiet"),
        "loss_loud": at("choke_loud"),
        "first_frequency": at("first_frequency"),
        "found": {name: at(name) for name in one.names},
        "helper": one.helper,
        "window": Band(one.window[0], None, one.window[1], "m", "bending length"),
        "reasons": list(one.reasons),
        "told": list(one.told),
        "runners_up": [_runner(runner) for runner in one.runners_up],
    }  # fmt: skip


def _runner(one: RunnerUp) -> dict[str, Any]:
    return {
        "stock": one.stock, "verdict": one.verdict, "margin": one.margin, "reason": one.reason,
    }  # fmt: skip
