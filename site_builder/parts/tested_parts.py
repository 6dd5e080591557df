"""What this shop has tested: its tests in a table, what they taught, what to test next."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from formulas.answer import Band, Unknown
from formulas.softening import estimate as softening
from formulas.softening.soften import soften
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
            _named(catalog, one.sample),
            _seen(one, catalog),
            "; ".join([*said.get(one.test, []), one.note]).strip("; "),
        ]
        for one in sorted(catalog.softening_tests, key=lambda one: (one.date, one.test))[::-1]
    ]
    return [noted_table(["Test", "Day and session", "Sample", "Seen", "Remark"], rows)]


def _named(catalog: Catalog, sample: str) -> str:
    """Name a sample as people do: a batch by its number, a blend or a material by its name."""
    if sample in catalog.pot_book:
        return sample
    known = catalog.blends.get(sample) or catalog.materials.get(sample)
    return known.name if known else sample


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


def _seen(one: SofteningTest, catalog: Catalog) -> str:
    method, unit = catalog.methods[one.method].name, spoken_unit(one.unit)
    load = f", {one.load:g} times its own load" if one.load and one.load != 1 else ""
    if one.method in softening.CREEP and one.plate:
        method = f"Step creep, {one.plate} plate{load}"
    if one.result == "firmer":
        return f"{method}: outlasted {_named(catalog, one.other)}"
    if one.result == "reading":
        return f"{method}: {printed(one.low or 0, 1)} {unit}"
    held = "" if one.low is None else f"held at {one.low:g} {unit}"
    moved = "" if one.high is None else f"moved at {one.high:g} {unit}"
    return f"{method}: {', '.join(filter(None, (held, moved)))}"


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
                    _unfit(answer) or _next(answer, catalog),
                ]
            )
    heads = ["Test method", "Rests on", "Band, no safe limit", "Test next"]
    return [
        paragraph(element("strong", blend.name), " ", element("code", blend.id)),
        table(heads, rows),
    ]


def _band(band: Band | Unknown, catalog: Catalog) -> str:
    if isinstance(band, Unknown):
        return "not known: test it"
    shown = band_shown(band, catalog)
    return f"{printed(shown.low, 0)} to {printed(shown.high, 0)} {spoken_unit(shown.unit)}"


def _unfit(answer: dict[str, object]) -> str:
    """Say why a test is not done on a blend."""
    too_much = answer["too_much"]
    return f"none: too much {too_much} for this test" if too_much else ""


def _next(answer: dict[str, object], catalog: Catalog) -> str:
    test, reference = answer["next_test"], answer["reference"]
    said = []
    if isinstance(test, dict):
        shares = ", ".join(
            f"{printed(100 * share, 0)} % {catalog.materials[name].name}"
            for name, share in test["shares"].items()
        )
        said.append(f"{shares}: ±\u00a0{printed(test['half_width_after'], 1)} °C")
    if isinstance(reference, dict):
        said.append(
            f"or the kept {catalog.materials[reference['material']].name} beside session"
            f" {reference['session']}: ±\u00a0{printed(reference['half_width_after'], 1)} °C"
        )
    return "; ".join(said)
