"""How far somebody stands in a step, and who may work alone: rules with no way round them."""

from __future__ import annotations

import dataclasses
import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from people_trials import (
    ASSESSOR,
    COLD,
    HOT,
    LEARNER,
    STEPS,
    WORKER,
    done,
    first_year,
    mark,
    on,
)

from formulas.entries import Shop
from formulas.fault import UnknownName
from formulas.people.may import HOT_WAX, WHAT, may, needed_for, who_may
from formulas.people.standing import standing


def later(day: str, days: int) -> str:
    """Give a date so many days later."""
    return (datetime.date.fromisoformat(day) + datetime.timedelta(days)).isoformat()


def hot_wax(catalog, day):
    """Whether the learner may work hot wax alone on a day."""
    return may(catalog, LEARNER, HOT_WAX, day).may


# Order, tolerance, assessor


@pytest.mark.parametrize(
    ("marks", "state"),
    [
        ([], "open"),
        ([mark(1, COLD, "shown")], "shown"),
        ([mark(1, COLD, "shown"), mark(2, COLD, "helped")], "helped"),
        (done(1, COLD)[:3], "alone"),
        (done(1, COLD), "done"),
        ([mark(1, COLD, "helped"), mark(2, COLD, "shown")], "shown"),
        ([mark(1, COLD, "alone", 0.5)], "open"),
        ([*done(1, COLD)[:2], mark(1, COLD, "explained")], "helped"),
    ],
)
def test_a_mark_counts_in_its_order_only(marks, state):
    """Shown, helped, alone, explained: what comes before its turn leaves the step where it is."""
    assert standing(first_year(marks), LEARNER, COLD, on(9)).state == state


def test_marks_are_taken_by_date_and_not_as_they_were_typed():
    """A row that was written later and happened before counts before."""
    assert standing(first_year(done(1, COLD)[::-1]), LEARNER, COLD, on(9)).state == "shown"
    spread = [dataclasses.replace(one, date=on(at)) for at, one in enumerate(done(1, COLD), 1)]
    assert standing(first_year(spread[::-1]), LEARNER, COLD, on(9)).state == "done"


def test_a_mark_of_another_day_is_not_known_yet():
    """What is dated after the day that is asked for has not happened."""
    catalog = first_year(done(5, COLD))
    assert standing(catalog, LEARNER, COLD, on(4)).state == "open"
    assert standing(catalog, LEARNER, COLD, on(5)).state == "done"


@pytest.mark.parametrize("value", [1.01, -0.01, None])
def test_what_failed_is_kept_and_does_not_count(value):
    """Outside the tolerance written beside it, or not measured at all."""
    marks = [*done(1, COLD)[:2], mark(2, COLD, "alone", value), mark(3, COLD, "explained")]
    found = standing(first_year(marks), LEARNER, COLD, on(9))
    assert (found.state, found.passed, len(found.marks)) == ("helped", 0, 4)
    assert found.marks[2].why_not


@pytest.mark.parametrize("value", [0.0, 1.0])
def test_the_ends_of_a_tolerance_pass(value):
    """The least and the highest value are inside."""
    marks = [*done(1, COLD)[:2], mark(2, COLD, "alone", value), mark(3, COLD, "explained")]
    assert standing(first_year(marks), LEARNER, COLD, on(9)).state == "done"


def test_the_tolerance_counts_as_it_stood_on_its_day():
    """A step that is made stricter later takes nothing back."""
    strict = {COLD: dataclasses.replace(STEPS[COLD], high=0.1)}
    found = standing(first_year(done(1, COLD), steps=strict), LEARNER, COLD, on(9))
    assert found.state == "done"


def test_a_measured_step_without_a_tolerance_beside_it_does_not_count():
    """A row typed by hand with no ends is no pass."""
    bare = [dataclasses.replace(one, low=None, high=None) for one in done(1, COLD)]
    assert standing(first_year(bare), LEARNER, COLD, on(9)).state == "helped"


@pytest.mark.parametrize("by", [LEARNER, WORKER, "Nobody"])
def test_only_an_assessor_who_is_somebody_else_is_seen(by):
    """Neither the learner, nor a worker, nor a name that stands nowhere signs."""
    marks = [dataclasses.replace(one, assessor=by) for one in done(1, COLD)]
    assert standing(first_year(marks), LEARNER, COLD, on(9)).state == "open"


def test_a_step_is_done_alone_as_often_as_it_asks():
    """Twice asked and once done is `alone`, whatever was explained."""
    twice = {COLD: dataclasses.replace(STEPS[COLD], times=2)}
    found = standing(first_year(done(1, COLD), steps=twice), LEARNER, COLD, on(9))
    assert (found.state, found.passed) == ("alone", 1)
    marks = [*done(1, COLD), mark(2, COLD, "alone", 0.2), mark(2, COLD, "explained")]
    assert standing(first_year(marks, steps=twice), LEARNER, COLD, on(9)).state == "done"


# Again


@pytest.mark.parametrize(("days", "holds"), [(364, True), (365, True), (366, False)])
def test_a_year_without_the_task_is_365_days(days, holds):
    """On the 365th day it still holds, on the next it is due again, and says since when."""
    found = standing(first_year(done(1, COLD)), LEARNER, COLD, later(on(1), days))
    assert found.holds == holds
    assert found.until == later(on(1), 365)
    assert holds or on(1) in found.due[0]


def test_the_end_of_the_calendar_is_no_error():
    """A sign-off of the last year there is holds through its last day."""
    marks = done("9999-12-30", COLD)
    assert standing(first_year(marks), LEARNER, COLD, "9999-12-31").until == "9999-12-31"


def test_a_batch_keeps_a_hot_step_and_not_a_cold_one():
    """The pot book shows that the pot is still worked, not that the drill was."""
    catalog = first_year(done(1, COLD, HOT), batches=[on(300)])
    assert standing(catalog, LEARNER, HOT, on(500)).holds
    assert not standing(catalog, LEARNER, COLD, on(500)).holds


def test_a_batch_after_it_ran_out_brings_nothing_back():
    """Who melted without leave is checked again all the same."""
    catalog = first_year(done(1, COLD, HOT), batches=[on(367)])
    assert standing(catalog, LEARNER, HOT, on(368)).state == "due again"


def test_a_new_material_asks_for_it_again_by_its_first_lot():
    """Bought after the newest pass, and on the shelf on the day that is asked for."""
    marks = done(10, COLD, HOT)
    new = first_year(marks, bought=[on(20)])
    assert standing(new, LEARNER, HOT, on(19)).holds
    found = standing(new, LEARNER, HOT, on(20))
    assert "new material" in found.due[0]
    assert on(20) in found.due[0]
    assert standing(new, LEARNER, COLD, on(20)).holds
    assert standing(first_year(marks, bought=[on(20), on(5)]), LEARNER, HOT, on(30)).holds
    assert standing(first_year(marks, bought=[on(10)]), LEARNER, HOT, on(30)).holds
    again = [*marks, mark(21, HOT, "alone", 0.5)]
    assert standing(first_year(again, bought=[on(20)]), LEARNER, HOT, on(22)).holds


def test_one_pass_renews():
    """Checked again: once alone within the tolerance."""
    marks = [*done(1, COLD), mark(400, COLD, "alone", 0.5)]
    assert standing(first_year(marks), LEARNER, COLD, on(401)).holds
    failed = [*done(1, COLD), mark(400, COLD, "alone", 5)]
    assert not standing(first_year(failed), LEARNER, COLD, on(401)).holds


def test_a_chain_that_ran_out_is_renewed_from_below():
    """The hot step does not count again while the cold one it needs is due."""
    marks = [*done(1, COLD, HOT), mark(400, HOT, "alone", 0.5)]
    assert not hot_wax(first_year(marks), on(401))
    marks += [mark(402, COLD, "alone", 0.5)]
    assert not hot_wax(first_year(marks), on(403))
    marks += [mark(404, HOT, "alone", 0.5)]
    assert hot_wax(first_year(marks), on(404))


# Who may


def test_all_steps_and_all_they_need_are_asked_for():
    """A hole anywhere below closes the gate."""
    assert hot_wax(first_year(done(1, COLD, HOT)), on(2))
    assert not hot_wax(first_year(done(1, COLD)), on(2))
    assert not hot_wax(first_year(done(1, HOT)), on(2))


def test_it_holds_through_the_first_day_that_ends():
    """The day told is the last on which the answer is still yes."""
    catalog = first_year([*done(1, COLD), *done(5, HOT)])
    until = may(catalog, LEARNER, HOT_WAX, on(6)).until
    assert until == later(on(1), 365)
    assert hot_wax(catalog, until)
    assert not hot_wax(catalog, later(until, 1))


def test_the_birthday_is_the_first_day():
    """The day before it is never; on it, what was signed on it counts."""
    born = on(10)
    catalog = first_year([*done(1, COLD), *done(9, HOT)], adult_from=born)
    assert not hot_wax(catalog, on(9))
    assert not hot_wax(catalog, born), "what was signed alone under age does not count later"
    catalog = first_year([*done(1, COLD), *done(9, HOT)[:2], *done(10, HOT)], adult_from=born)
    assert not hot_wax(catalog, on(9))
    assert hot_wax(catalog, born)


def test_an_assessor_may_by_the_shops_word_but_not_under_age_or_gone():
    """No step is asked of an assessor, and nothing else is waived."""
    catalog = first_year()
    assert [who_may(catalog, what, on(5)) for what in WHAT] == [[ASSESSOR]] * 3
    one = catalog.people[ASSESSOR]
    for changed in (
        dataclasses.replace(one, adult_from=on(6)),
        dataclasses.replace(one, left=on(4)),
        dataclasses.replace(one, began=on(6)),
    ):
        other = dataclasses.replace(catalog, people={**catalog.people, ASSESSOR: changed})
        assert who_may(other, HOT_WAX, on(5)) == []


def test_the_last_day_in_the_shop_is_the_last_day():
    """It is told before, and the day after is no."""
    catalog = first_year(done(1, COLD, HOT), left=on(30))
    assert may(catalog, LEARNER, HOT_WAX, on(2)).until == on(30)
    assert hot_wax(catalog, on(30))
    assert not hot_wax(catalog, on(31))


def test_what_no_step_gives_nobody_may():
    """Without a step for the iron the answer is no, not yes."""
    found = may(first_year(done(1, COLD, HOT)), LEARNER, "iron-alone", on(2))
    assert not found.may
    assert needed_for(first_year(), "iron-alone") == []


def test_no_setting_of_the_shop_changes_who_may():
    """Every setting of shop.toml at once, and the answers are the same."""
    catalog = first_year([*done(1, COLD), *done(2, HOT)[:3]])
    changed = {}
    for field in dataclasses.fields(Shop):
        old = getattr(catalog.shop, field.name)
        kinds = {bool: not old, str: f"{old}-other", float: 7.0, int: 7}
        changed[field.name] = kinds.get(type(old), old)
    other = dataclasses.replace(catalog, shop=Shop(**changed))
    assert other.shop != catalog.shop
    for name in catalog.people:
        for what in WHAT:
            assert may(other, name, what, on(5)) == may(catalog, name, what, on(5))


def test_a_name_that_is_not_there_is_told_with_the_nearest():
    """A person and a step are looked up, never guessed."""
    with pytest.raises(UnknownName, match="did you mean 'Lena'"):
        may(first_year(), "Lenna", HOT_WAX, on(1))
    with pytest.raises(UnknownName, match="did you mean 'cold'"):
        standing(first_year(), LEARNER, "colt", on(1))


# The same rules, told once more another way: day by day, with a calendar that is walked

HELD = 4  # days


class Ladder:
    """A step climbed rung by rung; `since` counts the days since the task was last done."""

    def __init__(self):
        self.rung, self.since, self.stale = 0, None, False

    def night(self, batch):
        """Let a day go by; a batch of the new day keeps what has not run out."""
        if self.since is not None:
            self.since += 1
            if batch and self.since <= HELD and not self.stale:
                self.since = 0
            self.stale = self.stale or self.since > HELD

    def climb(self, what, good, allowed):
        """Take one mark that an assessor saw."""
        if what == "alone":
            if self.rung >= 2 and good and allowed:
                self.rung, self.since, self.stale = max(self.rung, 3), 0, False
        elif self.rung == {"shown": 0, "helped": 1, "explained": 3}[what]:
            self.rung += 1

    def state(self):
        """Say where it stands."""
        if self.rung == 4:
            return "due again" if self.stale else "done"
        return ["open", "shown", "helped", "alone"][self.rung]


def restated(marks, day, adult, batches, bought):
    """Walk from the first day to `day`; give the states, and whether hot wax may be worked alone.

    Of one day the marks of the cold step come first, as the tests write them.
    """
    cold, hot = Ladder(), Ladder()
    for today in range(day + 1):
        cold.night(batch=False)
        hot.night(batch=today in batches)
        fresh = False
        for step, what, value, by in (one[1:] for one in marks if one[0] == today):
            if by == ASSESSOR and step == COLD:
                cold.climb(what, value == 0.5, allowed=True)
            elif by == ASSESSOR:
                allowed = today >= adult and cold.state() == "done"
                hot.climb(what, value == 0.5, allowed)
                fresh = fresh or hot.since == 0
        hot.stale = hot.stale or (today == bought and hot.since is not None and not fresh)
    states = {COLD: cold.state(), HOT: hot.state()}
    return states, day >= adult and set(states.values()) == {"done"}


MARKS = some.lists(
    some.tuples(
        some.integers(0, 14),
        some.sampled_from([COLD, COLD, HOT]),
        some.sampled_from(["shown", "helped", "alone", "alone", "explained"]),
        some.sampled_from([0.5, 0.5, 0.5, 2.0]),
        some.sampled_from([ASSESSOR, ASSESSOR, ASSESSOR, WORKER]),
    ),
    max_size=26,
).map(lambda marks: sorted(marks, key=lambda one: (one[0], one[1])))
LADDER = [
    (at, step, what, 0.5, ASSESSOR)
    for at, step in ((1, COLD), (2, HOT))
    for what in ("shown", "helped", "alone", "explained")
]


@settings(max_examples=400, deadline=None)
@given(
    marks=MARKS,
    whole=some.booleans(),
    day=some.integers(0, 16),
    adult=some.sampled_from([0, 0, 2, 3, 8]),
    batches=some.sets(some.integers(0, 16), max_size=4),
)
def test_a_history_stands_as_it_does_told_day_by_day(marks, whole, day, adult, batches):
    """Simulated histories stand the same by the rules told once more, another way."""
    told = sorted([*(LADDER if whole else []), *marks], key=lambda one: (one[0], one[1]))
    catalog = first_year(
        [
            mark(at, step, what, value if what == "alone" else None, by)
            for at, step, what, value, by in told
        ],
        adult_from=on(adult),
        days=HELD,
        batches=[on(at) for at in sorted(batches)],
    )
    states, alone = restated(told, day, adult, batches, None)
    found = {step: standing(catalog, LEARNER, step, on(day)).state for step in (COLD, HOT)}
    assert found == states
    assert hot_wax(catalog, on(day)) == alone


@settings(max_examples=150, deadline=None)
@given(marks=MARKS, day=some.integers(0, 16), bought=some.integers(0, 16))
def test_a_new_material_stands_as_it_does_told_day_by_day(marks, day, bought):
    """The first lot that comes later makes the hot step due, by both tellings."""
    told = sorted([*LADDER, *marks], key=lambda one: (one[0], one[1]))
    written = [
        mark(at, step, what, value if what == "alone" else None, by)
        for at, step, what, value, by in told
    ]
    catalog = first_year(written, days=HELD, bought=[on(bought)])
    states, _ = restated(told, day, 0, set(), bought)
    assert standing(catalog, LEARNER, HOT, on(day)).state == states[HOT]


@settings(max_examples=150, deadline=None)
@given(marks=MARKS, day=some.integers(0, 9), role=some.sampled_from(["learner", "assessor"]))
def test_under_age_never(marks, day, role):
    """No history and no role lets somebody work alone before the day of age."""
    written = [
        mark(at, step, what, 0.5 if what == "alone" else None) for at, step, what, *_ in marks
    ]
    catalog = first_year([*done(0, COLD, HOT), *written], adult_from=on(10))
    one = dataclasses.replace(catalog.people[LEARNER], role=role)
    catalog = dataclasses.replace(catalog, people={**catalog.people, LEARNER: one})
    assert not any(may(catalog, LEARNER, what, on(day)).may for what in WHAT)
