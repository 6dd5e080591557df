"""Random arguments of the valve procedures: lists in the order that each of them asks for."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from arguments import Shape

FOUND = 16
JUDGED = 14


def _between(shape: Shape, *ends: tuple[float, float]) -> list[float]:
    return [shape.chance.uniform(low, high) for low, high in ends]


def sizes(shape: Shape) -> list[float]:
    """Draw overlaps, root, land, free length, width and cut length, in m."""
    overlaps = _between(shape, (0.0008, 0.002), (0.001, 0.003), (0.0005, 0.002), (0.003, 0.008))
    return overlaps + _between(shape, (0.01, 0.08), (0.003, 0.012), (0.015, 0.09))


def slot(shape: Shape) -> list[float]:
    """Draw length, width, share of gravity, period and room; now and then no room is known."""
    one = _between(shape, (0.008, 0.08), (0.0015, 0.007), (-1, 1), (0.0003, 0.03), (0.002, 0.02))
    if shape.chance.random() < 0.3:
        one[4] = 0.0
    return one


def stock(shape: Shape) -> list[float]:
    """Draw a stock with its ends; a third are film, a third only of a table, some toppers."""
    m, c = shape.chance.uniform(0.03, 0.8), shape.chance.uniform(0.015, 0.1)
    flags = [float(shape.chance.random() < share) for share in (0.3, 0.7, 0.8)]
    spread = shape.chance.uniform(0, 0.4)
    one = [m, c, *_between(shape, (0.3, 1.5), (1e-4, 1e-3), (-2, 2)), flags[0]]
    ends = [m * (1 - spread), m * (1 + spread), c * (1 - spread), c * (1 + spread)]
    return [*one, *ends, *flags[1:]]


def limits(shape: Shape) -> list[list[float]]:
    """Draw value, share and whether it counts, of each limit; a few have neither number."""
    rows = [_between(shape, (0.001, 0.5), (0, 0.5)) for _ in range(JUDGED)]
    return [
        [0.0 if shape.chance.random() < 0.1 else number for number in row]
        + [float(shape.chance.random() < 0.7)]
        for row in rows
    ]


def places(shape: Shape) -> list[int]:
    """Draw some of the places of the limits."""
    return shape.chance.sample(range(JUDGED), shape.chance.randint(0, 5))


def verdict(shape: Shape) -> list[float]:
    """Draw a verdict, its margin, and whether the stock may be chosen."""
    return [shape.chance.randint(0, 2), shape.chance.uniform(0, 4), shape.chance.randint(0, 1)]


def chart_rows(shape: Shape) -> list[list[float]]:
    """Draw the rows of a window chart: slot, least and most bending length, kind, the chosen."""
    return [
        [*_between(shape, (0.01, 0.08), (0.01, 0.06), (0.03, 0.12)),
         float(shape.chance.randint(1, 6)),
         shape.chance.choice([0.0, shape.chance.uniform(0.01, 0.1)])]
        for _ in range(shape.length)
    ]  # fmt: skip


VALVE_NAMED: dict[str, Callable[[Shape], Any]] = {
    "sizes": sizes,
    "lengths": lambda shape: [sizes(shape) for _ in range(shape.length)],
    "slot": slot,
    "slots": lambda shape: [slot(shape) for _ in range(shape.length)],
    "openings": lambda shape: _between(shape, (0.2, 0.3), (0.05, 0.2), (0.3, 0.6)),
    "pressures": lambda shape: _between(
        shape, (40, 60), (80, 120), (900, 1100), (1400, 1600), (250, 350)
    ),
    "limits": limits,
    "stock": stock,
    "leather": stock,
    "film": stock,
    "valve_stocks": lambda shape: [stock(shape) for _ in range(shape.length)],
    "stock_ends": lambda shape: _between(
        shape, (0.03, 0.3), (0.3, 0.8), (0.015, 0.04), (0.04, 0.1)
    ),
    "found": lambda shape: shape.numbers(FOUND, 0, 2),
    "founds": lambda shape: [shape.numbers(FOUND, 0, 2) for _ in range(shape.length)],
    "lows": lambda shape: shape.numbers(FOUND, 0, 1),
    "highs": lambda shape: shape.numbers(FOUND, 1, 3),
    "ratios": lambda shape: shape.numbers(JUDGED, 0, 2),
    "here": lambda shape: shape.numbers(JUDGED, 0, 2),
    "references": lambda shape: shape.numbers(JUDGED, 0, 2),
    "passed": places,
    "unsure": places,
    "found_places": places,
    "found_place": lambda shape: shape.chance.randrange(FOUND),
    "abouts": lambda shape: (shape.words() * JUDGED)[:JUDGED],
    "about": lambda shape: shape.words()[0],
    "told": lambda shape: _between(shape, (0.1, 0.4), (0, 1), (0.5, 1), (1, 2)),
    "verdicts": lambda shape: [verdict(shape) for _ in range(shape.length)],
    "verdict": verdict,
    "other_verdict": verdict,
    "spoke": lambda shape: [shape.chance.randint(0, 1) for _ in range(3)],
    "rules": lambda shape: _between(
        shape, *[(0.0005, 0.005)] * 7, (0.01, 0.02), (0.04, 0.08), *[(0.0002, 0.002)] * 2
    ),
    "no_valve": lambda shape: _between(shape, (0.005, 0.03), (500, 2000), (1e-6, 1e-5), (0.1, 0.9)),
    "tongue_rule": lambda shape: _between(shape, (0.01, 0.04), (2e-5, 1e-4)),
    "note_rows": chart_rows,
    "stock_bends": lambda shape: shape.numbers(shape.length, 0.01, 0.1),
    "stock_names": lambda shape: shape.words(),
    "drawing_size": lambda shape: _between(shape, (300, 500), (200, 400)),
    "each": lambda shape: shape.chance.choice([0.001, 0.0254]),
    "frame": lambda shape: _between(shape, (0.005, 0.01), (0.08, 0.09), (0.1, 0.13)),
    "window": lambda shape: _between(shape, (0.01, 0.05), (0.02, 0.1), (0.1, 0.6)),
    "answer": lambda shape: [shape.chance.randint(1, 6), 0, 1],
    "helper": lambda shape: shape.numbers(shape.chance.choice([0, 5]), 0, 1),
    "nearest": lambda shape: (shape.words() * 4)[:4],
    "said": lambda shape: shape.words(),
    "ratios_low": lambda shape: shape.numbers(JUDGED, 0, 2),
    "ratios_high": lambda shape: shape.numbers(JUDGED, 0, 2),
    "droop_read": lambda shape: shape.chance.uniform(0.002, 0.02),
    "error": lambda shape: shape.chance.uniform(0.0001, 0.001),
    **dict.fromkeys(
        (
            "note_text",
            "topper",
            "light",
            "side",
            "chosen_text",
            "hang",
            "hang_last",
            "first_note",
            "last_note",
        ),
        lambda shape: shape.words()[0],
    ),
    "rule": lambda shape: _between(shape, (0.1, 9), (0.1, 9), (0.1, 9), (0.1, 0.9)),
    # of a ramp test: the strip of each reading, its face, what was found, what is allowed
    "strips": lambda shape: [shape.chance.randint(0, 3) for _ in range(shape.length)],
    "faces": lambda shape: [shape.chance.randint(-1, 1) for _ in range(shape.length)],
    "ramp_told": lambda shape: _between(
        shape, (0.01, 0.3), (0, 0.3), (0.01, 0.2), (1, 9), (1, 2), (1, 2), (-0.4, 0.4), (0, 9)
    ),
    "ramp_limits": lambda shape: _between(shape, (0.02, 0.1), (0.1, 5), (0.1, 0.3), (0.05, 0.2)),
    "test_verdicts": lambda shape: [
        shape.chance.randint(1, 4) for _ in range(shape.chance.randint(0, 2))
    ],
}


def strip_places(shape: Shape) -> list[list[float]]:
    """Draw piece, place of the size, x, y and lane of some strips."""
    chance = shape.chance
    return [
        [chance.randint(0, 2), chance.randrange(shape.length), chance.randint(0, 9),
         chance.randint(0, 9), chance.randint(0, 4)]
        for _ in range(chance.randint(0, 6))
    ]  # fmt: skip


def listed_row(shape: Shape) -> list[float]:
    """Draw width and length, the count, the spares and their sum."""
    count, spare = shape.chance.randint(1, 40), shape.chance.randint(0, 4)
    return [*_between(shape, (0.003, 0.012), (0.015, 0.09)), count, spare, count + spare]


CUT_NAMED: dict[str, Callable[[Shape], Any]] = {
    # of strips to lay: sizes, widest first, how many, and where some of them lie
    "strip_widths": lambda shape: sorted(shape.numbers(shape.length, 0.5, 3), reverse=True),
    "open_widths": lambda shape: sorted(shape.numbers(shape.length, 0.5, 3), reverse=True),
    "strip_lengths": lambda shape: shape.numbers(shape.length, 0.5, 5),
    "strips_left": lambda shape: [shape.chance.randint(0, 4) for _ in range(shape.length)],
    "strip_counts": lambda shape: [shape.chance.randint(0, 4) for _ in range(shape.length)],
    "strips_taken": lambda shape: [0.0] * shape.length,
    "fit": lambda shape: sorted(shape.chance.sample(range(shape.length), 2)),
    "slacks": lambda shape: shape.numbers(2, 0, 2),
    "way": lambda shape: [shape.chance.randint(1, 4), shape.chance.uniform(0, 2)],
    "band_strips": lambda shape: [one[1:4] for one in strip_places(shape)] + [[0, 1, 1]],
    "lane_strips": lambda shape: [[one[4], *one[1:4]] for one in strip_places(shape)],
    "strip_places": strip_places,
    "column_kinds": lambda shape: [shape.chance.randrange(shape.length) for _ in range(5)],
    "laid_kinds": lambda shape: [shape.chance.randrange(shape.length) for _ in range(5)],
    "strip_sides": lambda shape: sorted(
        (_between(shape, (0.003, 0.012), (0.015, 0.09)) for _ in range(shape.length)),
        reverse=True,
    ),
    "piece_sides": lambda shape: _between(shape, (0.03, 0.3), (0.05, 0.3)),
    "cut_rule": lambda shape: _between(shape, (0, 0.0005), (0, 0.01), (0.0002, 0.001)),
    "cut_sizes": lambda shape: sorted(
        ([shape.chance.randint(5, 9), shape.chance.randint(15, 90), shape.chance.randint(1, 40)]
         for _ in range(shape.length)),
        reverse=True,
    ),
    "cut_rows": lambda shape: [
        [shape.chance.randint(5, 9), shape.chance.randint(15, 90), shape.chance.randint(1, 40)]
        for _ in range(shape.length)
    ],
    "cut_listed": lambda shape: [listed_row(shape) for _ in range(shape.length)],
}  # fmt: skip
"""For the procedures of cutting."""
VALVE_NAMED.update(CUT_NAMED)
