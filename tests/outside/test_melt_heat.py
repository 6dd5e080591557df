"""Heat, time and shrinkage against worked examples, constants and steam tables of others."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from chemicals.iapws import iapws95_properties, iapws95_rho
from scipy import constants

import formulas
from formulas.catalog import load
from formulas.melting.heat import (
    heat_together,
    heater_power,
    heater_time,
    latent_heat,
    melt_heat,
    sensible_heat,
    shrinkage,
    shrinkage_of_gain,
    solid_heat,
)
from formulas.melting.thermal import thermal
from formulas.units import convert, read

TRADE = load(None)
LITRE = 1.0  # kg of water, as the problems below take it


# Ice to water: heat before, at and after melting

# Physics paper of an African examination board, 2023, question on an ice cube of 20 g taken
# from -10 to 10 degC: 2100 and 4200 J/(kg K), 3.34e5 J/kg; printed 420, 6680, 840, 7940 J.
ICE = {"mass": 0.02, "ice": 2100.0, "water": 4200.0, "latent": 3.34e5}


def test_an_ice_cube_takes_the_printed_heat():
    """Each printed step comes out exactly, as the numbers of the question are whole."""
    solid = solid_heat(ICE["mass"], ICE["ice"], -10, 10, 0)
    latent = latent_heat(ICE["mass"], ICE["latent"])
    melt = melt_heat(ICE["mass"], ICE["water"], -10, 10, 0)
    assert [solid, latent, melt] == pytest.approx([420, 6680, 840])
    assert heat_together([solid, latent, melt]) == pytest.approx(7940)


def test_leaving_the_melting_out_misses_the_printed_heat():
    """The answer someone gave to a puddle of 20 kg from -6 to 20 degC, 1 086 800 J, is rejected.

    It warms ice by 26 degrees and melts nothing; the page gives 8 625 600 J beside it. The
    constants of that answer are not printed: 335 kJ/kg and 4187 J/(kg K) give it to the joule.
    """
    wrong = sensible_heat(20, 2090, -6, 20)
    # Whole numbers of joules all the way, which a double holds exactly.
    assert wrong == 1_086_800
    parts = [
        solid_heat(20, 2090, -6, 20, 0),
        latent_heat(20, 335e3),
        melt_heat(20, 4187, -6, 20, 0),
    ]
    assert heat_together(parts) == 8_625_600


def test_ice_in_a_calorimeter():
    """A teaching site's ice of 158 g in 400 g of water: 78.35 cal/g is what balances.

    Calorimeter 60 g of 0.1 cal/(g K), from 38 to 5 degC, ice at 0. Printed: 78.35.
    """
    calorie = constants.calorie_IT
    water, cup = 1000 * calorie, 100 * calorie
    given = sensible_heat(0.4, water, 5, 38)
    taken = [
        latent_heat(0.158, 78.35 * 1000 * calorie),
        sensible_heat(0.158, water, 0, 5),
        sensible_heat(0.06, cup, 0, 5),
    ]
    assert heat_together(taken) == pytest.approx(given, rel=1e-4)  # four printed digits


# Time at a heater

# What a page prints: kilograms of water, J/(kg K), from, to, W, lost share, s, half a digit.
HEATED = [
    # A problem site: 1.5 kg in a kettle of 2 kW, efficiency 84 %, 20 to 100 degC: 300 s.
    (1.5, 4200.0, 20.0, 100.0, 2000.0, 0.16, 300.0, 0.5),
    # Another problem of that site: 1.5 L in a kettle of 250 W, 20 to 40 degC: 504 s.
    (1.5 * LITRE, 4200.0, 20.0, 40.0, 250.0, 0.0, 504.0, 0.5),
    # A homework site: 1 L, 2 kW at 90 %, 4.1855 J/(g K), 20 to 100 degC: 186 s.
    (1.0 * LITRE, 4185.5, 20.0, 100.0, 2000.0, 0.1, 186.0, 0.5),
    # A gardening page: 1 L, 4.19 kJ/(kg K), 15 to 100 degC, 1500 W: 238 s. It rounds the heat
    # to 357 kJ on the way, which is worth 0.6 s.
    (1.0 * LITRE, 4190.0, 15.0, 100.0, 1500.0, 0.0, 238.0, 0.6),
]


@pytest.mark.parametrize(("m", "c", "start", "end", "watts", "lost", "printed", "half"), HEATED)
def test_printed_times_of_kettles(m, c, start, end, watts, lost, printed, half):
    """The time at a heater of known power and loss is the printed one."""
    heat = sensible_heat(m, c, start, end)
    assert heater_time(heat, watts, lost) == pytest.approx(printed, abs=half)
    assert heater_power(heat, printed, lost) == pytest.approx(watts, rel=half / printed + 1e-9)


def test_a_thousandfold_slip_is_seen():
    """The 1.6 s of an answer page for 50 L from 20 to 60 degC at 5400 W is rejected.

    It takes water's 4.2 kJ/(kg K) for 4.2 J: a thousand times too little. Converted at the edge
    the same figures give a thousand times as much.
    """
    printed = 1.6
    slip = heater_time(sensible_heat(50, 4.2, 20, 60), 5400, 0)
    assert slip == pytest.approx(printed, abs=0.05)  # half of its last digit
    right = heater_time(
        sensible_heat(50, read("4.2 kJ/(kg*K)", "J/(kg*K)"), 20, 60), read("5.4 kW", "W"), 0
    )
    assert right == pytest.approx(1000 * slip)


# Units and constants


def test_a_calorie_warms_a_gram_by_a_degree():
    """The figure for water holds the two calories of scipy.constants, which are defined by it."""
    low, high = TRADE.span("water-heat", "J/(g*K)")
    for calorie in (constants.calorie_IT, constants.calorie_th):
        assert low < calorie < high


def test_the_heat_of_water_is_that_of_steam_tables():
    """From 15 to 99 degC the figure is what the steam tables have, rounded outward to 0.01."""
    low, high = TRADE.span("water-heat", "J/(kg*K)")
    values = []
    for celsius in range(15, 100):
        kelvin = constants.convert_temperature(celsius, "Celsius", "Kelvin")
        density = iapws95_rho(kelvin, constants.atm)
        values.append(iapws95_properties(kelvin, constants.atm)[5])
        assert density < 1000
    assert low <= min(values) < low + 10  # J/(kg K): the last printed digit
    assert high - 10 < max(values) <= high


def test_a_difference_of_temperature_is_no_temperature():
    """Heat asked in Fahrenheit and in Celsius is one heat: only the difference counts."""
    metric = sensible_heat(0.4, 2000, 18, 108)
    us = sensible_heat(0.4, 2000, convert(64.4, "degF", "degC"), convert(226.4, "degF", "degC"))
    assert us == pytest.approx(metric)
    kelvin = sensible_heat(0.4, 2000, 18 + constants.zero_Celsius, 108 + constants.zero_Celsius)
    assert kelvin == pytest.approx(metric)


def test_a_calorie_and_a_joule_table_agree():
    """A web table prints six metals and stuffs in J/(g K) and in Btu/(lb F): the two agree.

    Tolerance: half of the last printed digit of both columns. Its row for granite prints
    0.79 beside 0.19 and is kept as it is: half a digit of each just covers it.
    """
    rows = [
        (0.9, 0.05, 0.215, 0.0005),
        (0.386, 0.0005, 0.0923, 0.00005),
        (0.38, 0.005, 0.092, 0.0005),
        (0.126, 0.0005, 0.0301, 0.00005),
        (0.79, 0.005, 0.19, 0.005),
        (0.84, 0.005, 0.20, 0.005),
    ]
    per = constants.Btu / constants.lb * 9 / 5 / 1000  # J/(g K) of a Btu/(lb F)
    for joules, half, btu, half_btu in rows:
        assert abs(joules - btu * per) <= half + half_btu * per
    for name, printed in (("aluminium", 0.9), ("copper", 0.386), ("brass", 0.38), ("glass", 0.84)):
        assert TRADE.span(f"vessel-heat-{name}", "J/(g*K)") == pytest.approx((printed, printed))


# What the tables say of beeswax


def test_the_latent_heat_counted_is_the_published_row():
    """Beeswax is counted with the published range, not with the one from memory beside it."""
    with (Path(formulas.__path__[0]) / "tables" / "facts.csv").open(encoding="utf-8") as handle:
        rows = [
            (float(row["low"]), float(row["high"]), row["basis"])
            for row in csv.DictReader(handle)
            if (row["material"], row["property"]) == ("beeswax-yellow", "latent-heat")
        ]
    (published,) = [(low, high) for low, high, basis in rows if basis == "published"]
    assert published == (168.1, 203.2)  # kJ/kg, abstract of a paper on four insect waxes
    assert thermal(TRADE, "beeswax-yellow").latent == pytest.approx((168.1e3, 203.2e3))


def test_shrinkage_of_water_freezing_is_a_gain():
    """Water of 999.8 kg/m3 gains 9 % as it becomes ice of 917 (all three from memory)."""
    assert shrinkage(999.8, 917) == pytest.approx(-0.09, abs=0.005)  # half of its last digit


def test_a_gain_and_a_loss_are_one_change():
    """What gains a quarter of its cold volume loses a fifth of its hot one."""
    assert shrinkage_of_gain(0.25) == pytest.approx(0.2)
    assert shrinkage(800, 1000) == pytest.approx(0.2)
