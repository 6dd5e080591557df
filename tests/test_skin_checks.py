"""Outlines that are none: each gives one clear fault, in the cell where it stands."""

from __future__ import annotations

import shutil

import pytest

from formulas.catalog import load
from formulas.fault import Faults
from site_builder.places import DEMO_SHOP

HEAD = "skin,ring,point,x,y,unit\n"
SQUARE = [(0, 0), (100, 0), (100, 100), (0, 100)]


def ring(points, name="outline", skin="kid-A", first=1):
    """Write a ring as rows of the table."""
    return "".join(
        f"{skin},{name},{place},{x},{y},mm\n" for place, (x, y) in enumerate(points, first)
    )


@pytest.fixture
def faults_of(tmp_path):
    """Give a function that puts outlines into a copy of the demo shop and tells the faults."""
    shop = tmp_path / "shop"
    shutil.copytree(DEMO_SHOP, shop)
    for books in ("stock_uses.csv", "reservations.csv"):  # they name skins that are taken out here
        (shop / books).unlink()
    (shop / "skins.csv").write_text(
        "skin,stock,bought,basis,note\nkid-A,kid-38,,invented,\n", encoding="utf-8"
    )

    def told(rows):
        (shop / "skin_outlines.csv").write_text(HEAD + rows, encoding="utf-8")
        try:
            load(shop)
        except Faults as error:
            return [str(fault) for fault in error.faults]
        return []

    return told


def test_a_square_is_an_outline(faults_of):
    """Four corners against the clock are accepted, with a hole and a zone over the edge."""
    hole = ring([(10, 10), (20, 10), (20, 20)], "hole-1")
    zone = ring([(-5, 90), (200, 90), (200, 120), (-5, 120)], "reject-1")
    assert faults_of(ring(SQUARE) + hole + zone) == []


def test_clockwise_is_told(faults_of):
    """Points with the clock, which a mirrored plan would come of, are refused at the ring."""
    (fault,) = faults_of(ring(SQUARE[::-1]))
    assert ":2: ring: found 'outline', accepted: points against the clock" in fault


def test_a_hole_may_go_either_way_round(faults_of):
    """Only the outline tells how the skin lies; a hole is one both ways."""
    hole = [(10, 10), (20, 10), (20, 20)]
    assert faults_of(ring(SQUARE) + ring(hole[::-1], "hole-1")) == []


def test_too_few_points_are_told(faults_of):
    """Two points are no ring."""
    (fault,) = faults_of(ring(SQUARE[:2]))
    assert ":3: point: found '2', accepted: at least three points" in fault


def test_crossing_edges_are_told(faults_of):
    """A figure of eight is told once, at the edge that crosses."""
    (fault,) = faults_of(ring([(0, 0), (100, 100), (100, 0), (0, 100)]))
    assert "edges do not cross, touch or run back" in fault


def test_a_spike_is_told(faults_of):
    """An edge that runs back over the one before it is told."""
    (fault,) = faults_of(ring([(0, 0), (100, 0), (50, 0), (50, 80)]))
    assert "edges do not cross, touch or run back" in fault


def test_no_area_is_told(faults_of):
    """Points on one line enclose nothing."""
    (fault,) = faults_of(ring([(0, 0), (50, 50), (100, 100)]))
    assert "edges do not cross, touch or run back" in fault


def test_a_gap_in_the_numbers_is_told(faults_of):
    """A point left out, which leaves the ring open, is told where it is missing."""
    (fault,) = faults_of(ring(SQUARE[:2]) + ring(SQUARE[2:], first=4))
    assert ":4: point: found '4', accepted: 3: the points of a ring are counted" in fault


def test_the_first_point_repeated_is_told(faults_of):
    """A ring closes by itself: its first point at the end is one too many."""
    (fault,) = faults_of(ring([*SQUARE, SQUARE[0]]))
    assert ":6: x: found '0.0', accepted: a place of its own" in fault


def test_a_skin_without_an_outline_is_told(faults_of):
    """A skin of which only a hole is known cannot be laid."""
    (fault,) = faults_of(ring(SQUARE, "hole-1"))
    assert "skins.csv:2: skin: found 'kid-A', accepted: a skin with an outline" in fault


def test_a_hole_beside_the_skin_is_told(faults_of):
    """A hole nowhere on the skin was typed wrong."""
    hole = ring([(300, 300), (320, 300), (320, 320)], "hole-1")
    (fault,) = faults_of(ring(SQUARE) + hole)
    assert "ring: found 'hole-1', accepted: a ring that lies on the skin" in fault


def test_an_outline_of_no_skin_is_told(faults_of):
    """A ring of a skin that is not in the table is told, with the near name."""
    told = faults_of(ring(SQUARE) + ring(SQUARE, skin="kid-B"))
    assert told
    assert all("did you mean 'kid-A'?" in fault for fault in told)


def test_a_cell_that_cannot_be_read_is_told_alone(faults_of):
    """A ring with one bad cell has one fault, not one for the ring as well."""
    rows = ring(SQUARE).replace("100,0,mm", "wide,0,mm")
    (fault,) = faults_of(rows)
    assert ":3: x: found 'wide'" in fault
