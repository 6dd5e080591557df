"""Parts that show where the numbers come from: every source, every value from memory."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from xml.etree.ElementTree import Element

from formulas.catalog import Catalog
from formulas.entries import Source
from site_builder.markup.elements import Cell, Content, element, paragraph, span, table
from site_builder.parts.bench_parts import by_mass, figure_value
from site_builder.parts.fact_parts import WORDS, condition, fact_value
from site_builder.parts.label_parts import stock_sizes
from site_builder.parts.solvent_memory import remembered_solvents

READ = {"yes": "read", "part": "read in part", "no": "not read, named from memory"}

Remembered = tuple[str, str, Cell, str, str]
"""Kind, what, value, source and place in it."""

MANY_OF_A_WORK = 6
WHAT = ("What", "Value")
KINDS: dict[str, tuple[str, Sequence[str]]] = {
    "cautions": ("Cautions", ("Caution", "What it says")),
    "never together": ("Never together", ("What with what", "What happens")),
    "burns": ("Burns", ("Heat on the skin", "Time to a burn")),
    "hazards": ("Hazards of materials", ("Material", "Code")),
    "statements": ("Hazard and precaution statements", ("Code", "Statement")),
    "mixture rules": ("What makes a blend hazardous", ("Hazard", "Rule")),
    "pictograms": ("Pictograms", ("Pictogram", "Stands for")),
    "solvent hazards": ("Hazards of solvents", ("Solvent", "Codes")),
    "exposure limits": ("Limits of the air", WHAT),
    "solvents": ("Solvents", ("Solvent", "Used for")),
    "solvent facts": ("Values of solvents", WHAT),
    "facts": ("Materials", WHAT),
    "methods": ("Test methods", WHAT),
    "blends": ("Blends", ("Blend", "Ratio")),
    "pair effects": ("Two materials together", WHAT),
    "faults and cures": ("Faults and cures", ("What you see or hear", "Cause and cure")),
    "figures": ("Figures of the bench", WHAT),
    "label stock": ("Sheets of labels", ("Sheet", "Sizes")),
}
"""What is remembered, in the order of the list: what guards people first; title and heads."""


def sources(catalog: Catalog, _: str) -> list[Element]:
    """List every source, with what of it was read; each row can be linked to."""
    used = sorted(catalog.sources.values(), key=lambda one: one.id)
    made = table(
        ["Id", "Work", "By, year; kind", "Was it read?"],
        [
            [
                one.id,
                one.title,
                _made(one),
                f"{READ[one.read]}{f': {one.note}' if one.note else ''}",
            ]
            for one in used
        ],
    )
    for row, one in zip(made.iterfind("tbody/tr"), used, strict=True):
        row.set("id", f"source-{one.id}")
    return [made]


def _made(one: Source) -> str:
    """Say who made a work, when, and what kind of work it is."""
    by = ", ".join(said for said in (one.by, f"{one.year or ''}") if said)
    return "; ".join(said for said in (by, one.kind.replace("-", " ")) if said)


def memory_values(catalog: Catalog, _: str) -> list[Element]:
    """List every value that rests on memory: by work where one is named, else by its kind."""
    rows = list(_from_memory(catalog))
    return [*_with_a_work(catalog, rows), *_without_a_work(rows)]


def _with_a_work(catalog: Catalog, rows: Sequence[Remembered]) -> Iterator[Element]:
    """Give a table for each place in a work that holds many, and one for all that hold few."""
    by_place: dict[tuple[str, str], list[Remembered]] = {}
    for row in rows:
        if row[3]:
            by_place.setdefault((row[3], row[4]), []).append(row)
    if not by_place:
        return
    yield element("h2", "With a work to check against", id="with-a-work")
    few: list[list[Cell]] = []
    for source, where in sorted(by_place, key=lambda place: catalog.sources[place[0]].title):
        found = by_place[source, where]
        if len(found) < MANY_OF_A_WORK:
            few += [[what, told, _work(catalog, source, where)] for _, what, told, _, _ in found]
        else:
            yield element("h3", *_work(catalog, source, where), id=_named("work", source, where))
            yield table(WHAT, [[what, told] for _, what, told, _, _ in found])
    if few:
        yield element("h3", "Works with a value or two", id="few-of-a-work")
        yield table([*WHAT, "Check against"], few)


def _work(catalog: Catalog, source: str, where: str) -> list[Content]:
    title = catalog.sources[source].title
    place = f", {where}" if where and not title.endswith(where) else ""
    return [f"{title}{place} ", element("code", source)]


def _without_a_work(rows: Sequence[Remembered]) -> Iterator[Element]:
    """Give a table for each kind of value that no work is named for."""
    by_kind: dict[str, list[Remembered]] = {}
    for row in rows:
        if not row[3]:
            by_kind.setdefault(row[0], []).append(row)
    if not by_kind:
        return
    yield element("h2", "Without a work", id="without-a-work")
    yield paragraph(
        "For none of these a work is named: measure it, or find a source before relying on it."
    )
    for kind in sorted(by_kind, key=list(KINDS).index):
        title, heads = KINDS[kind]
        yield element("h3", title, id=_named("kind", kind))
        yield table(heads, [[what, told] for _, what, told, _, _ in by_kind[kind]])


def _named(*words: str) -> str:
    return "-".join(re.findall("[a-z0-9]+", " ".join(words).lower()))


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
            named = [
                catalog.materials[name].name
                for name in (pair.first, pair.second)
                if name in catalog.materials
            ]
            both = " with ".join([*named, "any other"][:2]) if named else "Any two without a row"
            what = f"{both}: softening off the straight line, for the one share times the other"
            middle = span(pair.mean, pair.mean, pair.unit)
            told = f"{middle}, give or take {span(pair.half_width, pair.half_width, pair.unit)}"
            yield "pair effects", what, f"{told}; half and half a quarter of it", pair.source, ""


def _remembered_faults(catalog: Catalog) -> Iterator[Remembered]:
    for fault in catalog.faults_and_cures.values():
        if fault.basis == "memory":
            yield "faults and cures", fault.symptom, f"{fault.cause}. {fault.cure}", "", ""


def _remembered_pairs(catalog: Catalog) -> Iterator[Remembered]:
    for pair in catalog.incompatible:
        if pair.basis == "memory":
            together = f"{pair.first} with {pair.second[:1].lower()}{pair.second[1:]}"
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
