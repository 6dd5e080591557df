"""Every working, by the name of its command."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from site_builder.workings import (
    adjust_form,
    air_form,
    cut_form,
    melt_form,
    mix_form,
    needs_form,
    one_valve_form,
    seat_form,
    soften_form,
    stiffness_form,
    valves_form,
)
from site_builder.workings import page_data as shared
from site_builder.workings.page_data import bench_script
from site_builder.workings.paper_form import paper_form
from site_builder.workings.screen_form import screen_form
from site_builder.workings.worksheet import Field, Worksheet

if TYPE_CHECKING:
    from formulas.catalog import Catalog

__all__ = [
    "WORKSHEETS",
    "Field",
    "Worksheet",
    "bench_script",
    "page_data",
    "paper_form",
    "screen_form",
]

WORKSHEETS: dict[str, Worksheet] = {
    one.id: one
    for one in (
        mix_form.WORKSHEET,
        melt_form.WORKSHEET,
        soften_form.WORKSHEET,
        adjust_form.WORKSHEET,
        stiffness_form.WORKSHEET,
        one_valve_form.WORKSHEET,
        valves_form.WORKSHEET,
        cut_form.WORKSHEET,
        seat_form.WORKSHEET,
        needs_form.WORKSHEET,
        air_form.WORKSHEET,
    )
}


def page_data(catalog: Catalog) -> dict[str, Any]:
    """Give what `window.bench_data` holds: what all workings share, and each one's own."""
    own = {name: one.data(catalog) for name, one in WORKSHEETS.items()}
    return {**shared.page_data(catalog), **{name: data for name, data in own.items() if data}}
