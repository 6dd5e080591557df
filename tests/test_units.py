"""Quantities as people write them, and the one way numbers are printed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from formulas import units
from formulas.fault import UnitFault

# CODATA and the exact definitions, as scipy.constants holds them. The tolerance leaves room for
# one thing: its mmHg is the torr, 1.4e-7 from the conventional one.
OUTSIDE = [
    ("1 lb", "g", constants.pound * 1000),
    ("1 oz", "g", constants.oz * 1000),
    ("1 gr", "g", constants.grain * 1000),
    ("1 in", "mm", constants.inch * 1000),
    ("1 mil", "mm", constants.mil * 1000),
    ("1 gallon", "m**3", constants.gallon),
    ("1 fl oz", "m**3", constants.fluid_ounce),
    ("1 mmHg", "Pa", constants.mmHg),
    ("1 gf", "N", constants.g / 1000),
    ("1 year", "d", constants.Julian_year / constants.day),
]


@pytest.mark.parametrize(("text", "unit", "value"), OUTSIDE)
def test_units_agree_with_the_constants(text, unit, value):
    """Each customary unit is worth what scipy.constants says."""
    assert units.read(text, unit) == pytest.approx(value, rel=2e-7)


def test_degrees_agree_with_the_constants():
    """Celsius, Fahrenheit and kelvin convert as scipy.constants converts them."""
    for value in (-40.0, 32.0, 144.0, 212.0):
        wanted = constants.convert_temperature(value, "F", "C")
        assert units.convert(value, "degF", "degC") == pytest.approx(wanted, abs=1e-9)
    assert units.convert(0.0, "degC", "K") == pytest.approx(constants.zero_Celsius)


WRITTEN = [
    ("400 g", "g", 400.0),
    ("400g", "g", 400.0),
    ("0,4 kg", "g", 400.0),
    (" 14 oz ", "g", 396.893),
    ("2 lbs", "g", 907.185),
    ("62 °C", "degC", 62.0),
    ("62C", "degC", 62.0),
    ("144F", "degC", 62.222),
    ("1.5e2 mL", "mL", 150.0),
    ("5 %", "dimensionless", 0.05),
]


@pytest.mark.parametrize(("text", "unit", "value"), WRITTEN)
def test_quantities_are_read_as_people_write_them(text, unit, value):
    """A number and a unit are read with or without a space, with a point or a comma."""
    assert units.read(text, unit) == pytest.approx(value, abs=5e-4)


@pytest.mark.parametrize(
    "text", ["400", "", "g", "4 furlongs", "62 °C", "nan g", "1_000 g", "1.2.3 g"]
)
def test_what_is_no_mass_is_refused(text):
    """A missing unit is never guessed, and what is no number is no mass."""
    with pytest.raises(UnitFault, match="accepted: a number with a unit"):
        units.read(text, "g")


@pytest.mark.parametrize("text", ["nan", "inf", "1_000", "1.234,5", "4;1", "", "0x10"])
def test_what_is_no_number_is_refused(text):
    """What float() would let through is refused as well."""
    with pytest.raises(UnitFault):
        units.number(text)


PRINTED = [
    (2.5, 0, "3"),
    (0.5, 0, "1"),
    (1.25, 1, "1.3"),
    (0.125, 2, "0.13"),
    (-2.5, 0, "-3"),
    (-0.04, 1, "0.0"),
    (0.0, 2, "0.00"),
    (999.96, 1, "1000.0"),
    (1e9, 1, "1000000000.0"),
]


@pytest.mark.parametrize(("value", "decimals", "text"), PRINTED)
def test_ties_round_away_from_nought(value, decimals, text):
    """Ties, signs and carries print as a person would round them."""
    assert units.printed(value, decimals) == text


@given(st.floats(-1e9, 1e9), st.integers(0, 4))
def test_a_printed_number_is_within_half_a_digit(value, decimals):
    """What is printed is at most half its last digit off, and has that many decimals."""
    text = units.printed(value, decimals)
    assert abs(float(text) - value) <= 0.5 * 10**-decimals * (1 + 1e-6) + 1e-6
    assert len(text.partition(".")[2]) == decimals
