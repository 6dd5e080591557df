"""The practice of the wax bench, W-09 to W-14: words, drawings, faults, and the wax of a fillet."""

from __future__ import annotations

import itertools

import pytest
from leaf_reading import leaves_of

from formulas.catalog import load
from formulas.fault import UnknownName
from formulas.wax.bedding import fillet_mass
from site_builder.markup.elements import plain
from site_builder.parts import bedding_drawings, registry
from site_builder.start import lay_down

CATALOG = load(None)
LEAVES = [f"W-{number:02}" for number in range(9, 15)]


@pytest.fixture(scope="module")
def leaves():
    """The practice leaves by number."""
    return leaves_of(*LEAVES)


# What the leaves say


def test_wax_comes_after_the_signature_and_tuning_last(leaves):
    """The order of the work: map, pitch, inside valves and their signature, wax, checks, tuning."""
    steps = [plain(one).lower() for one in leaves["W-09"].tree.findall("ol")[-1]]
    wanted = ["map", "pitch", "old joint", "old wax", "prepare", "inside valves", "bed the",
              "outside valves", "check the bedding", "tuned"]  # fmt: skip
    places = [next(i for i, step in enumerate(steps) if word in step) for word in wanted]
    assert places == sorted(places)
    assert "sign" in steps[places[5]]
    assert places[-1] == len(steps) - 1


def test_each_leaf_leads_to_the_next(leaves):
    """From the old joint to the check an apprentice finds the next leaf by its link."""
    for number, following in itertools.pairwise(LEAVES[1:5]):
        last = [one.get("href", "") for one in leaves[number].tree.iter("a")][-1]
        assert last.startswith(f"{leaves[following].slug}.md")


# Faults and cures


def test_every_fault_stands_on_a_leaf(leaves):
    """No row of a joint is lost: each is placed on one leaf, with all that it says."""
    rows = {
        tuple(plain(cell) for cell in row)
        for leaf in leaves.values()
        for row in leaf.tree.iter("tr")
    }
    for one in CATALOG.faults_and_cures.values():
        if one.group.startswith("valve") or one.group == "first-year":
            continue
        cure = f"Stop and ask. {one.cure}" if one.ask else one.cure
        told = (one.symptom, one.how_to_tell, one.cause, cure)
        assert [row for row in rows if row[:4] == told], one.id


def test_what_the_issue_asks_of_an_old_joint_is_there():
    """Colour, crack, lifted edge, black, brittle, waxed again, wrong wax, silicone and glue."""
    ids = " ".join(one.id for one in CATALOG.faults_and_cures.values() if one.group == "old-joint")
    asked = "brown black cracks lifted brittle second-wax wrong-wax silicone glue"
    for word in asked.split():
        assert word in ids


def test_a_group_that_is_not_there_is_refused():
    """A near name is offered."""
    with pytest.raises(UnknownName, match="did you mean 'joint'"):
        registry.place(CATALOG, "faults", "joints")


def test_rows_from_memory_are_named():
    """A row that rests on less than the others is named below its table, and on the list."""
    *_, last = registry.place(CATALOG, "faults", "joint")
    known = CATALOG.faults_and_cures.values()
    memory = [one.symptom for one in known if (one.group, one.basis) == ("joint", "memory")]
    assert memory
    assert all(symptom in plain(last) for symptom in memory)
    assert "but from memory:" in plain(last)
    listed = "".join(map(plain, registry.place(CATALOG, "memory-values", "")))
    assert all(symptom in listed for symptom in memory)


def test_a_shop_adds_its_own_faults(tmp_path):
    """A row of the shop's own table stands below the trade's, with its basis named."""
    lay_down(tmp_path / "shop")
    row = "ours,joint,Our fault,Our sign,Our cause,Our cure,,measured,\n"
    with (tmp_path / "shop" / "faults_and_cures.csv").open("a", encoding="utf-8") as file:
        file.write(row)
    shown, basis = registry.place(load(tmp_path / "shop"), "faults", "joint")
    assert [plain(cell) for cell in list(shown.iter("tr"))[-1]] == [
        "Our fault", "Our sign", "Our cause", "Our cure", ""]  # fmt: skip
    assert 'measured: "Our fault"' in plain(basis)


# Wax of a fillet


def test_the_wax_of_a_fillet_by_hand():
    """100 mm of a fillet 4 mm wide and 2 mm high: 0.4 ml, so 0.4 g at the density of water."""
    # a triangle's half of 0.8 ml: nothing but rounding of doubles
    assert fillet_mass(0.1, 0.004, 0.002, 1000) == pytest.approx(0.4e-3, rel=1e-12)


# Sizes as the notes of the figures say: length, width, thickness from and to, in millimetres.
PLATES = {
    "fillet-wax-small": (26, 13, 2.0, 2.5),
    "fillet-wax-middle": (36, 15, 2.3, 3.0),
    "fillet-wax-bass": (63, 19, 2.8, 4.0),
}


@pytest.mark.parametrize("name", PLATES)
def test_the_worked_out_wax_of_a_plate_follows_from_its_note(name):
    """The derived figures are the formula at the noted sizes, to half of their last digit."""
    figure, (length, width, thin, thick) = CATALOG.figure(name), PLATES[name]
    assert f"{length} by {width} mm, {thin} to {thick} mm thick" in figure.note
    narrow, wide = CATALOG.span("fillet", "m")
    density = CATALOG.known("beeswax-yellow", "density-solid")
    scale = 1000 if density.unit == "g/cm**3" else 1
    around = 2 * (length + width) / 1000
    low = fillet_mass(around, narrow, thin / 1000, scale * density.low)
    high = fillet_mass(around, wide, thick / 1000, scale * density.high)
    # half of the second decimal, which the table has
    assert (figure.low, figure.high) == pytest.approx((1000 * low, 1000 * high), abs=0.005)


def test_the_trade_s_figure_overlaps_each_plate_worked_out():
    """What the trade says a plate takes is no other world than what its fillet holds."""
    trade = CATALOG.figure("wax-per-plate")
    assert CATALOG.figure("fillet-wax-middle").high > trade.low
    assert (
        CATALOG.figure("fillet-wax-bass").low
        < trade.high
        < CATALOG.figure("fillet-wax-bass").high * 2
    )


# Drawings


def test_right_and_wrong_wax_are_where_the_words_say():
    """The right fillet stays off valve and slot; the wrong ones reach what they are named for."""
    drawn = bedding_drawings
    valve = min(float(point.split(",")[0]) for point in drawn.valve().get("points").split())

    def reach(shape):
        return max(x for x, _ in shape)

    assert drawn.EDGE < reach(drawn.RIGHT_FILLET) < valve  # laps the rim, clear of the valve
    assert reach(drawn.THIN_FILLET) <= drawn.EDGE  # no lap at all
    assert drawn.SLOT < reach(drawn.BRIDGE) < drawn.REST  # stands in the slot
    assert reach(drawn.OVER_VALVE) > valve
    assert reach(drawn.COLD_BEAD) < drawn.EDGE  # does not wet the metal
    assert max(y for _, y in drawn.COLD_BEAD) < drawn.FACE  # nor the wood
    assert reach(drawn.BED) == drawn.CELL  # a bed ends where the cell begins


def test_one_picture_of_the_six_is_right():
    """One tick, five crosses: a tick is one line of three places, a cross two lines of two."""
    svg = bedding_drawings.fillets(CATALOG)
    heavy = [one for one in svg.iter("polyline") if one.get("stroke-width") == "2.4"]
    assert [len(one.get("points").split()) for one in heavy] == [3] + [2] * 10
