"""The working of cut in a browser: what its own command line gives, to the last printed digit."""

from __future__ import annotations

import random
import shlex
from collections.abc import Sequence
from typing import Any

import pytest
from playwright.sync_api import Page
from working_pages import filled, shop, typed, written

from formulas.answer import Answer
from formulas.catalog import Catalog
from formulas.cutting.blanks import strip_said
from formulas.valves.typed import area_printed
from formulas.valves.valve_words import percent_said
from site_builder.commands import main
from site_builder.commands.read_cut import answered
from site_builder.texts import cut as texts
from site_builder.workings.cut_form import SIZES

pytestmark = pytest.mark.browser

QUESTIONS = 500  # a unit, 1,000 together


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
    if chance.random() < 0.03:  # more long strips than the page shows
        fields |= {"length1": typed(length(30, 34), chance), "count1": "800"}
        fields |= {name: typed(length(55, 60), chance) for name in ("piece_length", "piece_width")}
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
    page.goto(written(catalog, tmp_path, "cut"))
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
    gap = float(fields["gap"].replace(",", ".")) * (0.0254 if us else 0.001)
    whole = _plan(shown["rows-plan"], answer, gap, us)
    counts = [int(fields[f"count{n}"] or 0) for n in range(1, SIZES + 1)]
    seen["joined"] += sum(1 for count in counts if count) > len(rows)
    seen["long"] += not whole
    if not plan.sheets:
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
    strips = sum(len(one.strips) for one in plan.sheets)
    assert f", {'1 strip' if strips == 1 else f'{strips} strips'}" in said
    assert (f"in lanes along its length, {first.lanes} to its width" in said) == (first.lanes > 1)
    assert ("turned" in said) == first.turned
    area = area_printed(sum(one.cut_into for one in plan.sheets), us)
    assert said.endswith(f"used share {percent_said(answer.answer['yield'])} of {area} cut into")


def _plan(rows: list[list[str]], answer: Answer, gap: float, us: bool) -> bool:
    """Lay the page's rows out again and find each strip at its place in the command's answer.

    Says whether the page shows all of them.
    """
    each = 0.0254 if us else 0.001
    step = 0.0005 * each if us else 1e-7  # what a printed number may hide
    (plan,) = answer.answer["plans"]
    left = {
        f"Piece {number}": [(one.x, one.y, one.width, one.length) for one in sheet.strips]
        for number, sheet in enumerate(plan.sheets, 1)
    }
    piece = ""
    for row in rows:
        if len(row) == 1:
            if row[0].startswith("and so on"):
                return False
            piece = row[0]
            continue
        number, width = row[0].split(" × ")
        for turn in range(int(number)):
            x = float(row[1]) * each + turn * (float(width) * each + gap)
            y = float(row[2]) * each
            for count, (length, trimmed) in enumerate(spelled(row[3]), turn + 2):
                sides = float(trimmed or width) * each, float(length) * each
                near = count * (step + 1e-5)
                found = [one for one in left[piece] if _same(one, (x, y, *sides), near)]
                assert len(found) == 1, (row, x, y, sides)
                left[piece].remove(found[0])
                y += sides[1] + gap
    assert not any(left.values())
    return True


def _same(one: Sequence[float], other: Sequence[float], near: float) -> bool:
    return all(abs(a - b) <= near for a, b in zip(one, other, strict=True))


def spelled(lengths: str) -> list[tuple[str, str]]:
    """Give each length of a long strip, and what it is trimmed to, one by one."""
    found = []
    for part in lengths.split("; "):
        words, _, trimmed = part.partition(", trimmed to ")
        count, times, length = words.rpartition(" × ")
        found += [(length, trimmed)] * (int(count) if times else 1)
    return found


def test_a_size_half_typed_is_named(page: Page, tmp_path: Any) -> None:
    """A length without its width is refused, and the field named."""
    catalog = shop()
    page.goto(written(catalog, tmp_path, "cut"))
    shown = filled(page, "cut", {"length5": "30", "width5": "", "count5": ""})
    assert shown["message"].startswith("Size 5, width: found nothing")
    assert shown["rows-list"] == []
