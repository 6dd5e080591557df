"""Lay down a shop folder: headed tables with a remark for each column, settings, own leaves."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

from formulas.catalog import SHARED, TABLES, all_schemas
from formulas.fault import FormulasError
from formulas.table import Schema

SETTINGS = """\
# Settings of this shop. What a build prints under its name.
name = "My bench"
# metric or US: degrees Fahrenheit beside the bench
units = "metric"
currency = "EUR"
# Pitch of A in hertz
pitch_of_a = 440
# Smallest step the scale shows, in g or oz: weights are rounded to it
scale = "0.1 g"
# a4 or letter
paper = "a4"
# Marks of the holes to punch: none, iso-2, iso-4 or us-3
holes = "none"
# The blend you know best: others are compared with it
# usual = "beeswax-rosin-4-1"
# The instrument of ranks.csv that `valves` and `cut` answer for
# instrument = "forty-one-key"
# The kind of stock that valves are cut from: leather, film, microfibre or woven; else all
# valve_kind = "leather"
# The face of a skin that lies on the plate: smooth or soft; test it first
# face_to_plate = "smooth"
# Volume of the bench room, and how often an hour its air is changed: for `air`
# room = "30 m3"
# air_changes = 1
# For labels; without them a label has lines to write on
# address = "Street and town"
# telephone = "+00 000 0000"
"""

PAGES = """\
Own leaves go here, one Markdown file a leaf, with four lines at the head:

leaf: W-50
section: W
title: How we melt
summary: The pot in the back room.

A leaf ends in .md; this page does not, so it is left out of the handbook.
"""


class FolderInUse(FormulasError, FileExistsError):
    """A folder that holds something already, so that nothing is laid over it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        super().__init__(f"found '{folder}' with files in it, accepted: a new or an empty folder")


def own_tables() -> dict[str, Schema]:
    """Give the schemas of the tables a shop folder may hold, by file name."""
    return {
        name: schema
        for name, schema in all_schemas().items()
        if name in SHARED or not (TABLES / name).is_file()
    }


def lay_down(folder: Path) -> list[str]:
    """Write a new shop folder and give the names of its files. Raises FolderInUse."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise FolderInUse(folder)
    files = {"shop.toml": SETTINGS, "pages/read-me.txt": PAGES}
    files |= {name: headed(schema) for name, schema in own_tables().items()}
    files["datapackage.json"] = described(list(own_tables().values()))
    (folder / "pages").mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8", newline="\n")
    return list(files)


def headed(schema: Schema) -> str:
    """Give an empty table: the header, then remark lines that explain the columns.

    The header comes first because that is where other programs look for it.
    """
    fields = schema["schema"]["fields"]
    lines = io.StringIO()
    csv.writer(lines, lineterminator="\n").writerow([field["name"] for field in fields])
    for field in fields:
        rules = field.get("constraints", {})
        accepted = f"; one of {', '.join(rules['enum'])}" if "enum" in rules else ""
        blank = "" if rules.get("required") else "; may stay blank"
        lines.write(f"# {field['name']}: {field.get('description', '')}{accepted}{blank}\n")
    return lines.getvalue()


def described(schemas: list[Schema]) -> str:
    """Give the data package of a shop folder, so that other programs can read and check it.

    Keys into the trade's tables are left out: those tables are not in the folder.
    """
    resources = []
    for schema in schemas:
        inner = {k: v for k, v in schema["schema"].items() if k != "foreignKeys"}
        resources.append({**schema, "dialect": {"commentChar": "#"}, "schema": inner})
    package = {
        "profile": "tabular-data-package",
        "name": "benchbinder-shop-folder",
        "title": "A shop's own tables",
        "resources": resources,
    }
    return json.dumps(package, indent=2, ensure_ascii=False) + "\n"
