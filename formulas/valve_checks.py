"""What no single cell of the valve tables shows: names that name nothing, ends the wrong way."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from formulas.cutting.checks import skin_faults
from formulas.fault import CellFault, hint
from formulas.plate_checks import plate_faults
from formulas.table import Row

Rows = Mapping[str, list[Row]]


def valve_faults(all_rows: Rows) -> Iterator[CellFault]:
    """Give every fault of the valve tables that no cell shows alone."""
    rows = {name: [row for row in table if row.whole] for name, table in all_rows.items()}
    yield from _stock(rows["valve_stock.csv"], all_rows["valve_stock.csv"])
    stocks = _column(all_rows["valve_stock.csv"], "stock")
    for name in ("ramp_tests.csv", "stock_weighings.csv", "curl_tests.csv", "skins.csv"):
        yield from _named(rows[name], "stock", stocks, "an id of valve_stock.csv")
    yield from _named(rows["valve_tests.csv"], "stock", stocks, "an id of valve_stock.csv")
    skins = _column(all_rows["skins.csv"], "skin")
    yield from _named(rows["skin_outlines.csv"], "skin", skins, "a skin of skins.csv")
    yield from skin_faults(all_rows)
    yield from plate_faults(rows, all_rows)


def _column(rows: Iterable[Row], column: str) -> dict[str, Row]:
    return {row[column]: row for row in rows if row[column] is not None}


def _named(
    rows: Iterable[Row], column: str, accepted: Mapping[str, Row], what: str
) -> Iterator[CellFault]:
    for row in rows:
        if row[column] is not None and row[column] not in accepted:
            yield row.fault(column, what, hint(row[column], accepted))


def _stock(whole: Sequence[Row], every: Sequence[Row]) -> Iterator[CellFault]:
    """Report stock that is neither of a material nor of layers, or whose ends are swapped."""
    named = _column(every, "stock")
    for row in whole:
        layers = (row["layers"] or "").split()
        if bool(layers) == (row["material"] is not None):
            yield row.fault("material", "an id of valve_materials.csv, or layers, not both")
        for layer in layers:
            if layer not in named or named[layer]["layers"]:
                yield row.fault("layers", "ids of stocks of one layer", hint(layer, named))
        if layers and row["bond"] is None:
            yield row.fault("bond", "bonded or loose, where there are layers")
        for low, high, unit in (
            ("thickness_low", "thickness_high", "thickness_unit"),
            ("mass_low", "mass_high", "mass_unit"),
        ):
            ends = (row[low], row[high])
            if (None in ends) != (ends == (None, None)):
                yield row.fault(high, f"a number, where {low} stands, and none where it does not")
            elif None not in ends and ends[0] > ends[1]:
                yield row.fault(high, f"{row[low]:g} or more, the low end beside it")
            if ends != (None, None) and row[unit] is None:
                yield row.fault(unit, f"a unit, where {low} stands")
