"""Random arguments of the procedures of a whole job: wax by geometry, the quick needs list."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from arguments import Shape


def _between(shape: Shape, *ends: tuple[float, float]) -> list[float]:
    return [shape.chance.uniform(low, high) for low, high in ends]


def wax_row(shape: Shape) -> list[float]:
    """Draw group, sizes, half widths, both gaps, bed and opening; gaps free or usual at times."""
    gaps = [shape.chance.choice([-1.0, -2.0, shape.chance.uniform(0, 0.008)]) for _ in range(2)]
    sizes = _between(shape, (0.02, 0.09), (0.012, 0.03), (0.002, 0.004))
    halves = _between(shape, (0, 0.005), (0, 0.002), (0, 0.0005))
    opening = shape.chance.choice([-2.0, shape.chance.uniform(0.2, 0.6)])
    bedded = float(shape.chance.randint(0, 1))
    return [float(shape.chance.randint(0, 3)), *sizes, *halves, *gaps, bedded, opening]


def wax_figures(shape: Shape) -> list[float]:
    """Draw what `WAX_FIGURES` names."""
    return _between(
        shape, (0.002, 0.006), (0.3, 0.7), (0.0002, 0.0006), (900, 1050), (0.01, 0.1),
        (0.01, 0.06), (0, 0.4), (0.0003, 0.003), (0.3, 0.6),
    )  # fmt: skip


def plate_rule(shape: Shape) -> list[float]:
    """Draw what `quick_steps.PLATE_RULE` names."""
    ends = _between(shape, (1, 1.1), (0.01, 0.015), (0.007, 0.009), (0.009, 0.011))
    thick = [end for _ in range(3) for end in sorted(shape.numbers(2, 0.002, 0.004))]
    return [*ends, *_between(shape, (600, 900), (100, 200)), *thick]


def counts_up(shape: Shape) -> list[float]:
    """Draw least, likely and most of a count; now and then all one."""
    if shape.chance.random() < 0.2:
        return [float(shape.chance.randint(0, 90))] * 3
    return sorted(float(shape.chance.randint(0, 90)) for _ in range(3))


def step_row(shape: Shape) -> list[float]:
    """Draw group, what is counted, minutes low and high, and whether it is of one face."""
    minutes = sorted(shape.numbers(2, 0, 60))
    chance = shape.chance
    return [float(chance.randint(0, 4)), float(chance.randint(0, 5)), *minutes,
            float(chance.randint(0, 1))]  # fmt: skip


JOB_NAMED: dict[str, Callable[[Shape], Any]] = {
    # of the wax of many plates by their geometry
    "wax_row": wax_row,
    "wax_rows": lambda shape: [wax_row(shape) for _ in range(shape.length)],
    **dict.fromkeys(("wax_figures", "figures_low", "figures_mid", "figures_high"), wax_figures),
    # of the quick needs list
    "sounds": lambda shape: shape.chance.uniform(30, 3000),
    **dict.fromkeys(
        ("slot_long", "slot_wide"), lambda shape: sorted(shape.numbers(3, 0.002, 0.09))
    ),
    "tongues": lambda shape: shape.chance.randint(1, 2),
    "plate_rule": plate_rule,
    "group": lambda shape: float(shape.chance.randint(0, 8)),
    "midi": lambda shape: shape.chance.randint(21, 108),
    "bedded": lambda shape: float(shape.chance.randint(0, 1)),
    **dict.fromkeys(("length_line", "width_line"), lambda shape: shape.reed_line()),
    **dict.fromkeys(("length_spreads", "width_spreads"), lambda shape: shape.reed_spreads()),
    "class_edges": lambda _: [[0.0, 0.0125], [0.0125, 0.025], [0.025, 0.048], [0.048, 0.0]],
    "edge_band": lambda shape: shape.chance.uniform(0, 8),
    "all_tongues": lambda shape: shape.chance.randint(200, 900),
    "bare_counts": counts_up,
    "valve_counts": counts_up,
    "bare_below": lambda shape: shape.chance.uniform(0.008, 0.03),
    "walls": lambda shape: _between(shape, (0.002, 0.003), (0.002, 0.004)),
    "glue_rule": lambda shape: [
        *sorted(shape.numbers(2, 4e-5, 2e-4)), *sorted(shape.numbers(2, 900, 1300)),
        *sorted(shape.numbers(2, 1, 6)),
    ],
    "step_row": step_row,
    "step_rows": lambda shape: [step_row(shape) for _ in range(shape.length)],
    "group_count": lambda _: 5,
    **dict.fromkeys(
        ("unit_counts", "unit_counts_low", "unit_counts_high"),
        lambda shape: [float(shape.chance.randint(0, 400)) for _ in range(6)],
    ),
    "plate_count": lambda shape: shape.chance.randint(1, 400),
    "session": lambda shape: shape.chance.uniform(600, 28800),
    "bed_rates": lambda shape: sorted(shape.numbers(2, 0.002, 0.01)),
    **dict.fromkeys(
        ("melt_ends", "rule_ends", "ready_ends", "rule_each", "each_ends", "glue_ends"),
        lambda shape: sorted(shape.numbers(2, 0.0002, 0.5)),
    ),
    "wax_ready": lambda shape: shape.chance.uniform(0.002, 0.5),
    "own_ends": lambda shape: sorted(
        shape.numbers(shape.chance.choice([0, 2]), 0.01, 0.5)
    ),
    "loss_ends": lambda shape: [sorted(shape.numbers(2, 0.01, 0.1)) for _ in range(2)],
    "half_widths": lambda shape: shape.numbers(9 + shape.length, 0, 0.02),
    "figure_count": lambda _: 9,
    "rank_counts": lambda shape: [shape.chance.choice([12, 34, 41]) for _ in range(shape.length)],
    "class_counts": lambda shape: [counts_up(shape) for _ in range(4)],
    "class_names": lambda shape: (shape.words() * 4)[:4],
    "class_words": lambda shape: (shape.words() * 4)[:4],
    "hang_names": lambda shape: (shape.words() * 6)[: shape.length],
    "told_count": lambda shape: shape.chance.randint(1, 2),
    "solvent_ends": lambda shape: sorted(shape.numbers(2, 1e-6, 1e-3)),
    "pot_ends": lambda shape: [
        *sorted(float(shape.chance.randint(1, 9)) for _ in range(2)),
        *sorted(shape.numbers(2, 0.005, 0.2)),
    ],
    "hours": lambda shape: shape.chance.choice([2.0, 3.0, 2.5]),
    "group_hours": lambda shape: [
        sorted(shape.numbers(2, 0, shape.chance.choice([0, 60]))) for _ in range(4)
    ],
    "group_names": lambda shape: (shape.words() * 4)[:4],
}  # fmt: skip
"""For the procedures of a whole job."""
