"""The terminal text of `soften`."""

from __future__ import annotations

from typing import Any

from formulas.answer import Answer, Unknown
from formulas.catalog import Catalog
from formulas.units import printed
from site_builder.texts.words import band_shown, foot, head, softening, span, wrapped


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the band by each method, what a target leaves open and the test to make next."""
    found = answer.answer
    lines = [*head(answer, catalog), softening(found["softening"], catalog, found["tests_used"])]
    for name, band in found["by_method"].items():
        if name != answer.inputs["method"]:
            said = "not known" if isinstance(band, Unknown) else span(band_shown(band, catalog))
            lines.append(f"  by {catalog.methods[name].name.lower()}: {said}")
    if answer.inputs["target"] is not None:
        lines += ["", *_target(answer, catalog)]
    if found["next_test"]:
        lines += ["", *_next_test(found["next_test"], catalog)]
    return [*lines, *foot(answer)]


def _target(answer: Answer, catalog: Catalog) -> list[str]:
    wanted = f"{answer.inputs['target']:g} °C"
    ranges = answer.answer.get("not_ruled_out", [])
    if not ranges:
        return [f"No share of this blend has a band that reaches {wanted}."]
    name = catalog.material(ranges[0]["of"]).name
    shown = " and ".join(
        f"{printed(100 * r['low'], 0)} to {printed(100 * r['high'], 0)} %" for r in ranges
    )
    return [
        wrapped(f"For {wanted} the ratio does not decide: {name} at {shown} cannot be ruled out."),
    ]


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
