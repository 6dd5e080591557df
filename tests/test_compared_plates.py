"""Which plates to measure first, what that gains, what stands beside what was read."""

from __future__ import annotations

import dataclasses
import itertools
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulas.catalog import load
from formulas.valves.compared_plates import (
    compared,
    expected_of_note,
    first_count,
    plate_of_note,
    share_left,
    spread_places,
    to_measure_first,
)
from formulas.valves.notes import note_name
from formulas.valves.rank import rank_oddities, rank_of, rank_slots, ranks_of

TRADE = load(None)
DEMO = load(Path(__file__).parents[1] / "content" / "demo-shop")
NAME = "forty-one-key"


@given(st.integers(2, 20), st.integers(20, 60))
def test_places_reach_from_the_lowest_to_the_highest_plate(count, plates):
    """Places are as many as asked for, each once, evenly apart to half a plate either way."""
    places = spread_places(count, plates)
    assert (places[0], places[-1], len(set(places))) == (0, plates - 1, count)
    steps = [after - before for before, after in itertools.pairwise(places)]
    assert max(steps) - min(steps) <= 1


@given(st.integers(1, 100), st.floats(5, 40))
def test_no_plate_is_much_farther_than_the_reach(plates, reach):
    """Neighbours to be measured lie less than two reaches apart, in a rank of any length."""
    places = spread_places(first_count(plates, reach), plates)
    steps = [after - before for before, after in itertools.pairwise(places)]
    assert all(step < 2 * reach + 1 for step in steps)


def test_lowest_highest_and_two_between_of_a_long_rank():
    """Of 41 plates four are asked for, of a bass rank its two ends."""
    notes = [note_name(midi) for midi in to_measure_first(TRADE, rank_of(TRADE, NAME, "middle"))]
    assert (notes[0], notes[-1], len(notes)) == ("F3", "A6", 4)
    bass = [note_name(midi) for midi in to_measure_first(TRADE, rank_of(TRADE, NAME, "bass-1"))]
    assert bass == ["C1", "B1"]


@pytest.mark.parametrize("measure", ["length", "width"])
def test_every_plate_more_narrows_what_is_left(measure):
    """The worst known slot is known better the more plates were measured; four tell most of it."""
    rank = rank_of(TRADE, NAME, "middle")
    left = [share_left(TRADE, rank, count, measure) for count in (0, 2, 4, 7, 14)]
    assert left == sorted(left, reverse=True)
    assert left[2] < 0.4 * left[0]
    assert left[2] - left[3] < (left[0] - left[2]) / 5


def test_what_is_expected_before_is_what_the_rank_answers():
    """The table of generic sizes and the slots of a rank say the same."""
    for rank in ranks_of(TRADE, NAME):
        slots = {slot.midi: slot for slot in rank_slots(TRADE, NAME, rank.rank)}
        for midi in to_measure_first(TRADE, rank):
            assert expected_of_note(TRADE, midi, "length") == slots[midi].slot_length
            assert expected_of_note(TRADE, midi, "width") == slots[midi].slot_width


# From memory: a plate is 1.05 times its tongue and 12.5 mm long, its two slots and 8 to 9.5 mm
# wide. At 440 Hz the tongue is 22.5 mm by 3.0 mm: 36.1 mm by 14 to 15.7 mm with the gaps.
def test_the_plate_of_a_note_follows_its_tongue():
    """The generic plate of the tuning A is as long and wide as the rule of thumb says."""
    long, wide = plate_of_note(TRADE, 69)
    assert 1000 * long == pytest.approx(1.05 * 22.5 + 12.5)
    assert 14.1 < 1000 * wide < 15.7


def test_the_demo_shop_has_one_odd_plate_and_the_rest_fit():
    """Of the nine invented plates the one from another instrument is told, and no other."""
    told = {
        odd.plate for rank in ranks_of(DEMO, NAME) for odd in rank_oddities(DEMO, NAME, rank.rank)
    }
    assert told == {"M-20"}
    rows = [one for rank in ranks_of(DEMO, NAME) for one in compared(DEMO, NAME, rank.rank)]
    assert {one.plate for one in rows} == {plate.plate for plate in DEMO.plates}
    for one in rows:
        inside = one.expected.low <= one.found <= one.expected.high
        assert inside != (one.plate == "M-20"), one
        assert one.odd == (one.plate == "M-20"), one


def test_a_good_plate_is_compared_with_the_good_ones():
    """Taking the odd plate out of the table changes nothing for the others."""
    good = dataclasses.replace(DEMO, plates=[one for one in DEMO.plates if one.plate != "M-20"])
    before = [one for one in compared(DEMO, NAME, "middle") if not one.odd]
    assert before == compared(good, NAME, "middle")


def test_a_single_plate_stands_against_the_generic_line():
    """With one plate there is no other: it is compared with the generic line, the reading's
    own error counted in.
    """
    one = dataclasses.replace(DEMO, plates=DEMO.plates[2:3])
    (length, width) = compared(one, NAME, "middle")
    assert (length.measure, width.measure) == ("length", "width")
    generic = expected_of_note(one, 53, "length")
    assert length.expected.estimate == pytest.approx(generic.estimate)
    # the reading's 0.15 mm of 35 mm beside a spread of 7.4 %: (0.0044/0.074)**2/2 of the band
    assert length.expected.high == pytest.approx(generic.high, rel=0.001)
