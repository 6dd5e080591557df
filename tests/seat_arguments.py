"""Random arguments of the seating procedures: lists in the order that each of them asks for."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from arguments import Shape

WORDS = 10
WEIGHTS = (2, 1, 0, -1, -2, -3)


def _between(shape: Shape, *ends: tuple[float, float]) -> list[float]:
    return [shape.chance.uniform(low, high) for low, high in ends]


def row(shape: Shape) -> list[float]:
    """Draw the facts of a seat: mostly one that fits, with every answer and grade."""
    chance = shape.chance
    fits = [int(chance.random() < 0.85) for _ in range(3)]
    answers = [chance.choice([-1, 0, 1, 2]) for _ in range(6)]
    flags = [int(chance.random() < 0.25) for _ in range(4)]
    return [*fits, *answers, chance.randint(0, 3), chance.randint(0, 3), *flags]


def asked(shape: Shape) -> list[float]:
    """Draw service, wishes, a heavy metal, and what is known of the seat that was found."""
    chance = shape.chance
    return [chance.randint(0, 4), *(chance.randint(0, 1) for _ in range(3)), chance.randint(0, 2)]


def said(shape: Shape) -> list[str]:
    """Draw the words of a row; now and then it is never used for nothing."""
    words = [f"word {place}" for place in range(WORDS)]
    if shape.chance.random() < 0.3:
        words[8] = ""
    return words


def sizes(shape: Shape) -> list[float]:
    """Draw gasket, plate and cells in m, and what lay there before."""
    first = _between(shape, (0.0003, 0.005), (0.02, 1), (0.008, 0.15), (0.001, 0.006))
    last = _between(shape, (0.1, 0.4), (0.4, 0.9), (0, 0.005))
    return [*first, *last]


def ends(shape: Shape) -> list[float]:
    """Draw squeeze and modulus."""
    return _between(shape, (0.02, 0.2), (0.25, 0.6), (5e4, 5e6), (5e6, 2e7))


def rule(shape: Shape) -> list[float]:
    """Draw edge, closest, farthest, least and largest pull."""
    return _between(shape, (0.002, 0.008), (0.01, 0.02), (0.03, 0.09), (2, 80), (90, 400))


def ranges(shape: Shape) -> list[list[float]]:
    """Draw what `gasket_found` gives, so far as its words ask for it."""
    rows = [_between(shape, (0.01, 0.2), (0.25, 1.5)) for _ in range(15)]
    rows[3] = _between(shape, (1e4, 1e6), (2e6, 9e6))
    rows[8], rows[9], rows[10] = ([shape.chance.randint(2, 9)] * 2 for _ in range(3))
    rows[13] = sorted(_between(shape, (-0.004, 0.003), (-0.003, 0.004)))
    return rows


SEAT_NAMED: dict[str, Callable[[Shape], Any]] = {
    "seat_row": row,
    "seat_asked": asked,
    "seat_said": said,
    "seat_weights": lambda shape: [shape.chance.choice(WEIGHTS) for _ in range(shape.length)],
    "seat_codes": lambda shape: [shape.chance.randint(0, 5) for _ in range(shape.length)],
    "seat_sums": lambda shape: [shape.chance.randint(-4, 6) for _ in range(shape.length)],
    "seat_rank": lambda shape: shape.chance.randint(1, 15),
    "seat_code": lambda shape: shape.chance.randint(0, 5),
    "reason_weight": lambda shape: shape.chance.choice(WEIGHTS),
    "last_resort": lambda shape: shape.chance.randint(0, 1),
    "table_answer": lambda shape: shape.chance.choice([-1, 0, 1, 2]),
    "table_grade": lambda shape: shape.chance.randint(0, 3),
    "no_weight": lambda shape: shape.chance.choice([-1, -3]),
    "word": lambda shape: shape.words()[0],
    "good": lambda shape: shape.words()[0],
    "fair": lambda shape: shape.words()[0],
    "poor": lambda shape: shape.words()[0],
    "gasket_sizes": sizes,
    "gasket_ends": ends,
    "plate_moduli": lambda shape: _between(shape, (6e10, 8e10), (8e10, 2.2e11)),
    "fastener_rule": rule,
    "loud_ends": lambda shape: _between(shape, (800, 1000), (1200, 1600)),
    "gasket_ranges": ranges,
    "reached_low": lambda shape: shape.chance.uniform(0, 1.2),
    "reached_high": lambda shape: shape.chance.uniform(0, 1.2),
}
