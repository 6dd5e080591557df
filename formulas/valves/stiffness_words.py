"""What is said of a test of a stock: what speaks against it, and what to do next.

Templates with names in braces; the page has the same words.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from formulas.valves.next_reading import (
    ACROSS,
    ALL_READ,
    FIRST_STRIP,
    MORE_STRIPS,
    OTHER_END,
    OTHER_WAY,
    SOFT_FACE,
    SORT,
    THICKNESS,
    WEIGH,
    WEIGH_MORE,
)
from formulas.valves.ramp import CURLS, TOO_LIMP, TOO_STIFF, UNLIKE, strips_more
from formulas.valves.typed import area_printed, length_printed, mass_printed, share_printed
from formulas.valves.weighing import mass_of_area, weighable_area

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valves.readings import Ramp

VERDICTS = {
    TOO_LIMP: (
        "too limp",
        "It hangs {overhang}, less than {least}: half a millimetre misread is too much of that."
        " Hang a strip as a heart loop, or cut a valve and read its droop.",
    ),
    TOO_STIFF: (
        "too stiff",
        "It hangs farther than {most}, more than a bench ramp gives. Take a longer strip and a"
        " taller ramp, or lay a strip on two rests and press its middle on the scale.",
    ),
    CURLS: (
        "curls",
        "The two faces differ by {apart} of their mean, more than {allowed}: it hangs by its curl"
        " as much as by its weight. Flatten and condition it and test again; else cut a valve and"
        " read its droop, and test the curl by itself.",
    ),
    UNLIKE: (
        "strips unlike",
        "The strips spread by {spread} of their mean, more than {spread_allowed}: this is more than"
        " one stock. Sort by zone, thickness and mass, and test each sort.",
    ),
}
"""Name and words of what speaks against a ramp test."""

NEXT = {
    ALL_READ: "Nothing is missing. Test again when the skin, the lot or the air has changed.",
    FIRST_STRIP: "Cut a strip of {width} along the backbone and push it over the ramp.",
    OTHER_WAY: "Get the number another way, as said above.",
    SORT: "Sort the stock before you test on.",
    SOFT_FACE: "Turn each strip over: push it with the soft face down too.",
    OTHER_END: "Turn each strip end for end: push it from its other end too.",
    MORE_STRIPS: "Push {more} more: with {asked} strips of this spread the stock's bending length"
    " is known to {wanted} either way.",
    WEIGH: "Weigh pieces of known size together.",
    WEIGH_MORE: "Weigh more at once: with this scale {area} of the stock, {grams} or more, are"
    " known to {mass_wanted}.",
    ACROSS: "Cut one strip across the backbone: it tells how the shut valve bulges into its slot.",
    THICKNESS: "Read the thickness, with the gauge and its pressure: it gives the modulus.",
}
"""What to do next, by the code of `next_reading`."""

FIGURES = (
    ("least", "overhang-least", "m", 0),
    ("most", "overhang-most", "m", 1),
    ("allowed", "faces-apart", "dimensionless", 1),
    ("spread_allowed", "strips-unlike", "dimensionless", 1),
    ("width", "ramp-strip-width", "m", 0),
    ("wanted", "ramp-wanted", "dimensionless", 1),
    ("mass_wanted", "mass-wanted", "dimensionless", 1),
)
"""What the words take from the figures: name, figure, unit, low or high end."""


def said_numbers(counted: Mapping[str, float], us: bool) -> dict[str, str]:
    """Print the numbers that the words hold."""
    said = {
        name: length_printed(counted[name], us)
        for name in ("overhang", "least", "most")
        if name in counted
    }
    said["width"] = length_printed(counted["width"], us)
    for name in ("allowed", "spread_allowed", "wanted", "mass_wanted", "apart", "spread"):
        if name in counted:
            said[name] = share_printed(counted[name])
    if "strips" in counted:
        more = strips_more(int(counted["asked"]), int(counted["strips"]))
        said["asked"] = str(int(counted["asked"]))
        said["more"] = "1 strip" if more == 1 else f"{more} strips"
    if "mass" in counted:
        area = weighable_area(counted["scale"], counted["mass"], counted["mass_wanted"])
        said["area"] = area_printed(area, us)
        said["grams"] = mass_printed(mass_of_area(area, counted["mass"]), us)
    return said


def verdicts_said(
    catalog: Catalog, ramp: Ramp | None, counted: Mapping[str, float]
) -> list[dict[str, str]]:
    """Give name and words of each thing that speaks against a test."""
    said = said_numbers(counted, catalog.shop.units == "US")
    found = [VERDICTS[code] for code in ramp.verdicts] if ramp else []
    return [{"name": name, "said": words.format(**said)} for name, words in found]


def next_said(catalog: Catalog, code: int, counted: Mapping[str, float]) -> str:
    """Give what to do next in words."""
    return NEXT[code].format(**said_numbers(counted, catalog.shop.units == "US"))
