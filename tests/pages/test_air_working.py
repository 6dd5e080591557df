"""The working of a room's air in a browser: what its own command line gives, word for word."""

from __future__ import annotations

import dataclasses
import random
import shlex
from typing import Any

import pytest
from playwright.sync_api import Page
from working_pages import filled, shop, typed, written

from formulas.air.air_words import AIR_ROWS
from formulas.air.asked import AirTask, air_solvents
from formulas.air.heats import HEATS, asked_for
from formulas.answer import Answer
from formulas.catalog import Catalog
from site_builder.commands import main
from site_builder.commands.read_air import answered
from site_builder.workings.air_form import chart_of, typed_units

pytestmark = pytest.mark.browser

QUESTIONS = 500  # a unit, 1,000 together
MANY = """(all) => all.map((fields) => {
  const form = document.querySelector("form[data-working=air]");
  for (const [name, text] of fields) form.elements[name].value = text;
  form.elements.solvent.dispatchEvent(new Event("input", {bubbles: true}));
  const shown = {};
  for (const place of form.querySelectorAll("[data-out]")) {
    shown[place.dataset.out] = place.textContent;
  }
  shown["rows-limits"] = [...form.querySelectorAll("[data-rows=limits] tr")].map(
    (row) => [...row.children].map((cell) => cell.textContent));
  shown.chart = form.querySelector("[data-chart=air]").getAttribute("aria-label");
  return shown;
})"""
"""Fills in every question, tells the page once of each, and reads every place of its answer."""


def asked(catalog: Catalog, chance: random.Random, us: bool) -> dict[str, str]:
    """Draw what is typed: a solvent, a task, a room, and now and then what is left blank."""

    def number(low: float, high: float, digits: int) -> str:
        return typed(round(low * (high / low) ** chance.random(), digits), chance)

    def blank(text: str, share: float = 0.5) -> str:
        return "" if chance.random() < share else text

    minutes = chance.randint(2, 60)
    return {
        "solvent": chance.choice([one.id for one in air_solvents(catalog)]),
        "amount": number(0.02, 30, 2) if us else number(0.5, 900, 1),
        "over": str(minutes),
        "repeat": str(chance.randint(1, 5)),
        "every": blank(str(minutes + chance.randint(0, 30))),
        "area": blank(number(2, 300, 1) if us else number(10, 2000, 1)),
        "room": number(300, 9000, 0) if us else number(8, 300, 1),
        "changes": blank(number(0.1, 20, 2), 0.3),
        "temperature": blank(number(50, 95, 1) if us else number(10, 35, 1)),
        "start": blank(number(1, 900, 0), 0.8),
        "heat": blank(chance.choice(list(HEATS)), 0.8),
    }


def of_command(catalog: Catalog, line: str) -> Answer:
    """Give the answer of the command line that the page shows, read as the command reads it."""
    program, name, *words = shlex.split(line)
    assert (program, name) == ("benchbinder", "air")
    context = main.commands["air"].make_context("air", words)
    return answered(catalog, context.params["solvent"], context.params)


@pytest.mark.parametrize("units", ["metric", "US"])
def test_page_and_command_agree(units: str, page: Page, tmp_path: Any) -> None:
    """On 500 random questions every level, ratio, time and refusal is that of the command."""
    catalog = shop(units)
    page.goto(written(catalog, tmp_path, "air"))
    chance = random.Random(6)
    questions = [asked(catalog, chance, units == "US") for _ in range(QUESTIONS)]
    answers = page.evaluate(MANY, [list(one.items()) for one in questions])
    seen = ""
    for fields, shown in zip(questions, answers, strict=True):
        assert shown["message"] == "", (fields, shown["message"])
        compare(shown, of_command(catalog, shown["command"]))
        seen += shown["summary"] + "".join(cell for row in shown["rows-limits"] for cell in row)
        seen += "".join(shown[f"air-{place}"] for place in range(len(AIR_ROWS)))
    for words in (
        "Refused", "none set", "parts together", "passed through the room", "not known",
        "The whole room may light", "Near the source it may light", "No open window",
        "from the start", "not passed by this reckoning", "Too lean to light", "It may light",
    ):  # fmt: skip
        assert words in seen


def compare(shown: dict[str, Any], answer: Answer) -> None:
    """Compare the page with the command's answer."""
    found = answer.answer
    refused = [one["reason"] for one in found["refused"]]
    assert shown["summary"] == " ".join([*refused, f"{found['summary']}."])
    assert shown["look"] == ("" if refused else asked_for())
    said = [shown[f"air-{place}"] for place in range(len(AIR_ROWS))]
    assert said == list(found["said"].values())
    rows = []
    for one in found["against"]:
        if one["ratio"]:
            rows += [[one["label"]], one["said"]]
        else:
            rows += [[f"{one['label']}: {one['verdict']}"]]
    assert shown["rows-limits"] == rows


def test_page_and_paper_draw_the_same_chart(page: Page, tmp_path: Any) -> None:
    """The strokes of the live chart are those that paper draws of the same task."""
    catalog = shop()
    page.goto(written(catalog, tmp_path, "air"))
    fields = {"solvent": "heptane", "amount": "30", "over": "20", "repeat": "2", "room": "40",
              "changes": "2", "start": "5"}  # fmt: skip
    (shown,) = page.evaluate(MANY, [list(fields.items())])
    task = AirTask("heptane", 1200, amount=3e-5, room=40, changes=2, times=2, start=5e-6)
    figure = chart_of(catalog, task)
    assert shown["chart"] == figure.get("alt")
    drawn = page.evaluate(
        "() => [...document.querySelectorAll('[data-chart=air] *')]"
        ".map((one) => [one.getAttribute('points') || '', one.textContent])"
    )
    (svg,) = list(figure.iter("svg"))
    wanted = [[one.get("points", ""), one.text or ""] for one in svg.iter() if one is not svg]
    assert drawn == wanted
    assert sum(1 for points, _ in drawn if points) > 10


def test_the_shops_own_air_changes_count_where_none_are_typed(page: Page, tmp_path: Any) -> None:
    """A blank takes what shop.toml says, on the page as in the command."""
    catalog = shop()
    own = dataclasses.replace(catalog.shop, air_changes=3.5, room_m3=44.0)
    catalog = dataclasses.replace(catalog, shop=own)
    page.goto(written(catalog, tmp_path, "air"))
    shown = filled(page, "air", {"changes": ""})
    assert "--room 44m3" in shown["command"]
    assert "--air-changes" not in shown["command"]
    answer = of_command(catalog, shown["command"])
    assert answer.inputs["air_changes"].low == pytest.approx(3.5)
    compare(shown, answer)


def test_tasks_that_overlap_are_refused(page: Page, tmp_path: Any) -> None:
    """From start to start is never less than one task takes, and a day has eight hours."""
    page.goto(written(shop(), tmp_path, "air"))
    shown = filled(page, "air", {"over": "20", "repeat": "2", "every": "10"})
    assert shown["message"].startswith("From start to start")
    assert shown["summary"] == ""
    shown = filled(page, "air", {"over": "60", "repeat": "9", "every": ""})
    assert shown["message"].startswith("Such tasks in a day")
    assert shown["air-0"] == ""


def test_a_refusal_stands_before_the_figure(page: Page, tmp_path: Any) -> None:
    """Heat in the room is refused first; the level follows in the same breath, never alone."""
    page.goto(written(shop(), tmp_path, "air"))
    shown = filled(page, "air", {"heat": "hot-plate"})
    assert shown["summary"].startswith("Refused: a hot plate")
    assert shown["summary"].index("Refused") < shown["summary"].index("ppm")
    assert typed_units(shop())[0] in shown["command"]
