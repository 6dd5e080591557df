"""What the quick needs list takes from the tables, in the order of its procedures."""

from __future__ import annotations

import bisect
import re
from typing import TYPE_CHECKING

from formulas.frozen import Frozen
from formulas.jobs.order import order_of_work
from formulas.jobs.own_figures import grams_per_plate, minutes_by_step
from formulas.jobs.quick_steps import PERS
from formulas.units import convert
from formulas.valves.plate_spreads import lines_and_spreads
from formulas.valves.rank import generic_land
from formulas.valves.reed_sizes import MEASURES, figure_in
from formulas.valves.settings import settings

if TYPE_CHECKING:
    from formulas.catalog import Catalog

NO_VALVE = "none"
"""The class of valve that is none."""


class QuickTables(Frozen):
    """What the quick needs list takes from the tables, in the order of its procedures."""

    pitch: float
    lines: list[list[list[float]]]
    plate_rule: list[float]
    names: list[str]
    classes: list[str]
    edges: list[list[float]]
    bare: int
    band: float
    walls: list[float]
    rules: list[float]
    glue: list[float]
    solvent: list[float]
    rates: list[float]
    rule_each: list[float]
    losses: list[list[float]]
    own_each: list[float]


def quick_tables(catalog: Catalog) -> QuickTables:
    """Give them, once for each catalog."""
    if "quick tables" not in catalog.memo:
        catalog.memo["quick tables"] = _tables(catalog)
    found: QuickTables = catalog.memo["quick tables"]
    return found


def _tables(catalog: Catalog) -> QuickTables:
    def span(name: str, unit: str = "dimensionless") -> list[float]:
        return list(catalog.span(name, unit))

    classes = list(catalog.valve_classes.values())
    thick = ("high", "middle", "bass")
    return QuickTables(
        pitch=catalog.shop.pitch_of_a,
        lines=[[*lines_and_spreads(catalog)[measure]] for measure in MEASURES],
        plate_rule=[
            figure_in(catalog, "plate-length-share", "dimensionless"),
            figure_in(catalog, "plate-length-more", "m"),
            *span("plate-beside-slots", "m"),
            figure_in(catalog, "high-plates-from", "Hz"),
            figure_in(catalog, "bass-plates-below", "Hz"),
            *(end for name in thick for end in span(f"plate-thickness-{name}", "m")),
        ],
        names=[one.id for one in classes],
        classes=[shortened(one.words) for one in classes],
        edges=[[_metres(one.tongue_low), _metres(one.tongue_high)] for one in classes],
        bare=[one.id for one in classes].index(NO_VALVE),
        band=figure_in(catalog, "class-edge-band", "semitone"),
        walls=[figure_in(catalog, "slot-wall", "m"), generic_land(catalog)],
        rules=settings(catalog).rules,
        glue=[
            *span("glue-film", "m"),
            *span("glue-density", "kg/m**3"),
            *span("glue-taken-times"),
        ],
        solvent=span("solvent-per-plate", "m**3"),
        rates=[convert(rate, "1/h", "1/s") for rate in span("plates-an-hour")],
        rule_each=span("wax-per-plate", "kg"),
        losses=[span("straining-loss"), span("pot-loss")],
        own_each=_own_each(catalog),
    )


def _own_each(catalog: Catalog) -> list[float]:
    """Give the ends of what this shop's jobs took for one plate; none where it knows none."""
    own = grams_per_plate(catalog)
    if own is None or own.low is None or own.high is None:
        return []
    return [convert(own.low, "g", "kg"), convert(own.high, "g", "kg")]


def shortened(words: str) -> str:
    """Give the words of a class up to the first mark that goes on to explain them.

    >>> shortened("Thick leather, with a helper spring where it hangs")
    'thick leather'
    """
    short = re.split("[,:;]", words)[0]
    return short[:1].lower() + short[1:]


def _metres(millimetres: float | None) -> float:
    return 0.0 if millimetres is None else convert(millimetres, "mm", "m")


SEAMS = (
    ("Look, record, agree", "map-plates"),
    ("Lift and clean", "lift-plate"),
    ("Valves", "choose-valves"),
    ("Seat", "prepare-block"),
    ("Check, close, hand over", "check-seat"),
)
"""Groups of steps, each with the step it begins with. What is counted by the valve is "Valves"."""
VALVES = 2
KEPT = "valves"


def step_rows(catalog: Catalog, group: str, kept: bool, valved: bool) -> list[list[float]]:
    """Give the steps of a seating group, as `hours_by_group` asks for them.

    Minutes are those of the table, or this shop's own where they take their place. Without
    valves the work on them is left out.
    """
    own = minutes_by_step(catalog)
    starts = [catalog.work_steps[name].place for _, name in SEAMS]
    rows = []
    for step in order_of_work(catalog, [group], kept=[KEPT] if kept else []):
        low, high = step.minutes_low, step.minutes_high
        measured = own.get(step.id)
        if measured and measured.replaces(low, high):
            low, high = measured.low or 0.0, measured.high or 0.0
        place = VALVES if step.per == "valve" else bisect.bisect(starts, step.place) - 1
        if place == VALVES and not valved:
            continue
        faced = 1.0 if step.per == "valve" and step.face else 0.0
        rows.append([float(place), float(PERS.index(step.per)), low, high, faced])
    return rows
