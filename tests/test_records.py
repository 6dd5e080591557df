"""The pot book: shares really weighed, what is left, tracing, faults, and what `record` writes."""

from __future__ import annotations

import datetime
import json
import os
import re
import stat
import threading
from fractions import Fraction

import book_trials
import pytest
from book_trials import POT, books, run
from hypothesis import given
from hypothesis import strategies as st

from formulas import catalog as catalogs
from formulas.batch import shares_of, steps_of, weigh_out
from formulas.catalog import load
from formulas.fault import Faults, NotKnown, UnitFault, UnknownName
from formulas.ratio import parts_read, parts_text, revision_of
from formulas.record_batch import Drawn, targets
from formulas.records import (
    ancestors,
    descendants,
    left_of_batch,
    left_of_lot,
    next_number,
    notices,
    weighed_shares,
)
from formulas.trace import find
from site_builder import books as writing
from site_builder.places import DEMO_SHOP

YELLOW, ROSIN = "beeswax-yellow", "gum-rosin"


@pytest.fixture(scope="module")
def trade():
    """The trade's tables alone."""
    return load(None)


@pytest.fixture
def shop(tmp_path):
    """A new shop with three lots."""
    return book_trials.shop(tmp_path / "shop")


# What a batch is made of


def test_shares_are_those_of_the_scale(trade):
    """Grams, ounces and pounds of one batch are added as masses: 1 lb is 16 oz."""
    made = books(trade, {"W-1": [(YELLOW, "", 1, "lb"), (ROSIN, "", 4, "oz")]})
    assert weighed_shares(made, "W-1") == pytest.approx({YELLOW: 0.8, ROSIN: 0.2}, rel=1e-12)


def test_shares_go_through_older_batches(trade):
    """Old wax brings its own shares along, twice over: worked out by hand in fractions."""
    made = books(
        trade,
        {
            "W-1": [(YELLOW, "", 80, "g"), (ROSIN, "", 20, "g")],
            "W-2": [("", "W-1", 50, "g"), (YELLOW, "", 50, "g")],
            "W-3": [("", "W-2", 30, "g"), ("", "W-1", 10, "g"), (ROSIN, "", 10, "g")],
        },
    )
    one, two = Fraction(20, 100), Fraction(50 * 20, 100 * 100)
    rosin = (30 * two + 10 * one + 10) / 50
    assert weighed_shares(made, "W-3")[ROSIN] == pytest.approx(float(rosin), rel=1e-12)


@given(
    st.lists(
        st.tuples(st.floats(1, 500), st.floats(1, 500), st.floats(0, 500)), min_size=1, max_size=8
    )
)
def test_mass_is_kept_through_any_chain(pots):
    """A chain of pots, each with the whole of the one before, holds what was ever weighed in."""
    trade = catalogs.load(None)
    holds, waxed, resined = {}, 0.0, 0.0
    for place, (wax, rosin, oil) in enumerate(pots):
        before = [("", f"W-{place - 1}", waxed + resined, "g")] if place else []
        holds[f"W-{place}"] = [*before, (YELLOW, "", wax, "g"), (ROSIN, "", rosin + oil, "g")]
        waxed, resined = waxed + wax, resined + rosin + oil
    shares = weighed_shares(books(trade, holds), f"W-{len(pots) - 1}")
    assert shares[ROSIN] == pytest.approx(resined / (waxed + resined), rel=1e-9)
    assert sum(shares.values()) == pytest.approx(1)


def test_a_long_chain_is_no_trouble(trade):
    """A pot that was topped up three thousand times has shares; no depth of calls ends it."""
    holds = {"W-0": [(YELLOW, "", 9.0, "g"), (ROSIN, "", 1.0, "g")]}
    holds |= {f"W-{i}": [("", f"W-{i - 1}", 10.0, "g")] for i in range(1, 3000)}
    assert weighed_shares(books(trade, holds), "W-2999")[ROSIN] == pytest.approx(0.1)


@pytest.mark.parametrize(
    ("parts", "said"),
    [
        ([], "what was weighed in"),
        ([(YELLOW, "", None, "")], "the mass of beeswax-yellow"),
        ([(YELLOW, "", 10, "g"), ("", "W-2", 10, "g")], "W-2: the mass of gum-rosin"),
        ([("", "W-1", 10, "g"), (YELLOW, "", 10, "g")], "is a ring"),
    ],
)
def test_what_is_not_known_is_said(trade, parts, said):
    """A part without a weight, an old wax without a make-up and a ring give no shares."""
    made = books(trade, {"W-1": parts, "W-2": [(ROSIN, "", None, "")]})
    with pytest.raises(NotKnown, match=re.escape(said)):
        weighed_shares(made, "W-1")


def test_an_unknown_batch_is_named_with_the_nearest(trade):
    """A mistyped number gets the one that is there."""
    with pytest.raises(UnknownName, match="did you mean 'W-26-001'"):
        weighed_shares(books(trade, {"W-26-001": []}), "W-26-010")


# Numbers and ratios


def test_numbers_are_never_used_again():
    """A number above all of its year, a gap in the middle or other names notwithstanding."""
    assert next_number("W", "2026-02-01", []) == "W-26-001"
    assert next_number("W", "2026-02-01", ["W-26-001", "W-26-007", "W-25-900"]) == "W-26-008"
    assert next_number("T", "2030-02-01", ["T-30-999", "T-30-1000", "T-30-x"]) == "T-30-1001"


@given(
    st.dictionaries(st.sampled_from(["a", "bee-wax", "c2", "d"]), st.floats(0.001, 1e4), min_size=1)
)
def test_a_ratio_comes_back_from_its_text(parts):
    """Writing and reading a ratio give the same parts, and the order does not matter to it."""
    read = parts_read(parts_text(parts))
    assert read == pytest.approx(parts, rel=1e-9)
    assert revision_of(read) == revision_of(dict(reversed(read.items())))


@pytest.mark.parametrize("text", ["", "a", "a 0", "a -1", "a 1; a 2", "a x", "1", "a 1,5,2"])
def test_a_ratio_that_says_nothing_is_refused(text):
    """A part without a number above nought, or a material twice, is no ratio."""
    with pytest.raises(UnitFault):
        parts_read(text)


def test_revisions_differ_where_ratios_do():
    """Another part or another material gives other signs."""
    texts = ["a 4; b 1", "a 4.1; b 1", "a 4; c 1", "a 4", "a 8; b 2"]
    assert len({revision_of(parts_read(text)) for text in texts}) == len(texts)


# Targets


def test_targets_are_those_of_mix(trade):
    """For fresh wax the targets are what `mix` weighs out for the total, to the step."""
    parts = {YELLOW: 7, ROSIN: 2}
    drawn = [Drawn(YELLOW, "", 80, "g"), Drawn(ROSIN, "", 20, "g")]
    counts = weigh_out(list(shares_of(parts).values()), steps_of(105.3, 0.1))
    assert targets(trade, parts, drawn, 105.3) == [count / 10 for count in counts]


def test_two_lots_share_one_target(trade):
    """Several lots of one material together are asked for what the material is."""
    drawn = [Drawn(YELLOW, "1", 60, "g"), Drawn(ROSIN, "", 20, "g"), Drawn(YELLOW, "2", 20, "g")]
    goals = targets(trade, {YELLOW: 4, ROSIN: 1}, drawn, 100)
    assert goals == [60.0, 20.0, 20.0]


def test_old_wax_is_counted_before_the_rest_is_asked_for(trade):
    """100 g of four to one in 300 g of two to one: 60 g of wax is in, 120 g is missing.

    Of rosin 100 g is asked for and 20 g is in.
    """
    made = books(trade, {"W-1": [(YELLOW, "", 80, "g"), (ROSIN, "", 20, "g")]})
    drawn = [Drawn("", "W-1", 100, "g"), Drawn(YELLOW, "", 121, "g"), Drawn(ROSIN, "", 79, "g")]
    assert targets(made, {YELLOW: 2, ROSIN: 1}, drawn, 300) == [100, 120, 80]


def test_targets_stay_blank_where_the_old_wax_is_not_known(trade):
    """Nothing is asked for beside wax of which nobody knows what it is."""
    made = books(trade, {"W-1": []})
    drawn = [Drawn("", "W-1", 100, "g"), Drawn(YELLOW, "", 100, "g")]
    assert targets(made, {YELLOW: 2, ROSIN: 1}, drawn, 300) == [100, None]


# What is left, and what to look at


def test_what_is_left_of_a_lot(shop):
    """What stood there, less every draw in its own unit: 40 oz of rosin less 20 g."""
    assert run("batch", *POT, shop=shop).exit_code == 0
    left = left_of_lot(load(shop), "GR-1")
    assert left.left.value == pytest.approx(40 - 20 / 28.349523125, rel=1e-12)


def test_what_is_left_of_a_batch(shop):
    """The yield less the uses and less what went into a later pot."""
    run("batch", *POT, "--yield", "95g", shop=shop)
    number = next(iter(load(shop).pot_book))
    run("use", number, "--job", "26-1", "--amount", "30g", shop=shop)
    run("batch", "--parts", f"{YELLOW}=1", "--lot", f"{number}=25g", shop=shop)
    assert left_of_batch(load(shop), number).left.value == 40


def test_a_draw_beyond_the_lot_is_a_notice_and_no_refusal(shop):
    """The scale was right, the book is not: the record lands, and check says so."""
    words = ("beeswax-rosin-4-1", "--lot", f"{YELLOW}=BW-2:600g")
    done = run("batch", *words, shop=shop)
    assert done.exit_code == 0
    assert "More of BW-2 was drawn than the books hold, by 100 g" in " ".join(done.output.split())
    assert any("BW-2: 100 g more was drawn" in said for said in notices(load(shop)))


def test_stock_drawn_for_no_batch_is_a_notice(tmp_path):
    """Draws without their batch are told, count as drawn, and keep their number taken."""
    lots = "batch,material,lot,target,actual,unit,basis\nW-26-009,gum-rosin,GR-1,5,5,oz,measured\n"
    folder = book_trials.shop(tmp_path / "s", pot_lots=lots)
    found = load(folder)
    assert "stock drawn for no batch: W-26-009" in " ".join(notices(found))
    assert left_of_lot(found, "GR-1").left.value == 35
    assert "W-26-010" in run("batch", *POT, "--date", "2026-05-05", shop=folder).output


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--top", "250F"), "hotter than 120 °C"),
        (("--yield", "101g"), "More came out than was weighed in"),
        (("--made-by", "A", "--checked-by", "A"), "Nobody else has read the scale"),
        (("--lot", "tallow=1g"), "The lot of tallow is not written"),
        (("--lot", "tallow=1g"), "tallow is no part of this blend"),
    ],
)
def test_what_should_be_looked_at_is_said(shop, words, said):
    """A record of what was done is never refused for what was done; it is remarked upon."""
    quiet = ("--top", "248F", "--yield", "100g", "--made-by", "A", "--checked-by", "B")
    assert said not in " ".join(run("batch", *POT, *quiet, shop=shop).stdout.split())
    assert said in " ".join(run("batch", *POT, *words, shop=shop).stdout.split())


# Tracing


HOLDS = {
    "W-1": [(YELLOW, "L-1", 50, "g"), (ROSIN, "R-1", 10, "g")],
    "W-2": [(YELLOW, "L-2", 50, "g"), (ROSIN, "R-1", 10, "g")],
    "W-3": [("", "W-1", 20, "g"), (YELLOW, "L-2", 50, "g")],
    "W-4": [("", "W-3", 20, "g")],
    "W-5": [(YELLOW, "L-2", 50, "g")],
}
USES = [("W-1", "j1"), ("W-4", "j4"), ("W-5", "j5"), ("W-2", "j2"), ("W-4", "j1")]


def named(rows, key):
    """Give the names in a part of an answer, in order and each once."""
    return sorted({row[key] for row in rows})


@pytest.mark.parametrize(
    ("name", "batches", "jobs"),
    [
        ("L-1", ["W-1", "W-3", "W-4"], ["j1", "j4"]),
        ("R-1", ["W-1", "W-2", "W-3", "W-4"], ["j1", "j2", "j4"]),
        ("W-3", ["W-1", "W-3", "W-4"], ["j1", "j4"]),
        ("j4", ["W-1", "W-3", "W-4"], ["j4"]),
        ("j5", ["W-5"], ["j5"]),
    ],
)
def test_a_bad_lot_is_followed_to_every_job(trade, name, batches, jobs):
    """Down through every later pot to the jobs, up to the lots; nothing that is not concerned."""
    found = find(books(trade, HOLDS, USES), name).answer
    assert named(found["batches"], "batch") == batches
    assert named(found["jobs"], "job") == jobs


def test_a_job_leads_to_the_lots_in_its_wax(shop):
    """From a job through a batch and the old wax in it to the lots, and back to the job."""
    run("batch", *POT, "--date", "2026-01-02", shop=shop)
    run("batch", "--parts", f"{YELLOW}=1", "--lot", "W-26-001=40g", "--lot", f"{YELLOW}=BW-2:9g",
        "--date", "2026-01-03", shop=shop)  # fmt: skip
    run("use", "W-26-002", "--job", "26-014", shop=shop)
    job = json.loads(run("find", "26-014", "--json", shop=shop).stdout)["answer"]
    assert named(job["lots"], "lot") == ["BW-1", "BW-2", "GR-1"]
    for lot in named(job["lots"], "lot"):
        back = json.loads(run("find", lot, "--json", shop=shop).stdout)["answer"]
        assert named(back["jobs"], "job") == ["26-014"]


def test_a_ring_of_batches_ends(trade):
    """Batches that hold each other by a slip of the pen are followed once round."""
    holds = {f"W-{i}": [("", f"W-{(i + 1) % 5}", 1, "g"), ("", f"W-{i}", 1, "g")] for i in range(5)}
    made = books(trade, holds)
    assert ancestors(made, "W-0") == descendants(made, "W-0") == {"W-1", "W-2", "W-3", "W-4"}
    assert len(find(made, "W-2").answer["batches"]) == 5


def test_a_name_of_no_book_is_refused(shop):
    """A mistyped name gets the nearest that is there, and exit code 2."""
    done = run("find", "BW-11", shop=shop)
    assert done.exit_code == 2
    assert "did you mean 'BW-1'" in done.stderr


def test_find_shows_the_tests_of_a_batch(shop):
    """Reading, bounds and comparison stand with their batch in words."""
    run("batch", *POT, "--date", "2026-01-02", shop=shop)
    creep = ("--method", "step-creep", "--plate", "zinc", "--own-stress", "640Pa", "--load", "3")
    assert (
        run("test", "W-26-001", "--method", "drop-point", "--reading", "63.5C", shop=shop).exit_code
        == 0
    )
    assert (
        run("test", "W-26-001", *creep, "--held", "113F", "--moved", "50C", shop=shop).exit_code
        == 0
    )
    assert run("test", "W-26-001", *creep, "--outlasted", YELLOW, shop=shop).exit_code == 0
    text = run("find", "W-26-001", shop=shop).stdout
    for said in ("63.5 °C", "held 113 °F, moved at 122 °F", f"outlasted {YELLOW}"):
        assert said in text


# Faults of the books


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


# Writing


def texts(folder):
    """Give the bytes of every table."""
    return {path.name: path.read_bytes() for path in folder.glob("*.csv")}


@pytest.mark.parametrize(
    ("words", "fault"),
    [
        (("batch", "beeswax-rosin-4-1", "--lot", "gum-rosin=GR-7:5g"), "lot: found 'GR-7'"),
        (("batch", *POT, "--retest", "2026-13-01"), "--retest: found"),
        (("batch", *POT, "--top", "108"), "a number with a unit"),
        (("batch", *POT, "--lot", "gum-rosin"), "--lot: found 'gum-rosin'"),
        (("batch", "no-blend", "--lot", "gum-rosin=5g"), "blend: found 'no-blend'"),
        (("test", "W-7", "--method", "drop-point", "--reading", "60C"), "sample: found 'W-7'"),
        (("test", YELLOW, "--method", "drop-point"), "in one way"),
        (("test", YELLOW, "--method", "drop-point", "--held", "60C", "--moved", "59C"), "high: fo"),
        (("test", YELLOW, "--method", "step-creep", "--held", "45C"), "plate: found nothing"),
        (("use", "W-7", "--job", "1"), "batch: found 'W-7'"),
    ],
)  # fmt: skip
def test_a_record_that_would_be_a_fault_changes_nothing(shop, words, fault):
    """It is refused with the cell or the option at fault, and every file is as it was."""
    before = texts(shop)
    done = run(*words, shop=shop)
    assert done.exit_code in {1, 2}
    assert fault in done.stderr
    assert texts(shop) == before


def test_a_fault_elsewhere_in_the_shop_keeps_a_record_out(shop):
    """Nothing is added to books of which the check does not approve."""
    (shop / "prices.csv").write_text("item,price\ngold,1\n", encoding="utf-8")
    before = texts(shop)
    done = run("batch", *POT, shop=shop)
    assert done.exit_code == 1
    assert "prices.csv" in done.stderr
    assert texts(shop) == before


def test_a_missing_table_is_made_with_its_header(shop):
    """A book that was deleted begins again, explained as in a new shop."""
    whole = (shop / "pot_book.csv").read_text("utf-8")
    (shop / "pot_book.csv").unlink()
    assert run("batch", *POT, shop=shop).exit_code == 0
    assert (shop / "pot_book.csv").read_text("utf-8").startswith(whole)


@pytest.mark.parametrize("mark", [".~lock.{}#", "~${}"])
@pytest.mark.parametrize("table", ["pot_book.csv", "pot_lots.csv"])
def test_a_table_open_in_a_spreadsheet_is_left_alone(shop, mark, table):
    """Beside a spreadsheet's own lock nothing is written, into neither of the two tables."""
    (shop / mark.format(table)).write_text("", encoding="utf-8")
    before = texts(shop)
    done = run("batch", *POT, shop=shop)
    assert done.exit_code == 2
    assert table in done.stderr
    assert "nothing was changed" in done.stderr
    assert texts(shop) == before


def test_mode_and_link_of_a_file_are_kept(shop, tmp_path):
    """The file behind a link is replaced, the link stays, and so does who may read it."""
    real = tmp_path / "elsewhere.csv"
    (shop / "pot_book.csv").rename(real)
    (shop / "pot_book.csv").symlink_to(real)
    real.chmod(0o640)
    assert run("batch", *POT, shop=shop).exit_code == 0
    assert (shop / "pot_book.csv").is_symlink()
    assert stat.S_IMODE(real.stat().st_mode) == 0o640
    assert "W-" in real.read_text("utf-8")


def test_a_disk_that_does_not_take_it_leaves_the_books_as_they_were(shop, monkeypatch):
    """Where the new file cannot be written out, one message says so and the old one stands."""

    def full(_handle):
        raise OSError(28, "No space left on device")

    before = texts(shop)
    monkeypatch.setattr(os, "fsync", full)
    done = run("batch", *POT, shop=shop)
    assert done.exit_code == 2
    assert "No space left" in done.stderr
    assert texts(shop) == before


def test_the_lots_are_written_before_their_batch(shop, monkeypatch):
    """The row of the batch is the acknowledgement: cut off before it, the draws are told."""
    real = os.replace

    def cut_off(source, target):
        if target.name == "pot_book.csv":
            raise OSError(5, "cut off")
        real(source, target)

    monkeypatch.setattr(os, "replace", cut_off)
    assert run("batch", *POT, "--date", "2026-01-02", shop=shop).exit_code == 2
    monkeypatch.undo()
    assert "stock drawn for no batch: W-26-001" in " ".join(notices(load(shop)))
    assert "Recorded W-26-002" in run("batch", *POT, "--date", "2026-01-02", shop=shop).stdout


def test_two_at_once_both_land(shop):
    """Threads that record at the same moment get numbers of their own, and all rows stand."""
    seen = []

    def once():
        answer, _ = writing.record(shop, _made)
        seen.append(answer)

    threads = [threading.Thread(target=once) for _ in range(8)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert sorted(seen) == [f"W-26-{i:03d}" for i in range(1, 9)] == sorted(load(shop).pot_book)


def _made(catalog):
    number = next_number("W", "2026-01-01", catalog.pot_book)
    row = {"batch": number, "date": "2026-01-01", "parts": "gum-rosin 1", "basis": "measured"}
    return number, {"pot_book.csv": [row]}


def test_the_lock_is_waited_for_and_then_told(shop, monkeypatch):
    """A lock that is not given up is told in one message, and nothing is changed."""
    from filelock import FileLock

    monkeypatch.setattr(writing, "PATIENCE", 0.05)
    before = texts(shop)
    with FileLock(shop / writing.LOCK):
        done = run("batch", *POT, shop=shop)
    assert done.exit_code == 2
    assert "another command of this program" in done.stderr
    assert texts(shop) == before


def test_the_demo_shop_is_not_written_into():
    """Without a shop folder there is no book to write into."""
    before = texts(DEMO_SHOP)
    for named in (None, DEMO_SHOP):
        done = run("batch", *POT, shop=named)
        assert done.exit_code == 2
        assert "--shop" in done.stderr
    assert texts(DEMO_SHOP) == before


def test_what_an_invented_shop_records_is_invented(tmp_path):
    """The basis of a row follows the shop: measured, or invented where the shop is."""
    folder = book_trials.shop(tmp_path / "shop")
    run("batch", *POT, shop=folder)
    settings = folder / "shop.toml"
    settings.write_text(settings.read_text("utf-8") + "invented = true\n", encoding="utf-8")
    run("batch", *POT, shop=folder)
    assert [made.basis for made in load(folder).pot_book.values()] == ["measured", "invented"]


def test_without_a_date_it_is_today(shop):
    """The command reads the clock; nothing else does."""
    before = datetime.date.today().isoformat()
    run("batch", *POT, shop=shop)
    (made,) = load(shop).pot_book.values()
    assert before <= made.date <= datetime.date.today().isoformat()
    assert made.batch == f"W-{made.date[2:4]}-001"


def test_the_book_holds_what_was_typed(shop):
    """Numbers stay in the units they were read in; the whole sheet stands in the row."""
    done = run(
        *("batch", *POT, "--top", "226F", "--make-up", "0.5h", "--held", "90min"),
        *("--yield", "3.4oz", "--retest", "2027-01-02", "--wax", "fresh", "--note", "a; b, #c"),
        *("--made-by", "A", "--checked-by", "B", "--date", "2026-01-02"),
        shop=shop,
    )
    assert done.exit_code == 0
    (made,) = load(shop).pot_book.values()
    assert (made.top_temperature, made.temperature_unit) == (226, "degF")
    assert (made.make_up_minutes, made.held_hours) == (30, 1.5)
    assert (made.yielded, made.unit, made.retest_by) == (3.4, "oz", "2027-01-02")
    assert (made.wax, made.note, made.scale) == ("fresh", "a; b, #c", "0.1 g")
    assert (made.made_by, made.checked_by, made.blend) == ("A", "B", "beeswax-rosin-4-1")
    assert made.revision == revision_of({YELLOW: 4, ROSIN: 1})


def test_answers_as_json_carry_number_and_cautions(shop):
    """Another program finds the number, the shares and the cautions by name."""
    found = json.loads(run("batch", *POT, "--json", "--date", "2026-01-02", shop=shop).stdout)
    assert found["answer"]["batch"] == "W-26-001"
    assert found["answer"]["weighed_shares"] == {YELLOW: 0.8, ROSIN: 0.2}
    assert "hot-wax-burn" in {caution["id"] for caution in found["cautions"]}


def test_record_imports_no_pandas_and_other_commands_no_lock(shop):
    """The lock is loaded by `record` alone, the big library by none of them."""
    import subprocess
    import sys

    code = (
        "import sys; from site_builder.commands import main\n"
        "try: main(sys.argv[1:])\n"
        "except SystemExit: pass\n"
        "print('loaded', *({'filelock', 'pandas'} & sys.modules.keys()))"
    )

    def loaded(*words):
        done = subprocess.run(
            [sys.executable, "-c", code, *words], capture_output=True, text=True, check=True
        )
        return done.stdout.splitlines()[-1].split()[1:]

    assert loaded("record", "batch", *POT, "--shop", str(shop)) == ["filelock"]
    assert loaded("record", "find", "BW-1", "--shop", str(shop)) == []


def test_the_demo_books_are_whole():
    """The demo shop's books have no fault and no notice, and each batch has its shares."""
    demo = load(DEMO_SHOP)
    assert notices(demo) == []
    assert len(demo.pot_book) >= 3
    assert all(made.basis == "invented" for made in demo.pot_book.values())
    for name in demo.pot_book:
        assert sum(weighed_shares(demo, name).values()) == pytest.approx(1)
