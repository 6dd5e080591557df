"""Names of notes, their numbers and frequencies: what is read, what is refused, what is law."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulas.fault import UnitFault
from formulas.valves.notes import LETTERS, NAMES, cents, frequency, midi_of, name_of, note_name

WRITTEN = [
    ("C4", 60),  # middle C
    ("A4", 69),
    ("F#3", 54),
    ("Bb1", 34),
    ("B#3", 60),  # the octave changes at C, not at B
    ("Cb4", 59),
    ("C-1", 0),
    ("f3", 53),
    ("bb1", 34),
    (" F♯3 ", 54),
    ("B♭1", 34),
]


@pytest.mark.parametrize(("name", "midi"), WRITTEN)
def test_a_name_gives_its_number(name, midi):
    """Letter, sharp or flat and octave give the note, whichever way they are written."""
    assert midi_of(name) == midi


@pytest.mark.parametrize("name", ["", "F", "3F", "F#", "Fis3", "F##3", "Bbb1", "J3", "F10", "60"])
def test_what_is_no_name_is_refused(name):
    """Anything else is refused, and the fault shows how a name is written."""
    with pytest.raises(UnitFault, match="such as F3, C#4 or Bb1"):
        midi_of(name)


@pytest.mark.parametrize("name", ["H3", "h4", "Hb2"])
def test_the_german_h_is_refused_with_its_way_to_write_it(name):
    """H and the German B would be a semitone apart: the fault says how each is written here."""
    with pytest.raises(UnitFault, match="the German H is written B here, the German B is written"):
        midi_of(name)


@given(st.integers(0, 119))
def test_every_number_has_a_name_that_gives_it_back(midi):
    """Naming a note and reading its name are each other's inverse."""
    assert midi_of(note_name(midi)) == midi


@given(st.integers(0, 119))
def test_the_twelve_names_may_be_others(midi):
    """With sharps only, as some write, the notes are the same."""
    sharps = [name if len(name) == 1 else "" for name in NAMES]
    for place, name in enumerate(sharps):
        sharps[place] = name or sharps[place - 1] + "#"
    assert midi_of(name_of(midi, sharps)) == midi


@given(st.floats(0, 127), st.floats(400, 480))
def test_an_octave_doubles_the_frequency(midi, tuning):
    """Twelve semitones up is twice the frequency, whatever the tuning A."""
    assert frequency(midi + 12, tuning) == pytest.approx(2 * frequency(midi, tuning))


@given(st.floats(20, 5000), st.floats(20, 5000), st.floats(20, 5000))
def test_cents_add_up(first, second, third):
    """From one note to another and on to a third is as far as from the first to the third."""
    whole = cents(first, third)
    assert cents(first, second) + cents(second, third) == pytest.approx(whole, abs=1e-8)


def test_a_semitone_is_a_hundred_cents():
    """Neighbouring notes lie a hundred cents apart, and the letters a scale of C."""
    assert cents(frequency(60, 442), frequency(61, 442)) == pytest.approx(100)
    assert [LETTERS[letter] for letter in "CDEFGAB"] == [0, 2, 4, 5, 7, 9, 11]
