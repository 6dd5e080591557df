"""Read what is typed for the quick needs list: a layout or ranks, seating, what is kept."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, TypeVar

import click

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog

F = TypeVar("F", bound=Callable[..., Any])

OPTIONS = (
    click.option("--layout", default="", metavar="LAYOUT", help="A layout of layouts.csv."),
    click.option(
        "--rank",
        multiple=True,
        metavar="NOTE=COUNT",
        help="No layout: a rank by its lowest note and its plates, F2=41; up to nine.",
    ),
    click.option("--seating", default="", metavar="SEATING", help="An id of seating_methods.csv."),
    click.option("--tongues", type=click.IntRange(1, 2), help="Tongues on each plate."),
    click.option(
        "--keep",
        multiple=True,
        type=click.Choice(["valves"]),
        help="What the owner keeps; of a layout only the valves.",
    ),
    click.option("--session", default="", metavar="TIME", help="Time at the bench on a day: 3h."),
)
"""The options of the quick needs list, for the command that takes them."""
NAMES = ("layout", "rank", "seating", "tongues", "keep", "session")


def quick_options(function: F) -> F:
    """Give a command the options of the quick needs list."""
    for option in reversed(OPTIONS):
        function = option(function)
    return function


def answered(catalog: Catalog, asked: Mapping[str, Any]) -> Answer:
    """Answer for what was typed. Raises UsageError for a rank that cannot be read."""
    from formulas import units
    from formulas.jobs.quick import SESSION_S, quick

    return quick(
        catalog,
        layout=asked["layout"] or "",
        ranks=[rank(text) for text in asked["rank"]],
        seating=asked["seating"] or "",
        tongues=asked["tongues"] or 0,
        keep=asked["keep"],
        session_s=units.read(asked["session"], "s") if asked["session"] else SESSION_S,
    )


def rank(text: str) -> tuple[str, int]:
    """Read "F2=41": the lowest note and how many plates. Raises UsageError."""
    note, equals, count = text.partition("=")
    if not equals or not note.strip() or not count.strip().isdecimal():
        fault = f"found '{text}', accepted: lowest note and plates of a rank, such as F2=41"
        raise click.UsageError(fault)
    return note.strip(), int(count)


def asked_for(typed: Mapping[str, Any]) -> Sequence[str]:
    """Name the options of the quick needs list that were typed, "layout" and "rank" first."""
    return [name for name in NAMES if typed.get(name)]
