"""Read and check a shop folder's shop.toml."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

from formulas import units
from formulas.entries import Shop
from formulas.fault import CellFault, UnitFault, hint

Check = tuple[str, Callable[[Any], bool]]

ACCEPTED: dict[str, Check] = {
    "name": ("a text", lambda value: isinstance(value, str) and value.strip() != ""),
    "invented": ("true or false", lambda value: isinstance(value, bool)),
    "units": ("'metric' or 'US'", lambda value: value in {"metric", "US"}),
    "currency": (
        "three capital letters, such as 'EUR'",
        lambda value: isinstance(value, str) and re.fullmatch("[A-Z]{3}", value) is not None,
    ),
    "pitch_of_a": (
        "hertz from 400 to 480",
        lambda value: isinstance(value, int | float) and 400 <= value <= 480,
    ),
    "scale": (
        "the smallest step the scale shows, such as '0.1 g' or '0.05 oz'",
        lambda value: isinstance(value, str) and _step(value) is not None,
    ),
    "paper": ("'a4' or 'letter'", lambda value: value in {"a4", "letter"}),
    "holes": (
        "where the leaves are punched, 'none', 'iso-2', 'iso-4' or 'us-3'",
        lambda value: value in {"none", "iso-2", "iso-4", "us-3"},
    ),
    "usual": ("an id of blends.csv, the blend to compare with", lambda value: _said(value)),
    "instrument": ("an instrument of ranks.csv", lambda value: _said(value)),
    "valve_kind": (
        "the kind of stock that valves are cut from, such as 'leather' or 'film'",
        lambda value: value in {"leather", "film", "microfibre", "woven"},
    ),
    "face_to_plate": (
        "the face of a leather that lies to the plate, 'smooth' or 'soft'",
        lambda value: value in {"smooth", "soft"},
    ),
    "room": (
        "the volume of the bench room, such as '30 m3' or '1000 ft3', from 5 to 5000 m3",
        lambda value: isinstance(value, str) and _volume(value) is not None,
    ),
    "air_changes": (
        "how often an hour the air of the bench room is changed, from 0.1 to 30",
        lambda value: (
            isinstance(value, int | float) and not isinstance(value, bool) and 0.1 <= value <= 30
        ),
    ),
    "address": ("a text, as it stands on a label", lambda value: _said(value)),
    "telephone": ("a text, as it stands on a label", lambda value: _said(value)),
}


def read(
    folder: Path,
    faults: list[CellFault],
    blends: Iterable[str],
    instruments: Iterable[str] = (),
) -> Shop:
    """Give a shop's settings; add a fault for each that is not accepted.

    `blends` are the ids that the usual blend may have, `instruments` those of the usual one.
    """
    path = folder / "shop.toml"
    if not path.is_file():
        faults.append(
            CellFault("shop.toml", 1, "(file)", "", "a file shop.toml in the shop folder")
        )
        return Shop()
    text = path.read_text(encoding="utf-8-sig", errors="replace")
    try:
        found = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        line = re.search(r"line (\d+)", str(error))
        faults.append(
            CellFault(
                "shop.toml", int(line.group(1)) if line else 1, "(line)", str(error), "key = value"
            )
        )
        return Shop()
    settings = {}
    for key, value in found.items():
        accepted, right = ACCEPTED.get(key, ("", lambda _value: False))
        if right(value):
            settings[key] = value
        elif accepted:
            faults.append(CellFault("shop.toml", _line(text, key), key, str(value), accepted))
        else:
            named = "the settings " + ", ".join(ACCEPTED)
            faults.append(
                CellFault("shop.toml", _line(text, key), "(key)", key, named, hint(key, ACCEPTED))
            )
    for key, names in (("usual", blends), ("instrument", instruments)):
        found_name = settings.get(key, "")
        if found_name and found_name not in names:
            place, accepted = _line(text, key), ACCEPTED[key][0]
            fault = CellFault(
                "shop.toml", place, key, found_name, accepted, hint(found_name, names)
            )
            faults.append(fault)
    if "scale" in settings:
        settings["scale_step"], settings["scale_unit"] = _step(settings.pop("scale")) or (0, "g")
    if "room" in settings:
        settings["room_m3"] = _volume(settings.pop("room"))
    return Shop(**settings, folder=folder)


def _said(value: Any) -> bool:
    return isinstance(value, str) and value.strip() != ""


def _volume(text: str) -> float | None:
    """Give the volume of a room in m**3; None where it is no volume, or no room's."""
    try:
        volume = units.read(
            text.replace("³", "3").replace("m3", "m**3").replace("ft3", "ft**3"), "m**3"
        )
    except UnitFault:
        return None
    return volume if 5 <= volume <= 5000 else None


def _step(text: str) -> tuple[float, str] | None:
    """Give the step of a scale and its unit, gram or ounce; None where it is neither."""
    match = re.fullmatch(r"\s*([\d.,]+)\s*(g|oz)\s*", text)
    try:
        step = units.number(match.group(1)) if match else 0.0
    except UnitFault:
        return None
    return (step, match.group(2)) if match and 0 < step <= 100 else None


def _line(text: str, key: str) -> int:
    match = re.search(rf"^\s*{re.escape(key)}\s*=|^\s*\[{re.escape(key)}", text, re.M)
    return text[: match.start()].count("\n") + 1 if match else 1
