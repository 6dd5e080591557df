"""Small charts as SVG trees: text stays text, and dashes and hatching do the work of colour."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.frozen import Frozen
from formulas.units import printed
from site_builder.markup.elements import element, span

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.entries import Figure

Point = tuple[float, float]

WAX, ROSIN, METHOD = "beeswax-yellow", "gum-rosin", "drop-point"
INK, QUIET, TINT, PAPER = "#1a1a1a", "#555555", "#e9eeee", "#ffffff"
STEPS = 50
SHIFTS = ((20, "liquidus-shift-20"), (50, "liquidus-shift-50"))


class Plot(Frozen):
    """A frame with axes: takes values, draws in the units of its view box."""

    x_range: Point
    y_range: Point
    left: float = 34
    top: float = 30
    width: float = 292
    height: float = 216

    def at(self, x: float, y: float) -> Point:
        """Give the place of a value."""
        (x_low, x_high), (y_low, y_high) = self.x_range, self.y_range
        across = (x - x_low) / (x_high - x_low)
        up = (y - y_low) / (y_high - y_low)
        return self.left + across * self.width, self.top + (1 - up) * self.height

    def line(
        self, points: Iterable[Point], stroke: str = INK, width: float = 1, dash: str = ""
    ) -> Element:
        """Draw a line through values."""
        return _line([self.at(*point) for point in points], stroke, width, dash)

    def band(self, lows: Sequence[Point], highs: Sequence[Point]) -> Element:
        """Draw a region between two lines: tinted, hatched upright, dashed at its edges."""
        outline = [self.at(*point) for point in [*lows, *reversed(highs)]]
        hatch = [self.line([low, high], QUIET, 0.4) for low, high in zip(lows, highs, strict=True)]
        edges = [self.line(edge, INK, 1, "5 2") for edge in (lows, highs)]
        region = element("polygon", points=_points(outline), fill=TINT)
        return element("g", region, *hatch, *edges)

    def bar(self, x: float, low: float, high: float, width: float = 3) -> Element:
        """Draw a range as an upright bar with two feet."""
        (across, foot), (_, head) = self.at(x, low), self.at(x, high)
        feet = [_line([(across - 4, y), (across + 4, y)], INK, 1.5) for y in (foot, head)]
        return element("g", _line([(across, foot), (across, head)], INK, width), *feet)

    def arrow(self, start: Point, end: Point) -> Element:
        """Draw an arrow between two values."""
        (x1, y1), (x2, y2) = self.at(*start), self.at(*end)
        length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
        along, across = ((x2 - x1) / length, (y2 - y1) / length)
        head = [
            (x2, y2),
            (x2 - 7 * along - 3 * across, y2 - 7 * across + 3 * along),
            (x2 - 7 * along + 3 * across, y2 - 7 * across - 3 * along),
        ]
        shaft = _line([(x1, y1), (x2 - 5 * along, y2 - 5 * across)], INK, 1.5)
        return element("g", shaft, element("polygon", points=_points(head), fill=INK))

    def words(self, place: Point, *lines: str, anchor: str = "start", size: float = 11) -> Element:
        """Write lines of text with their first line at a value, legible over hatching."""
        x, y = self.at(*place)
        return element(
            "g",
            *(
                _text((x, y + row * (size + 2)), line, anchor, size)
                for row, line in enumerate(lines)
            ),
        )

    def axes(self, x_step: float, y_step: float, x_title: str, y_title: str) -> Element:
        """Draw both axes with marks at whole steps, their numbers and their titles."""
        (x_low, x_high), (y_low, y_high) = self.x_range, self.y_range
        drawn = [self.line([(x_low, y_high), (x_low, y_low), (x_high, y_low)])]
        for value in _steps(x_low, x_high, x_step):
            x, y = self.at(value, y_low)
            drawn += [_line([(x, y), (x, y + 4)]), _text((x, y + 15), printed(value, 0), "middle")]
        for value in _steps(y_low, y_high, y_step):
            x, y = self.at(x_low, value)
            drawn += [_line([(x, y), (x - 4, y)]), _text((x - 7, y + 4), printed(value, 0), "end")]
        middle, foot = self.at((x_low + x_high) / 2, y_low)
        titles = [_text((middle, foot + 31), x_title, "middle"), _text((2, 12), y_title)]
        return element("g", *drawn, *titles)


def drawing(title: str, description: str, *marks: Element, size: str = "0 0 340 282") -> Element:
    """Gather marks to a chart that names itself; only its view box says how large it is."""
    return element(
        "svg",
        element("title", title),
        element("desc", description),
        *marks,
        viewBox=size,
        **{"font-family": "sans-serif", "font-size": "11"},
    )


def softening(catalog: Catalog) -> Element:
    """Draw what the tables know of beeswax with gum rosin: the band, its ends, and two claims.

    No test of the shop enters, so that there is no line through the middle.
    """
    from formulas.softening import estimate as estimates

    catalog = dataclasses.replace(catalog, softening_tests=[])
    shares = [100 * step / STEPS for step in range(STEPS + 1)]
    held = estimates.model(catalog, METHOD)
    bands = [
        estimates.cut(catalog, held, {WAX: 1 - share / 100, ROSIN: share / 100}).band(METHOD)
        for share in shares
    ]
    lows = [(share, band.low) for share, band in zip(shares, bands, strict=True)]
    highs = [(share, band.high) for share, band in zip(shares, bands, strict=True)]
    floor = 10 * int((min(low for _, low in lows) - 8) // 10)
    ceiling = 10 * -int(-(max(high for _, high in highs) + 8) // 10)
    plot = Plot((0, 100), (floor, ceiling))
    method = catalog.methods[METHOD].name.lower()
    return drawing(
        f"Softening of beeswax with gum rosin by {method}, from the tables alone",
        _described(catalog, lows, highs),
        plot.band(lows, highs),
        *_ends(plot, catalog),
        *_theory(plot, catalog),
        *_trade(plot, catalog),
        plot.words(
            (62, _middle(lows, highs) + 12),
            "95 % band",
            "no middle line:",
            "no test stands",
            "behind one",
        ),
        plot.axes(20, 10, "gum rosin, % of the blend by mass", f"{method}, °C"),
    )


def _middle(lows: Sequence[Point], highs: Sequence[Point]) -> float:
    """Give the height at which words stand in the middle of the band."""
    half = len(lows) // 2
    return (lows[half][1] + highs[half][1]) / 2


def _ends(plot: Plot, catalog: Catalog) -> list[Element]:
    """Draw the two pure materials as the tables have them."""
    wax = catalog.known(WAX, "softening-point", METHOD)
    rosin = catalog.known(ROSIN, "softening-point", METHOD)
    kind = " (bridge)" if rosin.basis == "derived" else ""
    return [
        plot.bar(0, wax.low, wax.high, 5),
        plot.bar(100, rosin.low, rosin.high, 5),
        plot.words((2.5, wax.high + 13), "beeswax", span(wax.low, wax.high, wax.unit)),
        plot.words(
            (100, rosin.high + 9),
            f"rosin{kind}",
            span(rosin.low, rosin.high, rosin.unit),
            anchor="end",
        ),
    ]


def _theory(plot: Plot, catalog: Catalog) -> list[Element]:
    """Draw by how much the last crystals of the wax should melt earlier, as ranges."""
    wax = catalog.known(WAX, "softening-point", METHOD)
    shifts = [(share, catalog.figures[name]) for share, name in SHIFTS]
    lows = [(0.0, wax.low), *((share, wax.low + shift.low) for share, shift in shifts)]
    highs = [(0.0, wax.high), *((share, wax.high + shift.high) for share, shift in shifts)]
    bars = [
        plot.bar(share, low, high, 1.5)
        for (share, low), (_, high) in zip(lows[1:], highs[1:], strict=True)
    ]
    first = shifts[0][1]
    foot = plot.y_range[0] + 9
    return [
        plot.line(lows, INK, 1.2, "1.5 2.5"),
        plot.line(highs, INK, 1.2, "1.5 2.5"),
        *bars,
        plot.arrow((20, foot + 4), (20, lows[1][1] - 0.8)),
        plot.words(
            (3, foot),
            "Theory: the wax crystals melt earlier,",
            f"by {_fall(first)} at {shifts[0][0]} % rosin (dotted).",
        ),
    ]


def _trade(plot: Plot, catalog: Catalog) -> list[Element]:
    """Draw the trade's claim as a direction, for it names no figure."""
    wax = catalog.known(WAX, "softening-point", METHOD)
    ceiling = plot.y_range[1]
    return [
        plot.arrow((27, wax.high), (27, ceiling - 10)),
        plot.words((3, ceiling - 4), "The trade: rosin raises it", "(no figures given)."),
    ]


def _described(catalog: Catalog, lows: Sequence[Point], highs: Sequence[Point]) -> str:
    def said(share: int) -> str:
        place = share * STEPS // 100
        low, high = (printed(edge[place][1], 0) for edge in (lows, highs))
        return f"{low} to {high} °C at {share} % rosin"

    first = catalog.figures[SHIFTS[0][1]]
    return (
        "Chart. Across: share of gum rosin in beeswax, 0 to 100 % by mass. "
        f"Up: temperature by {catalog.methods[METHOD].name.lower()}. "
        f"A hatched band holds 95 %: {said(0)}, {said(20)}, {said(50)}, {said(100)}. "
        "No line runs through its middle, for no test stands behind one. "
        "Two statements stand against each other, and both lie inside the band: "
        "the trade says that rosin raises it, and theory says that the crystals of the wax melt "
        f"earlier, by {_fall(first)} at {SHIFTS[0][0]} % rosin."
    )


def _fall(shift: Figure) -> str:
    """Say how far a shift goes down."""
    return f"{printed(-shift.high, 1)} to {printed(-shift.low, 1)} °C"


def _steps(low: float, high: float, step: float) -> list[float]:
    return [low + step * count for count in range(int((high - low) / step) + 1)]


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{printed(x, 1)},{printed(y, 1)}" for x, y in points)


def _line(points: Iterable[Point], stroke: str = INK, width: float = 1, dash: str = "") -> Element:
    return element(
        "polyline",
        points=_points(points),
        fill="none",
        stroke=stroke,
        **{"stroke-width": f"{width:g}", "stroke-dasharray": dash},
    )


def _text(place: Point, words: str, anchor: str = "start", size: float = 11) -> Element:
    """Write text with a rim of paper round it."""
    rim = {
        "stroke": PAPER,
        "stroke-width": "3",
        "stroke-linejoin": "round",
        "paint-order": "stroke",
    }
    x, y = place
    return element(
        "text",
        words,
        x=printed(x, 1),
        y=printed(y, 1),
        fill=INK,
        **rim,
        **{"text-anchor": anchor, "font-size": f"{size:g}"},
    )
