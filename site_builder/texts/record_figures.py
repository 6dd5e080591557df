"""The terminal text of `record figures`."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from formulas.answer import Answer, Band
from formulas.catalog import Catalog
from formulas.jobs.own_figures import OwnFigure
from formulas.units import printed
from site_builder.texts.words import foot, shop_line, span, wrapped

WAX = "Wax on one plate"
LONG_MIN = 10  # minutes, from which on a tenth says nothing


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give each figure of the shop beside the trade's, and which of the two counts."""
    found = answer.answer
    lines = ["What this shop really uses", shop_line(catalog), ""]
    lines += _figure(WAX, "", found["grams_per_plate"])
    for step in found["minutes_by_step"]:
        lines += _figure(step["name"], step["per"], step)
    if not found["minutes_by_step"]:
        lines.append("No hours are written yet: `benchbinder record hours` enters them.")
    for silent in found["jobs_that_tell_nothing"]:
        lines.append(wrapped(f"{silent['job']} tells nothing of the wax: {silent['why']}.", "  "))
    return [*lines, *foot(answer)]


def _figure(name: str, per: str, told: dict[str, Any]) -> Iterator[str]:
    own: OwnFigure | None = told["own"]
    trade: Band = told["trade"]
    yield wrapped(f"{name}, for each {per}" if per else name, "  ")
    if own:
        yield f"  own    {_own(own)}"
    yield f"  trade  {trade.low:g} to {trade.high:g} {trade.unit}"
    yield wrapped(f"  {told['verdict']}", "  ")


def _own(own: OwnFigure) -> str:
    return f"{middle(own)}; {spread(own, 'one more job: ', ' with 95 of 100')}; {rests_on(own)}"


def middle(own: OwnFigure) -> str:
    """Say the mean of the jobs."""
    return f"{printed(own.middle, _decimals(own))} {own.unit}"


def spread(own: OwnFigure, before: str = "", after: str = "") -> str:
    """Say where one more job is to be expected, or that one job has no spread."""
    if own.low is None or own.high is None:
        return "no spread yet"
    ends = Band(own.low, None, own.high, own.unit, "")
    return f"{before}{span(ends, _decimals(own))}{after}"


def rests_on(own: OwnFigure) -> str:
    """Say how many of them in how many jobs."""
    return f"{own.count} in {own.jobs} {'job' if own.jobs == 1 else 'jobs'}"


def _decimals(own: OwnFigure) -> int:
    """Give two decimals to grams, one to minutes below ten, and none to more."""
    return 2 if own.unit == "g" else int(own.middle < LONG_MIN)
