"""The wax of a job: by the geometry of its plates, by the rule of thumb, by the shop's own jobs."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from formulas.answer import Band
from formulas.frozen import Frozen
from formulas.jobs.fillet import (
    FREE_SIDE,
    NEED_HEAD,
    USUAL,
    WAX_FIGURES,
    wax_each,
    wax_need,
    wax_to_have,
    wax_to_melt,
)
from formulas.jobs.job import Job, JobPlate, Part
from formulas.jobs.wax_figures import wax_figures_of
from formulas.wax.batch import total_for_plates

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.jobs.own_figures import OwnFigure
    from formulas.valves.rank import Size

GEOMETRY = (
    "fillets by the sizes of the plates; seldom is every figure off to one side, so the ends are"
    " nearer than their sums"
)
RULE = "rule of thumb for one plate, with both losses"
TO_HAVE = "from the lowest to the highest end of geometry and practice"
OWN = "what this shop's jobs took, with both losses"


class WaxNeeds(Frozen):
    """Wax to melt for a job, in g, losses included; `stays` is what stays on the plates.

    `to_have` runs from the lowest to the highest end of geometry and of what practice says: a
    pot that runs dry inside a block is the worse fault.

    `parts` has a row a block. `weight` tells which figure or rank the half width hangs on most,
    as its share of the squared half width. `each` is wax to melt for one plate, by its mark.
    """

    plates: int
    need: Band
    by_rule: Band
    own: Band | None
    to_have: Band
    stays: float
    parts: tuple[Part, ...]
    weight: tuple[tuple[str, float], ...]
    each: Mapping[str, float]


def waxed(catalog: Catalog, plates: Sequence[JobPlate]) -> list[JobPlate]:
    """Give the plates that get new wax: seated in wax, and not with the wax they have."""
    return [
        one
        for one in plates
        if catalog.seating_methods[one.seating].group == "wax" and not one.keeps_wax
    ]


def wax_needs(
    catalog: Catalog, job: Job, plates: Sequence[JobPlate], own: OwnFigure | None
) -> WaxNeeds:
    """Work out the wax of a job. `own` is what this shop used a plate, None where it knows none."""
    chosen = waxed(catalog, plates)
    rows = _rows(catalog, job, chosen)
    figures = wax_figures_of(catalog, job.blend)
    found = wax_need(rows, figures.low, figures.mid, figures.high)
    each = [1000 * wax_to_melt(sum(wax_each(row, figures.mid)), figures.mid) for row in rows]
    mid, half = 1000 * found[0], 1000 * found[1]
    by_mark = dict(zip((one.mark for one in chosen), each, strict=True))
    need = Band(max(0.0, mid - half), None, mid + half, "g", GEOMETRY)
    by_rule, by_own = _by_rule(catalog, len(chosen)), _by_own(catalog, len(chosen), own)
    ends = [[one.low, one.high] if one else [] for one in (need, by_rule, by_own)]
    low, high = wax_to_have(*ends)
    return WaxNeeds(
        plates=len(chosen),
        need=need,
        by_rule=by_rule,
        own=by_own,
        to_have=Band(low, None, high, "g", TO_HAVE),
        stays=1000 * (found[2] + found[3]),
        parts=tuple(_parts(job, chosen, by_mark)),
        weight=tuple(_weights(job, found)),
        each=by_mark,
    )


def _rows(catalog: Catalog, job: Job, plates: Sequence[JobPlate]) -> list[list[float]]:
    """Give a row a plate; a block's outer plates have a free side each."""
    groups = {rank.rank: at for at, rank in enumerate(job.ranks)}
    gaps = {block.block: USUAL if block.gap_m is None else block.gap_m for block in job.blocks}
    counts = {block.block: block.count for block in job.blocks}
    rows = []
    for one in plates:
        bedded = "bed" in catalog.seating_methods[one.seating].takes
        gap = gaps[one.block]
        sizes = (one.length, one.width, one.thickness)
        rows.append(
            [
                float(groups[one.rank]),
                *(size.estimate for size in sizes),
                *(_half(size) for size in sizes),
                FREE_SIDE if one.position == 1 else gap,
                FREE_SIDE if one.position == counts[one.block] else gap,
                1.0 if bedded else 0.0,
                float(USUAL),
            ]
        )
    return rows


def _half(size: Size) -> float:
    return (size.high - size.low) / 2


def _parts(job: Job, plates: Sequence[JobPlate], each: Mapping[str, float]) -> list[Part]:
    found = []
    for block in job.blocks:
        own = [one for one in plates if one.block == block.block]
        if own:
            where = f"block {block.block}, {len(own)} plates"
            found.append(Part(where, len(own), math.fsum(each[one.mark] for one in own)))
    return found


def _weights(job: Job, found: Sequence[float]) -> list[tuple[str, float]]:
    """Tell which figures and ranks the half width hangs on, the heaviest first."""
    names = [*WAX_FIGURES, *(f"sizes of the plates of {rank.name}" for rank in job.ranks)]
    squares = [half * half for half in found[NEED_HEAD:]]
    whole = sum(squares)
    if not whole > 0:
        return []
    # Ranks at the end that have no waxed plate have no entry of their own.
    weights = [(name, square / whole) for name, square in zip(names, squares, strict=False)]
    return sorted(weights, key=lambda one: -one[1])


def _by_rule(catalog: Catalog, plates: int) -> Band:
    per = catalog.span("wax-per-plate", "kg")
    return _melted(catalog, plates, per, RULE)


def _by_own(catalog: Catalog, plates: int, own: OwnFigure | None) -> Band | None:
    if own is None or own.low is None or own.high is None:
        return None
    return _melted(catalog, plates, (own.low / 1000, own.high / 1000), OWN)


def _melted(catalog: Catalog, plates: int, per: tuple[float, float], method: str) -> Band:
    """Give the wax to melt in g for what stays on a plate, from the least to the most."""
    strain = catalog.span("straining-loss", "dimensionless")
    pot = catalog.span("pot-loss", "dimensionless")
    low, high = (1000 * total_for_plates(plates, per[i], strain[i], pot[i]) for i in (0, 1))
    return Band(low, None, high, "g", method)
