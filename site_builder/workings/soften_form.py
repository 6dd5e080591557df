"""The working of `soften`: estimate where a blend softens."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.answer import Band, Unknown
from formulas.fault import NotKnown
from formulas.softening.estimate import cut, model
from formulas.softening.mixture import blend_terms, body_shares, softener_share
from formulas.softening.soften import TARGETS, WIDTHS, soften
from formulas.units import fahrenheit, printed, spoken_unit
from formulas.wax.batch import shares_of
from formulas.wax.mix import TOTALS_G
from site_builder.markup.elements import element, paragraph, table
from site_builder.texts.words import band_shown, counted
from site_builder.workings.page_data import METHOD_BY_RULE
from site_builder.workings.paper_form import BLANK_ROWS, ratio
from site_builder.workings.worksheet import (
    EXAMPLE,
    Field,
    Worksheet,
    blend_fields,
    example_blend,
)

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog


def _fields(catalog: Catalog) -> list[Field]:
    methods = tuple(
        (name, method.name) for name, method in catalog.methods.items() if method.estimated
    )
    rule = (("", METHOD_BY_RULE),)
    blends = tuple((name, blend.name) for name, blend in catalog.blends.items())
    low, high = TARGETS
    unit = "°C"
    if catalog.shop.units == "US":
        low, high, unit = fahrenheit(low), fahrenheit(high), "°F"
    return [
        *blend_fields(catalog, TOTALS_G[1]),
        Field("method", "Test method", kind="choice", choices=rule + methods),
        Field("target", "Target, if you have one", unit, low=low, high=high, blank=True),
        Field(
            "against",
            "Compare with",
            kind="choice",
            choices=(("", "nothing"), *blends),
            default=catalog.shop.usual,
        ),
        Field("floor", "Must hold, by step creep", unit, low=low, high=high, blank=True),
        Field("width", "Wanted: give or take", "°C", low=WIDTHS[0], high=WIDTHS[1], blank=True),
    ]


def _example(catalog: Catalog) -> Answer:
    blend = example_blend(catalog)
    return soften(catalog, blend.parts, blend=blend.id)


def _estimated(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the worked example of an estimate and the table for the shop's own tests."""
    found = answer.answer
    rows = [
        [catalog.methods[name].name, *_ends(band, catalog)]
        for name, band in found["by_method"].items()
    ]
    yield paragraph(
        element("strong", "Worked example."),
        f" {ratio(answer, catalog)}. Rests on {counted(found['tests_used'])} by"
        f" {catalog.methods[answer.inputs['method']].name.lower()}.",
        "" if found["tests_used"] else " Without tests the ratio does not decide this.",
    )
    yield table(["Test method", "Low end", "High end"], rows, right=[1, 2])
    yield from _coefficients(answer, catalog)
    if found["next_test"]:
        yield paragraph(f"Test first: {_next(found['next_test'], catalog)}.")
    yield paragraph(element("strong", "Yours."))
    head = ["Test method", "Low end", "High end", "Reading", "Date"]
    yield table(head, [[""] * 5 for _ in range(BLANK_ROWS)])


def _coefficients(answer: Answer, catalog: Catalog) -> Iterable[Element]:
    """Give the terms of the example with their coefficients and covariances, in degC."""
    method = answer.inputs["method"]
    shares = shares_of(answer.inputs["parts"])
    try:
        part = cut(catalog, model(catalog, method), shares)
    except NotKnown:
        return
    names = [catalog.materials[name].name for name in part.names[: part.bodies]]
    pair = [(i, j) for i in range(part.bodies) for j in range(i + 1, part.bodies)]
    told = [*(f"{k}: {name}" for k, name in enumerate(names, 1))]
    told += [f"{i + 1} times {j + 1}" for i, j in pair]
    told += [f"{i + 1} times {j + 1} times ({i + 1} less {j + 1})" for i, j in pair]
    beta = [*part.ends, *(part.bends[i][j] for i, j in pair), *(part.skews[i][j] for i, j in pair)]
    terms = blend_terms(
        body_shares(part.shares, part.bodies), softener_share(part.shares, part.bodies)
    )
    rows = [
        [word, printed(terms[k], 3), printed(beta[k], 2)]
        + [printed(part.covariance[k][other], 2) for other in range(len(told))]
        for k, word in enumerate(told)
    ]
    yield paragraph(f"By {catalog.methods[method].name.lower()}, in °C, this is reckoned with:")
    head = ["Term", "x", "Coefficient", *(f"S, row {k}" for k in range(1, len(told) + 1))]
    yield table(head, rows, right=range(1, len(head)))
    yield paragraph(
        "The estimate is each x times its coefficient, added up. The band goes to either side by"
        " 1.96 times the root of the sum of all x times x times S. Another ratio of the same"
        " materials has other x and the same coefficients, until the shop tests again."
    )


def _ends(band: Band | Unknown, catalog: Catalog) -> list[str]:
    if isinstance(band, Unknown):
        return ["not known", "not known"]
    shown = band_shown(band, catalog)
    unit = spoken_unit(shown.unit)
    return [f"{printed(shown.low, 0)} {unit}", f"{printed(shown.high, 0)} {unit}"]


def _next(test: dict[str, Any], catalog: Catalog) -> str:
    shares = ", ".join(
        f"{printed(100 * share, 0)} % {catalog.materials[name].name}"
        for name, share in test["shares"].items()
    )
    return f"{shares}, by {catalog.methods[test['method']].name.lower()}"


WORKSHEET = Worksheet(
    id="soften",
    title="Estimate softening",
    command=f"benchbinder soften {EXAMPLE}",
    fields=_fields,
    formulas=("softening_point", "pair_bends", "band_half_width"),
    example=_example,
    rows=(
        ("against", "Compared"),
        ("floor", "Holds, no promise"),
        ("middle", "Estimate"),
        ("band", "95 % band"),
        ("lot", "A batch from new lots"),
        ("method", "Test method"),
        ("tests", "Rests on"),
        ("target", "Target"),
        ("next", "Test next"),
        ("reference", "Or the reference wax"),
        ("until", "Tests to that width"),
    ),
    worked=_estimated,
    lines=(
        "Date and blend",
        "Parts by mass",
        "Test method",
        "Reading of the kept reference wax in the same session",
        "Reading of the blend",
        "Thermometer and bath",
        "Tested by",
    ),
)
