"""What no single cell of the steps and grades shows: names that name nothing, steps out of order.

A shop may write steps of its own over the trade's; the places of the hold points stay.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from formulas.fault import CellFault, hint
from formulas.jobs.job import KEPT
from formulas.jobs.survey import read_change
from formulas.table import Row

Rows = Mapping[str, Sequence[Row]]

SEATED = (
    "bed-plate",
    "seat-on-gasket",
    "screw-plate",
    "push-in-plate",
    "seat-in-sealant",
)
"""The steps that put a plate where its inside valve is out of reach."""
FIRST_THEN = (
    ("agree-work", "lift-plate"),
    ("agree-work", "take-off-plate"),
    ("agree-work", "push-out-plate"),
    ("fit-inside-valve", "sign-inside-valves"),
    *(("sign-inside-valves", seated) for seated in SEATED),
    ("ready-for-heat", "melt-wax"),
    ("ready-for-heat", "bed-plate"),
    *((seated, "tuning") for seated in SEATED),
    ("fit-outside-valve", "tuning"),
    ("sign-before-tuning", "tuning"),
    ("tuning", "hand-over"),
)
"""What stands before what, whatever a shop does."""
HOLD_POINTS = ("agree-work", "sign-inside-valves", "ready-for-heat", "sign-before-tuning")


def survey_faults(all_rows: Rows) -> Iterator[CellFault]:
    """Give every fault of the steps and of the grades that no cell shows alone."""
    steps = [row for row in all_rows["work_steps.csv"] if row.whole]
    grades = [row for row in all_rows["survey_grades.csv"] if row.whole]
    cautions = {row["id"] for row in all_rows["cautions.csv"]} - {None}
    groups = {row["group"] for row in all_rows["seating_methods.csv"]} - {None}
    yield from _steps(steps, groups)
    yield from _in_order(steps)
    yield from _grades(grades, {row["id"]: row for row in steps})
    for row in (*steps, *grades):
        yield from _words(row, "cautions", cautions, "ids of cautions.csv")


def _words(row: Row, column: str, accepted: Collection[str], what: str) -> Iterator[CellFault]:
    for word in (row[column] or "").split():
        if word not in accepted:
            yield row.fault(column, what, hint(word, accepted))


def _steps(steps: Sequence[Row], groups: Collection[str]) -> Iterator[CellFault]:
    when = {"any", "found", *groups, *(f"kept-{one}" for one in KEPT)}
    places: dict[int, Row] = {}
    for row in steps:
        yield from _words(row, "applies", when, f"of {', '.join(sorted(when))}")
        yield from _words(row, "spared_by", KEPT, f"of {', '.join(KEPT)}")
        if row["minutes_low"] > row["minutes_high"]:
            accepted = f"{row['minutes_low']:g} or more, the low end beside it"
            yield row.fault("minutes_high", accepted)
        if row["face"] is not None and row["per"] != "valve":
            yield row.fault("face", "nothing, where the time is not for one valve")
        other = places.setdefault(row["place"], row)
        if other is not row:
            yield row.fault("place", f"a place of its own, '{other['id']}' has it")
        if row["id"] in HOLD_POINTS and row["hold_point"] != "yes":
            yield row.fault("hold_point", "yes: nobody may skip this one")


def _in_order(steps: Sequence[Row]) -> Iterator[CellFault]:
    by_id = {row["id"]: row for row in steps}
    for first, then in FIRST_THEN:
        if first in by_id and then in by_id and by_id[first]["place"] >= by_id[then]["place"]:
            accepted = f"less than {by_id[then]['place']}: it comes before '{then}'"
            yield by_id[first].fault("place", accepted)


def _grades(grades: Sequence[Row], steps: Mapping[str, Row]) -> Iterator[CellFault]:
    ranks: dict[tuple[str, int], Row] = {}
    for row in grades:
        if row["id"] != f"{row['what']}-{row['grade']}":
            yield row.fault("id", f"'{row['what']}-{row['grade']}', what it grades and the grade")
        other = ranks.setdefault((row["what"], row["rank"]), row)
        if other is not row:
            yield row.fault("rank", f"a rank of its own, '{other['id']}' has it")
        for text in (row["steps"] or "").split():
            yield from _change(row, text, steps)


def _change(row: Row, text: str, steps: Mapping[str, Row]) -> Iterator[CellFault]:
    read = read_change(text, row["id"])
    if read is None:
        yield row.fault("steps", "step:low-high or +step, such as lift-plate:1.2-2")
        return
    added, change = read
    step = steps.get(change.step)
    if step is None:
        yield row.fault("steps", "ids of work_steps.csv", hint(change.step, steps))
    elif added != ("found" in step["applies"].split()):
        sign = "+" if not added else "no +"
        yield row.fault("steps", f"{sign} before '{change.step}', by its column applies")
    if not 0 < change.low <= change.high:
        yield row.fault("steps", f"numbers above 0, low before high, for '{change.step}'")
