"""The valve chart of a rank: one page to pin above the bench, note by note, with its window."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from formulas.units import printed
from formulas.valves.judging import JUDGED
from formulas.valves.limit_changes import Run, sensitivity
from formulas.valves.rank import rank_of, ranks_of
from formulas.valves.valve_words import ABOUT, INCH
from formulas.valves.valves import choices
from site_builder.markup.elements import Cell, element, paragraph, table
from site_builder.texts.valves import alike, chosen_said, run_said, window_said

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valves.slot_choice import SlotChoice

HEADS = ("Note", "Cut", "Stock", "Hang")
SIGNED = ("Made for, instrument and job", "Checked against the plates by, on")
INVENTED = "Invented demo: true of no instrument."


def valve_chart(catalog: Catalog, argument: str) -> list[Element]:
    """Draw the chart of one rank of an instrument: "forty-one-key low"."""
    instrument, _, name = argument.partition(" ")
    return [_page(catalog, instrument, name.strip())]


def valve_charts(catalog: Catalog, _: str) -> list[Element]:
    """Draw the chart of every rank of the shop's instrument."""
    instrument = catalog.shop.instrument
    return [_page(catalog, instrument, one.rank) for one in ranks_of(catalog, instrument)]


def _page(catalog: Catalog, instrument: str, rank: str) -> Element:
    known = rank_of(catalog, instrument, rank)
    found = choices(catalog, instrument, rank)
    us = catalog.shop.units == "US"
    head = element("h2", f"{known.name}, {found[0].slot.sounds} to {found[-1].slot.sounds}")
    return element(
        "onepage",
        head,
        paragraph(_about(catalog, instrument, found, us)),
        _table(found, us),
        *_drawn(catalog, instrument, rank),
        *(element("formline", label=label) for label in SIGNED),
    )


def _about(catalog: Catalog, instrument: str, found: Sequence[SlotChoice], us: bool) -> str:
    measured = sum(one.slot.measured for one in found)
    unit = "in" if us else "mm"
    return (
        f"{instrument}, {catalog.shop.name}."
        f" {INVENTED + ' ' if catalog.shop.invented else ''}"
        f"{measured} of {len(found)} slots measured; ? is not sure."
        f" Cut: whole strip and width, {unit}. Hang: overhang on the ramp that a strip of this"
        f" mass should show, {unit}. Limits are settings, most from memory."
    )


def _table(found: Sequence[SlotChoice], us: bool) -> Element:
    rows = [_row(one, face, us) for one, face in alike(found)]
    half = (len(rows) + 1) // 2
    blank = [""] * len(HEADS)
    right = [*rows[half:], *[blank] * (2 * half - len(rows))]
    return table(
        [*HEADS, *HEADS], [[*one, *other] for one, other in zip(rows[:half], right, strict=True)]
    )


def _row(one: SlotChoice, face: str, us: bool) -> list[str]:
    note = one.slot.sounds if face == "both" else f"{one.slot.sounds} {face[:-4]}"
    sure = "" if one.sure or not one.to_cut else " ?"
    size = [
        printed(side / INCH, 2) if us else printed(1000 * side, 1) for side in one.sizes[6:4:-1]
    ]
    hang = window_said(one, us).removesuffix(" in" if us else " mm")
    return [note, " × ".join(size) if one.to_cut else "", chosen_said(one) + sure, hang]


def _drawn(catalog: Catalog, instrument: str, rank: str) -> list[Element]:
    from site_builder.parts.window_charts import window_chart

    return [window_chart(catalog, instrument, rank)]


def limit_sensitivity(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate what of a rank changes with each limit: a rank of the shop's instrument."""
    instrument = catalog.shop.instrument
    ranks = [one.rank for one in ranks_of(catalog, instrument)]
    if argument not in ranks:
        raise UnknownName("rank", argument, ranks)
    rows = [
        [
            ABOUT[JUDGED.index(one.limit)],
            *(_changes(runs, catalog) for runs in (one.tighter, one.wider)),
        ]
        for one in sensitivity(catalog, instrument, argument)
        if one.tighter or one.wider
    ]
    if not rows:
        return [paragraph("No limit alone changes what this rank gets.")]
    unmoved = paragraph("The limits that are not named change nothing here.")
    return [table(["Limit", "A fifth tighter", "A quarter wider"], rows), unmoved]


def _changes(runs: Sequence[Run], catalog: Catalog) -> Cell:
    """Give the changes under a limit; the id of a stock stands in one line."""
    said = "; ".join(run_said(run) for run in runs) or "nothing"
    return [
        element("span", word, **{"class": "unbroken"}) if word in catalog.valve_stock else word
        for word in re.split(r"([^ ;]+)", said)
        if word
    ]
