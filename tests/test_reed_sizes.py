"""Generic sizes of reed plates: the lines of the figures, and what holds for any line."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulas.catalog import load
from formulas.valves.notes import frequency
from formulas.valves.reed_sizes import (
    LINE,
    generic_size,
    generic_sizes,
    land_beside,
    line_of,
    plate_width,
    slot_length,
    slot_width,
    spread_of,
    tongue_size,
)

TRADE = load(None)
HERTZ = st.floats(30, 4000)


@pytest.mark.parametrize(("measure", "size"), [("length", 0.0225), ("width", 0.003)])
def test_the_line_starts_at_its_own_size(measure, size):
    """At the reference frequency the tongue has its figure's size, the slot its gap more."""
    line = line_of(TRADE, measure)
    assert len(line) == len(LINE)
    assert tongue_size(440, *line[:3]) == pytest.approx(size)
    gaps = 1 if measure == "length" else 2  # at the tip alone, or at both sides
    assert generic_size(440, line) - size == pytest.approx(gaps * 45e-6)


# From memory: a tongue of 440 Hz is 22.5 mm long and 3 mm wide; an octave up it is shorter by
# 2 to the power of -0.46, narrower by 2 to the power of -0.30.
@pytest.mark.parametrize(("measure", "falls"), [("length", 0.7270), ("width", 0.8123)])
def test_an_octave_shortens_a_tongue_as_the_line_says(measure, falls):
    """The ratio of an octave is the exponent's, to four digits."""
    line = line_of(TRADE, measure)
    ratio = tongue_size(880, *line[:3]) / tongue_size(440, *line[:3])
    assert ratio == pytest.approx(falls, abs=5e-5)


@given(st.lists(HERTZ, min_size=1, max_size=5))
def test_the_band_is_times_and_over(hertz):
    """Low times high is the middle squared, and high over middle is one and the spread."""
    line = line_of(TRADE, "length")
    for low, middle, high in generic_sizes(hertz, line):
        assert low * high == pytest.approx(middle**2)
        assert high / middle == pytest.approx(1 + line[4])


@given(st.floats(0.01, 0.5))
def test_the_spread_of_a_logarithm_gives_its_share_back(share):
    """One standard deviation, taken as often as 95 of 100 ask for, is the share again."""
    assert 2.718281828459045 ** (1.96 * spread_of(share, 1.96)) == pytest.approx(1 + share)


@given(HERTZ, st.floats(1e-5, 1e-4))
def test_a_slot_is_larger_than_its_tongue(hertz, gap):
    """A gap at the tip for the length, at both sides for the width."""
    tongue = tongue_size(hertz, 0.0225, -0.46, 440)
    assert slot_length(tongue, gap) - tongue == pytest.approx(gap, rel=1e-6)
    assert slot_width(tongue, gap) - tongue == pytest.approx(2 * gap, rel=1e-6)


def test_wall_and_lands_make_up_the_metal_beside_the_slots():
    """Two slots, two lands and a wall are the whole width of the plate."""
    slot, beside, wall = 0.004, 0.0087, 0.0025
    whole = plate_width(slot, beside)
    assert 2 * slot + wall + 2 * land_beside(beside, wall) == pytest.approx(whole)


def test_a_figure_in_another_unit_gives_the_same_line():
    """A shop that writes a size in another unit gets the same line."""
    figures = dict(TRADE.figures)
    metres = {"low": 0.00003, "high": 0.00006, "typical": 0.000045, "unit": "m"}
    figures["tongue-clearance"] = dataclasses.replace(figures["tongue-clearance"], **metres)
    other = dataclasses.replace(TRADE, figures=figures)
    assert line_of(other, "length") == pytest.approx(line_of(TRADE, "length"))


def test_no_figure_of_a_reed_passes_for_published():
    """The figures of the generic sizes say that they are from memory."""
    starts = ("tongue-", "plate-length", "plate-thickness", "plate-scatter", "slot-")
    bases = [one.basis for name, one in TRADE.figures.items() if name.startswith(starts)]
    assert len(bases) >= 18
    assert set(bases) == {"memory"}


def test_classes_of_tongues_join_without_gap():
    """Each class of valve begins where the one below it ends."""
    classes = list(TRADE.valve_classes.values())
    assert classes[0].tongue_low is None
    assert classes[-1].tongue_high is None
    ends = [one.tongue_high for one in classes[:-1]]
    assert ends == [one.tongue_low for one in classes[1:]]
    assert ends == sorted(ends)


def test_the_generic_ranks_meet_every_class():
    """Over the ranks of a 41-key instrument tongues of every class occur."""
    line = line_of(TRADE, "length")
    notes = range(24, 106)
    lengths = [1000 * tongue_size(frequency(note, 440), *line[:3]) for note in notes]
    for one in TRADE.valve_classes.values():
        low, high = one.tongue_low or 0, one.tongue_high or 1e9
        assert any(low <= length < high for length in lengths), one.id
