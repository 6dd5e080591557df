"""The line drawings by name, and the part that places one."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import element
from site_builder.parts import (
    air_drawings,
    bedding_drawings,
    cutting_drawings,
    fillet_drawings,
    fitting_drawings,
    handling_drawings,
    learning_drawings,
    learning_wax_drawings,
    plate_drawings,
    safety_drawings,
    seating_drawings,
    solvent_drawings,
    stock_drawings,
    survey_drawings,
    testing_drawings,
    valve_drawings,
)
from site_builder.parts.bench_parts import known_id

if TYPE_CHECKING:
    from formulas.catalog import Catalog

DRAWN_IN = (
    air_drawings,
    bedding_drawings,
    cutting_drawings,
    fillet_drawings,
    fitting_drawings,
    handling_drawings,
    learning_drawings,
    learning_wax_drawings,
    plate_drawings,
    safety_drawings,
    seating_drawings,
    solvent_drawings,
    stock_drawings,
    survey_drawings,
    testing_drawings,
    valve_drawings,
)
"""The modules that draw; each names what it draws in its own DRAWINGS."""


def drawings() -> dict[str, Callable[[Catalog], Element]]:
    """Give every drawing by its name."""
    return {name: draw for module in DRAWN_IN for name, draw in module.DRAWINGS.items()}


def drawing(catalog: Catalog, argument: str) -> list[Element]:
    """Place one line drawing; its title is its caption, its description stands in for it."""
    found = drawings()
    svg = found[known_id(argument, found, "the name of a drawing")](catalog)
    title = svg.findtext("title") or argument
    return [element("figure", svg, element("figcaption", title), alt=svg.findtext("desc") or title)]
