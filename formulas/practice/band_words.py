"""What a band and a method say of a temperature, or of another band, in the words of the book."""

from __future__ import annotations

import functools
import math
from typing import TYPE_CHECKING

from formulas.frozen import Frozen
from formulas.practice.exercise import Given, Silly, Wanted, number_asked
from formulas.softening.chance import chance_above, verdict_of
from formulas.softening.estimate import CREEP
from formulas.softening.mixture import Z_95
from formulas.units import printed

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.practice.draw import Draw

HOLDS = "likely to hold, no promise"
MOVES = "likely to move"
CANNOT_TELL = "cannot tell"
FOLLOWS = (HOLDS, MOVES, CANNOT_TELL)
FIRMER = ("A", "B", CANNOT_TELL)
BELOW, INSIDE, ABOVE = "below the band", "inside the band", "above the band"
PLACES = (BELOW, INSIDE, ABOVE)
ROUNDED = 0.1  # degC that the steps before may lose
LEAST_CLEAR = 1.5  # degC from the end of a band: nearer nobody would argue
HALVINGS = 40


class DrawnBand(Frozen):
    """A band in degC and the method that it belongs to."""

    method: str
    low: float
    high: float

    @property
    def middle(self) -> float:
        """The middle of a band that is even to both sides."""
        return (self.low + self.high) / 2

    @property
    def half(self) -> float:
        """Half its width."""
        return (self.high - self.low) / 2

    @property
    def said(self) -> str:
        """Both ends in words."""
        return f"{self.low:g} to {self.high:g} °C"


def methods_of(catalog: Catalog) -> list[str]:
    """Give the methods that estimates are given by."""
    return [name for name, one in catalog.methods.items() if one.estimated]


def method_said(catalog: Catalog, name: str) -> str:
    """Give the name of a method inside a sentence, what it is done with in brackets."""
    said, _, plate = catalog.methods[name].name.partition(", ")
    return said[0].lower() + said[1:] + (f" ({plate})" if plate else "")


def band_drawn(draw: Draw, method: str) -> DrawnBand:
    """Draw a band of a method."""
    where = "creep" if method in CREEP else "reading"
    middle = draw.ranged(f"softening-band-{where}-middle")
    half = draw.ranged("softening-band-half")
    return DrawnBand(method, middle - half, middle + half)


def temperature(draw: Draw, band: DrawnBand) -> float:
    """Draw a temperature that lies clearly below, inside or above a band."""
    where, away = draw.one_of(PLACES), draw.ranged("softening-band-away")
    start = {BELOW: band.low - away, ABOVE: band.high + away, INSIDE: band.low + away}[where]
    asked = draw.within("softening-band-asked", float(printed(start, 0)))
    if place_of(band.low, band.high, asked) != where:
        raise Silly
    if min(abs(asked - band.low), abs(asked - band.high)) < LEAST_CLEAR:
        raise Silly
    return asked


def signed(value: float) -> str:
    """Write a number with the minus of a sum."""
    return f"{value:g}".replace("-", "−")


def in_a_sum(value: float) -> str:
    """Write a number as a sum takes it, in parentheses where it is below nought."""
    return f"({signed(value)})" if value < 0 else signed(value)


def degrees(what: str, value: float, unit: str = "degC") -> Wanted:
    """Give a temperature, or a difference of two, that is asked for to a tenth."""
    return number_asked(what, value, unit, 1, ROUNDED)


def place_of(low: float, high: float, value: float) -> str:
    """Say where a temperature lies."""
    return BELOW if value < low else ABOVE if value > high else INSIDE


def follows(method: str, low: float, high: float, asked: float) -> str:
    """Say what an estimate says of an hour at a temperature under a plate's own load.

    Only step creep says anything of that.
    """
    if method not in CREEP:
        return CANNOT_TELL
    return {BELOW: HOLDS, ABOVE: MOVES, INSIDE: CANNOT_TELL}[place_of(low, high, asked)]


class Service(Frozen):
    """What is known of a blend by step creep, and what that says of an hour at a temperature."""

    told: str
    question: str
    asked: float
    right: str
    why: str
    given: Given


def _asked_of(asked: float, plate: str) -> str:
    return f"What may be said of an hour at {asked:g} °C under the own load of {plate}?"


def service_drawn(catalog: Catalog, draw: Draw) -> Service:
    """Draw a blend that the shop tested by step creep, or one that it did not.

    Of one that was not tested nobody can tell, whatever another method read: methods are not
    reckoned into one another.
    """
    creep = next(iter(CREEP))
    band = band_drawn(draw, creep)
    asked = temperature(draw, band)
    if draw.whole(0, 1):
        right = follows(creep, band.low, band.high, asked)
        return Service(
            f"By {method_said(catalog, creep)} this shop's tests of the blend put it at"
            f" {band.said}.",
            _asked_of(asked, "such a plate"),
            asked,
            right,
            f"Only step creep speaks of service: {asked:g} °C lies"
            f" {place_of(band.low, band.high, asked)} of step creep, {band.said}: {right}.",
            {"tested": "yes", "creep_band": [band.low, band.high], "asked": asked},
        )
    return Service(
        "Nobody has hung a plate of it in the warm box.",
        _asked_of(asked, "a plate"),
        asked,
        CANNOT_TELL,
        "No step creep was tested. Another method is no service temperature, and nothing is taken"
        f" off it to make one: {CANNOT_TELL}.",
        {"tested": "no", "asked": asked},
    )


def quadrature(first: float, second: float) -> float:
    """Give the half width of a difference of two that have nothing to do with one another."""
    return math.hypot(first, second)


def firmer_of(first: DrawnBand, second: DrawnBand) -> str:
    """Say which of two by one method is the firmer, as the book does."""
    spread = quadrature(first.half, second.half) / Z_95
    said = verdict_of(chance_above(first.middle - second.middle, spread**2))
    return {"firmer": FIRMER[0], "softer": FIRMER[1]}.get(said, CANNOT_TELL)


@functools.cache
def telling_share() -> float:
    """Give from how many half widths of a difference on the book calls one the firmer."""
    low, high = 0.0, 2.0
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if verdict_of(chance_above(middle, 1 / Z_95**2)) == "firmer":
            high = middle
        else:
            low = middle
    return high
