"""What the leaf of the shop's tests shows: every test, why one does not count, what they taught."""

from __future__ import annotations

import dataclasses
import re

import pytest
from softening_rows import creep, firmer, read, shop_with

from formulas.catalog import load
from formulas.softening import estimate as softening
from site_builder.parts import learned_charts, registry
from site_builder.parts.charts import Plot

TRADE = load(None)
ROWS = [
    read("d1", "beeswax-yellow", 64.5, session="a"),
    read("d2", "beeswax-rosin-4-1", 61.0, session="a"),
    dataclasses.replace(read("d3", "beeswax-rosin-2-1", 40.0), left_out="bath boiled dry"),
    creep("c1", "beeswax-rosin-4-1", 45, 50, session="b"),
    creep("c2", "beeswax-rosin-4-1", 50, None, own_stress=100, session="b"),
    firmer("f1", "beeswax-rosin-4-1", "beeswax-rosin-1-1", session="b"),
]
SHOP = shop_with(TRADE, ROWS)


def drawn(name, argument="", catalog=SHOP):
    """Give all text of one placed part."""
    return " ".join(
        " ".join("".join(piece.itertext()).split())
        for piece in registry.place(catalog, name, argument)
    )


def test_every_test_stands_in_the_table():
    """No test is left out of sight, whatever it counts for."""
    shown = drawn("softening-tests")
    for row in ROWS:
        assert row.test in shown


def test_what_does_not_count_says_why():
    """A test left out by the shop, and one at a stress that tells nothing, carry their reason."""
    shown = drawn("softening-tests")
    assert "left out by the shop: bath boiled dry" in shown
    assert "at 100 Pa it tells nothing of 250 Pa" in shown


def test_a_shop_without_tests_is_told_the_cheapest():
    """Before the first test the leaf says which to make, and that it needs no thermometer."""
    assert "needs no thermometer" in drawn("softening-tests", catalog=TRADE)


def test_the_table_of_now_is_the_answer_s():
    """For each method the leaf counts the tests that the model counts."""
    shown = drawn("softening-now", "beeswax-rosin-4-1")
    for name, count in (("drop-point", 2), ("step-creep", 2), ("step-creep-zinc", 2)):
        assert softening.model(SHOP, name).tests == count
    assert shown.count("2 tests of this shop") == 3


def test_no_test_is_asked_for_that_a_wax_rich_blend_cannot_stand():
    """Four parts of wax to one of rosin leave the ring, so ring and ball names no next test."""
    shown = drawn("softening-now", "beeswax-rosin-4-1")
    assert shown.count("none: too much wax for this test") == 1
    assert "too much rosin" not in shown


def test_no_test_is_asked_for_that_a_rosin_rich_blend_cannot_stand():
    """More rosin than wax draws a thread, so drop and congealing point name no next test."""
    rich = {"beeswax-yellow": 1.0, "gum-rosin": 2.0}
    blend = dataclasses.replace(SHOP.blends["beeswax-rosin-1-1"], parts=rich)
    catalog = dataclasses.replace(SHOP, blends={**SHOP.blends, blend.id: blend})
    shown = drawn("softening-now", blend.id, catalog)
    assert shown.count("none: too much rosin for this test") == 2
    assert "too much wax" not in shown


@pytest.mark.parametrize("method", ["drop-point", "step-creep"])
def test_the_chart_has_a_mark_for_each_test_of_wax_with_rosin(method):
    """A point for a reading at its place, a bar for bounds, and the dotted band before."""
    chart = learned_charts.learned(SHOP, method)
    circles = list(chart.iter("circle"))
    assert len(circles) == (2 if method == "drop-point" else 0)
    said = chart.findtext("desc") or ""
    for row in ROWS:
        counts = row.method == method and not row.left_out and row.result != "firmer"
        counts = counts and row.own_stress in (None, 250)
        assert (f"{row.test} at" in said) == counts
    dotted = [one for one in chart.iter("polyline") if one.get("stroke-dasharray") == "1.5 3"]
    assert len(dotted) == 2


def test_a_point_lies_where_it_was_read():
    """The drop point of four to one stands at 20 % rosin and 61 degrees."""
    chart = learned_charts.learned(SHOP, "drop-point")
    numbers = [one for one in chart.iter("text") if re.fullmatch(r"\d+", one.text or "")]
    ups = sorted(float(one.text) for one in numbers if one.get("text-anchor") == "end")
    plot = Plot((0, 100), (ups[0], ups[-1]))
    places = [(float(one.get("cx")), float(one.get("cy"))) for one in chart.iter("circle")]
    assert any(place == pytest.approx(plot.at(20, 61.0), abs=0.06) for place in places)


def test_the_band_now_lies_inside_the_band_before():
    """At the tested share the hatched band is the narrower one."""
    row = {"beeswax-yellow": 0.8, "gum-rosin": 0.2}
    now = softening.estimate(SHOP, row, "drop-point")
    before = softening.estimate(TRADE, row, "drop-point")
    assert now.high - now.low < before.high - before.low
