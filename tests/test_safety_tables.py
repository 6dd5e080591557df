"""The tables of protection, of what never meets and of burns; what their parts place of them."""

from __future__ import annotations

import re

import pypdf
import pytest
from leaf_reading import handbook, trade

from formulas.catalog import TABLES, all_schemas
from formulas.fault import CellFault, Faults, UnknownName
from formulas.melting.burns import burn_rows
from formulas.safety_checks import safety_faults
from formulas.table import Row, read
from site_builder.markup import dialect
from site_builder.markup.elements import plain
from site_builder.paper import binder
from site_builder.parts import registry

NAMES = ("cautions.csv", "protection.csv", "incompatible.csv", "burns.csv")


def tables():
    """Read the four tables as rows, without a fault."""
    faults: list[CellFault] = []
    rows = {name: read(TABLES / name, all_schemas()[name], faults) for name in NAMES}
    assert faults == []
    return rows


def spoiled(table, **cells):
    """Give the faults when cells of a copy of a table's first row are changed."""
    rows = tables()
    first = rows[table][0]
    rows[table] = [Row(table, 2, {**first.cells, **cells}), *rows[table][1:]]
    return [str(fault) for fault in safety_faults(rows)]


def test_the_trades_tables_have_no_fault():
    """As they stand, no rule over rows speaks."""
    assert list(safety_faults(tables())) == []


FAULTS = [
    ("protection.csv", {"cautions": "wax-fir"},
     r"protection.csv:2: cautions: found 'wax-fir', .*did you mean 'wax-fire'"),
    ("protection.csv", {"cautions": None}, r"protection.csv:2: cautions: .*at least one id"),
    ("protection.csv", {"gloves": None, "eyes": None, "breathing": None},
     r"protection.csv:2: gloves: .*at least one of gloves, eyes, breathing"),
    ("incompatible.csv", {"first": "hot WAX", "second": "Hot wax"},
     r"incompatible.csv:2: second: found 'Hot wax', accepted: another thing"),
    ("burns.csv", {"time": 4.0, "unit_time": "min"},
     r"burns.csv:3: time: found '5.0', accepted: a shorter time than on line 2"),
]  # fmt: skip


@pytest.mark.parametrize(("table", "cells", "told"), FAULTS)
def test_a_slip_is_a_fault_of_its_cell(table, cells, told):
    """File, line, column, what was found and what is accepted; one fault for one slip."""
    (fault,) = spoiled(table, **cells)
    assert re.match(told, fault)


def test_a_pair_that_stands_twice_is_told_either_way_round():
    """The second of two rows is the fault, also with its two things changed over."""
    rows = tables()
    pair = rows["incompatible.csv"][4].cells
    turned = {**pair, "first": pair["second"].upper(), "second": pair["first"]}
    rows["incompatible.csv"].append(Row("incompatible.csv", 99, turned))
    (fault,) = safety_faults(rows)
    assert (fault.row, fault.column) == (99, "second")
    assert f"line {rows['incompatible.csv'][4].line} has it" in str(fault)


def test_a_row_with_a_faulty_cell_is_left_alone():
    """What a cell told already is not told again by a rule."""
    rows = tables()
    first = rows["protection.csv"][0]
    rows["protection.csv"][0] = Row(first.file, first.line, dict.fromkeys(first.cells), whole=False)
    assert list(safety_faults(rows)) == []


def placed(name, argument=""):
    """Give the rows of what a part places as texts, its head first."""
    return [
        [plain(cell) for cell in row]
        for one in registry.place(trade(), name, argument)
        for row in one.iter("tr")
    ]


def test_every_task_stands_with_what_comes_first():
    """Each task has a row; what comes first stands before what is worn."""
    head, *rows = placed("protection")
    assert head[:4] == ["Task", "What it harms", "First", "Then worn"]
    assert [row[0] for row in rows] == [one.task for one in trade().protection.values()]
    pot = trade().protection["pot"]
    assert rows[0][2] == pot.first
    assert "Breath" not in rows[0][3]  # a pot asks for extraction, not for a mask
    assert rows[0][3].startswith("Hands: heat gloves")


def test_every_pair_stands_with_what_happens():
    """Each pair has a row with both things, what happens and how to keep them apart."""
    _, *rows = placed("incompatible")
    assert len(rows) == len(trade().incompatible)
    for row, pair in zip(rows, trade().incompatible, strict=True):
        assert row[0].lower() == f"{pair.first} with {pair.second}".lower()
        assert row[1:3] == [pair.what_happens, pair.keep_apart]


# What the bench must be told apart, whatever else the table holds; kept apart from it on purpose.
PAIRS = [
    ("linseed", "heap"), ("limonene", "heap"), ("turpentine", "oxidiser"), ("solvent", "wax pot"),
    ("solvent", "ultrasonic"), ("celluloid", "acetone"), ("peroxide", "spirit"),
    ("acid", "chlorine bleach"), ("ammonia", "chlorine bleach"), ("water", "hot wax"),
]  # fmt: skip


@pytest.mark.parametrize(("one", "other"), PAIRS)
def test_a_known_bad_pair_is_there(one, other):
    """Each pair that this list demands stands in the table, whichever is named first."""
    told = [f"{pair.first} | {pair.second}".lower() for pair in trade().incompatible]
    assert [text for text in told if one in text and other in text]


def test_heat_above_the_table_is_told_as_shorter_than_its_end():
    """Holding heat has no time of its own: less than the last row, with that row's heat."""
    _, holding = placed("burn-at", "holding-window")
    last, seconds = burn_rows(trade())[-1]
    assert holding[2] == f"less than {seconds:g} s, hotter than {last:g} °C"


def test_heat_within_the_table_takes_its_hotter_end():
    """A range whose hotter end is 50 °C takes the row at 52; what is cooler than all is told."""
    figures = trade().figures
    inside = [
        name for name, one in figures.items() if one.unit == "degC" and one.high and one.low
        and 44 < one.high < 68
    ]  # fmt: skip
    assert inside
    for name in inside:
        row = placed("burn-at", name)[1]
        hotter = next(time for heat, time in burn_rows(trade()) if heat >= figures[name].high)
        assert row[2] == f"{hotter:g} s or less"


def test_what_is_cooler_than_the_table_gets_no_time():
    """Below the first row nothing is promised, only where the table begins is told."""
    figures = trade().figures
    cool = [name for name, one in figures.items() if one.unit == "degC" and (one.high or 99) < 44]
    assert cool
    for name in cool:
        assert placed("burn-at", name)[1][2] == "not in the table, which begins at 44 °C"


@pytest.mark.parametrize("argument", ["", "fillet", "holding-windo"])
def test_only_heats_are_set_beside_a_burn(argument):
    """A figure that is no temperature, a slip and nothing at all are refused."""
    with pytest.raises(UnknownName):
        registry.place(trade(), "burn-at", argument)


def test_the_fire_plan_has_one_page_to_itself(tmp_path):
    """It begins the last page of its leaf and ends on it, with every line to fill in."""
    file = tmp_path / "binder.pdf"
    binder.write(handbook(), file)
    _, last = binder.page_ranges(handbook())["S-03"]
    words = pypdf.PdfReader(file).pages[last - 1].extract_text()
    (plan,) = next(one for one in handbook().leaves if one.number == "S-03").tree.iter("onepage")
    for line in plan.iter("formline"):
        assert line.get("label") in words
    assert "Fire plan" in words
    assert "How little time there is" not in words


def test_words_can_have_a_page_to_themselves():
    """What stands between the slashes is read as on any leaf; nothing in it is a fault."""
    text = "//// one-page\n\n## Plan\n\n/// form-lines | Way out\n///\n\n////\n"
    (page,) = dialect.parse(text, "leaf.md", trade()).iter("onepage")
    assert [one.tag for one in page] == ["h2", "formline"]
    with pytest.raises(Faults, match=r"leaf.md:1: part: found 'one-page', accepted: the words"):
        dialect.parse("/// one-page\n///\n", "leaf.md", trade())
