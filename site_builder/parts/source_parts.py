"""Parts that show where the numbers come from: every source, every value from memory."""

from __future__ import annotations

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from formulas.catalog import Catalog
from site_builder.markup.elements import Cell, element, span, table
from site_builder.parts.bench_parts import by_mass, figure_value
from site_builder.parts.fact_parts import WORDS, condition, fact_value
from site_builder.parts.label_parts import stock_sizes
from site_builder.parts.solvent_memory import remembered_solvents

READ = {"yes": "read", "part": "read in part", "no": "not read, named from memory"}

Remembered = tuple[str, str, Cell, str, str]


def sources(catalog: Catalog, _: str) -> list[Element]:
    """List every source, with what of it was read; each row can be linked to."""
    used = sorted(catalog.sources.values(), key=lambda one: one.id)
    made = table(
        ["Id", "Work", "By", "Year", "Kind", "Was it read?"],
        [
            [
                one.id,
                one.title,
                one.by,
                f"{one.year or ''}",
                one.kind.replace("-", " "),
                f"{READ[one.read]}{f': {one.note}' if one.note else ''}",
            ]
            for one in used
        ],
    )
    for row, one in zip(made.iterfind("tbody/tr"), used, strict=True):
        row.set("id", f"source-{one.id}")
    return [made]


def memory_values(catalog: Catalog, _: str) -> list[Element]:
    """List every value that rests on memory, with the work to check it against."""
    rows: list[list[Cell]] = [
        [table_name, what, told, _work(catalog, source, where)]
        for table_name, what, told, source, where in _from_memory(catalog)
    ]
    return [table(["Table", "What", "Value", "Check against"], rows)]


def _work(catalog: Catalog, source: str, where: str) -> Cell:
    if not source:
        return "no work is named: measure it, or find a source before relying on it"
    place = f", {where}" if where else ""
    return [f"{catalog.sources[source].title}{place} ", element("code", source)]


def _from_memory(catalog: Catalog) -> Iterator[Remembered]:
    yield from _remembered_facts(catalog)
    yield from _remembered_methods(catalog)
    yield from _remembered_blends(catalog)
    for figure in catalog.figures.values():
        if figure.basis == "memory":
            yield "figures", figure.what, figure_value(figure), figure.source, figure.where
    yield from _remembered_effects(catalog)
    yield from _remembered_faults(catalog)
    yield from _remembered_dangers(catalog)
    yield from remembered_solvents(catalog)


def _remembered_facts(catalog: Catalog) -> Iterator[Remembered]:
    for fact in catalog.facts:
        if fact.basis == "memory":
            material = catalog.materials[fact.material].name
            held = condition(catalog, fact)
            what = f"{material}, {WORDS[fact.property]}{f' ({held})' if held else ''}"
            yield "facts", what, fact_value(fact), fact.source, fact.where


def _remembered_methods(catalog: Catalog) -> Iterator[Remembered]:
    for method in catalog.methods.values():
        if method.basis == "memory":
            one, two = (
                span(spread, spread, f"delta_{method.unit}") or "not known"
                for spread in (method.repeatability, method.reproducibility)
            )
            told = f"repeats within {one}; between laboratories {two}"
            yield "methods", method.name, told, method.source, method.where


def _remembered_blends(catalog: Catalog) -> Iterator[Remembered]:
    for blend in catalog.blends.values():
        if blend.basis == "memory":
            yield "blends", blend.name, by_mass(catalog, blend), blend.source, ""
        for what, kind, low, high in (
            ("in service", blend.service_basis, blend.service_low, blend.service_high),
            ("worked at", blend.working_basis, blend.working_low, blend.working_high),
        ):
            told = span(low, high, blend.unit)
            if kind == "memory" and told:
                yield "blends", f"{blend.name}, {what}", told, "", ""


def _remembered_effects(catalog: Catalog) -> Iterator[Remembered]:
    for pair in catalog.pair_effects:
        if pair.basis == "memory":
            first, second = (
                catalog.materials[name].name if name in catalog.materials else "any other"
                for name in (pair.first, pair.second)
            )
            middle = span(pair.mean, pair.mean, pair.unit)
            told = f"{middle}, give or take {span(pair.half_width, pair.half_width, pair.unit)}"
            yield "pair effects", f"{first} with {second}", told, pair.source, ""


def _remembered_faults(catalog: Catalog) -> Iterator[Remembered]:
    for fault in catalog.faults_and_cures.values():
        if fault.basis == "memory":
            yield "faults and cures", fault.symptom, f"{fault.cause}. {fault.cure}", "", ""


def _remembered_pairs(catalog: Catalog) -> Iterator[Remembered]:
    for pair in catalog.incompatible:
        if pair.basis == "memory":
            together = f"{pair.first} with {pair.second}"
            yield "never together", together, pair.what_happens, pair.source, pair.where


def _remembered_dangers(catalog: Catalog) -> Iterator[Remembered]:
    for burn in catalog.burns:
        if burn.basis == "memory":
            hot = span(burn.temperature, burn.temperature, burn.unit_temperature)
            yield "burns", hot, span(burn.time, burn.time, burn.unit_time), burn.source, burn.where
    for hazard in catalog.hazards:
        if hazard.basis == "memory":
            name = catalog.materials[hazard.material].name
            yield "hazards", name, hazard.code, hazard.source, hazard.where
    for statement in catalog.statements.values():
        if statement.basis == "memory":
            yield "statements", statement.code, statement.text, statement.source, statement.where
    yield from _remembered_pairs(catalog)
    yield from _remembered_labels(catalog)
    for caution in catalog.cautions.values():
        if caution.basis == "memory":
            yield "cautions", caution.title, caution.text, caution.source, caution.where


def _remembered_labels(catalog: Catalog) -> Iterator[Remembered]:
    for rule in catalog.mixture_rules:
        if rule.basis == "memory":
            yield "mixture rules", rule.hazard, rule.rule, rule.source, rule.where
    for sign in catalog.pictograms.values():
        if sign.basis == "memory":
            what = f"{sign.code}, {sign.name.lower()}"
            yield "pictograms", what, sign.stands_for, sign.source, sign.where
    for stock in catalog.label_stock.values():
        if stock.basis == "memory":
            yield "label stock", stock.id, stock_sizes(stock), stock.source, stock.where
