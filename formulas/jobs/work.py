"""The hours of a job: every step on every block, with what the survey changes, and the pots."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from formulas.answer import Band
from formulas.books.record_entry import basis_of
from formulas.jobs.job import Job, JobBlock, JobPlate, Pot, StepNeed
from formulas.jobs.order import order_of_work
from formulas.jobs.survey import Changes, changes_of, times_of

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.job_entries import WorkStep
    from formulas.jobs.own_figures import OwnFigure

ONCE = ("job", "batch")
"""What a step is counted by that belongs to no block."""
UNCHANGED = Changes((), ())
HOURS = "minutes of every step added at their ends: one hand does them all"
Valves = Mapping[tuple[str, str], int]
"""How many valves are cut, by block and face."""


def steps_needed(
    catalog: Catalog,
    job: Job,
    plates: Sequence[JobPlate],
    valves: Valves,
    pots: int,
    own: Mapping[str, OwnFigure],
) -> list[StepNeed]:
    """Give the time of each step on each block, in the order of work.

    `own` holds what this shop's hours say of a step; where it is narrow enough it takes the place
    of the table's minutes.
    """
    found = [
        _need(catalog, step, "", pots if step.per == "batch" else 1, UNCHANGED, own)
        for step in order_of_work(catalog, *_of_all(catalog, job.blocks))
        if step.per in ONCE
    ]
    for block in job.blocks:
        group = catalog.seating_methods[block.seating].group
        changes = changes_of(catalog, block.found)
        ours = [one for one in plates if one.block == block.block]
        for step in order_of_work(catalog, {group}, block.found.values(), block.keep):
            count = _count(step, block, ours, valves)
            if step.per not in ONCE and count:
                found.append(_need(catalog, step, block.block, count, changes, own))
    # Sorted by place only: the blocks of one step stay in their order.
    return sorted(found, key=lambda one: one.step.place)


def _of_all(catalog: Catalog, blocks: Sequence[JobBlock]) -> tuple[set[str], set[str], set[str]]:
    """Give groups and grades of any block, and what is kept on every one."""
    groups = {catalog.seating_methods[block.seating].group for block in blocks}
    found = {grade for block in blocks for grade in block.found.values()}
    kept = set.intersection(*(set(block.keep) for block in blocks)) if blocks else set()
    return groups, found, kept


def _count(step: WorkStep, block: JobBlock, plates: Sequence[JobPlate], valves: Valves) -> int:
    """Count on one block what a step is done for each of."""
    if step.per == "block":
        return 1
    if step.per == "plate":
        return block.plates
    if step.per == "tongue" or "kept-valves" in step.applies:
        return sum(one.tongues for one in plates)
    faces = [step.face] if step.face else ["inside", "outside"]
    return sum(valves.get((block.block, face), 0) for face in faces)


def _need(
    catalog: Catalog,
    step: WorkStep,
    block: str,
    count: int,
    changes: Changes,
    own: Mapping[str, OwnFigure],
) -> StepNeed:
    low, high, basis = step.minutes_low, step.minutes_high, step.basis
    measured = own.get(step.id)
    if measured and measured.replaces(low, high):
        low, high, basis = measured.low or 0.0, measured.high or 0.0, basis_of(catalog)
    least, most, changed = times_of(step, changes)
    return StepNeed(step, block, count, count * low * least, count * high * most, changed, basis)


def hours_of(steps: Sequence[StepNeed]) -> Band:
    """Give the hours of all steps; whoever is slow at one is slow at the next."""
    low, high = math.fsum(one.low for one in steps), math.fsum(one.high for one in steps)
    return Band(low / 60, None, high / 60, "h", HOURS)


def pots_of(
    job: Job, plates: Sequence[JobPlate], each: Mapping[str, float], minutes: float, times: float
) -> list[Pot]:
    """Part the waxed plates into pots, one a session, in the order of the blocks.

    `each` is the wax to melt for one plate in g, `minutes` what one plate takes to bed, `times`
    how many times the middle a pot holds, so that it does not run dry inside a block.
    """
    waxed = [one for one in plates if one.mark in each]
    session = max(1, math.floor(job.session_s / 60 / minutes)) if minutes > 0 else len(waxed)
    pots = []
    for number, start in enumerate(range(0, len(waxed), session), 1):
        ours = waxed[start : start + session]
        blocks = tuple(dict.fromkeys(one.block for one in ours))
        grams = times * math.fsum(each[one.mark] for one in ours)
        when = f"for plates {ours[0].mark} to {ours[-1].mark}"
        pots.append(Pot(number, blocks, len(ours), grams, when))
    return pots
