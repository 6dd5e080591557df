"""The binder of the demo shop, read back: lists, links, bookmarks, edge marks, holes, files."""

from __future__ import annotations

import dataclasses
import itertools
import re
from types import SimpleNamespace

import pypdf
import pypdfium2 as pdfium
import pytest
from bound_demo import read_sides
from click.testing import CliRunner
from test_paper import LONG, POINTS_A_MM, RICH, TABLE, handbook, read

from formulas.catalog import load
from formulas.entries import Shop
from formulas.fault import Faults, UnknownName
from formulas.holes import holes
from site_builder import own_file
from site_builder.commands import main
from site_builder.leaves import states
from site_builder.leaves.written import written
from site_builder.paper import binder, typesetting
from site_builder.start import lay_down

A4, LETTER = (210.0, 297.0), (215.9, 279.4)
PAPERS = {"a4": A4, "letter": LETTER}
DOTS_A_MM = 8.0


def test_every_side_says_which_leaf_and_revision_it_is(bound):
    """Leaves stand in their order, each from a right-hand page on, their sides counted."""
    order = [name for name, _ in itertools.groupby(side.leaf for side in bound.sides)]
    assert order == bound.book.names
    for name in order:
        held = [side for side in bound.sides if side.leaf == name]
        assert held[0].page % 2 == 1
        printed = [side for side in held if side.side]
        assert [side.side for side in printed] == list(range(1, len(printed) + 1))
        assert {side.sides for side in printed} == {len(printed)}
        assert len(held) == len(printed) + len(printed) % 2
    last = {row.leaf: row for row in bound.handbook.catalog.printed}
    for leaf in bound.handbook.leaves:
        row, now = last.get(leaf.number), bound.book.leaves[leaf.number].digest(bound.counts)
        kept = row is not None and row.digest == now
        said = f"revision {row.revision} of {row.date}" if row and kept else "draft"
        words = {side.words for side in bound.sides if side.leaf == leaf.number}
        assert {one.split(",")[0] for one in words} == {said}


def test_every_running_head_carries_the_leaf(bound):
    """The head of a side, its first lines, holds the number or name of its leaf."""
    for side in bound.sides:
        assert side.leaf in " ".join(side.text.splitlines()[:2])


def test_contents_tell_the_sides_and_the_real_page_of_every_leaf(bound):
    """The page in the contents is the one whose foot says that it is the leaf's first side."""
    text = bound.text("Contents")
    for leaf in bound.handbook.leaves:
        said = f"{leaf.number} {leaf.title} {bound.counts[leaf.number]} {bound.first[leaf.number]}"
        assert " ".join(said.split()) in text


def test_the_list_of_effective_leaves_lists_all_but_itself(bound):
    """Every leaf with its state and its sides; the list's own revision is in its foot only."""
    text = bound.text("Effective leaves")
    for name, leaf in bound.book.leaves.items():
        state = r"(draft(, after (revision )?\d+)?|(revision )?\d+ \d{4}-\d\d-\d\d)"
        listed = rf"{re.escape(f'{name} {leaf.title}')} {state} {bound.counts[name]}\b"
        assert re.search(listed, text), name
    assert "Effective leaves List of effective leaves draft" not in text


def test_a_tab_page_lists_its_section(bound):
    """Before each section stands its letter, title, summary and every one of its leaves."""
    for section in bound.handbook.sections:
        name = f"Tab {section.letter}"
        text = bound.text(name)
        for words in (section.title, section.summary):
            assert " ".join(words.split()) in text
        for leaf in section.leaves:
            assert f"{leaf.number} {leaf.title}" in text
        following = next(side.leaf for side in bound.sides if side.page == bound.first[name] + 2)
        assert following == section.leaves[0].number


def outline(items):
    """Walk the bookmarks."""
    for item in items:
        if isinstance(item, list):
            yield from outline(item)
        else:
            yield item


def test_bookmarks_name_every_leaf_and_lead_to_it(bound):
    """Each leaf and each section has a bookmark to its first side."""
    found = {
        " ".join(item.title.split()): bound.pdf.get_destination_page_number(item) + 1
        for item in outline(bound.pdf.outline)
    }
    for leaf in bound.handbook.leaves:
        assert found[f"{leaf.number} {' '.join(leaf.title.split())}"] == bound.first[leaf.number]
    for section in bound.handbook.sections:
        assert found[f"{section.letter} {section.title}"] == bound.first[f"Tab {section.letter}"]
    assert found["Contents"] == bound.first["Contents"]


def links_of(pdf, page):
    """Give the page each inner link of a page leads to, in order, a broken one once a line."""
    for note in pdf.pages[page - 1].get("/Annots", []):
        one = note.get_object()
        if one.get("/Subtype") != "/Link":
            continue
        place = one.get("/Dest") or one.get("/A", {}).get("/D")
        if place is None:
            continue
        if isinstance(place, str):
            place = pdf.named_destinations[place].dest_array
        yield pdf.get_page_number(place.get_object()[0].get_object()) + 1


def wanted_links(leaf, numbers):
    """Give the leaves that the links of a tree name, in order."""
    for link in leaf.tree.iter("a"):
        href = link.get("href", "")
        if "footnote-backref" in link.get("class", "") or ":" in href:
            continue
        slug = href.partition("#")[0].rsplit(".", 1)[0]
        yield numbers[slug] if slug else leaf.number


def test_every_link_lands_on_the_leaf_it_names(bound):
    """Leaf by leaf, links lead in order to sides whose foot carries the number they name."""
    numbers = {leaf.slug: leaf.number for leaf in bound.handbook.leaves}
    at = {side.page: side.leaf for side in bound.sides}
    followed = 0
    for leaf in bound.handbook.leaves:
        pages = range(
            bound.first[leaf.number], bound.first[leaf.number] + bound.counts[leaf.number]
        )
        found = [at[target] for page in pages for target in links_of(bound.pdf, page)]
        wanted = list(wanted_links(leaf, numbers))
        assert squeezed(found) == squeezed(wanted), leaf.number
        followed += len(found)
    assert followed > 100


def squeezed(names):
    """Drop what stands twice running: a link over two lines is two places to press."""
    return [name for name, _ in itertools.groupby(names)]


def test_the_file_is_a4_tagged_titled_and_marked_as_accessible(bound):
    """Page boxes to a hundredth of a point; title, language, tags, PDF/UA-1."""
    for page in bound.pdf.pages:
        box = [float(side) for side in page.mediabox]
        # 210 and 297 mm, to a hundredth of a point: 0.0035 mm
        assert box == pytest.approx([0, 0, 595.276, 841.890], abs=0.01)
    root = bound.pdf.trailer["/Root"]
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"]["/Marked"]
    assert bound.pdf.metadata.title == "Shop handbook: Three Lanterns Bench"
    xmp = root["/Metadata"].get_object().get_data().decode()
    assert re.search(r"pdfuaid:part(>|=\")1", xmp)


def test_every_character_of_the_handbook_has_a_glyph(bound):
    """The trade's own text needs no sign for a missing glyph."""
    assert bound.book.missing == {}


def test_no_word_of_the_handbook_leaves_its_margins(bound):
    """Each character ends before the outer margin, but for the letter of the section's mark."""
    document = pdfium.PdfDocument(bound.file)
    letters = {leaf: bound.book.leaves[leaf].letter for leaf in bound.first if leaf in
               bound.book.leaves}  # fmt: skip
    for side, page in zip(bound.sides, document, strict=True):
        inner, outer = 25 * POINTS_A_MM, 595.28 - 15 * POINTS_A_MM
        left, right = (inner, outer) if side.page % 2 else (595.28 - outer, 595.28 - inner)
        text = page.get_textpage()
        boxes = [(text.get_text_range(n, 1), text.get_charbox(n)) for n in
                 range(text.count_chars())]  # fmt: skip
        # A space has no height; the letter of a tab page, of 150 points, is a drawing.
        inked = [one for one in boxes if 0.2 < one[1][3] - one[1][1] < 60]
        assert inked
        # The bold J of a leaf's number, of 20 points, reaches 1.4 points left of where it stands.
        outside = [c for c, box in inked if box[0] < left - 1.5 or box[2] > right + 1]
        assert (side.page, "".join(outside).strip()) == (side.page, letters.get(side.leaf, ""))
    document.close()


def test_each_rank_has_one_page_to_pin_up(bound):
    """The leaf of valve charts has a page for the words and one for each rank."""
    catalog = bound.handbook.catalog
    ranks = [one for one in catalog.ranks if one.instrument == catalog.shop.instrument]
    assert bound.counts["V-07"] == len(ranks) + 1
    held = [side for side in bound.sides if side.leaf == "V-07" and side.side][1:]
    for rank, side in zip(ranks, held, strict=True):
        assert rank.name in side.text
        assert rank.lowest in side.text
        assert "Checked against the plates by, on" in side.text


# In the margins, measured on the drawn page


def drawn(file, number, dark=100):
    """Draw a page and give where it is darker than a shade of 255."""
    document = pdfium.PdfDocument(file)
    scale = DOTS_A_MM / POINTS_A_MM
    picture = document[number - 1].render(scale=scale, grayscale=True).to_numpy()
    document.close()
    return picture.reshape(picture.shape[:2]) < dark


def run_of(column):
    """Give the first and last dark place of a column in mm; nothing where it is bare."""
    dark = column.nonzero()[0]
    return (dark[0] / DOTS_A_MM, (dark[-1] + 1) / DOTS_A_MM) if len(dark) else None


def test_edge_marks_stand_at_a_height_of_their_own(bound):
    """On both sides of a sheet, at the outer edge, from 24 mm down, section under section."""
    letters = [section.letter for section in bound.handbook.sections]
    pitch = min(30, (297 - 24 - 22) / len(letters))  # mm: the height between the margins, shared
    for place, section in enumerate(bound.handbook.sections):
        first = bound.first[section.leaves[0].number]
        for page in (first, first + 1):
            dark = drawn(bound.file, page)
            reach = [run_of(dark[:, int(mm * DOTS_A_MM)]) for mm in
                     ((209.5, 199.5) if page % 2 else (0.5, 10.5))]  # fmt: skip
            for found in reach:
                # two dots of the drawn page, of an eighth of a millimetre each
                assert found == pytest.approx(
                    (24 + place * pitch, 24 + (place + 1) * pitch - 2), abs=0.3
                )
            clear = 210 - 14.0 if page % 2 else 14.0
            assert run_of(dark[:, int(clear * DOTS_A_MM)]) is None
    assert run_of(drawn(bound.file, 1)[:, int(209.5 * DOTS_A_MM)]) is None


# ISO 838 and three rings, as the figures have them, typed here: mm from the binding edge, mm from
# the middle of the height, mm across.
PUNCHED = {
    "iso-2": (12, (-40, 40), 6),
    "iso-4": (12, (-120, -40, 40, 120), 6),
    "us-3": (12.7, (-107.95, 0, 107.95), 8),
}


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", PUNCHED)
def test_hole_marks_stand_where_a_punch_bites(kind, paper, tmp_path):
    """Circles with a cross, at the binding edge of both sides, clear of the text."""
    edge, offsets, across = PUNCHED[kind]
    width, height = PAPERS[paper]
    made = handbook(LONG, paper_name=paper)
    made.catalog.shop = dataclasses.replace(made.catalog.shop, holes=kind)
    made.catalog.span = load(None).span
    read(made, tmp_path)
    first = next(s.page for s in read_sides(tmp_path / "binder.pdf") if s.leaf == "T-01")
    for page in (first, first + 1):
        dark = drawn(tmp_path / "binder.pdf", page, 210)  # hair lines are grey
        middle = edge if page % 2 else width - edge
        for offset in offsets:
            top = height / 2 + offset
            window = dark[
                int((top - 9) * DOTS_A_MM) : int((top + 9) * DOTS_A_MM),
                int((middle - 9) * DOTS_A_MM) : int((middle + 9) * DOTS_A_MM),
            ]
            down, right = run_of(window.any(axis=1)), run_of(window.any(axis=0))
            # Dots are an eighth of a millimetre: two of them for a middle, three for a size, and
            # four for the ring, of which the row of dots just beside the bar is measured.
            assert sum(down) / 2 == pytest.approx(9, abs=0.3)
            assert sum(right) / 2 == pytest.approx(9, abs=0.3)
            assert down[1] - down[0] == pytest.approx(across + 3, abs=0.4)  # the cross
            ring = window[int(9 * DOTS_A_MM) + 9, :].nonzero()[0]  # just beside the cross's bar
            assert (ring[-1] - ring[0]) / DOTS_A_MM == pytest.approx(across, abs=0.5)
        inner = slice(0, int(24 * DOTS_A_MM)) if page % 2 else slice(-int(24 * DOTS_A_MM), None)
        rows = dark[:, inner].any(axis=1)
        for offset in offsets:
            at = height / 2 + offset
            rows[int((at - 9) * DOTS_A_MM) : int((at + 9) * DOTS_A_MM)] = False
        assert not rows.any()


def test_a_shop_that_wants_no_holes_has_none(tmp_path):
    """Nothing is drawn in the binding margin."""
    read(handbook(LONG), tmp_path)
    first = next(s.page for s in read_sides(tmp_path / "binder.pdf") if s.leaf == "T-01")
    assert not drawn(tmp_path / "binder.pdf", first, 210)[:, : int(24 * DOTS_A_MM)].any()
    assert holes(SimpleNamespace(shop=Shop())) is None


def test_another_way_to_punch_is_a_fault(tmp_path):
    """The setting names what it accepts."""
    (tmp_path / "shop.toml").write_text('name = "A"\nholes = "iso-3"\n')
    with pytest.raises(Faults, match=r"shop.toml:2: holes: found 'iso-3', accepted: .*'us-3'"):
        load(tmp_path)


# Files of some leaves


def some(made, names, tmp_path):
    """Write some leaves of a small book as a file of their own and read it back."""
    book = written(made)
    at = binder.ranges(book)
    found = states.states(book, binder.sides_of(at))
    code = binder.some(book, found, names, at, "Some leaves")
    file = tmp_path / "some.pdf"
    own_file.write(typesetting.compiled(code), file, binder.MARK, "file of leaves")
    return file, at


def test_some_leaves_are_a_file_of_their_own(tmp_path):
    """They stand in the binder's order; a link to a leaf that is not there is plain words."""
    made = handbook(LONG, RICH, TABLE)
    file, _ = some(made, ["T-03", "T-02"], tmp_path)
    assert squeezed([side.leaf for side in read_sides(file)]) == ["T-02", "T-03"]
    pdf = pypdf.PdfReader(file)
    assert "the long one (T-01)" in pdf.pages[0].extract_text().replace("\n", " ")
    assert set(links_of(pdf, 1)) == {1}  # "below" and the note, on the leaf itself
    file, _ = some(made, ["T-01", "T-02"], tmp_path)
    first = next(side.page for side in read_sides(file) if side.leaf == "T-02")
    assert next(links_of(pypdf.PdfReader(file), first)) == 1


def test_contents_alone_tell_the_pages_of_the_whole_binder(tmp_path):
    """What stands on a leaf does not change with what is printed beside it."""
    made = handbook(LONG, "<p>Short.</p>")
    file, at = some(made, ["Contents"], tmp_path)
    (side, _) = read_sides(file)
    first, last = at["T-02"]
    assert f"T-02 Trial leaf 2 {last - first + 1} {first}" in " ".join(side.text.split())
    (whole,) = [
        one.extract_text() for one in read(made, tmp_path).pages if "Contents · 1 of" in
        one.extract_text()
    ]  # fmt: skip
    assert whole == side.text


def test_a_strangers_file_is_not_written_over(tmp_path):
    """A PDF without our mark stays as it was; our own is replaced by the same bytes."""
    stranger = tmp_path / "some.pdf"
    stranger.write_bytes(b"%PDF-1.7 a letter")
    with pytest.raises(own_file.NotOurFile, match="no file of leaves of ours"):
        some(handbook("<p>One.</p>"), ["T-01"], tmp_path)
    assert stranger.read_bytes() == b"%PDF-1.7 a letter"
    stranger.unlink()
    once = some(handbook("<p>One.</p>"), ["T-01"], tmp_path)[0].read_bytes()
    assert some(handbook("<p>One.</p>"), ["T-01"], tmp_path)[0].read_bytes() == once


def test_the_command_lists_and_prints_a_section(tmp_path):
    """`leaves --section` names its tab and its leaves, and writes just these."""
    shop = tmp_path / "shop"
    lay_down(shop)
    words = ["leaves", "--section", "b", "--shop", str(shop), "--out", str(tmp_path / "b.pdf")]
    result = CliRunner().invoke(main, words)
    assert result.exit_code == 0, result.output
    leaves = squeezed([side.leaf for side in read_sides(tmp_path / "b.pdf")])
    assert leaves[0] == "Tab B"
    assert leaves[1:] == re.findall(r"\bB-\d\d", result.output)
    wrong = CliRunner().invoke(main, ["leaves", "B-99", "--shop", str(shop)])
    assert wrong.exit_code == 2
    assert "leaf: found 'B-99', accepted: " in wrong.stderr


def test_a_small_book_has_neither_tabs_nor_lists(tmp_path):
    """A book of one side keeps its one opening page, its own words in the foot, no edge marks."""
    made = handbook("<p>One.</p>")
    made.cover = dataclasses.replace(made.cover, sides=1, revision="job 1")
    assert [*binder.page_ranges(made)] == ["Title", "Front", "T-01"]
    page = read(made, tmp_path).pages[2]
    assert "(invented) · job 1" in page.extract_text()
    dark = drawn(tmp_path / "binder.pdf", 3)
    assert run_of(dark[:, int(209.5 * DOTS_A_MM)]) is None


def test_an_unknown_section_is_named():
    """A letter that no section has is refused with those that are there."""
    from site_builder.leaves.answers import _wanted

    with pytest.raises(UnknownName, match="section: found 'X', accepted: T"):
        _wanted(written(handbook("<p>One.</p>")), (), "X")


# Where the leaves stand, from another time


@pytest.fixture
def set_times(monkeypatch):
    """Count how often a document is set, in a list."""
    times = []
    before = typesetting.Desk.compiled

    def counted(self, source):
        times.append(len(source))
        return before(self, source)

    monkeypatch.setattr(typesetting.Desk, "compiled", counted)
    return times


@pytest.mark.parametrize(
    "wrong",
    [{"T-01": 1}, {"Contents": 9}, {"Gone": 3}, dict.fromkeys(["Title", "T-01", "T-02"], 4)],
    ids=["one short", "one long", "a leaf that is gone", "most of them"],
)
def test_sides_that_are_no_longer_so_change_no_byte(set_times, wrong):
    """A binder set from wrong sides is set again, and is the one that was set from none."""
    book = written(handbook(LONG, RICH))
    made, at = binder.laid(book, {})
    del set_times[:]
    assert binder.laid(book, wrong) == (made, at)
    assert len(set_times) == 2


def test_a_binder_of_which_the_sides_are_known_is_set_once(set_times):
    """From the sides that the leaves have, nothing is set a second time."""
    book = written(handbook(LONG, RICH))
    made, at = binder.laid(book, {})
    assert binder.sides_of(at)["T-01"] > binder.SHEET
    del set_times[:]
    assert binder.laid(book, binder.sides_of(at)) == (made, at)
    assert len(set_times) == 1


def test_leaves_that_never_settle_are_a_fault(monkeypatch):
    """A book that stands elsewhere after each layout is refused, and not set as it is not."""
    book = written(handbook(RICH))
    names, moved = book.names, itertools.count(1)

    def told(*_):
        at = next(moved)
        return [(name, at, at) for name in names]

    monkeypatch.setattr(typesetting.Desk, "told", told)
    with pytest.raises(typesetting.PaperFault, match="5 layouts"):
        binder.laid(book, {})
