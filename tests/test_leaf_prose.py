"""What holds for the words of every leaf: one sentence a line, said once, dangers told first."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterable
from xml.etree.ElementTree import Element

import pytest
from job_examples import worked_out
from leaf_reading import handbook, leaf_of, source, stands_before, trade

from formulas.catalog import load
from site_builder import content
from site_builder.content import Handbook
from site_builder.job_folder import reading as folder
from site_builder.logbook import writing as logbook
from site_builder.markup.elements import element, plain
from site_builder.places import DEMO_SHOP

# Leaves that may hold no number of their own; elsewhere ages, sections of a data sheet and names
# of notes are written out.
NUMBERLESS = [
    *(f"W-{number:02}" for number in range(1, 17)),
    *(f"V-{number:02}" for number in (1, 5, 6, 8, *range(10, 15))),
    *(f"P-{number:02}" for number in range(1, 8)),
    *(f"T-{number:02}" for number in range(1, 10)),
    *(f"J-{number:02}" for number in range(1, 6)),
]
NO_PROSE = re.compile(r"^\d+\. |^/// .*$|\[\[[^\]]*\]\]|\]\([^)]*\)|ASTM E28", re.MULTILINE)

# Sentences that stand on two leaves on purpose: each leaf is read, or taken to the bench, alone.
SAID_AGAIN = (
    "Basis of the",
    "Its cautions stand beside the answer",
    "For waxes, and for blends that are at most half rosin",
    "One temperature, put right for the thermometer",
)
# Boxes may repeat, forms and examples have words of their own, cells stand beside their heads.
NOT_PROSE = ("caution", "working", "exercise", "table")
LONG = 40  # characters: what is shorter is no sentence of its own


def test_the_leaves_of_a_section_are_numbered_in_order():
    """From 01 up without a gap, as they stand in the binder."""
    by_letter: dict[str, list[str]] = {}
    for leaf in handbook().leaves:
        by_letter.setdefault(leaf.section.letter, []).append(leaf.number)
    for letter, numbers in by_letter.items():
        assert numbers == [f"{letter}-{place:02}" for place in range(1, len(numbers) + 1)]


@pytest.mark.parametrize("number", NUMBERLESS)
def test_no_number_stands_in_the_prose(number):
    """Each number of the trade is placed from a table: the words themselves hold no digit."""
    text = NO_PROSE.sub("", source(leaf_of(number)))
    assert re.findall(r".*\d.*", text) == []


def test_one_sentence_a_line():
    """No line of prose holds two sentences; steps and cells of a table may."""
    doubled = [
        f"{leaf.number}: {line}"
        for leaf in handbook().leaves
        for line in source(leaf).splitlines()
        if line[:1].isalpha() and re.search(r"[.!?] [A-Z]", line)
    ]
    assert doubled == []


def test_no_paragraph_stands_on_two_leaves():
    """A sentence is said in one place; elsewhere a link leads to it. Boxed cautions may repeat."""
    seen: dict[str, str] = {}
    for leaf in handbook().leaves:
        for found in leaf.tree.findall("p"):
            words = plain(found)
            if len(words) > LONG and not words.startswith(SAID_AGAIN):
                assert seen.setdefault(words, leaf.number) == leaf.number, words


def told_again(books: Iterable[Handbook]) -> dict[str, set[str]]:
    """List paragraphs and items that stand on two leaves of some books; cautions may repeat."""
    boxes = {caution.title for caution in trade().cautions.values()}
    places: dict[str, set[str]] = {}

    def walk(tree: Element, number: str) -> None:
        for one in tree:
            words = " ".join(plain(one).split())
            if one.tag in NOT_PROSE or words in boxes:
                continue
            if one.tag in {"p", "li"} and len(words) > LONG and not words.startswith(SAID_AGAIN):
                places.setdefault(words, set()).add(number)
            walk(one, number)

    for book in books:
        walk(book.front, "Front")
        for leaf in book.leaves:
            walk(leaf.tree, leaf.number)
    return {words: numbers for words, numbers in places.items() if len(numbers) > 1}


def test_nothing_is_told_twice_in_any_of_the_books():
    """Handbook with the shop's own leaves, job folder and logbook: nothing stands there twice."""
    shop = load(DEMO_SHOP)
    books = [
        content.read(shop),
        folder.read(worked_out()),
        logbook.read(shop, "Nika", "2026-11-28"),
    ]
    assert told_again(books) == {}


def test_what_is_told_twice_is_seen():
    """A paragraph of the handbook that stands in a second book is named, with both places."""
    one = next(p for p in leaf_of("W-02").tree.iter("p") if len(plain(p)) > LONG)
    second = dataclasses.replace(handbook(), front=element("div", one), sections=[])
    words = " ".join(plain(one).split())
    assert told_again([handbook(), second])[words] == {"W-02", "Front"}


def test_wax_never_dries():
    """Wax sets by cooling, and no leaf says otherwise."""
    dries = re.compile(r"wax (dries|has dried|is dry|must dry)")
    assert [leaf.number for leaf in handbook().leaves if dries.search(source(leaf).lower())] == []


BEFORE = [
    ("W-09", "old-dust", "Hold the lamp low"),
    ("W-10", "celluloid-near-heat", "Warm knife: warm the blade"),
    ("W-10", "solvent-and-heat", "Warm knife: warm the blade"),
    ("W-10", "touch-up-iron", "Put the blade flat"),
    ("W-10", "sharp-tool", "Put the blade flat"),
    ("W-10", "hot-wax-burn", "Put the blade flat"),
    ("W-11", "old-dust", "Move the block on the abrasive"),
    ("W-11", "solvent-and-heat", "Wet a corner of a cloth"),
    ("W-12", "hot-wax-burn", "Melt sticks of one batch"),
    ("W-12", "celluloid-near-heat", "Melt sticks of one batch"),
    ("W-12", "water-bath", "Melt sticks of one batch"),
    ("W-12", "thermostat-and-cut-out", "Melt sticks of one batch"),
    ("W-12", "touch-up-iron", "Paint a film"),
    ("W-13", "old-dust", "Squeeze the bulb"),
    ("W-14", "water-and-hot-wax", "Fill it with a dry ladle"),
    ("W-14", "burn-first-aid", "Fill it with a dry ladle"),
    ("W-14", "carry-hot-pot", "Fill it with a dry ladle"),
    ("W-08", "water-bath", "into a bath that ran dry"),
    ("W-08", "wax-fire", "into a bath that ran dry"),
    ("S-02", "water-bath", "into a bath that ran dry"),
    ("W-14", "wet-pot-direct-heat", "The skin on top melts last"),
    ("V-10", "acetic-on-metal", "Try a drop of the glue"),
    ("V-10", "solvent-and-heat", "degrease"),
    ("V-11", "sharp-tool", "Push a thin wooden wedge"),
    ("V-11", "leather-dust", "Push a thin wooden wedge"),
    ("V-11", "solvent-and-heat", "Put what undoes the glue"),
    ("V-11", "glue-vapour", "Glue on the land, thin"),
    ("V-11", "film-and-hot-wax", "Film goes on after"),
    ("V-12", "old-dust", "Never with the mouth"),
    ("V-12", "warm-box", "Into a place at"),
    ("V-13", "leather-dust", "Draw a strip of clean soft paper"),
    ("V-13", "sharp-tool", "Cut the root fresh"),
    ("V-13", "solvent-and-heat", "A saved valve is fitted"),
    ("T-01", "boiling-water", "Let it boil hard"),
    ("T-01", "mercury-thermometer", "Put the bulb in the middle"),
    ("T-02", "warm-box", "A box of plywood"),
    ("T-02", "never-alone", "Warm slowly"),
    ("T-02", "hot-wax-burn", "Lay the fillet"),
    ("T-03", "warm-box", "close the box"),
    ("T-04", "hot-wax-burn", "Dip the bulb"),
    ("T-04", "no-oil-bath", "Warm by"),
    ("T-05", "hot-wax-burn", "Warm the bulb in it"),
    ("T-06", "rosin-fume", "Melt the resin"),
    ("T-06", "no-oil-bath", "pour in the bath"),
    ("T-07", "hot-wax-burn", "Cast"),
    ("T-08", "hot-wax-burn", "plates of the batch"),
    ("W-15", "hot-wax-burn", "Look again if"),
    ("W-15", "solvent-and-heat", "If you do it all the same"),
    ("W-16", "hot-car", "Ask the owner"),
    ("J-01", "hot-wax-burn", "Bed the plate in wax"),
    ("J-01", "wax-fire", "Bed the plate in wax"),
    ("J-01", "never-alone", "Bed the plate in wax"),
    ("J-01", "celluloid-near-heat", "Bed the plate in wax"),
    ("J-01", "solvent-and-heat", "degrease"),
    ("J-01", "old-dust", "Map each block"),
    ("J-02", "old-dust", "Strip of thin paper"),
    ("J-02", "leather-dust", "a hair of a soft brush"),
    ("J-02", "rosin-sensitiser", "Strip of thin paper"),
    ("J-03", "old-dust", "Give every place its mark"),
    ("J-03", "leather-dust", "One whole valve of each kind"),
    ("J-03", "rosin-sensitiser", "Wax that held"),
    ("J-04", "old-dust", "Go through it in this order"),
    ("J-04", "hung-instrument", "hang it by its upper half"),
    ("J-05", "hot-car", "Never in a parked car"),
    ("J-05", "label-and-customer", "Rosin."),
    ("J-05", "health-privacy", "brings a rash"),
]


@pytest.mark.parametrize(("number", "caution", "words"), BEFORE)
def test_the_caution_stands_before_the_danger(number, caution, words):
    """Whoever reads down the leaf meets the box before the step."""
    assert stands_before(leaf_of(number), caution, words)
