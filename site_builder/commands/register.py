"""The command that enters what was put on the shelf that can harm."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from site_builder.commands.books import NOTE, entered, today
from site_builder.commands.options import answers
from site_builder.commands.read_words import day, held_amount


@click.command(
    epilog='Example: benchbinder record chemical "Ethanol, tin" --solvent ethanol --amount 1L'
    ' --place "solvent cabinet" --sheet 2025-03-01 --opened 2026-11-02'
)
@click.argument("name")
@click.option("--solvent", default="", help="An id of solvents.csv or of materials.csv.")
@click.option("--amount", metavar="AMOUNT", help="How much there is at most: 1L, 250mL or 500g.")
@click.option("--place", required=True, help="Where it stands.")
@click.option("--sheet", metavar="DATE", help="Date on its data sheet; without it none is held.")
@click.option("--opened", metavar="DATE", help="Day it was opened or filled.")
@click.option("--use-by", metavar="DATE", help="Day after which it is not used.")
@click.option("--hazards", default="", help="Its hazard statements, as 'H225 H319'.")
@NOTE
@answers
def chemical(shop: Path | None, as_json: bool, **given: Any) -> None:
    """Enter a chemical of the shelf, with the date of its safety data sheet."""
    from formulas.air_entries import Chemical
    from formulas.books.record_chemical import record_chemical

    amount, unit = held_amount(given["amount"])
    sheet, opened, use_by = (
        day(given[name], f"--{name.replace('_', '-')}") if given[name] else ""
        for name in ("sheet", "opened", "use_by")
    )
    one = Chemical(
        chemical=given["name"],
        solvent=given["solvent"],
        amount=amount,
        unit=unit,
        place=given["place"],
        sheet_held=bool(sheet),
        sheet_date=sheet,
        opened=opened,
        use_by=use_by,
        hazard_codes=tuple(given["hazards"].split()),
        basis="",
        note=given["note"],
    )
    entered(shop, lambda catalog: record_chemical(catalog, one, today(None)), as_json)


RECORDS: tuple[click.Command, ...] = (chemical,)
"""What `record` can do for the shelf."""
