"""One step from one unit to another: pairs of units, heats, differences, densities, parts.

The tasks of `units` that take one step; they are drawn there.
"""

from __future__ import annotations

from formulas.adjusting.working_steps import plainly
from formulas.frozen import Frozen
from formulas.practice.exercise import Made, made, number_asked
from formulas.units import celsius_of, convert, fahrenheit, printed, spoken_unit
from formulas.wax.batch import melt_millilitres, share_by_mass

ZERO = "0 °C is 32 °F, and a difference of 5 °C is a difference of 9 °F."
GOES = {True: "warm", False: "cool"}


class Pair(Frozen):
    """Two units of one kind. One of `large` is `factor` of `small`, rounded to `digits`."""

    large: str
    small: str
    digits: int
    large_range: str
    small_range: str
    to_small: int  # decimals of an answer
    to_large: int
    about: str

    @property
    def one(self) -> str:
        """The larger unit, of one."""
        return one_of_it(self.large)

    @property
    def factor(self) -> str:
        """What one of the larger is, as it is told."""
        return factor_of(self.large, self.small, self.digits)


def one_of_it(unit: str) -> str:
    """Give the name of a unit of which there is one."""
    names = {"leather_ounce": "leather ounce", "inH2O": "inch of water", "in**3": "cubic inch"}
    return names.get(unit, spoken_unit(unit))


def factor_of(large: str, small: str, digits: int) -> str:
    """Give what one of the larger unit is in the smaller, to so many decimals."""
    return printed(convert(1, large, small), digits)


PAIRS = (
    Pair("oz", "g", 2, "units-ounces", "units-grams", 1, 2, "A recipe asks for"),
    Pair("mil", "mm", 4, "units-film-mil", "units-film-mm", 3, 1, "A film is sold as"),
    Pair("leather_ounce", "mm", 3, "units-leather-ounces", "units-leather-mm", 2, 1,
         "A skin is sold as"),
    Pair("floz", "mL", 2, "units-fluid-ounces", "units-millilitres", 1, 2, "A bottle holds"),
    Pair("inH2O", "Pa", 1, "units-water-inches", "units-pascals", 0, 2,
         "A bellows was measured at"),
)  # fmt: skip

OUNCE, FLUID_OUNCE = PAIRS[0].factor, PAIRS[3].factor
CUBIC_INCH = factor_of("in**3", "mL", 2)
FACTORS = (
    ("kg", "g", 0),
    ("lb", "oz", 0),
    ("in", "mm", 1),
    *((pair.large, pair.small, pair.digits) for pair in PAIRS),
    ("in**3", "mL", 2),
)
"""What a learner turns, larger and smaller unit, with the decimals of the factor as it is told."""


def one_unit(pair: Pair, value: float, back: bool) -> Made:
    """Ask for a number in the smaller unit of a pair, or back in the larger."""
    of, to = (pair.small, pair.large) if back else (pair.large, pair.small)
    places = pair.to_large if back else pair.to_small
    answer = convert(value, of, to)
    exact = convert(1, pair.large, pair.small)
    room = answer * abs(float(pair.factor) - exact) / exact
    sign = "/" if back else "×"
    return made(
        [
            f"{pair.about} {plainly(value)} {spoken_unit(of)}.",
            f"1 {pair.one} is {pair.factor} {spoken_unit(pair.small)}.",
            f"How much is that in {spoken_unit(to)}?",
        ],
        [number_asked(f"In {spoken_unit(to)}", answer, to, places, room)],
        [f"{plainly(value)} {sign} {pair.factor} = {printed(answer, places)} {spoken_unit(to)}."],
        {"variant": "one-unit", "value": value, "of": of, "to": to},
    )


def heat(value: float, to_fahrenheit: bool) -> Made:
    """Ask for a temperature on the other scale."""
    answer = fahrenheit(value) if to_fahrenheit else celsius_of(value)
    of, to = ("degC", "degF") if to_fahrenheit else ("degF", "degC")
    places = 0 if to_fahrenheit else 1
    line = f"{plainly(value)} × 9 / 5 + 32" if to_fahrenheit else f"({plainly(value)} − 32) × 5 / 9"
    return made(
        [
            f"A book has the wax stand at {plainly(value)} {spoken_unit(of)}.",
            ZERO,
            f"What does a thermometer in {spoken_unit(to)} show?",
        ],
        [number_asked("It shows", answer, to, places)],
        [f"{line} = {printed(answer, places)} {spoken_unit(to)}."],
        {"variant": "heat", "value": value, "of": of, "to": to},
    )


def difference(value: float, warms: bool, to_fahrenheit: bool) -> Made:
    """Ask for a difference of temperatures on the other scale: nothing is added to it."""
    of, to = ("degC", "degF") if to_fahrenheit else ("degF", "degC")
    answer = convert(value, f"delta_{of}", f"delta_{to}")
    times = "9 / 5" if to_fahrenheit else "5 / 9"
    return made(
        [
            f"A book has the wax {GOES[warms]} by {plainly(value)} {spoken_unit(of)}.",
            ZERO,
            f"By how many {spoken_unit(to)} does it {GOES[warms]}?",
        ],
        [number_asked(f"It {GOES[warms]}s by", answer, f"delta_{to}", 1)],
        [
            "A difference takes no 32: "
            f"{plainly(value)} × {times} = {printed(answer, 1)} {spoken_unit(to)}."
        ],
        {"variant": "difference", "value": value, "of": of, "to": to},
    )


def mass_to_volume(mass: float, density: float) -> Made:
    """Ask for the room that cold wax takes, in millilitres."""
    answer = melt_millilitres([mass / 1000], [density])
    return made(
        [
            f"A block of cold wax weighs {plainly(mass)} g.",
            f"A cubic metre of it weighs {plainly(density)} kg, so a millilitre weighs"
            f" {plainly(density / 1000)} g.",
            "How much room does it take?",
        ],
        [number_asked("Volume", answer, "mL", 0)],
        [f"{plainly(mass)} / {plainly(density / 1000)} = {printed(answer, 0)} mL."],
        {"variant": "mass-to-volume", "mass": mass, "density": density},
    )


def parts_to_percent(part: float, whole: float) -> Made:
    """Ask what one part in so many is in percent."""
    answer = 100 * share_by_mass(part, whole)
    return made(
        [
            f"An old recipe has {plainly(whole)} parts in all, and {plainly(part)} of them are"
            " oil.",
            "What share of it is oil?",
        ],
        [number_asked("Share of oil", answer, "percent", 1)],
        [f"{plainly(part)} / {plainly(whole)} = {printed(answer, 1)} %."],
        {"variant": "parts-to-percent", "part": part, "whole": whole},
    )
