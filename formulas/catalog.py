"""The trade's tables and a shop's own, read together, checked together, asked by name."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from formulas import checks, collector, shop_settings, table
from formulas.air_entries import (
    Chemical,
    CleaningTask,
    ExposureLimit,
    Incompatible,
    Protection,
    Solvent,
    SolventFact,
    SolventHazard,
)
from formulas.answer import Unknown, Warned
from formulas.best_basis import counted, spanned
from formulas.book_entries import PotBatch, PotLot, PotUse, SofteningTest
from formulas.entries import (
    Blend,
    Burn,
    Caution,
    Fact,
    FaultAndCure,
    Figure,
    Known,
    Lot,
    Material,
    Method,
    PairEffect,
    Price,
    Shop,
    Source,
    entry,
)
from formulas.fault import CellFault, Faults, NotKnown, UnknownName
from formulas.first_year_entries import (
    Person,
    PracticeRange,
    PracticeTopic,
    PrintedLeaf,
    SignOff,
    Stage,
    Step,
    Term,
)
from formulas.hazard_entries import (
    Hazard,
    HazardPrecaution,
    LabelStock,
    MixtureRule,
    Pictogram,
    Statement,
)
from formulas.job_entries import (
    GasketMaterial,
    HoursWorked,
    JobEvent,
    Layout,
    Reservation,
    SeatingMethod,
    StockUse,
    SurveyGrade,
    WorkStep,
)
from formulas.table import Row
from formulas.units import convert
from formulas.valve_entries import (
    CurlTest,
    Glue,
    MeasuredPlate,
    MeasuredSlot,
    OutlinePoint,
    Posture,
    RampTest,
    Rank,
    Skin,
    StockWeighing,
    ValveClass,
    ValveLimit,
    ValveMaterial,
    ValveStock,
    ValveTest,
)

T = TypeVar("T")

TABLES = Path(__file__).parent / "tables"

SHARED = (
    "sources.csv",
    "materials.csv",
    "facts.csv",
    "figures.csv",
    "blends.csv",
    "blend_parts.csv",
    "faults_and_cures.csv",
    "label_stock.csv",
    "valve_materials.csv",
    "valve_facts.csv",
    "valve_stock.csv",
    "valve_limits.csv",
    "postures.csv",
    "ranks.csv",
    "layouts.csv",
    "gasket_materials.csv",
    "work_steps.csv",
    "solvents.csv",
    "solvent_facts.csv",
    "solvent_hazards.csv",
    "exposure_limits.csv",
)
"""Tables that a shop may add to, with the columns of the trade's."""


@functools.cache
def all_schemas() -> dict[str, table.Schema]:
    """Give the schema of every table by file name, the shop's own last."""
    return {
        **table.schemas(TABLES / "datapackage.json"),
        **table.schemas(TABLES / "shop-folder.json"),
    }


@dataclass(frozen=True)
class Catalog:
    """All tables as entries. Lookups raise UnknownName with the nearest name, or NotKnown."""

    shop: Shop
    sources: Mapping[str, Source]
    materials: Mapping[str, Material]
    methods: Mapping[str, Method]
    facts: list[Fact]
    blends: Mapping[str, Blend]
    figures: Mapping[str, Figure]
    pair_effects: list[PairEffect]
    cautions: Mapping[str, Caution]
    statements: Mapping[str, Statement]
    hazards: list[Hazard]
    mixture_rules: list[MixtureRule]
    hazard_precautions: list[HazardPrecaution]
    pictograms: Mapping[str, Pictogram]
    label_stock: Mapping[str, LabelStock]
    burns: list[Burn]
    faults_and_cures: Mapping[str, FaultAndCure]
    prices: Mapping[str, Price]
    lots: Mapping[str, Lot]
    pot_book: Mapping[str, PotBatch]
    pot_lots: list[PotLot]
    pot_uses: list[PotUse]
    softening_tests: list[SofteningTest]
    valve_materials: Mapping[str, ValveMaterial]
    valve_facts: list[Fact]
    valve_stock: Mapping[str, ValveStock]
    valve_limits: Mapping[str, ValveLimit]
    valve_classes: Mapping[str, ValveClass]
    postures: Mapping[str, Posture]
    ranks: list[Rank]
    glues: Mapping[str, Glue]
    ramp_tests: list[RampTest]
    stock_weighings: list[StockWeighing]
    curl_tests: list[CurlTest]
    plates: list[MeasuredPlate]
    slots: list[MeasuredSlot]
    valve_tests: list[ValveTest]
    skins: Mapping[str, Skin]
    skin_outlines: list[OutlinePoint]
    seating_methods: Mapping[str, SeatingMethod]
    gasket_materials: Mapping[str, GasketMaterial]
    work_steps: Mapping[str, WorkStep]
    survey_grades: Mapping[str, SurveyGrade]
    layouts: Mapping[str, Layout]
    jobs: list[JobEvent]
    reservations: list[Reservation]
    stock_uses: list[StockUse]
    hours: list[HoursWorked]
    cleaning_tasks: Mapping[str, CleaningTask]
    solvents: Mapping[str, Solvent]
    solvent_facts: list[SolventFact]
    exposure_limits: list[ExposureLimit]
    solvent_hazards: list[SolventHazard]
    incompatible: list[Incompatible]
    protection: Mapping[str, Protection]
    chemicals: Mapping[str, Chemical]
    terms: Mapping[str, Term]
    first_year_stages: Mapping[str, Stage]
    first_year_steps: Mapping[str, Step]
    practice_topics: Mapping[str, PracticeTopic]
    practice_ranges: Mapping[str, PracticeRange]
    people: Mapping[str, Person]
    signoffs: list[SignOff]
    printed: list[PrintedLeaf]

    memo: dict[Any, Any] = field(default_factory=dict, init=False, repr=False, compare=False)
    """What was computed once from these tables and would be again, by its name."""

    @functools.cached_property
    def _by_material(self) -> dict[str, list[Fact]]:
        grouped: dict[str, list[Fact]] = {}
        for fact in self.facts:
            grouped.setdefault(fact.material, []).append(fact)
        return grouped

    @functools.cached_property
    def lots_by_batch(self) -> dict[str, list[PotLot]]:
        """What was weighed into each batch."""
        return _grouped(self.pot_lots, "batch")

    @functools.cached_property
    def draws_by_lot(self) -> dict[str, list[PotLot]]:
        """What was drawn of each lot, and of each batch that was melted into a later one."""
        return _grouped(self.pot_lots, "lot")

    @functools.cached_property
    def uses_by_batch(self) -> dict[str, list[PotUse]]:
        """Where wax of each batch was used."""
        return _grouped(self.pot_uses, "batch")

    def facts_of(self, material: str) -> list[Fact]:
        """Give every row on a material, the trade's first."""
        self.material(material)
        return self._by_material.get(material, [])

    def material(self, name: str) -> Material:
        """Give a material by its id."""
        return _named("material", name, self.materials)

    def blend(self, name: str) -> Blend:
        """Give a blend by its id."""
        return _named("blend", name, self.blends)

    def figure(self, name: str) -> Figure:
        """Give a bench figure by its id."""
        return _named("figure", name, self.figures)

    def span(self, name: str, unit: str) -> tuple[float, float]:
        """Give the ends of a bench figure in a unit; "dimensionless" for a share."""
        figure = self.figure(name)
        return convert(figure.low, figure.unit, unit), convert(figure.high, figure.unit, unit)

    def known(self, material: str, prop: str, method: str = "") -> Known:
        """Give what the tables say of a property, by one test method where one is named.

        Only the rows of the best basis count; where several stand on that rank the range is
        their union and no middle is made up. Raises NotKnown, which tells how to find out.
        """
        return _known(self.facts_of(material), prop, method, self.material(material).name)

    def known_of_stock(self, material: str, prop: str, method: str = "") -> Known:
        """Give what the tables say of a property of a valve material, as `known` does."""
        named = _named("valve material", material, self.valve_materials)
        rows = [fact for fact in self.valve_facts if fact.material == material]
        return _known(rows, prop, method, named.name, "valve_facts.csv")

    def stock(self, name: str) -> ValveStock:
        """Give a valve stock by its id."""
        return _named("valve stock", name, self.valve_stock)

    def limit(self, name: str) -> ValveLimit:
        """Give a limit of valves by its id."""
        return _named("limit", name, self.valve_limits)

    def known_or_unknown(self, material: str, prop: str, method: str = "") -> Known | Unknown:
        """Give what is known, or an Unknown that says how to find out."""
        try:
            return self.known(material, prop, method)
        except NotKnown as error:
            return Unknown(error.what, error.find_out)

    def cautions_for(self, where: str) -> list[Caution]:
        """Give the cautions that belong to a command or a leaf, in table order."""
        return [caution for caution in self.cautions.values() if where in caution.applies_to]

    def warned(self, command: str) -> list[Warned]:
        """Give a command's cautions as its answers carry them."""
        return [
            Warned(caution.id, caution.title, caution.text, caution.codes)
            for caution in self.cautions_for(command)
        ]


def _grouped(parts: list[T], column: str) -> dict[str, list[T]]:
    grouped: dict[str, list[T]] = {}
    for part in parts:
        grouped.setdefault(getattr(part, column), []).append(part)
    return grouped


def _named(kind: str, name: str, entries: Mapping[str, T]) -> T:
    if name not in entries:
        raise UnknownName(kind, name, entries)
    return entries[name]


def _known(facts: list[Fact], prop: str, method: str, name: str, file: str = "facts.csv") -> Known:
    rows = [
        fact
        for fact in facts
        if fact.property == prop
        and method in {"", fact.method}
        and fact.low is not None
        and fact.high is not None
    ]
    if not rows:
        by = f" by {method}" if method else ""
        raise NotKnown(
            f"{name}: {prop}{by}",
            f"ask the maker for the data sheet, or measure it and add a row to {file}"
            " with basis 'measured'.",
        )
    return _union(counted(rows))


def _union(rows: list[Fact]) -> Known:
    methods = " or ".join(sorted({fact.method for fact in rows if fact.method}))
    return Known(*spanned(rows), rows[0].unit, methods, rows[0].basis, tuple(rows))


Tables = dict[str, list[Row]]


def load(shop: Path | None = None) -> Catalog:
    """Read the trade's tables and, where given, a shop folder; check all before giving any.

    Raises Faults with every fault of every file, in file order.
    """
    return opened(shop)[0]


def opened(shop: Path | None = None) -> tuple[Catalog, Tables]:
    """Give the catalog with the rows it was made from, for who adds to them.

    Raises Faults as `load` does.
    """
    with collector.paused():
        faults: list[CellFault] = []
        rows = _read_all(shop, faults)
        blends = {row["id"] for row in rows["blends.csv"]} - {None}
        instruments = {row["instrument"] for row in rows["ranks.csv"]} - {None}
        settings = shop_settings.read(shop, faults, blends, instruments) if shop else Shop()
        check(rows, faults)
        return _assemble(settings, rows), rows


def check(rows: Tables, faults: list[CellFault]) -> None:
    """Raise Faults with these and every fault that the rows show together."""
    checks.references(rows, all_schemas(), faults)
    checks.rules(rows, faults)
    if faults:
        order = {name: place for place, name in enumerate(rows)}
        raise Faults(sorted(faults, key=lambda f: (order.get(Path(f.file).name, -1), f.row)))


def _read_all(shop: Path | None, faults: list[CellFault]) -> Tables:
    rows: dict[str, list[Row]] = {}
    schemas = all_schemas()
    for name in schemas:
        found, wrong = _trade_rows(name)
        rows[name] = list(found)
        faults += wrong
    if shop:
        own = [name for name in schemas if name in SHARED or not (TABLES / name).is_file()]
        checks.names(shop, own, faults)
        for name in own:
            if (shop / name).is_file():
                shop_rows = table.read(shop / name, schemas[name], faults)
                rows[name] = _over(rows[name], shop_rows, schemas[name])
    return rows


@functools.cache
def _trade_rows(name: str) -> tuple[tuple[Row, ...], tuple[CellFault, ...]]:
    """Give the trade's rows of a table and their faults, read once while a program runs."""
    faults: list[CellFault] = []
    inside = TABLES / name
    found = table.read(inside, all_schemas()[name], faults) if inside.is_file() else []
    return tuple(found), tuple(faults)


def _over(trade: list[Row], shop: list[Row], schema: table.Schema) -> list[Row]:
    """Lay a shop's rows over the trade's: a row with the same key replaces it.

    The parts of a blend are replaced together, so that none of the old ones is left in.
    """
    key = schema["schema"].get("primaryKey")
    if not key:
        return trade + shop
    column = key if isinstance(key, str) else key[0]
    replaced = {row[column] for row in shop}
    return [row for row in trade if row[column] not in replaced] + shop


def _assemble(shop: Shop, rows: Mapping[str, list[Row]]) -> Catalog:
    parts: dict[str, dict[str, float]] = {}
    for row in rows["blend_parts.csv"]:
        parts.setdefault(row["blend"], {})[row["material"]] = row["parts"]

    def by(name: str, kind: type[Any], key: str = "id") -> dict[str, Any]:
        return {row[key]: entry(kind, row) for row in rows[name]}

    def listed(name: str, kind: type[T]) -> list[T]:
        return [entry(kind, row) for row in rows[name]]

    return Catalog(
        shop=shop,
        sources=by("sources.csv", Source),
        materials=by("materials.csv", Material),
        methods=by("methods.csv", Method),
        facts=listed("facts.csv", Fact),
        blends={row["id"]: entry(Blend, row, parts=parts[row["id"]]) for row in rows["blends.csv"]},
        figures=by("figures.csv", Figure),
        pair_effects=listed("pair_effects.csv", PairEffect),
        cautions=by("cautions.csv", Caution),
        statements=by("statements.csv", Statement, "code"),
        hazards=listed("hazards.csv", Hazard),
        mixture_rules=listed("mixture_rules.csv", MixtureRule),
        hazard_precautions=listed("hazard_precautions.csv", HazardPrecaution),
        pictograms=by("pictograms.csv", Pictogram),
        label_stock=by("label_stock.csv", LabelStock),
        burns=listed("burns.csv", Burn),
        faults_and_cures=by("faults_and_cures.csv", FaultAndCure),
        prices=by("prices.csv", Price, "item"),
        lots=by("lots.csv", Lot, "lot"),
        pot_book={
            row["batch"]: entry(PotBatch, row, yielded=row["yield"]) for row in rows["pot_book.csv"]
        },
        pot_lots=listed("pot_lots.csv", PotLot),
        pot_uses=listed("pot_uses.csv", PotUse),
        softening_tests=listed("softening_tests.csv", SofteningTest),
        valve_materials=by("valve_materials.csv", ValveMaterial),
        valve_facts=listed("valve_facts.csv", Fact),
        valve_stock=by("valve_stock.csv", ValveStock, "stock"),
        valve_limits=by("valve_limits.csv", ValveLimit),
        valve_classes=by("valve_classes.csv", ValveClass),
        postures=by("postures.csv", Posture),
        ranks=listed("ranks.csv", Rank),
        glues=by("glues.csv", Glue),
        ramp_tests=listed("ramp_tests.csv", RampTest),
        stock_weighings=listed("stock_weighings.csv", StockWeighing),
        curl_tests=listed("curl_tests.csv", CurlTest),
        plates=listed("plates.csv", MeasuredPlate),
        slots=listed("slots.csv", MeasuredSlot),
        valve_tests=listed("valve_tests.csv", ValveTest),
        skins=by("skins.csv", Skin, "skin"),
        skin_outlines=listed("skin_outlines.csv", OutlinePoint),
        seating_methods=by("seating_methods.csv", SeatingMethod),
        gasket_materials=by("gasket_materials.csv", GasketMaterial),
        work_steps=by("work_steps.csv", WorkStep),
        survey_grades=by("survey_grades.csv", SurveyGrade),
        layouts=by("layouts.csv", Layout),
        jobs=listed("jobs.csv", JobEvent),
        reservations=listed("reservations.csv", Reservation),
        stock_uses=listed("stock_uses.csv", StockUse),
        hours=listed("hours.csv", HoursWorked),
        cleaning_tasks=by("cleaning_tasks.csv", CleaningTask),
        solvents=by("solvents.csv", Solvent),
        solvent_facts=listed("solvent_facts.csv", SolventFact),
        exposure_limits=listed("exposure_limits.csv", ExposureLimit),
        solvent_hazards=listed("solvent_hazards.csv", SolventHazard),
        incompatible=listed("incompatible.csv", Incompatible),
        protection=by("protection.csv", Protection),
        chemicals=by("chemicals.csv", Chemical, "chemical"),
        terms=by("terms.csv", Term),
        first_year_stages=by("first_year_stages.csv", Stage),
        first_year_steps=by("first_year_steps.csv", Step),
        practice_topics=by("practice_topics.csv", PracticeTopic),
        practice_ranges=by("practice_ranges.csv", PracticeRange),
        people=by("people.csv", Person, "person"),
        signoffs=listed("signoffs.csv", SignOff),
        printed=listed("printed.csv", PrintedLeaf),
    )
