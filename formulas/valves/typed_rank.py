"""A rank as it is typed: its lowest note, its plates, and what was measured of a few of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from formulas.fault import OutOfRange, UnknownName
from formulas.valves.at_hand import at_hand, considered
from formulas.valves.choosing import choose
from formulas.valves.measured_plates import sizes_of_rank
from formulas.valves.notes import frequency, midi_of, note_name
from formulas.valves.plate_spreads import Z_95, lines_and_spreads
from formulas.valves.plates_read import FACES
from formulas.valves.rank import (
    GENERIC,
    INTERPOLATED,
    READ,
    Size,
    Slot,
    generic_land,
    hanging,
)
from formulas.valves.reed_sizes import MEASURES, figure_in
from formulas.valves.slot_choice import SlotChoice
from formulas.valves.valves import answered

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog
    from formulas.valves.stock import Stock

PLATES = (1, 61)
PITCHES = (400.0, 480.0)
LOWEST, HIGHEST = 21, 108  # A0 and C8
BENCH = "reeds of instruments"
Plates = Mapping[str, tuple[float, float]]


def typed_slots(
    catalog: Catalog, lowest: str, count: int, pitch: float, posture: str, plates: Plates
) -> list[Slot]:
    """Give both slots of each plate. `plates` are length and width in m by note.

    What is not typed comes from them and the generic line, as for a rank of the book; no room
    over a valve is known. Raises OutOfRange, UnknownName, UnitFault.
    """
    first = midi_of(lowest)
    if not PLATES[0] <= count <= PLATES[1]:
        raise OutOfRange("plates", count, f"{PLATES[0]} to {PLATES[1]}", BENCH)
    if not (first >= LOWEST and first + count - 1 <= HIGHEST):
        raise OutOfRange("lowest note", first, "A0 up, the highest no higher than C8", BENCH)
    if not PITCHES[0] <= pitch <= PITCHES[1]:
        raise OutOfRange("pitch of A in Hz", pitch, "400 to 480", BENCH)
    if posture not in catalog.postures:
        raise UnknownName("posture", posture, catalog.postures)
    midis = list(range(first, first + count))
    read = {midi_of(note): size for note, size in plates.items()}
    sizes = [_sizes(catalog, midis, pitch, read, place) for place in range(2)]
    return [
        _slot(catalog, midi, face, pitch, posture, read, (sizes[0][place], sizes[1][place]))
        for place, midi in enumerate(midis)
        for face in FACES
    ]


def _sizes(
    catalog: Catalog,
    midis: Sequence[int],
    pitch: float,
    read: Mapping[int, tuple[float, float]],
    place: int,
) -> list[Size]:
    line, spreads = lines_and_spreads(catalog)[MEASURES[place]]
    notes = [float(midi) for midi in midis]
    measured = [(float(midi), size[place]) for midi, size in read.items()]
    expected = sizes_of_rank(
        notes, pitch, line, spreads, [one for one, _ in measured], [one for _, one in measured]
    )
    error = Z_95 * spreads[5]
    return [
        Size(read[midi][place] - error, read[midi][place], read[midi][place] + error)
        if midi in read
        else Size(*ends)
        for midi, ends in zip(midis, expected, strict=True)
    ]


def _slot(
    catalog: Catalog,
    midi: int,
    face: str,
    pitch: float,
    posture: str,
    read: Mapping[int, tuple[float, float]],
    sizes: tuple[Size, Size],
) -> Slot:
    measured = midi in read
    return Slot(
        instrument="",
        rank="",
        plate="",
        sounds=note_name(midi),
        midi=midi,
        frequency=frequency(midi, pitch),
        face=face,
        direction="",
        rivet_end="",
        slot_length=sizes[0],
        slot_width=sizes[1],
        wall=figure_in(catalog, "slot-wall", "m"),
        edge_land=generic_land(catalog),
        cell_depth=None,
        outside_space=None,
        valved="",
        valve_found="",
        posture=posture,
        hanging=hanging(catalog.postures[posture], face),
        measured=measured,
        how=READ if measured else INTERPOLATED if read else GENERIC,
        basis="measured" if measured else "derived" if read else "memory",
    )


def typed_choices(
    catalog: Catalog, slots: Sequence[Slot], from_these: Sequence[tuple[Stock, bool]]
) -> list[SlotChoice]:
    """Give the choice for each slot of a typed rank."""
    pairs = zip(slots[::2], slots[1::2], strict=True)
    return [
        choose(catalog, slot, partner, from_these)
        for inside, outside in pairs
        for slot, partner in ((inside, outside), (outside, inside))
    ]


def typed_rank(
    catalog: Catalog,
    lowest: str,
    count: int,
    *,
    pitch: float = 0.0,
    posture: str = "upright-block",
    plates: Plates | None = None,
    kind: str = "",
    only: Sequence[str] = (),
    typed: Sequence[Stock] = (),
) -> Answer:
    """Answer for a rank that is typed. A pitch of nought is the shop's.

    Raises as `typed_slots` and `valves.considered` do.
    """
    from formulas.valves.typed_stock import with_typed

    pitch = pitch or catalog.shop.pitch_of_a
    slots = typed_slots(catalog, lowest, count, pitch, posture, plates or {})
    from_these = with_typed(at_hand(catalog, considered(catalog, kind, only)), typed)
    inputs = {
        "instrument": "as typed",
        "rank": f"{count} plates from {lowest}",
        "note": "",
        "pitch": pitch,
        "posture": posture,
        "plates": {note: list(size) for note, size in (plates or {}).items()},
        "kind": kind,
    }
    return answered(catalog, typed_choices(catalog, slots, from_these), inputs)
