"""Labels as a PDF at true size."""

from __future__ import annotations

import contextlib
import functools
import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from xml.etree.ElementTree import Element

from formulas.answer import Answer
from formulas.books.jar_label import jar_label
from formulas.books.label import in_use, label
from formulas.catalog import Catalog
from formulas.fault import FormulasError
from formulas.frozen import Frozen
from formulas.units import printed
from site_builder import own_file
from site_builder.labels.fitting import TooSmall, on_stock
from site_builder.labels.layout import Laid
from site_builder.labels.piece import Piece
from site_builder.labels.pieces import pieces
from site_builder.labels.sheets import Sheet, filled
from site_builder.paper.typesetting import compiled, missing, quoted
from site_builder.paper.typst_text import clean, literal
from site_builder.paper.typst_writer import svg
from site_builder.parts.pictograms import drawn
from site_builder.places import TEMPLATES

TEMPLATE = TEMPLATES / "labels.typ"
FONT = "DejaVu Sans Mono"
MARK = "benchbinder label sheet"
"""Stands in the keywords of every file of labels; a file without it is not written over."""

BOX_MM = (125.0, 62.0)  # of the check page
CHECK_TITLE = "Check this print before the labels"


class NoSheet(FormulasError, ValueError):
    """Batches and jars that no sheet of labels of the shop's paper serves."""

    def __init__(self, names: Sequence[str]) -> None:
        self.names = list(names)
        super().__init__(
            f"labels.pdf: found no sheet in label_stock.csv that serves {', '.join(names)},"
            " accepted: a row for a larger one"
        )


class Print(Frozen):
    """Labels on sheets of one kind: on each sheet the labels with the places they stand at."""

    title: str
    sheet: Sheet
    pages: list[list[tuple[Laid, tuple[float, float]]]]

    @property
    def left_off(self) -> list[str]:
        """What was left off any of the labels, each once."""
        told = (piece.told for page in self.pages for made, _ in page for piece in made.left_off)
        return list(dict.fromkeys(told))


def copies_of(answer: Answer, catalog: Catalog, stock: str, copies: int, start: int = 1) -> Print:
    """Lay out copies of one label, from the first free place of a sheet on.

    Raises TooSmall, UnknownName, OutOfRange, and NotKnown for a pictogram that is not drawn.
    """
    sheet, made = _on(answer, catalog, stock)
    title = f"Labels: {answer.answer['batch'] or answer.answer['name']}"
    pages = [[(made, place) for place in page] for page in filled(sheet, copies, start)]
    return Print(title, sheet, pages)


def of_the_book(catalog: Catalog) -> Print | None:
    """Lay out one label for each batch of the pot book in use, and for each jar of the shelf.

    They stand on the sheet of the shop's paper that leaves off least, the smallest of those.
    Gives None for a shop without either. Raises NoSheet where no sheet serves.
    """
    answers = [label(catalog, batch=name) for name in in_use(catalog)]
    answers += [jar_label(catalog, name) for name in catalog.chemicals]
    if not answers:
        return None
    found = []
    for name, stock in catalog.label_stock.items():
        if stock.paper == catalog.shop.paper and not stock.cut:
            with contextlib.suppress(TooSmall):
                found.append(_together(answers, catalog, name))
    if not found:
        raise NoSheet([answer.answer["batch"] or answer.answer["name"] for answer in answers])
    return min(found, key=lambda one: (_count(one), math.prod(one.sheet.label)))


def _together(answers: Sequence[Answer], catalog: Catalog, stock: str) -> Print:
    held = [_on(answer, catalog, stock) for answer in answers]
    sheet, labels = held[0][0], iter([made for _, made in held])
    pages = [
        [(next(labels), place) for place in page] for page in filled(sheet, len(held), start=1)
    ]
    return Print(f"Labels of {catalog.shop.name}", sheet, pages)


def _count(one: Print) -> int:
    return sum(len(made.left_off) for page in one.pages for made, _ in page)


def _on(answer: Answer, catalog: Catalog, stock: str) -> tuple[Sheet, Laid]:
    signs = answer.answer["pictograms"]
    for sign in signs:
        drawn(sign)
    return on_stock(catalog, stock, _settable(pieces(answer, catalog)), signs)


def _settable(held: Sequence[Piece]) -> list[Piece]:
    """Put [U+4E2D] where the label's type has no such character, before lines are broken."""
    return [replace(piece, text=settable(piece.text)) for piece in held]


def settable(text: str) -> str:
    """Clean a text, and put [U+4E2D] where the type of labels has no such character."""
    cleaned = clean(text)
    return cleaned.translate({ord(char): f"[U+{ord(char):04X}]" for char in _missing(cleaned)})


def _missing(text: str) -> tuple[str, ...]:
    return _probed("".join(sorted({char for char in text if not char.isascii()})))


@functools.cache
def _probed(characters: str) -> tuple[str, ...]:
    return tuple(missing(characters, FONT)) if characters else ()


def pdf(one: Print, catalog: Catalog, *, check: bool = True, guides: bool = False) -> bytes:
    """Set labels as one tagged PDF.

    `check` puts a page for plain paper first; `guides` draws the edges, as is always done on
    sheets that are to be cut.
    """
    pages = [_check_page(catalog, one.sheet)] if check else []
    for page in one.pages:
        lines: list[str] = []
        for made, (x, y) in page:
            if guides or one.sheet.cut:
                lines.append(f"frame({_mm(x, y, *one.sheet.label)})")
            lines += _label(made, x, y, catalog)
        pages.append("{\n" + "\n".join(lines) + "\n}")
    body = "\npagebreak()\n".join(pages)
    code = f"{_settings(one, catalog)}\n#{{\n{body}\n}}\n"
    return compiled(TEMPLATE.read_text(encoding="utf-8") + "\n" + code)


def _settings(one: Print, catalog: Catalog) -> str:
    width, height = one.sheet.paper
    return (
        f"#show: settings.with(title: {literal(one.title)}, shop: {literal(catalog.shop.name)}, "
        f"mark: {quoted(MARK)}, width: {width:g}, height: {height:g})"
    )


def _label(made: Laid, x: float, y: float, catalog: Catalog) -> Iterable[str]:
    for sign in made.signs:
        known = catalog.pictograms[sign.name]
        alt = literal(f"Pictogram {known.code}, {known.name.lower()}")
        place = _mm(x + sign.x, y + sign.y, sign.width)
        yield f"sign({place}, {alt}, {quoted(_drawing(sign.name))})"
    for words in made.words:
        lines = ", ".join(f"({_runs(runs)},)" for runs in words.lines)
        yield f"words({_mm(x + words.x, y + words.y, words.size, words.pitch)}, ({lines},))"
    for rule in made.rules:
        yield f"rule({_mm(x + rule.x, y + rule.y, rule.width)})"


def _runs(runs: Iterable[tuple[str, bool]]) -> str:
    return ", ".join(f"({literal(text)}, {'true' if bold else 'false'})" for text, bold in runs)


def _mm(*sizes: float) -> str:
    return ", ".join(printed(size, 4) for size in sizes)


def _drawing(name: str) -> str:
    picture = Element("svg", {"viewBox": "0 0 100 100"})
    picture.extend(drawn(name))
    return svg(picture)


def _check_page(catalog: Catalog, sheet: Sheet) -> str:
    length = catalog.span("check-bar", "mm")[0]
    miss = catalog.span("check-bar-miss", "mm")[0]
    told = (
        "Print on plain paper first, unscaled: 100 %, no 'fit to page'.",
        f"The bar measures {length:g} mm, {miss:g} mm more or less. If not: scaling is on.",
        "Lay this print behind a sheet of labels and hold both to the light.",
        "The frames lie on the labels. If not: measure your sheet, and write its sizes",
        "into label_stock.csv of the shop folder.",
        f"Sheet of labels: {sheet.id}",
    )
    (paper_width, paper_height), (width, height) = sheet.paper, BOX_MM
    frames = ", ".join(f"({_mm(x, y, *sheet.label)})" for x, y in sheet.places)
    lines = ", ".join(literal(line) for line in told)
    place = _mm((paper_width - width) / 2, (paper_height - height) / 2, width, height)
    title = literal(CHECK_TITLE)
    return f"check-page({place}, {title}, ({lines},), {length:g}, ({frames},))"


def write(data: bytes, path: Path) -> None:
    """Write a file of labels. Raises NotOurFile where a file stands that is none of ours."""
    own_file.write(data, path, MARK, "file of labels")


def is_ours(data: bytes) -> bool:
    """Whether a file is a PDF of labels that we made."""
    return own_file.is_ours(data, MARK)
