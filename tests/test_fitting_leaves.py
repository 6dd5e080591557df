"""Fitting and testing of valves, V-01 and V-10 to V-14: words, order, drawings, forms, faults."""

from __future__ import annotations

import pytest
from leaf_reading import leaves_of, source

from formulas.catalog import load
from formulas.units import convert
from site_builder.markup.elements import plain
from site_builder.parts import registry, valve_drawings

CATALOG = load(None)
LEAVES = ["V-01", *(f"V-{number}" for number in range(10, 15))]


@pytest.fixture(scope="module")
def leaves():
    """The leaves of this subject by number."""
    return leaves_of(*LEAVES)


# What the leaves say


def test_the_order_of_the_work_ends_with_tuning(leaves):
    """Map, survey, lift, clean, centre, inside, sign, bed, outside, leak, rest, tune."""
    lists = leaves["V-01"].tree.findall("ol")
    steps = [plain(one).lower() for one in lists[0]]
    wanted = ["pitch", "survey", "lift", "clean", "centre", "inside valves", "sign", "bed",
              "outside valves", "leak test", "rest", "tune"]  # fmt: skip
    assert len(steps) == len(wanted)
    for step, word in zip(steps, wanted, strict=True):
        assert word in step


def test_the_hold_point_comes_before_the_wax(leaves):
    """On the leaf of fitting the signature stands before bedding and outside valves."""
    text = source(leaves["V-11"])
    places = [text.index(words) for words in ("### Sides, tip", "Sign each line", "may be [bedded]",
                                              "## Outside valves")]  # fmt: skip
    assert places == sorted(places)
    links = {one.get("href", "") for one in leaves["V-11"].tree.iter("a")}
    assert "prepare-block-and-plate.md#hold-point-inside-valves" in links
    assert "bed-the-plates.md" in links


ROAD = (
    "measure-the-plates valve-stock ruler-and-ramp one-valve a-whole-rank valve-charts cut-valves"
    " glue fit-valves test-valves"
)


def test_the_road_from_a_skin_to_fitted_valves_names_every_leaf_in_order(leaves):
    """The list to tick leads through the section, each leaf once before the next."""
    hrefs = [one.get("href", "").partition(".md")[0] for one in leaves["V-01"].tree.iter("a")]
    start = hrefs.index("measure-the-plates")
    places = [hrefs.index(slug, start) for slug in ROAD.split()]
    assert places == sorted(places)


# Numbers behind a sentence


def test_holding_heat_lies_above_what_shellac_and_film_stand():
    """So plates with shellacked valves are waxed in short lengths, and film goes on after."""
    window = CATALOG.figures["holding-window"]
    assert window.high > CATALOG.figures["shellac-softens"].high
    assert window.low > CATALOG.figures["shellac-softens"].low
    assert window.low > CATALOG.figures["film-takes-a-set"].high


def test_weight_alone_shuts_under_any_pressure_of_play():
    """What droops is pressed flat by its own weight, a few pascals: far under the softest note."""
    softest = CATALOG.span("pressure-range-soft", "Pa")[0]
    g = CATALOG.span("gravity", "m/s**2")[0]
    masses = [
        convert(one.high, one.unit, "kg/m**2")
        for one in CATALOG.valve_facts
        if one.property == "mass-per-area" and one.high is not None
    ]
    assert masses
    assert max(masses) * g < softest / 4


def test_a_fitted_valve_rests_no_less_than_its_glue_asks():
    """The rest of the figure covers the shortest wait of every glue that may hold a valve."""
    rest = CATALOG.span("fitted-rest", "s")[1]
    for glue in CATALOG.glues.values():
        assert convert(glue.wait_low, glue.wait_unit, "s") <= rest


# Faults


def test_every_fault_of_a_valve_stands_on_a_leaf(leaves):
    """No row of the two groups is lost, and each is placed with all that it says."""
    rows = {
        tuple(plain(cell) for cell in row)
        for number in ("V-11", "V-14")
        for row in leaves[number].tree.iter("tr")
    }
    found = [one for one in CATALOG.faults_and_cures.values() if one.group.startswith("valve")]
    assert {one.group for one in found} == {"valve", "valve-mistake"}
    for one in found:
        cure = f"Stop and ask. {one.cure}" if one.ask else one.cure
        told = (one.symptom, one.how_to_tell, one.cause, cure)
        assert [row for row in rows if row[:4] == told], one.id


def test_what_is_asked_of_faults_is_there():
    """Late, slap, buzz, leak, flat, hiss, sticking and popping, and the own told from the other."""
    found = {one.id: one for one in CATALOG.faults_and_cures.values() if one.group == "valve"}
    for word in ["late", "slap", "buzz", "leak", "flat", "hiss", "sticks", "pops"]:
        assert f"valve-{word}" in found
    told = " ".join(one.how_to_tell for one in found.values()).lower()
    assert "own valve" in told
    assert "partner" in told


# Forms, parts, drawings


ASKED = "plate face note length width posture gap pitch slap late leak sticks passed tested"


def test_the_form_asks_for_all_that_the_table_takes(leaves):
    """Every column of valve_tests.csv that a person has to fill in has its place."""
    told = [one.get("label", "") for one in leaves["V-12"].tree.iter("formline")]
    told += [one.get("heads", "") for one in leaves["V-12"].tree.iter("formtable")]
    text = " ".join(told).lower()
    for word in ASKED.split():
        assert word in text, word


def test_the_drawings_of_right_and_wrong_show_what_they_say():
    """The right tip lies on metal, the short one on the slot, the long one reaches the rim."""
    drawn = valve_drawings
    tip = {name: getattr(drawn, name)[-1] for name in ("FLAT", "CURLED", "SHORT", "FULL")}
    assert drawn.SLOT_END < tip["FLAT"][0] < drawn.END - 10
    assert tip["FLAT"][1] == drawn.LYING
    assert tip["CURLED"][1] < drawn.LYING - 10  # off the plate, as heights count downward
    assert drawn.SLOT < tip["SHORT"][0] < drawn.SLOT_END
    assert tip["FULL"][0] > drawn.END - 5
    assert drawn.GLUED < drawn.SLOT


def test_one_picture_of_the_six_is_right():
    """One tick, five crosses: a tick is one line of three places, a cross two lines of two."""
    svg = valve_drawings.lies(CATALOG)
    heavy = [one for one in svg.iter("polyline") if one.get("stroke-width") == "2.4"]
    marks = [one for one in heavy if len(one.get("points").split()) == 3]
    assert len(marks) == 1
    assert "five faults" in svg.findtext("title")


def test_the_limits_of_valves_stand_where_they_are_tested(leaves):
    """What the leaf of tests asks for is a limit of the table, with its basis."""
    text = plain(leaves["V-12"].tree)
    for name in ("gap-playing", "gap-bench", "curl-outward", "pitch-soft", "delay", "slap"):
        assert CATALOG.limit(name).what in text


def test_a_part_without_an_argument_takes_none():
    """The table of glues is one table."""
    assert registry.PARTS["glues"].argument is False
