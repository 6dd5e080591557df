"""What the leaf of plates places: tables of sizes, and what was read beside what was expected."""

from __future__ import annotations

import dataclasses
from pathlib import Path

from formulas.catalog import load
from formulas.valves.rank import rank_slots, ranks_of
from site_builder.markup.elements import plain
from site_builder.parts import reed_parts

TRADE = load(None)
DEMO = load(Path(__file__).parents[1] / "content" / "demo-shop")


def rows(elements):
    """Give the cells of the one table among elements, as text."""
    (found,) = [one for one in elements if one.tag == "table"]
    return [[plain(cell) for cell in row] for row in found.find("tbody")]


def test_generic_sizes_stand_for_every_rank():
    """Each rank is there with its lowest and its highest note."""
    named = [row[0].partition(";")[0] for row in rows(reed_parts.reed_sizes(TRADE, ""))]
    for rank in ranks_of(TRADE, "forty-one-key"):
        slots = rank_slots(TRADE, "forty-one-key", rank.rank)
        assert f"{slots[0].sounds}, {rank.name}" in named
        assert f"{slots[-1].sounds}, {rank.name}" in named


def test_generic_sizes_do_not_move_with_what_was_measured():
    """The table is what to expect before; measuring does not change it, the tuning aside."""
    bare = dataclasses.replace(DEMO, plates=[], slots=[])
    assert rows(reed_parts.reed_sizes(DEMO, "")) == rows(reed_parts.reed_sizes(bare, ""))


def test_every_plate_read_has_its_row_and_the_odd_one_its_remark():
    """Length and width of each plate stand in the table; only the odd plate has a remark."""
    found = rows(reed_parts.plates_compared(DEMO, ""))
    assert [row[0].partition(",")[0] for row in found] == [one.plate for one in DEMO.plates]
    assert all(row[1] and row[2] for row in found)
    odd = [row[0] for row in found if "odd" in row[1] + row[2]]
    assert odd == ["M-20, C5"]


def test_two_unlike_slots_of_a_plate_are_told():
    """A slot that differs much from the other of its plate has a sentence of its own."""
    slots = [
        dataclasses.replace(one, slot_length=22.0)
        if (one.plate, one.face) == ("H-01", "outside")
        else one
        for one in DEMO.slots
    ]
    told = reed_parts.plates_compared(dataclasses.replace(DEMO, slots=slots), "")
    assert any("H-01" in plain(one) for one in told if one.tag == "p")
    assert not [one for one in reed_parts.plates_compared(DEMO, "") if one.tag == "p"]


def test_without_a_plate_the_leaf_says_so():
    """A shop that measured nothing reads that the sizes are generic."""
    (said,) = reed_parts.plates_compared(TRADE, "")
    assert "generic line" in plain(said)


def test_any_instrument_has_its_table_of_what_measuring_gains():
    """The longest rank of the shop's instrument is taken, also where it has other names."""
    rank = dataclasses.replace(TRADE.ranks[0], instrument="small-box", rank="only", plates=5)
    shop = dataclasses.replace(TRADE.shop, instrument="small-box")
    small = dataclasses.replace(TRADE, ranks=[*TRADE.ranks, rank], shop=shop)
    assert [row[0] for row in rows(reed_parts.measuring_helps(small, ""))] == [
        "none", "1", "2", "3", "4",
    ]  # fmt: skip


def test_every_class_of_valve_is_placed():
    """The table of what the trade puts on has a row for each class."""
    assert len(rows(reed_parts.valve_classes(TRADE, ""))) == len(TRADE.valve_classes)
