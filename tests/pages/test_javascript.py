"""The page's script against Python, in a real browser, on random inputs."""

from __future__ import annotations

import importlib
import itertools
import json
import math
import pkgutil
import random
from pathlib import Path
from typing import Any

import arguments
import prototypes
import pytest
from playwright.sync_api import Page

import formulas
from formulas import units
from formulas.formula import FORMULAS, PROCEDURES, Procedure
from site_builder.notation import writers

for module in pkgutil.walk_packages(formulas.__path__, "formulas."):
    importlib.import_module(module.name)

EVERY: dict[str, Procedure[..., Any]] = {
    **FORMULAS,
    **PROCEDURES,
    **prototypes.HARD,
    **prototypes.HARD_PROCEDURES,
}
POINTS = 1000
SHARES = 4
"""Into how many tests the functions are dealt, so that they are compared side by side."""
# Scans, bisections and layouts of their own take a thousand evaluations each.
FEWER = {
    "open_shares": 10,
    "edge_between": 40,
    "test_first": 60,
    "laid_along": 100,
    "laid_out": 100,
    "best_way": 200,
}
pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def script_page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write a page that loads the generated script from a file beside it."""
    folder = tmp_path_factory.mktemp("script")
    (folder / "formulas.js").write_text(writers.javascript(EVERY.values()), encoding="utf-8")
    page = folder / "page.html"
    page.write_text(
        '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Script</title>'
        '<script src="formulas.js"></script></head><body></body></html>',
        encoding="utf-8",
    )
    return page


def _asked(page: Page, name: str, calls: list[list[Any]]) -> list[Any]:
    # NaN and Infinity are null in JSON, as everywhere no number can be shown.
    script = """([name, calls]) =>
        JSON.stringify(JSON.parse(calls).map((each) => window.bench[name](...each)))"""
    answers: list[Any] = json.loads(page.evaluate(script, [name, json.dumps(calls)]))
    return answers


def _agree(found: Any, wanted: Any) -> bool:
    """Compare numbers to a relative 1e-12, everything else exactly."""
    if isinstance(wanted, dict):
        return list(found) == list(wanted) and _agree(list(found.values()), list(wanted.values()))
    if isinstance(wanted, list | tuple):
        return len(found) == len(wanted) and all(map(_agree, found, wanted))
    if isinstance(wanted, bool | str):
        return found is wanted or (isinstance(found, str) and found == wanted)
    return math.isclose(found, wanted, rel_tol=1e-12, abs_tol=1e-300)


def test_the_page_has_every_function(page: Page, script_page: Path) -> None:
    """Each formula and procedure is in the script, and nothing else."""
    page.goto(script_page.as_uri())
    assert page.evaluate("Object.keys(window.bench).sort()") == sorted(EVERY)


@pytest.mark.parametrize("share", range(SHARES))
def test_every_function_agrees_with_python(page: Page, script_page: Path, share: int) -> None:
    """Each formula and procedure gives in Chromium what it gives in Python."""
    page.goto(script_page.as_uri())
    for name in sorted(EVERY)[share::SHARES]:
        procedure = EVERY[name]
        chance = random.Random(name)
        calls: list[list[Any]] = []
        wanted: list[Any] = []
        tries = itertools.count()
        while len(calls) < FEWER.get(name, POINTS):
            assert next(tries) < 2 * POINTS, f"{name}: most random arguments are out of its range"
            values = arguments.draw(procedure, chance)
            try:
                wanted.append(procedure(**values))
            except (ArithmeticError, ValueError):
                continue
            calls.append(list(values.values()))
        for found, right, call in zip(_asked(page, name, calls), wanted, calls, strict=True):
            assert _agree(found, right), (name, call, found, right)


TIES = [(n / 8 * sign, places) for n in range(200) for sign in (1, -1) for places in range(4)]


def test_print_rounding_agrees_on_ties(page: Page, script_page: Path) -> None:
    """Halves, and numbers beside them, print in the page as they do in Python."""
    page.goto(script_page.as_uri())
    beside = [(math.nextafter(v, side), p) for v, p in TIES for side in (-math.inf, math.inf)]
    chance = random.Random(1)
    others = [(chance.uniform(-1e6, 1e6), chance.randint(0, 6)) for _ in range(2000)]
    calls = [*TIES, *beside, *others, (1e9 / 3, 3), (0.1 + 0.2, 1), (1.005, 2), (-0.0, 1)]
    found = _asked(page, "printed", [list(call) for call in calls])
    assert found == [units.printed(*call) for call in calls]


def test_optional_arguments_may_be_left_out(page: Page, script_page: Path) -> None:
    """An argument with a default may be left out in the page as in Python."""
    page.goto(script_page.as_uri())
    assert _asked(page, "whole_steps", [[2.34]]) == [prototypes.whole_steps(2.34)]


def test_script_may_stand_inside_a_page(page: Page) -> None:
    """Nothing in the script closes the tag it stands in."""
    script = writers.javascript(EVERY.values())
    assert "</" not in script
    assert "<!--" not in script
    page.set_content(f"<!doctype html><title>One file</title><script>{script}</script>")
    assert page.evaluate("typeof window.bench.printed") == "function"


def test_equal_numbers_take_the_same_branch(page: Page, script_page: Path) -> None:
    """Every comparison sign holds for equal numbers in the page where it does in Python."""
    page.goto(script_page.as_uri())
    calls = [[a, b] for a in range(3) for b in range(3)]
    wanted = [prototypes.every_comparison(*call) for call in calls]
    assert _asked(page, "every_comparison", calls) == wanted
