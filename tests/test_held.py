"""What is free and what is kept back: each gram, piece and skin counts once."""

from __future__ import annotations

import dataclasses
import time

import pytest
from book_trials import batch
from hypothesis import given
from hypothesis import strategies as st
from job_trials import BATCH_G, LOT_G, PIECES, cut, draw, event, keep, shelf, use

from formulas.catalog import load
from formulas.fault import UnknownName
from formulas.jobs.held import (
    free_of,
    free_of_batch,
    free_of_lot,
    free_pieces,
    free_skins,
    live_reservations,
    short_for_others,
    state_of,
)

TRADE = load(None)
OPEN = [event("A"), event("B")]


def grams(free):
    """Give a mass in grams; the trial shelf is all in grams."""
    assert free.unit == "g"
    return free.value


def held(catalog):
    """Give what is kept back as (job, id): amount."""
    return {(one.job, one.of): one.amount for one in live_reservations(catalog)}


@pytest.mark.parametrize(
    ("events", "state"),
    [
        ([], ""),
        ([event("A")], "open"),
        ([event("A"), event("A", "done", "2026-03-01")], "done"),
        ([event("A", "dropped", "2026-03-01"), event("A")], "dropped"),
        ([event("A"), event("A", "done"), event("A", "reopened")], "open"),
    ],
)
def test_the_last_event_by_day_and_then_by_order_says_how_a_job_stands(events, state):
    """The order of the file counts only within a day; reopened counts as open."""
    assert state_of(shelf(TRADE, jobs=events), "A") == state


def test_the_last_row_of_a_job_and_a_thing_counts():
    """A later row takes the place of an earlier one, wherever it stands in the file."""
    rows = [
        keep("A", "lot", "BW-1", 100, date="2026-03-05"),
        keep("A", "lot", "BW-1", 300, date="2026-03-01"),
        keep("B", "lot", "BW-1", 10, date="2026-03-01"),
        keep("B", "lot", "BW-1", 40, date="2026-03-01"),
    ]
    made = shelf(TRADE, jobs=OPEN, reservations=rows)
    assert held(made) == {("A", "BW-1"): 100, ("B", "BW-1"): 40}
    assert grams(free_of_lot(made, "BW-1")) == LOT_G - 140
    assert grams(free_of_lot(made, "BW-1", "A")) == LOT_G - 40


def test_nought_gives_back():
    """A row of nought frees what the job kept of that thing, and of no other."""
    rows = [keep("A", "lot", "BW-1", 100), keep("A", "batch", "W-1", 50)]
    made = shelf(TRADE, jobs=OPEN, reservations=[*rows, keep("A", "lot", "BW-1", 0)])
    assert held(made) == {("A", "W-1"): 50}
    assert grams(free_of_lot(made, "BW-1")) == LOT_G


@pytest.mark.parametrize("what", ["done", "dropped"])
def test_a_closed_job_frees_all_it_held(what):
    """A job that is done or dropped keeps nothing back, of whatever kind."""
    rows = [
        keep("A", "lot", "BW-1", 100),
        keep("A", "batch", "W-1", 50),
        keep("A", "stock", "film", 2, "pieces"),
        keep("A", "skin", "kid-A", 1, "pieces"),
    ]
    kept = shelf(TRADE, jobs=OPEN, reservations=rows)
    assert free_skins(kept, "kid") == ["kid-B"]
    freed = shelf(TRADE, jobs=[*OPEN, event("A", what, "2026-04-01")], reservations=rows)
    assert live_reservations(freed) == []
    assert grams(free_of_lot(freed, "BW-1")) == LOT_G
    assert grams(free_of_batch(freed, "W-1")) == BATCH_G
    assert free_pieces(freed, "film") == PIECES
    assert free_skins(freed, "kid") == ["kid-A", "kid-B"]


def test_what_was_freed_does_not_come_back():
    """A job that is opened again keeps only what it has kept since it was closed."""
    events = [event("A"), event("A", "dropped", "2026-04-01"), event("A", "reopened", "2026-05-01")]
    rows = [keep("A", "lot", "BW-1", 100), keep("A", "batch", "W-1", 50, date="2026-05-01")]
    assert held(shelf(TRADE, jobs=events, reservations=rows)) == {("A", "W-1"): 50}


def test_a_job_that_no_book_knows_keeps_nothing():
    """Only open jobs of jobs.csv hold something."""
    made = shelf(TRADE, reservations=[keep("A", "lot", "BW-1", 100)])
    assert live_reservations(made) == []


@given(
    kept=st.floats(1, 250),
    drawn=st.lists(st.floats(0.5, 200), max_size=4),
    other=st.floats(0, 100),
)
def test_wax_that_was_used_is_not_kept_back_as_well(kept, drawn, other):
    """What a job used of a batch counts once: in what is left, or in what is kept back."""
    rows = [keep("A", "batch", "W-1", kept), keep("B", "batch", "W-1", other)]
    made = shelf(TRADE, jobs=OPEN, reservations=rows, pot_uses=[use("A", each) for each in drawn])
    gone, still = sum(drawn), max(0.0, kept - sum(drawn))
    assert grams(free_of_batch(made, "W-1")) == pytest.approx(
        BATCH_G - gone - still - other, abs=1e-6
    )
    assert grams(free_of_batch(made, "W-1", "A")) == pytest.approx(BATCH_G - gone - other, abs=1e-6)


def test_what_was_used_before_does_not_count():
    """A use before the day of the row is in what is left already; one without a day tells none."""
    before, undated = use("A", 30, "2026-02-20"), use("A", 30, "")
    made = shelf(
        TRADE,
        jobs=OPEN,
        reservations=[keep("A", "batch", "W-1", 100)],
        pot_uses=[before, undated, use("B", 30)],
    )
    assert held(made) == {("A", "W-1"): 100}


@given(kept=st.floats(1, 400), melted=st.floats(1, 400), named=st.booleans())
def test_a_lot_melted_for_a_job_is_not_kept_back_as_well(kept, melted, named):
    """Raw wax in a batch of the job counts once, whether the batch or its one use names the job."""
    made = shelf(
        TRADE,
        jobs=OPEN,
        reservations=[keep("A", "lot", "BW-1", kept)],
        pot_book={"W-2": batch("W-2", "2026-03-04", job="A" if named else "")},
        pot_lots=[draw("W-2", melted)],
        pot_uses=[] if named else [use("A", None, of="W-2")],
    )
    left = LOT_G - melted - max(0.0, kept - melted)
    assert grams(free_of_lot(made, "BW-1")) == pytest.approx(left, abs=1e-6)


def test_a_batch_of_two_jobs_counts_for_each_by_its_use():
    """Of 100 g drawn, the job that used three quarters of the batch has drawn 75 g."""
    made = shelf(
        TRADE,
        jobs=OPEN,
        reservations=[keep("A", "lot", "BW-1", 90), keep("B", "lot", "BW-1", 90)],
        pot_book={"W-2": batch("W-2", "2026-03-04")},
        pot_lots=[draw("W-2", 100)],
        pot_uses=[use("A", 60, of="W-2"), use("B", 20, of="W-2")],
    )
    assert held(made) == pytest.approx({("A", "BW-1"): 15, ("B", "BW-1"): 65})


def test_old_wax_in_a_later_pot_counts_against_its_batch():
    """A batch that a job melted again is drawn as if it had been used."""
    made = shelf(
        TRADE,
        jobs=OPEN,
        reservations=[keep("A", "batch", "W-1", 100)],
        pot_book={
            "W-1": batch("W-1", yielded=BATCH_G, unit="g"),
            "W-2": batch("W-2", "2026-03-04", job="A"),
        },
        pot_lots=[draw("W-2", 60, "W-1")],
    )
    assert held(made) == pytest.approx({("A", "W-1"): 40})
    assert grams(free_of_batch(made, "W-1")) == pytest.approx(BATCH_G - 100)


def test_a_batch_that_nobody_used_tells_nothing():
    """Where no job is named the draw stands in what is left alone."""
    made = shelf(
        TRADE,
        jobs=OPEN,
        reservations=[keep("A", "lot", "BW-1", 90)],
        pot_book={"W-2": batch("W-2", "2026-03-04")},
        pot_lots=[draw("W-2", 100), draw("W-3", 50)],
    )
    assert held(made) == {("A", "BW-1"): 90}
    assert grams(free_of_lot(made, "BW-1")) == LOT_G - 150 - 90


@given(kept=st.integers(1, 5), taken=st.integers(0, 6), other=st.integers(0, 2))
def test_pieces_count_once(kept, taken, other):
    """Pieces that a job kept and took are not missing twice."""
    rows = [
        keep("A", "stock", "film", kept, "pieces"),
        keep("B", "stock", "film", other, "pieces"),
    ]
    made = shelf(TRADE, jobs=OPEN, reservations=rows, stock_uses=[cut("A", pieces=taken)])
    assert free_pieces(made, "film") == PIECES - taken - max(0, kept - taken) - other
    assert free_pieces(made, "film", "A") == PIECES - taken - other
    assert free_pieces(made, "kid") is None


def test_a_skin_stays_kept_until_it_is_spent():
    """Cutting from it leaves it with its job; spent it is there for nobody and held by nobody."""
    rows = [keep("A", "skin", "kid-A", 1, "pieces")]
    made = shelf(TRADE, jobs=OPEN, reservations=rows)
    some = dataclasses.replace(made, stock_uses=[cut("A", stock="kid", skin="kid-A", valves=9)])
    for one in (made, some):
        assert free_skins(one, "kid", "A") == ["kid-A", "kid-B"]
        assert free_skins(one, "kid", "B") == ["kid-B"]
    spent = cut("B", stock="kid", skin="kid-A", spent=True)
    gone = dataclasses.replace(made, stock_uses=[spent])
    assert free_skins(gone, "kid", "A") == ["kid-B"]
    assert live_reservations(gone) == []


def test_masses_meet_in_grams():
    """A pound kept of a lot in kilograms is 453.6 g of it."""
    lot = dataclasses.replace(shelf(TRADE).lots["BW-1"], amount=1.0, unit="kg")
    rows = [keep("A", "lot", "BW-1", 1, "lb")]
    made = shelf(TRADE, jobs=OPEN, reservations=rows, lots={"BW-1": lot})
    free = free_of_lot(made, "BW-1")
    assert free.unit == "kg"
    # The pound of 1959 is 0.45359237 kg.
    assert free.value == pytest.approx(1 - 0.45359237, abs=1e-9)


def test_what_the_books_do_not_know_is_none():
    """A batch without a yield has no free mass; a name of no book is refused with the nearest."""
    made = shelf(TRADE, pot_book={"W-1": batch("W-1")})
    assert free_of_batch(made, "W-1") is None
    assert free_of(made, "item", "screw") is None
    with pytest.raises(UnknownName, match="did you mean 'W-1'"):
        free_of_batch(made, "W-11")
    with pytest.raises(UnknownName, match="did you mean 'BW-1'"):
        free_of_lot(made, "BW-11")


def test_a_batch_that_was_thrown_out_is_not_there():
    """Nothing of it is free, and what is still kept of it is missing."""
    out = batch("W-1", yielded=BATCH_G, unit="g", discarded="2026-03-09")
    made = shelf(
        TRADE, jobs=OPEN, reservations=[keep("A", "batch", "W-1", 40)], pot_book={"W-1": out}
    )
    assert grams(free_of_batch(made, "W-1")) == -40
    assert grams(free_of_batch(made, "W-1", "A")) == 0
    assert "kept back for A" in short_for_others(made, "batch", "W-1", "B")


def test_fifty_thousand_rows_are_grouped_once():
    """Asking every lot, batch and job of a large book costs little more than reading it once.

    Walked through again for each of 600 questions it would be some 30 million rows.
    """
    made = shelf(
        TRADE,
        jobs=[event(f"J-{i}") for i in range(1000)],
        reservations=[keep(f"J-{i % 1000}", "batch", f"W-{i % 300}", 1) for i in range(12500)],
        pot_book={f"W-{i}": batch(f"W-{i}", yielded=1e6, unit="g") for i in range(300)},
        pot_uses=[use(f"J-{i % 1000}", 0.001, of=f"W-{i % 300}") for i in range(25000)],
        pot_lots=[draw(f"W-{i % 300}", 0.001) for i in range(12500)],
    )
    begun = time.process_time()
    free = [free_of_batch(made, f"W-{i}", "J-1").value for i in range(300)]
    states = [state_of(made, f"J-{i}") for i in range(300)]
    taken = time.process_time() - begun
    assert set(states) == {"open"}
    assert all(0 < value < 1e6 for value in free)
    assert taken < 3  # seconds; measured 0.3 on two busy cores
