"""What the tables say of a solvent, and what is taken where they say nothing of it.

A mixture without a row of its own lies between its parts; a cut of petroleum takes molar mass and
vapour of the one that stands in for it. Neither is ever silent: `how` says it, and the basis is
then `derived`. Flash point and explosive limits are never taken from a stand-in.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from formulas.answer import Band, Unknown
from formulas.best_basis import counted, spanned
from formulas.fault import NotKnown, UnknownName
from formulas.frozen import Frozen
from formulas.units import convert

if TYPE_CHECKING:
    from formulas.air_entries import ExposureLimit, Solvent, SolventFact, SolventHazard
    from formulas.catalog import Catalog

BY_STAND_IN = ("molar-mass", "vapour-pressure")
"""What may come from the solvent that stands in."""
NOT_USED = "not used at this bench"
"""How a row says that it stands there as a part or a stand-in alone."""
FIND_OUT = (
    "ask the supplier for the safety data sheet, sections 9 and 14, and add a row to"
    " solvent_facts.csv"
)

PART = re.compile(r"([a-z0-9-]+):(\d+(?:\.\d+)?)-(\d+(?:\.\d+)?)")


class SolventValue(Frozen):
    """A value of a solvent with its ends; `how` is blank where the rows are its own."""

    low: float
    high: float
    unit: str
    basis: str
    how: str
    rows: tuple[SolventFact, ...]

    def ends(self, unit: str) -> tuple[float, float]:
        """Give both ends in another unit; "dimensionless" for a share."""
        return convert(self.low, self.unit, unit), convert(self.high, self.unit, unit)

    @property
    def band(self) -> Band:
        """The value as an answer carries it; no middle is made up."""
        methods = sorted({row.method for row in self.rows if row.method})
        return Band(self.low, None, self.high, self.unit, self.how or " or ".join(methods))


class SolventPart(Frozen):
    """A part of a mixture, with the ends of its share by volume."""

    id: str
    low: float
    high: float


def solvent(catalog: Catalog, name: str) -> Solvent:
    """Give a solvent by its id. Raises UnknownName with the nearest."""
    if name not in catalog.solvents:
        raise UnknownName("solvent", name, catalog.solvents)
    return catalog.solvents[name]


def bench_solvents(catalog: Catalog) -> list[Solvent]:
    """Give the solvents that are used here, the gentlest first."""
    used = [one for one in catalog.solvents.values() if one.never_for != NOT_USED]
    return sorted(used, key=lambda one: one.gentle)


def parts_of(catalog: Catalog, name: str) -> list[SolventPart]:
    """Give what a mixture is reckoned as; nothing where it is one substance."""
    found = [PART.fullmatch(text) for text in solvent(catalog, name).parts]
    return [SolventPart(one[1], float(one[2]) / 100, float(one[3]) / 100) for one in found if one]


def rows_of(catalog: Catalog, name: str, prop: str) -> list[SolventFact]:
    """Give the solvent's own rows of a property that hold a number."""
    return [
        row
        for row in catalog.solvent_facts
        if row.solvent == name and row.property == prop and row.low is not None
    ]


def union(rows: Sequence[SolventFact], how: str = "") -> SolventValue:
    """Give the range that several rows span, in the unit of the first."""
    return SolventValue(*spanned(rows), rows[0].unit, rows[0].basis, how, tuple(rows))


def known(catalog: Catalog, name: str, prop: str) -> SolventValue:
    """Give what is known of a property: own rows of the best basis, or parts, or the stand-in.

    Raises NotKnown, which tells how to find out.
    """
    one = solvent(catalog, name)
    rows = rows_of(catalog, name, prop)
    if rows:
        return union(counted(rows))
    if one.parts:
        return between(catalog, [known(catalog, part.id, prop) for part in parts_of(catalog, name)])
    if one.stands_in and prop in BY_STAND_IN:
        return stood_in(catalog, known(catalog, one.stands_in, prop), one.stands_in)
    raise NotKnown(f"{one.name}: {prop.replace('-', ' ')}", FIND_OUT)


def known_or_unknown(catalog: Catalog, name: str, prop: str) -> SolventValue | Unknown:
    """Give what is known, or an Unknown that says how to find out."""
    try:
        return known(catalog, name, prop)
    except NotKnown as error:
        return Unknown(error.what, error.find_out)


def between(catalog: Catalog, values: Sequence[SolventValue]) -> SolventValue:
    """Give the range from the lowest to the highest of the parts of a mixture."""
    unit = values[0].unit
    ends = [end for one in values for end in one.ends(unit)]
    rows = tuple(row for one in values for row in one.rows)
    names = " and ".join(dict.fromkeys(catalog.solvents[row.solvent].name.lower() for row in rows))
    return SolventValue(min(ends), max(ends), unit, "derived", f"between {names}, its parts", rows)


def stood_in(catalog: Catalog, value: SolventValue, name: str) -> SolventValue:
    """Give a value with the words that another solvent stands in."""
    how = f"that of {catalog.solvents[name].name}, which stands in"
    return SolventValue(value.low, value.high, value.unit, "derived", how, value.rows)


def limits_of(catalog: Catalog, name: str) -> list[ExposureLimit]:
    """Give the limits for the air of a workplace, of the solvent and of each of its parts.

    A body that has set none has a row that says so; no row at all means that nobody looked.
    """
    solvent(catalog, name)
    names = [name, *(part.id for part in parts_of(catalog, name))]
    return [row for of in names for row in catalog.exposure_limits if row.solvent == of]


def hazards_of(catalog: Catalog, name: str) -> list[SolventHazard]:
    """Give the hazard statements of a solvent; none in the table means not known."""
    solvent(catalog, name)
    return [row for row in catalog.solvent_hazards if row.solvent == name]


def rows_behind(catalog: Catalog, name: str, properties: Sequence[str]) -> Iterator[SolventFact]:
    """Give every row that the known values of some properties rest on."""
    for prop in properties:
        found = known_or_unknown(catalog, name, prop)
        if isinstance(found, SolventValue):
            yield from found.rows
