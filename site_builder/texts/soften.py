"""The terminal text of `soften`: words first, then the band, then what to test."""

from __future__ import annotations

from typing import Any

from formulas.answer import Answer, Band, Unknown
from formulas.catalog import Catalog
from formulas.softening.chance import rest_of
from formulas.softening.estimate import fit_method
from formulas.units import printed
from formulas.wax.batch import shares_of
from site_builder.texts.words import (
    asked,
    band_shown,
    foot,
    head,
    softening,
    span,
    unknown,
    wrapped,
)


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give what can be said, the band by each method, and the tests that would tell more."""
    found = answer.answer
    lines = [*head(answer, catalog), *_said(answer, catalog)]
    lines.append(softening(found["softening"], catalog, found["tests_used"]))
    if "next_lot" in found:
        lines.append(f"  a batch from new lots: {span(band_shown(found['next_lot'], catalog))}")
    for name, band in found["by_method"].items():
        if name != answer.inputs["method"]:
            said = "not known" if isinstance(band, Unknown) else span(band_shown(band, catalog))
            lines.append(f"  by {catalog.methods[name].name.lower()}: {said}")
    if answer.inputs["target"] is not None:
        lines += ["", *_target(answer, catalog)]
    lines += ["", *_tests(answer, catalog)]
    return [*lines, *_set_aside(found), *foot(answer)]


def _said(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the words that come before any figure."""
    found = answer.answer
    method = catalog.methods[answer.inputs["method"]].name.lower()
    lines = []
    if "against" in found:
        lines.append(wrapped(_against(found["against"], method, catalog), "  "))
    if "floor" in found:
        lines.append(wrapped(_floor(found["floor"], catalog), "  "))
    return [*lines, ""] if lines else []


def _against(found: dict[str, Any] | Unknown, method: str, catalog: Catalog) -> str:
    if isinstance(found, Unknown):
        return unknown(found)
    chance, other = found["chance_firmer"], catalog.blend(found["blend"]).name
    if found["verdict"] == "cannot tell":
        share = printed(100 * chance, 0)
        return f"Cannot tell by {method} whether it is firmer than {other}: {share} % that it is."
    sure = chance if found["verdict"] == "firmer" else rest_of(chance)
    share = printed(100 * sure, 0)
    return f"{found['verdict'].capitalize()} than {other} by {method}, with {share} %."


def _floor(found: dict[str, Any] | Unknown, catalog: Catalog) -> str:
    if isinstance(found, Unknown):
        return unknown(found)
    chance = printed(100 * found["chance"], 0)
    held = asked(found["temperature"].value, catalog)
    method = catalog.methods[found["method"]].name.lower()
    return f"{chance} % that a batch from new lots holds {held} by {method}; no promise."


def _target(answer: Answer, catalog: Catalog) -> list[str]:
    wanted = asked(answer.inputs["target"], catalog)
    ranges = answer.answer.get("not_ruled_out", [])
    if not ranges:
        return [f"No share of this blend has a band that reaches {wanted}."]
    name = catalog.material(ranges[0]["of"]).name
    shown = " and ".join(
        f"{printed(100 * r['low'], 0)} to {printed(100 * r['high'], 0)} %" for r in ranges
    )
    opening = (
        f"For {wanted}:"
        if answer.answer["tests_used"]
        else (f"For {wanted} the ratio does not decide:")
    )
    return [wrapped(f"{opening} {name} at {shown} cannot be ruled out.")]


def _tests(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the test to make next, what the reference would tell, and how many to a width."""
    found = answer.answer
    lines = _next_test(found["next_test"], catalog) if found["next_test"] else []
    if found["too_much"]:
        lines.append(_none(answer, catalog))
    if found["reference"]:
        lines.append(_reference(found["reference"], catalog))
    if "tests_until" in found:
        lines.append(_until(found["tests_until"], answer.inputs["width"]))
    return lines


def _next_test(test: dict[str, Any], catalog: Catalog) -> list[str]:
    blend = ", ".join(
        f"{printed(100 * share, 0)} % {catalog.material(name).name}"
        for name, share in test["shares"].items()
    )
    return [
        wrapped(
            f"Test next: {blend}, by {catalog.methods[test['method']].name.lower()}. One reading"
            f" would bring the band from ± {printed(test['half_width_now'], 1)} to"
            f" ± {printed(test['half_width_after'], 1)} °C.",
            "  ",
        )
    ]


def _none(answer: Answer, catalog: Catalog) -> str:
    """Say why a blend is not tested by this method, and by which it can be."""
    fit = fit_method(catalog, shares_of(answer.inputs["parts"]))
    asked_by, other = (
        catalog.methods[name].name.lower() for name in (answer.inputs["method"], fit)
    )
    too_much = answer.answer["too_much"]
    return wrapped(
        f"Test next: none by {asked_by}: too much {too_much} for this test. Ask by {other}.", "  "
    )


def _reference(found: dict[str, Any], catalog: Catalog) -> str:
    return wrapped(
        f"Or the reference: {catalog.material(found['material']).name} of the kept lot, beside"
        f" session {found['session']}: to ± {printed(found['half_width_after'], 1)} °C.",
        "  ",
    )


def _until(count: int, width: float) -> str:
    if count < 0:
        return wrapped(
            f"± {width:g} °C is not reached with 60 tests on this rig: check its thermometer in"
            " melting ice and boiling water.",
            "  ",
        )
    if count == 0:
        return f"The band lies within ± {width:g} °C already."
    tests = "test" if count == 1 else "tests"
    return f"± {width:g} °C takes {count} more {tests}, each the one that tells most."


def _set_aside(found: dict[str, Any]) -> list[str]:
    lines = [
        wrapped(f"Contradicted, and still counted: {one['test']}, {one['said']}.", "  ")
        for one in found["contradicted"]
    ]
    lines += [
        wrapped(f"Not counted: {one['test']}, {one['why']}.", "  ") for one in found["tests_aside"]
    ]
    lines += [
        wrapped(f"Lot {one['lot']} stands apart: {_shift(one['shift'])}.", "  ")
        for one in found["lots"]
        if one["shift"].low > 0 or one["shift"].high < 0
    ]
    return ["", *lines] if lines else []


def _shift(shift: Band) -> str:
    ends = [printed(end, 1) for end in (shift.low, shift.high)]
    return f"it shifts its material by {ends[0]} to {ends[1]} °C"
