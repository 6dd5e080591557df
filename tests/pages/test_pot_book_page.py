"""Leaf B-01 as it is opened from its file: the book, a filled sheet, and a sheet to write on."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from formulas.catalog import load
from site_builder.places import DEMO_SHOP

pytestmark = pytest.mark.browser


def test_the_pot_book_leaf(page: Page, built: Path) -> None:
    """Every batch of the demo shop stands in the book, the newest as a sheet, and forms follow."""
    demo = load(DEMO_SHOP)
    page.goto((built / "pot-book.html").as_uri())
    newest = max(demo.pot_book.values(), key=lambda one: (one.date, one.batch))
    for made in demo.pot_book.values():
        row = page.get_by_role("row").filter(has=page.get_by_role("cell", name=made.batch))
        expect(row.filter(has_text=made.date)).to_have_count(1)
    expect(page.locator("strong", has_text=f"{newest.batch}, made {newest.date}")).to_be_visible()
    for part in demo.lots_by_batch[newest.batch]:
        row = page.get_by_role("row").filter(has_text=part.lot)
        expect(row.filter(has_text=f"{part.actual:g} {part.unit}")).to_have_count(1)
    expect(page.get_by_label("Blend, parts by mass")).to_be_editable()
    expect(page.get_by_label("Lot, or old batch, row 1")).to_be_editable()


def test_the_commands_of_the_leaf_are_ours(page: Page, built: Path) -> None:
    """Each command line on the leaf begins as a command of the program does."""
    page.goto((built / "pot-book.html").as_uri())
    lines = [
        line
        for block in page.locator("main pre").all_inner_texts()
        for line in block.replace("\\\n", " ").splitlines()
        if line.strip()
    ]
    entered = [line.split() for line in lines if line.startswith("benchbinder record ")]
    assert {words[2] for words in entered} == {"batch", "use", "test", "find"}
    assert len(lines) - len(entered) == 1
    assert "benchbinder start my-shop" in lines
