"""Labels of jars: what they say, in which order, at true size; of a table, a sheet, or neither."""

from __future__ import annotations

import ctypes
import dataclasses
import io
import json
import math

import pypdf
import pypdfium2 as pdfium
import pypdfium2.raw as raw
import pytest
from book_trials import blank
from click.testing import CliRunner
from drawn_paths import POINTS_A_MM, rectangles
from label_shop import TRADE

from formulas.air_entries import Chemical
from formulas.books.jar_label import jar_label
from formulas.catalog import load
from formulas.fault import UnknownName
from site_builder.commands import main
from site_builder.labels.fitting import TooSmall
from site_builder.labels.jar_pieces import NEEDED, NOT_KNOWN, ORDER
from site_builder.labels.layout import extent
from site_builder.labels.piece import TO_WRITE
from site_builder.labels.pieces import pieces
from site_builder.labels.sheets import sheet
from site_builder.paper import labels
from site_builder.parts import registry
from site_builder.parts.pictograms import SYMBOLS
from site_builder.places import DEMO_SHOP

BIG = {"a4": "a4-8-99x68", "letter": "letter-6-102x85"}


def jar(name="Tin", **cells):
    """Make a chemical of the shelf."""
    told = {"place": "cabinet", **cells}
    return blank(Chemical, chemical=name, basis="measured", **told)


def shelf(*jars):
    """Give the trade's catalog with these jars and no batch."""
    return dataclasses.replace(TRADE, chemicals={one.chemical: one for one in jars}, pot_book={})


FULL = jar(
    "Turps, tin 2",
    solvent="gum-turpentine",
    amount=500.0,
    unit="mL",
    sheet_held=True,
    sheet_date="2025-03-01",
    opened="2026-11-02",
    use_by="2027-11-02",
)


def said(catalog, name):
    """Give the words of a label by kind."""
    found: dict[str, list[str]] = {}
    for piece in pieces(jar_label(catalog, name), catalog):
        found.setdefault(piece.kind, []).append(piece.text.replace("\xa0", " "))
    return found


# What it says


def test_a_jar_of_the_shelf_says_all_that_its_row_tells():
    """Name, amount, days, place and the data sheet, beside the statements of the table."""
    words = said(shelf(FULL), "Turps, tin 2")
    assert words["name"] == ["Turps, tin 2"]
    assert words["amount"] == ["500 mL"]
    assert words["filled"] == ["Filled 2026-11-02"]
    assert words["use-by"] == ["Use by 2027-11-02"]
    assert words["place"] == ["Place: cabinet"]
    assert words["sheet"] == ["See the data sheet of 2025-03-01"]
    assert words["signal"] == ["Danger"]
    codes = [row.code for row in TRADE.solvent_hazards if row.solvent == "gum-turpentine"]
    assert words["hazard"] == [TRADE.statements[code].text for code in sorted(codes)]
    most = TRADE.figure("precautions-at-most").low
    assert len(words["precaution"]) == most
    assert "not-known" not in words


def test_its_own_statements_count_before_those_of_the_table():
    """What the data sheet says is printed, and nothing of the table."""
    catalog = shelf(dataclasses.replace(FULL, hazard_codes=("H226", "EUH066")))
    found = jar_label(catalog, "Turps, tin 2")
    assert [one.code for one in found.answer["hazard_statements"]] == ["H226"]
    assert [one.code for one in found.answer["supplemental"]] == ["EUH066"]
    assert found.answer["signal_word"] == "Warning"
    assert found.answer["pictograms"] == ["flame"]
    assert any("from its data sheet" in one.what for one in found.basis)


@pytest.mark.parametrize("solvent", ["", "beeswax-yellow"])
def test_what_no_row_tells_of_is_not_known_and_never_none(solvent):
    """The label says to copy the bottle's; that piece is never left off."""
    catalog = shelf(jar(solvent=solvent))
    words = said(catalog, "Tin")
    assert words["not-known"] == [NOT_KNOWN]
    assert "copy the label of the bottle it came from" in NOT_KNOWN
    assert "hazard" not in words
    assert "none" not in " ".join(text for texts in words.values() for text in texts).lower()
    (piece,) = [
        one for one in pieces(jar_label(catalog, "Tin"), catalog) if one.kind == "not-known"
    ]
    assert piece.importance == 0
    assert words["sheet"] == ["Data sheet not held: ask the supplier for it"]


def test_a_solvent_without_a_row_gets_lines_to_write_on():
    """What only the shelf tells is left to the pen."""
    catalog = TRADE
    held = pieces(jar_label(catalog, "ethanol"), catalog)
    to_write = {piece.kind for piece in held if piece.style == TO_WRITE}
    assert to_write == {"amount", "filled", "use-by", "sheet", "address", "telephone"}


def test_every_solvent_with_a_hazard_carries_its_signal_and_statements():
    """No statement of the table is lost on the way to the label."""
    for name in {row.solvent for row in TRADE.solvent_hazards}:
        answer = jar_label(TRADE, name).answer
        carried = {one.code for key in ("hazard_statements", "supplemental") for one in answer[key]}
        assert carried == {row.code for row in TRADE.solvent_hazards if row.solvent == name}
        signals = {TRADE.statements[code].signal for code in carried}
        assert answer["signal_word"] == ("Danger" if "Danger" in signals else "Warning")
        asked = {TRADE.statements[code].pictogram for code in carried} - {""}
        assert set(answer["pictograms"]) == asked


def test_every_pictogram_of_a_statement_is_drawn_and_named():
    """A shop may write any code of the table: its picture is there, and has words."""
    asked = {one.pictogram for one in TRADE.statements.values()} - {""}
    assert asked <= SYMBOLS.keys()
    assert asked <= TRADE.pictograms.keys()


def test_every_hazard_has_a_precaution_or_is_told_by_another():
    """Each classified statement of a solvent leads to something to do."""
    served = {row.hazard for row in TRADE.hazard_precautions if row.used}
    assert {row.code for row in TRADE.solvent_hazards if row.code.startswith("H")} <= served


def test_a_name_of_neither_shelf_nor_table_is_refused():
    """The nearest name of both is offered."""
    with pytest.raises(UnknownName, match="did you mean 'Turps, tin 2'"):
        jar_label(shelf(FULL), "Turps tin 2")
    with pytest.raises(UnknownName, match="did you mean 'ethanol'"):
        jar_label(TRADE, "ethanl")


# The order


@pytest.mark.parametrize("name", list(TRADE.label_stock))
@pytest.mark.parametrize("solvent", ["ethanol", "gum-turpentine", "methanol"])
def test_what_does_not_fit_is_left_off_in_the_stated_order(name, solvent):
    """On each sheet: refused with one that serves, or the needed pieces and the order kept.

    A piece is left off only where a later one is not larger: the first left off did not fit
    beside all that is more important.
    """
    catalog = shelf(dataclasses.replace(FULL, solvent=solvent))
    answer = jar_label(catalog, "Turps, tin 2")
    try:
        one = labels.copies_of(answer, catalog, name, 1)
    except TooSmall:
        assert name not in BIG.values()
        return
    ((made, _),) = one.pages[0]
    assert all(piece.importance for piece in made.left_off)
    assert [p.importance for p in made.left_off] == sorted(p.importance for p in made.left_off)
    words = " ".join(text for w in made.words for line in w.lines for text, _ in line)
    for code in answer.answer["hazard_statements"]:
        assert all(part in words for part in code.text.split())


def test_the_large_sheets_hold_all_that_matters_of_any_solvent():
    """On the largest sheet of each paper one precaution of six at most finds no room, and no day.

    Turpentine, with nine statements and four pictograms, is the one that leaves off a precaution.
    """
    for solvent in {row.solvent for row in TRADE.solvent_hazards}:
        catalog = shelf(dataclasses.replace(FULL, solvent=solvent))
        for stock in BIG.values():
            one = labels.copies_of(jar_label(catalog, "Turps, tin 2"), catalog, stock, 1)
            precautions = [told for told in one.left_off if told.startswith("P")]
            rest = {*one.left_off} - {*precautions}
            assert len(precautions) <= (solvent == "gum-turpentine"), (solvent, stock)
            assert rest <= {"shop", "address", "telephone", "place"}, (solvent, stock)


def test_the_order_of_importance_is_told_as_it_is_used():
    """The leaf's table names what is never left off first, then the ranks from one on."""
    (table,) = registry.place(TRADE, "jar-label-order", "")
    first, *rest = [[cell.text for cell in row] for row in table.iterfind("tbody/tr")]
    assert all(words in first[1] for words in NEEDED.values())
    assert rest == [[str(rank), words] for rank, words in enumerate(ORDER.values(), start=1)]


# True size


@pytest.mark.parametrize("stock", list(BIG.values()))
@pytest.mark.parametrize("solvent", ["ethanol", "methanol", "gum-turpentine"])
def test_pictograms_have_their_true_size_and_keep_apart(stock, solvent):
    """The square's side is 10 mm at least and 16 where it may be; words keep off the pictures.

    From tip to tip a square on its point is longer than its side by the square root of two.
    """
    catalog = shelf(dataclasses.replace(FULL, solvent=solvent))
    answer = jar_label(catalog, "Turps, tin 2")
    ((made, _),) = labels.copies_of(answer, catalog, stock, 1).pages[0]
    sides = [sign.width / math.sqrt(2) for sign in made.signs]
    assert len(sides) == len(answer.answer["pictograms"])
    assert sides == pytest.approx([16] * len(sides))  # mm, wished for packages up to 3 litres
    rim = 1.5
    for sign in made.signs:
        assert sign.x >= rim
        assert sign.x + sign.width <= made.width - rim + 1e-6
    for left, top, right, bottom in extent(made):
        for sign in made.signs:
            beside = right <= sign.x or left >= sign.x + sign.width
            assert beside or top >= sign.y + sign.width - 1e-6 or bottom <= sign.y


def red(data, page):
    """Give width and height in mm of every red shape of a page: the frames of the pictograms."""
    found = []
    for one in pdfium.PdfDocument(data)[page].get_objects(max_depth=6):
        if one.type != raw.FPDF_PAGEOBJ_PATH:
            continue
        colour = [ctypes.c_uint() for _ in range(4)]
        raw.FPDFPageObj_GetFillColor(one.raw, *colour)
        if [part.value for part in colour[:3]] == [0xC8, 0x10, 0x2E]:
            left, bottom, right, top = one.get_bounds()
            found.append(((right - left) / POINTS_A_MM, (top - bottom) / POINTS_A_MM))
    return found


def test_the_printed_frames_measure_what_they_should():
    """In the file itself each red frame is 16 mm times the root of two, from tip to tip.

    Tolerance: a tenth of a millimetre, as a ruler reads.
    """
    catalog = shelf(FULL)
    one = labels.copies_of(jar_label(catalog, "Turps, tin 2"), catalog, "a4-8-99x68", 1)
    frames = red(labels.pdf(one, catalog, check=False), 0)
    assert len(frames) == 4
    tip = 16 * math.sqrt(2)
    assert all(size == pytest.approx(tip, abs=0.1) for frame in frames for size in frame)


def test_the_label_stands_on_the_place_of_its_sheet():
    """The edge drawn round it is that of the row in label_stock.csv to a tenth of a millimetre."""
    catalog = shelf(FULL)
    one = labels.copies_of(jar_label(catalog, "Turps, tin 2"), catalog, "a4-8-99x68", 1, start=4)
    drawn = rectangles(labels.pdf(one, catalog, check=False, guides=True), 0)
    stock = TRADE.label_stock["a4-8-99x68"]
    place = (
        stock.left + stock.pitch_across,  # the fourth of two in a row: second row, second place
        stock.top + stock.pitch_down,
        stock.width,
        stock.height,
    )
    assert sheet(catalog, "a4-8-99x68").places[3] == pytest.approx(place[:2])
    assert any(box == pytest.approx(place, abs=0.1) for box in drawn)


def test_the_words_of_the_label_are_in_the_file():
    """Another program reads signal word, statements and days out of the PDF."""
    catalog = shelf(FULL)
    one = labels.copies_of(jar_label(catalog, "Turps, tin 2"), catalog, "a4-8-99x68", 1)
    data = labels.pdf(one, catalog, check=False)
    words = " ".join(pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text().split())
    for wanted in ("Danger", "Flammable liquid and vapour.", "Use by 2027-11-02", "2025-03-01"):
        assert wanted in words.replace("\xa0", " ")


# The build and the command


def test_the_build_prints_a_label_for_each_jar():
    """Batches first, then the jars, on one kind of sheet; a shelf alone is enough for a file."""
    demo = load(DEMO_SHOP)
    data = labels.pdf(labels.of_the_book(demo), demo, check=False)
    words = " ".join(
        " ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(data)).pages
    )
    assert all(name in words for name in demo.chemicals)
    assert labels.of_the_book(shelf(FULL)) is not None
    assert labels.of_the_book(shelf()) is None


def test_a_jar_that_no_sheet_serves_is_named():
    """A build says which one, and what to add."""
    catalog = dataclasses.replace(
        shelf(FULL), label_stock={"a4-65-38x21": TRADE.label_stock["a4-65-38x21"]}
    )
    with pytest.raises(labels.NoSheet, match="Turps, tin 2"):
        labels.of_the_book(catalog)


def test_the_command_prints_a_jar(tmp_path):
    """The file is a sheet of labels of ours; the answer tells what was printed."""
    out = tmp_path / "jar.pdf"
    words = ["label", "--jar", "ethanol", "--stock", "a4-8-99x68", "--out", str(out), "--json"]
    result = CliRunner().invoke(main, words)
    assert result.exit_code == 0, result.output
    told = json.loads(result.stdout)["answer"]
    assert (told["jar"], told["print"]["labels"], told["hazards_known"]) == ("ethanol", 1, True)
    assert labels.is_ours(out.read_bytes())


def test_the_terminal_shows_the_label_and_its_cautions():
    """The words of the label on standard output, the cautions beside."""
    result = CliRunner().invoke(
        main, ["label", "--jar", "Gum turpentine", "--shop", str(DEMO_SHOP)]
    )
    assert result.exit_code == 0, result.output
    for wanted in ("GHS09 environment", "May be fatal if swallowed", "See the data sheet of 2019"):
        assert wanted in result.stdout
    cautions = " ".join(result.stderr.split())
    assert TRADE.cautions["solvent-and-heat"].title in cautions
    assert TRADE.cautions["children-and-pets"].title in cautions


@pytest.mark.parametrize(
    "words",
    [["--jar", "ethanol", "W-26-001"], ["--jar", "ethanol", "--blend", "beeswax-rosin-4-1"], []],
)
def test_one_thing_is_labelled_at_a_time(words):
    """Batch, blend or jar: one of them."""
    result = CliRunner().invoke(main, ["label", *words])
    assert result.exit_code == 2
    assert "or one jar with --jar" in result.output


def test_the_leaf_shows_a_jar_at_true_size():
    """The drawing of the solvent's label is of its size, a point a unit, and says it in words."""
    (figure,) = registry.place(TRADE, "label", "gum-turpentine")
    box = [float(side) for side in figure.find("svg").get("viewBox").split()]
    assert box == pytest.approx([0, 0, 99.1 * POINTS_A_MM, 67.7 * POINTS_A_MM], abs=0.01)
    assert "Pictograms: flame" in figure.get("alt")
    assert "May be fatal if swallowed" in figure.get("alt")
