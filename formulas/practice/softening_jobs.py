"""Exercises of a whole job with softening: from a reading to what may be said of a warm day."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

from formulas.answer import Band
from formulas.practice.band_words import (
    FOLLOWS,
    LEAST_CLEAR,
    DrawnBand,
    band_drawn,
    degrees,
    follows,
    in_a_sum,
    method_said,
    place_of,
    service_drawn,
    signed,
    temperature,
)
from formulas.practice.bench import ends_of, fine, material, number, parts_said, short, step
from formulas.practice.exercise import WHOLE_JOB, Choice, Made, Silly, made
from formulas.practice.hot_wax import drawn_blend
from formulas.softening.chance import new_lot_band
from formulas.softening.estimate import CREEP, estimate
from formulas.softening.mixture import Z_95
from formulas.units import printed
from formulas.wax.batch import shares_of
from formulas.wax.bench_tests import boiling_at_height, corrected_reading

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw

PER_METRES = 100  # the fall of boiling water is told for so many metres


def from_a_reading(catalog: Catalog, draw: Draw) -> Made:
    """Put a drop point right that was read on a hill, and ask what it says of a warm day."""
    sea, fall = ends_of(catalog, "water-boils", "degC")[0], catalog.figure("boiling-fall").typical
    height, ice = draw.ranged("softening-band-height"), draw.ranged("softening-band-ice-off")
    off, read = draw.ranged("softening-band-boiling-off"), draw.ranged("softening-band-drop")
    if not fall or 0 in (ice, off):
        raise Silly
    water = boiling_at_height(sea, fall / PER_METRES, height)
    shown = float(printed(water + off, 1))
    true = corrected_reading(read, ice, shown, water)
    service = service_drawn(catalog, draw)
    return made(
        (
            f"A workshop lies {height:g} m above the sea. Water boils at {sea:g} °C by the sea and"
            f" {fall:g} °C lower for each {PER_METRES} m.",
            f"The thermometer shows {signed(ice)} °C in melting ice and {shown:g} °C in boiling"
            " water.",
            f"With it the drop point of a blend is read as {read:g} °C.",
            service.told,
            "At what temperature does water boil in the workshop, and what is the true drop point?",
            service.question,
        ),
        (
            degrees("Water boils at", water),
            degrees("Drop point put right", true),
            Choice("What follows", service.right, FOLLOWS),
        ),
        (
            step("Boiling", f"{sea:g} − {fall:g} × {height:g} / {PER_METRES}", water, "degC"),
            step(
                "From ice to boiling it shows", f"{shown:g} − {in_a_sum(ice)}", shown - ice,
                "delta_degC",
            ),
            step(
                "Put right",
                f"({read:g} − {in_a_sum(ice)}) / {fine(shown - ice)} × {short(water)}", true,
                "degC",
            ),
            service.why,
        ),
        {
            "variant": "from-a-reading", "sea": sea, "fall": fall, "height": height, "ice": ice,
            "boiling": shown, "drop": read, **service.given,
        },
    )  # fmt: skip


def next_lots(catalog: Catalog, draw: Draw) -> Made:
    """Widen a band of step creep for a batch from new lots, and ask what it says then."""
    wax, spread = drawn_blend(catalog, draw), ends_of(catalog, "lot-spread", "delta_degC")[1]
    creep = draw.one_of([one for one in CREEP if one in catalog.methods])
    now = band_drawn(draw, creep)
    ends = new_lot_band([now.low, now.middle, now.high], wax.shares, spread**2)
    band = DrawnBand(creep, ends[0], ends[2])
    asked = temperature(draw, band)
    right = follows(creep, band.low, band.high, asked)
    squares = sum(share**2 for share in wax.shares)
    added = Z_95**2 * spread**2 * squares
    whole = sum(wax.parts)
    return made(
        (
            f"By {method_said(catalog, creep)} a tested batch of {wax.said} is estimated at"
            f" {now.said}.",
            f"The next batch comes from new lots. A lot shifts its material by {spread:g} °C, one"
            f" standard deviation; half a band is {Z_95:g} standard deviations.",
            "The half width for the next batch is a root: square half of the band, add the square"
            " of what each lot brings by its share, take the root of it all.",
            f"What are the ends for the next batch, and what do they say of an hour at"
            f" {asked:g} °C under the own load of such a plate?",
        ),
        (
            degrees("Low end", band.low),
            degrees("High end", band.high),
            Choice("What follows", right, FOLLOWS),
        ),
        (
            step("Half now", f"({now.high:g} − {now.low:g}) / 2", now.half, "delta_degC"),
            step(
                "Squares of the shares",
                " + ".join(f"({p:g} / {whole:g}) × ({p:g} / {whole:g})" for p in wax.parts),
                squares,
            ),
            step(
                "Added by the lots",
                f"{Z_95:g} × {Z_95:g} × {spread:g} × {spread:g} × {short(squares)}",
                added,
            ),
            step(
                "Half then", f"√({short(now.half)} × {short(now.half)} + {short(added)})",
                band.half, "delta_degC",
            ),
            step("Low end", f"{now.middle:g} − {short(band.half)}", band.low, "degC"),
            step("High end", f"{now.middle:g} + {short(band.half)}", band.high, "degC"),
            f"{asked:g} °C lies {place_of(band.low, band.high, asked)}: {right}.",
        ),
        {
            "variant": "next-lots", "low": now.low, "high": now.high, "parts": list(wax.parts),
            "lot_spread": spread, "z": Z_95, "asked": asked,
        },
    )  # fmt: skip


def _untested(catalog: Catalog) -> Catalog:
    """Give the catalog without the shop's tests: what the tables alone say, and quickly."""
    key = "practice: no tests"
    if key not in catalog.memo:
        catalog.memo[key] = dataclasses.replace(catalog, softening_tests=[])
    found: Catalog = catalog.memo[key]
    return found


def tables_alone(catalog: Catalog, draw: Draw) -> Made:
    """Hold a first reading against what the tables say, and ask what is known of service."""
    blend = draw.one_of([one for one in catalog.blends.values() if len(one.parts) == 2])
    method = draw.one_of(("drop-point", "congealing-point"))
    found = estimate(_untested(catalog), shares_of(blend.parts), method)
    if not isinstance(found, Band):
        raise Silly
    wide, service = _told(found), service_drawn(catalog, draw)
    read = draw.ranged("softening-band-drop")
    away = abs(read - wide.middle)
    if away < LEAST_CLEAR:
        raise Silly
    names = [material(catalog, name) for name in blend.parts]
    parts = list(blend.parts.values())
    by = method_said(catalog, method)
    return made(
        (
            f"A blend is {parts_said(parts[0])} {names[0]} to {parts[1]:g} of {names[1]}, by mass."
            f" By {by} the tables alone put it at {wide.said}.",
            f"The first test by {by} reads {read:g} °C.",
            service.told,
            "How far does the band of the tables reach from its middle to either side?",
            "How many of those half widths does the reading lie from the middle?",
            service.question,
        ),
        (
            degrees("Half width", wide.half, "delta_degC"),
            number("Half widths from the middle", away / wide.half, "", 2, WHOLE_JOB),
            Choice("What follows", service.right, FOLLOWS),
        ),
        (
            f"Half width: ({wide.high:g} − {wide.low:g}) / 2 = {fine(wide.half)} °C.",
            f"Middle: ({wide.high:g} + {wide.low:g}) / 2 = {fine(wide.middle)} °C.",
            f"From the middle: {_apart(read, wide.middle)} = {fine(away)} °C.",
            step("In half widths", f"{fine(away)} / {fine(wide.half)}", away / wide.half),
            service.why,
        ),
        {
            "variant": "tables-alone", "parts": parts, "band": [wide.low, wide.high],
            "read": read, **service.given,
        },
    )  # fmt: skip


def _apart(read: float, middle: float) -> str:
    """Write the larger less the smaller."""
    high, low = max(read, middle), min(read, middle)
    return f"{fine(high)} − {fine(low)}"


def _told(band: Band) -> DrawnBand:
    """Give a band as the answer prints it."""
    return DrawnBand(band.method, float(printed(band.low, 1)), float(printed(band.high, 1)))
