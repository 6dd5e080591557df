"""What the bench asks of two blends, or of a warm day: the chances that the tests leave."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from formulas.answer import Quantity, Unknown
from formulas.catalog import Catalog
from formulas.fault import NotKnown
from formulas.softening.chance import chance_firmer, chance_of_floor, verdict_of
from formulas.softening.estimate import CREEP, Model, cut, estimate, model
from formulas.wax.batch import shares_of

NOT_SERVICE = "not a service temperature: creep under a plate's own load begins well below it"


def chance_to_hold(
    catalog: Catalog, shares: Mapping[str, float], method: str | None, floor: float, *, bridge: bool
) -> dict[str, Any] | Unknown:
    """Give the chance that the next batch holds a temperature: by step creep, and tested.

    Where no method is named it is step creep under an aluminium plate.
    """
    asked = method or next(iter(CREEP))
    if asked not in CREEP:
        name = catalog.methods[asked].name.lower()
        return Unknown(
            f"the chance to hold that temperature: {name} is {NOT_SERVICE}",
            "test step creep, and ask by it.",
        )
    held = model(catalog, asked, bridge=bridge)
    band = estimate(catalog, shares, asked, bridge=bridge)
    if isinstance(band, Unknown) or held.tests == 0:
        return Unknown(
            "the chance to hold that temperature: no step creep test of this shop bears on it",
            "hang a waxed plate of this blend under its own load and warm it in steps.",
        )
    part = cut(catalog, held, shares)
    ends = [band.low, (band.low + band.high) / 2, band.high]
    chance = chance_of_floor(floor, ends, part.shares, held.lot)
    return {"temperature": Quantity(floor, "degC"), "chance": chance, "method": asked}


def firmer_than(
    catalog: Catalog, held: Model, shares: Mapping[str, float], other: str
) -> dict[str, Any] | Unknown:
    """Say whether a blend is firmer than another by this method, and with what chance."""
    against = catalog.blend(other)
    others = shares_of(against.parts)
    cannot = Unknown(
        f"whether this blend is firmer than {against.name}: no test of this shop says",
        "put both side by side in one warm box under the same load, and see which moves first.",
    )
    if held.tests == 0:
        return cannot
    try:
        part = cut(catalog, held, shares, others)
    except NotKnown:
        return cannot
    chance = chance_firmer(
        part.shares,
        part.of(others),
        part.bodies,
        part.ends,
        part.bends,
        part.skews,
        part.slope,
        part.covariance,
        held.lot,
    )
    return {"blend": other, "chance_firmer": chance, "verdict": verdict_of(chance)}
