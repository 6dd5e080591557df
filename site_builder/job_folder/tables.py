"""The tables of a job folder: every total with its rows, and every plate, for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from formulas.units import printed
from site_builder.texts.job_words import middle_of

if TYPE_CHECKING:
    from formulas.jobs.job import Whole
    from formulas.valves.rank import Size

NEEDS = (
    "group", "item", "name", "row", "count", "amount", "low", "high", "unit", "basis", "note",
)  # fmt: skip
TOTAL = "total"
SIDES = ("length", "width", "thickness")
PLATES = (
    "mark", "block", "position", "rank", "note",
    *(f"{side}_{end}_mm" for side in SIDES for end in ("low", "mid", "high")),
    "seating", "metal", "tongues", "measured", "keeps_valves", "keeps_wax",
)  # fmt: skip


def needs_csv(whole: Whole) -> str:
    """Give every line of the needs list: its total first, then each row that it is the sum of."""
    rows: list[list[str]] = []
    for line in whole.lines:
        band, named = line.amount, [line.group, line.item, line.name]
        count = sum(part.count for part in line.parts)
        ends = [_plain(band.low), _plain(band.high), band.unit, line.basis, line.note]
        rows.append([*named, TOTAL, str(count), _plain(middle_of(line)), *ends])
        rows += [
            [*named, part.where, str(part.count), _plain(part.amount), "", "", band.unit, "", ""]
            for part in line.parts
        ]
    return _written(NEEDS, rows)


def plates_csv(whole: Whole) -> str:
    """Give every plate with its mark, its sizes and how it is seated."""
    rows = [
        [
            one.mark,
            one.block,
            str(one.position),
            one.rank,
            one.note,
            *(end for side in SIDES for end in _ends(getattr(one, side))),
            one.seating,
            one.metal,
            str(one.tongues),
            *("yes" if said else "no" for said in (one.measured, one.keeps_valves, one.keeps_wax)),
        ]
        for one in whole.plates
    ]
    return _written(PLATES, rows)


def _ends(size: Size) -> list[str]:
    return [printed(1000 * end, 2) for end in (size.low, size.estimate, size.high)]


def _plain(value: float) -> str:
    return printed(value, 3)


def _written(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    made = io.StringIO()
    writer = csv.writer(made, lineterminator="\n")
    writer.writerow(heads)
    writer.writerows(rows)
    return made.getvalue()
