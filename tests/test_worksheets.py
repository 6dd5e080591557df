"""The workings without a browser: fields, data for the page, forms, and their steps in Python."""

from __future__ import annotations

import json
import random
from typing import Any
from xml.etree.ElementTree import Element

import pytest

from formulas import catalog as catalogs
from formulas import units
from formulas.answer import Band
from formulas.catalog import Catalog
from formulas.softening import estimate as softening
from formulas.softening import mixture
from formulas.softening.soften import soften
from formulas.units import convert, printed
from formulas.wax import batch
from formulas.wax.batch import shares_of
from site_builder.parts import registry
from site_builder.workings import worksheets

CATALOG = catalogs.load(None)
SHEETS = list(worksheets.WORKSHEETS.values())


def said(tree: Element) -> str:
    """Give all words of a tree in one line."""
    return " ".join(" ".join(tree.itertext()).split())


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_every_field_has_a_label_of_its_own(sheet):
    """Each field of a form has an id, and one label names it."""
    form = worksheets.screen_form(sheet, CATALOG)
    fields = [one for one in form.iter() if one.tag in {"input", "select"} and one.get("id")]
    labels = [one.get("for") for one in form.iter("label")]
    assert sorted(labels) == sorted(one.get("id", "") for one in fields)
    assert len(set(labels)) == len(labels)
    for field in (one for one in form.iter("input") if one.get("type") != "checkbox"):
        assert (field.get("type"), field.get("inputmode")) == ("text", "decimal")
        assert field.get("data-accepted")


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
@pytest.mark.parametrize("draw", [worksheets.screen_form, worksheets.paper_form])
def test_every_caution_stands_beside_the_answer(sheet, draw):
    """Both faces of a working say each caution of its command, and that it is no safe limit."""
    words = said(draw(sheet, CATALOG))
    cautions = CATALOG.cautions_for(sheet.warned_as)
    assert cautions
    for caution in cautions:
        assert caution.title in words
    assert sheet.limit in words
    assert "safe limit" in sheet.limit or "test it" in sheet.limit


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_the_screen_tells_each_caution_whole(sheet):
    """On screen the text of each caution stands under its title, in the answer's own section."""
    form = worksheets.screen_form(sheet, CATALOG)
    answer = next(one for one in form.iter("section") if one.get("class") == "answer")
    words = said(answer)
    for caution in CATALOG.cautions_for(sheet.warned_as):
        assert " ".join(caution.text.split()) in words


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_the_formulas_shown_exist(sheet):
    """Each formula of a working is there, and its form for the pencil shows it."""
    shown = [one.get("formula") for one in worksheets.paper_form(sheet, CATALOG).iter("math")]
    assert shown == list(sheet.formulas)
    assert all(registry.place(CATALOG, "formula", name) for name in sheet.formulas)


def test_the_form_for_the_pencil_holds_the_commands_own_weights():
    """The worked example is what the subject answers; the arithmetic is 400 g by 4 to 1."""
    form = worksheets.paper_form(worksheets.WORKSHEETS["mix"], CATALOG)
    worked, blank = list(form.iter("table"))
    cells = [[said(cell) for cell in row] for row in worked.iter("tr")]
    assert cells[1][1:] == ["4", "80.00", "320.0", "80.00"]  # 400 g x 4/5
    assert cells[2][1:] == ["1", "20.00", "80.0", "20.00"]  # 400 g x 1/5
    assert cells[3][1:] == ["5", "100.00", "400.0", "100.00"]
    empty = [row for row in blank.iter("tr") if not said(row)]
    assert len(empty) >= 3
    assert len(list(form.iter("formline"))) >= 5


def test_no_middle_is_printed_on_the_form_for_the_pencil():
    """While there are no tests the form prints the two ends of each band and no estimate."""
    sheet = worksheets.WORKSHEETS["soften"]
    form, answer = worksheets.paper_form(sheet, CATALOG), sheet.example(CATALOG)
    assert "the ratio does not decide this" in said(form)
    rows = [[said(cell) for cell in row] for row in next(form.iter("table")).iter("tr")][1:]
    bands = answer.answer["by_method"].values()
    assert [row[1:] for row in rows] == [
        [f"{printed(band.low, 0)} °C", f"{printed(band.high, 0)} °C"] for band in bands
    ]


def test_the_pages_data_are_plain():
    """What the page is given goes through JSON and comes back the same, and stays small."""
    data = json.loads(json.dumps(worksheets.page_data(CATALOG), allow_nan=False))
    assert data["blends"]["beeswax-rosin-4-1"]["parts"] == {"beeswax-yellow": 4, "gum-rosin": 1}
    assert list(data["materials"]) == list(CATALOG.materials)
    assert set(data["methods"]) == {name for name, m in CATALOG.methods.items() if m.estimated}
    # Of it the softening estimate takes 58,000; the solvents with every limit and its label, 8,000.
    assert len(json.dumps(data)) < 112_000


def model_of(
    catalog: Catalog, shares: dict[str, float], method: str
) -> tuple[list[str], int, tuple[Any, ...]]:
    """Cut a model down to a blend's bodies from the data that the page is given."""
    data = worksheets.page_data(catalog)
    held, softens = data["methods"][method], {n: m["softens"] for n, m in data["materials"].items()}
    there = [name for name in data["materials"] if name in shares]
    bodies = [name for name in there if not softens[name]]
    pairs = [f"{a} {b}" for place, a in enumerate(bodies) for b in bodies[place + 1 :]]
    terms = [*bodies, *pairs, *(f"skew {pair}" for pair in pairs), "softener", "rig"]
    return (
        [*bodies, *(name for name in there if softens[name])],
        len(bodies),
        (
            [held["ends"][name] for name in bodies],
            [[held["bends"].get(f"{a} {b}", 0.0) for b in bodies] for a in bodies],
            [[held["skews"].get(f"{a} {b}", 0.0) for b in bodies] for a in bodies],
            held["slope"],
            [[held["covariance"][row].get(term, 0.0) for term in terms] for row in terms],
        ),
    )


def test_the_steps_agree_with_the_subject():
    """Band, open shares and next test by the shared steps are those of `soften`."""
    chance = random.Random(5)
    known = opened = 0
    for _ in range(60):
        names = chance.sample(list(CATALOG.materials), chance.randint(1, 4))
        parts = {
            name: chance.uniform(0.2, 5)
            if CATALOG.materials[name].role == "body"
            else chance.uniform(0.01, 0.2)
            for name in names
        }
        target, shares = chance.uniform(35, 105), shares_of(parts)
        answer = soften(CATALOG, parts, target=target)
        band = answer.answer["softening"]
        if not isinstance(band, Band):
            continue
        known += 1
        order, bodies, model = model_of(CATALOG, shares, band.method)
        blend = [shares[name] for name in order]
        assert mixture.estimate_of(blend, bodies, *model) == pytest.approx(
            [band.low, band.estimate, band.high]
        )
        limit = CATALOG.span("softener-limit", "dimensionless")[1]
        ranges = answer.answer["not_ruled_out"]
        turned = ranges[0]["of"] if ranges else order[0]
        if ranges:
            opened += 1
            got = mixture.open_shares(target, blend, order.index(turned), bodies, limit, *model)
            assert got == [pytest.approx([one["low"], one["high"]], abs=1e-9) for one in ranges]
    assert known > 20
    assert opened > 10


def test_method_by_rule():
    """Ring and ball only where resin is more than half, as the subject has it."""
    for resin in (0.2, 0.5, 0.50001, 0.8):
        blend = {"beeswax-yellow": 1 - resin, "gum-rosin": resin}
        assert mixture.method_for(resin) == softening.fit_method(CATALOG, blend)


def test_degrees_turn_there_and_back():
    """The two scales agree with the registry and undo each other."""
    for celsius in (-20.0, 0.0, 62.0, 100.0, 200.0):
        there = units.fahrenheit(celsius)
        assert there == pytest.approx(convert(celsius, "degC", "degF"))
        assert units.celsius_of(there) == pytest.approx(celsius)


def test_no_more_than_is_held():
    """What a limited component allows never asks for more of it, and one step more would."""
    shares, step = [0.8, 0.2], 0.1
    for held in (8.5, 85.0, 0.95, 123.4):
        most = batch.steps_of(held / shares[1], step)
        allowed = batch.steps_within(shares, most, 1, held, step)
        assert batch.weigh_out(shares, allowed)[1] * step <= held + 1e-9
        assert batch.weigh_out(shares, allowed + 3)[1] * step > held
