"""The shop's own tests, W-15, W-16 and T-01 to T-08: formulas, tables, drawings, words."""

from __future__ import annotations

import dataclasses
import itertools
import math
import re
import shlex
import shutil

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from leaf_reading import leaves_of, placed, source

from formulas.catalog import load
from formulas.fault import UnknownName
from formulas.wax import bench_tests as subject
from site_builder.commands import main
from site_builder.markup.elements import plain
from site_builder.parts import bench_test_parts, registry, testing_drawings
from site_builder.places import CONTENT, DEMO_SHOP

CATALOG = load(None)
TESTS = [f"T-{number:02}" for number in range(1, 9)]
LEAVES = [*TESTS, "W-15", "W-16"]


@pytest.fixture(scope="module")
def leaves():
    """The leaves of this subject by number."""
    return leaves_of(*LEAVES)


# Formulas

SIZES = st.floats(min_value=1e-3, max_value=0.2)
MASSES = st.floats(min_value=1e-3, max_value=1)


@given(SIZES, SIZES, SIZES, SIZES)
def test_the_pull_of_a_plate_does_not_know_its_thickness(length, width, thin, thick):
    """Thickness falls out: mass and edge grow alike."""
    around = subject.way_round(length, width)

    def pull(h):
        return subject.joint_stress(subject.plate_mass(2700, length, width, h), 9.8, around, h)

    assert pull(thin) == pytest.approx(pull(thick), rel=1e-9)


@given(MASSES, st.floats(min_value=1, max_value=50))
def test_what_is_hung_gives_the_load_that_was_asked_for(mass, load_wanted):
    """The two formulas undo each other."""
    hung = subject.hung_mass(load_wanted, mass)
    assert subject.load_multiple(mass, hung) == pytest.approx(load_wanted, rel=1e-9)


def test_a_plate_alone_is_a_load_of_one():
    """Nothing to hang for once, and nothing hung is once."""
    assert subject.hung_mass(1, 0.005) == 0
    assert subject.load_multiple(0.005, 0) == 1


def test_the_pull_by_hand():
    """10 g on 100 mm of edge 2 mm high: 0.0980665 N on 200 mm2, so 490.3 Pa."""
    assert subject.joint_stress(0.01, 9.80665, 0.1, 0.002) == pytest.approx(490.3325)


@given(SIZES, SIZES)
def test_the_strain_of_a_bend_lies_between_nothing_and_its_all(bead, rod):
    """A thinner rod asks for more, and none asks for more than the bead's own double."""
    strain = subject.bend_strain(bead, rod)
    assert 0 < strain < 1
    assert subject.bend_strain(bead, rod / 2) > strain


@given(
    st.floats(min_value=-2, max_value=2),
    st.floats(min_value=97, max_value=103),
    st.floats(min_value=95, max_value=100),
)
def test_a_corrected_thermometer_is_right_in_ice_and_in_boiling_water(ice, boiling, truth):
    """The line goes through both points, and its middle is the middle."""
    assert subject.corrected_reading(ice, ice, boiling, truth) == pytest.approx(0, abs=1e-9)
    assert subject.corrected_reading(boiling, ice, boiling, truth) == pytest.approx(truth)
    middle = subject.corrected_reading((ice + boiling) / 2, ice, boiling, truth)
    assert middle == pytest.approx(truth / 2)


@given(
    st.floats(min_value=1e-3, max_value=0.1),
    st.floats(min_value=700, max_value=1300),
    st.floats(min_value=0.05, max_value=0.5),
)
def test_the_density_comes_back_from_what_archimedes_says(mass, density, sinker):
    """A lump of known density under water, with a sinker that keeps it there."""
    water = 998.0
    both = sinker + mass - water * mass / density
    assert subject.density_in_water(mass, sinker, both, water) == pytest.approx(density, rel=1e-6)


# Tables


def test_the_pulls_of_the_trade_lie_among_the_plates_of_the_table():
    """Worked out elsewhere: 150 Pa for 45 mm, 250 for 75 mm of aluminium, 640 for zinc."""
    plates = {plate.id: plate for plate in subject.hung_plates(CATALOG)}
    for name, pull in (("aluminium-small", 150), ("aluminium-large", 250), ("zinc-large", 640)):
        low, high = plates[name].stress
        assert low < pull < high


def test_zinc_pulls_more_than_twice_as_hard():
    """At both ends of the table, as the leaf says."""
    plates = {plate.id: plate.stress for plate in subject.hung_plates(CATALOG)}
    for zinc, aluminium in zip(plates["zinc-large"], plates["aluminium-large"], strict=True):
        assert zinc > 2 * aluminium


def test_the_rash_weight_is_beyond_the_loads_except_under_large_zinc():
    """Half a kilogram is far beyond the third load for aluminium, and about it for zinc."""
    third = subject.loads_of(CATALOG)[-1]
    for plate in subject.hung_plates(CATALOG):
        assert plate.rash[0] > (third if plate.id == "zinc-large" else 2 * third)


def test_the_pull_that_the_estimate_asks_for_is_one_of_a_large_plate():
    """A large plate alone comes within reach of the pull the estimate is stated at."""
    plates = {plate.id: plate.stress for plate in subject.hung_plates(CATALOG)}
    for metal in ("aluminium", "zinc"):
        low, high = plates[f"{metal}-large"]
        assert low < CATALOG.span(f"creep-stress-{metal}", "Pa")[0] < high


def number(name):
    """Give the single value of a figure."""
    figure = CATALOG.figures[name]
    assert figure.low == figure.high
    return figure.low


def test_derived_figures_follow_from_what_their_notes_say():
    """Each is worked out again from the rows it names."""
    step = number("creep-step")
    assert step == 2 * number("home-rig-spread")
    assert number("creep-step-first") == number("pliable-from") + step
    drop = CATALOG.known("beeswax-yellow", "softening-point", "drop-point").low
    assert number("creep-step-last") < drop <= number("creep-step-last") + step
    shared = math.hypot(number("rig-bias-checked"), number("session-bias-spread"))
    assert number("creep-session-error") == pytest.approx(
        shared, abs=0.05
    )  # half of its last digit
    rods = [number(f"cold-bend-rod-{name}") for name in subject.RODS]
    assert rods == [2 * rod for rod in rods[1:]] + [rods[-1]]
    loads = [1, *subject.loads_of(CATALOG)]
    assert [round(b / a) for a, b in itertools.pairwise(loads)] == [3, 3]


def test_a_tenth_of_rosin_hides_inside_the_density_of_beeswax():
    """Volumes added up, the shift is smaller than the range of pure waxes."""
    wax = CATALOG.known("beeswax-yellow", "density-solid")
    scale = 1000 if wax.unit == "g/cm**3" else 1
    rosin = CATALOG.known("gum-rosin", "density-solid")
    middle = scale * (wax.low + wax.high) / 2
    for heavy in (rosin.low, rosin.high):
        heavy *= 1000 if rosin.unit == "g/cm**3" else 1
        blend = 1 / (0.9 / middle + 0.1 / heavy)
        assert 0 < blend - middle < scale * (wax.high - wax.low)


# Parts


def rows(name):
    """Give the cells of a part's table."""
    made = registry.place(CATALOG, name, "")[0]
    return [[plain(cell) for cell in row] for row in made.iter("tr")]


def test_the_table_of_loads():
    """Its smallest plate, worked out by hand from the sizes of the table."""
    head, first, *_ = rows("creep-loads")
    assert head[-1] == "500 g would be"
    # 2660 * 45 * 15 * 2.3 / 1e9 = 4.130 g; 2800 * 45 * 17 * 3.0 / 1e9 = 6.426 g
    assert first[0] == "aluminium, 45 mm"
    assert first[2] == "4.1\N{EN DASH}6.4 g"
    assert first[3] == "8.3\N{EN DASH}12.9 g"  # twice as much
    assert first[4] == "37\N{EN DASH}58 g"  # nine times
    # 2660 * 9.80665 * 45 * 15 / 120 / 1000 = 146.7; 2800 * 9.80665 * 45 * 17 / 124 / 1000 = 169.4
    assert first[1] == "147\N{EN DASH}169 Pa"
    # (6.426 + 500) / 6.426 = 78.8; (4.130 + 500) / 4.130 = 122.1
    assert first[5] == "79\N{EN DASH}122 times"


def test_the_table_of_rods():
    """The thickest first, each with its strain."""
    assert rows("bend-rods")[1:] == [
        ["80 mm", "2.4 %"], ["40 mm", "4.8 %"], ["20 mm", "9.1 %"], ["10 mm", "16.7 %"],
    ]  # fmt: skip


def test_the_table_of_boiling_points():
    """From the sea up, colder by the figure."""
    made = rows("boiling")[1:]
    assert made[0] == ["0 m", "100.0 °C"]
    assert made[2] == ["1000 m", "96.7 °C"]


def test_a_shop_s_own_figures_count():
    """Other plates in the shop's table give other loads on the leaf."""
    other = dataclasses.replace(CATALOG.figures["test-plate-small-length"], low=60, high=60)
    changed = dataclasses.replace(
        CATALOG, figures={**CATALOG.figures, "test-plate-small-length": other}
    )
    made = bench_test_parts.creep_loads(changed, "")[0]
    assert "aluminium, 60 mm" in plain(made)


def test_a_repeatability_is_placed_with_its_basis():
    """The value of the methods' table; what is not known says so; another name is refused."""
    found = registry.inline(CATALOG, "repeatability:drop-point")
    assert (plain(found), found.get("basis")) == ("0.8 °C", "published")
    assert registry.inline(CATALOG, "repeatability:step-creep").tag == "unknown"
    with pytest.raises(UnknownName):
        registry.inline(CATALOG, "repeatability:drop")


# What the leaves say


@pytest.mark.parametrize("number", TESTS[1:])
def test_each_test_says_all_that_a_test_must(leaves, number):
    """What it cannot tell, what it needs, its steps, its reading, its faults, its form."""
    tree = leaves[number].tree
    heads = [plain(one) for one in tree.iter() if one.tag in ("h2", "h3")]
    for wanted in ("What you need", "Steps", "The reading", "The form"):
        assert wanted in heads
    text = " ".join(source(leaves[number]).lower().split())
    assert "it cannot tell" in text
    assert "what goes wrong" in text
    assert "how well it repeats" in text or "how good it is" in text or "home rig" in text
    assert "reference" in text or "your usual" in text or "kept piece" in text
    assert len(list(tree.iter("formtable"))) >= 1
    assert len(list(tree.iter("figure"))) >= 1


def test_ring_and_ball_is_kept_to_rosin(leaves):
    """Both the table of tests and the leaf itself send a wax-rich blend elsewhere."""
    assert "rosin-rich blends only" in leaves["T-06"].summary
    links = {one.get("href") for one in leaves["T-06"].tree.iter("a")}
    assert {"drop-point.md", "congealing-point.md", "step-creep.md"} <= links


def test_no_ratio_is_recommended_by_service(leaves):
    """The leaf that helps to choose names no blend and no share."""
    text = source(leaves["W-16"])
    assert not re.search(r"beeswax-rosin|\d\s*(:|to)\s*\d|\[\[gum-rosin", text)


# Forms and commands


def commands():
    """Give every command line that stands on a leaf of tests."""
    for path in sorted((CONTENT / "30-tests").glob("[1-8]0-*.md")):
        # A long command goes on on the next line.
        whole = re.sub(r"\\\n\s*", "", path.read_text("utf-8"))
        for line in re.findall(r"^benchbinder (record test .*)$", whole, re.M):
            yield pytest.param(line, id=f"{path.stem}")


@pytest.mark.parametrize("line", list(commands()))
def test_the_command_on_a_leaf_is_taken_by_the_books(line, tmp_path):
    """With a batch of the shop's own book in its place, each example is recorded."""
    shop = tmp_path / "shop"
    shutil.copytree(DEMO_SHOP, shop)
    batch = next(iter(load(shop).pot_book))
    words = shlex.split(re.sub(r"W-\d\d-\d{3}", batch, line))
    before = len(load(shop).softening_tests)
    result = CliRunner().invoke(main, [*words, "--shop", str(shop)])
    assert result.exit_code == 0, result.output
    assert len(load(shop).softening_tests) == before + 1


ASKED = {
    "T-02": "date session rig checked sample lots load held moved plate pull tested",
    "T-03": "date session moved first plate pull load tested",
    "T-04": "date session rig checked sample lots read left out reference tested",
    "T-05": "date session rig checked sample lots read left out reference tested",
    "T-06": "date session rig checked sample lots mean left out reference tested",
}


@pytest.mark.parametrize("number", ASKED)
def test_a_form_asks_for_all_that_the_books_take(leaves, number):
    """Every column of softening_tests.csv that a person has to fill in has its place."""
    tree = leaves[number].tree
    told = [one.get("label", "") for one in tree.iter("formline")]
    told += [one.get("heads", "") for one in tree.iter("formtable")]
    text = " ".join(told).lower()
    for word in ASKED[number].split():
        assert word in text, word


# Drawings


def test_the_loads_of_the_drawing_are_those_of_the_table():
    """Load three hangs two plates' weight, load ten hangs nine."""
    words = [text.text for text, _, _ in placed(testing_drawings.loads(CATALOG))]
    assert "weigh 2 plates." in words
    assert "weigh 9 plates." in words
