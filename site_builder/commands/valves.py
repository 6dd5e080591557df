"""The commands at the cutting board: valves, stiffness, cut."""

from __future__ import annotations

from pathlib import Path

import click

from site_builder.commands.options import answers, loaded, show


@click.command(epilog="Example: benchbinder valves --rank middle")
@click.option("--rank", help="A rank of the instrument, as in ranks.csv: low, middle, high.")
@click.option("--instrument", default="", help="An instrument of ranks.csv; else the shop's own.")
@click.option("--note", default="", metavar="NOTE", help="One note of the rank only: C4, F#3, Bb2.")
@click.option("--slot", metavar="LENGTHxWIDTH", help="One slot that was measured: 38x4.2mm.")
@click.option("--sounds", default="", metavar="NOTE", help="The note of that slot.")
@click.option("--kind", default="", help="Only stock of this kind: leather, film, microfibre.")
@click.option("--stock", multiple=True, metavar="STOCK", help="Only this stock; may be repeated.")
@click.option("--posture", default="", help="How the plates hang, as in postures.csv: bench.")
@click.option("--face", type=click.Choice(["inside", "outside"]), default="outside")
@click.option("--wall", metavar="LENGTH", help="Metal between the two slots of the plate.")
@click.option("--edge", metavar="LENGTH", help="Metal from the slot to the long edge.")
@click.option("--sensitivity", is_flag=True, help="What changes with each limit, up and down.")
@click.option("--room", metavar="LENGTH", help="Free room over the valve.")
@click.option(
    "--droop", metavar="LENGTH", help="Tip of the cut valve, held level at the glue line."
)
@click.option("--bending", metavar="LENGTH", help="Bending length of a piece in no table.")
@click.option("--mass", metavar="MASS", help="Its mass per area: 350g/m2 or 10oz/yd2.")
@click.option("--thickness", metavar="LENGTH", help="Its thickness.")
@click.option("--film", is_flag=True, help="It is film, not leather.")
@click.option("--lowest", metavar="NOTE", help="A rank that is not in ranks.csv: its lowest note.")
@click.option("--count", type=int, help="How many plates that rank has.")
@click.option(
    "--plate", multiple=True, metavar="NOTE=SIZE", help="A slot measured of it: C4=29x3.4mm."
)
@click.option("--pitch", metavar="FREQUENCY", help="Its pitch of A, where not the shop's: 440Hz.")
@click.option(
    "--reads",
    multiple=True,
    metavar="STOCK=OVERHANG@MASS",
    help="What a stock shows now, for that rank: kid-38=62mm@240g/m2, or one of the two.",
)
@answers
def valves(
    rank: str | None,
    slot: str | None,
    lowest: str | None,
    shop: Path | None,
    as_json: bool,
    **asked: str | bool | int | tuple[str, ...] | None,
) -> None:
    """Choose valve stock for every slot of a rank, or for one slot, and say why.

    Stock is chosen only where its stiffness was measured; for the rest the answer says how far
    a strip has to hang over the ramp.
    """
    from site_builder.commands.read_valves import one_slot, typed_rank, whole_rank

    ways = [(whole_rank, rank), (one_slot, slot), (typed_rank, lowest)]
    named = [(way, name) for way, name in ways if name is not None]
    if len(named) != 1:
        fault = "say what in one way: --rank, --slot with --sounds, or --lowest with --count"
        raise click.UsageError(fault)
    catalog = loaded(shop)
    ((way, name),) = named
    show(way(catalog, name, asked), catalog, as_json)


@click.command(
    epilog="Example: benchbinder stiffness --overhang 52/54/51/53mm --overhang 55/53/52/54mm"
    " --piece 100x50mm=2.1g --scale 0.1g"
)
@click.argument("stock", required=False)
@click.option(
    "--overhang",
    multiple=True,
    metavar="LENGTHS",
    help="One strip, cut along the backbone: its overhang, or up to four with slashes, smooth face"
    " down at both ends and then soft face down: 52/54/51/53mm. Once for each strip.",
)
@click.option(
    "--across", multiple=True, metavar="LENGTHS", help="The same of a strip cut across it."
)
@click.option("--angle", type=float, help="Angle of the ramp in degrees, where it is not 41.5.")
@click.option(
    "--piece",
    multiple=True,
    metavar="SIZE=MASS",
    help="Pieces of one size on the scale: 100x50mm=2.1g.",
)
@click.option("--pieces", type=int, default=1, show_default=True, help="How many were weighed.")
@click.option("--scale", metavar="MASS", help="Step of the scale; else that of the shop's.")
@click.option("--thickness", metavar="LENGTH", help="Thickness: 0.55mm, 0.5-0.6mm or 22mil.")
@answers
def stiffness(
    stock: str | None,
    overhang: tuple[str, ...],
    across: tuple[str, ...],
    angle: float | None,
    piece: tuple[str, ...],
    pieces: int,
    scale: str | None,
    thickness: str | None,
    shop: Path | None,
    as_json: bool,
) -> None:
    """How a valve stock bends and what it weighs: from the ramp and the scale, else a table.

    A stock is named, or its readings are typed; what is typed replaces what the shop has.
    """
    from formulas.valves.stiffness import stiffness as answer
    from site_builder.commands.read_stiffness import typed_of

    if stock is None and not (overhang or across or piece):
        fault = "name a stock of valve_stock.csv, or type readings: --overhang 52mm"
        raise click.UsageError(fault)
    catalog = loaded(shop)
    typed = typed_of(catalog, overhang, across, angle, piece, pieces, scale, thickness)
    show(answer(catalog, stock or "", typed), catalog, as_json)


@click.command(epilog="Example: benchbinder cut --rank middle")
@click.option("--instrument", default="", help="An instrument of ranks.csv; else the shop's own.")
@click.option("--rank", multiple=True, help="Only this rank; may be repeated.")
@click.option(
    "--strip",
    multiple=True,
    metavar="LENGTHxWIDTH=COUNT",
    help="Sizes of your own instead: 38x6.5mm=24. May be repeated.",
)
@click.option("--kind", default="", help="Choose stock of this kind only: leather, film.")
@click.option("--stock", default="", help="Cut all of it from this stock, whatever was chosen.")
@click.option("--skin", multiple=True, metavar="SKIN", help="Lay on this skin; may be repeated.")
@click.option(
    "--piece",
    metavar="LENGTHxWIDTH",
    help="Lay on pieces of this size, length along the backbone: 297x210mm.",
)
@click.option(
    "--pieces",
    type=click.IntRange(min=0),
    default=0,
    help="How many such pieces there are; else as many as it takes.",
)
@click.option("--turn", is_flag=True, help="Such pieces have no direction: they may be turned.")
@click.option("--spares", metavar="SHARE", help="Spare strips of each size, as 10%; 0% for none.")
@click.option("--step", metavar="WIDTHxLENGTH", help="Steps that sizes are rounded up to: 0.5x1mm.")
@click.option("--gap", metavar="LENGTH", help="Left between strips for a cut that wanders.")
@click.option("--margin", metavar="LENGTH", help="Left along every edge and zone.")
@answers
def cut(
    shop: Path | None, as_json: bool, **asked: str | int | bool | tuple[str, ...] | None
) -> None:
    """Give the cut list of an instrument with spares, and lay it on the skins and pieces.

    Strips keep to the backbone. The printed plan stands in templates.pdf of a build.
    """
    from site_builder.commands.read_cut import answered

    if asked["strip"] and (asked["rank"] or asked["instrument"] or asked["kind"]):
        fault = "say what to cut in one way: --strip, or --instrument, --rank and --kind"
        raise click.UsageError(fault)
    if asked["piece"] and asked["skin"]:
        fault = "say what to lay on in one way: --piece, or --skin"
        raise click.UsageError(fault)
    if not asked["piece"] and (asked["pieces"] or asked["turn"]):
        fault = "--pieces and --turn belong to --piece"
        raise click.UsageError(fault)
    catalog = loaded(shop)
    show(answered(catalog, asked), catalog, as_json)


COMMANDS = (valves, stiffness, cut)
