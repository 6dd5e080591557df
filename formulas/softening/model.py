"""The model of one test method: what the tables hold, narrowed by the shop's own tests."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from formulas.catalog import Catalog
from formulas.fault import UnknownName
from formulas.frozen import Frozen
from formulas.softening import learning, shop_tests
from formulas.softening import prior as softening_prior
from formulas.softening.evidence import Evidence, Spreads
from formulas.softening.fit import Array
from formulas.softening.learning import Flag, Learned
from formulas.softening.prior import FIRST_WAX, Start
from formulas.softening.shop_tests import UNNAMED, Aside


class Reference(Frozen):
    """What the reference wax would tell, tested in the session that came last.

    `shared` is the covariance of its reading with each term, the rig last; `own` the variance
    of the reading.
    """

    material: str
    session: str
    shared: list[float]
    own: float


@dataclass(frozen=True)
class Model:
    """What is held of the coefficients for one test method: their middles and covariance.

    `bodies` are the waxes and resins whose end is known for the method. `covariance` belongs
    to the order of `blend_terms`, with the error of the newest rig as its last place. `noise`
    is the variance of a reading in a new session, `lot` that of one lot of raw material.
    """

    method: str
    bodies: tuple[str, ...]
    ends: list[float]
    bends: list[list[float]]
    skews: list[list[float]]
    slope: float
    covariance: list[list[float]]
    noise: float
    lot: float
    evidence: tuple[Evidence, ...] = ()
    aside: tuple[Aside, ...] = ()
    flags: tuple[Flag, ...] = ()
    reference: Reference | None = None
    own_spread: bool = False
    own_lots: bool = False
    bridged: bool = False
    lots: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    """By how much each named lot shifts its material, in degC: middle and spread."""

    @property
    def tests(self) -> int:
        """The number of the shop's tests that count."""
        return len(self.evidence)


def model(catalog: Catalog, method: str, *, bridge: bool = False) -> Model:
    """Give the model of one test method: the tables, narrowed by the shop's own tests.

    With `bridge`, drop points count for step creep through their offset, which is wide.
    Raises UnknownName for a method that is not estimated.
    """
    key = ("softening model", method, bridge)
    if key not in catalog.memo:
        catalog.memo[key] = _model(catalog, method, bridge)
    found: Model = catalog.memo[key]
    return found


def _model(catalog: Catalog, method: str, bridge: bool) -> Model:
    estimated = [name for name, entry in catalog.methods.items() if entry.estimated]
    if method not in estimated:
        raise UnknownName("test method", method, estimated)
    start = softening_prior.start(catalog, method)
    spreads = shop_tests.spreads(catalog)
    tests, aside = shop_tests.evidence(catalog, method, start.bodies, bridge=bridge)
    learned = learning.learn(_prior(catalog, start), tests, spreads)
    return _told(method, start, learned, tests, aside, bridge)


def _prior(catalog: Catalog, start: Start) -> learning.Prior:
    low, high = catalog.span("drop-above-creep", "delta_degC")
    return learning.Prior(start.mean, start.covariance, ((low + high) / 2, (high - low) / 2))


def _told(
    method: str,
    start: Start,
    learned: Learned,
    tests: list[Evidence],
    aside: list[Aside],
    bridge: bool,
) -> Model:
    """Word what was learned as a model: coefficients, then the newest rig's error."""
    terms, spreads = learned.terms, learned.spreads
    count = len(start.bodies)
    mean = learned.mean[:terms]
    return Model(
        method,
        start.bodies,
        [float(end) for end in mean[:count]],
        start.matrix(mean, 0),
        start.matrix(mean, 1),
        float(mean[-1]),
        _with_rig(learned, tests).tolist(),
        spreads.new_session,
        spreads.lot**2,
        tuple(tests),
        tuple(aside),
        learned.flags,
        _reference(start, learned, tests),
        learned.own_spread,
        learned.own_lots,
        bridge,
        _lots(learned),
    )


def _lots(learned: Learned) -> dict[str, tuple[float, float]]:
    """Give what each named lot does: an unnamed one is all lots that nobody wrote down."""
    found = {}
    for kind, key in learned.columns:
        if kind == "lot" and not key.endswith(f" {UNNAMED}"):
            place = learned.terms + learned.columns.index((kind, key))
            spread = float(np.sqrt(learned.covariance[place, place]))
            found[key.split()[-1]] = (float(learned.mean[place]), spread)
    return found


def _newest(tests: list[Evidence]) -> Evidence | None:
    """Give the test that came last, a comparison aside: it has neither rig nor session."""
    alone = [one for one in tests if not one.comparison]
    return max(alone, key=lambda one: one.order) if alone else None


def _newest_rig(learned: Learned, tests: list[Evidence]) -> int | None:
    newest = _newest(tests)
    return learned.place("rig", newest.rig_key) if newest else None


def _with_rig(learned: Learned, tests: list[Evidence]) -> Array:
    """Give the covariance of the coefficients with the newest rig's error behind them."""
    rig = _newest_rig(learned, tests)
    kept = list(range(learned.terms))
    if rig is not None:
        return learned.covariance[np.ix_([*kept, rig], [*kept, rig])]
    wider = np.zeros((learned.terms + 1, learned.terms + 1))
    wider[:-1, :-1] = learned.covariance[: learned.terms, : learned.terms]
    wider[-1, -1] = learned.spreads.of_rig(checked=False) ** 2
    return wider


def _reference(start: Start, learned: Learned, tests: list[Evidence]) -> Reference | None:
    """Give the reference wax for the newest session, where it was not tested in it yet."""
    count = len(start.bodies)
    newest, rig = _newest(tests), _newest_rig(learned, tests)
    if newest is None or rig is None or FIRST_WAX not in start.bodies:
        return None
    session = learned.place("session", newest.session)
    beside = [one for one in tests if one.session == newest.session]
    if session is None or any(max(one.terms[:count]) == 1.0 for one in beside):
        return None
    row = np.zeros(len(learned.mean))
    row[start.bodies.index(FIRST_WAX)] = 1
    row[[rig, session]] = 1
    pull = learned.covariance @ row
    shared = [*pull[: learned.terms], pull[rig]]
    spreads: Spreads = learned.spreads
    own = float(row @ pull) + spreads.reading**2 + spreads.lot**2
    return Reference(FIRST_WAX, newest.session, [float(value) for value in shared], own)
