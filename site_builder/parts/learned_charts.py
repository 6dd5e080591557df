"""What the shop's tests taught, as a chart: the band before, the band now, and the tests."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.answer import Band
from formulas.softening import estimate as softening
from formulas.softening.estimate import Model
from formulas.softening.evidence import Evidence
from formulas.units import printed
from site_builder.markup.elements import element
from site_builder.parts.charts import INK, PAPER, STEPS, Plot, Point, drawing

if TYPE_CHECKING:
    from formulas.catalog import Catalog

WAX, ROSIN = "beeswax-yellow", "gum-rosin"
MARGIN = 6  # degC above and below what is drawn
OPEN = 7  # degC that an open bound is drawn long


def learned(catalog: Catalog, method: str) -> Element:
    """Draw one method's band over the share of rosin, before and after the shop's tests.

    Where the band is too wide to say anything none is drawn. Only tests of beeswax with rosin
    have a place on the chart.
    """
    before = _bands(dataclasses.replace(catalog, softening_tests=[]), method)
    after = _bands(catalog, method)
    held = softening.model(catalog, method)
    tests = [
        (100 * share, one) for one in held.evidence if (share := _share(held, one)) is not None
    ]
    plot = Plot((0, 100), _range([*before, *after], tests))
    name = catalog.methods[method].name.lower()
    return drawing(
        f"What {held.tests} tests of this shop say: beeswax with gum rosin by {name}",
        _described(catalog, held, before, after, tests),
        plot.band(*_edges(plot, after)) if after else element("g"),
        *(plot.line(edge, INK, 1, "1.5 3") for edge in _edges(plot, before) if edge),
        *([plot.line([(x, _middle(b)) for x, b in after], INK, 1.6)] if held.tests else []),
        *(_mark(plot, share, one) for share, one in tests),
        plot.words(
            (99, _above_foot(plot)), "hatched: now", "dotted: before any test", anchor="end"
        ),
        plot.words((1, _above_foot(plot)), *_marked([one for _, one in tests])),
        plot.axes(20, 10, "gum rosin, % of the blend by mass", f"{name}, °C"),
    )


def _bands(catalog: Catalog, method: str) -> list[tuple[float, Band]]:
    """Give the band at each share at which one is known."""
    found = []
    for step in range(STEPS + 1):
        share = step / STEPS
        band = softening.estimate(catalog, {WAX: 1 - share, ROSIN: share}, method)
        if isinstance(band, Band):
            found.append((100 * share, band))
    return found


def _share(held: Model, one: Evidence) -> float | None:
    """Give a test's share of rosin, or None where it is not of beeswax with rosin alone."""
    bodies = dict(zip(held.bodies, one.terms, strict=False))
    if one.comparison or not math.isclose(bodies.get(WAX, 0) + bodies.get(ROSIN, 0), 1.0):
        return None
    return bodies.get(ROSIN, 0.0)


def _range(bands: Sequence[tuple[float, Band]], tests: list[tuple[float, Evidence]]) -> Point:
    ends = [end for _, band in bands for end in (band.low, band.high)]
    ends += [end for _, one in tests for end in (one.low, one.high) if math.isfinite(end)]
    low, high = min(ends, default=30) - MARGIN, max(ends, default=80) + MARGIN
    return 10.0 * math.floor(low / 10), 10.0 * math.ceil(high / 10)


def _above_foot(plot: Plot) -> float:
    """Give the height of two lines of words above the lower axis."""
    low, high = plot.y_range
    return low + 0.12 * (high - low)


def _edges(plot: Plot, bands: Sequence[tuple[float, Band]]) -> tuple[list[Point], list[Point]]:
    """Give both edges of a band, cut off at the frame."""
    low, high = plot.y_range
    return (
        [(x, min(max(band.low, low), high)) for x, band in bands],
        [(x, min(max(band.high, low), high)) for x, band in bands],
    )


def _middle(band: Band) -> float:
    return (band.low + band.high) / 2


def _mark(plot: Plot, share: float, one: Evidence) -> Element:
    """Draw a reading as a point, bounds as a bar, an open bound as an arrow."""
    if one.is_reading:
        x, y = plot.at(share, one.low)
        return element(
            "circle", cx=printed(x, 1), cy=printed(y, 1), r="3.2", fill=PAPER, stroke=INK,
            **{"stroke-width": "1.6"},
        )  # fmt: skip
    if math.isinf(one.high):
        return plot.arrow((share, one.low), (share, one.low + OPEN))
    if math.isinf(one.low):
        return plot.arrow((share, one.high), (share, one.high - OPEN))
    return plot.bar(share, one.low, one.high, 2)


def _marked(tests: Sequence[Evidence]) -> list[str]:
    """Name the marks that stand on a chart, in two lines; a single name stands in the lower."""
    rings = [one for one in tests if one.is_reading]
    open_ended = [one for one in tests if math.isinf(one.low) or math.isinf(one.high)]
    names = ["bar"] if len(rings) + len(open_ended) < len(tests) else []
    names += ["arrow"] if open_ended else []
    said = ["ring: one reading"] if rings else []
    said += [f"{' and '.join(names)}: held to moved"] if names else []
    return ["", *said][-2:]


def _described(
    catalog: Catalog,
    held: Model,
    before: Sequence[tuple[float, Band]],
    after: Sequence[tuple[float, Band]],
    tests: Sequence[tuple[float, Evidence]],
) -> str:
    def at(bands: Sequence[tuple[float, Band]], share: int) -> str:
        for x, band in bands:
            if math.isclose(x, share):
                return f"{printed(band.low, 0)} to {printed(band.high, 0)} °C"
        return "not known"

    said = "; ".join(
        f"at {share} % rosin {at(before, share)} before, {at(after, share)} now"
        for share in (0, 20, 50)
    )
    points = ", ".join(f"{one.test} at {printed(share, 0)} %: {_seen(one)}" for share, one in tests)
    return (
        f"Chart. Across: share of gum rosin in beeswax. Up: {catalog.methods[held.method].name}."
        f" The 95 % band: {said}. Tests: {points or 'none of beeswax with rosin alone'}."
    )


def _seen(one: Evidence) -> str:
    if one.is_reading:
        return f"read {printed(one.low, 1)} °C"
    held = "" if math.isinf(one.low) else f"held at {printed(one.low, 0)} °C"
    moved = "" if math.isinf(one.high) else f"moved at {printed(one.high, 0)} °C"
    return " and ".join(filter(None, (held, moved)))
