"""The terminal text of `record jobs`."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from formulas.answer import Answer
from formulas.catalog import Catalog
from formulas.units import printed
from site_builder.texts.book_words import kept, noted, weighed
from site_builder.texts.words import shop_line, wrapped

NONE_YET = "No job stands in jobs.csv yet: `benchbinder record job` enters one."


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give one line a job, and below it what is kept back for it."""
    listed = answer.answer["jobs"]
    if not listed:
        return [NONE_YET, shop_line(catalog), *noted(answer)]
    head = (
        f"  {'Job':<12}{'State':<9}{'Since':<12}{'Plates':>7}{'Valves':>8}{'Wax':>10}{'Hours':>8}"
    )
    lines = [f"Jobs: {len(listed)}", shop_line(catalog), "", f"{head}   Instrument"]
    return [*lines, *(line for job in listed for line in _job(job)), *noted(answer)]


def _job(job: dict[str, Any]) -> Iterator[str]:
    wax = weighed(job["wax"]) if job["wax"] else ""
    hours = printed(job["hours"].value, 1) if job["hours"] else ""
    yield (
        f"  {job['job']:<12}{job['state']:<9}{job['since']:<12}{_count(job['plates']):>7}"
        f"{_count(job['valves']):>8}{wax + ('+' if job['wax_not_weighed'] else ''):>10}"
        f"{hours:>8}   {job['instrument'] or ''}"
    ).rstrip()
    if job["kept_back"]:
        held = ", ".join(kept(one) for one in job["kept_back"])
        yield wrapped(f"      kept back: {held}", "        ")
    if job["wax_not_weighed"]:
        yield "      a use of wax has no weight: there is more"


def _count(count: int | None) -> str:
    return "" if count is None else str(count)
