"""The terminal text of `air`: what is refused, the levels of the room, each limit, the basis."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from formulas.air.air_words import often_said
from formulas.answer import Band, Unknown
from site_builder.texts.words import amount, foot, plain_unknown, shop_line, wrapped

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

OVER_THE_LIQUID = "Right over the liquid"
PLACES = {"mL": 1, "g": 1, "min": 1, "m**3": 1, "cm**2": 0, "degC": 1, "ppm": 0}


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the refusals first, then the rows, then each limit, then notes and basis."""
    found = answer.answer
    lines = [wrapped(asked_said(answer), "  "), shop_line(catalog), ""]
    lines += [wrapped(one["reason"], "  ") for one in found["refused"]]
    if found["look_for"]:
        lines.append(wrapped(found["look_for"], "  "))
    lines += ["", *rows(answer), "", *limits(answer)]
    return [*lines, *foot(answer)]


def asked_said(answer: Answer) -> str:
    """Say what was asked, in the unit it was reckoned in."""
    asked = answer.inputs
    if "over" not in asked:
        reading = asked["measured"]
        return f"{asked['name']}, {'nothing read' if reading is None else amount(reading, 3)}"
    used = asked["amount"] or asked["mass"]
    pieces = [
        f"{asked['name']}, {_shown(used)} over {_shown(asked['over'])}",
        f"{asked['times']} such tasks" if asked["times"] > 1 else "one task",
        f"a wet face of {_shown(asked['face'])}" if asked["face"] else "all of it evaporates",
        f"a room of {_shown(asked['room'])}" if asked["room"] else "a room of unknown volume",
        f"air changes an hour: {_changes(asked['air_changes'])} ({asked['air_changes'].method})",
        f"air at {_shown(asked['temperature'])}",
    ]
    return "; ".join(pieces)


def _shown(one: Any) -> str:
    text = amount(one, PLACES[one.unit])
    return text.replace(".0 ", " ")


def _changes(band: Band) -> str:
    low, high = f"{band.low:.3g}", f"{band.high:.3g}"
    return low if low == high else f"{low} to {high}"


def rows(answer: Answer) -> Iterator[str]:
    """Give the summary and the rows; without a room only what stands over the liquid."""
    found = answer.answer
    gone = found["peak"]
    reckoned = "over" in answer.inputs
    if reckoned and isinstance(gone, Unknown):
        yield wrapped(plain_unknown(gone), "  ")
        shown = {OVER_THE_LIQUID: found["said"][OVER_THE_LIQUID]}
    else:
        yield wrapped(f"{found['summary']}.", "  ")
        shown = found["said"]
    if not reckoned:
        yield wrapped(plain_unknown(gone), "  ")
    for name, said in shown.items():
        yield wrapped(f"  {name + ':':<31}{said}.", " " * 33)


def limits(answer: Answer) -> Iterator[str]:
    """Give each limit with how often it is taken up, in the room and near the source."""
    against = answer.answer["against"]
    if not against:
        yield "No limit of any body stands in the tables."
        return
    yield "Limits"
    for one in against:
        yield wrapped(f"  {one['label']}: {one['verdict']}{_ratios(one)}.", "    ")


def _ratios(one: dict[str, Any]) -> str:
    ratio = one["ratio"]
    if ratio is None:
        return ""
    if isinstance(ratio, Band):
        return f", {often_said([ratio.low, ratio.high])} it"
    _, mixed, near, changes = one["said"]
    return (
        f"; {mixed} it through the room, {near} near the source;"
        f" air changes that keep it there: {changes}"
    )
