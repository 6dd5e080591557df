"""The working of needs in a browser: what its own command line gives, to the last printed digit."""

from __future__ import annotations

import random
import shlex
from typing import Any

import click
import pytest
from playwright.sync_api import Page
from working_pages import filled, shop, typed, written

from formulas.answer import Answer
from formulas.catalog import Catalog
from formulas.jobs.quick import RANKS, ranks_of_layout
from formulas.jobs.quick_words import ranks_said
from formulas.valves.notes import note_name
from formulas.valves.typed_rank import HIGHEST, LOWEST
from site_builder.commands.read_quick import answered, quick_options
from site_builder.texts.job_quick import hangs_on, hours_said, need_rows
from site_builder.workings.needs_form import offered

pytestmark = pytest.mark.browser

QUESTIONS = 500  # a unit, 1,000 together


@click.command()
@quick_options
def asked_of_command(**_: Any) -> None:
    """Hold the options as the command takes them."""


def asked(chance: random.Random, catalog: Catalog) -> dict[str, str]:
    """Draw what is filled in: a layout as it is, one with a rank changed, or ranks of one's own."""
    fields = {f"{name}{n}": "" for n in range(1, RANKS[1] + 1) for name in ("lowest", "count")}
    layout = chance.choice(["", *catalog.layouts])
    if layout:
        for number, rank in enumerate(ranks_of_layout(catalog, layout), 1):
            fields |= {f"lowest{number}": str(rank.lowest), f"count{number}": str(rank.plates)}
    if not layout or chance.random() < 0.3:
        numbers = [1] if layout else sorted(chance.sample(range(1, 10), chance.randint(1, 4)))
        for number in numbers:
            count = chance.choice([1, chance.randint(2, 61)])
            lowest = chance.randint(LOWEST, HIGHEST - count + 1)
            fields |= {f"lowest{number}": str(lowest), f"count{number}": str(count)}
    seating = chance.choice(["wax-fillet", "wax-bed", *(one.id for one in offered(catalog))])
    fields["tongues"] = chance.choice(["1", "2", "2"])
    fields |= {"seating": seating, "kept": chance.choice(["no", "no", "yes"])}
    fields["session"] = typed(chance.choice([3, round(chance.uniform(0.2, 8), 2)]), chance)
    return {"layout": layout, **fields}


LAID = """([id, fields]) => {
  const form = document.querySelector(`form[data-working=${id}]`);
  for (const [name, text] of fields) form.elements[name].value = text;
}"""


def filled_at_once(page: Page, fields: dict[str, str]) -> dict[str, Any]:
    """Fill the form in and tell it once, at the last field: each telling asks all anew."""
    page.evaluate(LAID, ["needs", list(fields.items())])
    name, text = list(fields.items())[-1]
    return filled(page, "needs", {name: text})


def of_command(catalog: Catalog, line: str) -> Answer:
    """Give the answer of the command line that the page shows, read as the command reads it."""
    program, name, *words = shlex.split(line)
    assert (program, name) == ("benchbinder", "job")
    return answered(catalog, asked_of_command.make_context("job", words).params)


@pytest.mark.parametrize("units", ["metric", "US"])
def test_page_and_command_agree(units: str, page: Page, tmp_path: Any) -> None:
    """On 500 random instruments every word and digit is that of the command shown."""
    catalog = shop(units)
    page.goto(written(catalog, tmp_path))
    chance = random.Random(224)
    seen = dict.fromkeys(("layout", "typed", "wax", "dry", "kept", "bare", "bed", "last"), 0)
    for _ in range(QUESTIONS):
        fields = asked(chance, catalog)
        shown = filled_at_once(page, fields)
        assert shown["message"] == "", (fields, shown["message"])
        answer = of_command(catalog, shown["command"])
        compare(shown, answer, catalog)
        count(answer, catalog, seen)
    assert min(seen.values()) > 10, seen


def compare(shown: dict[str, Any], answer: Answer, catalog: Catalog) -> None:
    """Compare the page with the command's answer."""
    assert shown["rows-needs"] == need_rows(answer, catalog)
    assert shown["rows-hours"] == hours_said(answer)
    assert shown["hangs"] == hangs_on(answer)
    assert shown["note"] == " ".join(answer.notes)
    plates, counts = answer.answer["plates"], answer.answer["rank_counts"]
    assert shown["summary"] == f"{plates} plates: {ranks_said(counts)}."


def count(answer: Answer, catalog: Catalog, seen: dict[str, int]) -> None:
    """Count which kinds of question came."""
    method = catalog.seating_methods[answer.inputs["seating"]]
    seen["layout" if answer.inputs["layout"] else "typed"] += 1
    seen["wax" if answer.answer["wax"] else "dry"] += 1
    seen["kept"] += bool(answer.inputs["keep"])
    seen["bare"] += not answer.answer["valved"]
    seen["bed"] += "bed" in method.takes
    seen["last"] += method.last_resort


def test_a_layout_fills_the_form(page: Page, tmp_path: Any) -> None:
    """A layout that is chosen brings its ranks, its tongues and its seating."""
    catalog = shop()
    page.goto(written(catalog, tmp_path))
    shown = filled(page, "needs", {"layout": "concertina-48"})
    assert shown["command"] == "benchbinder job --layout concertina-48 --seating dovetail"
    assert shown["summary"].startswith("96 plates: ")


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({"count1": ""}, "Rank 1, plates: found nothing"),
        ({"lowest1": ""}, "Rank 1, lowest note: found nothing"),
        ({"lowest1": "100"}, f"the highest note is no higher than {note_name(HIGHEST)}"),
        ({"session": "9"}, "Time at the bench on a day: found “9”"),
    ],
)
def test_a_rank_half_typed_is_named(
    fields: dict[str, str], told: str, page: Page, tmp_path: Any
) -> None:
    """What cannot be counted is refused, and the field named."""
    page.goto(written(shop(), tmp_path))
    shown = filled(page, "needs", fields)
    assert told in shown["message"]
    assert shown["rows-needs"] == []
