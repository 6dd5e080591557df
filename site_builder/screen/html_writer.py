"""The element tree of one leaf as HTML: its blocks. Text and its marks are in `html_text`."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element

from formulas.fault import UnknownName
from formulas.formula import FORMULAS
from formulas.units import spoken_unit
from site_builder.markup.elements import plain
from site_builder.markup.unbroken import held
from site_builder.parts.form_parts import BETWEEN
from site_builder.screen import exercise_form
from site_builder.screen.html_text import (
    NOTHING,
    Html,
    RunningText,
    cleaned,
    in_line,
    lone_paragraph,
    shown,
    tag,
    together,
)
from site_builder.screen.html_vocabulary import BLOCKS, DRAWN, PLAIN

if TYPE_CHECKING:
    from formulas.formula import Formula

Writing = Callable[["Writer", Element], Html]

RESTACKED = 4  # columns; a table of fewer stays a table on a phone
LONG_ROW = 90  # characters in a row on the mean; with more, three columns are too narrow there
FIRST_ROWS = 2  # of a table to write in, on a narrow screen; look.css counts on the same
SHORT_FIELD, WORDY_FIELD = 10, 60  # characters: what columns of a form share their room by
MANY = 6  # columns; a table of as many does not fit a tablet either
UNKEPT = "What you type on these lines is not kept. Print the leaf before you close it."


class Writer(RunningText):
    """Writes the tree of one leaf. Raises UnknownName for an element outside the vocabulary."""

    def leaf(self, tree: Element) -> Html:
        """Write a whole tree."""
        return self.inside(tree)

    def element(self, element: Element) -> Html:
        """Write one element by its tag."""
        writing = WRITINGS.get(element.tag)
        if writing is not None:
            return writing(self, element)
        if element.tag in PLAIN:
            return tag(element.tag, self.inside(element), self.attributes(element))
        raise UnknownName("element of a leaf on screen", element.tag, {*WRITINGS, *PLAIN})

    def heading(self, element: Element) -> Html:
        """Write a heading, a level lower where the leaf's title is itself below the first."""
        level = self.addresses.level(int(element.tag[1]))
        return tag(f"h{level}", self.inside(element), self.attributes(element))

    def paragraph(self, element: Element) -> Html:
        """Write a paragraph; in it the marks of a basis are short."""
        with self.set(running=True):
            return tag("p", self.inside(element), self.attributes(element))

    def in_words(self, element: Element) -> Html:
        """Write an element in which a basis is said in words."""
        with self.set(running=False):
            return tag(element.tag, self.inside(element), self.attributes(element))

    def item(self, element: Element) -> Html:
        """Write an item of a list; one that is a note leads back to where it is called."""
        number = element.get("id", "").removeprefix("fn-")
        if number == element.get("id", ""):
            return self.in_words(element)
        href = self.addresses.link(f"#fnref-{number}", self.slug)
        back = {"href": href, "aria-label": f"Back from note {number}"}
        with self.set(running=False):
            inner = together((self.inside(element), tag("a", self.text("↩"), back)))
        return tag("li", inner, self.attributes(element))

    def table(self, element: Element) -> Html:
        """Write a table in a region that scrolls by itself; a wide one restacks on a phone."""
        heads = [shown(cell) for cell in element.iterfind("thead/tr/th")]
        wide = len(heads) >= RESTACKED or (len(heads) == RESTACKED - 1 and long_rows(element))
        stacked = wide and not self.in_working
        with self.set(heads=heads if stacked else []):
            inner = self.inside(element)
        attributes = self.attributes(element)
        if stacked:
            kind = f"{restacking(heads)} {attributes.get('class', '')}".rstrip()
            attributes |= {"role": "table", "class": kind}
        return self.region("table", ", ".join(heads), tag("table", inner, attributes))

    def region(self, kind: str, name: str, inner: Html, also: str = "") -> Html:
        """Write a box that scrolls sideways by itself and can be reached with the keyboard.

        `also` is one more class, for a box that looks unlike the others of its kind.
        """
        label = f"{self.number} {kind} {self.count(kind)}{f': {name}' if name else ''}".strip()
        return tag(
            "div",
            inner,
            {
                "class": f"wide {kind} {also}".rstrip(),
                "role": "region",
                "aria-label": label,
                "tabindex": "0",
            },
        )

    def rows(self, element: Element) -> Html:
        """Write the head or the body of a table."""
        role = {"role": "rowgroup"} if self.heads else {}
        return tag(element.tag, self.inside(element), self.attributes(element) | role)

    def row(self, element: Element) -> Html:
        """Write a row; each cell of a restacked table carries the words of its column."""
        cells = [self.cell(cell, column) for column, cell in enumerate(element)]
        role = {"role": "row"} if self.heads else {}
        return tag("tr", together(cells), self.attributes(element) | role)

    def cell(self, element: Element, column: int) -> Html:
        """Write a cell."""
        attributes = self.attributes(element)
        attributes.pop("align", None)
        if element.get("align") in {"right", "center"}:
            attributes["class"] = element.get("align", "")
        if element.tag == "th":
            attributes.setdefault("scope", "col")
        if self.heads:
            attributes["role"] = "columnheader" if element.tag == "th" else "cell"
            if element.tag == "td" and column < len(self.heads):
                attributes["data-label"] = held(self.heads[column])
        with self.set(running=False, in_cell=True):
            inner = self.inside(element)
        if "data-label" in attributes and inner:
            inner = tag("div", inner)
        return tag(element.tag, inner, attributes)

    def code_block(self, element: Element) -> Html:
        """Write preformatted text."""
        code = "".join(element.itertext())
        return tag("pre", tag("code", self.typed(code)))

    def division(self, element: Element) -> Html:
        """Write a division; the footnotes get a name."""
        attributes = self.attributes(element)
        if element.get("class") == "footnote":
            attributes |= {"role": "group", "aria-label": "Notes"}
        return tag("div", self.inside(element), attributes)

    def caution(self, element: Element) -> Html:
        """Write a boxed caution with its hazard statements and its basis."""
        title = element.get("title", "")
        head = tag(
            "p",
            together(
                (
                    tag("strong", self.text("CAUTION"), {"class": "word"}),
                    Html(" "),
                    tag("strong", self.text(title)),
                )
            ),
            {"class": "caution-title"},
        )
        kind = element.get("basis", "")
        rests = self.basis_words(kind, element.get("source", "")) if kind else NOTHING
        foot = [self.statement(code) for code in element.get("codes", "").split()]
        foot += [together((self.text("Basis: "), rests))] if rests else []
        lines = together(tag("li", line) for line in foot)
        last = tag("ul", lines, {"class": "foot"}) if foot else NOTHING
        inner = together((head, self.inside(element), last))
        return tag(
            "div",
            inner,
            {"class": "caution", "role": "note", "aria-label": f"Caution: {title}"},
        )

    def statement(self, code: str) -> Html:
        """Write a hazard statement's code with its words."""
        found = self.catalog.statements.get(code)
        return self.text(f"{code}: {found.text}" if found else code)

    def figure(self, element: Element) -> Html:
        """Write a drawing with its words for those who cannot see it and its caption."""
        drawing, caption = element.find("svg"), element.find("figcaption")
        assert drawing is not None
        self.labels = {"role": "img", "aria-label": element.get("alt", ""), "focusable": "false"}
        name = plain(caption) if caption is not None else ""
        inner = self.region("drawing", name, self.drawing(drawing), element.get("size", ""))
        if caption is not None:
            inner = together((inner, tag("figcaption", self.inside(caption))))
        return tag("figure", inner, {"class": "chart"})

    def drawing(self, element: Element) -> Html:
        """Write an element of a drawing; its root keeps its view box only."""
        if element.tag not in DRAWN:
            raise UnknownName("element of a drawing", element.tag, DRAWN)
        attributes = self.attributes(element)
        if element.tag == "svg":
            sized = {"width", "height"}
            attributes = {k: v for k, v in attributes.items() if k not in sized} | self.labels
        pieces = [self.text(element.text)]
        for child in element:
            pieces += [self.drawing(child), self.text(child.tail)]
        return tag(element.tag, together(pieces), attributes)

    def mathematics(self, element: Element) -> Html:
        """Write a formula with its title, plain text, symbols and source."""
        from site_builder.notation import writers

        formula = FORMULAS[element.get("formula", "")]
        shown_maths = tag(
            "div",
            Html(self.maths[formula.name]),
            {"class": "wide maths", "role": "group", "aria-label": formula.title, "tabindex": "0"},
        )
        rests = self.formula_source(formula)
        lines = [
            tag("figcaption", self.text(formula.title)),
            shown_maths,
            tag("p", self.text(writers.spoken(formula)), {"class": "spoken"}),
            self.symbols(formula),
            tag("p", together((self.text("Source: "), rests)), {"class": "rests"}),
        ]
        return tag("figure", together(lines), {"class": "formula"})

    def symbols(self, formula: Formula[..., Any]) -> Html:
        """List what each symbol of a formula means, and its unit."""
        from site_builder.notation import writers

        lines = []
        for symbol in writers.symbols(formula):
            unit = spoken_unit(symbol.unit)
            told = f"{symbol.meaning}, {unit}" if unit else symbol.meaning
            lines += [tag("dt", self.symbol(symbol.plain)), tag("dd", self.text(told))]
        return tag("dl", together(lines), {"class": "symbols"})

    def formula_source(self, formula: Formula[..., Any]) -> Html:
        """Name what a formula rests on."""
        from site_builder.notation import writers

        if formula.source in writers.RESTS_ON:
            return self.text(writers.RESTS_ON[formula.source])
        return self.source_link(formula.source, self.source_title(formula.source))

    def working(self, element: Element) -> Html:
        """Write a working as a live form."""
        from site_builder.workings import worksheets

        form = worksheets.screen_form(worksheets.WORKSHEETS[element.get("id", "")], self.catalog)
        with self.set(in_working=True):
            return tag("div", self.element(form), {"class": "working"})

    def form_lines(self, element: Element) -> Html:
        """Write a line to write on."""
        field = tag("input", None, {"type": "text", "autocomplete": "off"})
        label = tag("span", self.text(element.get("label", "")))
        return tag("label", together((label, field)), {"class": "formline"})

    def form_choice(self, element: Element) -> Html:
        """Write a choice of words, with a line for what the words do not say."""
        label = element.get("label", "")
        name = self.addresses.id(self.slug, f"choice_{self.count('choice')}")
        words = element.get("options", "").split(BETWEEN)
        pieces = [tag("legend", self.text(label))]
        for word in words:
            one = {"type": "radio", "name": name, "value": word, "autocomplete": "off"}
            box = tag("input", None, one)
            pieces.append(tag("label", together((box, tag("span", self.text(word))))))
        note = {"type": "text", "autocomplete": "off", "aria-label": f"{label}, note"}
        pieces.append(tag("input", None, note))
        return tag("fieldset", together(pieces), {"class": "formchoice"})

    def one_page(self, element: Element) -> Html:
        """Write what has a page of its own on paper."""
        kind = {"class": "far"} if element.get("capital") else {}
        return tag("section", self.inside(element), kind)

    def own_page(self, element: Element) -> Html:
        """Write what begins a page of its own on paper, or is kept on one with others."""
        kind = "kept" if element.get("kept") else "ownpage"
        return tag("section", self.inside(element), {"class": kind})

    def large(self, element: Element) -> Html:
        """Write words to be read at arm's length."""
        return tag("div", self.inside(element), {"class": "large"})

    def word_list(self, element: Element) -> Html:
        """Write a list of words in as many columns as a screen has room for."""
        kind = "words narrow" if element.get("columns") == "3" else "words"
        return tag("div", self.inside(element), {"class": kind})

    def chart_table(self, element: Element) -> Html:
        """Write a chart to write in, for the print; a screen shows its rows blank."""
        heads = element.get("heads", "").split(BETWEEN)
        told, ticked = int(element.get("told", "1")), int(element.get("ticked", "0"))
        head = "".join(
            f'<th scope="col">{_upright(self.text(name), told <= at < told + ticked)}</th>'
            for at, name in enumerate(heads)
        )
        blank = "<td></td>" * (len(heads) - told)
        rows = ([tag("td", in_line(cleaned(cell.text or ""))) for cell in row] for row in element)
        body = "".join(f"<tr>{together(cells)}{blank}</tr>" for cells in rows)
        inner = Html(f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody>")
        kind = "rows" if ticked else "rows signed"
        return self.region("chart", element.get("name", ""), tag("table", inner, {"class": kind}))

    def form_table(self, element: Element) -> Html:
        """Write a table to write in; a narrow screen shows its first rows only."""
        heads, rows = element.get("heads", "").split(BETWEEN), int(element.get("rows", "1"))
        head = together(tag("th", self.text(name), {"scope": "col"}) for name in heads)
        told = element.get("told", "").split(BETWEEN)
        sizes = [WORDY_FIELD if one in told else max(SHORT_FIELD, len(one)) for one in heads]
        columns = list(zip(heads, sizes, strict=True))
        body = together(self.blank_row(columns, row + 1) for row in range(rows))
        inner = together((tag("thead", tag("tr", head)), tag("tbody", body)))
        table = tag("table", inner, {"class": "blanks"})
        cut = f"A narrow screen shows {FIRST_ROWS} rows; the printed leaf has all {rows}."
        fewer = tag("p", self.text(cut), {"class": "fewer"}) if rows > FIRST_ROWS else NOTHING
        return self.region("form", ", ".join(heads), together((table, fewer)))

    def blank_row(self, columns: Sequence[tuple[str, int]], row: int) -> Html:
        """Write one row of fields, each with the words of its column."""
        return tag("tr", together(self.blank_cell(head, size, row) for head, size in columns))

    def blank_cell(self, head: str, size: int, row: int) -> Html:
        """Write one field; its words name its column and its row.

        It fills its column: a browser gives a column room by the characters of its fields.
        """
        named = {"aria-label": f"{head}, row {row}", "size": str(size)}
        field = tag("input", None, {"type": "text", "autocomplete": "off", **named})
        return tag("td", field, {"data-label": head})

    def ticks(self, element: Element) -> Html:
        """Write a list of boxes to tick."""
        inner = element if len(element) != 1 or element[0].tag == "li" else element[0]
        lines = together(tag("li", self.tick(item)) for item in inner)
        return tag("ul", lines, {"class": "ticks"})

    def tick(self, item: Element) -> Html:
        """Write one box with its words; only words that hold no block can be its label."""
        holder = lone_paragraph(item)
        box = tag("input", None, {"type": "checkbox", "autocomplete": "off"})
        if any(child.tag in BLOCKS for child in holder):
            name = self.addresses.id(self.slug, f"tick_{self.count('tick')}")
            box = tag("input", None, {"type": "checkbox", "aria-labelledby": name})
            return together((box, tag("div", self.inside(holder), {"id": name})))
        return tag("label", together((box, tag("span", self.inside(holder)))))


FORMS: dict[str, Writing] = {
    "formline": Writer.form_lines,
    "formchoice": Writer.form_choice,
    "formtable": Writer.form_table,
}


def long_rows(table: Element) -> bool:
    """Say whether the rows of a table hold so much that its columns are too narrow on a phone."""
    rows = [sum(len(shown(cell)) for cell in row) for row in table.iterfind("tbody/tr")]
    return sum(rows) > LONG_ROW * len(rows)


def restacking(heads: Sequence[str]) -> str:
    """Say how a wide table gives way on a narrow screen; look.css holds the same.

    >>> restacking(["Note", "Cut", "Stock", "Hang"] * 2), restacking(list("ABCD"))
    ('halves', 'restacked')
    """
    half = len(heads) // 2
    if list(heads[:half]) == list(heads[half:]):
        return "halves"
    return "restacked many" if len(heads) >= MANY else "restacked"


def with_note(writer: Writer, element: Element) -> Html:
    """Write a line or table to write on; after the last of its run, that nothing is kept."""
    line = FORMS[element.tag](writer, element)
    if element in writer.last_lines:
        return together((line, tag("p", writer.text(UNKEPT), {"class": "unkept"})))
    return line


def _upright(words: Html, upright: bool) -> Html:
    return tag("span", words, {"class": "upright"}) if upright else words


WRITINGS: dict[str, Writing] = {
    "h2": Writer.heading,
    "h3": Writer.heading,
    "h4": Writer.heading,
    "h5": Writer.heading,
    "p": Writer.paragraph,
    "li": Writer.item,
    "dd": Writer.in_words,
    "table": Writer.table,
    "thead": Writer.rows,
    "tbody": Writer.rows,
    "tfoot": Writer.rows,
    "tr": Writer.row,
    "pre": Writer.code_block,
    "div": Writer.division,
    "caution": Writer.caution,
    "figure": Writer.figure,
    "math": Writer.mathematics,
    "working": Writer.working,
    "exercise": exercise_form.written,
    "formline": with_note,
    "formtable": with_note,
    "formchoice": with_note,
    "onepage": Writer.one_page,
    "ownpage": Writer.own_page,
    "large": Writer.large,
    "charttable": Writer.chart_table,
    "wordlist": Writer.word_list,
    "ticks": Writer.ticks,
    "a": Writer.link,
    "sup": Writer.superscript,
    "code": Writer.code,
    "value": Writer.value,
    "basis": Writer.basis,
    "unknown": Writer.unknown,
}
