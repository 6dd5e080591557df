"""What can be placed in a leaf, by name: the block parts and the values in running text."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from formulas.catalog import Catalog
from formulas.fault import UnknownName
from site_builder.parts import (
    bedding_parts,
    bench_parts,
    bench_test_parts,
    book_parts,
    drawing_parts,
    fact_parts,
    form_parts,
    glue_parts,
    heat_parts,
    job_book_parts,
    job_survey_parts,
    label_parts,
    people_parts,
    practice_parts,
    protection_parts,
    reed_parts,
    register_parts,
    seating_parts,
    solvent_parts,
    source_parts,
    stock_parts,
    tested_parts,
    unit_parts,
    valve_chart_parts,
    valve_parts,
    window_charts,
    word_parts,
)
from site_builder.parts.bench_parts import known_id
from site_builder.parts.shelf import Part, Shelf

PARTS = {
    "basis-key": Part(bench_parts.basis_key, argument=False),
    "batch": Part(bench_parts.batch, argument=True),
    "bend-rods": Part(bench_test_parts.bend_rods, argument=False),
    "blend": Part(bench_parts.blend, argument=True),
    "blends": Part(bench_parts.blends, argument=False),
    "boiling": Part(bench_test_parts.boiling, argument=False),
    "burn-at": Part(protection_parts.burn_at, argument=True),
    "burns": Part(bench_parts.burns, argument=False),
    "chemical-register": Part(register_parts.chemical_register, argument=False),
    "caution": Part(bench_parts.caution, argument=True),
    "cautions": Part(bench_parts.cautions, argument=True),
    "cleaning-tasks": Part(solvent_parts.cleaning_tasks, argument=False),
    "chart": Part(bench_parts.chart, argument=True),
    "creep-loads": Part(bench_test_parts.creep_loads, argument=False),
    "drawing": Part(drawing_parts.drawing, argument=True),
    "every-statement": Part(fact_parts.every_statement, argument=False),
    "exercise-keys": Part(practice_parts.keys, argument=True),
    "exercises": Part(practice_parts.exercises, argument=True),
    "facts": Part(fact_parts.facts, argument=True),
    "faults": Part(bedding_parts.faults, argument=True),
    "figures": Part(bench_parts.figures, argument=True),
    "first-year": Part(people_parts.first_year, argument=True),
    "form-choice": Part(form_parts.form_choice, argument=True),
    "form-halves": Part(register_parts.form_halves, argument=True),
    "form-lines": Part(bench_parts.form_lines, argument=True),
    "form-table": Part(form_parts.form_table, argument=True),
    "formula": Part(bench_parts.formula, argument=True),
    "gasket-fasteners": Part(seating_parts.gasket_fasteners, argument=False),
    "gaskets": Part(seating_parts.gaskets, argument=False),
    "glossary": Part(word_parts.glossary, argument=False),
    "glue-choice": Part(glue_parts.glue_choice, argument=True),
    "glues": Part(glue_parts.glues, argument=False),
    "hazards": Part(fact_parts.hazards, argument=True),
    "incompatible": Part(protection_parts.incompatible, argument=False),
    "jar-label-order": Part(label_parts.jar_label_order, argument=False),
    "label": Part(label_parts.label, argument=True),
    "label-order": Part(label_parts.label_order, argument=False),
    "label-stock": Part(label_parts.label_stock, argument=True),
    "limit-sensitivity": Part(valve_chart_parts.limit_sensitivity, argument=True),
    "limits": Part(valve_parts.limits, argument=True),
    "materials": Part(fact_parts.materials, argument=False),
    "measuring-helps": Part(reed_parts.measuring_helps, argument=False),
    "memory-values": Part(source_parts.memory_values, argument=False),
    "methods": Part(fact_parts.methods, argument=False),
    "mistakes": Part(bedding_parts.mistakes, argument=True),
    "new-page": Part(form_parts.new_page, argument=False),
    "own-figures": Part(job_book_parts.own_figures, argument=False),
    "own-limits": Part(glue_parts.own_limits, argument=False),
    "pictograms": Part(label_parts.pictograms, argument=False),
    "plates-compared": Part(reed_parts.plates_compared, argument=False),
    "pot-book": Part(book_parts.pot_book, argument=False),
    "pot-sheet": Part(book_parts.pot_sheet, argument=True),
    "protection": Part(protection_parts.protection, argument=False),
    "read-from": Part(register_parts.read_from, argument=True, holds=True),
    "reed-sizes": Part(reed_parts.reed_sizes, argument=False),
    "seat-leaks": Part(seating_parts.seat_leaks, argument=False),
    "seats": Part(seating_parts.seats, argument=True),
    "seats-by-service": Part(seating_parts.seats_by_service, argument=False),
    "seats-refused": Part(seating_parts.seats_refused, argument=False),
    "softening-now": Part(tested_parts.softening_now, argument=True),
    "softening-tests": Part(tested_parts.softening_tests, argument=False),
    "postures": Part(valve_parts.postures, argument=False),
    "shop-jobs": Part(job_book_parts.shop_jobs, argument=False),
    "solvent-attacks": Part(solvent_parts.solvent_attacks, argument=False),
    "solvent-fire": Part(solvent_parts.solvent_fire, argument=False),
    "solvent-hazards": Part(solvent_parts.solvent_hazards, argument=False),
    "solvent-limits": Part(solvent_parts.solvent_limits, argument=False),
    "solvent-values": Part(solvent_parts.solvent_values, argument=True),
    "solvents": Part(solvent_parts.solvents, argument=False),
    "sources": Part(source_parts.sources, argument=False),
    "step-needs": Part(people_parts.step_needs, argument=True),
    "steps-by-people": Part(people_parts.steps_by_people, argument=False),
    "statements": Part(fact_parts.statements, argument=True),
    "term-index": Part(word_parts.term_index, argument=False),
    "test-sheet": Part(people_parts.test_sheet, argument=True),
    "valve-classes": Part(reed_parts.valve_classes, argument=False),
    "own-stocks": Part(stock_parts.own_stocks, argument=False),
    "stock-grades": Part(stock_parts.stock_grades, argument=False),
    "strips-needed": Part(stock_parts.strips_needed, argument=False),
    "valve-facts": Part(stock_parts.valve_facts, argument=True),
    "valve-materials": Part(stock_parts.valve_materials, argument=False),
    "valve-chart": Part(valve_chart_parts.valve_chart, argument=True),
    "valve-charts": Part(valve_chart_parts.valve_charts, argument=False),
    "window-chart": Part(window_charts.placed_chart, argument=True),
    "grade-scale": Part(job_survey_parts.grade_scale, argument=False),
    "order-of-work": Part(job_survey_parts.work_order, argument=True),
    "step-times": Part(job_survey_parts.step_times, argument=False),
    "survey-form": Part(job_survey_parts.survey_form, argument=False),
    "survey-grades": Part(job_survey_parts.survey_grades, argument=True),
    "unit-factors": Part(unit_parts.unit_factors, argument=False),
    "thermometer-shows": Part(heat_parts.thermometer_shows, argument=False),
    "who-may-do-what": Part(people_parts.who_may_do_what, argument=False),
    "working": Part(bench_parts.working, argument=True),
}

METHOD = "material:property@method, with the test method"


def place(catalog: Catalog, name: str, argument: str) -> list[Element]:
    """Draw one part. Raises UnknownName for a part or an argument that is not there."""
    return SHELF.place(catalog, name, argument)


def inline(catalog: Catalog, name: str) -> Element:
    """Give the value named `material:property`, `material:property@method` or `figure:id`.

    `limit:id` gives a limit of valves, `repeatability:method` how far two readings of one person
    may lie apart.
    Raises UnknownName, which carries the whole name and every name near it that is there.
    """
    material, _, rest = name.partition(":")
    prop, at, method = rest.partition("@")
    if material == "figure":
        known_id(name, [f"figure:{one}" for one in catalog.figures], "figure:id of figures.csv")
        return bench_parts.inline_figure(catalog, rest)
    if material == "limit":
        known_id(name, [f"limit:{one}" for one in catalog.valve_limits], "limit:id")
        return valve_parts.inline_limit(catalog, rest)
    if material == "repeatability":
        known_id(name, [f"repeatability:{one}" for one in catalog.methods], "repeatability:method")
        return bench_test_parts.inline_repeatability(catalog, rest)
    wholes = [f"{one}:{rest}" for one in catalog.materials]
    known_id(name, wholes if rest else [], "material:property, material:property@method, figure:id")
    properties = [f"{material}:{one}{at}{method}" for one in fact_parts.WORDS]
    known_id(name, properties, "a property of facts.csv after the material")
    methods = [f"{material}:{prop}{one}" for one in _methods(catalog, prop)]
    if not at and "" not in _methods(catalog, prop):
        raise UnknownName(METHOD, name, [])
    known_id(name, methods, METHOD if methods[1:] else "no method")
    return fact_parts.inline_fact(catalog, material, prop, method)


def _methods(catalog: Catalog, prop: str) -> list[str]:
    """Give the endings a value may have; a softening point without its method has none."""
    if prop == "softening-point":
        return [f"@{one}" for one in catalog.methods]
    return ["", *(f"@{cup}" for cup in fact_parts.CUPS)] if prop == "flash-point" else [""]


SHELF = Shelf(PARTS, inline)
