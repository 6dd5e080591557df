"""The working of a whole rank in a browser: rows, runs and chart are the command's own."""

from __future__ import annotations

import random
import shlex
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from playwright.sync_api import Page
from test_one_valve_working import demo, number, shop_folder
from working_pages import filled, typed, written

from formulas.catalog import Catalog
from formulas.units import convert
from formulas.valves.at_hand import at_hand
from formulas.valves.notes import note_name
from formulas.valves.slot_choice import SlotChoice
from formulas.valves.stock import stocks
from formulas.valves.typed_rank import typed_rank
from formulas.valves.typed_stock import typed_stock, with_typed
from site_builder.commands import main
from site_builder.parts.window_charts import chart_of
from site_builder.texts.valves import runs
from site_builder.workings.valve_data import TITLE
from site_builder.workings.valves_form import rank_rows

pytestmark = pytest.mark.browser

QUESTIONS = 500  # a unit, 1,000 together
DRAWN = """() => {
  const form = document.querySelector("form[data-working=valves]");
  const svg = form.querySelector("[data-chart=window]");
  const said = (one) => [one.tagName, one.textContent, Object.fromEntries(
    [...one.attributes].map((each) => [each.name, each.value]))];
  return {
    runs: [...form.querySelectorAll("[data-rows=runs] li")].map((item) => item.textContent),
    words: svg.getAttribute("aria-label"),
    drawn: [...svg.children].map(said),
    hidden: svg.closest("figure").hidden,
  };
}"""


def stock_asked(
    catalog: Catalog, chance: random.Random
) -> tuple[dict[str, str], list[str], dict[str, tuple[float, float]]]:
    """Draw which stocks are ticked and what was typed of them, in metres and kg/m**2."""
    us = catalog.shop.units == "US"
    every = [one.id for one in stocks(catalog) if one.alone]
    taken = chance.sample(every, chance.randint(1, 5))
    fields: dict[str, str] = {}
    reads = {}
    for name in every:
        hangs = number(chance, 30, 190, us) if chance.random() < 0.2 else None
        weighs = (
            round(chance.uniform(60, 700) / (33.9 if us else 1), 2 if us else 0)
            if chance.random() < 0.2
            else None
        )
        fields[f"hangs-{name}"] = "" if hangs is None else typed(hangs, chance)
        fields[f"weighs-{name}"] = "" if weighs is None else typed(weighs, chance)
        if name in taken and (hangs or weighs):
            unit, areal = ("in", "oz/yd**2") if us else ("mm", "g/m**2")
            reads[name] = (
                convert(hangs or 0, unit, "m"),
                convert(weighs or 0, areal, "kg/m**2"),
            )
    return fields, taken, reads


def asked(catalog: Catalog, chance: random.Random) -> tuple[dict[str, Any], dict[str, Any]]:
    """Draw a question: what is typed into the page, and what the subject is given."""
    us = catalog.shop.units == "US"
    lowest, count = chance.randint(24, 84), chance.randint(1, 14)
    pitch = chance.choice([442, 440, 435.5])
    posture = chance.choice(["upright-block", *catalog.postures])
    fields, taken, reads = stock_asked(catalog, chance)
    fields |= {
        "rank": "", "lowest": str(lowest), "count": str(count), "pitch": typed(pitch, chance),
        "posture": posture,
    }  # fmt: skip
    plates = {}
    places = chance.sample(range(max(21, lowest - 5), min(109, lowest + count + 5)), 3)
    for place, midi in enumerate(places, 1):
        there = chance.random() < 0.5
        size = 22.5 * 2 ** ((69 - midi) / 26) * chance.uniform(0.9, 1.1)
        sides = [number(chance, one, one, us) for one in (size, 0.08 * size + 1.2)]
        fields[f"note{place}"] = str(midi) if there else ""
        fields[f"length{place}"], fields[f"width{place}"] = (typed(one, chance) for one in sides)
        if there:
            unit = "in" if us else "mm"
            length, width = (convert(one, unit, "m") for one in sides)
            plates[note_name(midi)] = (length, width)
    given = {
        "lowest": note_name(lowest), "count": count, "pitch": pitch, "posture": posture,
        "plates": plates, "taken": taken, "reads": reads,
    }  # fmt: skip
    return fields, given


def answered(catalog: Catalog, given: dict[str, Any]) -> tuple[list[SlotChoice], list[Any]]:
    """Ask the subject the same: the choices, and the stocks that they were made from."""
    known = {one.id: one for one in stocks(catalog)}
    read = [typed_stock(catalog, known[name], *sizes) for name, sizes in given["reads"].items()]
    answer = typed_rank(
        catalog, given["lowest"], given["count"], pitch=given["pitch"], posture=given["posture"],
        plates=given["plates"], only=given["taken"], typed=read,
    )  # fmt: skip
    taken = [one for one in stocks(catalog) if one.id in given["taken"]]
    from_these = [one for one, _ in with_typed(at_hand(catalog, taken), read)]
    return answer.answer["choices"], from_these


TICK = """([taken]) => {
  const form = document.querySelector("form[data-working=valves]");
  for (const box of form.querySelectorAll("[type=checkbox]")) {
    box.checked = taken.includes(box.name.replace("take-", ""));
  }
}"""


@pytest.mark.parametrize("units", ["metric", "US"])
def test_page_and_command_agree(units: str, page: Page, tmp_path: Path) -> None:
    """On 500 random ranks every run, every row and every stroke of the chart is the command's."""
    catalog = demo(units)
    us = units == "US"
    page.goto(written(catalog, tmp_path, "valves"))
    chance = random.Random(20261125)
    seen: Counter[str] = Counter()
    for _ in range(QUESTIONS):
        fields, given = asked(catalog, chance)
        page.evaluate(TICK, [given["taken"]])
        shown = filled(page, "valves", fields)
        drawn = page.evaluate(DRAWN)
        found, from_these = answered(catalog, given)
        said = (given, shown["message"])
        assert shown["message"] == "", said
        assert drawn["runs"] == [line.strip() for line in runs(found, us)], said
        assert shown["rows-notes"] == rank_rows(found, us), said
        figure = chart_of(catalog, found, from_these, TITLE)
        assert drawn["words"] == figure.get("alt"), said
        strokes = figure.find("svg")
        assert strokes is not None
        assert drawn["drawn"] == [[one.tag, one.text or "", one.attrib] for one in strokes], said
        seen.update(one.kind_said for one in found)
        seen["faces differ"] += any(" inside: " in line for line in drawn["runs"])
        seen["typed"] += bool(given["reads"])
    kinds = ["one stock", "no valve", "no stock measured", "none serves", "stock with a topper"]
    for name in (*kinds, "stock with a helper spring", "faces differ", "typed"):
        assert seen[name] > 10, seen


@pytest.mark.parametrize("units", ["metric", "US"])
def test_the_command_line_says_the_same(units: str, page: Page, tmp_path: Path) -> None:
    """The printed command, run as it stands, gives the page's runs."""
    catalog = demo(units)
    page.goto(written(catalog, tmp_path, "valves"))
    folder = shop_folder(tmp_path, units)
    chance = random.Random(11)
    for _ in range(12):
        fields, given = asked(catalog, chance)
        fields["count"] = "9"
        page.evaluate(TICK, [given["taken"]])
        shown = filled(page, "valves", fields)
        words = shlex.split(shown["command"])
        result = CliRunner().invoke(main, [*words[1:], "--shop", str(folder)])
        assert result.exit_code == 0, (shown["command"], result.output)
        text = " ".join(result.output.split())
        for line in page.evaluate(DRAWN)["runs"]:
            assert line in text, (line, shown["command"], result.output)


def test_a_rank_fills_in_what_the_shop_measured(page: Page, tmp_path: Path) -> None:
    """Choosing a rank sets its notes, its posture and the plates of the shop's book."""
    page.goto(written(demo("metric"), tmp_path, "valves"))
    form = page.locator("form[data-working=valves]")
    form.get_by_label("Rank", exact=True).select_option("low")
    assert form.get_by_label("Lowest note").input_value() == "41"  # F2
    assert form.get_by_label("Plates", exact=True).input_value() == "41"
    assert form.get_by_label("Its slot, length 1").input_value() == "48.0"
    assert form.get_by_label("Plate 3 sounds").input_value() == ""
    assert form.locator("[data-out=summary]").text_content() == "F2 to A5: 41 plates."
    form.get_by_label("Rank", exact=True).select_option("bass-1")
    assert form.get_by_label("In play").input_value() == "flat-block"


def test_ticks_and_readings_survive_a_reload(page: Page, tmp_path: Path) -> None:
    """The address keeps which stocks are ticked and what was typed of them."""
    page.goto(written(demo("metric"), tmp_path, "valves"))
    form = page.locator("form[data-working=valves]")
    form.get_by_label("kid-38", exact=True).uncheck()
    form.get_by_label("pet-50", exact=True).check()
    form.get_by_label("goat-gift, overhang").fill("71,5")
    before = page.evaluate(DRAWN)
    # An earlier change alone may stand in the address already: the reading was typed last.
    page.wait_for_function("decodeURIComponent(location.hash).includes('71,5')")
    page.reload()
    assert page.evaluate(DRAWN) == before
    assert not form.get_by_label("kid-38", exact=True).is_checked()
    assert form.get_by_label("pet-50", exact=True).is_checked()


def test_without_a_stock_nothing_is_said(page: Page, tmp_path: Path) -> None:
    """With no stock ticked the page asks for one, and shows neither chart nor table."""
    page.goto(written(demo("metric"), tmp_path, "valves"))
    page.evaluate(TICK, [[]])
    shown = filled(page, "valves", {"count": "12"})
    assert shown["message"] == "Valve stock: found nothing, accepted: a stock ticked."
    assert page.evaluate(DRAWN)["hidden"]
    assert shown["rows-notes"] == []


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        ({"count": "62"}, "Plates: found “62”, accepted: a whole number, from 1 up to 61."),
        ({"lowest": "100"}, "Plates: found “41”, accepted: so many that the highest note is no"),
        ({"note1": "60", "length1": ""}, "Its slot, length 1: found nothing, accepted: a number"),
        ({"note1": "60", "note2": "60"}, "Plate 2 sounds: found “C4”, accepted: each note once."),
        ({"hangs-kid-38": "2"}, "kid-38, overhang: found “2”, accepted: a number"),
    ],
)
def test_what_cannot_be_reckoned_is_named(
    fields: dict[str, str], message: str, page: Page, tmp_path: Path
) -> None:
    """A missing or wrong figure empties the answer and says what is taken."""
    page.goto(written(demo("metric"), tmp_path, "valves"))
    shown = filled(page, "valves", fields)
    assert shown["message"].startswith(message)
    assert (shown["summary"], shown["rows-notes"]) == ("", [])


def test_an_answer_takes_no_noticeable_time(page: Page, tmp_path: Path) -> None:
    """A reading typed for a rank of 41 plates is answered within 50 ms in the median of 60."""
    page.goto(written(demo("metric"), tmp_path, "valves"))
    times = page.evaluate(
        """() => {
          const form = document.querySelector("form[data-working=valves]");
          const field = form.elements["hangs-kid-38"];
          const times = [];
          for (let round = 0; round < 60; round += 1) {
            field.value = String(50 + round / 7);
            const start = performance.now();
            field.dispatchEvent(new Event("input", {bubbles: true}));
            times.push(performance.now() - start);
          }
          return times.sort((a, b) => a - b);
        }"""
    )
    print(f"valves: {times[30]:.2f} ms, worst {times[-1]:.2f}")  # noqa: T201
    assert times[30] < 50
