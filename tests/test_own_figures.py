"""Figures of a shop's own: which rows they rest on, and what their band promises."""

from __future__ import annotations

import dataclasses
import math
import random
import statistics
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st
from job_trials import event, shelf, use, worked
from scipy import stats

from formulas.catalog import load
from formulas.jobs.own_figures import (
    OwnFigure,
    grams_per_plate,
    minutes_by_step,
    minutes_of,
    silent_jobs,
    verdict,
)
from formulas.jobs.student import student_t, within
from site_builder.places import DEMO_SHOP

TRADE = load(None)
STEP = "bed-plate"


def shop(jobs):
    """Give a shop of jobs that are done, each with its plates and its grams."""
    events, uses = [], []
    for number, (plates, *amounts) in enumerate(jobs):
        name = f"J-{number}"
        events += [event(name), event(name, "done", "2026-04-01", plates=plates)]
        uses += [use(name, grams) for grams in amounts]
    return shelf(TRADE, jobs=events, pot_uses=uses)


def timed(*minutes, done=10):
    """Give a shop that wrote hours of one step, a job each."""
    rows = [worked(f"J-{i}", STEP, done, each) for i, each in enumerate(minutes)]
    return shelf(TRADE, hours=rows)


@pytest.mark.parametrize("freedom", [*range(1, 41), 99, 100, 1001])
@pytest.mark.parametrize("share", [0.5, 0.95, 0.99])
def test_students_t_is_that_of_the_tables(freedom, share):
    """SciPy's quantile is the judge; both are good to about ten digits."""
    judge = stats.t.ppf((1 + share) / 2, freedom)
    assert student_t(freedom, share) == pytest.approx(judge, rel=1e-9)


@given(st.floats(0, 60), st.integers(1, 200))
def test_the_share_within_t_is_that_of_the_tables(t, freedom):
    """The finite sums agree with SciPy everywhere, for odd and even degrees of freedom."""
    judge = 1 - 2 * stats.t.sf(t, freedom)
    assert within(t, freedom) == pytest.approx(judge, abs=1e-10)


def test_nothing_written_is_nothing_known():
    """Without a row there is no figure, and pandas is not asked."""
    code = (
        "import sys; from formulas.catalog import load\n"
        "from formulas.jobs.own_figures import grams_per_plate, minutes_by_step\n"
        "trade = load(None)\n"
        "print(grams_per_plate(trade), minutes_by_step(trade), 'pandas' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["None", "{}", "False"]


def test_one_job_has_a_value_and_no_band():
    """Its ends are not known, and the range of the trade stands."""
    own = grams_per_plate(shop([(50, 40, 15)]))
    assert (own.jobs, own.count, own.low, own.high, own.unit) == (1, 50, None, None, "g")
    assert own.middle == pytest.approx(55 / 50)
    assert not own.replaces(0.6, 1.5)
    assert "One job" in verdict(own, 0.6, 1.5)


def test_two_jobs_by_hand():
    """Rates 0.9 and 1.1: mean 1.0, variance 0.02, t of one degree 12.706 from any table.

    Half width 12.706 sqrt(0.02 x 1.5) = 2.2007; below nought the band ends at nought.
    """
    own = grams_per_plate(shop([(100, 90), (10, 11)]))
    assert own.middle == pytest.approx(1.0)
    assert own.high == pytest.approx(1.0 + 2.2007, abs=5e-4)
    assert own.low == 0.0
    assert (own.jobs, own.count) == (2, 110)


def test_four_jobs_by_hand():
    """Minutes 3, 4, 4 and 5 for each: mean 4, variance 2/3, t of three degrees 3.1824.

    Half width 3.1824 sqrt(2/3 x 5/4) = 2.9051.
    """
    own = minutes_of(timed(30, 40, 40, 50), STEP)
    assert (own.low, own.middle, own.high) == pytest.approx((1.0949, 4.0, 6.9051), abs=5e-4)


@given(st.lists(st.tuples(st.integers(1, 300), st.floats(1, 400)), min_size=2, max_size=8))
def test_the_band_is_scipys_and_holds_the_mean(jobs):
    """SciPy's interval of one more draw is the judge, but for what the last digit leaves open."""
    rates = [grams / plates for plates, grams in jobs]
    own = grams_per_plate(shop(jobs))
    mean, count = sum(rates) / len(rates), len(rates)
    scale = statistics.stdev(rates) * math.sqrt(1 + 1 / count)
    assert own.middle == pytest.approx(mean)
    assert own.low <= own.middle <= own.high
    coarsest = sum(1 / plates**2 for plates, _ in jobs) / count / 12  # grams read to one gram
    if statistics.variance(rates) > coarsest:
        low, high = stats.t.interval(0.95, count - 1, loc=mean, scale=scale)
        assert own.low == pytest.approx(max(0.0, low), abs=1e-9)
        assert own.high == pytest.approx(high, rel=1e-9)


def test_equal_jobs_are_no_narrower_than_their_last_digit():
    """Three jobs of 50 g on 50 plates: each is read to a gram, so its rate to 1/50 over root 12."""
    own = grams_per_plate(shop([(50, 50)] * 3))
    half = stats.t.ppf(0.975, 2) * (1 / 50) / math.sqrt(12) * math.sqrt(1 + 1 / 3)
    assert own.high - own.middle == pytest.approx(half, rel=1e-9)


def test_the_order_of_the_books_does_not_matter():
    """The same rows in another order give the same figure."""
    rows = [(96, 88.0), (60, 30.5, 34.0), (68, 81.5)]
    one, two = grams_per_plate(shop(rows)), grams_per_plate(shop(rows[::-1]))
    assert (one.low, one.middle, one.high) == pytest.approx((two.low, two.middle, two.high))


def test_grams_count_only_where_they_can_be_told():
    """An open or dropped job, one without plates, without wax or without a weight tells nothing."""
    told = {"J-1": 50, "none": None, "dry": 40, "unweighed": 30}
    events = [
        row
        for name, plates in told.items()
        for row in (event(name), event(name, "done", "2026-04-01", plates=plates))
    ]
    events += [event("open"), event("lost"), event("lost", "dropped", "2026-04-01", plates=9)]
    uses = [use("J-1", 50), use("none", 9), use("open", 9), use("lost", 9), use("in no book", 9)]
    uses += [use("unweighed", 9), use("unweighed", None)]
    made = shelf(TRADE, jobs=events, pot_uses=uses)
    assert grams_per_plate(made) == OwnFigure("wax-per-plate", 1, 50, None, 1.0, None, "g")
    assert dict(silent_jobs(made)) == {
        "none": "no plates in wax were counted",
        "dry": "no wax is written for it",
        "unweighed": "a use of wax has no weight",
    }


def test_only_plates_in_wax_share_the_wax():
    """Where some plates lie on a gasket the wax is that of the others."""
    events = [event("J"), event("J", "done", "2026-04-01", plates=130, waxed=100)]
    made = shelf(TRADE, jobs=events, pot_uses=[use("J", 90)])
    assert grams_per_plate(made).middle == pytest.approx(0.9)


def test_minutes_of_one_job_are_added_before_they_are_shared():
    """Two days of one job are one value: 30 min for 10 and 90 for 20 are 4 for each."""
    rows = [worked("J", STEP, 10, 30), worked("J", STEP, 20, 90), worked("J", "close-up", 1, 25)]
    found = minutes_by_step(shelf(TRADE, hours=rows))
    assert list(found) == [STEP, "close-up"]
    assert found[STEP].middle == pytest.approx(4.0)
    assert (found[STEP].jobs, found[STEP].count) == (1, 30)


@pytest.mark.parametrize(
    ("low", "high", "replaces"),
    [(0.8, 1.2, True), (0.4, 1.4, False), (1.6, 3.9, True), (0.0, 0.59, True), (1.4, 3.9, False)],
)
def test_the_own_figure_counts_once_it_says_more(low, high, replaces):
    """It takes the trade's place where its band is no wider, or lies wholly beside the range."""
    own = OwnFigure("x", 3, 100, low, (low + high) / 2, high, "g")
    assert own.replaces(0.6, 1.5) is replaces
    assert ("takes the place" in verdict(own, 0.6, 1.5)) is replaces


# What the band promises. A shop has a mean of its own and jobs that scatter about it; the band
# made of some of them is judged by one more. Each shop is a step of one book, so that all of them
# go through the books at once; minutes are read to the minute.

SHOPS = 8000


def covered(jobs, scatter, seed):
    """Give the share of simulated shops whose band holds one more job."""
    chance = random.Random(seed)
    hours, further = [], {}
    for number in range(SHOPS):
        mean = chance.uniform(2, 6)
        for job in range(jobs + 1):
            done = chance.randint(30, 230)
            minutes = math.floor(scatter(chance, mean) * done + 0.5)
            if job == jobs:
                further[f"S-{number}"] = minutes / done
            else:
                hours.append(worked(f"J-{job}", f"S-{number}", done, minutes))
    step = TRADE.work_steps[STEP]
    steps = {name: dataclasses.replace(step, id=name) for name in further}
    found = minutes_by_step(shelf(TRADE, hours=hours, work_steps=steps))
    assert found.keys() == further.keys()
    return sum(found[name].low <= one <= found[name].high for name, one in further.items()) / SHOPS


def bell(chance, mean):
    """Scatter as a bell, a tenth of the mean."""
    return chance.gauss(mean, 0.1 * mean)


def lopsided(chance, mean):
    """Scatter by a factor, as where a few jobs take much more than the rest."""
    return mean * math.exp(chance.gauss(0, 0.3))


@pytest.mark.parametrize("jobs", [2, 3, 5, 10])
def test_of_one_hundred_further_jobs_the_band_holds_95(jobs):
    """With any number of jobs behind it: 94 to 96, four standard errors of 8000 shops."""
    assert 0.94 <= covered(jobs, bell, seed=jobs) <= 0.96


@pytest.mark.parametrize("jobs", [3, 10])
def test_a_lopsided_scatter_costs_the_band_little(jobs):
    """Where jobs scatter by a factor of a third the band still holds 93 of 100 and more."""
    assert covered(jobs, lopsided, seed=jobs) >= 0.93


def test_the_demo_shop_has_figures_within_the_trade():
    """The invented jobs take between 0.6 and 1.5 g a plate, and two steps and more have hours."""
    demo = load(DEMO_SHOP)
    own = grams_per_plate(demo)
    assert own.jobs >= 4
    assert 0.6 < own.middle < 1.5
    assert len(minutes_by_step(demo)) > 2
    assert silent_jobs(demo) == []
