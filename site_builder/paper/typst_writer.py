"""The element tree of one leaf as Typst code: its blocks. Running text is in `typst_text`."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

from formulas.formula import FORMULAS
from formulas.units import spoken_unit
from site_builder.paper import exercises
from site_builder.paper.drawing_foot import caption_gap
from site_builder.paper.table_widths import breakable, chart_columns, columns, text_width
from site_builder.paper.typesetting import quoted
from site_builder.paper.typst_text import (
    Code,
    RunningText,
    basis_words,
    joined,
    literal,
    plain,
    printable,
    shown,
    writer_of,
)
from site_builder.parts.form_parts import BETWEEN

LONG_LABEL = 45  # characters; a longer label stands above its line
LEAD_IN = 120  # characters; a paragraph up to that stays with the table or list below it
LED_IN = frozenset(
    {"table", "pre", "figure", "math", "working", "ul", "ol", "ticks", "formline", "formtable"}
    | {"form", "formchoice", "exercise"}
)
FORM = frozenset({"formline", "formtable", "formchoice"})
BEFORE_FORM = 240  # characters; a paragraph up to that says what is written below it
FORM_HEIGHT_MM = 225.0  # a letter page has room for 233 mm: 279.4 - 24 - 22
LINE_MM, ROW_MM = 14.8, 9.0  # of a line and of a row to write on, as the layout sets them
CHOICE_MM = 9.5  # of a line of words to ring
IN_WORDS = "word " * 40  # about what is written where words are asked for
WHOLE_STEPS = 8  # lines; numbered steps of no more stay on one page
LINE_CHARACTERS = 95  # of a step
WHOLE_FORM = 12  # rows; a table of no more stays on one page
WHOLE_LINES = 4  # a form of no more lines stays on one page, and one with a table in it
CAPITAL_MM = 0.645 * 25.4 / 72  # of a capital of the binder's type, at a size of one point
WHOLE_ROWS, WHOLE_MM = 7, 100.0  # a table of no more, two fifths of a page, stays on one page


class Writer(RunningText):
    """Writes the tree of one leaf."""

    def leaf(self, tree: Element) -> str:
        """Write a whole tree; its footnotes go to the foot of the page that names them."""
        self.notes = {
            item.get("id", ""): item
            for block in tree.iter("div")
            if block.get("class") == "footnote"
            for item in block.iter("li")
        }
        return self.flow(tree)

    def flow(self, element: Element) -> str:
        """Write a container that holds blocks, or running text, or both.

        A lone paragraph is set without its own spacing, so that it stays beside its bullet.
        """
        children = _whole_forms(element)
        text = (element.text or "") + "".join(child.tail or "" for child in children)
        if len(children) == 1 and children[0].tag == "p" and not text.strip():
            return joined(self.runs(children[0]), trim=True)
        parts: list[str] = []
        waiting: list[str] = [element.text or ""]
        for child, following in itertools.zip_longest(children, children[1:]):
            if child.tag in BLOCKS:
                written = self.block(child)
                if _leads_in(child, following):
                    written = f"lead-in({written})"
                parts += [_closed(waiting), written]
                waiting = [child.tail or ""]
            else:
                waiting += [Code(self.inline(child)), child.tail or ""]
        parts.append(_closed(waiting))
        return "{\n" + "\n".join(part for part in parts if part) + "\n}"

    def block(self, element: Element) -> str:
        """Write one block element."""
        return writer_of(BLOCKS, element)(self, element)

    def heading(self, element: Element) -> str:
        """Write a heading with the label that links find it by; one without words is left out."""
        if not plain(element):
            return ""
        level = int(element.tag[1])
        words = f"heading(level: {level}, {joined(self.runs(element), trim=True)})"
        name = element.get("id")
        return f"[#{words} #label({quoted(f'{self.slug}#{name}')})]" if name else words

    def paragraph(self, element: Element) -> str:
        """Write a paragraph."""
        return f"par({joined(self.runs(element), trim=True)})"

    def items(self, element: Element) -> str:
        """Write a list, numbered list or list of boxes to tick."""
        name = {"ul": "list", "ol": "enum", "ticks": "tick-list"}[element.tag]
        loose = any(len(item.findall("p")) > 1 for item in element)
        options = f"start: {int(element.get('start', '1'))}, " if element.tag == "ol" else ""
        if element.tag != "ticks":
            options += f"tight: {'false' if loose else 'true'}, "
        inner = element if len(element) != 1 or element[0].tag == "li" else element[0]
        written = f"{name}({options}{', '.join(self.flow(item) for item in inner)})"
        kept = element.tag == "ol" and not self.capital and _short(inner)
        return f"kept-steps({written})" if kept else written

    def table(self, element: Element) -> str:
        """Write a table; its first row is the header and repeats on every page."""
        rows = list(element.iter("tr"))
        if not rows:
            return ""
        head, body = rows[0], rows[1:]
        texts = [[shown(cell) for cell in row] for row in rows]
        sizes = {"sizes": (self.capital / CAPITAL_MM,)} if self.capital else {}
        fit = columns(texts, self.paper, full=self.in_form or bool(self.capital), **sizes)
        aligned = ", ".join(cell.get("align") or "left" for cell in head)
        lines = [f"table.header({', '.join(self.flow(cell) for cell in head)})"]
        lines += [
            ", ".join(map(self.cell, row, itertools.repeat(row), words))
            for row, words in zip(body, texts[1:], strict=True)
        ]
        table = f"table(columns: ({fit.widths}), align: ({aligned},),\n" + ",\n".join(lines) + ")"
        if self.capital:
            broken = "true" if fit.hyphenated else "false"
            return f"far-table(({fit.widths}), ({aligned},), {broken}, {', '.join(lines)})"
        caption = element.find("caption")
        words = "" if caption is None else f"block(sticky: true, strong({self.flow(caption)}))\n"
        ruled = "set table(stroke: hair)\n" if self.in_form else ""
        size = f"set text(size: {fit.size}pt, hyphenate: {'true' if fit.hyphenated else 'false'})\n"
        if len(rows) <= WHOLE_ROWS and not any(breakable(text) for row in texts for text in row):
            split = "true" if fit.high_mm > WHOLE_MM else "false"
            table = f"block(breakable: {split}, {table})"
        return f"{{\n{words}{size}{ruled}{table}\n}}"

    def cell(self, element: Element, row: Element, text: str) -> str:
        """Write a cell with its text as it is shown; an empty one of a form can be written in."""
        if (self.in_form or self.capital) and not text and not len(element):
            return "blank"
        words = self.flow(element)
        if element.tag == "th":
            words = f"strong({words})"
        place = self.anchor(row) if element is row[0] else ""
        if place:
            words = f"{{\n{place}{words}\n}}"
        return f"table.cell(breakable: true, {words})" if breakable(text) else words

    def definitions(self, element: Element) -> str:
        """Write a list of terms, each with its meanings."""
        items: list[tuple[list[str], list[str]]] = []
        for child in element:
            if child.tag == "dt" and (not items or items[-1][1]):
                items.append(([], []))
            if child.tag == "dt":
                items[-1][0].append(joined(self.runs(child), trim=True))
            else:
                items[-1][1].append(f"block({self.flow(child)})")
        written = (
            f"terms.item({_lines(terms, 'linebreak()')}, {_lines(meanings)})"
            for terms, meanings in items
        )
        return f"terms({', '.join(written)})"

    def word_list(self, element: Element) -> str:
        """Write a list of words in columns, small, each meaning behind its word."""
        parts = [
            self.heading(one) if one.tag == "h2" else f"terms({', '.join(map(self.word, one))})"
            for one in element
        ]
        return f"word-list({int(element.get('columns', '1'))}, {_lines(parts)})"

    def word(self, pair: Element) -> str:
        """Write a word with its meaning, and the place that a link to it leads to."""
        term, meaning = pair
        words = f"{{\n{self.anchor(term)}{self.inside(term)}\n}}"
        return f"terms.item({words}, said({self.inside(meaning)}))"

    def code_block(self, element: Element) -> str:
        """Write preformatted text line for line."""
        text = "".join(element.itertext()).replace("\r\n", "\n").expandtabs(4).strip("\n")
        return f"raw(block: true, {quoted(_lines_kept(text))})"

    def quotation(self, element: Element) -> str:
        """Write a quotation."""
        return f"quote(block: true, {self.flow(element)})"

    def rule(self, _: Element) -> str:
        """Write a rule across the page."""
        return "line(length: 100%, stroke: hair)"

    def division(self, element: Element) -> str:
        """Write what a division holds; the footnotes' own stand at the foot of the page."""
        return "" if element.get("class") == "footnote" else self.flow(element)

    def caution(self, element: Element) -> str:
        """Write a boxed caution."""
        basis = basis_words(element.get("basis", ""), element.get("source", ""))
        return (
            f"caution(title: {literal(element.get('title', ''))}, "
            f"codes: {literal(', '.join(element.get('codes', '').split()))}, "
            f"basis: {literal(f'Basis: {basis}.')}, {self.flow(element)})"
        )

    def figure(self, element: Element) -> str:
        """Write a drawing at one point a unit, its alternative words and its caption."""
        drawing, caption = element.find("svg"), element.find("figcaption")
        assert drawing is not None
        words = "none" if caption is None else self.flow(caption)
        units = float(drawing.get("viewBox", "").split()[2])
        width = min(units, text_width(self.paper))
        gap = caption_gap(drawing, width / units)
        alt = literal(element.get("alt", ""))
        size = f"width: {width:g}pt, gap: {gap:.1f}pt"
        return f"drawing(alt: {alt}, {size}, {quoted(svg(drawing))}, {words})"

    def mathematics(self, element: Element) -> str:
        """Write a formula with its title, its symbols and its source."""
        from site_builder.notation import writers

        formula = FORMULAS[element.get("formula", "")]
        symbols = [
            f"(symbol-of({literal(symbol.plain)}, ${symbol.typst}$), "
            f"{literal(_meaning(symbol.meaning, symbol.unit))})"
            for symbol in writers.symbols(formula)
        ]
        source = writers.RESTS_ON.get(formula.source, formula.source)
        return (
            f"formula(title: {literal(formula.title)}, alt: {literal(writers.spoken(formula))}, "
            f"$ {writers.typst_math(formula)} $, symbols: ({', '.join(symbols)},), "
            f"source: {literal(f'Source: {source}.')})"
        )

    def working(self, element: Element) -> str:
        """Write a working as a form to fill in by pencil."""
        from site_builder.workings import worksheets

        form = worksheets.paper_form(worksheets.WORKSHEETS[element.get("id", "")], self.catalog)
        self.in_form = True
        try:
            return self.flow(_wrapped(form))
        finally:
            self.in_form = False

    def form_line(self, element: Element) -> str:
        """Write a label with a line to write on."""
        label = element.get("label", "")
        return (
            f"form-line({literal(label)}, long: {'true' if len(label) > LONG_LABEL else 'false'})"
        )

    def form_choice(self, element: Element) -> str:
        """Write a label with words to ring and a line for what the words do not say."""
        words = ", ".join(literal(word) for word in element.get("options", "").split(BETWEEN))
        return f"form-choice({literal(element.get('label', ''))}, {words})"

    def whole_form(self, element: Element) -> str:
        """Write the lines and tables of one form, on one page; many lines may run on."""
        written = [self.block(one) for one in element]
        if len(written) > WHOLE_LINES and element.find("formtable") is None:
            return f"long-form({', '.join(written)})"
        return f"whole-form({_lines(written)})"

    def one_page(self, element: Element) -> str:
        """Write what has a page of its own, to be pinned up.

        Where it is to be read from a distance every letter has the size that the capitals ask,
        the marks of a basis are left to the leaf, and what does not fit runs on: it is never
        set smaller.
        """
        if not element.get("capital"):
            return f"one-page({_lines([self.block(one) for one in element])})"
        self.capital = float(element.get("capital", ""))
        try:
            blocks = [
                far_lines(list(run)) if is_line else _lines([self.block(one) for one in run])
                for is_line, run in itertools.groupby(element, lambda one: one.tag == "formline")
            ]
        finally:
            self.capital = 0.0
        size = f"{float(element.get('capital', '')) / CAPITAL_MM:.2f}pt"
        return f"far-page({size}, {_lines(blocks)})"

    def own_page(self, element: Element) -> str:
        """Write what begins a page of its own, or what is kept on one page with what else is."""
        kept = "kept-whole" if element.get("kept") else "own-page"
        return f"{kept}({_lines([self.block(one) for one in element])})"

    def large(self, element: Element) -> str:
        """Write words to be read at arm's length."""
        return f"large-words({self.flow(element)})"

    def chart_table(self, element: Element) -> str:
        """Write a chart of many narrow columns to write in; the heads of boxes stand upright.

        The first `told` columns are printed, the next `ticked` are boxes, the rest are wide.
        """
        heads = element.get("heads", "").split(BETWEEN)
        told, ticked = int(element.get("told", "1")), int(element.get("ticked", "0"))
        rows = [[cell.text or "" for cell in row] for row in element]
        fit = chart_columns([heads[:told], *rows], ticked, len(heads) - told, self.paper)
        cells = ", ".join(literal(cell) for row in rows for cell in row)
        names = ", ".join(literal(head) for head in heads)
        wide = wide_columns(fit.wide, told + ticked, len(heads), element.get("broad", ""))
        return (
            f"chart-table(({names},), told: ({fit.told},), ticked: {ticked}, "
            f"wide: ({wide}), row: {element.get('row', '6.4')}, "
            f"fixed: {'true' if fit.fixed else 'false'}, ({cells},))"
        )

    def form_table(self, element: Element) -> str:
        """Write a table to write in: every cell ruled, every row high enough for a hand."""
        heads = element.get("heads", "").split(BETWEEN)
        rows = int(element.get("rows", "1"))
        told = element.get("told", "").split(BETWEEN)
        room = [IN_WORDS if head in told else "" for head in heads]
        fit = columns([heads, room], self.paper, full=True)
        header = ", ".join(f"strong({literal(head)})" for head in heads)
        lines = [f"table.header({header})", *[", ".join(["blank"] * len(heads))] * rows]
        table = f"table(columns: ({fit.widths}), stroke: hair,\n" + ",\n".join(lines) + ")"
        whole = "false" if rows <= WHOLE_FORM else "true"
        size = f"set text(size: {fit.size}pt, hyphenate: {'true' if fit.hyphenated else 'false'})"
        return f"{{\n{size}\nblock(breakable: {whole}, {table})\n}}"


def wide_columns(each: float, first: int, end: int, broad: str) -> str:
    """Give the widths of the columns to write in; one that is broad is twice as wide as another."""
    shares = [2 if str(place) == broad else 1 for place in range(first, end)]
    part = each * len(shares) / max(1, sum(shares))
    return "".join(f"{part * share:.2f}," for share in shares)


def far_lines(lines: Sequence[Element]) -> str:
    """Write lines to write on that are read from a distance: halves stand two side by side."""
    labels = ", ".join(
        f"({literal(one.get('label', ''))}, {'true' if one.get('half') else 'false'})"
        for one in lines
    )
    return f"far-lines({labels})"


def svg(drawing: Element) -> str:
    """Write a drawing with its view box only; the layout gives it its width."""
    root = Element("svg", {**drawing.attrib, "xmlns": "http://www.w3.org/2000/svg"})
    for size in ("width", "height"):
        root.attrib.pop(size, None)
    root.extend(drawing)
    return _lines_kept(ElementTree.tostring(root, encoding="unicode"))


def _whole_forms(element: Element) -> list[Element]:
    """Give the children of an element, the lines and tables of one form gathered to one."""
    gathered: list[Element] = []
    for written_on, run in itertools.groupby(element, lambda one: one.tag in FORM):
        pieces = list(run)
        if written_on and len(pieces) > 1 and _form_height(pieces) <= FORM_HEIGHT_MM:
            whole = Element("form")
            whole.extend(pieces)
            whole.tail = pieces[-1].tail
            gathered.append(whole)
        else:
            gathered += pieces
    return gathered


def _form_height(pieces: Sequence[Element]) -> float:
    """Give about how high a form comes out, in millimetres."""
    tables = [int(one.get("rows", "1")) for one in pieces if one.tag == "formtable"]
    choices = sum(one.tag == "formchoice" for one in pieces)
    lines = len(pieces) - len(tables) - choices
    written = LINE_MM * lines + CHOICE_MM * choices
    return written + sum(ROW_MM * (rows + 1) + LINE_MM for rows in tables)


def _short(steps: Element) -> bool:
    """Whether numbered steps are so few and short that they stay on one page."""
    lines = sum(math.ceil(len(plain(step)) / LINE_CHARACTERS) for step in steps)
    return lines <= WHOLE_STEPS and all(one.tag not in BLOCKS for step in steps for one in step)


def _leads_in(element: Element, following: Element | None) -> bool:
    """Whether a short paragraph belongs to the block below it, as a caption does."""
    if element.get("lead"):
        return True
    if following is None or element.tag != "p" or following.tag not in LED_IN:
        return False
    written_on = following.tag in FORM or following.tag == "form"
    return len(plain(element)) <= (BEFORE_FORM if written_on else LEAD_IN)


def _closed(runs: list[str]) -> str:
    return "" if all(not run.strip() for run in runs) else joined(runs, trim=True)


def _lines(parts: Sequence[str], between: str = "") -> str:
    separator = f"\n{between}\n" if between else "\n"
    return "{\n" + separator.join(parts) + "\n}"


def _lines_kept(text: str) -> str:
    return "\n".join(printable(line) for line in text.split("\n"))


def _meaning(meaning: str, unit: str) -> str:
    spoken = spoken_unit(unit)
    return f"{meaning}, {spoken}" if spoken else meaning


def _wrapped(form: Element) -> Element:
    if form.tag == "div":
        return form
    holder = Element("div")
    holder.append(form)
    return holder


Writing = Callable[[Writer, Element], str]

BLOCKS: dict[str, Writing] = {
    "h2": Writer.heading,
    "h3": Writer.heading,
    "h4": Writer.heading,
    "p": Writer.paragraph,
    "ul": Writer.items,
    "ol": Writer.items,
    "ticks": Writer.items,
    "table": Writer.table,
    "dl": Writer.definitions,
    "pre": Writer.code_block,
    "blockquote": Writer.quotation,
    "hr": Writer.rule,
    "div": Writer.division,
    "caution": Writer.caution,
    "figure": Writer.figure,
    "math": Writer.mathematics,
    "working": Writer.working,
    "exercise": exercises.written,
    "formline": Writer.form_line,
    "formchoice": Writer.form_choice,
    "formtable": Writer.form_table,
    "form": Writer.whole_form,
    "onepage": Writer.one_page,
    "ownpage": Writer.own_page,
    "large": Writer.large,
    "charttable": Writer.chart_table,
    "wordlist": Writer.word_list,
}
