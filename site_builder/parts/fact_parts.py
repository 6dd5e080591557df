"""Parts that show what the tables hold of materials, methods, hazards and sources."""

from __future__ import annotations

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from formulas.answer import Unknown
from formulas.best_basis import RANK
from formulas.catalog import Catalog
from formulas.entries import Fact, Known, Material
from formulas.frozen import Frozen
from formulas.hazard_entries import Hazard, Statement
from formulas.units import convert
from site_builder.markup.elements import (
    Cell,
    basis,
    decimals,
    element,
    noted_table,
    paragraph,
    span,
    table,
    unknown,
    value,
)
from site_builder.parts.bench_parts import known_id

MATERIAL = "an id of materials.csv"
DENSITIES = ("density-solid", "density-liquid")
PER_CUBIC_METRE = "kg/m**3"
"""The unit of a density in running text: two that stand in one sentence are compared there."""

# The groups of a material's properties, each with the words for its rows; temperatures first.
GROUPS = {
    "Temperature": {
        "softening-point": "softens or melts",
        "colour-onset": "colours above",
        "fume-onset": "fumes above",
        "flash-point": "flash point",
        "autoignition": "takes fire by itself",
    },
    "Density and heat": {
        "state": "state",
        "density-solid": "density, solid",
        "density-liquid": "density, liquid",
        "specific-heat": "specific heat",
        "latent-heat": "latent heat of melting",
        "linear-expansion": "linear expansion",
        "volume-contraction": "volume lost on setting",
        "volume-increase-on-melting": "volume gained on melting",
    },
    "Purity": {
        "acid-value": "acid value",
        "ester-value": "ester value",
        "saponification-value": "saponification value",
        "ester-acid-ratio": "ester value to acid value",
    },
    "Air limit": {
        "exposure-limit-8h": "limit over 8 hours",
        "exposure-limit-15min": "limit over 15 minutes",
    },
}
WORDS = {name: words for group in GROUPS.values() for name, words in group.items()}

# What a reader looks for first: it is said where it is not known.
LOOKED_FOR = ("flash-point", "density-solid", "density-liquid", "specific-heat", "latent-heat")

CUPS = {
    "closed-cup": "closed cup",
    "open-cup": "open cup",
    "cup-not-stated": "cup not stated",
}


def _article(material: Material) -> str:
    kind = f"{'An' if material.kind[0] in 'aeiou' else 'A'} {material.kind}"
    also = f", also called {material.also_called.replace(';', ',')}" if material.also_called else ""
    number = f"; CAS {', '.join(material.cas.split())}" if material.cas else ""
    return f"{kind}{also}{number}."


def facts(catalog: Catalog, argument: str) -> list[Element]:
    """Show everything the tables hold of one material, and what of importance they lack."""
    material = catalog.materials[known_id(argument, catalog.materials, MATERIAL)]
    about = paragraph(f"{_article(material)} {material.about}".rstrip())
    return [
        about,
        *_fact_tables(catalog, argument),
        *hazards(catalog, argument),
        *_not_known(catalog, material),
    ]


def _fact_tables(catalog: Catalog, material: str) -> Iterator[Element]:
    rows = catalog.facts_of(material)
    by = list(catalog.methods)
    for title, words in GROUPS.items():
        order = list(words)
        group = [fact for fact in rows if fact.property in words]
        group.sort(key=lambda fact: (order.index(fact.property), _rank(by, fact), fact.low or 0))
        if group:
            method = "Test method, condition" if title == "Temperature" else "Condition"
            made = noted_table(
                [title, "Value", method, "Basis", "Note"],
                [
                    [
                        words[fact.property],
                        fact_value(fact),
                        condition(catalog, fact),
                        basis(fact.basis, fact.source, fact.where),
                        fact.note,
                    ]
                    for fact in group
                ],
            )
            made.set("class", "titled")  # its first head stands above its cards on a phone
            yield made


def _rank(methods: list[str], fact: Fact) -> int:
    return methods.index(fact.method) if fact.method in methods else len(methods)


def fact_value(fact: Fact) -> Cell:
    """Give the value of one row; a state is told in words."""
    text = span(fact.low, fact.high, fact.unit)
    if text or fact.property == "state":
        return text or "see the note"
    return unknown("no row gives a number")


def method_name(catalog: Catalog, method: str) -> str:
    """Give a test method in words."""
    return CUPS[method] if method in CUPS else catalog.methods[method].name


def condition(catalog: Catalog, fact: Fact) -> str:
    """Say by which method and under which conditions a value holds."""
    method = method_name(catalog, fact.method) if fact.method else ""
    return "; ".join(words for words in (method, fact.condition) if words)


def _not_known(catalog: Catalog, material: Material) -> list[Element]:
    wanted = [(name, "") for name in LOOKED_FOR]
    if material.role == "body":
        wanted += [("softening-point", method) for method in _estimated(catalog)]
    missing: dict[str, list[str]] = {}
    for name, method in wanted:
        found = known_or_unknown(catalog, material.id, name, method)
        if isinstance(found, Unknown):
            by = f" by {method_name(catalog, method)}" if method else ""
            missing.setdefault(found.find_out.rstrip("."), []).append(f"{WORDS[name]}{by}")
    return [
        paragraph(f"Looked for, {material.name}: {'; '.join(names)}: ", unknown(reason), ".")
        for reason, names in missing.items()
    ]


def _estimated(catalog: Catalog) -> list[str]:
    return [name for name, method in catalog.methods.items() if method.estimated]


class Above(Frozen):
    """A property of which only the lower end is known."""

    low: float
    high: None
    unit: str
    basis: str
    facts: tuple[Fact, ...]


def known_or_unknown(
    catalog: Catalog, material: str, name: str, method: str = ""
) -> Known | Above | Unknown:
    """Give what the tables say of a property; a row that only says "above" counts where no
    other does.
    """
    found = catalog.known_or_unknown(material, name, method)
    rows = [
        fact
        for fact in catalog.facts_of(material)
        if fact.property == name and method in {"", fact.method} and fact.low is not None
    ]
    if isinstance(found, Known) or not rows:
        return found
    best = min(rows, key=lambda fact: (RANK[fact.basis], fact.low))
    return Above(best.low or 0.0, None, best.unit, best.basis, (best,))


def inline_fact(catalog: Catalog, material: str, name: str, method: str) -> Element:
    """Give one property of a material for running text; what is not known says so."""
    found = known_or_unknown(catalog, material, name, method)
    if isinstance(found, Unknown):
        return unknown(found.find_out.rstrip("."))
    text = _density(found) if name in DENSITIES else _as_printed(found)
    named = {fact.source for fact in found.facts}
    return value(found, named.pop() if len(named) == 1 else "", text)


def _as_printed(found: Known | Above) -> str:
    ends = [end for fact in found.facts for end in (fact.low, fact.high) if end is not None]
    return span(found.low, found.high, found.unit, max(map(decimals, ends)))


def _density(found: Known | Above) -> str:
    """Give a density in the one unit of running text, to the digits of its rows."""
    ends = [
        float(f"{convert(end, fact.unit, PER_CUBIC_METRE):.9g}")
        for fact in found.facts
        for end in (fact.low, fact.high)
        if end is not None
    ]
    low, high = (
        None if end is None else convert(end, found.unit, PER_CUBIC_METRE)
        for end in (found.low, found.high)
    )
    return span(low, high, PER_CUBIC_METRE, max(map(decimals, ends)))


def hazards(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate the hazard statements of one material."""
    material = catalog.materials[known_id(argument, catalog.materials, MATERIAL)]
    rows = [hazard for hazard in catalog.hazards if hazard.material == argument]
    if not rows:
        reason = "read section 2 of the supplier's safety data sheet; no row does not mean harmless"
        return [paragraph(f"Hazard statements of {material.name}: ", unknown(reason), ".")]
    head = ["Code", "Hazard statement", "Basis", "Note"]
    return [noted_table(head, [_hazard(catalog, row) for row in rows])]


def _hazard(catalog: Catalog, hazard: Hazard) -> list[Cell]:
    statement = catalog.statements[hazard.code]
    text = f"{statement.signal}: {statement.text}" if statement.signal else statement.text
    return [hazard.code, text, basis(hazard.basis, hazard.source, hazard.where), hazard.note]


def statements(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate the statement codes that materials lead to, with their texts."""
    return _statements(catalog, _codes_of(catalog, argument.split() or [""]))


def every_statement(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate every statement code in use, with its text."""
    return _statements(catalog, _codes_in_use(catalog))


def _statements(catalog: Catalog, used: set[str]) -> list[Element]:
    rows = [
        [
            one.code,
            _whole_statement(one),
            basis(one.basis, one.source, one.where),
        ]
        for one in sorted(catalog.statements.values(), key=lambda one: one.code)
        if one.code in used
    ]
    return [table(["Code", "Statement", "Basis"], rows)]


def _whole_statement(one: Statement) -> str:
    """Give a statement with its signal word and its pictogram, where it has them."""
    signal = f"{one.signal}: " if one.signal else ""
    sign = f" Pictogram: {one.pictogram.replace('-', ' ')}." if one.pictogram else ""
    return f"{signal}{one.text}{sign}"


def _codes_of(catalog: Catalog, materials: list[str]) -> set[str]:
    """Give the codes of materials, of blends of them, and of the precautions that follow."""
    named = {known_id(name, catalog.materials, MATERIAL) for name in materials}
    own = {hazard.code for hazard in catalog.hazards if hazard.material in named}
    used = own | {
        code for rule in catalog.mixture_rules if rule.hazard in own for code in rule.gives
    }
    rows = [row for row in catalog.hazard_precautions if row.used and row.hazard in used]
    return used | {row.precaution for row in rows}


def _codes_in_use(catalog: Catalog) -> set[str]:
    used = {hazard.code for hazard in catalog.hazards}
    used |= {code for caution in catalog.cautions.values() for code in caution.codes}
    used |= {code for rule in catalog.mixture_rules for code in rule.gives}
    return used | {row.precaution for row in catalog.hazard_precautions if row.used}


def materials(catalog: Catalog, _: str) -> list[Element]:
    """List every material of the tables."""
    rows: list[list[Cell]] = [
        [
            one.name,
            one.kind,
            {"body": "body of a blend", "softener": "softener"}.get(one.role, one.role),
            one.also_called.replace(";", ","),
            element("code", one.id),
        ]
        for one in catalog.materials.values()
    ]
    return [table(["Material", "Kind", "In a blend", "Also called", "Id"], rows)]


def methods(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the test methods: what each tells and cannot tell, and how well it repeats."""
    all_methods = list(catalog.methods.values())
    told = table(
        ["Method", "Fit for", "Tells", "Cannot tell"],
        [[one.name, one.fit_for, one.tells, one.cannot_tell] for one in all_methods],
    )
    rows: list[list[Cell]] = [
        [
            one.name,
            one.standard,
            *(
                span(spread, spread, f"delta_{one.unit}") or unknown("")
                for spread in (one.repeatability, one.reproducibility)
            ),
            basis(one.basis, one.source, one.where),
        ]
        for one in all_methods
    ]
    head = ["Method", "Standard", "One person", "Two laboratories", "Basis"]
    between = (
        "How far two readings of one wax may lie apart, 95 times of 100. Where it is not known, "
        "read one kept lot several times and see how far the readings lie apart:"
    )
    return [told, paragraph(between), table(head, rows)]
