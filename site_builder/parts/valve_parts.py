"""What the valve leaves place: the limits with their basis, postures, what the trade does."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.frozen import Frozen
from formulas.units import spoken_unit
from site_builder.markup.elements import basis, noted_table, number, value
from site_builder.parts.bench_parts import known_id

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.valve_entries import ValveLimit


class _Alone(Frozen):
    """A limit as a number that stands in running text."""

    low: float | None
    high: float | None
    unit: str
    basis: str


REFERS = {
    "valve-length": "of the free length",
    "period": "periods of the note",
    "softest-pressure": "of the softest pressure",
    "free-space": "of the room over it",
    "good-example": "times that of a good example",
}
COUNTS = {"rejects": "rejects", "notes": "is told", "rule": "rule"}
COUNTED = ("period", "good-example")
"""What a share counts in whole: periods and examples, no percentages."""


def limit_words(limit: ValveLimit) -> str:
    """Give a limit in words: its value, its share, or the larger of both."""
    said = []
    if limit.value is not None:
        said.append(f"{number(limit.value)} {spoken_unit(limit.unit, limit.value)}".rstrip())
    if limit.share is not None:
        share = limit.share if limit.share_of in COUNTED else float(f"{100 * limit.share:.6g}")
        sign = "" if limit.share_of in COUNTED else " %"
        said.append(f"{number(share)}{sign} {REFERS[limit.share_of]}")
    at = "" if limit.at_pressure is None else f" at {number(limit.at_pressure)} Pa"
    return " or ".join(said) + at + (", whichever is more" if len(said) > 1 else "")


def limits(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate limits of valves by their ids; "all" for every one."""
    names = list(catalog.valve_limits) if argument == "all" else argument.split() or [""]
    known = catalog.valve_limits
    found = [known[known_id(one, known, "an id of valve_limits.csv")] for one in names]
    rows = [
        [
            one.what,
            limit_words(one),
            COUNTS[one.counts],
            basis(one.basis, one.source, one.instrument or one.where),
            one.note,
        ]
        for one in found
    ]
    return [noted_table(["Limit", "Value", "It", "Basis", "Note"], rows)]


def postures(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate how much of gravity pulls a valve off its plate, by posture and face."""
    rows = [
        [
            one.name,
            number(one.inside),
            number(one.outside),
            basis(one.basis, one.source, one.where),
            one.note,
        ]
        for one in catalog.postures.values()
    ]
    return [noted_table(["Posture", "Inside valve", "Outside valve", "Basis", "Note"], rows)]


def inline_limit(catalog: Catalog, name: str) -> Element:
    """Give a limit for running text, with its basis."""
    limit = catalog.valve_limits[known_id(name, catalog.valve_limits, "an id of valve_limits.csv")]
    return value(
        _Alone(limit.value, limit.value, limit.unit, limit.basis), limit.source, limit_words(limit)
    )
