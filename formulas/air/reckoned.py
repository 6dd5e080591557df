"""What the procedures find for a task, with the texts that every face prints and their basis."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from formulas.air.air_words import air_said, air_summary, jar_verdict, limit_cells, limits_passed
from formulas.air.asked import AirTask, LiquidPart, liquid_parts
from formulas.air.conversion import ICE_POINT
from formulas.air.found import NEAR
from formulas.air.limits import air_found, air_vapours
from formulas.air.solvents import SolventValue, known_or_unknown, limits_of
from formulas.answer import Basis
from formulas.frozen import Frozen

if TYPE_CHECKING:
    from formulas.air_entries import ExposureLimit
    from formulas.catalog import Catalog

KINDS = ("ceiling", "15min", "8h")
"""The kinds of limit in the order of the levels that they are held against."""
KIND_WORDS = {"ceiling": "ceiling", "15min": "mean of 15 minutes", "8h": "mean of 8 hours"}
TOGETHER = "parts together"
FIGURES = (
    "near-source-factor",
    "explosive-share-kept",
    "clear-share",
    "air-mixing-worst",
    "evaporation-speed",
    "air-pressure",
    "air-changes-window",
    "gas-constant",
)
FIRST_LIMIT = 7
"""The place of the first limit in what `air_found` gives."""
NO_FLASH = (1.0, 0.0)
GIVEN = "as given"


class Rules(Frozen):
    """The figures that the procedures take, in SI; `rule` is in the order of `air_found`."""

    rule: list[float]
    pressure: list[float]
    speed: list[float]
    window: float
    unknown: list[float]
    celsius: float


def rules(catalog: Catalog) -> Rules:
    """Read the figures."""
    return Rules(
        rule=[
            *catalog.span("near-source-factor", "dimensionless"),
            catalog.span("explosive-share-kept", "dimensionless")[0],
            catalog.span("clear-share", "dimensionless")[0],
            catalog.span("air-mixing-worst", "dimensionless")[1],
        ],
        pressure=list(catalog.span("air-pressure", "Pa")),
        speed=list(catalog.span("evaporation-speed", "m/s")),
        window=catalog.span("air-changes-window", "1/s")[0],
        unknown=list(catalog.span("air-changes-unknown", "1/s")),
        celsius=catalog.span("air-heat", "degC")[1],
    )


class LimitRow(Frozen):
    """One limit of a body, or of the parts of a mixture together, with what was found for it."""

    solvent: str
    body: str
    name: str
    kind: str
    value: float | None
    unit: str
    year: int | None
    basis: str
    source: str
    label: str
    terms: tuple[tuple[float, ...], ...]
    found: tuple[Sequence[float], ...] = ()
    said: tuple[str, ...] = ()

    @property
    def which(self) -> int:
        """The level that it is held against: peak, fifteen minutes, eight hours."""
        return KINDS.index(self.kind)


def limit_rows(catalog: Catalog, name: str) -> list[LimitRow]:
    """Give every limit of a solvent and its parts, then those of the parts together."""
    places = {one.id: place for place, one in enumerate(liquid_parts(catalog, name))}
    single = [_single(catalog, one, places) for one in limits_of(catalog, name)]
    return [*single, *_together(single, len(places))]


def _single(catalog: Catalog, one: ExposureLimit, places: dict[str, int]) -> LimitRow:
    terms: tuple[tuple[float, ...], ...] = ()
    limit = ""
    if one.value is not None:
        limit = f": {one.value:g} {one.unit.replace('**3', '³')}"
        terms = ((places[one.solvent], float(one.unit != "ppm"), one.value * 1e-6),)
    of = f"{catalog.solvents[one.solvent].name}: " if len(places) > 1 else ""
    memory = ", from memory" if one.basis == "memory" else ""
    return LimitRow(
        one.solvent,
        one.body,
        one.name,
        one.kind,
        one.value,
        one.unit,
        one.year,
        one.basis,
        one.source,
        f"{of}{one.body} {one.name}, {KIND_WORDS[one.kind]}{limit} ({one.year}{memory})",
        terms,
    )


def _together(single: Sequence[LimitRow], parts: int) -> Iterator[LimitRow]:
    """Add the limits of one body and kind, where it has one for every part of a mixture."""
    kept = [one for one in single if one.terms]
    for key in dict.fromkeys((one.body, one.kind) for one in kept):
        rows = [one for one in kept if (one.body, one.kind) == key]
        if 1 < parts == len(rows):
            weakest = next((one for one in rows if one.basis == "memory"), rows[0])
            yield replace(
                weakest,
                solvent=TOGETHER,
                value=None,
                unit="",
                label=f"{key[0]} {rows[0].name}, {KIND_WORDS[key[1]]}, {TOGETHER}",
                terms=tuple(term for one in rows for term in one.terms),
            )


class Reckoned(Frozen):
    """All that was found for a task; `known_room` is False where its volume is not known."""

    parts: list[LiquidPart]
    room: list[float]
    known_room: bool
    changes_by: str
    found: list[list[list[float]]]
    verdict: int
    limits: list[LimitRow]
    said: list[str]
    summary: str
    basis: list[Basis]

    @property
    def celsius(self) -> float:
        """The heat of the air in degC."""
        return self.room[3] - ICE_POINT


def reckoned(catalog: Catalog, task: AirTask) -> Reckoned:
    """Reckon a task in a room; without its volume only what stands over the liquid counts."""
    figures, parts = rules(catalog), liquid_parts(catalog, task.solvent)
    room, by = room_of(catalog, task, figures)
    limits = limit_rows(catalog, task.solvent)
    counted = [one for one in limits if one.terms]
    vapours = vapours_of(task, parts, room, figures)
    found = air_found(
        vapours, task.start, room, times_of(task), figures.rule,
        [one.terms for one in counted], [one.which for one in counted],
    )  # fmt: skip
    ratio, flash = found[6][1], flash_ends(catalog, task.solvent)
    verdict = jar_verdict(ratio, flash, room[3] - ICE_POINT)
    name, count = catalog.solvents[task.solvent].name, len(counted)
    return Reckoned(
        parts,
        room,
        (task.room or catalog.shop.room_m3) is not None,
        by,
        found,
        verdict,
        _with_found(limits, found[FIRST_LIMIT:]),
        air_said(found, verdict, figures.rule, figures.window, count),
        air_summary(name, found[0][0], found[0][NEAR], limits_passed(found), count),
        _bases(catalog, task, parts, limits, by),
    )


def room_of(catalog: Catalog, task: AirTask, figures: Rules) -> tuple[list[float], str]:
    """Give the room as the procedures ask for it, and how its air changes are known."""
    changes = catalog.shop.air_changes if task.changes is None else task.changes
    by, ends = GIVEN, figures.unknown
    if changes is None:
        by = "not measured: a range from memory"
    else:
        ends = [changes / 3600, changes / 3600]
    kelvin = (figures.celsius if task.celsius is None else task.celsius) + ICE_POINT
    return [task.room or catalog.shop.room_m3 or 1.0, *ends, kelvin, *figures.pressure], by


def times_of(task: AirTask) -> list[float]:
    """Give how long one task takes, from start to start, how many."""
    return [task.seconds, task.seconds if task.every is None else task.every, float(task.times)]


def vapours_of(
    task: AirTask, parts: Sequence[LiquidPart], room: Sequence[float], figures: Rules
) -> list[list[float]]:
    """Give what evaporates of each part."""
    numbers, laws = [one.numbers for one in parts], [one.law for one in parts]
    face = task.face or 0.0
    volume = liquid_volume(task, parts)
    return air_vapours(numbers, laws, volume, room, figures.speed, face, task.seconds)


def liquid_volume(task: AirTask, parts: Sequence[LiquidPart]) -> list[float]:
    """Give the volume of the liquid, low and high; a mass spans the densities of its parts."""
    if task.amount is not None:
        return [task.amount, task.amount]
    densities = [end for one in parts for end in one.numbers[2:4]]
    mass = task.mass or 0.0
    return [mass / max(densities), mass / min(densities)]


def flash_ends(catalog: Catalog, name: str) -> tuple[float, float]:
    """Give the ends of the flash point in degC; the low end above the high one is not known."""
    value = known_or_unknown(catalog, name, "flash-point")
    return value.ends("degC") if isinstance(value, SolventValue) else NO_FLASH


def fact_words(prop: str) -> str:
    """Say what a property is; the constants of a curve are one thing."""
    return "curve of vapour pressure" if prop.startswith("antoine") else prop.replace("-", " ")


def _with_found(limits: list[LimitRow], found: Sequence[list[list[float]]]) -> list[LimitRow]:
    each = iter(found)
    return [
        replace(one, found=tuple(pairs := next(each)), said=tuple(limit_cells(pairs)))
        if one.terms
        else one
        for one in limits
    ]


def _bases(
    catalog: Catalog,
    task: AirTask,
    parts: Sequence[LiquidPart],
    limits: Sequence[LimitRow],
    by: str,
) -> list[Basis]:
    """Give every row that the answer rests on, once."""
    rows = [
        Basis(f"{catalog.solvents[row.solvent].name}: {fact_words(row.property)}",
              row.basis, row.source)
        for part in parts for row in part.rows
    ]  # fmt: skip
    names = [*FIGURES]
    names += [] if by == GIVEN else ["air-changes-unknown"]
    names += ["air-heat"] if task.celsius is None else []
    figures = [catalog.figure(name) for name in names]
    return list(
        dict.fromkeys(
            [
                *rows,
                *(Basis(one.label, one.basis, one.source) for one in limits),
                *(Basis(one.what, one.basis, one.source) for one in figures),
            ]
        )
    )
