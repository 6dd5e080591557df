"""Every line and every blank column of the binder has room for a hand: measured on its pages.

A line of 40 mm holds a day with initials, "2026-11-28 AK": 13 signs at about 3 mm. A column of
14 mm holds a note, a tick with initials or four figures; 7 mm is the line of a school book.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from pathlib import Path

import pytest
from leaf_reading import handbook
from paper_strokes import Written, written_on

from site_builder.workings.worksheets import WORKSHEETS

LINE_MM, COLUMN_MM, ROW_MM = 40.0, 14.0, 7.0


@pytest.fixture(scope="module")
def pages(built: Path) -> list[Written]:
    """Read every page of the demo binder."""
    return written_on(built / "binder.pdf")


def test_every_line_is_long_enough_to_write_on(pages):
    """No line to write on is shorter than 40 mm, on whatever leaf."""
    short = [(page.leaf, line) for page in pages for line in page.lines if line.length < LINE_MM]
    assert short == []


def test_every_blank_cell_has_room_for_a_hand(pages):
    """No blank cell of a ruled table is narrower than 14 mm or lower than 7 mm."""
    blanks = [(page.leaf, cell) for page in pages for cell in page.blanks]
    assert len(blanks) > 3000
    small = [(leaf, c) for leaf, c in blanks if c.width < COLUMN_MM or c.height < ROW_MM]
    assert small == []


def test_no_line_of_a_leaf_is_lost(pages):
    """Each leaf of the trade prints as many lines as its text and its working ask for."""
    printed: Counter[str] = Counter()
    for page in pages:
        printed[page.leaf] += len(page.lines)
    asked: defaultdict[str, int] = defaultdict(int)
    own = {"exercise"}  # its lines hang on the kind of each answer
    for leaf in handbook().leaves:
        tags = [one.tag for one in leaf.tree.iter()]
        if own.isdisjoint(tags):
            asked[leaf.number] = (
                tags.count("formline") + tags.count("formchoice") + tags.count("hr")
            )
            for one in leaf.tree.iter("working"):
                asked[leaf.number] += len(WORKSHEETS[one.get("id", "")].lines)
    assert {leaf: printed[leaf] for leaf in asked} == asked
    assert sum(asked.values()) > 300
