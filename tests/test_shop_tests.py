"""The shop's own softening tests in the answer of `soften`: what counts, for what, and how much."""

from __future__ import annotations

import dataclasses

import pytest
from softening_rows import creep, firmer, read, shop_with

from formulas.answer import Band, Unknown
from formulas.catalog import load
from formulas.entries import Lot
from formulas.softening.estimate import model
from formulas.softening.soften import soften

TRADE = load(None)
FOUR_ONE = {"beeswax-yellow": 4, "gum-rosin": 1}


def answered(rows, **asked):
    """Ask a shop that made these tests for the four-to-one blend."""
    return soften(shop_with(TRADE, rows), FOUR_ONE, blend="beeswax-rosin-4-1", **asked).answer


def half(band):
    """Give half the width of a band."""
    return (band.high - band.low) / 2


def test_a_reading_narrows_the_band_of_its_method_alone():
    """A drop point moves the drop point's band and no other method's."""
    before, after = answered([]), answered([read("t1", "beeswax-rosin-4-1", 60.0)])
    assert after["tests_used"] == 1
    assert half(after["softening"]) < half(before["softening"])
    for method in ("congealing-point", "ring-and-ball", "step-creep"):
        assert after["by_method"][method] == before["by_method"][method]


def test_fahrenheit_and_celsius_tell_the_same():
    """A reading in degrees Fahrenheit is the reading in degrees Celsius."""
    celsius = answered([read("t1", "beeswax-rosin-4-1", 60.0)])["softening"]
    fahrenheit = answered([read("t1", "beeswax-rosin-4-1", 140.0, unit="degF")])["softening"]
    assert fahrenheit.low == pytest.approx(celsius.low)


def test_a_test_left_out_is_named_with_its_reason():
    """What the shop leaves out does not count, and the answer says so."""
    row = dataclasses.replace(read("t1", "beeswax-rosin-4-1", 60.0), left_out="bath boiled dry")
    found = answered([row])
    assert found["tests_used"] == 0
    assert found["tests_aside"] == [{"test": "t1", "why": "left out by the shop: bath boiled dry"}]
    assert found["softening"] == answered([])["softening"]


@pytest.mark.parametrize(
    ("stress", "load", "low", "high", "counts"),
    [
        (250, 1, 50, None, True),  # held at the stress asked for
        (250, 3, 50, None, True),  # held at three times as much
        (250, 3, None, 50, False),  # moved at three times as much: tells nothing of one
        (150, 1, None, 50, True),  # moved at less: would have moved at this
        (150, 1, 50, None, False),  # held at less: tells nothing of more
        (260, 1, None, 50, True),  # as good as the same stress
    ],
)
def test_creep_bears_on_a_stress_by_what_must_be_so(stress, load, low, high, counts):
    """More stress held says that less is; less stress that moved says that more would."""
    row = creep("t1", "beeswax-rosin-4-1", low, high, own_stress=stress, load=load)
    found = answered([row], method="step-creep")
    assert found["tests_used"] == counts
    assert bool(found["tests_aside"]) != counts


def test_zinc_asks_for_more_than_aluminium():
    """A step held under an aluminium plate says nothing of zinc; one that moved does."""
    held = creep("t1", "beeswax-rosin-4-1", 50, None)
    moved = creep("t1", "beeswax-rosin-4-1", None, 50)
    assert answered([held], method="step-creep-zinc")["tests_used"] == 0
    assert answered([moved], method="step-creep-zinc")["tests_used"] == 1
    by_zinc = answered([moved], method="step-creep-zinc")["softening"]
    assert by_zinc.high < answered([], method="step-creep-zinc")["softening"].high


def test_creep_of_another_ratio_is_not_known_before_a_test():
    """How the ratio moves creep is not known, so only about a fifth of rosin has a band."""
    there = soften(TRADE, FOUR_ONE, method="step-creep").answer["softening"]
    elsewhere = soften(TRADE, {"beeswax-yellow": 1, "gum-rosin": 1}, method="step-creep").answer
    # From memory: 50 +- 8 degC as one standard deviation, so a 95 % band of 15.7 each way.
    assert (there.low, there.high) == pytest.approx((50 - 15.68, 50 + 15.68))
    assert isinstance(elsewhere["softening"], Unknown)


def test_no_chance_by_a_method_that_is_not_service():
    """A drop point gives no chance to hold a temperature, whatever was tested."""
    rows = [read(f"t{i}", "beeswax-rosin-4-1", 60.0 + i) for i in range(4)]
    found = answered(rows, floor=45.0, method="drop-point")["floor"]
    assert isinstance(found, Unknown)
    assert "not a service temperature" in found.what
    assert isinstance(answered(rows, floor=45.0)["floor"], Unknown)


def test_creep_tests_give_a_chance_that_falls_with_the_floor():
    """After creep tests the chance is there, high for a low floor and low for a high one."""
    rows = [creep(f"t{i}", "beeswax-rosin-4-1", 50, 55, session=f"s{i}") for i in range(4)]
    chances = [answered(rows, floor=floor)["floor"]["chance"] for floor in (40, 52, 65)]
    assert chances == sorted(chances, reverse=True)
    assert chances[0] > 0.9
    assert chances[2] < 0.1


def test_without_a_test_nobody_can_tell_the_firmer():
    """Two blends are compared by tests, never by tables alone."""
    assert isinstance(answered([], against="beeswax-rosin-10-1")["against"], Unknown)


def test_side_by_side_tells_the_firmer():
    """One blend that outlasts the other again and again is called the firmer, and not before."""
    rows = [
        firmer(f"t{i}", "beeswax-rosin-4-1", "beeswax-rosin-10-1", session=f"s{i}")
        for i in range(6)
    ]
    few = answered(rows[:1], against="beeswax-rosin-10-1", method="step-creep")["against"]
    many = answered(rows, against="beeswax-rosin-10-1", method="step-creep")["against"]
    assert few["chance_firmer"] < many["chance_firmer"]
    assert many["verdict"] == "firmer"
    turned = [dataclasses.replace(row, sample=row.other, other=row.sample) for row in rows]
    other = answered(turned, against="beeswax-rosin-10-1", method="step-creep")["against"]
    assert other["verdict"] == "softer"
    assert other["chance_firmer"] == pytest.approx(1 - many["chance_firmer"])


def test_the_reference_is_asked_for_where_it_is_missing():
    """A newest session without plain beeswax asks for it; with it, it does not."""
    lone = [read("t1", "beeswax-rosin-4-1", 60.0)]
    found = answered(lone)
    assert found["reference"]["material"] == "beeswax-yellow"
    assert found["reference"]["half_width_after"] < half(found["softening"])
    assert answered([*lone, read("t2", "beeswax-yellow", 64.0)])["reference"] is None


def test_a_drop_point_counts_for_creep_only_where_asked():
    """Methods stay apart; with the bridge a drop point narrows creep, and the basis says so."""
    shop = shop_with(TRADE, [read("t1", "beeswax-rosin-4-1", 66.0)])
    apart = soften(shop, FOUR_ONE, method="step-creep")
    across = soften(shop, FOUR_ONE, method="step-creep", bridge=True)
    assert apart.answer["tests_used"] == 0
    assert across.answer["tests_used"] == 1
    assert half(across.answer["softening"]) < half(apart.answer["softening"])
    assert any("Drop point above step creep" in one.what for one in across.basis)


@pytest.mark.parametrize("drop", [55.0, 66.0, 80.0])
def test_a_bridged_drop_point_speaks_for_less(drop):
    """From memory a drop point lies 7 to 23 degC above creep, so it pulls creep toward its own
    value less 15: up from 50 where that is more, down where it is less.
    """
    rows = [read(f"t{i}", "beeswax-rosin-4-1", drop, session=f"s{i}") for i in range(4)]
    middle = answered(rows, method="step-creep", bridge=True)["softening"].estimate
    assert (middle > 50) == (drop - 15 > 50)
    assert abs(middle - 50) < abs(drop - 15 - 50)


def test_a_target_is_answered_with_what_cannot_be_ruled_out():
    """With tests a crossing may be given, never without the range beside it."""
    rows = [read("t1", "beeswax-yellow", 64.0), read("t2", "beeswax-rosin-1-1", 56.0)]
    found = answered(rows, target=60.0)
    assert found["not_ruled_out"]
    for crossing in found["crossings"]:
        assert any(one["low"] <= crossing["share"] <= one["high"] for one in found["not_ruled_out"])


def test_unnamed_lots_count_as_one():
    """What was not written down is not taken for many independent lots."""
    rows = [read(f"t{i}", "beeswax-rosin-4-1", 60.0, session=f"s{i}") for i in range(4)]
    lots = {
        f"L{i}": Lot(f"L{i}", "gum-rosin" if i % 2 else "beeswax-yellow", "", 1, "kg", "", "")
        for i in range(8)
    }
    named = [
        dataclasses.replace(row, lots=f"L{2 * i} L{2 * i + 1}") for i, row in enumerate(rows[:2])
    ]
    shop = dataclasses.replace(TRADE, lots=lots)
    by_names = soften(shop_with(shop, named), FOUR_ONE).answer["softening"]
    unnamed = soften(shop_with(shop, rows[:2]), FOUR_ONE).answer["softening"]
    assert half(by_names) < half(unnamed)


def test_a_lot_that_stands_apart_shows():
    """A lot that reads ten degrees low again and again is found to shift its material down."""
    lots = {"old": Lot("old", "beeswax-yellow", "", 1, "kg", "", "")}
    lots["new"] = dataclasses.replace(lots["old"], lot="new")
    rows = [
        dataclasses.replace(
            read(f"{lot}{i}", "beeswax-yellow", value, session=f"s{i}"), lots=lot, checked=True
        )
        for i in range(8)
        for lot, value in (("old", 64.0), ("new", 56.0))
    ]
    shop = shop_with(dataclasses.replace(TRADE, lots=lots), rows)
    shifts = {one["lot"]: one["shift"] for one in soften(shop, FOUR_ONE).answer["lots"]}
    assert shifts["new"].high < 0
    assert shifts["new"].estimate < shifts["old"].estimate - 2


def test_a_sample_that_cannot_be_placed_is_set_aside():
    """A test of a wax with no known end, or with much oil, is named and does not count."""
    dammar = read("t1", "beeswax-dammar-8-1", 60.0)
    found = soften(shop_with(TRADE, [dammar]), FOUR_ONE).answer
    assert found["tests_used"] == 0
    assert "dammar" in found["tests_aside"][0]["why"]


def test_a_new_lot_widens_the_band():
    """The band of a batch from new lots is wider than that of the blend."""
    found = answered([read("t1", "beeswax-rosin-4-1", 60.0)])
    assert isinstance(found["next_lot"], Band)
    assert half(found["next_lot"]) > half(found["softening"])


def test_the_model_is_learned_once():
    """Asked again, the same tables give the same model without new work; changed ones do not."""
    shop = shop_with(TRADE, [read("t1", "beeswax-rosin-4-1", 60.0)])
    assert model(shop, "drop-point") is model(shop, "drop-point")
    assert model(shop_with(shop, []), "drop-point").tests == 0


@pytest.mark.parametrize(
    "asked", [{"floor": 900.0}, {"width": 0.0}, {"target": -50.0}], ids=lambda a: next(iter(a))
)
def test_a_question_no_wax_can_meet_is_refused(asked):
    """Each question names what it accepts."""
    with pytest.raises(ValueError, match=f"{next(iter(asked))}: found .* accepted: degC from"):
        answered([], **asked)
