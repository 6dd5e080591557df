"""The answer of the quick needs list: what an instrument of a layout needs, before any survey."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from formulas.answer import Answer, Band, Basis
from formulas.fault import OutOfRange, UnknownName
from formulas.jobs.fillet import NEED_HEAD, WAX_FIGURES, wax_need, wax_to_have
from formulas.jobs.quick_numbers import QuickNumbers, QuickRank, QuickWax
from formulas.jobs.quick_steps import (
    class_ranges,
    glue_range,
    half_shares,
    hours_by_group,
    melted,
    pots_range,
    rank_wax_rows,
    valves_range,
)
from formulas.jobs.quick_tables import KEPT, SEAMS, quick_tables, step_rows
from formulas.jobs.quick_words import FROM_TABLES
from formulas.jobs.wax_figures import wax_bases, wax_figures_of
from formulas.valves.notes import midi_of, note_name
from formulas.valves.rank import ranks_of
from formulas.valves.typed_rank import BENCH, HIGHEST, LOWEST, PLATES

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.job_entries import SeatingMethod

RANKS = (1, 9)
TONGUES = (1, 2)
SEATING = "wax-fillet"
"""The seating that is taken where ranks are typed and none is named."""
SESSION_S = 3 * 3600.0
SESSIONS_S = (600.0, 8 * 3600.0)
KEEPS = (KEPT,)
WAX, BED = "wax", "bed"
REED_ORGAN = "harmonium"
"""The form of plate whose tongues have no valves."""
EDGES = "valve classes by the generic line, each edge moved either way"
SUM = "ends of every figure taken together"
HOURS = "minutes of every step added at their ends: one hand does them all"
SESSIONS = "plates an hour and the time at the bench"
POT_WAX = "a short and a long session, each by the high end of the wax to have ready"

UNSEEN = (
    f"{FROM_TABLES} Grade the instrument first, then write a job file: its needs list is narrower"
    " and counts what was found."
)
NO_FOUND = "Work that only a survey finds is not in the hours: rust, cracks, worm, warped blocks."
NOT_TUNING = "Tuning is outside this handbook and not in the hours."
APART = (
    "The rule of thumb and the plates' own sizes differ where gaps are narrow and plates small:"
    " melt by session, each pot by the higher, and weigh one block before you trust either."
)
OTHER_SEAT = "No wax is melted for this seating. What it takes is in the needs list of a job file."
LAST_RESORT = "This seating is a last resort: ask whether it must be, and what it cannot undo."


def quick(
    catalog: Catalog,
    *,
    layout: str = "",
    ranks: Sequence[tuple[str, int]] = (),
    seating: str = "",
    tongues: int = 0,
    keep: Sequence[str] = (),
    session_s: float = SESSION_S,
) -> Answer:
    """Answer for a layout, or for ranks typed as lowest note and count.

    `seating` and `tongues` left out are those of the layout. Raises UnknownName, OutOfRange,
    UnitFault.
    """
    if bool(layout) == bool(ranks):
        accepted = "one of the two: a layout, or ranks of your own"
        raise OutOfRange("ways to say which plates", len(ranks), accepted, "quick needs list")
    found = ranks_of_layout(catalog, layout) if layout else _typed(ranks)
    if layout:
        seating = seating or catalog.layouts[layout].seating
        tongues = tongues or catalog.layouts[layout].tongues_per_plate
    method = _method(catalog, seating or SEATING)
    tongues = tongues or TONGUES[1]
    _refuse(tongues, keep, session_s)
    inputs = {
        "layout": layout,
        "ranks": [f"{note_name(one.lowest)}={one.plates}" for one in found],
        "seating": method.id,
        "tongues": tongues,
        "keep": list(keep),
        "session_h": session_s / 3600,
    }
    return _answered(catalog, found, method, tongues, bool(keep), session_s, inputs)


def ranks_of_layout(catalog: Catalog, layout: str) -> list[QuickRank]:
    """Give the ranks of a layout. Raises UnknownName."""
    if layout not in catalog.layouts:
        raise UnknownName("layout", layout, catalog.layouts)
    return [
        QuickRank(one.name, midi_of(one.lowest), one.plates) for one in ranks_of(catalog, layout)
    ]


def _typed(ranks: Sequence[tuple[str, int]]) -> list[QuickRank]:
    if len(ranks) > RANKS[1]:
        raise OutOfRange("ranks", len(ranks), f"{RANKS[0]} to {RANKS[1]}", BENCH)
    found = [
        QuickRank(f"Rank {number}", midi_of(lowest), plates)
        for number, (lowest, plates) in enumerate(ranks, 1)
    ]
    for one in found:
        if not PLATES[0] <= one.plates <= PLATES[1]:
            raise OutOfRange("plates of a rank", one.plates, f"{PLATES[0]} to {PLATES[1]}", BENCH)
        if one.lowest < LOWEST or one.lowest + one.plates - 1 > HIGHEST:
            raise OutOfRange("lowest note", one.lowest, "A0 up, the highest no higher than C8",
                             BENCH)  # fmt: skip
    return found


def _method(catalog: Catalog, seating: str) -> SeatingMethod:
    if seating not in catalog.seating_methods:
        raise UnknownName("seating method", seating, catalog.seating_methods)
    return catalog.seating_methods[seating]


def _refuse(tongues: int, keep: Sequence[str], session_s: float) -> None:
    if tongues not in TONGUES:
        raise OutOfRange("tongues on a plate", tongues, "1 or 2", BENCH)
    for one in keep:
        if one not in KEEPS:
            raise UnknownName("what is kept in a quick needs list", one, KEEPS)
    if not SESSIONS_S[0] <= session_s <= SESSIONS_S[1]:
        raise OutOfRange("session in h", session_s / 3600, "a sixth of an hour to 8", BENCH)


def _answered(
    catalog: Catalog,
    ranks: Sequence[QuickRank],
    method: SeatingMethod,
    tongues: int,
    kept: bool,
    session_s: float,
    inputs: dict[str, Any],
) -> Answer:
    tables = quick_tables(catalog)
    midis = [midi for rank in ranks for midi in rank.midis]
    plates = len(midis)
    valved = has_valves(method)
    classes = class_ranges(
        midis, tongues, tables.pitch, tables.lines[0][0], tables.edges, tables.band
    )
    valves = valves_range(plates * tongues, classes[tables.bare]) if valved else [0.0, 0.0, 0.0]
    wax = _wax(catalog, ranks, method, tongues) if method.group == WAX else None
    pots = [0.0, 0.0, 0.0, 0.0]
    if wax:
        pots = pots_range(plates, session_s, tables.rates, wax.ready[1])
    hours = hours_by_group(
        step_rows(catalog, method.group, kept, valved),
        len(SEAMS),
        [plates, plates * tongues, valves[0], len(ranks), 1, pots[0]],
        [plates, plates * tongues, valves[2], len(ranks), 1, pots[1]],
    )
    glue = glue_range(
        midis if valved and not kept else [], tongues, tables.pitch, tables.lines[0][0],
        tables.lines[1][0], tables.edges[tables.bare][1], tables.band, tables.walls,
        tables.rules, tables.glue,
    )  # fmt: skip
    solvent = [plates * each for each in tables.solvent]
    answer: dict[str, Any] = {
        "plates": plates,
        "tongues": plates * tongues,
        "rank_counts": [rank.plates for rank in ranks],
        "valves": _counted(valves),
        "classes": [
            {
                "class": name,
                "words": words,
                "tongues": Band(counts[0], counts[1], counts[2], "1", EDGES),
            }
            for name, words, counts in zip(tables.names, tables.classes, classes, strict=True)
            if valved
        ],
        "wax": wax.as_answer() if wax else None,
        "pots": Band(pots[0], None, pots[1], "1", SESSIONS) if wax else None,
        "pot_wax": Band(1000 * pots[2], None, 1000 * pots[3], "g", POT_WAX) if wax else None,
        "solvent": Band(1e6 * solvent[0], None, 1e6 * solvent[1], "mL", SUM),
        "glue": None
        if kept or not valved
        else Band(1000 * glue[0], None, 1000 * glue[1], "g", SUM),
        "hours": [
            {"group": name, "hours": Band(low, None, high, "h", HOURS)}
            for (name, _), (low, high) in zip(SEAMS, hours[:-1], strict=True)
        ],
        "hours_in_all": Band(hours[-1][0], None, hours[-1][1], "h", HOURS),
    }
    numbers = QuickNumbers(classes, valves, wax, pots, solvent, glue, hours)
    answer["numbers"] = numbers
    bases = [
        *(wax_bases(catalog) if wax else ()),
        *_bases(catalog, wax is not None, answer["glue"] is not None),
    ]
    answer["valved"] = valved
    return Answer("job-quick", answer, inputs, bases, catalog.warned("job"), _notes(method, wax))


def _counted(counts: Sequence[float]) -> Band:
    return Band(counts[0], counts[1], counts[2], "1", EDGES)


def _wax(
    catalog: Catalog, ranks: Sequence[QuickRank], method: SeatingMethod, tongues: int
) -> QuickWax:
    tables = quick_tables(catalog)
    bedded = 1.0 if BED in method.takes else 0.0
    long, wide = tables.lines
    rows = [
        row
        for group, rank in enumerate(ranks)
        for row in rank_wax_rows(
            float(group), rank.midis, tongues, bedded, tables.pitch, long[0], long[1], wide[0],
            wide[1], tables.plate_rule,
        )
    ]  # fmt: skip
    figures = wax_figures_of(catalog)
    found = wax_need(rows, figures.low, figures.mid, figures.high)
    melt = [max(0.0, found[0] - found[1]), found[0] + found[1]]
    rule = melted(len(rows), tables.rule_each, tables.losses)
    own = melted(len(rows), tables.own_each, tables.losses) if tables.own_each else []
    return QuickWax(
        melt=melt,
        rule=rule,
        own=own,
        ready=wax_to_have(melt, rule, own),
        stays=found[2] + found[3],
        shares=half_shares(found[NEED_HEAD:], len(WAX_FIGURES)),
    )


def has_valves(method: SeatingMethod) -> bool:
    """Whether tongues seated so have valves: those of a reed organ speak one way and have none."""
    return method.plate_forms != (REED_ORGAN,)


def _notes(method: SeatingMethod, wax: QuickWax | None) -> list[str]:
    said = [UNSEEN, APART if wax else OTHER_SEAT]
    if method.last_resort:
        said.append(LAST_RESORT)
    if method.refused:
        said.insert(0, f"Refused under any plate: {method.refused}.")
    return [*said, NO_FOUND, NOT_TUNING]


def _bases(catalog: Catalog, waxed: bool, glued: bool) -> list[Basis]:
    names = ["class-edge-band", "solvent-per-plate"]
    names += ["wax-per-plate", "plates-an-hour"] if waxed else []
    names += ["glue-film", "glue-density", "glue-taken-times"] if glued else []
    figures = [catalog.figure(name) for name in names]
    return [
        *(Basis(one.what, one.basis, one.source) for one in figures),
        Basis("sizes of plates and slots by the generic lines", "memory"),
        Basis("classes of valves", "memory"),
        Basis("minutes of the steps of work", "practice"),
    ]
