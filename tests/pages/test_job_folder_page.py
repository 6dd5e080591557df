"""The folder of a job in a browser: from disk, quiet, within its width, open to everybody."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from job_examples import worked_out
from playwright.sync_api import Page

from site_builder.job_folder import writing

pytestmark = pytest.mark.browser

WIDTHS = (1280, 820, 390)
AXE = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "preload": False,  # it would fetch the style sheets itself, which no page from a file may
}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write the folder of the demo's accordion once."""
    made = tmp_path_factory.mktemp("job")
    writing.write(worked_out(), made)
    return made


@pytest.mark.parametrize("width", WIDTHS)
def test_no_page_is_wider_than_its_screen(page: Page, folder: Path, width: int) -> None:
    """No page scrolls sideways; what is wide scrolls in its own box."""
    page.set_viewport_size({"width": width, "height": 900})
    for path in sorted(folder.glob("*.html")):
        page.goto(path.as_uri())
        over = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        assert over <= 0, path.name


def test_every_leaf_is_reached_from_the_front_page(page: Page, folder: Path) -> None:
    """Each link of the front page's contents leads to a leaf whose title names the job."""
    page.goto((folder / "index.html").as_uri())
    hrefs = page.eval_on_selector_all(".contents .leaves a", "all => all.map(one => one.href)")
    assert len(hrefs) == 11
    for href in hrefs:
        page.goto(href)
        assert "Job 26-021" in page.title()
        assert page.get_by_role("heading", level=1).count() == 1


@pytest.mark.parametrize("name", ["block-charts.html", "summary.html"])
def test_a_page_is_open_to_everybody(page: Page, folder: Path, name: str) -> None:
    """The accessibility judge finds nothing."""
    page.set_viewport_size({"width": 1280, "height": 900})
    page.goto((folder / name).as_uri())
    results = Axe().run(page, options=AXE)
    assert results.violations_count == 0, results.generate_report()


@pytest.mark.parametrize("width", [1280, 820])
def test_no_chart_is_cut_on_a_desk(page: Page, folder: Path, width: int) -> None:
    """Where a page is as wide as paper no table and no drawing has to be scrolled sideways."""
    inside = """() => [...document.querySelectorAll('.wide')].filter(
        (one) => one.scrollWidth > one.clientWidth + 1).map((one) => one.ariaLabel)"""
    page.set_viewport_size({"width": width, "height": 900})
    for path in sorted(folder.glob("*.html")):
        page.goto(path.as_uri())
        assert page.evaluate(inside) == [], path.name


@pytest.mark.parametrize("width", WIDTHS)
def test_upright_heads_are_read_whole(page: Page, folder: Path, width: int) -> None:
    """No head of a chart stands out of its cell."""
    outside = """() => [...document.querySelectorAll('.rows th .upright')].filter((one) => {
        const box = one.getBoundingClientRect(), cell = one.parentElement.getBoundingClientRect();
        return box.top < cell.top || box.bottom > cell.bottom || box.height < 20
    }).map((one) => one.textContent)"""
    page.set_viewport_size({"width": width, "height": 900})
    for name in ("block-charts.html", "test-forms.html"):
        page.goto((folder / name).as_uri())
        assert page.locator(".rows th .upright").count() > 0
        assert page.evaluate(outside) == [], name
