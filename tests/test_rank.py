"""The slots of a rank from the tables: what was measured, what follows, what stays unknown."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulas.catalog import load
from formulas.fault import UnknownName
from formulas.valve_entries import MeasuredPlate, MeasuredSlot
from formulas.valves.rank import rank_oddities, rank_of, rank_slots, ranks_of

TRADE = load(None)
NAME = "forty-one-key"


def blank(kind, **cells):
    """Make a row with every cell blank but those given."""
    numbers = {"float | None": None, "int | None": None, "int": 0}
    made = {field.name: numbers.get(str(field.type), "") for field in dataclasses.fields(kind)}
    return kind(**{**made, "instrument": NAME, "unit": "mm", "basis": "measured", **cells})


def plate(mark, sounds, length=None, width=None, **cells):
    """Make a measured plate of the middle rank."""
    cells = {"rank": "middle", **cells}
    return blank(
        MeasuredPlate, plate=mark, sounds=sounds, slot_length=length, slot_width=width, **cells
    )


def slot(mark, face, length=None, width=None, **cells):
    """Make one slot of a plate."""
    return blank(MeasuredSlot, plate=mark, face=face, slot_length=length, slot_width=width, **cells)


def shop(plates=(), slots=()):
    """Give the trade's tables with plates and slots of a shop."""
    return dataclasses.replace(TRADE, plates=list(plates), slots=list(slots))


def found(catalog, note, face="inside", rank="middle"):
    """Give one slot of a rank."""
    (one,) = [
        one for one in rank_slots(catalog, NAME, rank) if (one.sounds, one.face) == (note, face)
    ]
    return one


# Four ranks of 41 plates and five of 12, two tongues on each: the common count of the trade.
def test_a_41_key_instrument_has_224_plates_and_448_tongues():
    """Ranks and plates of the table add up to the trade's own count."""
    ranks = ranks_of(TRADE, NAME)
    assert sum(rank.plates for rank in ranks) == 224
    slots = [slot for rank in ranks for slot in rank_slots(TRADE, NAME, rank.rank)]
    assert len(slots) == 448
    assert len({(slot.rank, slot.midi, slot.face) for slot in slots}) == 448


def test_a_rank_starts_at_its_lowest_note_and_rises_by_semitones():
    """The middle rank goes from F3 to A6; each note has an inside and an outside valve."""
    slots = rank_slots(TRADE, NAME, "middle")
    assert [slot.midi for slot in slots] == [53 + n // 2 for n in range(82)]
    assert (slots[0].sounds, slots[-1].sounds) == ("F3", "A6")
    assert {slot.face for slot in slots[::2]} == {"inside"}


def test_before_any_plate_everything_is_from_memory():
    """Nothing is measured, the room over a valve is not known, and the basis says memory."""
    for slot in rank_slots(TRADE, NAME, "bass-1"):
        assert (slot.measured, slot.how, slot.basis) == (False, "generic line", "memory")
        assert slot.free_space is None
        assert slot.direction == slot.rivet_end == slot.plate == ""
        assert slot.slot_length.low < slot.slot_length.estimate < slot.slot_length.high


def test_a_measured_slot_is_what_was_measured():
    """Its size is the reading with the reading's own error; its neighbour is derived."""
    catalog = shop([plate("p", "C4", 29.5, 3.4)])
    one = found(catalog, "C4")
    assert (one.slot_length.estimate, one.slot_width.estimate) == pytest.approx((0.0295, 0.0034))
    assert one.slot_length.high - one.slot_length.low == pytest.approx(2 * 0.0003)  # the figure's
    assert (one.measured, one.how, one.basis, one.plate) == (True, "measured", "measured", "p")
    beside = found(catalog, "C#4")
    assert (beside.measured, beside.how, beside.basis) == (
        False,
        "from the plates measured",
        "derived",
    )
    assert found(catalog, "C4", rank="low").how == "generic line"


def test_both_slots_of_a_plate_may_differ():
    """Sizes given slot by slot stand, each on its own face."""
    catalog = shop(
        [plate("p", "C4")], [slot("p", "inside", 29.5, 3.4), slot("p", "outside", 29.9, 3.5)]
    )
    assert found(catalog, "C4").slot_length.estimate == pytest.approx(0.0295)
    assert found(catalog, "C4", "outside").slot_length.estimate == pytest.approx(0.0299)
    assert found(catalog, "C4", "outside").slot_width.estimate == pytest.approx(0.0035)


def test_one_slot_measured_tells_of_the_other():
    """The other slot of the same plate is expected closer than a neighbour's."""
    catalog = shop([plate("p", "C4")], [slot("p", "inside", 31.0, 3.4)])
    other, neighbour = found(catalog, "C4", "outside"), found(catalog, "C#4", "outside")
    assert not other.measured
    # the generic line pulls by the slots' scatter squared over the scale's: (1 % / 7 %)**2 of its
    # distance of 7 %, 0.1 %
    assert other.slot_length.estimate == pytest.approx(0.031, rel=0.002)
    wide = [one.slot_length.high / one.slot_length.low for one in (other, neighbour)]
    assert wide[0] < wide[1]


def test_a_size_of_the_slot_goes_before_that_of_its_plate():
    """Where a slot has its own size, the plate's stands for the other alone."""
    catalog = shop([plate("p", "C4", 30.0, 3.4)], [slot("p", "outside", 29.0, 3.3)])
    assert found(catalog, "C4").slot_length.estimate == pytest.approx(0.030)
    assert found(catalog, "C4", "outside").slot_length.estimate == pytest.approx(0.029)


@given(st.floats(20, 40), st.floats(2.5, 5))
def test_inches_and_millimetres_give_the_same_slots(length, width):
    """A plate written in inches is the plate written in millimetres."""
    metric = found(shop([plate("p", "C4", length, width)]), "E4")
    inches = plate("p", "C4", length / 25.4, width / 25.4, unit="in")
    other = found(shop([inches]), "E4")
    assert other.slot_length.estimate == pytest.approx(metric.slot_length.estimate, rel=1e-6)
    assert other.slot_width.high == pytest.approx(metric.slot_width.high, rel=1e-6)


def test_the_tongues_of_a_plate_speak_on_opposite_ways():
    """One direction told gives the other."""
    catalog = shop([plate("p", "C4")], [slot("p", "inside", direction="press")])
    assert found(catalog, "C4").direction == "press"
    assert found(catalog, "C4", "outside").direction == "draw"


def test_the_room_over_a_valve_goes_by_its_face():
    """Inside it is the cell's depth, outside the free space; each plate's own counts."""
    one = plate("p", "C4", cell_depth=9.0, outside_space=12.0)
    assert found(shop([one]), "C4").free_space == pytest.approx(0.009)
    assert found(shop([one]), "C4", "outside").free_space == pytest.approx(0.012)


def test_between_two_plates_the_lesser_room_is_taken():
    """A room is not drawn as a line: between two plates the lesser, beyond them none."""
    plates = [plate("p", "C4", cell_depth=13.0), plate("q", "C5", cell_depth=8.0)]
    catalog = shop(plates)
    assert found(catalog, "F4").cell_depth == pytest.approx(0.008)
    assert found(catalog, "B3").cell_depth is None
    assert found(catalog, "C#5").cell_depth is None


def test_wall_and_land_are_the_figures_until_measured():
    """Before they are measured wall and land are generic, never nought."""
    assert found(TRADE, "C4").wall == pytest.approx(0.0025)
    assert found(TRADE, "C4").edge_land == pytest.approx((0.00875 - 0.0025) / 2)
    assert found(shop([plate("p", "C4", wall=2.1)]), "C4").wall == pytest.approx(0.0021)


def test_gravity_goes_by_the_posture_of_the_rank():
    """The share that pulls a valve off is that of its block's posture and its face."""
    level = dataclasses.replace(TRADE.ranks[1], posture="level-cell-below")
    catalog = dataclasses.replace(TRADE, ranks=[level])
    assert (found(catalog, "F3").hanging, found(catalog, "F3", "outside").hanging) == (1, -1)
    upright = TRADE.postures["upright-block"]
    assert found(TRADE, "F3").hanging == upright.inside


def test_a_slot_may_sound_its_own_note():
    """Where press and draw differ, each slot has its note and the size that goes with it."""
    catalog = shop([plate("p", "C4")], [slot("p", "outside", 27.9, 3.3, sounds="D4")])
    (draw,) = [
        one
        for one in rank_slots(catalog, NAME, "middle")
        if one.plate == "p" and one.face == "outside"
    ]
    assert (draw.sounds, draw.midi) == ("D4", 62)
    assert draw.slot_length.estimate == pytest.approx(0.0279)


def test_the_shops_tuning_moves_the_frequencies():
    """The pitch of A is the shop's."""
    tuned = dataclasses.replace(TRADE, shop=dataclasses.replace(TRADE.shop, pitch_of_a=442.0))
    assert found(tuned, "A4").frequency == pytest.approx(442)


def test_an_odd_plate_is_named_and_still_there():
    """The plate that does not fit is told with what was expected, and keeps its size."""
    plates = [
        plate("a", "F3", 35.2, 3.9),
        plate("b", "F4", 26.0, 3.15),
        plate("c", "C5", 24.6, 2.8),
        plate("d", "A5", 17.1, 2.4),
    ]
    (odd,) = rank_oddities(shop(plates), NAME, "middle")
    assert (odd.plate, odd.sounds, odd.measure) == ("c", "C5", "length")
    assert odd.found == pytest.approx(0.0246)
    assert odd.expected.high < odd.found
    assert found(shop(plates), "C5").slot_length.estimate == pytest.approx(0.0246)


def test_two_slots_of_a_plate_that_do_not_match_are_told():
    """A slot that differs from the other of its plate by more than slots do is named."""
    catalog = shop(
        [plate("p", "C4")], [slot("p", "inside", 29.5, 3.4), slot("p", "outside", 26.0, 3.4)]
    )
    told = [(odd.plate, odd.face, odd.measure) for odd in rank_oddities(catalog, NAME, "middle")]
    assert ("p", "outside", "length") in told
    alike = [slot("p", "inside", 29.5, 3.4), slot("p", "outside", 29.3, 3.45)]
    assert rank_oddities(shop([plate("p", "C4")], alike), NAME, "middle") == []


def test_what_is_not_there_is_named_with_what_is():
    """An instrument or a rank that no table has is refused, with the names that are there."""
    with pytest.raises(UnknownName, match="forty-one-key"):
        ranks_of(TRADE, "forty-key")
    with pytest.raises(UnknownName, match="did you mean 'middle'"):
        rank_of(TRADE, NAME, "midle")
