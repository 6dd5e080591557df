"""Which stock a slot gets: what the trade does, and each kind of answer for its own reason."""

from __future__ import annotations

import dataclasses

import pytest

from formulas.catalog import Catalog, load
from formulas.fault import OutOfRange, UnknownName
from formulas.valves.choosing import choose
from formulas.valves.one_slot import measured_slot, valve
from formulas.valves.rank import Slot
from formulas.valves.slot_choice import KINDS, SlotChoice
from formulas.valves.strip import G
from formulas.valves.valves import choices, chosen, valves
from site_builder.places import DEMO_SHOP

INSTRUMENT = "forty-one-key"


@dataclasses.dataclass(frozen=True)
class Trial:
    """A stock as the choice asks for it, without a catalog behind it."""

    id: str
    kind: str
    numbers: tuple[float, ...]
    alone: bool = True


def skin(name: str, t: float, E: float = 20e6, rho: float = 650, measured: float = 1) -> Trial:
    """Give a leather by its thickness.

    Density and modulus of a valve skin: from memory in the tables, a factor of twenty wide.
    """
    return _trial(name, "leather", t, E, rho, measured)


def film(name: str, t: float) -> Trial:
    """Give a polyester film: 4500 MPa by ISO 527 in the tables, 1390 kg/m3."""
    return _trial(name, "film", t, 4.5e9, 1390, 1)


def _trial(name: str, kind: str, t: float, E: float, rho: float, measured: float) -> Trial:
    m, D = rho * t, E * t**3 / 12
    c = (D / (m * G)) ** (1 / 3)
    thin = 1.0 if kind == "film" else 0.0
    ends = [0.97 * m, 1.03 * m, 0.97 * c, 1.03 * c]
    return Trial(name, kind, (m, c, 1.0, t, 0.0, thin, *ends, measured))


THIN, MEDIUM, THICK = skin("thin", 0.35e-3), skin("medium", 0.55e-3), skin("thick", 0.9e-3)
SKINS = (THIN, MEDIUM, THICK)


@pytest.fixture(scope="module")
def trade() -> Catalog:
    """Give the trade's tables alone."""
    return load()


def slot_of(catalog: Catalog, length_mm: float, width_mm: float, sounds: str) -> Slot:
    """Give a measured slot in an upright block."""
    return measured_slot(catalog, length_mm / 1000, width_mm / 1000, sounds)


def gets(catalog: Catalog, slot: Slot, *stocks: Trial) -> SlotChoice:
    """Choose for a slot whose plate is alike on both faces."""
    return choose(catalog, slot, slot, [(one, True) for one in stocks])  # type: ignore[misc]


# Tongue lengths in mm inside the trade's classes, from memory: below 12.5 no valve, 12.5 to 25
# thin leather, 25 to 37 medium, 37 to 48 thick, above 48 thick with a helper or a topper. Edges
# of classes move by five semitones, about 14 % of a length, so that the middles are asked.
CLASSES = [
    (16, 2.5, "G5", "one stock", "thin"),
    (20, 2.8, "Bb4", "one stock", "thin"),
    (30, 3.6, "A3", "one stock", "medium"),
    (31, 3.7, "Ab3", "one stock", "medium"),
    (40, 4.3, "C3", "one stock", "thick"),
    (44, 4.6, "Bb2", "one stock", "thick"),
    (58, 5.7, "A1", "stock with a helper spring", "thick"),
    (70, 6.4, "D1", "stock with a helper spring", "thick"),
]


@pytest.mark.parametrize(("length", "width", "sounds", "kind", "stock"), CLASSES)
def test_leather_is_thick_low_and_thin_high(trade, length, width, sounds, kind, stock):
    """Three measured skins go where the trade puts them."""
    found = gets(trade, slot_of(trade, length, width, sounds), *SKINS)
    assert (found.kind_said, found.stock) == (kind, stock)
    assert found.reasons


def test_the_smallest_reeds_go_without(trade):
    """At the top all three conditions speak, and the answer names each."""
    found = gets(trade, slot_of(trade, 9.5, 1.8, "F7"), *SKINS)
    assert found.kind_said == "no valve"
    assert found.without == (1, 1, 1)
    assert len(found.reasons) == 3
    assert not found.to_cut


def test_a_light_film_keeps_its_valve_at_the_top(trade):
    """A film that hardly chokes there speaks against leaving the slot bare."""
    found = gets(trade, slot_of(trade, 10.5, 1.9, "C7"), *SKINS, film("film", 0.025e-3))
    assert found.without == (1, 1, 0)
    assert found.kind_said == "one stock"


def test_a_slot_that_had_no_valve_keeps_none(trade):
    """What the instrument had goes first."""
    slot = dataclasses.replace(slot_of(trade, 30, 3.6, "A3"), valved="no")
    found = gets(trade, slot, *SKINS)
    assert found.kind_said == "no valve"
    assert "keep what the instrument had" in found.reasons[0]


def test_a_table_never_names_a_winner(trade):
    """Without a measured stock nothing is chosen; the window says what to look for."""
    tables = [dataclasses.replace(one, numbers=(*one.numbers[:10], 0.0)) for one in SKINS]
    found = gets(trade, slot_of(trade, 30, 3.6, "A3"), *tables)
    assert found.kind_said == "no stock measured"
    assert not found.to_cut
    assert 0 < found.window[0] < found.window[1]


def test_a_film_over_a_limp_skin_serves_where_neither_does(trade):
    """A pair is offered only where no single stock serves."""
    slot = slot_of(trade, 52, 5.2, "Eb2")
    alone = gets(trade, slot, THICK)
    assert alone.kind_said == "stock with a helper spring"
    pair = gets(trade, slot, THICK, film("film", 0.15e-3))
    assert pair.kind_said in ("stock with a topper", "one stock")
    topped = choose(trade, slot, slot, [(THICK, True), (film("film", 0.15e-3), False)])  # type: ignore[list-item]
    assert topped.kind_said == "stock with a topper"
    assert (topped.stock, topped.topper) == ("thick", "film")
    assert topped.found[0] < alone.found[0]


def test_a_helper_brings_the_gap_to_its_limit(trade):
    """The preload told bends the valve by what its gap is too much; the choke told includes it."""
    found = gets(trade, slot_of(trade, 58, 5.7, "A1"), *SKINS)
    assert found.helper is not None
    m, c, L = THICK.numbers[0], THICK.numbers[1], found.sizes[4]
    bends = found.helper.preload * L**4 / (8 * m * G * c**3)
    assert found.found[0] - bends == pytest.approx(found.limits[0], rel=1e-9)
    assert found.helper.choke[0] > found.found[3]


def test_too_stiff_a_stock_is_rejected_for_its_choke(trade):
    """A firm strap leather chokes a small reed, and says with what."""
    # From memory in the tables: firm leathers have 100 to 500 MPa.
    found = gets(trade, slot_of(trade, 16, 2.5, "G5"), skin("strap", 1.2e-3, 300e6, 900))
    assert found.kind_said == "none serves"
    assert "choke" in found.reasons[0]


def test_a_limp_stock_is_rejected_for_its_gap(trade):
    """A limp thin leather stands open on a low reed, and only a helper could hold it."""
    found = gets(trade, slot_of(trade, 40, 4.3, "C3"), skin("limp", 0.35e-3, 3e6), THICK)
    assert found.stock == "thick"
    (other,) = found.runners_up
    assert (other.stock, other.verdict) == ("limp", "rejected")
    assert "gap" in other.reason


def test_wide_ends_make_a_choice_unsure(trade):
    """A stock known within a third serves by its middle, and the answer says what may be."""
    m, c, *rest = THIN.numbers
    wide = dataclasses.replace(
        THIN, numbers=(m, c, *rest[:4], 0.7 * m, 1.3 * m, 0.7 * c, 1.3 * c, 1.0)
    )
    slot = slot_of(trade, 20, 2.8, "Bb4")
    unsure = gets(trade, slot, wide)
    assert not unsure.sure
    assert any("not sure" in reason for reason in unsure.reasons)


def test_the_worst_posture_asks_for_a_stiffer_stock(trade):
    """Level, valve below, a slot asks for more stiffness than in an upright block."""
    upright = gets(trade, slot_of(trade, 30, 3.6, "A3"), *SKINS)
    bench = gets(trade, measured_slot(trade, 0.030, 0.0036, "A3", posture="bench"), *SKINS)
    # The least bending length goes with the third root of gravity's share: 1 against 0.25.
    assert bench.window[0] / upright.window[0] == pytest.approx(4 ** (1 / 3), rel=1e-9)
    assert upright.kind_said == "one stock"
    assert bench.kind_said == "stock with a helper spring"


def test_whose_gravity_counts_depends_on_the_face(trade):
    """With the cell below, the inside valve hangs and the outside one lies."""
    inside, outside = (
        measured_slot(trade, 0.03, 0.0036, "A3", face=face, posture="level-cell-below")
        for face in ("inside", "outside")
    )
    assert (inside.hanging, outside.hanging) == (1, -1)
    assert gets(trade, outside, MEDIUM).found[0] == 0


def test_a_slot_that_was_not_measured_is_never_sure():
    """Of generic slots the answer tells what the ends of their size would get."""
    catalog = load()
    found = choices(catalog, INSTRUMENT, "middle")
    assert not any(one.sure for one in found)
    assert all(len(one.at_ends) == 2 for one in found)


def test_names_that_are_not_there_are_refused_with_a_hint(trade):
    """Rank, note, kind, stock and posture each name what is near."""
    for wrong in (
        {"rank": "midle"},
        {"rank": "middle", "note": "C1"},
        {"rank": "middle", "kind": "lether"},
        {"rank": "middle", "only": ["no-such-stock"]},
        {"rank": "middle", "posture": "upright"},
    ):
        with pytest.raises(UnknownName):
            valves(trade, **wrong)


def test_sizes_that_no_reed_has_are_refused(trade):
    """A slot of a metre, or wider than long, is a slip of the pen."""
    for length, width in ((1.0, 0.004), (0.03, 0.04), (0.001, 0.0005)):
        with pytest.raises(OutOfRange):
            measured_slot(trade, length, width, "C4")


def test_the_droop_of_a_cut_valve_outranks_the_ramp():
    """With the tip of the cut valve read, its own bending length counts."""
    catalog = load(DEMO_SHOP)
    stock = next(one.stock for one in choices(catalog, INSTRUMENT, "middle") if one.to_cut)
    slot = measured_slot(catalog, 0.03, 0.0036, "A3")
    by_ramp = valve(catalog, slot, only=[stock]).answer["choices"][0]
    droopy = valve(catalog, slot, only=[stock], droop=0.004).answer["choices"][0]
    # Level on the bench the tip hangs as read: that is what the droop was read as.
    assert droopy.found[1] == pytest.approx(0.004, rel=1e-9)
    assert by_ramp.found[1] != pytest.approx(0.004, rel=0.01)
    with pytest.raises(OutOfRange):
        valve(catalog, slot, only=[stock], droop=0.0001)


def test_the_json_answer_has_the_keys_that_others_build_on():
    """Each reed carries what the list of interfaces names."""
    answer = valves(load(DEMO_SHOP), "low").as_json()["answer"]
    assert len(answer["reeds"]) == 82  # 41 plates of two slots
    wanted = {
        "note", "frequency", "slot_length", "slot_width", "choice", "droop", "loss_soft",
        "loss_loud", "first_frequency", "reasons", "runners_up",
    }  # fmt: skip
    for reed in answer["reeds"]:
        assert wanted <= set(reed)


def test_a_whole_instrument_is_answered_slot_by_slot():
    """What is to be cut names each of the 448 slots, those without a valve as well."""
    every = chosen(load(DEMO_SHOP), INSTRUMENT)
    assert len(every) == 448  # 224 plates of two slots
    assert all(bool(one.stock) == (one.kind in (1, 2, 3)) for one in every)
    assert set(KINDS) >= {one.kind for one in every}
