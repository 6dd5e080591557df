"""The command of the labels."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from site_builder.commands.options import answers, loaded, show

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog
    from site_builder.paper.labels import Print


@click.command(
    epilog="Example: benchbinder label --blend beeswax-rosin-4-1 --stock a4-21-63x38 --copies 4"
    " --start 5 --out labels.pdf"
)
@click.argument("batch", required=False)
@click.option("--blend", help="A blend instead of a batch; the batch is then a line to fill in.")
@click.option("--jar", help="A chemical of the shelf, or the id of a solvent that was filled over.")
@click.option("--stock", help="The sheet of labels, an id of label_stock.csv.")
@click.option("--copies", type=int, default=1, show_default=True, help="How many of the label.")
@click.option(
    "--start", type=int, default=1, show_default=True,
    help="First free place of a used sheet, counted row by row.",
)  # fmt: skip
@click.option("--guides", is_flag=True, help="Draw the edges of the labels.")
@click.option("--no-check-page", is_flag=True, help="Leave out the page that checks the print.")
@click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), help="The PDF to write."
)  # fmt: skip
@answers
def label(
    batch: str | None,
    blend: str | None,
    jar: str | None,
    stock: str | None,
    copies: int,
    start: int,
    guides: bool,
    no_check_page: bool,
    out: Path | None,
    shop: Path | None,
    as_json: bool,
) -> None:
    """Say what a batch's or a jar's label must say, and print it at true size on a sheet."""
    from formulas.books.jar_label import jar_label
    from formulas.books.label import label as answer

    catalog = loaded(shop)
    if [batch, blend, jar].count(None) != 2:
        fault = "name one batch of the pot book, or one blend with --blend, or one jar with --jar"
        raise click.UsageError(fault)
    if (stock is None) != (out is None):
        fault = f"name --stock and --out together; sheets: {', '.join(catalog.label_stock)}"
        raise click.UsageError(fault)
    found = (
        answer(catalog, batch=batch or "", blend=blend or "")
        if jar is None
        else jar_label(catalog, jar)
    )
    if stock is not None and out is not None:
        from site_builder.paper import labels

        one = labels.copies_of(found, catalog, stock, copies, start)
        labels.write(labels.pdf(one, catalog, check=not no_check_page, guides=guides), out)
        found = _with_print(found, catalog, one, out, start)
    show(found, catalog, as_json)


def _with_print(found: Answer, catalog: Catalog, one: Print, out: Path, start: int) -> Answer:
    """Add to an answer what was printed, on what, and what was left off."""
    told: dict[str, Any] = {
        "file": str(out),
        "stock": one.sheet.id,
        "sheets": len(one.pages),
        "labels": sum(map(len, one.pages)),
        "start": start,
        "left_off": one.left_off,
    }
    notes = [catalog.label_stock[one.sheet.id].note]
    if one.left_off:
        where = BESIDE_THE_JAR if "jar" in found.answer else ON_THE_TIN
        notes.append(f"No room on this label for: {'; '.join(one.left_off)}. {where}")
    notes.append("Print unscaled, on plain paper first: the check bar must measure right.")
    return dataclasses.replace(
        found,
        answer={**found.answer, "print": told},
        notes=[*found.notes, *(note for note in notes if note)],
    )


ON_THE_TIN = "Write it on the tin, or on a leaflet that goes with the wax."
BESIDE_THE_JAR = "Take a larger sheet, or hang it beside the jar."
COMMANDS = (label,)
