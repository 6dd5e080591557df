"""What no single cell of plates and slots shows: wrong names, sizes that cannot be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from formulas.fault import CellFault, hint
from formulas.table import Row
from formulas.units import convert
from formulas.valves.notes import midi_of, note_name

Rows = Mapping[str, Sequence[Row]]
Key = tuple[str, str]


def plate_faults(whole: Rows, every: Rows) -> Iterator[CellFault]:
    """Give every fault of plates and slots; `every` are the rows with their faults too."""
    yield from _plates(whole["plates.csv"], every["ranks.csv"])
    yield from _one_note_one_plate(whole["plates.csv"])
    yield from _slots(whole["slots.csv"], every["plates.csv"])
    yield from _one_direction_one_slot(whole["slots.csv"])


def _plates(plates: Sequence[Row], ranks: Sequence[Row]) -> Iterator[CellFault]:
    by_key = {(row["instrument"], row["rank"]): row for row in ranks}
    instruments = {instrument for instrument, _ in by_key if instrument}
    for row in plates:
        if row["instrument"] not in instruments:
            also = hint(row["instrument"], instruments)
            yield row.fault("instrument", "an instrument of ranks.csv", also)
        elif row["rank"] is not None:
            yield from _within_rank(row, by_key)
        yield from _sizes_that_can_be(row)


def _within_rank(row: Row, ranks: Mapping[Key, Row]) -> Iterator[CellFault]:
    """Report a rank that the instrument has not, or a note that the rank has not."""
    rank = ranks.get((row["instrument"], row["rank"]))
    if rank is None:
        own = [name for instrument, name in ranks if instrument == row["instrument"] and name]
        accepted = f"a rank of {row['instrument']} in ranks.csv: {', '.join(own)}"
        yield row.fault("rank", accepted, hint(row["rank"], own))
    elif rank.whole:
        lowest = midi_of(rank["lowest"])
        highest = lowest + rank["plates"] - 1
        if not lowest <= midi_of(row["sounds"]) <= highest:
            accepted = f"a note of the {row['rank']} rank, {rank['lowest']} to {note_name(highest)}"
            yield row.fault("sounds", accepted)


def _sizes_that_can_be(row: Row) -> Iterator[CellFault]:
    """Report a slot wider than long, or one that its plate has no room for."""
    length, width = row["slot_length"], row["slot_width"]
    if length is not None and width is not None and width >= length:
        yield row.fault("slot_width", f"less than {length:g}, the slot's length")
    if None not in (row["length"], length) and length >= row["length"]:
        yield row.fault("slot_length", f"less than {row['length']:g}, the plate's length")
    if None not in (row["width"], width) and 2 * width + (row["wall"] or 0) >= row["width"]:
        accepted = f"two slots and their wall within {row['width']:g}, the plate's width"
        yield row.fault("slot_width", accepted)


def _one_note_one_plate(plates: Sequence[Row]) -> Iterator[CellFault]:
    """Report a plate that was entered twice under two marks."""
    seen: dict[tuple[str, str, int], Row] = {}
    for row in plates:
        if row["rank"] is not None:
            key = (row["instrument"], row["rank"], midi_of(row["sounds"]))
            first = seen.setdefault(key, row)
            if first is not row:
                accepted = (
                    f"another note: plate '{first['plate']}' of this rank, line {first.line},"
                    " sounds it"
                )
                yield row.fault("sounds", accepted)


def _slots(slots: Sequence[Row], plates: Sequence[Row]) -> Iterator[CellFault]:
    by_key = {(row["instrument"], row["plate"]): row for row in plates}
    for row in slots:
        plate = by_key.get((row["instrument"], row["plate"]))
        if plate is None:
            own = [name for instrument, name in by_key if instrument == row["instrument"] and name]
            accepted = f"a plate of '{row['instrument']}' in plates.csv"
            yield row.fault("plate", accepted, hint(row["plate"], own))
        else:
            yield from _slot_of(row, plate)


def _slot_of(row: Row, plate: Row) -> Iterator[CellFault]:
    """Report a slot without a unit, wider than long, or longer than its plate."""
    sizes = (row["slot_length"], row["slot_width"])
    if sizes != (None, None) and row["unit"] is None:
        yield row.fault("unit", "mm or in, where a size stands")
    elif plate.whole and plate["unit"]:
        length, width = (_in_mm(row, plate, column) for column in ("slot_length", "slot_width"))
        if length is not None and width is not None and width >= length:
            column = "slot_width" if row["slot_width"] is not None else "slot_length"
            yield row.fault(column, "a slot longer than it is wide")
        whole = plate["length"] and convert(plate["length"], plate["unit"], "mm")
        if row["slot_length"] is not None and whole and length is not None and length >= whole:
            yield row.fault("slot_length", f"less than {whole:g} mm, the plate's length")


def _in_mm(row: Row, plate: Row, column: str) -> float | None:
    """Give a size of a slot, or that of its plate where the slot has none of its own."""
    source = row if row[column] is not None else plate
    return None if source[column] is None else convert(source[column], source["unit"], "mm")


def _one_direction_one_slot(slots: Sequence[Row]) -> Iterator[CellFault]:
    """Report a plate whose two tongues speak on the same way of the bellows."""
    seen: dict[Key, Row] = {}
    for row in slots:
        if row["direction"] is not None:
            first = seen.setdefault((row["instrument"], row["plate"]), row)
            if first is not row and first["direction"] == row["direction"]:
                other = "draw" if row["direction"] == "press" else "press"
                accepted = f"{other}: line {first.line} has the other tongue of this plate"
                yield row.fault("direction", accepted)
