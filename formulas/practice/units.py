"""Exercises on units: from what a book prints to what the bench reads, and the other way.

A shop with US units goes from metric ones to its own. `formulas.units`, which converts, is
another module: here it is asked as `convert`. Each task is a function of its numbers.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from formulas.adjusting.working_steps import plainly
from formulas.practice.draw import Draw
from formulas.practice.exercise import (
    ONE_STEP,
    SOME_STEPS,
    WHOLE_JOB,
    Made,
    Wanted,
    made,
    number_asked,
)
from formulas.practice.unit_jobs import (
    heat_log,
    recipe_by_volume,
    recipe_in_pounds,
    sticks_in_inches,
)
from formulas.practice.unit_pairs import (
    FLUID_OUNCE,
    GOES,
    OUNCE,
    PAIRS,
    ZERO,
    difference,
    heat,
    mass_to_volume,
    one_unit,
    parts_to_percent,
)
from formulas.units import convert, printed, spoken_unit

if TYPE_CHECKING:
    from formulas.catalog import Catalog


def exercise(_catalog: Catalog, grade: int, draw: Draw) -> Made:
    """Make an exercise on units."""
    return draw.in_turn(VARIANTS[grade])


def _us(draw: Draw) -> bool:
    return draw.catalog.shop.units == "US"


def pounds_and_ounces(pounds: float, ounces: float) -> Made:
    """Ask for pounds and ounces in grams."""
    all_ounces = convert(pounds, "lb", "oz") + ounces
    answer = convert(all_ounces, "oz", "g")
    return made(
        [
            f"A bill says {plainly(pounds)} lb {plainly(ounces)} oz of beeswax.",
            f"A pound has 16 oz, and 1 oz is {OUNCE} g.",
            "How many grams should be in the bag?",
        ],
        [number_asked("In the bag", answer, "g", 0, 0.001 * all_ounces)],
        [
            f"In ounces: {plainly(pounds)} × 16 + {plainly(ounces)} = {plainly(all_ounces)} oz.",
            f"In grams: {plainly(all_ounces)} × {OUNCE} = {printed(answer, 0)} g.",
        ],
        {"variant": "pounds-and-ounces", "pounds": pounds, "ounces": ounces},
    )


def kilograms_to_ounces(kilograms: float) -> Made:
    """Ask for kilograms in ounces, by way of grams."""
    grams, answer = convert(kilograms, "kg", "g"), convert(kilograms, "kg", "oz")
    return made(
        [
            f"A bill says {plainly(kilograms)} kg of beeswax. 1 oz is {OUNCE} g.",
            "How many ounces should be in the bag?",
        ],
        [number_asked("In the bag", answer, "oz", 1, 0.00002 * answer)],
        [
            f"In grams: {plainly(kilograms)} × 1000 = {plainly(grams)} g.",
            f"In ounces: {plainly(grams)} / {OUNCE} = {printed(answer, 1)} oz.",
        ],
        {"variant": "kilograms-to-ounces", "kilograms": kilograms},
    )


def after_a_change(start: float, change: float, warms: bool, us: bool) -> Made:
    """Ask what a thermometer shows after a change that a book tells on the other scale."""
    of, to = ("degC", "degF") if us else ("degF", "degC")
    moved = convert(change, f"delta_{of}", f"delta_{to}")
    answer = start + moved if warms else start - moved
    times, sign = "9 / 5" if us else "5 / 9", "+" if warms else "−"
    return made(
        [
            f"The wax stands at {plainly(start)} {spoken_unit(to)}.",
            f"A book has it {GOES[warms]} by {plainly(change)} {spoken_unit(of)}.",
            f"{ZERO} What does the thermometer show in the end?",
        ],
        [number_asked("It shows", answer, to, 1, 0.05)],
        [
            f"The change: {plainly(change)} × {times} = {printed(moved, 1)} {spoken_unit(to)}.",
            f"In the end: {plainly(start)} {sign} {printed(moved, 1)} = {printed(answer, 1)}"
            f" {spoken_unit(to)}.",
        ],
        {
            "variant": "after-a-change", "start": start, "change": change, "to": to,
            "goes": GOES[warms],
        },
    )  # fmt: skip


def film_on_leather(ounces: float, mils: float) -> Made:
    """Ask for the thickness of a film on a skin, in millimetres."""
    skin, film = convert(ounces, "leather_ounce", "mm"), convert(mils, "mil", "mm")
    return made(
        [
            f"A skin is {plainly(ounces)} leather ounce{'' if ounces == 1 else 's'} thick and"
            f" carries a film of {plainly(mils)} mil.",
            f"A leather ounce is {PAIRS[2].factor} mm, a mil is {PAIRS[1].factor} mm.",
            "How thick are both together, without the glue?",
        ],
        [number_asked("Together", skin + film, "mm", 2, 0.0005 * ounces + 0.001)],
        [
            f"The skin: {plainly(ounces)} × {PAIRS[2].factor} = {printed(skin, 3)} mm.",
            f"The film: {plainly(mils)} × {PAIRS[1].factor} = {printed(film, 3)} mm.",
            f"Together: {printed(skin, 3)} + {printed(film, 3)} = {printed(skin + film, 2)} mm.",
        ],
        {"variant": "film-on-leather", "ounces": ounces, "mils": mils},
    )


def oil_by_volume(volume: float, density: float, us: bool) -> Made:
    """Ask what oil weighs that is told by volume: fluid ounces in grams, or mL in ounces."""
    of, to = ("mL", "oz") if us else ("floz", "g")
    litres = convert(volume, of, "mL")
    grams = convert(litres, "mL", "m**3") * density * 1000
    each = plainly(density / 1000)
    if us:
        lines = [
            f"In grams: {plainly(volume)} × {each} = {printed(grams, 2)} g.",
            f"In ounces: {printed(grams, 2)} / {OUNCE} ="
            f" {printed(convert(grams, 'g', 'oz'), 2)} oz.",
        ]
    else:
        lines = [
            f"In millilitres: {plainly(volume)} × {FLUID_OUNCE} = {printed(litres, 2)} mL.",
            f"In grams: {printed(litres, 2)} × {each} = {printed(grams, 1)} g.",
        ]
    answer, places = (convert(grams, "g", "oz"), 2) if us else (grams, 1)
    told = f"1 oz is {OUNCE} g." if us else f"1 fl oz is {FLUID_OUNCE} mL."
    return made(
        [
            f"A bottle holds {plainly(volume)} {spoken_unit(of)} of linseed oil.",
            f"A cubic metre of it weighs {plainly(density)} kg, so a millilitre weighs {each} g."
            f" {told}",
            "What does the oil weigh?",
        ],
        [number_asked("The oil weighs", answer, to, places, 0.0002 * answer + 0.005)],
        lines,
        {"variant": "oil-by-volume", "volume": volume, "of": of, "to": to, "density": density},
    )


def _pair(which: int) -> Callable[[Draw], Made]:
    def drawn(draw: Draw) -> Made:
        pair, back = PAIRS[which], _us(draw)
        return one_unit(pair, draw.ranged(pair.small_range if back else pair.large_range), back)

    return drawn


def _heat(draw: Draw) -> Made:
    return heat(draw.ranged("units-heat" if _us(draw) else "units-heat-fahrenheit"), _us(draw))


def _difference(draw: Draw) -> Made:
    value = draw.ranged("units-change" if _us(draw) else "units-change-fahrenheit")
    return difference(value, draw.one_of([True, False]), _us(draw))


def _changed(draw: Draw) -> Made:
    start = draw.ranged("units-heat-fahrenheit" if _us(draw) else "units-heat")
    change = draw.ranged("units-change" if _us(draw) else "units-change-fahrenheit")
    made_so = after_a_change(start, change, draw.one_of([True, False]), _us(draw))
    asked = made_so.wanted[0]
    assert isinstance(asked, Wanted)
    end = convert(asked.value, asked.unit, "degC")
    draw.within("units-pot", end)
    return made_so


def _bill(draw: Draw) -> Made:
    if _us(draw):
        return kilograms_to_ounces(draw.ranged("units-kilograms"))
    return pounds_and_ounces(draw.ranged("units-pounds"), draw.ranged("units-odd-ounces"))


def _oil(draw: Draw) -> Made:
    volume = draw.ranged("units-millilitres" if _us(draw) else "units-fluid-ounces")
    return oil_by_volume(volume, draw.ranged("units-oil-density"), _us(draw))


VARIANTS = {
    ONE_STEP: (
        _heat,
        _pair(0),
        _difference,
        _pair(1),
        lambda draw: mass_to_volume(draw.ranged("units-grams"), draw.ranged("units-wax-density")),
        _pair(2),
        lambda draw: parts_to_percent(draw.ranged("units-part"), draw.ranged("units-whole")),
        _pair(3),
        _pair(4),
    ),
    SOME_STEPS: (
        _changed,
        _bill,
        lambda draw: film_on_leather(
            draw.ranged("units-leather-ounces"), draw.ranged("units-film-mil")
        ),
        _oil,
    ),
    WHOLE_JOB: (recipe_by_volume, heat_log, sticks_in_inches, recipe_in_pounds),
}
