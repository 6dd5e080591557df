"""The exercises in a browser: right at the ends of the tolerance, the way only after a try."""

from __future__ import annotations

import functools
import re
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Locator, Page, expect

from formulas.catalog import Catalog, load
from formulas.practice.checking import answer_right
from formulas.practice.exercise import ABOVE, BELOW, GRADES, Wanted
from formulas.practice.practice import in_order, practice
from site_builder.parts.practice_parts import by_name, held
from site_builder.places import DEMO_SHOP
from site_builder.practice_sheet import on_screen
from site_builder.screen.exercise_form import PAST

pytestmark = pytest.mark.browser

WIDTHS = (1280, 820, 390)
AXE = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "preload": False,  # it would fetch the style sheets itself, which no page from a file may
}
TRY = """([place, answers]) => {
  const form = document.querySelectorAll("form[data-exercise]")[place];
  const shown = [...form.querySelectorAll(".asked > div")];
  answers.forEach((text, n) => {
    const field = shown[n].querySelector("input[type=text]");
    if (field) field.value = text;
    else shown[n].querySelectorAll("input").forEach((one) => { one.checked = one.value === text; });
  });
  form.requestSubmit();
  return shown.map((one) => one.querySelector(".said").textContent);
}"""
"""Answers an exercise and gives what the page says of each answer."""


@functools.cache
def trade() -> Catalog:
    """Give the tables that the built handbook was made from: a shop's blends are drawn as well."""
    return load(DEMO_SHOP)


@pytest.fixture
def leaf(page: Page, built: Path) -> Page:
    """Open the practice leaf of the handbook."""
    page.goto((built / "practice.html").as_uri())
    return page


def exercise(page: Page, place: int = 0) -> Locator:
    """Give one exercise of a page."""
    return page.locator("form[data-exercise]").nth(place)


def shown_name(page: Page, place: int, turns: int = 0) -> str:
    """Name the exercise that a form shows after so many turns to other numbers."""
    names = str(exercise(page, place).get_attribute("data-exercise")).split("; ")
    return names[turns % len(names)]


def numbers(page: Page) -> int:
    """Count the exercises of a page."""
    return page.locator("form[data-exercise]").count()


def exact(value: float) -> Decimal:
    """Give the number that a person reads, not the binary one beside it."""
    return Decimal(repr(value))


def key_of(one: Any) -> str:
    """Give what a person types who has it right."""
    return str(exact(one.value)) if isinstance(one, Wanted) else str(one.right)


def test_every_topic_and_grade_is_right_to_the_ends_of_its_tolerance(leaf: Page) -> None:
    """For all six variants: both ends are right, a hair beyond is not, as Python has it."""
    compared, sides = 0, set()
    for place in range(numbers(leaf)):
        for turns in range(6):
            name = shown_name(leaf, place, turns)
            wanted = by_name(trade(), name).made.wanted
            keys = [key_of(one) for one in wanted]
            said = leaf.evaluate(TRY, [place, keys])
            assert said == ["Right."] * len(keys), name
            for at, one in enumerate(wanted):
                if not isinstance(one, Wanted):
                    others = [word for word in one.of if word != one.right]
                    for word in others:
                        tried = [*keys[:at], word, *keys[at + 1 :]]
                        assert leaf.evaluate(TRY, [place, tried])[at].startswith("Not right")
                    continue
                compared += edges(leaf, place, keys, at, one)
                sides.add(one.side)
            exercise(leaf, place).get_by_role("button", name="Other numbers").click()
    assert numbers(leaf) == len(in_order(trade())) * len(GRADES)
    assert compared > 400
    assert sides == {"both", "below", "above"}


def edges(page: Page, place: int, keys: list[str], at: int, one: Wanted) -> int:
    """Try the ends of one tolerance and what lies a thousandth of it beyond.

    Beyond a limit not even a thousandth counts, and the page says which way it is rounded.
    """
    value, room = exact(one.value), exact(one.tolerance)
    for sign in (-1, 1):
        counts = one.side != (ABOVE if sign < 0 else BELOW)
        for share, within in (
            (Decimal("0.001"), True), (Decimal(1), True), (Decimal("1.001"), False),
            (Decimal(3), False),
        ):  # fmt: skip
            typed, right = f"{value + sign * share * room:f}", within and counts
            said = page.evaluate(TRY, [place, [*keys[:at], typed, *keys[at + 1 :]]])[at]
            assert (said == "Right.") is right, (typed, one)
            assert (said == PAST[one.side]) is (within and not counts), (typed, one, said)
            assert answer_right(float(typed), one.value, one.tolerance, one.side) is right
    return 8


def with_a_unit(page: Page) -> tuple[int, Wanted]:
    """Find an exercise that asks for one number with a unit and decimals."""
    for place in range(numbers(page)):
        wanted = by_name(trade(), shown_name(page, place)).made.wanted
        if len(wanted) == 1 and isinstance(wanted[0], Wanted) and wanted[0].unit == "g":
            return place, wanted[0]
    raise AssertionError("no exercise asks for grams alone")


def test_a_comma_and_a_unit_are_read(leaf: Page) -> None:
    """Point or comma, with the unit or without; another unit and no number are told."""
    place, one = with_a_unit(leaf)
    key = key_of(one)
    for typed in (key, key.replace(".", ","), f"{key} g", f"{key}g", f" {key} grams "):
        assert leaf.evaluate(TRY, [place, [typed]]) == ["Right."], typed
    for typed in (f"{key} kg", "about ten", f"{key} 5", "1e999", "--3"):
        (said,) = leaf.evaluate(TRY, [place, [typed]])
        assert said == f"Found “{typed}”, accepted: a number such as 12.5 or 12,5, in g."
    assert leaf.evaluate(TRY, [place, [""]]) == ["Nothing typed yet."]


def test_the_way_opens_after_a_try_and_not_before(leaf: Page) -> None:
    """Before a try no line of it stands in the page; a wrong answer opens it as a right one."""
    place, one = with_a_unit(leaf)
    form, way = exercise(leaf, place), by_name(trade(), shown_name(leaf, place)).made.working
    way = tuple(held(line) for line in way)
    folded = form.get_by_text("Show the way")
    expect(folded).to_be_hidden()
    assert all(line not in form.evaluate("one => one.textContent") for line in way)
    form.get_by_role("button", name="Check").click()
    expect(folded).to_be_hidden()  # nothing was typed: that was no try
    form.get_by_role("textbox").fill(f"{3 * one.value + 1:f}")
    form.get_by_role("button", name="Check").click()
    expect(form.get_by_role("status")).to_have_text("Not right yet. The way can be opened below.")
    assert all(line not in form.evaluate("one => one.textContent") for line in way)
    folded.click()
    for line in way:
        expect(form.locator("details li").filter(has_text=line)).to_be_visible()
    expect(form.locator("details")).to_contain_text("right within")


def test_other_numbers_start_afresh(leaf: Page) -> None:
    """The next variant has a new task, empty fields and no way; the seventh is the first."""
    place, _ = with_a_unit(leaf)
    form = exercise(leaf, place)
    leaf.evaluate(TRY, [place, ["1"]])
    form.get_by_text("Show the way").click()
    first = form.locator(".task").inner_text()
    tasks = {first}
    for turns in range(1, 7):
        form.get_by_role("button", name="Other numbers").click()
        one = by_name(trade(), shown_name(leaf, place, turns))
        expect(form.locator(".task")).to_have_text(" ".join(one.made.told))
        expect(form.get_by_text("Show the way")).to_be_hidden()
        assert form.locator("input[type=text]").evaluate_all("all => all.map(o => o.value)") == [
            ""
        ] * sum(isinstance(each, Wanted) for each in one.made.wanted)
        expect(form.locator(".again")).to_contain_text(f"--seed {one.seed}")
        tasks.add(form.locator(".task").inner_text())
    assert form.locator(".task").inner_text() == first
    assert len(tasks) == 6
    expect(form.get_by_role("status")).to_have_text("The first numbers again.")


def test_it_is_worked_with_the_keyboard_alone(leaf: Page) -> None:
    """Type, Enter checks; the way is opened with the keyboard too."""
    place, one = with_a_unit(leaf)
    form = exercise(leaf, place)
    form.get_by_role("textbox").focus()
    leaf.keyboard.type(key_of(one))
    leaf.keyboard.press("Enter")
    expect(form.get_by_role("status")).to_have_text("Right. The way can be opened below.")
    for _ in range(3):  # past "Check" and "Other numbers"
        leaf.keyboard.press("Tab")
    leaf.keyboard.press("Enter")
    expect(form.locator("details")).to_have_attribute("open", "")


def test_a_field_says_its_unit_and_its_judgement(leaf: Page) -> None:
    """The field is described by its unit and by what was said of it; wrong is marked invalid."""
    place, one = with_a_unit(leaf)
    field = exercise(leaf, place).get_by_role("textbox", name=one.what)
    leaf.evaluate(TRY, [place, [str(one.value * 3 + 1)]])
    expect(field).to_have_accessible_description("g Not right: reckon it once more.")
    expect(field).to_have_attribute("aria-invalid", "true")
    leaf.evaluate(TRY, [place, [key_of(one)]])
    expect(field).to_have_accessible_description("g Right.")
    assert field.get_attribute("aria-invalid") is None


def test_nothing_is_kept(leaf: Page) -> None:
    """No storage, no cookie, nothing in the address; after a reload the fields are empty."""
    place, one = with_a_unit(leaf)
    before = leaf.url
    leaf.evaluate(TRY, [place, [key_of(one)]])
    assert leaf.evaluate("[localStorage.length, sessionStorage.length, document.cookie]") == [
        0, 0, "",
    ]  # fmt: skip
    assert leaf.url == before
    leaf.reload()
    assert leaf.locator("form[data-exercise] input[type=text]").evaluate_all(
        "all => all.every((one) => one.value === '')"
    )


@pytest.mark.parametrize("width", WIDTHS)
def test_the_leaf_is_open_to_everybody(leaf: Page, width: int) -> None:
    """After tries, right and wrong, with the ways open: no finding, no overflow, room to touch."""
    leaf.set_viewport_size({"width": width, "height": 900})
    for place in range(numbers(leaf)):
        wanted = by_name(trade(), shown_name(leaf, place)).made.wanted
        leaf.evaluate(TRY, [place, [key_of(one) if place % 2 else "1" for one in wanted]])
        exercise(leaf, place).locator("details").evaluate("one => { one.open = true; }")
    assert leaf.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    assert leaf.locator(".exercise").evaluate_all(
        "all => all.every((one) => one.scrollWidth <= one.clientWidth + 1)"
    )
    touched = "button, summary, label:has(input), input[type=text]"
    heights = (
        leaf.locator(".exercise")
        .locator(touched)
        .evaluate_all(
            "all => all.filter((one) => one.checkVisibility()).map((one) => one.offsetHeight)"
        )
    )
    assert len(heights) > 100
    assert min(heights) >= 44
    results = Axe().run(leaf, options=AXE)
    assert results.violations_count == 0, results.generate_report()


def test_without_script_the_exercises_stand_and_the_key_is_named(browser: Any, built: Path) -> None:
    """The tasks and the fields are there, no button that does nothing, and where the key is."""
    context = browser.new_context(java_script_enabled=False)
    opened = context.new_page()
    opened.goto((built / "practice.html").as_uri())
    form = opened.locator("form[data-exercise]").first
    expect(form.locator(".task")).to_be_visible()
    expect(form.get_by_role("button")).to_have_count(0)
    told = form.locator("noscript")
    expect(told).to_be_visible()
    assert "the key with the working stands on the leaf" in told.inner_text()
    context.close()


def test_in_the_handbook_of_one_file_the_exercises_check_too(page: Page, built: Path) -> None:
    """The same form works where every leaf stands in one page."""
    page.goto((built / "handbook.html").as_uri())
    place, one = with_a_unit(page)
    assert page.evaluate(TRY, [place, [key_of(one)]]) == ["Right."]


@pytest.fixture
def sheet(page: Page, tmp_path: Path) -> Page:
    """Open a sheet of one file, of three topics."""
    answer = practice(trade(), ["ratios", "adjusting", "room-air"], 4, 9)
    path = tmp_path / "sheet.html"
    path.write_bytes(on_screen.page(answer, trade()))
    page.goto(path.as_uri())
    return page


def test_a_sheet_of_one_file_checks_answers(sheet: Page) -> None:
    """Each of its exercises takes its key, and says that nothing is kept."""
    assert numbers(sheet) == 12
    for place in range(12):
        wanted = by_name(trade(), shown_name(sheet, place)).made.wanted
        said = sheet.evaluate(TRY, [place, [key_of(one) for one in wanted]])
        assert set(said) == {"Right."}
    expect(sheet.get_by_text("This page keeps nothing")).to_be_visible()
    expect(sheet.get_by_text(re.compile("Seed 9"))).to_be_visible()


@pytest.mark.parametrize("width", [1280, 390])
def test_a_sheet_of_one_file_is_open_to_everybody(sheet: Page, width: int) -> None:
    """No finding and no overflow."""
    sheet.set_viewport_size({"width": width, "height": 900})
    assert sheet.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    results = Axe().run(sheet, options=AXE)
    assert results.violations_count == 0, results.generate_report()
