"""Notes against a music library, and against printed frequencies."""

from __future__ import annotations

import math

import pretty_midi
import pytest

from formulas.valves.notes import cents, frequency, midi_of, note_name

# Equal temperament at 440 Hz, to four decimals as librosa, music21 and pretty_midi agree on.
# Tolerance: half of the last printed digit.
PRINTED = [
    (24, 32.7032),
    (41, 87.3071),
    (60, 261.6256),
    (93, 1760.0),
    (105, 3520.0),
    (108, 4186.009),
]


@pytest.mark.parametrize(("midi", "hertz"), PRINTED)
def test_printed_frequencies_come_out(midi, hertz):
    """Frequencies as music libraries print them."""
    half = 0.0005 if midi == 108 else 0.00005  # the last of them is printed to three decimals
    assert frequency(midi, 440) == pytest.approx(hertz, abs=half)


@pytest.mark.parametrize("midi", range(128))
def test_every_note_is_the_librarys(midi):
    """Number, frequency and name are those of pretty_midi, from the lowest note to the highest."""
    assert frequency(midi, 440) == pytest.approx(pretty_midi.note_number_to_hz(midi), rel=1e-12)
    if midi < 120:
        assert pretty_midi.note_name_to_number(note_name(midi)) == midi
        assert midi_of(pretty_midi.note_number_to_name(midi)) == midi


# By definition a cent is the 1200th root of two; a reference prints it as 1.00057779.
def test_the_ratio_of_a_cent_is_the_printed_one():
    """One cent is a ratio of 1.00057779."""
    half = 5e-9 * 1200 / math.log(2)  # half of the last digit printed, in cents
    assert cents(1.0, 1.00057779) == pytest.approx(1, abs=half)
