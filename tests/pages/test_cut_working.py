"""The working of cut in a browser: what its own command line gives, to the last printed digit."""

from __future__ import annotations

import random
import shlex
from typing import Any

import pytest
from playwright.sync_api import Page
from working_pages import filled, shop, typed, written

from formulas.answer import Answer
from formulas.catalog import Catalog
from formulas.cutting.blanks import side_said, strip_said
from formulas.valves.typed import area_printed
from formulas.valves.valve_words import percent_said
from site_builder.commands import main
from site_builder.commands.read_cut import answered
from site_builder.texts import cut as texts
from site_builder.workings.cut_form import SIZES

pytestmark = pytest.mark.browser

QUESTIONS = 500  # a unit, 1,000 together
SHOWN = 60  # rows of the plan that the page shows


def asked(chance: random.Random, us: bool) -> dict[str, str]:
    """Draw what is typed: one to six sizes, a piece, steps, spares, gap and margin."""
    each = 25.4 if us else 1.0
    digits = 3 if us else 1

    def length(low: float, high: float) -> float:
        return round(chance.uniform(low, high) / each, digits)

    fields = {
        f"{name}{n}": "" for n in range(1, SIZES + 1) for name in ("length", "width", "count")
    }
    for number in [*chance.sample(range(2, SIZES + 1), chance.randint(0, SIZES - 1)), 1]:
        fields[f"length{number}"] = typed(length(12, 95), chance)
        fields[f"width{number}"] = typed(length(2.5, 12), chance)
        fields[f"count{number}"] = str(chance.choice([1, 2, chance.randint(3, 60)]))
    if chance.random() < 0.1:  # a size once more, a hair smaller
        fields["length6"] = typed(length(29.7, 29.9), chance)
        fields["width6"] = typed(length(4.8, 4.9), chance)
        fields["count6"] = "3"
        fields |= {"length1": fields["length6"], "width1": fields["width6"]}
    least, most = (21, 30) if chance.random() < 0.05 else (60, 420)
    fields["piece_length"] = typed(length(least, most), chance)
    fields["piece_width"] = typed(length(least, most), chance)
    fields["pieces"] = chance.choice(["", "", "1", "2"])
    fields["turn"] = chance.choice(["no", "yes"])
    fields["spares"] = typed(chance.choice([0, 5, 10, 12.5, 20]), chance)
    fields["width_step"] = typed(chance.choice([0.02, 0.01] if us else [0.5, 0.25, 1]), chance)
    fields["length_step"] = typed(chance.choice([0.04, 0.0625] if us else [1, 0.5, 2]), chance)
    fields["gap"] = typed(chance.choice([0, 0.008] if us else [0, 0.2, 0.35]), chance)
    fields["margin"] = typed(chance.choice([0, 0.2] if us else [0, 3, 5]), chance)
    return fields


def of_command(catalog: Catalog, line: str) -> Answer:
    """Give the answer of the command line that the page shows, read as the command reads it."""
    program, name, *words = shlex.split(line)
    assert (program, name) == ("benchbinder", "cut")
    context = main.commands["cut"].make_context("cut", words)
    return answered(catalog, context.params)


@pytest.mark.parametrize("units", ["metric", "US"])
def test_page_and_command_agree(units: str, page: Page, tmp_path: Any) -> None:
    """On 500 random lists every size, count, place and share is that of the command shown."""
    catalog = shop(units)
    page.goto(written(catalog, tmp_path))
    chance = random.Random(448)
    seen = dict.fromkeys(("turned", "lanes", "pieces", "missing", "none", "long", "joined"), 0)
    for _ in range(QUESTIONS):
        fields = asked(chance, units == "US")
        shown = filled(page, "cut", fields)
        assert shown["message"] == "", (fields, shown["message"])
        compare(shown, of_command(catalog, shown["command"]), fields, catalog, seen)
    assert min(seen.values()) > 5, seen


def compare(
    shown: dict[str, Any],
    answer: Answer,
    fields: dict[str, str],
    catalog: Catalog,
    seen: dict[str, int],
) -> None:
    """Compare the page with the command's answer."""
    us = catalog.shop.units == "US"
    found = answer.answer
    (plan,) = found["plans"]
    rows = [
        [strip_said(one.length, one.width, us), str(one.count), str(one.spares), str(one.cut)]
        for one in plan.blanks
    ]
    assert shown["rows-list"] == rows
    strips = "\n".join(texts.text(answer, catalog)).replace("\n    ", " ")
    for piece in shown["long"].split("; "):
        assert piece in strips
    assert shown["summary"] in strips
    where = [
        (number, strip) for number, sheet in enumerate(plan.sheets, 1) for strip in sheet.strips
    ]
    _plan(shown["rows-plan"], where, us)
    counts = [int(fields[f"count{n}"] or 0) for n in range(1, SIZES + 1)]
    seen["joined"] += sum(1 for count in counts if count) > len(rows)
    seen["long"] += len(shown["rows-plan"]) > SHOWN
    if not where:
        seen["none"] += 1
        assert shown["pieces"] == "none has room"
    else:
        _pieces(shown["pieces"], answer, us, seen)
    bought = [one for one in found["to_buy"] if one["area"]]
    if bought:
        seen["missing"] += 1
        (said,) = texts.bought_said(answer, us)
        assert shown["buy"] + "." == said.removeprefix("To buy of stock for the sizes typed: ")
    else:
        assert shown["buy"] == ""


def _pieces(said: str, answer: Answer, us: bool, seen: dict[str, int]) -> None:
    (plan,) = answer.answer["plans"]
    first = plan.sheets[0]
    seen["pieces"] += len(plan.sheets) > 1
    seen["turned"] += first.turned
    seen["lanes"] += first.lanes > 1
    assert said.startswith(f"{len(plan.sheets)} of {strip_said(first.length, first.width, us)}, ")
    assert f", {sum(len(one.strips) for one in plan.sheets)} strips" in said
    assert (f"into {first.lanes} lanes" in said) == (first.lanes > 1)
    assert ("turned" in said) == first.turned
    area = area_printed(sum(one.cut_into for one in plan.sheets), us)
    assert said.endswith(f"used share {percent_said(answer.answer['yield'])} of {area} cut into")


def _plan(rows: list[list[str]], where: list[tuple[int, Any]], us: bool) -> None:
    """Compare the long strips of the page with the places of the command, strip by strip."""
    whole = bool(rows) and rows[-1][0] != "and so on"
    known: dict[tuple[str, str, str, str], list[str]] = {}
    for piece, strip in where:
        key = (str(piece), side_said(strip.x, us), side_said(strip.width, us), "")
        known.setdefault(key, []).append(f"{side_said(strip.y, us)} {side_said(strip.length, us)}")
    counted = 0
    for piece, x, y, width, lengths in rows if whole else rows[:-1]:
        at = known[(piece, x, width, "")]
        parts = lengths.split(", ")
        assert f"{y} {parts[0]}" in at
        counted += len(parts)
    if whole or not rows:
        assert counted == len(where)


def test_a_size_half_typed_is_named(page: Page, tmp_path: Any) -> None:
    """A length without its width is refused, and the field named."""
    catalog = shop()
    page.goto(written(catalog, tmp_path))
    shown = filled(page, "cut", {"length5": "30", "width5": "", "count5": ""})
    assert shown["message"].startswith("Size 5, width: found nothing")
    assert shown["rows-list"] == []
