"""Every fault of the shop's books is told, with its cell, and all of them at once."""

from __future__ import annotations

import book_trials
import pytest

from formulas.catalog import load
from formulas.fault import Faults

LOT_HEAD = "batch,material,lot,target,actual,unit,basis\n"
USE_HEAD = "batch,job,date,amount,unit,used_by,basis,note\n"
TEST_HEAD = "test,date,method,result,sample,other,low,high,unit,plate,own_stress,load,lots,basis\n"
BOOK_HEAD = "batch,date,blend,parts,revision,yield,unit,basis\n"
BOOK = BOOK_HEAD + (
    "W-1,2026-01-02,beeswax-rosin-4-1,beeswax-yellow 4; gum-rosin 1,,90,g,measured\n"
    "W-2,2026-02-02,,beeswax-yellow 1,,,,measured\n"
    "W-8,2026-08-02,,beeswax-yellow 1,,,,measured\n"
)


GOOD = {
    "pot_book": BOOK,
    "pot_lots": LOT_HEAD + "W-1,gum-rosin,GR-1,1,1,g,measured\nW-2,,W-1,1,1,g,measured\n",
    "pot_uses": USE_HEAD + "W-1,26-1,,1,g,,measured,\n",
    "softening_tests": TEST_HEAD
    + "T-0,2026-01-03,step-creep,firmer,W-1,gum-rosin,,,,zinc,640,1,GR-1 BW-1,measured\n",
}


def faults_of(folder, table, row):
    """Give the faults of a shop without one, after a row was added to one of its tables."""
    folder = book_trials.shop(folder / "shop", **GOOD)
    load(folder)
    (folder / f"{table}.csv").write_text(GOOD[table] + row + "\n", encoding="utf-8")
    with pytest.raises(Faults) as caught:
        load(folder)
    return caught.value.faults


@pytest.mark.parametrize(
    ("table", "row", "fault"),
    [
        ("pot_book", "W-3,2026-01-02,no-blend,gum-rosin 1,,,,measured", "blend: found 'no-blend'"),
        ("pot_book", "W-3,2026-01-02,,gum-rosn 1,,,,measured", "did you mean 'gum-rosin'"),
        ("pot_book", "W-3,2026-01-02,,gum-rosin,,,,measured", "parts: found 'gum-rosin'"),
        ("pot_book", "W-3,2026-01-02,,gum-rosin 1,abc123,,,measured", "revision: found 'abc123'"),
        ("pot_book", "W-3,2026-01-02,,gum-rosin 1,,5,,measured", "unit: found nothing"),
        ("pot_book", "W-1,2026-01-02,,gum-rosin 1,,,,measured", "'W-1' stands already on line 2"),
        ("pot_book", "beeswax-rosin-4-1,2026-01-02,,gum-rosin 1,,,,measured", "in blends.csv as"),
        ("pot_book", "gum-rosin,2026-01-02,,gum-rosin 1,,,,measured", "in materials.csv as"),
        ("pot_book", "BW-1,2026-01-02,,gum-rosin 1,,,,measured", "in lots.csv as"),
        ("pot_book", "W 3,2026-01-02,,gum-rosin 1,,,,measured", "batch: found 'W 3'"),
        ("pot_lots", "W-1,gum-rosn,,1,1,g,measured", "material: found 'gum-rosn'"),
        ("pot_lots", "W-1,gum-rosin,GR-9,1,1,g,measured", "lot: found 'GR-9'"),
        ("pot_lots", "W-1,gum-rosin,BW-1,1,1,g,measured", "beeswax-yellow, which is what lot BW-1"),
        ("pot_lots", "W-1,,BW-1,1,1,g,measured", "beeswax-yellow, what that lot holds"),
        ("pot_lots", "W-1,,W-9,1,1,g,measured", "an older batch of pot_book.csv"),
        ("pot_lots", "W-1,,,1,1,g,measured", "material: found nothing"),
        ("pot_lots", "W-1,,W-8,1,1,g,measured", "a batch made by 2026-01-02"),
        ("pot_lots", "W-2,,W-2,1,1,g,measured", "none that this one went into"),
        ("pot_lots", "W-1,gum-rosin,GR-1,1,1,,measured", "unit: found nothing"),
        ("pot_lots", "W-1,gum-rosin,GR-1,1,1,mg,measured", "unit: found 'mg'"),
        ("pot_uses", "W-9,26-1,,1,g,,measured,", "batch: found 'W-9'"),
        ("pot_uses", "W-1,26-1,,1,,,measured,", "unit: found nothing"),
    ],
)
def test_each_fault_of_the_books_is_told(tmp_path, table, row, fault):
    """Beside good rows one bad row gives one fault, with its file."""
    (found,) = faults_of(tmp_path, table, row)
    assert fault in str(found)
    assert found.file == f"{table}.csv"


@pytest.mark.parametrize(
    ("row", "fault"),
    [
        ("drop-point,reading,W-9,,60,,degC,,,,", "sample: found"),
        ("drop-point,reading,W-1,,,,,,,,", "low: found nothing"),
        ("drop-point,reading,W-1,,60,61,degC,,,,", "high: found"),
        ("drop-point,reading,W-1,,60,,,,,,", "unit: found nothing"),
        ("drop-point,reading,W-1,,60,,K,,,,", "unit: found 'K'"),
        ("drop-point,bounds,W-1,,,,,,,,", "low: found nothing"),
        ("drop-point,bounds,W-1,,50,45,degC,,,,", "high: found '45"),
        ("drop-point,bounds,W-1,,50,50,degC,,,,", "high: found '50"),
        ("drop-point,firmer,W-1,,,,,,,,", "other: found nothing"),
        ("drop-point,firmer,W-1,W-1,,,,,,,", "other: found 'W-1'"),
        ("drop-point,firmer,W-1,W-7,,,,,,,", "other: found 'W-7'"),
        ("drop-point,firmer,W-1,W-2,1,,degC,,,,", "low: found '1"),
        ("dsc-peak,reading,W-1,,60,,degC,,,,", "method: found"),
        ("drop-point,reading,W-1,,60,,degC,zinc,,,", "plate: found"),
        ("step-creep,bounds,W-1,,45,,degC,zinc,640,,", "load: found n"),
        ("step-creep,bounds,W-1,,45,,degC,,640,1,", "plate: found n"),
        ("step-creep,bounds,W-1,,45,,degC,zinc,,1,", "own_stress: f"),
        ("drop-point,reading,W-1,,60,,degC,,,,XX-1", "lots: found"),
    ],
)
def test_each_fault_of_a_softening_test_is_told(tmp_path, row, fault):
    """A test says what its result needs and no more, by a method that is estimated."""
    (found,) = faults_of(tmp_path, "softening_tests", f"T-1,2026-01-03,{row},measured")
    assert fault in str(found)


def test_all_faults_come_at_once(tmp_path):
    """Faults of four tables are told together, in the order of the tables."""
    folder = book_trials.shop(
        tmp_path / "shop",
        pot_book=BOOK.replace("gum-rosin 1", "gum-rosin 0"),
        pot_lots=LOT_HEAD + "W-1,,,1,1,g,measured\n",
        pot_uses=USE_HEAD + "W-9,26-1,,1,g,,measured,\n",
        softening_tests=TEST_HEAD + "T-1,2026-01-03,drop-point,reading,W-9,,,,,,,,,measured\n",
    )
    with pytest.raises(Faults) as caught:
        load(folder)
    files = [fault.file for fault in caught.value.faults]
    assert files == ["pot_book.csv", "pot_lots.csv", "pot_uses.csv", *["softening_tests.csv"] * 2]
