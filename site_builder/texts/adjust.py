"""The terminal text of `adjust`: what to weigh, the result, the working as it goes on paper."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from formulas.answer import Answer, Quantity
from formulas.catalog import Catalog
from formulas.units import printed
from formulas.wax.batch import decimals_of
from site_builder.texts.words import amount, foot, head, wrapped

CROSS = "  "
"""A step that begins so is a line of the cross and is never folded."""


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the additions and the result; out of reach, why, the nearest, and a part of the pot."""
    found = answer.answer
    decimals = decimals_of(answer.inputs["scale"].value)
    lines = head(answer, catalog)
    if not found["reachable"]:
        lines += ["Out of reach."]
        lines += [wrapped(f"  {reason}", "  ") for reason in found["why"]]
        lines += ["", "Nearest" if found["nearest"]["additions"] else "Nearest: as it is"]
    weighed = found if found["reachable"] else found["nearest"]
    lines += _weigh(weighed["additions"], decimals, found["reachable"])
    lines += _result(weighed["result"], found.get("band_of_result"), catalog, decimals)
    if found.get("part"):
        lines += ["", *_part(found["part"], decimals)]
    if "ends" in found:
        lines += ["", *_ends(found, decimals)]
    lines += ["", "Working", *steps(found["working"])]
    return [*lines, *foot(answer)]


def _weigh(additions: Sequence[dict[str, Any]], decimals: int, reachable: bool) -> Iterable[str]:
    if not additions:
        return ["Add nothing."] if reachable else []
    return ["Weigh", *(_line(one["name"], one["mass"], decimals) for one in additions)]


def _line(name: str, mass: Quantity, decimals: int) -> str:
    return f"  {name:<34}{amount(mass, decimals):>12}"


def _result(
    result: dict[str, Any] | None,
    bands: Sequence[dict[str, Any]] | None,
    catalog: Catalog,
    decimals: int,
) -> Iterable[str]:
    """Give the mass in the end, and each share beside the wanted one and with its band."""
    if result is None:
        return
    yield _line("Then there are", result["total"], decimals)
    spread = {one["material"]: one["share"] for one in bands or []}
    for one in result["shares"]:
        name = one["material"]
        share = f"{printed(100 * one['share'], 2)} %"
        line = f"    {catalog.material(name).name:<28}{share:>16}   wanted"
        line += f" {printed(100 * one['wanted'], 2)} %"
        if name in spread:
            line += f"; {printed(spread[name].low, 2)} to {printed(spread[name].high, 2)} %"
        yield line


def _part(part: dict[str, Any], decimals: int) -> Iterable[str]:
    yield wrapped(
        f"Or take {amount(part['of_pot'], decimals)} of the pot alone: with the following it comes"
        f" to the ratio, {amount(part['total'], decimals)} in all. Keep the rest apart."
    )
    yield from (_line(one["name"], one["mass"], decimals) for one in part["additions"])


def _ends(found: dict[str, Any], decimals: int) -> Iterable[str]:
    yield "What the old wax may need"
    for end in ("low", "high"):
        yield f"  at the {end} end of its band{_nearest(found['ends'][end])}: " + _list(
            found["ends"][end]["additions"], decimals
        )
    yield f"  serves both ends: {_list(found['serves_both_ends'], decimals)}"
    yield wrapped(
        "  Add what serves both ends first, test, and then go on in small lots." if
        found["serves_both_ends"] else
        "  No addition serves both ends: test a sample before anything goes in.", "  "
    )  # fmt: skip


def _nearest(end: dict[str, Any]) -> str:
    return "" if end["reachable"] else " (the nearest)"


def _list(additions: Sequence[dict[str, Any]], decimals: int) -> str:
    said = [f"{one['name']}: {amount(one['mass'], decimals)}" for one in additions]
    return "; ".join(said) or "nothing"


def steps(working: Sequence[str]) -> Iterable[str]:
    """Give the steps with their numbers; the lines of the cross stand as they are."""
    count = 0
    for step in working:
        if step.startswith(CROSS):
            yield f"    {step}"
        else:
            count += 1
            yield wrapped(f"  {count}. {step}", "     ")
