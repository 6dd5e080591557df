"""The register of what stands on the shelf that can harm: its hazards, and what to look after.

How old a data sheet is depends on the day it is asked on, so that day is always given.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from formulas.fault import NotKnown, UnknownName

if TYPE_CHECKING:
    from formulas.air_entries import Chemical
    from formulas.catalog import Catalog

SHEET, TABLE = "data sheet", "table"
"""Where the hazard statements of a chemical come from: its own row, or the tables of the trade."""
NOT_KNOWN = "copy the label of the bottle it came from, and ask the supplier for the data sheet."

ANY_SOLVENT = "any solvent"
RAG = "rag"  # a side that tells of rags tells of no jar
SIDES = re.compile(r"[,;:()]| or | and ")
WORDS = re.compile(r"[^\W_]+")


def chemical(catalog: Catalog, name: str) -> Chemical:
    """Give a chemical of the shelf by its name. Raises UnknownName with the nearest one."""
    if name not in catalog.chemicals:
        raise UnknownName("chemical", name, catalog.chemicals)
    return catalog.chemicals[name]


def codes_of(catalog: Catalog, one: Chemical) -> tuple[tuple[str, ...], str]:
    """Give the hazard statements of a chemical, and where they come from.

    Those of its own data sheet count before the tables'. Raises NotKnown where neither tells of
    it: that is never the same as none.
    """
    if one.hazard_codes:
        return one.hazard_codes, SHEET
    return codes_in_tables(catalog, one.solvent, one.chemical), TABLE


def codes_in_tables(catalog: Catalog, name: str, called: str) -> tuple[str, ...]:
    """Give the statements that the tables hold for a solvent or a material, as it stands alone.

    Raises NotKnown where they hold none.
    """
    found = [row.code for row in catalog.solvent_hazards if row.solvent == name]
    found += [row.code for row in catalog.hazards if row.material == name]
    if not name or not found:
        raise NotKnown(f"the hazards of {called}", NOT_KNOWN)
    return tuple(dict.fromkeys(found))


def register_notices(catalog: Catalog, on: str) -> list[str]:
    """Give what a check should say of the shelf on a day, though no cell is at fault."""
    said = [
        f"chemicals.csv: {one.chemical}: {words}"
        for one in catalog.chemicals.values()
        for words in (*_sheet(catalog, one, on), *_past(one, on))
    ]
    return [*said, *_not_together(catalog)]


def _sheet(catalog: Catalog, one: Chemical, on: str) -> Iterator[str]:
    if not one.sheet_held:
        yield "no data sheet is held. Ask your supplier for it before the next use."
    elif one.sheet_date and older_than(one.sheet_date, most_years(catalog), on):
        yield (
            f"its data sheet of {one.sheet_date} is older than {most_years(catalog)} years. Ask"
            " your supplier for the current one."
        )


def _past(one: Chemical, on: str) -> Iterator[str]:
    if one.use_by and one.use_by < on:
        yield (
            f"its last day was {one.use_by}. Do not use it; ask the waste authority how to hand"
            " it in."
        )


def most_years(catalog: Catalog) -> int:
    """Give after how many years a data sheet is asked for again."""
    return int(catalog.figure("data-sheet-age").low)


def older_than(day: str, years: int, on: str) -> bool:
    """Whether a day lies more than so many years before another.

    >>> older_than("2023-03-01", 3, "2026-03-01"), older_than("2023-03-01", 3, "2026-03-02")
    (False, True)
    """
    return f"{int(day[:4]) + years:04d}{day[4:]}" < on


def _not_together(catalog: Catalog) -> Iterator[str]:
    """Tell of two in one place that a row of incompatible.csv keeps apart."""
    for one, other in itertools.combinations(catalog.chemicals.values(), 2):
        if one.place.strip().casefold() != other.place.strip().casefold():
            continue
        for row in catalog.incompatible:
            if _meets(catalog, (one, other), (row.first, row.second)):
                yield (
                    f"chemicals.csv: {one.chemical} and {other.chemical} stand both in"
                    f" '{one.place}'. {row.what_happens} {row.keep_apart}"
                )
                break


def _meets(catalog: Catalog, pair: Sequence[Chemical], sides: Sequence[str]) -> bool:
    return any(
        all(named_by(catalog, one, side) for one, side in zip(order, sides, strict=True))
        for order in (pair, pair[::-1])
    )


def named_by(catalog: Catalog, one: Chemical, side: str) -> bool:
    """Whether one side of a pair of incompatible.csv names a chemical.

    A side is words: each of its names counts where it stands whole among the chemical's own
    names, those of its row in solvents.csv or materials.csv, or is its kind of liquid. A side
    that is a thing, such as a hot plate or a rag, names no chemical: nothing is told of its pair.
    """
    names = [one.chemical, one.solvent]
    if one.solvent in catalog.solvents:
        solvent = catalog.solvents[one.solvent]
        names += [solvent.name, *solvent.also_called.split(";")]
        if side.casefold() in {ANY_SOLVENT, solvent.kind}:
            return True
    if one.solvent in catalog.materials:
        names.append(catalog.materials[one.solvent].name)
    if RAG in _words(side):
        return False
    held = [f" {' '.join(_words(name))} " for name in names]
    wanted = [_words(part) for part in SIDES.split(side.casefold())]
    return any(words and f" {' '.join(words)} " in name for words in wanted for name in held)


def _words(text: str) -> list[str]:
    return WORDS.findall(text.casefold())
