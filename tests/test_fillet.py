"""Wax of plates by their geometry: sections, gaps, beds, losses, and what the half width holds."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulas.catalog import load
from formulas.jobs.fillet import (
    FREE_SIDE,
    NEED_HEAD,
    USUAL,
    WAX_FIGURES,
    WAX_ROW,
    bed_mass,
    fillet_section,
    gap_section,
    side_section,
    wax_each,
    wax_need,
    wax_to_melt,
)
from formulas.jobs.wax_figures import wax_bases, wax_figures_of
from formulas.wax.bedding import fillet_mass

CATALOG = load(None)
MID = [0.004, 0.5, 0.0003, 960.0, 0.06, 0.04, 0.2, 0.001, 0.45]
"""Fillet 4 mm wide and of half its rectangle, bed 0.3 mm, losses 6 and 4 %, touch-up a fifth."""


def plate(**other):
    """Give the row of a plate 36 by 15 by 2.5 mm, measured, with free sides, seated dry."""
    row = dict.fromkeys(WAX_ROW, 0.0)
    row |= {"length": 0.036, "width": 0.015, "thickness": 0.0025}
    row |= {"gap_before": FREE_SIDE, "gap_after": FREE_SIDE, "opening_share": USUAL}
    return list({**row, **other}.values())


def given_figures(**other):
    """Give the figures with some of them put in by name."""
    return [other.get(name.replace("-", "_"), MID[place]) for place, name in enumerate(WAX_FIGURES)]


def need(rows, low=None, high=None):
    """Give what plates need where only some figures have a width."""
    return wax_need(rows, low or MID, MID, high or MID)


def test_a_plate_alone_is_the_fillet_of_triangular_section():
    """Half of the rectangle, no neighbour: what the formula of the bedding leaf gives."""
    wanted = fillet_mass(2 * (0.036 + 0.015), MID[0], 0.0025, MID[3])
    assert wax_each(plate(), MID) == pytest.approx([wanted, 0], rel=1e-12)


def test_sections_by_hand():
    """4 mm by 2.5 mm: 5 mm² at a half; a gap of 1 mm run full: 2.5 mm², half of it each."""
    assert fillet_section(0.5, 0.004, 0.0025) == pytest.approx(5e-6, rel=1e-12)
    assert gap_section(0.001, 0.0025) == pytest.approx(2.5e-6, rel=1e-12)
    assert side_section(0.001, 0.5, 0.004, 0.0025) == pytest.approx(1.25e-6, rel=1e-12)


def test_the_bed_by_hand():
    """36 by 15 mm, 0.3 mm thick, 45 % over the cell, 960 kg/m³: 0.0855 g."""
    assert bed_mass(0.036, 0.015, 0.0003, 0.45, 960) == pytest.approx(0.0855e-3, rel=1e-3)
    bedded = wax_each(plate(bedded=1.0), MID)
    assert bedded[0] == wax_each(plate(), MID)[0]
    assert bedded[1] == pytest.approx(0.036 * 0.015 * 0.0003 * 0.55 * 960, rel=1e-12)


@given(
    gap=st.floats(0, 0.02), share=st.floats(0.2, 0.9), wide=st.floats(0.001, 0.01),
    thick=st.floats(0.001, 0.005),
)  # fmt: skip
def test_a_gap_never_takes_more_than_it_holds(gap, share, wide, thick):
    """Two neighbours together take no more than the gap run full, and no more than two fillets."""
    both = 2 * side_section(gap, share, wide, thick)
    assert both <= gap_section(gap, thick) * (1 + 1e-12)
    if gap >= wide:
        assert both <= 2 * fillet_section(share, wide, thick) * (1 + 1e-12)


def test_a_wide_gap_takes_two_whole_fillets():
    """Beyond twice the fillet a neighbour changes nothing."""
    assert wax_each(plate(gap_before=0.009, gap_after=0.02), MID) == wax_each(plate(), MID)


def test_what_is_usual_is_the_figure():
    """A gap or an opening that nobody measured counts as the figure says."""
    usual = wax_each(plate(gap_before=USUAL, bedded=1.0), MID)
    assert usual == wax_each(plate(gap_before=MID[7], bedded=1.0, opening_share=MID[8]), MID)


def test_losses_and_touch_up_by_hand():
    """1 g that stays, a fifth for touch-up: 1.2 g through 6 and 4 % of loss is 1.3298 g."""
    assert wax_to_melt(0.001, MID) == pytest.approx(0.0012 / (0.94 * 0.96), rel=1e-12)


def test_the_middle_is_the_sum_of_the_plates():
    """Fillets and beds are added as they stay; the middle is what has to be melted for them."""
    rows = [plate(), plate(bedded=1.0), plate(gap_after=0.0005, thickness=0.003)]
    found = need(rows)
    each = [wax_each(row, MID) for row in rows]
    assert found[2] == pytest.approx(sum(one[0] for one in each), rel=1e-12)
    assert found[3] == pytest.approx(sum(one[1] for one in each), rel=1e-12)
    assert found[0] == pytest.approx(wax_to_melt(found[2] + found[3], MID), rel=1e-12)
    assert need(rows[::-1])[:4] == pytest.approx(found[:4], rel=1e-12)


def test_measured_plates_and_sharp_figures_leave_no_width():
    """Where nothing is a range the half width is nought."""
    found = need([plate(), plate(group=1.0)])
    assert found[1] == 0
    assert found[NEED_HEAD:] == [0.0] * (len(WAX_FIGURES) + 2)


@pytest.mark.parametrize(
    ("name", "row", "counts"),
    [
        ("bed_thickness", plate(), False),
        ("bed_thickness", plate(bedded=1.0), True),
        ("plate_gap", plate(gap_before=0.001), False),
        ("plate_gap", plate(gap_before=USUAL), True),
        ("cell_opening_share", plate(bedded=1.0, opening_share=0.4), False),
        ("cell_opening_share", plate(bedded=1.0), True),
        ("fillet", plate(), True),
    ],
)
def test_a_figure_widens_only_what_hangs_on_it(name, row, counts):
    """The half width of a figure is that of the answer at its two ends, nought where unused."""
    place = WAX_FIGURES.index(name.replace("_", "-"))
    low, high = given_figures(**{name: MID[place] * 0.8}), given_figures(**{name: MID[place] * 1.2})
    found = need([row], low, high)
    apart = [wax_need([row], one, one, one)[0] for one in (low, high)]
    assert found[NEED_HEAD + place] == pytest.approx(abs(apart[1] - apart[0]) / 2, abs=1e-18)
    assert (found[1] > 0) is counts


def test_sizes_of_a_group_are_off_together_and_groups_are_not():
    """Half widths of plates of one group are added, those of two groups go in quadrature."""
    unsure = {"half_length": 0.003, "half_width": 0.001, "half_thickness": 0.0003}
    one = need([plate(**unsure)])[1]
    together = need([plate(**unsure), plate(**unsure)])
    apart = need([plate(**unsure), plate(group=1.0, **unsure)])
    assert together[1] == pytest.approx(2 * one, rel=1e-12)
    assert apart[1] == pytest.approx(math.sqrt(2) * one, rel=1e-12)
    assert apart[-2:] == pytest.approx([one, one], rel=1e-12)


def test_the_half_width_is_the_square_sum_of_all():
    """Every half width that is given is in the one that stands for all."""
    unsure = plate(half_length=0.003, half_thickness=0.0003, gap_before=USUAL, bedded=1.0)
    figures = wax_figures_of(CATALOG)
    found = wax_need([unsure], figures.low, figures.mid, figures.high)
    halves = found[NEED_HEAD:]
    assert len(halves) == len(WAX_FIGURES) + 1
    assert min(halves) > 0
    assert found[1] == pytest.approx(math.hypot(*halves), rel=1e-12)


def test_the_figures_are_those_of_the_tables():
    """Each figure stands in the order of its names, low below middle below high, in SI units."""
    figures = wax_figures_of(CATALOG, "beeswax-rosin-4-1")
    assert all(a < b < c for a, b, c in zip(*figures, strict=True))
    fillet = CATALOG.figure("fillet")
    assert (figures.low[0], figures.high[0]) == (fillet.low / 1000, fillet.high / 1000)
    assert len(wax_bases(CATALOG)) == len(WAX_FIGURES)


def test_the_density_of_a_blend_lies_between_its_components():
    """Four parts of wax and one of rosin: nearer to the wax; without a name it is any blend."""
    density = WAX_FIGURES.index("density")
    four, one = (wax_figures_of(CATALOG, f"beeswax-rosin-{name}") for name in ("4-1", "1-1"))
    assert 950 < four.low[density] < one.low[density] < 1100  # kg/m³ of wax and of rosin
    any_blend = wax_figures_of(CATALOG)
    assert any_blend.low[density] <= four.low[density]
    assert any_blend.high[density] >= one.high[density]
