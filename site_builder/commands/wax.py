"""The commands at the wax pot: mix, soften, melt, adjust."""

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
    from formulas.wax.mix import mix as answer

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
    from formulas.softening.soften import soften as answer

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


@click.command(
    epilog="Example: benchbinder melt beeswax-rosin-4-1 --total 400g --for holding --bath 1.5L"
    " --power 300W --vessel aluminium=350g --width 110mm"
)
@click.argument("blend", required=False)
@PARTS
@click.option("--total", metavar="MASS", help="Mass of the wax in the pot: 400g or 14oz.")
@click.option(
    "--for",
    "purpose",
    type=click.Choice(["make-up", "holding", "touch-up"]),
    help="What the heat is for; goes to the floor of its window unless --to says more.",
)
@click.option("--to", metavar="TEMPERATURE", help="The heat wanted: 80C or 176F.")
@click.option("--start", metavar="TEMPERATURE", help="Heat of wax and water before: 18C or 64F.")
@click.option(
    "--heater",
    type=click.Choice(["bath", "thermostat", "hot-plate", "flame"]),
    help="A water bath, or a pot with a thermostat and a cut-out; nothing else is accepted.",
)
@click.option("--bath", metavar="VOLUME", help="Water in the bath: 1.5L or 50floz.")
@click.option("--power", metavar="POWER", help="Power of the heater, from its plate: 300W.")
@click.option(
    "--vessel", multiple=True, metavar="MATERIAL=MASS", help="Each vessel that warms up with it."
)
@click.option("--width", metavar="LENGTH", help="Inner width of the pot: 110mm or 4.3in.")
@click.option("--wet", is_flag=True, help="The pot, or what goes into it, is wet.")
@click.option("--from-bath", is_flag=True, help="The pot comes from a water bath.")
@click.option("--dried", is_flag=True, help="... and was wiped dry, outside and inside the rim.")
@answers
def melt(
    blend: str | None,
    parts: tuple[str, ...],
    total: str | None,
    purpose: str | None,
    to: str | None,
    start: str | None,
    heater: str | None,
    bath: str | None,
    power: str | None,
    vessel: tuple[str, ...],
    width: str | None,
    wet: bool,
    from_bath: bool,
    dried: bool,
    shop: Path | None,
    as_json: bool,
) -> None:
    """Heat a pot: its window and ceiling, how long, how much power, the pot, sink and top-up.

    A pot outside its window, above a ceiling, wet, with a solvent in it, or on a bare hot plate
    or flame is refused.
    """
    from formulas import units
    from formulas.melting.melt import melt as answer
    from formulas.melting.pot import Heating

    if purpose is None and to is None:
        fault = "say what the heat is for, --for holding or make-up, or how hot, --to 80C"
        raise click.UsageError(fault)
    if bath is not None and heater in {"thermostat", "hot-plate"}:
        fault = "a pot in a water bath is heated by the bath: leave --heater out, or --bath"
        raise click.UsageError(fault)
    if heater is None and bath is None and purpose != "touch-up":
        fault = "say how it is heated: --bath 1.5L, or --heater thermostat"
        raise click.UsageError(fault)
    catalog = loaded(shop)
    heating = Heating(
        heater=heater or ("bath" if bath else ""),
        power_w=None if power is None else units.read(power, "W"),
        vessels=[
            (name, units.read(text, "g"))
            for one in vessel
            for name, text in named_amounts((one,), "350g").items()
        ],
        bath_l=None if bath is None else units.read(bath, "liter"),
        start=None if start is None else units.read(start, "degC"),
        wet=wet,
        from_bath=from_bath,
        dried=dried,
    )
    found = answer(
        catalog,
        parts_of(catalog, blend, parts),
        total_g=None if total is None else units.read(total, "g"),
        purpose=purpose or "",
        to=None if to is None else units.read(to, "degC"),
        heating=heating,
        width_mm=None if width is None else units.read(width, "mm"),
        blend=blend or "",
    )
    show(found, catalog, as_json)


@click.command(
    epilog="Example: benchbinder adjust --pot beeswax-yellow=300g --pot gum-rosin=50g"
    " --to beeswax-rosin-4-1"
)
@click.argument("blend", required=False)
@click.option(
    "--to", metavar="BLEND", help='The blend it must be, or "beeswax-yellow 4; gum-rosin 1".'
)
@PARTS
@click.option(
    "--pot",
    "--pot-blend",
    "pot",
    multiple=True,
    metavar="WHAT=MASS",
    help="What is in the pot: a material, a blend or a batch with its mass; or reclaimed=400g.",
)
@click.option(
    "--add",
    multiple=True,
    metavar="WHAT[=STOCK]",
    help="What may be added: a material, a blend or a batch, and how much there is of it;"
    " without any, the materials of the blend.",
)
@click.option(
    "--lot",
    multiple=True,
    metavar="NAME=RATIO[:STOCK]",
    help='A lot of your own that may be added: "tin=beeswax-yellow 3; gum-rosin 1:200g".',
)
@click.option("--total", metavar="MASS", help="What the whole must weigh in the end: 500g or 18oz.")
@click.option(
    "--holds",
    multiple=True,
    metavar="MATERIAL=LOW-HIGH%",
    help="What reclaimed wax may hold: gum-rosin=15-25%.",
)
@click.option(
    "--rest", default="beeswax-yellow", show_default=True, help="What the rest of reclaimed wax is."
)
@answers
def adjust(
    blend: str | None,
    to: str | None,
    parts: tuple[str, ...],
    pot: tuple[str, ...],
    add: tuple[str, ...],
    lot: tuple[str, ...],
    total: str | None,
    holds: tuple[str, ...],
    rest: str,
    shop: Path | None,
    as_json: bool,
) -> None:
    """Correct a pot to a ratio by the least addition, or mix lots to it; show the working.

    Without --pot the lots are mixed: to --total, or as far as their stock goes. Where the ratio
    is out of reach the answer says why, and gives the nearest.
    """
    from formulas import units
    from formulas.adjusting.adjust import adjust as answer
    from site_builder.commands.read_portions import in_pot, may_be_added, wanted

    if (blend is not None) + (to is not None) + bool(parts) != 1:
        fault = "say what it must be in one way: --to beeswax-rosin-4-1, or --parts for each"
        raise click.UsageError(fault)
    catalog = loaded(shop)
    target, named = wanted(catalog, to or blend, parts)
    there, old = in_pot(catalog, pot, holds, rest)
    found = answer(
        catalog,
        target,
        pot=there,
        add=may_be_added(catalog, add, lot),
        old=old,
        total_g=None if total is None else units.read(total, "g"),
        blend=named,
    )
    show(found, catalog, as_json)


COMMANDS = (mix, soften, melt, adjust)
