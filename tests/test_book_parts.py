"""The pot book on a leaf: what stands in the tables and what is said where nothing does."""

from __future__ import annotations

import dataclasses

import pytest
from book_trials import batch, books

from formulas.book_entries import PotLot
from formulas.catalog import load
from formulas.fault import UnknownName
from site_builder.markup.elements import plain
from site_builder.parts.book_parts import NONE_YET, SHOWN
from site_builder.parts.registry import place
from site_builder.places import DEMO_SHOP

YELLOW, ROSIN = "beeswax-yellow", "gum-rosin"


@pytest.fixture(scope="module")
def trade():
    """The trade's tables alone."""
    return load(None)


def cells(element):
    """Give a table's rows as texts."""
    return [[plain(cell) for cell in row] for row in element.iter("tr")]


def test_an_empty_book_says_so(trade):
    """A shop without a batch reads that, and not an empty table."""
    for name, argument in (("pot-book", ""), ("pot-sheet", "latest")):
        (said,) = place(trade, name, argument)
        assert plain(said) == NONE_YET


def test_the_book_shows_the_newest_first(trade):
    """The rows go from the newest batch down; beyond a page it says how many there are."""
    many = {f"W-26-{i:03d}": batch(f"W-26-{i:03d}", f"2026-01-{i:02d}") for i in range(1, 26)}
    shown, said = place(dataclasses.replace(trade, pot_book=many), "pot-book", "")
    rows = cells(shown)[1:]
    assert [row[0] for row in rows] == [f"W-26-{i:03d}" for i in range(25, 25 - SHOWN, -1)]
    assert plain(said) == "The newest 20 of 25 batches."


def test_the_sheet_is_that_of_the_batch(trade):
    """Lots, targets, actuals and the ratio really weighed are those of the tables."""
    made = books(trade, {"W-1": [(YELLOW, "", 75, "g"), (ROSIN, "", 25, "g")]}, [("W-1", "26-1")])
    sheet = place(made, "pot-sheet", "W-1")
    weighed, lines = (cells(one) for one in sheet if one.tag == "table")
    assert [row[3] for row in weighed[1:]] == ["75 g", "25 g"]
    told = dict(lines[1:])
    assert told["Really weighed"] == "Beeswax, yellow 75.0 %, Gum rosin 25.0 %"
    assert told["Used in"] == "26-1"
    assert "Note" not in told


def test_a_sum_prints_without_its_noise(trade):
    """What is left is printed as a scale would: 184.6 less 112 is 72.6."""
    made = {"W-1": batch("W-1", yielded=184.6, unit="g")}
    drawn = [PotLot("W-2", "", "W-1", None, 112.0, "g", "measured")]
    shown = place(dataclasses.replace(trade, pot_book=made, pot_lots=drawn), "pot-book", "")[0]
    assert cells(shown)[1][4] == "72.6 g"


def test_an_unknown_batch_is_refused(trade):
    """A leaf that names no batch of the book does not build."""
    with pytest.raises(UnknownName, match=r"a batch of pot_book\.csv, or latest"):
        place(trade, "pot-sheet", "W-7")


def test_the_demo_books_show_their_basis():
    """Each row of the invented shop is marked as invented."""
    (shown,) = place(load(DEMO_SHOP), "pot-book", "")
    marks = [mark.get("kind") for mark in shown.iter("basis")]
    assert marks == ["invented"] * (len(cells(shown)) - 1)
