"""Stacks of layers: bonded all over, or loose and held at the root only.

A glued joint that creeps lies between the two. The glue's own thickness and mass are left out,
so that a bonded stack in the hand is a little stiffer and heavier than this.
"""

from __future__ import annotations

from collections.abc import Sequence

from formulas.formula import procedure
from formulas.valves.strip import rigidity_of


@procedure("Rigidity of bonded layers")
def bonded_stack(moduli: Sequence[float], thicknesses: Sequence[float]) -> float:
    """Give the rigidity by width of layers bonded all over, the layer at the plate first.

    Bending about the stack's own neutral line, the one where the layers' pulls cancel.
    """
    pull = 0.0
    moment = 0.0
    height = 0.0
    for E, t in zip(moduli, thicknesses, strict=True):
        pull = pull + E * t
        moment = moment + E * t * (height + t / 2)
        height = height + t
    neutral = moment / pull
    stiffness = 0.0
    height = 0.0
    for E, t in zip(moduli, thicknesses, strict=True):
        stiffness = stiffness + rigidity_of(E, t) + E * t * (height + t / 2 - neutral) ** 2
        height = height + t
    return stiffness


@procedure("Rigidity of loose layers, any number")
def loose_stack(moduli: Sequence[float], thicknesses: Sequence[float]) -> float:
    """Give the rigidity by width of layers that slip on each other."""
    return sum(rigidity_of(E, t) for E, t in zip(moduli, thicknesses, strict=True))
