"""`who`, `record person` and `record signoff`, and that none of their options opens the gate."""

from __future__ import annotations

import itertools
import json
import shutil

import click
import pytest
from click.testing import CliRunner
from leaf_reading import trade

from formulas.catalog import load
from formulas.people.gate import people_notices
from formulas.people.may import WHAT
from formulas.people.standing import in_order
from site_builder.commands import main
from site_builder.places import DEMO_SHOP
from site_builder.start import lay_down

DAY = "2026-11-28"


def run(*words):
    """Run a command."""
    return CliRunner().invoke(main, [*words])


@pytest.fixture(scope="module")
def kept(tmp_path_factory):
    """Copy the demo shop once, for what only reads."""
    return shutil.copytree(DEMO_SHOP, tmp_path_factory.mktemp("shop") / "shop")


@pytest.fixture
def shop(tmp_path):
    """Copy the demo shop, to write into."""
    return shutil.copytree(DEMO_SHOP, tmp_path / "shop")


def said(*words, shop):
    """Run a command in a shop and read its JSON."""
    found = run(*words, "--shop", str(shop), "--json")
    assert found.exit_code in {0, 1}, found.output
    return json.loads(found.stdout)["answer"]


def sign(shop, *words):
    """Run `record signoff` in a shop."""
    return run("record", "signoff", *words, "--shop", str(shop))


# who


def test_who_may_what_in_the_demo_shop(kept):
    """The owner all, Ivo not solvent, Tomas wax and iron, Nika nothing."""
    people = {one["person"]: one["may"] for one in said("who", "--on", DAY, shop=kept)["people"]}
    told = {name: [may[what]["may"] for what in WHAT] for name, may in people.items()}
    assert told == {
        "Marta": [True, True, True],
        "Ivo": [True, True, False],
        "Tomas": [True, True, False],
        "Nika": [False, False, False],
    }
    assert "due again: solvent-alone" in people["Ivo"]["solvent-alone"]["why_not"][0]
    assert "under 18 until 2027-05-14" in people["Nika"]["hot-wax-alone"]["why_not"][0]


@pytest.mark.parametrize(
    ("name", "what", "on", "code"),
    [
        ("Tomas", "hot-wax-alone", "2026-08-17", 1),
        ("Tomas", "hot-wax-alone", "2026-08-18", 0),
        ("Tomas", "solvent-alone", DAY, 1),
        ("Ivo", "solvent-alone", "2026-10-06", 0),
        ("Ivo", "solvent-alone", "2026-10-07", 1),
        ("Nika", "iron-alone", DAY, 1),
        ("Marta", "iron-alone", DAY, 0),
        ("Marta", "iron-alone", "2016-03-31", 1),
    ],
)
def test_may_leaves_with_the_code_that_says_it(kept, name, what, on, code):
    """0 where that person may on that day, 1 where not; the text says no as well."""
    found = run("who", name, "--may", what, "--on", on, "--shop", str(kept))
    assert found.exit_code == code
    assert ("Not alone, and why" in found.stdout) == bool(code)


def test_one_person_is_told_every_step_with_its_state(kept):
    """Failures are shown with why they do not count, and what comes next is named."""
    found = said("who", "Nika", "--on", DAY, shop=kept)
    assert [one["step"] for one in found["steps"]] == [one.id for one in in_order(trade())]
    states = {one["step"]: one["state"] for one in found["steps"]}
    assert states["set-up-bath"] == "done"
    assert states["heat-and-hold"] == "helped"
    assert states["one-block"] == "open"
    failed = [mark for one in found["steps"] for mark in one["marks"] if not mark["counts"]]
    assert failed
    assert all(mark["why_not"] for mark in failed)
    assert found["next"][0] == "heat-and-hold"
    text = run("who", "Nika", "--on", DAY, "--shop", str(kept)).stdout
    assert "outside the tolerance" in " ".join(text.split())


def test_ivo_has_one_thing_to_check_again(kept):
    """All steps done, one due again, and that comes next."""
    found = said("who", "Ivo", "--on", DAY, shop=kept)
    states = {one["step"]: one["state"] for one in found["steps"]}
    assert [name for name, state in states.items() if state != "done"] == ["solvent-alone"]
    assert found["next"] == ["solvent-alone"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["Nikka"], "did you mean 'Nika'"),
        (["Nika", "--may", "hot-wax"], "'hot-wax-alone'"),
        (["--may", "iron-alone"], "--may is of one person"),
        (["--logbook", "x.pdf"], "--logbook is of one person"),
        (["Nika", "--on", "soon"], "--on"),
    ],
)
def test_a_wrong_call_is_told(kept, words, told):
    """A name, a permission or a day that is not there leaves with 2."""
    found = run("who", *words, "--shop", str(kept))
    assert found.exit_code == 2
    assert told in found.stderr


def test_a_shop_without_people_is_told_how_to_begin(tmp_path):
    """Nobody may, and nothing breaks."""
    lay_down(tmp_path / "shop")
    found = run("who", "--shop", str(tmp_path / "shop"))
    assert found.exit_code == 0
    assert "record person" in found.stdout


# record


def test_a_person_and_a_mark_are_entered(shop):
    """The tolerance is copied from the step, and the state follows."""
    words = ["--role", "learner", "--began", "2026-11-02", "--adult-from", "2028-01-31"]
    found = run("record", "person", "Lena", *words, "--shop", str(shop))
    assert found.exit_code == 0
    assert "Under 18 until 2028-01-31" in found.stdout
    for mark in ("shown", "helped"):
        sign(shop, "Lena", "measure-slots", "--mark", mark, "--assessor", "Marta", "--date", DAY)
    seen = ["--value", "0,05", "--assessor", "Marta", "--seen-on", "26-031", "--date", DAY]
    assert "alone 1 of 2" in sign(shop, "Lena", "measure-slots", "--mark", "alone", *seen).stdout
    catalog = load(shop)
    step, last = trade().first_year_steps["measure-slots"], catalog.signoffs[-1]
    assert (last.low, last.high, last.unit) == (step.low, step.high, step.unit)
    assert (last.value, last.seen_on, last.assessor) == (0.05, "26-031", "Marta")
    assert catalog.people["Lena"].adult_from == "2028-01-31"


def test_a_failure_is_entered_and_said_not_to_count(shop):
    """What lies outside is kept."""
    words = ["--mark", "alone", "--value", "0.4", "--assessor", "Marta", "--date", DAY]
    found = sign(shop, "Nika", "measure-slots", *words)
    assert found.exit_code == 0
    assert "does not count: outside the tolerance" in found.stdout
    assert load(shop).signoffs[-1].value == 0.4


def test_the_mark_that_opens_something_says_so(shop):
    """Ivo's check with solvent is the last one missing."""
    words = ["--mark", "alone", "--value", "0", "--assessor", "Marta", "--date", DAY]
    found = sign(shop, "Ivo", "solvent-alone", *words)
    assert "Ivo may work alone with solvent from now on." in found.stdout
    assert (
        run("who", "Ivo", "--may", "solvent-alone", "--on", DAY, "--shop", str(shop)).exit_code == 0
    )


REFUSED = [
    (["Nika", "heat-and-hold", "--mark", "alone", "--value", "1"], "under 18 until 2027-05-14"),
    (["Nika", "wipe-with-solvent", "--mark", "alone", "--value", "9"], "under 18"),
    (["Tomas", "solvent-alone", "--mark", "alone", "--value", "0"], "wipe-with-solvent"),
    (["Tomas", "one-block", "--mark", "alone", "--value", "0"], "outside-valves"),
    (["Nika", "measure-slots", "--mark", "alone"], "found nothing, accepted: what was measured"),
    (["Nika", "measure-slots", "--mark", "shown", "--value", "1"], "no value is asked for"),
    (["Nikka", "measure-slots", "--mark", "shown"], "did you mean 'Nika'"),
    (["Nika", "measure-slot", "--mark", "shown"], "did you mean 'measure-slots'"),
    (["Marta", "measure-slots", "--mark", "shown"], "nobody signs for himself"),
]


@pytest.mark.parametrize(("words", "told"), REFUSED)
def test_what_may_not_be_signed_is_refused_with_its_reason(shop, words, told):
    """The reason is told, and no file has changed."""
    before = {path.name: path.read_bytes() for path in shop.glob("*.csv")}
    found = sign(shop, *words, "--assessor", "Marta", "--date", DAY)
    assert found.exit_code == 2
    assert told in found.stderr
    assert {path.name: path.read_bytes() for path in shop.glob("*.csv")} == before


@pytest.mark.parametrize(
    ("by", "told"), [("Ivo", "accepted: Marta"), ("Nika", "nobody signs"), ("Mart", "'Marta'")]
)
def test_only_an_assessor_signs(shop, by, told):
    """A worker, the learner and a name that is not there are refused."""
    before = (shop / "signoffs.csv").read_bytes()
    found = sign(shop, "Nika", "measure-slots", "--mark", "shown", "--assessor", by, "--date", DAY)
    assert found.exit_code == 2
    assert told in found.stderr
    assert (shop / "signoffs.csv").read_bytes() == before


def test_with_help_is_entered_for_whoever_is_under_age(shop):
    """Hot work beside somebody is how it is learned, and is written down."""
    words = ["Nika", "heat-and-hold", "--mark", "helped", "--assessor", "Marta", "--date", DAY]
    found = sign(shop, *words)
    assert found.exit_code == 0
    assert "Not to be tried alone yet: under 18" in " ".join(found.stdout.split())


def test_a_day_before_the_first_is_a_fault_and_nothing_is_written(shop):
    """The check that reads the tables judges what is added, too."""
    before = (shop / "signoffs.csv").read_bytes()
    words = ["--mark", "shown", "--assessor", "Marta", "--date", "2026-09-06"]
    found = sign(shop, "Nika", "measure-slots", *words)
    assert found.exit_code == 1
    assert "2026-09-07 or later: Nika began on that day" in found.stderr
    assert (shop / "signoffs.csv").read_bytes() == before


def test_a_person_is_entered_once(shop):
    """A second row of the same name is a fault."""
    before = (shop / "people.csv").read_bytes()
    words = ["--role", "assessor", "--began", "2026-01-01", "--shop", str(shop)]
    found = run("record", "person", "Nika", *words)
    assert found.exit_code == 1
    assert "stands already on line" in found.stderr
    assert (shop / "people.csv").read_bytes() == before


# The gate has no way round it

OPTIONS_OF_WHO = {"person", "what", "on", "logbook", "as_json", "shop"}
OPTIONS_OF_SIGNOFF = {
    *("person", "step", "mark", "value", "assessor", "seen_on", "date", "as_json", "shop"),
}


def test_there_is_no_option_that_this_file_does_not_try():
    """A new option of the two commands has to be walked below before it may exist."""
    signoff = main.commands["record"].commands["signoff"]
    assert {one.name for one in main.commands["who"].params} == OPTIONS_OF_WHO
    assert {one.name for one in signoff.params} == OPTIONS_OF_SIGNOFF
    for one in (main.commands["who"], signoff):
        for option in one.params:
            assert not (isinstance(option, click.Option) and (option.envvar or option.hidden))


def test_no_option_of_who_opens_anything(kept, tmp_path, monkeypatch):
    """Every option of `who`, together and alone, on every day before the one of age."""
    days = ["2026-09-07", DAY, "2027-05-13"]
    for what, day, js in itertools.product(WHAT, days, [[], ["--json"]]):
        words = ["who", "Nika", "--may", what, "--on", day, *js, "--shop", str(kept)]
        assert run(*words).exit_code == 1
    monkeypatch.chdir(kept)
    assert run("who", "Nika", "--may", "iron-alone", "--on", DAY).exit_code == 1
    book = tmp_path / "nika.pdf"
    words = ["who", "Nika", "--on", DAY, "--logbook", str(book), "--json"]
    people = json.loads(run(*words).stdout)["answer"]["people"]
    assert [one["may"] for one in people[0]["may"].values()] == [False] * 3


def test_no_option_of_a_sign_off_opens_anything(shop):
    """Every mark, value, assessor, sheet and day, at the steps that give something, for Nika."""
    gives = [one.id for one in in_order(trade()) if one.gives]
    value, days = ["--value", "0"], [DAY, "2027-05-13"]
    for step, given, by, day in itertools.product(gives, [[], value], ["Marta", "Ivo"], days):
        more = ["--assessor", by, "--date", day, "--seen-on", "W-26-001", "--json"]
        assert sign(shop, "Nika", step, "--mark", "alone", *given, *more).exit_code == 2
    for step, mark in itertools.product(gives, ["shown", "helped", "explained"]):
        more = ["--assessor", "Marta", "--date", DAY]
        assert sign(shop, "Nika", step, "--mark", mark, *value, *more).exit_code == 2
        assert sign(shop, "Nika", step, "--mark", mark, *more).exit_code == 0
    for what, day in itertools.product(WHAT, [DAY, "2027-05-13", "2027-05-14", "2030-01-01"]):
        words = ["who", "Nika", "--may", what, "--on", day, "--shop", str(shop)]
        assert run(*words).exit_code == 1


def test_a_row_typed_by_hand_opens_nothing_either(shop):
    """All marks of the practical test written into the file for somebody under age."""
    rows = [
        f"{DAY},Nika,{step.id},{mark},{'0,,,0' if mark == 'alone' else ',,,'},,Marta,invented"
        for step in in_order(trade())
        if step.high == 0
        for mark in ("shown", "helped", "alone", "alone", "explained")
    ]
    path = shop / "signoffs.csv"
    path.write_text(path.read_text("utf-8") + "\n".join(rows) + "\n", "utf-8")
    for day in (DAY, "2027-05-14"):
        words = ["who", "Nika", "--may", "hot-wax-alone", "--on", day, "--shop", str(shop)]
        assert run(*words).exit_code == 1


# What happened is never lost

POT = [
    "beeswax-rosin-4-1",
    "--lot",
    "beeswax-yellow=BW-26-01:80g",
    "--lot",
    "gum-rosin=GR-26-01:20g",
]


def melted(shop, *words):
    """Enter a batch on the day of the tests."""
    found = run("record", "batch", *POT, *words, "--date", DAY, "--shop", str(shop))
    assert found.exit_code == 0, found.output
    return " ".join(found.stdout.split())


def test_a_batch_by_somebody_who_may_not_is_entered_and_said(shop):
    """It says why not, and who must have been beside; `check` says it until a row names one."""
    told = melted(shop, "--made-by", "Nika")
    assert f"Nika may not work hot wax alone on {DAY}: under 18 until 2027-05-14" in told
    assert "must have been beside: Marta or Ivo or Tomas" in told
    assert load(shop).pot_book["W-26-005"].made_by == "Nika"
    checked = run("check", "--shop", str(shop), "--on", DAY)
    assert "pot_book.csv: W-26-005: Nika may not work hot wax alone" in checked.stdout


@pytest.mark.parametrize(("by", "notices"), [("Tomas", 0), ("Nika", 1), ("", 1), ("Nobody", 1)])
def test_somebody_who_may_was_beside(shop, by, notices):
    """`checked_by` settles it where that one may on that day, and is not the same person."""
    told = melted(shop, "--made-by", "Nika", "--checked-by", by)
    assert (f"{by}, who checked, must have been beside" in told) == (notices == 0)
    assert len(people_notices(load(shop))) == notices


def test_a_batch_by_somebody_who_may_says_nothing(shop):
    """Ivo may; the demo shop's own batches are all by people who might."""
    assert "hot wax alone" not in melted(shop, "--made-by", "Ivo", "--checked-by", "Marta")
    assert people_notices(load(shop)) == []


def test_a_name_that_is_nearly_one_is_asked_for(shop):
    """The gate is not passed by a small letter."""
    told = melted(shop, "--made-by", "nika")
    assert "nika stands not in people.csv" in told
    assert "Was Nika meant?" in told


def test_a_shop_without_people_is_asked_nothing(tmp_path):
    """Before anybody stands in the book, a batch is entered as ever."""
    lay_down(tmp_path / "shop")
    words = ["--lot", "beeswax-yellow=80g", "--lot", "gum-rosin=20g", "--made-by", "AK"]
    shop = ["--shop", str(tmp_path / "shop"), "--date", DAY]
    found = run("record", "batch", "beeswax-rosin-4-1", *words, *shop)
    assert found.exit_code == 0
    assert "people.csv" not in found.stdout
