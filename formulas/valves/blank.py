"""The size of a valve over its slot: overlap at the sides and the tip, glue land, free length.

Slot and valve are two things: what bends runs from the edge of the glue to the tip.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

from formulas.formula import Q, formula, procedure


@formula("A measure that grows with the slot", symbol="o", unit="m", source="definition")
def grown(
    o_1: Annotated[float, Q("m", "the measure at the smallest slot")],
    o_2: Annotated[float, Q("m", "the measure at the largest slot")],
    L_s: Annotated[float, Q("m", "length of the slot")],
    L_1: Annotated[float, Q("m", "length of the smallest slot")],
    L_2: Annotated[float, Q("m", "length of the largest slot")],
) -> float:
    """Give overlap or land by straight line between the smallest and the largest slot.

    Slots beyond either end have the measure of that end.
    """
    return o_1 + (o_2 - o_1) * max(0, min(1, (L_s - L_1) / (L_2 - L_1)))


@formula("Overlap that there is room for", symbol="o_s", unit="m", source="definition")
def side_overlap(
    o: Annotated[float, Q("m", "overlap wanted")],
    w: Annotated[float, Q("m", "metal between the two slots")],
    x: Annotated[float, Q("m", "distance kept from the tongue beside it")],
    e: Annotated[float, Q("m", "metal from the slot to the long edge")],
    h: Annotated[float, Q("m", "bare metal left for the wax")],
) -> float:
    """Give the overlap at each side: no valve over the neighbouring tongue, none under wax."""
    return max(0, min(o, w - x, e - h))


@formula("Width of a valve", symbol="b", unit="m", source="definition")
def valve_width(
    W_s: Annotated[float, Q("m", "width of the slot")],
    o_s: Annotated[float, Q("m", "overlap at each side")],
) -> float:
    """Give the slot with its overlap at both sides."""
    return W_s + 2 * o_s


@formula("Free length of a valve", symbol="L", unit="m", source="definition")
def free_length(
    x_r: Annotated[float, Q("m", "from the edge of the glue to the slot")],
    L_s: Annotated[float, Q("m", "length of the slot")],
    o_t: Annotated[float, Q("m", "overlap at the tip")],
) -> float:
    """Give what can bend: from the edge of the glue to the tip."""
    return x_r + L_s + o_t


@formula("Length of a valve as it is cut", symbol="L_c", unit="m", source="definition")
def cut_length(
    l_g: Annotated[float, Q("m", "glue land")],
    L: Annotated[float, Q("m", "free length")],
) -> float:
    """Give the strip with its glue land."""
    return l_g + L


SIZES = ("side", "tip", "root", "land", "length", "width", "cut")
"""What `valve_sizes` gives, in its order, in metres."""
RULES = (
    ("valve-side-overlap", 2),
    ("valve-tip-overlap", 2),
    ("glue-land", 2),
    ("glue-clear-of-slot", 1),
    ("valve-size-span", 2),
    ("neighbour-clearance", 1),
    ("wax-land", 1),
)
"""The figures that say how large a valve is, with how many numbers each gives."""


@procedure("Sizes of a valve over its slot")
def valve_sizes(
    L_s: float, W_s: float, wall: float, edge: float, rules: Sequence[float]
) -> list[float]:
    """Give the overlaps, the land, free length, width and cut length, as `SIZES` names them.

    Lengths in metres. `wall` or `edge` of nought is not known and limits nothing; `rules` are
    the figures of `RULES`, each low end first.
    """
    L_1 = rules[7]
    L_2 = rules[8]
    wanted = grown(rules[0], rules[1], L_s, L_1, L_2)
    side = side_overlap(
        wanted,
        wall if wall > 0 else wanted + rules[9],
        rules[9],
        edge if edge > 0 else wanted + rules[10],
        rules[10],
    )
    tip = grown(rules[2], rules[3], L_s, L_1, L_2)
    land = grown(rules[4], rules[5], L_s, L_1, L_2)
    free = free_length(rules[6], L_s, tip)
    return [side, tip, rules[6], land, free, valve_width(W_s, side), cut_length(land, free)]
