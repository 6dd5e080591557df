"""A pot on heat: the laws of its heat, its windows and ceilings, and what it is refused for."""

from __future__ import annotations

import dataclasses
import json
import math

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from formulas import session
from formulas.answer import Band, Unknown
from formulas.catalog import load
from formulas.entries import Fact
from formulas.fault import OutOfRange, UnknownName
from formulas.heat import (
    bath_goal,
    blend_shrinkage,
    melt_heat,
    solid_heat,
    surface_sink,
    top_up_mass,
    warm_volume,
)
from formulas.melt import STAY, melt
from formulas.pot import Heating
from formulas.refusals import HeatRefused, heat_verdict
from formulas.thermal import thermal
from formulas.windows import below_flash, whole_above, whole_below, window, window_floor
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


# Windows and ceilings


def windowed(parts, purpose, bath=False):
    """Give the window of a blend."""
    return window(TRADE, [thermal(TRADE, name) for name in parts], purpose, bath=bath)


def test_three_windows_not_one():
    """Make-up lies above the colour limit on purpose; colour never governs, in no window."""
    make_up, holding, tip = (windowed(FOUR_ONE, one) for one in ("make-up", "holding", "touch-up"))
    assert (make_up.floor, make_up.governing.limit) == TRADE.span("make-up-window", "degC")
    assert (holding.floor, holding.governing.limit) == TRADE.span("holding-window", "degC")
    assert tip.governing.limit == TRADE.span("iron-tip-limit", "degC")[1]
    colour = TRADE.span("colour-limit", "degC")[1]
    assert make_up.floor > colour
    for found in (make_up, holding, tip):
        assert "colour" not in {one.id for one in found.ceilings}
    found = energy(purpose="make-up", heating=THERMOSTAT)
    assert found["quality_limit"]["limit"].value == colour


@pytest.mark.parametrize("purpose", ["make-up", "holding", "touch-up"])
@pytest.mark.parametrize("bath", [True, False])
def test_the_lowest_ceiling_governs(purpose, bath):
    """Whatever the blend, what governs is the lowest, and each ceiling has its basis."""
    for name in TRADE.materials:
        found = windowed([name], purpose, bath)
        assert found.governing.limit == min(one.limit for one in found.ceilings)
        assert all(one.basis for one in found.ceilings)


def test_the_lowest_flash_point_counts_whatever_its_basis():
    """The worst row counts; with a worse one the flash point governs, less the margin."""
    assert thermal(TRADE, "gum-rosin").flash == 187  # from memory; the other row is 187.8
    worse = Fact(
        "gum-rosin", "flash-point", 110, 112, "degC", "closed-cup", "", "invented", "", "", ""
    )
    spoiled = dataclasses.replace(TRADE, facts=[*TRADE.facts, worse])
    found = window(spoiled, [thermal(spoiled, name) for name in FOUR_ONE], "make-up", bath=False)
    assert found.governing.id == "flash-point"
    assert found.governing.limit == pytest.approx(110 - 16.7)
    assert "not a safe margin" in found.governing.note
    with pytest.raises(HeatRefused):
        melt(spoiled, FOUR_ONE, total_g=400, purpose="make-up", heating=THERMOSTAT)


def test_an_unknown_flash_point_is_said_and_not_filled_in():
    """A blend with it has no cap from it, and the answer names the material."""
    assert thermal(TRADE, "venice-turpentine").flash is None
    found = windowed({"venice-turpentine": 1.0}, "holding")
    assert "flash-point" not in {one.id for one in found.ceilings}
    assert any("the flash point of Venice turpentine" in one.what for one in found.unknown)


def test_the_over_temperature_ceiling_stands_in_every_pot():
    """120 degC with its cut-out stands among the ceilings of any pot, not of the iron."""
    for purpose in ("make-up", "holding"):
        (over,) = [one for one in windowed(FOUR_ONE, purpose).ceilings if "over" in one.id]
        assert over.limit == 120
        assert "separate cut-out at 130 °C" in over.note
    assert "over-temperature" not in {one.id for one in windowed(FOUR_ONE, "touch-up").ceilings}


@given(st.lists(st.floats(40, 130), max_size=5))
def test_a_floor_lies_in_its_window_or_says_there_is_none(owns):
    """The floor is the window's low end or a component's own, and passes the window only
    where every component does.
    """
    floor = window_floor(75, 90, owns)
    assert floor >= 75
    assert floor == 75 or floor in owns
    assert (floor > 90) == (bool(owns) and min(owns) > 90)
    assert all(own <= floor for own in owns if own <= 90)


def test_what_melts_above_the_window_is_said():
    """Carnauba in beeswax dissolves earlier: how far is not known. Alone it has no holding heat."""
    found = windowed({"beeswax-yellow": 9.0, "carnauba": 1.0}, "holding")
    assert found.floor == 75
    assert any("Carnauba wax dissolves here" in one.what for one in found.unknown)
    with pytest.raises(HeatRefused, match="nothing keeps this blend molten") as refused:
        melt(TRADE, {"carnauba": 1.0}, total_g=100, purpose="holding", heating=BATH)
    assert refused.value.reason == "empty"


def test_a_resin_counts_while_it_is_dissolved():
    """The hardest rosin ester lifts the floor of make-up, and not that of holding."""
    blend = {"beeswax-yellow": 4.0, "rosin-pentaerythritol-ester": 1.0}
    made = windowed(blend, "make-up")
    margin = TRADE.span("melt-margin", "delta_degC")[1]
    assert made.floor == 110 + margin  # upper end of ring and ball, from memory
    assert made.floor_by == "rosin-pentaerythritol-ester"
    assert windowed(blend, "holding").floor == 75


@given(st.floats(0, 400))
def test_a_printed_ceiling_is_never_above_and_a_floor_never_below(heat):
    """Rounding for print goes to the side that is no danger."""
    assert float(whole_below(heat)) <= heat + 1e-9
    assert float(whole_above(heat)) >= heat - 1e-9
    assert whole_below(below_flash(187, 16.3)) == "170"  # 170.7 would round to 171


# Refusals


REFUSED = [
    ("ceiling", {"to": 95.0, "purpose": "holding"}, THERMOSTAT),
    ("floor", {"to": 95.0}, THERMOSTAT),  # above holding: make-up, which begins at 100
    ("ceiling", {"to": 116.0}, THERMOSTAT),
    ("ceiling", {"to": 121.0}, THERMOSTAT),
    ("floor", {"to": 74.0}, BATH),
    ("bath", {"purpose": "make-up"}, BATH),
    ("bath", {"to": 100.0}, BATH),
    ("bath", {"to": 108.0}, BATH),
    ("flame", {"purpose": "holding"}, Heating("flame")),
    ("flame", {"purpose": "holding"}, Heating("flame", bath_l=1.0)),
    ("hot-plate", {"purpose": "make-up"}, Heating("hot-plate")),
    ("wet", {"purpose": "holding"}, dataclasses.replace(THERMOSTAT, wet=True)),
    ("wet", {"purpose": "holding"}, dataclasses.replace(THERMOSTAT, wet=True, dried=True)),
    ("from-bath", {"purpose": "make-up"}, dataclasses.replace(THERMOSTAT, from_bath=True)),
    ("ceiling", {"purpose": "touch-up", "to": 151.0}, None),
]


@pytest.mark.parametrize(("reason", "asked", "heating"), REFUSED)
def test_a_pot_is_refused_with_its_reason(reason, asked, heating):
    """Each is refused by its own reason, in words that say what to do or where the limit lies."""
    with pytest.raises(HeatRefused) as refused:
        melt(TRADE, FOUR_ONE, total_g=400, heating=heating, **asked)
    assert refused.value.reason == reason
    said = str(refused.value)
    assert said.startswith("Refused: ")
    assert "{" not in said
    assert said.endswith(".")


def test_a_pot_wiped_dry_may_go_on():
    """From the bath, wiped dry, onto a thermostat: an answer, with the caution beside it."""
    dried = dataclasses.replace(THERMOSTAT, from_bath=True, dried=True)
    answer = melt(TRADE, FOUR_ONE, total_g=400, purpose="make-up", heating=dried)
    assert "wet-pot-direct-heat" in {one.id for one in answer.cautions}


def test_a_refusal_names_every_ceiling_above_which_a_heat_lies():
    """180 degC lies above window, over-temperature and flash point less margin: all are said."""
    with pytest.raises(HeatRefused) as refused:
        melt(TRADE, FOUR_ONE, total_g=400, to=180, heating=THERMOSTAT)
    for words in ("the upper end of make-up heat", "the over-temperature ceiling", "flash point"):
        assert words in str(refused.value)
    assert "fumes above all" not in str(refused.value)


@given(st.floats(0, 300), st.booleans())
def test_no_heat_at_or_above_a_limit_slips_through(heat, bath):
    """Nothing above the ceiling is accepted, and in a bath nothing at or above its own."""
    verdict = heat_verdict(heat, 75, 90, bath, 100)
    assert (verdict == "") == (75 - 1e-9 <= heat <= 90 + 1e-9)
    assert heat_verdict(heat, 50, 200, True, 100) != "" or heat < 100


@pytest.mark.parametrize(
    "name",
    ["turpentine", "white-spirit", "Spirit", "naphtha", "acetone", "ethanol", "isopropanol",
     "limonene", "heptane", "mineral-spirits", "gum_turpentine"],
)  # fmt: skip
def test_a_solvent_is_refused_as_what_it_is(name):
    """The reason of the caution is given, not that the name is unknown."""
    with pytest.raises(HeatRefused) as refused:
        melt(TRADE, {**FOUR_ONE, name: 1.0}, total_g=400, purpose="holding", heating=BATH)
    assert refused.value.reason == "solvent"
    assert TRADE.cautions["solvent-and-heat"].text in str(refused.value)


def test_a_balsam_is_no_solvent_and_a_misspelling_none_either():
    """Venice turpentine is allowed; an unknown name is said to be one."""
    blend = {**FOUR_ONE, "venice-turpentine": 0.1}
    assert melt(TRADE, blend, total_g=400, purpose="holding", heating=BATH)
    with pytest.raises(UnknownName, match="did you mean 'gum-rosin'"):
        melt(TRADE, {"gum-rosn": 1.0}, total_g=400, purpose="holding", heating=BATH)


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


# A session at the pot, and its sticks


def test_a_session_wants_its_plates_and_its_losses():
    """20 plates an hour for 4 hours at 1 g, a tenth strained off, a twentieth left in the pot."""
    # 80 g / (0.9 * 0.95) = 93.567 g
    made = session.session_wax(20 / 3600, 4 * 3600, 0.001, 0.1, 0.05)
    assert made * 0.9 * 0.95 == pytest.approx(0.08)


def test_the_figure_of_an_hour_is_worked_out_from_its_rows():
    """The derived row is what its own rows give, rounded outward to 0.1 g."""
    shares = [TRADE.span(name, "dimensionless") for name in ("straining-loss", "pot-loss")]
    rate, grams = TRADE.span("plates-an-hour", "dimensionless"), TRADE.span("wax-per-plate", "kg")
    low, high = (
        1000 * session.session_wax(rate[i] / 3600, 3600, grams[i], shares[0][i], shares[1][i])
        for i in (0, 1)
    )
    printed = TRADE.span("session-wax-hour", "g")
    assert printed[0] <= low < printed[0] + 0.1
    assert printed[1] - 0.1 < high <= printed[1]


def test_sticks_of_a_batch():
    """A mould of 100 by 10 by 10 mm holds 10 mL; 400 g of 950 kg/m3 fill 42 and a bit."""
    hollow = session.stick_volume(0.1, 0.01, 0.01)
    assert hollow == pytest.approx(1e-5)
    assert session.stick_mass(hollow, 950) == pytest.approx(0.0095)
    assert session.stick_count(0.4, hollow, 950) == 42  # 400 / 9.5 = 42.1


@given(st.floats(0.01, 5), st.floats(1e-6, 1e-4), st.floats(800, 1100))
def test_what_is_left_over_is_less_than_a_stick(mass, hollow, density):
    """Whole sticks never weigh more than the batch, and one more would."""
    count, each = session.stick_count(mass, hollow, density), session.stick_mass(hollow, density)
    assert count * each <= mass * (1 + 1e-9)
    assert (count + 1) * each > mass * (1 - 1e-9)


def test_the_figure_of_a_stick_is_worked_out_from_its_rows():
    """The mould of the figures and the cold density of beeswax give the printed grams."""
    sides = [TRADE.span(f"stick-mould-{one}", "m")[0] for one in ("length", "width", "depth")]
    low, high = (
        1000 * session.stick_mass(session.stick_volume(*sides), density)
        for density in thermal(TRADE, "beeswax-yellow").density
    )
    assert TRADE.span("stick-wax", "g") == pytest.approx((low, high))
