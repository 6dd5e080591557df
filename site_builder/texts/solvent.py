"""The terminal text of `solvent`: what is known of one, then the ways for a task."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from formulas.air.solvents import FIND_OUT
from formulas.answer import Band, Quantity, Unknown
from formulas.units import convert, printed
from site_builder.markup.elements import number, span
from site_builder.texts.words import foot, plain_unknown, shop_line, wrapped

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

WORDS = {
    "flash-point": "flash point",
    "autoignition": "takes fire by itself",
    "explosive-lower": "lower explosive limit",
    "explosive-upper": "upper explosive limit",
    "vapour-pressure": "vapour pressure, 20 °C",
    "boiling-point": "boils",
    "molar-mass": "molar mass",
    "density": "density",
}
TIMES = {"8h": "8 hours", "15min": "15 minutes", "ceiling": "ceiling"}
READ_IN = {
    "degC": ("degC", "degF"),
    "degF": ("degC", "degF"),
    "kPa": ("kPa", "mmHg"),
    "mmHg": ("kPa", "mmHg"),
    "g/cm**3": ("kg/m**3", "kg/m**3"),
}
"""The unit a metric shop reads, and a US one, for those of the sources."""
DECIMALS = {"degC": 1, "degF": 1, "kPa": 3, "mmHg": 1, "kg/m**3": 1}


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the solvent, then the task, then the basis."""
    us = catalog.shop.units == "US"
    lines = [shop_line(catalog)]
    one, task = answer.answer["solvent"], answer.answer["task"]
    if one:
        lines += ["", *one_lines(one, answer.inputs["room"], us)]
    if task:
        lines += ["", *task_lines(task, answer.inputs)]
    if not one and not task:
        lines += ["", *list_lines(answer.answer["solvents"])]
    return [*lines, *foot(answer)]


def list_lines(solvents: list[dict[str, str]]) -> Iterator[str]:
    """List the solvents of the bench, the gentlest first."""
    yield "  Solvents of the bench, the gentlest first"
    for one in solvents:
        yield wrapped(f"    {one['id']:<17}{one['name']}: {one['used_for']}", " " * 21)


def one_lines(one: dict[str, Any], room: Quantity, us: bool) -> Iterator[str]:
    """Say what is known of one solvent."""
    also = f" ({one['also_called']})" if one["also_called"] else ""
    yield wrapped(f"{one['name']}{also}", "  ")
    yield wrapped(f"  {one['about']}", "  ")
    yield wrapped(f"  Used for: {one['used_for']}", "    ")
    if one["never_for"]:
        yield wrapped(f"  Never for: {one['never_for']}", "    ")
    if one["note"]:
        yield wrapped(f"  {one['note']}", "  ")
    for part in one["reckoned_as"]:
        low, high = number(100 * part["low"], 1), number(100 * part["high"], 1)
        yield f"  Reckoned as: {part['id']}, {low} to {high} % by volume"
    yield ""
    yield from _value_lines(one["values"], us)
    yield from _over_lines(one["over_the_jar"], room, us)
    yield ""
    yield from _limit_lines(one["limits"])
    yield ""
    yield from _hazard_lines(one["hazards"])
    yield ""
    yield "  What it attacks"
    for what, said in one["attacks"].items():
        words = plain_unknown(said) if isinstance(said, Unknown) else said
        yield wrapped(f"    {what + ':':<24}{words}", " " * 28)


def _value_lines(values: dict[str, Any], us: bool) -> Iterator[str]:
    missing = []
    for prop, value in values.items():
        words = WORDS[prop].replace("20 °C", "68 °F") if us else WORDS[prop]
        if isinstance(value, Unknown):
            missing.append(words)
        else:
            yield wrapped(f"  {words + ':':<26}{value_said(value, us)}", " " * 28)
    if missing:
        yield wrapped(f"  Not known: {', '.join(missing)}. To find out: {FIND_OUT}.", "    ")
    if values:
        yield ""


def value_said(value: Any, us: bool) -> str:
    """Say a value with the basis behind it, in the unit the shop reads."""
    if isinstance(value, Unknown):
        return plain_unknown(value)
    shown = ends_said(value["low"], value["high"], value["unit"], us)
    how = f", {value['how']}" if value["how"] else ""
    return f"{shown} ({value['basis']}{how})"


def ends_said(low: float, high: float, unit: str, us: bool) -> str:
    """Give both ends in the unit the shop reads; a unit nobody has to turn stays as printed."""
    wanted = READ_IN.get(unit, (unit, unit))[us]
    first, last = convert(low, unit, wanted), convert(high, unit, wanted)
    return span(first, last, wanted, DECIMALS.get(wanted, 12)).partition(" (")[0]


def _over_lines(over: dict[str, Any], room: Quantity, us: bool) -> Iterator[str]:
    at = ends_said(room.value, room.value, "degC", us)
    yield wrapped(f"  At {at} {over['verdict']}.", "  ")
    share, lower = over["share"], over["lower_limit"]
    if isinstance(share, Band):
        how = f" ({share.method})" if share.method else ""
        vapour = ends_said(_two(share.low), _two(share.high), "percent", us)
        against = value_said(lower, us)
        yield wrapped(
            f"    vapour over the jar: {vapour} of the air{how}; lower explosive limit: {against}",
            "      ",
        )
    elif over["by_flash_point"]:
        yield wrapped(f"    vapour over the jar: {plain_unknown(share)}", "      ")
    if over["by_flash_point"]:
        yield wrapped(f"    by its flash point: {over['by_flash_point']}", "      ")


def _two(value: float) -> float:
    return float(printed(value, 2))


def _limit_lines(limits: list[dict[str, Any]]) -> Iterator[str]:
    yield "  Limits of the air of a workplace"
    if not limits:
        yield "    none in the tables: nobody looked, which is no permission"
    for one in limits:
        yield wrapped(f"    {limit_said(one)}", "      ")


def limit_said(one: dict[str, Any]) -> str:
    """Say one limit: whose, over which time, of which year, on what basis."""
    head = f"{one['body']} {one['name']} of {one['year']}, {TIMES[one['time']]}, {one['of']}"
    value = "none set" if one["none_set"] else limit_value(one["limit"])
    note = f". {one['note']}" if one["note"] else ""
    return f"{head}: {value} ({one['basis']}){note}"


def limit_value(limit: Quantity) -> str:
    """Give a limit in the unit of its body."""
    return f"{number(limit.value)} {limit.unit.replace('**3', '³')}"


def _hazard_lines(hazards: Any) -> Iterator[str]:
    yield "  Hazard statements"
    if isinstance(hazards, Unknown):
        yield wrapped(f"    {plain_unknown(hazards)}", "    ")
        return
    for one in hazards:
        sign = f" [{one['pictogram'].replace('-', ' ')}]" if one["pictogram"] else ""
        signal = f"{one['signal']}: " if one["signal"] else ""
        note = f" {one['note']}" if one["note"] else ""
        yield wrapped(
            f"    {one['code']:<8}{signal}{one['text']}{sign} ({one['basis']}){note}", " " * 12
        )


def task_lines(task: dict[str, Any], asked: dict[str, Any]) -> Iterator[str]:
    """Say the dry way, then each solvent in order, then those that are refused."""
    near = f"; near it: {', '.join(asked['near'])}" if asked["near"] else ""
    heat = "; heat in the room" if asked["heat_in_the_room"] else ""
    yield wrapped(f"To take off: {task['name']}{near}{heat}", "  ")
    yield wrapped(f"  Dry first: {task['dry']}.", "    ")
    for rank, one in enumerate(task["ways"], 1):
        yield wrapped(f"  {rank}. {one['name']}: {_said(one)}", "     ")
    if not task["ways"]:
        yield wrapped("  No solvent: none of the table goes together with what was asked.", "  ")
    for one in task["refused"]:
        yield wrapped(f"  -  {one['name']}: {_said(one)}", "     ")
    yield wrapped(f"  It is off when: {task['done']}.", "    ")
    if task["note"]:
        yield wrapped(f"  {task['note']}", "  ")


def _said(one: dict[str, Any]) -> str:
    reasons = "; ".join(one["reasons"])
    return f"{one['verdict']}: {reasons}" if reasons else one["verdict"]
