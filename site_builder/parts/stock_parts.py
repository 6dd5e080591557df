"""What the stock leaves place: kinds of valve stock, what tables hold of them, the shop's own."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.answer import Unknown
from formulas.valves.ramp import next_factor, stock_factor, student_factor
from formulas.valves.readings import expected_spread
from formulas.valves.stiffness import stiffness
from formulas.valves.typed import share_printed
from site_builder.markup.elements import (
    Cell,
    basis,
    element,
    noted_table,
    paragraph,
    span,
    table,
    unknown,
)
from site_builder.parts.bench_parts import known_id
from site_builder.texts.stiffness import row_said

if TYPE_CHECKING:
    from formulas.catalog import Catalog

KINDS = {
    "leather": "leather",
    "film": "film",
    "microfibre": "microfibre",
    "woven": "woven cloth",
    "card": "card",
}
WORDS = {
    "density": "density",
    "bending-modulus": "modulus in bending",
    "tensile-modulus": "modulus in pulling",
    "thickness": "thickness",
    "mass-per-area": "mass per area",
    "poisson-ratio": "sideways shrink against stretch",
    "glass-transition": "softens as a glass does",
    "strain-limit": "strain it springs back from",
    "stress-at-strain": "stress at a strain",
    "tensile-strength": "strength",
    "flexural-rigidity": "rigidity",
    "thermal-expansion": "expansion by heat",
    "direction-effect": "direction",
}
SHOP_ROWS = ("measured", "invented")


def valve_materials(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what valves are cut from."""
    rows = [
        [
            one.name,
            KINDS[one.kind],
            _way(one.kind) if one.backbone == "yes" else "any way",
            one.about,
        ]
        for one in catalog.valve_materials.values()
    ]
    return [table(["Material", "Kind", "Is cut", "About it"], rows)]


def _way(kind: str) -> str:
    """Say which way a set is cut: only a skin has a backbone."""
    return "along the backbone" if kind == "leather" else "one way of the roll or sheet"


def valve_facts(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate what the tables hold of the materials named."""
    found: list[Element] = []
    for name in argument.split() or [""]:
        known = catalog.valve_materials
        material = known[known_id(name, known, "an id of valve_materials.csv")]
        rows: list[list[Cell]] = [
            [
                WORDS[fact.property],
                span(fact.low, fact.high, fact.unit) or "see the note",
                "; ".join(words for words in (fact.method, fact.condition) if words),
                basis(fact.basis, fact.source, fact.where),
                fact.note,
            ]
            for fact in catalog.valve_facts
            if fact.material == name
        ]
        made = noted_table(["Property", "Value", "Method, condition", "Basis", "Note"], rows)
        made.insert(0, element("caption", material.name))
        found.append(made)
    return found


def own_stocks(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what the shop's own stocks are to a valve."""
    found = _answers(catalog, own=True)
    if not found:
        return [paragraph("No stock of your own stands in valve_stock.csv yet.")]
    head = ["Stock", "Mass per area", "Bending length", "One more strip", "Rigidity, by width",
            "Rests on"]  # fmt: skip
    return [table(head, [_own(one, catalog.shop.units == "US") for one in found])]


def stock_grades(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the grades of the trade with what a table tells of each."""
    head = ["Grade", "Thickness", "Mass per area", "Bending length", "Rests on"]
    us = catalog.shop.units == "US"
    return [table(head, [_grade(catalog, one, us) for one in _answers(catalog, own=False)])]


def _answers(catalog: Catalog, *, own: bool) -> list[dict[str, Any]]:
    return [
        stiffness(catalog, name).answer
        for name, row in catalog.valve_stock.items()
        if (row.basis in SHOP_ROWS) == own
    ]


def _shown(found: dict[str, Any], name: str, us: bool) -> Cell:
    value = found[name]
    if isinstance(value, Unknown):
        return unknown(value.find_out)
    return "" if value is None else row_said(name, value, us)


def _grade(catalog: Catalog, found: dict[str, Any], us: bool) -> list[Cell]:
    row = catalog.valve_stock[found["stock"]]
    return [
        found["name"],
        span(row.thickness_low, row.thickness_high, row.thickness_unit),
        *(_shown(found, name, us) for name in ("mass_per_area", "bending_length")),
        basis(found["bends_basis"], row.source, found["how"]) if found["how"] else "",
    ]


def _own(found: dict[str, Any], us: bool) -> list[Cell]:
    names = ("mass_per_area", "bending_length", "next_strip", "rigidity")
    rests = basis(found["bends_basis"], "", found["how"]) if found["how"] else ""
    return [found["name"], *(_shown(found, name, us) for name in names), rests]


COUNTS = (1, 2, 3, 4, 6, 10)


def strips_needed(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate how wide both bands are after so many strips, with the spread that is expected."""
    spread, weight = expected_spread(catalog)
    rows = []
    for count in COUNTS:
        factor = student_factor(weight + count - 1)
        of_stock = stock_factor(factor, spread, count) - 1
        of_next = next_factor(factor, spread, count) - 1
        rows.append([str(count), share_printed(of_stock), share_printed(of_next)])
    head = ["Strips", "The stock, ±", "One more strip, ±"]
    return [table(head, rows, right=[0, 1, 2])]
