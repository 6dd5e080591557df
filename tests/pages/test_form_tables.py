"""Record forms in a browser: how many rows a screen shows, and that each field can be written."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page

from site_builder.screen.html_writer import FIRST_ROWS

LEAVES = ("step-creep", "side-by-side", "drop-point", "cold-bend", "incoming-material")


@pytest.mark.parametrize("leaf", LEAVES)
@pytest.mark.parametrize(("width", "all_rows"), [(1280, True), (820, True), (390, False)])
def test_a_screen_shows_what_it_has_room_for(page: Page, built, leaf, width, all_rows):
    """A wide screen shows every row, a phone the first ones; nothing leaves the side."""
    page.set_viewport_size({"width": width, "height": 900})
    page.goto(f"{built.as_uri()}/{leaf}.html")
    form = page.locator("table.blanks").last
    rows = form.locator("tbody tr")
    shown = [row for row in rows.all() if row.is_visible()]
    assert len(shown) == (rows.count() if all_rows else FIRST_ROWS)
    assert page.get_by_text("A narrow screen shows").last.is_visible() is not all_rows
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    scrolled = "e => e.scrollWidth > e.clientWidth + 1"
    assert not form.locator("xpath=..").evaluate(scrolled)


@pytest.mark.parametrize("width", [820, 1280])
def test_a_column_answered_in_words_is_the_widest(page: Page, built, width):
    """What was done takes more writing than a tap: twice its width, and initials find room."""
    page.set_viewport_size({"width": width, "height": 900})
    page.goto(f"{built.as_uri()}/check-the-bedding.html")
    heads = page.locator("table.blanks").last.locator("thead th")
    each = dict(zip(heads.all_inner_texts(), heads.all(), strict=True))
    wide = {head: cell.bounding_box()["width"] for head, cell in each.items()}
    assert max(wide, key=wide.get) == "What was done"
    assert wide["What was done"] > 2 * wide["Tap"]
    page.goto(f"{built.as_uri()}/incoming-material.html")
    by = page.get_by_role("textbox", name="By, row 1", exact=True)
    assert by.bounding_box()["width"] >= 44


def test_a_field_is_found_by_column_and_row_and_is_large_enough(page: Page, built):
    """By its name, as somebody who does not see the table finds it; a finger fits."""
    page.set_viewport_size({"width": 390, "height": 900})
    page.goto(f"{built.as_uri()}/step-creep.html")
    field = page.get_by_role("textbox", name="Held, row 2", exact=True)
    field.fill("45 °C")
    assert field.input_value() == "45 °C"
    assert field.bounding_box()["height"] >= 44


def test_on_paper_from_the_browser_all_rows_are_there(page: Page, built):
    """A print of the page from a wide screen holds every row."""
    page.goto(f"{built.as_uri()}/cold-bend.html")
    page.emulate_media(media="print")
    rows = page.locator("table.blanks tbody tr")
    assert all(row.is_visible() for row in rows.all())
