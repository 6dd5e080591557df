"""Invented ranks of reed plates whose true sizes are known, for the tests of the estimate."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from formulas.catalog import load
from formulas.valves.measured_plates import sizes_of_rank
from formulas.valves.notes import frequency
from formulas.valves.plate_spreads import lines_and_spreads
from formulas.valves.reed_sizes import generic_size

TRADE = load(None)
TUNING = 440.0
MIDIS = [float(midi) for midi in range(53, 94)]
KINDS = ("own", "slope", "kink", "step")
AS_TOLD = (0, 13, 27, 40)  # lowest, highest, two between: what the leaf asks for


def line_and_spreads(measure="length"):
    """Give the generic line and the spreads of the trade's figures."""
    return lines_and_spreads(TRADE)[measure]


@dataclass(frozen=True)
class Rank:
    """The true sizes of a slot of each plate, and what a rule reads of the other slot."""

    true: np.ndarray
    read: np.ndarray


def deviation(chance, kind, line, spreads):
    """Draw how a maker's scale lies from the generic line: the estimate's own idea, or another."""
    x = np.array([math.log(frequency(midi, TUNING) / line[2]) for midi in MIDIS])
    level = chance.normal() * 0.8 * spreads[0] * np.ones(len(x))
    sign = chance.choice([-1, 1])
    place = int(chance.integers(8, len(x) - 8))
    if kind == "own":
        apart = np.abs(np.subtract.outer(MIDIS, MIDIS)) / spreads[4]
        scale = spreads[0] ** 2 * (1 + apart) * np.exp(-apart) + spreads[1] ** 2 * np.outer(x, x)
        root = np.linalg.cholesky(scale + 1e-10 * np.eye(len(x)))
        return root @ chance.normal(size=len(x))
    if kind == "slope":
        return level + sign * 4 * spreads[1] * (x - x.mean())  # four of its standard deviations
    if kind == "kink":
        return level + sign * chance.uniform(0.05, 0.2) * np.maximum(0, x - x[place])
    return level + sign * 0.05 * (np.arange(len(x)) > place)  # a step: five percent at one plate


def draw(chance, kind, line, spreads):
    """Draw a rank and its readings: scale, plate, slot and rule each with its own scatter."""
    scale = deviation(chance, kind, line, spreads) + chance.normal(size=len(MIDIS)) * spreads[2]
    middle = np.array([generic_size(frequency(midi, TUNING), line) for midi in MIDIS])
    true, other = (
        middle * np.exp(scale + chance.normal(size=len(MIDIS)) * spreads[3]) for _ in range(2)
    )
    return Rank(true, other + chance.normal(size=len(MIDIS)) * spreads[5])


def bands(rank, places, line, spreads):
    """Give the bands of all slots after the plates at these places were measured."""
    notes, sizes = [MIDIS[place] for place in places], [float(rank.read[place]) for place in places]
    return np.array(sizes_of_rank(MIDIS, TUNING, line, spreads, notes, sizes))


def coverage(seed, kind, places, count=500, believed=None, measure="length"):
    """Give the share of slots, of plates not measured, whose truth lies in its band."""
    chance = np.random.default_rng(seed)
    line, spreads = line_and_spreads(measure)
    held = []
    for _ in range(count):
        rank = draw(chance, kind, line, spreads)
        found = bands(rank, places, line, believed or spreads)
        inside = (found[:, 0] <= rank.true) & (rank.true <= found[:, 2])
        held.append(np.delete(inside, places).mean())
    return float(np.mean(held))
