"""Random arguments for formulas and procedures, by unit, by annotation or by name."""

from __future__ import annotations

import functools
import random
import typing
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Annotated, Any

from air_arguments import AIR_NAMED
from job_arguments import JOB_NAMED
from seat_arguments import SEAT_NAMED
from valve_arguments import VALVE_NAMED

from formulas.formula import Procedure

# Within these every formula of the trade has a value; degC also below nought.
RANGES = {
    "1": (0.01, 0.99),
    "degC": (-20, 150),
    "kg": (0.001, 20),
    "kg/m**3": (700, 1200),
    "money": (0.5, 200),
    "K": (0.1, 50),
}
OTHERS = (0.1, 9.0)


@dataclass
class Shape:
    """The lengths that the lists of one call agree on; `bodies` of a blend are not softeners."""

    chance: random.Random
    length: int
    bodies: int

    @property
    def terms(self) -> int:
        """Count the terms of a blend's polynomial: bodies, their pairs twice, the softener."""
        return self.bodies + self.bodies * (self.bodies - 1) + 1

    def numbers(self, count: int, low: float, high: float) -> list[float]:
        """Draw a list of numbers."""
        return [self.chance.uniform(low, high) for _ in range(count)]

    def shares(self) -> list[float]:
        """Draw shares that add up to 1, now and then all in one component."""
        parts = self.numbers(self.length, 0.01, 1)
        if self.chance.random() < 0.05:
            parts = [1.0] + [0.0] * (self.length - 1)
        return [part / sum(parts) for part in parts]

    def none(self) -> list[float]:
        """Give a list of noughts."""
        return [0.0] * self.length

    def often_none(self, low: float, high: float) -> list[float]:
        """Draw a list of numbers, a third of them nought."""
        return [
            0.0 if self.chance.random() < 1 / 3 else self.chance.uniform(low, high)
            for _ in range(self.length)
        ]

    def words(self) -> list[str]:
        """Draw a list of words, as materials are named."""
        return [
            self.chance.choice(["Gum rosin", "Beeswax, yellow", "rosin, 2 to 1", "é <b>"])
            for _ in range(self.length)
        ]

    def covariance(self) -> list[list[float]]:
        """Draw what can be a covariance of the terms and the rig: own parts and a common one."""
        common = self.numbers(self.terms + 1, -3, 3)
        rows = [[a * b for b in common] for a in common]
        for place, own in enumerate(self.numbers(self.terms + 1, 0.5, 9)):
            rows[place][place] += own
        return rows

    def covariance_matrix(self) -> list[list[float]]:
        """Draw a matrix that can be a covariance, well away from one that cannot."""
        common = self.numbers(self.length, -1, 1)
        rows = [[a * b for b in common] for a in common]
        for place, own in enumerate(self.numbers(self.length, 0.5, 2)):
            rows[place][place] += own
        return rows

    def reed_line(self) -> list[float]:
        """Draw size, exponent, reference, gap and spread of a generic line of reeds."""
        ends = ((0.002, 0.03), (-0.6, -0.2), (400, 480), (1e-5, 1e-4), (0.05, 0.3))
        return [self.chance.uniform(low, high) for low, high in ends]

    def reed_spreads(self) -> list[float]:
        """Draw the spreads of scale, slope, plate, slot, reach, reading, and what is odd."""
        ends = ((0.02, 0.1), (0, 0.05), (0.005, 0.02), (0.002, 0.02), (5, 40), (1e-5, 2e-4), (2, 4))
        return [self.chance.uniform(low, high) for low, high in ends]


NAMED: dict[str, Callable[[Shape], Any]] = {
    **VALVE_NAMED,
    **SEAT_NAMED,
    **JOB_NAMED,
    **AIR_NAMED,
    "typed_answer": lambda shape: shape.chance.uniform(9, 11),
    "key_answer": lambda shape: shape.chance.uniform(9, 11),
    "key_tolerance": lambda shape: shape.chance.uniform(0, 1),
    "key_side": lambda shape: shape.chance.choice(["both", "below", "above"]),
    "shares": Shape.shares,
    "bodies": lambda shape: shape.bodies,
    "of": lambda shape: shape.chance.randrange(shape.length),
    "chosen": lambda shape: [shape.chance.randint(0, 1) for _ in range(shape.length)],
    "counts": lambda shape: [shape.chance.randint(1, 500) for _ in range(shape.length)],
    "steps": lambda shape: shape.chance.randint(1, 500),
    "step": lambda shape: shape.chance.choice([0.01, 0.05, 0.1, 0.5, 1.0, 5.0]),
    "densities": lambda shape: shape.numbers(shape.length, 700, 1200),
    "ends": lambda shape: shape.numbers(shape.bodies, 40, 80),
    "bends": lambda shape: [shape.numbers(shape.bodies, -30, 30) for _ in range(shape.bodies)],
    "skews": lambda shape: [shape.numbers(shape.bodies, -30, 30) for _ in range(shape.bodies)],
    "covariance": Shape.covariance,
    "band": lambda shape: sorted(shape.numbers(3, 30, 90)),
    "floor": lambda shape: shape.chance.uniform(30, 90),
    "first": lambda shape: shape.numbers(shape.terms, 0, 1),
    "second": lambda shape: shape.numbers(shape.terms, 0, 1),
    "others": Shape.shares,
    "shared": lambda shape: shape.numbers(shape.terms + 1, -0.1, 0.1),
    "own": lambda shape: shape.chance.uniform(5, 20),
    "lot": lambda shape: shape.chance.uniform(0, 4),
    "noise": lambda shape: shape.chance.uniform(1, 12),
    "width": lambda shape: shape.chance.uniform(1, 20),
    "z": lambda shape: shape.chance.uniform(-9, 9),
    "wanted": lambda shape: shape.numbers(shape.terms, 0, 1),
    "tested": lambda shape: shape.numbers(shape.terms, 0, 1),
    "target": lambda shape: shape.chance.uniform(40, 80),
    "slope": lambda shape: shape.chance.uniform(-200, 0),
    "resins": lambda shape: [shape.chance.randint(0, 1) for _ in range(shape.length)],
    "method": lambda shape: shape.chance.choice(["drop-point", "ring-and-ball", "step-creep"]),
    "limit": lambda shape: shape.chance.uniform(0.05, 1),
    "low": lambda shape: shape.chance.uniform(0, 0.4),
    "high": lambda shape: shape.chance.uniform(0.5, 0.95),
    "filled": lambda shape: shape.chance.uniform(0.3, 0.9),
    "strained": lambda shape: shape.chance.uniform(0, 0.3),
    "potted": lambda shape: shape.chance.uniform(0, 0.3),
    "share": lambda shape: shape.chance.random(),
    "resin": lambda shape: shape.chance.random(),
    # of additions to a pot, and of the tableau that solves for them
    "pot": lambda shape: shape.often_none(1, 40) if shape.chance.random() < 0.7 else shape.none(),
    "blends": lambda shape: [shape.shares() for _ in range(shape.length)],
    "stocks": lambda shape: shape.often_none(1, 40),
    "parts": lambda shape: shape.often_none(0.5, 9),
    "asked": lambda shape: shape.chance.choice([0, shape.chance.uniform(1, 90)]),
    "most": lambda shape: shape.chance.uniform(100, 1000),
    "rows": lambda shape: [shape.often_none(-1, 1) for _ in range(shape.length)],
    "costs": lambda shape: [shape.often_none(-1, 1) for _ in range(shape.length)],
    "table": lambda shape: [shape.numbers(shape.length + 1, -1, 1) for _ in range(shape.length)],
    "line": lambda shape: shape.numbers(shape.length + 1, -1, 1),
    "height": lambda shape: shape.chance.random(),
    "row": lambda shape: shape.chance.randrange(shape.length),
    "column": lambda shape: shape.chance.randrange(shape.length),
    "taken": lambda shape: sorted(shape.chance.sample(range(shape.length), 2)),
    "place": lambda shape: shape.chance.randint(1, 2),
    "size": lambda shape: shape.chance.randint(20, 24),
    "columns": lambda shape: shape.chance.randint(0, 12),
    # of reed plates: notes, the generic line, its spreads, what was read
    "midis": lambda shape: shape.numbers(shape.length, 24, 108),
    "plate_midis": lambda shape: [
        float(shape.chance.randint(24, 108)) for _ in range(shape.length)
    ],
    "slot_sizes": lambda shape: shape.numbers(shape.length, 0.002, 0.09),
    "frequencies": lambda shape: shape.numbers(shape.length, 30, 4000),
    "pitch_of_a": lambda shape: shape.chance.uniform(415, 466),
    "reference": lambda shape: shape.chance.uniform(400, 480),
    "reed_line": Shape.reed_line,
    "reed_spreads": Shape.reed_spreads,
    "plate_variances": lambda shape: shape.numbers(shape.length, 1e-5, 1e-2),
    "covariance_matrix": Shape.covariance_matrix,
    "triangle": Shape.covariance_matrix,
    "right_side": lambda shape: shape.numbers(shape.length, -1, 1),
    "note_names": lambda shape: (shape.words() * 12)[:12],
    "names": lambda shape: shape.words(),
    "labels": lambda shape: shape.words(),
    "texts": lambda shape: shape.words(),
    "name": lambda shape: shape.words()[0],
    "text": lambda shape: shape.words()[0],
    "anchor": lambda shape: shape.chance.choice(["start", "middle", "end"]),
    "mark": lambda shape: shape.chance.choice(["; ", " + "]),
    "unit": lambda shape: shape.chance.choice(["g", "oz"]),
}


@functools.cache
def _hints(procedure: Procedure[..., Any]) -> dict[str, Any]:
    return typing.get_type_hints(procedure.function, include_extras=True)


def draw(procedure: Procedure[..., Any], chance: random.Random) -> dict[str, Any]:
    """Draw a value for each argument; the lists of one call agree in length."""
    hints = _hints(procedure)
    length = chance.randint(2, 6)
    shape = Shape(chance, length, chance.randint(1, length))
    names = [name for name in hints if name != "return"]
    if "covariance" in names and "shares" not in names:
        shape.length = shape.terms
    return {name: _value(name, hints[name], shape) for name in names}


def _value(name: str, hint: Any, shape: Shape) -> Any:
    if typing.get_origin(hint) is Annotated:
        return _of_type(hint.__origin__, hint.__metadata__[0].unit, shape)
    return NAMED[name](shape) if name in NAMED else _of_type(hint, "", shape)


def _of_type(hint: Any, unit: str, shape: Shape) -> Any:
    if typing.get_origin(hint) in (list, Sequence):
        (item,) = typing.get_args(hint)
        return [_of_type(item, unit, shape) for _ in range(shape.length)]
    if hint is bool:
        return shape.chance.random() < 0.5
    if hint is int:
        return shape.chance.randint(0, 6)
    assert hint is float, hint
    return shape.chance.uniform(*RANGES.get(unit, OTHERS))
