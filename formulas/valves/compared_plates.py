"""Which plates to measure first, what that gains, and what was read against what was expected."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from formulas.formula import procedure
from formulas.frozen import Frozen
from formulas.valves.measured_plates import sizes_of_rank
from formulas.valves.notes import frequency, note_name
from formulas.valves.odd_plates import expected_by_others, odd_plates
from formulas.valves.plate_spreads import lines_and_spreads
from formulas.valves.plates_read import plates_read
from formulas.valves.rank import Size, midis_of, rank_of
from formulas.valves.reed_sizes import (
    MEASURES,
    figure_in,
    generic_size,
    plate_length,
    plate_width,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valve_entries import Rank


class ComparedPlate(Frozen):
    """A size that was read, and what the other plates of its rank lead to expect; metres."""

    plate: str
    sounds: str
    face: str
    measure: str
    found: float
    expected: Size
    odd: bool


@procedure("Places spread evenly over a rank")
def spread_places(count: int, plates: int) -> list[int]:
    """Give so many places from the lowest plate, 0, to the highest; one alone is in the middle."""
    if count == 1:
        return [math.floor((plates - 1) / 2)]
    return [math.floor(place * (plates - 1) / (count - 1) + 0.5) for place in range(count)]


@procedure("How many plates of a rank to measure first")
def first_count(plates: int, reach: float) -> int:
    """Give the lowest, the highest and as many between that none is much farther than the reach."""
    return 1 + max(1, math.floor((plates - 1) / reach)) if plates > 1 else 1


def to_measure_first(catalog: Catalog, rank: Rank) -> list[int]:
    """Give the notes of the plates of a rank that are worth measuring first."""
    midis = midis_of(rank)
    reach = figure_in(catalog, "plate-reach", "semitone")
    count = first_count(len(midis), reach)
    return [midis[place] for place in spread_places(count, len(midis))]


def expected_of_note(catalog: Catalog, midi: int, measure: str) -> Size:
    """Give what the generic line says of a slot of a note."""
    line, spreads = lines_and_spreads(catalog)[measure]
    pitch = catalog.shop.pitch_of_a
    return Size(*sizes_of_rank([midi], pitch, line, spreads, [], [])[0])


def plate_of_note(catalog: Catalog, midi: int) -> tuple[float, float]:
    """Give length and width of the plate of a note by the generic rules, in m."""
    pitch = frequency(midi, catalog.shop.pitch_of_a)
    lines = {measure: line for measure, (line, _) in lines_and_spreads(catalog).items()}
    tongue = generic_size(pitch, lines["length"]) - lines["length"][3]
    share = figure_in(catalog, "plate-length-share", "dimensionless")
    long = plate_length(tongue, share, figure_in(catalog, "plate-length-more", "m"))
    beside = figure_in(catalog, "plate-beside-slots", "m")
    return long, plate_width(generic_size(pitch, lines["width"]), beside)


def share_left(catalog: Catalog, rank: Rank, count: int, measure: str) -> float:
    """Give the widest band of a rank, as a share either way, after so many plates were measured.

    They are spread evenly and lie on the generic line; the plates measured themselves are left
    out, unless every plate is measured.
    """
    line, spreads = lines_and_spreads(catalog)[measure]
    pitch, midis = catalog.shop.pitch_of_a, midis_of(rank)
    notes = [midis[place] for place in spread_places(count, len(midis))] if count else []
    sizes = [generic_size(frequency(note, pitch), line) for note in notes]
    others = [midi for midi in midis if midi not in notes] or midis
    bands = sizes_of_rank(others, pitch, line, spreads, notes, sizes)
    return max(math.sqrt(high / low) for low, _, high in bands) - 1


def compared(catalog: Catalog, instrument: str, rank: str) -> list[ComparedPlate]:
    """Give every plate of a rank that was measured, against what the others lead to expect.

    A good plate stands against the other good ones, so that an odd one does not blur what they
    say; a single one stands against the generic line. Raises UnknownName.
    """
    read = plates_read(catalog, rank_of(catalog, instrument, rank))
    found = []
    for measure in MEASURES:
        line, spreads = lines_and_spreads(catalog)[measure]
        plates, pitch = read.by_plate(measure), catalog.shop.pitch_of_a
        notes, sizes = [one.midi for one in plates], [one.size for one in plates]
        bands = {
            int(place): ends for place, *ends in odd_plates(pitch, line, spreads, notes, sizes)
        }
        odd = set(bands)
        good = [place for place in range(len(plates)) if place not in odd]
        by_good = expected_by_others(
            pitch, line, spreads, [notes[place] for place in good], [sizes[place] for place in good]
        )
        bands |= {place: band[:3] for place, band in zip(good, by_good, strict=True)}
        found += [
            ComparedPlate(
                one.plate, note_name(one.midi), one.face, measure, one.size,
                Size(*bands[place]), place in odd,
            )
            for place, one in enumerate(plates)
        ]  # fmt: skip
    return found
