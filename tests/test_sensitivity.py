"""How far a choice hangs on each limit, against choosing anew with the table's row changed."""

from __future__ import annotations

import dataclasses

import pytest

from formulas.catalog import Catalog, load
from formulas.fault import UnknownName
from formulas.valves.limit_changes import TIGHTER, WIDER, Run, sensitivity
from formulas.valves.valves import choices
from site_builder.markup.elements import plain
from site_builder.parts.registry import place
from site_builder.places import DEMO_SHOP
from site_builder.texts.valves import chosen_said

INSTRUMENT = "forty-one-key"


@pytest.fixture(scope="module")
def demo() -> Catalog:
    """Give the demo shop's catalog."""
    return load(DEMO_SHOP)


def changed(catalog: Catalog, limit: str, times: float) -> Catalog:
    """Give the catalog with one limit's row changed, as a shop's own table would."""
    row = catalog.limit(limit)
    other = dataclasses.replace(
        row,
        value=None if row.value is None else row.value * times,
        share=None if row.share is None else row.share * times,
    )
    return dataclasses.replace(catalog, valve_limits={**catalog.valve_limits, limit: other})


@pytest.mark.parametrize("limit", ["gap-playing", "choke-quiet", "delay"])
@pytest.mark.parametrize(("times", "side"), [(TIGHTER, "tighter"), (WIDER, "wider")])
def test_what_is_told_is_what_a_changed_table_gives(demo, limit, times, side):
    """The slots that are told to change are those that do when the limit's row is changed."""
    (told,) = (one for one in sensitivity(demo, INSTRUMENT, "middle") if one.limit == limit)
    now = [chosen_said(one) for one in choices(demo, INSTRUMENT, "middle")]
    then = [chosen_said(one) for one in choices(changed(demo, limit, times), INSTRUMENT, "middle")]
    moved = sum(before != after for before, after in zip(now, then, strict=True))
    runs: tuple[Run, ...] = getattr(told, side)
    assert sum(run.slots for run in runs) == moved
    assert {(run.before, run.after) for run in runs} == {
        pair for pair in zip(now, then, strict=True) if pair[0] != pair[1]
    }


def test_only_limits_that_reject_are_asked(demo):
    """What is only told cannot change a choice, and is not listed."""
    named = {one.limit for one in sensitivity(demo, INSTRUMENT, "high")}
    assert named == {name for name, row in demo.valve_limits.items() if row.counts == "rejects"}


def test_the_gap_moves_the_border_between_two_skins(demo):
    """A tighter gap carries the stiffer skin up, a wider one carries the limper skin down."""
    (gap,) = (one for one in sensitivity(demo, INSTRUMENT, "low") if one.limit == "gap-playing")
    assert gap.tighter
    assert gap.wider


def test_the_leaf_shows_the_limits_that_move_something(demo):
    """The table on the leaf has a line for each limit that changes a choice, no other."""
    table, *_ = place(demo, "limit-sensitivity", "middle")
    moving = [one for one in sensitivity(demo, INSTRUMENT, "middle") if one.tighter or one.wider]
    assert len(table.findall(".//tr")) == 1 + len(moving)
    assert "instead of" in plain(table)
    with pytest.raises(UnknownName, match="did you mean 'middle'"):
        place(demo, "limit-sensitivity", "midle")
