"""The line drawings: words inside the frame, grey, placed once, measures from the tables."""

from __future__ import annotations

import dataclasses
from xml.etree import ElementTree

import pytest
from leaf_reading import placed

from formulas.catalog import load
from formulas.fault import UnknownName
from site_builder import content
from site_builder.markup.elements import plain
from site_builder.parts import drawing_parts

CATALOG = load(None)
DRAWINGS = drawing_parts.drawings()
GATHERS = "A-04"  # what good looks like: it may show again what stands on its own leaf
WIDEST_LETTER = 0.62  # of the font size: mean width of a sans-serif line, taken wide


@pytest.fixture(scope="module")
def leaves():
    """Every leaf of the handbook."""
    return content.read(CATALOG).leaves


@pytest.mark.parametrize("name", DRAWINGS)
def test_all_words_of_a_drawing_stand_inside_its_frame(name):
    """No text leaves the view box, judged by a wide letter; none is too small for a phone."""
    svg = DRAWINGS[name](CATALOG)
    assert not {"width", "height"} & set(svg.attrib)
    _, _, width, height = map(float, svg.get("viewBox").split())
    assert width == 340
    for text, x, y in placed(svg):
        assert float(text.get("font-size")) >= 11
        length = len(text.text) * 11 * WIDEST_LETTER
        start = x - length * {"middle": 0.5, "end": 1}.get(text.get("text-anchor"), 0)
        assert start >= -2, text.text
        assert start + length <= width + 2, text.text
        assert 8 < y < height - 1, text.text


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_drawing_reads_in_black_and_white(name):
    """Every colour is a grey or nearly one."""
    svg = DRAWINGS[name](CATALOG)
    colours = {one.get(kind) for one in svg.iter() for kind in ("fill", "stroke")} - {None, "none"}
    for colour in colours:
        channels = [int(colour[place : place + 2], 16) for place in (1, 3, 5)]
        assert max(channels) - min(channels) <= 8, colour


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_drawing_is_placed_once_and_told_in_words(leaves, name):
    """It stands on one leaf, with a caption and words for those who do not see it.

    The leaf that gathers right and wrong may show it once more.
    """
    svg = DRAWINGS[name](CATALOG)
    figures = [
        (leaf.number, figure)
        for leaf in leaves
        for figure in leaf.tree.iter("figure")
        if plain(figure.find("figcaption")) == svg.findtext("title")
    ]
    numbers = [number for number, _ in figures]
    assert len(numbers) == len(set(numbers))
    assert len({number for number in numbers if number != GATHERS} or numbers) == 1
    assert {figure.get("alt") for _, figure in figures} == {svg.findtext("desc")}
    assert len(svg.findtext("desc").split()) > 15


MEASURES = [
    ("step-creep", "creep-moved"),
    ("ring-and-ball", "ring-and-ball-fall"),
    ("ring-and-ball", "ball-width"),
    ("ring-and-ball", "ring-bore"),
    ("ring-and-ball", "ring-depth"),
    ("ring-and-ball", "ball-mass"),
    ("ring-and-ball", "ball-rate"),
    ("cold-bend", "cold-bend-bead"),
    ("bedded-plate", "fillet"),
    ("bedded-plate", "bare-land"),
    ("straightedge", "plate-bow-limit"),
    ("valve-sizes", "glue-land"),
    ("valve-sizes", "glue-clear-of-slot"),
    ("valve-sizes", "valve-side-overlap"),
    ("valve-sizes", "valve-tip-overlap"),
    ("valve-sizes", "neighbour-clearance"),
    ("valve-sizes", "wax-land"),
    ("paper-strip", "strip-lift"),
]


@pytest.mark.parametrize(("name", "figure"), MEASURES)
def test_a_measure_in_a_drawing_comes_from_its_table(name, figure):
    """With another figure in the table the drawing shows the other figure."""
    other = dataclasses.replace(CATALOG.figure(figure), low=77, high=88)
    changed = dataclasses.replace(CATALOG, figures={**CATALOG.figures, figure: other})
    text = ElementTree.tostring(DRAWINGS[name](changed), encoding="unicode")
    assert "77\N{EN DASH}88" in text
    assert "77\N{EN DASH}88" not in ElementTree.tostring(DRAWINGS[name](CATALOG), "unicode")


def test_no_drawing_hides_another():
    """Each name of a drawing stands in one module only."""
    names = [name for module in drawing_parts.DRAWN_IN for name in module.DRAWINGS]
    assert len(names) == len(set(names))


def test_a_drawing_that_is_not_there_is_refused():
    """A near name is offered, and nothing is drawn."""
    with pytest.raises(UnknownName, match="did you mean 'fillets'"):
        drawing_parts.drawing(CATALOG, "filets")
