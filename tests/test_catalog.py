"""The trade's tables and a shop's: which row counts, what is checked, what stays unknown."""

from __future__ import annotations

import pytest

from formulas.catalog import load
from formulas.fault import Faults, NotKnown, UnknownName
from site_builder.start import lay_down


@pytest.fixture(scope="module")
def trade():
    """The trade's tables alone."""
    return load(None)


@pytest.fixture
def shop(tmp_path):
    """A new shop folder, and a way to add lines to its tables."""
    lay_down(tmp_path / "shop")

    def add(name, *lines):
        with (tmp_path / "shop" / name).open("a", encoding="utf-8") as file:
            file.write("".join(f"{line}\n" for line in lines))
        return tmp_path / "shop"

    add.folder = tmp_path / "shop"
    return add


def test_a_fresh_shop_folder_has_no_fault(shop):
    """What `start` lays down reads without a fault and adds nothing."""
    assert len(load(shop.folder).facts) == len(load(None).facts)


def test_published_outranks_memory(trade):
    """Of a published and a remembered range only the published one counts."""
    found = trade.known("gum-rosin", "softening-point", "ring-and-ball")
    assert (found.low, found.high, found.basis) == (70, 80, "published")


def test_rows_of_one_rank_give_their_union(trade):
    """Where published ranges differ the band is their union, and no middle is made up."""
    found = trade.known("beeswax-yellow", "softening-point", "handbook-melting-range")
    assert (found.low, found.high) == (61, 70)
    assert len(found.facts) == 3


def test_measured_outranks_everything(shop):
    """A shop's own reading replaces the table's range."""
    row = "gum-rosin,softening-point,71,72,degC,ring-and-ball,,measured,,,"
    found = load(shop("facts.csv", row)).known("gum-rosin", "softening-point", "ring-and-ball")
    assert (found.low, found.high, found.basis) == (71, 72, "measured")


def test_units_of_one_kind_meet(shop):
    """A reading in degrees Fahrenheit joins those in Celsius."""
    row = "gum-rosin,softening-point,158,176,degF,ring-and-ball,,measured,,,"
    found = load(shop("facts.csv", row)).known("gum-rosin", "softening-point", "ring-and-ball")
    assert (found.unit, found.low, found.high) == ("degF", 158, 176)


def test_what_no_table_holds_is_not_known(trade):
    """A missing property says how to find it out."""
    with pytest.raises(
        NotKnown, match=r"Gum rosin: density-liquid is not known\. To find out: ask"
    ):
        trade.known("gum-rosin", "density-liquid")


def test_a_near_name_is_offered(trade):
    """An unknown blend names the nearest one."""
    with pytest.raises(UnknownName, match="did you mean 'beeswax-rosin-4-1'"):
        trade.blend("beeswax-rosn-4-1")


def test_a_shop_blend_replaces_the_trade_s_parts(shop):
    """A blend of the same id takes the shop's parts, and none of the trade's stays in."""
    shop("blends.csv", "beeswax-rosin-4-1,Ours,For us,,,,,,,,,measured,")
    folder = shop("blend_parts.csv", "beeswax-rosin-4-1,beeswax-white,9")
    assert load(folder).blends["beeswax-rosin-4-1"].parts == {"beeswax-white": 9}


def test_nine_faults_in_several_files_come_together(shop):
    """Every fault of every file is reported at once, in the order of the tables."""
    shop("facts.csv", "gum-rosn,softening-point,71,72,degC,ring-and-ball,,measured,,,")
    shop("facts.csv", "gum-rosin,softening-point,72,71,degC,ring-and-ball,,measured,,,")
    shop("facts.csv", "gum-rosin,softening-point,71,72,g,ring-and-ball,,measured,,,")
    shop("facts.csv", "gum-rosin,softening-point,71,72,degC,ring-and-bal,,measured,,,")
    shop("facts.csv", "gum-rosin,density-solid,1,2,g/cm**3,,,published,,,")
    shop("blends.csv", "ours,Ours,For us,,,,,,,,,measured,")
    shop("blend_parts.csv", "theirs,gum-rosin,1", "ours-2,beeswax,1")
    folder = shop("prices.csv", "gum-rosin,9,0,kg,,measured,")
    with pytest.raises(Faults) as caught:
        load(folder)
    said = [str(fault) for fault in caught.value.faults]
    assert [(fault.file, fault.column) for fault in caught.value.faults] == [
        ("facts.csv", "material"),
        ("facts.csv", "high"),
        ("facts.csv", "unit"),
        ("facts.csv", "method"),
        ("facts.csv", "source"),
        ("blends.csv", "id"),
        ("blend_parts.csv", "blend"),
        ("blend_parts.csv", "blend"),
        ("blend_parts.csv", "material"),
        ("prices.csv", "amount"),
    ]
    assert "did you mean 'gum-rosin'?" in said[0]
    assert "did you mean 'ring-and-ball'?" in said[3]
    assert str(caught.value).endswith("10 faults in 4 files; nothing was changed.")


def test_a_file_name_that_is_nearly_ours(shop):
    """A table with a slip in its name is reported, since it would be left out in silence."""
    (shop.folder / "blend.csv").write_text("id\n", encoding="utf-8")
    with pytest.raises(Faults, match=r"did you mean 'blends\.csv'"):
        load(shop.folder)


SETTINGS = [
    ('scale = "0.1"', "scale: found '0.1', accepted: the smallest step"),
    ('units = "imperial"', "units: found 'imperial', accepted: 'metric' or 'US'"),
    ("pitch_of_a = 44", "pitch_of_a: found '44', accepted: hertz from 400 to 480"),
    ('curency = "EUR"', r"\(key\): found 'curency', accepted: the settings .*mean 'currency'"),
    ("name = Ours", r"\(line\): found"),
]


@pytest.mark.parametrize(("line", "said"), SETTINGS)
def test_a_wrong_setting_names_its_line(shop, line, said):
    """A setting that is not accepted is reported with its line in shop.toml."""
    (shop.folder / "shop.toml").write_text(f"# ours\n{line}\n", encoding="utf-8")
    with pytest.raises(Faults, match=f"shop.toml:2: {said}"):
        load(shop.folder)


def test_every_caution_reaches_a_command_or_leaf(trade):
    """No caution stands in the table without a place where it is printed."""
    assert all(caution.applies_to for caution in trade.cautions.values())


def test_a_row_with_a_wrong_cell_brings_no_second_fault(shop):
    """The parts of a blend whose own row has a fault are not reported as parts of no blend."""
    shop("blends.csv", "ours,Ours,For us,hot,,,,,,,,measured,")
    folder = shop("blend_parts.csv", "ours,gum-rosin,1")
    with pytest.raises(Faults) as caught:
        load(folder)
    assert [fault.column for fault in caught.value.faults] == ["service_low"]


def test_the_usual_blend_must_be_one(tmp_path):
    """A usual blend that no table holds is a fault at its own line, with the nearest name."""
    (tmp_path / "shop.toml").write_text('name = "A"\nusual = "beeswax-rosin-4-2"\n')
    with pytest.raises(Faults, match=r"shop\.toml:2: usual: found 'beeswax-rosin-4-2'.*did you"):
        load(tmp_path)
