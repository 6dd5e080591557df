"""Builders of the small vocabulary of elements that every face can write."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from xml.etree.ElementTree import Element

from formulas.best_basis import Ranged
from formulas.units import convert, printed, spoken_unit

Content = str | Element
Cell = Content | Sequence[Content]

# The words, the short mark and the meaning of each kind of basis, in the order of their rank.
BASES = {
    "measured": ("measured", "meas", "The shop measured it. It outranks all the others."),
    "published": (
        "published",
        "pub",
        "Read in a standard, paper, agency page, handbook or data sheet, which is named.",
    ),
    "practice": ("common practice", "prac", "What the trade does. No source is named."),
    "derived": ("derived", "der", "Worked out from other rows, as the row says."),
    "memory": (
        "from memory",
        "mem",
        "A work is named where one is known, but it was not read. "
        "Check against it before relying on the value.",
    ),
    "invented": ("invented", "inv", "Made up for the demonstration shop. True of no shop."),
}


def element(tag: str, *content: Content, **attributes: str) -> Element:
    """Make an element of texts and elements; an empty attribute is left out."""
    made = Element(tag, {name: text for name, text in attributes.items() if text})
    for piece in content:
        if isinstance(piece, Element):
            made.append(piece)
        elif len(made):
            made[-1].tail = (made[-1].tail or "") + piece
        else:
            made.text = (made.text or "") + piece
    return made


def contents(cell: Cell) -> Sequence[Content]:
    """Give what stands in a cell as a sequence."""
    return [cell] if isinstance(cell, str | Element) else cell


def paragraph(*content: Content) -> Element:
    """Make a paragraph."""
    return element("p", *content)


def terms(pairs: Iterable[tuple[Cell, Cell]]) -> Element:
    """Make a list of terms, each with its meaning."""
    made = Element("dl")
    for term, meaning in pairs:
        made.append(element("dt", *contents(term)))
        made.append(element("dd", *contents(meaning)))
    return made


def table(
    head: Sequence[str], rows: Iterable[Sequence[Cell]], right: Sequence[int] = ()
) -> Element:
    """Make a table with one header row; the columns numbered in `right` are set to the right."""

    def row(tag: str, cells: Sequence[Cell]) -> Element:
        return element(
            "tr",
            *(
                element(tag, *contents(cell), align="right" if column in right else "left")
                for column, cell in enumerate(cells)
            ),
        )

    body = element("tbody", *(row("td", cells) for cells in rows))
    return element("table", element("thead", row("th", head)), body)


def noted_table(head: Sequence[str], rows: Sequence[Sequence[Cell]]) -> Element:
    """Make a table, without its last column where that says nothing in any row."""
    if any(row[-1] for row in rows):
        return table(head, rows)
    return table(head[:-1], [row[:-1] for row in rows])


def decimals(value: float) -> int:
    """Count the decimals a number was given with.

    >>> decimals(62.0), decimals(45.5), decimals(0.05), decimals(1e-6)
    (0, 1, 2, 6)
    """
    exponent = Decimal(repr(float(value))).normalize().as_tuple().exponent
    return max(0, -int(exponent))


def number(value: float, most: int = 9) -> str:
    """Print a number with the decimals it was given with, never more.

    `most` holds a converted number to the decimals of the row it was read in.

    >>> number(62.0), number(45.5), number(-3.0), number(29.444444, most=1)
    ('62', '45.5', '-3', '29.4')
    """
    return printed(value, min(most, decimals(value)))


def day(date: str) -> str:
    """Write a date so that no line ends inside it.

    >>> day("2026-03-02").split("\N{NON-BREAKING HYPHEN}")
    ['2026', '03', '02']
    """
    return date.replace("-", "\N{NON-BREAKING HYPHEN}")


CELSIUS_OF = {"degF": "degC", "delta_degF": "delta_degC"}


def span(low: float | None, high: float | None, unit: str, most: int = 9) -> str:
    """Print a range with its unit; one value where both ends are the same.

    >>> span(62, 65, "degC"), span(85, 85, "degC"), span(-3, 0, "degC")
    ('62–65 °C', '85 °C', '-3 to 0 °C')
    >>> span(200, None, "degC"), span(None, 5, "percent"), span(3.6, 3.8, "1")
    ('above 200 °C', 'up to 5 %', '3.6–3.8')
    >>> span(365, 365, "day"), span(0.5, 1, "year"), span(1, 1, "year")
    ('365 days', '0.5–1 years', '1 year')

    Degrees Fahrenheit stand as their source prints them, with Celsius behind.

    >>> span(134, 154, "degF")
    '134–154 °F (57–68 °C)'
    """
    text = _ends(low, high, most)
    if not text:
        return ""
    count = high if low in (None, high) else low if high is None else None
    shown = f"{text} {spoken_unit(unit, count)}".rstrip()
    if unit not in CELSIUS_OF:
        return shown
    first, last = (
        None if end is None else convert(end, unit, CELSIUS_OF[unit]) for end in (low, high)
    )
    whole = min(_decimals(low, most), _decimals(high, most))
    return f"{shown} ({_ends(first, last, whole)} °C)"


def _decimals(end: float | None, most: int) -> int:
    """Give how many decimals an end is printed with."""
    return most if end is None else len(number(end, most).partition(".")[2])


def _ends(low: float | None, high: float | None, most: int) -> str:
    """Print the ends of a range without their unit."""
    if low is not None and high is not None:
        between = " to " if low < 0 or high < 0 else "\N{EN DASH}"
        first, last = number(low, most), number(high, most)
        text = first if first == last else f"{first}{between}{last}"
    elif low is not None:
        text = f"above {number(low, most)}"
    elif high is not None:
        text = f"up to {number(high, most)}"
    else:
        text = ""
    return text


def value(row: Ranged, source: str = "", text: str = "") -> Element:
    """Make an inline number that carries its range, unit and basis."""
    return element(
        "value",
        text or span(row.low, row.high, row.unit),
        low="" if row.low is None else number(row.low),
        high="" if row.high is None else number(row.high),
        unit=row.unit,
        basis=row.basis,
        source=source,
    )


def basis(kind: str, source: str = "", where: str = "") -> list[Content]:
    """Make the cell that says what a row rests on, with the place in its source."""
    mark = element("basis", kind=kind, source=source)
    return [mark, f", {where}"] if where else [mark]


def unknown(reason: str) -> Element:
    """Make the mark of what nobody has found out, with how to find it out."""
    return element("unknown", "not known", reason=reason)


def plain(tree: Element) -> str:
    """Give the text of an element without its marks."""
    return "".join(tree.itertext())
