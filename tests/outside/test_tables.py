"""The trade's tables against their schema, their own rules, and figures printed elsewhere."""

from __future__ import annotations

import csv
import importlib
import json
import pkgutil
import re
import shutil
from pathlib import Path

import pytest
from frictionless import Package

import formulas
from formulas.formula import FORMULAS
from formulas.units import convert

for module in pkgutil.walk_packages(formulas.__path__, "formulas."):
    importlib.import_module(module.name)

TABLES = Path(formulas.__file__).parent / "tables"
PACKAGE = TABLES / "datapackage.json"
RESOURCES = {item["name"]: item for item in json.loads(PACKAGE.read_text("utf-8"))["resources"]}


def rows(name: str) -> list[dict[str, str]]:
    """Read a table as plain text cells, past the project's own reader."""
    with (TABLES / f"{name}.csv").open(encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))


def figure(name: str) -> dict[str, str]:
    """Give one bench figure's row."""
    return next(row for row in rows("figures") if row["id"] == name)


def faults_of(package: Path) -> list[tuple[str, str]]:
    """Validate a data package and give each fault's table and kind."""
    report = Package(str(package)).validate()
    return [(task.name, error.type) for task in report.tasks for error in task.errors] + [
        ("package", error.type) for error in report.errors
    ]


WITH_BASIS = [name for name, item in RESOURCES.items() if name not in {"sources", "materials"}]
WITH_SOURCE = [name for name in WITH_BASIS if "source" in rows(name)[0]]


# The schema


def test_the_package_validates():
    """Every table fits its schema, keys and references as frictionless reads them."""
    assert faults_of(PACKAGE) == []


@pytest.mark.parametrize(
    ("table", "old", "new", "kind"),
    [
        ("facts", "gum-rosin,softening-point,70", "gum-rosn,softening-point,70", "foreign-key"),
        ("facts", "softening-point,70,80,degC", "softening-point,70,80,C", "constraint-error"),
        (
            "blend_parts",
            "beeswax-rosin-4-1,beeswax-yellow,4",
            "beeswax-rosin-4-1,gum-rosin,4",
            "primary-key",
        ),
        ("sources", "cameo-rosin,", "cameo-beeswax,", "unique-error"),
        ("burns", "49,5,degC", "49,five,degC", "type-error"),
    ],
)
def test_the_schema_refuses(tmp_path, table, old, new, kind):
    """A spoiled cell is found, so that the clean result above means something."""
    folder = shutil.copytree(TABLES, tmp_path / "tables")
    path = folder / f"{table}.csv"
    text = path.read_text("utf-8")
    assert text.count(old) >= 1
    path.write_text(text.replace(old, new, 1), "utf-8")
    assert (table, kind) in faults_of(folder / "datapackage.json")


@pytest.mark.parametrize("name", RESOURCES)
def test_every_column_says_its_meaning_and_unit(name):
    """Each column has a description, and each number the unit it is in."""
    for field in RESOURCES[name]["schema"]["fields"]:
        assert field["description"].endswith((".", "read."))
        assert "unit" in field or re.search(r"[Uu]nit|Calendar year", field["description"])
        assert field["type"] != "number" or field["unit"]


# Basis and source


@pytest.mark.parametrize("name", WITH_SOURCE)
def test_published_rows_name_a_work_that_was_read(name):
    """Nothing is called published from a work that nobody opened."""
    read = {row["id"] for row in rows("sources") if row["read"] in {"yes", "part"}}
    published = [row for row in rows(name) if row["basis"] == "published"]
    assert [row for row in published if row["source"] not in read] == []


@pytest.mark.parametrize("name", WITH_SOURCE)
def test_memory_rows_do_not_lean_on_a_work_read_whole(name):
    """A value from memory names a work to check, or none; a work read whole would be quoted."""
    whole = {row["id"] for row in rows("sources") if row["read"] == "yes"}
    memory = [row for row in rows(name) if row["basis"] == "memory"]
    assert [row for row in memory if row["source"] in whole] == []


@pytest.mark.parametrize("name", WITH_SOURCE)
def test_practice_names_no_source_and_derived_says_from_what(name):
    """Common practice stands without a source; a derived row tells its origin in its note."""
    for row in rows(name):
        assert row["basis"] != "practice" or not row["source"]
        assert row["basis"] != "derived" or row["note"]


@pytest.mark.parametrize("name", WITH_SOURCE)
def test_published_rows_do_not_confess_to_memory(name):
    """No published row has a note that says the value itself is from memory."""
    confessions = re.compile(r"(value|figure|numbers?|row)\b.{0,20}\bfrom memory")
    for row in rows(name):
        assert row["basis"] != "published" or not confessions.search(row.get("note", ""))


def test_every_source_is_used():
    """No work is listed that no row leans on."""
    used = {row["source"] for name in WITH_SOURCE for row in rows(name)}
    used |= {made.source for made in FORMULAS.values()}
    assert {row["id"] for row in rows("sources")} - used == set()


def test_service_and_working_temperatures_have_a_basis_exactly_where_they_are():
    """A blank temperature has no basis, a given one has."""
    for row in rows("blends"):
        for kind in ("service", "working"):
            known = {bool(row[f"{kind}_{end}"]) for end in ("low", "high", "basis")}
            assert len(known) == 1, row["id"]


# What no schema shows


def test_no_fact_stands_twice():
    """Two rows that differ in nothing but the note are one row."""
    seen = [tuple(value for key, value in row.items() if key != "note") for row in rows("facts")]
    assert sorted(seen) == sorted(set(seen))


@pytest.mark.parametrize("name", ["facts", "figures"])
def test_ranges_run_upward(name):
    """The low end lies below the high end, and the usual value between them."""
    for row in rows(name):
        if row["low"] and row["high"]:
            low, high = float(row["low"]), float(row["high"])
            assert low <= high
            assert low <= float(row.get("typical") or low) <= high


def test_method_column_fits_its_property():
    """A softening point names a method of the table, a flash point its cup, the rest nothing."""
    methods = {row["id"] for row in rows("methods")}
    cups = {"closed-cup", "open-cup", "cup-not-stated"}
    accepted = {"softening-point": methods, "flash-point": cups}
    for row in rows("facts"):
        assert row["method"] in accepted.get(row["property"], {""})


def test_softeners_have_no_corner_in_the_estimate():
    """No softener, and not dammar, has a softening point by an estimated method."""
    estimated = {row["id"] for row in rows("methods") if row["estimated"] == "yes"}
    cornered = {row["material"] for row in rows("facts") if row["method"] in estimated}
    bodies = {row["id"] for row in rows("materials") if row["role"] == "body"}
    assert cornered == bodies - {"dammar"}


@pytest.mark.parametrize(
    "material", ["gum-rosin", "beeswax-yellow", "carnauba", "microcrystalline"]
)
def test_bridges_keep_the_order_of_the_methods(material):
    """Middles run congealing point, ring and ball, drop point (ASTM D127 Note 2)."""
    middles = {
        row["method"]: sum(convert(float(row[end]), row["unit"], "degC") for end in ("low", "high"))
        for row in rows("facts")
        if (row["material"], row["property"]) == (material, "softening-point")
        and row["source"] != "gbt-8145-2003"  # the lowest allowed, not the usual
        and row["high"]
    }
    assert middles["congealing-point"] <= middles["ring-and-ball"] <= middles["drop-point"]


def test_codes_of_cautions_are_in_the_table_of_statements():
    """Every code a caution carries has its text."""
    codes = {row["code"] for row in rows("statements")}
    carried = {code for row in rows("cautions") for code in row["codes"].split()}
    assert carried
    assert carried <= codes


def test_every_number_in_a_caution_stands_in_a_table():
    """A limit named in a caution is a bench figure, so the two cannot drift apart."""
    values = {float(row[end]) for row in rows("figures") for end in ("low", "high") if row[end]}
    for row in rows("cautions"):
        said = re.findall(r"\d+(?:\.\d+)?", row["title"] + row["text"].replace("Under 18", ""))
        ages = {18.0} if row["id"] == "under-18" else set()
        assert {float(number) for number in said} <= values | ages, row["id"]


@pytest.mark.parametrize(
    ("name", "material", "kind", "condition"),
    [
        ("colour-limit", "beeswax-yellow", "colour-onset", ""),
        ("fume-onset", "gum-rosin", "fume-onset", ""),
        ("rosin-fume-limit-8h", "gum-rosin", "exposure-limit-8h", "UK"),
        ("rosin-fume-limit-15min", "gum-rosin", "exposure-limit-15min", "UK"),
    ],
)
def test_figures_repeat_the_facts(name, material, kind, condition):
    """A figure that is also a fact of a material has the same value, unit and source."""
    fact = next(
        row
        for row in rows("facts")
        if (row["material"], row["property"]) == (material, kind) and condition in row["condition"]
    )
    same = ("low", "high", "unit", "basis", "source")
    assert [figure(name)[key] for key in same] == [fact[key] for key in same]


# Figures printed elsewhere


def test_beeswax_melts_within_the_pharmacopoeia_range():
    """Source crane-1990: pharmacopoeias together print 61 to 66 degC for beeswax."""
    ends = [
        convert(float(row[end]), row["unit"], "degC")
        for row in rows("facts")
        if row["material"] == "beeswax-yellow" and row["method"] == "capillary-melting"
        for end in ("low", "high")
    ]
    assert ends
    assert 61 <= min(ends) <= max(ends) <= 66


# Each value as the tables hold it and as the other unit is printed beside it in the source or
# in a table made from it. Tolerance: half of the last printed digit, or of the last printed ten
# where the source says "about".
BOTH_UNITS = [
    ("flash-margin", "low", "delta_degF", 30, 0.5),  # cfr-1910-106: 30 degF (16.7 degC)
    ("flash-margin-fahrenheit", "low", "delta_degC", 16.7, 0.05),
    ("car-ambient", "low", "degC", 22.2, 0.05),  # mclaren-2005
    ("car-ambient", "high", "degC", 35.6, 0.05),
    ("car-rise-hour", "low", "delta_degC", 22, 0.5),
    ("car-rise-five-minutes", "low", "delta_degC", 1.78, 0.005),
    ("car-coolest-day", "low", "degC", 47.2, 0.05),
    ("car-hot-day", "low", "degC", 56.7, 0.05),
    ("car-hot-day", "high", "degC", 67.8, 0.05),
    ("car-sun-hour", "low", "degC", 46.7, 0.05),  # vanos-2018
    ("car-dashboard", "low", "degC", 71.1, 0.05),
    ("car-dashboard", "high", "degC", 73.9, 0.05),
]


@pytest.mark.parametrize(("name", "end", "unit", "printed", "half_digit"), BOTH_UNITS)
def test_temperatures_printed_in_two_units_agree(name, end, unit, printed, half_digit):
    """Differences convert as differences, readings as readings."""
    row = figure(name)
    assert convert(float(row[end]), row["unit"], unit) == pytest.approx(printed, abs=half_digit)


# Source uscg-chris and niosh-npg-0478 print degF; the degC beside it is rounded to a degree,
# so it may be half a degree off and no more.
FLASH_POINTS = [("carnauba", 540, 282), ("tallow", 509, 265), ("paraffin", 390, 199)]


@pytest.mark.parametrize(("material", "fahrenheit", "celsius"), FLASH_POINTS)
def test_flash_points_agree_in_both_units(material, fahrenheit, celsius):
    """The printed degF is in the table, and comes out as the printed degC."""
    row = next(
        row
        for row in rows("facts")
        if (row["material"], row["property"]) == (material, "flash-point")
    )
    assert (float(row["low"]), row["unit"]) == (fahrenheit, "degF")
    assert convert(fahrenheit, "degF", "degC") == pytest.approx(celsius, abs=0.5)


def test_plates_and_tongues_of_a_large_instrument():
    """41 keys by four ranks and five ranks of twelve; the trade says about 200 and 400.

    "About" is one significant figure: rounded to hundreds the counts are the trade's.
    """
    count = {row["id"]: float(row["low"]) for row in rows("figures") if row["unit"] == "1"}
    plates = (
        count["treble-keys"] * count["treble-ranks"] + count["bass-ranks"] * count["bass-notes"]
    )
    assert plates == count["plates-large-instrument"] == 224
    assert plates * count["tongues-per-plate"] == count["tongues-large-instrument"] == 448
    assert round(plates, -2) == count["plates-trade-count"] == 200
    assert round(448, -2) == count["tongues-trade-count"] == 400


@pytest.mark.parametrize("share", [0.2, 0.5])
def test_pair_effect_holds_the_rise_and_the_fall(share):
    """Over straight mixing of the drop points, the pair's own range holds both statements.

    Trade: rosin raises the softening (above the wax, and up to straight mixing). Theory: the
    wax crystals melt earlier, by liquidus-shift-20 and liquidus-shift-50. The wax is taken at
    the middle of 61 to 66 degC, rosin at the middle of its bridge.
    """
    effect = next(row for row in rows("pair_effects") if row["first"] == "beeswax-yellow")
    wax, rosin = (61 + 66) / 2, 77.5
    straight = wax * (1 - share) + rosin * share
    bend = share * (1 - share)
    middle = straight + float(effect["mean"]) * bend
    reach = float(effect["half_width"]) * bend
    fall = figure(f"liquidus-shift-{share * 100:.0f}")
    assert middle - reach <= wax + float(fall["low"])
    assert middle + reach >= straight > wax
