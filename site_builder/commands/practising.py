"""The command of the practice sheets."""

from __future__ import annotations

import dataclasses
import secrets
from pathlib import Path
from typing import TYPE_CHECKING

import click

from site_builder.commands.options import answers, loaded, show

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

SEEDS = 10_000  # a seed that is chosen is short enough to write on a sheet
FORMS = (".pdf", ".html")


@click.command(
    epilog="Example: benchbinder practice --topic alligation --count 10 --seed 7 --out sheet.pdf"
)
@click.option("--topic", multiple=True, help="What is practised, again for each; else every topic.")
@click.option(
    "--count",
    type=click.IntRange(1, 100),
    default=3,
    show_default=True,
    help="Exercises of each topic.",
)
@click.option(
    "--seed",
    type=click.IntRange(min=0),
    help="The number that gives the same sheet again; else one is chosen and printed.",
)
@click.option(
    "--grade",
    type=click.IntRange(1, 3),
    multiple=True,
    help="1 for one step, 2 for two or three, 3 for a whole job; else all.",
)
@click.option("--key", is_flag=True, help="Print the key with the working, after all questions.")
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    help="A .pdf for the pencil with its key apart, or an .html that checks what is typed.",
)
@answers
def practice(
    topic: tuple[str, ...],
    count: int,
    seed: int | None,
    grade: tuple[int, ...],
    key: bool,
    out: Path | None,
    shop: Path | None,
    as_json: bool,
) -> None:
    """Exercises with fresh numbers, and their key with the working as on paper.

    Nothing is kept of what anybody answers.
    """
    from formulas.practice.practice import practice as answer

    if out is not None and out.suffix.lower() not in FORMS:
        fault = f"--out: found '{out}', accepted: a name that ends in {' or '.join(FORMS)}"
        raise click.UsageError(fault)
    catalog = loaded(shop)
    chosen = secrets.randbelow(SEEDS) if seed is None else seed
    found = answer(catalog, topic, count, chosen, grade)
    found = dataclasses.replace(found, inputs={**found.inputs, "key": key})
    if out is not None:
        found = _written(found, catalog, out)
    show(found, catalog, as_json)


def _written(found: Answer, catalog: Catalog, out: Path) -> Answer:
    """Write the sheet to a file, and add to the answer what was written."""
    from site_builder import own_file
    from site_builder.practice_sheet.pieces import MARK

    if out.suffix.lower() == ".pdf":
        from site_builder.practice_sheet.on_paper import pdf

        data, said = pdf(found, catalog), "the questions, then the key on sheets of its own"
    else:
        from site_builder.practice_sheet.on_screen import page

        data, said = page(found, catalog), "one page that checks what is typed"
    own_file.write(data, out, MARK, "practice sheet")
    told = {"file": str(out), "said": f"{out}: {said}."}
    return dataclasses.replace(found, answer={**found.answer, "print": told})


COMMANDS = (practice,)
