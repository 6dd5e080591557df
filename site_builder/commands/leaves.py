"""The commands of the binder's leaves: which are in force, and which to print again."""

from __future__ import annotations

from pathlib import Path

import click

from site_builder.commands.books import entered, today
from site_builder.commands.options import answers, loaded, show
from site_builder.commands.read_words import day

OUT = click.Path(path_type=Path, dir_okay=False)


@click.command(epilog="Example: benchbinder leaves W-03 W-04 --out two-leaves.pdf")
@click.argument("numbers", nargs=-1, metavar="[LEAF]...")
@click.option("--section", default="", metavar="LETTER", help="The leaves of one section.")
@click.option("--out", type=OUT, help="The PDF to write: these leaves alone.")
@answers
def leaves(
    numbers: tuple[str, ...], section: str, out: Path | None, shop: Path | None, as_json: bool
) -> None:
    """List the leaves with revision, date and sides, and print some of them."""
    from site_builder.leaves.answers import leaves as answer

    catalog = loaded(shop)
    show(answer(catalog, numbers, section, out), catalog, as_json)


@click.command(epilog="Example: benchbinder reprint --out proof.pdf")
@click.option(
    "--printed",
    metavar="DATE",
    help="Write the leaves with their new revision, and record that they were printed on that day.",
)
@click.option("--out", type=OUT, help="The PDF to write: a change note, then the leaves.")
@answers
def reprint(printed: str | None, out: Path | None, shop: Path | None, as_json: bool) -> None:
    """Say which leaves of the binder on the shelf to replace, to add and to take out."""
    from site_builder.leaves.answers import reprint as answer

    if printed is None:
        catalog = loaded(shop)
        show(answer(catalog, out)[0], catalog, as_json)
        return
    on = day(printed, "--printed")
    if out is None:
        raise click.UsageError("name --out beside --printed: the PDF that is to be printed")
    entered(shop, lambda catalog: answer(catalog, out, on, today(None)), as_json)


COMMANDS = (leaves, reprint)
