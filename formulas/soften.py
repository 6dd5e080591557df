"""Answer how a blend may soften, what a target leaves open, and which test to make next."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from formulas.answer import Answer, Band, Basis
from formulas.batch import shares_of
from formulas.catalog import Catalog
from formulas.fault import OutOfRange
from formulas.mixture import open_shares, share_to_test, turned
from formulas.softening import (
    RESINS,
    Cut,
    Model,
    basis_of,
    cut,
    estimate,
    fit_method,
    model,
)

TARGETS = (-20.0, 200.0)  # degC; no wax or rosin softens outside


def _next_test(catalog: Catalog, held: Model, part: Cut, of: str) -> dict[str, Any]:
    """Give the blend whose test would shrink the band most at the blend in question."""
    noise = catalog.span("home-rig-spread", "delta_degC")[1] ** 2
    place = part.names.index(of)
    limit = catalog.span("softener-limit", "dimensionless")[1]
    share, after = share_to_test(part.shares, place, part.bodies, limit, part.covariance, noise)
    now = part.band(held.method)
    blend = turned(part.shares, place, share)
    return {
        "shares": dict(zip(part.names, blend, strict=True)),
        "method": held.method,
        "half_width_now": (now.high - now.low) / 2,
        "half_width_after": after,
    }


def soften(
    catalog: Catalog,
    parts: Mapping[str, float],
    *,
    method: str | None = None,
    target: float | None = None,
    blend: str = "",
) -> Answer:
    """Give a blend's softening estimate by the fit method and by every other one.

    With a target in degC: the shares of the blend's resin (or of its last component) that
    cannot be ruled out. While the shop has no test there is no single share to give.
    """
    for material in parts:
        catalog.material(material)
    shares = shares_of(parts)
    chosen = method or fit_method(catalog, shares)
    held = model(catalog, chosen)
    answer: dict[str, Any] = {
        "softening": estimate(catalog, shares, chosen),
        "by_method": {
            name: estimate(catalog, shares, name)
            for name, entry in catalog.methods.items()
            if entry.estimated
        },
        "tests_used": held.tests,
        "next_test": None,
        "crossings": [],
    }
    _check_target(target)
    known = isinstance(answer["softening"], Band)
    if known:
        part, of = cut(catalog, held, shares), _turned(catalog, shares)
        answer["next_test"] = _next_test(catalog, held, part, of)
        if target is not None:
            answer["not_ruled_out"] = _not_ruled_out(catalog, part, of, target)
    inputs = {"blend": blend, "parts": dict(parts), "method": chosen, "target": target}
    basis = [
        Basis("shape of the estimate: quadratic mixture polynomial", "memory", "scheffe-1958"),
        *basis_of(catalog, shares, chosen),
    ]
    return Answer("soften", answer, inputs, basis, catalog.warned("soften"), _notes(held, known))


def _check_target(target: float | None) -> None:
    low, high = TARGETS
    if target is not None and not low <= target <= high:
        raise OutOfRange("target", target, f"degC from {low:g} to {high:g}", "what a wax can meet")


def _not_ruled_out(catalog: Catalog, part: Cut, of: str, target: float) -> list[dict[str, Any]]:
    """Give the ranges of one component's share whose band holds the target."""
    if len(part.names) < 2:
        return []
    ranges = open_shares(
        target,
        part.shares,
        part.names.index(of),
        part.bodies,
        catalog.span("softener-limit", "dimensionless")[1],
        part.ends,
        part.bends,
        part.slope,
        part.covariance,
    )
    return [{"low": low, "high": high, "of": of} for low, high in ranges]


def _turned(catalog: Catalog, shares: Mapping[str, float]) -> str:
    """Give the component whose share a repairer would turn: the resin, else the last one."""
    resins = [name for name in shares if catalog.material(name).kind in RESINS]
    return (resins or list(shares))[-1 if not resins else 0]


def _notes(held: Model, known: bool) -> list[str]:
    notes = [
        "An estimate of softening is not a service temperature: a bead creeps well below it.",
        "Readings by different test methods are not compared.",
    ]
    if known and held.tests == 0:
        notes.insert(
            0,
            "This shop has no test yet: the ratio does not decide this. Whether rosin raises or"
            " lowers the softening point of a wax-rich blend is not settled.",
        )
    return notes
