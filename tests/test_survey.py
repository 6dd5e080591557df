"""The condition survey: what grades change, what may be kept, and the checks of both tables."""

from __future__ import annotations

import dataclasses

import pytest

from formulas import catalog as catalogs
from formulas.catalog import load
from formulas.fault import Faults, UnknownName
from formulas.jobs.drop_time import drop_flow, drop_pressure
from formulas.jobs.job import KEPT, JobBlock
from formulas.jobs.survey import (
    KEPT_PARTS,
    Change,
    Changes,
    changes_of,
    grade_of,
    grades_of,
    may_keep,
    read_change,
    times_of,
)
from formulas.jobs.survey_checks import survey_faults
from formulas.valves.fitting_tests import leak_area
from site_builder.places import CONTENT

CATALOG = load(None)
ROWS = catalogs.opened(None)[1]
PARTS = ("wax", "leather", "plates", "tongues", "block", "gasket")


def with_grade(**changed):
    """Give the catalog with other words in the grade of cracked wax."""
    one = dataclasses.replace(CATALOG.survey_grades["wax-cracked"], **changed)
    return dataclasses.replace(CATALOG, survey_grades={**CATALOG.survey_grades, one.id: one})


def block(keep=(), **found):
    """Make a block of a job that was graded so."""
    return JobBlock(
        "7", "", "low", 1, 20, None, None, None, "wax-fillet", "", "", tuple(keep), found
    )


# The grades


@pytest.mark.parametrize("part", PARTS)
def test_each_part_has_five_words_from_good_to_bad(part):
    """Ranks run from 0 to 4 without a gap; the best may be kept and changes nothing."""
    own = [one for one in CATALOG.survey_grades.values() if one.what == part]
    assert sorted(one.rank for one in own) == [0, 1, 2, 3, 4]
    (best,) = [one for one in own if one.rank == 0]
    assert (best.keep, best.steps) == ("yes", ())
    assert max(own, key=lambda one: one.rank).keep != "yes"


def test_no_grade_claims_a_source():
    """Nobody published these words: each row says that it is from memory."""
    assert {one.basis for one in CATALOG.survey_grades.values()} == {"memory"}


def test_a_grade_is_found_by_its_word_and_by_its_id():
    """A job file writes the word, the tool its id: both are the same grade."""
    by_word, by_id = (grade_of(CATALOG, "wax", name) for name in ("cracked", "wax-cracked"))
    assert by_word is by_id is CATALOG.survey_grades["wax-cracked"]


@pytest.mark.parametrize(
    ("what", "grade", "near"), [("wax", "craked", "cracked"), ("plate", "cracked", "plates")]
)
def test_a_word_that_is_no_grade_is_refused(what, grade, near):
    """A near word is offered."""
    with pytest.raises(UnknownName, match=f"did you mean '{near}'"):
        grade_of(CATALOG, what, grade)


def test_grades_come_in_the_order_of_the_table():
    """Whatever the order on the form."""
    found = grades_of(CATALOG, {"tongues": "bent", "wax": "hard"})
    assert [one.id for one in found] == ["wax-hard", "tongues-bent"]


# What they change


@pytest.mark.parametrize("text", ["", "lift-plate", "lift-plate:2", "lift:1,2-2", "+", "+a:1"])
def test_what_is_no_change_is_none(text):
    """Both ends stand, and a bare name changes nothing."""
    assert read_change(text, "x") is None


def test_times_multiply_end_by_end():
    """By hand: 2 to 5 minutes, times 1.2 to 2 is 2.4 to 10; times 1 to 1.5 again 2.4 to 15."""
    made = with_grade(steps=("lift-plate:1.2-2",))
    step = dataclasses.replace(CATALOG.work_steps["lift-plate"], minutes_low=2, minutes_high=5)
    once = times_of(step, changes_of(made, {"wax": "cracked"}))
    assert once == (1.2, 2.0, ("wax-cracked",))
    assert (step.minutes_low * once[0], step.minutes_high * once[1]) == (2.4, 10)
    twice = Changes(
        (Change(step.id, 1.2, 2, "wax-cracked"), Change(step.id, 1, 1.5, "plates-bowed")), ()
    )
    low, high, grades = times_of(step, twice)
    assert (step.minutes_low * low, step.minutes_high * high) == (2.4, 15)
    assert grades == ("wax-cracked", "plates-bowed")


def test_a_share_of_an_added_step_counts_few_of_them():
    """By hand: 20 plates, 15 to 60 minutes, a tenth to a half of them: 30 to 600 minutes."""
    made = with_grade(steps=("+replace-plate:0.1-0.5",))
    step = CATALOG.work_steps["replace-plate"]
    assert (step.minutes_low, step.minutes_high) == (15, 60)
    low, high, _ = times_of(step, changes_of(made, {"wax": "cracked"}))
    assert (20 * 15 * low, 20 * 60 * high) == pytest.approx((30, 600))


def test_a_step_that_two_grades_add_is_not_done_twice():
    """The larger share counts at each end: a broken tongue is no second pitted one."""
    step = CATALOG.work_steps["replace-tongue"]
    both = (Change(step.id, 0.02, 0.5, "a"), Change(step.id, 0.1, 0.2, "b"))
    assert times_of(step, Changes((), both)) == (0.1, 0.5, ("a", "b"))


def test_what_was_not_graded_changes_nothing():
    """No grade, no change; another step is left alone."""
    assert changes_of(CATALOG, {}) == ((), ())
    changes = changes_of(CATALOG, {"wax": "wrong-material"})
    assert times_of(CATALOG.work_steps["buzz-sweep"], changes) == (1, 1, ())


def test_corrosion_adds_a_step_and_lengthens_another():
    """What the table says of corroded plates comes out apart."""
    times, added = changes_of(CATALOG, {"plates": "corroded"})
    assert [one.step for one in times] == ["clean-plate"]
    assert added == (Change("derust-plate", 1, 1, "plates-corroded"),)


# What may be kept


def test_every_thing_that_can_be_kept_has_its_grades():
    """Nothing an owner may keep is without a line of the survey."""
    assert set(KEPT_PARTS) == set(KEPT)
    assert {part for parts in KEPT_PARTS.values() for part in parts} < set(PARTS)


def test_keeping_what_is_sound_asks_nothing():
    """A grade that may be kept is not talked about."""
    assert may_keep(CATALOG, block(keep=["valves"], leather="leather-sound")) == []


def test_keeping_hard_leather_is_told_and_named():
    """The block, the grade in words, and what it implies."""
    (told,) = may_keep(CATALOG, block(keep=["valves"], leather="leather-hard", wax="wax-lifted"))
    for words in ("Block 7", "valves", "'hard'", "tried", "chokes its note"):
        assert words in told


def test_keeping_wax_leaves_the_inside_valves_where_they_are():
    """Where the valves are to be new and the wax stays, the inside ones cannot be reached."""
    told = may_keep(CATALOG, block(keep=["wax"], wax="wax-lifted"))
    assert len(told) == 2
    assert "does not hold as it is" in told[0]
    assert "inside valves stay" in told[1]
    assert may_keep(CATALOG, block(keep=["wax", "valves"], wax="wax-sound")) == []


def test_what_was_not_graded_is_not_judged():
    """No grade, no word."""
    assert may_keep(CATALOG, block(keep=["plates", "valves"])) == []


# The checks of the tables


def faults_with(table, key, **cells):
    """Give the faults where one row has other cells."""
    changed = [
        dataclasses.replace(row, cells={**row.cells, **cells}) if row["id"] == key else row
        for row in ROWS[table]
    ]
    return [str(one) for one in survey_faults({**ROWS, table: changed})]


def test_the_tables_of_the_trade_have_no_fault():
    """As they stand."""
    assert list(survey_faults(ROWS)) == []


STEP_FAULTS = [
    ("bed-plate", {"minutes_high": 1.0}, "minutes_high: found '1.0', accepted: 2 or more"),
    ("bed-plate", {"applies": "wacks"}, "applies: found 'wacks'"),
    ("bed-plate", {"spared_by": "valve"}, "did you mean 'valves'"),
    ("bed-plate", {"cautions": "hot-wax-bern"}, "did you mean 'hot-wax-burn'"),
    ("bed-plate", {"face": "inside"}, "face: found 'inside', accepted: nothing"),
    ("bed-plate", {"place": 10}, "place: found '10', accepted: a place of its own"),
    ("sign-inside-valves", {"hold_point": "no"}, "accepted: yes: nobody may skip"),
    ("sign-inside-valves", {"place": 9000}, "it comes before 'bed-plate'"),
    ("tuning", {"place": 5}, "it comes before 'tuning'"),
    ("agree-work", {"place": 9000}, "it comes before 'lift-plate'"),
]


@pytest.mark.parametrize(("key", "cells", "said"), STEP_FAULTS)
def test_a_fault_of_a_step_is_named(key, cells, said):
    """File, line, column, what was found and what is accepted."""
    found = faults_with("work_steps.csv", key, **cells)
    assert any(one.startswith("work_steps.csv:") and said in one for one in found), found


GRADE_FAULTS = [
    ({"steps": "lift-plat:1-2"}, "did you mean 'lift-plate'"),
    ({"steps": "lift-plate:2-1"}, "low before high"),
    ({"steps": "lift-plate:0-1"}, "numbers above 0"),
    ({"steps": "lift-plate"}, "such as lift-plate:1.2-2"),
    ({"steps": "+lift-plate"}, "no + before 'lift-plate'"),
    ({"steps": "derust-plate:1-2"}, "+ before 'derust-plate'"),
    ({"cautions": "old-dusk"}, "did you mean 'old-dust'"),
    ({"rank": 1}, "a rank of its own, 'wax-hard' has it"),
    ({"grade": "broken"}, "id: found 'wax-cracked', accepted: 'wax-broken'"),
]


@pytest.mark.parametrize(("cells", "said"), GRADE_FAULTS)
def test_a_fault_of_a_grade_is_named(cells, said):
    """Every name that names nothing, every number the wrong way round."""
    found = faults_with("survey_grades.csv", "wax-cracked", **cells)
    assert any(one.startswith("survey_grades.csv:") and said in one for one in found), found


def test_a_shop_cannot_move_a_hold_point(tmp_path):
    """A shop's own row over the trade's is checked as well, and nothing is read."""
    demo = (CONTENT / "demo-shop" / "shop.toml").read_text("utf-8")
    (tmp_path / "shop.toml").write_text(
        "\n".join(line for line in demo.splitlines() if line.startswith(("name", "invented")))
    )
    (tmp_path / "work_steps.csv").write_text(
        "id,place,name,per,minutes_low,minutes_high,applies,hold_point,done_when,basis\n"
        "sign-inside-valves,990,Sign,plate,1,2,any,no,Signed,practice\n"
    )
    with pytest.raises(Faults, match="nobody may skip") as caught:
        load(tmp_path)
    assert "it comes before 'bed-plate'" in str(caught.value)


# The drop time


def test_the_fall_reckoned_by_hand():
    """Half of 3 kg on 500 cm2: 588.4 Pa. 30 cm in 30 s: 0.5 l/s, a hole of 26.6 mm2."""
    pressure = drop_pressure(3, 0.05, 9.80665)
    flow = drop_flow(0.05, 0.3, 30)
    assert pressure == pytest.approx(588.4, abs=0.05)
    assert flow == pytest.approx(0.0005)
    # sqrt(2 * 588.4 / 1.2) = 31.32 m/s; 0.0005 / (0.6 * 31.32) = 2.661e-5
    assert leak_area(flow, pressure, 1.2, 0.6) == pytest.approx(2.661e-5, rel=1e-3)


def test_twice_the_time_is_half_the_leak():
    """With the same weight and length the ratio of times is that of the leaks."""
    before, after = (leak_area(drop_flow(0.05, 0.3, t), 600, 1.2, 0.6) for t in (20, 40))
    assert before == pytest.approx(2 * after)
