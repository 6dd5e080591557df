"""Answer for a wax batch: what to weigh, the pot it needs, what it costs, how it may soften."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from formulas import units
from formulas.answer import Answer, Band, Basis, Quantity, Unknown
from formulas.catalog import Catalog
from formulas.entries import Figure, Known
from formulas.fault import OutOfRange, UnknownName
from formulas.softening import estimate as softening
from formulas.wax.batch import (
    batch_cost,
    batch_masses,
    left_after_losses,
    limited_total,
    mass_of,
    melt_millilitres,
    pot_millilitres,
    share_by_mass,
    shares_of,
    steps_of,
    steps_within,
    telling_drift,
    total_for_plates,
    weigh_out,
)

TOTALS_G = (0, 1e6)
PLATES = (1, 10000)


def mix(
    catalog: Catalog,
    parts: Mapping[str, float],
    *,
    total_g: float | None = None,
    have_g: Mapping[str, float] | None = None,
    plates: int | None = None,
    blend: str = "",
) -> Answer:
    """Weigh out a blend to a total, to what a limited component allows, or for plates.

    Exactly one of `total_g`, `have_g` and `plates` is given. The answer's masses are in the
    unit of the shop's scale and add up to its total exactly.
    Raises UnknownName for a material of no table, OutOfRange for a mass of no use.
    """
    for material in parts:
        catalog.material(material)
    shares = shares_of(parts)
    step, unit = catalog.shop.scale_step, catalog.shop.scale_unit
    need = _plates_need(catalog, plates) if plates is not None else None
    wanted_g = _wanted(shares, total_g, have_g, need)
    steps = steps_of(units.convert(wanted_g, "g", unit), step)
    if have_g:
        steps = _within(shares, steps, have_g, step, unit)
    counts = weigh_out(list(shares.values()), steps)
    if min(counts, default=0) < 1:
        raise OutOfRange(
            "total", wanted_g, "enough that each component weighs at least one step", "the scale"
        )
    masses_kg = batch_masses(counts, step, units.convert(1, unit, "kg"))
    volume, density_basis = hot_volume(catalog, dict(zip(shares, masses_kg, strict=True)))
    pot, pot_basis = _pot(catalog, volume)
    estimate = softening.best_estimate(catalog, shares)
    answer = {
        "total": Quantity(mass_of(steps, step), unit),
        "components": _components(shares, counts, step, unit),
        "softening": estimate,
        "tests_used": softening.model(catalog, softening.fit_method(catalog, shares)).tests,
        "hot_volume": volume,
        "pot": pot,
        "cost": _cost(catalog, shares, masses_kg),
        "usable": _usable(catalog, wanted_g, unit),
    }
    if need:
        answer["needed"] = need
    inputs = {"blend": blend, "parts": dict(parts), "scale": Quantity(step, unit)}
    inputs |= {"total_g": total_g, "have_g": dict(have_g or {}), "plates": plates}
    basis = [*_blend_basis(catalog, blend), *density_basis, *pot_basis]
    basis += [_figure_basis(catalog.figure(name)) for name in ("straining-loss", "pot-loss")]
    if need:
        basis.append(_figure_basis(catalog.figure("wax-per-plate")))
    basis += softening.basis_of(catalog, shares)
    notes = _notes(catalog, shares, counts, plates)
    return Answer("mix", answer, inputs, basis, catalog.warned("mix"), notes)


def _wanted(
    shares: Mapping[str, float],
    total_g: float | None,
    have_g: Mapping[str, float] | None,
    need: Band | None,
) -> float:
    """Give the wanted total in grams. For plates it is the high end: a pot that runs dry in the
    middle of a block is the worse fault.
    """
    given = [way for way in (total_g, have_g, need) if way is not None]
    if len(given) != 1:
        raise OutOfRange("ways to say how much", len(given), "exactly one", "total, have or plates")
    if need:
        return need.high
    if have_g:
        for material, held in have_g.items():
            if material not in shares:
                raise UnknownName("material at hand", material, shares)
            _check_mass(f"mass of {material} at hand", held)
        return min(limited_total(held, shares[material]) for material, held in have_g.items())
    return _check_mass("total", total_g or 0)


def _check_mass(what: str, mass_g: float) -> float:
    if not TOTALS_G[0] < mass_g <= TOTALS_G[1]:
        raise OutOfRange(what, mass_g, "more than 0 g, at most 1000 kg", "what a shop can weigh")
    return mass_g


def _within(
    shares: Mapping[str, float], steps: int, have_g: Mapping[str, float], step: float, unit: str
) -> int:
    """Take steps off the total until no component at hand is asked for more than there is."""
    for material, mass in have_g.items():
        held = units.convert(mass, "g", unit)
        steps = steps_within(list(shares.values()), steps, list(shares).index(material), held, step)
    return steps


def _components(
    shares: Mapping[str, float], counts: list[int], step: float, unit: str
) -> list[dict[str, Any]]:
    return [
        {
            "material": material,
            "share": share,
            "mass": Quantity(mass_of(count, step), unit),
            "weighed_share": share_by_mass(count, sum(counts)),
        }
        for (material, share), count in zip(shares.items(), counts, strict=True)
    ]


def _plates_need(catalog: Catalog, plates: int) -> Band:
    """Give the wax to weigh out for plates, in grams, from the least to the most."""
    if not PLATES[0] <= plates <= PLATES[1]:
        raise OutOfRange("plates", plates, "a whole number from 1 to 10000", "what a shop does")
    per, strain, pot = (
        catalog.span("wax-per-plate", "kg"),
        catalog.span("straining-loss", "dimensionless"),
        catalog.span("pot-loss", "dimensionless"),
    )
    ends = [1000 * total_for_plates(plates, per[i], strain[i], pot[i]) for i in (0, 1)]
    return Band(ends[0], None, ends[1], "g", f"{plates} plates, wax per plate and both losses")


def _usable(catalog: Catalog, wanted_g: float, unit: str) -> Band:
    """Give what is left of a batch after straining and what stays in the pot."""
    strain = catalog.span("straining-loss", "dimensionless")
    pot = catalog.span("pot-loss", "dimensionless")
    ends = [
        units.convert(left_after_losses(wanted_g, strain[i], pot[i]), "g", unit) for i in (1, 0)
    ]
    return Band(ends[0], None, ends[1], unit, "after straining and pot loss")


def hot_volume(catalog: Catalog, masses_kg: Mapping[str, float]) -> tuple[Band, list[Basis]]:
    """Give the volume of a melt in mL, and what it rests on.

    Where a liquid density is not known the component counts between its own density cold,
    or the heaviest cold density of the tables, and the lightest melt of the tables: the pot
    that follows is never too small.
    """
    low, high, basis = [], [], []
    for material in masses_kg:
        name = catalog.material(material).name
        lightest, heaviest, known = hot_densities(catalog, material)
        low.append(heaviest)
        high.append(lightest)
        if known:
            source = known.facts[0].source
            basis.append(Basis(f"liquid density of {name}", known.basis, source))
            continue
        basis.append(
            Basis(
                f"liquid density of {name}: not known, counted between {lightest:g} and"
                f" {heaviest:g} kg/m³",
                "derived",
            )
        )
    masses = list(masses_kg.values())
    ends = [melt_millilitres(masses, densities) for densities in (low, high)]
    return Band(ends[0], None, ends[1], "mL", "ideal mixing of the components' volumes"), basis


def hot_densities(catalog: Catalog, material: str) -> tuple[float, float, Known | None]:
    """Give the lightest and the heaviest a melt counts, in kg/m³, and its row where it has one."""
    liquid = catalog.known_or_unknown(material, "density-liquid")
    if isinstance(liquid, Known):
        return _kg_m3(liquid.low, liquid.unit), _kg_m3(liquid.high, liquid.unit), liquid
    lightest, heaviest = _density_ends(catalog)
    solid = catalog.known_or_unknown(material, "density-solid")
    cold = _kg_m3(solid.high, solid.unit) if isinstance(solid, Known) else heaviest
    return lightest, cold, None


def _kg_m3(value: float, unit: str) -> float:
    return units.convert(value, unit, "kg/m**3")


def _density_ends(catalog: Catalog) -> tuple[float, float]:
    """Give the lightest melt and the heaviest cold density that stand in the tables."""
    liquid = [
        _kg_m3(fact.low, fact.unit)
        for fact in catalog.facts
        if fact.property == "density-liquid" and fact.low
    ]
    solid = [
        _kg_m3(fact.high, fact.unit)
        for fact in catalog.facts
        if fact.property == "density-solid" and fact.high
    ]
    return min(liquid), max(solid)


def _pot(catalog: Catalog, volume: Band) -> tuple[Quantity, list[Basis]]:
    pot = pot_millilitres(volume.high, catalog.span("pot-headroom", "dimensionless")[1])
    return Quantity(pot, "mL"), [_figure_basis(catalog.figure("pot-headroom"))]


def _cost(
    catalog: Catalog, shares: Mapping[str, float], masses_kg: list[float]
) -> Quantity | Unknown:
    missing = [material for material in shares if material not in catalog.prices]
    if missing:
        return Unknown(
            f"the cost: no price for {', '.join(missing)}",
            "add a row for each to prices.csv in the shop folder.",
        )
    prices = [price_per_kg(catalog, material) for material in shares]
    return Quantity(batch_cost(masses_kg, prices), catalog.shop.currency)


def price_per_kg(catalog: Catalog, material: str) -> float:
    """Give what a kilogram of a material costs by the shop's prices."""
    price = catalog.prices[material]
    return price.price / units.convert(price.amount, price.unit, "kg")


def _blend_basis(catalog: Catalog, blend: str) -> list[Basis]:
    if not blend:
        return []
    known = catalog.blend(blend)
    return [Basis(f"parts by mass of {blend}", known.basis, known.source)]


def _figure_basis(figure: Figure) -> Basis:
    return Basis(figure.what, figure.basis, figure.source)


def _notes(
    catalog: Catalog, shares: Mapping[str, float], counts: list[int], plates: int | None
) -> list[str]:
    notes = ["Parts are by mass. The blend's name is its ratio; no ratio is recommended."]
    drift = telling_drift(list(shares.values()), counts)
    if drift:
        percent = units.printed(drift * 100, 1)
        notes.append(
            f"The scale's step moves the ratio by {percent} % of the batch: weigh more at once,"
            " or use a finer scale."
        )
    if plates is not None:
        notes.append(
            "Weighed out for the high end, so that the pot does not run dry inside a block."
            " Hot wax ages: split the batch by session, and cast what is left into sticks."
        )
    if any(catalog.material(name).role == "softener" for name in shares):
        notes.append("A softener takes firmness away; how much is from memory. Test before use.")
    return notes
