"""The steps of the first year, people and sign-offs: what the tables must hold, each fault told."""

from __future__ import annotations

import re
import shutil

import pytest
from leaf_reading import handbook, trade

from formulas.catalog import TABLES, load
from formulas.fault import Faults
from formulas.first_year_checks import first_year_faults
from formulas.people.may import WHAT, needed_for
from formulas.people.standing import in_order
from formulas.table import Row
from formulas.units import convert
from site_builder.places import DEMO_SHOP
from site_builder.start import lay_down

STEPS = trade().first_year_steps


def test_the_order_begins_with_the_fire_drill_and_ends_with_a_job():
    """Safety first, then cold work, and heat not before both."""
    stages = sorted(trade().first_year_stages.values(), key=lambda one: one.place)
    assert [one.id for one in stages] == [
        *("safety", "cold-and-weighing", "melting", "bedding", "testing", "stock"),
        *("cutting", "fitting", "block", "rank", "job"),
    ]
    hot = next(at for at, one in enumerate(in_order(trade())) if one.hot or one.solvent)
    before = in_order(trade())[:hot]
    assert {one.stage for one in before} == {"safety", "cold-and-weighing", "melting"}
    assert "fire-drill-cold" in {one.id for one in before}


def test_every_stage_has_steps_and_every_place_one():
    """No stage is empty, and no two steps stand at one place."""
    places = [(one.stage, one.place) for one in STEPS.values()]
    assert len(set(places)) == len(places)
    assert {stage for stage, _ in places} == set(trade().first_year_stages)


def test_every_leaf_to_read_is_there():
    """What is to be read first is a leaf of the handbook."""
    slugs = {leaf.slug for leaf in handbook().leaves}
    assert {name for one in STEPS.values() for name in one.read} <= slugs


def test_the_cold_work_of_the_first_days_is_there():
    """Plates, slots, paper valves and rosin are learned before anything is warm, and are cold."""
    cold = [one for one in STEPS.values() if one.stage == "cold-and-weighing"]
    names = {one.id for one in cold}
    assert {"sort-plates", "measure-slots", "cut-paper-valves", "weigh-rosin"} <= names
    assert not any(one.hot or one.solvent for one in cold)


@pytest.mark.parametrize("what", WHAT)
def test_each_sign_off_rests_on_the_drills(what):
    """Nobody works alone with heat or solvent without the fire drill and knowing whom to ask."""
    needed = needed_for(trade(), what)
    names = {one.id for one in needed}
    assert {"find-by-hand", "fire-drill-cold", "ask-and-stop", "room-before-heat"} <= names
    (gives,) = [one for one in needed if one.gives == what]
    assert gives.renew
    assert gives.times > 1
    assert needed[-1] == gives
    assert "burn-drill" in names or what == "solvent-alone"


def test_heat_and_solvent_are_renewed():
    """Every step with heat or solvent runs out, and so do the drills."""
    for one in STEPS.values():
        assert one.renew or not (one.hot or one.solvent), one.id
    assert all(STEPS[name].renew for name in ("fire-drill-cold", "burn-drill", "find-by-hand"))


def test_a_hot_step_has_the_cautions_of_heat():
    """What burns is told with each step that can burn somebody."""
    for one in STEPS.values():
        if one.hot:
            assert {"hot-wax-burn", "never-alone", "carry-hot-pot"} & set(one.cautions), one.id
        if one.solvent:
            assert "solvent-and-heat" in one.cautions, one.id


def test_what_is_measured_has_a_tolerance_and_done_twice_means_twice():
    """Every step is held against something, and work alone is seen more than once."""
    for one in STEPS.values():
        assert one.measured
        assert one.low is not None or one.high is not None
        assert one.times > 1 or one.stage in {"rank", "job"}, one.id


def test_a_tolerance_is_one_that_honest_work_meets():
    """Two drop points by the spread of a home rig, the loss by the ends of both losses.

    The tables hold both to one decimal: half of it is let.
    """
    catalog = trade()
    spread = catalog.span("home-rig-spread", "delta_degC")[1]
    pair = catalog.span("pair-apart", "delta_degC")[1]
    assert pair == pytest.approx(1.96 * 2**0.5 * spread, abs=0.05)
    assert STEPS["drop-point"].high == pair
    kept = [1 - catalog.span(name, "1")[1] for name in ("straining-loss", "pot-loss")]
    lost = catalog.span("loss-together", "percent")[1]
    assert lost == pytest.approx(100 * (1 - kept[0] * kept[1]), abs=0.05)
    assert STEPS["dissolve-and-strain"].high == lost
    length = catalog.span("slot-length-reading", "mm")[1]
    assert (STEPS["slot-lengths"].high, STEPS["slot-lengths"].unit) == (length, "mm")


def test_a_sign_off_holds_a_year_and_no_longer():
    """The figure is in days, and a year is its most."""
    low, high = trade().span("recheck-after", "year")
    assert low == high
    assert convert(364, "day", "year") < low <= 1


# Faults

HEADS = (TABLES / "first_year_steps.csv").read_text("utf-8").partition("\n")[0].split(",")
PEOPLE = {
    "Anna": {"person": "Anna", "role": "assessor", "began": "2020-01-01"},
    "Lena": {"person": "Lena", "role": "learner", "began": "2026-01-01", "left": "2026-12-31"},
    "Willi": {"person": "Willi", "role": "worker", "began": "2020-01-01"},
}
SIGNED = {"date": "2026-02-01", "person": "Lena", "step": "a", "mark": "alone", "assessor": "Anna"}


def step(name, **cells):
    """Make the row of a step; its place follows its name."""
    made = dict.fromkeys(HEADS) | {"id": name, "stage": "s", "place": ord(name)}
    made |= {"hot": "no", "solvent": "no", **cells}
    return Row("first_year_steps.csv", ord(name), made)


def told(*steps, people=(), marks=(), figures=()):
    """Give the faults of these rows as they are said."""
    blank = dict.fromkeys(["left", "adult_from", "value", "low", "high", "unit", "seen_on"])
    rows = {
        "first_year_steps.csv": list(steps) or [step("a")],
        "first_year_stages.csv": [Row("first_year_stages.csv", 2, {"id": "s", "place": 10})],
        "cautions.csv": [Row("cautions.csv", 2, {"id": "wax-fire"})],
        "figures.csv": [Row("figures.csv", 9, one) for one in figures],
        "people.csv": [Row("people.csv", at, {**blank, **one}) for at, one in enumerate(people, 2)],
        "signoffs.csv": [
            Row("signoffs.csv", at, {**blank, **SIGNED, **one}) for at, one in enumerate(marks, 2)
        ],
    }
    return [str(one) for one in first_year_faults(rows)]


@pytest.mark.parametrize(
    ("steps", "said"),
    [
        ([step("a", needs="bb"), step("b")], "needs: found 'bb', accepted: ids of first_year"),
        ([step("a", needs="b"), step("b")], "needs: found 'b', accepted: steps that come before a"),
        ([step("a", cautions="wax-fir")], "did you mean 'wax-fire'"),
        ([step("a", measured="gap", low=2, high=1)], "low: found '2', accepted: no more than 1"),
        ([step("a", high=1)], "measured: found nothing"),
        ([step("a", measured="gap")], "high: found nothing"),
        ([step("a"), step("b", gives="iron-alone", needs="a")], "hot: found 'no', accepted: yes"),
        (
            [step("a"), step("b", gives="solvent-alone", needs="a", hot="yes")],
            "solvent: found 'no', accepted: yes",
        ),
        ([step("a", gives="iron-alone", hot="yes")], "needs: found nothing"),
    ],
)
def test_a_fault_of_a_step_is_told(steps, said):
    """Each rule has its fault, with the row and the column."""
    (fault,) = told(*steps)
    assert said in fault


def test_a_circle_of_needs_is_told_as_one():
    """Steps that wait for each other are named round, and a step for itself as well."""
    faults = told(step("a", needs="c"), step("b", needs="a"), step("c", needs="b"))
    assert len(faults) == 3
    assert all(re.search(r"no circle: (\w) needs \w needs \w needs \1$", one) for one in faults)
    (alone,) = told(step("a", needs="a"))
    assert alone.endswith("no circle: a needs a")


@pytest.mark.parametrize(
    ("cells", "said"),
    [
        ({"person": "Lenna"}, "person: found 'Lenna', accepted: a person of people.csv; did you"),
        ({"assessor": "Ana"}, "did you mean 'Anna'"),
        ({"assessor": "Willi"}, "accepted: an assessor: people.csv has a worker there"),
        ({"person": "Anna"}, "somebody else"),
        ({"step": "q"}, "step: found 'q', accepted: an id of first_year_steps.csv"),
        ({"date": "2025-12-31"}, "2026-01-01 or later: Lena began on that day"),
        ({"date": "2027-01-01"}, "2026-12-31 or earlier: Lena left on that day"),
        ({"mark": "shown", "value": 1.0}, "value: found '1.0', accepted: nothing"),
        ({"low": 2.0, "high": 1.0}, "low: found '2.0', accepted: no more than 1"),
    ],
)
def test_a_fault_of_a_sign_off_is_told(cells, said):
    """Names, days and values, each with what is accepted."""
    (fault,) = told(people=PEOPLE.values(), marks=[cells])
    assert fault.startswith("signoffs.csv:2: ")
    assert said in fault


def test_a_mark_out_of_its_order_is_no_fault():
    """It happened, and does not count."""
    assert told(people=PEOPLE.values(), marks=[{"mark": "explained"}, {"mark": "shown"}]) == []


def test_somebody_leaves_after_the_first_day():
    """The day of leaving may be the first one, not an earlier one."""
    lena = PEOPLE["Lena"]
    assert told(people=[lena | {"left": "2026-01-01"}]) == []
    (fault,) = told(people=[lena | {"left": "2025-12-31"}])
    assert "left: found '2025-12-31', accepted: 2026-01-01 or later" in fault


@pytest.mark.parametrize(
    ("cells", "faults"),
    [
        ({"low": 365, "high": 365, "unit": "day"}, 0),
        ({"low": 90, "high": 90, "unit": "day"}, 0),
        ({"low": 366, "high": 366, "unit": "day"}, 1),
        ({"low": 2, "high": 2, "unit": "year"}, 1),
        ({"low": 0, "high": 0, "unit": "day"}, 1),
        ({"low": None, "high": None, "unit": "day"}, 1),
        ({"low": 1, "high": 1, "unit": "mm"}, 1),
    ],
)
def test_a_shop_may_ask_sooner_and_never_later(cells, faults):
    """The time after which a sign-off lapses is a figure; no shop stretches it over a year."""
    assert len(told(figures=[{"id": "recheck-after", **cells}])) == faults


@pytest.mark.parametrize("column", ["health", "asthma", "eczema", "allergy", "note", "adult_form"])
@pytest.mark.parametrize("table", ["people", "signoffs"])
def test_a_column_on_health_is_refused_with_the_way_to_ask(tmp_path, table, column):
    """Whatever it is called: nothing on anybody's health is kept."""
    lay_down(tmp_path / "shop")
    path = tmp_path / "shop" / f"{table}.csv"
    head, _, rest = path.read_text("utf-8").partition("\n")
    path.write_text(f"{head},{column}\n{rest}", "utf-8")
    with pytest.raises(Faults) as raised:
        load(tmp_path / "shop")
    (fault,) = raised.value.faults
    assert (fault.file, fault.row, fault.found) == (f"{table}.csv", 1, column)
    assert "nothing on health is kept here: ask by the form for the doctor" in str(fault)


def test_steps_are_the_trades_and_no_shop_replaces_one(tmp_path):
    """A table of steps laid into a shop folder changes nothing."""
    lay_down(tmp_path / "shop")
    text = (TABLES / "first_year_steps.csv").read_text("utf-8").partition("\n")[0] + "\n"
    (tmp_path / "shop" / "first_year_steps.csv").write_text(text, "utf-8")
    assert load(tmp_path / "shop").first_year_steps == STEPS


def test_the_demo_shop_shows_each_kind_of_standing(tmp_path):
    """Its books hold all that a page can show: done, due, failed, under age, in the middle."""
    shutil.copytree(DEMO_SHOP, tmp_path / "shop")
    catalog = load(tmp_path / "shop")
    assert {one.role for one in catalog.people.values()} == {"assessor", "worker", "learner"}
    assert catalog.people["Nika"].adult_from == "2027-05-14"
    assert {one.basis for one in catalog.signoffs} == {"invented"}
    assert all(one.date < "2027" for one in catalog.signoffs)
