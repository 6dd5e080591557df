"""What one row of the tables of hazards and labels is, once read and checked."""

from __future__ import annotations

from formulas.frozen import Frozen


class Statement(Frozen):
    """A hazard or precautionary statement of the UN GHS, or a supplemental one of the EU."""

    code: str
    text: str
    signal: str
    pictogram: str
    basis: str
    source: str
    where: str = ""


class Hazard(Frozen):
    """A hazard statement that a material carries."""

    material: str
    code: str
    basis: str
    source: str
    where: str
    note: str


class MixtureRule(Frozen):
    """From which share of a hazardous component a blend carries which statements."""

    hazard: str
    figure: str
    gives: tuple[str, ...]
    rule: str
    basis: str
    source: str
    where: str
    note: str


class HazardPrecaution(Frozen):
    """A precautionary statement that goes with a hazard statement, and its place of importance."""

    hazard: str
    precaution: str
    place: int
    used: bool
    on_label: str
    basis: str
    source: str
    where: str
    note: str


class Pictogram(Frozen):
    """A pictogram of the UN GHS: its code, its look and what it warns of."""

    id: str
    code: str
    name: str
    looks: str
    stands_for: str
    basis: str
    source: str
    where: str
    note: str


class LabelStock(Frozen):
    """A sheet of labels; its six sizes are in `unit`."""

    id: str
    name: str
    paper: str
    across: int
    down: int
    width: float
    height: float
    left: float
    top: float
    pitch_across: float
    pitch_down: float
    unit: str
    cut: bool
    basis: str
    source: str
    where: str
    note: str
