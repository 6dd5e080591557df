"""What no single key of a job file shows: names that name nothing, plates twice or too large."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any, Protocol

from formulas.fault import hint
from formulas.units import convert
from formulas.valves.notes import midi_of, note_name

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from formulas.jobs.job import JobRank


class Faulty(Protocol):
    """What takes the faults of a job file."""

    def fault(
        self, table: str, index: int, key: str, found: object, accepted: str, also: str = ""
    ) -> None: ...


LONG_ONLY = ("long",)
"""The plate forms of a seat on which every plate is a long one."""
Row = Mapping[str, Any]
Ranks = Mapping[str, "JobRank"]


def check(
    catalog: Catalog, at_work: Faulty, rows: Mapping[str, Sequence[Row]], ranks: Ranks
) -> None:
    """Add a fault for each thing that rows show together."""
    top, blocks, plates = rows[""][0], rows["block"], rows["plate"]
    named = {row["rank"] for row in rows["rank"]} | set(ranks)
    _top(catalog, at_work, top, named)
    _rank_rows(at_work, rows["rank"])
    for at, row in enumerate(blocks):
        _block(catalog, at_work, at, row, ranks, named, top)
    _shared_marks(at_work, blocks)
    _plates_of_blocks(at_work, blocks, ranks)
    for at, row in enumerate(plates):
        _plate(at_work, at, row, ranks, named)
    _plates_twice(catalog, at_work, top, plates)
    _within_blocks(catalog, at_work, top, blocks, plates, ranks)


def _top(catalog: Catalog, at_work: Faulty, top: Row, named: set[Any]) -> None:
    if "layout" not in top and not named:
        accepted = f"a layout ({', '.join(catalog.layouts)}), or tables [[rank]]"
        at_work.fault("", 0, "layout", None, accepted)
    if "blend" not in top and not catalog.shop.usual:
        accepted = "an id of blends.csv, or a usual blend in shop.toml"
        at_work.fault("", 0, "blend", None, accepted)


def _rank_rows(at_work: Faulty, rows: Sequence[Row]) -> None:
    seen: set[str] = set()
    for at, row in enumerate(rows):
        name = row["rank"]
        if name is not None and name in seen:
            at_work.fault("rank", at, "rank", name, "a rank of its own, it stands above already")
        seen.add(name)
        if "notes" not in row:
            for key in ("lowest", "plates"):
                if key not in row:
                    at_work.fault("rank", at, key, None, f"a line {key} = …, or notes = …")
        elif "lowest" in row or "plates" in row:
            key = "lowest" if "lowest" in row else "plates"
            at_work.fault("rank", at, key, row[key], "nothing, where the notes are named")
        lowest, plates = row.get("lowest"), row.get("plates")
        if lowest and plates and midi_of(lowest) + plates - 1 > 127:
            at_work.fault("rank", at, "plates", plates, f"no plate above G9 from {lowest} upward")


def _block(
    catalog: Catalog,
    at_work: Faulty,
    at: int,
    row: Row,
    ranks: Ranks,
    named: set[Any],
    top: Row,
) -> None:
    name = row["rank"]
    if name is not None and name not in named:
        accepted = f"a rank of this job: {', '.join(sorted(map(str, ranks)))}"
        at_work.fault("block", at, "rank", name, accepted, hint(name, ranks))
    places = row.get("plates")
    if name in ranks and places and places[1] > ranks[name].plates:
        count = ranks[name].plates
        found = f"{places[0]}-{places[1]}"
        at_work.fault("block", at, "plates", found, f"plates 1 to {count}, which the rank has")
    if "seating" not in row and not top.get("layout"):
        at_work.fault("block", at, "seating", None, "an id of seating_methods.csv")
    seating = row.get("seating")
    method = catalog.seating_methods.get(seating) if seating else None
    takes = "gasket" in method.takes if method else None
    if takes and "gasket" not in row:
        accepted = f"an id of gasket_materials.csv, which {seating} takes"
        at_work.fault("block", at, "gasket", None, accepted)
    if method and row.get("long_plates") and "long" not in method.plate_forms:
        found = row["long_plates"]
        at_work.fault(
            "block", at, "long_plates", found, f"nothing: {seating} is not for long plates"
        )
    if takes is False and row.get("gasket"):
        at_work.fault("block", at, "gasket", row["gasket"], f"nothing: {seating} takes no gasket")


def _shared_marks(at_work: Faulty, rows: Sequence[Row]) -> None:
    seen: set[str] = set()
    for at, row in enumerate(rows):
        if row["block"] is not None and row["block"] in seen:
            accepted = "a mark of its own, it stands above already"
            at_work.fault("block", at, "block", row["block"], accepted)
        seen.add(row["block"])


def _plates_of_blocks(at_work: Faulty, rows: Sequence[Row], ranks: Ranks) -> None:
    """Report a plate that stands in two blocks, and plates that stand in none."""
    if not rows:
        return
    owner: dict[tuple[str, int], str] = {}
    for at, row in enumerate(rows):
        if row["rank"] not in ranks:
            continue
        first, last = row.get("plates") or (1, ranks[row["rank"]].plates)
        twice = [n for n in range(first, last + 1) if (row["rank"], n) in owner]
        if twice:
            other = owner[row["rank"], twice[0]]
            found = f"{first}-{last}"
            accepted = f"plates of no other block; block {other} has {_run(twice)}"
            at_work.fault("block", at, "plates", found, accepted)
        owner |= {(row["rank"], n): str(row["block"]) for n in range(first, last + 1)}
    if any(row["rank"] not in ranks for row in rows):
        return  # the block that names no rank may be the one that holds them
    for name, rank in ranks.items():
        left = [n for n in range(1, rank.plates + 1) if (name, n) not in owner]
        if left:
            accepted = f"every plate in a block; {_run(left)} of rank {name} stand in none"
            at_work.fault("block", len(rows) - 1, "plates", None, accepted)


def _run(numbers: Sequence[int]) -> str:
    """Name numbers as one run, from the first to the last."""
    if len(numbers) == 1:
        return f"plate {numbers[0]}"
    return f"plates {numbers[0]}-{numbers[-1]}"


def _plate(at_work: Faulty, at: int, row: Row, ranks: Ranks, named: set[Any]) -> None:
    name, note = row["rank"], row["note"]
    if name is not None and name not in named:
        accepted = f"a rank of this job: {', '.join(sorted(map(str, ranks)))}"
        at_work.fault("plate", at, "rank", name, accepted, hint(name, ranks))
    if name in ranks and note is not None and midi_of(note) not in midis(ranks[name]):
        notes = midis(ranks[name])
        accepted = f"a note of the {name} rank, {note_name(notes[0])} to {note_name(notes[-1])}"
        at_work.fault("plate", at, "note", note, accepted)
    slot, length, width = row.get("slot"), row.get("length"), row.get("width")
    if slot and length and slot[0] >= length:
        accepted = f"a slot shorter than the plate, {1000 * length:g} mm"
        at_work.fault("plate", at, "slot", f"{1000 * slot[0]:g} mm long", accepted)
    tongues = ranks[name].tongues if name in ranks else 2
    if slot and width and tongues * slot[1] >= width:
        accepted = f"slots that fit into the plate, {1000 * width:g} mm wide"
        at_work.fault("plate", at, "slot", f"{1000 * slot[1]:g} mm wide", accepted)


def midis(rank: JobRank) -> list[int]:
    """Give the notes of a rank of a job, upward."""
    if rank.notes:
        return [midi_of(name) for name in rank.notes]
    lowest = midi_of(rank.lowest)
    return list(range(lowest, lowest + rank.plates))


def _plates_twice(catalog: Catalog, at_work: Faulty, top: Row, rows: Sequence[Row]) -> None:
    """Report a note that stands twice, here or here and in plates.csv."""
    seen: dict[tuple[str, int], str] = {
        (one.rank, midi_of(one.sounds)): f"plate {one.plate} of plates.csv"
        for one in catalog.plates
        if one.instrument in {top.get("measured") or "", top.get("job") or ""}
    }
    for at, row in enumerate(rows):
        if row["rank"] is None or row["note"] is None:
            continue
        key = (row["rank"], midi_of(row["note"]))
        if key in seen:
            accepted = f"a note once in a rank; {seen[key]} has it"
            at_work.fault("plate", at, "note", row["note"], accepted)
        seen.setdefault(key, "a plate above")


def _within_blocks(
    catalog: Catalog,
    at_work: Faulty,
    top: Row,
    blocks: Sequence[Row],
    plates: Sequence[Row],
    ranks: Ranks,
) -> None:
    """Report a plate longer than the face of its block, and plates wider than their row."""
    for at, row in enumerate(plates):
        block = _block_of(blocks, ranks, row)
        length, face = row.get("length"), block.get("face") if block else None
        if length and face and length > face:
            accepted = f"up to {1000 * face:g} mm, the face of block {block['block']}"  # type: ignore[index]
            at_work.fault("plate", at, "length", f"{1000 * length:g} mm", accepted)
    read = [
        one
        for one in catalog.plates
        if one.instrument == (top.get("measured") or top.get("job") or "") and one.length
    ]
    for at, block in enumerate(blocks):
        face = block.get("face") or 0.0
        for one in read if face else ():
            length = convert(one.length or 0.0, one.unit, "m")
            inside = one.rank == block["rank"] and _holds(block, ranks, midi_of(one.sounds))
            if inside and length > face:
                accepted = (
                    f"at least {1000 * length:g} mm, the length of plate {one.plate} of plates.csv"
                )
                at_work.fault("block", at, "face", f"{1000 * face:g} mm", accepted)
        _row_long_enough(at_work, at, block, plates, ranks)


def _row_long_enough(
    at_work: Faulty, at: int, block: Row, plates: Sequence[Row], ranks: Ranks
) -> None:
    row = block.get("row")
    if not row or block["rank"] not in ranks:
        return
    widths = [
        one["width"]
        for one in plates
        if one.get("width")
        and one["note"]
        and one["rank"] == block["rank"]
        and _holds(block, ranks, midi_of(one["note"]))
    ]
    if sum(widths) > row:
        accepted = f"at least {1000 * sum(widths):g} mm, the plates measured side by side"
        at_work.fault("block", at, "row", f"{1000 * row:g} mm", accepted)


def _block_of(blocks: Sequence[Row], ranks: Ranks, plate: Row) -> Row | None:
    if plate["note"] is None:
        return None
    midi = midi_of(plate["note"])
    return next(_blocks_with(blocks, ranks, plate["rank"], midi), None)


def _blocks_with(blocks: Sequence[Row], ranks: Ranks, rank: str, midi: int) -> Iterator[Row]:
    for block in blocks:
        if block["rank"] == rank and _holds(block, ranks, midi):
            yield block


def _holds(block: Row, ranks: Ranks, midi: int) -> bool:
    if block["rank"] not in ranks:
        return False
    first, last = block.get("plates") or (1, ranks[block["rank"]].plates)
    return midi in midis(ranks[block["rank"]])[first - 1 : last]
