"""What the leaf of solvents places: fire, limits of the air, hazards, what each attacks, tasks."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.air.gentler import REFUSED, gentler
from formulas.air.over_a_jar import flash_and_room
from formulas.air.solvent_answer import ATTACKS, READ_SHEET, ROOM, TO_TELL, TRY
from formulas.air.solvents import (
    SolventValue,
    bench_solvents,
    hazards_of,
    known_or_unknown,
    parts_of,
)
from formulas.answer import Band, Unknown
from formulas.units import printed
from site_builder.markup.elements import (
    Cell,
    Content,
    basis,
    element,
    noted_table,
    paragraph,
    span,
    table,
    unknown,
)
from site_builder.parts.bench_parts import known_id
from site_builder.parts.fact_parts import CUPS
from site_builder.parts.label_parts import pictograms

if TYPE_CHECKING:
    from formulas.air_entries import ExposureLimit, Solvent, SolventFact
    from formulas.catalog import Catalog

PRINTED = {
    "flash-point": "flash point",
    "explosive-lower": "lower explosive limit",
    "explosive-upper": "upper explosive limit",
    "autoignition": "takes fire by itself",
    "vapour-pressure": "vapour pressure",
    "molar-mass": "molar mass",
    "density": "density",
    "boiling-point": "boils",
}
FIRE = ("flash-point", "explosive-lower", "explosive-upper", "autoignition")
PROPERTIES = "properties of solvent_facts.csv with blanks between"
COLUMNS = (("OSHA", "8h"), ("NIOSH", "8h"), ("NIOSH", "15min"), ("UK", "8h"), ("UK", "15min"))
"""The columns of the table of limits; a ceiling stands with the fifteen minutes."""
SHORT = ("15min", "ceiling")
IN_SHORT = ("too lean, by these figures", "not known", "may burn", "can burn")
"""The verdicts over an open jar, in their order."""
ASK = "ask the supplier for the data sheet"
NONE_SET = "none set"
NO_ROW = "look at the list of that body"
WORDS = {"yes": "yes", "some": "in part", "no": "no"}


def solvents(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the solvents of the bench, the gentlest first: what each is for, and what not."""
    rows: list[list[Cell]] = [
        [
            [element("strong", one.name), f" ({one.also_called})" if one.also_called else ""],
            one.used_for,
            one.never_for,
            " ".join(said for said in (one.about, one.note) if said),
            basis(one.basis, one.source, one.where),
        ]
        for one in bench_solvents(catalog)
    ]
    return [table(["Solvent", "Used for", "Never for", "What to know", "Basis"], rows)]


def solvent_fire(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate flash point, explosive limits and what stands over an open jar."""
    rows = [_fire_row(catalog, one) for one in bench_solvents(catalog) if one.kind != "water"]
    heads = [
        "Solvent",
        "Flash point",
        "Lower explosive limit",
        "Upper explosive limit",
        "Takes fire by itself",
        f"Vapour over an open jar at {ROOM:g} °C",
        "So",
    ]
    return [table(heads, rows)]


def _fire_row(catalog: Catalog, one: Solvent) -> list[Cell]:
    over = flash_and_room(catalog, one.id, ROOM)
    values = [_known(catalog, one.id, prop) for prop in FIRE]
    return [one.name, *values, _share(over.share), IN_SHORT[over.verdict]]


def _known(catalog: Catalog, name: str, prop: str) -> Cell:
    found = known_or_unknown(catalog, name, prop)
    if isinstance(found, Unknown):
        return unknown(ASK)
    return [celsius_said(found), " ", element("basis", kind=found.basis, source="")]


def celsius_said(found: SolventValue) -> str:
    """Give a known range; a temperature in degrees Celsius, an end between two by its tenth."""
    if found.unit != "degF":
        return span(found.low, found.high, found.unit, 1 if found.unit == "degC" else 12)
    return span(*found.ends("degC"), "degC", 1)


def _share(share: Band | Unknown) -> Cell:
    if isinstance(share, Unknown):
        return unknown(ASK)
    ends = [printed(end, 2) for end in (share.low, share.high)]
    return f"{'–'.join(dict.fromkeys(ends))} %"


def solvent_values(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate some properties, a row for each solvent, as each source prints them."""
    wanted = [known_id(one, PRINTED, PROPERTIES) for one in argument.split() or [""]]
    rows = [
        [catalog.solvents[name].name, PRINTED[prop], _as_printed(found), _notes(found)]
        for name in catalog.solvents
        for prop in wanted
        if (found := _rows(catalog, name, prop))
    ]
    return [noted_table(["Solvent", "What", "As each source prints it", "Note"], rows)]


def _rows(catalog: Catalog, name: str, prop: str) -> list[SolventFact]:
    return [row for row in catalog.solvent_facts if (row.solvent, row.property) == (name, prop)]


def _as_printed(rows: Sequence[SolventFact]) -> Cell:
    """Give value, cup or condition and basis of each row, one after another."""
    return _joined([[f"{_told(row)}, ", *basis(row.basis, row.source, row.where)] for row in rows])


def _told(row: SolventFact) -> str:
    said = (
        span(row.low, row.high, row.unit),
        CUPS.get(row.method, row.method),
        row.condition.replace("deg", "°"),
    )
    return ", ".join(one for one in said if one)


def _notes(rows: Sequence[SolventFact]) -> str:
    return " ".join(dict.fromkeys(row.note for row in rows if row.note))


def solvent_limits(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the limits of the air of a workplace by body, each with the year of its list."""
    named = {row.solvent for row in catalog.exposure_limits}
    shown = [name for name in _with_parts(catalog) if name in named]
    rows: list[list[Cell]] = [
        [catalog.solvents[name].name, *_limit_cells(catalog, name)] for name in shown
    ]
    heads = ["Solvent", *(_head(body, kind) for body, kind in COLUMNS)]
    return [table(heads, rows), *_other_bodies(catalog, shown)]


def _other_bodies(catalog: Catalog, names: Sequence[str]) -> list[Element]:
    """Say below the table what the few other bodies set: a column of its own would be empty."""
    columns = {column for column, _ in COLUMNS}
    said: list[list[Content]] = [
        [
            f"{catalog.solvents[name].name}, {_head(f'{row.body} {row.name}', row.kind)}: ",
            element("value", _limit_said(row), basis=row.basis, source=row.source),
        ]
        for name in names
        for row in catalog.exposure_limits
        if row.solvent == name and row.body not in columns
    ]
    return [paragraph("Other bodies: ", *_joined(said), ".")] if said else []


def _head(body: str, kind: str) -> str:
    return f"{body}, {'8 hours' if kind == '8h' else '15 minutes'}"


def _with_parts(catalog: Catalog) -> list[str]:
    """Give the solvents of the bench, each mixture followed by its parts."""
    names = [
        name
        for one in bench_solvents(catalog)
        for name in (one.id, *(part.id for part in parts_of(catalog, one.id)))
    ]
    return list(dict.fromkeys(names))


def _limit_cells(catalog: Catalog, name: str) -> Iterable[Cell]:
    rows = [row for row in catalog.exposure_limits if row.solvent == name]
    for body, kind in COLUMNS:
        kinds = SHORT if kind == "15min" else (kind,)
        found = [row for row in rows if row.body == body and row.kind in kinds]
        yield _joined([_limit(row) for row in found]) if found else unknown(NO_ROW)


def _limit(row: ExposureLimit) -> list[Content]:
    return [f"{_limit_said(row)} ", element("basis", kind=row.basis, source=row.source)]


def _limit_said(row: ExposureLimit) -> str:
    if row.none_set or row.value is None:
        return f"{NONE_SET} ({row.year})"
    ceiling = "never above " if row.kind == "ceiling" else ""
    return f"{ceiling}{span(row.value, row.value, row.unit)} ({row.year})"


def _joined(pieces: Sequence[Sequence[Content]]) -> Cell:
    made: list[Content] = []
    for piece in pieces:
        made += ["; ", *piece] if made else piece
    return made


def solvent_hazards(catalog: Catalog, _: str) -> list[Element]:
    """Show the pictograms, the statements of each solvent by code, then the codes in words."""
    names = [one.id for one in bench_solvents(catalog)]
    rows = [_hazard_row(catalog, name) for name in names]
    used = {row.code for name in names for row in hazards_of(catalog, name)}
    texts: list[list[Cell]] = [
        [
            one.code,
            f"{one.signal}: {one.text}" if one.signal else one.text,
            _sign(catalog, one.pictogram),
            basis(one.basis, one.source, one.where),
        ]
        for one in sorted(catalog.statements.values(), key=lambda one: (len(one.code), one.code))
        if one.code in used
    ]
    return [
        pictograms(catalog, "")[0],
        noted_table(["Solvent", "Pictograms", "Hazard statements", "Basis", "Note"], rows),
        table(["Code", "In words", "Pictogram", "Basis"], texts),
    ]


def _hazard_row(catalog: Catalog, name: str) -> list[Cell]:
    found = hazards_of(catalog, name)
    if not found:
        return [catalog.solvents[name].name, "", unknown(READ_SHEET), "", ""]
    signs = dict.fromkeys(catalog.statements[row.code].pictogram for row in found)
    return [
        catalog.solvents[name].name,
        ", ".join(_sign(catalog, one) for one in signs if one),
        " ".join(row.code for row in found),
        basis(found[0].basis, found[0].source, found[0].where),
        "; ".join(f"{row.code}: {row.note}" for row in found if row.note),
    ]


def _sign(catalog: Catalog, name: str) -> str:
    """Name a pictogram by its code where the table of pictograms has one."""
    if name not in catalog.pictograms:
        return name.replace("-", " ")
    one = catalog.pictograms[name]
    return f"{one.code} {one.name.lower()}"


def solvent_attacks(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what each solvent attacks; a blank of the table is said to be one."""
    rows: list[list[Cell]] = [
        [
            one.name,
            *(
                WORDS.get(getattr(one, column)) or unknown(TO_TELL.get(words, TRY))
                for words, column in ATTACKS.items()
            ),
            basis(one.basis, one.source, one.where),
        ]
        for one in bench_solvents(catalog)
    ]
    return [table(["Solvent", *(head.capitalize() for head in ATTACKS), "Basis"], rows)]


def cleaning_tasks(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the dry way of each task, then the solvents that take it off, gentlest first."""
    rows: list[list[Cell]] = [
        [
            element("strong", one.name),
            one.dry,
            ", ".join(_takes_off(catalog, one.id)),
            one.done,
            basis(one.basis, one.source, one.where),
            one.note,
        ]
        for one in catalog.cleaning_tasks.values()
    ]
    heads = ["To take off", "Dry first", "Then, one after another", "It is off when", "Basis"]
    return [
        noted_table([*heads, "Note"], rows),
        paragraph("Nothing stands near in this table: neighbours and heat strike more off it."),
    ]


def _takes_off(catalog: Catalog, task: str) -> list[str]:
    found = gentler(catalog, task)
    return [way.solvent.name for way in found if way.verdict != REFUSED]
