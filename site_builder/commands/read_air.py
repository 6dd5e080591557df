"""What the command `air` was asked, read from its words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from formulas import units
from formulas.fault import UnitFault
from formulas.valves.typed import in_si

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

AMOUNT = "an amount as 20mL, 0.7floz or 16g"
POWERS = {"m3": "m**3", "m³": "m**3", "ft3": "ft**3", "ft³": "ft**3", "cm2": "cm**2",
          "cm²": "cm**2", "in2": "in**2", "in²": "in**2", "m2": "m**2", "m²": "m**2"}  # fmt: skip
"""Powers as people write them."""


def answered(catalog: Catalog, solvent: str, asked: Mapping[str, Any]) -> Answer:
    """Give the answer. Raises UnitFault for words that are no quantity."""
    from formulas.air.air import air
    from formulas.air.asked import AirTask
    from formulas.air.fume import ROSIN_FUME, fume

    if solvent == ROSIN_FUME:
        return fume(catalog, _read(asked["measured"], "kg/m**3", 1))
    amount, mass = _amount(asked["amount"])
    return air(
        catalog,
        AirTask(
            solvent,
            seconds=_read(asked["over"], "s", 1) or 0.0,
            amount=amount,
            mass=mass,
            room=_read(asked["room"], "m**3", 1),
            changes=units.number(asked["air_changes"]) if asked["air_changes"] else None,
            face=_read(asked["area"], "m**2", 1),
            celsius=_read(asked["temperature"], "degC", 1),
            times=int(asked["repeat"]),
            every=_read(asked["every"], "s", 1),
            start=_read(asked["start"], "dimensionless", 1) or 0.0,
            heats=tuple(asked["heat"]),
        ),
    )


def _read(text: str | None, unit: str, each: float) -> float | None:
    """Read a quantity and clean it as the page does, so that both reckon on the same digits."""
    if not text:
        return None
    written = re.sub(
        r"[a-z]+[23²³]\s*$", lambda found: POWERS.get(found[0].strip(), found[0]), text
    )
    return in_si(units.read(written.replace("mg/m3", "mg/m**3"), unit), each)


def _amount(text: str) -> tuple[float | None, float | None]:
    """Read a volume, or a mass; give the one that it is in SI."""
    try:
        return _read(text, "m**3", 1), None
    except UnitFault:
        try:
            return None, _read(text, "kg", 1)
        except UnitFault as error:
            raise UnitFault(text, AMOUNT) from error
