"""The charts: what is drawn agrees with the tables and the model, and reads without colour."""

from __future__ import annotations

import itertools
import re
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

import pytest

from formulas import catalog as catalogs
from formulas.softening import estimate as estimates
from site_builder.parts import charts
from site_builder.parts.charts import METHOD, ROSIN, STEPS, WAX, Plot

CATALOG = catalogs.load(None)
WIDEST_LETTER = 0.62  # of the font size: mean width of a sans-serif line, taken wide


@pytest.fixture(scope="module")
def chart() -> Element:
    """Draw the softening chart once."""
    return charts.softening(CATALOG)


def points(element: Element) -> list[tuple[float, float]]:
    """Read the points of a line or region."""
    pairs = [pair.split(",") for pair in element.get("points", "").split()]
    return [(float(x), float(y)) for x, y in pairs]


def frame(chart: Element) -> Plot:
    """Give the frame that the numbers at the axes belong to."""
    numbers = [text for text in chart.iter("text") if re.fullmatch(r"\d+", text.text or "")]
    ups = sorted(float(one.text or 0) for one in numbers if one.get("text-anchor") == "end")
    return Plot((0, 100), (ups[0], ups[-1]))


def test_only_the_view_box_says_how_large_it_is(chart):
    """No width or height stands at the root: each face gives its own."""
    assert chart.get("viewBox") == "0 0 340 282"
    assert not {"width", "height"} & set(chart.attrib)


def test_the_region_is_the_models_band(chart):
    """Each corner of the region is an end of the band at that share, to a tenth of a unit."""
    held = estimates.model(CATALOG, METHOD)
    region = next(one for one in chart.iter("polygon") if len(points(one)) > 10)
    corners, plot = points(region), frame(chart)
    assert len(corners) == 2 * (STEPS + 1)
    for step in (0, 10, 25, 40, STEPS):
        share = step / STEPS
        band = estimates.cut(CATALOG, held, {WAX: 1 - share, ROSIN: share}).band(METHOD)
        for corner, end in ((corners[step], band.low), (corners[-1 - step], band.high)):
            assert corner == pytest.approx(plot.at(100 * share, end), abs=0.051)


def test_no_line_runs_through_the_middle(chart):
    """While there are no tests nothing is drawn along the middle of the band."""
    held, plot = estimates.model(CATALOG, METHOD), frame(chart)
    assert held.tests == 0
    middles = {
        share: estimates.cut(CATALOG, held, {WAX: 1 - share, ROSIN: share}).band(METHOD).estimate
        for share in (0.6, 0.7, 0.8, 0.9)
    }
    for share, middle in middles.items():
        across, up = plot.at(100 * share, middle)
        for line in chart.iter("polyline"):
            drawn = points(line)
            for (x1, y1), (x2, y2) in itertools.pairwise(drawn):
                if x2 - x1 > 0.5 and x1 <= across <= x2:
                    there = y1 + (y2 - y1) * (across - x1) / (x2 - x1)
                    assert abs(there - up) > 4, (share, line.attrib)


def test_both_statements_lie_inside_the_band():
    """At 20 % rosin the band holds theory's fall and a rise above plain wax."""
    held = estimates.model(CATALOG, METHOD)
    band = estimates.cut(CATALOG, held, {WAX: 0.8, ROSIN: 0.2}).band(METHOD)
    wax, shift = CATALOG.known(WAX, "softening-point", METHOD), CATALOG.figure("liquidus-shift-20")
    assert band.low < wax.low + shift.low
    assert band.high > wax.high


def test_all_words_stand_inside_the_frame(chart):
    """No text runs out of the view box, judged by a wide letter."""
    for text in chart.iter("text"):
        length = len(text.text or "") * float(text.get("font-size", 11)) * WIDEST_LETTER
        start = float(text.get("x", 0)) - length * {"middle": 0.5, "end": 1}.get(
            text.get("text-anchor", ""), 0
        )
        assert start >= -2, text.text
        assert start + length <= 342, text.text
        assert 0 < float(text.get("y", 0)) < 282


def test_letters_are_large_enough_on_a_narrow_screen(chart):
    """At 340 px wide a unit of the view box is a pixel, so that no letter is under 11 px."""
    assert min(float(text.get("font-size", 0)) for text in chart.iter("text")) >= 11


def test_it_reads_in_black_and_white(chart):
    """Every colour is a grey or nearly one: saturation says nothing."""
    colours = {
        one.get(kind) for one in chart.iter() for kind in ("fill", "stroke") if one.get(kind)
    } - {"none"}
    for colour in colours:
        channels = [int(colour[place : place + 2], 16) for place in (1, 3, 5)]
        assert max(channels) - min(channels) <= 8, colour


def test_its_description_tells_what_it_shows(chart):
    """The words that stand for the chart name axes, band, both statements and the tests."""
    told = chart.findtext("desc") or ""
    for piece in ("gum rosin", "drop point", "95 %", "raises", "earlier", "no test stands behind"):
        assert piece in told
    assert "3.0 to 4.1 °C at 20 % rosin" in told  # facts: -4.1 to -3.0, derived


def test_it_is_drawn_the_same_twice(chart):
    """The same tables give the same bytes."""
    again = charts.softening(catalogs.load(None))
    assert ElementTree.tostring(again) == ElementTree.tostring(chart)


def test_a_plot_places_values_upside_up():
    """The lowest value stands at the foot of the frame, the highest at its head."""
    plot = Plot((0, 10), (20, 40), left=0, top=0, width=100, height=50)
    assert plot.at(0, 20) == (0, 50)
    assert plot.at(10, 40) == (100, 0)
    assert plot.at(5, 30) == (50, 25)
