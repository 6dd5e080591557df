"""What is held of a softening model's coefficients before any test of the shop.

For the melting methods: the ends from the tables of one test method, a bend and a one-sided
bend for each pair, all wide. For step creep no table holds an end: one wide statement at one
share of rosin, and next to nothing on how the ratio moves it.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from formulas.catalog import Catalog
from formulas.entries import Known, PairEffect
from formulas.frozen import Frozen
from formulas.softening.fit import Array
from formulas.softening.mixture import Z_95
from formulas.units import convert

RESINS = ("resin", "balsam")
CREEP = {"step-creep": "creep-stress-aluminium", "step-creep-zinc": "creep-stress-zinc"}
"""Step creep under plates of two materials: the same test, at the stress of that plate."""
FIRST_WAX, FIRST_RESIN, SAME_WAX = "beeswax-yellow", "gum-rosin", "beeswax-white"
LEAST_SPREAD = 0.1  # degC; no table knows an end better, whatever it prints


class Start(Frozen):
    """Middles and covariance before any test, in the order of `blend_terms` over the bodies."""

    bodies: tuple[str, ...]
    mean: Array
    covariance: Array

    def matrix(self, values: Array, kind: int) -> list[list[float]]:
        """Give the bends (kind 0) or one-sided bends (kind 1) as a matrix over the bodies."""
        count = len(self.bodies)
        found = [[0.0] * count for _ in range(count)]
        for place, (i, j) in enumerate(pairs(count)):
            found[i][j] = float(values[count + kind * (count * (count - 1) // 2) + place])
        return found


def pairs(count: int) -> list[tuple[int, int]]:
    """Give the pairs of `count` bodies in the order of the terms."""
    return [(i, j) for i in range(count) for j in range(i + 1, count)]


def start(catalog: Catalog, method: str) -> Start:
    """Give the prior of one test method."""
    return _creep(catalog) if method in CREEP else _melting(catalog, method)


def _melting(catalog: Catalog, method: str) -> Start:
    ends = _ends(catalog, method)
    bodies = tuple(ends)
    effects = [pair_effect(catalog, bodies[i], bodies[j]) for i, j in pairs(len(bodies))]
    skew = catalog.span("one-sided-bend-spread", "delta_degC")[1]
    slope, slope_spread = softener_slope(catalog)
    mean = [middle for middle, _ in ends.values()]
    mean += [effect.mean for effect in effects] + [0.0] * len(effects) + [slope]
    spreads = [max(spread, LEAST_SPREAD) for _, spread in ends.values()]
    spreads += [effect.half_width / Z_95 for effect in effects]
    spreads += [skew] * len(effects) + [slope_spread]
    return Start(bodies, np.array(mean), np.diag(np.square(spreads)))


def _ends(catalog: Catalog, method: str) -> dict[str, tuple[float, float]]:
    """Give middle and standard deviation in degC of each body whose end is known."""
    ends = {}
    for name in _bodies(catalog):
        found = catalog.known_or_unknown(name, "softening-point", method)
        if isinstance(found, Known):
            low, high = (convert(end, found.unit, "degC") for end in (found.low, found.high))
            ends[name] = ((low + high) / 2, (high - low) / (2 * Z_95))
    return ends


def _bodies(catalog: Catalog) -> list[str]:
    return [name for name, material in catalog.materials.items() if material.role == "body"]


def pair_effect(catalog: Catalog, first: str, second: str) -> PairEffect:
    """Give what is held of a pair's bend: its own row, or the one for every pair."""
    by_pair = {frozenset((effect.first, effect.second)): effect for effect in catalog.pair_effects}
    return by_pair.get(frozenset((first, second))) or by_pair[frozenset("*")]


def softener_slope(catalog: Catalog) -> tuple[float, float]:
    """Give middle and standard deviation of the softeners' slope, degC per unit of share."""
    low, high = catalog.span("softener-slope", "delta_degC")
    figure = catalog.figure("softener-slope")
    middle = (low + high) / 2
    if figure.typical is not None:
        middle = convert(figure.typical, figure.unit, "delta_degC")
    return middle, max(high - middle, middle - low) / Z_95


def _creep(catalog: Catalog) -> Start:
    """Give the creep prior: the level at one share of rosin, a slope not known, bends about it.

    Written as causes: a level common to all, a slope against the share of rosin, what each
    other material may do by itself, and the bends, arranged so that at the stated share only
    the level counts.
    """
    bodies = tuple(_bodies(catalog))
    low, high = catalog.span("creep-prior", "degC")
    share = catalog.span("creep-prior-share", "dimensionless")[1]
    causes = _causes(catalog, bodies, share, (high - low) / 4)
    slope, slope_spread = softener_slope(catalog)
    terms = len(bodies) + 2 * len(pairs(len(bodies)))
    covariance = np.zeros((terms + 1, terms + 1))
    covariance[:terms, :terms] = causes @ causes.T
    covariance[terms, terms] = slope_spread**2
    mean = np.zeros(terms + 1)
    mean[: len(bodies)] = (low + high) / 2
    mean[terms] = slope
    return Start(bodies, mean, covariance)


def _causes(catalog: Catalog, bodies: tuple[str, ...], share: float, level: float) -> Array:
    """Give a column a cause: how far one spread of it moves each term."""
    count = len(bodies)
    own = _own_spreads(catalog, bodies)
    columns = [level * _on_ends(count)]
    slope = own[FIRST_RESIN]
    waxes = [name != FIRST_RESIN for name in bodies]
    columns.append(slope * _on_ends(count, [-share if wax else 1 - share for wax in waxes]))
    for place, name in enumerate(bodies):
        if name not in {FIRST_WAX, FIRST_RESIN}:
            columns.append(own[name] * _on_ends(count, [float(place == i) for i in range(count)]))
    return np.array([*columns, *_bend_causes(catalog, bodies, share)]).T


def _on_ends(count: int, values: list[float] | None = None) -> Array:
    column = np.zeros(count + 2 * len(pairs(count)))
    column[:count] = 1.0 if values is None else values
    return column


def _own_spreads(catalog: Catalog, bodies: tuple[str, ...]) -> Mapping[str, float]:
    """Give what one body may do by itself: the slope for rosin, little for another beeswax."""
    slope = catalog.span("creep-slope-spread", "delta_degC")[1]
    other = catalog.span("creep-other-spread", "delta_degC")[1]
    alike = pair_effect(catalog, FIRST_WAX, SAME_WAX).half_width / Z_95
    return {
        name: slope if name == FIRST_RESIN else alike if name == SAME_WAX else other
        for name in bodies
    }


def _bend_causes(catalog: Catalog, bodies: tuple[str, ...], share: float) -> list[Array]:
    """Give the bends; that of beeswax with rosin is nought at the stated share."""
    count = len(bodies)
    all_pairs = pairs(count)
    skew = catalog.span("one-sided-bend-spread", "delta_degC")[1]
    columns = []
    for place, (i, j) in enumerate(all_pairs):
        stated = {bodies[i], bodies[j]} == {FIRST_WAX, FIRST_RESIN}
        product = share * (1 - share)
        bend = pair_effect(catalog, bodies[i], bodies[j]).half_width / Z_95
        for kind, spread, there in (
            (0, bend, product),
            (1, skew, product * (1 - 2 * share)),
        ):
            column = spread * _on_ends(count, [-there if stated else 0.0] * count)
            column[count + kind * len(all_pairs) + place] = spread
            columns.append(column)
    return columns
