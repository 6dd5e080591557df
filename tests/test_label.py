"""What a label says: identity, hazards, what is not known, and the order when room is short."""

from __future__ import annotations

import dataclasses
import itertools
import random

import pytest
from label_shop import BOOK, FOUR_ONE, TRADE, batch, lot, shop

from formulas.answer import Band
from formulas.books.hazard_class import classify
from formulas.books.label import Discarded, in_use, label
from formulas.catalog import load
from formulas.fault import UnknownName
from formulas.softening.estimate import best_estimate
from site_builder.labels.fitting import TooSmall, laid, on_stock
from site_builder.labels.layout import extent, tried
from site_builder.labels.pieces import NEEDED, ORDER, TO_WRITE, Piece, pieces
from site_builder.labels.sheets import sheet, sizes
from site_builder.texts import label as label_text


def said(answer, catalog=TRADE) -> str:
    """Give all words of a label."""
    return " | ".join(piece.text for piece in pieces(answer, catalog))


def codes(answer) -> list[str]:
    """Give the codes of the hazard and supplemental statements."""
    found = answer.answer
    return [one.code for one in (*found["hazard_statements"], *found["supplemental"])]


# What it says


def test_a_batch_fills_its_label():
    """Name, parts, batch, date, lots, masses and the day to test again all stand on it."""
    words = said(label(BOOK, batch="W-26-003"), BOOK)
    for wanted in (
        "Beeswax and rosin, 4\N{NO-BREAK SPACE}to\N{NO-BREAK SPACE}1",
        "Parts by mass: 4\N{NO-BREAK SPACE}Beeswax, yellow; 1\N{NO-BREAK SPACE}Gum rosin",
        "Batch W-26-003",
        "Made\N{NO-BREAK SPACE}2026-03-02",
        "Test again by 2027-03-02",
        "Lots: BW-1, GR-1",
        "320.4\N{NO-BREAK SPACE}g Beeswax, yellow",
        "Fresh wax",
        "May cause an allergic skin reaction.",
        "Warning",
    ):
        assert wanted in words


def test_a_stick_without_a_batch_gets_lines_to_write_on():
    """Batch and date are lines, and nothing else of a batch is made up."""
    answer = label(TRADE, blend=FOUR_ONE)
    lines = [piece.kind for piece in pieces(answer, TRADE) if piece.style == TO_WRITE]
    assert lines[:2] == ["batch", "date"]
    assert "Lots" not in said(answer)
    assert "Fresh" not in said(answer)


def test_the_softening_is_the_estimate_and_says_so():
    """The label's band is the model's own, by its method, and is called no limit."""
    answer = label(TRADE, blend=FOUR_ONE)
    shares = {"beeswax-yellow": 0.8, "gum-rosin": 0.2}
    band = best_estimate(TRADE, shares)
    assert isinstance(band, Band)
    assert answer.answer["softening"] == band
    (text,) = [piece.text for piece in pieces(answer, TRADE) if piece.kind == "softening"]
    assert TRADE.methods[band.method].name.lower() in text
    assert "Estimate" in text
    assert "no service limit" in text


def test_a_batch_made_to_another_ratio_does_not_carry_the_blends_name():
    """A pot that drifted from its blend is called by no blend's name."""
    drifted = shop(batch("W-1", "beeswax-yellow 4; gum-rosin 1.1", blend=FOUR_ONE))
    assert "4 to 1" not in label(drifted, batch="W-1").answer["name"]
    same = shop(batch("W-1", "beeswax-yellow 8; gum-rosin 2", blend=FOUR_ONE))
    assert "4 to 1" in label(same, batch="W-1").answer["name"]


def test_the_shops_address_takes_the_place_of_the_lines():
    """Where the settings hold address and telephone no line is ruled for them."""
    named = dataclasses.replace(TRADE.shop, address="1 Reed Lane", telephone="12 345")
    catalog = dataclasses.replace(TRADE, shop=named)
    held = pieces(label(catalog, blend=FOUR_ONE), catalog)
    assert {p.text for p in held if p.kind in {"address", "telephone"}} == {"1 Reed Lane", "12 345"}
    assert {p.kind for p in held if p.style == TO_WRITE} == {"batch", "date"}


def test_the_terminal_says_the_label_word_for_word():
    """Each piece of the label stands in the command's text."""
    answer = label(TRADE, blend=FOUR_ONE)
    shown = " ".join(" ".join(label_text.text(answer, TRADE)).split())
    for piece in pieces(answer, TRADE):
        assert " ".join(piece.text.split()) in shown


# Hazards


def test_what_no_table_tells_of_is_not_known():
    """A material without a hazard row is named, on the label and in the notes, never as none."""
    answer = label(TRADE, blend="beeswax-dammar-8-1")
    assert codes(answer) == []
    assert answer.answer["not_known"] == ["Beeswax, yellow", "Dammar"]
    (piece,) = [one for one in pieces(answer, TRADE) if one.kind == "not-known"]
    assert piece.importance == 0
    assert "Hazards not known here: Beeswax, yellow; Dammar." in piece.text
    assert "not harmless" in " ".join(answer.notes)


@pytest.mark.parametrize("ester", ["rosin-glycerol-ester", "rosin-pentaerythritol-ester"])
def test_a_rosin_ester_is_for_its_data_sheet_to_say(ester):
    """Esters are neither rosin nor harmless: they are not known."""
    found = classify(TRADE, {"beeswax-yellow": 0.5, ester: 0.5})
    assert not found.hazards
    assert TRADE.materials[ester].name in found.not_known


@pytest.mark.parametrize("wax", ["reclaimed", "mixed"])
def test_reclaimed_wax_is_labelled_as_a_sensitiser_whatever_its_parts(wax):
    """Wax of unknown past carries the statement, and says what it is on every label."""
    catalog = shop(batch("R-1", "beeswax-yellow 1", wax=wax))
    answer = label(catalog, batch="R-1")
    assert codes(answer) == ["H317"]
    (piece,) = [one for one in pieces(answer, catalog) if one.kind == "wax"]
    assert piece.importance == 0
    assert "RECLAIMED" in piece.text


def test_weights_that_exceed_the_parts_decide():
    """Rosin that was weighed in though the parts hold less still carries its statement."""
    parts = "beeswax-yellow 995; gum-rosin 5"
    lots = (lot("W-1", "beeswax-yellow", "a", 98.0), lot("W-1", "gum-rosin", "b", 2.0))
    assert codes(label(shop(batch("W-1", parts)), batch="W-1")) == ["EUH208", "EUH210"]
    assert codes(label(shop(batch("W-1", parts), lots=lots), batch="W-1")) == ["H317"]


def test_rosin_of_an_older_batch_counts():
    """What was melted in from an older pot brings its rosin along."""
    old = batch("W-1", "beeswax-yellow 1; gum-rosin 1")
    new = batch("W-2", "beeswax-yellow 1")
    lots = (
        lot("W-1", "beeswax-yellow", "a", 50.0),
        lot("W-1", "gum-rosin", "b", 50.0),
        lot("W-2", "beeswax-yellow", "a", 90.0),
    )
    for poured in (10.0, None):
        catalog = shop(old, new, lots=(*lots, lot("W-2", "", "W-1", poured)))
        assert codes(label(catalog, batch="W-2")) == ["H317"]


def test_more_rosin_never_takes_a_statement_away():
    """From no rosin to pure rosin the label grows stricter, never milder."""
    strict = [
        (len(found.hazards), len(found.supplements) if not found.hazards else 9)
        for share in (0.0, 1e-4, 1e-3, 5e-3, 1e-2, 0.2, 1.0)
        for found in [classify(TRADE, {"beeswax-yellow": 1 - share, "gum-rosin": share})]
    ]
    assert strict == sorted(strict)
    assert strict[0] < strict[-1]


# Names


def test_only_batches_in_use_get_a_label():
    """A discarded batch is refused by name and left out of the book's labels."""
    catalog = shop(batch("W-1", "gum-rosin 1", discarded="2026-05-01"), batch("W-2", "gum-rosin 1"))
    assert in_use(catalog) == ["W-2"]
    with pytest.raises(Discarded, match="2026-05-01"):
        label(catalog, batch="W-1")


def test_a_wrong_name_is_told_with_the_nearest():
    """A batch or blend that stands nowhere is refused."""
    with pytest.raises(UnknownName, match="did you mean 'W-26-003'"):
        label(BOOK, batch="W-26-033")
    with pytest.raises(UnknownName, match="did you mean"):
        label(TRADE, blend="beeswax-rosin-4-2")


# Room


def test_every_kind_of_piece_has_a_place_in_the_written_order():
    """What may be left off is ranked once, what may not stands in the table of what is needed."""
    held = [
        *pieces(label(BOOK, batch="W-26-003"), BOOK),
        *pieces(label(TRADE, blend=FOUR_ONE), TRADE),
    ]
    assert {piece.kind for piece in held if not piece.importance} <= NEEDED.keys()
    assert {piece.importance for piece in held if piece.importance} == set(range(1, len(ORDER) + 1))


@pytest.mark.parametrize("name", list(TRADE.label_stock))
def test_what_is_needed_is_never_left_off(name):
    """On every sheet a rosin wax's label keeps its identity and hazards, or is refused."""
    held = pieces(label(BOOK, batch="W-26-003"), BOOK)
    signs = ["exclamation-mark"]
    made = laid(held, signs, sheet(TRADE, name).label, sizes(TRADE))
    if made is None:
        with pytest.raises(TooSmall):
            on_stock(TRADE, name, held, signs)
        return
    shown = " ".join(
        "".join(text for text, _ in runs) for words in made.words for runs in words.lines
    )
    for piece in held:
        if piece not in made.left_off:
            for word in piece.text.split():
                assert word in shown
    assert not [piece for piece in made.left_off if piece.importance == 0]
    assert [sign.name for sign in made.signs] == signs


def test_a_refused_label_names_the_smallest_sheet_that_serves():
    """Of the sheets of its paper no smaller one holds what is needed."""
    held = pieces(label(BOOK, batch="W-26-003"), BOOK)
    with pytest.raises(TooSmall) as told:
        on_stock(TRADE, "a4-65-38x21", held, ["exclamation-mark"])
    area = {
        name: width * height
        for name in TRADE.label_stock
        for width, height in [sheet(TRADE, name).label]
    }
    serves = told.value.serves
    assert TRADE.label_stock[serves].paper == "a4"
    assert laid(held, ["exclamation-mark"], sheet(TRADE, serves).label, sizes(TRADE))
    for name, stock in TRADE.label_stock.items():
        if stock.paper == "a4" and area[name] < area[serves]:
            assert not laid(held, ["exclamation-mark"], sheet(TRADE, name).label, sizes(TRADE))


def test_nothing_more_important_would_have_fitted():
    """What was left off does not fit beside all that is more important and was put on."""
    held = pieces(label(BOOK, batch="W-26-003"), BOOK)
    kept = sizes(TRADE)
    for width, height in itertools.product(range(45, 120, 11), range(25, 75, 7)):
        made = laid(held, ["exclamation-mark"], (width, height), kept)
        for piece in made.left_off if made else []:
            before = [
                one
                for one in held
                if one is piece or (one not in made.left_off and one.importance <= piece.importance)
            ]
            on = [one for one in before if held.index(one) <= held.index(piece) or
                  one.importance < piece.importance]  # fmt: skip
            assert tried(on, ["exclamation-mark"], (width, height), kept) is None


def random_piece(draw: random.Random, kind: str) -> Piece:
    """Make a piece of random words, some very long."""
    words = ["x" * draw.choice((1, 3, 8, 20, 90)) for _ in range(draw.randint(1, 12))]
    style = draw.choice(("plain", "bold", TO_WRITE))
    return Piece(kind, " ".join(words), draw.randint(0, 3), style)


def test_no_word_runs_over_the_rim_and_no_line_over_another():
    """On random labels every line stays inside the bare rim, clear of pictograms and lines."""
    draw, kept, seen = random.Random(7), sizes(TRADE), 0
    for _ in range(400):
        kinds = draw.sample(["name", "ratio", "batch", "date", "signal", "hazard", "lots"], 5)
        size = (draw.uniform(20, 200), draw.uniform(12, 100))
        signs = ["exclamation-mark", "flame"][: draw.randint(0, 2)]
        made = laid([random_piece(draw, kind) for kind in kinds], signs, size, kept)
        if made is None:
            continue
        seen += 1
        boxes = list(extent(made))
        for left, top, right, bottom in boxes:
            assert left >= kept.rim - 1e-6
            assert top >= kept.rim - 1e-6
            assert right <= size[0] - kept.rim + 1e-6
            assert bottom <= size[1] - kept.rim + 0.4  # a tail of a letter
            for sign in made.signs:
                beside = right <= sign.x or left >= sign.x + sign.width
                assert beside or top >= sign.y + sign.width or bottom <= sign.y
        for one, other in itertools.combinations(boxes, 2):
            wide = min(one[2], other[2]) - max(one[0], other[0])
            high = min(one[3], other[3]) - max(one[1], other[1])
            assert wide <= 1e-6 or high <= 1e-6
    assert seen > 100


# The tables


def test_a_sheet_that_leaves_its_paper_is_a_fault(tmp_path):
    """A shop's own sheet with one label too many, or labels that overlap, is refused."""
    from formulas.fault import Faults

    (tmp_path / "shop.toml").write_text('name = "Trial"\n')
    head = "id,name,paper,across,down,width,height,left,top,pitch_across,pitch_down,unit,cut,basis"
    rows = "a4-own,Own,a4,3,9,63.5,38.1,7.2,15.1,60,38.1,mm,no,measured"
    (tmp_path / "label_stock.csv").write_text(f"{head}\n{rows}\n")
    with pytest.raises(Faults) as told:
        load(tmp_path)
    found = {(fault.column, fault.found) for fault in told.value.faults}
    assert found == {("pitch_across", "60.0"), ("down", "9")}


def test_a_shops_own_sheet_is_taken(tmp_path):
    """A measured row stands beside the trade's sheets."""
    (tmp_path / "shop.toml").write_text('name = "Trial"\naddress = "1 Reed Lane"\n')
    head = "id,name,paper,across,down,width,height,left,top,pitch_across,pitch_down,unit,cut,basis"
    row = "a4-own,Own,a4,2,7,99,38,4.8,15.4,101.7,38.1,mm,no,measured"
    (tmp_path / "label_stock.csv").write_text(f"{head}\n{row}\n")
    catalog = load(tmp_path)
    assert sheet(catalog, "a4-own").label == (99, 38)
    assert catalog.shop.address == "1 Reed Lane"
