"""What each material brings to a heat balance and to a heat window, from the tables' rows."""

from __future__ import annotations

from formulas.answer import Basis, Unknown
from formulas.catalog import Catalog
from formulas.entries import Known
from formulas.frozen import Frozen
from formulas.melting.heat import shrinkage, shrinkage_of_gain
from formulas.units import convert

Ends = tuple[float, float]

GLASSES = ("resin", "balsam")
LIQUIDS = ("oil", "balsam")
MOLTEN_BY = ("capillary-melting", "drop-point", "handbook-melting-range")
MELTING_BY = (*MOLTEN_BY, "congealing-point", "dsc-onset")
ANY_HEAT: Ends = (-300.0, 1000.0)
"""Ends of a melting range that is not known, or of what has none: wider than any pot."""


class Thermal(Frozen):
    """One material in SI units and degC; each pair is the least and the most.

    `floor` is the heat from which it is molten or dissolves, for a resin only while rosin is
    dissolved; None where the tables do not say, or where nothing has to melt.
    """

    material: str
    heat: Ends
    latent: Ends
    melting: Ends
    glass: bool
    liquid: bool
    floor: float | None
    flash: float | None
    fume: float | None
    colour: float | None
    shrink: Ends
    density: Ends
    basis: tuple[Basis, ...]
    told: tuple[str, ...]


def thermal(catalog: Catalog, name: str) -> Thermal:
    """Give one material's figures. What is not known is counted between the ends of the tables
    and told, but a flash point is never filled in.
    """
    material = catalog.material(name)
    glass, liquid = material.kind in GLASSES, material.kind in LIQUIDS
    told: list[str] = []
    basis: list[Basis] = []
    heat = _heat(catalog, name, told, basis)
    latent = _latent(catalog, name, told, basis) if not (glass or liquid) else (0.0, 0.0)
    melting = _melting(catalog, name) if latent[1] else None
    shrink = _shrink(catalog, name, told, basis)
    return Thermal(
        name,
        heat,
        latent,
        melting or ANY_HEAT,
        glass,
        liquid,
        None if liquid else _floor(catalog, name, glass=glass),
        _lowest(catalog, name, "flash-point"),
        _lowest(catalog, name, "fume-onset"),
        _lowest(catalog, name, "colour-onset"),
        shrink,
        _density(catalog, name),
        tuple(basis),
        tuple(told),
    )


def _heat(catalog: Catalog, name: str, told: list[str], basis: list[Basis]) -> Ends:
    ends = _ends(catalog, name, "specific-heat", "J/(kg*K)", basis)
    if ends:
        return ends
    widest = _widest(catalog, "specific-heat", "J/(kg*K)")
    told.append("its specific heat, counted between the lowest and the highest of the tables")
    return widest


def _latent(catalog: Catalog, name: str, told: list[str], basis: list[Basis]) -> Ends:
    ends = _ends(catalog, name, "latent-heat", "J/kg", basis)
    if ends:
        return ends
    told.append("its latent heat, counted between nought and the highest of the tables")
    return 0.0, _widest(catalog, "latent-heat", "J/kg")[1]


def _melting(catalog: Catalog, name: str) -> Ends | None:
    known = [one for one in (_known(catalog, name, by) for by in MELTING_BY) if one]
    if not known:
        return None
    return min(low for low, _ in known), max(high for _, high in known)


def _floor(catalog: Catalog, name: str, *, glass: bool) -> float | None:
    """Give the upper end of the melting range; of a resin, of its ring-and-ball range."""
    methods = ("ring-and-ball",) if glass else MOLTEN_BY
    known = [one for one in (_known(catalog, name, by) for by in methods) if one]
    return max(high for _, high in known) if known else None


def _known(catalog: Catalog, name: str, method: str) -> Ends | None:
    """Give a melting range by one method; a bridge row, drawn from another method, is none."""
    known = catalog.known_or_unknown(name, "softening-point", method)
    if isinstance(known, Unknown) or (
        known.basis == "derived" and any("Bridge" in fact.note for fact in known.facts)
    ):
        return None
    return convert(known.low, known.unit, "degC"), convert(known.high, known.unit, "degC")


def _shrink(catalog: Catalog, name: str, told: list[str], basis: list[Basis]) -> Ends:
    """Give the union of what a row says of the loss and what the two densities say."""
    found = []
    row = _ends(catalog, name, "volume-contraction", "dimensionless", basis)
    gain = _ends(catalog, name, "volume-increase-on-melting", "dimensionless", basis)
    solid = _ends(catalog, name, "density-solid", "kg/m**3", basis)
    liquid = _ends(catalog, name, "density-liquid", "kg/m**3", basis)
    if row:
        found.append(row)
    if gain:
        found.append((shrinkage_of_gain(gain[0]), shrinkage_of_gain(gain[1])))
    if solid and liquid:
        found.append((shrinkage(liquid[1], solid[0]), shrinkage(liquid[0], solid[1])))
    if found:
        return min(low for low, _ in found), max(high for _, high in found)
    told.append("what it loses on setting, counted between nought and the most of the tables")
    return 0.0, _widest(catalog, "volume-contraction", "dimensionless")[1]


def _density(catalog: Catalog, name: str) -> Ends:
    """Give the cold density; of what has none known, all that stand in the tables."""
    ends = _ends(catalog, name, "density-solid", "kg/m**3", [])
    return (
        ends
        or _ends(catalog, name, "density-liquid", "kg/m**3", [])
        or (_widest(catalog, "density-solid", "kg/m**3"))
    )


def _ends(catalog: Catalog, name: str, prop: str, unit: str, basis: list[Basis]) -> Ends | None:
    known = catalog.known_or_unknown(name, prop)
    if not isinstance(known, Known):
        return None
    words = f"{catalog.material(name).name}: {prop.replace('-', ' ')}"
    basis.append(Basis(words, known.basis, known.facts[0].source))
    return convert(known.low, known.unit, unit), convert(known.high, known.unit, unit)


def _widest(catalog: Catalog, prop: str, unit: str) -> Ends:
    ends = [
        convert(end, fact.unit, unit)
        for fact in catalog.facts
        if fact.property == prop
        for end in (fact.low, fact.high)
        if end is not None
    ]
    return min(ends), max(ends)


def _lowest(catalog: Catalog, name: str, prop: str) -> float | None:
    """Give the lowest value of any row, whatever its cup or basis: a limit at its worst."""
    values = [
        convert(fact.low, fact.unit, "degC")
        for fact in catalog.facts_of(name)
        if fact.property == prop and fact.low is not None
    ]
    return min(values, default=None)
