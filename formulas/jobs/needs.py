"""A whole job worked out: plates, valves, wax, supplies, hours, what to buy, what it costs."""

from __future__ import annotations

import dataclasses
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from formulas.answer import Band
from formulas.cutting.cut import cut
from formulas.jobs.instrument import plates_of, with_job
from formulas.jobs.job import Job, JobPlate, Line, Part, StepNeed, Whole
from formulas.jobs.job_rules import midis
from formulas.jobs.money import HOUR, cost_band, total
from formulas.jobs.own_figures import grams_per_plate, minutes_by_step
from formulas.jobs.shelf import with_free_stock
from formulas.jobs.shopping import pots_filled, shopping
from formulas.jobs.supplies import supplies
from formulas.jobs.survey import may_keep
from formulas.jobs.wax_needs import WaxNeeds, wax_needs
from formulas.jobs.work import hours_of, pots_of, steps_needed
from formulas.valves.deciding import WITHOUT
from formulas.valves.notes import note_name
from formulas.valves.plates_read import FACES
from formulas.valves.valves import Chosen, chosen

if TYPE_CHECKING:
    from formulas.catalog import Catalog

BED = "bed-plate"
"""The step of work_steps.csv whose time says how many plates a session beds."""
INSIDE = FACES[0]
"""The face whose slot counts where a plate carries one tongue."""


def whole(catalog: Catalog, job: Job) -> Whole:
    """Work a job out. `catalog` is the shop's. Raises NotKnown where a table says too little."""
    free = with_free_stock(with_job(catalog, job), job)
    plates = plates_of(free, job)
    valves = valves_of(free, job, plates)
    plan = cut(free, chosen=[one for one in valves if one.stock])
    wax = wax_needs(free, job, plates, grams_per_plate(catalog))
    own_minutes = minutes_by_step(catalog)
    bed = own_minutes.get(BED)
    step = free.work_steps[BED]
    replaced = bed is not None and bed.replaces(step.minutes_low, step.minutes_high)
    minutes = bed.middle if bed and replaced else (step.minutes_low + step.minutes_high) / 2
    middle = (wax.need.low + wax.need.high) / 2
    pots = pots_of(job, plates, wax.each, minutes, wax.to_have.high / middle if middle else 1.0)
    counts = _valves_by_block(plates, valves)
    steps = steps_needed(free, job, plates, counts, len(pots), own_minutes)
    taken = supplies(free, job, plates, valves)
    lines = [
        *_counted(free, job, plates, valves),
        *_wax_lines(wax),
        *taken,
        *_hour_lines(steps),
    ]
    bought = shopping(free, job, wax, plan, taken)
    pots = pots_filled(pots, bought, job.blend)
    hours = hours_of(steps)
    cost = total(free, [*(one.cost for one in bought), cost_band(free, HOUR, hours)])
    return Whole(
        job=job,
        catalog=free,
        plates=tuple(plates),
        chosen=tuple(valves),
        plan=plan,
        lines=tuple(lines),
        steps=tuple(steps),
        pots=tuple(pots),
        bought=tuple(bought),
        wax_by_rule=wax.by_rule,
        wax_own=wax.own,
        hours=hours,
        cost=cost,
        notes=tuple(_notes(free, job, plates, valves, wax)),
        wax_to_have=wax.to_have if wax.plates else None,
        wax_weight=wax.weight,
    )


def valves_of(catalog: Catalog, job: Job, plates: Sequence[JobPlate]) -> list[Chosen]:
    """Give the choice for each tongue whose valve is renewed, under the note of its plate.

    A plate whose wax is kept is not lifted: its inside valve stays as it is.
    """
    of_note = {(one.rank, one.note): one for one in plates}
    found = []
    for rank in job.ranks:
        ones = chosen(catalog, job.job, rank.rank)
        notes = [note_name(midi) for midi in midis(rank) for _ in FACES]
        for one, note in zip(ones, notes, strict=True):
            plate = of_note[rank.rank, note]
            inside = one.face == INSIDE
            kept = plate.keeps_valves or (plate.keeps_wax and inside)
            if not kept and (inside or rank.tongues == len(FACES)):
                found.append(dataclasses.replace(one, note=note))
    return found


def _blocks_of(plates: Sequence[JobPlate]) -> dict[tuple[str, str], str]:
    return {(one.rank, one.note): one.block for one in plates}


def _valves_by_block(
    plates: Sequence[JobPlate], valves: Sequence[Chosen]
) -> Counter[tuple[str, str]]:
    blocks = _blocks_of(plates)
    return Counter((blocks[one.rank, one.note], one.face) for one in valves if one.stock)


def _counted(
    catalog: Catalog, job: Job, plates: Sequence[JobPlate], valves: Sequence[Chosen]
) -> Iterator[Line]:
    """Give the lines of plates, tongues, and valves by stock, a part a block."""
    yield _count("plates", "plates", "Plates", job, {one.block: one.plates for one in job.blocks})
    tongues: Counter[str] = Counter()
    for one in plates:
        tongues[one.block] += one.tongues
    yield _count("plates", "tongues", "Tongues", job, tongues)
    blocks = _blocks_of(plates)
    by_stock: dict[str, Counter[str]] = {}
    for valve in valves:
        if valve.stock:
            block = blocks[valve.rank, valve.note]
            by_stock.setdefault(valve.stock, Counter())[block] += 1
    for stock, counts in by_stock.items():
        name = f"Valves of {catalog.valve_stock[stock].name}"
        yield _count("valves", stock, name, job, counts)


def _count(
    group: str, item: str, name: str, job: Job, counts: Counter[str] | dict[str, int]
) -> Line:
    parts = tuple(
        Part(f"block {one.block}, {one.name}", counts[one.block], float(counts[one.block]))
        for one in job.blocks
        if counts.get(one.block)
    )
    whole_count = float(sum(part.count for part in parts))
    return Line(
        group, item, name, Band(whole_count, whole_count, whole_count, "1", "counted"), parts,
        "derived",
    )  # fmt: skip


def _wax_lines(wax: WaxNeeds) -> Iterator[Line]:
    if wax.plates:
        yield Line("wax", "wax", "Wax to melt, by its geometry", wax.need, wax.parts, "derived")


def _hour_lines(steps: Sequence[StepNeed]) -> Iterator[Line]:
    """Give a line of hours for each step, in minutes, a part a block; a rest takes no hand."""
    by_step: dict[str, list[StepNeed]] = {}
    for one in steps:
        by_step.setdefault(one.step.id, []).append(one)
    for ones in by_step.values():
        parts = tuple(
            Part(
                f"block {one.block}" if one.block else "the job", one.count,
                (one.low + one.high) / 2,
            )
            for one in ones
        )  # fmt: skip
        low, high = sum(one.low for one in ones), sum(one.high for one in ones)
        if high == 0:
            continue
        step = ones[0].step
        band = Band(low, None, high, "min", f"for each {step.per}")
        yield Line("hours", step.id, step.name, band, parts, ones[0].basis)


def _notes(
    catalog: Catalog,
    job: Job,
    plates: Sequence[JobPlate],
    valves: Sequence[Chosen],
    wax: WaxNeeds,
) -> Iterator[str]:
    measured = sum(one.measured for one in plates)
    carried = "wax and valves" if wax.plates else "valves and gaskets"
    yield (
        f"{measured} of {len(plates)} plates are measured whole; the sizes of the rest come from"
        f" their neighbours or the generic line, and carry its width into {carried}."
    )
    undecided = sum(not one.stock and one.kind != WITHOUT for one in valves)
    if undecided:
        yield (
            f"{undecided} tongues have no stock chosen yet: see `benchbinder valves`. They are in"
            " no total of valves, glue or hours."
        )
    other = wax.own or wax.by_rule
    if wax.plates and (other.high < wax.need.low or other.low > wax.need.high):
        whose = "what this shop's jobs took" if wax.own else "the rule of thumb"
        yield (
            f"The wax by its geometry and {whose} do not meet. Pots and shopping go by the higher:"
            " measure plates and a fillet, and weigh what one block takes."
        )
    for block in job.blocks:
        yield from may_keep(catalog, block)
    if wax.plates:
        yield "Pots go by the session, not by the job: hot wax ages."
