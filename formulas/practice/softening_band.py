"""Exercises on softening bands: what an estimate says, and what it does not.

Methods never mix, and only step creep speaks of service: that is what most of these train.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from formulas.practice.band_words import (
    CANNOT_TELL,
    FIRMER,
    FOLLOWS,
    PLACES,
    DrawnBand,
    band_drawn,
    degrees,
    firmer_of,
    follows,
    in_a_sum,
    method_said,
    methods_of,
    place_of,
    quadrature,
    service_drawn,
    signed,
    telling_share,
    temperature,
)
from formulas.practice.bench import ends_of, finished, short, step
from formulas.practice.exercise import ONE_STEP, SOME_STEPS, WHOLE_JOB, Choice, Made, Silly, made
from formulas.practice.softening_jobs import from_a_reading, next_lots, tables_alone
from formulas.softening.chance import verdict_of
from formulas.softening.estimate import CREEP
from formulas.wax.bench_tests import corrected_reading

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw


def exercise(catalog: Catalog, grade: int, draw: Draw) -> Made:
    """Make an exercise on reading a softening band."""
    return finished(draw.in_turn([partial(task, catalog) for task in VARIANTS[grade]]))


def _half_width(catalog: Catalog, draw: Draw) -> Made:
    band = band_drawn(draw, draw.one_of(methods_of(catalog)))
    return made(
        (
            f"The estimate of a blend by {method_said(catalog, band.method)} is {band.said}.",
            "How far does the band reach from its middle to either side?",
        ),
        (degrees("Half width", band.half, "delta_degC"),),
        (step("Half width", f"({band.high:g} − {band.low:g}) / 2", band.half, "delta_degC"),),
        {"variant": "half-width", "low": band.low, "high": band.high},
    )


def _put_right(catalog: Catalog, draw: Draw) -> Made:
    read, ice, boiling, water = _thermometer(catalog, draw)
    true = corrected_reading(read, ice, boiling, water)
    if abs(true - read) < 0.3:
        raise Silly
    return made(
        (
            f"A thermometer shows {signed(ice)} °C in melting ice and {boiling:g} °C in boiling"
            f" water, which really has {water:g} °C on that day.",
            f"In a test it shows {read:g} °C. Its scale is even between ice and boiling water.",
            "What is the true temperature?",
        ),
        (degrees("Reading put right", true),),
        (
            step(
                "Put right",
                f"({read:g} − {in_a_sum(ice)}) / ({boiling:g} − {in_a_sum(ice)}) × {water:g}",
                true,
                "degC",
            ),
        ),
        {"variant": "put-right", "read": read, "ice": ice, "boiling": boiling, "water": water},
    )


def _thermometer(catalog: Catalog, draw: Draw) -> tuple[float, float, float, float]:
    """Give a reading, those in ice and in boiling water, and what boiling water has."""
    water = ends_of(catalog, "water-boils", "degC")[0]
    off, over = draw.ranged("softening-band-ice-off"), draw.ranged("softening-band-boiling-off")
    if off == 0 or over == 0:
        raise Silly
    return draw.ranged("softening-band-reading"), off, water + over, water


def _what_follows(catalog: Catalog, draw: Draw) -> Made:
    band = band_drawn(draw, draw.one_of(methods_of(catalog)))
    asked = temperature(draw, band)
    right = follows(band.method, band.low, band.high, asked)
    name = method_said(catalog, band.method)
    why = f"{name} is no service temperature, whatever the band"
    if band.method in CREEP:
        why = f"{asked:g} °C lies {place_of(band.low, band.high, asked)}, {band.said}"
    return made(
        (
            f"By this shop's tests the estimate of a blend by {name} is {band.said}.",
            f"Somebody says that a plate bedded in it holds for an hour at {asked:g} °C.",
            "What does the estimate say to that?",
        ),
        (Choice("What follows", right, FOLLOWS),),
        (f"{why[0].upper()}{why[1:]}: {right}.",),
        {
            "variant": "what-follows",
            "method": band.method,
            "low": band.low,
            "high": band.high,
            "asked": asked,
        },
    )


def _two_bands(catalog: Catalog, draw: Draw) -> Made:
    methods = methods_of(catalog)
    first, second = (band_drawn(draw, draw.one_of(methods)) for _ in range(2))
    if draw.whole(0, 1):
        second = DrawnBand(first.method, second.low, second.high)
    alike = first.method == second.method
    apart = abs(first.middle - second.middle)
    if alike and not (first.high < second.low or second.high < first.low):
        raise Silly
    if alike and apart < 2 * quadrature(first.half, second.half) * telling_share():
        raise Silly
    right = firmer_of(first, second) if alike else CANNOT_TELL
    why = "one method, and the bands do not meet" if alike else "two methods are not compared"
    return made(
        (
            f"By this shop's tests blend A is estimated at {first.said} by"
            f" {method_said(catalog, first.method)}.",
            f"By them blend B is estimated at {second.said} by"
            f" {method_said(catalog, second.method)}.",
            "Which of the two is the firmer?",
        ),
        (Choice("The firmer", right, FIRMER),),
        (f"{why[0].upper()}{why[1:]}: {right}.",),
        {
            "variant": "two-bands",
            "methods": f"{first.method} {second.method}",
            "first": [first.low, first.high],
            "second": [second.low, second.high],
        },
    )


def _words_of_it(_catalog: Catalog, draw: Draw) -> Made:
    chance = draw.ranged("softening-band-chance")
    right = verdict_of(chance / 100)
    if any(verdict_of(chance / 100 + off) != right for off in (-0.05, 0.05)):
        raise Silly
    words = ("firmer", "softer", CANNOT_TELL)
    return made(
        (
            f"By this shop's tests blend A softens above blend B with a chance of {chance:g} %.",
            "The book says firmer or softer only where four in five would say so.",
            "What does it say of A?",
        ),
        (Choice("What the book says of A", right, words),),
        (f"{chance:g} % that it is firmer, {100 - chance:g} % that it is softer: {right}.",),
        {"variant": "words-of-it", "chance": chance},
    )


def _firmer(catalog: Catalog, draw: Draw) -> Made:
    method = draw.one_of(methods_of(catalog))
    first, second = band_drawn(draw, method), band_drawn(draw, method)
    apart = first.middle - second.middle
    both = quadrature(first.half, second.half)
    share, telling = abs(apart) / both, telling_share()
    if abs(share - telling) < 0.15 * telling or apart == 0:
        raise Silly
    right = firmer_of(first, second)
    return made(
        (
            f"By this shop's tests with {method_said(catalog, method)} blend A is estimated at"
            f" {first.middle:g} °C, give or take {first.half:g} °C, and blend B at"
            f" {second.middle:g} °C, give or take {second.half:g} °C.",
            "The two errors have nothing to do with one another. So the half width of the"
            " difference is found thus: square both half widths, add them, take the root.",
            f"Where the middles lie {short(telling)} of that half width apart or more, four in"
            " five would call one the firmer; nearer together the book says that nobody can"
            " tell.",
            "What is the half width of the difference, and which is the firmer?",
        ),
        (
            degrees("Half width of the difference", both, "delta_degC"),
            Choice("The firmer", right, FIRMER),
        ),
        (
            step(
                "Half width",
                f"√({first.half:g} × {first.half:g} + {second.half:g} × {second.half:g})",
                both,
                "delta_degC",
            ),
            step("Called from", f"{short(both)} × {short(telling)}", both * telling, "delta_degC"),
            f"The middles are {short(abs(apart))} °C apart: {right}.",
        ),
        {
            "variant": "firmer",
            "first": [first.middle, first.half],
            "second": [second.middle, second.half],
        },
    )


def _drop_and_service(catalog: Catalog, draw: Draw) -> Made:
    read, ice, boiling, water = _thermometer(catalog, draw)
    true = corrected_reading(read, ice, boiling, water)
    service = service_drawn(catalog, draw)
    if abs(true - read) < 0.3:
        raise Silly
    return made(
        (
            f"In a drop point test of a blend the thermometer shows {read:g} °C. It shows"
            f" {signed(ice)} °C in melting ice and {boiling:g} °C in water that boils at"
            f" {water:g} °C.",
            service.told,
            "What is the true drop point?",
            service.question,
        ),
        (
            degrees("Drop point put right", true),
            Choice("What follows", service.right, FOLLOWS),
        ),
        (
            step(
                "Put right",
                f"({read:g} − {in_a_sum(ice)}) / ({boiling:g} − {in_a_sum(ice)}) × {water:g}",
                true,
                "degC",
            ),
            service.why,
        ),
        {
            "variant": "drop-and-service", "read": read, "ice": ice, "boiling": boiling,
            "water": water, **service.given,
        },
    )  # fmt: skip


def _reading_and_band(catalog: Catalog, draw: Draw) -> Made:
    read, ice, boiling, water = _thermometer(catalog, draw)
    true = corrected_reading(read, ice, boiling, water)
    method = draw.one_of([one for one in methods_of(catalog) if one not in CREEP])
    band = band_drawn(draw, method)
    right = place_of(band.low, band.high, true)
    if min(abs(true - band.low), abs(true - band.high)) < 0.6:
        raise Silly
    return made(
        (
            f"By {method_said(catalog, method)} a blend is estimated at {band.said}.",
            f"A test by that method shows {read:g} °C. Checked on the same day, the thermometer"
            f" showed {signed(ice)} °C in melting ice and {boiling:g} °C in water that boils at"
            f" {water:g} °C.",
            "What is the true reading, and does it lie below, inside or above the band?",
        ),
        (
            degrees("Reading put right", true),
            Choice("Where it lies", right, PLACES),
        ),
        (
            step(
                "Put right",
                f"({read:g} − {in_a_sum(ice)}) / ({boiling:g} − {in_a_sum(ice)}) × {water:g}",
                true,
                "degC",
            ),
            f"{short(true)} °C against {band.said}: {right}.",
        ),
        {
            "variant": "reading-and-band",
            "low": band.low,
            "high": band.high,
            "read": read,
            "ice": ice,
            "boiling": boiling,
            "water": water,
        },
    )


VARIANTS = {
    ONE_STEP: (_what_follows, _put_right, _two_bands, _half_width, _words_of_it),
    SOME_STEPS: (_drop_and_service, _firmer, _reading_and_band),
    WHOLE_JOB: (from_a_reading, next_lots, tables_alone),
}
