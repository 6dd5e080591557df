"""The chart of a room's air: its limits are told apart, and their words cover no curve."""

from __future__ import annotations

from xml.etree.ElementTree import Element

import pytest

from formulas import catalog as catalogs
from formulas.air.air_marks import AIR_SIZE
from formulas.air.asked import AirTask
from site_builder.workings.air_form import chart_of

CATALOG = catalogs.load(None)
LETTER = 5.6  # wider than a letter or blank of type of 11 units on the mean
DOTTED = "2 3"


def drawn(solvent: str, amount: float, times: int = 1) -> tuple[Element, ...]:
    """Draw tasks of a quarter of an hour in a room of 30 m³; give polylines and words."""
    task = AirTask(solvent, 900, amount=amount, room=30, changes=1, times=times, every=1500)
    (svg,) = list(chart_of(CATALOG, task).iter("svg"))
    return tuple(one for one in svg.iter() if one.tag in {"polyline", "text"})


def places(line: Element) -> list[tuple[float, ...]]:
    """Give the places that a line runs through."""
    return [tuple(map(float, one.split(","))) for one in line.get("points", "").split()]


def limits(marks: tuple[Element, ...]) -> list[float]:
    """Give the heights of the lines of limits, in the order they are drawn."""
    return [places(one)[0][1] for one in marks if one.get("stroke-dasharray") == DOTTED]


@pytest.mark.parametrize(
    ("solvent", "amount", "times"),
    [("acetone", 2e-5, 1), ("isopropanol", 6e-5, 3), ("heptane", 5e-6, 2), ("ethanol", 6e-5, 1)],
)
def test_words_of_limits_stand_beyond_the_curves(solvent, amount, times):
    """A letter stands right of every line, a name below all of them, and none leaves the side."""
    marks = drawn(solvent, amount, times)
    lines = [places(one) for one in marks if one.tag == "polyline" and len(places(one)) > 1]
    right = max(x for line in lines for x, _ in line)
    foot = max(y for line in lines for _, y in line)
    words = [one for one in marks if one.tag == "text"]
    letters = [one for one in words if float(one.get("x", 0)) > right]
    names = [one for one in words if (one.text or "")[1:3] == ": "]
    assert limits(marks)
    assert len(names) == len(limits(marks))
    assert [one.text[0] for one in names] == " ".join(one.text or "" for one in letters).split()
    for one in letters:
        assert float(one.get("x", 0)) + LETTER * len(one.text or "") <= AIR_SIZE[0]
    for one in names:
        assert float(one.get("y", 0)) - 9 > foot
        assert float(one.get("y", 0)) <= AIR_SIZE[1]
        assert float(one.get("x", 0)) + LETTER * len(one.text or "") <= AIR_SIZE[0]


def test_letters_go_from_the_highest_limit_down():
    """Acetone: 1500, 1000, 500 and 250 ppm, each lower on the page than the one before it."""
    marks = drawn("acetone", 2e-5)
    found = [one.text for one in marks if one.tag == "text" and (one.text or "")[1:3] == ": "]
    assert [one.rpartition(": ")[2] for one in found] == [
        "1500 ppm", "1000 ppm", "500 ppm", "250 ppm"
    ]  # fmt: skip
    assert limits(marks) == sorted(limits(marks))


def test_limits_of_one_height_share_their_place():
    """Three bodies hold ethanol to 1000 ppm: one line, with the letters of all three."""
    marks = drawn("ethanol", 6e-5)
    assert "a b c" in [one.text for one in marks if one.tag == "text"]
    assert len(set(limits(marks))) == 1
