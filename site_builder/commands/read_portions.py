"""Read what is typed after `adjust`: what is in the pot, what may be added, what it must be."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from formulas.adjusting.portions import OldWax, Portion
    from formulas.catalog import Catalog

OLD_WAX = ("reclaimed", "old-wax")
BAND = re.compile(r"([\d.,]+)\s*%?\s*(?:-|–|to)\s*([\d.,]+)\s*%|([\d.,]+)\s*%")


def wanted(catalog: Catalog, to: str | None, own: tuple[str, ...]) -> tuple[dict[str, float], str]:
    """Give the wanted parts, and the blend's id where they are those of one.

    Raises UsageError, UnknownName, or UnitFault for a ratio that cannot be read.
    """
    from formulas.adjusting.portions import portion
    from formulas.ratio import parts_read
    from site_builder.commands.options import parts_of

    if to is None or own or to in catalog.blends:
        return parts_of(catalog, to, own), to or ""
    found = portion(catalog, to)
    named = to in catalog.materials or to in catalog.pot_book
    return dict(found.shares) if named else parts_read(to), ""


def in_pot(
    catalog: Catalog, given: tuple[str, ...], holds: tuple[str, ...], rest: str
) -> tuple[list[Portion], OldWax | None]:
    """Give what is in the pot, old wax apart. Raises UsageError, UnknownName or UnitFault."""
    from formulas import units
    from formulas.adjusting.portions import old_wax, portion

    found, old_g = [], 0.0
    for text in given:
        name, equals, amount = (piece.strip() for piece in text.rpartition("="))
        if not equals or not name:
            fault = f"--pot: found '{text}', accepted: what and how much, as gum-rosin=50g"
            raise click.UsageError(fault)
        grams = units.read(amount, "g")
        if name in OLD_WAX:
            old_g += grams
        else:
            found.append(portion(catalog, name, grams))
    if bool(old_g) != bool(holds):
        fault = (
            "old wax goes in as --pot reclaimed=400g with --holds gum-rosin=15-25% for each"
            " material it may hold"
        )
        raise click.UsageError(fault)
    return found, old_wax(catalog, old_g, _bands(holds), rest) if old_g else None


def _bands(given: tuple[str, ...]) -> dict[str, tuple[float, float]]:
    """Read each "gum-rosin=15-25%" as a lowest and a highest share."""
    from formulas import units
    from formulas.adjusting.old_wax import share_of_percent

    found = {}
    for text in given:
        name, _, amount = (piece.strip() for piece in text.partition("="))
        match = BAND.fullmatch(amount)
        if not match or not name or name in found:
            fault = f"--holds: found '{text}', accepted: a material once, as gum-rosin=15-25%"
            raise click.UsageError(fault)
        low, high = match[1] or match[3], match[2] or match[3]
        found[name] = share_of_percent(units.number(low)), share_of_percent(units.number(high))
    return found


def may_be_added(catalog: Catalog, add: tuple[str, ...], lots: tuple[str, ...]) -> list[Portion]:
    """Give what may be added, each with its stock or without a limit.

    Raises UsageError, UnknownName or UnitFault.
    """
    from formulas.adjusting.portions import portion

    found = []
    for text in add:
        name, equals, amount = (piece.strip() for piece in text.rpartition("="))
        found.append(portion(catalog, name if equals else text.strip(), _stock(amount, equals)))
    for text in lots:
        name, equals, rest = (piece.strip() for piece in text.partition("="))
        held, colon, amount = (piece.strip() for piece in rest.rpartition(":"))
        if not equals or not name:
            accepted = 'a name with its ratio, as "tin=beeswax-yellow 3; gum-rosin 1:200g"'
            fault = f"--lot: found '{text}', accepted: {accepted}"
            raise click.UsageError(fault)
        found.append(portion(catalog, held if colon else rest, _stock(amount, colon), name))
    named = [one.name for one in found]
    twice = next((one for one in named if named.count(one) > 1), "")
    if twice:
        fault = f"found '{twice}' twice, accepted: each once among what may be added"
        raise click.UsageError(fault)
    return found


def _stock(amount: str, limited: str) -> float | None:
    from formulas import units

    return units.read(amount, "g") if limited else None
