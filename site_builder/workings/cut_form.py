"""The working of `cut`: a cut list of sizes, laid on rectangular pieces."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.cutting.blanks import rows_by_hand, side_said, strip_said
from formulas.cutting.cut import COUNTS, LENGTHS_M, PIECES_M, WIDTHS_M, cut
from formulas.cutting.pieces import pieces_said
from formulas.cutting.plan import MOST_PIECES
from formulas.cutting.rules import GAPS_M, MARGINS_M, SPARES, STEPS_M, cut_rules
from formulas.cutting.wanted import Typed
from formulas.units import convert, printed
from formulas.valves.typed import in_si
from site_builder.markup.elements import element, paragraph, table
from site_builder.workings.paper_form import BLANK_ROWS
from site_builder.workings.screen_form import answer_table, asked_table, compact_table, number_input
from site_builder.workings.valve_data import is_us, length_unit
from site_builder.workings.worksheet import BEFORE_KNIFE, Field, Worksheet

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

SIZES = 6
"""How many sizes the page asks for; the command takes any number."""
METRIC = (("38", "6.5", "24"), ("31", "6", "36"), ("24", "5", "48"))
US = (("1.5", "0.25", "24"), ("1.22", "0.23", "36"), ("0.95", "0.2", "48"))
PIECE = {"mm": ("297", "210"), "in": ("11.7", "8.3")}
ALONG = "Length: the backbone, or one way of a roll"
LIST = ("Length × width", "Wanted", "Spare", "Cut")
PLAN = ("Long strips", "From the left", "From below", "Lengths, upward")
LIMIT = (
    "It lays rectangular pieces only, and not the best way there is: a skin with its outline is"
    " laid by the command. Cut one valve of a size, and test it on its plate before the set."
)


def _length(
    catalog: Catalog,
    name: str,
    label: str,
    ends: tuple[float, float],
    default: str,
    *,
    group: str = "",
    blank: bool = False,
) -> Field:
    unit = length_unit(catalog)
    # Ends in inches are rounded inward: the page takes nothing that the command refuses.
    low = math.ceil(convert(ends[0], "m", unit) * 1000 - 1e-6) / 1000
    high = math.floor(convert(ends[1], "m", unit) * 1000 + 1e-6) / 1000
    return Field(name, label, unit, default=default, low=low, high=high, blank=blank, group=group)


def _sizes(catalog: Catalog) -> Element:
    """Draw the table of sizes: length, width and how many, a row a size."""
    unit = length_unit(catalog)
    examples = US if is_us(catalog) else METRIC
    rows = []
    for number in range(1, SIZES + 1):
        typed = examples[number - 1] if number <= len(examples) else ("", "", "")
        fields = [
            _length(catalog, "length", "length", LENGTHS_M, typed[0], blank=True),
            _length(catalog, "width", "width", WIDTHS_M, typed[1], blank=True),
            Field("count", "how many", default=typed[2], low=COUNTS[0], high=COUNTS[1], whole=True,
                  blank=True),
        ]  # fmt: skip
        cells = [_typed(number, field) for field in fields]
        rows.append(element("tr", element("th", str(number), scope="row"), *cells))
    heads = ("Size", f"Length, {unit}", f"Width, {unit}", "How many")
    note = "Length with its glue land, as it is cut. A row left blank counts not."
    return asked_table(note, heads, rows)


def _typed(number: int, field: Field) -> Element:
    made = number_input(field, name=f"{field.name}{number}", value=field.default)
    label = f"Size {number}, {field.label}"
    made.set("aria-label", label)
    made.set("data-label", label)
    return element("td", made)


def _fields(catalog: Catalog) -> list[Field]:
    def length(name: str, label: str, ends: tuple[float, float], group: str, default: str) -> Field:
        return _length(catalog, name, label, ends, default, group=group)

    piece, rule, of = "Pieces", "How it is cut", rules_shown(catalog)
    sides = PIECE[length_unit(catalog)]
    return [
        Field("sizes", "Valves", kind="drawn", group="Valves",
              draw=lambda _: _sizes(catalog)),
        length("piece_length", ALONG, PIECES_M, piece, sides[0]),
        length("piece_width", "Width", PIECES_M, piece, sides[1]),
        Field("pieces", "How many there are (blank: any)", low=1, high=MOST_PIECES, whole=True,
              blank=True, group=piece),
        Field("turn", "Direction", kind="choice", group=piece, choices=(
            ("no", "leather, or stock with a direction: never turned"),
            ("yes", "film that is the same both ways: may be turned"))),
        Field("spares", "Spare of each size", "%", default=of["spares"], low=100 * SPARES[0],
              high=100 * SPARES[1], group=rule),
        length("width_step", "Widths in steps of", STEPS_M, rule, of["width_step"]),
        length("length_step", "Lengths in steps of", STEPS_M, rule, of["length_step"]),
        length("gap", "Gap between strips", GAPS_M, rule, of["gap"]),
        length("margin", "Left along the edge", MARGINS_M, rule, of["margin"]),
    ]  # fmt: skip


def rules_shown(catalog: Catalog) -> dict[str, str]:
    """Give the rules of the shop as the fields show them, steps at least as large."""
    rules, unit = cut_rules(catalog), length_unit(catalog)
    places = 3 if unit == "in" else 2
    lengths = {
        name: printed(convert(getattr(rules, name), "m", unit), places)
        for name in ("width_step", "length_step", "gap", "margin")
    }
    return {
        "spares": f"{100 * rules.spares:g}",
        **{name: f"{float(text):g}" for name, text in lengths.items()},
    }


def metres(catalog: Catalog, text: str) -> float:
    """Give what a typed length is worth."""
    return in_si(float(text), 0.0254 if is_us(catalog) else 0.001)


def _example(catalog: Catalog) -> Answer:
    shown = rules_shown(catalog)
    sides = PIECE[length_unit(catalog)]
    rules = cut_rules(
        catalog,
        spares=float(shown["spares"]) / 100,
        **{name: metres(catalog, shown[name]) for name in shown if name != "spares"},
    )
    return cut(
        catalog,
        typed=[
            Typed(metres(catalog, long), metres(catalog, wide), int(count))
            for long, wide, count in (US if is_us(catalog) else METRIC)
        ],
        piece_m=(metres(catalog, sides[0]), metres(catalog, sides[1])),
        rules=rules,
    )


def _tables(catalog: Catalog) -> list[Element]:
    unit = length_unit(catalog)
    return [
        answer_table("list", LIST),
        compact_table("plan", [f"{head}, {unit}" for head in PLAN]),
    ]


def _data(catalog: Catalog) -> dict[str, Any]:
    rules = cut_rules(catalog)
    return {
        "us": is_us(catalog),
        "unit": length_unit(catalog),
        "metres": 0.0254 if is_us(catalog) else 0.001,
        "least": rules.least,
        "use": catalog.span("skin-used-share", "dimensionless"),
        "most": MOST_PIECES,
    }


def _worked(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the worked example by hand: spares, row by row, then the table to fill in."""
    (plan,) = answer.answer["plans"]
    us, sheets = is_us(catalog), answer.answer["sheets"]
    shown = rules_shown(catalog)
    first = plan.blanks[0]
    sides = [metres(catalog, side) for side in PIECE[length_unit(catalog)]]
    rules = [metres(catalog, shown[name]) for name in ("margin", "gap")]
    yield paragraph(
        element("strong", "Worked example."),
        f" A piece of {strip_said(sides[0], sides[1], us)}, its length along the strips."
        f" {first.count} valves of {strip_said(first.length, first.width, us)}, {shown['spares']} %"
        f" spare: {first.spares}, rounded up, one at least; {first.cut} to cut. How many stand side"
        " by side in a row: the piece less both margins, over the width and the gap, rounded down;"
        f" here ({PIECE[length_unit(catalog)][1]} − 2 × {shown['margin']}) /"
        f" ({side_said(first.width, us)} + {shown['gap']})."
        " How many rows: the count over that, rounded up.",
    )
    rows = [
        [
            strip_said(one.length, one.width, us),
            str(one.count),
            str(one.spares),
            str(one.cut),
            *(str(count) for count in rows_by_hand(one.cut, one.width, sides[1], *rules)),
        ]
        for one in plan.blanks
    ]
    heads = [*LIST, "Side by side", "Rows"]
    yield table(heads, rows, right=[1, 2, 3, 4, 5])
    cut_into = sum(sheet.cut_into for sheet in plan.sheets)
    said = pieces_said(
        len(sheets),
        [plan.sheets[0].width, plan.sheets[0].length],
        sum(len(one.strips) for one in plan.sheets),
        plan.sheets[0].lanes,
        plan.sheets[0].turned,
        answer.answer["yield"],
        cut_into,
        us,
    )
    yield paragraph(f"The command lays them on {said}. Rows of one length by hand use less.")
    yield paragraph(element("strong", "Yours."))
    yield table(heads, [[""] * len(heads) for _ in range(BLANK_ROWS)])


WORKSHEET = Worksheet(
    id="cut",
    title="Cut list and pieces",
    command="benchbinder cut --strip 38x6.5mm=24 --strip 31x6mm=36 --piece 297x210mm",
    fields=_fields,
    formulas=("strip_area", "used_share", "area_to_buy"),
    example=_example,
    rows=(
        ("long", "The same as long strips"),
        ("pieces", "Pieces"),
        ("buy", "To buy"),
    ),
    tables=_tables,
    worked=_worked,
    data=_data,
    lines=(
        "Instrument, rank, stock",
        "Arrow and smooth face marked",
        "Piece, its length and width",
        "Strips side by side, rows",
        "Cut by, on",
        "Sorted out, and why",
    ),
    limit=LIMIT,
    before=BEFORE_KNIFE,
)
