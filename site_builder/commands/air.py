"""The command of a room's air."""

from __future__ import annotations

from pathlib import Path

import click

from site_builder.commands.options import answers, loaded, show


@click.command(
    epilog="Example: benchbinder air acetone --amount 20mL --over 15min --room 30m3 --air-changes 1"
)
@click.argument("solvent")
@click.option("--amount", metavar="AMOUNT", help="What is used in one task: 20mL, 0.7floz, 16g.")
@click.option("--over", metavar="TIME", help="How long one task takes: 15min.")
@click.option(
    "--room", metavar="VOLUME", help="Volume of the room: 30m3, 1000ft3; else the shop's."
)
@click.option("--air-changes", metavar="NUMBER", help="Air changes an hour; else the shop's.")
@click.option("--area", metavar="AREA", help="The wet face; without it all of it evaporates.")
@click.option("--temperature", metavar="HEAT", help="Heat of the air: 22C, 72F.")
@click.option("--repeat", default=1, show_default=True, help="How many such tasks in a day.")
@click.option("--every", metavar="TIME", help="From start to start; else one right after another.")
@click.option("--start", metavar="LEVEL", help="Level in the room before: 50ppm.")
@click.option(
    "--heat",
    multiple=True,
    metavar="WHAT",
    help="What can light it, again for each: hot-plate, iron, heat-gun, flame, pot,"
    " ultrasonic-bath, static, switch.",
)
@click.option("--measured", metavar="LEVEL", help="With rosin-fume: a reading, 0.2mg/m3.")
@answers
def air(
    solvent: str, shop: Path | None, as_json: bool, **asked: str | int | tuple[str, ...] | None
) -> None:
    """How much vapour a task with a solvent puts into a room, against every limit known.

    What can light it is refused first; the figures follow, and no figure here is a clearance to
    work. `rosin-fume` is not reckoned: it shows the guides, and holds a reading to them.
    """
    from site_builder.commands.read_air import answered

    fume = solvent == "rosin-fume"
    if not fume:
        missing = [name for name in ("amount", "over") if not asked[name]]
        if missing:
            fault = f"--{missing[0]} is missing: what is used in one task, and how long it takes"
            raise click.UsageError(fault)
    if asked["measured"] and not fume:
        fault = "--measured is a reading of rosin-fume; a level before the task is --start"
        raise click.UsageError(fault)
    catalog = loaded(shop)
    answer = answered(catalog, solvent, asked)
    show(answer, catalog, as_json)
    if answer.answer["refused"]:
        raise SystemExit(2)


COMMANDS = (air,)
