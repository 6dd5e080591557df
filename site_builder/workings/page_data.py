"""What the page's script needs to know of the tables, as plain lists and dicts for JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from formulas.softening import estimate as softening
from formulas.softening.estimate import RESINS
from formulas.softening.prior import pairs
from formulas.units import NUMBER, convert, spoken_unit
from formulas.wax import mix
from site_builder.markup.unbroken import IN_ONE_LINE
from site_builder.places import TEMPLATES

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.softening.estimate import Model

METHOD_BY_RULE = "left alone, see below"
LITRE_ML = 1e6  # millilitres of a cubic metre


def bench_script() -> str:
    """Give the script of the workings: what they share, then each, then the start."""
    files = sorted((TEMPLATES / "bench").glob("*.js"), key=lambda path: (path.stem != "core", path))
    return "\n".join([*(path.read_text("utf-8") for path in files), "bench_kit.start();\n"])


def page_data(catalog: Catalog) -> dict[str, Any]:
    """Give what `window.bench_data` holds. Materials stand in the order of the model."""
    shop = catalog.shop
    return {
        "number": NUMBER.pattern,
        "in_one_line": IN_ONE_LINE,
        "materials": {name: _material(catalog, name) for name in catalog.materials},
        "blends": {
            name: {"name": blend.name, "parts": dict(blend.parts)}
            for name, blend in catalog.blends.items()
        },
        "scale": {
            "step": shop.scale_step,
            "unit": shop.scale_unit,
            "shown": spoken_unit(shop.scale_unit),
            "kilograms": convert(1, shop.scale_unit, "kg"),
            "grams": convert(1, shop.scale_unit, "g"),
        },
        "currency": shop.currency,
        "degrees": "°F" if shop.units == "US" else "°C",
        "usual": shop.usual,
        "figures": {
            "plate": catalog.span("wax-per-plate", "kg"),
            "strained": catalog.span("straining-loss", "dimensionless"),
            "potted": catalog.span("pot-loss", "dimensionless"),
            "filled": catalog.span("pot-headroom", "dimensionless")[1],
            "softener": catalog.span("softener-limit", "dimensionless")[1],
            "creep_widest": catalog.span("creep-widest-band", "delta_degC")[1],
        },
        "methods": {
            name: _method(catalog, softening.model(catalog, name))
            for name, method in catalog.methods.items()
            if method.estimated
        },
    }


def _material(catalog: Catalog, name: str) -> dict[str, Any]:
    """Give what one material brings into a batch; the densities follow from a kilogram's volume."""
    material = catalog.materials[name]
    volume, basis = mix.hot_volume(catalog, {name: 1.0})
    priced = name in catalog.prices
    return {
        "name": material.name,
        "softens": material.role == "softener",
        "resin": int(material.kind in RESINS),
        "densities": [LITRE_ML / volume.low, LITRE_ML / volume.high],
        "density_told": next((one.what for one in basis if one.basis == "derived"), ""),
        "price": mix.price_per_kg(catalog, name) if priced else None,
    }


def _method(catalog: Catalog, held: Model) -> dict[str, Any]:
    """Give one method's model by names, so that the page can cut it down to a blend's bodies."""
    bodies = held.bodies
    named = [f"{bodies[i]} {bodies[j]}" for i, j in pairs(len(bodies))]
    terms = [*bodies, *named, *(f"skew {name}" for name in named), "softener", "rig"]
    return {
        "name": catalog.methods[held.method].name.lower(),
        "creep": held.method in softening.CREEP,
        "tests": held.tests,
        "ends": dict(zip(bodies, held.ends, strict=True)),
        "bends": _by_pair(bodies, held.bends),
        "skews": _by_pair(bodies, held.skews),
        "slope": held.slope,
        "noise": held.noise,
        "lot": held.lot,
        "reference": _reference(held, terms),
        "covariance": {
            row: {term: value for term, value in zip(terms, values, strict=True) if value}
            for row, values in zip(terms, held.covariance, strict=True)
        },
    }


def _by_pair(bodies: tuple[str, ...], values: list[list[float]]) -> dict[str, float]:
    return {f"{bodies[i]} {bodies[j]}": values[i][j] for i, j in pairs(len(bodies)) if values[i][j]}


def _reference(held: Model, terms: list[str]) -> dict[str, Any] | None:
    """Give what the reference wax would tell of the newest session, where it is asked for."""
    if held.reference is None:
        return None
    shared = dict(zip(terms, held.reference.shared, strict=True))
    return {
        "material": held.reference.material,
        "session": held.reference.session,
        "own": held.reference.own,
        "shared": {term: value for term, value in shared.items() if value},
    }
