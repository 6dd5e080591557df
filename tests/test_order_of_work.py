"""The order of work: what stands before what, which steps apply, and that each can be done."""

from __future__ import annotations

import itertools

import pytest

from formulas.catalog import load
from formulas.fault import UnknownName
from formulas.jobs.order import in_order, order_of_work
from formulas.jobs.survey_checks import FIRST_THEN, HOLD_POINTS, SEATED
from site_builder import content
from site_builder.places import CONTENT

CATALOG = load(None)
STEPS = in_order(CATALOG)
PLACE = {step.id: step.place for step in STEPS}
GROUPS = ("wax", "gasket", "screwed", "friction", "sealant")
SEAT_OF = dict(zip(GROUPS, SEATED, strict=True))


def ids(groups=(), found=(), kept=()):
    """Give the ids of the steps that apply."""
    return [step.id for step in order_of_work(CATALOG, groups, found, kept)]


WANTED = (
    "map-plates record-pitch survey-block drop-time-before leaks-before agree-work lift-plate"
    " clean-plate derust-plate centre-tongue fit-inside-valve rest-inside-valves"
    " sign-inside-valves prepare-block bed-plate fit-outside-valve check-seat buzz-sweep"
    " rest-before-closing drop-time-after tuning hand-over"
)


# What stands before what


def test_the_order_is_that_of_the_bench():
    """Map, survey, leak tests, lift, clean, inside valves, sign, wax, outside valves, tests, rest.

    Then the last drop time, tuning outside the handbook, and the hand-over.
    """
    assert sorted(WANTED.split(), key=PLACE.get) == WANTED.split()


@pytest.mark.parametrize(("first", "then"), FIRST_THEN)
def test_each_hold_point_stands_before_what_it_guards(first, then):
    """And tuning comes after valves and wax."""
    assert PLACE[first] < PLACE[then]


def test_tuning_comes_after_everything_that_moves_pitch():
    """Nothing between tuning and hand-over touches plate, tongue or valve."""
    after = [step for step in STEPS if step.place > PLACE["tuning"]]
    assert {step.per for step in after} == {"job"}
    assert [step.id for step in after] == ["hand-over", "write-it-down"]


def test_there_are_four_hold_points_and_each_says_when_it_is_passed():
    """No other row is one, and none is without a leaf."""
    held = [step for step in STEPS if step.hold_point]
    assert tuple(step.id for step in held) == HOLD_POINTS
    assert all(step.leaf and step.done_when for step in held)


def test_a_rest_follows_each_work_with_glue_or_wax():
    """A rest takes no minutes, and no other step takes none."""
    assert [step.id for step in STEPS if step.minutes_high == 0] == [
        "rest-inside-valves", "rest-wax", "rest-outside-valves", "rest-before-closing",
    ]  # fmt: skip
    for work, rest in (
        ("fit-inside-valve", "rest-inside-valves"),
        ("bed-plate", "rest-wax"),
        ("fit-outside-valve", "rest-outside-valves"),
    ):
        assert PLACE[work] < PLACE[rest] < PLACE["check-seat"]


def test_no_step_promises_a_pitch_or_tunes():
    """Tuning is one line, outside the handbook, and takes no more than handing over."""
    told = [step for step in STEPS if "tun" in step.name.lower()]
    assert [step.id for step in told] == ["tuning"]
    tuning = CATALOG.work_steps["tuning"]
    assert "outside this handbook" in tuning.name
    assert tuning.minutes_high <= 15
    assert (tuning.per, tuning.hold_point) == ("job", False)


# Which steps apply


@pytest.mark.parametrize("group", GROUPS)
def test_each_group_has_one_way_to_seat_a_plate(group):
    """And none of the others'."""
    steps = ids({group})
    assert [one for one in SEATED if one in steps] == [SEAT_OF[group]]


@pytest.mark.parametrize("group", GROUPS)
def test_whatever_the_seat_valves_are_signed_before_it(group):
    """The inside valve is out of reach under a gasket as under wax."""
    steps = ids({group})
    wanted = ["fit-inside-valve", "sign-inside-valves", SEAT_OF[group], "check-seat", "tuning"]
    assert sorted(wanted, key=steps.index) == wanted


def test_no_heat_where_there_is_no_wax():
    """A concertina on gaskets asks for no pot."""
    steps = set(ids({"gasket", "friction", "screwed"}))
    assert not steps & {"ready-for-heat", "melt-wax", "bed-plate", "fill-sink", "rest-wax"}
    assert {"ready-for-heat", "melt-wax"} <= set(ids({"gasket", "wax"}))


def test_a_job_of_two_seats_has_the_steps_of_both_once():
    """The union of the groups, in one order."""
    both = ids({"wax", "screwed"})
    assert len(both) == len(set(both))
    assert set(both) == set(ids({"wax"})) | set(ids({"screwed"}))


def test_a_found_step_is_done_only_where_it_was_found():
    """Corroded plates add their step and no other."""
    found = ids({"wax"}, {"plates-corroded"})
    assert [one for one in found if one not in ids({"wax"})] == ["derust-plate"]


def test_every_found_step_is_asked_for_by_some_grade():
    """No step waits for a grade that is not there."""
    wanted = {step.id for step in STEPS if "found" in step.applies}
    assert wanted == set(ids((), CATALOG.survey_grades)) - set(ids())


def test_kept_valves_spare_cutting_and_fitting_and_ask_for_care():
    """Owner keeps: look, clean, test, and sign all the same."""
    kept = set(ids({"wax"}, (), {"valves"}))
    assert not kept & {"choose-valves", "cut-valve", "fit-inside-valve", "fit-outside-valve"}
    assert {"care-for-valve", "sign-inside-valves"} <= kept
    assert "care-for-valve" not in ids({"wax"})


def test_kept_wax_lifts_no_plate_and_melts_no_wax():
    """Nothing inside is reached, so nothing inside is signed; leaks are still looked for."""
    kept = set(ids({"wax"}, {"plates-corroded", "block-warped"}, {"wax"}))
    gone = "lift-plate take-old-wax-out fit-inside-valve sign-inside-valves bed-plate melt-wax"
    assert not kept & {*gone.split(), "derust-plate", "true-block"}
    assert {"mend-kept-wax", "fit-outside-valve", "check-seat"} <= kept


def test_a_frame_in_its_slot_goes_the_same_road():
    """Friction, rust on the tongues, valves kept: no wax, no gasket, each of the three told."""
    steps = ids({"friction"}, {"tongues-rust-film"}, {"valves"})
    assert {"push-out-plate", "push-in-plate", "derust-tongue", "care-for-valve"} <= set(steps)
    assert not {"lift-plate", "strip-gasket", "fit-inside-valve"} & set(steps)


def test_a_name_that_is_not_there_is_refused():
    """A group, a grade."""
    with pytest.raises(UnknownName, match="did you mean 'gasket'"):
        ids({"gaskett"})
    with pytest.raises(UnknownName, match="did you mean 'wax-cracked'"):
        ids({"wax"}, {"wax-craked"})


# Each step can be done


def test_every_leaf_of_a_step_is_there():
    """The slug leads to a leaf; a step without one says why."""
    slugs = {leaf.slug for leaf in content.read(CATALOG).leaves}
    for step in STEPS:
        if step.leaf:
            assert step.leaf in slugs, step.id
        else:
            assert "no leaf" in step.note, step.id


def test_every_caution_of_a_step_stands_on_its_leaf():
    """Who follows the step to its leaf meets the danger there, where the step names any."""
    shown = {
        leaf.slug: {box.get("id") for box in leaf.tree.iter("caution")}
        for leaf in content.read(CATALOG).leaves
    }
    for step in STEPS:
        if step.cautions and step.leaf:
            assert shown[step.leaf] & {*step.cautions}, step.id


def test_heat_names_its_dangers():
    """Every step with molten wax or an iron warns of the burn or the fume, and of being alone."""
    for step in STEPS:
        if "hot-wax-burn" in step.cautions and step.id not in {"lift-plate", "take-old-wax-out"}:
            assert "never-alone" in step.cautions, step.id
            assert "rosin-fume" in step.cautions, step.id


def test_bedding_takes_what_plates_an_hour_say():
    """Two rows on one thing agree: 10 to 30 plates an hour are 2 to 6 minutes a plate."""
    low, high = CATALOG.span("plates-an-hour", "dimensionless")
    step = CATALOG.work_steps["bed-plate"]
    assert (step.minutes_low, step.minutes_high) == (60 / high, 60 / low)


def test_a_valve_takes_about_five_minutes():
    """Common practice lies between the ends, on both faces alike; the rest is from memory."""
    for face in ("inside", "outside"):
        (step,) = [one for one in STEPS if one.face == face]
        assert step.minutes_low < 5 < step.minutes_high
        assert step.basis == "practice"
    assert {one.basis for one in STEPS if not one.face} == {"memory"}


def test_places_count_in_tens():
    """So that a shop can write its own steps between."""
    assert all(b - a == 10 for a, b in itertools.pairwise(step.place for step in STEPS))


def test_the_list_of_leaves_reads_the_files():
    """The leaves that a list may link are those of the handbook, and no more."""
    from site_builder.parts.job_survey_parts import handbook_leaves

    slugs = {leaf.slug for leaf in content.read(CATALOG, CONTENT).leaves}
    assert handbook_leaves() == slugs
