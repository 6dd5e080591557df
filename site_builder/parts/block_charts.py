"""The chart of a block: its plates in their order, true to width, numbered, with boxes to tick."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.units import printed
from site_builder.markup.elements import element, paragraph
from site_builder.parts.charts import drawing
from site_builder.parts.job_parts import at_work, seating_said
from site_builder.parts.job_work_parts import chart_table, own_page
from site_builder.parts.strokes import INK, PAPER, QUIET, arrow, block, line, words

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.jobs.job import JobBlock, JobPlate

ACROSS = 480.0  # units; a unit is a point on paper, and the text of a page is 482 wide
EDGE = 10.0
TALLEST = 110.0
HEAD, FOOT = 22.0, 26.0
TYPE, SMALLEST = 8.0, 6.0
WIDEST_LETTER = 0.62  # of the size: a digit, a note's letter and its sharp, with a little to spare
INSET, DOT, GAP = 1.5, 1.3, 0.8
TICKS = (
    "Lifted",
    "Cleaned",
    "Inside valve",
    "Signed",
    "Seated",
    "Outside valve",
    "Tested",
)
HEADS = (
    "Plate",
    "Note",
    *TICKS,
    "Plate as found",
    "Valves",
    "Wax",
    "Pitch before",
    "Pitch after",
)


def block_charts(catalog: Catalog, _: str) -> list[Element]:
    """Draw each block with its plates, and rule its chart."""
    whole = at_work(catalog)
    found = []
    for one in whole.job.blocks:
        plates = [plate for plate in whole.plates if plate.block == one.block]
        found.append(own_page(*_page(catalog, one, plates)))
    return found


def _page(catalog: Catalog, one: JobBlock, plates: Sequence[JobPlate]) -> Iterator[Element]:
    us = catalog.shop.units == "US"
    yield element("h2", f"Block {one.block}: {one.name}")
    kept = f" Kept: {', '.join(one.keep)}." if one.keep else ""
    measured = sum(plate.measured for plate in plates)
    yield paragraph(
        f"{len(plates)} plates, {plates[0].note} to {plates[-1].note}, {measured} of them measured."
        f" Seat: {seating_said(catalog, one)}.{kept} {row_said(one, plates, us)}"
    )
    svg = drawn(one, plates)
    yield element(
        "figure",
        svg,
        element("figcaption", svg.findtext("title") or ""),
        alt=svg.findtext("desc") or "",
        size="long",
    )
    rows = [[plate.mark, plate.note] for plate in plates]
    yield chart_table(f"block {one.block}", HEADS, rows, ticked=len(TICKS))


def filled_m(one: JobBlock, plates: Sequence[JobPlate]) -> float:
    """Give the length that plates and gaps take side by side; a gap nobody measured is none."""
    gaps = (one.gap_m or 0.0) * (len(plates) - 1)
    return sum(plate.width.estimate for plate in plates) + gaps


def row_said(one: JobBlock, plates: Sequence[JobPlate], us: bool) -> str:
    """Say how the plates fill the row of their block."""
    taken = length_said(filled_m(one, plates), us)
    if one.row_m is None:
        return f"Side by side the plates take {taken}; the row of the block is not measured."
    row = length_said(one.row_m, us)
    if filled_m(one, plates) > one.row_m:
        return f"The plates take {taken}, more than the row of {row}: measure them again."
    return f"The plates take {taken} of the row of {row}."


def length_said(metres: float, us: bool) -> str:
    """Give a length in whole millimetres, or in tenths of an inch."""
    return f"{printed(metres / 0.0254, 1)} in" if us else f"{printed(1000 * metres, 0)} mm"


def drawn(one: JobBlock, plates: Sequence[JobPlate]) -> Element:
    """Draw a block from above: its plates as wide and as long as they are, lowest note left."""
    longest = max(plate.length.estimate for plate in plates)
    row = max(one.row_m or 0.0, filled_m(one, plates))
    face = max(one.face_m or 0.0, longest)
    unit = min((ACROSS - 2 * EDGE) / row, TALLEST / face)
    foot = HEAD + unit * face
    noted, size = letters(plates, unit)
    marks = [block(EDGE - 4, HEAD - 4, EDGE + unit * row + 4, foot + 4)]
    left = EDGE + unit * (row - filled_m(one, plates)) / 2
    for plate in plates:
        wide, long = unit * plate.width.estimate, unit * plate.length.estimate
        top = HEAD + (foot - HEAD - long) / 2
        marks.append(_plate(plate, (left, top), (wide, long), _label(plate, noted), size))
        left += wide + unit * (one.gap_m or 0.0)
    told = "Lowest note, plate 01, at this end"
    marks += [words((EDGE + 20, 12), told), arrow((EDGE + 16, 8), (EDGE, 8))]
    height = foot + FOOT
    ruler = 0.05 * unit
    marks += [
        line((EDGE, foot + 12), (EDGE + ruler, foot + 12)),
        line((EDGE, foot + 8), (EDGE, foot + 16)),
        line((EDGE + ruler, foot + 8), (EDGE + ruler, foot + 16)),
        words((EDGE + ruler + 6, foot + 16), "50 mm. ● measured; the others as expected."),
    ]
    title = f"Block {one.block}, {plates[0].note} to {plates[-1].note}, its plates in order"
    said = ", ".join(f"{plate.position} {plate.note}" for plate in plates)
    return drawing(title, f"{title}: {said}.", *marks, size=f"0 0 {ACROSS:g} {height:.1f}")


def _plate(
    plate: JobPlate, place: tuple[float, float], sides: tuple[float, float], label: str, size: float
) -> Element:
    (left, top), (wide, long) = place, sides
    middle, foot = left + wide / 2, top + long
    at = f"{printed(middle + 0.35 * size, 2)} {printed(foot - INSET, 2)}"
    turned = element(
        "text",
        label,
        fill=INK,
        transform=f"translate({at}) rotate(-90)",
        **{"font-size": printed(size, 2)},
    )
    shape = element(
        "rect",
        x=printed(left, 2),
        y=printed(top, 2),
        width=printed(wide, 2),
        height=printed(long, 2),
        fill=PAPER,
        stroke=INK if plate.measured else QUIET,
        **{"stroke-width": "0.8"},
    )
    if not plate.measured:
        return element("g", shape, turned)
    dot = element(
        "circle",
        cx=printed(middle, 2),
        cy=printed(top + INSET + DOT, 2),
        r=printed(DOT, 2),
        fill=INK,
    )
    return element("g", shape, turned, dot)


def letters(plates: Sequence[JobPlate], unit: float) -> tuple[bool, float]:
    """Tell whether the notes have room on the plates beside the numbers, and how large both are.

    All plates of a block are written alike: the smallest sets the size. The dot of a measured
    plate has its place at its upper end.
    """
    tallest = min(TYPE, *(0.9 * unit * plate.width.estimate for plate in plates))
    for noted in (True, False):
        size = min(
            tallest,
            *(_room(one, unit) / (WIDEST_LETTER * len(_label(one, noted))) for one in plates),
        )
        if size >= SMALLEST:
            return noted, size
    return False, size


def _room(plate: JobPlate, unit: float) -> float:
    dot = 2 * DOT + GAP if plate.measured else 0.0
    return unit * plate.length.estimate - 2 * INSET - dot


def _label(plate: JobPlate, noted: bool) -> str:
    return f"{plate.position:02d} {plate.note}" if noted else f"{plate.position:02d}"
