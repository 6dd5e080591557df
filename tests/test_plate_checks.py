"""Every fault of ranks, plates and slots is told, with its cell."""

from __future__ import annotations

import book_trials
import pytest

from formulas.catalog import load
from formulas.fault import Faults
from formulas.valves.rank import rank_slots

PLATE_HEAD = "instrument,plate,rank,sounds,length,width,slot_length,slot_width,wall,unit,basis\n"
SLOT_HEAD = "instrument,plate,face,direction,sounds,slot_length,slot_width,unit,basis\n"
RANK_HEAD = "instrument,rank,name,lowest,plates,posture,basis\n"
GOOD = {
    "ranks": RANK_HEAD + "small-box,only,The rank,G3,15,upright-block,measured\n",
    "plates": PLATE_HEAD
    + "small-box,P1,only,G3,45,16,30,3.5,2.5,mm,measured\n"
    + "small-box,P9,only,A4,,,,,,mm,measured\n",
    "slots": SLOT_HEAD + "small-box,P1,inside,press,,30.1,3.5,mm,measured\n",
}


def faults_of(folder, table, row):
    """Give the faults of a shop without one, after a row was added to one of its tables."""
    folder = book_trials.shop(folder / "shop", **GOOD)
    assert len(rank_slots(load(folder), "small-box", "only")) == 30
    (folder / f"{table}.csv").write_text(GOOD[table] + row + "\n", encoding="utf-8")
    with pytest.raises(Faults) as caught:
        load(folder)
    return caught.value.faults


WRONG = [
    ("ranks", "small-box,two,Two,G3,15,upright-blok,measured", "posture", "'upright-block'"),
    ("ranks", "small-box,two,Two,H3,15,bench,measured", "lowest", "German H"),
    ("plates", "small-bax,P2,only,A3,,,28,3,,mm,measured", "instrument", "'small-box'"),
    ("plates", "small-box,P2,onli,A3,,,28,3,,mm,measured", "rank", "'only'"),
    ("plates", "small-box,P2,only,H3,,,28,3,,mm,measured", "sounds", "German H"),
    ("plates", "small-box,P2,only,F3,,,28,3,,mm,measured", "sounds", "G3 to A4"),
    ("plates", "small-box,P2,only,Bb4,,,28,3,,mm,measured", "sounds", "G3 to A4"),
    ("plates", "small-box,P1,only,A3,,,28,3,,mm,measured", "plate", "line 2"),
    ("plates", "small-box,P2,only,G3,,,28,3,,mm,measured", "sounds", "plate 'P1'"),
    ("plates", "small-box,P2,only,A3,,,3,28,,mm,measured", "slot_width", "less than 3"),
    ("plates", "small-box,P2,only,A3,,,3,3,,mm,measured", "slot_width", "less than 3"),
    ("plates", "small-box,P2,only,A3,27,,28,3,,mm,measured", "slot_length", "less than 27"),
    ("plates", "small-box,P2,only,A3,,8.5,28,3,2.5,mm,measured", "slot_width", "within 8.5"),
    ("plates", "small-box,P2,only,A3,,,28,3,,cm,measured", "unit", "mm"),
    ("plates", "small-box,P2,only,A3,,,-28,3,,mm,measured", "slot_length", ""),
    ("slots", "small-box,P7,inside,press,,28,3,mm,measured", "plate", "'small-box'"),
    ("slots", "small-box,P1,outside,press,,30,3.5,mm,measured", "direction", "draw: line 2"),
    ("slots", "small-box,P1,inside,draw,,30,3.5,mm,measured", "face", "line 2"),
    ("slots", "small-box,P1,outside,draw,,30,,,measured", "unit", "where a size stands"),
    ("slots", "small-box,P1,outside,draw,,3.4,30,mm,measured", "slot_width", "longer"),
    ("slots", "small-box,P1,outside,draw,,3.4,,mm,measured", "slot_length", "longer"),
    ("slots", "small-box,P1,outside,draw,,46,3.5,mm,measured", "slot_length", "less than 45"),
    ("slots", "small-box,P1,outside,draw,,1.8,0.1,in,measured", "slot_length", "less than 45"),
    ("slots", "small-box,P1,sideways,draw,,30,3.5,mm,measured", "face", "inside"),
]


@pytest.mark.parametrize(("table", "row", "column", "told"), WRONG)
def test_nonsense_is_a_fault_of_its_cell(tmp_path, table, row, column, told):
    """A name that names nothing, a note twice, a slot that cannot be: each names its cell."""
    (fault,) = faults_of(tmp_path, table, row)
    assert (fault.file, fault.column) == (f"{table}.csv", column)
    assert told in str(fault)


def test_all_faults_are_told_together(tmp_path):
    """Two nonsense rows in two tables are two faults of one answer."""
    folder = book_trials.shop(tmp_path / "shop", **GOOD)
    for table, row, _, _ in (WRONG[9], WRONG[16]):
        (folder / f"{table}.csv").write_text(GOOD[table] + row + "\n", encoding="utf-8")
    with pytest.raises(Faults) as caught:
        load(folder)
    assert [fault.column for fault in caught.value.faults] == ["slot_width", "direction"]
