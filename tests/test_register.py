"""The register of chemicals: its faults, what a check says of it, its page, its command."""

from __future__ import annotations

import dataclasses
import json
import shutil

import book_trials
import pytest
from book_trials import blank, run
from click.testing import CliRunner
from far_pages import capitals, page_with, printed_leaf

from formulas.air_entries import Chemical
from formulas.books.register import SHEET, TABLE, codes_of, named_by, register_notices
from formulas.catalog import load
from formulas.fault import Faults, NotKnown
from site_builder.commands import main
from site_builder.markup.elements import day
from site_builder.parts.register_parts import LEAST_BLANK, NO_SHEET, NOT_KNOWN, danger
from site_builder.parts.registry import place
from site_builder.places import DEMO_SHOP

TRADE = load(None)
HEAD = (
    "chemical,solvent,amount,unit,place,sheet_held,sheet_date,opened,use_by,hazard_codes,basis,note"
)
DAY = "2026-11-02"


def written(folder, *rows):
    """Lay down a shop with these rows of chemicals."""
    return book_trials.shop(folder, chemicals="\n".join([HEAD, *rows]) + "\n")


def jar(name="Jar", **cells):
    """Make a chemical whose data sheet is held and new."""
    told = {"place": "cabinet", "sheet_held": True, "sheet_date": "2026-01-01", **cells}
    return blank(Chemical, chemical=name, basis="measured", **told)


def shelf(*jars, **changed):
    """Give the trade's catalog with these jars on the shelf."""
    held = {one.chemical: one for one in jars}
    return dataclasses.replace(TRADE, chemicals=held, **changed)


# Faults


def test_every_fault_of_the_register_is_told_at_once(tmp_path):
    """Each cell is named with its line; a row that is right is not."""
    shop = written(
        tmp_path / "shop",
        "Right,ethanol,1,L,cabinet,yes,2025-03-01,2026-01-01,2026-12-31,H225 EUH066,measured,",
        "One,ethanl,1,,cabinet,no,,,,,measured,",
        "Two,,,L,cabinet,no,2025-03-01,,,H999 P210,measured,",
        "Three,gum-rosin,1,kg,cabinet,yes,,2026-03-01,2026-02-28,,measured,",
    )
    with pytest.raises(Faults) as caught:
        load(shop)
    found = [(one.row, one.column, one.found) for one in caught.value.faults]
    assert found == [
        (3, "solvent", "ethanl"),
        (3, "unit", ""),
        (4, "amount", ""),
        (4, "sheet_held", "no"),
        (4, "hazard_codes", "H999"),
        (4, "hazard_codes", "P210"),
        (5, "sheet_date", ""),
        (5, "use_by", "2026-02-28"),
    ]
    assert "did you mean 'ethanol'" in str(caught.value)


def test_a_name_that_stands_twice_is_a_fault(tmp_path):
    """Two rows of one tin are told, so that a label never names the wrong one."""
    row = "Ethanol,ethanol,1,L,cabinet,no,,,,,measured,"
    with pytest.raises(Faults, match="stands already on line 2"):
        load(written(tmp_path / "shop", row, row))


# What a check says


# Three years after 2023-11-02 is 2026-11-02: on that day the sheet is not older yet.
@pytest.mark.parametrize(("sheet", "old"), [("2023-11-02", False), ("2023-11-01", True)])
def test_a_data_sheet_is_old_from_the_day_after(sheet, old):
    """The figure says after how many years; the notice sends to the supplier."""
    assert TRADE.figure("data-sheet-age").low == 3
    said = register_notices(shelf(jar(sheet_date=sheet)), DAY)
    assert bool(said) is old
    assert all("Ask your supplier for the current one" in one for one in said)


def test_the_figure_sets_the_age():
    """With ten years in the table the same sheet is not old."""
    ten = dataclasses.replace(TRADE.figure("data-sheet-age"), low=10, high=10)
    old = jar(sheet_date="2019-01-01")
    assert register_notices(shelf(old), DAY)
    assert not register_notices(shelf(old, figures={**TRADE.figures, "data-sheet-age": ten}), DAY)


def test_a_missing_sheet_and_a_day_that_is_past_are_told():
    """The last day itself is still a day of use."""
    said = register_notices(
        shelf(
            jar("A", sheet_held=False, sheet_date=""),
            jar("B", use_by="2026-11-01"),
            jar("C", use_by=DAY),
        ),
        DAY,
    )
    assert [one.split(": ")[1] for one in said] == ["A", "B"]
    assert "no data sheet is held" in said[0]
    assert "its last day was 2026-11-01" in said[1]


PEROXIDE = "Hydrogen peroxide, 3 %"


@pytest.mark.parametrize(
    ("first", "second", "apart"),
    [
        (jar(PEROXIDE), jar("Spirit", solvent="acetone"), True),
        (jar("Spirit", solvent="acetone"), jar(PEROXIDE), True),
        (jar("Bleach", place="x"), jar("Bleach of chlorine"), False),
        (jar("Ammonia cleaner"), jar("Chlorine bleach, thin"), True),
        (jar("Chlorine bleach", place="Cabinet "), jar("Vinegar"), True),
        (jar("Chlorine bleach", place="kitchen"), jar("Vinegar"), False),
        (jar("Ethanol", solvent="ethanol"), jar("Heptane", solvent="heptane"), False),
    ],
)
def test_two_that_do_not_get_on_in_one_place_are_told(first, second, apart):
    """By their names, either way round, and in one place only; what happens is said."""
    said = register_notices(shelf(first, second), DAY)
    assert bool(said) is apart
    for one in said:
        assert first.chemical in one
        assert second.chemical in one
        assert any(row.what_happens in one for row in TRADE.incompatible)


def test_a_pair_of_a_jar_and_a_thing_is_left_out():
    """A hot plate or a rag is no jar: of such a pair nothing is told."""
    turpentine = jar("Turps", solvent="gum-turpentine")
    assert named_by(TRADE, turpentine, "Any solvent")
    assert not named_by(TRADE, turpentine, "Rag with turpentine or oil")
    assert not named_by(TRADE, turpentine, "Wax pot, hot plate, iron, heat gun, flame")
    assert not named_by(TRADE, jar("Vinegar"), "Any solvent")


def test_the_demo_shop_shows_each_kind_of_notice(tmp_path, monkeypatch):
    """On its own day: no sheet, an old one, a last day that is past, and two that part."""
    said = CliRunner().invoke(main, ["check", "--shop", str(DEMO_SHOP), "--on", "2026-11-20"])
    assert said.exit_code == 0, said.output
    for words in (
        "no data sheet is held",
        "is older than 3 years",
        "its last day was",
        "stand both",
    ):
        assert words in said.stdout
    earlier = CliRunner().invoke(main, ["check", "--shop", str(DEMO_SHOP), "--on", "2022-01-01"])
    assert "is older than" not in earlier.stdout
    assert "its last day was" not in earlier.stdout


def test_a_day_that_is_none_is_refused():
    """The option names what it takes."""
    said = CliRunner().invoke(main, ["check", "--on", "soon"])
    assert said.exit_code == 2
    assert "--on: found 'soon', accepted: a day" in said.output


# Hazards


def test_the_codes_of_its_own_sheet_count_first():
    """A row's own statements take the place of the table's; without them the table counts."""
    assert codes_of(TRADE, jar(solvent="ethanol")) == (("H225", "H319"), TABLE)
    assert codes_of(TRADE, jar(solvent="ethanol", hazard_codes=("H226",))) == (("H226",), SHEET)
    assert codes_of(TRADE, jar(solvent="gum-rosin")) == (("H317",), TABLE)


@pytest.mark.parametrize("solvent", ["", "beeswax-yellow"])
def test_no_row_is_not_known_and_never_none(solvent):
    """It raises, and says to copy the label of the bottle."""
    with pytest.raises(NotKnown, match="copy the label of the bottle"):
        codes_of(TRADE, jar(solvent=solvent))
    assert danger(TRADE, jar(solvent=solvent)) == NOT_KNOWN


def test_the_danger_of_a_jar_is_told_in_words():
    """Its signal word, then what its pictograms are called."""
    assert danger(TRADE, jar(solvent="ethanol")) == "DANGER: flame, exclamation mark"
    assert danger(TRADE, jar(hazard_codes=("H412",))) == "H412"  # no word and no pictogram


# The page


def cells(catalog):
    """Give the rows of the register's page as texts, those to write on as empty ones."""
    (page,) = place(catalog, "chemical-register", "")
    return page, [["".join(cell.itertext()) for cell in row] for row in page.iter("tr")][1:]


def test_the_page_holds_each_jar_and_rows_to_write_on():
    """Days are printed, no age is: the page is the same on every day."""
    page, rows = cells(
        shelf(
            jar("Spirit", solvent="ethanol", amount=1.0, unit="L", use_by="2027-01-31"),
            jar("Unknown tin", sheet_held=False, sheet_date=""),
        )
    )
    assert page.tag == "onepage"
    sheet, use_by = day("2026-01-01"), day("2027-01-31")
    told = "DANGER: flame, exclamation mark"
    assert rows[0] == ["Spirit", "1\xa0L", "cabinet", told, sheet, use_by]
    assert rows[1] == ["Unknown tin", NOT_KNOWN, "cabinet", NOT_KNOWN, NO_SHEET, "none set"]
    assert len(rows) - 2 >= LEAST_BLANK
    assert all(cell == "" for row in rows[2:] for cell in row)


def test_a_full_shelf_keeps_rows_to_write_on():
    """However many jars there are, the last page has room for the next ones."""
    _, rows = cells(shelf(*(jar(f"Jar {at}") for at in range(40))))
    assert len(rows) == 40 + LEAST_BLANK


def on_paper(catalog, paper):
    """Print the leaf of the register on one paper."""
    return printed_leaf(
        dataclasses.replace(catalog, shop=dataclasses.replace(catalog.shop, paper=paper)), "S-09"
    )


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_demo_shelf_is_one_page_read_from_one_metre(paper):
    """All its jars and the words below stand on the last page, no capital lower than 3 mm.

    Tolerance: a twentieth of a millimetre, by which letters of one height differ as drawn.
    """
    demo = load(DEMO_SHOP)
    pages = on_paper(demo, paper)
    at, words = page_with(pages, "In the jar")
    assert at == len(pages) - 1
    assert all(one.replace("-", "") in words.replace("-", "") for one in demo.chemicals)
    assert "Not known is not harmless" in words
    heights = capitals(pages[at])
    assert len(heights) > 10
    assert min(heights) >= TRADE.figure("reading-height-per-metre").low - 0.05


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_more_jars_run_on_and_their_letters_do_not_shrink(paper):
    """Forty jars take more pages, each with the heads and with capitals of the same height."""
    forty = [jar(f"Jar {at} of the long shelf", solvent="gum-turpentine") for at in range(40)]
    pages = on_paper(shelf(*forty), paper)
    read = [page.get_textpage().get_text_range() for page in pages]
    shelves = [page for page, words in zip(pages, read, strict=True) if "In the jar" in words]
    assert len(shelves) > 1
    for page in shelves:
        assert min(capitals(page)) >= TRADE.figure("reading-height-per-metre").low - 0.05


def test_the_page_does_not_read_the_clock(monkeypatch):
    """The same shelf gives the same page in another year."""
    import time

    before = cells(load(DEMO_SHOP))[1]
    monkeypatch.setattr(time, "time", lambda: 4e9)
    assert cells(load(DEMO_SHOP))[1] == before


# The command

ENTRY = ("chemical", "Ethanol, tin", "--solvent", "ethanol", "--amount", "1L", "--place", "cabinet")


def test_a_row_lands_in_the_register(tmp_path):
    """What was typed stands in the table, in its own unit, and the label's command is told."""
    shop = book_trials.shop(tmp_path / "shop")
    done = run(*ENTRY, "--sheet", "2025-03-01", "--opened", DAY, "--hazards", "H225", shop=shop)
    assert done.exit_code == 0, done.stderr
    (one,) = load(shop).chemicals.values()
    assert (one.chemical, one.solvent, one.amount, one.unit) == ("Ethanol, tin", "ethanol", 1, "L")
    assert (one.sheet_held, one.sheet_date, one.opened) == (True, "2025-03-01", DAY)
    assert (one.hazard_codes, one.basis) == (("H225",), "measured")
    assert "Hazard statements: H225, from its data sheet" in done.stdout
    assert 'label --jar "Ethanol, tin"' in done.stdout
    assert "No solvent in a heated pot" in " ".join(done.stderr.split())


@pytest.mark.parametrize(
    ("typed", "amount", "unit"), [("250mL", 250, "mL"), ("8 fl oz", 8, "floz"), ("2lb", 2, "lb")]
)
def test_an_amount_keeps_its_unit(tmp_path, typed, amount, unit):
    """Volume or mass, as the tin says it."""
    shop = book_trials.shop(tmp_path / "shop")
    done = run("chemical", "Tin", "--amount", typed, "--place", "shelf", shop=shop)
    assert done.exit_code == 0, done.stderr
    one = load(shop).chemicals["Tin"]
    assert (one.amount, one.unit) == (amount, unit)


def test_what_the_row_brings_about_is_told(tmp_path):
    """No sheet, hazards not known, and a neighbour it should not have: each is said once."""
    shop = book_trials.shop(tmp_path / "shop")
    assert run(*ENTRY, "--sheet", "2099-01-01", shop=shop).exit_code == 0
    done = run("chemical", PEROXIDE, "--place", "cabinet", "--json", shop=shop)
    notes = json.loads(done.stdout)["notes"]
    assert json.loads(done.stdout)["answer"]["hazard_codes"] == []
    assert any("hazards are not known here" in one for one in notes)
    assert any("no data sheet is held" in one for one in notes)
    assert any("stand both in 'cabinet'" in one for one in notes)
    assert not any("Ethanol, tin: " in one for one in notes)


@pytest.mark.parametrize(
    ("words", "fault"),
    [
        ((*ENTRY[:3], "ethanl", *ENTRY[4:]), "did you mean 'ethanol'"),
        ((*ENTRY, "--hazards", "H999"), "hazard_codes: found 'H999'"),
        ((*ENTRY, "--sheet", "March"), "--sheet: found 'March'"),
        ((*ENTRY, "--opened", DAY, "--use-by", "2026-11-01"), "use_by: found '2026-11-01'"),
        ((*ENTRY[:5], "1 m", *ENTRY[6:]), "1 m"),
        (("chemical", "First", "--place", "cabinet"), "stands already on line 2"),
        (("chemical", "Tin"), "--place"),
    ],
)
def test_a_row_that_would_be_a_fault_changes_nothing(tmp_path, words, fault):
    """It is refused with the cell or option at fault, and the table is as it was."""
    shop = written(tmp_path / "shop", "First,,,,cabinet,no,,,,,measured,")
    before = (shop / "chemicals.csv").read_bytes()
    done = run(*words, shop=shop)
    assert done.exit_code in {1, 2}
    assert fault in done.output
    assert (shop / "chemicals.csv").read_bytes() == before


def test_the_demo_register_is_invented_to_the_last_row(tmp_path):
    """Each row says so, and a copy of it may be written into."""
    assert {one.basis for one in load(DEMO_SHOP).chemicals.values()} == {"invented"}
    copy = tmp_path / "shop"
    shutil.copytree(DEMO_SHOP, copy)
    assert run("chemical", "New tin", "--place", "shelf", shop=copy).exit_code == 0
    assert load(copy).chemicals["New tin"].basis == "invented"
