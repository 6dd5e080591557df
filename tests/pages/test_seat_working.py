"""The working of seat in a browser: what its own command line gives, word for word."""

from __future__ import annotations

import random
import shlex
from typing import Any

import pytest
from playwright.sync_api import Page
from working_pages import filled, shop, typed, written

from formulas.answer import Answer
from formulas.catalog import Catalog
from formulas.seating.asked import BLOCKS, FASTENERS, FORMS, METALS, SERVICES
from formulas.seating.gasket_words import GASKET_ROWS, THEY_DO_NOT, THEY_MAY, THEY_REACH
from site_builder.commands import main
from site_builder.commands.read_seat import answered

pytestmark = pytest.mark.browser

QUESTIONS = 500  # a unit, 1,000 together
MANY = """(all) => all.map((fields) => {
  const form = document.querySelector("form[data-working=seat]");
  for (const [name, text] of fields) form.elements[name].value = text;
  form.elements.form.dispatchEvent(new Event("input", {bubbles: true}));
  const shown = {};
  for (const place of form.querySelectorAll("[data-out]")) {
    shown[place.dataset.out] = place.textContent;
  }
  shown["rows-seats"] = [...form.querySelectorAll("[data-rows=seats] tr")].map(
    (row) => [...row.children].map((cell) => cell.textContent));
  return shown;
})"""
"""Fills in every question, tells the page once of each, and reads every place of its answer."""


def asked(catalog: Catalog, chance: random.Random, us: bool) -> dict[str, str]:
    """Draw what is typed: a plate, what was found, wishes, and mostly a gasket."""
    each, digits = (25.4, 3) if us else (1.0, 1)

    def length(low: float, high: float, more: int = 0) -> str:
        return typed(round(chance.uniform(low, high) / each, digits + more), chance)

    found = chance.choice(["", *catalog.seating_methods])
    return {
        "form": chance.choice(FORMS[:2]) if chance.random() < 0.6 else chance.choice(FORMS),
        "metal": chance.choice(METALS),
        "block": chance.choice(BLOCKS),
        "service": chance.choice(SERVICES),
        "found": found,
        "failed": chance.choice(["no", "yes"]) if found else "no",
        "keep": chance.choice(["no", "yes"]),
        "later": chance.choice(["no", "yes"]),
        "gasket": chance.choice(["", *list(catalog.gasket_materials) * 2]),
        "thickness": length(0.4, 3, 1),
        "plate_length": length(22, 700),
        "plate_width": length(10, 90),
        "plate_thickness": length(1.2, 4.5, 1),
        "was": chance.choice(["", "0", length(0, 2, 1)]),
        "cells": chance.choice(["", typed(round(chance.uniform(10, 80)), chance)]),
        "fasteners": chance.choice(FASTENERS),
    }


def of_command(catalog: Catalog, line: str) -> Answer:
    """Give the answer of the command line that the page shows, read as the command reads it."""
    program, name, *words = shlex.split(line)
    assert (program, name) == ("benchbinder", "seat")
    context = main.commands["seat"].make_context("seat", words)
    return answered(catalog, context.params)


@pytest.mark.parametrize("units", ["metric", "US"])
def test_page_and_command_agree(units: str, page: Page, tmp_path: Any) -> None:
    """On 500 random questions every seat, reason, range and count is that of the command shown."""
    catalog = shop(units)
    page.goto(written(catalog, tmp_path))
    chance = random.Random(75)
    questions = [asked(catalog, chance, units == "US") for _ in range(QUESTIONS)]
    answers = page.evaluate(MANY, [list(one.items()) for one in questions])
    verdicts: set[str] = set()
    seen = ""
    for fields, shown in zip(questions, answers, strict=True):
        assert shown["message"] == "", (fields, shown["message"])
        answer = of_command(catalog, shown["command"])
        compare(shown, answer, fields)
        verdicts |= {one["verdict"] for one in answer.answer["methods"]}
        seen += shown["gasket-8"] + shown["gasket-9"] + shown["gasket-4"]
    assert verdicts == {"keep it", "may", "may, with care", "last resort", "never here"}
    for words in (THEY_REACH, THEY_MAY, THEY_DO_NOT, "nearer", "farther", "may stand", "too far"):
        assert words in seen


def compare(shown: dict[str, Any], answer: Answer, fields: dict[str, str]) -> None:
    """Compare the page with the command's answer."""
    found = answer.answer
    assert shown["summary"] == found["summary"]
    rows = []
    for one in found["methods"]:
        rows += [[one["said"]], *([each["kind"], each["words"]] for each in one["reasons"])]
    assert shown["rows-seats"] == rows
    said = [shown[f"gasket-{place}"] for place in range(len(GASKET_ROWS))]
    if fields["gasket"]:
        assert said == list(found["gasket"]["said"].values())
    else:
        assert found["gasket"] is None
        assert set(said) == {""}


def test_a_failed_seat_that_is_not_named_is_refused(page: Page, tmp_path: Any) -> None:
    """What failed has to be said."""
    page.goto(written(shop(), tmp_path))
    shown = filled(page, "seat", {"found": "", "failed": "yes"})
    assert shown["message"].startswith("What was found: found “yes”, accepted")
    assert shown["rows-seats"] == []


def test_a_size_nobody_cuts_is_named(page: Page, tmp_path: Any) -> None:
    """A gasket as thick as a plank is refused, and the field named."""
    page.goto(written(shop(), tmp_path))
    shown = filled(page, "seat", {"gasket": "cork", "thickness": "60"})
    assert shown["message"].startswith("Its thickness, new: found “60”")
