"""The command line."""

from __future__ import annotations

import click

from site_builder.process import settle

settle()

try:
    from site_builder.commands import (
        air,
        books,
        handbook,
        job_books,
        jobs,
        labels,
        leaves,
        people,
        practising,
        register,
        seating,
        solvents,
        valves,
        wax,
    )
except ImportError as error:
    if not (error.name or "").startswith("formulas"):
        raise
    IN_THE_WAY = (
        "another package named 'formulas' stands in the way;"
        " install benchbinder into a virtual environment of its own"
    )
    raise SystemExit(IN_THE_WAY) from error


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 92})
@click.version_option(package_name="benchbinder")
def main() -> None:
    """Wax batches, softening estimates and a shop handbook for free-reed instruments.

    A shop's own folder is named with --shop; a folder that holds a shop.toml is used where the
    command runs; else the invented demo shop, and every answer says so.
    """


for one in (
    *wax.COMMANDS,
    *valves.COMMANDS,
    *seating.COMMANDS,
    *solvents.COMMANDS,
    *air.COMMANDS,
    *jobs.COMMANDS,
    *books.COMMANDS,
    *labels.COMMANDS,
    *leaves.COMMANDS,
    *people.COMMANDS,
    *practising.COMMANDS,
    *handbook.COMMANDS,
):
    main.add_command(one)
for one in (*job_books.RECORDS, *register.RECORDS, *people.RECORDS):
    books.record.add_command(one)
