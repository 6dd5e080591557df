"""Parts that stand beside the work: cautions, blends, bench figures, forms, formulas, workings."""

from __future__ import annotations

import functools
import importlib
import re
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.fault import OutOfRange, UnitFault, UnknownName
from formulas.formula import FORMULAS, every_module
from formulas.units import read
from site_builder.markup.elements import (
    BASES,
    Cell,
    Content,
    basis,
    element,
    noted_table,
    number,
    paragraph,
    span,
    table,
    terms,
    unknown,
    value,
)

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.entries import Blend, Caution, Figure

BY_MASS = "parts by mass"
APPLIES = "a name in the column applies_to of cautions.csv"
FIND_SERVICE = (
    "Where a temperature is not known no row gives it: "
    "test the blend on a plate of the kind and weight it is to hold."
)
AMOUNT = "an id of blends.csv with 400g or 60 plates behind it"
LABELS = "labels with ; between them"


def known_id(found: str, accepted: Iterable[str], kind: str) -> str:
    """Give an id back, or raise UnknownName where no table holds it."""
    names = list(accepted)
    if found not in names:
        raise UnknownName(kind, found, names)
    return found


def _boxed(caution: Caution) -> Element:
    return element(
        "caution",
        *(paragraph(words) for words in caution.text.split("\n") if words.strip()),
        id=caution.id,
        title=caution.title,
        codes=" ".join(caution.codes),
        basis=caution.basis,
        source=caution.source,
    )


def caution(catalog: Catalog, argument: str) -> list[Element]:
    """Box one caution."""
    return [_boxed(catalog.cautions[known_id(argument, catalog.cautions, "an id of cautions.csv")])]


def cautions(catalog: Catalog, argument: str) -> list[Element]:
    """Box every caution that applies to one command or leaf."""
    found = catalog.cautions_for(argument) if argument else []
    if not found:
        subjects = sorted({name for one in catalog.cautions.values() for name in one.applies_to})
        raise UnknownName(APPLIES, argument, subjects)
    return [_boxed(one) for one in found]


def by_mass(catalog: Catalog, blend: Blend) -> str:
    """Say a ratio in words, with what its numbers count.

    The unit is never left out: old books count by volume or in lumps.
    """
    shares = (
        f"{number(amount)} of {catalog.materials[material].name}"
        for material, amount in blend.parts.items()
    )
    return f"{'; '.join(shares)} ({BY_MASS})"


def _temperature(low: float | None, high: float | None, unit: str, kind: str, source: str) -> Cell:
    if low is None and high is None:
        return unknown("")
    mark = basis(kind, source if kind == "published" else "")
    return [f"{span(low, high, unit)}, ", *mark]


def _service(blend: Blend) -> Cell:
    return _temperature(
        blend.service_low, blend.service_high, blend.unit, blend.service_basis, blend.source
    )


def _worked(blend: Blend) -> Cell:
    return _temperature(
        blend.working_low, blend.working_high, blend.unit, blend.working_basis, blend.source
    )


def blends(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate every blend with its parts by mass."""
    head = ["Blend", "Ratio", "Used for", "In service", "Worked at", "Basis of the ratio"]
    rows: list[list[Cell]] = [
        [
            [f"{blend.name} (", element("code", blend.id), ")"],
            by_mass(catalog, blend),
            f"{blend.purpose} {blend.note}".rstrip(),
            _service(blend),
            _worked(blend),
            basis(blend.basis, blend.source),
        ]
        for blend in catalog.blends.values()
    ]
    return [table(head, rows), paragraph(FIND_SERVICE)]


def blend(catalog: Catalog, argument: str) -> list[Element]:
    """Show one blend whole."""
    one = catalog.blends[known_id(argument, catalog.blends, "an id of blends.csv")]
    pairs: list[tuple[Cell, Cell]] = [
        ("Used for", one.purpose),
        ("In service", _service(one)),
        ("Worked at", _worked(one)),
        ("Basis of the ratio", basis(one.basis, one.source)),
    ]
    if one.note:
        pairs.append(("Note", one.note))
    parts = table(
        ["Material", "Parts by mass"],
        [
            [catalog.materials[material].name, number(amount)]
            for material, amount in one.parts.items()
        ],
        right=[1],
    )
    title = paragraph(element("strong", one.name), " ", element("code", one.id))
    return [title, parts, terms(pairs), paragraph(FIND_SERVICE)]


def figure_value(figure: Figure) -> list[Content]:
    """Give the value of a bench figure, its usual value beside its range."""
    typical = figure.typical
    if figure.low is None and figure.high is None:
        alone = span(typical, typical, figure.unit)
        return [alone] if alone else [unknown("measure it at your bench")]
    text = span(figure.low, figure.high, figure.unit)
    if typical is None or figure.low == figure.high:
        return [text]
    return [f"{text}, usually {span(typical, typical, figure.unit)}"]


def figures(catalog: Catalog, argument: str) -> list[Element]:
    """Tabulate bench figures by their ids."""
    names = argument.replace(",", " ").split() or [""]
    found = [catalog.figures[known_id(n, catalog.figures, "an id of figures.csv")] for n in names]
    rows = [
        [one.what, figure_value(one), basis(one.basis, one.source, one.where), one.note]
        for one in found
    ]
    return [noted_table(["Figure", "Value", "Basis", "Note"], rows)]


def burns(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate how long a touch may last before it burns, hottest first as it was given."""
    rows = [
        [
            span(one.temperature, one.temperature, one.unit_temperature),
            span(one.time, one.time, one.unit_time),
            basis(one.basis, one.source, one.where),
            one.note,
        ]
        for one in catalog.burns
    ]
    return [noted_table(["Temperature on the skin", "Time to a burn", "Basis", "Note"], rows)]


def basis_key(_: Catalog, __: str) -> list[Element]:
    """Explain every mark of a basis, the strongest first."""
    return [
        table(
            ["Mark", "In words", "Meaning"],
            [[mark, words, meaning] for words, mark, meaning in BASES.values()],
        )
    ]


def form_lines(_: Catalog, argument: str) -> list[Element]:
    """Rule one line to write on for each label."""
    labels = [label.strip() for label in argument.split(";") if label.strip()]
    if not labels:
        raise UnknownName(LABELS, argument, [])
    return [element("formline", label=label) for label in labels]


def formula(_: Catalog, argument: str) -> list[Element]:
    """Show one formula as mathematics."""
    every_module()
    return [element("math", formula=known_id(argument, FORMULAS, "the name of a formula"))]


def chart(catalog: Catalog, argument: str) -> list[Element]:
    """Draw one chart; its title is its caption, its description stands in for it."""
    charts: Any = importlib.import_module("site_builder.parts.charts")
    learned: Any = importlib.import_module("site_builder.parts.learned_charts")
    drawings = {"softening": charts.softening} | {
        f"tests-{name}": functools.partial(learned.learned, method=name)
        for name, method in catalog.methods.items()
        if method.estimated
    }
    svg = drawings[known_id(argument, drawings, "the name of a chart")](catalog)
    title = svg.findtext("title") or f"Chart: {argument}"
    caption = element("figcaption", title)
    return [element("figure", svg, caption, alt=svg.findtext("desc") or title)]


def batch(catalog: Catalog, argument: str) -> list[Element]:
    """Weigh out one blend: `beeswax-rosin-4-1 400g`, or `beeswax-rosin-4-1 60 plates`."""
    from formulas.wax.mix import mix

    mixing: Any = importlib.import_module("site_builder.workings.mix_form")
    forms: Any = importlib.import_module("site_builder.workings.paper_form")
    name, _, amount = argument.partition(" ")
    known = catalog.blends[known_id(name, catalog.blends, "an id of blends.csv")]
    plates = re.fullmatch(r"(\d+) plates", amount.strip())
    try:
        answer = mix(
            catalog,
            known.parts,
            total_g=None if plates else read(amount, "g"),
            plates=int(plates.group(1)) if plates else None,
            blend=name,
        )
    except (UnitFault, OutOfRange) as fault:
        raise UnknownName(AMOUNT, argument, []) from fault
    said = [_in_sentence(catalog, one.what) for one in answer.basis if one.basis == "memory"]
    return [
        paragraph(f"{known.name}, {BY_MASS}, {amount}. Basis: {BASES[known.basis][0]}."),
        mixing.weights(answer, catalog),
        paragraph(f"From memory, to be checked: {'; '.join(said)}."),
        paragraph("Before any heat, tick each:"),
        element("ticks", *forms.to_tick("mix", catalog)),
    ]


def _in_sentence(catalog: Catalog, what: str) -> str:
    """Write what a basis is about as running text has it: materials and methods by their names."""
    names = {key: one.name.lower() for key, one in catalog.materials.items()}
    names |= {key: one.name.lower() for key, one in catalog.methods.items()}
    said = " ".join(names.get(word, word) for word in what.split(" "))
    return said[:1].lower() + said[1:]


def working(_: Catalog, argument: str) -> list[Element]:
    """Place one working: live on a screen, a pencil form on paper."""
    worksheets: Any = importlib.import_module("site_builder.workings.worksheets")
    known = known_id(argument, worksheets.WORKSHEETS, "the name of a working")
    return [element("working", id=known)]


def inline_figure(catalog: Catalog, name: str) -> Element:
    """Give a bench figure for running text."""
    figure = catalog.figures[known_id(name, catalog.figures, "an id of figures.csv")]
    (piece,) = figure_value(figure)
    if isinstance(piece, Element):
        return piece
    return value(figure, figure.source, piece)
