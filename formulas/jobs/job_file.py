"""Read a job file: one instrument, its ranks, its blocks, what was measured of its plates."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from formulas.fault import CellFault, Faults, hint
from formulas.jobs import job_rules
from formulas.jobs.job import Job, JobBlock, JobRank, TypedPlate
from formulas.jobs.job_keys import NotTaken, PartsNotTaken, Reader, keys_of
from formulas.jobs.toml_lines import Lines

if TYPE_CHECKING:
    from formulas.catalog import Catalog

NEEDED = {
    "": ("job",),
    "rank": ("rank",),
    "block": ("block", "rank"),
    "plate": ("rank", "note"),
}
SESSION_S = 3 * 3600.0
"""The time at the bench on a day where the file says nothing: three hours."""
POSTURE = "upright-block"


class JobText:
    """A job file on its way: its tables with the keys that were taken, and every fault."""

    def __init__(self, text: str, file: str) -> None:
        self.file, self.lines = file, Lines(text)
        self.faults: list[CellFault] = []

    def fault(
        self, table: str, index: int, key: str, found: object, accepted: str, also: str = ""
    ) -> None:
        """Add a fault at the line of a key."""
        row = self.lines.of(table, index, key)
        said = "" if found is None else str(found)
        column = f"{table}.{key}" if table else key
        self.faults.append(CellFault(self.file, row, column, said, accepted, also))


Rows = dict[str, list[dict[str, Any]]]


def read(catalog: Catalog, text: str, file: str) -> Job:
    """Give the job that a text describes. Raises Faults with every fault, in order of lines."""
    at_work = JobText(text, file)
    rows = _tables(at_work, _parsed(at_work, text), keys_of(catalog))
    ranks = _ranks(catalog, rows)
    job_rules.check(catalog, at_work, rows, ranks)
    if at_work.faults:
        raise Faults(sorted(at_work.faults, key=lambda one: one.row))
    return _made(catalog, rows, ranks, file)


def _parsed(at_work: JobText, text: str) -> Mapping[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        line = re.search(r"line (\d+)", str(error))
        row = int(line.group(1)) if line else max(1, len(text.splitlines()))
        fault = CellFault(at_work.file, row, "(line)", str(error), "key = value, as TOML")
        raise Faults([fault]) from error


def _tables(
    at_work: JobText, found: Mapping[str, Any], keys: Mapping[str, Mapping[str, Reader]]
) -> Rows:
    """Give each table's rows with the keys that hold what they may; the others are faults."""
    rows: Rows = {"": [{}], "rank": [], "block": [], "plate": []}
    top = {key: value for key, value in found.items() if key not in rows}
    rows[""] = [_row(at_work, "", 0, top, keys[""])]
    for table in ("rank", "block", "plate"):
        listed = found.get(table, [])
        if not isinstance(listed, list) or not all(isinstance(one, dict) for one in listed):
            at_work.fault(table, 0, "", table, f"a table with two brackets: [[{table}]]")
            continue
        rows[table] = [_row(at_work, table, at, one, keys[table]) for at, one in enumerate(listed)]
    return rows


def _row(
    at_work: JobText, table: str, index: int, found: Mapping[str, Any], keys: Mapping[str, Reader]
) -> dict[str, Any]:
    taken: dict[str, Any] = {}
    for key, value in found.items():
        if key not in keys:
            accepted = f"the keys {', '.join(keys)}"
            at_work.fault(table, index, key, key, accepted, hint(key, keys))
            continue
        try:
            taken[key] = keys[key](value)
        except NotTaken as error:
            at_work.fault(table, index, key, value, error.accepted, error.also)
            taken[key] = None
        except PartsNotTaken as error:
            for found_part, one in error.parts:
                at_work.fault(table, index, key, found_part, one.accepted, one.also)
            taken[key] = None
    for key in NEEDED[table]:
        if key not in taken:
            at_work.fault(table, index, key, None, f"a line {key} = …")
            taken[key] = None
    return taken


def _ranks(catalog: Catalog, rows: Rows) -> dict[str, JobRank]:
    """Give the ranks of the layout with those of the file over them; faulty ones are left out."""
    top = rows[""][0]
    layout = top.get("layout") or ""
    tongues = catalog.layouts[layout].tongues_per_plate if layout else 2
    found = {
        one.rank: JobRank(one.rank, one.name, one.lowest, one.plates, one.posture, tongues)
        for one in catalog.ranks
        if layout and one.instrument == layout
    }
    for at, row in enumerate(rows["rank"]):
        name = row["rank"]
        notes = row.get("notes") or ()
        lowest = notes[0] if notes else row.get("lowest")
        plates = len(notes) if notes else row.get("plates")
        if name is None or lowest is None or plates is None:
            if name is not None:
                found.pop(name, None)
            continue
        posture = row.get("posture") or POSTURE
        own = row.get("tongues") or tongues
        found[name] = JobRank(
            name, row.get("name") or name, lowest, plates, posture, own, notes, at
        )
    return found


def _made(catalog: Catalog, rows: Rows, ranks: Mapping[str, JobRank], file: str) -> Job:
    top = rows[""][0]
    layout = top.get("layout") or ""
    return Job(
        job=top["job"],
        about=top.get("about") or (catalog.layouts[layout].name if layout else ""),
        layout=layout,
        measured=top.get("measured") or "",
        opened=top.get("opened") or "",
        blend=top.get("blend") or catalog.shop.usual,
        valve_kind=top.get("valve_kind") or catalog.shop.valve_kind,
        glue=top.get("glue") or "",
        reclaimed=bool(top.get("reclaimed")),
        session_s=top.get("session") or SESSION_S,
        invented=bool(top.get("invented")),
        ranks=tuple(ranks.values()),
        blocks=tuple(_blocks(catalog, rows["block"], ranks, layout)),
        plates=tuple(_plates(rows["plate"])),
        file=file,
    )


def _blocks(
    catalog: Catalog, rows: Sequence[Mapping[str, Any]], ranks: Mapping[str, JobRank], layout: str
) -> list[JobBlock]:
    """Give the blocks, or one for each rank where the file names none."""
    usual = catalog.layouts[layout].seating if layout else ""
    listed = rows or [
        {"block": str(number), "rank": name, "name": rank.name}
        for number, (name, rank) in enumerate(ranks.items(), 1)
    ]
    return [
        JobBlock(
            block=row["block"],
            name=row.get("name") or ranks[row["rank"]].name,
            rank=row["rank"],
            first=(row.get("plates") or (1, 0))[0],
            last=(row.get("plates") or (1, ranks[row["rank"]].plates))[1],
            row_m=row.get("row"),
            face_m=row.get("face"),
            gap_m=row.get("gap"),
            seating=row.get("seating") or usual,
            gasket=row.get("gasket") or "",
            metal=row.get("metal") or "",
            keep=row.get("keep") or (),
            found=row.get("found") or {},
            line=at,
            long_plates=_long(catalog, row.get("seating") or usual, row.get("long_plates")),
        )
        for at, row in enumerate(listed)
    ]


def _long(catalog: Catalog, seating: str, plates: int | None) -> int:
    """Give how many long plates a block has: one where its seat is one for long plates."""
    forms = catalog.seating_methods[seating].plate_forms
    return plates or (1 if forms == job_rules.LONG_ONLY else 0)


def _plates(rows: Sequence[Mapping[str, Any]]) -> list[TypedPlate]:
    return [
        TypedPlate(
            rank=row["rank"],
            note=row["note"],
            length_m=row.get("length"),
            width_m=row.get("width"),
            thickness_m=row.get("thickness"),
            slot_length_m=(row.get("slot") or (None, None))[0],
            slot_width_m=(row.get("slot") or (None, None))[1],
            line=at,
        )
        for at, row in enumerate(rows)
    ]
