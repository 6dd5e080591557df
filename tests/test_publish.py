"""What a build may touch: only what a build made, one file after another, nothing twice."""

from __future__ import annotations

import csv
import io
import json
import re
import shutil

import pytest
from click.testing import CliRunner

from formulas.catalog import load
from formulas.fault import Faults
from site_builder import content, publish
from site_builder.commands import main
from site_builder.paper import binder
from site_builder.places import CONTENT
from site_builder.screen import site

DEMO = CONTENT / "demo-shop"


@pytest.fixture
def made(built, tmp_path):
    """A copy of the built demo handbook, free to spoil."""
    return shutil.copytree(built, tmp_path / "made")


def test_a_build_lists_all_that_it_wrote(built):
    """The manifest names every file there is, and nothing else stands in the folder."""
    listed = json.loads((built / "manifest.json").read_text())["files"]
    there = {str(p.relative_to(built)) for p in built.rglob("*") if p.is_file()}
    assert there == {*listed, "manifest.json"}
    assert {"index.html", "handbook.html", "binder.pdf", "README.md"} <= there


def test_nothing_changed_writes_nothing(made):
    """A second build with the same inputs touches no file."""
    before = {path: path.stat().st_mtime_ns for path in made.rglob("*")}
    assert "nothing has changed" in publish.publish(DEMO, made)
    assert {path: path.stat().st_mtime_ns for path in made.rglob("*")} == before


def test_the_same_inputs_give_the_same_bytes(made, tmp_path):
    """Built anew in another place, every file is the same to the last byte."""
    publish.publish(DEMO, tmp_path / "again, é")
    for path in made.rglob("*"):
        if path.is_file():
            assert (
                tmp_path / "again, é" / path.relative_to(made)
            ).read_bytes() == path.read_bytes()


def test_what_a_build_no_longer_makes_is_removed(made):
    """A page of an earlier build goes; a stranger's file that came later stays."""
    manifest = json.loads((made / "manifest.json").read_text())
    (made / "old-leaf.html").write_text("old")
    (made / "mine.txt").write_text("mine")
    manifest |= {"files": [*manifest["files"], "old-leaf.html"], "inputs": "of an earlier build"}
    (made / "manifest.json").write_text(json.dumps(manifest))
    publish.publish(DEMO, made)
    assert not (made / "old-leaf.html").exists()
    assert (made / "mine.txt").read_text() == "mine"


@pytest.mark.parametrize(
    ("told", "taken"),
    [
        ({}, {}),
        ({"sides": 7}, {}),
        ({"sides": ["W-01"]}, {}),
        ({"sides": {"W-01": "4", "W-02": -1, "W-03": 2.5, "W-04": 0, "W-05": 3}}, {"W-05": 3}),
    ],
    ids=["none", "a number", "a list", "some that are none"],
)
def test_sides_of_a_manifest_are_taken_where_they_are_sides(told, taken):
    """What somebody wrote into a manifest is left aside."""
    assert publish._sides(told) == taken


def test_sides_that_a_manifest_tells_wrongly_change_nothing(made):
    """A build begins from the sides of the last one, and ends with those that there are."""
    binder_before = (made / "binder.pdf").read_bytes()
    manifest = json.loads((made / "manifest.json").read_text())
    right = manifest["sides"]
    spoilt = manifest | {"sides": {"W-01": 99}, "inputs": "of an earlier build"}
    (made / "manifest.json").write_text(json.dumps(spoilt))
    publish.publish(DEMO, made)
    assert (made / "binder.pdf").read_bytes() == binder_before
    assert json.loads((made / "manifest.json").read_text())["sides"] == right


@pytest.mark.parametrize("stranger", ["index.html", "letters.txt", "manifest.json"])
def test_a_folder_that_no_build_made_is_refused(tmp_path, stranger):
    """A folder with anything of somebody's is refused, and stays as it was."""
    (tmp_path / "README.md").write_text("a page alone would be no hindrance")
    (tmp_path / stranger).write_text("{}")
    with pytest.raises(publish.NotOurs, match=stranger):
        publish.publish(DEMO, tmp_path)
    assert sorted(p.name for p in tmp_path.iterdir()) == sorted(["README.md", stranger])
    assert (tmp_path / stranger).read_text() == "{}"


def test_faults_leave_the_last_handbook_as_it_was(made, tmp_path):
    """A shop folder with a fault changes no file of the handbook built before."""
    shop = shutil.copytree(DEMO, tmp_path / "shop")
    with (shop / "prices.csv").open("a") as file:
        file.write("gum-rosn,1,1,kg,,measured,\n")
    before = {path: path.stat().st_mtime_ns for path in made.rglob("*") if path.is_file()}
    with pytest.raises(Faults):
        publish.publish(shop, made)
    after = {path: path.stat().st_mtime_ns for path in made.rglob("*") if path.is_file()}
    assert after == before


def test_the_page_in_the_repository_is_the_one_a_build_writes():
    """output/README.md comes out of a build byte for byte as git tracks it."""
    tracked = CONTENT.parent / "output" / "README.md"
    assert tracked.read_bytes() == publish.README.read_bytes()


def european(folder):
    """Save every table of a folder anew, as a European spreadsheet does."""
    for path in folder.glob("*.csv"):
        rows = list(csv.reader(io.StringIO(path.read_text("utf-8"), newline="")))
        made = io.StringIO()
        comma = [[re.sub(r"^(-?\d+)\.(\d+)$", r"\1,\2", cell) for cell in row] for row in rows]
        csv.writer(made, delimiter=";", lineterminator="\r\n").writerows([*comma, [], [""] * 4])
        path.write_bytes(b"\xef\xbb\xbf" + made.getvalue().encode())
    return folder


def test_tables_of_a_european_spreadsheet_build_the_same_handbook(tmp_path):
    """Semicolons, decimal commas, byte order mark and CRLF change no page and no leaf."""
    plain = shutil.copytree(DEMO, tmp_path / "plain")
    with (plain / "blend_parts.csv").open("a") as file:
        file.write("three-lanterns-7-2,raw-linseed-oil,0.25\n")
    other = european(shutil.copytree(plain, tmp_path / "other"))
    assert b";0,25" in (other / "blend_parts.csv").read_bytes()
    one, two = (content.read(load(folder)) for folder in (plain, other))
    assert site.files(one) == site.files(two)
    books = [binder.written(handbook) for handbook in (one, two)]
    at = binder.expected(books[0], binder.last_printed(books[0]))
    assert binder.whole(books[0], at) == binder.whole(books[1], at)


NINE = [
    ("blends.csv", "no-parts,No parts,For us,,,,,,,,,measured,"),
    ("blends.csv", "three-lanterns-7-2,Twice,For us,,,,,,,,,measured,"),
    ("blends.csv", "hot,Hot,For us,warm,,,,,,,,measured,"),
    ("blends.csv", "high,High,For us,,,,90,75,practice,degC,,measured,"),
    ("blends.csv", "said,Said,For us,,,,,,,,,mesured,"),
    ("blend_parts.csv", "high,gum-rosn,1"),
    ("blend_parts.csv", "said,gum-rosin,4;1"),
    ("blend_parts.csv", "nowhere,gum-rosin,1"),
    ("blend_parts.csv", "hot,beeswax-yellow,-4"),
]


def test_nine_faults_give_nine_messages_and_change_nothing(made, tmp_path):
    """A build of a shop with nine faults names each, ends with 1 and leaves every file."""
    shop = shutil.copytree(DEMO, tmp_path / "shop")
    for name, line in NINE:
        with (shop / name).open("a") as file:
            file.write(line + "\n")
    before = {p: p.read_bytes() for root in (shop, made) for p in root.rglob("*") if p.is_file()}
    result = CliRunner().invoke(main, ["build", "--shop", str(shop), "--out", str(made)])
    assert result.exit_code == 1
    lines = result.stderr.splitlines()
    assert len(lines) == 10
    assert lines[-1] == "9 faults in 2 files; nothing was changed."
    after = {p: p.read_bytes() for root in (shop, made) for p in root.rglob("*") if p.is_file()}
    assert after == before


def test_a_character_no_font_has_is_told(tmp_path):
    """A build says which character paper cannot show, as what it is printed, and where."""
    shop = shutil.copytree(DEMO, tmp_path / "shop")
    leaf = shop / "pages" / "opening-the-shop.md"
    leaf.write_text(leaf.read_text("utf-8") + "\nAsk 中 first.\n", "utf-8")
    said = publish.publish(shop, tmp_path / "made").splitlines()[1:]
    assert said == ["binder.pdf: no font has '中', printed as [U+4E2D] in S-50"]
