"""What no single cell of the tables of seating shows: ids that name nothing, ends swapped."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from formulas.fault import CellFault, hint
from formulas.table import Row

Rows = Mapping[str, list[Row]]

TAKEN = {"fillet", "bed", "gasket", "pins", "hooks", "screws", "sealant"}
NAMES = {
    "takes": TAKEN,
    "plate_forms": {"single", "long", "frame", "shoe", "harmonium"},
    "metals": {"aluminium", "zinc", "brass", "steel"},
    "blocks": {"softwood", "hardwood", "pan", "metal"},
}
"""The ids that the columns of lists hold, blanks between."""
METHOD_ENDS = (("service_low", "service_high"), ("minutes_low", "minutes_high"))
GASKET_ENDS = (
    ("thickness_low", "thickness_high"),
    ("squeeze_low", "squeeze_high"),
    ("modulus_low", "modulus_high"),
)
OF_GROUP = {"wax": "fillet", "gasket": "gasket", "sealant": "sealant"}
"""What a method of a group cannot do without."""


def seat_faults(all_rows: Rows) -> Iterator[CellFault]:
    """Give every fault of the tables of seating that no cell shows alone."""
    cautions = {row["id"] for row in all_rows["cautions.csv"]} - {None}
    methods = [row for row in all_rows["seating_methods.csv"] if row.whole]
    for row in methods:
        yield from _lists(row, {**NAMES, "cautions": cautions})
        yield from _ends(row, METHOD_ENDS)
        if row["refused"] is not None and row["last_resort"] != "yes":
            yield row.fault("last_resort", "yes, where the seat is refused")
        needed = OF_GROUP.get(row["group"])
        if needed and needed not in (row["takes"] or "").split():
            yield row.fault("takes", f"{needed} among them, where the group is {row['group']}")
        if (row["service_unit"] is None) != (row["service_low"] is row["service_high"] is None):
            yield row.fault("service_unit", "degC where a service temperature stands, else blank")
    for row in all_rows["gasket_materials.csv"]:
        if row.whole:
            yield from _ends(row, GASKET_ENDS)
            if row["squeeze_low"] == row["squeeze_high"] is not None:
                yield row.fault("squeeze_high", f"more than {row['squeeze_low']:g}")


def _lists(row: Row, names: Mapping[str, set[str]]) -> Iterator[CellFault]:
    for column, accepted in names.items():
        for name in (row[column] or "").split():
            if name not in accepted:
                known = (
                    "ids of cautions.csv" if column == "cautions" else ", ".join(sorted(accepted))
                )
                yield row.fault(column, known, hint(name, accepted))


def _ends(row: Row, pairs: tuple[tuple[str, str], ...]) -> Iterator[CellFault]:
    for low, high in pairs:
        ends = (row[low], row[high])
        if (None in ends) != (ends == (None, None)):
            yield row.fault(high, f"a number, where {low} stands, and none where it does not")
        elif None not in ends and ends[0] > ends[1]:
            yield row.fault(high, f"{row[low]:g} or more, the low end beside it")
