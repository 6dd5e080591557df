"""The instrument of a job: the shop's catalog with its ranks and plates in it, and every plate."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import TYPE_CHECKING

from formulas.jobs.job import Job, JobBlock, JobPlate, JobRank
from formulas.jobs.job_rules import midis
from formulas.units import convert
from formulas.valve_entries import MeasuredPlate, Rank
from formulas.valves.notes import frequency, midi_of, note_name
from formulas.valves.rank import Size, rank_slots
from formulas.valves.reed_sizes import figure_in, plate_length, plate_width

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valves.rank import Slot

SLOTS = {1: 0.5, 2: 1.0}
"""A plate of one tongue is about half as wide as one of two."""


def with_job(catalog: Catalog, job: Job) -> Catalog:
    """Give the catalog with the job as its instrument: its ranks, and its measured plates only.

    Plates of other instruments tell nothing of this one.
    """
    basis = "invented" if job.invented else "measured"
    ranks = [
        Rank(
            job.job, one.rank, one.name, one.lowest, one.plates, one.posture, basis, "", "", "",
            one.notes,
        )
        for one in job.ranks
    ]  # fmt: skip
    names = {one.rank for one in job.ranks}
    own = [
        dataclasses.replace(one, instrument=job.job)
        for one in catalog.plates
        if one.instrument == (job.measured or job.job) and one.rank in names
    ]
    plates = [*own, *(_typed(job, at, basis) for at in range(len(job.plates)))]
    slots = [
        dataclasses.replace(one, instrument=job.job)
        for one in catalog.slots
        if one.instrument == (job.measured or job.job)
    ]
    kind = job.valve_kind or catalog.shop.valve_kind
    shop = dataclasses.replace(catalog.shop, instrument=job.job, valve_kind=kind)
    return dataclasses.replace(catalog, shop=shop, ranks=ranks, plates=plates, slots=slots)


def _typed(job: Job, at: int, basis: str) -> MeasuredPlate:
    """Give a plate of the job file as a row of the plates that were measured, in mm."""

    def millimetres(metres: float | None) -> float | None:
        return None if metres is None else convert(metres, "m", "mm")

    one = job.plates[at]
    return MeasuredPlate(
        instrument=job.job,
        plate=f"{one.rank} {one.note}",
        rank=one.rank,
        block="",
        position=None,
        sounds=one.note,
        metal="",
        length=millimetres(one.length_m),
        width=millimetres(one.width_m),
        thickness=millimetres(one.thickness_m),
        slot_length=millimetres(one.slot_length_m),
        slot_width=millimetres(one.slot_width_m),
        wall=None,
        edge_land=None,
        cell_depth=None,
        outside_space=None,
        unit="mm",
        basis=basis,
        note="",
    )


def plates_of(catalog: Catalog, job: Job) -> list[JobPlate]:
    """Give every plate of a job, block by block, the lowest note first.

    `catalog` is that of `with_job`. Sizes are those measured; else those that the slot's own
    size, measured or expected, leads to expect by the rule of thumb.
    """
    ranks = {one.rank: one for one in job.ranks}
    slots: dict[str, dict[int, Slot]] = {
        name: dict(zip(midis(rank), rank_slots(catalog, job.job, name)[::2], strict=True))
        for name, rank in ranks.items()
    }
    read = {(one.rank, midi_of(one.sounds)): one for one in catalog.plates}
    found = []
    for block in job.blocks:
        rank = ranks[block.rank]
        for position, midi in enumerate(midis(rank)[block.first - 1 : block.last], 1):
            slot = slots[block.rank][midi]
            found.append(
                _plate(catalog, block, rank, position, midi, slot, read.get((block.rank, midi)))
            )
    return found


def _plate(
    catalog: Catalog,
    block: JobBlock,
    rank: JobRank,
    position: int,
    midi: int,
    slot: Slot,
    read: MeasuredPlate | None,
) -> JobPlate:
    sizes = _expected(catalog, slot, rank.tongues, midi)
    for name in sizes:
        value = getattr(read, name) if read else None
        if value is not None and read is not None:
            metres = convert(value, read.unit, "m")
            sizes[name] = Size(metres, metres, metres)
    whole = all(read is not None and getattr(read, name) is not None for name in sizes)
    return JobPlate(
        mark=f"{block.block}-{position:02d}",
        block=block.block,
        position=position,
        rank=block.rank,
        note=note_name(midi),
        midi=midi,
        length=sizes["length"],
        width=sizes["width"],
        thickness=sizes["thickness"],
        seating=block.seating,
        metal=(read.metal if read else "") or block.metal,
        tongues=rank.tongues,
        measured=whole,
        keeps_valves="valves" in block.keep,
        keeps_wax="wax" in block.keep,
    )


def _expected(catalog: Catalog, slot: Slot, tongues: int, midi: int) -> dict[str, Size]:
    """Give length, width and thickness as the slot leads to expect them."""
    share = figure_in(catalog, "plate-length-share", "dimensionless")
    more = figure_in(catalog, "plate-length-more", "m")
    beside = catalog.span("plate-beside-slots", "m")
    least, most = catalog.span(f"plate-thickness-{_class_of(catalog, midi)}", "m")
    long = [plate_length(end, share, more) for end in _ends(slot.slot_length)]
    part = SLOTS[tongues]
    middle = (beside[0] + beside[1]) / 2
    wide = [
        part * plate_width(end, metal)
        for end, metal in zip(_ends(slot.slot_width), (beside[0], middle, beside[1]), strict=True)
    ]
    return {
        "length": Size(*long),
        "width": Size(*wide),
        "thickness": Size(least, (least + most) / 2, most),
    }


def _ends(size: Size) -> tuple[float, float, float]:
    return size.low, size.estimate, size.high


def _class_of(catalog: Catalog, midi: int) -> str:
    """Give the class by which the usual thickness of a plate goes."""
    sounds = frequency(midi, catalog.shop.pitch_of_a)
    if sounds >= figure_in(catalog, "high-plates-from", "Hz"):
        return "high"
    return "bass" if sounds < figure_in(catalog, "bass-plates-below", "Hz") else "middle"


def by_block(plates: list[JobPlate]) -> Mapping[str, list[JobPlate]]:
    """Give the plates of each block in their order."""
    found: dict[str, list[JobPlate]] = {}
    for one in plates:
        found.setdefault(one.block, []).append(one)
    return found
