"""The commands of the books: record what was made, tested and used; find it again."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from site_builder.commands.options import PARTS, answers, loaded, parts_of, shop_folder, show
from site_builder.commands.read_words import day, drawn_lots, mass, temperature
from site_builder.places import DEMO_SHOP

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

Recorded = tuple["Answer", dict[str, list[dict[str, Any]]]]

DATE = click.option(
    "--date", metavar="DATE", help="Day it was done, such as 2026-11-02; without it, today."
)
NOTE = click.option("--note", default="", help="Anything to remember.")


@click.group()
def record() -> None:
    """Write into the shop's books what was made, tested and used, and find it again."""


def entered(shop: Path | None, made: Callable[[Catalog], Recorded], as_json: bool) -> None:
    """Write what a subject says and show its answer. The demo shop is read, never written."""
    from site_builder.books import record as write

    folder = shop_folder(shop)
    if folder.resolve() == DEMO_SHOP.resolve():
        fault = "name the shop folder to write into with --shop; see `benchbinder start`"
        raise click.UsageError(fault)
    answer, catalog = write(folder, made)
    show(answer, catalog, as_json)


def today(date: str | None, option: str = "--date") -> str:
    """Give the day that was named, or today: the one place where a clock is read."""
    return day(date, option) if date else datetime.date.today().isoformat()


@record.command(
    epilog="Example: benchbinder record batch beeswax-rosin-4-1"
    " --lot beeswax-yellow=BW-26-01:340.1g --lot gum-rosin=GR-26-01:85.2g"
    " --made-by Marta --checked-by Ivo --top 108C --make-up 25min --held 3h --yield 400g"
)
@click.argument("blend", required=False)
@PARTS
@click.option(
    "--lot",
    "lots",
    multiple=True,
    required=True,
    metavar="MATERIAL=LOT:MASS",
    help="What the scale showed, once for each lot; MATERIAL=MASS where the lot is not known,"
    " BATCH=MASS for old wax of the pot book.",
)
@click.option("--total", metavar="MASS", help="What was to be weighed; without it, what was.")
@click.option("--made-by", default="", help="Who weighed and melted.")
@click.option("--checked-by", default="", help="Who read the scale a second time.")
@click.option("--top", metavar="TEMPERATURE", help="The hottest the pot was: 108C or 226F.")
@click.option("--make-up", metavar="TIME", help="Time in the make-up window: 25min.")
@click.option("--held", metavar="TIME", help="Time the pot was hot, all in all: 3h.")
@click.option("--yield", "yielded", metavar="MASS", help="What came out after straining.")
@click.option("--retest", metavar="DATE", help="Day by which the kept stick is tested again.")
@click.option("--wax", type=click.Choice(["fresh", "reclaimed", "mixed"]), help="What went in.")
@click.option("--job", default="", help="The job it is melted for; without it, the shelf.")
@NOTE
@DATE
@answers
def batch(shop: Path | None, as_json: bool, **given: Any) -> None:
    """Enter a batch: what was weighed of each lot, beside what the blend asks for."""
    from formulas import units
    from formulas.books.record_batch import Sheet, record_batch

    top, top_unit = temperature(given["top"])
    yielded, unit = mass(given["yielded"])
    sheet = Sheet(
        date=today(given["date"]),
        made_by=given["made_by"],
        checked_by=given["checked_by"],
        top_temperature=top,
        temperature_unit=top_unit,
        make_up_minutes=_time(given["make_up"], "min"),
        held_hours=_time(given["held"], "h"),
        yielded=yielded,
        unit=unit,
        retest_by=day(given["retest"], "--retest") if given["retest"] else "",
        wax=given["wax"] or "",
        job=given["job"],
        note=given["note"],
    )
    total = None if given["total"] is None else units.read(given["total"], "g")

    def made(catalog: Catalog) -> Recorded:
        parts = parts_of(catalog, given["blend"], given["parts"])
        drawn = drawn_lots(catalog, given["lots"])
        return record_batch(catalog, parts, drawn, sheet, total_g=total, blend=given["blend"] or "")

    entered(shop, made, as_json)


def _time(text: str | None, unit: str) -> float | None:
    from formulas import units

    return None if text is None else units.read(text, unit)


@record.command(
    epilog="Example: benchbinder record test W-26-004 --method drop-point --reading 63.5C"
    " --checked --session 2026-11-02 --by Ivo"
)
@click.argument("sample")
@click.option("--method", required=True, help="A method of methods.csv, such as drop-point.")
@click.option("--reading", metavar="TEMPERATURE", help="The temperature that was read.")
@click.option("--held", metavar="TEMPERATURE", help="The highest step that held.")
@click.option("--moved", metavar="TEMPERATURE", help="The lowest step that moved.")
@click.option("--outlasted", metavar="SAMPLE", help="The sample that moved first, side by side.")
@click.option("--plate", help="Step creep: aluminium, zinc, brass or steel.")
@click.option("--own-stress", metavar="PRESSURE", help="Step creep: 150Pa for the plate alone.")
@click.option("--load", type=float, help="Step creep: load in own weights of the plate: 1, 3, 10.")
@click.option("--session", default="", help="Name of the test session; without it, the date.")
@click.option("--rig", default="", help="Name of thermometer and bath, where there are several.")
@click.option("--checked", is_flag=True, help="Thermometer checked in ice and boiling water.")
@click.option("--lots", default="", help="Lots of the sample, blanks between; else the batch's.")
@click.option("--by", "tested_by", default="", help="Who tested.")
@click.option("--left-out", default="", help="Why the test is not to count.")
@NOTE
@DATE
@answers
def test(shop: Path | None, as_json: bool, **given: Any) -> None:
    """Enter a softening test: a reading, a step held and one that moved, or two side by side."""
    from formulas import units
    from formulas.book_entries import SofteningTest
    from formulas.books.record_entry import record_test

    result, low, high, unit = _seen(given)
    stress = given["own_stress"]
    seen = SofteningTest(
        test="",
        date=today(given["date"]),
        result=result,
        other=given["outlasted"] or "",
        low=low,
        high=high,
        unit=unit,
        plate=given["plate"] or "",
        own_stress=None if stress is None else units.read(stress, "Pa"),
        basis="",
        **{
            name: given[name]
            for name in (
                *("session", "rig", "checked", "method", "sample", "load", "lots"),
                *("tested_by", "left_out", "note"),
            )
        },
    )
    entered(shop, lambda catalog: record_test(catalog, seen), as_json)


def _seen(given: dict[str, Any]) -> tuple[str, float | None, float | None, str]:
    """Give the result, its ends and their unit, from the one way it was told in."""
    bounds = given["held"] is not None or given["moved"] is not None
    if (given["reading"] is not None) + bounds + (given["outlasted"] is not None) != 1:
        fault = "say what was seen in one way: --reading, --held and --moved, or --outlasted"
        raise click.UsageError(fault)
    if given["outlasted"] is not None:
        return "firmer", None, None, ""
    if not bounds:
        low, unit = temperature(given["reading"])
        return "reading", low, None, unit
    low, unit = temperature(given["held"])
    high, high_unit = temperature(given["moved"], unit)
    return "bounds", low, high, unit or high_unit


@record.command(
    epilog="Example: benchbinder record use W-26-003 --job 26-021 --amount 40g --by Ivo"
)
@click.argument("batch")
@click.option("--job", required=True, help="The job's own number.")
@click.option("--amount", metavar="MASS", help="How much was used.")
@click.option("--by", "used_by", default="", help="Who used it.")
@NOTE
@DATE
@answers
def use(shop: Path | None, as_json: bool, **given: Any) -> None:
    """Enter where wax of a batch was used."""
    from formulas.book_entries import PotUse
    from formulas.books.record_entry import record_use

    amount, unit = mass(given["amount"])
    used = PotUse(
        batch=given["batch"],
        job=given["job"],
        date=today(given["date"]),
        amount=amount,
        unit=unit,
        used_by=given["used_by"],
        basis="",
        note=given["note"],
    )
    entered(shop, lambda catalog: record_use(catalog, used), as_json)


@record.command(epilog="Example: benchbinder record find GR-26-01")
@click.argument("name")
@answers
def find(name: str, shop: Path | None, as_json: bool) -> None:
    """Follow a job, a batch or a lot both ways: job to batches to lots, and back."""
    from formulas.books.trace import find as answer

    catalog = loaded(shop)
    show(answer(catalog, name), catalog, as_json)


COMMANDS: tuple[click.Command, ...] = (record,)
