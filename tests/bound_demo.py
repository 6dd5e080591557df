"""The binder of the demo shop as a reader holds it: sides by the words of their foot."""

from __future__ import annotations

import dataclasses
import functools
import re
from pathlib import Path

import pypdf

from site_builder import content
from site_builder.content import Handbook
from site_builder.leaves.written import Book, written

FOOT = re.compile(
    r"(?P<name>[A-Z]-\d\d|Tab [A-Z]|Title|Effective leaves|Contents|Front|Change note) · "
    r"(?:(?P<side>\d+) of (?P<sides>\d+)|this side is left blank)"
)
WORDS = re.compile(
    r"· (draft, after revision \d+|draft|revision \d+ of \d{4}-\d\d-\d\d"
    r"|printed on \d{4}-\d\d-\d\d|proof, not printed)"
)


@dataclasses.dataclass(frozen=True)
class Side:
    """One side of paper: its page in the file, its leaf, which side it is, words of its foot."""

    page: int
    leaf: str
    side: int | None
    sides: int | None
    words: str
    text: str


@dataclasses.dataclass(frozen=True)
class Bound:
    """A file of leaves read back, with the book it was made from."""

    book: Book
    file: Path
    sides: list[Side]

    @property
    def handbook(self) -> Handbook:
        """Give the handbook."""
        return self.book.handbook

    @functools.cached_property
    def pdf(self) -> pypdf.PdfReader:
        """Give the file, opened."""
        return pypdf.PdfReader(self.file)

    @functools.cached_property
    def first(self) -> dict[str, int]:
        """Give the page of each leaf's first side."""
        return {side.leaf: side.page for side in self.sides if side.side == 1}

    @functools.cached_property
    def counts(self) -> dict[str, int]:
        """Give how many sides of each leaf there are."""
        found: dict[str, int] = {}
        for side in self.sides:
            if side.side:
                found[side.leaf] = found.get(side.leaf, 0) + 1
        return found

    def text(self, leaf: str) -> str:
        """Give the words of a leaf, its white space folded."""
        return " ".join(" ".join(s.text for s in self.sides if s.leaf == leaf).split())


def read_sides(file: Path) -> list[Side]:
    """Read every page; a page without the foot of a leaf fails."""
    found = []
    for page, one in enumerate(pypdf.PdfReader(file).pages, start=1):
        text = one.extract_text()
        pairs = [(FOOT.search(line), WORDS.search(line)) for line in text.splitlines()]
        feet = [(foot, words) for foot, words in pairs if foot and words]
        assert len(feet) == 1, (page, text)
        ((foot, words),) = feet
        side, sides = foot["side"], foot["sides"]
        found.append(
            Side(page, foot["name"], side and int(side), sides and int(sides), words[1], text)
        )
    return found


def bound(folder: Path, shop: Path = content.CONTENT / "demo-shop") -> Bound:
    """Read the binder of a build, with the book it was made from."""
    from formulas.catalog import load

    file = folder / "binder.pdf"
    return Bound(written(content.read(load(shop))), file, read_sides(file))
