"""A working as a live form of plain HTML elements; the page's script fills in the answers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from site_builder.markup.elements import Content, element, paragraph
from site_builder.workings.worksheet import Field

if TYPE_CHECKING:
    from formulas.catalog import Catalog
    from site_builder.workings.worksheet import Worksheet

NO_SCRIPT = "This form needs the page's script. The binder has it as a form for the pencil."
LEFT_OUT = "Nought or blank leaves a material out."


def screen_form(worksheet: Worksheet, catalog: Catalog) -> Element:
    """Draw one working: what it asks for, then its answer with the cautions beside it."""
    fields = worksheet.fields(catalog)
    groups = dict.fromkeys(field.group for field in fields)
    single = [field.name for field in fields if field.kind in ("number", "choice")]
    asked = [
        element(
            "fieldset",
            element("legend", group),
            *(
                piece
                for field in fields
                if field.group == group
                for piece in _asked(worksheet.id, field, catalog)
            ),
        )
        for group in groups
    ]
    return element(
        "form",
        element("noscript", paragraph(NO_SCRIPT)),
        *asked,
        _answer(worksheet, catalog, single),
        novalidate="novalidate",
        autocomplete="off",
        **{"data-working": worksheet.id, "aria-label": worksheet.title},
    )


def _asked(working: str, field: Field, catalog: Catalog) -> Iterable[Element]:
    """Draw one field; below a table of materials stands the choice that adds one."""
    if field.draw:
        yield field.draw(working)
        return
    if field.kind != "parts":
        yield _field(working, field)
        return
    yield _parts(working, field)
    offered = [*catalog.materials.items(), *(catalog.blends.items() if field.offers else ())]
    choices = (("", "choose one"), *((name, one.name) for name, one in offered))
    name = "add" if field.name == "parts" else f"add-{field.name}"
    label = f"Add a material{' or a blend' if field.offers else ''}"
    adding = Field(name, label, kind="choice", choices=choices)
    yield _field(working, adding, **{"data-adds": field.name})


def _field(working: str, field: Field, **more: str) -> Element:
    """Draw one field with its label; what it accepts stands with it for the message."""
    name = f"{working}-{field.name}"
    inner: list[Content] = [element("label", field.label, **{"for": name}), " "]
    if field.kind == "choice":
        options = [
            element(
                "option", words, value=value, selected="selected" if value == field.default else ""
            )
            for value, words in field.choices
        ]
        for option, (value, _) in zip(options, field.choices, strict=True):
            option.set("value", value)
        said = {"data-fills": field.fills, "data-of": field.of, **more}
        inner.append(element("select", *options, id=name, name=field.name, **said))
    else:
        inner.append(number_input(field, id=name, name=field.name, value=field.default))
        if field.unit:
            inner += [" ", element("span", field.unit, **{"class": "unit"})]
    return element("p", *inner, **{"class": "field", "data-way": field.way})


def number_input(field: Field, **attributes: str) -> Element:
    """Draw the place for a number; what it accepts stands with it."""
    limits = {"above": field.above, "low": field.low, "high": field.high}
    said = {f"data-{name}": f"{limit:g}" for name, limit in limits.items() if limit is not None}
    said["data-accepted"] = field.accepted
    said["data-label"] = field.label
    said["data-whole"] = "yes" if field.whole else ""
    said["data-blank"] = "yes" if field.blank else ""
    return element("input", type="text", inputmode="decimal", size="7", **attributes, **said)


def _parts(working: str, field: Field) -> Element:
    """Draw the table of components; its rows are made by the script from a pattern row."""
    head = element(
        "tr", element("th", "Material", scope="col"), element("th", field.label, scope="col")
    )
    pattern = element(
        "tr", element("th", scope="row"), element("td", number_input(field)), hidden="hidden"
    )
    return element(
        "table",
        element("caption", f"{field.label}. {field.left_out or LEFT_OUT}"),
        element("thead", head),
        element(
            "tbody",
            pattern,
            **{"data-rows": field.name, "data-each": field.each, "data-first": field.default},
        ),
        id=f"{working}-{field.name}",
    )


def _answer(worksheet: Worksheet, catalog: Catalog, names: list[str]) -> Element:
    """Draw the empty places of the answer, then what must be read with it."""
    places = [
        piece
        for name, label in worksheet.rows
        for piece in (
            element("dt", label, **{"data-for": name}),
            element("dd", **{"data-out": name}),
        )
    ]
    return element(
        "section",
        element("p", role="alert", **{"class": "message", "data-out": "message"}),
        paragraph(
            element(
                "output",
                name="summary",
                **{
                    "for": " ".join(f"{worksheet.id}-{name}" for name in names),
                    "aria-live": "polite",
                    "data-out": "summary",
                },
            )
        ),
        *worksheet.tables(catalog),
        element("dl", *places),
        paragraph("The same at the command line: ", _place("code", "command")),
        element("p", element("strong", worksheet.limit), **{"class": "not-a-limit"}),
        _cautions(worksheet, catalog),
        **{"class": "answer", "aria-label": f"{worksheet.title}: answer"},
    )


def _place(tag: str, name: str) -> Element:
    """Make an empty place that the script fills; `code` would lose its mark on the way."""
    holder = "span" if tag == "code" else tag
    return element(holder, **{"data-out": name, "class": tag})


def answer_table(name: str, heads: Sequence[str], total: int | None = None) -> Element:
    """Draw an empty table of the answer, which the script fills by its name.

    With `total`, a last row has the place `total` in that column.
    """
    head = element(
        "tr",
        *(
            element("th", words, scope="col", align="right" if place else "left")
            for place, words in enumerate(heads)
        ),
    )
    pieces = [element("thead", head), element("tbody", **{"data-rows": name})]
    if total is not None:
        cells = [
            element("td", align="right", **{"data-out": "total"})
            if place == total
            else element("td")
            for place in range(1, len(heads))
        ]
        row = element("tr", element("th", "Total", scope="row"), *cells)
        pieces.append(element("tfoot", row))
    return element("table", *pieces)


def asked_table(caption: str, heads: Sequence[str], rows: Iterable[Element]) -> Element:
    """Draw a table whose rows are filled in."""
    return element(
        "table",
        element("caption", caption),
        element("thead", element("tr", *(element("th", head, scope="col") for head in heads))),
        element("tbody", *rows),
        **{"class": "stocks"},
    )


def compact_table(name: str, heads: Sequence[str]) -> Element:
    """Draw an empty table of the answer whose rows flow on a phone; the roles outlast the look.

    The script fills its rows, each cell with the words of its column.
    """
    cells = [element("th", words, role="columnheader", scope="col") for words in heads]
    return element(
        "table",
        element("thead", element("tr", *cells, role="row"), role="rowgroup"),
        element("tbody", role="rowgroup", **{"data-rows": name}),
        role="table",
        **{"class": "compact"},
    )


def _cautions(worksheet: Worksheet, catalog: Catalog) -> Element:
    """Say every caution of the command beside its answer; the text opens under its title."""
    items = [
        element(
            "li",
            element("details", element("summary", element("strong", title)), paragraph(text)),
        )
        for title, text in worksheet.cautioned(catalog)
    ]
    return element(
        "section",
        paragraph(
            element("strong", f"CAUTION: {len(items)} that apply. Press one to read it whole.")
        ),
        element("ul", *items),
        **{"class": "cautions", "aria-label": f"{worksheet.title}: cautions"},
    )
