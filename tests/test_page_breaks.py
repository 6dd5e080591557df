"""Where a page may end: forms, tables and steps, set below as much air as brings the end near.

A page of A4 has 251 mm for text: 297 - 24 - 22.
"""

from __future__ import annotations

import io
from types import SimpleNamespace
from xml.etree.ElementTree import fromstring

import pypdf
import pytest

from site_builder.paper import binder, typesetting
from site_builder.paper.drawing_foot import AIR_PT, caption_gap
from site_builder.paper.table_widths import columns
from site_builder.paper.typst_writer import WHOLE_MM, WHOLE_ROWS, Writer

TEXT_MM = 251.0


def pages(text: str, left_mm: float) -> list[str]:
    """Set a leaf's text where so much of a page is left, and give the words of each page."""
    writer = Writer("trial", {}, SimpleNamespace(shop=SimpleNamespace(paper="a4")))
    code = writer.leaf(fromstring(f"<div>{text}</div>"))
    source = (
        f'{binder.TEMPLATE.read_text()}\n#show: settings.with(shop: "T")\n'
        f"#block(height: {TEXT_MM - left_mm}mm, below: 0pt)\n#{code}"
    )
    found = pypdf.PdfReader(io.BytesIO(typesetting.compiled(source))).pages
    return [" ".join(page.extract_text().split()) for page in found]


def form(count: int) -> str:
    """Give a form of so many lines below its paragraph."""
    lines = "".join(f"<formline label='Line {place};' />" for place in range(1, count + 1))
    return f"<p>What to write down.</p>{lines}"


def ends(text: str, lefts: range) -> set[int]:
    """Give how many lines stand on the first page, for each room left on it."""
    return {pages(text, left)[0].count("Line") for left in lefts}


def test_a_form_of_many_lines_breaks_between_its_second_and_its_last_but_one():
    """Wherever the page ends, two lines at the least stand on either side of it."""
    assert ends(form(7), range(10, 115, 6)) == {0, 2, 3, 4, 5, 7}


def test_a_form_of_few_lines_stays_whole():
    """Four lines stand on one page."""
    assert ends(form(4), range(10, 80, 6)) == {0, 4}


@pytest.mark.parametrize("words", [30, 200])
def test_what_is_written_of_stands_with_the_first_line(words):
    """A paragraph before a form goes to the next page with it."""
    text = f"<p>{'w' * 9} {'aa ' * (words // 3)}</p><formline label='One;' />"
    first, second = pages(text, 13)
    assert first == ""
    assert "wwwwwwwww" in second
    assert "One;" in second


def table(words: int) -> str:
    """Give a table of seven rows, its head among them, with so many words in each cell."""
    cell = "<td>" + "word " * words + "</td>"
    rows = f"<tr>{cell * 3}</tr>" * (WHOLE_ROWS - 1)
    return f"<table><tr><th>Heed</th><th>B</th><th>C</th></tr>{rows}</table>"


def test_a_low_table_stays_whole_and_a_high_one_begins_on_its_page():
    """What would leave more than two fifths of a page blank is broken between its rows."""
    low, high = pages(table(6), 30), pages(table(55), 120)
    assert "Heed" not in low[0]
    assert high[0].count("word") % (3 * 55) == 0  # whole rows
    assert high[0].count("word") >= 3 * 55  # the head does not stand alone
    assert "Heed" in high[1]


def test_the_height_of_a_table_is_known_before_it_is_set():
    """Seven rows of six words in a cell are low, of fifty-five they are high."""
    rows = [["word " * words] * 3 for words in (6, 55)]
    low, high = (columns([["A", "B", "C"], *[row] * 6], "a4").high_mm for row in rows)
    assert low < WHOLE_MM < high


def test_few_numbered_steps_stay_together():
    """The last of six short steps does not stand alone on the next page."""
    steps = "".join(f"<li>Line {place}.</li>" for place in range(1, 7))
    assert ends(f"<ol>{steps}</ol>", range(8, 50, 3)) == {0, 6}


# Units of a drawing are points where it is no wider than the page.
@pytest.mark.parametrize(
    ("lowest", "gap"),
    [
        ('<rect x="0" y="0" width="9" height="100" />', AIR_PT),
        ('<g transform="translate(5 40)"><rect y="10" height="46" /></g>', AIR_PT - 4),
        ('<polyline points="0,3 9,97" />', AIR_PT - 3),
        ('<text x="0" y="94" font-size="8">foot</text>', AIR_PT - 4),  # 94 + 8 / 4 = 96
    ],
)
def test_a_caption_has_the_same_air_above_it(lowest, gap):
    """From the lowest stroke to the caption: what the view box lacks stands below it."""
    svg = fromstring(f'<svg viewBox="0 0 200 100">{lowest}</svg>')
    assert caption_gap(svg, 1.0) == pytest.approx(gap)


def test_a_drawing_with_air_in_its_box_gets_the_least_below_it():
    """A line far above the foot of the box asks for no more."""
    svg = fromstring('<svg viewBox="0 0 200 100"><polyline points="0,3 9,40" /></svg>')
    assert 0 < caption_gap(svg, 1.0) < AIR_PT / 2
