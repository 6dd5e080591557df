"""The index of the book: every word has its line, every link a leaf that holds the word."""

from __future__ import annotations

import dataclasses
import functools
import html
import re
from pathlib import Path
from xml.etree import ElementTree

import pypdf
import pytest
from leaf_reading import handbook, trade
from small_catalog import catalog as small
from test_content import lay
from test_words import term

from formulas.catalog import load
from formulas.formula import FORMULAS
from site_builder import content, term_index
from site_builder.commands import main
from site_builder.markup.elements import plain
from site_builder.paper import binder
from site_builder.places import CONTENT
from site_builder.screen import site

RUNNING = r"</?(em|strong|a|code|sup|sub|span|value|basis)\b[^>]*>"
BETWEEN = r"[^\w\n]{1,3}"  # the words of a phrase
LISTS = ("N-06", "N-07", "N-02", "N-03")  # lists of what other leaves hold


@functools.cache
def lines(of_shop=False):
    """Give the lines of the index: each word with what it says and the leaves it links to."""
    book = shop_book() if of_shop else handbook()
    (leaf,) = [leaf for leaf in book.leaves if leaf.number == "N-07"]
    (words,) = leaf.tree.iter("wordlist")
    return {plain(pair[0]).casefold(): pair[1] for pair in words.iter("div")}


@functools.cache
def shop_book():
    """Give the handbook of the demo shop, read once."""
    return content.read(load(CONTENT / "demo-shop"))


def told(word):
    """Give the leaves of a word's own line, those of words it only leads to left out."""
    own = []
    line = lines()[word.casefold()]
    if (line.text or "").startswith("see "):
        return own
    for child in line:
        own.append(plain(child))
        if "see also" in (child.tail or ""):
            break
    return own


@functools.cache
def texts():
    """Give the text of each leaf by its number, a new line between what does not read on.

    Made from the written-out tree by its tags, by another way than the index is made.
    """
    found = {}
    for leaf in handbook().leaves:
        for lists in list(leaf.tree.iter("wordlist")):
            assert leaf.number in LISTS, lists
        written = ElementTree.tostring(leaf.tree, encoding="unicode")
        shown = re.findall(r' (?:title|label|heads|options)="([^"]*)"', written)
        named = [FORMULAS[name].title for name in re.findall(r'<math formula="(\w+)"', written)]
        text = re.sub(r"<[^>]*>", "\n", re.sub(RUNNING, "", written.replace("\n", " ")))
        found[leaf.number] = html.unescape("\n".join([leaf.title, text, *shown, *named]))
    return found


def holds(number, *forms):
    """Say whether a leaf holds one of these words, alone or in the plural."""
    for one in forms:
        words = BETWEEN.join(plural(word) for word in re.findall(r"[^\W_]+", one))
        if re.search(rf"(?<![^\W_]){words}(?![^\W_])", texts()[number], re.IGNORECASE):
            return True
    return False


def plural(word):
    """Give a pattern of a word and of its plural."""
    stem = re.escape(word)
    return rf"{stem[:-1]}(?:y|ies)" if word.endswith("y") else rf"{stem}(?:e?s)?"


def turned(name):
    """Give the ways a name of a table may stand in a text."""
    bare = re.sub(r" \([^)]*\)", "", name)
    first, comma, rest = bare.partition(", ")
    return {name, bare, first, f"{rest} {first}" if comma else first}


def named():
    """Give every name of the tables that the index lists, with the ways it may stand."""
    catalog = trade()
    for table in (catalog.materials, catalog.solvents, catalog.glues, catalog.methods):
        for key, one in table.items():
            ways = turned(one.name) | {key.replace("-", " ")}
            yield one.name, ways
    for key, one in catalog.blends.items():
        yield one.name, {one.name, key.replace("-", " ")}


TERMS = [one for one in trade().terms.values() if one.listed]


@pytest.mark.parametrize("one", TERMS, ids=lambda one: one.id)
def test_every_listed_word_has_its_leaves(one):
    """A listed word that stands on no leaf is a fault of the table or of the book."""
    own = told(one.term)
    assert own
    assert all(holds(number, one.term) for number in own)


def test_the_leaf_that_tells_most_comes_first():
    """It is the leaf that the glossary names, and the only one that is bold."""
    numbers = {leaf.slug: leaf.number for leaf in handbook().leaves}
    for one in TERMS:
        assert told(one.term)[0] == numbers[one.leaf], one.id
    for word, line in lines().items():
        own = [child.tag for child in line][: len(told(word))]
        assert own in ([], ["strong", *["a"] * (len(own) - 1)]), word


def test_no_line_has_many_leaves():
    """Six at most, none twice, those behind the first in the order of the binder."""
    order = [leaf.number for leaf in handbook().leaves]
    for word in lines():
        own = told(word)
        assert len(own) <= 6, word
        assert len(own) == len(set(own)), word
        assert own[1:] == sorted(own[1:], key=order.index), word


def test_twins_lead_to_the_word_and_its_first_leaf():
    """Each twin of a listed word has its line, and the leaf there holds twin or word."""
    for one in TERMS:
        for twin in filter(None, (word.strip() for word in one.also.split(";"))):
            line = lines()[twin.casefold()]
            assert re.search(rf"see (also )?(.*; )?{one.term}\b", plain(line), re.IGNORECASE), twin
            assert told(one.term)[0] in [plain(link) for link in line.iter("a")], twin
            assert holds(told(one.term)[0], one.term, twin)


@pytest.mark.parametrize(
    ("name", "ways"), [pytest.param(*one, id=one[0]) for one in sorted(named())]
)
def test_materials_tests_blends_solvents_and_glues_are_listed(name, ways):
    """Each under its name or the head of it, or under the word of the trade that it is."""
    meant = {word.casefold() for word in ways} & set(lines())
    assert meant, name
    for word in meant:
        for number in told(word):
            assert holds(number, *ways, word), (word, number)


def test_commands_are_those_that_leaves_show():
    """Each is a command of the program, and every one that a leaf shows is there."""
    pattern = re.compile(r"benchbinder (record [a-z]+|[a-z]+)")
    shown: dict[str, set[str]] = {}
    for leaf in handbook().leaves:
        for code in leaf.tree.iter("code"):
            for name in pattern.findall("".join(code.itertext())):
                shown.setdefault(name, set()).add(leaf.number)
    listed = {
        word.removesuffix(" (command)"): [plain(link) for link in line.iter("a")]
        for word, line in lines().items()
        if word.endswith(" (command)")
    }
    assert set(listed) == set(shown)
    for name, numbers in listed.items():
        first, _, second = name.partition(" ")
        assert first in main.commands
        assert not second or second in main.commands[first].commands
        assert set(numbers) <= shown[name]


def test_every_link_leads_to_the_leaf_that_it_names():
    """The number that is shown is that of the leaf behind it."""
    numbers = {f"{leaf.slug}.md": leaf.number for leaf in handbook().leaves}
    links = [link for line in lines().values() for link in line.iter("a")]
    assert len(links) > 500
    assert all(numbers[link.get("href")] == plain(link) for link in links)


def test_a_shops_own_leaves_are_indexed():
    """Its pages and its blends stand in its index, and in no other."""
    ours = {leaf.number for leaf in shop_book().leaves} - {
        leaf.number for leaf in handbook().leaves
    }
    assert ours
    in_shop = {plain(link) for line in lines(of_shop=True).values() for link in line.iter("a")}
    assert ours & in_shop
    own = [
        blend.name for key, blend in shop_book().catalog.blends.items() if key not in trade().blends
    ]
    assert own
    assert all(name.casefold() in lines(of_shop=True) for name in own)
    assert not [name for name in own if name.casefold() in lines()]


HEAD = "leaf: {}\ntitle: {}\nsummary: Told.\n\n"
FILES = {
    "front.md": "title: Trial\n\nRead.\n",
    "10-heat/section.md": "title: Heat\nletter: H\nsummary: What burns.\n",
    "10-heat/10-pots.md": HEAD.format("H-01", "Pots")
    + "A lid shuts a pot.\n\n| Lid |\n|---|\n| pot |\n\n`benchbinder mix`\n",
    "10-heat/20-lids.md": HEAD.format("H-02", "Lids") + "## Pots and lids\n\nOne lid, two.\n",
    "10-heat/30-words.md": HEAD.format("H-03", "Words") + "/// glossary\n///\n",
    "10-heat/40-list.md": HEAD.format("H-04", "List") + "/// term-index\n///\n",
}
TRIAL = {
    "lid": term("lid", also="cover", leaf="lids"),
    "pot": term("pot", leaf="nowhere"),
    "rail": term("rail", leaf="pots"),
}


def trial(folder: Path, **files: str) -> content.Handbook:
    """Read a small book with a glossary and an index."""
    return content.read(small(terms=TRIAL), lay(folder, {**FILES, **files}))


def said(book: content.Handbook, number: str) -> dict[str, str]:
    """Give the lines of the list of words on a leaf."""
    (leaf,) = [leaf for leaf in book.leaves if leaf.number == number]
    return {plain(pair[0]): plain(pair[1]) for pair in leaf.tree.iter("div") if len(pair) == 2}


def test_a_word_that_stands_only_in_the_glossary_is_told_nowhere(tmp_path):
    """It has a meaning and no line in the index; a leaf that is not there is no link."""
    book = trial(tmp_path)
    assert said(book, "H-03") == {
        "Cover": "see lid",
        "Lid": "(also cover) Made up. H-02",
        "Pot": "Made up. ",
        "Rail": "Made up. H-01",
    }
    assert said(book, "H-04") == {
        "Cover": "see Lid H-02",
        "Lid": "H-02",
        "mix (command)": "H-01",
        "Pot": "H-01, H-02",
    }


def test_the_same_book_gives_the_same_index(tmp_path):
    """To the last byte, read twice."""
    one, two = (trial(tmp_path).leaves[3].tree for _ in range(2))
    assert ElementTree.tostring(one) == ElementTree.tostring(two)


def test_a_book_without_lists_of_words_is_not_searched(tmp_path, monkeypatch):
    """As the folder of a job, which pays nothing for the index."""
    monkeypatch.setattr(term_index, "fill", lambda _: pytest.fail("searched"))
    plainly = {
        name: text for name, text in FILES.items() if "30-" not in name and "40-" not in name
    }
    assert len(content.read(small(terms=TRIAL), lay(tmp_path, plainly)).leaves) == 2


def test_both_faces_write_the_lists(tmp_path):
    """Words, meanings and leaf numbers stand on the page and on paper, and links lead there."""
    catalog = dataclasses.replace(trade(), terms=TRIAL)
    book = content.read(catalog, lay(tmp_path / "text", FILES))
    pages = site.files(book)
    assert '<dt id="word-lid">Lid</dt>' in pages["words.html"]
    assert '<a href="#word-lid">lid</a>' in pages["words.html"]
    assert '<strong><a href="lids.html" class="unbroken">H-02</a></strong>' in pages["list.html"]
    assert '<a href="#words.word-lid">lid</a>' in pages["handbook.html"]
    binder.write(book, tmp_path / "binder.pdf")
    text = "\n".join(page.extract_text() for page in pypdf.PdfReader(tmp_path / "binder.pdf").pages)
    for line in (r"Lid\s+\(also cover\) Made up\. H-02", r"Cover\s+see lid", r"Pot\s+H-01, H-02"):
        assert re.search(line, text), line
