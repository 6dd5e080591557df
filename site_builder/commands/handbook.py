"""The commands of the handbook: start, check, build."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import click

from formulas.fault import Faults
from site_builder.commands.books import today
from site_builder.commands.options import guarded, loaded, shop_folder, with_shop


@click.command(epilog="Example: benchbinder start my-shop")
@click.argument("folder", type=click.Path(path_type=Path))
def start(folder: Path) -> None:
    """Lay down a shop folder: headed tables to fill in, settings, a place for own leaves."""
    from site_builder.start import lay_down

    def run() -> None:
        for name in lay_down(folder):
            click.echo(f"wrote {folder / name}")

    guarded(run)


@click.command(epilog="Example: benchbinder check --shop my-shop")
@with_shop
@click.option(
    "--on", metavar="DATE", help="Day that data sheets and last days are told against; else today."
)
@click.option("--json", "as_json", is_flag=True, help="Answer as JSON, for other programs.")
def check(shop: Path | None, on: str | None, as_json: bool) -> None:
    """Read every table and every leaf, and report all faults at once. Changes nothing."""
    from formulas.books.records import notices
    from formulas.books.register import register_notices
    from formulas.jobs.job_list import job_notices
    from formulas.people.gate import people_notices
    from site_builder import content

    asked_on = today(on, "--on")

    def run() -> None:
        handbook = content.read(loaded(shop))
        noticed = [
            *notices(handbook.catalog),
            *job_notices(handbook.catalog),
            *people_notices(handbook.catalog),
            *register_notices(handbook.catalog, asked_on),
        ]
        said = f"{len(handbook.leaves)} leaves, {len(handbook.catalog.blends)} blends: no fault."
        found = {"answer": {"faults": [], "notices": noticed}}
        click.echo(json.dumps(found) if as_json else "\n".join([*noticed, said]))

    if as_json:
        _check_as_json(run)
    else:
        guarded(run)


def _check_as_json(run: Callable[[], None]) -> None:
    try:
        run()
    except Faults as error:
        faults = [
            {key: getattr(fault, key) for key in ("file", "row", "column", "found", "accepted")}
            for fault in error.faults
        ]
        click.echo(json.dumps({"answer": {"faults": faults}}, indent=2, ensure_ascii=False))
        raise SystemExit(1) from error


@click.command(epilog="Example: benchbinder build --shop my-shop --out my-shop-handbook")
@with_shop
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("output"),
    show_default=True,
    help="Where the handbook lands.",
)
def build(shop: Path | None, out: Path) -> None:
    """Build the handbook on screen and the binder on paper."""
    from site_builder.publish import publish

    folder = shop_folder(shop)

    def run() -> None:
        click.echo(publish(folder, out))

    guarded(run)


COMMANDS = (start, check, build)
