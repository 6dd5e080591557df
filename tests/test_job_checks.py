"""Every fault of the books of jobs is told, with its cell, and all of them at once."""

from __future__ import annotations

import dataclasses

import book_trials
import pytest
from job_trials import cut, draw, event, keep, shelf, use

from formulas.catalog import load
from formulas.fault import Faults
from formulas.jobs.job_list import job_notices
from site_builder.places import DEMO_SHOP

JOB_HEAD = "job,date,what,file,plates,waxed,basis\n"
KEPT_HEAD = "job,date,kind,of,amount,unit,basis\n"
CUT_HEAD = "job,date,stock,skin,pieces,spent,basis\n"
HOURS_HEAD = "job,date,step,done,minutes,basis\n"
BOOK_HEAD = "batch,date,parts,yield,unit,basis\n"
USE_HEAD = "batch,job,date,amount,unit,basis\n"

GOOD = {
    "jobs": JOB_HEAD
    + "26-1,2026-02-01,opened,26-1.toml,,,measured\n"
    + "26-2,2026-02-01,opened,,,,measured\n"
    + "26-2,2026-03-01,done,,90,80,measured\n",
    "reservations": KEPT_HEAD
    + "26-1,2026-02-02,lot,BW-1,200,g,measured\n"
    + "26-1,2026-02-02,batch,W-1,1,oz,measured\n"
    + "26-1,2026-02-02,stock,film,1,pieces,measured\n"
    + "26-1,2026-02-02,skin,kid-A,1,pieces,measured\n"
    + "26-1,2026-02-02,item,gum-rosin,0.5,lb,measured\n",
    "stock_uses": CUT_HEAD + "26-2,2026-02-05,kid,kid-B,,yes,measured\n",
    "hours": HOURS_HEAD + "26-2,2026-02-05,bed-plate,40,150,measured\n",
    "pot_book": BOOK_HEAD + "W-1,2026-02-03,gum-rosin 1,90,g,measured\n",
    "pot_uses": USE_HEAD + "W-1,26-2,2026-02-05,30,g,measured\n"
    "W-1,old one,2026-01-02,1,g,measured\n",
    "prices": "item,price,amount,unit,basis\ngum-rosin,9,1,kg,measured\n",
    "skins": "skin,stock,basis\nkid-A,kid,measured\nkid-B,kid,measured\n",
    "skin_outlines": "skin,ring,point,x,y,unit\n"
    + "".join(
        f"{skin},outline,{point},{x},{y},mm\n"
        for skin in ("kid-A", "kid-B")
        for point, (x, y) in enumerate(((0, 0), (90, 0), (90, 90)), 1)
    ),
    "valve_stock": "stock,name,material,basis\nkid,Kid,hair-sheep,measured\n"
    "film,Film,polyester-film,measured\n",
}


def faults_of(folder, **rows):
    """Give the faults of a shop without one, after rows were added to its tables."""
    folder = book_trials.shop(folder / "shop", **GOOD)
    load(folder)
    for table, row in rows.items():
        (folder / f"{table}.csv").write_text(GOOD[table] + row + "\n", encoding="utf-8")
    with pytest.raises(Faults) as caught:
        load(folder)
    return caught.value.faults


@pytest.mark.parametrize(
    ("table", "row", "fault"),
    [
        ("jobs", "26-3,2026-02-02,done,,,,measured", "what: found 'done', accepted: opened, the"),
        ("jobs", "26-3,2026-02-02,reopened,,,,measured", "what: found 'reopened', accepted: ope"),
        ("jobs", "26-1,2026-02-02,opened,,,,measured", "done or dropped, after the line 2"),
        ("jobs", "26-1,2026-02-02,reopened,,,,measured", "done or dropped, after the line 2"),
        ("jobs", "26-1,2026-01-02,done,,,,measured", "accepted: opened, the first"),
        ("jobs", "26-2,2026-03-02,dropped,,,,measured", "accepted: reopened, after the line 4"),
        ("jobs", "26-2,2026-03-02,closed,,,,measured", "what: found 'closed'"),
        ("jobs", "26-1,2026-03-02,done,,70,71,measured", "waxed: found '71', accepted: no more th"),
        ("jobs", "26-1,2026-03-02,done,,,71,measured", "no more than the plates beside it"),
        ("jobs", "26-1,2026-03-02,done,jobs/a.toml,,,measured", "file: found 'jobs/a.toml'"),
        ("reservations", "26-3,2026-02-02,lot,BW-1,1,g,measured", "job: found '26-3'"),
        ("reservations", "26-1,2026-01-31,lot,BW-1,1,g,measured", "date: found '2026-01-31'"),
        ("reservations", "26-1,2026-02-02,lot,BW-11,1,g,measured", "did you mean 'BW-1'"),
        ("reservations", "26-1,2026-02-02,batch,BW-1,1,g,measured", "of: found 'BW-1'"),
        ("reservations", "26-1,2026-02-02,stock,fil,1,pieces,measured", "did you mean 'film'"),
        ("reservations", "26-1,2026-02-02,skin,kid,1,pieces,measured", "of: found 'kid'"),
        ("reservations", "26-1,2026-02-02,item,tallow,1,g,measured", "of: found 'tallow'"),
        ("reservations", "26-1,2026-02-02,lot,BW-1,1,pieces,measured", "g or kg or oz or lb, for"),
        ("reservations", "26-1,2026-02-02,stock,kid,1,g,measured", "pieces, for a stock"),
        ("reservations", "26-1,2026-02-02,stock,kid,1.5,pieces,measured", "whole pieces"),
        ("reservations", "26-1,2026-02-02,skin,kid-A,2,pieces,measured", "a skin is one piece"),
        ("reservations", "26-1,2026-02-02,lot,BW-1,-1,g,measured", "amount: found '-1'"),
        ("stock_uses", "26-1,2026-02-06,kit,,1,,measured", "stock: found 'kit'"),
        ("stock_uses", "26-1,2026-02-06,kid,kid-C,,,measured", "skin: found 'kid-C'"),
        ("stock_uses", "26-1,2026-02-06,film,kid-A,,,measured", "kid, which is what skin kid-A"),
        ("stock_uses", "26-1,2026-02-06,film,,1,yes,measured", "the skin of which nothing"),
        ("stock_uses", "26-1,2026-02-06,kid,kid-B,,,measured", "line 2 says that it is spent"),
        ("stock_uses", "26-9,2026-02-06,kid,kid-A,,,measured", "job: found '26-9'"),
        ("stock_uses", "26-1,2026-01-06,kid,kid-A,,,measured", "line 2 of jobs.csv opens the job"),
        ("hours", "26-1,2026-02-06,bed-plates,4,15,measured", "did you mean 'bed-plate'"),
        ("hours", "26-9,2026-02-06,bed-plate,4,15,measured", "job: found '26-9'"),
        ("hours", "26-1,2026-01-06,bed-plate,4,15,measured", "2026-02-01 or later"),
        ("hours", "26-1,2026-02-06,bed-plate,0,15,measured", "done: found '0'"),
        ("pot_uses", "W-1,26-1,2026-01-06,1,g,measured", "2026-02-01 or later"),
    ],
)  # fmt: skip
def test_a_fault_is_told_with_its_cell(tmp_path, table, row, fault):
    """One row at fault gives one fault, in its table and on its line."""
    (found,) = faults_of(tmp_path, **{table: row})
    assert found.file == f"{table}.csv"
    assert found.row == GOOD[table].count("\n") + 1
    assert fault in str(found)


def test_all_faults_are_told_at_once_in_file_order(tmp_path):
    """Three tables with a fault each give three, the books in the order of the folder."""
    found = faults_of(
        tmp_path,
        hours="26-1,2026-02-06,glue,4,15,measured",
        jobs="26-1,2026-02-02,opened,,,,measured",
        reservations="26-1,2026-02-02,lot,XX,1,pieces,measured",
    )
    told = [(one.file, one.column) for one in found]
    assert told == [
        ("jobs.csv", "what"),
        ("reservations.csv", "of"),
        ("reservations.csv", "unit"),
        ("hours.csv", "step"),
    ]


def test_what_happened_on_one_day_goes_by_the_order_of_the_file(tmp_path):
    """Opened, done and opened again within a day is no fault."""
    rows = GOOD["jobs"] + "".join(
        f"26-4,2026-05-01,{what},,,,measured\n" for what in ("opened", "done", "reopened")
    )
    folder = book_trials.shop(tmp_path / "shop", **{**GOOD, "jobs": rows})
    assert len(load(folder).jobs) == 6


# What is no fault of a cell and is said all the same.

TRADE = load(None)
JOBS = [event("A"), event("B")]


def test_more_kept_than_is_left_is_said():
    """Books that were right are overtaken by a draw: the holders are named with what is missing."""
    rows = [
        keep("A", "lot", "BW-1", 700),
        keep("B", "lot", "BW-1", 200),
        keep("A", "stock", "film", 5, "pieces"),
    ]
    made = shelf(TRADE, jobs=JOBS, reservations=rows)
    assert job_notices(made) == []
    drawn = dataclasses.replace(made, pot_lots=[draw("W-9", 350)], stock_uses=[cut("B", pieces=2)])
    lot, film = job_notices(drawn)
    assert "BW-1: 250 g more is kept back than is left, for A, B" in lot
    assert "film: 2 pieces more" in film


def test_two_jobs_with_one_skin_are_said():
    """A skin is one piece."""
    rows = [keep(job, "skin", "kid-A", 1, "pieces") for job in ("A", "B")]
    (said,) = job_notices(shelf(TRADE, jobs=JOBS, reservations=rows))
    assert "kid-A: 1 pieces more" in said


@pytest.mark.parametrize("what", ["done", "dropped"])
def test_a_job_closed_by_hand_is_told_of_its_rows(what):
    """Rows of a closed job free their things in silence: it is said till they are nought."""
    rows = [keep("A", "lot", "BW-1", 100), keep("A", "batch", "W-1", 5)]
    made = shelf(TRADE, jobs=[*JOBS, event("A", what, "2026-04-01")], reservations=rows)
    (said,) = job_notices(made)
    assert f"A is {what} and its rows still keep back BW-1, W-1" in said
    back = [*rows, *(dataclasses.replace(one, amount=0.0) for one in rows)]
    assert job_notices(dataclasses.replace(made, reservations=back)) == []


def test_use_beyond_what_others_keep_is_said():
    """Wax that another job keeps back and that is used up by a third is missing there."""
    made = shelf(
        TRADE,
        jobs=JOBS,
        reservations=[keep("A", "batch", "W-1", 200)],
        pot_uses=[use("B", 150)],
    )
    assert "W-1: 50 g more is kept back than is left, for A" in job_notices(made)[0]


def test_the_demo_jobs_are_whole():
    """The demo shop's jobs have no notice, some are open, and one was dropped."""
    demo = load(DEMO_SHOP)
    assert job_notices(demo) == []
    assert {"opened", "done", "dropped"} <= {one.what for one in demo.jobs}
