"""A leaf as plain Markdown with every placed part written out: what bare libraries would read."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from xml.etree.ElementTree import Element, tostring

from site_builder.parts.form_parts import BETWEEN

LISTS = {"ul": "- ", "ol": "1. ", "ticks": "- "}
MARKED = {"em": "*{}*", "strong": "**{}**", "code": "`{}`"}
HEADINGS = ("h2", "h3", "h4")


def spelt_out(tree: Element) -> str:
    """Write a tree. Workings and exercises give their words only; a drawing stands as it is."""
    return "\n\n".join(_flow(tree))


def _flow(element: Element) -> Iterator[str]:
    if (element.text or "").strip():
        yield _folded(element.text or "")
    for child in element:
        yield from _block(child)
        if (child.tail or "").strip():
            yield _folded(child.tail or "")


def _block(element: Element) -> Iterable[str]:
    writing = WRITINGS.get(element.tag, _flow)
    return writing(element)


def _heading(element: Element) -> list[str]:
    return [f"{'#' * int(element.tag[1])} {_line(element)}"]


def _list(element: Element) -> list[str]:
    mark = LISTS[element.tag]
    return ["\n".join(mark + _item(item).replace("\n", "\n    ") for item in element)]


def _rows(element: Element) -> list[str]:
    return [_table([[_line(cell) for cell in row] for row in element.iter("tr")])]


def _form(element: Element) -> list[str]:
    heads = element.get("heads", "").split(BETWEEN)
    return [_table([heads, *([[" "] * len(heads)] * int(element.get("rows", "1")))])]


def _code(element: Element) -> list[str]:
    return ["\n".join(f"    {line}" for line in "".join(element.itertext()).splitlines())]


def _caution(element: Element) -> list[str]:
    told = [f"**CAUTION** {element.get('title', '')}", *_flow(element)]
    return ["\n".join(f"> {line}" for line in "\n\n".join(told).splitlines())]


def _terms(element: Element) -> list[str]:
    pairs = (f"{'' if one.tag == 'dt' else ':   '}{_line(one)}\n" for one in element)
    return ["\n".join(pairs)]


def _item(item: Element) -> str:
    return (
        "\n\n".join(_flow(item)) if any(one.tag in {"p", *LISTS} for one in item) else _line(item)
    )


def _table(rows: Sequence[Sequence[str]]) -> str:
    lines = [f"| {' | '.join(row)} |" for row in rows]
    return "\n".join([*lines[:1], "|" + "---|" * max(map(len, rows), default=1), *lines[1:]])


def _line(element: Element) -> str:
    return _folded(_marked(element)).replace("|", "\\|")


def _marked(element: Element) -> str:
    pieces = [element.text or ""]
    for child in element:
        words = _marked(child)
        if child.tag == "a":
            words = f"[{words}]({child.get('href', '')})"
        pieces += [MARKED.get(child.tag, "{}").format(words), child.tail or ""]
    return "".join(pieces)


def _folded(text: str) -> str:
    return " ".join(text.split())


WRITINGS: dict[str, Callable[[Element], Iterable[str]]] = {
    **dict.fromkeys(HEADINGS, _heading),
    **dict.fromkeys(LISTS, _list),
    "p": lambda element: [_line(element)],
    "span": lambda element: [_line(element)],
    "table": lambda element: [
        _table([[_line(cell) for cell in row] for row in element.iter("tr")])
    ],
    "formtable": _form,
    "formline": lambda element: [element.get("label", "")],
    "pre": _code,
    "caution": _caution,
    "figure": lambda element: [tostring(element, "unicode")],
    "dl": _terms,
}
