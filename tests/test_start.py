"""A new shop folder: complete, explained, and never laid over another."""

from __future__ import annotations

import json

import pytest
from frictionless import Package

from formulas.catalog import all_schemas, load
from site_builder import start
from site_builder.places import CONTENT


def test_what_is_laid_down_reads_without_a_fault(tmp_path):
    """A fresh folder loads, and its tables say what each column wants."""
    names = start.lay_down(tmp_path / "shop")
    assert load(tmp_path / "shop").shop.name == "My bench"
    for name in names:
        assert (tmp_path / "shop" / name).is_file()
    text = (tmp_path / "shop" / "blend_parts.csv").read_text()
    assert "# parts:" in text
    assert text.startswith("blend,material,parts\n")


def test_a_folder_in_use_is_left_alone(tmp_path):
    """A folder with anything in it is refused, and nothing in it changes."""
    (tmp_path / "note.txt").write_text("mine")
    with pytest.raises(start.FolderInUse):
        start.lay_down(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["note.txt"]


@pytest.mark.parametrize("folder", ["fresh", "demo"])
def test_other_programs_can_check_a_shop_folder(tmp_path, folder):
    """The data package of a shop folder validates with an independent reader."""
    if folder == "fresh":
        start.lay_down(tmp_path / "shop")
        place = tmp_path / "shop"
    else:
        place = tmp_path
        for path in (CONTENT / "demo-shop").glob("*.csv"):
            (tmp_path / path.name).write_bytes(path.read_bytes())
        held = {name: s for name, s in start.own_tables().items() if (tmp_path / name).is_file()}
        (tmp_path / "datapackage.json").write_text(start.described(list(held.values())))
    report = Package(str(place / "datapackage.json")).validate()
    assert report.valid, [error.message for task in report.tasks for error in task.errors]


def test_the_described_tables_are_the_ones_that_are_read():
    """Every table that a shop may hold is in its data package, and no other."""
    described = json.loads(start.described(list(start.own_tables().values())))
    paths = {resource["path"] for resource in described["resources"]}
    assert paths == set(start.own_tables())
    assert paths < set(all_schemas())
