"""The working of stiffness in a browser: the same words and digits as the command."""

from __future__ import annotations

import random
from typing import Any

import pytest
from click.testing import CliRunner
from playwright.sync_api import Page
from working_pages import filled, shop, typed, written

from formulas.answer import Answer, Unknown
from formulas.catalog import Catalog
from formulas.units import convert
from formulas.valves.stiffness import stiffness
from formulas.valves.typed_readings import Typed, Weighed
from site_builder.commands import main
from site_builder.texts.stiffness import ROWS, across_lines, read_line, row_said
from site_builder.workings.stiffness_form import STRIPS, field_names

pytestmark = pytest.mark.browser

QUESTIONS = 500  # a scale, 1,000 together


def overhangs(chance: random.Random, middle: float, kind: str, us: bool) -> list[float | None]:
    """Draw the four readings of a strip as typed; some strips curl, some places stay empty."""
    apart = chance.uniform(0.15, 0.5) if kind == "curls" else chance.uniform(-0.06, 0.06)
    digits = 3 if us else 1
    strip: list[float | None] = []
    for place in range(4):
        value = middle * (1 + (apart if place < 2 else -apart) / 2) * chance.uniform(0.97, 1.03)
        empty = chance.random() < (0.25 if kind == "sparse" else 0.03)
        strip.append(None if empty else round(convert(value, "mm", "in") if us else value, digits))
    return strip


def asked(chance: random.Random, us: bool) -> tuple[dict[str, str], Typed]:
    """Draw a question: what is typed into the page, and what the subject is given."""
    length, mass = ("in", "oz") if us else ("mm", "g")
    kind = chance.choice(["plain"] * 5 + ["sparse", "curls", "limp", "stiff", "unlike"])
    middle = {"limp": chance.uniform(8, 20), "stiff": chance.uniform(165, 260)}.get(
        kind, chance.uniform(25, 150)
    )
    fields: dict[str, str] = {}
    read: dict[int, list[float | None]] = {}
    for strip in range(STRIPS + 1):
        wide = 0.4 if kind == "unlike" else 0.04
        found = overhangs(chance, middle * chance.uniform(1 - wide, 1 + wide), kind, us)
        gone = chance.random() < (0.5 if strip == 0 else 0.25)
        read[strip] = [None] * 4 if gone else found
        for name, value in zip(field_names(strip), read[strip], strict=True):
            fields[name] = "" if value is None else typed(value, chance)
    sides = [round(chance.uniform(30, 200), 1) for _ in range(2)]
    if us:
        sides = [round(side / 25.4, 2) for side in sides]
    pieces = chance.randint(1, 12)
    square_metres = pieces * convert(sides[0], length, "m") * convert(sides[1], length, "m")
    grams = square_metres * chance.uniform(40, 900)
    scale = chance.choice([0.001, 0.01, 0.01] if us else [0.01, 0.1, 0.1, 1.0])
    weight = max(scale, round(convert(grams, "g", mass) / scale) * scale)
    weight = round(weight, 3)
    weighed = chance.random() < 0.85
    angle = chance.choice([41.5] * 4 + [45.0, 30.0, 37.5, 60.0])
    thick = chance.choice([None, round(chance.uniform(0.03, 1.4), 2)])
    if us and thick is not None:
        thick = round(thick / 25.4, 4)
    fields |= {
        "angle": typed(angle, chance),
        "piece_length": typed(sides[0], chance),
        "piece_width": typed(sides[1], chance),
        "pieces": str(pieces),
        "mass": typed(weight, chance) if weighed else "",
        "scale": typed(scale, chance),
        "thickness": "" if thick is None else typed(thick, chance),
    }
    metres = {
        strip: [0.0 if one is None else convert(one, length, "m") for one in values]
        for strip, values in read.items()
    }
    ends = None if thick is None else (convert(thick, length, "m"),) * 2
    one = Weighed(
        convert(weight, mass, "kg"),
        pieces,
        convert(sides[0], length, "m"),
        convert(sides[1], length, "m"),
        convert(scale, mass, "kg"),
    )
    given = Typed(
        [metres[strip] for strip in range(1, STRIPS + 1) if any(metres[strip])],
        [metres[0]] if any(metres[0]) else [],
        angle,
        [one] if weighed else [],
        ends,
    )
    return fields, given


@pytest.mark.parametrize(("units", "unit"), [("metric", "g"), ("US", "oz")])
def test_page_and_command_agree(units: str, unit: str, page: Page, tmp_path: Any) -> None:
    """On 500 random tests of a stock every printed figure and word is the command's own."""
    catalog = shop(units, 0.1 if unit == "g" else 0.01, unit)
    page.goto(written(catalog, tmp_path, "stiffness"))
    chance = random.Random(415)
    seen: dict[str, int] = {}
    for _ in range(QUESTIONS):
        fields, given = asked(chance, units == "US")
        shown = filled(page, "stiffness", fields)
        answer = stiffness(catalog, "", given)
        compare(shown, answer, catalog)
        for one in answer.answer["verdicts"]:
            seen[one["name"]] = seen.get(one["name"], 0) + 1
        start = answer.answer["next"].split()[0]
        seen[start] = seen.get(start, 0) + 1
    for name in ("too limp", "too stiff", "curls", "strips unlike", "Nothing", "Cut", "Push"):
        assert seen.get(name, 0) > 3, seen


def compare(shown: dict[str, Any], answer: Answer, catalog: Catalog) -> None:
    """Compare every place of the answer."""
    found, us = answer.answer, catalog.shop.units == "US"
    said = (shown, found)
    assert shown["message"] == "", said
    assert shown["read"] == read_line(found), said
    for name, _ in ROWS:
        value = found[name]
        none = value is None or isinstance(value, Unknown)
        assert shown[name] == ("" if none else row_said(name, value, us)), (name, *said)
    assert shown["across"] == "".join(across_lines(found, us)), said
    verdicts = " ".join(f"{one['name'].capitalize()}: {one['said']}" for one in found["verdicts"])
    assert shown["verdicts"] == verdicts, said
    assert shown["next"] == found["next"], said


@pytest.mark.parametrize(("units", "unit"), [("metric", "g"), ("US", "oz")])
def test_the_command_line_says_the_same(units: str, unit: str, page: Page, tmp_path: Any) -> None:
    """The printed command, run as it stands, gives the page's figures."""
    catalog = shop(units, 0.1 if unit == "g" else 0.01, unit)
    page.goto(written(catalog, tmp_path, "stiffness"))
    folder = tmp_path / "shop"
    folder.mkdir()
    scale = "0.1 g" if unit == "g" else "0.01 oz"
    (folder / "shop.toml").write_text(f'name = "A"\nunits = "{units}"\nscale = "{scale}"\n')
    chance = random.Random(7)
    for _ in range(12):
        fields, _given = asked(chance, units == "US")
        shown = filled(page, "stiffness", fields)
        words = shown["command"].split()[1:]
        if words == ["stiffness"] or not any(w in words for w in ("--overhang", "--piece")):
            continue
        ran = CliRunner().invoke(main, [*words, "--shop", str(folder)])
        assert ran.exit_code == 0, (shown["command"], ran.output)
        text = " ".join(ran.output.split())
        for name in ("overhang", "bending_length", "mass_per_area", "rigidity", "modulus", "next"):
            assert shown[name] in text, (name, shown[name], ran.output)


def test_a_scale_coarser_than_its_load_is_refused(page: Page, tmp_path: Any) -> None:
    """The page asks again where the step of the scale is more than what lies on it."""
    page.goto(written(shop(), tmp_path, "stiffness"))
    shown = filled(page, "stiffness", {"mass": "0.4", "scale": "1"})
    assert shown["message"].startswith("Step of the scale: found “1”")
    assert shown["rigidity"] == ""
