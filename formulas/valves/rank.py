"""The slots of a rank: every plate, both faces, measured or expected, as the valves need them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from formulas.answer import Band
from formulas.fault import UnknownName
from formulas.frozen import Frozen
from formulas.valves.measured_plates import sizes_of_rank
from formulas.valves.notes import frequency, midi_of, note_name
from formulas.valves.odd_plates import odd_plates
from formulas.valves.plate_spreads import Z_95, lines_and_spreads
from formulas.valves.plates_read import FACES, PlatesRead, Reading, plates_read
from formulas.valves.reed_sizes import MEASURES, figure_in, land_beside

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valve_entries import Posture, Rank

GENERIC, INTERPOLATED, READ = "generic line", "from the plates measured", "measured"
Sizes = dict[tuple[int, str], "Size"]


class Size(Frozen):
    """A length in metres: its middle, and the ends within which 95 of 100 lie."""

    low: float
    estimate: float
    high: float

    def as_band(self, method: str) -> Band:
        """Give it as a band of an answer."""
        return Band(self.low, self.estimate, self.high, "m", method)


class Slot(Frozen):
    """One slot of one plate; `face` is the one its valve lies on. Lengths in metres.

    What nobody measured and no rule gives is None for a length and "" for a text. `measured`
    says that this slot's own length and width were read; `how` is the method of its sizes.
    `hanging` is the share of gravity that pulls its valve off, by posture and face.
    """

    instrument: str
    rank: str
    plate: str
    sounds: str
    midi: int
    frequency: float
    face: str
    direction: str
    rivet_end: str
    slot_length: Size
    slot_width: Size
    wall: float
    edge_land: float
    cell_depth: float | None
    outside_space: float | None
    valved: str
    valve_found: str
    posture: str
    hanging: float
    measured: bool
    how: str
    basis: str

    @property
    def free_space(self) -> float | None:
        """The room over its valve: the cell's depth inside, the free space outside."""
        return self.cell_depth if self.face == "inside" else self.outside_space


class OddPlate(Frozen):
    """A plate that lies far from what its rank leads to expect; lengths in metres.

    `unlike` says that it is one slot of it which differs from the other, not from the rank;
    `face` is that slot's, or that of the only slot measured.
    """

    plate: str
    sounds: str
    face: str
    measure: str
    found: float
    expected: Size
    unlike: bool = False


def ranks_of(catalog: Catalog, instrument: str) -> list[Rank]:
    """Give the ranks of an instrument in the order of the table. Raises UnknownName."""
    found = [rank for rank in catalog.ranks if rank.instrument == instrument]
    if not found:
        raise UnknownName("instrument", instrument, {rank.instrument for rank in catalog.ranks})
    return found


def rank_of(catalog: Catalog, instrument: str, rank: str) -> Rank:
    """Give one rank of an instrument. Raises UnknownName."""
    ranks = {one.rank: one for one in ranks_of(catalog, instrument)}
    if rank not in ranks:
        raise UnknownName("rank", rank, ranks)
    return ranks[rank]


def midis_of(rank: Rank) -> list[int]:
    """Give the notes of a rank: its own, or a semitone apart upward."""
    if rank.notes:
        return [midi_of(note) for note in rank.notes]
    lowest = midi_of(rank.lowest)
    return list(range(lowest, lowest + rank.plates))


def rank_slots(catalog: Catalog, instrument: str, rank: str) -> list[Slot]:
    """Give every slot of a rank, by note and then by face, the inside valve's first.

    Sizes are those measured, else what the measured plates of the same rank lead to expect,
    else the generic line; `measured` and `how` tell which. Raises UnknownName.
    """
    memo: dict[tuple[str, str], list[Slot]] = catalog.memo.setdefault("slots of ranks", {})
    if (instrument, rank) not in memo:
        memo[instrument, rank] = _rank_slots(catalog, instrument, rank)
    return list(memo[instrument, rank])


def _rank_slots(catalog: Catalog, instrument: str, rank: str) -> list[Slot]:
    described = rank_of(catalog, instrument, rank)
    read = plates_read(catalog, described)
    sizes = {measure: _sizes(catalog, described, read, measure) for measure in MEASURES}
    return [
        _slot(catalog, described, read, midi, face, sizes)
        for midi in midis_of(described)
        for face in FACES
    ]


def _sizes(catalog: Catalog, rank: Rank, read: PlatesRead, measure: str) -> Sizes:
    """Give what was read of each slot or, where nothing was, what is to be expected."""
    line, spreads = lines_and_spreads(catalog)[measure]
    places = [(midi, face) for midi in midis_of(rank) for face in FACES]
    plates = read.by_plate(measure)
    expected = sizes_of_rank(
        [read.sounds(*place) for place in places],
        catalog.shop.pitch_of_a,
        line,
        spreads,
        [one.midi for one in plates],
        [one.size for one in plates],
    )
    error = Z_95 * spreads[5]
    found = {}
    for place, ends in zip(places, expected, strict=True):
        size = read.of_slot(measure, *place)
        found[place] = Size(size - error, size, size + error) if size else Size(*ends)
    return found


def _slot(
    catalog: Catalog,
    rank: Rank,
    read: PlatesRead,
    midi: int,
    face: str,
    sizes: dict[str, Sizes],
) -> Slot:
    plate, slot = read.plates.get(midi), read.slot(midi, face)
    measured = all(read.of_slot(measure, midi, face) for measure in MEASURES)
    learned = any(read.readings.values())
    note = read.sounds(midi, face)
    posture = catalog.postures[rank.posture]
    return Slot(
        instrument=rank.instrument,
        rank=rank.rank,
        plate=plate.plate if plate else "",
        sounds=note_name(note),
        midi=note,
        frequency=frequency(note, catalog.shop.pitch_of_a),
        face=face,
        direction=read.direction(midi, face),
        rivet_end=slot.rivet_end if slot else "",
        slot_length=sizes["length"][midi, face],
        slot_width=sizes["width"][midi, face],
        wall=read.room("wall", midi) or figure_in(catalog, "slot-wall", "m"),
        edge_land=read.room("edge_land", midi) or generic_land(catalog),
        cell_depth=read.room("cell_depth", midi),
        outside_space=read.room("outside_space", midi),
        valved=slot.valved if slot else "",
        valve_found=slot.valve_found if slot else "",
        posture=posture.id,
        hanging=hanging(posture, face),
        measured=measured,
        how=READ if measured else INTERPOLATED if learned else GENERIC,
        basis=plate.basis if plate and measured else "derived" if learned else "memory",
    )


def hanging(posture: Posture, face: str) -> float:
    """Give the share of gravity that pulls the valve of a face off its plate."""
    return posture.inside if face == "inside" else posture.outside


def generic_land(catalog: Catalog) -> float:
    """Give the metal between a slot and the long edge of its plate, in m, before it is measured."""
    beside = figure_in(catalog, "plate-beside-slots", "m")
    return land_beside(beside, figure_in(catalog, "slot-wall", "m"))


def rank_oddities(catalog: Catalog, instrument: str, rank: str) -> list[OddPlate]:
    """Give the plates of a rank that lie far from what the others lead to expect.

    They stay in every estimate, with little to say of their neighbours. Raises UnknownName.
    """
    read = plates_read(catalog, rank_of(catalog, instrument, rank))
    return [
        odd
        for measure in MEASURES
        for odd in (*_odd(catalog, read, measure), *_unlike(catalog, read, measure))
    ]


def _odd(catalog: Catalog, read: PlatesRead, measure: str) -> Iterator[OddPlate]:
    line, spreads = lines_and_spreads(catalog)[measure]
    plates = read.by_plate(measure)
    notes, sizes = [one.midi for one in plates], [one.size for one in plates]
    for place, *ends in odd_plates(catalog.shop.pitch_of_a, line, spreads, notes, sizes):
        one = plates[int(place)]
        name = note_name(one.midi)
        yield OddPlate(one.plate, name, one.face, measure, one.size, Size(*ends))


def _unlike(catalog: Catalog, read: PlatesRead, measure: str) -> Iterator[OddPlate]:
    """Give the plates whose two slots differ by more than slots of one plate do."""
    _, spreads = lines_and_spreads(catalog)[measure]
    by_plate: dict[str, list[Reading]] = {}
    for one in read.readings[measure]:
        by_plate.setdefault(one.plate, []).append(one)
    for ones in by_plate.values():
        if len(ones) == len(FACES) and ones[0].midi == ones[1].midi:
            first, second = ones
            spread = math.sqrt(2 * (spreads[3] ** 2 + (spreads[5] / first.size) ** 2))
            if abs(math.log(second.size / first.size)) > spreads[6] * spread:
                times = math.exp(Z_95 * spread)
                expected = Size(first.size / times, first.size, first.size * times)
                name = note_name(second.midi)
                yield OddPlate(
                    second.plate, name, second.face, measure, second.size, expected, unlike=True
                )
