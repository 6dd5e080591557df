"""The commands at the wax pot: mix, soften."""

from __future__ import annotations

from pathlib import Path

import click

from site_builder.commands.options import PARTS, answers, loaded, named_amounts, parts_of, show


@click.command(epilog="Example: benchbinder mix beeswax-rosin-4-1 --plates 224")
@click.argument("blend", required=False)
@PARTS
@click.option("--total", metavar="MASS", help="Mass of the whole batch, such as 400g or 14oz.")
@click.option(
    "--have", multiple=True, metavar="MATERIAL=MASS", help="What is at hand of a limited material."
)
@click.option("--plates", type=int, help="Number of reed plates to bed.")
@answers
def mix(
    blend: str | None,
    parts: tuple[str, ...],
    total: str | None,
    have: tuple[str, ...],
    plates: int | None,
    shop: Path | None,
    as_json: bool,
) -> None:
    """Weigh out a wax batch: to a total, to what is at hand, or for a number of plates."""
    from formulas import units
    from formulas.mix import mix as answer

    catalog = loaded(shop)
    if (total is None) + (not have) + (plates is None) != 2:
        fault = "say how much in one way: --total, --have or --plates"
        raise click.UsageError(fault)
    found = answer(
        catalog,
        parts_of(catalog, blend, parts),
        total_g=None if total is None else units.read(total, "g"),
        have_g={m: units.read(text, "g") for m, text in named_amounts(have, "85g").items()} or None,
        plates=plates,
        blend=blend or "",
    )
    show(found, catalog, as_json)


@click.command(epilog='Example: benchbinder soften beeswax-rosin-4-1 --target "62 °C"')
@click.argument("blend", required=False)
@PARTS
@click.option(
    "--method", help="Test method: drop-point, congealing-point, ring-and-ball or step-creep."
)
@click.option("--target", metavar="TEMPERATURE", help="A softening point to aim at: 62C or 144F.")
@click.option("--floor", metavar="TEMPERATURE", help="The chance to hold it, by step creep: 45C.")
@click.option("--against", metavar="BLEND", default="", help="Which of the two is the firmer.")
@click.option("--width", type=float, help="How many tests until the band is so many degC each way.")
@click.option("--bridge", is_flag=True, help="Let drop points count for step creep, as they can.")
@answers
def soften(
    blend: str | None,
    parts: tuple[str, ...],
    method: str | None,
    target: str | None,
    floor: str | None,
    against: str,
    width: float | None,
    bridge: bool,
    shop: Path | None,
    as_json: bool,
) -> None:
    """Estimate where a blend softens, with its band, and say which test to make next.

    What the shop tested stands in softening_tests.csv and narrows the band of its method.
    """
    from formulas import units
    from formulas.soften import soften as answer

    catalog = loaded(shop)
    found = answer(
        catalog,
        parts_of(catalog, blend, parts),
        method=method,
        target=None if target is None else units.read(target, "degC"),
        floor=None if floor is None else units.read(floor, "degC"),
        against=against,
        width=width,
        bridge=bridge,
        blend=blend or "",
    )
    show(found, catalog, as_json)


COMMANDS = (mix, soften)
