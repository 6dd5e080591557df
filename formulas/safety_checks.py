"""What no single cell of the safety tables shows: cautions that are not there, pairs told twice."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping

from formulas.fault import CellFault, hint
from formulas.table import Row
from formulas.units import convert

Rows = Mapping[str, list[Row]]

WORN = ("gloves", "eyes", "breathing")


def safety_faults(all_rows: Rows) -> Iterator[CellFault]:
    """Give every fault of the tables on protection, on what meets badly, and on burn times."""
    rows = {name: [row for row in table if row.whole] for name, table in all_rows.items()}
    cautions = {row["id"] for row in all_rows["cautions.csv"]} - {None}
    yield from _protection(rows["protection.csv"], cautions)
    yield from _pairs(rows["incompatible.csv"])
    yield from _burns(rows["burns.csv"])


def _protection(rows: list[Row], cautions: set[str]) -> Iterator[CellFault]:
    """Report a caution that no table holds, and a task for which nothing is worn."""
    for row in rows:
        named = (row["cautions"] or "").split()
        if not named:
            yield row.fault("cautions", "at least one id of cautions.csv")
        for one in named:
            if one not in cautions:
                yield row.fault("cautions", "ids of cautions.csv", hint(one, cautions))
        if not any(row[column] for column in WORN):
            yield row.fault("gloves", f"a word in at least one of {', '.join(WORN)}")


def _pairs(rows: list[Row]) -> Iterator[CellFault]:
    """Report a pair that stands twice, whichever is named first, and a thing with itself."""
    told: dict[frozenset[str], int] = {}
    for row in rows:
        pair = frozenset((row["first"].lower(), row["second"].lower()))
        if len(pair) == 1:
            yield row.fault("second", "another thing than the first")
        elif pair in told:
            yield row.fault("second", f"a pair of its own, line {told[pair]} has it")
        told.setdefault(pair, row.line)


def _burns(rows: list[Row]) -> Iterator[CellFault]:
    """Report a time that does not fall as the heat rises: one of the two rows is a slip."""

    def told(row: Row) -> tuple[float, float]:
        heat = convert(row["temperature"], row["unit_temperature"], "degC")
        return heat, convert(row["time"], row["unit_time"], "s")

    for cooler, row in itertools.pairwise(sorted(rows, key=told)):
        if told(row)[1] >= told(cooler)[1]:
            yield row.fault("time", f"a shorter time than on line {cooler.line}, which is cooler")
