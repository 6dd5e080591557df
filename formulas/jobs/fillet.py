"""Wax of many plates by their geometry: fillets, gaps run full, beds, and how far to trust it.

A fillet fills a share of the rectangle that plate edge and wood make. Between neighbours the gap
is run full where it is narrower than a fillet, and each takes half of it.
"""

from __future__ import annotations

import math
from typing import Annotated

from formulas.formula import Q, formula, procedure
from formulas.wax.batch import total_for_plates

WAX_FIGURES = (
    "fillet",
    "fillet-shape",
    "bed-thickness",
    "density",
    "straining-loss",
    "pot-loss",
    "touch-up-share",
    "plate-gap",
    "cell-opening-share",
)
"""What the lists `figures_low`, `figures_mid` and `figures_high` hold, in SI units. The density is
that of the cold blend; the others are figures.csv. The last two are asked for only by rows that
say so."""
WAX_ROW = (
    "group",
    "length",
    "width",
    "thickness",
    "half_length",
    "half_width",
    "half_thickness",
    "gap_before",
    "gap_after",
    "bedded",
    "opening_share",
)
"""What one row says of a plate, in SI units: the group of plates whose size errors are shared,
the sizes and their half widths, the gaps along both long sides, 1 where there is a bed."""
FREE_SIDE = -1
"""A gap where no neighbour stands: a whole fillet."""
USUAL = -2
"""A gap, or an opening share, that nobody measured: the figure counts."""
NEED_HEAD = 4
"""Entries of `wax_need` before the half widths: mid, half, fillet, bed."""


@formula("Section of a fillet", symbol="A_f", unit="m**2", source="definition")
def fillet_section(
    k: Annotated[float, Q("1", "share of width times height that wax fills")],
    b: Annotated[float, Q("m", "width of the fillet on the wood")],
    h: Annotated[float, Q("m", "thickness of the plate")],
) -> float:
    """Give the wax across a fillet as high as the plate is thick.

    Half is a straight slope, less is hollow, more is heaped. As good as the share is known.
    """
    return k * b * h


@formula("Section of a gap run full", symbol="A_g", unit="m**2", source="definition")
def gap_section(
    g: Annotated[float, Q("m", "gap between two plates")],
    h: Annotated[float, Q("m", "thickness of the plate")],
) -> float:
    """Give the wax across a gap filled level with the plates; two plates share it."""
    return g * h


@formula("Wax bed under a plate", symbol="m_b", unit="kg", source="definition")
def bed_mass(
    L: Annotated[float, Q("m", "length of the plate")],
    W: Annotated[float, Q("m", "width of the plate")],
    t: Annotated[float, Q("m", "thickness of the bed")],
    o: Annotated[float, Q("1", "share of the plate's face that lies over the cell")],
    rho: Annotated[float, Q("kg/m**3", "density of the cold wax", "ρ")],
) -> float:
    """Give the wax between plate and wood; none lies over the cell."""
    return rho * L * W * t * (1 - o)


@procedure("Section of wax along one long side of a plate")
def side_section(gap: float, share: float, wide: float, thick: float) -> float:
    """Give a plate's own part: half of a gap run full, or a whole fillet, never more than half.

    A gap below nought is a free side.
    """
    whole = fillet_section(share, wide, thick)
    if gap < 0:
        return whole
    half = gap_section(gap, thick) / 2
    return half if gap < wide else min(whole, half)


@procedure("Wax that stays on one plate")
def wax_each(wax_row: list[float], wax_figures: list[float]) -> list[float]:
    """Give fillet and bed of one plate in kg, no losses, at given figures."""
    wide = wax_figures[0]
    share = wax_figures[1]
    thick = wax_row[3]
    sides = 0.0
    for side in range(7, 9):
        gap = wax_row[side]
        if gap == USUAL:
            gap = wax_figures[7]
        sides += wax_row[1] * side_section(gap, share, wide, thick)
    ends = 2 * wax_row[2] * fillet_section(share, wide, thick)
    bed = 0.0
    if wax_row[9] > 0:
        opening = wax_row[10]
        if opening == USUAL:
            opening = wax_figures[8]
        bed = bed_mass(wax_row[1], wax_row[2], wax_figures[2], opening, wax_figures[3])
    return [wax_figures[3] * (sides + ends), bed]


@procedure("A plate with its sizes moved by their half widths")
def moved_row(wax_row: list[float], times: float) -> list[float]:
    """Give the row with so many half widths added to length, width and thickness."""
    moved = [each for each in wax_row]  # noqa: C416
    for place in range(1, 4):
        moved[place] = max(0.0, wax_row[place] + times * wax_row[place + 3])
    return moved


@procedure("Wax to melt for what stays on plates")
def wax_to_melt(stays: float, wax_figures: list[float]) -> float:
    """Give the wax with what is touched up and scraped off again, and with both losses."""
    return total_for_plates(1, stays * (1 + wax_figures[6]), wax_figures[4], wax_figures[5])


@procedure("Wax to melt for plates, and how far to trust it")
def wax_need(
    wax_rows: list[list[float]],
    figures_low: list[float],
    figures_mid: list[float],
    figures_high: list[float],
) -> list[float]:
    """Give mid, half width, fillets and beds at mid, a half width a figure, one a group; in kg.

    Mid and half widths are of wax to melt, losses included; fillets and beds are what stays on
    the plates. One figure counts for all plates alike, the sizes of a group are off together;
    figures and groups are independent, so their half widths go in quadrature.
    """
    fillet = 0.0
    bed = 0.0
    groups = 0.0
    for wax_row in wax_rows:
        mid = wax_each(wax_row, figures_mid)
        fillet += mid[0]
        bed += mid[1]
        groups = max(groups, wax_row[0] + 1)
    halves = []
    for place in range(len(figures_mid)):
        ends = []
        for figures_end in [figures_low, figures_high]:
            figures = [each for each in figures_mid]  # noqa: C416
            figures[place] = figures_end[place]
            stays = 0.0
            for wax_row in wax_rows:
                each_one = wax_each(wax_row, figures)
                stays += each_one[0] + each_one[1]
            ends.append(wax_to_melt(stays, figures))
        halves.append(abs(ends[1] - ends[0]) / 2)
    group = 0
    while group < groups:
        apart = 0.0
        for wax_row in wax_rows:
            if wax_row[0] == group:
                more = wax_each(moved_row(wax_row, 1), figures_mid)
                less = wax_each(moved_row(wax_row, -1), figures_mid)
                apart += (more[0] + more[1]) - (less[0] + less[1])
        halves.append(abs(wax_to_melt(apart, figures_mid)) / 2)
        group += 1
    half = math.sqrt(sum(each * each for each in halves))
    found = [wax_to_melt(fillet + bed, figures_mid), half, fillet, bed]
    for each_half in halves:
        found.append(each_half)  # noqa: PERF402
    return found


@procedure("Wax to have ready")
def wax_to_have(
    melt_ends: list[float], rule_ends: list[float], own_ends: list[float]
) -> list[float]:
    """Give the lowest and the highest end of geometry and practice; pots and shopping go by it.

    Practice is what the shop's own jobs took, else the rule of thumb: a pot that runs dry inside a
    block is the worse fault.
    """
    practice = rule_ends
    if len(own_ends) > 0:
        practice = own_ends
    return [min(melt_ends[0], practice[0]), max(melt_ends[1], practice[1])]
