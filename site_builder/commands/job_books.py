"""The books of jobs: what happened to each, what is kept back, what it took, what it shows."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from site_builder.commands.books import DATE, NOTE, entered, today
from site_builder.commands.options import answers, loaded, show
from site_builder.commands.read_words import mass

if TYPE_CHECKING:
    from formulas.books.record_reserve import Asked
    from formulas.catalog import Catalog
    from site_builder.commands.books import Recorded

EVENTS = ("opened", "done", "dropped", "reopened")
AMOUNTS = {
    "lot": "a lot with a mass, such as BW-26-01=200g",
    "batch": "a batch with a mass, such as W-26-003=40g",
    "stock": "a valve stock with whole pieces, such as pet-50=1",
    "skin": "a skin such as kid-A, or kid-A=0 to give it back",
    "item": "an item of prices.csv with a mass or pieces, such as screw=40",
}


@click.command(
    epilog="Example: benchbinder record job 26-021 --what done --plates 224 --valves 448"
)
@click.argument("job")
@click.option("--what", type=click.Choice(EVENTS), required=True, help="What happened.")
@click.option(
    "--plates", type=click.IntRange(0), help="Plates of the whole job, counted when it is done."
)
@click.option("--waxed", type=click.IntRange(0), help="Of these, those in wax; without it, all.")
@click.option("--valves", type=click.IntRange(0), help="Valves of the whole job.")
@click.option("--file", default="", help="Its job file in the folder jobs, such as 26-021.toml.")
@click.option("--instrument", default="", help="What kind of instrument; never an owner's name.")
@NOTE
@DATE
@answers
def job(shop: Path | None, as_json: bool, **given: Any) -> None:
    """Enter that a job was opened, done, dropped or opened again."""
    from formulas.books.record_job import record_job
    from formulas.job_entries import JobEvent

    date = today(given.pop("date"))
    event = JobEvent(date=date, basis="", **given)
    entered(shop, lambda catalog: record_job(catalog, event), as_json)


@click.command(
    epilog="Example: benchbinder record hours 26-021 bed-plate --done 40 --minutes 150 --by Ivo"
)
@click.argument("job")
@click.argument("step")
@click.option(
    "--done", type=click.IntRange(1), required=True, help="For how many plates, valves, blocks."
)
@click.option("--minutes", required=True, help="Minutes it took, one person's.")
@click.option("--by", "worked_by", default="", help="Who did it.")
@NOTE
@DATE
@answers
def hours(shop: Path | None, as_json: bool, **given: Any) -> None:
    """Enter how long a step of a job really took."""
    from formulas import units
    from formulas.books.record_job import record_hours
    from formulas.job_entries import HoursWorked

    date, minutes = today(given.pop("date")), units.number(given.pop("minutes"))
    worked = HoursWorked(date=date, minutes=minutes, basis="", **given)
    entered(shop, lambda catalog: record_hours(catalog, worked), as_json)


@click.command(
    epilog="Example: benchbinder record stock 26-021 --stock sheep-55 --skin sheep-B --valves 60"
)
@click.argument("job")
@click.option("--stock", required=True, help="A stock of valve_stock.csv.")
@click.option("--skin", default="", help="The skin of skins.csv it was cut from.")
@click.option("--pieces", type=click.IntRange(0), help="Whole pieces taken from the shelf.")
@click.option("--valves", type=click.IntRange(0), help="Valves that came out of it.")
@click.option("--spent", is_flag=True, help="Nothing worth keeping is left of the skin.")
@click.option("--by", "used_by", default="", help="Who cut it.")
@NOTE
@DATE
@answers
def stock(shop: Path | None, as_json: bool, **given: Any) -> None:
    """Enter valve stock that a job took: a skin, pieces, and the valves that came out."""
    from formulas.books.record_job import record_stock
    from formulas.job_entries import StockUse

    taken = StockUse(date=today(given.pop("date")), basis="", **given)
    entered(shop, lambda catalog: record_stock(catalog, taken), as_json)


@click.command(
    epilog="Example: benchbinder record reserve 26-021 --lot BW-26-01=200g --batch W-26-003=40g"
    " --stock pet-50=1 --skin kid-A"
)
@click.argument("job")
@click.option("--lot", multiple=True, metavar="LOT=MASS", help="Raw material; 0g gives it back.")
@click.option("--batch", multiple=True, metavar="BATCH=MASS", help="Wax of the pot book.")
@click.option("--stock", multiple=True, metavar="STOCK=PIECES", help="Pieces of valve stock.")
@click.option("--skin", multiple=True, metavar="SKIN", help="A skin; SKIN=0 gives it back.")
@click.option("--item", multiple=True, metavar="ITEM=AMOUNT", help="An item of prices.csv.")
@click.option("--needs", is_flag=True, help="All that the needs list of its job file takes.")
@NOTE
@DATE
@answers
def reserve(shop: Path | None, as_json: bool, job: str, needs: bool, **given: Any) -> None:
    """Keep something back for a job. More than is free is refused, and says who holds it."""
    from formulas.books.record_reserve import reserve as keep

    date, note = today(given.pop("date")), given.pop("note")
    asked = [one for kind in AMOUNTS for one in _asked(kind, given[kind])]
    if needs == bool(asked):
        fault = (
            "name what to keep back: --lot, --batch, --stock, --skin or --item; or --needs alone"
        )
        raise click.UsageError(fault)
    if needs:
        entered(shop, lambda catalog: _of_needs(catalog, job, shop, date), as_json)
        return
    entered(shop, lambda catalog: keep(catalog, job, asked, date, note), as_json)


def _of_needs(catalog: Catalog, job: str, shop: Path | None, date: str) -> Recorded:
    """Work out the job's needs list and give what it takes of the shelf."""
    from formulas.books.record_reserve import reservations_of
    from formulas.jobs.needs import whole
    from site_builder.commands.jobs import read_job

    return reservations_of(catalog, whole(catalog, read_job(catalog, job, shop)), date)


def _asked(kind: str, given: tuple[str, ...]) -> Iterator[Asked]:
    """Read each NAME=AMOUNT of one kind. Raises UsageError, or UnitFault for a mass."""
    seen = set()
    for text in given:
        name, equals, amount = (part.strip() for part in text.partition("="))
        whole = amount if equals or kind != "skin" else "1"
        if not name or not whole or name in seen:
            fault = f"--{kind}: found '{text}', accepted: {AMOUNTS[kind]}, each once"
            raise click.UsageError(fault)
        seen.add(name)
        if whole.isdecimal() and kind not in {"lot", "batch"}:
            yield kind, name, float(whole), "pieces"
        elif kind in {"stock", "skin"}:
            raise click.UsageError(f"--{kind}: found '{text}', accepted: {AMOUNTS[kind]}")
        else:
            weighed, unit = mass(whole)
            yield kind, name, weighed or 0.0, unit


@click.command(epilog="Example: benchbinder record jobs")
@answers
def jobs(shop: Path | None, as_json: bool) -> None:
    """List the jobs: how each stands, its wax, hours and plates, and what is kept back for it."""
    from formulas.jobs.job_list import jobs as answer

    catalog = loaded(shop)
    show(answer(catalog), catalog, as_json)


@click.command(epilog="Example: benchbinder record figures")
@answers
def figures(shop: Path | None, as_json: bool) -> None:
    """Show what this shop really uses: grams a plate, minutes a step, beside the trade's range."""
    from formulas.jobs.job_list import figures as answer

    catalog = loaded(shop)
    show(answer(catalog), catalog, as_json)


RECORDS: tuple[click.Command, ...] = (job, hours, stock, reserve, jobs, figures)
"""What `record` can do for jobs."""
