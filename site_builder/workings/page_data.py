"""What the page's script needs to know of the tables, as plain lists and dicts for JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from formulas import mix, softening
from formulas.softening import RESINS
from formulas.units import NUMBER, convert, spoken_unit
from site_builder.places import TEMPLATES

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.softening import Model

METHOD_BY_RULE = "by rule: ring and ball above half resin, else drop point"
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
        "figures": {
            "plate": catalog.span("wax-per-plate", "kg"),
            "strained": catalog.span("straining-loss", "dimensionless"),
            "potted": catalog.span("pot-loss", "dimensionless"),
            "filled": catalog.span("pot-headroom", "dimensionless")[1],
            "softener": catalog.span("softener-limit", "dimensionless")[1],
            "noise": catalog.figure("home-rig-spread").high ** 2,
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
    pairs = [(i, j) for i in range(len(bodies)) for j in range(i + 1, len(bodies))]
    terms = [*bodies, *(f"{bodies[i]} {bodies[j]}" for i, j in pairs), "softener"]
    return {
        "name": catalog.methods[held.method].name.lower(),
        "tests": held.tests,
        "ends": dict(zip(bodies, held.ends, strict=True)),
        "bends": {f"{bodies[i]} {bodies[j]}": held.bends[i][j] for i, j in pairs},
        "slope": held.slope,
        "covariance": {
            row: {term: value for term, value in zip(terms, values, strict=True) if value}
            for row, values in zip(terms, held.covariance, strict=True)
        },
    }
