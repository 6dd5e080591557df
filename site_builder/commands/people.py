"""The commands of people: who may do what alone, who works here, what was signed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from site_builder.commands.books import DATE, entered, today
from site_builder.commands.options import answers, loaded, show
from site_builder.commands.read_words import day

ROLES = ("learner", "worker", "assessor")
MARKS = ("shown", "helped", "alone", "explained")
ALONE = ("hot-wax-alone", "iron-alone", "solvent-alone")


@click.command(
    epilog="Examples: benchbinder who; benchbinder who Tomas --may hot-wax-alone;"
    " benchbinder who Nika --on 2026-11-28 --logbook nika.pdf"
)
@click.argument("person", required=False)
@click.option(
    "--may",
    "what",
    type=click.Choice(ALONE),
    help="Only whether PERSON may do this alone: exit code 0 where that is so, 1 where it is not.",
)
@click.option("--on", metavar="DATE", help="The day it is asked for; without it, today.")
@click.option(
    "--logbook",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE",
    help="Write PERSON's own logbook there, as a PDF to print.",
)
@answers
def who(
    person: str | None,
    what: str | None,
    on: str | None,
    logbook: Path | None,
    shop: Path | None,
    as_json: bool,
) -> None:
    """Say who may work alone with hot wax, the iron and solvent; with PERSON, every step.

    No option opens what the sign-offs do not: a step is done and not due again, or it is not.
    """
    if not person and (what or logbook):
        option = "--may" if what else "--logbook"
        raise click.UsageError(f"{option} is of one person; none is named")
    if what and logbook:
        raise click.UsageError("--may and --logbook: accepted: one of the two")
    from formulas.people.who import who as answer

    asked_on = today(on, "--on")
    catalog = loaded(shop)
    found = answer(catalog, asked_on, person or "", what or "")
    if logbook and person:
        from site_builder.logbook.writing import write

        write(catalog, person, asked_on, logbook)
    show(found, catalog, as_json)
    if logbook:
        click.echo(f"{logbook}: logbook of {person}", err=as_json)
    if what and not found.answer["people"][0]["may"][what]["may"]:
        raise SystemExit(1)


@click.command(
    epilog="Example: benchbinder record person Nika --role learner --began 2026-09-07"
    " --adult-from 2027-05-14"
)
@click.argument("name")
@click.option("--role", type=click.Choice(ROLES), required=True, help="An assessor signs off.")
@click.option("--began", metavar="DATE", required=True, help="Day the person began here.")
@click.option("--adult-from", metavar="DATE", help="Day the person turns 18; blank for an adult.")
@answers
def person(
    name: str, role: str, began: str, adult_from: str | None, shop: Path | None, as_json: bool
) -> None:
    """Enter somebody who works here. Nothing of anybody's health is asked or kept."""
    from formulas.first_year_entries import Person
    from formulas.people.recording import record_person

    turns = day(adult_from, "--adult-from") if adult_from else ""
    one = Person(name, role, day(began, "--began"), turns, left="", basis="")
    entered(shop, lambda catalog: record_person(catalog, one), as_json)


@click.command(
    epilog="Example: benchbinder record signoff Tomas measure-slots --mark alone --value 0.05"
    " --assessor Marta --seen-on 26-031 --date 2026-11-20"
)
@click.argument("person")
@click.argument("step")
@click.option("--mark", type=click.Choice(MARKS), required=True, help="What happened.")
@click.option(
    "--value", metavar="NUMBER", help="What was measured of work done alone, in the step's unit."
)
@click.option("--assessor", required=True, help="Who saw it: an assessor of people.csv.")
@click.option("--seen-on", default="", help="The batch, the job or the sheet it was seen on.")
@DATE
@answers
def signoff(shop: Path | None, as_json: bool, **given: Any) -> None:
    """Enter that a step was shown, done with help, done alone or explained.

    What passes is copied from the step. Work alone with heat or solvent is refused for who is
    under age, and where a step before it does not hold: no option changes that.
    """
    from formulas import units
    from formulas.first_year_entries import SignOff
    from formulas.people.recording import record_signoff

    value = None if given["value"] is None else units.number(given["value"])
    mark = SignOff(
        date=today(given["date"]),
        person=given["person"],
        step=given["step"],
        mark=given["mark"],
        value=value,
        unit="",
        low=None,
        high=None,
        seen_on=given["seen_on"],
        assessor=given["assessor"],
        basis="",
    )
    entered(shop, lambda catalog: record_signoff(catalog, mark), as_json)


COMMANDS: tuple[click.Command, ...] = (who,)
RECORDS: tuple[click.Command, ...] = (person, signoff)
"""What `record` can do for people."""
