"""What the commands share: the shop folder, --json, materials with amounts, errors as messages.

Exit code 0: done; 1: the data have faults; 2: the call is wrong. What a command needs is
imported when it runs: a build with nothing to do starts in a blink.
"""

from __future__ import annotations

import functools
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from formulas.fault import Faults, FormulasError
from site_builder.places import DEMO_SHOP

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

F = TypeVar("F", bound=Callable[..., Any])


def answers(function: F) -> F:
    """Give a command its two common options, and turn our errors into messages and exit codes."""

    @click.option("--json", "as_json", is_flag=True, help="Answer as JSON, for other programs.")
    @with_shop
    @functools.wraps(function)
    def command(*args: Any, **kwargs: Any) -> None:
        guarded(function, *args, **kwargs)

    return command  # type: ignore[return-value]


def with_shop(function: F) -> F:
    """Give a command the option that names the shop folder."""
    return click.option(
        "--shop",
        type=click.Path(exists=True, file_okay=False, path_type=Path),
        help="The shop folder; see `benchbinder start`.",
    )(function)


def guarded(function: Callable[..., Any], *args: Any, **kwargs: Any) -> None:
    """Run a command's body; say what went wrong and leave with the exit code that fits."""
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


def loaded(shop: Path | None) -> Catalog:
    """Read the trade's tables and the shop's."""
    from formulas.catalog import load

    return load(shop_folder(shop))


def named_amounts(given: tuple[str, ...], what: str) -> dict[str, str]:
    """Read "gum-rosin=85g" arguments. Raises UsageError for one without a sign of equality."""
    amounts = {}
    for text in given:
        name, equals, amount = text.partition("=")
        if not equals or name in amounts:
            fault = f"found '{text}', accepted: a material once, as gum-rosin={what}"
            raise click.UsageError(fault)
        amounts[name.strip()] = amount.strip()
    return amounts


def parts_of(catalog: Catalog, blend: str | None, given: tuple[str, ...]) -> dict[str, float]:
    """Give the parts of a named blend, or those given one by one."""
    if (blend is None) == (not given):
        fault = "name one blend, or give --parts for each of its components"
        raise click.UsageError(fault)
    if blend:
        return dict(catalog.blend(blend).parts)
    from formulas import units

    return {name: units.number(text) for name, text in named_amounts(given, "1").items()}


PARTS = click.option(
    "--parts", multiple=True, metavar="MATERIAL=PARTS", help="A ratio of your own, by mass."
)


def show(answer: Answer, catalog: Catalog, as_json: bool) -> None:
    """Show an answer as text or as JSON, with its cautions on standard error."""
    from site_builder import terminal

    terminal.show(answer, catalog, as_json)
