"""The command of a plate's seat."""

from __future__ import annotations

from pathlib import Path

import click

from site_builder.commands.options import answers, loaded, show


@click.command(
    epilog="Example: benchbinder seat --plate single --metal aluminium --block softwood"
    " --service travel --found gasket-screws --keep-original"
)
@click.option(
    "--plate", metavar="FORM", help="Form of the plate: single, long, frame, shoe, harmonium."
)
@click.option(
    "--metal",
    default="aluminium",
    show_default=True,
    help="Its metal: aluminium, zinc, brass, steel.",
)
@click.option(
    "--block",
    default="softwood",
    show_default=True,
    help="What it lies on: softwood, hardwood, pan, metal.",
)
@click.option(
    "--service",
    default="indoors",
    show_default=True,
    help="Where it is played: indoors, hot, cold, damp, travel.",
)
@click.option(
    "--found",
    default="",
    metavar="SEAT",
    help="The seat that was there, as in seating_methods.csv.",
)
@click.option("--failed", is_flag=True, help="What was there failed.")
@click.option("--keep-original", is_flag=True, help="The original is to stay.")
@click.option("--later-wax", is_flag=True, help="It may want wax later on.")
@click.option(
    "--gasket",
    metavar="MATERIAL",
    help="A gasket: cork, leather, chamois, as in gasket_materials.csv.",
)
@click.option("--thickness", metavar="LENGTH", help="Thickness of the gasket, new: 1.2mm.")
@click.option("--size", metavar="LENGTHxWIDTH", help="Size of the plate: 300x60mm.")
@click.option("--plate-thickness", metavar="LENGTH", help="Thickness of the plate: 2.8mm.")
@click.option(
    "--fasteners",
    default="screws",
    show_default=True,
    help="What pulls it down: pins, hooks, screws.",
)
@click.option("--was", metavar="LENGTH", help="Thickness of what lay there before; else bare wood.")
@click.option("--cells", metavar="SHARE", help="Share of the plate's face over its cells, as 40%.")
@answers
def seat(shop: Path | None, as_json: bool, **asked: str | bool | None) -> None:
    """Which seats a plate may have, with every reason, and what a gasket under it asks for.

    What was there stands first, unless it failed. A blank in the tables is said to be one.
    """
    from site_builder.commands.read_seat import answered

    if not asked["plate"] and not asked["gasket"]:
        fault = "say what is asked: --plate for the seats, --gasket for a gasket, or both"
        raise click.UsageError(fault)
    own = ("thickness", "size", "plate_thickness")
    missing = [name for name in own if not asked[name]]
    if asked["gasket"] and missing:
        fault = f"--gasket asks for --{missing[0].replace('_', '-')} as well"
        raise click.UsageError(fault)
    if not asked["gasket"] and any(asked[name] for name in (*own, "was", "cells")):
        fault = "sizes belong to --gasket: name its material"
        raise click.UsageError(fault)
    if asked["failed"] and not asked["found"]:
        fault = "--failed says it of what --found names"
        raise click.UsageError(fault)
    catalog = loaded(shop)
    show(answered(catalog, asked), catalog, as_json)


COMMANDS = (seat,)
