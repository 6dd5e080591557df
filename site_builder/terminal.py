"""Show an answer on a terminal: as text or as JSON, its cautions always on standard error."""

from __future__ import annotations

import json
import sys
import textwrap
from typing import Any

from formulas.answer import Answer, Band, Quantity, Unknown
from formulas.batch import decimals_of
from formulas.catalog import Catalog
from formulas.units import printed, spoken_unit

WIDTH = 88


def show(answer: Answer, catalog: Catalog, as_json: bool) -> None:
    """Print an answer, then its cautions on standard error, so that a pipe hides none."""
    if as_json:
        print(json.dumps(answer.as_json(), indent=2, ensure_ascii=False))
    else:
        print("\n".join(TEXTS[answer.command](answer, catalog)))
    print("\n".join(_cautions(answer)), file=sys.stderr)


def amount(quantity: Quantity, decimals: int = 0) -> str:
    """Give a quantity as it is printed."""
    return f"{printed(quantity.value, decimals)} {spoken_unit(quantity.unit)}"


def span(band: Band, decimals: int = 0) -> str:
    """Give the ends of a band as they are printed."""
    low, high = printed(band.low, decimals), printed(band.high, decimals)
    return f"{low} to {high} {spoken_unit(band.unit)}"


def _cautions(answer: Answer) -> list[str]:
    lines = ["", "CAUTION"]
    for caution in answer.cautions:
        codes = f" [{' '.join(caution.codes)}]" if caution.codes else ""
        lines.append(_wrapped(f"! {caution.title}{codes}", "  "))
    lines.append("  What to do about each stands in the handbook's safety section.")
    return lines


def _wrapped(text: str, indent: str = "") -> str:
    return textwrap.fill(text, WIDTH, subsequent_indent=indent, break_long_words=False)


def _head(answer: Answer, catalog: Catalog) -> list[str]:
    parts = ", ".join(
        f"{part:g} {catalog.material(name).name}" for name, part in answer.inputs["parts"].items()
    )
    shop = catalog.shop.name + (" (invented demo shop)" if catalog.shop.invented else "")
    return [f"{answer.inputs['blend'] or 'Own ratio'}, parts by mass: {parts}", f"Shop: {shop}", ""]


def _foot(answer: Answer) -> list[str]:
    lines = ["", *(_wrapped(note, "  ") for note in answer.notes), "", "Basis"]
    for basis in answer.basis:
        source = f" ({basis.source})" if basis.source else ""
        said = {"practice": "common practice", "memory": "from memory: check before relying on it"}
        lines.append(
            _wrapped(f"  {basis.what}: {said.get(basis.basis, basis.basis)}{source}", "    ")
        )
    return lines


def _unknown(unknown: Unknown) -> str:
    return _wrapped(f"Not known: {unknown.what}. To find out: {unknown.find_out}", "  ")


def _softening(band: Band | Unknown, catalog: Catalog, tests: int) -> str:
    if isinstance(band, Unknown):
        return _unknown(band)
    shown = band_shown(band, catalog)
    return _wrapped(
        f"Softens somewhere from {span(shown)} by {catalog.methods[band.method].name.lower()}"
        f" (95 % band, resting on {tests} tests of this shop).",
        "  ",
    )


def band_shown(band: Band, catalog: Catalog) -> Band:
    """Give a temperature band in the unit the shop reads."""
    if catalog.shop.units != "US":
        return band
    from formulas.units import convert

    low, high = (convert(end, band.unit, "degF") for end in (band.low, band.high))
    middle = None if band.estimate is None else convert(band.estimate, band.unit, "degF")
    return Band(low, middle, high, "degF", band.method)


def _mix(answer: Answer, catalog: Catalog) -> list[str]:
    found = answer.answer
    decimals = decimals_of(answer.inputs["scale"].value)
    lines = _head(answer, catalog)
    if "needed" in found:
        need = found["needed"]
        lines += [f"{need.method}: {span(need)}", ""]
    for component in found["components"]:
        lines.append(
            f"  {catalog.material(component['material']).name:<24}"
            f"{amount(component['mass'], decimals):>12}"
            f"{printed(100 * component['share'], 2):>9} %"
            f"   weighed {printed(100 * component['weighed_share'], 2)} %"
        )
    lines.append(f"  {'Total':<24}{amount(found['total'], decimals):>12}")
    lines += ["", f"Left {found['usable'].method}: {span(found['usable'])}"]
    lines.append(
        f"Hot volume {span(found['hot_volume'])}; smallest pot {amount(found['pot'])} to the brim"
    )
    cost = found["cost"]
    lines.append(
        _unknown(cost)
        if isinstance(cost, Unknown)
        else f"Cost {amount(cost, 2)} by the shop's prices"
    )
    lines += [_softening(found["softening"], catalog, 0), *_foot(answer)]
    return lines


def _cost(cost: Quantity | Unknown) -> str:
    if isinstance(cost, Unknown):
        return _unknown(cost)
    return f"Cost {amount(cost, 2)} by the shop's prices"


def _soften(answer: Answer, catalog: Catalog) -> list[str]:
    found = answer.answer
    lines = [*_head(answer, catalog), _softening(found["softening"], catalog, found["tests_used"])]
    for name, band in found["by_method"].items():
        if name != answer.inputs["method"]:
            said = "not known" if isinstance(band, Unknown) else span(band_shown(band, catalog))
            lines.append(f"  by {catalog.methods[name].name.lower()}: {said}")
    if answer.inputs["target"] is not None:
        lines += ["", *_target(answer, catalog)]
    if found["next_test"]:
        lines += ["", *_next_test(found["next_test"], catalog)]
    return [*lines, *_foot(answer)]


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
        _wrapped(f"For {wanted} the ratio does not decide: {name} at {shown} cannot be ruled out."),
    ]


def _next_test(test: dict[str, Any], catalog: Catalog) -> list[str]:
    blend = ", ".join(
        f"{printed(100 * share, 0)} % {catalog.material(name).name}"
        for name, share in test["shares"].items()
    )
    return [
        _wrapped(
            f"Test next: {blend}, by {catalog.methods[test['method']].name.lower()}. One reading"
            f" would bring the band from ± {printed(test['half_width_now'], 1)} to"
            f" ± {printed(test['half_width_after'], 1)} °C.",
            "  ",
        )
    ]


TEXTS = {"mix": _mix, "soften": _soften}
