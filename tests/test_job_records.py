"""What `record` writes of jobs, what it refuses, and what it says."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from types import SimpleNamespace

import book_trials
import pytest
from book_trials import run
from job_trials import event, keep, shelf, use, worked

from formulas.answer import Quantity
from formulas.books.record_reserve import NotFree, reservations_of
from formulas.catalog import load
from formulas.jobs.held import free_of_batch, free_of_lot, live_reservations, state_of
from formulas.jobs.job import Held
from formulas.jobs.job_list import job_notices
from site_builder.markup.elements import day
from site_builder.parts.job_book_parts import NO_FIGURES, NO_JOBS
from site_builder.parts.registry import place
from site_builder.places import DEMO_SHOP

DAY = ("--date", "2026-03-02")
TABLES = {
    "skins": "skin,stock,basis\nkid-A,kid,measured\n",
    "skin_outlines": "skin,ring,point,x,y,unit\nkid-A,outline,1,0,0,mm\n"
    "kid-A,outline,2,90,0,mm\nkid-A,outline,3,90,90,mm\n",
    "valve_stock": "stock,name,material,length,width,unit,pieces,basis\n"
    "kid,Kid,hair-sheep,,,,,measured\nfilm,Film,polyester-film,297,210,mm,4,measured\n",
    "prices": "item,price,amount,unit,basis\nscrew,5,100,pieces,measured\n",
    "pot_book": "batch,date,blend,parts,revision,scale,yield,unit,job,basis\n"
    "W-1,2026-02-01,,gum-rosin 1,,,300,g,,measured\n",
}


@pytest.fixture
def shop(tmp_path):
    """A shop with lots, a batch, a skin and four pieces of film, and two open jobs."""
    folder = book_trials.shop(tmp_path / "shop", **TABLES)
    for job in ("26-1", "26-2"):
        done = run("job", job, "--what", "opened", "--date", "2026-03-01", shop=folder)
        assert done.exit_code == 0, done.stderr
    return folder


def ok(*words, shop):
    """Record, see that it was taken, and give what was printed."""
    done = run(*words, shop=shop)
    assert done.exit_code == 0, done.stderr
    return done.stdout


def texts(folder):
    """Give the bytes of every table."""
    return {path.name: path.read_bytes() for path in folder.glob("*.csv")}


def held(folder):
    """Give what is kept back in a shop as (job, id): (amount, unit)."""
    return {(one.job, one.of): (one.amount, one.unit) for one in live_reservations(load(folder))}


ALL = ("--lot", "BW-1=200g", "--batch", "W-1=1.5oz", "--stock", "film=2", "--skin", "kid-A")


def test_what_is_kept_back_stands_in_the_book(shop):
    """Each thing is a row in its own unit, and what stays free is told."""
    said = ok("reserve", "26-1", *ALL, "--item", "screw=40", *DAY, shop=shop)
    assert held(shop) == {
        ("26-1", "BW-1"): (200, "g"),
        ("26-1", "W-1"): (1.5, "oz"),
        ("26-1", "film"): (2, "pieces"),
        ("26-1", "kid-A"): (1, "pieces"),
        ("26-1", "screw"): (40, "pieces"),
    }
    assert "keeps back 200 g of BW-1; 1.8 kg stay free" in said
    assert "keeps back 2 pieces of film; 2 pieces stay free" in said
    assert "The books do not say how much of screw is there" in said


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (("--lot", "BW-1=1900g"), "lot BW-1: found 1900 g, accepted: at most 1800 g"),
        (("--batch", "W-1=260g"), "batch W-1: found 260 g, accepted: at most 257.476 g"),
        (("--stock", "film=3"), "stock film: found 3 pieces, accepted: at most 2 pieces"),
        (
            ("--skin", "kid-A"),
            "skin kid-A: found 'kid-A', accepted: a skin that is free; 26-1 keeps",
        ),
    ],
)
def test_more_than_is_free_is_refused_with_who_holds_it(shop, words, found):
    """The amounts and the job that holds the rest are told, and nothing is changed."""
    ok("reserve", "26-1", *ALL, *DAY, shop=shop)
    before = texts(shop)
    done = run("reserve", "26-2", *words, "--lot", "GR-1=9kg", *DAY, shop=shop)
    assert done.exit_code == 2
    assert found in done.stderr
    assert "; 26-1 keeps" in done.stderr
    assert "lot GR-1: found 9 kg, accepted: at most 1.134 kg" in done.stderr  # 40 oz
    assert texts(shop) == before


def test_a_job_may_change_what_it_keeps_itself(shop):
    """Its own row does not stand in its way: the new one takes the place of the old."""
    ok("reserve", "26-1", "--batch", "W-1=250g", *DAY, shop=shop)
    ok("reserve", "26-1", "--batch", "W-1=300g", *DAY, shop=shop)
    assert held(shop) == {("26-1", "W-1"): (300, "g")}
    assert "gives back W-1" in ok("reserve", "26-1", "--batch", "W-1=0g", *DAY, shop=shop)
    assert held(shop) == {}


def test_what_was_drawn_that_day_is_not_taken_off_again(shop):
    """A job that used 100 g in the morning and keeps 50 g at noon keeps 50 g."""
    ok("use", "W-1", "--job", "26-1", "--amount", "100g", *DAY, shop=shop)
    ok("reserve", "26-1", "--batch", "W-1=50g", *DAY, shop=shop)
    assert held(shop) == {("26-1", "W-1"): (50, "g")}
    assert free_of_batch(load(shop), "W-1").value == 150
    ok("use", "W-1", "--job", "26-1", "--amount", "20g", *DAY, shop=shop)
    assert held(shop) == {("26-1", "W-1"): (30, "g")}
    assert free_of_batch(load(shop), "W-1").value == 150


def test_a_pot_for_a_job_uses_what_it_keeps(shop):
    """Melted for the job, the lot is drawn and no longer kept."""
    ok("reserve", "26-1", "--lot", "BW-1=200g", *DAY, shop=shop)
    ok("batch", *book_trials.POT, "--job", "26-1", *DAY, shop=shop)
    assert held(shop) == {("26-1", "BW-1"): (120, "g")}
    assert free_of_lot(load(shop), "BW-1").value == pytest.approx(1.8)
    assert "melted for 26-1" in ok("find", "BW-1", shop=shop)


@pytest.mark.parametrize("what", ["done", "dropped"])
def test_a_closed_job_says_what_it_frees(shop, what):
    """All it kept is given back by rows of nought, and does not come back when it is reopened."""
    ok("reserve", "26-1", *ALL, *DAY, shop=shop)
    said = ok("job", "26-1", "--what", what, *DAY, shop=shop)
    assert "Gives back: 200 g of BW-1, 1.5 oz of W-1, 2 pieces of film, skin kid-A" in said
    assert held(shop) == {}
    assert job_notices(load(shop)) == []
    ok("job", "26-1", "--what", "reopened", *DAY, shop=shop)
    assert state_of(load(shop), "26-1") == "open"
    assert held(shop) == {}
    ok("reserve", "26-1", "--skin", "kid-A", *DAY, shop=shop)
    assert held(shop) == {("26-1", "kid-A"): (1, "pieces")}


@pytest.mark.parametrize(
    ("words", "fault"),
    [
        (("job", "26-1", "--what", "opened", *DAY), "done or dropped, after the line"),
        (("job", "26-3", "--what", "done", *DAY), "job: found '26-3'"),
        (("job", "26-1", "--what", "done", "--plates", "5", "--waxed", "6", *DAY), "waxed: found"),
        (("job", "26-1", "--what", "done", "--date", "2026-02-01"), "what: found 'done'"),
        (("hours", "26-1", "bed-plat", "--done", "4", "--minutes", "9", *DAY), "did you mean 'bed"),
        (("hours", "26-1", "bed-plate", "--done", "4", "--minutes", "1_0", *DAY), "found '1_0'"),
        (("hours", "26-1", "bed-plate", "--done", "4", "--minutes", "0", *DAY), "minutes: found"),
        (("hours", "26-9", "bed-plate", "--done", "4", "--minutes", "9", *DAY), "job: found '26-9"),
        (("stock", "26-1", "--stock", "kit", *DAY), "valve stock: found 'kit'"),
        (("stock", "26-1", "--stock", "film", "--skin", "kid-A", *DAY), "stock: found 'film'"),
        (("stock", "26-1", "--stock", "film", "--spent", *DAY), "the skin of which nothing"),
        (("stock", "26-1", "--stock", "kid", "--skin", "kid-B", *DAY), "did you mean 'kid-A'"),
        (("reserve", "26-1", *DAY), "name what to keep back"),
        (("reserve", "26-1", "--lot", "BW-1", *DAY), "--lot: found 'BW-1'"),
        (("reserve", "26-1", "--lot", "BW-1=5", *DAY), "a number with a unit"),
        (("reserve", "26-1", "--lot", "BW-1=-5g", *DAY), "amount: found '-5"),
        (("reserve", "26-1", "--stock", "film=1.5", *DAY), "--stock: found 'film=1.5'"),
        (("reserve", "26-1", "--skin", "kid-A", "--skin", "kid-A=0", *DAY), "each once"),
        (("reserve", "26-1", "--lot", "BW-7=5g", *DAY), "lot: found 'BW-7'"),
        (("reserve", "26-9", "--lot", "BW-1=5g", *DAY), "job: found '26-9'"),
        (("reserve", "26-1", "--lot", "BW-1=5g", "--date", "2026-02-01"), "date: found '2026-02-"),
    ],
)  # fmt: skip
def test_a_record_that_would_be_a_fault_changes_nothing(shop, words, fault):
    """It is refused with the cell or the option at fault, and every file is as it was."""
    before = texts(shop)
    done = run(*words, shop=shop)
    assert done.exit_code in {1, 2}
    assert fault in done.stderr
    assert texts(shop) == before


def test_a_job_that_is_not_open_keeps_nothing_back(shop):
    """It says how the job stands and how to open it; giving back is always taken."""
    ok("job", "26-1", "--what", "done", "--plates", "9", *DAY, shop=shop)
    done = run("reserve", "26-1", "--lot", "BW-1=5g", *DAY, shop=shop)
    assert done.exit_code == 2
    assert "found '26-1', which is done" in done.stderr
    ok("reserve", "26-1", "--lot", "BW-1=0g", *DAY, shop=shop)


def test_hours_are_told_for_each_beside_the_table(shop):
    """The row holds what was typed, the answer what one of them took."""
    said = ok(
        "hours", "26-1", "bed-plate", "--done", "40", "--minutes", "150", "--by", "AK", *DAY,
        shop=shop,
    )  # fmt: skip
    (row,) = load(shop).hours
    assert (row.done, row.minutes, row.worked_by, row.basis) == (40, 150, "AK", "measured")
    step = load(shop).work_steps["bed-plate"]
    assert f"3.8 min for each plate; the table says {step.minutes_low:g} to" in said


def test_stock_that_others_keep_is_told(shop):
    """What was cut was cut: it is written, with a word on whom it was kept for."""
    ok("reserve", "26-1", "--skin", "kid-A", "--stock", "film=3", *DAY, shop=shop)
    said = ok(
        *("stock", "26-2", "--stock", "kid", "--skin", "kid-A", "--valves", "60", "--spent", *DAY),
        shop=shop,
    )
    assert "kid-A is kept back for 26-1" in said
    assert held(shop) == {("26-1", "film"): (3, "pieces")}
    said = ok("stock", "26-2", "--stock", "film", "--pieces", "2", *DAY, shop=shop)
    assert "1 more pieces of film were taken" in said
    assert [one.spent for one in load(shop).stock_uses] == [True, False]


def test_wax_that_others_keep_is_told(shop):
    """A use beyond what is free for the job is written and says who goes short."""
    ok("reserve", "26-1", "--batch", "W-1=250g", *DAY, shop=shop)
    said = ok("use", "W-1", "--job", "26-2", "--amount", "80g", *DAY, shop=shop)
    assert "W-1 is kept back for 26-1" in said
    assert "30 g too little" in " ".join(said.split())
    said = ok("use", "W-1", "--job", "26-22", "--amount", "1g", *DAY, shop=shop)
    assert "26-22 stands not in jobs.csv" in said


def test_jobs_lists_what_stands_in_the_books(shop):
    """State, counts, wax, hours and what is kept back of each job."""
    ok("reserve", "26-1", "--skin", "kid-A", *DAY, shop=shop)
    ok("use", "W-1", "--job", "26-2", "--amount", "2oz", *DAY, shop=shop)
    ok("hours", "26-2", "bed-plate", "--done", "40", "--minutes", "90", *DAY, shop=shop)
    ok("job", "26-2", "--what", "done", "--plates", "60", "--valves", "110", *DAY, shop=shop)
    one, two = json.loads(ok("jobs", "--json", shop=shop))["answer"]["jobs"]
    assert (one["job"], one["state"], one["plates"]) == ("26-1", "open", None)
    assert [kept["of"] for kept in one["kept_back"]] == ["kid-A"]
    assert (two["state"], two["plates"], two["valves"]) == ("done", 60, 110)
    assert two["wax"]["value"] == pytest.approx(56.699, abs=1e-3)  # 2 oz
    assert two["hours"] == {"value": 1.5, "unit": "h"}
    text = ok("jobs", shop=shop)
    assert "kept back: skin kid-A" in text


def test_figures_stand_beside_those_of_the_trade(shop):
    """With two jobs of 0.9 and 1.1 g a plate the mean is told, and why the trade still stands."""
    for job, grams in (("26-1", 90), ("26-2", 110)):
        ok("use", "W-1", "--job", job, "--amount", f"{grams}g", *DAY, shop=shop)
        ok("job", job, "--what", "done", "--plates", "100", *DAY, shop=shop)
    found = json.loads(ok("figures", "--json", shop=shop))["answer"]["grams_per_plate"]
    assert found["own"]["middle"] == pytest.approx(1.0)
    assert (found["own"]["jobs"], found["own"]["count"], found["counts"]) == (2, 200, "trade")
    text = " ".join(ok("figures", shop=shop).split())
    assert "own 1.00 g; one more job: 0.00 to 3.20 g with 95 of 100; 200 in 2 jobs" in text
    assert "still wider than the range of the trade" in text


def test_find_shows_hours_and_stock_of_a_job(shop):
    """A job leads to what it took and what is kept back for it."""
    ok("reserve", "26-1", "--batch", "W-1=5g", *DAY, shop=shop)
    ok("hours", "26-1", "bed-plate", "--done", "40", "--minutes", "90", *DAY, shop=shop)
    ok("stock", "26-1", "--stock", "film", "--pieces", "1", "--by", "AK", *DAY, shop=shop)
    text = ok("find", "26-1", shop=shop)
    assert "26-1: job, open" in text
    assert "5 g of W-1, since 2026-03-02" in text
    assert "2026-03-02  film, 1 piece, by AK" in text
    assert "90 min for 40" in text


def test_an_empty_book_says_so(tmp_path):
    """Neither a job nor a figure is made up, on the terminal or on the leaf."""
    empty = book_trials.shop(tmp_path / "shop")
    assert "No job stands in jobs.csv yet" in ok("jobs", shop=empty)
    assert "No job of this shop tells it yet" in ok("figures", shop=empty)
    (figures,) = place(load(empty), "own-figures", "")
    (jobs,) = place(load(empty), "shop-jobs", "")
    assert (figures.text, jobs.text) == (NO_FIGURES, NO_JOBS)


def test_the_demo_shop_shows_both_kinds_of_figures():
    """Its table holds figures that replace the trade's, that do not, and one of a single job."""
    rows = [
        ["".join(cell.itertext()) for cell in row]
        for row in place(load(DEMO_SHOP), "own-figures", "")[0].iter("tr")
    ][1:]
    assert {row[-1] for row in rows} == {"this shop's", "the trade's"}
    assert [row[-1] for row in rows if row[4] == "no spread yet"] == ["the trade's"]


def rows_of(catalog, part):
    """Give the rows of a placed table as texts; a basis as its kind."""
    made = place(catalog, part, "")[0]
    for mark in made.iter("basis"):
        mark.text = mark.get("kind")
    return [["".join(cell.itertext()) for cell in row] for row in made.iter("tr")][1:]


def test_the_tables_of_the_leaf_show_each_job_and_each_figure():
    """Newest job first, with what it keeps; a figure with its spread, its jobs and what counts."""
    events = [
        event("A"),
        event("A", "done", "2026-04-01", plates=100),
        event("B", instrument="Box"),
    ]
    made = shelf(
        TRADE,
        jobs=events,
        pot_uses=[use("A", 90)],
        hours=[worked("A", "bed-plate", 20, 61), worked("B", "bed-plate", 10, 31)],
        reservations=[keep("B", "lot", "BW-1", 50), keep("B", "skin", "kid-A", 1, "pieces")],
    )
    assert rows_of(made, "shop-jobs") == [
        ["A", "done", day("2026-04-01"), "nothing", "100", "90 g", "1.0"],
        ["B, Box", "open", day("2026-02-01"), "50 g of BW-1, skin kid-A", "", "", "0.5"],
    ]
    step, wax = TRADE.work_steps["bed-plate"], TRADE.figures["wax-per-plate"]
    # Means 3.05 and 3.10 min: 12.706 x 0.035355 x root 1.5 is 0.5502 to either side of 3.075.
    assert rows_of(made, "own-figures") == [
        ["Wax on one plate", f"{wax.low:g}–{wax.high:g} g", wax.basis,
         "0.90 g", "no spread yet", "100 in 1 job", "the trade's"],
        [f"{step.name}, each plate", f"{step.minutes_low:g}–{step.minutes_high:g} min", step.basis,
         "3.1 min", "2.5 to 3.6 min", "30 in 2 jobs", "this shop's"],
    ]  # fmt: skip


def test_only_the_figures_load_pandas(shop):
    """The big library is loaded by `record figures` alone, and only where there are rows."""
    code = (
        "import sys; from site_builder.commands import main\n"
        "try: main(sys.argv[1:])\n"
        "except SystemExit: pass\n"
        "print('loaded', 'pandas' in sys.modules)"
    )

    def loaded(*words):
        done = subprocess.run(
            [sys.executable, "-c", code, "record", *words], capture_output=True, text=True,
            check=True,
        )  # fmt: skip
        return done.stdout.splitlines()[-1] == "loaded True"

    ok("hours", "26-1", "bed-plate", "--done", "4", "--minutes", "9", *DAY, shop=shop)
    there = ("--shop", str(shop))
    assert not loaded("job", "26-3", "--what", "opened", *DAY, *there)
    assert not loaded("reserve", "26-1", "--lot", "BW-1=5g", *DAY, *there)
    assert not loaded("jobs", *there)
    assert not loaded("find", "26-1", *there)
    assert loaded("figures", *there)


# Straight from a needs list

TRADE = load(None)


def needs(job, *taken):
    """Give as much of a job's needs list as keeping back asks for."""
    bought = [SimpleNamespace(at_hand=tuple(Held(*one) for one in lines)) for lines in taken]
    return SimpleNamespace(job=SimpleNamespace(job=job), bought=bought)


def test_a_needs_list_keeps_back_what_it_takes():
    """Lines of one thing are added, skins stay one, masses go up to the scale's step."""
    made = shelf(TRADE, jobs=[event("A")])
    whole = needs(
        "A",
        [
            ("batch", "W-1", Quantity(40.01, "g")),
            ("lot", "BW-1", Quantity(0.1, "kg")),
            ("skin", "kid-A", Quantity(1, "pieces")),
        ],
        [
            ("lot", "BW-1", Quantity(50, "g")),
            ("skin", "kid-A", Quantity(1, "1")),
            ("stock", "film", Quantity(1.2, "")),
        ],
    )
    answer, rows = reservations_of(made, whole, "2026-03-02")
    told = {(row["kind"], row["of"]): (row["amount"], row["unit"]) for row in rows.popitem()[1]}
    assert told == {
        ("batch", "W-1"): (40.1, "g"),
        ("lot", "BW-1"): (0.15, "kg"),
        ("skin", "kid-A"): (1, "pieces"),
        ("stock", "film"): (2, "pieces"),
    }
    assert answer.command == "record-reserve"


def test_all_that_is_left_can_be_kept():
    """Rounding up to the scale's step does not ask for more than there is."""
    made = shelf(TRADE, jobs=[event("A")], pot_uses=[use("B", 277.77)])
    whole = needs("A", [("batch", "W-1", Quantity(22.23, "g"))])
    _, rows = reservations_of(made, whole, "2026-03-02")
    assert rows["reservations.csv"][0]["amount"] == pytest.approx(22.23)


def test_a_needs_list_that_is_out_of_date_is_refused():
    """What another job has kept back meanwhile is not promised twice."""
    made = shelf(
        TRADE, jobs=[event("A"), event("B")], reservations=[keep("B", "batch", "W-1", 280)]
    )
    whole = needs("A", [("batch", "W-1", Quantity(40, "g"))])
    with pytest.raises(NotFree, match="at most 20 g, which is free; B keeps back 280 g"):
        reservations_of(made, whole, "2026-03-02")


def test_reserving_from_the_needs_list_follows_the_job_file(tmp_path):
    """What the list takes is kept back, no more is given back, and dropping the job frees it."""
    folder = tmp_path / "shop"
    shutil.copytree(DEMO_SHOP, folder)
    day = ("--date", "2026-11-20")
    ok("reserve", "26-021", "--needs", *day, shop=folder)
    first = {of: amount for (job, of), (amount, _) in held(folder).items() if job == "26-021"}
    assert {"W-26-003", "sheep-B", "kid-A"} <= first.keys()
    file = folder / "jobs" / "26-021.toml"
    text = file.read_text("utf-8").replace("reclaimed = true", "reclaimed = false")
    file.write_text(text, encoding="utf-8")
    ok("reserve", "26-021", "--needs", *day, shop=folder)
    second = {of: amount for (job, of), (amount, _) in held(folder).items() if job == "26-021"}
    assert "W-26-003" not in second
    assert second["BW-26-01"] > first["BW-26-01"]
    ok("job", "26-021", "--what", "dropped", *day, shop=folder)
    assert not [job for job, _ in held(folder) if job == "26-021"]


def test_needs_and_typed_amounts_are_not_mixed(shop):
    """One call keeps back what is typed or what the list takes, not both, and not nothing."""
    before = texts(shop)
    for words in (("--needs", "--skin", "kid-A"), ()):
        assert run("reserve", "26-1", *words, *DAY, shop=shop).exit_code == 2
    assert texts(shop) == before
