"""The working of melt in a browser: the same words and digits as the command, and its refusals."""

from __future__ import annotations

import random
from typing import Any

import pytest
from playwright.sync_api import Page
from working_pages import filled, random_parts, shop, span, typed, written

from formulas.answer import Answer, Unknown
from formulas.catalog import Catalog
from formulas.fault import OutOfRange
from formulas.melting.melt import melt
from formulas.melting.pot import Heating
from formulas.melting.refusals import HeatRefused
from formulas.units import convert, printed
from site_builder.texts import melt as text
from site_builder.texts.words import plain_unknown
from site_builder.workings.melt_form import METRIC, US

pytestmark = pytest.mark.browser

QUESTIONS = 500
HEATERS = [*["bath"] * 8, *["thermostat"] * 12, "hot-plate", "flame"]
POTS = [*["dry"] * 6, *["dried"] * 4, "from-bath", "wet"]
HEATS = {"holding": (75, 90), "make-up": (100, 115), "touch-up": (91, 150)}
SCALES = [("metric", "g"), ("US", "oz")]


def asked(catalog: Catalog, chance: random.Random) -> tuple[dict[str, str], dict[str, Any]]:
    """Draw a question: what is typed into the page, and what the subject is given."""
    us, unit = catalog.shop.units == "US", catalog.shop.scale_unit
    total = round(chance.uniform(1, 60 if unit == "oz" else 1500), 1)
    purpose = chance.choice(["holding", "holding", "holding", "make-up", "make-up", "touch-up"])
    usual = [chance.randint(*HEATS[purpose])] * 8
    heat = chance.choice([*usual, chance.randint(60, 130), 180])
    way, dry = chance.choice(HEATERS), chance.choice(POTS)
    fields = {"purpose": purpose, "way": way, "dry": dry, "total": typed(total, chance)}
    fields["to"] = chance.choice(["", _warm(heat, us)])
    fields["start"] = _warm(chance.choice([5, 18, 18, 25, 25, 50, 66, 78]), us)
    bath = round(chance.uniform(0.2, 60 if us else 4), 1)
    fields["bath"] = typed(bath, chance)
    power = chance.choice([None, chance.randint(60, 2000)])
    fields["power"] = "" if power is None else str(power)
    width = chance.choice(
        [None, round(chance.uniform(1.5, 12) if us else chance.uniform(40, 300), 1)]
    )
    fields["width"] = "" if width is None else typed(width, chance)
    vessels = []
    for place in ("vessel", "second"):
        of = chance.choice(["aluminium", "steel", "glass", "copper", "brass", "stoneware"])
        mass = chance.choice([None, round(chance.uniform(1, 300), 1)])
        fields |= {place: of, f"{place}_mass": "" if mass is None else typed(mass, chance)}
        if mass is not None:
            vessels.append((of, convert(mass, unit, "g")))
    heating = Heating(
        heater=way,
        power_w=power,
        vessels=vessels,
        bath_l=convert(bath, "floz" if us else "liter", "liter") if way == "bath" else None,
        start=_celsius(fields["start"], us),
        wet=dry == "wet" and way == "thermostat",
        from_bath=dry in {"dried", "from-bath"} and way == "thermostat",
        dried=dry == "dried",
    )
    given = {
        "total_g": convert(total, unit, "g"),
        "purpose": purpose,
        "to": _celsius(fields["to"], us) if fields["to"] else None,
        "heating": heating,
        "width_mm": None if width is None else convert(width, "in" if us else "mm", "mm"),
    }
    return fields, given


def _warm(celsius: float, us: bool) -> str:
    return printed(convert(celsius, "degC", "degF"), 1) if us else f"{celsius:g}"


def _celsius(said: str, us: bool) -> float:
    return convert(float(said), "degF" if us else "degC", "degC")


@pytest.mark.parametrize(("units", "unit"), SCALES)
def test_page_and_command_agree(units, unit, page: Page, tmp_path):
    """On 500 random pots every printed figure, limit and refusal is the command's own."""
    catalog = shop(units, 0.1 if unit == "g" else 0.05, unit)
    page.goto(written(catalog, tmp_path, "melt"))
    chance = random.Random(308)
    seen = dict.fromkeys(("answered", "late", "bath", "ceiling", "floor", "empty", "iron"), 0)
    seen |= dict.fromkeys(("flame", "hot-plate", "wet", "from-bath"), 0)
    for _ in range(QUESTIONS):
        parts = random_parts(catalog, chance)
        if chance.random() < 0.5:
            parts = dict(catalog.blends[chance.choice(list(catalog.blends))].parts)
        fields, given = asked(catalog, chance)
        shown = filled(page, "melt", fields, {n: typed(p, chance) for n, p in parts.items()})
        seen[compare(shown, catalog, parts, given)] += 1
    assert min(seen.values()) > 0, seen
    assert seen["answered"] >= 200, seen


def outcome(
    catalog: Catalog, parts: dict[str, float], given: dict[str, Any]
) -> Answer | HeatRefused | OutOfRange:
    """Give the command's answer, or why there is none."""
    try:
        return melt(catalog, parts, **given)
    except (HeatRefused, OutOfRange) as reason:
        return reason


def compare(
    shown: dict[str, Any], catalog: Catalog, parts: dict[str, float], given: dict[str, Any]
) -> str:
    """Compare the page with the command; say what kind of answer it was."""
    asked_for = (parts, given)
    answer = outcome(catalog, parts, given)
    if isinstance(answer, HeatRefused):
        assert shown["message"] == "", asked_for
        assert shown["summary"] == str(answer), asked_for
        assert shown["rows-heat"] == shown["rows-ceilings"] == [], asked_for
        assert shown["time"] == shown["window"] == "", asked_for
        return answer.reason
    if isinstance(answer, OutOfRange):
        assert answer.what == "start", asked_for
        assert shown["message"].startswith("Wax and water at the start:"), asked_for
        return "late"
    check_window(shown, answer, catalog)
    if isinstance(answer.answer["energy"], Unknown):
        assert shown["time"] == plain_unknown(answer.answer["energy"]), asked_for
        return "iron"
    check_pot(shown, answer, catalog)
    return "answered"


def check_window(shown: dict[str, Any], answer: Answer, catalog: Catalog) -> None:
    """Compare the window, its ceilings, the colour, what is not known and the notes."""
    found, said = answer.answer, answer.inputs
    assert shown["message"] == "", said
    assert shown["window"] == text.window_line(found["window"], catalog), said
    assert shown["governed"] == text.governed_line(found["window"]), said
    rows = [text.ceiling_cells(one, catalog) for one in found["ceilings"]]
    assert shown["rows-ceilings"] == rows, said
    quality = text.quality_line(found["quality_limit"], found["to"].value, catalog)
    assert shown["quality"] == " ".join(quality.split()), said
    assert shown["unknown"] == " ".join(plain_unknown(one) for one in found["not_known"]), said
    assert shown["notes"] == " ".join(answer.notes), said


def check_pot(shown: dict[str, Any], answer: Answer, catalog: Catalog) -> None:
    """Compare heat, time, pot, sink and top-up to the last printed digit."""
    found, said = answer.answer, answer.inputs
    energy = found["energy"]
    assert shown["rows-heat"] == [
        [words, printed(energy[name].low, 0), printed(energy[name].high, 0)]
        for name, words in text.ROWS.items()
        if energy[name].high
    ], said
    time = found["time"]
    late = isinstance(time, Unknown)
    assert shown["time"] == (plain_unknown(time) if late else span(time)), said
    assert ("Stay at the pot" in shown["summary"]) != late
    assert shown["volume"] == span(found["hot_volume"]), said
    assert shown["pot"] == f"{printed(found['pot'].value, 0)} mL", said
    assert shown["loses"] == f"{span(found['contraction'])} of its hot volume", said
    assert shown["topup"] == text.shown(found["top_up"], catalog), said
    sink = found["sink"]
    if isinstance(sink, Unknown):
        assert shown["sink"] == plain_unknown(sink), said
    else:
        mean, middle = (text.shown(sink[name], catalog) for name in ("mean", "middle"))
        assert shown["sink"] == f"{mean} on the mean, {middle} at the middle", said


@pytest.mark.parametrize(("units", "unit"), SCALES)
def test_the_command_line_asks_the_same(units, unit, page: Page, tmp_path):
    """The printed command carries every field of the page."""
    page.goto(written(shop(units, 0.1 if unit == "g" else 0.05, unit), tmp_path, "melt"))
    us = units == "US"
    sizes = US if us else METRIC
    blank = {"width": sizes["width"], "bath": sizes["bath"], "start": sizes["start"]}
    heat = "180" if us else "82"
    shown = filled(
        page, "melt", {**blank, "to": heat, "vessel_mass": "12", "second_mass": "", "total": "14"}
    )
    assert shown["command"] == (
        f"benchbinder melt beeswax-rosin-4-1 --total 14{unit} --for holding"
        f" --to {heat}{'F' if us else 'C'} --start {sizes['start']}{'F' if us else 'C'}"
        f" --bath {sizes['bath']}{'floz' if us else 'L'} --power 300W"
        f" --vessel aluminium=12{unit} --width {sizes['width']}{'in' if us else 'mm'}"
    )
    shown = filled(page, "melt", {"way": "thermostat", "dry": "dried", "power": ""})
    assert " --heater thermostat --from-bath --dried --vessel" in shown["command"]


def test_a_make_up_pot_in_a_water_bath_is_told_what_to_do(page: Page, tmp_path):
    """The refusal says the limit and the other way, and shows no time to wait for."""
    page.goto(written(shop(), tmp_path, "melt"))
    shown = filled(page, "melt", {"purpose": "make-up", "way": "bath"})
    assert shown["summary"].startswith("Refused: 100 °C cannot be reached in a water bath")
    assert "Sieve crushed rosin in small lots" in shown["summary"]
    assert shown["time"] == ""
