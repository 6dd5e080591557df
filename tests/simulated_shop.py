"""A shop that is made up: a hidden true curve, rigs, sessions and lots with errors of their own."""

from __future__ import annotations

import numpy as np

from formulas.catalog import load
from formulas.softening.evidence import Evidence
from formulas.softening.learning import Prior
from formulas.softening.mixture import blend_terms
from formulas.softening.prior import start
from formulas.softening.shop_tests import spreads

TRADE = load(None)
SPREADS = spreads(TRADE)


def _prior() -> Prior:
    """Give the trade's own prior for drop point, cut down to beeswax with rosin."""
    whole = start(TRADE, "drop-point")
    count = len(whole.bodies)
    i, j = whole.bodies.index("beeswax-yellow"), whole.bodies.index("gum-rosin")
    pairs = [(a, b) for a in range(count) for b in range(a + 1, count)]
    bend = count + pairs.index((min(i, j), max(i, j)))
    places = [i, j, bend, bend + len(pairs)]
    return Prior(whole.mean[places], whole.covariance[np.ix_(places, places)])


PRIOR = _prior()


def share_terms(share: float) -> np.ndarray:
    """Give the terms of beeswax with a share of rosin."""
    return np.array(blend_terms([1 - share, share], 0.0)[:-1])


def reading(test: str, share: float, value: float, session: str = "s") -> Evidence:
    """Make one reading of an unchecked rig."""
    terms = tuple(share_terms(share))
    return Evidence(test, "2026-01-01", session, "r", False, terms, value, value)
