"""The pot book: shares really weighed, what is left, tracing, faults, and what `record` writes."""

from __future__ import annotations

import json
import re
from fractions import Fraction

import book_trials
import pytest
from book_trials import POT, books, run
from hypothesis import given
from hypothesis import strategies as st

from formulas import catalog as catalogs
from formulas.books.record_batch import Drawn, targets
from formulas.books.records import (
    ancestors,
    descendants,
    left_of_batch,
    left_of_lot,
    next_number,
    notices,
    weighed_shares,
)
from formulas.books.trace import find
from formulas.catalog import load
from formulas.fault import NotKnown, UnitFault, UnknownName
from formulas.ratio import parts_read, parts_text, revision_of
from formulas.wax.batch import shares_of, steps_of, weigh_out

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
