"""The order of work: which steps of a job apply, from the map to the hand-over."""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING

from formulas.fault import UnknownName
from formulas.jobs.survey import read_change

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.job_entries import WorkStep

ALWAYS, FOUND, KEPT = "any", "found", "kept-"


def in_order(catalog: Catalog) -> list[WorkStep]:
    """Give every step of the table in its place."""
    return sorted(catalog.work_steps.values(), key=lambda step: step.place)


def order_of_work(
    catalog: Catalog,
    groups: Collection[str],
    found: Collection[str] = (),
    kept: Collection[str] = (),
) -> list[WorkStep]:
    """Give the steps that apply, in order.

    `groups` are those of the seating methods, `found` the ids of the survey's grades, `kept`
    what the owner keeps: of one block, or what is kept on every block where these are a whole
    job's. Raises UnknownName for a group or a grade that no table holds.
    """
    known = {method.group for method in catalog.seating_methods.values()}
    for group in groups:
        if group not in known:
            raise UnknownName("group of seating_methods.csv", group, known)
    wanted = {ALWAYS, *groups, *(f"{KEPT}{one}" for one in kept)}
    added = _added(catalog, found)
    return [
        step
        for step in in_order(catalog)
        if (wanted & {*step.applies} or (FOUND in step.applies and step.id in added))
        and not {*step.spared_by} & {*kept}
    ]


def _added(catalog: Catalog, found: Collection[str]) -> set[str]:
    """Give the steps that only these grades ask for."""
    steps: set[str] = set()
    for name in found:
        if name not in catalog.survey_grades:
            raise UnknownName("id of survey_grades.csv", name, catalog.survey_grades)
        for text in catalog.survey_grades[name].steps:
            read = read_change(text, name)
            if read is not None and read[0]:
                steps.add(read[1].step)
    return steps
