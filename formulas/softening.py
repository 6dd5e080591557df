"""Estimate at what temperature a blend softens by a named test, with the band that is honest.

The estimate is a quadratic mixture polynomial over the shares by mass, a body of waxes and
resins with a slope for the softeners in it. What is held before any test is a normal prior:
the ends from the tables of one test method, a bend for each pair, both wide. Readings of
different test methods never meet in one estimate.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from formulas.answer import Band, Basis, Unknown
from formulas.catalog import Catalog
from formulas.entries import Known, PairEffect
from formulas.fault import NotKnown, UnknownName
from formulas.mixture import Z_95, estimate_of, method_for, share_of
from formulas.units import convert

RESINS = ("resin", "balsam")


@dataclass(frozen=True)
class Model:
    """What is held of the coefficients for one test method: their middles and covariance.

    `bodies` are the waxes and resins whose end is known for the method. `covariance` belongs
    to the order of `blend_terms`.
    """

    method: str
    bodies: tuple[str, ...]
    ends: list[float]
    bends: list[list[float]]
    slope: float
    covariance: list[list[float]]
    tests: int = 0


def model(catalog: Catalog, method: str) -> Model:
    """Give the prior for one test method from the tables.

    Raises UnknownName for a method that is not estimated.
    """
    estimated = [name for name, entry in catalog.methods.items() if entry.estimated]
    if method not in estimated:
        raise UnknownName("test method", method, estimated)
    ends = _ends(catalog, method)
    bodies = tuple(ends)
    pairs = {
        (i, j): _pair(catalog, bodies[i], bodies[j])
        for i in range(len(bodies))
        for j in range(i + 1, len(bodies))
    }
    bends = [[0.0] * len(bodies) for _ in bodies]
    for (i, j), effect in pairs.items():
        bends[i][j] = effect.mean
    slope, slope_sd = _slope(catalog)
    spreads = [spread for _, spread in ends.values()]
    spreads += [effect.half_width / Z_95 for effect in pairs.values()]
    spreads.append(slope_sd)
    covariance = [
        [spread**2 if i == j else 0.0 for j in range(len(spreads))]
        for i, spread in enumerate(spreads)
    ]
    return Model(method, bodies, [middle for middle, _ in ends.values()], bends, slope, covariance)


def _ends(catalog: Catalog, method: str) -> dict[str, tuple[float, float]]:
    """Give middle and standard deviation in degC of each body whose end is known."""
    ends = {}
    for name, material in catalog.materials.items():
        if material.role != "body":
            continue
        found = catalog.known_or_unknown(name, "softening-point", method)
        if isinstance(found, Known):
            low, high = (convert(end, found.unit, "degC") for end in (found.low, found.high))
            ends[name] = ((low + high) / 2, (high - low) / (2 * Z_95))
    return ends


def _pair(catalog: Catalog, first: str, second: str) -> PairEffect:
    by_pair = {frozenset((effect.first, effect.second)): effect for effect in catalog.pair_effects}
    return by_pair.get(frozenset((first, second))) or by_pair[frozenset("*")]


def _slope(catalog: Catalog) -> tuple[float, float]:
    """Give middle and standard deviation of the softeners' slope, degC per unit of share."""
    low, high = catalog.span("softener-slope", "delta_degC")
    figure = catalog.figure("softener-slope")
    middle = (low + high) / 2
    if figure.typical is not None:
        middle = convert(figure.typical, figure.unit, "delta_degC")
    return middle, max(high - middle, middle - low) / Z_95


@dataclass(frozen=True)
class Cut:
    """A model cut down to the bodies of one blend, and that blend's shares in its order."""

    names: tuple[str, ...]
    shares: list[float]
    bodies: int
    ends: list[float]
    bends: list[list[float]]
    slope: float
    covariance: list[list[float]]

    def band(self, method: str) -> Band:
        """Give the estimate and its 95 % band."""
        low, middle, high = estimate_of(
            self.shares, self.bodies, self.ends, self.bends, self.slope, self.covariance
        )
        return Band(low, middle, high, "degC", method)


def cut(catalog: Catalog, held: Model, shares: Mapping[str, float]) -> Cut:
    """Cut a model down to a blend.

    Raises NotKnown where a body has no end by this method, or where the softeners pass the
    share up to which a slope is taken to hold.
    """
    softeners = [name for name in shares if _softens(catalog, name)]
    _check_known(catalog, held, shares, softeners)
    bodies = [name for name in held.bodies if name in shares]
    places = [held.bodies.index(name) for name in bodies]
    terms = [*places, *_pair_places(len(held.bodies), places), len(held.covariance) - 1]
    names = (*bodies, *softeners)
    return Cut(
        names,
        [shares[name] for name in names],
        len(bodies),
        [held.ends[i] for i in places],
        [[held.bends[i][j] for j in places] for i in places],
        held.slope,
        [[held.covariance[i][j] for j in terms] for i in terms],
    )


def _pair_places(count: int, places: list[int]) -> Iterable[int]:
    """Give where the pairs of some bodies stand among the terms of all `count` bodies."""
    pairs = [(i, j) for i in range(count) for j in range(i + 1, count)]
    place = {pair: count + k for k, pair in enumerate(pairs)}
    return (place[i, j] for k, i in enumerate(places) for j in places[k + 1 :])


def _check_known(
    catalog: Catalog, held: Model, shares: Mapping[str, float], softeners: list[str]
) -> None:
    softener = sum(shares[name] for name in softeners)
    if softener > catalog.span("softener-limit", "dimensionless")[1] + 1e-12:
        raise NotKnown(
            f"the softening point of a blend with {100 * softener:.0f} % softener",
            "test the blend itself; above about a tenth no rule of thumb holds.",
        )
    for name in shares:
        if name not in softeners and name not in held.bodies:
            raise NotKnown(
                f"the softening point of {catalog.material(name).name} by {held.method}",
                "test it, and add a row to facts.csv with basis 'measured'.",
            )


def _softens(catalog: Catalog, name: str) -> bool:
    return catalog.material(name).role == "softener"


def estimate(catalog: Catalog, shares: Mapping[str, float], method: str) -> Band | Unknown:
    """Give the band by one method, or say what is not known and how to find out."""
    try:
        return cut(catalog, model(catalog, method), shares).band(method)
    except NotKnown as error:
        return Unknown(error.what, error.find_out)


def fit_method(catalog: Catalog, shares: Mapping[str, float]) -> str:
    """Give the test method fit for a blend."""
    resins = [int(catalog.material(name).kind in RESINS) for name in shares]
    return method_for(share_of(list(shares.values()), resins))


def best_estimate(catalog: Catalog, shares: Mapping[str, float]) -> Band | Unknown:
    """Give the band by the method fit for the blend."""
    return estimate(catalog, shares, fit_method(catalog, shares))


def basis_of(
    catalog: Catalog, shares: Mapping[str, float], method: str | None = None
) -> list[Basis]:
    """Give what an estimate rests on: each end, the bends, the slope of the softeners."""
    chosen = method or fit_method(catalog, shares)
    return [*_end_basis(catalog, shares, chosen), *_shape_basis(catalog, shares)]


def _end_basis(catalog: Catalog, shares: Mapping[str, float], method: str) -> Iterable[Basis]:
    for name in shares:
        found = catalog.known_or_unknown(name, "softening-point", method)
        if isinstance(found, Known):
            yield Basis(f"{method} of {name} alone", found.basis, found.facts[0].source)


def _shape_basis(catalog: Catalog, shares: Mapping[str, float]) -> Iterable[Basis]:
    bodies = [name for name in shares if not _softens(catalog, name)]
    for i, first in enumerate(bodies):
        for second in bodies[i + 1 :]:
            effect = _pair(catalog, first, second)
            yield Basis(f"bend of {first} with {second}", effect.basis, effect.source)
    if len(bodies) < len(shares):
        figure = catalog.figure("softener-slope")
        yield Basis(figure.what, figure.basis, figure.source)
