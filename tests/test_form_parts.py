"""Record forms: tables to write in, as placed, on screen, and on paper."""

from __future__ import annotations

import itertools

import pytest
from html_reading import Reading
from test_paper import POINTS_A_MM, handbook, positions, read
from test_screen import written

from formulas.catalog import load
from formulas.fault import UnknownName
from site_builder.paper import binder
from site_builder.parts import form_parts, registry
from site_builder.screen.html_writer import FIRST_ROWS, UNKEPT

CATALOG = load(None)


def place(argument):
    """Place one form and give its heads and rows."""
    (made,) = registry.place(CATALOG, "form-table", argument)
    return made.tag, made.get("heads").split(form_parts.BETWEEN), int(made.get("rows"))


def test_heads_and_rows_are_read():
    """The words before the bar are the columns, the number behind it the rows."""
    assert place("Plate;Tap ;  Thumb, both ends | 6") == (
        "formtable",
        ["Plate", "Tap", "Thumb, both ends"],
        6,
    )


@pytest.mark.parametrize(
    "argument",
    [
        "", "Plate; Tap", "| 6", "Plate; | 6", "Plate; Tap | 0", "Plate; Tap | six",
        "Plate; Tap | -3", "Plate; Tap | 25", "Plate; Plate | 4", "Plate; Tap | 6 | 7 rows",
        ";".join("abcdefghij") + " | 3",
    ],
)  # fmt: skip
def test_what_is_no_form_is_refused(argument):
    """No rows, no heads, a head twice, more than a page holds: each says how a form is written."""
    with pytest.raises(UnknownName, match="such as Plate; Tap"):
        place(argument)


# On screen


def test_every_field_of_the_screen_has_its_name():
    """Each field says column and row, each column head is a head, the words are said once."""
    reading = Reading(written("<formtable heads='Plate; Tap' rows='3'/>"))
    names = [field["aria-label"] for field in reading.named("input")]
    assert names == [f"{head}, row {row}" for row in (1, 2, 3) for head in ("Plate", "Tap")]
    assert [head["scope"] for head in reading.named("th")] == ["col", "col"]
    assert {field["autocomplete"] for field in reading.named("input")} == {"off"}


def test_hostile_heads_stay_words():
    """A head is text, in the cell and in the field's name."""
    made = written("<formtable heads='&lt;b&gt;&quot; onfocus=&quot;x' rows='1'/>")
    assert "<b>" not in made
    assert not [field for field in Reading(made).named("input") if "onfocus" in field]


def test_lines_and_table_of_one_form_are_told_once_that_nothing_is_kept():
    """The note stands behind the whole form, not behind each piece of it."""
    made = written("<formline label='Day'/><formtable heads='A; B' rows='2'/><p>x</p>")
    assert made.count(UNKEPT) == 1
    assert made.index(UNKEPT) > made.rindex("<input")


@pytest.mark.parametrize(("rows", "told"), [(FIRST_ROWS, 0), (FIRST_ROWS + 1, 1)])
def test_a_narrow_screen_is_told_of_the_rows_it_does_not_show(rows, told):
    """Only a form that is cut says that it is."""
    made = written(f"<formtable heads='A; B' rows='{rows}'/>")
    assert made.count("A narrow screen shows") == told


# On paper


def test_rows_leave_room_for_a_pencil(tmp_path):
    """A row is at least 8 mm high: the end of the table moves by that with each row more."""
    ends = []
    for rows in (2, 3, 5):
        made = handbook(f"<formtable heads='Plate; Tap' rows='{rows}'/><p>Below.</p>")
        first, _ = binder.page_ranges(made)["T-01"]
        found = positions(read(made, tmp_path).pages[first - 1])
        ends.append(next(y for text, _, y in found if text.startswith("Below")))
    assert ends[0] - ends[1] >= 8 * POINTS_A_MM
    assert ends[1] - ends[2] == pytest.approx(2 * (ends[0] - ends[1]), abs=0.01)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_nine_columns_are_each_wide_enough_to_write_in(paper, tmp_path):
    """The most columns a form may have start at least 12 mm apart, inside the lines."""
    heads = [f"Head {letter}" for letter in "abcdefghi"]
    made = handbook(f"<formtable heads='{'; '.join(heads)}' rows='4'/>", paper_name=paper)
    first, _ = binder.page_ranges(made)["T-01"]
    found = positions(read(made, tmp_path).pages[first - 1])
    starts = sorted({round(x) for text, x, _ in found if text.startswith("Head")})
    assert len(starts) == 9
    assert all(b - a >= 12 * POINTS_A_MM for a, b in itertools.pairwise(starts))


FORM = (
    "".join(f"<formline label='Line {place}'/>" for place in range(6))
    + "<formtable heads='Plate; Tap' rows='10'/>"
)


@pytest.mark.parametrize("before", range(0, 60, 12))
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_form_stays_on_one_page(before, paper, tmp_path):
    """Wherever on a page it begins, its lines, its head and its last row are on one page."""
    text = "".join(f"<p>Words {place}.</p>" for place in range(before))
    made = handbook(f"{text}{FORM}<p>Below.</p>", paper_name=paper)
    pages = [page.extract_text() for page in read(made, tmp_path).pages]
    with_lines = {place for place, page in enumerate(pages) if "Line 0" in page or "Line 5" in page}
    with_heads = {place for place, page in enumerate(pages) if "Plate" in page}
    assert with_lines == with_heads
    assert len(with_heads) == 1  # a table that breaks repeats its head


def test_a_form_too_high_for_a_page_may_break(tmp_path):
    """Forty lines and a table run on over pages, and none is lost."""
    lines = "".join(f"<formline label='Line {place:02}'/>" for place in range(40))
    made = handbook(f"{lines}<formtable heads='Plate; Tap' rows='24'/>")
    pages = read(made, tmp_path).pages
    found = [one for page in pages for one in positions(page)]
    lines_at = {text: y for text, _, y in found if text.startswith("Line")}
    assert set(lines_at) == {f"Line {place:02}" for place in range(40)}
    assert min(lines_at.values()) > 22 * POINTS_A_MM  # mm: the foot margin of the page
    assert "Plate" in {text for text, _, _ in found}
