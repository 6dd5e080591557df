"""What exercises on valves say of limits, postures and powers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.practice.bench import percent, step
from formulas.practice.exercise import Silly
from formulas.units import printed
from formulas.valves.flow import least_opening_ratio
from formulas.valves.judging import limits_here, references_of
from formulas.valves.reed_sizes import generic_size, line_of
from formulas.valves.settings import settings
from formulas.valves.strip import G

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw

GAP_KEPT = ("it keeps the limit", "it stands too far off")
OPENS = ("it opens enough", "it chokes its own note")
GRAVITY = float(printed(G, 3))
LENGTHS_MM, WIDTHS_MM = 1.0, 0.1  # on which sizes of slots are written
GAP_SAID = (
    "The gap is n L⁴ / (8 c³), where n is the share of gravity, L the free length and c the"
    " bending length."
)
RIGID_SAID = (
    f"Rigidity is m g c³, where m is the mass of a square metre, g is {GRAVITY:g} m/s² and c the"
    " bending length. With grams and millimetres it is divided by 1000000 to be in µN·m."
)
LIFT_SAID = (
    "The lift is p L⁴ / (8 D), where p is the pressure, L the free length and D the rigidity. With"
    " millimetres and µN·m it is divided by 1000 to be in mm."
)
OPENS_SAID = (
    "Each pascal opens (0.8 L + b) L⁴ / (8 D A) openings of the slot, where L is the free length, b"
    " the width, D the rigidity and A the open area. With mm, mm² and µN·m it is divided by 1000."
)
CHOKES = (3, 4, 5)
"""The places of the limits on choke among the limits of a valve."""


def third(value: float) -> str:
    """Write a number three times, as a pencil takes its third power."""
    return " × ".join([f"{value:g}"] * 3)


def fourth(value: float) -> str:
    """Write a number four times."""
    return " × ".join([f"{value:g}"] * 4)


def hanging(catalog: Catalog, draw: Draw) -> tuple[float, str]:
    """Give the share of gravity that pulls a valve off in a posture, and its sentence."""
    one = draw.one_of(list(catalog.postures.values()))
    face = draw.one_of(("inside", "outside"))
    share = one.inside if face == "inside" else one.outside
    if share <= 0:
        raise Silly
    said = f"{one.name[0].upper()}{one.name[1:]}."
    return share, f"{said} There {percent(share):g} % of gravity pulls the {face} valve off."


def reed_size(catalog: Catalog, draw: Draw, measure: str, note: float, mm: float) -> float:
    """Draw the length or the width of the slot of a note about the generic line, in mm.

    It falls on steps of so many mm, as a bench would write it.
    """
    key = f"practice: generic {measure}"
    if key not in catalog.memo:
        catalog.memo[key] = line_of(catalog, measure)
    middle = 1000 * generic_size(note, catalog.memo[key])
    size = middle * (1 + draw.ranged("valve-choice-spread") / 100)
    return float(printed(mm * float(printed(size / mm, 0)), 1))


def slot_drawn(catalog: Catalog, draw: Draw) -> tuple[float, float, float]:
    """Draw a note in Hz, and length and width of its slot in mm."""
    note = draw.ranged("valve-choice-note")
    return (
        note,
        reed_size(catalog, draw, "length", note, LENGTHS_MM),
        reed_size(catalog, draw, "width", note, WIDTHS_MM),
    )


def limits_of(catalog: Catalog, free_mm: float, period: float) -> list[float]:
    """Give every limit of a valve of this free length, in SI units."""
    held = settings(catalog)
    return limits_here(held.limits, references_of(free_mm / 1000, period, held.pressures[0], 0.0))


def gap_limit(catalog: Catalog, free_mm: float) -> float:
    """Give the gap in mm that a valve of this free length may have in playing.

    Raises Silly where a shop has set no limit.
    """
    most = 1000 * limits_of(catalog, free_mm, 0.0)[0]
    if most <= 0:
        raise Silly
    return most


def gap_limit_given(catalog: Catalog) -> dict[str, float | str | list[float]]:
    """Give its two parts by name."""
    least, share, _ = settings(catalog).limits[0]
    return {"limit_mm": 1000 * least, "limit_share": share}


def gap_limit_said(catalog: Catalog) -> str:
    """Say it."""
    least, share, _ = settings(catalog).limits[0]
    return (
        f"The gap may be {1000 * least:g} mm, or {percent(share):g} % of the free length where"
        " that is more."
    )


def gap_steps(catalog: Catalog, free_mm: float) -> list[str]:
    """Give the line that finds the limit."""
    least, share, _ = settings(catalog).limits[0]
    found = 1000 * share * free_mm / 1000
    line = step("Of its length", f"{share:g} × {free_mm:g}", found, "mm")
    most = gap_limit(catalog, free_mm)
    return [f"{line[:-1]}, so {printed(most, 2)} mm may be."] if least else [line]


def opening_asked(catalog: Catalog) -> float:
    """Give the opening for each pascal that all limits on choke together ask for.

    Raises Silly where a shop has set none.
    """
    held = settings(catalog)
    asked = [
        least_opening_ratio(pressure, held.limits[place][0])
        for pressure, place in zip(held.pressures[:3], CHOKES, strict=True)
        if 0 < held.limits[place][0] < 1
    ]
    if not asked:
        raise Silly
    return float(printed(max(asked), 4))


def opening_said(asked: float) -> str:
    """Say it."""
    return f"The limits on choke together ask for {asked:g} of them or more for each pascal."
