"""What the leaves of a job folder may place: few parts, so that they load while somebody waits."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from site_builder.parts import (
    bench_parts,
    block_charts,
    form_parts,
    handbook_leaves,
    job_parts,
    job_valve_parts,
    job_work_parts,
)
from site_builder.parts.shelf import Part, Shelf

if TYPE_CHECKING:
    from formulas.catalog import Catalog

PARTS = {
    "block-charts": Part(block_charts.block_charts, argument=False),
    "caution": Part(bench_parts.caution, argument=True),
    "cautions": Part(bench_parts.cautions, argument=True),
    "form-lines": Part(bench_parts.form_lines, argument=True),
    "form-table": Part(form_parts.form_table, argument=True),
    "job-as-found": Part(job_work_parts.as_found, argument=False),
    "job-batch-sheets": Part(job_work_parts.batch_sheets, argument=False),
    "job-blocks": Part(job_parts.blocks, argument=False),
    "job-cut-lists": Part(job_valve_parts.cut_lists, argument=False),
    "job-from-memory": Part(job_parts.from_memory, argument=False),
    "job-hold-points": Part(job_work_parts.hold_points, argument=False),
    "job-instrument": Part(job_parts.instrument, argument=False),
    "job-lines": Part(job_parts.lines_and_parts, argument=False),
    "job-materials": Part(job_work_parts.materials_used, argument=False),
    "job-must-buy": Part(job_parts.must_buy, argument=False),
    "job-notes": Part(job_parts.notes, argument=False),
    "job-order-of-work": Part(job_work_parts.order_of_work, argument=False),
    "job-progress": Part(job_work_parts.progress, argument=False),
    "job-seats": Part(job_work_parts.seats_by_block, argument=False),
    "job-shopping": Part(job_parts.shopping, argument=False),
    "job-step-cautions": Part(job_parts.step_cautions, argument=True),
    "job-tests": Part(job_work_parts.tests, argument=False),
    "job-time-and-cost": Part(job_parts.time_and_cost, argument=False),
    "job-uncertain": Part(job_parts.uncertain, argument=False),
    "job-valve-charts": Part(job_valve_parts.valve_charts, argument=False),
    "job-wax-ways": Part(job_parts.wax_ways, argument=False),
}
KINDS = "figure:id of figures.csv, or leaf:name of a leaf of the handbook"


def inline(catalog: Catalog, name: str) -> Element:
    """Give `figure:id`, or a leaf of the handbook by `leaf:name`. Raises UnknownName."""
    kind, _, rest = name.partition(":")
    if kind == "leaf":
        return handbook_leaves.leaf_said(catalog, rest)
    if kind != "figure":
        raise UnknownName(KINDS, name, [])
    names = [f"figure:{one}" for one in catalog.figures]
    bench_parts.known_id(name, names, "figure:id of figures.csv")
    return bench_parts.inline_figure(catalog, rest)


SHELF = Shelf(PARTS, inline)
