"""The valve chart of a rank: every note of it, with what the command answers."""

from __future__ import annotations

import pytest

from formulas.catalog import Catalog, load
from formulas.fault import UnknownName
from formulas.valves.rank import ranks_of
from formulas.valves.valves import choices
from site_builder.markup.elements import plain
from site_builder.parts.registry import place
from site_builder.places import DEMO_SHOP
from site_builder.texts.valves import chosen_said, window_said


@pytest.fixture(scope="module")
def demo() -> Catalog:
    """Give the demo shop's catalog."""
    return load(DEMO_SHOP)


def rows_of(chart):
    """Give the rows of a chart's table as note, cut, stock, overhang, the left half first."""
    cells = [[plain(cell) for cell in row] for row in chart.findall(".//tbody/tr")]
    return [row for half in (slice(0, 4), slice(4, 8)) for row in (one[half] for one in cells)]


def test_there_is_a_chart_for_each_rank(demo):
    """Each rank of the shop's instrument has its own, in the order of the table."""
    charts = place(demo, "valve-charts", "")
    names = [rank.name for rank in ranks_of(demo, demo.shop.instrument)]
    assert [plain(chart.find("h2")).split(",")[0] for chart in charts] == [
        name.split(",")[0] for name in names
    ]
    assert all(chart.find("figure") is not None for chart in charts)


@pytest.mark.parametrize("rank", ["low", "high", "bass-2"])
def test_every_line_is_what_the_command_answers(demo, rank):
    """No slot is missing, and each line names the stock and the overhang of the answer."""
    (chart,) = place(demo, "valve-chart", f"{demo.shop.instrument} {rank}")
    told = {row[0]: row for row in rows_of(chart) if row[0]}
    for one in choices(demo, demo.shop.instrument, rank):
        row = told.get(one.slot.sounds) or told[f"{one.slot.sounds} {one.slot.face[:-4]}"]
        assert row[2].removesuffix(" ?") == chosen_said(one)
        assert window_said(one, False).removesuffix(" mm") == row[3]
        assert bool(row[1]) == one.to_cut
        assert row[2].endswith(" ?") == (one.to_cut and not one.sure)


def test_a_rank_that_is_not_there_is_refused(demo):
    """A wrong rank or instrument names those that are there."""
    with pytest.raises(UnknownName, match="did you mean 'low'"):
        place(demo, "valve-chart", f"{demo.shop.instrument} lo")
    with pytest.raises(UnknownName):
        place(demo, "valve-chart", "")
