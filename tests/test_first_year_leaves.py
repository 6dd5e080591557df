"""The leaves on learning and the logbook: what they show of steps and people, and that it fits."""

from __future__ import annotations

import dataclasses
import datetime
import io
import re

import pytest
from leaf_reading import handbook, leaf_of, trade
from people_trials import COLD, HOT, LEARNER, done, first_year, on
from pypdf import PdfReader

from formulas.catalog import load
from formulas.fault import UnknownName
from formulas.people.may import WHAT, needed_for
from formulas.people.standing import in_order
from site_builder import content, own_file
from site_builder.logbook import shelf, writing
from site_builder.markup.elements import plain
from site_builder.paper import binder
from site_builder.parts import people_parts
from site_builder.places import CONTENT, DEMO_SHOP

DAY = "2026-11-28"
SIGNED = re.compile(r"date and initials", re.IGNORECASE)
ALONE_TWICE = ["Shown", "With help", "Alone, 1", "Alone, 2", "Explained"]


@pytest.fixture(scope="module")
def demo():
    """Read the demo shop."""
    return load(DEMO_SHOP)


def rows_of(tree):
    """Give the rows of the tables in a tree as texts, the heads left out."""
    return [[plain(cell) for cell in row] for row in tree.iter("tr") if row[0].tag == "td"]


# A stage to sign


def test_every_stage_is_on_the_leaf_with_every_step():
    """Each step has its words in one row, and a row to sign with a field for each mark."""
    tree = leaf_of("A-02").tree
    pages = [page for page in tree.iter("ownpage") if page.find("h2") is not None]
    stages = sorted(trade().first_year_stages.values(), key=lambda one: one.place)
    assert [plain(page.find("h2")) for page in pages] == [one.name for one in stages]
    for stage, page in zip(stages, pages, strict=True):
        steps = [one for one in in_order(trade()) if one.stage == stage.id]
        told = rows_of(page.find("table"))
        assert len(told) == len(steps)
        chart = page.find(".//charttable")
        assert [plain(row) for row in chart] == [one.name for one in steps]
        heads = chart.get("heads").split("; ")[1:]
        assert heads == (
            ALONE_TWICE
            if any(one.times == 2 for one in steps)
            else ["Shown", "With help", "Alone, 1", "Explained"]
        )
        for one, row in zip(steps, told, strict=True):
            assert row[0].startswith(one.name)
            assert row[1:3] == [one.shown, one.helped]
            assert one.measured in row[3]
            assert row[4] == one.explain


def test_the_leaves_to_read_are_links_that_lead_somewhere():
    """Each is named by its number, and its leaf is there."""
    numbers = {leaf.slug: leaf.number for leaf in handbook().leaves}
    links = [one for page in leaf_of("A-02").tree.iter("ownpage") for one in page.iter("a")]
    assert len(links) > 100
    for one in links:
        assert plain(one) == numbers[one.get("href").removesuffix(".md")]


def test_a_caution_of_a_step_is_boxed_or_named():
    """Each stands in a box on the leaf, or by its title with its stage."""
    tree = leaf_of("A-02").tree
    boxed = {box.get("id") for box in tree.iter("caution")}
    pages = [page for page in tree.iter("ownpage") if page.find("h2") is not None]
    said = {plain(page.find("h2")): plain(page) for page in pages}
    for one in in_order(trade()):
        page = said[trade().first_year_stages[one.stage].name]
        for name in one.cautions:
            assert name in boxed or trade().cautions[name].title in page, (one.id, name)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_stage_stays_together(paper):
    """The words of a stage stand on one page, and so do its lines to sign.

    On A4 that is the same page; short neighbours share one, and lines apart bear the stage's name.
    """
    catalog = dataclasses.replace(trade(), shop=dataclasses.replace(trade().shop, paper=paper))
    book = content.read(catalog)
    book.sections[:] = [one for one in book.sections if one.letter == "A"]
    (section,) = book.sections
    section.leaves[:] = [one for one in section.leaves if one.number == "A-02"]
    reader = PdfReader(io.BytesIO(binder.pdf(binder.written(book))))
    first, last = binder.page_ranges(book)["A-02"]
    texts = [" ".join(page.extract_text().split()) for page in reader.pages[first - 1 : last]]
    stages = sorted(trade().first_year_stages.values(), key=lambda one: one.place)
    signing = [text for text in texts if SIGNED.search(text)]
    assert sum(len(SIGNED.findall(text)) for text in signing) == len(stages)
    assert paper != "a4" or len(signing) < len(stages)
    for stage in stages:
        steps = [one for one in in_order(trade()) if one.stage == stage.id]
        (words,) = [text for text in texts if stage.about in text]
        assert all(f"{one.name}. Read" in words for one in steps)
        named = f"{stage.name}: date and initials"
        (lines,) = [text for text in signing if named in text] or [words]
        assert all(one.name in lines.replace(f"{one.name}. Read", "") for one in steps)
        assert lines == words or paper != "a4"


def test_a_stage_that_is_not_there_is_told():
    """The part names the nearest."""
    with pytest.raises(UnknownName, match="did you mean 'melting'"):
        people_parts.first_year(trade(), "meltin")
    with pytest.raises(UnknownName, match="iron-alone"):
        people_parts.step_needs(trade(), "iron")


# Hot work alone


@pytest.mark.parametrize("what", WHAT)
def test_all_that_is_asked_for_is_tabulated(what):
    """Every step below a sign-off, in order, with what passes and when it lapses."""
    (table,) = people_parts.step_needs(trade(), what)
    needed = needed_for(trade(), what)
    for one, row in zip(needed, rows_of(table), strict=True):
        assert row[0] == one.name
        assert one.measured in row[1]
        assert row[2] == f"{one.times} times"
        assert ("365 days" in row[3]) == one.renew
        assert ("new material" in row[3]) == one.new_material


def test_the_practical_test_is_measured():
    """Each thing measured with heat or solvent has what passes, and two fields."""
    tree = leaf_of("A-03").tree
    sheets = {chart.get("name"): chart for chart in tree.iter("charttable")}
    assert set(sheets) == {
        f"Practical test: {words}" for words in ("hot wax", "the iron", "solvent")
    }
    for chart in sheets.values():
        assert chart.get("heads").split("; ")[2:] == ["First time", "Second time"]
        assert all(plain(row[1]) for row in chart)
    assert len(sheets["Practical test: hot wax"]) == 5


def test_the_leaf_says_that_there_is_no_exception():
    """And has a card with a name, a day and two signatures."""
    tree = leaf_of("A-03").tree
    assert "No exception" in [plain(head) for head in tree.iter("h2")]
    labels = {line.get("label") for line in tree.iter("formline")}
    assert {"Name", "Holds through", "Signature", "Assessor, signature", "Date"} <= labels


# Who may do what


def test_the_page_tells_days_and_no_ages(demo):
    """A day through which it holds, or the first day it may; never how old somebody is."""
    (page,) = people_parts.who_may_do_what(demo, "")
    rows = {row[0]: row[1:] for row in rows_of(page) if row[0]}
    plain_rows = {
        name: [cell.replace("\N{NON-BREAKING HYPHEN}", "-") for cell in cells]
        for name, cells in rows.items()
    }
    assert plain_rows["Marta, assessor"] == ["yes"] * 3
    assert plain_rows["Nika, learner"] == ["NO, not before 2027-05-14"] * 3
    assert plain_rows["Ivo, worker"][2] == "NO, due again"
    assert plain_rows["Tomas, learner"][2] == "NO, not signed"
    assert re.fullmatch(r"through 2027-\d\d-\d\d", plain_rows["Tomas, learner"][0])
    assert not re.search(r"\b1[5-9]\b", " ".join(map(" ".join, rows.values())))


def test_the_page_is_made_without_a_clock(demo, monkeypatch):
    """It tells of the newest entry in the books, whatever day it is."""

    class Later(datetime.date):
        @classmethod
        def today(cls):
            raise AssertionError

    before = [plain(one) for one in people_parts.who_may_do_what(demo, "")]
    monkeypatch.setattr(datetime, "date", Later)
    assert [plain(one) for one in people_parts.who_may_do_what(load(DEMO_SHOP), "")] == before
    assert people_parts.books_day(demo) == max(one.date for one in demo.signoffs)


def test_a_shop_without_people_gets_a_blank_form():
    """Rows to write in, and no name that is not there."""
    (page,) = people_parts.who_may_do_what(trade(), "")
    assert people_parts.NOBODY in plain(page)
    rows = rows_of(page)
    assert len(rows) == people_parts.MOST_ROWS
    assert not any(cell for row in rows for cell in row)
    (said,) = people_parts.steps_by_people(trade(), "")
    assert plain(said) == people_parts.NO_DAY


def test_who_has_left_is_not_on_the_page():
    """The newest entry is after the last day."""
    catalog = first_year([*done(1, COLD)], left=on(1), bought=[on(5)])
    (page,) = people_parts.who_may_do_what(catalog, "")
    assert LEARNER not in plain(page)


def test_the_steps_are_tabulated_a_few_people_a_table(demo):
    """Every step is a row, everybody with a mark a column."""
    (table,) = people_parts.steps_by_people(demo, "")
    assert [plain(cell) for cell in next(table.iter("tr"))] == ["Step", "Ivo", "Tomas", "Nika"]
    stages = [one.name for one in trade().first_year_stages.values()]
    told = [row[0] for row in rows_of(table)]
    assert [name for name in told if name not in stages] == [one.name for one in in_order(trade())]
    assert [name for name in told if name in stages] == stages
    many = {f"P{at}": dataclasses.replace(demo.people["Ivo"], person=f"P{at}") for at in range(12)}
    marks = [dataclasses.replace(demo.signoffs[0], person=name) for name in many]
    crowd = dataclasses.replace(demo, people={**demo.people, **many}, signoffs=marks)
    tables = people_parts.steps_by_people(crowd, "")
    assert [len(one.find("thead/tr")) - 1 for one in tables] == [5, 5, 2]


# The logbook


def test_the_folder_of_the_logbook_is_no_section_of_the_handbook():
    """Its leaves are read by the logbook alone."""
    assert (CONTENT / writing.FOLDER / "front.md").is_file()
    assert writing.FOLDER not in {one.folder for one in handbook().sections}


@pytest.mark.parametrize("name", ["Marta", "Ivo", "Tomas", "Nika"])
def test_a_logbook_is_set_for_everybody(demo, name):
    """The name, every step with its marks, and nothing that was not written."""
    data = writing.pdf(demo, name, DAY)
    text = " ".join(
        " ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages).split()
    )
    assert f"Logbook of {name}" in text
    assert own_file.is_ours(data, writing.MARK)
    others = set(demo.people) - {name, "Marta"}
    assert not [other for other in others if other in text]
    assert data == writing.pdf(demo, name, DAY)


def test_every_step_is_in_the_logbook_with_what_is_open():
    """A step that is begun has its marks and rows for the rest; one that is not, a row."""
    catalog = first_year([*done(1, COLD), *done(2, HOT)[:2]])
    book = writing.read(catalog, LEARNER, on(3))
    (steps,) = [leaf.tree for leaf in book.leaves if leaf.number == "L-02"]
    (cold, hot) = steps.iter("ownpage")
    assert cold.find("charttable") is None
    assert [row[0] for row in rows_of(cold.find("table"))] == [
        *("Shown", "With help", "Alone", "Explained"),
    ]
    assert [plain(row) for row in hot.find("charttable")] == ["Alone", "Explained"]
    book = writing.read(first_year(), LEARNER, on(3))
    (steps,) = [leaf.tree for leaf in book.leaves if leaf.number == "L-02"]
    assert len([row for chart in steps.iter("charttable") for row in chart]) == 2


def test_what_is_due_again_has_one_row():
    """Once more alone is all that is asked."""
    catalog = first_year(done(1, COLD))
    book = writing.read(catalog, LEARNER, on(400))
    (steps,) = [leaf.tree for leaf in book.leaves if leaf.number == "L-02"]
    rows = [plain(row) for row in next(steps.iter("ownpage")).find("charttable")]
    assert rows == ["Once more alone"]
    assert shelf.OWNER not in catalog.memo


def test_a_foreign_file_is_not_written_over(demo, tmp_path):
    """Only a logbook of ours is replaced."""
    path = tmp_path / "nika.pdf"
    path.write_bytes(b"%PDF-1.7 somebody else's")
    with pytest.raises(own_file.NotOurFile, match="no logbook of ours"):
        writing.write(demo, "Nika", DAY, path)
    assert path.read_bytes() == b"%PDF-1.7 somebody else's"
    path.unlink()
    writing.write(demo, "Nika", DAY, path)
    first = path.read_bytes()
    writing.write(demo, "Ivo", DAY, path)
    assert path.read_bytes() != first
    assert [one.name for one in tmp_path.iterdir()] == ["nika.pdf"]
