"""Estimate at what temperature a blend softens by a named test, with the band that is honest.

The estimate is a mixture polynomial over the shares by mass, a body of waxes and resins with a
slope for the softeners in it. What the tables hold is the prior; the shop's own tests by the
same method narrow it. Readings of different test methods never meet in one estimate.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from formulas.answer import Band, Basis, Unknown
from formulas.catalog import Catalog
from formulas.entries import Known
from formulas.fault import NotKnown
from formulas.frozen import Frozen
from formulas.softening.mixture import estimate_of, method_for, share_of, too_much
from formulas.softening.model import Model, model
from formulas.softening.prior import CREEP, RESINS, pair_effect, pairs

__all__ = [
    "CREEP",
    "RESINS",
    "Cut",
    "Model",
    "basis_of",
    "best_estimate",
    "cut",
    "estimate",
    "fit_method",
    "model",
    "resins",
    "unfit",
]


class Cut(Frozen):
    """A model cut down to the bodies of one blend, and that blend's shares in its order."""

    names: tuple[str, ...]
    shares: list[float]
    bodies: int
    ends: list[float]
    bends: list[list[float]]
    skews: list[list[float]]
    slope: float
    covariance: list[list[float]]
    shared: list[float]

    def band(self, method: str) -> Band:
        """Give the estimate and its 95 % band."""
        low, middle, high = estimate_of(
            self.shares, self.bodies, self.ends, self.bends, self.skews, self.slope, self.covariance
        )
        return Band(low, middle, high, "degC", method)

    def of(self, shares: Mapping[str, float]) -> list[float]:
        """Give the shares of another blend in the order of this cut."""
        return [shares.get(name, 0.0) for name in self.names]


def cut(
    catalog: Catalog,
    held: Model,
    shares: Mapping[str, float],
    other: Mapping[str, float] | None = None,
) -> Cut:
    """Cut a model down to a blend, or to the materials of two.

    Raises NotKnown where a body has no end by this method, or where the softeners pass the
    share up to which a slope is taken to hold.
    """
    for blend in (shares, other or {}):
        _check_known(catalog, held, blend)
    both = {**(other or {}), **shares}
    bodies = [name for name in held.bodies if name in both]
    softeners = [name for name in catalog.materials if name in both and _softens(catalog, name)]
    places = [held.bodies.index(name) for name in bodies]
    terms = _term_places(len(held.bodies), places, len(held.covariance))
    names = (*bodies, *softeners)
    return Cut(
        names,
        [shares.get(name, 0.0) for name in names],
        len(bodies),
        [held.ends[i] for i in places],
        [[held.bends[i][j] for j in places] for i in places],
        [[held.skews[i][j] for j in places] for i in places],
        held.slope,
        [[held.covariance[i][j] for j in terms] for i in terms],
        [held.reference.shared[i] for i in terms] if held.reference else [],
    )


def _term_places(count: int, places: list[int], size: int) -> list[int]:
    """Give where the terms of some bodies stand among those of all `count` bodies."""
    all_pairs = pairs(count)
    place = {pair: count + k for k, pair in enumerate(all_pairs)}
    chosen = [place[i, j] for k, i in enumerate(places) for j in places[k + 1 :]]
    skewed = [one + len(all_pairs) for one in chosen]
    return [*places, *chosen, *skewed, size - 2, size - 1]


def _check_known(catalog: Catalog, held: Model, shares: Mapping[str, float]) -> None:
    softeners = [name for name in shares if _softens(catalog, name)]
    softener = sum(shares[name] for name in softeners)
    if softener > catalog.span("softener-limit", "dimensionless")[1] + 1e-12:
        raise NotKnown(
            f"the softening point of a blend with {100 * softener:.0f} % softener",
            "test the blend itself; above about a tenth no rule of thumb holds.",
        )
    by = catalog.methods[held.method].name.lower()
    for name in shares:
        if name not in softeners and name not in held.bodies:
            raise NotKnown(
                f"the softening point of {catalog.material(name).name} by {by}",
                "test it, and add a row to facts.csv with basis 'measured'.",
            )


def _softens(catalog: Catalog, name: str) -> bool:
    return catalog.material(name).role == "softener"


def estimate(
    catalog: Catalog, shares: Mapping[str, float], method: str, *, bridge: bool = False
) -> Band | Unknown:
    """Give the band by one method, or say what is not known and how to find out."""
    held = model(catalog, method, bridge=bridge and method in CREEP)
    try:
        band = cut(catalog, held, shares).band(method)
    except NotKnown as error:
        return Unknown(error.what, error.find_out)
    widest = catalog.span("creep-widest-band", "delta_degC")[1]
    if method in CREEP and (band.high - band.low) / 2 > widest:
        return Unknown(
            f"{catalog.methods[method].name.lower()} of this blend",
            "hang a waxed plate of it under its own load and warm it in steps.",
        )
    return band


def fit_method(catalog: Catalog, shares: Mapping[str, float]) -> str:
    """Give the test method fit for a blend."""
    return method_for(_resin(catalog, shares))


def unfit(catalog: Catalog, shares: Mapping[str, float], method: str) -> str:
    """Give "wax" or "rosin" where a blend has too much of it for a test, else nothing."""
    return too_much(method, _resin(catalog, shares))


def resins(catalog: Catalog, names: Iterable[str]) -> list[int]:
    """Give a 1 for each material that is a resin, and a 0 for any other."""
    return [int(catalog.material(name).kind in RESINS) for name in names]


def _resin(catalog: Catalog, shares: Mapping[str, float]) -> float:
    return share_of(list(shares.values()), resins(catalog, shares))


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
    if method in CREEP:
        figure = catalog.figure("creep-prior")
        yield Basis(figure.what, figure.basis, figure.source)
        return
    for name in shares:
        found = catalog.known_or_unknown(name, "softening-point", method)
        if isinstance(found, Known):
            yield Basis(f"{method} of {name} alone", found.basis, found.facts[0].source)


def _shape_basis(catalog: Catalog, shares: Mapping[str, float]) -> Iterable[Basis]:
    bodies = [name for name in shares if not _softens(catalog, name)]
    for i, first in enumerate(bodies):
        for second in bodies[i + 1 :]:
            effect = pair_effect(catalog, first, second)
            yield Basis(f"bend of {first} with {second}", effect.basis, effect.source)
    figures = ["one-sided-bend-spread"] if len(bodies) > 1 else []
    figures += ["softener-slope"] if len(bodies) < len(shares) else []
    for name in figures:
        figure = catalog.figure(name)
        yield Basis(figure.what, figure.basis, figure.source)
