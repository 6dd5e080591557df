"""The emergency sheet: one page, each letter high enough for its distance, and what it says."""

from __future__ import annotations

import dataclasses
import re

import pytest
from far_pages import POINTS_A_MM, capitals, page_with, printed_leaf

from formulas.catalog import load
from site_builder.markup.dialect import Dialect
from site_builder.markup.source_text import SourceText
from site_builder.parts.registry import place
from site_builder.places import TEMPLATES
from site_builder.screen.addresses import Addresses
from site_builder.screen.html_writer import Writer

TRADE = load(None)
TWO_METRES = 2 * TRADE.figure("reading-height-per-metre").low  # mm
TO_FILL_IN = (
    *("Emergency call", "Poison advice", "We are at", "Fire", "Doctor", "Neighbour", "Meet at"),
    *("Main switch", "Gas off", "Water off", "Extinguisher", "First aid", "Eye wash"),
    "Data sheets",
)
MOVES = ("Burn:", "Pot alight:", "Eye:", "Vapour breathed:", "Clothes alight:", "Chest tight")


@pytest.fixture(scope="module", params=["a4", "letter"])
def leaf(request):
    """The leaf as it is printed on one paper."""
    shop = dataclasses.replace(TRADE.shop, paper=request.param)
    return printed_leaf(dataclasses.replace(TRADE, shop=shop), "S-10")


def test_the_sheet_is_one_page_and_the_last(leaf):
    """All lines to fill in and all six moves stand on one page, and nothing follows it."""
    at, words = page_with(leaf, "Main switch")
    assert all(one in words for one in (*TO_FILL_IN, *MOVES))
    assert at == len(leaf) - 1


def test_every_capital_is_read_from_two_metres(leaf):
    """No capital of the sheet, as the file draws it, is lower than two metres ask.

    Tolerance: a twentieth of a millimetre, by which the rounded top of a C and the flat one of
    an H lie apart.
    """
    at, _ = page_with(leaf, "Main switch")
    heights = capitals(leaf[at])
    assert len(heights) > 10
    assert min(heights) >= TWO_METRES - 0.05
    assert min(heights) < TWO_METRES + 0.3  # and it is this figure that sets the size


def test_nothing_of_the_sheet_leaves_its_margins(leaf):
    """Words and lines end before the foot of the page and its outer margin."""
    at, _ = page_with(leaf, "Main switch")
    page = leaf[at]
    text = page.get_textpage()
    boxes = [text.get_charbox(one) for one in range(text.count_chars())]
    inked = [box for box in boxes if box[3] - box[1] > 9]  # less is the running head
    assert min(box[1] for box in inked) > 20 * POINTS_A_MM
    assert max(box[2] for box in inked) < page.get_width() - 14 * POINTS_A_MM


def test_times_of_the_sheet_are_those_of_the_tables(leaf):
    """The minutes of a burn and of an eye are the figures that the cautions rest on."""
    _, words = page_with(leaf, "Main switch")
    for figure in ("burn-cooling-time", "eye-rinse-time"):
        assert f"{TRADE.figure(figure).low:g} min" in words


def test_another_time_in_the_tables_changes_the_sheet():
    """No minute is typed in."""
    changed = dataclasses.replace(TRADE.figure("burn-cooling-time"), low=7, high=7, typical=7)
    catalog = dataclasses.replace(TRADE, figures={**TRADE.figures, "burn-cooling-time": changed})
    pages = printed_leaf(catalog, "S-10")
    assert "7 min" in page_with(pages, "Main switch")[1]


def test_marks_of_a_basis_stay_on_the_leaf(leaf):
    """The sheet has bare minutes; the leaf's own words carry the mark of their basis."""
    _, sheet = page_with(leaf, "Main switch")
    _, words = page_with(leaf, "Times on the sheet")
    marked = re.compile(r"20 min ?mem")
    assert not marked.search(sheet)
    assert len(marked.findall(words)) == 2


FRAME = "//// read-from | 2 m\n\n## Head\n\nWords.\n\n/// form-halves | One; Two\n///\n\n////\n"


def parsed(text):
    """Read a text, and give its tree and its faults."""
    made = Dialect(TRADE).parse(SourceText("page.md", text))
    return made.tree, [str(fault) for fault in made.source.faults]


def test_a_page_read_from_afar_holds_what_stands_inside():
    """Heading, words and lines stand in one page, whose capitals the distance sets."""
    tree, faults = parsed(FRAME)
    assert faults == []
    (page,) = tree
    assert (page.tag, page.get("capital")) == ("onepage", "6")
    assert [one.tag for one in page] == ["h2", "p", "formline", "formline"]
    assert [one.get("half") for one in page[2:]] == ["yes", "yes"]
    assert page[0].get("id") == "head"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (FRAME.replace("2 m", "2"), "accepted: a distance of 1 to 5 m"),
        (FRAME.replace("2 m", "9 m"), "accepted: a distance of 1 to 5 m"),
        ("//// read-from | 2 m\n////\n", "accepted: the words that stand in it"),
    ],
)
def test_a_distance_that_is_none_is_a_fault(text, said):
    """It is told with its line."""
    _, faults = parsed(text)
    assert any(said in fault and fault.startswith("page.md:1") for fault in faults)


def test_a_screen_shows_it_as_a_section_of_its_own_look():
    """The page is a section that the look sets larger; its lines can be typed in."""
    tree, _ = parsed(FRAME)
    addresses = Addresses(frozenset({"page"}), "", "")
    shown = Writer("page", "T-01", addresses, TRADE, {}).leaf(tree)
    assert '<section class="far">' in shown
    assert shown.count("<input") == 2
    assert ".far {" in (TEMPLATES / "look.css").read_text(encoding="utf-8")


def test_two_distances_ask_for_two_heights():
    """Twice as far asks for twice as high."""
    near, far = (
        float(place(TRADE, "read-from", f"{metres} m")[0].get("capital")) for metres in (1, 2)
    )
    assert far == 2 * near == TWO_METRES
