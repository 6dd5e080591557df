"""What one row of each table is, once read and checked.

A blank cell is None for a number and "" for a text: unknown, never nought.
"""

from __future__ import annotations

import dataclasses
import functools
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

from formulas.frozen import Frozen
from formulas.table import Row

T = TypeVar("T")


class Shop(Frozen):
    """The settings of a shop folder; the defaults where there is none."""

    name: str = "No shop named"
    invented: bool = False
    units: str = "metric"
    currency: str = "EUR"
    pitch_of_a: float = 440.0
    scale_step: float = 0.1
    scale_unit: str = "g"
    paper: str = "a4"
    holes: str = "none"
    usual: str = ""
    instrument: str = "forty-one-key"
    valve_kind: str = ""
    face_to_plate: str = "smooth"
    address: str = ""
    telephone: str = ""
    room_m3: float | None = None
    air_changes: float | None = None
    folder: Path | None = None

    @property
    def scale_g(self) -> float:
        """The smallest step of the scale in grams."""
        return self.scale_step * (28.349523125 if self.scale_unit == "oz" else 1.0)


class Source(Frozen):
    """A work that values are read in or named from."""

    id: str
    title: str
    by: str
    year: str
    kind: str
    read: str
    note: str


class Material(Frozen):
    """A wax, resin, balsam, oil or fat; `role` says how it enters the softening estimate."""

    id: str
    name: str
    also_called: str
    kind: str
    role: str
    cas: str
    about: str


class Fact(Frozen):
    """One value, or range, of one property of one material, as its source prints it."""

    material: str
    property: str
    low: float | None
    high: float | None
    unit: str
    method: str
    condition: str
    basis: str
    source: str
    where: str
    note: str
    file: str = ""
    line: int = 0


class Known(Frozen):
    """What the tables together say of one property: the union of the rows that count."""

    low: float
    high: float
    unit: str
    method: str
    basis: str
    facts: tuple[Fact, ...]

    @property
    def middle(self) -> float:
        """The middle of the range; a convention, not a measurement."""
        return (self.low + self.high) / 2


class Method(Frozen):
    """A way to read a softening or melting temperature, and what the reading tells."""

    id: str
    name: str
    estimated: bool
    fit_for: str
    tells: str
    cannot_tell: str
    standard: str
    repeatability: float | None
    reproducibility: float | None
    unit: str
    basis: str
    source: str
    where: str


class Blend(Frozen):
    """A recipe as parts by mass, named by its ratio; none is recommended."""

    id: str
    name: str
    purpose: str
    service_low: float | None
    service_high: float | None
    service_basis: str
    working_low: float | None
    working_high: float | None
    working_basis: str
    unit: str
    note: str
    basis: str
    source: str
    parts: dict[str, float] = dataclasses.field(default_factory=dict)


class Figure(Frozen):
    """A figure of the bench that belongs to no single material."""

    id: str
    what: str
    low: float
    high: float
    typical: float | None
    unit: str
    basis: str
    source: str
    where: str
    note: str


class PairEffect(Frozen):
    """What is held, before any test, of a pair's bend in the softening estimate."""

    first: str
    second: str
    mean: float
    half_width: float
    unit: str
    basis: str
    source: str
    note: str


class Caution(Frozen):
    """A danger, what to do about it, and the commands and leaves it belongs to."""

    id: str
    hazard: str
    title: str
    text: str
    codes: tuple[str, ...]
    applies_to: tuple[str, ...]
    basis: str
    source: str
    where: str


class Price(Frozen):
    """What a shop paid for an amount of something, and when."""

    item: str
    price: float
    amount: float
    unit: str
    date: str
    basis: str
    note: str


class Lot(Frozen):
    """A lot of raw material on the shelf."""

    lot: str
    material: str
    bought: str
    amount: float
    unit: str
    basis: str
    note: str


class Burn(Frozen):
    """How long skin may touch a hot liquid before a serious burn."""

    temperature: float
    time: float
    unit_temperature: str
    unit_time: str
    basis: str
    source: str
    where: str
    note: str


class FaultAndCure(Frozen):
    """A fault of a joint, or a mistake at the bench: how to tell it, its cause and its cure.

    With `ask` a learner stops and asks before anything else.
    """

    id: str
    group: str
    symptom: str
    how_to_tell: str
    cause: str
    cure: str
    undo: str
    basis: str
    ask: bool = False


def entry(kind: type[T], row: Row, **more: Any) -> T:
    """Make an entry from a row: blank texts become "", lists are split at spaces."""
    cells = row.cells
    values = {
        name: cells[name] if read is None else read(cells[name])
        for name, read in _readers(kind)  # type: ignore[arg-type]
        if name in cells
    }
    if "line" in kind.__annotations__:
        values |= {"file": row.file, "line": row.line}
    return kind(**{**values, **more})


READERS: dict[str, Callable[[Any], Any]] = {
    "str": lambda value: "" if value is None else str(value),
    "tuple[str, ...]": lambda value: tuple((value or "").split()),
    "bool": lambda value: value in {True, "yes"},
}


@functools.cache
def _readers(kind: type[Any]) -> tuple[tuple[str, Callable[[Any], Any] | None], ...]:
    """Give each field of an entry, with what makes its value of a cell; None: it is the cell."""
    fields = dataclasses.fields(kind)
    return tuple((field.name, READERS.get(str(field.type))) for field in fields)
