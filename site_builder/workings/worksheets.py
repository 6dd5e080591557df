"""The live workings: what each asks for, its formulas, its worked example and its command line."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from formulas.mix import PLATES, TOTALS_G, mix
from formulas.soften import TARGETS, soften
from formulas.units import fahrenheit, spoken_unit
from site_builder.workings.page_data import METHOD_BY_RULE, page_data
from site_builder.workings.paper_form import paper_form
from site_builder.workings.screen_form import screen_form

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog
    from formulas.entries import Blend

__all__ = ["WORKSHEETS", "Field", "Worksheet", "page_data", "paper_form", "screen_form"]

EXAMPLE = "beeswax-rosin-4-1"


@dataclass(frozen=True)
class Field:
    """One thing a working asks for.

    `kind` is number, choice or parts. A number lies above `above`, from `low` to `high`; `whole`
    where only whole numbers count; `blank` where it may be left out. A field with a `way` is
    asked for only in that way of working.
    """

    name: str
    label: str
    unit: str = ""
    kind: str = "number"
    default: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    above: float | None = None
    low: float | None = None
    high: float | None = None
    whole: bool = False
    blank: bool = False
    way: str = ""

    @property
    def accepted(self) -> str:
        """Say what the field takes."""
        kind = "a whole number" if self.whole else "a number such as 12.5 or 12,5"
        above = f" above {self.above:g}" if self.above is not None else ""
        low = f" from {self.low:g}" if self.low is not None else ""
        high = f" up to {self.high:g}" if self.high is not None else ""
        limits = f",{above}{low}{high}" if above or low or high else ""
        return f"{kind}{limits}{f' {self.unit}' if self.unit else ''}"


@dataclass(frozen=True)
class Worksheet:
    """One working: live on a screen, a form for the pencil on paper."""

    id: str
    title: str
    command: str
    fields: Callable[[Catalog], list[Field]]
    formulas: tuple[str, ...]
    example: Callable[[Catalog], Answer]

    def cautioned(self, catalog: Catalog) -> list[tuple[str, str]]:
        """Give title and text of each caution of the command."""
        return [(one.title, one.text) for one in catalog.cautions_for(self.id)]


def example_blend(catalog: Catalog) -> Blend:
    """Give the blend that the examples take: by its name it recommends nothing."""
    return catalog.blends.get(EXAMPLE) or next(iter(catalog.blends.values()))


def _blend_fields(catalog: Catalog) -> list[Field]:
    blends = tuple((name, blend.name) for name, blend in catalog.blends.items())
    materials = tuple((name, material.name) for name, material in catalog.materials.items())
    own = (("", "a ratio of your own, typed below"),)
    start = (("", "choose one"),)
    return [
        Field(
            "blend", "Blend", kind="choice", choices=own + blends, default=example_blend(catalog).id
        ),
        Field("parts", "Parts by mass", kind="parts", low=0, high=TOTALS_G[1], blank=True),
        Field("add", "Add a material", kind="choice", choices=start + materials),
    ]


def _mix_fields(catalog: Catalog) -> list[Field]:
    shop = catalog.shop
    unit = spoken_unit(shop.scale_unit)
    most = float(f"{TOTALS_G[1] * shop.scale_step / shop.scale_g:.6g}")
    ways = (
        ("total", "to a total mass"),
        ("have", "as far as one material goes"),
        ("plates", "for a number of plates"),
    )
    return [
        *_blend_fields(catalog),
        Field("way", "How much", kind="choice", choices=ways, default="total"),
        Field(
            "total",
            "Total mass",
            unit,
            default=example_total(catalog),
            above=0,
            high=most,
            way="total",
        ),
        Field("of", "Material that is short", kind="choice", way="have"),
        Field("held", "Mass at hand", unit, default="", above=0, high=most, way="have"),
        Field("plates", "Plates", default="", low=1, high=PLATES[1], whole=True, way="plates"),
        Field(
            "step", "Step of the scale", unit, default=f"{shop.scale_step:g}", above=0, high=most
        ),
    ]


def example_total(catalog: Catalog) -> str:
    """Give the total of the worked example, in the unit of the shop's scale."""
    return "400" if catalog.shop.scale_unit == "g" else "14"


def _soften_fields(catalog: Catalog) -> list[Field]:
    methods = tuple(
        (name, method.name) for name, method in catalog.methods.items() if method.estimated
    )
    rule = (("", METHOD_BY_RULE),)
    low, high = TARGETS
    unit = "°C"
    if catalog.shop.units == "US":
        low, high, unit = fahrenheit(low), fahrenheit(high), "°F"
    return [
        *_blend_fields(catalog),
        Field("method", "Test method", kind="choice", choices=rule + methods),
        Field("target", "Target, if you have one", unit, low=low, high=high, blank=True),
    ]


def _mix_example(catalog: Catalog) -> Answer:
    from formulas.units import read

    blend = example_blend(catalog)
    total = read(f"{example_total(catalog)} {catalog.shop.scale_unit}", "g")
    return mix(catalog, blend.parts, total_g=total, blend=blend.id)


def _soften_example(catalog: Catalog) -> Answer:
    blend = example_blend(catalog)
    return soften(catalog, blend.parts, blend=blend.id)


WORKSHEETS = {
    "mix": Worksheet(
        "mix",
        "Mix a batch",
        f"benchbinder mix {EXAMPLE} --total 400g",
        _mix_fields,
        ("share_by_mass", "component_mass", "limited_total", "total_for_plates"),
        _mix_example,
    ),
    "soften": Worksheet(
        "soften",
        "Estimate softening",
        f"benchbinder soften {EXAMPLE}",
        _soften_fields,
        ("softening_point", "band_half_width"),
        _soften_example,
    ),
}
