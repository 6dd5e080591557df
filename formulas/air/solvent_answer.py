"""The answer of `solvent`: what is known of one, or the gentlest way for a task."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from formulas.air.gentler import REFUSED, Way, gentler, task_of
from formulas.air.over_a_jar import NO_PROMISE, VERDICTS, OverTheJar, flash_and_room
from formulas.air.solvents import (
    SolventValue,
    bench_solvents,
    hazards_of,
    known_or_unknown,
    limits_of,
    parts_of,
    solvent,
)
from formulas.answer import Answer, Basis, Quantity, Unknown

if TYPE_CHECKING:
    from collections.abc import Sequence

    from formulas.air_entries import ExposureLimit
    from formulas.catalog import Catalog

ROOM = 20.0  # degC, the heat at which most of the tables' vapour pressures stand
SHOWN = (
    "flash-point",
    "autoignition",
    "explosive-lower",
    "explosive-upper",
    "vapour-pressure",
    "boiling-point",
    "molar-mass",
    "density",
)
ATTACKS = {
    "finish of leather": "leather_finish",
    "shellac": "shellac",
    "celluloid": "celluloid",
    "beeswax": "wax",
    "rosin": "rosin",
}
TRY = "try a drop where it is not seen, and look again the next day"
TO_TELL = {"celluloid": "it is not tried: celluloid burns like film"}
"""How what a solvent attacks is found out where no row tells, if not by a trial."""
READ_SHEET = "read section 2 of the supplier's safety data sheet; no row does not mean harmless"
UNION = (
    "Where several sources of the same rank differ, the range goes from the lowest to the highest."
)
LISTS = (
    "A limit is a body's own, for the mean of the time beside it, in the year of its list: ask that"
    " body what holds today. None of them is a line below which nothing happens."
)
ORDER = (
    "Dry first, then the list from the top, a drop on a swab at a place that is not seen. A place"
    " in it is no permission: the safety data sheet of the can speaks first."
)
SHEET = "The safety data sheet of your own can stands above every row here."


def solvent_answer(
    catalog: Catalog,
    name: str | None = None,
    task: str | None = None,
    near: Sequence[str] = (),
    heat: bool = False,
    celsius: float = ROOM,
) -> Answer:
    """Answer what is known of one solvent, or which is the gentlest for a task, or both.

    Without either it lists the solvents of the bench. Raises UnknownName and OutOfRange.
    """
    one = None if name is None else described(catalog, name, celsius)
    ways = [] if task is None else gentler(catalog, task, near, heat, celsius)
    return Answer(
        "solvent",
        {
            "solvent": one,
            "task": None if task is None else _task(catalog, task, ways),
            "solvents": [
                {"id": each.id, "name": each.name, "used_for": each.used_for}
                for each in bench_solvents(catalog)
            ],
        },
        {
            "solvent": name,
            "task": task,
            "near": list(near),
            "heat_in_the_room": heat,
            "room": Quantity(celsius, "degC"),
        },
        [*_bases(catalog, name, task)],
        catalog.warned("solvent"),
        [SHEET, *([UNION, LISTS, NO_PROMISE] if name else []), *([ORDER] if task else [])],
    )


def described(catalog: Catalog, name: str, celsius: float = ROOM) -> dict[str, Any]:
    """Give everything the tables hold of one solvent; what is blank is an Unknown."""
    one = solvent(catalog, name)
    return {
        "id": one.id,
        "name": one.name,
        "also_called": one.also_called,
        "about": one.about,
        "used_for": one.used_for,
        "never_for": one.never_for,
        "note": one.note,
        "reckoned_as": [
            {"id": part.id, "low": part.low, "high": part.high} for part in parts_of(catalog, name)
        ],
        "values": {
            prop: _value(known_or_unknown(catalog, name, prop))
            for prop in (() if one.kind == "water" else SHOWN)
        },
        "over_the_jar": _over(flash_and_room(catalog, name, celsius), one.kind == "water"),
        "limits": [_limit(row) for row in limits_of(catalog, name)],
        "hazards": _hazards(catalog, name),
        "attacks": {
            words: getattr(one, column)
            or Unknown(f"what it does to {words}", TO_TELL.get(words, TRY))
            for words, column in ATTACKS.items()
        },
    }


def _value(found: SolventValue | Unknown) -> Any:
    if isinstance(found, Unknown):
        return found
    sources = list(dict.fromkeys(row.source for row in found.rows if row.source))
    return {**found.band.as_json(), "basis": found.basis, "sources": sources, "how": found.how}


def _over(found: OverTheJar, water: bool) -> dict[str, Any]:
    nothing = Unknown("explosive limit", "it gives off nothing that burns")
    return {
        "verdict": found.said,
        "share": nothing if water else found.share,
        "lower_limit": nothing if water else _value(found.lower),
        "by_vapour": None if water else VERDICTS[found.by_vapour],
        "by_flash_point": None if water else VERDICTS[found.by_flash],
    }


def _limit(row: ExposureLimit) -> dict[str, Any]:
    return {
        "of": row.solvent,
        "body": row.body,
        "name": row.name,
        "time": row.kind,
        "year": row.year,
        "limit": None if row.value is None else Quantity(row.value, row.unit),
        "none_set": row.none_set,
        "basis": row.basis,
        "source": row.source,
        "note": row.note,
    }


def _hazards(catalog: Catalog, name: str) -> Any:
    rows = hazards_of(catalog, name)
    if not rows:
        return Unknown(f"hazard statements of {catalog.solvents[name].name}", READ_SHEET)
    statements = [(row, catalog.statements[row.code]) for row in rows]
    return [
        {
            "code": row.code,
            "text": said.text,
            "signal": said.signal,
            "pictogram": said.pictogram,
            "basis": row.basis,
            "note": row.note,
        }
        for row, said in statements
    ]


def _task(catalog: Catalog, task: str, ways: list[Way]) -> dict[str, Any]:
    about = task_of(catalog, task)
    kept = [way for way in ways if way.verdict != REFUSED]
    return {
        "id": about.id,
        "name": about.name,
        "dry": about.dry,
        "done": about.done,
        "note": about.note,
        "first": kept[0].solvent.id if kept else None,
        "ways": [_told(way) for way in kept],
        "refused": [_told(way) for way in ways if way.verdict == REFUSED],
    }


def _told(way: Way) -> dict[str, Any]:
    return {
        "id": way.solvent.id,
        "name": way.solvent.name,
        "verdict": way.said,
        "reasons": list(way.reasons),
    }


def _bases(catalog: Catalog, name: str | None, task: str | None) -> list[Basis]:
    """Give what the answer rests on, one line a property."""
    found = []
    for prop in SHOWN if name else ():
        value = known_or_unknown(catalog, name or "", prop)
        if isinstance(value, SolventValue):
            sources = ", ".join(dict.fromkeys(row.source for row in value.rows if row.source))
            what = prop.replace("-", " ") + (f", {value.how}" if value.how else "")
            found.append(Basis(what, value.basis, sources))
    if name:
        one = catalog.solvents[name]
        found.append(Basis("what it is used for and what it attacks", one.basis))
        kinds = dict.fromkeys(row.basis for row in hazards_of(catalog, name))
        found += [Basis("hazard statements", kind) for kind in kinds]
    if task:
        found.append(Basis("the dry way and the sign that it is off", task_of(catalog, task).basis))
        kinds = dict.fromkeys(one.basis for one in bench_solvents(catalog))
        found += [Basis("what each solvent takes off and attacks", kind) for kind in kinds]
    return found
