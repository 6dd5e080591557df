"""A stack from its layers' own bending lengths: bonded or loose, with both ends."""

from __future__ import annotations

from collections.abc import Sequence

from formulas.frozen import Frozen
from formulas.valves.laminate import bonded_stack, loose_stack
from formulas.valves.strip import bending_length_of, bending_modulus, rigidity


class Layer(Frozen):
    """One layer: mass and bending length as low, middle, high; its thickness in metres."""

    mass: tuple[float, float, float]
    bending_length: tuple[float, float, float]
    thickness: float
    measured: bool


def stacked(layers: Sequence[Layer], bonded: bool) -> tuple[float, float, float]:
    """Give the bending length of a stack, low, middle and high, the layer at the plate first.

    Each layer counts as a solid strip of the modulus that its own bending length tells.
    """
    stack = bonded_stack if bonded else loose_stack
    thicknesses = [one.thickness for one in layers]
    low, middle, high = (
        bending_length_of(
            stack([_modulus(one, end) for one in layers], thicknesses),
            sum(one.mass[end] for one in layers),
        )
        for end in range(3)
    )
    return low, middle, high


def _modulus(layer: Layer, end: int) -> float:
    return bending_modulus(rigidity(layer.mass[end], layer.bending_length[end]), layer.thickness)
