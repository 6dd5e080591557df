"""What a shop's own tests teach: the prior of a softening model updated by evidence.

Readings enter by one least-squares solution, exact in any order. Bounds and comparisons enter
one after another by date, each matched by a normal: exact for one, approximate for more.
"""

from __future__ import annotations

import dataclasses
import itertools
import math
from collections.abc import Iterable, Sequence

import numpy as np

from formulas.frozen import Frozen
from formulas.softening.evidence import Evidence, Spreads, duplicates, pooled_spread
from formulas.softening.fit import Array, update, whitened
from formulas.softening.one_sided import bounded

ENOUGH_PAIRS = 4
ENOUGH_LOTS = 4
LOT_ROUNDS = 12
LOOKED_AT = 1000
"""Readings, the newest, among which outliers are looked for: the work grows with the cube."""
STRANGE = 3.0  # spreads from where all other tests put a reading
STRANGE_CHANCE = 0.0027  # the chance of a normal value beyond three spreads


class Prior(Frozen):
    """Middles and covariance of a model's coefficients before any test.

    `offset` is the middle and spread of how far a bridged method reads above this one.
    """

    mean: Array
    covariance: Array
    offset: tuple[float, float] = (0.0, 0.0)


class Flag(Frozen):
    """A test that the others contradict, and by how much."""

    test: str
    said: str


class Learned(Frozen):
    """What is held after the tests.

    `columns` names the layers of error that stand behind the coefficients in `mean` and
    `covariance`: ("rig", key), ("session", key), ("lot", key), ("offset", "").
    """

    mean: Array
    covariance: Array
    columns: tuple[tuple[str, str], ...]
    terms: int
    spreads: Spreads
    counted: int
    flags: tuple[Flag, ...] = ()
    own_spread: bool = False
    own_lots: bool = False

    def place(self, kind: str, key: str) -> int | None:
        """Give where a layer of error stands, or None where no test has it."""
        if (kind, key) not in self.columns:
            return None
        return self.terms + self.columns.index((kind, key))


def learn(prior: Prior, evidence: Sequence[Evidence], spreads: Spreads) -> Learned:
    """Update a prior by tests.

    With four pairs of repeated readings their own spread takes the place of the tables'; with
    four lots so does the lots'. The newest session stays a layer of its own, so that what the
    reference wax would tell of it can be asked.
    """
    ordered = sorted(evidence, key=lambda one: one.order)
    pairs = duplicates(ordered)
    if own_spread := len(pairs) >= ENOUGH_PAIRS:
        floor = spreads.reading / 10  # no rig repeats itself without any error
        spreads = dataclasses.replace(spreads, reading=max(pooled_spread(pairs), floor))
    lots = {key for one in ordered if one.is_reading for key in one.lots}
    if own_lots := len(lots) >= ENOUGH_LOTS:
        spreads = dataclasses.replace(spreads, lot=_lot_spread(prior, ordered, spreads))
    found = _Belief(prior, ordered, spreads)
    flags = [*found.strange_readings(), *found.apply_bounds()]
    return Learned(
        found.mean,
        found.covariance,
        tuple(found.columns),
        len(prior.mean),
        spreads,
        len(ordered),
        tuple(flags),
        own_spread,
        own_lots,
    )


def _lot_spread(prior: Prior, ordered: Sequence[Evidence], spreads: Spreads) -> float:
    """Estimate the spread between lots: what the fit leaves of each, again and again."""
    for _ in range(LOT_ROUNDS):
        found = _Belief(prior, ordered, spreads)
        places = [i for i, (kind, _) in enumerate(found.columns, found.terms) if kind == "lot"]
        left = [found.mean[i] ** 2 + found.covariance[i, i] for i in places]
        spreads = dataclasses.replace(spreads, lot=max(math.sqrt(sum(left) / len(left)), 0.1))
    return spreads.lot


class _Belief:
    """The state while tests are put in: coefficients, then the layers of error."""

    def __init__(self, prior: Prior, ordered: Sequence[Evidence], spreads: Spreads) -> None:
        self.spreads, self.ordered = spreads, ordered
        self.terms = len(prior.mean)
        self.readings = [one for one in ordered if one.is_reading]
        self.bounds = [one for one in ordered if not one.is_reading]
        self.columns = self._columns()
        self.place = {column: self.terms + i for i, column in enumerate(self.columns)}
        self.start, self.start_covariance = self._start(prior)
        self.rows = np.array([self.row(one) for one in self.readings]).reshape(-1, len(self.start))
        self.mean, self.covariance = self._fitted()

    def _columns(self) -> list[tuple[str, str]]:
        """Name the layers; a session has one only where readings and bounds meet in it, or
        where it is the newest.
        """
        rigs = {("rig", one.rig_key) for one in self.ordered if not one.comparison}
        lots = {("lot", key) for one in self.ordered for key in one.lots}
        mixed = {one.session for one in self.readings} & {
            one.session for one in self.bounds if not one.comparison
        }
        newest = {one.session for one in self.ordered[-1:] if not one.comparison}
        sessions = {("session", key) for key in mixed | newest}
        offset = {("offset", "") for one in self.readings if one.bridged}
        return sorted(rigs) + sorted(sessions) + sorted(lots) + sorted(offset)

    def _start(self, prior: Prior) -> tuple[Array, Array]:
        size = self.terms + len(self.columns)
        mean, covariance = np.zeros(size), np.zeros((size, size))
        mean[: self.terms] = prior.mean
        covariance[: self.terms, : self.terms] = prior.covariance
        for (kind, key), place in self.place.items():
            if kind == "offset":
                mean[place] = prior.offset[0]
            covariance[place, place] = self._layer_spread(kind, key, prior) ** 2
        return mean, covariance

    def _layer_spread(self, kind: str, key: str, prior: Prior) -> float:
        if kind == "rig":
            return self.spreads.of_rig(checked=key.endswith(" checked"))
        spread = {"session": self.spreads.session, "lot": self.spreads.lot}
        return spread.get(kind, prior.offset[1])

    def row(self, one: Evidence) -> Array:
        """Give a test's row over coefficients and layers."""
        row = np.zeros(self.terms + len(self.columns))
        row[: self.terms] = one.terms
        if not one.comparison:
            row[self.place["rig", one.rig_key]] = 1
            if ("session", one.session) in self.place:
                row[self.place["session", one.session]] = 1
        if one.bridged:
            row[self.place["offset", ""]] = 1
        for key, share in one.lots.items():
            row[self.place["lot", key]] = share
        return row

    def _noise(self) -> list[tuple[list[int], Array]]:
        """Give the readings that share a session, with the covariance of their errors."""
        grouped: dict[str, list[int]] = {}
        for place, one in enumerate(self.readings):
            grouped.setdefault(one.session, []).append(place)
        blocks = []
        for session, places in grouped.items():
            shared = 0.0 if ("session", session) in self.place else self.spreads.session**2
            own = np.eye(len(places)) * self.spreads.reading**2
            blocks.append((places, own + shared))
        return blocks

    def _fitted(self) -> tuple[Array, Array]:
        if not self.readings:
            return self.start, self.start_covariance
        values = np.array([one.low for one in self.readings])
        white = [whitened(self.rows[p], values[p], noise) for p, noise in self._noise()]
        rows = np.vstack([piece for piece, _ in white])
        seen = np.concatenate([piece for _, piece in white])
        precision = np.asarray(np.linalg.inv(self.start_covariance), float)
        found = update(rows, seen, np.ones(len(seen)), self.start, precision)
        return found.coefficients, found.covariance

    def strange_readings(self) -> Iterable[Flag]:
        """Name each reading that lies far from where all the other readings put it."""
        newest = range(max(0, len(self.readings) - LOOKED_AT), len(self.readings))
        if len(newest) < 2:
            return
        rows = self.rows[newest]
        joint = rows @ self.start_covariance @ rows.T
        for places, noise in self._noise():
            kept = [place - newest.start for place in places if place >= newest.start]
            joint[np.ix_(kept, kept)] += noise[-len(kept) :, -len(kept) :] if kept else 0
        inverse = np.linalg.inv(joint)
        values = np.array([self.readings[place].low for place in newest])
        off = inverse @ (values - rows @ self.start)
        for place, one in enumerate(self.readings[newest.start :]):
            spread = 1 / math.sqrt(inverse[place, place])
            error = off[place] * spread**2
            if abs(error) > STRANGE * spread:
                yield Flag(one.test, f"{error:+.1f} °C from where the other tests put it")

    def apply_bounds(self) -> Iterable[Flag]:
        """Put the bounds in by date, one session after another, and name the contradicted."""
        for session, tests in itertools.groupby(self.bounds, key=lambda one: one.session):
            yield from self._apply_session(session, list(tests))

    def _apply_session(self, session: str, tests: Sequence[Evidence]) -> Iterable[Flag]:
        own = ("session", session) not in self.place
        if own:
            self._widen(self.spreads.session**2)
        for one in tests:
            row = self.row(one)
            if own:
                row = np.append(row, 0.0 if one.comparison else 1.0)
            variance = self.spreads.reading**2 * (2 if one.comparison else 1)
            self.mean, self.covariance, chance = bounded(
                self.mean, self.covariance, row, one.low, one.high, variance
            )
            if chance < STRANGE_CHANCE:
                yield Flag(one.test, "the tests before it left it next to no chance")
        if own:
            self.mean, self.covariance = self.mean[:-1], self.covariance[:-1, :-1]

    def _widen(self, variance: float) -> None:
        size = len(self.mean)
        wider = np.zeros((size + 1, size + 1))
        wider[:size, :size] = self.covariance
        wider[size, size] = variance
        self.mean, self.covariance = np.append(self.mean, 0.0), wider
