"""What one working is: what it asks for, what it answers, its formulas, its form for the pencil."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.frozen import Frozen

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog
    from formulas.entries import Blend

EXAMPLE = "beeswax-rosin-4-1"
BEFORE_HEAT = "Before any heat, tick each; the boxes of sections S and W say what to do about it."
BEFORE_KNIFE = (
    "Before knife, dust or glue, tick each; the boxes of section V say what to do about it."
)
NO_LIMIT = "An estimate is not a safe limit: under load the same wax creeps well below it."


class Field(Frozen):
    """One thing a working asks for.

    `kind` is number, choice or parts. A number lies above `above`, from `low` to `high`; `whole`
    where only whole numbers count; `blank` where it may be left out. A field with a `way` is
    asked for only in that way of working. Parts are a table of materials, one number each, with
    a choice below it that adds a material; `each` words what the number is, and a default is
    written "beeswax-yellow*300 gum-rosin*50". A choice that
    `fills` a table sets its rows to those of the blend chosen; one that is `of` a table offers
    the table's materials. Fields with one `group` stand together under that heading. A table
    that `offers` blends takes them beside materials; `left_out` says what nought or a blank
    means in it, where that is something of its own. A field with `draw` is a table of several,
    drawn for the id of its working.
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
    each: str = ""
    fills: str = ""
    of: str = ""
    group: str = "Question"
    offers: str = ""
    left_out: str = ""
    draw: Callable[[str], Element] | None = None

    @property
    def accepted(self) -> str:
        """Say what the field takes."""
        kind = "a whole number" if self.whole else "a number such as 12.5 or 12,5"
        above = f" above {self.above:g}" if self.above is not None else ""
        low = f" from {self.low:g}" if self.low is not None else ""
        high = f" up to {self.high:g}" if self.high is not None else ""
        limits = f",{above}{low}{high}" if above or low or high else ""
        return f"{kind}{limits}{f' {self.unit}' if self.unit else ''}"


def no_data(_: Catalog) -> dict[str, Any]:
    """Give nothing beside what every working's script knows of the tables."""
    return {}


def no_tables(_: Catalog) -> list[Element]:
    """Give no table: the answer is words alone."""
    return []


class Worksheet(Frozen):
    """One working: live on a screen, a form for the pencil on paper.

    `rows` are the places of the screen's answer, each with its label; `tables` draws the empty
    tables of that answer; `data` is what its script alone needs to know, found there as
    `data.<id>`. `worked` draws the worked example and the table to fill in on paper, `lines` are
    the lines to write on below it. `rule` says in words what no formula says, as how one of
    several is chosen. `limit` says what the answer is not, `before` what stands over the cautions
    on paper. A working that is not named as its command says in `asks` whose
    cautions it shows.
    """

    id: str
    title: str
    command: str
    fields: Callable[[Catalog], list[Field]]
    formulas: tuple[str, ...]
    example: Callable[[Catalog], Answer]
    rows: tuple[tuple[str, str], ...]
    worked: Callable[[Answer, Catalog], Iterable[Element]]
    lines: tuple[str, ...]
    tables: Callable[[Catalog], list[Element]] = no_tables
    data: Callable[[Catalog], dict[str, Any]] = no_data
    limit: str = NO_LIMIT
    before: str = BEFORE_HEAT
    asks: str = ""
    rule: str = ""

    @property
    def warned_as(self) -> str:
        """Name the command whose cautions it shows."""
        return self.asks or self.id

    def cautioned(self, catalog: Catalog) -> list[tuple[str, str]]:
        """Give title and text of each caution of the command."""
        return [(one.title, one.text) for one in catalog.cautions_for(self.warned_as)]


def example_blend(catalog: Catalog) -> Blend:
    """Give the blend that the examples take: by its name it recommends nothing."""
    return catalog.blends.get(EXAMPLE) or next(iter(catalog.blends.values()))


def blend_fields(catalog: Catalog, most: float) -> list[Field]:
    """Give the fields of one blend: its name, and its parts by mass up to `most`."""
    blends = tuple((name, blend.name) for name, blend in catalog.blends.items())
    return [
        Field(
            "blend",
            "Blend",
            kind="choice",
            choices=(("", "a ratio of your own, typed below"), *blends),
            default=example_blend(catalog).id,
            fills="parts",
            group="Blend",
        ),
        Field(
            "parts",
            "Parts by mass",
            kind="parts",
            each="parts by mass",
            low=0,
            high=most,
            blank=True,
            group="Blend",
        ),
    ]
