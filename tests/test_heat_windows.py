"""The three heat windows, the ceilings above them, and what a pot is refused for."""

from __future__ import annotations

import dataclasses
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulas.catalog import load
from formulas.entries import Fact
from formulas.fault import UnknownName
from formulas.melting.melt import melt
from formulas.melting.pot import Heating
from formulas.melting.refusals import HeatRefused, heat_verdict
from formulas.melting.thermal import thermal
from formulas.melting.windows import below_flash, whole_above, whole_below, window, window_floor
from site_builder.markup.elements import plain
from site_builder.parts import registry

TRADE = load(None)
FOUR_ONE = {"beeswax-yellow": 4.0, "gum-rosin": 1.0}
BATH = Heating("bath", 300.0, [("aluminium", 350.0)], 1.5, 18.0)
THERMOSTAT = Heating("thermostat", 300.0, [("aluminium", 350.0)], None, 18.0)


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
    found = melt(TRADE, FOUR_ONE, purpose="make-up", heating=THERMOSTAT)
    assert found.answer["quality_limit"]["limit"].value == colour


def test_peas_in_a_bath_have_a_window_of_their_own():
    """From where rosin counts as dissolved, with the margin, to the end of holding."""
    margin = TRADE.span("melt-margin", "delta_degC")[1]
    floor = thermal(TRADE, "gum-rosin").floor
    ends = (floor + margin, TRADE.span("holding-window", "degC")[1])
    assert TRADE.span("peas-in-bath", "degC") == ends
    held = windowed(FOUR_ONE, "holding", bath=True)
    assert held.floor < ends[0] < held.governing.limit


def test_what_the_thermometer_shows_goes_by_the_windows():
    """Each end of a window stands in the table, and a reading between them has its row."""
    (table,) = registry.place(TRADE, "thermometer-shows", "")
    rows = [[plain(cell) for cell in row] for row in table.iter("tr")][1:]
    ends = [*TRADE.span("holding-window", "degC"), *TRADE.span("make-up-window", "degC")]
    for end in ends:
        assert any(re.search(rf"\b{end:g}\b", shown) for shown, _ in rows), end
    (between,) = [told for shown, told in rows if shown.startswith("above 90 °C, in a water bath")]
    for said in ("No more peas", "off at the wall", "dry lid on", "from the side", "call"):
        assert said in between


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
