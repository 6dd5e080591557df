"""The working of one valve in a browser: the same words and digits as the command."""

from __future__ import annotations

import dataclasses
import random
import shlex
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from playwright.sync_api import Page
from working_pages import filled, typed, written

from formulas.catalog import Catalog, load
from formulas.fault import OutOfRange
from formulas.units import convert
from formulas.valves.deciding import NOT_MEASURED
from formulas.valves.notes import note_name
from formulas.valves.one_slot import measured_slot, valve
from formulas.valves.slot_choice import SlotChoice
from formulas.valves.slot_words import DO, cut_words, to_do, verdict_words, window_words
from formulas.valves.stock import stocks
from formulas.valves.typed_stock import piece, typed_stock
from site_builder.commands import main
from site_builder.places import DEMO_SHOP
from site_builder.texts.valves import NOTHING_MEASURED, of_one
from site_builder.workings.one_valve_form import OWN, found_rows, verdict_code

pytestmark = pytest.mark.browser

QUESTIONS = 500  # a unit, 1,000 together


def demo(units: str) -> Catalog:
    """Give the demo shop, in one of the units: it has measured stock and stock of a table."""
    found = load(DEMO_SHOP)
    return dataclasses.replace(found, shop=dataclasses.replace(found.shop, units=units))


def number(chance: random.Random, low: float, high: float, us: bool) -> float:
    """Draw a length in millimetres as somebody reads it, or in thousandths of an inch."""
    value = chance.uniform(low, high)
    return round(value / 25.4, 3) if us else round(value, chance.choice([1, 2]))


def asked(catalog: Catalog, chance: random.Random) -> tuple[dict[str, str], dict[str, Any]]:
    """Draw a question: what is typed into the page, and what the subject is given."""
    us = catalog.shop.units == "US"
    unit = "in" if us else "mm"
    size = chance.choice([chance.uniform(8, 20), chance.uniform(18, 40), chance.uniform(35, 80)])
    length = number(chance, size, size, us)
    width = number(chance, 0.08 * size + 1, 0.12 * size + 1.5, us)
    maybe = {
        name: None if chance.random() < 0.3 else number(chance, low, high, us)
        for name, low, high in (("wall", 0.8, 4), ("edge", 1.5, 5), ("room", 2, 20))
    }
    by_note = chance.random() < 0.8
    midi, hertz = chance.randint(24, 96), round(chance.uniform(32, 2000), 1)
    way = chance.choice([OWN, OWN, *(one.id for one in stocks(catalog))])
    of = chance.choice(["leather", "leather", "film"])
    own = {
        "overhang": number(chance, 20, 180, us),
        "thickness": None if chance.random() < 0.3 else number(chance, 0.05, 1.2, us),
    }
    areal = round(chance.uniform(40, 800) / (33.9 if us else 1), 2 if us else 0)
    droop = number(chance, 0.2, size / 3, us) if chance.random() < 0.25 else None
    if way == OWN and droop is not None and chance.random() < 0.5:
        own["overhang"] = None
    face = chance.choice(["outside", "inside"])
    posture = chance.choice(list(catalog.postures))

    def blank(value: float | None) -> str:
        return "" if value is None else typed(value, chance)

    fields = {
        "slot_length": typed(length, chance), "slot_width": typed(width, chance),
        "sounds": str(midi) if by_note else "", "frequency": typed(hertz, chance),
        **{name: blank(value) for name, value in maybe.items()},
        "face": face, "posture": posture, "way": way, "of": of,
        "overhang": blank(own["overhang"]), "thickness": blank(own["thickness"]),
        "mass": typed(areal, chance), "droop": blank(droop),
    }  # fmt: skip

    def metres(value: float | None) -> float | None:
        return None if value is None else convert(value, unit, "m")

    given = {
        "slot": (metres(length), metres(width), note_name(midi) if by_note else f"{hertz} Hz"),
        "rooms": {name: metres(value) for name, value in maybe.items()},
        "face": face,
        "posture": posture,
        "way": way,
        "of": of,
        "own": {name: metres(value) or 0.0 for name, value in own.items()},
        "mass": convert(areal, "oz/yd**2" if us else "g/m**2", "kg/m**2"),
        "droop": metres(droop),
    }
    return fields, given


def answered(catalog: Catalog, given: dict[str, Any]) -> SlotChoice:
    """Ask the subject the same."""
    slot = measured_slot(
        catalog, *given["slot"], face=given["face"], posture=given["posture"], **given["rooms"]
    )
    own = given["way"] == OWN
    one = None
    if own:
        known, own_read = piece(catalog, given["of"]), given["own"]
        one = typed_stock(
            catalog, known, own_read["overhang"], given["mass"], own_read["thickness"]
        )
    only = () if own else (given["way"],)
    answer = valve(catalog, slot, only=only, droop=given["droop"], typed=one)
    (found,) = answer.answer["choices"]
    return found  # type: ignore[no-any-return]


@pytest.mark.parametrize("units", ["metric", "US"])
def test_page_and_command_agree(units: str, page: Page, tmp_path: Path) -> None:
    """On 500 random slots every printed figure and word of the page is the command's own."""
    catalog = demo(units)
    page.goto(written(catalog, tmp_path, "one-valve"))
    chance = random.Random(20261125)
    seen: Counter[str] = Counter()
    for _ in range(QUESTIONS):
        fields, given = asked(catalog, chance)
        shown = filled(page, "one-valve", fields)
        try:
            one = answered(catalog, given)
        except OutOfRange:
            assert shown["message"].startswith("Droop of the cut valve: found"), (fields, shown)
            assert shown["summary"] == ""
            seen["refused"] += 1
            continue
        compare(shown, one, catalog)
        seen[one.kind_said] += 1
        seen[to_do(one.kind, verdict_code(one, limits_of(catalog)), passed(one, catalog))] += 1
        seen["droop"] += given["droop"] is not None
        seen["own"] += given["way"] == OWN
    kinds = ["one stock", "no valve", "no stock measured", "none serves"]
    kinds += ["stock with a topper", "stock with a helper spring"]
    for name in (*kinds, "serves", "perhaps", "limp", "stiff", "refused", "droop", "own"):
        assert seen[name] > 3, seen


def limits_of(catalog: Catalog) -> list[list[float]]:
    """Give the limits as they are judged by."""
    from formulas.valves.settings import settings

    return settings(catalog).limits


def passed(one: SlotChoice, catalog: Catalog) -> list[int]:
    """Give the places of the limits passed that reject, the farthest first."""
    from formulas.valves.judging import passed_of, ratios_to

    return passed_of(ratios_to(one.found, one.limits), limits_of(catalog)) if one.found else []


def compare(shown: dict[str, Any], one: SlotChoice, catalog: Catalog) -> None:
    """Compare every place of the answer; what the command prints too is found in its lines."""
    us = catalog.shop.units == "US"
    code = verdict_code(one, limits_of(catalog)) if one.found else 0
    said = (one, shown)
    assert shown["message"] == "", said
    verdict = verdict_words(one.kind, one.stock, one.topper, code, one.margin)
    assert shown["summary"] == verdict, said
    assert shown["cut"] == cut_words(one.sizes, us), said
    window = window_words(one.window[0], one.window[1], one.window_mass, us)
    assert shown["window"] == window, said
    if one.kind == NOT_MEASURED:
        assert shown["reasons"] == NOTHING_MEASURED, said
    else:
        assert shown["reasons"] == "; ".join(one.reasons), said
    assert shown["told"] == "; ".join(one.told), said
    assert shown["rows-found"] == found_rows(catalog, one), said
    assert shown["do"] == DO[to_do(one.kind, code, passed(one, catalog))], said
    lines = " ".join(of_one(one, one.slot.face, us))
    assert bool(shown["helper"]) == bool(one.helper), said
    assert shown["helper"] in lines, said
    assert shown["stock"] in lines, said
    assert bool(shown["stock"]) == (not one.stock and bool(one.runners_up)), said
    for row in shown["rows-found"][: len(one.limits)]:
        limit = "" if row[3] == "none" else f", limit {row[3]}"
        assert f"{row[0]}: {row[1]} ({row[2]}){limit}" in lines, said
    for reason in one.reasons:
        assert reason in lines, said


@pytest.mark.parametrize("units", ["metric", "US"])
def test_the_command_line_says_the_same(units: str, page: Page, tmp_path: Path) -> None:
    """The printed command, run as it stands, gives the page's verdict, reasons and window."""
    catalog = demo(units)
    page.goto(written(catalog, tmp_path, "one-valve"))
    folder = shop_folder(tmp_path, units)
    chance = random.Random(7)
    ran = 0
    while ran < 15:
        fields, _ = asked(catalog, chance)
        shown = filled(page, "one-valve", fields)
        if shown["message"]:
            continue
        ran += 1
        words = shlex.split(shown["command"])
        result = CliRunner().invoke(main, [*words[1:], "--shop", str(folder)])
        assert result.exit_code == 0, (shown["command"], result.output)
        text = " ".join(result.output.split())
        hang = shown["window"].split(" should hang ")[1]
        for part in (hang, *shown["reasons"].split("; ")[:1], shown["helper"], shown["stock"]):
            assert part in text, (part, shown["command"], result.output)


def shop_folder(tmp_path: Path, units: str) -> Path:
    """Lay down a copy of the demo shop that reads these units."""
    folder = tmp_path / "shop"
    folder.mkdir()
    for path in DEMO_SHOP.iterdir():
        if path.is_file():
            text = path.read_text("utf-8")
            (folder / path.name).write_text(
                text.replace('units = "metric"', f'units = "{units}"'), "utf-8"
            )
    return folder


def test_what_a_table_alone_knows_is_never_chosen(page: Page, tmp_path: Path) -> None:
    """For such a stock the page prints the window wanted, and judges nothing."""
    page.goto(written(demo("metric"), tmp_path, "one-valve"))
    shown = filled(page, "one-valve", {"way": "leather-medium"})
    assert shown["summary"] == "no stock measured"
    assert shown["rows-found"] == []
    assert "should hang" in shown["window"]
    assert shown["stock"].startswith("leather-medium: may serve; only a table tells its stiffness")


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        ({"slot_length": ""}, "Slot length: found nothing, accepted: a number"),
        ({"slot_width": "39"}, "Slot width: found “39”, accepted: a width up to the length, 38 mm"),
        ({"sounds": "", "frequency": ""}, "Or its frequency: found nothing, accepted: a number"),
        ({"way": OWN, "overhang": ""}, "It hangs over the ramp: found nothing, accepted:"),
        ({"way": OWN, "mass": "0"}, "It weighs: found “0”, accepted: a number"),
        ({"droop": "15"}, "Droop of the cut valve: found “15”, accepted:"),
    ],
)
def test_what_cannot_be_reckoned_is_named(
    fields: dict[str, str], message: str, page: Page, tmp_path: Path
) -> None:
    """A missing or wrong figure empties the answer and says what is taken."""
    page.goto(written(demo("metric"), tmp_path, "one-valve"))
    shown = filled(page, "one-valve", fields)
    assert shown["message"].startswith(message)
    assert (shown["summary"], shown["rows-found"], shown["window"]) == ("", [], "")
