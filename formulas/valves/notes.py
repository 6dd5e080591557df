"""Note names, MIDI numbers and frequencies: letter, sharp or flat, octave; C4 is middle C.

B is the note a semitone below C. What German books call H is written B here, their B is Bb.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import Annotated

from formulas.fault import UnitFault
from formulas.formula import Q, formula, procedure

LETTERS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
SHIFTS = {"": 0, "#": 1, "♯": 1, "b": -1, "♭": -1}
NAMES = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")
WRITTEN = re.compile(r"([A-Ga-g])([#♯b♭]?)(-?\d)")
ACCEPTED = "a note such as F3, C#4 or Bb1 (C4 is middle C)"
GERMAN = "; the German H is written B here, the German B is written Bb"


@formula("Frequency of a note", symbol="f", unit="Hz", source="definition")
def frequency(
    n: Annotated[float, Q("", "number of the note, a semitone each, 69 for the tuning A")],
    A: Annotated[float, Q("Hz", "pitch of the tuning A")],
) -> float:
    """Give the frequency in equal temperament; a tuned reed lies a few cents to either side."""
    return A * 2 ** ((n - 69) / 12)


@formula("Interval in cents", symbol="i", unit="cent", source="definition")
def cents(
    f_1: Annotated[float, Q("Hz", "the frequency measured from")],
    f_2: Annotated[float, Q("Hz", "the frequency measured")],
) -> float:
    """Give how far the second lies above the first; a hundred are one semitone."""
    return 1200 * math.log(f_2 / f_1) / math.log(2)


@procedure("Name of a note")
def name_of(midi: int, note_names: Sequence[str]) -> str:
    """Give the name of a whole MIDI number from the twelve names of an octave, C first."""
    octave = math.floor(midi / 12)
    return note_names[midi - 12 * octave] + str(octave - 1)


def note_name(midi: int) -> str:
    """Name a MIDI number as the trade's tables do.

    >>> note_name(54), note_name(34), note_name(60)
    ('F#3', 'Bb1', 'C4')
    """
    return name_of(midi, NAMES)


def midi_of(name: str) -> int:
    """Give the MIDI number of a note name.

    >>> midi_of("F#3"), midi_of("Bb1"), midi_of("b3"), midi_of("Cb4")
    (54, 34, 59, 59)

    Raises UnitFault for anything else; for the German H it says how to write it.
    """
    found = WRITTEN.fullmatch(name.strip())
    if not found:
        german = GERMAN if name.strip()[:1] in ("H", "h") else ""
        raise UnitFault(name, ACCEPTED + german)
    letter, shift, octave = found.groups()
    return LETTERS[letter.upper()] + SHIFTS[shift] + 12 * (int(octave) + 1)
