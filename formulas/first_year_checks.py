"""What no single cell of the first year shows: steps that wait for each other, marks nobody saw.

Every rule looks at whole rows only and reports all of its faults. A mark out of its order is no
fault: it happened, and does not count; see `formulas.people.standing`.
"""

from __future__ import annotations

import graphlib
from collections.abc import Iterator, Mapping, Sequence

from formulas.fault import CellFault, hint
from formulas.table import Row
from formulas.units import convert

Rows = Mapping[str, Sequence[Row]]

ASSESSOR = "assessor"
RECHECK = "recheck-after"
TIMES = ("day", "month", "year")
"""Units of how long a sign-off holds."""
SOLVENT_ALONE = "solvent-alone"


def first_year_faults(rows: Rows) -> list[CellFault]:
    """Give every fault of the steps, of the people and of the sign-offs."""
    steps = [row for row in rows["first_year_steps.csv"] if row.whole]
    people = [row for row in rows["people.csv"] if row.whole]
    cautions = {row["id"] for row in rows["cautions.csv"]} - {None}
    marks = [row for row in rows["signoffs.csv"] if row.whole]
    return [
        *_needs(steps, rows["first_year_stages.csv"]),
        *(fault for row in steps for fault in (*_measured(row), *_gives(row))),
        *_ids(steps, "cautions", cautions, "cautions.csv"),
        *_recheck(rows["figures.csv"]),
        *_people(people),
        *_marks(marks, {row["id"] for row in steps}, {row["person"]: row for row in people}),
    ]


def _needs(steps: Sequence[Row], stages: Sequence[Row]) -> Iterator[CellFault]:
    """Report a step that needs what is not there, what comes later, or at last itself."""
    known = {row["id"] for row in steps}
    yield from _ids(steps, "needs", known, "first_year_steps.csv")
    ring = _ring(steps)
    stage_place = {row["id"]: row["place"] for row in stages if row.whole}
    place = {row["id"]: (stage_place.get(row["stage"], 0), row["place"]) for row in steps}
    for row in steps:
        if row["id"] in ring:
            around = " needs ".join(ring)
            yield _cell(row, "needs", row["needs"], f"no circle: {around}")
            continue
        for name in (row["needs"] or "").split():
            if name in known and place[name] >= place[row["id"]]:
                yield _cell(row, "needs", name, f"steps that come before {row['id']}")


def _ring(steps: Sequence[Row]) -> list[str]:
    """Give steps that need each other in a circle, the first one named again at the end."""
    order = graphlib.TopologicalSorter({row["id"]: (row["needs"] or "").split() for row in steps})
    try:
        order.prepare()
    except graphlib.CycleError as error:
        ring: list[str] = error.args[1][::-1]
        return ring
    return []


def _ids(rows: Sequence[Row], column: str, known: set[str], table: str) -> Iterator[CellFault]:
    for row in rows:
        for name in (row[column] or "").split():
            if name not in known:
                yield _cell(row, column, name, f"ids of {table}, blanks between", hint(name, known))


def _cell(row: Row, column: str, found: str, accepted: str, also: str = "") -> CellFault:
    return CellFault(row.file, row.line, column, found or "", accepted, also)


def _measured(row: Row) -> Iterator[CellFault]:
    low, high = row["low"], row["high"]
    if low is not None and high is not None and low > high:
        yield row.fault("low", f"no more than {high:g}, the highest that passes")
    if row["measured"] is None and not (low is None and high is None):
        yield row.fault("measured", "what is measured, beside what passes")
    if row["measured"] is not None and low is None and high is None:
        yield row.fault("high", "the least or the highest value that passes")


def _gives(row: Row) -> Iterator[CellFault]:
    """Report a sign-off for heat or solvent that is no step with heat or solvent."""
    if row["gives"] is None:
        return
    column = "solvent" if row["gives"] == SOLVENT_ALONE else "hot"
    if row[column] != "yes":
        yield row.fault(column, f"yes: the step gives {row['gives']}")
    if row["needs"] is None:
        yield row.fault("needs", f"the steps before it: it gives {row['gives']}")


def _recheck(figures: Sequence[Row]) -> Iterator[CellFault]:
    """Report a sign-off that would hold longer than a year: a shop may ask sooner, never later."""
    for row in figures:
        if row.whole and row["id"] == RECHECK and not _within_a_year(row):
            yield row.fault("high", "a time of one year or less, at both ends")


def _within_a_year(row: Row) -> bool:
    ends = [end for end in (row["low"], row["high"]) if end is not None]
    timed = len(ends) == 2 and row["unit"] in TIMES
    return timed and all(0 < convert(end, row["unit"], "year") <= 1 for end in ends)


def _people(people: Sequence[Row]) -> Iterator[CellFault]:
    for row in people:
        if row["left"] is not None and row["left"] < row["began"]:
            yield row.fault("left", f"{row['began']} or later: the person began on that day")


def _marks(marks: Sequence[Row], steps: set[str], people: Mapping[str, Row]) -> Iterator[CellFault]:
    for row in marks:
        if row["step"] not in steps:
            accepted = "an id of first_year_steps.csv"
            yield row.fault("step", accepted, hint(row["step"], steps))
        for column in ("person", "assessor"):
            if row[column] not in people:
                accepted = "a person of people.csv"
                yield row.fault(column, accepted, hint(row[column], people))
            else:
                yield from _day(row, column, people[row[column]])
        yield from _assessor(row, people.get(row["assessor"]))
        yield from _value(row)


def _day(row: Row, column: str, person: Row) -> Iterator[CellFault]:
    name = row[column]
    if row["date"] < person["began"]:
        yield row.fault("date", f"{person['began']} or later: {name} began on that day")
    elif person["left"] is not None and row["date"] > person["left"]:
        yield row.fault("date", f"{person['left']} or earlier: {name} left on that day")


def _assessor(row: Row, assessor: Row | None) -> Iterator[CellFault]:
    if row["assessor"] == row["person"]:
        yield row.fault("assessor", "somebody else: nobody signs for himself or herself")
    elif assessor is not None and assessor["role"] != ASSESSOR:
        yield row.fault("assessor", f"an assessor: people.csv has a {assessor['role']} there")


def _value(row: Row) -> Iterator[CellFault]:
    low, high = row["low"], row["high"]
    if low is not None and high is not None and low > high:
        yield row.fault("low", f"no more than {high:g}, the highest that passed")
    if row["value"] is not None and row["mark"] != "alone":
        yield row.fault("value", "nothing: only work done alone is measured")
