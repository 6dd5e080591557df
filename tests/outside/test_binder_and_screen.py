"""The binder and the pages say the same: each read by a program that had no part in making it.

The pages are read by Python's own HTML parser, the paper by PDFium. What the pages say, piece by
piece and in their order, has to stand in the print of the same leaf, numbers and units with it.

Folded on both sides: white space, line breaks, hyphens of every kind and width. What differs on
purpose is put as paper has it: behind a link stands the number of the leaf it leads to, and behind
a basis the id of its source, for paper cannot be clicked; of a statement paper prints the code; a
mark that stands alone is written out; what is read from a distance carries no marks. Left out:
live workings, exercises, formulas, drawings, and the two notes that speak of the screen alone.
"""

from __future__ import annotations

import functools
import re
import shutil
import unicodedata
from html.parser import HTMLParser
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner

from formulas.catalog import load
from site_builder import content
from site_builder.commands import main
from site_builder.leaves import states
from site_builder.leaves.written import written
from site_builder.places import CONTENT, DEMO_SHOP
from site_builder.screen import site

MM = 72 / 25.4
BLOCKS = re.compile(
    "article|section|div|p|ul|ol|li|dl|dt|dd|table|thead|tbody|tr|t[dh]|caption|h[2-5]|pre|figure"
    "|figcaption|blockquote|label|legend|fieldset|hr"
)
LEFT_OUT = frozenset({"working", "formula", "exercise", "exercises", "unkept", "fewer"})
NO_TEXT = frozenset({"svg", "math", "script", "select", "output", "button"})
VOID = frozenset({"br", "hr", "input", "link", "meta", "wbr"})
STATEMENT = re.compile(r"((?:EUH|H|P)\d[\w+]*): .*", re.DOTALL)
FOLDED = re.compile(r"[\s\x02\-\u2010\u2011\u00ad\u200b\ufffe]+")
PLACE = re.compile(r"(Front|[A-Z]-\d\d) · \d+ of \d+")
LATER = "2026-10-05"


def folded(text: str) -> str:
    """Give a text without white space and hyphens; a letter is one sign however it is written."""
    return FOLDED.sub("", unicodedata.normalize("NFKC", text))


class Page(HTMLParser):
    """The words of a page, in pieces between the edges of its blocks, as paper should say them."""

    def __init__(self, text: str, slug: str, numbers: dict[str, str]) -> None:
        super().__init__()
        self.slug, self.numbers = slug, numbers
        self.open: list[tuple[str, frozenset[str]]] = []
        self.said: list[str] = []
        self.link: tuple[dict[str, str], int] = ({}, 0)
        self.pieces: list[str] = []
        self.revision = self.abbreviated = ""
        self.feed(text)
        self.close()

    @property
    def counts(self) -> bool:
        """Whether what is read belongs to the text that paper has."""
        if not any(tag == "div" and kinds == {"text"} for tag, kinds in self.open):
            return False
        far = any("far" in kinds for _, kinds in self.open)
        return not any(
            tag in NO_TEXT or kinds & LEFT_OUT or (far and "mark" in kinds)
            for tag, kinds in self.open
        )

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Open an element; a block begins a new piece."""
        if BLOCKS.fullmatch(tag):
            self.end_piece()
        if tag not in VOID:
            named = {name: value or "" for name, value in attrs}
            self.open.append((tag, frozenset(named.get("class", "").split())))
            self.abbreviated = named.get("title", "") if tag == "abbr" else ""
            if tag == "a":
                self.link = (named, len(self.said))

    def handle_endtag(self, tag: str) -> None:
        """Close an element; what paper prints behind a link follows its words."""
        if BLOCKS.fullmatch(tag):
            self.end_piece()
        if tag == "a" and self.counts:
            self.said.append(self.behind_link())
        while tag not in VOID and self.open and self.open.pop()[0] != tag:
            pass

    def behind_link(self) -> str:
        """Give what stands on paper behind the link that ends here."""
        named, start = self.link
        source = re.fullmatch(r"(?:sources\.html)?#source-(.*)", named["href"])
        if source and "title" in named:
            return f"[{source[1]}]"
        slug = named["href"].partition(".html")[0]
        number = self.numbers.get(slug, "") if slug != self.slug else ""
        marked = any("mark" in kinds for _, kinds in self.open)
        told = number in "".join(self.said[start:])
        return "" if marked or told else f"({number})"

    def handle_data(self, data: str) -> None:
        """Take words in."""
        if any("revision" in kinds for _, kinds in self.open):
            self.revision += data
        elif self.counts:
            self.said.append(self.in_words(data))

    def in_words(self, data: str) -> str:
        """Give what paper has: a mark behind a number as it is, one that stands alone in words."""
        kinds = frozenset().union(*(kinds for _, kinds in self.open))
        alone = "mark" in kinds and "value" not in kinds
        return self.abbreviated.partition(":")[0] if alone else data

    def end_piece(self) -> None:
        """Put what was read since the last edge of a block away."""
        text = "".join(self.said)
        if any("foot" in kinds for _, kinds in self.open):
            text = STATEMENT.sub(r"\1", text)
        self.said.clear()
        if text.strip():
            self.pieces.append(text)


@functools.cache
def slugs() -> dict[str, str]:
    """Give the number of each leaf by the name of its page, from the files of the handbook."""
    files = [*CONTENT.glob("[0-9]*/[0-9]*.md"), *(DEMO_SHOP / "pages").glob("*.md")]
    return {
        re.sub(r"^\d\d-", "", path.stem): match[1]
        for path in sorted(files)
        if (match := re.search(r"^leaf: (\S+)", path.read_text("utf-8"), re.MULTILINE))
    }


SLUGS = ["index", *slugs()]


def number_of(slug: str) -> str:
    """Give the number that the foot of a leaf shows."""
    return slugs().get(slug, "Front")


def named(slug: str, words: str) -> str:
    """Give the foot of a page with these words; the first page has no number on screen."""
    return f"{slugs()[slug]} · {words}" if slug in slugs() else words


def page_of(folder: Path, slug: str) -> Page:
    """Read one page."""
    return Page((folder / f"{slug}.html").read_text("utf-8"), slug, slugs())


def printed(file: Path) -> dict[str, tuple[str, set[str]]]:
    """Give the text of each leaf without its running heads and feet, and the words of its feet."""
    texts: dict[str, list[str]] = {}
    feet: dict[str, set[str]] = {}
    with pdfium.PdfDocument(file) as document:
        for page in document:
            width, height = page.get_size()
            text = page.get_textpage()
            foot = text.get_text_bounded(0, 0, width, 20 * MM)
            place = PLACE.search(foot)
            if place:
                texts.setdefault(place[1], []).append(
                    text.get_text_bounded(13 * MM, 20.5 * MM, width - 13 * MM, height - 21 * MM)
                )
                words = foot.replace(place[0], "").rpartition("·")[2].strip()
                feet.setdefault(place[1], set()).add(words)
    return {leaf: ("".join(parts), feet[leaf]) for leaf, parts in texts.items()}


@pytest.fixture(scope="module")
def paper(built: Path) -> dict[str, tuple[str, set[str]]]:
    """Read the whole binder once."""
    return printed(built / "binder.pdf")


def missing(pieces: list[str], text: str) -> list[str]:
    """List the pieces that do not stand in a text, each behind the one before it."""
    whole, place, lost = folded(text), 0, []
    for piece in pieces:
        words = folded(piece)
        found = whole.find(words, place)
        if found < 0:
            lost.append(" ".join(piece.split()))
        else:
            place = found + len(words)
    return lost


@pytest.mark.parametrize("slug", SLUGS)
def test_paper_says_what_the_page_says(slug, built, paper):
    """Each paragraph, item and cell of the page stands in the print of its leaf, in that order."""
    text, _ = paper[number_of(slug)]
    page = page_of(built, slug)
    assert page.pieces
    assert missing(page.pieces, text) == []


def test_a_difference_is_seen(built, paper):
    """Another digit, another unit, a lost word and two cells changed round are each told."""
    text, _ = paper["S-02"]
    pieces = page_of(built, "hot-wax").pieces
    for old, new in (("120 °C", "121 °C"), ("120 °C", "120 °F"), ("never lifts", "lifts")):
        spaced = [piece.replace("\xa0", " ") for piece in pieces]
        changed = [piece.replace(old, new) for piece in spaced]
        assert changed != spaced
        assert missing(changed, text)
    assert missing(pieces[:1] + pieces[2:3] + pieces[1:2], text)


@pytest.mark.parametrize("slug", SLUGS)
def test_both_name_the_same_revision(slug, built, paper):
    """The foot of the page and the foot of every sheet of the leaf have the same words."""
    (words,) = paper[number_of(slug)][1]
    assert page_of(built, slug).revision == named(slug, words)


def test_both_name_a_leaf_that_was_printed(tmp_path):
    """Printed on a day, leaf and page say revision and day; a leaf that changed says draft."""
    shop, pages = tmp_path / "shop", tmp_path / "pages"
    shutil.copytree(DEMO_SHOP, shop, ignore=shutil.ignore_patterns("printed.csv"))
    out = tmp_path / "leaves.pdf"
    line = ["reprint", "--printed", LATER, "--out", str(out), "--shop", str(shop)]
    done = CliRunner().invoke(main, line)
    assert done.exit_code == 0, done.output
    feet = {leaf: words for leaf, (_, words) in printed(out).items()}
    leaf = shop / "pages" / "opening-the-shop.md"
    leaf.write_text(leaf.read_text("utf-8").replace("Then read", "Then go and read"), "utf-8")
    handbook = content.read(load(shop))
    site.write(handbook, pages, states.words(written(handbook)))
    for slug in SLUGS:
        assert feet[number_of(slug)] == {f"revision 1 of {LATER}"}
        now = "draft, after revision 1" if slug == leaf.stem else f"revision 1 of {LATER}"
        assert page_of(pages, slug).revision == named(slug, now)
