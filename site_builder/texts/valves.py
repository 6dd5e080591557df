"""The terminal text of `valves`: runs of notes with one stock, a line a slot, then the reasons."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from formulas.units import printed
from formulas.valves.deciding import NOT_MEASURED, WITHOUT
from formulas.valves.judging import JUDGED
from formulas.valves.limit_changes import Run, Sensitivity
from formulas.valves.slot_choice import SlotChoice
from formulas.valves.valve_words import (
    ABOUT,
    INCH,
    hang_said,
    length_said,
    long_said,
    percent_said,
    times_said,
    value_said,
)
from site_builder.texts.words import shop_line, wrapped

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

ROOM = JUDGED.index("free-space")
FEW = 4
"""Up to so many slots every reason is printed."""
BASIS_WORDS = {"practice": "Common practice", "memory": "From memory, check before relying on it"}
LIGHT = "; no spring can be set so light: take the lightest that touches, and listen for choke"
NOTHING_MEASURED = (
    "No stock was measured: nothing is chosen. Cut strips, push them over the ramp, and take the"
    " one that hangs within the window."
)


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the runs, the lines, the reasons where there are few slots, and the basis."""
    found: list[SlotChoice] = answer.answer["choices"]
    us = catalog.shop.units == "US"
    lines = [_title(answer), shop_line(catalog), ""]
    together = list(alike(found)) if len(found) > FEW else [(one, one.slot.face) for one in found]
    if len(together) > FEW:
        lines += [wrapped(line, "    ") for line in runs(found, us)] + [""]
    lines += list(_table(together, us))
    if len(together) <= FEW:
        for one, face in together:
            lines += ["", *(wrapped(line, "    ") for line in of_one(one, face, us))]
    if "sensitivity" in answer.answer:
        lines += ["", *(wrapped(line, "    ") for line in hangs_on(answer.answer["sensitivity"]))]
    return [*lines, "", *(wrapped(note, "  ") for note in answer.notes), "", *_basis(answer)]


def hangs_on(found: Sequence[Sensitivity]) -> Iterator[str]:
    """Give what changes where one limit alone is a fifth tighter or a quarter wider."""
    yield "What hangs on each limit (times 0.8, times 1.25)"
    for one in found:
        about_it = ABOUT[JUDGED.index(one.limit)]
        if not one.tighter and not one.wider:
            yield f"  {about_it}: nothing"
        for how, runs_of in (("tighter", one.tighter), ("wider", one.wider)):
            if runs_of:
                yield f"  {about_it}, {how}: {'; '.join(run_said(run) for run in runs_of)}"


def run_said(run: Run) -> str:
    """Give the notes of a run and what they get instead."""
    notes = run.first if run.first == run.last else f"{run.first} to {run.last}"
    return f"{notes} {run.after} instead of {run.before}"


def _basis(answer: Answer) -> Iterator[str]:
    """Give what the verdicts rest on, by the kind of basis: it is the same for every slot."""
    kinds: dict[str, list[str]] = {}
    for one in answer.basis:
        source = f" ({one.source})" if one.source else ""
        kinds.setdefault(one.basis, []).append(f"{one.what[0].lower()}{one.what[1:]}{source}")
    yield "Basis"
    for kind, whats in kinds.items():
        yield wrapped(f"  {BASIS_WORDS.get(kind, kind)}: {'; '.join(whats)}", "    ")


def alike(found: Sequence[SlotChoice]) -> Iterator[tuple[SlotChoice, str]]:
    """Give the choices with their faces; both faces of a plate once where they are alike."""
    place = 0
    while place < len(found):
        one, other = found[place], found[min(place + 1, len(found) - 1)]
        same = other is not one and _said(one) == _said(other)
        yield one, "both" if same else one.slot.face
        place += 2 if same else 1


def _said(one: SlotChoice) -> tuple[object, ...]:
    """Give what two slots of a plate have to share to be told as one."""
    room = [limit for place, limit in enumerate(one.limits) if place != ROOM]
    told = [note for note in one.told if not note.startswith(ABOUT[ROOM])]
    return (one.slot.midi, chosen_said(one), one.sizes, one.found, room, told, one.reasons)


def _title(answer: Answer) -> str:
    asked = answer.inputs
    if "slot" in asked:
        return f"One slot, {asked['sounds']}, valve {asked['face']}, posture {asked['posture']}"
    note = f", note {asked['note']}" if asked["note"] else ""
    return f"Instrument {asked['instrument']}, rank {asked['rank']}{note}"


def chosen_said(one: SlotChoice) -> str:
    """Name what a slot gets."""
    if one.topper:
        return f"{one.stock} + {one.topper}"
    if one.helper:
        return f"{one.stock} + helper"
    return one.stock if one.to_cut else one.kind_said


def runs(found: Sequence[SlotChoice], us: bool) -> Iterator[str]:
    """Give the notes that follow one another and get the same, a line a run.

    The two faces are told apart where they are not alike all through.
    """
    faces = {face for _, face in alike(found)}
    for face in ("both",) if faces == {"both"} else ("inside", "outside"):
        run: list[SlotChoice] = []
        for one in found:
            if face not in ("both", one.slot.face):
                continue
            if run and chosen_said(one) != chosen_said(run[0]):
                yield _run(run, face, us)
                run = []
            run.append(one)
        yield _run(run, face, us)


def _run(run: Sequence[SlotChoice], face: str, us: bool) -> str:
    first, last = run[0], run[-1]
    notes = first.slot.sounds
    notes += "" if notes == last.slot.sounds else f" to {last.slot.sounds}"
    side = "" if face == "both" else f" {face}"
    hang = f"{first.slot.sounds} {window_said(first, us)}"
    if first.slot.sounds != last.slot.sounds:
        hang += f", {last.slot.sounds} {window_said(last, us)}"
    return f"  {notes}{side}: {chosen_said(first)}, {len(run)} slots; overhang wanted {hang}"


def window_said(one: SlotChoice, us: bool) -> str:
    """Give how far a strip of the stock's mass has to hang over the ramp: twice the window."""
    return hang_said(one.window[0], one.window[1], us)


def _shop(metres: float, us: bool) -> float:
    return metres / INCH if us else 1000 * metres


def _table(found: Sequence[tuple[SlotChoice, str]], us: bool) -> Iterator[str]:
    unit = "in" if us else "mm"
    yield (
        f"  {'Note':5}{'Face':6}{'Slot, ' + unit:10}{'Cut, ' + unit:10}{'Stock':{COLUMN}}"
        f"{'Gap':>9}{'Soft':>7}{'Loud':>7}{'Margin':>7}"
    )
    for one, face in found:
        length, width = one.slot.slot_length.estimate, one.slot.slot_width.estimate
        slot = f"{_short(length, us)}x{_short(width, us)}"
        cut = f"{_short(one.sizes[6], us)}x{_short(one.sizes[5], us)}" if one.to_cut else ""
        sure = "" if one.sure or not one.to_cut else " ?"
        stock = f"{chosen_said(one)}{sure}"
        stock = stock if len(stock) < COLUMN else f"{stock}\n{'':{33 + COLUMN}}"
        line = f"  {one.slot.sounds:5}{SHORT[face]:6}{slot:10}{cut:10}{stock:{COLUMN}}"
        line += _figures(one, us)
        yield line.rstrip()
    if any(not one.sure for one, _ in found if one.to_cut):
        yield "  ? the slot was not measured, or an end of what is known passes a limit"


COLUMN = 26
SHORT = {"both": "both", "inside": "in", "outside": "out"}


def _figures(one: SlotChoice, us: bool) -> str:
    if not one.to_cut and one.kind != WITHOUT:
        return f"hang {window_said(one, us)}"
    if not one.found:
        return ""
    gap, soft, loud = one.found[0], one.found[3], one.found[5]
    return (
        f"{length_said(gap, us):>9}{percent_said(soft):>7}{percent_said(loud):>7}"
        f"{times_said(one.margin):>7}"
    )


def _short(metres: float, us: bool) -> str:
    return printed(_shop(metres, us), 2 if us else 1)


def of_one(one: SlotChoice, face: str, us: bool) -> Iterator[str]:
    """Give all that is said of one slot, or of both of a plate."""
    yield f"{one.slot.sounds}, {'both faces' if face == 'both' else face}: {chosen_said(one)}"
    for reason in one.reasons:
        yield f"  - {reason}"
    if one.kind == NOT_MEASURED:
        yield f"  - {NOTHING_MEASURED}"
    if one.helper:
        yield (
            f"  - helper: presses with {printed(one.helper.preload, 1)} Pa all over, or"
            f" {printed(1000 * one.helper.force, 2)} mN at the tip; choke then at most"
            f" {percent_said(one.helper.choke[0])} at the softest"
            f"{'' if one.helper.settable else LIGHT}"
        )
    yield (
        f"  - a strip of {printed(1000 * one.window_mass, 0)} g/m² should hang over the ramp"
        f" {window_said(one, us)}"
    )
    if one.at_ends and one.kind != NOT_MEASURED:
        low, high = one.at_ends
        yield (
            f"  - the slot was not measured: {_ends(one, us)}; at its low end {low}, at its high"
            f" end {high}"
        )
    for note in one.told:
        yield f"  - told: {note}"
    for place, name in enumerate(one.names):
        if place < len(one.limits):
            limit = (
                f", limit {value_said(place, one.limits[place], us)}" if one.limits[place] else ""
            )
            yield (
                f"  {ABOUT[place]}: {value_said(place, one.found[place], us)}"
                f" ({value_said(place, one.low[place], us)} to"
                f" {value_said(place, one.high[place], us)}){limit}"
            )
        else:
            yield f"  {name.replace('_', ' ')}: {value_said(place, one.found[place], us)}"
    for runner in one.runners_up:
        yield f"  {runner.stock}: {runner.verdict}; {runner.reason}"


def _ends(one: SlotChoice, us: bool) -> str:
    length = one.slot.slot_length
    return f"{long_said(length.low, us)} to {long_said(length.high, us)}"
