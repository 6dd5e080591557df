"""What was read of the plates of one rank, in metres: by plate, by face, by measure."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import cached_property
from typing import TYPE_CHECKING

from formulas.frozen import Frozen
from formulas.units import convert
from formulas.valves.notes import midi_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valve_entries import MeasuredPlate, MeasuredSlot, Rank

FACES = ("inside", "outside")
OTHER = {"inside": "outside", "outside": "inside", "press": "draw", "draw": "press", "": ""}


class Reading(Frozen):
    """A size in metres that was read of one plate: of a face, or of both where `face` is ""."""

    plate: str
    face: str
    midi: int
    size: float


class PlatesRead(Frozen):
    """The plates of one rank by their note, and their slots by plate and face."""

    plates: Mapping[int, MeasuredPlate]
    slots: Mapping[tuple[str, str], MeasuredSlot]

    def slot(self, midi: int, face: str) -> MeasuredSlot | None:
        """Give the row of one slot, or None."""
        plate = self.plates.get(midi)
        return self.slots.get((plate.plate, face)) if plate else None

    def sounds(self, midi: int, face: str) -> int:
        """Give the note of a slot: its plate's, unless the slot has its own."""
        slot = self.slot(midi, face)
        return midi_of(slot.sounds) if slot and slot.sounds else midi

    def direction(self, midi: int, face: str) -> str:
        """Give the way of the bellows that a slot speaks on: not that of the plate's other one."""
        slot, other = self.slot(midi, face), self.slot(midi, OTHER[face])
        if slot and slot.direction:
            return slot.direction
        return OTHER[other.direction] if other else ""

    @cached_property
    def readings(self) -> Mapping[str, list[Reading]]:
        """Every size read, by measure."""
        return {measure: self._readings(measure) for measure in ("length", "width")}

    def _readings(self, measure: str) -> list[Reading]:
        return [
            Reading(plate.plate, face, self.sounds(midi, face), size)
            for midi, plate in sorted(self.plates.items())
            for face, size in self._read(plate, f"slot_{measure}").items()
        ]

    def _read(self, plate: MeasuredPlate, column: str) -> dict[str, float]:
        """Give the sizes read of one plate, by face; "" where both are alike."""
        by_face = {}
        for face in FACES:
            slot = self.slots.get((plate.plate, face))
            if slot and getattr(slot, column) is not None:
                by_face[face] = convert(getattr(slot, column), slot.unit or plate.unit, "m")
        alike = getattr(plate, column)
        if len(by_face) == len(FACES) or alike is None:
            return by_face
        both = convert(alike, plate.unit, "m")
        return by_face | {OTHER[face]: both for face in by_face} if by_face else {"": both}

    def of_slot(self, measure: str, midi: int, face: str) -> float | None:
        """Give what was read of one slot, or None."""
        plate = self.plates.get(midi)
        for one in self.readings[measure]:
            if plate and one.plate == plate.plate and one.face in ("", face):
                return one.size
        return None

    def by_plate(self, measure: str) -> list[Reading]:
        """Give one size a plate and note: the geometric mean of its slots where they differ."""
        found: dict[tuple[str, int], list[Reading]] = {}
        for one in self.readings[measure]:
            found.setdefault((one.plate, one.midi), []).append(one)
        return [
            Reading(plate, ones[0].face if len(ones) == 1 else "", midi, _mean(ones))
            for (plate, midi), ones in found.items()
        ]

    def room(self, column: str, midi: int) -> float | None:
        """Give a room of a plate: its own, else the lesser of its measured neighbours' two.

        Beyond the outermost plates measured nothing is known.
        """
        read = {
            note: convert(getattr(plate, column), plate.unit, "m")
            for note, plate in self.plates.items()
            if getattr(plate, column) is not None
        }
        if midi in read:
            return read[midi]
        below = [note for note in read if note < midi]
        above = [note for note in read if note > midi]
        return min(read[max(below)], read[min(above)]) if below and above else None


def plates_read(catalog: Catalog, rank: Rank) -> PlatesRead:
    """Give what the shop read of one rank."""
    plates = {
        midi_of(plate.sounds): plate
        for plate in catalog.plates
        if (plate.instrument, plate.rank) == (rank.instrument, rank.rank)
    }
    names = {plate.plate for plate in plates.values()}
    slots = {
        (slot.plate, slot.face): slot
        for slot in catalog.slots
        if slot.instrument == rank.instrument and slot.plate in names
    }
    return PlatesRead(plates, slots)


def _mean(ones: list[Reading]) -> float:
    return math.exp(sum(math.log(one.size) for one in ones) / len(ones))
