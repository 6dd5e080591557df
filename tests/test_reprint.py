"""What is printed again, and nothing else: revisions, the change note, the rows of printed.csv."""

from __future__ import annotations

import dataclasses
import datetime
import shutil

import pytest
from bound_demo import read_sides
from click.testing import CliRunner
from test_binder_leaves import squeezed

from formulas.catalog import load
from formulas.fault import Faults
from site_builder import content, publish
from site_builder.commands import main
from site_builder.leaves import plan as planning
from site_builder.leaves import written as writing
from site_builder.leaves.written import written
from site_builder.paper import binder
from site_builder.places import DEMO_SHOP
from site_builder.start import lay_down

LEAF = "leaf: {number}\ntitle: {title}\nsummary: Made for a test.\n\n{text}\n"
SECTION = "title: {title}\nletter: {letter}\nsummary: Made for a test.\n"
FIRST, SECOND = "2026-10-05", "2026-10-19"
OPENING = ["Title", "Effective leaves", "Contents", "Front"]
ALL = [*OPENING, "Tab A", "A-01", "A-02", "Tab B", "B-01"]
TODAY = "2026-11-01"


class Bench:
    """A shop folder with a handbook of three leaves, and the command run on it."""

    def __init__(self, folder):
        self.shop, self.pages, self.out = folder / "shop", folder / "text", folder / "out.pdf"
        lay_down(self.shop)
        (self.pages / "10-one").mkdir(parents=True)
        (self.pages / "20-two").mkdir()
        (self.pages / "front.md").write_text("title: T\nsummary: S\n\nRead this first.\n")
        (self.pages / "10-one/section.md").write_text(SECTION.format(title="One", letter="A"))
        (self.pages / "20-two/section.md").write_text(SECTION.format(title="Two", letter="B"))
        self.write("10-one/10-wax.md", "A-01", "Wax", "Wax is warm.\n\nSee [glue](glue.md).")
        self.write("10-one/20-glue.md", "A-02", "Glue", "Glue is cold.")
        self.write("20-two/10-reed.md", "B-01", "Reed", "A reed sounds.")

    def write(self, name, number, title, text):
        """Write a leaf."""
        (self.pages / name).write_text(LEAF.format(number=number, title=title, text=text))

    def run(self, *words):
        """Run `reprint`."""
        return CliRunner().invoke(main, ["reprint", *words, "--shop", str(self.shop)])

    def print(self, day):
        """Print and record on a day; give the leaves of the file in order."""
        self.out.unlink(missing_ok=True)
        done = self.run("--printed", day, "--out", str(self.out))
        assert done.exit_code == 0, done.output + done.stderr
        return squeezed([side.leaf for side in read_sides(self.out)]) if self.out.exists() else []

    def changes(self):
        """Give each change as what and leaf, by the plan."""
        book = written(content.read(load(self.shop)))
        made = planning.plan(book, binder.ranges(book))
        return {one.leaf: one.what for one in made.changes}

    def rows(self):
        """Give the rows of printed.csv."""
        return load(self.shop).printed


@pytest.fixture
def bench(tmp_path, monkeypatch):
    """A small handbook in place of the great one, and a calendar that stands still."""
    made = Bench(tmp_path)
    read = content.read
    monkeypatch.setattr(content, "read", lambda catalog: read(catalog, made.pages))

    class Still(datetime.date):
        @classmethod
        def today(cls):
            return cls.fromisoformat(TODAY)

    monkeypatch.setattr(datetime, "date", Still)
    return made


def state_of(folder):
    """Give every file with its bytes."""
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_before_the_first_print_everything_is_to_add(bench):
    """Every leaf is named, and nothing is written anywhere."""
    before = state_of(bench.shop)
    done = bench.run()
    assert done.exit_code == 0
    assert "Replace" not in done.stdout
    assert bench.changes() == dict.fromkeys(ALL, "add")
    for name in ALL:
        assert f"  {name}  " in done.stdout
    assert state_of(bench.shop) == before
    assert not bench.out.exists()


def test_a_first_print_holds_the_note_and_every_leaf(bench):
    """Each carries revision 1 and the day; afterwards there is nothing to reprint."""
    assert bench.print(FIRST) == ["Change note", *ALL]
    words = {side.leaf: side.words for side in read_sides(bench.out)}
    assert words.pop("Change note") == f"printed on {FIRST}"
    assert set(words.values()) == {f"revision 1 of {FIRST}"}
    assert [(row.leaf, row.revision, row.what) for row in bench.rows()] == [
        (name, 1, "printed") for name in ALL
    ]
    assert bench.changes() == {}
    assert "Nothing to reprint" in bench.run().stdout
    assert bench.print(SECOND) == []
    assert len(bench.rows()) == len(ALL)


def test_one_word_names_its_leaf_and_the_list(bench):
    """The leaf gets revision 2 and the new day; the others keep both of theirs."""
    bench.print(FIRST)
    bench.write("10-one/20-glue.md", "A-02", "Glue", "Glue is wet.")
    assert bench.changes() == {"Effective leaves": "replace", "A-02": "replace"}
    said = bench.run().stdout
    assert "A-02  Glue: content changed, revision 1 -> 2, 1 side" in said
    assert "List of effective leaves: it lists the revisions" in said
    assert bench.print(SECOND) == ["Change note", "Effective leaves", "A-02"]
    text = " ".join(" ".join(side.text.split()) for side in read_sides(bench.out))
    assert f"A-02 Glue 2 {SECOND} 1" in text
    assert f"A-01 Wax 1 {FIRST} 1" in text
    assert "A-02 Glue revision 1 revision 2 1 1" in text  # take out, put in, sides, sheets
    assert bench.changes() == {}


def test_a_leaf_that_grows_changes_the_contents_and_itself(bench):
    """Not the leaves behind it, though they stand on later pages of the file."""
    bench.print(FIRST)
    bench.write("10-one/10-wax.md", "A-01", "Wax", "Wax is warm.\n\n" * 90)
    assert [*bench.changes()] == ["Effective leaves", "Contents", "A-01"]


def test_a_new_leaf_is_added_and_an_old_one_taken_out(bench):
    """The lists and the tab of the section go with them; the note says none goes in."""
    bench.print(FIRST)
    (bench.pages / "20-two/10-reed.md").unlink()
    bench.write("20-two/20-tongue.md", "B-02", "Tongue", "A tongue swings.")
    lists = dict.fromkeys(["Effective leaves", "Contents", "Tab B"], "replace")
    assert bench.changes() == {"B-01": "remove", **lists, "B-02": "add"}
    assert bench.print(SECOND) == ["Change note", *lists, "B-02"]
    note = " ".join(read_sides(bench.out)[0].text.split())
    assert "B-01 Reed revision 1 none" in note
    assert "B-02 Tongue none revision 1 1 1" in note
    assert "Leaves to put in: 4, sheets of paper: 4." in note
    gone = [row for row in bench.rows() if row.what == "removed"]
    assert [(row.leaf, row.title, row.revision) for row in gone] == [("B-01", "Reed", 1)]
    assert bench.changes() == {}


def test_a_leaf_that_comes_back_goes_on_counting(bench):
    """A revision is never given twice: neither to an old text nor to a leaf that was out."""
    bench.print(FIRST)
    bench.write("10-one/20-glue.md", "A-02", "Glue", "Glue is wet.")
    (bench.pages / "20-two/10-reed.md").unlink()
    bench.print(FIRST)
    bench.write("10-one/20-glue.md", "A-02", "Glue", "Glue is cold.")
    bench.write("20-two/10-reed.md", "B-01", "Reed", "A reed sounds.")
    bench.print(SECOND)
    last = {row.leaf: (row.revision, row.date) for row in bench.rows()}
    assert last["A-02"] == (3, SECOND)
    assert last["B-01"] == (2, SECOND)
    assert bench.changes() == {}


def test_a_proof_says_draft_and_records_nothing(bench):
    """Its leaves carry no revision that was never given."""
    bench.print(FIRST)
    before = state_of(bench.shop)
    bench.write("10-one/20-glue.md", "A-02", "Glue", "Glue is wet.")
    bench.out.unlink()
    assert "a proof" in bench.run("--out", str(bench.out)).stdout
    words = {side.leaf: side.words for side in read_sides(bench.out)}
    assert words == {
        "Change note": "proof, not printed",
        "Effective leaves": "draft, after revision 1",
        "A-02": "draft, after revision 1",
    }
    assert state_of(bench.shop) == before


def test_another_layout_is_told_and_names_no_leaf(bench, tmp_path, monkeypatch):
    """A template that changed is one line, though a leaf comes out longer by it."""
    bench.write("10-one/10-wax.md", "A-01", "Wax", "Wax is warm.\n\n" * 90)
    bench.print(FIRST)
    before = binder.page_ranges(content.read(load(bench.shop)))
    other = tmp_path / "binder.typ"
    other.write_text(writing.TEMPLATE.read_text("utf-8").replace("size: 10.5pt", "size: 20pt"))
    monkeypatch.setattr(writing, "TEMPLATE", other)
    monkeypatch.setattr(binder, "TEMPLATE", other)
    assert binder.page_ranges(content.read(load(bench.shop))) != before
    said = bench.run().stdout
    assert "Nothing to reprint" in said
    assert f"The layout changed since {len(ALL)} leaves were printed." in said
    assert bench.changes() == {}


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--printed", FIRST], "name --out beside --printed"),
        (["--printed", "5.10.2026", "--out", "x.pdf"], "accepted: a day such as"),
        (["--printed", "2026-10-04", "--out", "x.pdf"], f"accepted: {FIRST} or later"),
        (["--printed", "2026-11-02", "--out", "x.pdf"], f"accepted: {TODAY} or earlier"),
    ],
)
def test_a_day_that_cannot_be_is_refused(bench, words, said, tmp_path, monkeypatch):
    """The call ends with 2 and writes nothing, neither file nor row."""
    bench.print(FIRST)
    bench.write("10-one/20-glue.md", "A-02", "Glue", "Glue is wet.")
    monkeypatch.chdir(tmp_path)
    before = state_of(bench.shop)
    done = bench.run(*words)
    assert done.exit_code == 2
    assert said in done.stderr
    assert state_of(bench.shop) == before
    assert not (tmp_path / "x.pdf").exists()


def test_nothing_is_recorded_where_the_file_cannot_be_written(bench):
    """The rows come last: a stranger's file in the way leaves printed.csv as it was."""
    before = state_of(bench.shop)
    bench.out.write_bytes(b"%PDF-1.7 a letter")
    done = bench.run("--printed", FIRST, "--out", str(bench.out))
    assert done.exit_code == 2
    assert "no file of leaves of ours" in done.stderr
    assert {path: data for path, data in state_of(bench.shop).items() if path in before} == before
    assert bench.rows() == []


def test_the_demo_shop_is_read_and_never_written(tmp_path, monkeypatch):
    """Without a shop folder nothing can be recorded as printed."""
    monkeypatch.chdir(tmp_path)
    done = CliRunner().invoke(main, ["reprint", "--printed", FIRST, "--out", "x.pdf"])
    assert done.exit_code == 2
    assert "name the shop folder to write into" in done.stderr
    assert not (tmp_path / "x.pdf").exists()


def test_the_same_print_gives_the_same_bytes(bench, tmp_path):
    """Two shops with the same leaves print the same file on the same day."""
    other = shutil.copytree(bench.shop, tmp_path / "other")
    bench.print(FIRST)
    once = bench.out.read_bytes()
    bench.shop = other
    bench.print(FIRST)
    assert bench.out.read_bytes() == once


def words_of(folder):
    """Give the words in the foot of each leaf of a build's binder."""
    return {side.leaf: side.words for side in read_sides(folder / "binder.pdf")}


def test_the_binder_of_a_build_knows_what_was_printed(bench, tmp_path):
    """Foot and list say the revision; what shows the sides of a leaf that grew is a draft."""
    bench.print(FIRST)
    publish.publish(bench.shop, tmp_path / "made")
    assert words_of(tmp_path / "made") == dict.fromkeys(ALL, f"revision 1 of {FIRST}")
    bench.write("10-one/10-wax.md", "A-01", "Wax", "Wax is warm.\n\n" * 90)
    (bench.shop / "shop.toml").write_text((bench.shop / "shop.toml").read_text() + "# ours\n")
    publish.publish(bench.shop, tmp_path / "made")
    draft = dict.fromkeys(["Effective leaves", "Contents", "A-01"], "draft, after revision 1")
    words = dict.fromkeys(ALL, f"revision 1 of {FIRST}") | draft
    assert words_of(tmp_path / "made") == words
    for name, slug in (("A-01", "wax"), ("A-02", "glue")):
        page = (tmp_path / "made" / f"{slug}.html").read_text("utf-8")
        assert f'<p class="revision">{name} · {words[name]}</p>' in page
    front = (tmp_path / "made" / "index.html").read_text("utf-8")
    assert f'<p class="revision">{words["Front"]}</p>' in front
    whole = (tmp_path / "made" / "handbook.html").read_text("utf-8")
    assert f'<p class="revision">A-02 · {words["A-02"]}</p>' in whole


def test_one_word_in_a_page_of_the_demo_shop_names_that_page(bound, tmp_path):
    """In the whole handbook: the leaf, and the list of effective leaves said as such."""
    shop = shutil.copytree(DEMO_SHOP, tmp_path / "shop")
    at = {name: (first, first + bound.counts[name] - 1) for name, first in bound.first.items()}
    catalog = dataclasses.replace(bound.handbook.catalog, printed=[])
    handbook = dataclasses.replace(bound.handbook, catalog=catalog)
    made = planning.plan(dataclasses.replace(bound.book, handbook=handbook), at, FIRST)
    with (shop / "printed.csv").open("w") as file:
        file.write("date,leaf,title,what,revision,pages,digest,layout\n")
        for row in planning.rows(made, FIRST):
            cells = [f'"{cell}"' for cell in row.values()]
            file.write(",".join(cells) + "\n")
    leaf = shop / "pages" / "opening-the-shop.md"
    text = leaf.read_text("utf-8")
    leaf.write_text(text.replace("beside the pot", "near the pot"), "utf-8")
    assert leaf.read_text("utf-8") != text
    done = CliRunner().invoke(main, ["reprint", "--shop", str(shop), "--json"])
    assert done.exit_code == 0, done.stderr
    import json

    changes = json.loads(done.stdout)["answer"]["changes"]
    assert [(one["leaf"], one["what"], one["old"], one["new"]) for one in changes] == [
        ("Effective leaves", "replace", 1, 2),
        ("S-50", "replace", 1, 2),
    ]
    assert changes[0]["why"] == "it lists the revisions, so it goes with every change"


GOOD = "2026-10-05,A-01,Wax,printed,1,2,aaaaaaaaaaaa,llllllllllll"
IMPOSSIBLE = [
    ("2026-10-04,A-02,Glue,printed,1,1,b,l", "date: found '2026-10-04', accepted: 2026-10-05"),
    ("2026-10-06,A-01,Wax,printed,1,2,b,l", "revision: found '1', accepted: 2, as another text"),
    ("2026-10-06,A-01,Wax,printed,0,2,b,l", "revision: found '0'"),
    ("2026-10-06,A-02,Glue,removed,1,,,", "what: found 'removed', accepted: printed; this leaf"),
    ("2026-10-06,A-01,Wax,removed,2,,,", "revision: found '2', accepted: 1, the revision that"),
    ("2026-10-06,A-02,Glue,printed,1,,b,l", "pages: found nothing, accepted: what `reprint`"),
    ("2026-10-06,A-02,Glue,printed,1,1,,l", "digest: found nothing, accepted: what `reprint`"),
]


@pytest.mark.parametrize(("row", "said"), IMPOSSIBLE)
def test_a_row_that_cannot_be_is_a_fault(row, said, tmp_path):
    """Days and revisions go forward, and what is taken out was in the binder."""
    lay_down(tmp_path / "shop")
    with (tmp_path / "shop" / "printed.csv").open("a") as file:
        file.write(f"{GOOD}\n{row}\n")
    with pytest.raises(Faults, match="1 fault in 1 file") as caught:
        load(tmp_path / "shop")
    assert said in str(caught.value)


def test_a_revision_that_goes_back_is_a_fault(tmp_path):
    """After revision 2 comes no revision 1, whatever stands on it."""
    lay_down(tmp_path / "shop")
    with (tmp_path / "shop" / "printed.csv").open("a") as file:
        file.write(
            f"{GOOD}\n2026-10-06,A-01,Wax,printed,2,2,b,l\n2026-10-07,A-01,Wax,printed,1,2,a,l\n"
        )
    with pytest.raises(Faults, match="revision: found '1', accepted: 2 or more"):
        load(tmp_path / "shop")


def test_a_second_print_of_the_same_text_is_none(tmp_path):
    """The same revision with the same digest may be printed again; so may one that was out."""
    lay_down(tmp_path / "shop")
    with (tmp_path / "shop" / "printed.csv").open("a") as file:
        file.write(f"{GOOD}\n{GOOD}\n2026-10-06,A-01,Wax,removed,1,,,\n")
        file.write("2026-10-07,A-01,Wax,printed,2,2,aaaaaaaaaaaa,llllllllllll\n")
    assert len(load(tmp_path / "shop").printed) == 4
