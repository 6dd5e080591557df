"""Whole jobs on units: a recipe by volume, a log of heats, sticks in inches, pounds and ratios.

The tasks of `units` that take four steps and more. Each has a function that draws its numbers
and one of the numbers alone, whose name has `_of` at its end.
"""

from __future__ import annotations

from formulas.adjusting.working_steps import plainly
from formulas.practice.draw import Draw
from formulas.practice.exercise import Made, Silly, Wanted, made, number_asked
from formulas.practice.parts import drawn_parts, parts_said, refuse_unlike_sum
from formulas.practice.unit_pairs import CUBIC_INCH, FLUID_OUNCE, OUNCE, ZERO
from formulas.units import celsius_of, convert, fahrenheit, printed
from formulas.wax.batch import component_mass, part_shares, share_by_mass
from formulas.wax.session import stick_count, stick_mass, stick_volume

WHOLE = 0.08  # as near to a whole number a count would hang on the rounding


def recipe_by_volume_of(volumes: list[float], densities: list[float]) -> Made:
    """Ask for the masses and the share of rosin of a recipe told in fluid ounces."""
    litres = [convert(volume, "floz", "mL") for volume in volumes]
    masses = [1e-3 * one * density for one, density in zip(litres, densities, strict=True)]
    share = 100 * share_by_mass(masses[1], sum(masses))
    each = [plainly(density / 1000) for density in densities]
    shown = [printed(one, 2) for one in litres]
    grams = [printed(mass, 1) for mass in masses]
    return made(
        [
            f"An old recipe goes by volume: {plainly(volumes[0])} fl oz of beeswax to"
            f" {plainly(volumes[1])} fl oz of rosin, both solid, without gaps.",
            f"A cubic metre of beeswax weighs {plainly(densities[0])} kg, of rosin"
            f" {plainly(densities[1])} kg: a millilitre weighs {each[0]} g and {each[1]} g. 1 fl"
            " oz is"
            f" {FLUID_OUNCE} mL.",
            "What does each weigh, and what share by mass is rosin?",
        ],
        [
            *(
                number_asked(f"Mass of {name}", mass, "g", 1, 0.006 + 0.0002 * mass)
                for name, mass in zip(("beeswax", "rosin"), masses, strict=True)
            ),
            number_asked("Share of rosin", share, "percent", 1, 10 / sum(masses)),
        ],
        [
            *(
                f"{name}: {plainly(volume)} × {FLUID_OUNCE} = {one} mL."
                for name, volume, one in zip(("Beeswax", "Rosin"), volumes, shown, strict=True)
            ),
            *(
                f"{name} by mass: {one} × {of} = {mass} g."
                for name, one, of, mass in zip(
                    ("Beeswax", "Rosin"), shown, each, grams, strict=True
                )
            ),
            f"Share of rosin: {grams[1]} / ({grams[0]} + {grams[1]}) = {printed(share, 1)} %.",
        ],
        {"variant": "recipe-by-volume", "volumes": volumes, "densities": densities},
    )


def recipe_by_volume(draw: Draw) -> Made:
    """Draw a recipe by volume."""
    volumes = [draw.ranged("units-wax-volume"), draw.ranged("units-rosin-volume")]
    draw.within("ratio-rosin-share", 100 * volumes[1] / sum(volumes))
    densities = [draw.ranged("units-wax-density"), draw.ranged("units-rosin-density")]
    return recipe_by_volume_of(volumes, densities)


def heat_log_of(start: float, change: float, times: float, us: bool) -> Made:
    """Ask for the start and the end of a heating told on the other scale."""
    of, to = ("°C", "°F") if us else ("°F", "°C")
    unit = "degF" if us else "degC"
    first = fahrenheit(start) if us else celsius_of(start)
    rise = convert(change, "delta_degC" if us else "delta_degF", f"delta_{unit}")
    ratio = "9 / 5" if us else "5 / 9"
    turned = f"{plainly(start)} × 9 / 5 + 32" if us else f"({plainly(start)} − 32) × 5 / 9"
    end = first + times * rise
    return made(
        [
            f"An old log begins at {plainly(start)} {of}. The wax warms by {plainly(change)} {of}"
            f" in ten minutes, {plainly(times)} times over.",
            ZERO,
            f"Where does it begin and where does it end, in {to}?",
        ],
        [
            number_asked("It begins at", first, unit, 1),
            number_asked("It ends at", end, unit, 1, 0.05 * (1 + 2 * times)),
        ],
        [
            f"Begins: {turned} = {printed(first, 1)} {to}.",
            f"A rise, without 32: {plainly(change)} × {ratio} = {printed(rise, 1)} {to}.",
            f"All rises: {plainly(times)} × {printed(rise, 1)} = {printed(times * rise, 1)} {to}.",
            f"Ends: {printed(first, 1)} + {printed(times * rise, 1)} = {printed(end, 1)} {to}.",
        ],
        {"variant": "heat-log", "start": start, "change": change, "times": times, "to": unit},
    )


def heat_log(draw: Draw) -> Made:
    """Draw a log of heats that ends where a pot may stand."""
    us = draw.catalog.shop.units == "US"
    start = draw.ranged("units-log-start" if us else "units-log-start-fahrenheit")
    change = draw.ranged("units-log-rise" if us else "units-log-rise-fahrenheit")
    log = heat_log_of(start, change, draw.ranged("units-log-times"), us)
    end = log.wanted[1]
    assert isinstance(end, Wanted)
    draw.within("units-pot", convert(end.value, end.unit, "degC"))
    return log


def sticks_in_inches_of(sides: list[float], density: float, ounces: float) -> Made:
    """Ask what a stick weighs whose mould is told in inches, and how many come of some wax."""
    hollow = stick_volume(*(convert(side, "in", "m") for side in sides))
    each, mass = stick_mass(hollow, density), convert(ounces, "oz", "kg")
    if not WHOLE < mass / each % 1 < 1 - WHOLE:
        raise Silly
    inches, litres = sides[0] * sides[1] * sides[2], convert(hollow, "m**3", "mL")
    stick, grams = printed(1000 * each, 2), printed(1000 * mass, 1)
    length, width, depth = map(plainly, sides)
    return made(
        [
            f"A stick mould is {length} in long, {width} in wide and {depth} in deep inside.",
            f"A cubic metre of the cold wax weighs {plainly(density)} kg, so a millilitre weighs"
            f" {plainly(density / 1000)} g. There are {plainly(ounces)} oz of strained wax.",
            f"1 cubic inch is {CUBIC_INCH} mL and 1 oz is {OUNCE} g.",
            "What does a full stick weigh, and how many whole sticks are there?",
        ],
        [
            number_asked("A stick weighs", 1000 * each, "g", 1, 0.02),
            number_asked("Whole sticks", stick_count(mass, hollow, density), "", 0),
        ],
        [
            f"The hollow: {length} × {width} × {depth} = {printed(inches, 4)} cubic inches.",
            f"In millilitres: {printed(inches, 4)} × {CUBIC_INCH} = {printed(litres, 2)} mL.",
            f"A stick: {printed(litres, 2)} × {plainly(density / 1000)} = {stick} g.",
            f"The wax: {plainly(ounces)} × {OUNCE} = {grams} g.",
            f"Sticks: {grams} / {stick} = {printed(mass / each, 2)}. Whole ones:"
            f" {printed(stick_count(mass, hollow, density), 0)}.",
        ],
        {"variant": "sticks-in-inches", "sides": sides, "density": density, "ounces": ounces},
    )


def sticks_in_inches(draw: Draw) -> Made:
    """Draw a stick mould and some wax."""
    sides = [draw.ranged(f"units-stick-{side}") for side in ("length", "width", "depth")]
    return sticks_in_inches_of(
        sides, draw.ranged("units-wax-density"), draw.ranged("units-stick-wax")
    )


def recipe_in_pounds_of(pounds: float, ounces: float, parts: list[float]) -> Made:
    """Ask for the grams of a batch that is told in pounds and ounces, and of its parts."""
    all_ounces = convert(pounds, "lb", "oz") + ounces
    total = convert(all_ounces, "oz", "g")
    masses = [component_mass(total, share) for share in part_shares(parts)]
    refuse_unlike_sum(total, masses, 1)
    one, (wax, rosin) = printed(total / sum(parts), 2), map(plainly, parts)
    room = 0.0000168 * total + 0.006 * parts[0] + 0.06
    return made(
        [
            f"A recipe makes {plainly(pounds)} lb {plainly(ounces)} oz of wax, {parts_said(parts)}"
            ", by mass.",
            f"A pound has 16 oz, and 1 oz is {OUNCE} g.",
            "How many grams is it in all, and how much of each?",
        ],
        [
            number_asked("Wax in all", total, "g", 1, room),
            number_asked("Mass of beeswax", masses[0], "g", 1, room),
            number_asked("Mass of rosin", masses[1], "g", 1, room),
        ],
        [
            f"In ounces: {plainly(pounds)} × 16 + {plainly(ounces)} = {plainly(all_ounces)} oz.",
            f"In all: {plainly(all_ounces)} × {OUNCE} = {printed(total, 1)} g.",
            f"One part: {printed(total, 1)} / ({wax} + {rosin}) = {one} g.",
            f"Beeswax: {wax} × {one} = {printed(masses[0], 1)} g.",
            f"Rosin: {rosin} × {one} = {printed(masses[1], 1)} g.",
        ],
        {"variant": "recipe-in-pounds", "pounds": pounds, "ounces": ounces, "parts": parts},
    )


def recipe_in_kilograms_of(kilograms: float, parts: list[float]) -> Made:
    """Ask for the ounces of a batch that is told in kilograms, and of its parts."""
    grams, total = convert(kilograms, "kg", "g"), convert(kilograms, "kg", "oz")
    masses = [component_mass(total, share) for share in part_shares(parts)]
    refuse_unlike_sum(total, masses, 2)
    one, (wax, rosin) = printed(total / sum(parts), 3), map(plainly, parts)
    room = 0.0000168 * total + 0.0006 * parts[0] + 0.006
    return made(
        [
            f"A recipe makes {plainly(kilograms)} kg of wax, {parts_said(parts)}, by mass.",
            f"1 oz is {OUNCE} g.",
            "How many ounces is it in all, and how much of each?",
        ],
        [
            number_asked("Wax in all", total, "oz", 2, room),
            number_asked("Mass of beeswax", masses[0], "oz", 2, room),
            number_asked("Mass of rosin", masses[1], "oz", 2, room),
        ],
        [
            f"In grams: {plainly(kilograms)} × 1000 = {plainly(grams)} g.",
            f"In all: {plainly(grams)} / {OUNCE} = {printed(total, 2)} oz.",
            f"One part: {printed(total, 2)} / ({wax} + {rosin}) = {one} oz.",
            f"Beeswax: {wax} × {one} = {printed(masses[0], 2)} oz.",
            f"Rosin: {rosin} × {one} = {printed(masses[1], 2)} oz.",
        ],
        {"variant": "recipe-in-kilograms", "kilograms": kilograms, "parts": parts},
    )


def recipe_in_pounds(draw: Draw) -> Made:
    """Draw a recipe in pounds and ounces; in a US shop one in kilograms."""
    if draw.catalog.shop.units == "US":
        return recipe_in_kilograms_of(draw.ranged("units-kilograms"), drawn_parts(draw))
    pounds, ounces = draw.ranged("units-pounds"), draw.ranged("units-odd-ounces")
    draw.within("ratio-melted", convert(pounds, "lb", "g") + convert(ounces, "oz", "g"))
    return recipe_in_pounds_of(pounds, ounces, drawn_parts(draw))
