"""One slot that was measured, and what it gets: also from the droop of a valve that is cut."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from math import floor, log2
from typing import TYPE_CHECKING

from formulas.answer import Answer
from formulas.fault import OutOfRange, UnknownName
from formulas.units import printed, read
from formulas.valves.at_hand import at_hand, considered
from formulas.valves.blank import valve_sizes
from formulas.valves.choosing import choose
from formulas.valves.notes import frequency, midi_of, note_name
from formulas.valves.rank import READ, Size, Slot
from formulas.valves.settings import settings
from formulas.valves.strip import bending_length_by_droop
from formulas.valves.typed_stock import with_typed
from formulas.valves.valves import answered

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valves.stock import Stock

BENCH = "reeds of instruments"
READING = "what a rule can read, and straight-line bending"
SLOTS = (0.004, 0.2)
"""Shortest and longest slot that is answered, in metres."""
HEARD = (16.0, 5000.0)
"""Lowest and highest note that is answered, in Hz."""


def measured_slot(
    catalog: Catalog,
    length: float,
    width: float,
    sounds: str,
    *,
    face: str = "outside",
    posture: str = "upright-block",
    wall: float | None = None,
    edge: float | None = None,
    room: float | None = None,
) -> Slot:
    """Give a slot from its own measures in metres; a room that is None is not known.

    Raises OutOfRange for a size that no reed has, UnknownName for a posture that is not there,
    UnitFault for a note that is none.
    """
    if not SLOTS[0] <= length <= SLOTS[1]:
        raise OutOfRange("slot length in mm", 1000 * length, "4 to 200", BENCH)
    if not 0.0002 <= width <= length:
        raise OutOfRange("slot width in mm", 1000 * width, "0.2 up to the length", BENCH)
    if posture not in catalog.postures:
        raise UnknownName("posture", posture, catalog.postures)
    held = catalog.postures[posture]
    midi, hertz = _heard(catalog, sounds)
    return Slot(
        instrument="",
        rank="",
        plate="",
        sounds=note_name(midi) if sounds.strip().lower().endswith("hz") else sounds.strip(),
        midi=midi,
        frequency=hertz,
        face=face,
        direction="",
        rivet_end="",
        slot_length=Size(length, length, length),
        slot_width=Size(width, width, width),
        wall=wall or 0.0,
        edge_land=edge or 0.0,
        cell_depth=room if face == "inside" else None,
        outside_space=room if face == "outside" else None,
        valved="",
        valve_found="",
        posture=posture,
        hanging=held.inside if face == "inside" else held.outside,
        measured=True,
        how=READ,
        basis="measured",
    )


def _heard(catalog: Catalog, sounds: str) -> tuple[int, float]:
    """Give number and frequency of a note, or of a frequency such as 131 Hz."""
    pitch = catalog.shop.pitch_of_a
    if not sounds.strip().lower().endswith("hz"):
        return midi_of(sounds), frequency(midi_of(sounds), pitch)
    hertz = read(sounds, "Hz")
    if not HEARD[0] <= hertz <= HEARD[1]:
        raise OutOfRange("frequency in Hz", hertz, f"{HEARD[0]:g} to {HEARD[1]:g}", BENCH)
    return floor(69 + 12 * log2(hertz / pitch) + 0.5), hertz


def valve(
    catalog: Catalog,
    slot: Slot,
    *,
    kind: str = "",
    only: Sequence[str] = (),
    droop: float | None = None,
    typed: Stock | None = None,
) -> Answer:
    """Answer for one slot; both slots of its plate are taken to be alike.

    `typed` is a piece that stands in no table, in the place of all stocks but films over it.

    `droop` is the tip of the cut valve below the level of its glue line, in metres: with it each
    stock named bends as that valve does, whatever the ramp said.
    """
    stocks = [typed] if typed else considered(catalog, kind, only)
    from_these = with_typed(at_hand(catalog, [] if typed else stocks), [typed] if typed else [])
    if droop is not None:
        from_these = [(drooped(catalog, slot, one, droop), True) for one in stocks]
    found = [choose(catalog, slot, slot, from_these)]
    inputs = {
        "slot": [slot.slot_length.estimate, slot.slot_width.estimate],
        "sounds": slot.sounds,
        "face": slot.face,
        "posture": slot.posture,
        "kind": kind,
        "droop": droop,
    }
    return answered(catalog, found, inputs)


def drooped(catalog: Catalog, slot: Slot, stock: Stock, droop: float) -> Stock:
    """Give a stock with the bending length that a cut valve's own droop tells.

    The band is that of the reading, by the figure `droop-reading`; the curl is in the reading.
    Raises OutOfRange where the droop is too small to be told from the reading's error, or more
    than a quarter of the length, where straight-line bending misleads.
    """
    sizes = valve_sizes(
        slot.slot_length.estimate,
        slot.slot_width.estimate,
        slot.wall,
        slot.edge_land,
        settings(catalog).rules,
    )
    (error, _) = catalog.span("droop-reading", "m")
    most = settings(catalog).told[0] * sizes[4]
    if not 2 * error <= droop <= most:
        accepted = f"{printed(2000 * error, 1)} to {printed(1000 * most, 1)}"
        raise OutOfRange("droop in mm", 1000 * droop, accepted, READING)
    low, middle, high = (
        bending_length_by_droop(1, sizes[4], one) for one in (droop + error, droop, droop - error)
    )
    return dataclasses.replace(
        stock, bending_length=(low, middle, high), curvature=0.0, measured=True
    )
