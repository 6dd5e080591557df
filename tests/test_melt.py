"""A pot on heat: the laws of its heat, its windows and ceilings, and what it is refused for."""

from __future__ import annotations

import dataclasses
import json
import math

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from formulas.answer import Band, Unknown
from formulas.catalog import load
from formulas.fault import OutOfRange, UnknownName
from formulas.melting.heat import (
    bath_goal,
    blend_shrinkage,
    melt_heat,
    solid_heat,
    surface_sink,
    top_up_mass,
    warm_volume,
)
from formulas.melting.melt import STAY, melt
from formulas.melting.pot import Heating
from formulas.melting.thermal import thermal
from site_builder.commands import main
from site_builder.texts import melt as text

TRADE = load(None)
FOUR_ONE = {"beeswax-yellow": 4.0, "gum-rosin": 1.0}
BATH = Heating("bath", 300.0, [("aluminium", 350.0)], 1.5, 18.0)
THERMOSTAT = Heating("thermostat", 300.0, [("aluminium", 350.0)], None, 18.0)
HEATS = st.floats(75, 90)


def energy(**changes):
    """Give the heat of a pot of 400 g, 4 to 1, held in a water bath, with changes."""
    asked = {"total_g": 400.0, "purpose": "holding", "heating": BATH, **changes}
    return melt(TRADE, FOUR_ONE, **asked).answer


def ends(band):
    """Give the ends of a band."""
    return band.low, band.high


# Laws of heat


@given(st.floats(1, 5000), HEATS)
def test_twice_the_wax_takes_twice_the_heat(total, heat):
    """The heat of the wax doubles with its mass, and that of vessel and bath stays."""
    one, two = (energy(total_g=mass, to=heat)["energy"] for mass in (total, 2 * total))
    for part in ("solid", "latent", "melt"):
        assert ends(two[part]) == pytest.approx([2 * end for end in ends(one[part])])
    for part in ("vessel", "bath"):
        assert ends(two[part]) == ends(one[part])


@given(st.floats(10, 2500))
def test_twice_the_power_takes_half_the_time(power):
    """Time and power make one product; without a power there is no time, and it is said."""
    slow, fast = (
        energy(heating=dataclasses.replace(BATH, power_w=watts))["time"]
        for watts in (power, 2 * power)
    )
    assert ends(slow) == pytest.approx([2 * end for end in ends(fast)])
    assert isinstance(energy(heating=dataclasses.replace(BATH, power_w=None))["time"], Unknown)


def test_nothing_to_do_takes_nothing():
    """A pot that starts molten at the heat wanted takes no heat, and needs no time."""
    ready = dataclasses.replace(THERMOSTAT, start=80.0)
    found = energy(heating=ready, to=80.0)
    assert ends(found["energy"]["together"]) == (0, 0)
    assert ends(found["time"]) == (0, 0)


@given(st.floats(70, 75))
def test_molten_wax_takes_no_latent_heat(start):
    """From the upper end of the melting range on only the melt is warmed."""
    found = energy(heating=dataclasses.replace(BATH, start=start))["energy"]
    assert ends(found["latent"]) == (0, 0)
    wax = found["components"][0]
    assert ends(wax["solid"]) == (0, 0)


@given(st.floats(46, 69))
def test_half_molten_wax_takes_some_of_it(start):
    """Within the melting range it is not known how much is left: from nought to all."""
    least, most = ends(energy(heating=dataclasses.replace(BATH, start=start))["energy"]["latent"])
    assert least == 0
    assert most == pytest.approx(0.32 * 203.2)  # kJ: four fifths of 400 g, published upper end


@given(st.floats(-20, 70), HEATS, HEATS)
def test_more_heat_takes_more(start, one, other):
    """Every part of the heat grows with the heat wanted, and no least passes its most."""
    low, high = sorted((one, other))
    cold = dataclasses.replace(BATH, start=start)
    less, more = (energy(heating=cold, to=heat)["energy"] for heat in (low, high))
    for part in ("solid", "latent", "melt", "vessel", "bath", "together"):
        assert less[part].low <= less[part].high
        assert less[part].low <= more[part].low + 1e-9
        assert less[part].high <= more[part].high + 1e-9


@given(st.floats(20, 89), st.floats(20, 89))
def test_two_warmings_are_one(start, between):
    """What is warmed in two steps takes as much as in one, where it is certain what melts."""
    first, second = sorted((start, between))
    whole = solid_heat(0.4, 2000, first, 90, 70) + melt_heat(0.4, 2000, first, 90, 70)
    steps = sum(
        solid_heat(0.4, 2000, *step, 70) + melt_heat(0.4, 2000, *step, 70)
        for step in ((first, second), (second, 90))
    )
    assert steps == pytest.approx(whole)


def test_rosin_takes_no_latent_heat():
    """Rosin is a glass: heat capacity alone, and the answer says so."""
    answer = melt(TRADE, {"gum-rosin": 1.0}, total_g=100, purpose="make-up", heating=THERMOSTAT)
    found = answer.answer["energy"]
    assert ends(found["latent"]) == (0, 0)
    assert ends(found["solid"]) == pytest.approx((0.1 * 1.8 * 82, 0.1 * 2.3 * 82))  # kJ, 18 to 100
    assert any("it is a glass" in note for note in answer.notes)


def test_no_resin_and_no_liquid_takes_latent_heat():
    """By its kind, not by its rows: none is drawn in where a resin has no row of its own."""
    for name, material in TRADE.materials.items():
        most = thermal(TRADE, name).latent[1]
        assert (most == 0) == (material.kind in {"resin", "balsam", "oil"}), name


def test_a_bath_and_its_vessel_by_hand():
    """1.5 L from 18 degC to 2 or 10 above the wax's 75, and 350 g of aluminium with it."""
    found = energy()["energy"]
    # 1.5 L of 998 kg/m3, 4.17 or 4.22 kJ/(kg K); 0.35 kg of 0.9 kJ/(kg K)
    assert ends(found["bath"]) == pytest.approx((1.497 * 4.17 * 59, 1.497 * 4.22 * 67))
    assert ends(found["vessel"]) == pytest.approx((0.35 * 0.9 * 59, 0.35 * 0.9 * 67))
    dry = energy(heating=THERMOSTAT)["energy"]
    assert ends(dry["bath"]) == (0, 0)
    assert ends(dry["vessel"]) == pytest.approx((0.35 * 0.9 * 57,) * 2)  # as warm as the wax


def test_no_bath_is_counted_above_its_ceiling():
    """At 90 degC a bath that leads by ten ends at 100, and one that would lead more as well."""
    found = energy(to=90.0)["energy"]
    assert found["bath"].high == pytest.approx(1.497 * 4.22 * (100 - 18))
    assert bath_goal(95, 10, 100) == 100


def test_the_parts_add_up():
    """Components add up to the parts of the wax, and all parts to the whole."""
    found = energy()["energy"]
    for part in ("solid", "latent", "melt"):
        for end in (0, 1):
            each = sum(ends(one[part])[end] for one in found["components"])
            assert each == pytest.approx(ends(found[part])[end])
    for end in (0, 1):
        parts = ("solid", "latent", "melt", "vessel", "bath")
        whole = ends(found["together"])[end]
        assert sum(ends(found[part])[end] for part in parts) == pytest.approx(whole)


def test_what_is_not_known_is_counted_wide_and_told():
    """A wax without heats of its own is counted between the ends of the tables, and it is said."""
    one = thermal(TRADE, "candelilla")
    known = [thermal(TRADE, name) for name in ("beeswax-yellow", "gum-rosin", "paraffin")]
    assert one.heat == (min(k.heat[0] for k in known), max(k.heat[1] for k in known))
    assert one.latent == (0.0, max(k.latent[1] for k in known))
    answer = melt(TRADE, {"candelilla": 1.0}, total_g=100, purpose="holding", heating=BATH)
    assert any(note.startswith("Not known of Candelilla wax:") for note in answer.notes)


def test_every_time_is_no_reason_to_leave():
    """The words stand with every answer that gives a time, in every window."""
    for purpose, heating in (("holding", BATH), ("make-up", THERMOSTAT)):
        answer = melt(TRADE, FOUR_ONE, total_g=400, purpose=purpose, heating=heating)
        assert isinstance(answer.answer["time"], Band)
        assert STAY in answer.notes
        shown = " ".join(" ".join(text.text(answer, TRADE)).split())
        assert STAY in shown


# Volume


@given(st.lists(st.tuples(st.floats(0.1, 9), st.floats(0, 0.3)), min_size=1, max_size=5))
def test_a_blend_loses_between_its_components(parts):
    """The loss of a blend lies between its least and its most, and the volumes bear it out."""
    volumes, shrinks = [one for one, _ in parts], [one for _, one in parts]
    lost = blend_shrinkage(volumes, shrinks)
    assert min(shrinks) - 1e-9 <= lost <= max(shrinks) + 1e-9
    assert warm_volume(volumes, shrinks) * (1 - lost) == pytest.approx(sum(volumes))


@given(st.floats(0.01, 9), st.floats(0, 0.4))
def test_the_top_up_fills_the_sink(mass, lost):
    """Batch and top-up together, cold, fill what the batch alone filled hot."""
    cold = 1 - lost  # of one volume hot
    assert (mass + top_up_mass(mass, lost)) * cold == pytest.approx(mass)


def test_twice_the_width_sinks_a_quarter():
    """The sink goes by the area of the pot; the lost volume is sink times area."""
    narrow, wide = surface_sink(0.1, 0.0005, 0.1), surface_sink(0.1, 0.0005, 0.2)
    assert narrow == pytest.approx(4 * wide)
    assert narrow * math.pi * 0.05**2 == pytest.approx(0.1 * 0.0005)


def test_without_a_width_there_is_no_sink():
    """It is said what to measure."""
    assert isinstance(energy()["sink"], Unknown)
    sink = energy(width_mm=110.0)["sink"]
    assert sink["mean"].low == sink["middle"].low < sink["mean"].high < sink["middle"].high


# What is asked


@pytest.mark.parametrize(
    "asked",
    [
        {"total_g": 0.0},
        {"total_g": 20001.0},
        {"heating": dataclasses.replace(BATH, power_w=1.0)},
        {"heating": dataclasses.replace(BATH, bath_l=None)},
        {"heating": dataclasses.replace(BATH, bath_l=51.0)},
        {"heating": dataclasses.replace(BATH, start=76.0)},
        {"heating": dataclasses.replace(BATH, vessels=[("steel", 0.0)])},
        {"width_mm": 5.0},
        {"purpose": ""},
        {"to": float("nan")},
        {"total_g": float("inf")},
    ],
)
def test_figures_of_no_use_are_out_of_range(asked):
    """What no bench has is refused with what is accepted."""
    with pytest.raises(OutOfRange):
        energy(**asked)


@pytest.mark.parametrize(
    "asked",
    [
        {"purpose": "frying"},
        {"heating": Heating("stove")},
        {"heating": Heating("thermostat", vessels=[("tin", 100.0)])},
    ],
)
def test_an_unknown_choice_is_said(asked):
    """A purpose, a heater and a vessel are names of a list."""
    with pytest.raises(UnknownName):
        energy(**asked)


# The command


def run(*words):
    """Run the command on 4 to 1."""
    return CliRunner().invoke(main, ["melt", "beeswax-rosin-4-1", *words])


def test_the_json_has_its_keys():
    """The keys other programs rely on are there."""
    made = run("--total", "400g", "--for", "holding", "--bath", "1.5L", "--power", "300W",
               "--vessel", "steel=200g", "--vessel", "steel=900g", "--width", "110mm",
               "--json")  # fmt: skip
    assert made.exit_code == 0, made.stderr
    found = json.loads(made.stdout)["answer"]
    wanted = {"energy", "time", "window", "ceilings", "quality_limit", "pot", "sink", "top_up"}
    assert wanted <= set(found)
    assert {"floor", "ceiling", "governed_by"} <= set(found["window"])
    (governs,) = [one for one in found["ceilings"] if one["governs"]]
    assert governs["id"] == found["window"]["governed_by"]
    assert governs["limit"] == found["window"]["ceiling"]
    assert found["energy"]["vessel"]["low"] > 0


@pytest.mark.parametrize(
    "words",
    [
        ("--to", "108C", "--bath", "1.5L"),
        ("--to", "95C", "--heater", "thermostat"),
        ("--for", "make-up", "--heater", "thermostat", "--from-bath"),
        ("--for", "make-up", "--heater", "thermostat", "--wet"),
        ("--for", "holding", "--heater", "hot-plate"),
        ("--for", "holding", "--heater", "flame", "--bath", "1L"),
        ("--for", "holding"),
        ("--bath", "1L"),
        ("--for", "holding", "--bath", "1L", "--heater", "thermostat"),
        ("--for", "holding", "--bath", "1"),
        ("--for", "holding", "--bath", "1kg"),
        ("--for", "holding", "--bath", "1L", "--power", "300"),
        ("--for", "touch-up", "--to", "160C"),
    ],
)
def test_a_refused_or_wrong_call_ends_with_two(words):
    """Exit code 2, the reason on standard error, and nothing that looks like an answer."""
    made = run("--total", "400g", *words)
    assert made.exit_code == 2
    assert made.stdout == ""
    assert made.stderr


def test_ounces_and_fahrenheit_ask_the_same():
    """14 oz at 176 degF is 396.893 g at 80 degC."""
    us = run("--total", "14oz", "--to", "176F", "--start", "64.4F", "--bath", "1L", "--json")
    metric = run("--total", "396.8933g", "--to", "80C", "--start", "18C", "--bath", "1L", "--json")
    one, other = (json.loads(made.stdout)["answer"]["energy"]["together"] for made in (us, metric))
    assert one["high"] == pytest.approx(other["high"], rel=1e-6)


def test_the_iron_has_a_window_and_no_pot():
    """Its tip ends at the limit of the tables; heat and pot are not answered for it."""
    made = run("--for", "touch-up", "--to", "140C", "--json")
    found = json.loads(made.stdout)["answer"]
    assert found["window"]["ceiling"]["value"] == TRADE.span("iron-tip-limit", "degC")[1]
    assert found["energy"]["known"] is False
    assert {"touch-up-iron", "rosin-fume"} <= {
        one["id"] for one in json.loads(made.stdout)["cautions"]
    }
