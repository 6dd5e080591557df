"""Read what is typed after `valves`: a rank with its options, or one slot with its measures."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import click

from formulas import units
from formulas.fault import UnitFault, UnknownName

if TYPE_CHECKING:
    from formulas.answer import Answer
    from formulas.catalog import Catalog
    from formulas.valves.stock import Stock

OF_A_PIECE = ("bending", "mass", "thickness", "film")
OF_A_SLOT = ("sounds", "wall", "edge", "room", "droop", *OF_A_PIECE)
OF_TYPED = ("count", "plate", "pitch", "reads")
OF_A_RANK = ("instrument", "note", "sensitivity")
SIZE = re.compile(r"\s*([\d.,]+)\s*[x×]\s*([\d.,]+)\s*(\S+)\s*")
ACCEPTED = "length and width with one unit, such as 38x4.2mm or 1.5x0.165in"


def whole_rank(catalog: Catalog, rank: str, asked: Mapping[str, Any]) -> Answer:
    """Answer for a rank. Raises UsageError for an option that belongs to one slot."""
    from formulas.valves.valves import valves

    _refuse(asked, OF_A_SLOT, "--slot")
    _refuse(asked, OF_TYPED, "--lowest")
    return valves(
        catalog,
        rank,
        instrument=asked["instrument"],
        note=asked["note"],
        kind=asked["kind"],
        only=asked["stock"],
        posture=asked["posture"],
        sensitive=asked["sensitivity"],
    )


def one_slot(catalog: Catalog, size: str, asked: Mapping[str, Any]) -> Answer:
    """Answer for one slot. Raises UsageError for an option that belongs to a rank."""
    from formulas.valves.one_slot import measured_slot, valve

    _refuse(asked, OF_A_RANK, "--rank")
    _refuse(asked, OF_TYPED, "--lowest")
    if not asked["sounds"]:
        fault = "say which note the slot sounds: --sounds C4"
        raise click.UsageError(fault)
    typed = _piece(catalog, asked)
    if asked["droop"] and not typed and len(asked["stock"]) != 1:
        fault = "--droop is that of one valve: name its --stock"
        raise click.UsageError(fault)
    length, width = sides(size)
    slot = measured_slot(
        catalog,
        length,
        width,
        asked["sounds"],
        face=asked["face"],
        posture=asked["posture"] or "upright-block",
        wall=_metres(asked["wall"]),
        edge=_metres(asked["edge"]),
        room=_metres(asked["room"]),
    )
    return valve(
        catalog,
        slot,
        kind=asked["kind"],
        only=asked["stock"],
        droop=_metres(asked["droop"]),
        typed=typed,
    )


def typed_rank(catalog: Catalog, lowest: str, asked: Mapping[str, Any]) -> Answer:
    """Answer for a rank that is typed. Raises UsageError for an option of another way."""
    from formulas.valves import typed_rank as typing_in

    _refuse(asked, OF_A_SLOT, "--slot")
    _refuse(asked, OF_A_RANK, "--rank")
    if not asked["count"]:
        fault = "say how many plates the rank has: --count 41"
        raise click.UsageError(fault)
    return typing_in.typed_rank(
        catalog,
        lowest,
        asked["count"],
        pitch=units.read(asked["pitch"], "Hz") if asked["pitch"] else 0.0,
        posture=asked["posture"] or "upright-block",
        plates={note: sides(size) for note, size in _pairs(asked["plate"], "C4=29x3.4mm")},
        kind=asked["kind"],
        only=asked["stock"],
        typed=[
            _as_read(catalog, name, text)
            for name, text in _pairs(asked["reads"], "kid-38=62mm@240g/m2")
        ],
    )


def _pairs(given: tuple[str, ...], example: str) -> list[tuple[str, str]]:
    pairs = [one.partition("=") for one in given]
    for name, equals, _ in pairs:
        if not (equals and name) or [one[0] for one in pairs].count(name) > 1:
            fault = f"found '{name}{equals}', accepted: each once, as {example}"
            raise click.UsageError(fault)
    return [(name.strip(), text) for name, _, text in pairs]


def _as_read(catalog: Catalog, name: str, text: str) -> Stock:
    """Give a stock of the tables with the overhang and the mass that were typed of it."""
    from formulas.valves.stock import stocks
    from formulas.valves.typed_stock import typed_stock

    known = {one.id: one for one in stocks(catalog)}
    if name not in known:
        raise UnknownName("valve stock", name, known)
    overhang, _, mass = text.partition("@")
    return typed_stock(catalog, known[name], _metres(overhang) or 0.0, _areal(mass))


def _piece(catalog: Catalog, asked: Mapping[str, Any]) -> Stock | None:
    """Give a piece that stands in no table, from what was typed of it, or None."""
    from formulas.valves.typed_stock import piece, typed_stock

    if not any(asked[name] for name in OF_A_PIECE):
        return None
    if asked["stock"] or asked["kind"]:
        fault = "a piece of its own has --bending and --mass; --stock and --kind are the tables'"
        raise click.UsageError(fault)
    if not (asked["mass"] and (asked["bending"] or asked["droop"])):
        fault = "a piece of its own needs --mass, and --bending or the --droop of a cut valve"
        raise click.UsageError(fault)
    return typed_stock(
        catalog,
        piece(catalog, "film" if asked["film"] else "leather"),
        2 * (_metres(asked["bending"]) or 0.0),
        _areal(asked["mass"]),
        _metres(asked["thickness"]) or 0.0,
    )


def _areal(text: str | None) -> float:
    """Read "350g/m2" or "10oz/yd2" in kg/m**2; nought for nothing."""
    return units.read(text.replace("m2", "m**2").replace("yd2", "yd**2"), "kg/m**2") if text else 0


def _refuse(asked: Mapping[str, Any], names: tuple[str, ...], way: str) -> None:
    for name in names:
        if asked[name]:
            fault = f"--{name} goes with {way}"
            raise click.UsageError(fault)


def sides(text: str) -> tuple[float, float]:
    """Read "38x4.2mm" as two lengths in metres. Raises UnitFault."""
    found = SIZE.fullmatch(text)
    if not found:
        raise UnitFault(text, ACCEPTED)
    length, width, unit = found.groups()
    return units.read(length + unit, "m"), units.read(width + unit, "m")


def _metres(text: str | None) -> float | None:
    return units.read(text, "m") if text else None
