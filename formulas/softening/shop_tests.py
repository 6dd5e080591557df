"""The shop's own softening tests as evidence for one method's model.

Readings of different methods never meet. Step creep under one plate bears on step creep under
another by what must be so: wax that holds a greater stress holds a smaller one, and wax that
lets a smaller stress go lets a greater one go.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from formulas.book_entries import SofteningTest
from formulas.books.records import weighed_shares
from formulas.catalog import Catalog
from formulas.fault import FormulasError
from formulas.frozen import Frozen
from formulas.softening.evidence import Evidence, Spreads
from formulas.softening.mixture import blend_terms
from formulas.softening.prior import CREEP
from formulas.units import convert
from formulas.wax.batch import shares_of

SAME_STRESS = 0.1  # stresses nearer than a tenth count as one
BRIDGE_FROM = "drop-point"
UNNAMED = "unnamed"  # all lots of a material that nobody wrote down count as one


class Aside(Frozen):
    """A test that does not count, and why."""

    test: str
    why: str


def spreads(catalog: Catalog) -> Spreads:
    """Give the layers of error that the tables hold."""
    return Spreads(
        *(
            catalog.span(name, "delta_degC")[1]
            for name in (
                "home-rig-spread",
                "rig-bias-spread",
                "rig-bias-checked",
                "session-bias-spread",
                "lot-spread",
            )
        )
    )


def evidence(
    catalog: Catalog, method: str, bodies: Sequence[str], *, bridge: bool = False
) -> tuple[list[Evidence], list[Aside]]:
    """Give the tests that bear on a method, and those set aside with the reason.

    With `bridge`, drop points count for step creep through an offset that is itself not known.
    """
    found, aside = [], []
    for test in catalog.softening_tests:
        if not _bears(test, method, bridge):
            continue
        try:
            one = _evidence(catalog, test, method, bodies)
        except _SetAside as why:
            aside.append(Aside(test.test, str(why)))
            continue
        except FormulasError as error:
            aside.append(Aside(test.test, str(error)))
            continue
        found.append(one)
    return found, aside


class _SetAside(Exception):
    """Why one test does not count."""


def _bears(test: SofteningTest, method: str, bridge: bool) -> bool:
    if method in CREEP:
        return test.method in CREEP or (
            bridge and test.method == BRIDGE_FROM and test.result == "reading"
        )
    return test.method == method


def _evidence(
    catalog: Catalog, test: SofteningTest, method: str, bodies: Sequence[str]
) -> Evidence:
    if test.left_out:
        raise _SetAside(f"left out by the shop: {test.left_out}")
    low, high = _ends(catalog, test, method)
    terms, lots = _sample(catalog, test.sample, test.lots, bodies)
    if test.result == "firmer":
        others, other_lots = _sample(catalog, test.other, "", bodies)
        terms = [a - b for a, b in zip(terms, others, strict=True)]
        lots = {k: lots.get(k, 0.0) - other_lots.get(k, 0.0) for k in {*lots, *other_lots}}
    return Evidence(
        test.test,
        test.date,
        test.session or test.date,
        test.rig or "the one rig",
        test.checked,
        terms,
        low,
        high,
        {key: share for key, share in lots.items() if share},
        comparison=test.result == "firmer",
        bridged=method in CREEP and test.method not in CREEP,
    )


def _ends(catalog: Catalog, test: SofteningTest, method: str) -> tuple[float, float]:
    """Give what was seen in degC, a side that tells nothing at this stress left open."""
    if test.result == "firmer":
        return 0.0, math.inf
    low, high = (
        convert(end, test.unit, "degC") if end is not None else None
        for end in (test.low, test.high)
    )
    if test.result == "reading":
        assert low is not None
        return low, low
    held = -math.inf if low is None else low
    moved = math.inf if high is None else high
    if method not in CREEP:
        return held, moved
    asked = catalog.span(CREEP[method], "Pa")[1]
    stress = (test.own_stress or 0.0) * (test.load or 0.0)
    if stress < asked * (1 - SAME_STRESS):
        held = -math.inf
    if stress > asked * (1 + SAME_STRESS):
        moved = math.inf
    if math.isinf(held) and math.isinf(moved):
        raise _SetAside(
            f"at {stress:.0f} Pa it tells nothing of {asked:.0f} Pa: a lighter load that was"
            " held, or a heavier one that moved"
        )
    return held, moved


def _sample(
    catalog: Catalog, name: str, named_lots: str, bodies: Sequence[str]
) -> tuple[list[float], dict[str, float]]:
    """Give a sample's terms over the model's bodies, and the share of each lot in it."""
    shares = sample_shares(catalog, name)
    missing = [
        material
        for material in shares
        if material not in bodies and catalog.materials[material].role == "body"
    ]
    if missing:
        raise _SetAside(f"no end is known for {', '.join(missing)} by this method")
    softener = sum(share for material, share in shares.items() if material not in bodies)
    limit = catalog.span("softener-limit", "dimensionless")[1]
    if softener > limit + 1e-12:
        raise _SetAside(f"{100 * softener:.0f} % softener: no slope holds there")
    body = [shares.get(material, 0.0) / (1 - softener) for material in bodies]
    return blend_terms(body, softener), _lots(catalog, name, named_lots, shares)


def sample_shares(catalog: Catalog, name: str) -> dict[str, float]:
    """Give the shares by mass of a batch as weighed, of a blend, or of a material alone."""
    if name in catalog.pot_book:
        return weighed_shares(catalog, name)
    if name in catalog.blends:
        return shares_of(catalog.blends[name].parts)
    return {catalog.material(name).id: 1.0}


def _lots(catalog: Catalog, name: str, named: str, shares: Mapping[str, float]) -> dict[str, float]:
    """Give the share of each lot; where none is named all such wax counts as one unnamed lot.

    So that what is not written down is never taken for two independent lots.
    """
    lots = named.split() or [
        one.lot for one in catalog.lots_by_batch.get(name, []) if one.lot in catalog.lots
    ]
    by_material: dict[str, list[str]] = {}
    for lot in lots:
        if lot in catalog.lots:
            by_material.setdefault(catalog.lots[lot].material, []).append(lot)
    found = {}
    for material, share in shares.items():
        if catalog.materials[material].role != "body":
            continue
        held = by_material.get(material, [UNNAMED])
        for lot in held:
            found[f"{material} {lot}"] = share / len(held)
    return found
