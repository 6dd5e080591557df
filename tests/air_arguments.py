"""Random arguments of the procedures of a room's air: lists in the order that each asks for."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from arguments import Shape

LEVELS = 6


def _between(shape: Shape, *ends: tuple[float, float]) -> list[float]:
    return [shape.chance.uniform(low, high) for low, high in ends]


def _pair(shape: Shape, low: float, high: float) -> list[float]:
    return sorted(_between(shape, (low, high), (low, high)))


def vapour(shape: Shape) -> list[float]:
    """Draw mass, molar mass, pressure and explosive limit; now and then one is not known."""
    one = [
        *_pair(shape, 0.001, 0.5),
        *_pair(shape, 0.03, 0.15),
        *_pair(shape, 100, 40000),
        *_pair(shape, 0.006, 0.06),
    ]
    if shape.chance.random() < 0.15:
        one[4] = 0.0
        one[5] = shape.chance.choice([0.0, one[5]])
    if shape.chance.random() < 0.15:
        one[6] = one[7] = 0.0
    return one


def room(shape: Shape) -> list[float]:
    """Draw volume, air changes, heat and pressure of a room."""
    return [
        shape.chance.uniform(5, 500),
        *_pair(shape, 3e-5, 8e-3),
        shape.chance.uniform(278, 313),
        *_pair(shape, 95000, 105000),
    ]


def task(shape: Shape) -> list[float]:
    """Draw how long a task takes, from start to start, how many."""
    seconds = shape.chance.uniform(300, 3000)
    return [seconds, seconds * shape.chance.uniform(1, 1.6), shape.chance.randint(1, 3)]


def law(shape: Shape) -> list[float]:
    """Draw a curve of vapour pressure, its own or lent, and a row at one heat."""
    curve = _between(shape, (9, 10.5), (1200, 1700), (-60, -30), (250, 295), (300, 400))
    heat = shape.chance.choice([0.0, 293.15, shape.chance.uniform(270, 320)])
    ends = _pair(shape, 100, 30000) if heat else [0.0, 0.0]
    return [float(shape.chance.random() < 0.5), *curve, heat, *ends]


def liquid_part(shape: Shape) -> list[float]:
    """Draw share, density, molar mass and explosive limit of a part."""
    pairs = ((0.1, 1), (650, 900), (0.03, 0.15), (0.006, 0.06))
    return [end for low, high in pairs for end in _pair(shape, low, high)]


def terms(shape: Shape) -> list[list[float]]:
    """Draw the terms of a limit: place of a part, by mass or not, value."""
    return [
        [shape.chance.randrange(shape.length), shape.chance.randint(0, 1),
         shape.chance.uniform(1e-5, 1e-2)]
        for _ in range(shape.chance.randint(1, 2))
    ]  # fmt: skip


def levels(shape: Shape) -> list[list[list[float]]]:
    """Draw the six levels of each part."""
    return [[_pair(shape, 1e-6, 1) for _ in range(LEVELS)] for _ in range(shape.length)]


def found(shape: Shape) -> list[list[list[float]]]:
    """Draw what `air_found` gives; now and then an explosive limit is not known."""
    rows = [[_pair(shape, 1e-6, 3) for _ in range(count)] for count in (6, 6, 2, 2, 2, 2, 2)]
    if shape.chance.random() < 0.2:
        rows[2] = [[0.0, 0.0], [0.0, 0.0]]
    if shape.chance.random() < 0.3:
        rows[3] = [[0.0, 0.0], [-1, -1]]
    rows[5] = [_pair(shape, 60, 90000), _pair(shape, 600, 900000)]
    return rows + [[_pair(shape, 0.01, 3) for _ in range(4)] for _ in range(shape.length)]


def _curve(shape: Shape) -> list[float]:
    return shape.numbers(shape.length, 1e-6, 0.02)


AIR_NAMED: dict[str, Callable[[Shape], Any]] = {
    "vapour": vapour,
    "vapours": lambda shape: [vapour(shape) for _ in range(shape.length)],
    "air_room": room,
    "air_task": task,
    "changes": lambda shape: shape.chance.uniform(2e-4, 1e-3),
    "mean_span": lambda shape: shape.chance.uniform(600, 4000),
    "clock": lambda shape: shape.chance.uniform(0, 9000),
    "kelvin": lambda shape: shape.chance.choice([293.15, shape.chance.uniform(265, 325)]),
    "law": law,
    "laws": lambda shape: [law(shape) for _ in range(shape.length)],
    "liquid_part": liquid_part,
    "liquid_rows": lambda shape: [liquid_part(shape) for _ in range(shape.length)],
    "terms": terms,
    "limit_terms": lambda shape: [terms(shape) for _ in range(shape.length)],
    "limit_kinds": lambda shape: [shape.chance.randint(0, 2) for _ in range(shape.length)],
    "which": lambda shape: shape.chance.randint(0, 2),
    "level_place": lambda shape: shape.chance.randrange(LEVELS),
    "part_shares": levels,
    "part_masses": levels,
    "levels": levels,
    "room_found": found,
    "corner": lambda shape: shape.chance.randint(0, 1),
    "by_mass": lambda shape: shape.chance.randint(0, 1),
    "curve_seconds": lambda shape: sorted(shape.numbers(shape.length, 0, 9000)),
    "curve": _curve,
    "low_curve": _curve,
    "high_curve": _curve,
    "near_curve": _curve,
    "limit_levels": lambda shape: shape.numbers(shape.length, 1, 60000),
    "air_rule": lambda shape: _between(shape, (1, 3), (4, 10), (0.05, 0.3), (0.005, 0.1), (2, 12)),
    "limit_pairs": lambda shape: [_pair(shape, 0.01, 3) for _ in range(4)],
    "mixed_words": lambda shape: shape.words()[0],
    "near_words": lambda shape: shape.words()[0],
    "level_names": lambda shape: shape.words(),
}
