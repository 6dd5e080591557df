"""What the leaves of fitting place: the glues, which of them may, and limits of a shop's own."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.valves.glue import KINDS, MAY_NOT, METALS, TOLD, Reason, Verdict, glue_verdict
from formulas.valves.own_limits import instruments_of_limits, limits_of_instrument
from site_builder.markup.elements import Cell, basis, noted_table, paragraph, span, table, unknown
from site_builder.parts.bench_parts import known_id
from site_builder.parts.valve_parts import limit_words

if TYPE_CHECKING:
    from formulas.catalog import Catalog

ASK = "try it on scrap"
PROPERTIES = (
    ("Comes off", "reversible"),
    ("Wets leather", "wets_leather"),
    ("Holds film", "bonds_film"),
    ("Sour", "acid_on_metal"),
    ("Gives way warm", "creeps_warm"),
    ("Fumes on steel", "fume_on_steel"),
)
NO_EXAMPLE = (
    "No good example stands in the tests of this shop yet: the limits of the table count, most "
    "of them from memory."
)


def glues(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what is known of each glue, then its times, its undoing and its scrap test."""
    heads = ["Glue", *(head for head, _ in PROPERTIES)]
    known = [
        [glue.name, *(_answer(getattr(glue, name)) for _, name in PROPERTIES)]
        for glue in catalog.glues.values()
    ]
    times = [
        [
            glue.name,
            _time(glue.open_low, glue.open_high, glue.open_unit),
            _time(glue.wait_low, glue.wait_high, glue.wait_unit),
            glue.reversed_by,
            glue.solvent,
        ]
        for glue in catalog.glues.values()
    ]
    tried = [
        [glue.name, glue.scrap_test, basis(glue.basis, glue.source, glue.where), glue.note]
        for glue in catalog.glues.values()
    ]
    return [
        table(heads, known),
        table(["Glue", "Open for", "Wait before a test", "Undone by", "Thinned by"], times),
        noted_table(["Glue", "On scrap first", "Basis of its rows", "Note"], tried),
    ]


def _answer(word: str) -> Cell:
    return word or unknown(ASK)


def _time(low: float | None, high: float | None, unit: str) -> Cell:
    return span(low, high, unit) if low is not None else unknown(ASK)


def glue_choice(catalog: Catalog, argument: str) -> list[Element]:
    """Say for one kind of stock which glue may go on which metal, and why.

    Metals on which every glue comes out alike share a column.
    """
    kind = known_id(argument, KINDS, "a kind of valve stock")
    alike: dict[tuple[str, ...], list[str]] = {}
    by_metal = {}
    for metal in METALS:
        by_metal[metal] = {one.glue.id: one for one in glue_verdict(catalog, kind, metal)}
        said = tuple(by_metal[metal][name].verdict for name in catalog.glues)
        alike.setdefault(said, []).append(metal)
    firsts = [by_metal[metals[0]] for metals in alike.values()]
    rows = [
        [
            first.glue.name,
            *(verdicts[first.glue.id].verdict for verdicts in firsts),
            *_why([verdicts[first.glue.id] for verdicts in firsts]),
        ]
        for first in glue_verdict(catalog, kind, METALS[0])
    ]
    heads = [f"On {', '.join(metals)}" for metals in alike.values()]
    if len(heads) == 1:
        heads = ["On any plate"]
    return [table([f"Glue for {kind}", *heads, "Why", "Mind as well"], rows)]


NOTHING = "nothing speaks against it"


def _why(verdicts: list[Verdict]) -> list[str]:
    """Give what decides and what is only told; where one reason forbids, the rest is left out."""
    reasons = [one for verdict in verdicts for one in verdict.reasons]
    deciding = [one for one in reasons if one.weight == MAY_NOT]
    deciding = deciding or [one for one in reasons if one.weight != TOLD]
    told = [one for one in reasons if one.weight == TOLD]
    return [_joined(deciding) or NOTHING, _joined(told)]


def _joined(reasons: list[Reason]) -> str:
    return "; ".join(dict.fromkeys(one.words for one in reasons))


def own_limits(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate the limits that the shop's good instruments set, beside those of the table."""
    rows = [
        [
            one.what,
            limit_words(one),
            limit_words(catalog.limit(one.id)),
            basis(one.basis, one.source, f"{instrument}, {one.where}"),
            one.note,
        ]
        for instrument in instruments_of_limits(catalog)
        for one in limits_of_instrument(catalog, instrument)
    ]
    if not rows:
        return [paragraph(NO_EXAMPLE)]
    return [noted_table(["Limit", "Good example", "Table", "Basis", "Note"], rows)]
