"""The window chart: its places are the windows, its points lie where the command says."""

from __future__ import annotations

import dataclasses
import itertools
from xml.etree.ElementTree import Element

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulas.catalog import Catalog, load
from formulas.fault import UnknownName
from formulas.valves.chart_scale import axis_marks, axis_place, kept_apart, mark_step, step_decimals
from formulas.valves.deciding import ONE_STOCK, WITH_HELPER, WITHOUT
from formulas.valves.stock import stocks
from formulas.valves.valves import choices
from formulas.valves.window_marks import FOOT, LEFT, RIGHT, SMALL, TOP, WIDE
from site_builder.markup.elements import plain
from site_builder.parts.registry import place
from site_builder.parts.window_charts import window_chart
from site_builder.places import DEMO_SHOP

INSTRUMENT = "forty-one-key"
RANKS = ["low", "middle", "high", "bass-1", "bass-5"]


@pytest.fixture(scope="module")
def demo() -> Catalog:
    """Give the demo shop's catalog."""
    return load(DEMO_SHOP)


def drawn(catalog: Catalog, rank: str, *, wide: bool = False) -> Element:
    """Give the drawing of a rank."""
    svg = window_chart(catalog, INSTRUMENT, rank, wide=wide).find("svg")
    assert svg is not None
    return svg


def numbers(svg: Element, anchor: str) -> dict[float, float]:
    """Give the numbers at one side of the drawing with their heights, as they are printed."""
    return {
        float(one.text or ""): float(one.get("y", ""))
        for one in svg.iter("text")
        if one.get("text-anchor") == anchor and (one.text or "").replace(".", "").isdigit()
    }


def scale(svg: Element, anchor: str) -> tuple[float, float]:
    """Read a scale off its printed numbers: units of the drawing for each, and where nought is."""
    read = numbers(svg, anchor)
    low, high = min(read), max(read)
    return (read[high] - read[low]) / (high - low), read[low] - 4


@pytest.mark.parametrize("rank", RANKS)
def test_points_stand_where_their_numbers_say(demo, rank):
    """A point read off the printed scale is slot and bending length of a choice."""
    svg = drawn(demo, rank)
    by_id = {one.id: one for one in stocks(demo)}
    up, foot = scale(svg, "end")
    found = choices(demo, INSTRUMENT, rank)
    alone = [one for one in found if one.kind in (ONE_STOCK, WITH_HELPER)]
    wanted = {round(1000 * by_id[one.stock].bending_length[1], 1) for one in alone}
    rings = [one for one in svg.iter("circle") if one.get("r") == "2.6"]
    assert len(rings) == sum(one.to_cut for one in found)
    read = {round((float(one.get("cy", "")) - foot) / up, 1) for one in rings}
    # The drawing keeps a tenth of a unit; about four units are a millimetre.
    for value in wanted:
        assert any(abs(value - one) < 0.15 for one in read), (value, read)


@pytest.mark.parametrize("rank", RANKS)
def test_the_band_holds_the_windows(demo, rank):
    """Each upright stroke of the band runs from the least to the most bending length of a slot."""
    svg = drawn(demo, rank)
    up, foot = scale(svg, "end")
    strokes = [one for one in svg.iter("polyline") if one.get("stroke-width") == "0.4"]
    found = sorted(choices(demo, INSTRUMENT, rank), key=lambda one: one.slot.slot_length.estimate)
    assert len(strokes) == len(found)
    ends = [
        [float(place.split(",")[1]) for place in one.get("points", "").split()] for one in strokes
    ]
    read = sorted([(end - foot) / up for end in pair] for pair in ends)
    wanted = sorted([1000 * one.window[0], 1000 * one.window[1]] for one in found)
    for got, right in zip(read, wanted, strict=True):
        assert got == pytest.approx(right, abs=0.6)  # mm: a number's foot is printed to a unit


def test_the_right_hand_scale_is_twice_the_left(demo):
    """Overhang is twice the bending length, at every height."""
    svg = drawn(demo, "middle")
    left, right = numbers(svg, "end"), numbers(svg, "start")
    assert [2 * value for value in left] == list(right)
    assert list(left.values()) == list(right.values())


@pytest.mark.parametrize("rank", RANKS)
@pytest.mark.parametrize("wide", [False, True])
def test_everything_stands_inside_the_drawing(demo, rank, wide):
    """No point, line or word begins outside its view box, and no two names lie on each other."""
    size = WIDE if wide else SMALL
    svg = drawn(demo, rank, wide=wide)
    assert svg.get("viewBox") == f"0 0 {size[0]:g} {size[1]:g}"
    for one in svg.iter("polyline"):
        for spot in one.get("points", "").split():
            x, y = map(float, spot.split(","))
            assert 0 <= x <= size[0]
            assert 0 <= y <= size[1]
    named = [one for one in svg.iter("text") if (one.text or "") in demo.valve_stock]
    for anchor in ("start", "end"):
        heights = sorted(float(o.get("y", "")) for o in named if o.get("text-anchor") == anchor)
        assert all(high - low >= 11 for low, high in itertools.pairwise(heights))
        assert all(TOP < height < size[1] - FOOT for height in heights)


@pytest.mark.parametrize("rank", RANKS)
@pytest.mark.parametrize("wide", [False, True])
def test_a_name_keeps_clear_of_the_words_at_the_top_and_of_its_own_line(demo, rank, wide):
    """A name at the left is a line and more below "above: chokes", and over the highest stock."""
    svg = drawn(demo, rank, wide=wide)
    (top,) = (float(o.get("y", "")) for o in svg.iter("text") if o.text == "above: chokes")
    names = [one for one in svg.iter("text") if (one.text or "") in demo.valve_stock]
    left = sorted(float(o.get("y", "")) for o in names if o.get("text-anchor") == "start")
    lines = [one.get("points", "").split() for one in svg.iter("polyline")]
    level = [
        float(a[0].split(",")[1])
        for a in lines
        if len(a) == 2 and a[0].split(",")[1] == a[1].split(",")[1]
    ]
    assert all(height >= top + 14 for height in left)
    if left:
        assert min(height for height in level if height > left[0]) >= left[0] + 3.9  # to a tenth


def test_slots_without_a_valve_are_marked_without_colour(demo):
    """The rank that goes bare at the top says so in words, and only that one."""
    bare = [one for one in choices(demo, INSTRUMENT, "high") if one.kind == WITHOUT]
    assert bare
    assert "no valve" in plain(drawn(demo, "high"))
    assert "no valve" not in plain(drawn(demo, "middle"))
    shades = {one.get("fill") for one in drawn(demo, "high").iter() if one.get("fill")}
    for shade in shades - {"none"}:
        red, green, blue = (int(shade[at : at + 2], 16) for at in (1, 3, 5))
        assert max(red, green, blue) - min(red, green, blue) < 8, shade


def test_the_words_for_the_chart_name_every_run(demo):
    """Who cannot see the drawing hears the same runs as the command prints."""
    figure = window_chart(demo, INSTRUMENT, "middle")
    said = figure.get("alt", "")
    assert "sheep-55" in said
    assert "kid-38" in said
    assert "overhang wanted" in said
    assert said.count("Chart.") == 1


def test_inches_are_read_off_an_inch_scale(demo):
    """A shop that reads inches has inches on all three scales."""
    us = dataclasses.replace(demo, shop=dataclasses.replace(demo.shop, units="US"))
    svg = drawn(us, "middle")
    words = [one.text or "" for one in svg.iter("text")]
    assert [word for word in words if word.endswith(", in")] == [
        "bending length, in", "overhang on the ramp, in", "slot length, in",
    ]  # fmt: skip
    millimetres = max(numbers(drawn(demo, "middle"), "end"))
    assert max(numbers(svg, "end")) == pytest.approx(millimetres / 25.4, abs=0.6)


def test_the_part_knows_only_the_ranks_of_the_shop(demo):
    """A rank that is misspelt is named with what is near."""
    assert place(demo, "window-chart", "middle")[0].tag == "figure"
    with pytest.raises(UnknownName, match="did you mean 'middle'"):
        place(demo, "window-chart", "midle")


@given(st.floats(0.01, 5000), st.integers(3, 12))
def test_marks_are_round_and_few(reach, most):
    """The step is 1, 2 or 5 times a power of ten, and no more marks stand than asked for."""
    step = mark_step(reach, most)
    marks = axis_marks(0, reach, step)
    assert 1 <= len(marks) <= most + 1
    assert f"{step:e}"[0] in "125"
    assert marks == pytest.approx([count * step for count in range(len(marks))])
    if step >= 0.001:
        assert round(step, step_decimals(step)) == pytest.approx(step)


@given(st.lists(st.floats(50, 250), min_size=1, max_size=8))
def test_labels_are_kept_apart_and_in_order(heights):
    """No label lies on another, none leaves the frame, and a lone one stays where it is."""
    kept = kept_apart(heights, 12, 40, 260)
    order = sorted(range(len(heights)), key=lambda place: (heights[place], place))
    moved = [kept[place] for place in order]
    assert all(low + 12 <= high + 1e-9 for low, high in itertools.pairwise(moved))
    assert all(40 - 1e-9 <= one <= 260 + 1e-9 for one in moved)
    if len(heights) == 1:
        assert kept == heights


def test_an_axis_runs_between_its_ends():
    """Both ends of an axis stand at its ends, the middle in the middle."""
    width = SMALL[0] - LEFT - RIGHT
    assert axis_place(10, 10, 30, LEFT, width) == LEFT
    assert axis_place(30, 10, 30, LEFT, width) == LEFT + width
    assert axis_place(20, 10, 30, LEFT, width) == LEFT + width / 2
