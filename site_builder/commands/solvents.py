"""The command of the solvents: what is known of one, the gentlest for a task."""

from __future__ import annotations

from pathlib import Path

import click

from site_builder.commands.options import answers, loaded, show


@click.command(
    epilog="Example: benchbinder solvent acetone, or"
    " benchbinder solvent --task grease --near celluloid"
)
@click.argument("name", metavar="[SOLVENT]", required=False)
@click.option(
    "--task",
    metavar="TASK",
    help="What is to come off: wax, rosin, grease, shellac, glue, gum.",
)
@click.option(
    "--near",
    multiple=True,
    metavar="WHAT",
    help="What stands near and is to stay: leather, shellac, celluloid, wax, rosin.",
)
@click.option("--heat", is_flag=True, help="A pot, an iron or a heater is hot in the room.")
@click.option(
    "--room", default="20 °C", show_default=True, metavar="HEAT", help="How warm the room is."
)
@answers
def solvent(
    shop: Path | None,
    as_json: bool,
    name: str | None,
    task: str | None,
    near: tuple[str, ...],
    heat: bool,
    room: str,
) -> None:
    """Tell what is known of a solvent: fire, limits of the air, hazards, what it attacks.

    With --task it ranks the solvents of the bench, the gentlest first, the refused with reasons.
    Without either it lists them.
    """
    from formulas import units
    from formulas.air.solvent_answer import solvent_answer

    if (near or heat) and not task:
        fault = "--near and --heat belong to --task: say what is to come off"
        raise click.UsageError(fault)
    catalog = loaded(shop)
    celsius = units.read(room, "degC")
    show(solvent_answer(catalog, name, task, near, heat, celsius), catalog, as_json)


COMMANDS = (solvent,)
