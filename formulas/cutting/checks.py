"""What no single cell of the skins shows: rings with gaps, crossings, the wrong way round."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from formulas.cutting.polygon import Point, inside, self_touching, signed_area, touch
from formulas.cutting.polygon import edges as edges_of
from formulas.fault import CellFault
from formulas.table import Row

Rows = Mapping[str, list[Row]]
OUTLINE = "outline"
MILLIMETRES = {"mm": 1.0, "in": 25.4}
FEWEST = 3


def skin_faults(rows: Rows) -> Iterator[CellFault]:
    """Give one fault for each ring that is none, and for each skin without an outline.

    A ring with a cell that cannot be read is left out: that cell is told already.
    """
    rings: dict[str, dict[str, list[Row]]] = {}
    for row in rows["skin_outlines.csv"]:
        if row["skin"] is not None and row["ring"] is not None:
            rings.setdefault(row["skin"], {}).setdefault(row["ring"], []).append(row)
    for skin in rows["skins.csv"]:
        if skin["skin"] is not None and OUTLINE not in rings.get(skin["skin"], {}):
            yield skin.fault("skin", "a skin with an outline in skin_outlines.csv")
    for of_skin in rings.values():
        yield from _of_skin(of_skin)


def _of_skin(rings: Mapping[str, Sequence[Row]]) -> Iterator[CellFault]:
    whole: dict[str, list[Point]] = {}
    for name, given in rings.items():
        if not all(row.whole for row in given):
            continue
        ordered = sorted(given, key=lambda row: int(row["point"]))
        fault = _ring_fault(name, ordered)
        if fault:
            yield fault
        else:
            whole[name] = points_of(ordered)
    if OUTLINE in whole:
        for name, ring in whole.items():
            if name != OUTLINE and not _meet(whole[OUTLINE], ring):
                first = min(rings[name], key=lambda row: int(row["point"]))
                yield first.fault("ring", "a ring that lies on the skin, at least in part")


def points_of(ordered: Sequence[Row]) -> list[Point]:
    """Give the points of a ring in millimetres."""
    return [
        (row["x"] * MILLIMETRES[row["unit"]], row["y"] * MILLIMETRES[row["unit"]])
        for row in ordered
    ]


def _ring_fault(name: str, ordered: Sequence[Row]) -> CellFault | None:
    """Give the first fault of a ring, the one that would cause others first."""
    for place, row in enumerate(ordered, 1):
        if row["point"] != place:
            return row.fault(
                "point", f"{place}: the points of a ring are counted from 1 without a gap"
            )
    last = ordered[-1]
    if len(ordered) < FEWEST:
        return last.fault("point", "at least three points in a ring")
    points = points_of(ordered)
    for place, (one, other) in enumerate(edges_of(points)):
        if one == other:
            row = ordered[(place + 1) % len(points)] if place + 1 < len(points) else last
            return row.fault(
                "x", "a place of its own: a ring closes by itself, its first point stands once"
            )
    crossing = self_touching(points)
    if crossing >= 0:
        row = ordered[crossing]
        return row.fault("point", "a ring whose edges do not cross, touch or run back")
    if name == OUTLINE and signed_area(points) < 0:
        return ordered[0].fault(
            "ring",
            "points against the clock, seen from the smooth side with y toward the neck: with"
            " the clock x and y may be swapped, and the plan would be mirrored",
        )
    return None


def _meet(outline: Sequence[Point], ring: Sequence[Point]) -> bool:
    return (
        inside(outline, ring[0])
        or inside(ring, outline[0])
        or any(touch(one, other) for one in edges_of(outline) for other in edges_of(ring))
    )
