"""What this shop has tested: its tests in a table, what they taught, what to test next."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas import softening
from formulas.answer import Band, Unknown
from formulas.soften import soften
from formulas.units import printed, spoken_unit
from site_builder.markup.elements import Cell, element, noted_table, paragraph, table
from site_builder.parts.bench_parts import known_id
from site_builder.texts.words import band_shown, counted

if TYPE_CHECKING:
    from formulas.book_entries import SofteningTest
    from formulas.catalog import Catalog

NONE_YET = (
    "No test stands in the book of this shop yet. The cheapest first one needs no thermometer: "
    "two waxed plates side by side in one warm box."
)


def softening_tests(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate every test of the shop, newest first, and say which do not count and why."""
    if not catalog.softening_tests:
        return [paragraph(NONE_YET)]
    said = _remarks(catalog)
    rows: list[list[Cell]] = [
        [
            one.test,
            f"{one.date}, {one.session}" if one.session else one.date,
            catalog.methods[one.method].name,
            f"{one.sample} against {one.other}" if one.other else one.sample,
            _seen(one),
            "; ".join([*said.get(one.test, []), one.note]).strip("; "),
        ]
        for one in sorted(catalog.softening_tests, key=lambda one: (one.date, one.test))[::-1]
    ]
    heads = ["Test", "Day and session", "Method", "Sample", "Seen", "Remark"]
    return [noted_table(heads, rows)]


def _remarks(catalog: Catalog) -> dict[str, list[str]]:
    """Give for each test why it does not count, or who contradicts it, by its own method."""
    said: dict[str, list[str]] = {}
    methods = {one.method for one in catalog.softening_tests}
    for method in methods:
        held = softening.model(catalog, method)
        for aside in held.aside:
            said.setdefault(aside.test, []).append(f"not counted: {aside.why}")
        for flag in held.flags:
            said.setdefault(flag.test, []).append(f"contradicted, and still counted: {flag.said}")
    return said


def _seen(one: SofteningTest) -> str:
    unit = spoken_unit(one.unit)
    if one.result == "firmer":
        return f"{one.sample} outlasted {one.other}"
    if one.result == "reading":
        return f"{printed(one.low or 0, 1)} {unit}"
    held = "" if one.low is None else f"held at {one.low:g} {unit}"
    moved = "" if one.high is None else f"moved at {one.high:g} {unit}"
    load = f"; {one.plate} plate, {one.load:g} times its own load" if one.load else ""
    return ", ".join(filter(None, (held, moved))) + load


def softening_now(catalog: Catalog, argument: str) -> list[Element]:
    """Say for one blend what the tests taught by each method, and what to test next."""
    blend = catalog.blends[known_id(argument, catalog.blends, "an id of blends.csv")]
    rows: list[list[Cell]] = []
    for name, method in catalog.methods.items():
        if method.estimated:
            answer = soften(catalog, blend.parts, method=name, blend=blend.id).answer
            rows.append(
                [
                    method.name,
                    counted(answer["tests_used"]),
                    _band(answer["softening"], catalog),
                    _next(answer, catalog),
                ]
            )
    heads = ["Test method", "Rests on", "95 % band, no safe limit", "Test next"]
    return [
        paragraph(element("strong", blend.name), " ", element("code", blend.id)),
        table(heads, rows),
    ]


def _band(band: Band | Unknown, catalog: Catalog) -> str:
    if isinstance(band, Unknown):
        return "not known: test it"
    shown = band_shown(band, catalog)
    return f"{printed(shown.low, 0)} to {printed(shown.high, 0)} {spoken_unit(shown.unit)}"


def _next(answer: dict[str, object], catalog: Catalog) -> str:
    test, reference = answer["next_test"], answer["reference"]
    said = []
    if isinstance(test, dict):
        shares = ", ".join(
            f"{printed(100 * share, 0)} % {catalog.materials[name].name}"
            for name, share in test["shares"].items()
        )
        said.append(f"{shares}: ± {printed(test['half_width_after'], 1)} °C")
    if isinstance(reference, dict):
        said.append(
            f"or the kept {catalog.materials[reference['material']].name} beside session"
            f" {reference['session']}: ± {printed(reference['half_width_after'], 1)} °C"
        )
    return "; ".join(said)
