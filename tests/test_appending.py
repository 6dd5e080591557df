"""Rows are added in the file's own hand, come back the same, and spoil nothing."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from formulas import table
from formulas.books.appending import appended
from formulas.catalog import all_schemas
from formulas.fault import Faults
from site_builder.start import headed

USES = all_schemas()["pot_uses.csv"]
COLUMNS = [field["name"] for field in USES["schema"]["fields"]]
ROW = {"batch": "W-26-001", "job": "26-014", "amount": 60.5, "unit": "g", "basis": "measured"}


def lines(*rows, columns=COLUMNS, separator=",", newline="\n", head="", end=True, comma=False):
    """Write a table by hand, past the project's own writer."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, delimiter=separator, lineterminator=newline)
    writer.writerow(columns)
    for row in rows:
        cells = (str(row.get(column, "")) for column in columns)
        writer.writerow([cell.replace(".", ",") if comma else cell for cell in cells])
    written = head + text.getvalue()
    return written if end else written.removesuffix(newline)


def read(text):
    """Read a table with the project's reader; it must have no fault."""
    faults = []
    rows = table.read_text(text, "pot_uses.csv", USES, faults)
    assert faults == []
    return rows


def add(text, *rows):
    """Add rows to a table of uses."""
    return appended("pot_uses.csv", text, USES, rows)


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("newline", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.parametrize("end", [True, False])
def test_a_row_is_added_in_the_files_own_hand(separator, newline, mark, end):
    """Separator, decimal mark, line ending and byte order mark stay; the old text is a prefix."""
    comma = separator == ";"
    old = lines(ROW, separator=separator, newline=newline, head=mark, end=end, comma=comma)
    new = add(old, {**ROW, "job": "26-015", "amount": 12.25}).text
    assert new.startswith(old)
    added = new.removeprefix(old).removeprefix("" if end else newline)
    number = "12,25" if comma else "12.25"
    cells = ["W-26-001", "26-015", "", number, "g", "", "measured", ""]
    assert added == separator.join(cells) + newline
    assert [row["job"] for row in read(new)] == ["26-014", "26-015"]


def test_remarks_blank_lines_and_the_order_of_columns_stay():
    """What somebody wrote into the file by hand stays where it is, byte for byte."""
    columns = ["note", "job", "basis", "batch", "unit", "amount", "date", "used_by"]
    old = lines(ROW, columns=columns).replace("\n", "\n\n# a remark, mine\n\n", 1) + "\n\n"
    new = add(old, {**ROW, "note": "second"}).text
    assert new == old + "second,26-014,measured,W-26-001,g,60.5,,\n"
    assert [row["note"] for row in read(new)] == [None, "second"]


def test_a_new_table_takes_its_first_row():
    """The table that a new shop gets is added to below its remarks."""
    old = headed(USES)
    new = add(old, ROW)
    assert new.text.startswith(old)
    assert [row.line for row in new.rows] == [len(old.splitlines()) + 1]
    assert read(new.text)[0]["amount"] == 60.5


def test_numbers_take_a_comma_in_a_table_of_semicolons_without_a_number():
    """A spreadsheet that writes semicolons reads 60.5 as a date or a text; 60,5 is a number."""
    assert ";60,5;" in add(lines(separator=";"), ROW).text
    pointed = lines({**ROW, "amount": "1.5"}, separator=";")
    assert pointed + "W-26-001;26-014;;60.5;g;;measured;\n" == add(pointed, ROW).text


TEXTS = st.text(st.characters(codec="utf-8", exclude_characters="\x00"), max_size=30)
HARD = st.sampled_from([",", ";", "\t", '"', "\n", "#", "=1+1", "=cmd|' /c'!A1", "'", "-3,5", " "])
NOTES = st.lists(HARD | TEXTS, max_size=5).map("".join)


@given(
    note=NOTES,
    job=NOTES,
    amount=st.floats(0, 1e6, allow_subnormal=False),
    separator=st.sampled_from(",;\t"),
    newline=st.sampled_from(["\n", "\r\n"]),
    order=st.permutations(COLUMNS),
    filled=st.booleans(),
)
def test_every_cell_comes_back_as_it_was(note, job, amount, separator, newline, order, filled):
    """Whatever a note holds, in whatever hand and order: the reader gives it back the same.

    Blanks at the ends are taken off by every reader, and a line break is one sign. A text that
    makes a remark of its line is refused, and then nothing is given to write.
    """
    note, job = (" ".join(x.split("\r")).strip() for x in (note, job))
    assume(job)
    row = {**ROW, "note": note, "job": job, "amount": amount}
    old = lines(*[ROW] * filled, columns=order, separator=separator, newline=newline)
    if str(row.get(order[0], "")).startswith("#"):
        with pytest.raises(Faults, match=f"{order[0]}: found '#"):
            add(old, row)
        return
    rows = read(add(old, row).text)
    assert len(rows) == 1 + filled
    assert (rows[-1]["note"] or "", rows[-1]["job"]) == (note, job)
    assert rows[-1]["amount"] == pytest.approx(amount, rel=1e-11)


def test_line_breaks_of_other_systems_become_one_sign():
    """A note with its lines ended in two signs does not change what the file's hand seems."""
    new = add(lines(ROW), {**ROW, "note": "one\r\ntwo\rthree"}).text
    assert read(new)[-1]["note"] == "one\ntwo\nthree"
    assert "\r" not in new


@pytest.mark.parametrize(
    ("cells", "fault"),
    [
        ({"unit": "stone"}, r"pot_uses.csv:3: unit: found 'stone'"),
        ({"amount": -1.0}, r"pot_uses.csv:3: amount: found '-1'"),
        ({"date": "2026-02-30"}, r"pot_uses.csv:3: date: found '2026-02-30'"),
        ({"job": ""}, r"pot_uses.csv:3: job: found nothing"),
    ],
)
def test_a_cell_that_is_not_accepted_is_refused_with_its_line(cells, fault):
    """The fault names the line that the row would have had."""
    with pytest.raises(Faults, match=fault):
        add(lines(ROW), {**ROW, **cells})


def test_a_cell_too_long_for_a_reader_is_refused():
    """What Python's own reader of such files would not take is told and not written."""
    before = csv.field_size_limit(131_072)  # as it is before some other library widens it
    try:
        with pytest.raises(Faults, match=r"pot_uses.csv:3: \(line\).*larger than field limit"):
            add(lines(ROW), {**ROW, "job": "x" * 131_073})
    finally:
        csv.field_size_limit(before)


def test_a_cell_without_a_column_is_refused():
    """A file whose owner took a column out does not lose what belongs there in silence."""
    columns = [column for column in COLUMNS if column != "note"]
    assert add(lines(columns=columns), ROW).rows
    with pytest.raises(Faults, match=r"\(header\).*a column 'note', to hold 'kept'"):
        add(lines(columns=columns), {**ROW, "note": "kept"})
