"""What one row of the valve tables is: materials, stock, limits, ranks, plates, tests, skins.

A blank cell is None for a number and "" for a text: unknown, never nought. Dates are ISO texts.
"""

from __future__ import annotations

from formulas.frozen import Frozen


class ValveMaterial(Frozen):
    """What valves are cut from; `backbone` where a set is cut along one direction of it."""

    id: str
    name: str
    also_called: str
    kind: str
    backbone: str
    about: str


class ValveStock(Frozen):
    """A grade of valve stock, or what a shop has; of `layers`, the one at the plate is first."""

    stock: str
    name: str
    material: str
    layers: tuple[str, ...]
    bond: str
    thickness_low: float | None
    thickness_high: float | None
    thickness_unit: str
    gauge: str
    mass_low: float | None
    mass_high: float | None
    mass_unit: str
    length: float | None
    width: float | None
    unit: str
    pieces: int | None
    soft_face: str
    basis: str
    source: str
    where: str
    note: str
    file: str = ""
    line: int = 0


class ValveLimit(Frozen):
    """A limit a valve is judged by. Where value and share both stand, the larger counts."""

    id: str
    what: str
    at_pressure: float | None
    value: float | None
    unit: str
    share: float | None
    share_of: str
    counts: str
    instrument: str
    basis: str
    source: str
    where: str
    note: str


class Posture(Frozen):
    """How a block stands: the share of gravity that pulls a valve off, by the face it lies on."""

    id: str
    name: str
    inside: float
    outside: float
    basis: str
    source: str
    where: str
    note: str


class Rank(Frozen):
    """A rank of an instrument: plates a semitone apart, upward from `lowest`.

    A rank of a job may have `notes` of its own instead, one a plate, upward.
    """

    instrument: str
    rank: str
    name: str
    lowest: str
    plates: int
    posture: str
    basis: str
    source: str
    where: str
    note: str
    notes: tuple[str, ...] = ()


class Glue(Frozen):
    """A glue for valves. A blank answer is not known, never no."""

    id: str
    name: str
    kind: str
    reversible: str
    reversed_by: str
    wets_leather: str
    bonds_film: str
    acid_on_metal: str
    creeps_warm: str
    fume_on_steel: str
    open_low: float | None
    open_high: float | None
    open_unit: str
    wait_low: float | None
    wait_high: float | None
    wait_unit: str
    solvent: str
    scrap_test: str
    basis: str
    source: str
    where: str
    note: str


class ValveClass(Frozen):
    """What the trade puts on tongues of a length, in millimetres."""

    id: str
    tongue_low: float | None
    tongue_high: float | None
    leather_low: float | None
    leather_high: float | None
    film_low: float | None
    film_high: float | None
    helper: str
    words: str
    basis: str
    note: str


class RampTest(Frozen):
    """One overhang of one strip on the ramp, in the unit it was read in."""

    stock: str
    date: str
    strip: str
    direction: str
    down: str
    end: str
    overhang: float
    unit: str
    angle: float | None
    air_temperature: float | None
    temperature_unit: str
    humidity: float | None
    tested_by: str
    left_out: str
    basis: str
    note: str
    file: str = ""
    line: int = 0


class StockWeighing(Frozen):
    """Pieces of a stock that were weighed together."""

    stock: str
    date: str
    length: float
    width: float
    unit: str
    pieces: int
    mass: float
    mass_unit: str
    scale: float
    basis: str
    note: str
    file: str = ""
    line: int = 0


class CurlTest(Frozen):
    """The curl of a free strip: chord, rise, and the face on the inside of the curve."""

    stock: str
    date: str
    chord: float
    rise: float
    unit: str
    toward: str
    humidity: float | None
    basis: str
    note: str
    file: str = ""
    line: int = 0


class MeasuredPlate(Frozen):
    """A reed plate that was measured."""

    instrument: str
    plate: str
    rank: str
    block: str
    position: int | None
    sounds: str
    metal: str
    length: float | None
    width: float | None
    thickness: float | None
    slot_length: float | None
    slot_width: float | None
    wall: float | None
    edge_land: float | None
    cell_depth: float | None
    outside_space: float | None
    unit: str
    basis: str
    note: str
    file: str = ""
    line: int = 0


class MeasuredSlot(Frozen):
    """One slot that was measured; `face` is the one its valve lies on."""

    instrument: str
    plate: str
    face: str
    direction: str
    sounds: str
    rivet_end: str
    slot_length: float | None
    slot_width: float | None
    unit: str
    valved: str
    valve_found: str
    basis: str
    note: str
    file: str = ""
    line: int = 0


class ValveTest(Frozen):
    """A test of a fitted valve."""

    date: str
    instrument: str
    plate: str
    face: str
    sounds: str
    stock: str
    length: float | None
    width: float | None
    unit: str
    what: str
    posture: str
    value: float | None
    value_unit: str
    passed: str
    good_example: str
    tested_by: str
    basis: str
    note: str


class Skin(Frozen):
    """A skin on the shelf."""

    skin: str
    stock: str
    bought: str
    basis: str
    note: str


class OutlinePoint(Frozen):
    """One point of the outline of a skin, of a hole or of a zone to leave out."""

    skin: str
    ring: str
    point: int
    x: float
    y: float
    unit: str
