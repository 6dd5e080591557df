"""What each key of a job file may hold, and what its value is read as.

A length is a text with its unit, "420 mm" or "16.5 in": a unit is never guessed.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any

from formulas import units
from formulas.fault import UnitFault, hint
from formulas.jobs.job import KEPT
from formulas.valves.notes import midi_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog

Reader = Callable[[Any], Any]
LONGEST_M = 3.0
PLATES = (1, 200)
LONG = (1, 24)
SESSION_S = (600.0, 86400.0)
NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._/-]{0,39}")
PLACES = re.compile(r"(\d{1,3})\s*(?:-|–|to)\s*(\d{1,3})")
SLOT = re.compile(r"\s*([\d.,]+)\s*[x×]\s*([\d.,]+)\s*([a-z]+)\s*")


class NotTaken(Exception):
    """A value that a key may not hold: what is accepted, and a hint."""

    def __init__(self, accepted: str, also: str = "") -> None:
        self.accepted, self.also = accepted, also
        super().__init__(accepted)


class PartsNotTaken(Exception):
    """Parts of a value that it may not hold, each with its text and what is accepted."""

    def __init__(self, parts: list[tuple[str, NotTaken]]) -> None:
        self.parts = parts
        super().__init__(parts)


def text(accepted: str) -> Reader:
    """Read a text that is not blank."""

    def read(value: Any) -> str:
        if not isinstance(value, str) or not value.strip():
            raise NotTaken(accepted)
        return value.strip()

    return read


def mark(accepted: str) -> Reader:
    """Read a short name: letters, digits, blanks, dots, strokes."""

    def read(value: Any) -> str:
        if not isinstance(value, str) or not NAME.fullmatch(value.strip()):
            raise NotTaken(f"{accepted}, in letters, digits and strokes")
        return value.strip()

    return read


def one_of(names: Iterable[str], accepted: str) -> Reader:
    """Read one of some names."""
    known = list(names)

    def read(value: Any) -> str:
        if value not in known:
            raise NotTaken(accepted, hint(str(value), known))
        return str(value)

    return read


def yes(value: Any) -> bool:
    """Read true or false."""
    if not isinstance(value, bool):
        raise NotTaken("true or false, without quotation marks")
    return value


def count(low: int, high: int) -> Reader:
    """Read a whole number."""

    def read(value: Any) -> int:
        if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
            raise NotTaken(f"a whole number from {low} to {high}")
        return value

    return read


def _measured(value: Any, unit: str, accepted: str, fits: Callable[[float], bool]) -> float:
    """Read a text that is a number with its unit, where the number fits."""
    try:
        found = units.read(value, unit) if isinstance(value, str) else 0.0
    except UnitFault as error:
        raise NotTaken(accepted) from error
    if not fits(found):
        raise NotTaken(accepted)
    return found


def length(value: Any) -> float:
    """Read a length in m."""
    accepted = "a length with its unit, such as '62.8 mm' or '2.5 in', up to 3 m"
    return _measured(value, "m", accepted, lambda found: 0 < found <= LONGEST_M)


def gap(value: Any) -> float:
    """Read a gap in m; none at all is one too."""
    if isinstance(value, str) and re.fullmatch(r"0([.,]0*)?\s*(mm|in)", value.strip()):
        return 0.0
    return length(value)


def session(value: Any) -> float:
    """Read a time at the bench in s."""
    accepted = "a time with its unit, from '10 min' to '24 h'"
    return _measured(value, "s", accepted, lambda found: SESSION_S[0] <= found <= SESSION_S[1])


def slot(value: Any) -> tuple[float, float]:
    """Read length and width of a slot in m: "48.0x4.80mm"."""
    accepted = "length and width of the slot, such as '48.0x4.80mm'"
    match = SLOT.fullmatch(value) if isinstance(value, str) else None
    if not match:
        raise NotTaken(accepted)
    long, wide = (length(f"{match.group(at)} {match.group(3)}") for at in (1, 2))
    if wide >= long:
        raise NotTaken(accepted)
    return long, wide


def date(value: Any) -> str:
    """Read a day, with or without quotation marks."""
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value.isoformat()
    try:
        return datetime.date.fromisoformat(value if isinstance(value, str) else "").isoformat()
    except ValueError as error:
        raise NotTaken("a day such as 2026-11-02") from error


def note(value: Any) -> str:
    """Read a note's name."""
    try:
        midi_of(value if isinstance(value, str) else "")
    except UnitFault as error:
        raise NotTaken("a note such as F2, C#4 or Bb3") from error
    return str(value)


def notes(value: Any) -> tuple[str, ...]:
    """Read the notes of a rank, upward, none twice."""
    accepted = "the notes of the plates with blanks between, upward, none twice: 'C4 D4 E4'"
    names = tuple(value.split()) if isinstance(value, str) else ()
    if not names:
        raise NotTaken(accepted)
    try:
        midis = [midi_of(name) for name in names]
    except UnitFault as error:
        raise NotTaken(f"{accepted}; '{error.found}' is no note") from error
    twice = [name for at, name in enumerate(names) if midis[at] in midis[:at]]
    if twice:
        raise NotTaken(f"{accepted}; {', '.join(twice)} stands twice")
    if midis != sorted(midis):
        raise NotTaken(accepted)
    return names


def places(value: Any) -> tuple[int, int]:
    """Read the plates of a rank that a block holds: "1-21", counted from the lowest."""
    accepted = "plates of the rank from its lowest, such as '1-21'"
    match = PLACES.fullmatch(value.strip()) if isinstance(value, str) else None
    if not match or not 1 <= int(match.group(1)) <= int(match.group(2)):
        raise NotTaken(accepted)
    return int(match.group(1)), int(match.group(2))


def kept(value: Any) -> tuple[str, ...]:
    """Read what is kept as found."""
    if not isinstance(value, list) or any(one not in KEPT for one in value):
        raise NotTaken(f"a list of {', '.join(KEPT)}")
    return tuple(one for one in KEPT if one in value)


def found_of(catalog: Catalog) -> Reader:
    """Read what the survey found, as the ids of its grades."""
    grades: dict[str, dict[str, str]] = {}
    for row in catalog.survey_grades.values():
        grades.setdefault(row.what, {})[row.id.removeprefix(f"{row.what}-")] = row.id

    def wrong_with(what: str, grade: Any) -> NotTaken | None:
        if what not in grades:
            return NotTaken(f"one of {', '.join(grades)} before the sign", hint(what, grades))
        if grade not in grades[what]:
            known = grades[what]
            return NotTaken(f"a grade of {what}: {', '.join(known)}", hint(str(grade), known))
        return None

    def read(value: Any) -> dict[str, str]:
        if not isinstance(value, dict):
            raise NotTaken('what was graded with its grade: { wax = "cracked" }')
        wrong = [
            (f"{what} = {grade}", fault)
            for what, grade in value.items()
            if (fault := wrong_with(what, grade)) is not None
        ]
        if wrong:
            raise PartsNotTaken(wrong)
        return {what: grades[what][grade] for what, grade in value.items()}

    return read


def keys_of(catalog: Catalog) -> Mapping[str, Mapping[str, Reader]]:
    """Give what each table of a job file may hold; "" is what stands before the first of them."""
    kinds = sorted({one.kind for one in catalog.valve_materials.values()})
    metals = ("aluminium", "zinc", "brass", "steel")
    instruments = {one.instrument for one in catalog.ranks}
    return {
        "": {
            "job": mark("the job's own number, never an owner's name"),
            "about": text("what kind of instrument it is, never an owner's name"),
            "layout": one_of(catalog.layouts, "an id of layouts.csv"),
            "measured": one_of(
                sorted(instruments), "the instrument of plates.csv whose plates are this one's"
            ),
            "opened": date,
            "blend": one_of(catalog.blends, "an id of blends.csv"),
            "valve_kind": one_of(kinds, f"one of {', '.join(kinds)}"),
            "glue": one_of(catalog.glues, "an id of glues.csv"),
            "reclaimed": yes,
            "session": session,
            "invented": yes,
        },
        "rank": {
            "rank": mark("a short name of the rank"),
            "name": text("the name of the rank"),
            "lowest": note,
            "plates": count(*PLATES),
            "notes": notes,
            "posture": one_of(catalog.postures, "an id of postures.csv"),
            "tongues": count(1, 2),
        },
        "block": {
            "block": mark("the mark that is written on the block"),
            "name": text("what the block is"),
            "rank": mark("a rank of this job"),
            "plates": places,
            "row": length,
            "face": length,
            "gap": gap,
            "seating": one_of(catalog.seating_methods, "an id of seating_methods.csv"),
            "long_plates": count(*LONG),
            "gasket": one_of(catalog.gasket_materials, "an id of gasket_materials.csv"),
            "metal": one_of(metals, f"one of {', '.join(metals)}"),
            "keep": kept,
            "found": found_of(catalog),
        },
        "plate": {
            "rank": mark("a rank of this job"),
            "note": note,
            "length": length,
            "width": length,
            "thickness": length,
            "slot": slot,
        },
    }
