"""The commands. Exit code 0: done; 1: the data have faults; 2: the call is wrong.

What a command needs is imported when it runs: a build with nothing to do starts in a blink.
"""

from __future__ import annotations

import functools
import json
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

try:
    from formulas.fault import Faults, FormulasError
except ImportError as error:
    IN_THE_WAY = (
        "another package named 'formulas' stands in the way;"
        " install benchbinder into a virtual environment of its own"
    )
    raise SystemExit(IN_THE_WAY) from error
from site_builder.places import DEMO_SHOP

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

F = TypeVar("F", bound=Callable[..., Any])


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 92})
@click.version_option(package_name="benchbinder")
def main() -> None:
    """Wax batches, softening estimates and a shop handbook for free-reed instruments.

    A shop's own folder is named with --shop; a folder that holds a shop.toml is used where the
    command runs; else the invented demo shop, and every answer says so.
    """


def _answers(function: F) -> F:
    """Give a command its two common options, and turn our errors into messages and exit codes."""

    @click.option("--json", "as_json", is_flag=True, help="Answer as JSON, for other programs.")
    @_with_shop
    @functools.wraps(function)
    def command(*args: Any, **kwargs: Any) -> None:
        _guarded(function, *args, **kwargs)

    return command  # type: ignore[return-value]


def _with_shop(function: F) -> F:
    return click.option(
        "--shop",
        type=click.Path(exists=True, file_okay=False, path_type=Path),
        help="The shop folder; see `benchbinder start`.",
    )(function)


def _guarded(function: Callable[..., Any], *args: Any, **kwargs: Any) -> None:
    try:
        function(*args, **kwargs)
    except Faults as error:
        click.echo(str(error), err=True)
        raise SystemExit(1) from error
    except FormulasError as error:
        click.echo(str(error), err=True)
        raise SystemExit(2) from error


def shop_folder(shop: Path | None) -> Path:
    """Give the shop folder to use: the one named, the one we stand in, or the demo."""
    if shop:
        return shop
    if Path("shop.toml").is_file():
        return Path()
    return DEMO_SHOP


def _catalog(shop: Path | None) -> Catalog:
    from formulas.catalog import load

    return load(shop_folder(shop))


def _named_amounts(given: tuple[str, ...], what: str) -> dict[str, str]:
    """Read "gum-rosin=85g" arguments. Raises UsageError for one without a sign of equality."""
    amounts = {}
    for text in given:
        name, equals, amount = text.partition("=")
        if not equals or name in amounts:
            fault = f"found '{text}', accepted: a material once, as gum-rosin={what}"
            raise click.UsageError(fault)
        amounts[name.strip()] = amount.strip()
    return amounts


def _parts(catalog: Catalog, blend: str | None, given: tuple[str, ...]) -> dict[str, float]:
    """Give the parts of a named blend, or those given one by one."""
    if (blend is None) == (not given):
        fault = "name one blend, or give --parts for each of its components"
        raise click.UsageError(fault)
    if blend:
        return dict(catalog.blend(blend).parts)
    from formulas import units

    return {name: units.number(text) for name, text in _named_amounts(given, "1").items()}


PARTS = click.option(
    "--parts", multiple=True, metavar="MATERIAL=PARTS", help="A ratio of your own, by mass."
)


@main.command(epilog="Example: benchbinder mix beeswax-rosin-4-1 --plates 224")
@click.argument("blend", required=False)
@PARTS
@click.option("--total", metavar="MASS", help="Mass of the whole batch, such as 400g or 14oz.")
@click.option(
    "--have", multiple=True, metavar="MATERIAL=MASS", help="What is at hand of a limited material."
)
@click.option("--plates", type=int, help="Number of reed plates to bed.")
@_answers
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

    catalog = _catalog(shop)
    if (total is None) + (not have) + (plates is None) != 2:
        fault = "say how much in one way: --total, --have or --plates"
        raise click.UsageError(fault)
    found = answer(
        catalog,
        _parts(catalog, blend, parts),
        total_g=None if total is None else units.read(total, "g"),
        have_g={m: units.read(text, "g") for m, text in _named_amounts(have, "85g").items()}
        or None,
        plates=plates,
        blend=blend or "",
    )
    _show(found, catalog, as_json)


@main.command(epilog='Example: benchbinder soften beeswax-rosin-4-1 --target "62 °C"')
@click.argument("blend", required=False)
@PARTS
@click.option("--method", help="Test method: drop-point, congealing-point or ring-and-ball.")
@click.option("--target", metavar="TEMPERATURE", help="A softening point to aim at: 62C or 144F.")
@_answers
def soften(
    blend: str | None,
    parts: tuple[str, ...],
    method: str | None,
    target: str | None,
    shop: Path | None,
    as_json: bool,
) -> None:
    """Estimate where a blend softens, with its band, and say which test to make next."""
    from formulas import units
    from formulas.soften import soften as answer

    catalog = _catalog(shop)
    found = answer(
        catalog,
        _parts(catalog, blend, parts),
        method=method,
        target=None if target is None else units.read(target, "degC"),
        blend=blend or "",
    )
    _show(found, catalog, as_json)


def _show(answer: Answer, catalog: Catalog, as_json: bool) -> None:
    from site_builder import terminal

    terminal.show(answer, catalog, as_json)


@main.command(epilog="Example: benchbinder start my-shop")
@click.argument("folder", type=click.Path(path_type=Path))
def start(folder: Path) -> None:
    """Lay down a shop folder: headed tables to fill in, settings, a place for own leaves."""
    from site_builder.start import lay_down

    def run() -> None:
        for name in lay_down(folder):
            click.echo(f"wrote {folder / name}")

    _guarded(run)


@main.command(epilog="Example: benchbinder check --shop my-shop")
@_with_shop
@click.option("--json", "as_json", is_flag=True, help="Answer as JSON, for other programs.")
def check(shop: Path | None, as_json: bool) -> None:
    """Read every table and every leaf, and report all faults at once. Changes nothing."""
    from site_builder import content

    def run() -> None:
        handbook = content.read(_catalog(shop))
        said = f"{len(handbook.leaves)} leaves, {len(handbook.catalog.blends)} blends: no fault."
        click.echo(json.dumps({"answer": {"faults": []}}) if as_json else said)

    if as_json:
        _check_as_json(run)
    else:
        _guarded(run)


def _check_as_json(run: Callable[[], None]) -> None:
    try:
        run()
    except Faults as error:
        faults = [
            {key: getattr(fault, key) for key in ("file", "row", "column", "found", "accepted")}
            for fault in error.faults
        ]
        click.echo(json.dumps({"answer": {"faults": faults}}, indent=2, ensure_ascii=False))
        raise SystemExit(1) from error


@main.command(epilog="Example: benchbinder build --shop my-shop --out my-shop-handbook")
@_with_shop
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("output"),
    show_default=True,
    help="Where the handbook lands.",
)
def build(shop: Path | None, out: Path) -> None:
    """Build the handbook on screen and the binder on paper."""
    from site_builder.publish import publish

    folder = shop_folder(shop)

    def run() -> None:
        click.echo(publish(folder, out))

    _guarded(run)
