"""The binder: page boxes, margins, numbers, tags, bytes, and text that arrives as written."""

from __future__ import annotations

import io
import itertools
import json
import random
from pathlib import Path
from types import SimpleNamespace
from xml.etree.ElementTree import Element, SubElement, fromstring

import pypdf
import pytest
import typst

from formulas.entries import Shop
from formulas.fault import UnknownName
from site_builder.cover import Cover
from site_builder.paper import binder, typesetting
from site_builder.paper.table_widths import columns
from site_builder.paper.typst_text import clean, literal
from site_builder.paper.typst_writer import Writer
from site_builder.places import INVENTED

POINTS_A_MM = 72 / 25.4
HOSTILE = (
    "#$\\\"'`*_<>[]{}()@=~/-+%&;:|^.,!? \t\n\x07\u200b\u202e\u00ad\ufeff\ud800\u00a0éßΩж√≤☐中😀"
)


def handbook(*texts: str, shop: str = "Bench & Bellows", paper_name: str = "a4") -> SimpleNamespace:
    """Make a handbook of one section with a leaf for each text of elements."""
    section = SimpleNamespace(letter="T", title="Trials", summary="Made for a test.", leaves=[])
    for place, text in enumerate(texts, start=1):
        section.leaves.append(
            SimpleNamespace(
                number=f"T-{place:02}",
                slug=f"leaf-{place}",
                title=f"Trial leaf {place}",
                section=section,
                tree=fromstring(f"<div>{text}</div>"),
            )
        )
    settings = Shop(name=shop, invented=True, paper=paper_name)
    return SimpleNamespace(
        front=fromstring("<div><p>Read this first.</p></div>"),
        sections=[section],
        leaves=section.leaves,
        catalog=SimpleNamespace(shop=settings, printed=[]),
        cover=Cover(),
    )


def read(made: SimpleNamespace, folder: Path) -> pypdf.PdfReader:
    """Write a handbook as a binder and open it."""
    outfile = folder / "binder.pdf"
    binder.write(made, outfile)
    return pypdf.PdfReader(outfile)


def positions(page: pypdf.PageObject) -> list[tuple[str, float, float]]:
    """List the runs of text on a page with where each starts, in points from bottom left."""
    found: list[tuple[str, float, float]] = []

    def note(text: str, cm: list[float], tm: list[float], _font: object, _size: float) -> None:
        if text.strip():
            x, y = tm[4], tm[5]
            found.append(
                (text.strip(), x * cm[0] + y * cm[2] + cm[4], x * cm[1] + y * cm[3] + cm[5])
            )

    page.extract_text(visitor_text=note)
    return found


LONG = "".join(f"<p>Paragraph {place} of a leaf that is long.</p>" for place in range(90))
TABLE = (
    "<table><thead><tr><th>Material</th><th align='right'>Mass</th></tr></thead><tbody>"
    + "".join(f"<tr><td>Row {row}</td><td align='right'>{row} g</td></tr>" for row in range(90))
    + "</tbody></table>"
)
RICH = """
<p>Melts at <value unit="degC" basis="published" source="x">above 62 °C</value>, see
<a href="leaf-1.md">the long one</a> and <a href="#down">below</a>, or
<a href="https://example.org/wax">a page</a><sup><a href="#fn:1">1</a></sup>.</p>
<h2 id="down">Down here</h2><ul><li>one</li><li><p>two</p></li></ul><ol><li>first</li></ol>
<ticks><li>Lid beside the pot</li></ticks><dl><dt>wax</dt><dd>what bees make</dd></dl>
<h3>Deeper</h3><pre><code>benchbinder mix
  --total 400g</code></pre><blockquote><p>Said so.</p></blockquote><hr />
<caution title="Hot wax" codes="H317" basis="practice"><p>It burns.</p></caution>
<figure alt="A line that rises."><svg viewBox="0 0 100 40"><path d="M0 40L100 0" /></svg>
<figcaption>A line.</figcaption></figure>
<p><unknown reason="weigh it">not known</unknown> <basis kind="memory" source="a-b" /></p>
<div class="footnote"><ol><li id="fn:1"><p>The note.
<a class="footnote-backref" href="#fnref:1">back</a></p></li></ol></div>
"""


# ISO 216 A4: 210 x 297 mm; 210 / 25.4 * 72 = 595.276, 297 / 25.4 * 72 = 841.890.
# US Letter: 8.5 x 11 in; 8.5 * 72 = 612, 11 * 72 = 792. Tolerance: a hundredth of a point.
@pytest.mark.parametrize(
    ("name", "width", "height"), [("a4", 595.276, 841.890), ("letter", 612, 792)]
)
def test_every_page_is_exactly_the_paper(name, width, height, tmp_path):
    """Each page box is the paper that the shop set."""
    for page in read(handbook(LONG, RICH, paper_name=name), tmp_path).pages:
        assert [float(side) for side in page.mediabox] == pytest.approx(
            [0, 0, width, height], abs=0.01
        )


def test_binding_margin_changes_sides(tmp_path):
    """Text starts 25 mm from the left on a right-hand page, 15 mm on its back."""
    made = handbook(LONG)
    pages = read(made, tmp_path).pages
    first, last = binder.page_ranges(made)["T-01"]
    assert last > first
    for number in (first, first + 1):
        starts = [x for text, x, _ in positions(pages[number - 1]) if text.startswith("Paragraph")]
        margin_mm = 25 if number % 2 else 15
        # pt: pypdf gives where a glyph's own box begins, a hair from the margin
        assert min(starts) == pytest.approx(margin_mm * POINTS_A_MM, abs=0.1)


def test_leaves_start_on_right_hand_pages_and_count_their_own(tmp_path):
    """Each page of a leaf says which of how many it is, and a back without print says so."""
    made = handbook(LONG, "<p>Short.</p>", LONG, TABLE)
    pages = read(made, tmp_path).pages
    ranges = binder.page_ranges(made)
    opening = ["Title", "Effective leaves", "Contents", "Front", "Tab T"]
    assert list(ranges) == [*opening, "T-01", "T-02", "T-03", "T-04"]
    for number, (first, last) in ranges.items():
        assert first % 2 == 1
        for page in range(first, last + 1):
            text = pages[page - 1].extract_text()
            assert f"{number} · {page - first + 1} of {last - first + 1}" in text
        if last % 2:
            assert f"{number} · this side is left blank" in pages[last].extract_text()
    assert len(pages) == max(last + last % 2 for _, last in ranges.values())


def test_a_leaf_that_grows_changes_no_other_leaf(tmp_path):
    """The words on the pages of the leaf behind stay the same, though they moved in the PDF."""
    texts = []
    for name, text in (("short", "<p>Short.</p>"), ("long", LONG)):
        made = handbook(text, RICH)
        (tmp_path / name).mkdir()
        pages = read(made, tmp_path / name).pages
        first, last = binder.page_ranges(made)["T-02"]
        texts.append([pages[page - 1].extract_text() for page in range(first, last + 1)])
    assert texts[0] == texts[1]


def test_contents_give_the_real_pages(tmp_path):
    """The contents name each leaf with its count of pages and where it starts in the PDF."""
    made = handbook(LONG, "<p>Short.</p>", TABLE)
    pages = read(made, tmp_path).pages
    ranges = binder.page_ranges(made)
    contents = pages[ranges["Contents"][0] - 1].extract_text()
    flat = " ".join(contents.split())
    for leaf in made.leaves:
        first, last = ranges[leaf.number]
        assert f"{leaf.number} {leaf.title} {last - first + 1} {first}" in flat
        assert f"{leaf.number}  {leaf.title}" in pages[first - 1].extract_text()


def test_running_heads_name_section_leaf_shop_and_revision(tmp_path):
    """Every page of a leaf carries its section, number, shop and state."""
    made = handbook(LONG)
    pages = read(made, tmp_path).pages
    first, last = binder.page_ranges(made)["T-01"]
    for page in range(first, last + 1):
        text = pages[page - 1].extract_text()
        assert all(word in text for word in ("Trials", "T-01", "Bench & Bellows", "draft"))


def test_title_leaf_says_what_outranks_the_book(tmp_path):
    """The first page carries the title, the shop, the notice and the deferral."""
    text = read(handbook(RICH), tmp_path).pages[0].extract_text().replace("\n", " ")
    assert "Shop handbook" in text
    assert "Bench & Bellows" in text
    assert INVENTED in text
    assert "safety data sheet of the material in your hand" in text


def test_document_is_tagged_and_names_itself(tmp_path):
    """Title, author, language, tags and bookmarks stand in the file."""
    document = read(handbook(RICH, shop="Bench & Bellows"), tmp_path)
    root = document.trailer["/Root"]
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in root
    assert document.metadata.title == "Shop handbook: Bench & Bellows"
    assert document.metadata.author == "Bench & Bellows"
    titles = [entry["/Title"] for entry in document.outline if not isinstance(entry, list)]
    assert "T-01  Trial leaf 1" in titles


def test_every_table_has_a_header_row(tmp_path):
    """Each table of the tag tree holds header cells, and a long one repeats them in print."""
    made = handbook(TABLE, RICH)
    document = read(made, tmp_path)
    tables = list(_tagged(document.trailer["/Root"]["/StructTreeRoot"], "/Table"))
    assert len(tables) == 6  # two in each list of leaves, one on the tab, the trial leaf's own
    assert all(list(_tagged(table, "/TH")) for table in tables)
    first, last = binder.page_ranges(made)["T-01"]
    assert last > first
    for page in range(first, last + 1):
        assert "Material" in document.pages[page - 1].extract_text()


def _tagged(node, kind):
    node = node.get_object()
    if isinstance(node, list):
        for child in node:
            yield from _tagged(child, kind)
    elif isinstance(node, dict):
        if node.get("/S") == kind:
            yield node
        if "/K" in node:
            yield from _tagged(node["/K"], kind)


def test_same_handbook_gives_same_bytes(tmp_path):
    """Two runs write the same file, byte for byte."""
    for name in ("one.pdf", "two.pdf"):
        binder.write(handbook(RICH, LONG, TABLE), tmp_path / name)
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()


def test_leaf_code_depends_on_its_own_leaf_alone():
    """A change in one leaf leaves the code of the others as it was."""
    before, after = handbook(RICH, LONG), handbook(RICH, LONG + "<p>More.</p>")
    codes = [[binder.leaf_code(leaf, made) for leaf in made.leaves] for made in (before, after)]
    assert codes[0][0] == codes[1][0]
    assert codes[0][1] != codes[1][1]


def test_parts_of_the_vocabulary_arrive(tmp_path):
    """Links say where they go, values carry a mark, notes stand on the page, boxes have words."""
    made = handbook("<p>One.</p>", RICH)
    pages = read(made, tmp_path).pages
    first, last = binder.page_ranges(made)["T-02"]
    text = " ".join(
        " ".join(pages[page - 1].extract_text() for page in range(first, last + 1)).split()
    )
    for words in (
        "above 62 °Cpub",
        "the long one (T-01)",
        "below, or",
        "a page (https://example.org/wax)",
        "The note.",
        "☐ Lid beside the pot",
        "CAUTION Hot wax",
        "Statement codes: H317. Basis: common practice.",
        "Figure 1: A line.",
        "not known (weigh it) from memory [a-b]",
        "--total 400g",
    ):
        assert words in text
    assert "back" not in text


def test_figures_and_notes_are_counted_within_a_leaf(tmp_path):
    """The second leaf's first figure is figure 1 again."""
    made = handbook(RICH, RICH)
    pages = read(made, tmp_path).pages
    for first, last in [binder.page_ranges(made)[number] for number in ("T-01", "T-02")]:
        text = "".join(pages[page - 1].extract_text() for page in range(first, last + 1))
        assert "Figure 1:" in text.replace("\u00a0", " ")
        assert "Figure 2:" not in text.replace("\u00a0", " ")


def hostile_strings(count: int) -> list[str]:
    """Make strings of what breaks typesetters, the same in every run."""
    chance = random.Random(7)
    return ["".join(chance.choices(HOSTILE, k=chance.randint(1, 30))) for _ in range(count)]


def test_hostile_text_reads_back_as_it_was_written():
    """Each string that the typesetter holds is the string that was written, white space folded."""
    strings = hostile_strings(400)
    lines = "\n".join(f'#[#metadata({literal(text)}) #label("s")]' for text in strings)
    held = json.loads(typst.eval(lines.encode(), 'query(label("s")).map(mark => mark.value)'))
    assert held == [clean(text) for text in strings]
    visible = [text for text in strings if text == clean(text)]
    assert len(visible) > 20  # strings with nothing to drop arrive untouched


def test_hostile_text_compiles_in_every_place(tmp_path):
    """Paragraph, cell, heading, code, link, list, caution, value and form line take any text."""
    made = handbook("<p>First.</p>")
    tree = made.leaves[0].tree
    for text in hostile_strings(200):
        for tag in ("p", "h2", "pre", "blockquote"):
            SubElement(tree, tag).text = text
        SubElement(SubElement(tree, "ul"), "li").text = text
        row = SubElement(SubElement(tree, "table"), "tr")
        SubElement(row, "th").text = text
        SubElement(row, "td").text = text
        paragraph = SubElement(tree, "p")
        for tag in ("code", "em", "strong", "sup"):
            SubElement(paragraph, tag).text = text
        SubElement(paragraph, "a", href="mailto:" + text).text = text
        SubElement(paragraph, "value", basis="memory").text = text
        box = SubElement(tree, "caution", title=text, codes=text, basis="memory")
        SubElement(box, "p").text = text
        SubElement(tree, "formline", label=text)
    made.leaves[0].title = "".join(hostile_strings(3))
    made.catalog.shop = Shop(name=made.leaves[0].title, invented=True)
    assert len(read(made, tmp_path).pages) > 10


def test_plain_words_can_be_copied_out_of_the_page(tmp_path):
    """Strings of printable characters come back from the PDF as they were written."""
    chance = random.Random(11)
    signs = "abcXYZ019#$\\\"'`*_<>[]{}()@=~/+%&;|^éßΩж√≤☐"
    strings = ["".join(chance.choices(signs, k=25)) for _ in range(200)]
    made = handbook("<p>First.</p>")
    for text in strings:
        SubElement(made.leaves[0].tree, "p").text = text
    pages = read(made, tmp_path).pages
    lines = {line for page in pages for line in page.extract_text().splitlines()}
    assert [text for text in strings if text not in lines] == []


def test_a_missing_glyph_is_shown_and_told(tmp_path):
    """A character that no font has is printed by its number and reported with its leaf."""
    made = handbook("<p>Plain.</p>", "<p>Wax 中 here, ° and ☐ not.</p>")
    text = "".join(page.extract_text() for page in read(made, tmp_path).pages)
    assert "Wax [U+4E2D] here, ° and ☐ not." in text
    assert binder.missing_glyphs(made) == {"中": ["T-02"]}


def test_any_character_of_any_script_prints_or_is_told(tmp_path):
    """Text of random characters, marks heaped on them, never stops the binder."""
    chance = random.Random(3)
    made = handbook("<p>First.</p>")
    for _ in range(300):
        kinds = chance.choices([(0x300, 0x36F), (0x20, 0x24FF), (0x2500, 0x1FFFF)], k=12)
        text = "a" + "".join(chr(chance.randint(*kind)) for kind in kinds)
        SubElement(made.leaves[0].tree, "p").text = text
    assert "[U+" in read(made, tmp_path).pages[10].extract_text()
    assert len(binder.missing_glyphs(made)) > 300


def test_letters_and_marks_written_apart_are_joined(tmp_path):
    """A decomposed letter, as some systems write it, prints as the letter."""
    made = handbook("<p>E\u0301tude, bru\u0308cke</p>")
    assert "Étude, brücke" in read(made, tmp_path).pages[10].extract_text()
    assert binder.missing_glyphs(made) == {}


def test_form_lines_leave_room_for_a_pencil(tmp_path):
    """Lines to write on, and empty rows of a form, stand at least 8 mm apart."""
    made = handbook("".join(f"<formline label='Line {place}' />" for place in range(4)))
    first, _ = binder.page_ranges(made)["T-01"]
    lines = [y for text, _, y in positions(read(made, tmp_path).pages[first - 1]) if "Line" in text]
    assert len(lines) == 4
    assert all(a - b >= 8 * POINTS_A_MM for a, b in itertools.pairwise(lines))


def test_empty_cells_of_a_form_leave_room_for_a_pencil():
    """A row of a form with an empty cell is at least 8 mm high."""
    rows = "".join(f"<tr><td>Row {place}</td><td /></tr>" for place in range(4))
    writer = Writer("form", {}, SimpleNamespace(shop=SimpleNamespace(paper="a4")))
    writer.in_form = True
    table = writer.table(fromstring(f"<table><tr><th>What</th><th>Mass</th></tr>{rows}</table>"))
    source = f'{binder.TEMPLATE.read_text()}\n#show: settings.with(shop: "T")\n= Form\n#{table}'
    page = pypdf.PdfReader(io.BytesIO(typesetting.compiled(source))).pages[0]
    heights = [y for text, _, y in positions(page) if text.startswith("Row")]
    assert len(heights) == 4
    assert all(a - b >= 8 * POINTS_A_MM for a, b in itertools.pairwise(heights))


@pytest.mark.parametrize("paper_name", ["a4", "letter"])
@pytest.mark.parametrize("rows", [3, 60])
def test_what_is_pinned_up_fills_one_page_and_no_more(paper_name, rows, tmp_path):
    """A page of its own begins a page, and is set smaller where it would not fit."""
    lines = "".join(f"<tr><td>note {row}</td><td>{row}</td></tr>" for row in range(rows))
    table = (
        f"<table><thead><tr><th>Note</th><th>Cut</th></tr></thead><tbody>{lines}</tbody></table>"
    )
    text = f"<p>Before.</p><onepage><h2>Chart</h2>{table}<p>The last line.</p></onepage>"
    made = handbook(text, paper_name=paper_name)
    pages = read(made, tmp_path).pages
    first, last = binder.page_ranges(made)["T-01"]
    assert last - first + 1 == 2
    chart = pages[last - 1]
    lows = [y for words, _, y in positions(chart) if "The last line" in words]
    assert lows
    assert min(lows) > 15 * POINTS_A_MM  # the foot of the page stands below
    assert f"note {rows - 1}" in chart.extract_text()


def test_an_unknown_element_is_refused():
    """An element outside the vocabulary is named, with those that are in it."""
    tree = fromstring("<div><p><blink>x</blink></p></div>")
    with pytest.raises(UnknownName, match="blink"):
        Writer("x", {}, SimpleNamespace(shop=SimpleNamespace(paper="a4"))).leaf(tree)


def test_a_heading_that_skips_a_level_stops_the_print(tmp_path):
    """What PDF/UA-1 refuses raises a fault, and no file is written."""
    outfile = tmp_path / "binder.pdf"
    with pytest.raises(typesetting.PaperFault, match="heading"):
        binder.write(handbook("<h3>Too deep</h3>"), outfile)
    assert not outfile.exists()


def test_writing_leaves_the_tree_as_it_was(tmp_path):
    """The other face gets the very same tree."""
    made = handbook(RICH)
    before = _dump(made.leaves[0].tree)
    binder.write(made, tmp_path / "binder.pdf")
    assert _dump(made.leaves[0].tree) == before


def _dump(tree: Element) -> list[tuple[str, str | None, str | None, dict[str, str]]]:
    return [(node.tag, node.text, node.tail, dict(node.attrib)) for node in tree.iter()]


def test_columns_fill_the_line_only_where_they_must():
    """Short cells keep their natural width; long ones share the line by what they hold."""
    assert columns([["A", "B"], ["one", "two"]], "a4").widths == "auto, auto, "
    widths = columns([["Id", "Note"], ["x", "many words " * 40]], "a4").widths
    narrow, wide = (float(width.removesuffix("fr")) for width in widths.split(", ")[:2])
    assert narrow < 20
    assert wide > 140
    assert narrow + wide == pytest.approx(170, abs=0.2)  # mm: 210 - 25 - 15; each printed to 0.1


def test_an_id_that_stands_whole_has_room_and_no_more():
    """An id is set in type of one width, 0.602 em of 0.84 em: its column holds it, within 5 %."""
    name = "strip-letter-8-190x32"
    ids = columns([["Id", "Note"], [name.replace("-", "\u2011"), "many words " * 40]], "a4")
    width = float(ids.widths.split("fr")[0]) - 3.2  # mm, both sides of a cell
    needed = len(name) * 0.602 * 0.84 * ids.size * 25.4 / 72
    assert needed <= width < 1.05 * needed


def test_type_gets_smaller_before_words_are_broken():
    """Words that cannot stand side by side in the usual size get a smaller one, then breaks."""
    usual, smaller, broken = (
        columns([["w" * length] * 6, ["many words " * 9] * 6], "a4") for length in (8, 14, 40)
    )
    assert smaller.size < usual.size
    assert not smaller.hyphenated
    assert broken.hyphenated
