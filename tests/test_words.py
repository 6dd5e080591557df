"""The words of the trade: rules of their table, the glossary made of them, and its faces."""

from __future__ import annotations

import functools
import re

import pytest
from leaf_reading import handbook, leaf_of, trade
from small_catalog import catalog as small

from formulas.catalog import TABLES, all_schemas
from formulas.fault import CellFault
from formulas.first_year_entries import Term
from formulas.table import Row, read
from formulas.term_checks import term_faults
from site_builder.markup.elements import plain
from site_builder.parts.word_parts import glossary


@functools.cache
def rows():
    """Read the table of words, without a fault in any cell."""
    faults: list[CellFault] = []
    found = read(TABLES / "terms.csv", all_schemas()["terms.csv"], faults)
    assert faults == []
    return found


def spoiled(word, **cells):
    """Give the faults when cells of one word's row are changed."""
    changed = [
        Row(row.file, row.line, {**row.cells, **cells}) if row["term"] == word else row
        for row in rows()
    ]
    return [str(fault).partition(" ")[2] for fault in term_faults({"terms.csv": changed})]


def test_the_table_of_words_has_no_fault():
    """As it stands, no rule over its rows speaks."""
    assert list(term_faults({"terms.csv": rows()})) == []


FAULTS = [
    ("gap", {"term": "Heat Window"}, "also: found 'heat window', accepted: a word that not_this"),
    ("bulge", {"term": "gap"}, "term: found 'gap', accepted: a word of its own, bulge has it"),
    ("gap", {"term": "Zone", "also": "tongue"},
     "also: found 'tongue', accepted: a word that not_this tells apart from 'tongue'"),
    ("gap", {"also": "gap"}, "also: found 'gap', accepted: each other word once"),
    ("gap", {"also": "rest gap; Rest Gap"}, "also: found 'rest gap; Rest Gap', accepted: each"),
    ("gap", {"also": "rest gap;"}, "also: found 'rest gap;', accepted: each other word once"),
    ("gap", {"meaning": "A" * 200 + "."}, "meaning: found"),
    ("gap", {"meaning": "No stop"}, "meaning: found 'No stop', accepted: a sentence with its"),
    ("gap", {"not_this": "A" * 200 + "."}, "not_this: found"),
    ("gap", {"leaf": "25-limits.md"}, "leaf: found '25-limits.md', accepted: the file name"),
]  # fmt: skip


@pytest.mark.parametrize(("word", "cells", "told"), FAULTS)
def test_a_slip_in_the_words_is_a_fault_of_its_cell(word, cells, told):
    """A word that stands twice, a twin that means two things in silence, a long sentence."""
    found = spoiled(word, **cells)
    assert len(found) == 1, found
    assert found[0].startswith(told)


def test_a_twin_of_two_words_is_taken_where_a_row_tells_them_apart():
    """One row that names the other's word is enough; without it the second row is the fault."""
    cells = {"also": "rest gap", "not_this": "It is no droop."}
    assert spoiled("gap", **cells) == []
    both = [
        Row("terms.csv", 2, {**rows()[0].cells, "term": "gap", **cells}),
        Row("terms.csv", 3, {**rows()[0].cells, "term": "droop", "also": "rest gap"}),
    ]
    assert list(term_faults({"terms.csv": both})) == []
    both[0] = Row("terms.csv", 2, {**both[0].cells, "not_this": None})
    (fault,) = term_faults({"terms.csv": both})
    assert (fault.row, fault.column) == (3, "also")


def test_meanings_are_plain_sentences():
    """Short, without a digit, and with no promise: a school leaver reads them."""
    for term in trade().terms.values():
        assert len(term.meaning) <= 200, term.id
        assert not re.search(r"\d", term.meaning + term.not_this), term.id
        assert term.meaning.count(". ") == 0, term.id
        assert not re.search(r"\bsafe\b", term.meaning + term.not_this), term.id


def test_each_word_names_a_leaf_of_the_book():
    """Where a leaf tells of it; what the index lists has one (`test_term_index` reads there)."""
    slugs = {leaf.slug for leaf in handbook().leaves}
    for one in trade().terms.values():
        assert one.leaf in ({"", *slugs} if not one.listed else slugs), one.id


REGIONAL = [
    ("tongue", {"reed", "voice"}),
    ("plate", {"shoe", "frame"}),
    ("slot", {"vent", "window"}),
    ("valve", {"skin", "leather"}),
    ("rivet end", {"heel"}),
    ("rank", {"bank", "set"}),
    ("helper", {"booster"}),
    ("topper", {"booster"}),
    ("rosin", {"colophony"}),
]


@functools.cache
def lines():
    """Give the lines of the glossary: each word with its element of meaning."""
    (words,) = leaf_of("N-06").tree.iter("wordlist")
    return {plain(pair[0]).lower(): pair[1] for pair in words.iter("div")}


@pytest.mark.parametrize(("word", "twins"), REGIONAL)
def test_regional_twins_lead_to_the_word_of_this_book(word, twins):
    """Each has a line of its own in the glossary, and that line leads to the word."""
    (term,) = [one for one in trade().terms.values() if one.term == word]
    for twin in twins:
        links = [link.get("href") for link in lines()[twin].iter("a")]
        assert f"#word-{term.id}" in links, twin


def test_the_glossary_holds_every_word_and_every_twin():
    """A term with its meaning, what it is not and its leaf; a twin with where to look."""
    numbers = {leaf.slug: leaf.number for leaf in handbook().leaves}
    for term in trade().terms.values():
        said = plain(lines()[term.term.lower()])
        assert term.meaning in said
        assert term.not_this in said
        assert not term.leaf or said.endswith(numbers[term.leaf])
        assert ("from memory" in said) is False  # words of a basis are written by the faces
        for twin in filter(None, (one.strip() for one in term.also.split(";"))):
            assert f"#word-{term.id}" in [
                link.get("href") for link in lines()[twin.lower()].iter("a")
            ]
            assert twin in said


def test_the_glossary_marks_what_is_from_memory():
    """A meaning with another basis than practice says so behind it."""
    for term in trade().terms.values():
        kinds = [one.get("kind") for one in lines()[term.term.lower()].iter("basis")]
        assert kinds == ([] if term.basis == "practice" else [term.basis]), term.id


def test_a_key_pad_is_no_reed_valve():
    """Both lines of the glossary say so, and a valve pad leads to the key pad."""
    assert "not a reed valve" in plain(lines()["key pad"])
    assert "key pad is not a reed valve" in plain(lines()["valve"]).lower()
    assert [link.get("href") for link in lines()["valve pad"].iter("a")] == ["#word-key-pad"]


def test_the_glossary_goes_by_the_alphabet():
    """Letters in order, and under each letter the words in order."""
    (words,) = leaf_of("N-06").tree.iter("wordlist")
    letters = [plain(one) for one in words.iter("h2")]
    assert letters == sorted(letters)
    for letter, group in zip(letters, words.findall("dl"), strict=True):
        heads = [re.sub("[^a-z ]", " ", plain(pair[0]).lower()) for pair in group]
        assert all(head.strip()[0] == letter.lower() for head in heads)
        assert [" ".join(head.split()) for head in heads] == sorted(
            " ".join(head.split()) for head in heads
        )


def term(word: str, **more: str) -> Term:
    """Make a word, with what else is told."""
    blank = dict.fromkeys(("also", "not_this", "leaf", "source", "where", "note"), "")
    told = {"id": word, "term": word, "meaning": "Made up.", "basis": "practice", **blank, **more}
    return Term(**told, listed=True)


def test_a_twin_of_two_words_leads_to_both():
    """One line, both words; a twin that is a word as well says so in its own line."""
    made = small(
        terms={
            "peg": term("peg", also="pin; stop"),
            "bolt": term("bolt", also="pin"),
            "stop": term("stop"),
        }
    )
    (words,) = glossary(made, "")
    said = {plain(pair[0]): plain(pair[1]) for pair in words.iter("div")}
    assert said == {
        "Bolt": "(also pin) Made up.",
        "Peg": "(also pin, stop) Made up.",
        "Pin": "see peg or bolt",
        "Stop": "Made up. See also peg.",
    }
