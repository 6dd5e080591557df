"""Fitting and testing of valves, V-01 and V-10 to V-14: words, order, drawings, forms, faults."""

from __future__ import annotations

import re

import pytest
from leaf_reading import stands_before

from formulas.catalog import load
from formulas.units import convert
from site_builder import content
from site_builder.markup.elements import plain
from site_builder.parts import registry, valve_drawings
from site_builder.places import CONTENT

CATALOG = load(None)
LEAVES = ["V-01", *(f"V-{number}" for number in range(10, 15))]


@pytest.fixture(scope="module")
def leaves():
    """The leaves of this subject by number."""
    return {one.number: one for one in content.read(CATALOG).leaves if one.number in LEAVES}


def source(leaf):
    """Give the text of a leaf's own file, below its head, without its commands."""
    text = (CONTENT.parent / leaf.file).read_text("utf-8").partition("\n\n")[2]
    return re.sub(r"```.*?```", "", text, flags=re.S)


# What the leaves say


def test_every_leaf_is_there(leaves):
    """Six leaves."""
    assert list(leaves) == LEAVES


@pytest.mark.parametrize("number", LEAVES)
def test_no_number_stands_in_the_prose(leaves, number):
    """Each number of the trade is placed from a table: the words themselves hold no digit."""
    text = re.sub(
        r"^\d+\. |^/// .*$|\[\[[^\]]*\]\]|\]\([^)]*\)", "", source(leaves[number]), flags=re.M
    )
    assert re.findall(r".*\d.*", text) == []


@pytest.mark.parametrize("number", LEAVES)
def test_one_sentence_a_line(leaves, number):
    """No line of prose holds two sentences; steps and cells of a table may."""
    for line in source(leaves[number]).splitlines():
        if line[:1].isalpha():
            assert not re.findall(r"[.!?](?= [A-Z])", line), line


@pytest.mark.parametrize("number", LEAVES)
def test_nothing_is_called_safe(leaves, number):
    """No method is praised as safe."""
    assert not re.search(r"\bsafe(ly|r|st)?\b", source(leaves[number]).lower())


def test_no_paragraph_stands_on_two_leaves(leaves):
    """A sentence is said in one place; elsewhere a link leads to it."""
    seen: dict[str, str] = {}
    for number, leaf in leaves.items():
        for found in leaf.tree.findall("p"):
            words = plain(found)
            if len(words) > 40 and not words.startswith("Basis of the"):
                assert seen.setdefault(words, number) == number, words


BEFORE = [
    ("V-10", "acetic-on-metal", "Try a drop of the glue"),
    ("V-10", "solvent-and-heat", "degrease"),
    ("V-11", "sharp-tool", "Push a thin wooden wedge"),
    ("V-11", "leather-dust", "Push a thin wooden wedge"),
    ("V-11", "solvent-and-heat", "Put what undoes the glue"),
    ("V-11", "glue-vapour", "Glue on the land, thin"),
    ("V-11", "film-and-hot-wax", "Film goes on after"),
    ("V-12", "old-dust", "Never with the mouth"),
    ("V-12", "warm-box", "Into a place at"),
    ("V-13", "leather-dust", "Draw a strip of clean soft paper"),
    ("V-13", "sharp-tool", "Cut the root fresh"),
    ("V-13", "solvent-and-heat", "A saved valve is fitted"),
]


@pytest.mark.parametrize(("number", "caution", "words"), BEFORE)
def test_the_caution_stands_before_the_danger(leaves, number, caution, words):
    """Whoever reads down the leaf meets the box before the step."""
    assert stands_before(leaves[number], caution, words)


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
        told = (one.symptom, one.how_to_tell, one.cause, one.cure)
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
