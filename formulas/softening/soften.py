"""Answer how a blend may soften, what the shop's tests say of it, and which test to make next."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from formulas.answer import Answer, Band, Basis, Unknown
from formulas.catalog import Catalog
from formulas.fault import NotKnown, OutOfRange
from formulas.formula import crossings
from formulas.softening.chance import new_lot_band
from formulas.softening.comparing import chance_to_hold, firmer_than
from formulas.softening.estimate import (
    CREEP,
    RESINS,
    Cut,
    Model,
    basis_of,
    cut,
    estimate,
    fit_method,
    model,
)
from formulas.softening.mixture import (
    Z_95,
    estimate_of,
    open_shares,
    softener_share,
    turned,
)
from formulas.softening.proposed import proposed
from formulas.wax.batch import shares_of

TARGETS = (-20.0, 200.0)  # degC; no wax or rosin softens outside
WIDTHS = (0.1, 50.0)  # degC, half of a band


def soften(
    catalog: Catalog,
    parts: Mapping[str, float],
    *,
    method: str | None = None,
    target: float | None = None,
    floor: float | None = None,
    against: str = "",
    width: float | None = None,
    bridge: bool = False,
    blend: str = "",
) -> Answer:
    """Give a blend's softening estimate by the fit method and by every other one.

    `target`, in degC: the shares of the blend's resin (or of its last component) that cannot
    be ruled out. `floor`, in degC: the chance to hold it, by step creep alone. `against`:
    whether this blend is the firmer of the two. `width`, in degC: how many tests until the band
    reaches no further than that to either side. No test is proposed by a method that the blend
    does not stand: `too_much` says of what. `bridge`: drop points count for step creep.
    """
    for material in parts:
        catalog.material(material)
    _check("target", target, TARGETS, "what a wax can meet")
    _check("floor", floor, TARGETS, "what a wax can meet")
    _check("width", width, WIDTHS, "half the width of a band")
    shares = shares_of(parts)
    chosen = method or fit_method(catalog, shares)
    held = model(catalog, chosen, bridge=bridge and chosen in CREEP)
    band = estimate(catalog, shares, chosen, bridge=bridge)
    answer: dict[str, Any] = {
        "softening": band,
        "by_method": _by_method(catalog, shares, bridge=bridge),
        "tests_used": held.tests,
        "tests_aside": [{"test": one.test, "why": one.why} for one in held.aside],
        "contradicted": [{"test": one.test, "said": one.said} for one in held.flags],
        "lots": _lots(held),
        "next_test": None,
        "too_much": "",
        "reference": None,
        "crossings": [],
    }
    other = against or (catalog.shop.usual if catalog.shop.usual != blend else "")
    try:
        part = cut(catalog, held, shares)
    except NotKnown:
        part = None
    if part:
        answer |= _asked(catalog, held, part, shares, target=target, width=width)
    if isinstance(band, Band) and part:
        answer["next_lot"] = _next_lot(held, part, band)
    if floor is not None:
        answer["floor"] = chance_to_hold(catalog, shares, method, floor, bridge=bridge)
    if other:
        answer["against"] = firmer_than(catalog, held, shares, other)
    inputs = {"blend": blend, "parts": dict(parts), "method": chosen, "target": target}
    inputs |= {"floor": floor, "against": other, "width": width, "bridge": bridge}
    basis = [
        Basis("shape of the estimate: cubic mixture polynomial", "memory", "scheffe-1958"),
        *basis_of(catalog, shares, chosen),
        *_test_basis(catalog, held),
    ]
    notes = _notes(held, known=part is not None)
    return Answer("soften", answer, inputs, basis, catalog.warned("soften"), notes)


def _check(what: str, value: float | None, accepted: tuple[float, float], source: str) -> None:
    low, high = accepted
    if value is not None and not low <= value <= high:
        raise OutOfRange(what, value, f"degC from {low:g} to {high:g}", source)


def _by_method(
    catalog: Catalog, shares: Mapping[str, float], *, bridge: bool
) -> dict[str, Band | Unknown]:
    return {
        name: estimate(catalog, shares, name, bridge=bridge)
        for name, entry in catalog.methods.items()
        if entry.estimated
    }


def _asked(
    catalog: Catalog,
    held: Model,
    part: Cut,
    shares: Mapping[str, float],
    *,
    target: float | None,
    width: float | None,
) -> dict[str, Any]:
    """Give what hangs on turning one share: the next test, the count of tests, the target."""
    of = _turned(catalog, shares)
    place = part.names.index(of)
    limit = catalog.span("softener-limit", "dimensionless")[1]
    found = proposed(catalog, held, part, shares, place=place, limit=limit, width=width)
    if target is not None:
        found["not_ruled_out"] = _not_ruled_out(part, place, of, target, limit)
        found["crossings"] = _crossings(held, part, place, of, target, limit)
    return found


def _lots(held: Model) -> list[dict[str, Any]]:
    """Give by how much each named lot shifts its material, with its band."""
    return [
        {
            "lot": lot,
            "shift": Band(
                middle - Z_95 * spread, middle, middle + Z_95 * spread, "delta_degC", held.method
            ),
        }
        for lot, (middle, spread) in held.lots.items()
    ]


def _next_lot(held: Model, part: Cut, band: Band) -> Band:
    """Give the band for a batch from new lots, which shift it by themselves."""
    ends = [band.low, (band.low + band.high) / 2, band.high]
    low, middle, high = new_lot_band(ends, part.shares, held.lot)
    return Band(low, middle, high, "degC", band.method)


def _middle(part: Cut, shares: list[float]) -> float:
    return estimate_of(
        shares, part.bodies, part.ends, part.bends, part.skews, part.slope, part.covariance
    )[1]


def _not_ruled_out(
    part: Cut, place: int, of: str, target: float, limit: float
) -> list[dict[str, Any]]:
    """Give the ranges of one component's share whose band holds the target."""
    if len(part.names) < 2:
        return []
    ranges = open_shares(
        target,
        part.shares,
        place,
        part.bodies,
        limit,
        part.ends,
        part.bends,
        part.skews,
        part.slope,
        part.covariance,
    )
    return [{"low": low, "high": high, "of": of} for low, high in ranges]


def _crossings(
    held: Model, part: Cut, place: int, of: str, target: float, limit: float
) -> list[dict[str, Any]]:
    """Give the shares at which the middle meets a target; none before the shop has tested.

    They are never given without the shares that cannot be ruled out.
    """
    if held.tests == 0 or len(part.names) < 2:
        return []

    def above(share: float) -> float:
        blend = turned(part.shares, place, share)
        return _middle(part, blend) - target

    least, most = _open_to(part, place, limit)
    return [{"share": share, "of": of} for share in crossings(above, least, most)]


def _open_to(part: Cut, place: int, limit: float) -> tuple[float, float]:
    """Give the shares between which one may be turned before the softeners pass their limit."""
    softener = softener_share(part.shares, part.bodies)
    if place >= part.bodies:
        return 0.0, limit
    rest = 1 - part.shares[place]
    return (max(0.0, 1 - limit * rest / softener) if softener > 0 else 0.0), 1.0


def _turned(catalog: Catalog, shares: Mapping[str, float]) -> str:
    """Give the component whose share a repairer would turn: the resin, else the last one."""
    resins = [name for name in shares if catalog.material(name).kind in RESINS]
    return (resins or list(shares))[-1 if not resins else 0]


def _test_basis(catalog: Catalog, held: Model) -> list[Basis]:
    if not held.tests:
        return []
    basis = "invented" if catalog.shop.invented else "measured"
    found = [Basis(f"{held.tests} tests of this shop by {held.method}", basis)]
    names = ["rig-bias-spread", "session-bias-spread"]
    names += [] if held.own_spread else ["home-rig-spread"]
    names += [] if held.own_lots else ["lot-spread"]
    names += ["drop-above-creep"] if held.bridged else []
    for name in names:
        figure = catalog.figure(name)
        found.append(Basis(figure.what, figure.basis, figure.source))
    return found


def _notes(held: Model, *, known: bool) -> list[str]:
    notes = [
        "An estimate of softening is not a service temperature: a bead creeps well below it.",
        "Readings by different test methods are not compared.",
    ]
    if known and held.tests == 0:
        notes = [
            "This shop has no test yet: the ratio does not decide this. Whether rosin raises or"
            " lowers the softening point of a wax-rich blend is not settled.",
            "The cheapest first test: two waxed plates side by side in one warm box, this blend"
            " and the one you know. It needs no thermometer.",
            *notes,
        ]
    if any(not one.is_reading for one in held.evidence):
        notes.append(
            "Tests that were held or moved count as bounds, one after another: approximate."
        )
    return notes
