"""Shop folders with books in them, and records as the commands make them."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from click.testing import CliRunner, Result

from formulas.air_entries import Chemical
from formulas.answer import Answer
from formulas.book_entries import PotBatch, PotLot, PotUse, SofteningTest
from formulas.books.record_batch import Drawn, Sheet, record_batch
from formulas.books.record_chemical import record_chemical
from formulas.books.record_entry import record_test, record_use
from formulas.books.record_job import record_hours, record_job
from formulas.catalog import Catalog
from formulas.first_year_entries import Person, SignOff
from formulas.job_entries import HoursWorked, JobEvent
from formulas.people.recording import record_person, record_signoff
from formulas.people.who import who
from site_builder.commands import main
from site_builder.start import lay_down

LOTS = """lot,material,bought,amount,unit,basis,note
BW-1,beeswax-yellow,2026-01-05,2,kg,measured,
BW-2,beeswax-yellow,2026-01-05,500,g,measured,
GR-1,gum-rosin,2026-01-05,40,oz,measured,
"""


def shop(folder: Path, **tables: str) -> Path:
    """Lay down a shop with three lots, and with tables of its own."""
    lay_down(folder)
    (folder / "lots.csv").write_text(LOTS, encoding="utf-8")
    for name, text in tables.items():
        (folder / f"{name}.csv").write_bytes(text.encode("utf-8"))
    return folder


def run(*words: str, shop: Path | None = None) -> Result:
    """Run a `record` command in a shop."""
    named = ["--shop", str(shop)] if shop else []
    return CliRunner().invoke(main, ["record", *words, *named])


POT = ("beeswax-rosin-4-1", "--lot", "beeswax-yellow=BW-1:80g", "--lot", "gum-rosin=GR-1:20g")
"""A batch of 100 g."""


def blank(kind: type[Any], **cells: Any) -> Any:
    """Make an entry with every cell blank but those given."""
    nothing = {"float | None": None, "int | None": None, "bool": False}
    made = {field.name: nothing.get(str(field.type), "") for field in dataclasses.fields(kind)}
    return kind(**{**made, **cells})


def batch(name: str, date: str = "2026-01-01", **cells: Any) -> PotBatch:
    """Make a batch."""
    made: PotBatch = blank(PotBatch, batch=name, date=date, **cells)
    return made


def books(
    catalog: Catalog,
    holds: dict[str, Sequence[tuple[str, str, float | None, str]]],
    uses: Sequence[tuple[str, str]] = (),
) -> Catalog:
    """Give a catalog whose pot book holds each batch with its (material, lot, mass, unit)."""
    lots = [
        PotLot(name, material, lot, None, mass, unit, "measured")
        for name, parts in holds.items()
        for material, lot, mass, unit in parts
    ]
    used = [blank(PotUse, batch=name, job=job) for name, job in uses]
    made = {name: batch(name) for name in holds}
    return dataclasses.replace(catalog, pot_book=made, pot_lots=lots, pot_uses=used)


def answers(catalog: Catalog) -> list[Answer]:
    """Give an answer of each command that writes, for the demand of cautions."""
    drawn = [Drawn("beeswax-yellow", "", 80, "g"), Drawn("gum-rosin", "", 20, "g")]
    parts = {"beeswax-yellow": 4.0, "gum-rosin": 1.0}
    one, _ = record_batch(catalog, parts, drawn, Sheet("2026-01-01"))
    seen = blank(SofteningTest, date="2026-01-01", method="drop-point", sample="gum-rosin")
    two, _ = record_test(catalog, seen)
    filled = dataclasses.replace(catalog, pot_book={"W-1": batch("W-1")})
    three, _ = record_use(filled, blank(PotUse, batch="W-1", job="1"))
    event = blank(JobEvent, job="1", what="opened", date="2026-01-01")
    four, _ = record_job(catalog, event)
    opened = dataclasses.replace(catalog, jobs=[event])
    worked = HoursWorked("1", "2026-01-01", next(iter(catalog.work_steps)), 1, 5.0, "", "", "")
    five, _ = record_hours(opened, worked)
    jar = blank(Chemical, chemical="Ethanol", solvent="ethanol", place="cabinet")
    six, _ = record_chemical(catalog, jar, "2026-01-01")
    return [one, two, three, four, five, six]


def of_people(catalog: Catalog) -> list[Answer]:
    """Give an answer of each command of people, for the demand of cautions."""
    one = blank(Person, person="Lena", role="learner", began="2026-01-01")
    other = dataclasses.replace(one, person="Marta", role="assessor")
    here = dataclasses.replace(catalog, people={"Lena": one, "Marta": other})
    step = next(iter(catalog.first_year_steps))
    cells = {"date": "2026-01-02", "person": "Lena", "step": step, "mark": "shown"}
    mark = blank(SignOff, assessor="Marta", **cells)
    entered, _ = record_person(catalog, one)
    signed, _ = record_signoff(here, mark)
    return [who(here, "2026-01-02"), entered, signed]
