"""What to do at each reading of the thermometer in the wax, by the ends of the heat windows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formulas.melting.windows import degrees, floor_degrees, limits, over_temperature
from site_builder.markup.elements import table

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

    from formulas.catalog import Catalog

WARM_ON = "Warm on. No peas of rosin, no plate, no casting."
GO_ON = "Holding. In a bath: go on only with water in it, and with peas only at {peas} to {top}."
TOO_HOT = (
    "No more peas. Heater off at the wall, dry lid on. Look from the side whether there is water in"
    " the bath, and call. Go on at {top} or less, with water in it."
)
BATH_DRY = "The bath is dry, or the thermometer wrong. As above, and no water into it: let it cool."
BETWEEN = "On the way to make-up or back, and nothing else: nothing is held or bedded here."
MAKE_UP = "Make-up: short, stirred, and down as soon as a drop on cold glass is clear."
OVER = "Heater off at the wall, lid on, step back, call. No pot goes above {ceiling}."


def thermometer_shows(catalog: Catalog, _: str) -> list[Element]:
    """Tabulate what is done at each reading; the ends are those of the windows."""
    (low, high), (make_up, most) = limits(catalog, "holding"), limits(catalog, "make-up")
    boiling = degrees(catalog, catalog.span("water-bath-ceiling", "degC")[1])
    top, dissolving = degrees(catalog, high), floor_degrees(catalog, make_up)
    said = {
        "top": top,
        "peas": floor_degrees(catalog, catalog.span("peas-in-bath", "degC")[0])[:-3],
        "ceiling": degrees(catalog, over_temperature(catalog)[0].limit),
    }
    rows = [
        (f"below {floor_degrees(catalog, low)}", WARM_ON),
        (f"{floor_degrees(catalog, low)[:-3]} to {top}", GO_ON),
        (f"above {top}, in a water bath", TOO_HOT),
        (f"{boiling} or more, in a water bath", BATH_DRY),
        (f"above {top}, below {dissolving}, in a pot with thermostat", BETWEEN),
        (f"{dissolving[:-3]} to {degrees(catalog, most)}, in a pot with thermostat", MAKE_UP),
        (f"above {degrees(catalog, most)}", OVER),
    ]
    head = ["The thermometer in the wax shows", "Do this"]
    return [table(head, [[shown, words.format(**said)] for shown, words in rows])]
