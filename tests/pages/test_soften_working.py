"""The working of softening in a browser: word for word and digit for digit the command's."""

from __future__ import annotations

import dataclasses
import random
import re
from typing import Any

import pytest
from playwright.sync_api import Page
from softening_rows import creep, firmer, read, shop_with
from working_pages import filled, random_parts, shop, span, typed, written

from formulas.answer import Answer, Band
from formulas.catalog import Catalog
from formulas.softening.soften import soften
from formulas.units import convert, printed
from site_builder.texts import soften as text
from site_builder.texts.words import band_shown

pytestmark = pytest.mark.browser

RECIPES = 200


def learned_shop(units: str) -> Catalog:
    """Give a shop with drop points, creep tests and side-by-sides over three sessions."""
    rows = [
        read("d1", "beeswax-yellow", 64.5, session="a"),
        read("d2", "beeswax-rosin-4-1", 61.0, session="a"),
        read("d3", "beeswax-rosin-2-1", 59.0, session="b"),
        read("d4", "beeswax-rosin-carnauba-16-4-1", 65.0, session="c"),
        creep("c1", "beeswax-rosin-4-1", 45, 50, session="d"),
        creep("c2", "beeswax-rosin-2-1", None, 50, session="d"),
        creep("c3", "beeswax-rosin-4-1", 50, None, own_stress=640, session="e"),
        firmer("f1", "beeswax-rosin-4-1", "beeswax-rosin-1-1", session="e"),
    ]
    return shop_with(shop(units), rows)


def asked(
    catalog: Catalog, chance: random.Random, units: str
) -> tuple[dict[str, str], dict[str, Any]]:
    """Draw what is asked: as it is typed into the page, and as the subject is given it."""
    estimated = ["", *(name for name, method in catalog.methods.items() if method.estimated)]
    fields = {"method": chance.choice(estimated), "target": "", "floor": "", "width": ""}
    fields["against"] = chance.choice(["", *catalog.blends])
    given: dict[str, Any] = {"method": fields["method"] or None, "against": fields["against"]}
    for name, low, high in (("target", 30, 115), ("floor", 30, 70)):
        if chance.random() < 0.7:
            celsius = chance.randint(low, high)
            shown = celsius if units == "metric" else printed(convert(celsius, "degC", "degF"), 1)
            fields[name] = str(shown)
            given[name] = float(celsius)
    if chance.random() < 0.3:
        fields["width"] = str(given.setdefault("width", float(chance.randint(2, 12))))
    return fields, given


def said(answer: Answer, catalog: Catalog) -> str:
    """Give all that the terminal says, unfolded."""
    return " ".join(" ".join(text.text(answer, catalog)).split())


@pytest.mark.parametrize("units", ["metric", "US"])
@pytest.mark.parametrize("tests", [False, True])
def test_page_and_command_say_the_same(units, tests, page: Page, tmp_path):
    """On 200 random questions every sentence of the page is one of the command's."""
    catalog = learned_shop(units) if tests else shop(units)
    page.goto(written(catalog, tmp_path, "soften"))
    chance = random.Random(41)
    seen = dict.fromkeys(("band", "target", "next", "floor", "against", "until", "reference"), 0)
    unfit = {"wax": 0, "rosin": 0, "": 0}
    for _ in range(RECIPES):
        parts = random_parts(catalog, chance)
        if chance.random() < 0.5:
            parts = dict(catalog.blends[chance.choice(list(catalog.blends))].parts)
        fields, given = asked(catalog, chance, units)
        shown = filled(page, "soften", fields, {n: typed(p, chance) for n, p in parts.items()})
        answer = soften(catalog, parts, **given)
        compare(shown, answer, catalog)
        for name in seen:
            seen[name] += bool(shown[name])
        unfit[answer.answer["too_much"]] += 1
    assert all(count > 10 for name, count in seen.items() if tests or name != "reference"), seen
    assert all(count > 5 for count in unfit.values()), unfit


def compare(shown: dict[str, Any], answer: Answer, catalog: Catalog) -> None:
    """Compare every place of the page with what the terminal says."""
    found, terminal = answer.answer, said(answer, catalog)
    asked_for = answer.inputs
    assert shown["message"] == "", asked_for
    band = found["softening"]
    if isinstance(band, Band):
        line = shown["summary"].replace("Softens from", "Softens somewhere from")
        assert line in terminal, asked_for
        assert shown["band"] == span(band_shown(band, catalog)), asked_for
        assert shown["lot"] == span(band_shown(found["next_lot"], catalog)), asked_for
    else:
        assert shown["summary"].startswith("Softening not known"), asked_for
        assert shown["band"] == shown["lot"] == "", asked_for
    for place in ("floor", "against", "target", "reference", "until"):
        assert shown[place] in terminal, (place, asked_for)
        assert bool(shown[place]) == expected(place, answer), (place, asked_for)
    told = found["next_test"] is not None or found["too_much"] != ""
    assert bool(shown["next"]) == told, asked_for
    if shown["next"]:
        assert f"Test next: {shown['next']}" in terminal, asked_for
        tests = found["tests_used"]
        assert shown["tests"].startswith(f"{tests} {'test' if tests == 1 else 'tests'}")
        assert ("does not decide" in shown["tests"]) == (tests == 0)


def expected(place: str, answer: Answer) -> bool:
    """Say whether the command answers this at all."""
    found = answer.answer
    if place == "target":
        return "not_ruled_out" in found
    return {
        "floor": "floor" in found,
        "against": "against" in found,
        "reference": found["reference"] is not None,
        "until": "tests_until" in found,
    }[place]


def test_the_command_line_asks_the_same(page: Page, tmp_path):
    """The printed command carries every question of the page."""
    catalog = dataclasses.replace(shop())
    page.goto(written(catalog, tmp_path, "soften"))
    fields = {"method": "step-creep", "target": "60", "floor": "45", "width": "4"}
    shown = filled(page, "soften", {**fields, "against": "beeswax-rosin-10-1"})
    assert re.sub(r"^benchbinder soften \S+", "", shown["command"]) == (
        " --method step-creep --target 60C --floor 45C --against beeswax-rosin-10-1 --width 4"
    )
