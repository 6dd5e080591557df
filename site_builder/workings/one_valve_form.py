"""The working of one valve on one slot: `benchbinder valves --slot`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.units import convert, printed
from formulas.valves.judging import JUDGED, PERHAPS, REJECTED, SERVES, passed_of, ratios_to
from formulas.valves.one_slot import HEARD, SLOTS, measured_slot, valve
from formulas.valves.settings import settings
from formulas.valves.slot_choice import SlotChoice
from formulas.valves.slot_words import (
    DO,
    cut_words,
    found_row,
    to_do,
    verdict_words,
    window_words,
)
from formulas.valves.stock import Stock, stocks
from formulas.valves.strip import G
from formulas.valves.typed_stock import piece, typed_stock
from formulas.valves.valve_words import ABOUT
from site_builder.markup.elements import element, paragraph, table
from site_builder.workings.screen_form import compact_table
from site_builder.workings.valve_data import (
    areal_shown,
    areal_typed,
    is_us,
    length_typed,
    length_unit,
    note_choices,
    posture_choices,
)
from site_builder.workings.worksheet import BEFORE_KNIFE, Field, Worksheet

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

OWN = "own"
ROOMS = (0.0002, 0.1)
WIDTHS = (0.0002, 0.2)
OVERHANGS = (0.005, 0.4)
MASSES = (0.01, 3.0)
THICK = (0.005e-3, 4e-3)
EXAMPLE = {"length": 0.038, "width": 0.0042, "wall": 0.0025, "edge": 0.0031}
EXAMPLE_PIECE = (0.108, 0.35, 0.00055)
"""The worked example in metres and kg/m**2: overhang, mass, thickness of a piece of leather."""
SOUNDS = "48"  # C3
FACE_CHOICES = (("outside", "outside"), ("inside", "inside, in the cell"))
HEADS = ("What", "Found", "Low to high end", "Limit", "It is")
LIMIT = "It is an estimate of one strip on one slot: cut one, fit it dry, and test it by ear."


def example_stock(catalog: Catalog) -> Stock | None:
    """Give the middle one of the stocks measured, of the kind that the shop cuts, or None."""
    measured = [one for one in stocks(catalog) if one.measured and one.alone]
    usual = [one for one in measured if one.kind == catalog.shop.valve_kind] or measured
    return usual[len(usual) // 2] if usual else None


def _ends(catalog: Catalog, ends: tuple[float, float]) -> tuple[float, float]:
    low, high = (convert(one, "m", length_unit(catalog)) for one in ends)
    return float(f"{low:.3g}"), float(f"{high:.3g}")


def _areal(catalog: Catalog) -> tuple[float, float]:
    unit = "oz/yd**2" if is_us(catalog) else "g/m**2"
    low, high = (convert(one, "kg/m**2", unit) for one in MASSES)
    return float(f"{low:.2g}"), float(f"{high:.2g}")


def _fields(catalog: Catalog) -> list[Field]:
    def length(
        name: str,
        label: str,
        ends: tuple[float, float],
        group: str,
        default: float | None = None,
        *,
        blank: bool = False,
        way: str = "",
        decimals: int = 1,
    ) -> Field:
        low, high = _ends(catalog, ends)
        text = "" if default is None else length_typed(catalog, default, decimals)
        return Field(
            name, label, length_unit(catalog), default=text, low=low, high=high, blank=blank,
            way=way, group=group,
        )  # fmt: skip

    known = [(one.id, f"{one.id}: {one.name}") for one in stocks(catalog)]
    chosen = example_stock(catalog)
    low, high = _areal(catalog)
    overhang, mass, thick = EXAMPLE_PIECE
    plate, strip = "Plate and posture", "Valve stock"
    return [
        length("slot_length", "Slot length", SLOTS, "Slot", EXAMPLE["length"]),
        length("slot_width", "Slot width", WIDTHS, "Slot", EXAMPLE["width"], decimals=2),
        Field("sounds", "It sounds", kind="choice", default=SOUNDS, group="Slot",
              choices=(("", "by its frequency, below"), *note_choices())),
        Field("frequency", "Or its frequency", "Hz", low=HEARD[0], high=HEARD[1], blank=True,
              group="Slot"),
        length("wall", "Wall to the other slot", ROOMS, plate, EXAMPLE["wall"], blank=True),
        length("edge", "Metal to the long edge", ROOMS, plate, EXAMPLE["edge"], blank=True),
        length("room", "Room over the valve", ROOMS, plate, blank=True),
        Field("face", "It lies on the", kind="choice", group=plate, default="outside",
              choices=FACE_CHOICES),
        Field("posture", "In play", kind="choice", group=plate, default="upright-block",
              choices=posture_choices(catalog)),
        Field("way", "Stock", kind="choice", group=strip, default=chosen.id if chosen else OWN,
              choices=((OWN, "a piece that is in no table"), *known)),
        length("overhang", "It hangs over the ramp", OVERHANGS, strip, overhang, blank=True,
               way=OWN),
        Field("mass", "It weighs", areal_shown(catalog), default=areal_typed(catalog, mass),
              low=low, high=high, way=OWN, group=strip),
        length("thickness", "It is thick", THICK, strip, thick, blank=True, way=OWN, decimals=2),
        Field("of", "It is", kind="choice", group=strip, way=OWN,
              choices=(("leather", "leather"), ("film", "film"))),
        length("droop", "Droop of the cut valve", ROOMS, strip, blank=True),
    ]  # fmt: skip


def _example(catalog: Catalog) -> Answer:
    us, each = is_us(catalog), 0.0254 if is_us(catalog) else 0.001

    def as_typed(metres: float, decimals: int = 1) -> float:
        return float(length_typed(catalog, metres, decimals)) * each

    slot = measured_slot(
        catalog,
        as_typed(EXAMPLE["length"]),
        as_typed(EXAMPLE["width"], 2),
        "C3",
        wall=as_typed(EXAMPLE["wall"]),
        edge=as_typed(EXAMPLE["edge"]),
    )
    overhang, mass, thick = EXAMPLE_PIECE
    areal = convert(float(areal_typed(catalog, mass)), "oz/yd**2" if us else "g/m**2", "kg/m**2")
    typed = typed_stock(
        catalog, piece(catalog, "leather"), as_typed(overhang), areal, as_typed(thick, 2)
    )
    return valve(catalog, slot, typed=typed)


def verdict_code(one: SlotChoice, limits: Sequence[Sequence[float]]) -> float:
    """Give the verdict on a choice that was judged, as `judging` counts it."""
    if passed_of(ratios_to(one.found, one.limits), limits):
        return REJECTED
    return PERHAPS if passed_of(ratios_to(one.high, one.limits), limits) else SERVES


def found_rows(catalog: Catalog, one: SlotChoice) -> list[list[str]]:
    """Give the rows of what was found beside its limit; none where no stock was judged."""
    limits, us = settings(catalog).limits, is_us(catalog)
    return [
        found_row(
            ABOUT[place] if place < len(ABOUT) else name.replace("_", " "),
            place,
            one.found[place],
            one.low[place],
            one.high[place],
            one.limits[place] if place < len(JUDGED) else 0.0,
            limits[place][2] if place < len(JUDGED) else 0.0,
            us,
        )
        for place, name in enumerate(one.names)
    ]


def _worked(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the worked example by hand, then the table to fill in."""
    one: SlotChoice = answer.answer["choices"][0]
    us, unit = is_us(catalog), length_unit(catalog)
    overhang, mass, _ = EXAMPLE_PIECE
    slot = one.slot
    sides = [
        length_typed(catalog, slot.slot_length.estimate),
        length_typed(catalog, slot.slot_width.estimate, 2),
    ]
    yield paragraph(
        element("strong", "Worked example."),
        f" A slot of {sides[0]} by {sides[1]} {unit} that sounds C3, valve outside, block upright."
        f" Leather that hangs {length_typed(catalog, overhang)} {unit} over the ramp and weighs"
        f" {areal_typed(catalog, mass)} {areal_shown(catalog)}. Cut it"
        f" {cut_words(one.sizes, us)}.",
    )
    yield from _by_hand(one)
    yield table(
        ["Found", "Example", "Limit", "Yours", "Kept?"],
        [_beside(row) for row in found_rows(catalog, one)[:FIRST_ROWS]],
    )
    code = verdict_code(one, settings(catalog).limits)
    verdict = verdict_words(one.kind, "the piece", one.topper, code, one.margin)
    yield paragraph(
        f"{verdict[0].upper()}{verdict[1:]}. The window:"
        f" {window_words(one.window[0], one.window[1], one.window_mass, us)}."
    )
    yield paragraph("Then: ", DO[to_do(one.kind, code, [])])
    yield paragraph(element("strong", "Yours."))


FIRST_ROWS = 7
"""What a pencil reckons: gap, bench gap, shutting pressure, choke at three pressures, delay."""


def _beside(row: list[str]) -> list[str]:
    """Give what was found beside its limit; what passes one that only tells says so."""
    what, found, _, limit, kept = row
    told = "; told, rejects nothing" if kept == "told" else ""
    return [what, found + told, limit, "", ""]


def _by_hand(one: SlotChoice) -> Iterable[Element]:
    """Give the two lines that decide most, in millimetres, grams and pascals."""
    numbers = one.more.numbers[-1]
    free, c, mass = 1000 * one.sizes[4], 1000 * numbers[1], 1000 * numbers[0]
    hanging = one.slot.hanging
    gap = hanging * free**4 / (8 * c**3)
    rigid = numbers[0] * G * numbers[1] ** 3
    yield element(
        "ol",
        element(
            "li",
            f"Droop: {printed(hanging, 2)} × {printed(free, 1)}⁴ / (8 × {printed(c, 1)}³)"
            f" = {printed(gap, 2)} mm. Without curl that is the gap.",
        ),
        element(
            "li",
            f"Pressure that shuts it: {printed(hanging, 2)} × {printed(G, 2)} ×"
            f" {printed(mass / 1000, 3)} = {printed(one.found[2], 1)} Pa.",
        ),
        element(
            "li",
            f"Rigidity: {printed(mass / 1000, 3)} × {printed(G, 2)} × {printed(c / 1000, 4)}³ ="
            f" {printed(1e6 * rigid, 1)} millionths of a newton metre.",
        ),
    )


WORKSHEET = Worksheet(
    id="one-valve",
    title="One valve on one slot",
    command="benchbinder valves --slot 38x4.2mm --sounds C3 --bending 44mm --mass 350g/m2",
    fields=_fields,
    formulas=("free_length", "droop", "shutting_pressure", "rigidity", "opening_ratio",
              "valve_pressure", "shutting_time"),
    example=_example,
    rows=(
        ("cut", "Cut"),
        ("window", "Window"),
        ("reasons", "Why"),
        ("helper", "Helper"),
        ("stock", "This stock"),
        ("told", "Told beside"),
        ("do", "Do"),
    ),
    worked=_worked,
    tables=lambda _: [compact_table("found", HEADS)],
    lines=(
        "Instrument, plate, note, face",
        "Slot: length, width; wall, edge, room over the valve",
        "Stock; overhang, mass per area, thickness",
        "Valve cut: length and width, backbone along",
        "Droop read on the cut valve, held level at the glue line",
        "Fitted dry: gap seen in the posture of play",
        "Soft note with the valve, and with a paper strip under it",
        "Decided, by whom, date",
    ),
    limit=LIMIT,
    before=BEFORE_KNIFE,
    asks="valves",
    rule="The piece serves where each limit that rejects is kept at both ends of what is known."
    " Where the middle keeps it and an end does not, the answer is not sure: cut one, read its"
    " droop, and ask again.",
)  # fmt: skip
