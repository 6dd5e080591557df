"""A page with every working on it, filled in as a person would, and random things to fill in."""

from __future__ import annotations

import dataclasses
import functools
import json
import random
from collections.abc import Mapping
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

from playwright.sync_api import Page

from formulas import catalog as catalogs
from formulas.answer import Band
from formulas.catalog import Catalog
from formulas.entries import Price
from formulas.formula import FORMULAS, PROCEDURES
from formulas.units import printed, spoken_unit
from site_builder.notation import writers
from site_builder.workings import worksheets


def shop(units: str = "metric", step: float = 0.1, unit: str = "g") -> Catalog:
    """Give the trade's tables with some prices, and a scale of one's own."""
    trade = catalogs.load(None)
    priced = [name for place, name in enumerate(trade.materials) if place % 4]
    prices = {
        name: Price(name, 7.35 + 3.1 * place, 0.75, "kg", "", "invented", "")
        for place, name in enumerate(priced)
    }
    settings = dataclasses.replace(trade.shop, units=units, scale_step=step, scale_unit=unit)
    return dataclasses.replace(trade, shop=settings, prices=prices)


def written(catalog: Catalog, folder: Path, *only: str) -> str:
    """Write a page with the workings named, or all, and their scripts; give its address.

    A page with one working opens at once: every working answers when its page is opened.
    """
    forms = [
        ElementTree.tostring(worksheets.screen_form(one, catalog), "unicode", "html")
        for name, one in worksheets.WORKSHEETS.items()
        if not only or name in only
    ]
    (folder / "formulas.js").write_text(_generated(), encoding="utf-8")
    data = json.dumps(worksheets.page_data(catalog), ensure_ascii=True)
    (folder / "catalog.js").write_text(f"window.bench_data = {data};\n", encoding="utf-8")
    (folder / "bench.js").write_text(worksheets.bench_script(), encoding="utf-8")
    scripts = "".join(
        f'<script src="{name}.js"></script>' for name in ("formulas", "catalog", "bench")
    )
    head = '<!DOCTYPE html><html lang="en"><meta charset="utf-8"><title>Workings</title>'
    target = folder / "page.html"
    target.write_text(f"{head}<body>{''.join(forms)}{scripts}</body></html>", encoding="utf-8")
    return target.as_uri()


@functools.cache
def _generated() -> str:
    """Give the script of all formulas, written once."""
    return writers.javascript([*FORMULAS.values(), *PROCEDURES.values()])


# Every field tells of its change, as when somebody types one after the other. What is answered in
# between nobody reads, and every answer is made from the whole form: so only the last is waited
# for, but for the first time and every 25th, when each is.
FILL = """([id, fields, tables]) => {
  const form = document.querySelector(`form[data-working=${id}]`);
  const tell = (field) => field.dispatchEvent(new Event("input", {bubbles: true}));
  const each = (window.bench_times = (window.bench_times || 0) + 1) % 25 === 1;
  const { answers } = window.bench_kit, answer = answers[id];
  let last = null;
  if (!each) answers[id] = () => {};
  for (const [table, parts] of tables) {
    const rows = () => [...form.querySelectorAll(`[data-rows=${table}] tr:not([hidden]) input`)];
    for (const row of rows()) row.closest("tr").remove();
    const add = form.querySelector(`[data-adds=${table}]`);
    for (const [material, text] of parts) {
      add.value = material;
      tell(add);
      rows().at(-1).value = text;
    }
    last = rows().at(-1) || add;
    tell(last);
  }
  for (const [name, text] of fields) {
    form.elements[name].value = text;
    last = form.elements[name];
    tell(last);
  }
  if (!each) {
    answers[id] = answer;
    if (last) tell(last);
  }
  const shown = {};
  for (const place of form.querySelectorAll("[data-out]")) {
    shown[place.dataset.out] = place.textContent;
  }
  for (const body of form.querySelectorAll("[data-rows]:not([data-each])")) {
    shown[`rows-${body.dataset.rows}`] = [...body.querySelectorAll("tr")].map(
      (row) => [...row.children].map((cell) => cell.textContent));
  }
  return shown;
}"""


def filled(
    page: Page,
    working: str,
    fields: Mapping[str, str],
    parts: Mapping[str, str] | None = None,
    **tables: Mapping[str, str],
) -> dict[str, Any]:
    """Fill a working in and read every place of its answer; a table of the answer is `rows-name`.

    `parts` is the table of that name; other tables of materials are given by their names.
    """
    all_tables = {**({"parts": parts} if parts else {}), **tables}
    given = [[name, list(rows.items())] for name, rows in all_tables.items()]
    shown: dict[str, Any] = page.evaluate(FILL, [working, list(fields.items()), given])
    return shown


def span(band: Band) -> str:
    """Give a band as it is printed."""
    return f"{printed(band.low, 0)} to {printed(band.high, 0)} {spoken_unit(band.unit)}"


def random_parts(catalog: Catalog, chance: random.Random) -> dict[str, float]:
    """Draw a blend of one to five materials; half of them with two decimals."""
    names = chance.sample(list(catalog.materials), chance.randint(1, 5))
    digits = chance.choice([0, 1, 2])
    return {
        name: max(
            10.0**-digits,
            round(chance.uniform(0.2, 12) * (0.05 if _softens(catalog, name) else 1), digits),
        )
        for name in names
    }


def _softens(catalog: Catalog, name: str) -> bool:
    return catalog.materials[name].role == "softener"


def typed(number: float, chance: random.Random) -> str:
    """Write a number as a person may, with a point or a comma."""
    text = f"{number:.10g}"
    return text.replace(".", ",") if chance.random() < 0.5 else text
