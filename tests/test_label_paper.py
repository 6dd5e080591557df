"""Printed labels: true size, bytes, tags, what is written over, read back by other programs."""

from __future__ import annotations

import dataclasses
import io
import json
from itertools import pairwise

import pypdf
import pypdfium2 as pdfium
import pypdfium2.raw as raw
import pytest
from click.testing import CliRunner
from drawn_paths import POINTS_A_MM, outline, rectangles
from label_shop import BOOK, FOUR_ONE, TRADE, batch, shop

from formulas.books.label import in_use, label
from formulas.catalog import load
from site_builder import own_file
from site_builder.commands import main
from site_builder.labels.fitting import TooSmall
from site_builder.labels.pieces import NEEDED, ORDER
from site_builder.paper import labels
from site_builder.parts import registry
from site_builder.parts.label_parts import POINTS
from site_builder.places import DEMO_SHOP

STOCK = list(TRADE.label_stock)
SERVING = [name for name in STOCK if name != "a4-65-38x21"]


def made(stock, copies=1, start=1, catalog=TRADE, **how) -> bytes:
    """Print labels of a blend as bytes."""
    one = labels.copies_of(label(catalog, blend=FOUR_ONE), catalog, stock, copies, start)
    return labels.pdf(one, catalog, **how)


# The sheet as its rows in label_stock.csv give it, reckoned here past the layout: in the unit
# of the row, 25.4 mm to an inch. Tolerance: a tenth of a millimetre, as a ruler reads.
def expected(name: str) -> list[tuple[float, float, float, float]]:
    """Give left, top, width and height in mm of each label of a sheet."""
    stock = TRADE.label_stock[name]
    each = {"mm": 1.0, "in": 25.4}[stock.unit]
    return [
        (
            (stock.left + column * stock.pitch_across) * each,
            (stock.top + row * stock.pitch_down) * each,
            stock.width * each,
            stock.height * each,
        )
        for row in range(stock.down)
        for column in range(stock.across)
    ]


def near(one, other) -> bool:
    """Whether two boxes agree to a tenth of a millimetre."""
    return all(abs(a - b) < 0.1 for a, b in zip(one, other, strict=True))


# ISO 216 A4 and US Letter, in points. Tolerance: a hundredth of a point.
@pytest.mark.parametrize("name", SERVING)
def test_every_page_is_exactly_the_paper(name):
    """The page box is that of the sheet, on the check page and on the labels."""
    wide, high = {"a4": (595.276, 841.890), "letter": (612, 792)}[TRADE.label_stock[name].paper]
    pages = pypdf.PdfReader(io.BytesIO(made(name))).pages
    assert len(pages) == 2
    for page in pages:
        assert [float(side) for side in page.mediabox] == pytest.approx(
            [0, 0, wide, high], abs=0.01
        )


@pytest.mark.parametrize("name", SERVING)
def test_the_check_page_frames_every_label(name):
    """A frame stands on each label of the sheet to a tenth of a millimetre."""
    drawn = rectangles(made(name), 0)
    for wanted in expected(name):
        assert any(near(wanted, one) for one in drawn)


@pytest.mark.parametrize("name", SERVING)
def test_the_check_bar_is_a_hundred_millimetres(name):
    """The outline of the bar, and its ten tenths, measure what the page says to 0.01 mm."""
    drawn = rectangles(made(name), 0)
    bars = [one for one in drawn if one[3] == pytest.approx(4, abs=0.01)]
    assert max(one[2] for one in bars) == pytest.approx(100, abs=0.01)
    tenths = sorted(one[0] for one in bars if one[2] == pytest.approx(10, abs=0.01))
    assert len(tenths) == 5
    assert [b - a for a, b in pairwise(tenths)] == pytest.approx([20] * 4, abs=0.01)


@pytest.mark.parametrize(
    ("copies", "start", "sheets"), [(4, 5, [4]), (3, 20, [2, 1]), (43, 1, [21, 21, 1])]
)
def test_copies_stand_on_the_free_places(copies, start, sheets):
    """Labels fill the sheet row by row from the first free place, then the next sheet."""
    data = made("a4-21-63x38", copies, start, check=False, guides=True)
    places = expected("a4-21-63x38")
    wanted = [places[(start - 1 + k) % 21] for k in range(copies)]
    assert len(pypdf.PdfReader(io.BytesIO(data)).pages) == len(sheets)
    for page, count in enumerate(sheets):
        frames = [one for one in rectangles(data, page) if one[2] == pytest.approx(63.5, abs=0.01)]
        here, wanted = wanted[:count], wanted[count:]
        assert len(frames) == count
        assert all(any(near(place, frame) for frame in frames) for place in here)


@pytest.mark.parametrize("name", SERVING)
def test_nothing_leaves_its_label(name):
    """Every letter, line and picture lies inside a label, the bare rim kept."""
    catalog, rim = TRADE, 1.5
    data = made(name, 2, check=False)
    document = pdfium.PdfDocument(data)
    page = document[0]
    high = page.get_height()
    places = expected(name)[:2]
    cut = catalog.label_stock[name].cut
    count = 0
    for one in page.get_objects(max_depth=4):
        path = outline(one, high) if cut and one.type == raw.FPDF_PAGEOBJ_PATH else None
        if path and any(near(path, place) for place in places):
            continue  # the frame that is cut along
        left, bottom, right, top = (side / POINTS_A_MM for side in one.get_bounds())
        box = (left, high / POINTS_A_MM - top, right, high / POINTS_A_MM - bottom)
        count += 1
        assert any(
            box[0] >= x + rim - 0.1
            and box[1] >= y + rim - 0.1
            and box[2] <= x + wide - rim + 0.1
            and box[3] <= y + tall - rim + 0.1
            for x, y, wide, tall in places
        ), box
    assert count > 10


def test_a_small_x_is_as_high_as_the_figure_asks():
    """The x of the smallest type, as the printed font draws it, is 1.2 mm high or more.

    Tolerance: a hundredth of a millimetre, less than any printer shows.
    """
    document = pdfium.PdfDocument(made("a4-21-63x38", check=False))
    text = document[0].get_textpage()
    words = text.get_text_range()
    heights = []
    for place, letter in enumerate(words):
        if letter in "xzvw":
            _, bottom, _, top = text.get_charbox(place)
            heights.append((top - bottom) / POINTS_A_MM)
    assert heights
    assert min(heights) >= TRADE.figure("label-x-height").low - 0.01


def test_the_words_of_the_label_are_in_the_file():
    """Another program reads the statement and the signal word out of the PDF."""
    read = pypdf.PdfReader(io.BytesIO(made("a4-8-99x68", check=False))).pages[0].extract_text()
    words = " ".join(read.split())
    for wanted in ("Warning", "May cause an allergic skin reaction.", "Wear protective gloves."):
        assert wanted in words


def test_the_file_is_tagged_and_its_pictures_have_words():
    """PDF/UA-1, a title, a language, and words for each pictogram."""
    data = made("a4-8-99x68", 2)
    reader = pypdf.PdfReader(io.BytesIO(data))
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert reader.metadata.title == "Labels: Beeswax and rosin, 4 to 1"
    assert b"pdfuaid:part>1<" in data
    assert alternatives(root["/StructTreeRoot"]).count("Pictogram GHS07, exclamation mark") == 2


def alternatives(element, depth=0) -> list[str]:
    """List the alternative words in a tree of tags."""
    found = [str(element["/Alt"])] if "/Alt" in element else []
    kids = element.get("/K", [])
    for kid in kids if isinstance(kids, list) else [kids]:
        one = kid.get_object() if hasattr(kid, "get_object") else kid
        if isinstance(one, dict) and depth < 20:
            found += alternatives(one, depth + 1)
    return found


def test_the_same_label_gives_the_same_bytes():
    """Nothing of the clock or the run enters the file."""
    assert made("a4-21-63x38", 5) == made("a4-21-63x38", 5)


HOSTILE = 'A "b" \\ #c $x$ `d` <e> 中 \N{GRINNING FACE} \u200b end'


def test_hostile_names_arrive_as_they_are_written():
    """No text of a shop is read as an instruction, and a letter without a glyph is shown."""
    blends = {**TRADE.blends, FOUR_ONE: dataclasses.replace(TRADE.blends[FOUR_ONE], name=HOSTILE)}
    catalog = dataclasses.replace(TRADE, blends=blends)
    data = made("a4-8-99x68", catalog=catalog, check=False)
    read = " ".join(pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text().split())
    assert 'A "b" \\ #c $x$ `d` <e> [U+4E2D] [U+1F600] end' in read.replace("- ", "")


# The file


def test_a_file_of_ours_is_written_over_and_another_is_not(tmp_path):
    """Only a PDF that carries our mark is replaced; any other is left byte for byte."""
    ours, other = tmp_path / "labels.pdf", tmp_path / "letter.pdf"
    labels.write(made("a4-8-99x68"), ours)
    labels.write(made("a4-21-63x38"), ours)
    assert ours.read_bytes() == made("a4-21-63x38")
    writer = pypdf.PdfWriter()
    writer.add_blank_page(100, 100)
    writer.write(other)
    before = other.read_bytes()
    with pytest.raises(own_file.NotOurFile, match="benchbinder label sheet"):
        labels.write(made("a4-21-63x38"), other)
    assert other.read_bytes() == before
    with pytest.raises(own_file.NotOurFile):
        labels.write(made("a4-21-63x38"), tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["labels.pdf", "letter.pdf"]


def test_the_mark_stands_in_the_keywords():
    """The mark by which a file is known is where any reader shows it."""
    reader = pypdf.PdfReader(io.BytesIO(made("a4-8-99x68")))
    assert reader.metadata["/Keywords"] == labels.MARK


# The book


def test_the_book_prints_one_label_for_each_batch_in_use():
    """Discarded batches are left out; an empty book prints nothing."""
    catalog = shop(
        batch("W-1", "beeswax-yellow 4; gum-rosin 1"),
        batch("W-2", "beeswax-yellow 4; gum-rosin 1", discarded="2026-04-01"),
        batch("W-3", "beeswax-yellow 1"),
    )
    one = labels.of_the_book(catalog)
    read = pypdf.PdfReader(io.BytesIO(labels.pdf(one, catalog))).pages[1].extract_text()
    assert "W-1" in read
    assert "W-3" in read
    assert "W-2" not in read
    assert labels.of_the_book(shop()) is None
    assert TRADE.label_stock[one.sheet.id].paper == TRADE.shop.paper


def test_a_book_that_no_sheet_serves_is_told(monkeypatch):
    """A batch whose needed words fit no sheet is named."""
    catalog = shop(batch("W-1", "; ".join(f"{name} 1" for name in TRADE.materials)))
    stock = {"a4-65-38x21": TRADE.label_stock["a4-65-38x21"]}
    with pytest.raises(labels.NoSheet, match="W-1"):
        labels.of_the_book(dataclasses.replace(catalog, label_stock=stock))


def test_a_build_lays_the_labels_beside_the_binder(built):
    """The demo shop's build holds the labels of its book, tagged as ours."""
    catalog = load(DEMO_SHOP)
    made_by_build = (built / "labels.pdf").read_bytes()
    assert made_by_build == labels.pdf(labels.of_the_book(catalog), catalog)
    assert labels.is_ours(made_by_build)
    words = pypdf.PdfReader(io.BytesIO(made_by_build)).pages[1].extract_text()
    assert all(name in words for name in in_use(catalog))


# The command


def test_the_command_prints_what_it_says(tmp_path):
    """The file has the sheets and labels that the answer tells, and the answer is JSON."""
    out = tmp_path / "four.pdf"
    words = ["label", "--blend", FOUR_ONE, "--stock", "a4-21-63x38", "--copies", "4"]
    result = CliRunner().invoke(main, [*words, "--start", "20", "--out", str(out), "--json"])
    assert result.exit_code == 0, result.output
    told = json.loads(result.stdout)["answer"]["print"]
    assert (told["labels"], told["sheets"], told["start"]) == (4, 2, 20)
    assert len(pypdf.PdfReader(out).pages) == 3
    assert told["left_off"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ([], "name one batch of the pot book, or one blend"),
        (["--blend", FOUR_ONE, "--stock", "a4-21-63x38"], "name --stock and --out together"),
        (["--blend", FOUR_ONE, "--stock", "a4-21", "--out", "x.pdf"], "label stock: found 'a4-21'"),
        (["--blend", FOUR_ONE, "--stock", "a4-65-38x21", "--out", "x.pdf"], "smallest that serves"),
        (
            ["--blend", FOUR_ONE, "--stock", "a4-21-63x38", "--start", "22", "--out", "x.pdf"],
            "found 22, accepted: 1 to 21",
        ),
        (
            ["--blend", FOUR_ONE, "--stock", "a4-21-63x38", "--copies", "0", "--out", "x.pdf"],
            "copies: found 0",
        ),
        (["W-99-999"], "batch: found 'W-99-999'"),
    ],
)
def test_a_wrong_call_writes_nothing(words, said, tmp_path, monkeypatch):
    """Exit code 2, the reason, and no file."""
    monkeypatch.chdir(tmp_path)
    result = CliRunner().invoke(main, ["label", *words])
    assert result.exit_code == 2
    assert said in result.output
    assert list(tmp_path.iterdir()) == []


# The pictures of the leaf


def test_the_picture_of_a_label_is_of_its_true_size():
    """One unit of the drawing is one point, so on paper it measures what the label does."""
    (figure,) = registry.place(BOOK, "label", "W-26-003 a4-21-63x38")
    box = [float(side) for side in figure.find("svg").get("viewBox").split()]
    assert box == pytest.approx([0, 0, 63.5 * POINTS, 38.1 * POINTS], abs=0.01)
    assert "May cause an allergic skin reaction." in figure.get("alt")
    assert "W-26-003" in figure.get("alt")
    shown = " ".join(text for one in figure.iter("text") for text in one.itertext())
    assert "Warning" in shown


def test_the_part_tells_of_a_wrong_name_and_of_a_label_too_small():
    """A blend that is not there, and a sheet without room, are faults."""
    with pytest.raises(LookupError, match="did you mean"):
        registry.place(TRADE, "label", "beeswax-rosin-4-2")
    with pytest.raises(TooSmall):
        registry.place(TRADE, "label", f"{FOUR_ONE} a4-65-38x21")


def test_every_pictogram_of_the_statements_in_use_is_drawn():
    """No hazard of the tables asks for a picture that the handbook cannot draw."""
    asked = {TRADE.statements[row.code].pictogram for row in TRADE.hazards}
    assert asked <= TRADE.pictograms.keys()


@pytest.mark.parametrize("name", list(TRADE.pictograms))
def test_a_pictogram_reads_without_colour(name):
    """Black, white and a dark frame stand apart in grey, and the symbol keeps to the frame.

    Seen with grey weights of ITU-R BT.601: black below 10, the frame between 40 and 120, white
    above 250 of 255. The symbol takes between a twentieth and a half of the inner square.
    """
    grey = picture_of(name)
    size = len(grey)
    middle = (size - 1) / 2
    inner = [
        grey[y][x]
        for y in range(size)
        for x in range(size)
        if abs(x - middle) + abs(y - middle) < 0.41 * size
    ]
    band = [
        grey[y][x]
        for y in range(size)
        for x in range(size)
        if 0.44 * size < abs(x - middle) + abs(y - middle) < 0.485 * size
    ]
    black = sum(value < 60 for value in inner) / len(inner)
    assert 0.05 < black < 0.5
    assert sum(value > 250 for value in inner) / len(inner) > 0.4
    assert all(40 < value < 120 for value in band)


def picture_of(name: str) -> list[list[float]]:
    """Draw a pictogram with the typesetter and give its grey values, row by row."""
    import typst

    from site_builder.paper.typesetting import quoted

    drawing = quoted(labels._drawing(name))
    source = (
        "#set page(width: 200pt, height: 200pt, margin: 0pt)\n"
        f'#image(bytes({drawing}), format: "svg", width: 200pt)'
    )
    page = pdfium.PdfDocument(typst.compile(source.encode(), format="pdf"))[0]
    bitmap = page.render(scale=1, fill_color=(255, 255, 255, 255)).to_numpy()
    blue, green, red = (bitmap[:, :, place].astype(float) for place in range(3))
    return (0.299 * red + 0.587 * green + 0.114 * blue).tolist()


def words_of(elements) -> str:
    """Give the words of placed elements in one line."""
    return " ".join(" ".join(text for one in elements for text in one.itertext()).split())


def test_the_table_of_sheets_tells_what_each_leaves_off():
    """Each sheet stands in it, with the pieces that the layout leaves off a label of that blend."""
    (table,) = registry.place(TRADE, "label-stock", FOUR_ONE)
    rows = {row.find("td/code").text: words_of([row]) for row in table.iterfind("tbody/tr")}
    assert rows.keys() == TRADE.label_stock.keys()
    assert "too small: refused" in rows["a4-65-38x21"]
    assert "nothing" in rows["a4-8-99x68"]
    one = labels.copies_of(label(TRADE, blend=FOUR_ONE), TRADE, "a4-21-63x38", 1)
    assert "; ".join(one.left_off) in rows["a4-21-63x38"]


def test_the_order_of_importance_is_told_as_it_is_used():
    """The leaf's table names what is never left off first, then the ranks from one on."""
    (table,) = registry.place(TRADE, "label-order", "")
    first, *rest = [[cell.text for cell in row] for row in table.iterfind("tbody/tr")]
    assert all(words in first[1] for words in NEEDED.values())
    assert rest == [[str(rank), words] for rank, words in enumerate(ORDER.values(), start=1)]


def test_the_pictograms_are_shown_with_their_names_in_words():
    """Each is drawn once, its code under it, its name and meaning in the table and the words."""
    figure, table = registry.place(TRADE, "pictograms", "")
    told = words_of([table])
    for one in TRADE.pictograms.values():
        assert one.code in words_of([figure])
        assert one.name in told
        assert one.stands_for in told
        assert one.looks in figure.get("alt")
