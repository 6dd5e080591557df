"""The terminal text of `stiffness`: what was read, what it tells, what to do next."""

from __future__ import annotations

from typing import Any

from formulas.answer import Answer, Band, Unknown
from formulas.catalog import Catalog
from formulas.valves.typed import (
    areal_printed,
    length_printed,
    lengths_printed,
    modulus_printed,
    rigidity_printed,
    share_printed,
)
from site_builder.texts.words import foot, shop_line, unknown, wrapped

ROWS = (
    ("overhang", "Mean overhang"),
    ("bending_length", "Bending length"),
    ("next_strip", "One more strip"),
    ("mass_per_area", "Mass per area"),
    ("rigidity", "Rigidity, by width"),
    ("modulus", "Modulus"),
)
"""What is printed, by its name in the answer."""
HANGS = "A strip hangs {overhang}."
FACES = {"smooth": "smooth face to the plate", "soft": "soft face to the plate"}


def text(answer: Answer, catalog: Catalog) -> list[str]:
    """Give the readings, the bands with their middles, the verdicts, the next reading."""
    found, us = answer.answer, catalog.shop.units == "US"
    title = found["name"] + (f" ({found['stock']})" if found["stock"] else "")
    lines = [title, shop_line(catalog), "", read_line(found)]
    for name, words in ROWS:
        value = found[name]
        if isinstance(value, Unknown):
            lines.append(unknown(value))
        elif value is not None:
            lines.append(f"  {words:<20}{row_said(name, value, us)}")
    lines += [wrapped(f"  {one}", "  ") for one in across_lines(found, us)]
    for verdict in found["verdicts"]:
        lines.append(wrapped(f"{verdict['name'].capitalize()}: {verdict['said']}", "  "))
    lines.append(wrapped(f"Next: {found['next']}", "  "))
    lines += [wrapped(one, "  ") for one in face_lines(answer)]
    return [*lines, *foot(answer)]


def read_line(found: dict[str, Any]) -> str:
    """Say how many strips and readings there are, and how far the strips spread."""
    if not found["strips"]:
        return "No strip was pushed over the ramp."
    strips = "1 strip" if found["strips"] == 1 else f"{found['strips']} strips"
    readings = "1 reading" if found["readings"] == 1 else f"{found['readings']} readings"
    spread = (
        f"; the strips spread by {share_printed(found['spread'])}" if found["strips"] > 1 else ""
    )
    return f"{strips}, {readings} along{spread}."


def row_said(name: str, value: Any, us: bool) -> str:
    """Print one row of the answer: its middle, where there is one, and its ends."""
    if name == "overhang":
        return length_printed(value.value, us)
    ends = (value.low, value.high)
    if name == "mass_per_area":
        return areal_printed(*ends, us)
    if name == "rigidity":
        return rigidity_printed(*ends)
    if name == "modulus":
        return modulus_printed(*ends)
    middle = "" if value.estimate is None else f"{length_printed(value.estimate, us)}, "
    return middle + lengths_printed(*ends, us)


def across_lines(found: dict[str, Any], us: bool) -> list[str]:
    """Say what the strips across told."""
    if not found["across"]:
        return []
    band: Band = found["across"]["bending_length"]
    share = found["across"]["rigidity_share"]
    said = f"Across the backbone: bending length {length_printed(band.estimate or 0.0, us)}"
    return [
        said + ("" if share is None else f", {share_printed(share)} of the rigidity along") + "."
    ]


def face_lines(answer: Answer) -> list[str]:
    """Say which face goes to the plate, and whether the curl in two airs agrees."""
    found = answer.answer
    if not found["stock"]:
        return []
    said = [f"It is laid {FACES[found['face_to_plate']]}."]
    by_curl = found["face_by_curl"]
    if by_curl and by_curl != found["face_to_plate"]:
        said.append(
            f"But dry air curls it toward its {by_curl} face: by the curl test it would lie"
            f" {FACES[by_curl]}."
        )
    elif by_curl:
        said.append("The curl test in two airs says the same.")
    return [" ".join(said)]
