"""What is seen of shown mathematics: tokens from Typst's own tree, from MathML, from plain text."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any
from xml.etree import ElementTree


@dataclass
class Token:
    """One thing seen: its kind, its text, and what stands inside, below and above it."""

    kind: str
    text: str = ""
    inside: list[list[Token]] = field(default_factory=list)
    below: list[Token] | None = None
    above: list[Token] | None = None


# --- Typst's own tree


def typst_lines(equation: Any) -> list[list[Token]]:
    """Read one equation of Typst's tree, line by line."""
    return split(list(typst_tokens(equation["body"])), "line")


def typst_tokens(node: Any) -> Iterator[Token]:  # noqa: C901 - one rule a line
    """Turn a node of Typst's content tree into what is seen of it."""
    func = node["func"]
    if func == "sequence":
        yield from (token for child in node["children"] for token in typst_tokens(child))
    elif func in ("symbol", "text"):
        yield leaf(node["text"], upright=func == "text")
    elif func == "op":
        yield Token("function", node["text"]["text"])
    elif func == "linebreak":
        yield Token("line")
    elif func == "lr":
        yield fenced(list(typst_tokens(node["body"])))
    elif func == "frac":
        yield Token("frac", inside=[list(typst_tokens(node[key])) for key in ("num", "denom")])
    elif func == "root":
        assert "index" not in node
        yield Token("root", inside=[list(typst_tokens(node["radicand"]))])
    elif func == "cases":
        yield Token("cases", inside=[list(typst_tokens(child)) for child in node["children"]])
    elif func == "attach":
        assert set(node) <= {"func", "base", "t", "b"}
        (base,) = typst_tokens(node["base"])
        base.below = list(typst_tokens(node["b"])) if "b" in node else base.below
        base.above = list(typst_tokens(node["t"])) if "t" in node else base.above
        yield base
    elif func == "equation":
        yield from typst_tokens(node["body"])
    elif func == "space":
        yield Token("space")
    else:
        assert func == "align-point", func


def leaf(text: str, *, upright: bool) -> Token:
    """Tell a number, a sign, a word and a letter apart."""
    if re.fullmatch(r"\d+(\.\d+)?", text):
        return Token("number", text)
    if text in ("if", "else if", "otherwise", "and", "or"):
        return Token("word", text)
    if upright or text.isalpha():
        return Token("name", text)
    return Token("total" if text == "∑" else "sign", text)


def fenced(tokens: list[Token]) -> Token:
    """Read brackets, bars and floor brackets."""
    kinds = {"()": "group", "||": "bars", "⌊⌋": "floor"}
    return Token(kinds[tokens[0].text + tokens[-1].text], inside=[tokens[1:-1]])


# --- MathML


def mathml_lines(text: str) -> list[list[Token]]:
    """Read one MathML formula, line by line."""
    root = ElementTree.fromstring(text)
    table = root[0] if len(root) == 1 and root[0].get("class", "").startswith("multiline") else None
    rows = [root] if table is None else list(table)
    return [list(fences(list(mathml_children(row)))) for row in rows]


def mathml_children(node: ElementTree.Element) -> Iterator[Token]:
    """Read the children of an element, one after the other."""
    for child in node:
        yield from mathml_tokens(child)


def mathml_tokens(node: ElementTree.Element) -> Iterator[Token]:
    """Turn an element into what is seen of it."""
    text = unicodedata.normalize("NFKC", node.text or "")
    if node.tag in ("mi", "mn", "mtext"):
        yield leaf(text, upright=node.tag == "mtext")
    elif node.tag == "mo":
        yield (
            Token("function", text)
            if text.replace(" ", "").isalpha()
            else leaf(text, upright=False)
        )
    elif node.tag == "mspace":
        yield Token("space")
    elif node.tag in ("mrow", "mtd", "mtr") and not any(child.tag == "mtable" for child in node):
        tokens = list(mathml_children(node))
        yield from fences(tokens)
    elif node.tag == "mrow":
        assert [child.tag for child in node] == ["mo", "mtable"]
        yield Token("cases", inside=[list(mathml_children(row)) for row in node[1]])
    elif node.tag == "mfrac":
        yield Token("frac", inside=[row(child) for child in node])
    elif node.tag == "msqrt":
        yield Token("root", inside=[list(fences(list(mathml_children(node))))])
    else:
        (base,), *parts = (row(child) for child in node)
        places = {"msub": "b", "msup": "t", "msubsup": "bt", "munder": "b", "munderover": "bt"}
        for place, part in zip(places[node.tag], parts, strict=True):
            setattr(base, "below" if place == "b" else "above", part)
        yield base


def row(node: ElementTree.Element) -> list[Token]:
    """Read one element that may be a row of several."""
    return list(fences(list(mathml_tokens(node))))


def fences(tokens: list[Token]) -> Iterator[Token]:
    """Gather what stands in brackets or bars, where the whole row does."""
    if tokens and tokens[0].kind == "sign" and tokens[0].text in "(|⌊":
        yield fenced(tokens)
    else:
        yield from tokens


# --- plain text


def plain_lines(text: str) -> list[list[Token]]:
    """Read a line of plain text, its parts after "where" as lines of their own."""
    return [list(plain_tokens(part)) for part in text.split(", where ")]


PLAIN = re.compile(
    r"\s*(?:(?P<total>sum|smallest|largest) over (?P<index>\w+)(?P<over>.*?) of (?=\()"
    r"|(?P<word>else if|if|otherwise|and|or)\b"
    r"|(?P<number>\d+(?:\.\d+)?)"
    r"|(?P<function>sqrt|exp|ln|arsinh|sinh|min|max|floor|abs)(?=\()"
    r"|(?P<name>[^\W\d_]+(?: steps)?)(?P<below>(?:[_,](?:\w(?<!_))+|[_,]\([^()]*\))*)"
    r"|(?P<sign>\S))"
)


def plain_tokens(text: str) -> Iterator[Token]:
    """Turn plain text into what is read in it."""
    at = 0
    while at < len(text.rstrip()):
        match = PLAIN.match(text, at)
        assert match, text[at:]
        kind, found = match.lastgroup, match
        at = match.end()
        if found["sign"] == "(":
            end = closing(text, at)
            yield Token("group", inside=[list(plain_tokens(text[at:end]))])
            at = end + 1
        elif found["total"]:
            name = {"sum": "∑", "smallest": "min", "largest": "max"}[found["total"]]
            over = re.fullmatch(r"(?: from 1 to (.+)| ([<>]) (\w))?", found["over"])
            assert over, found["over"]
            below = [leaf(found["index"], upright=False)]
            above = list(plain_tokens(over[1])) if over[1] else None
            below += [Token("sign", "="), Token("number", "1")] if above else []
            below += [Token("sign", over[2]), Token("name", over[3])] if over[2] else []
            yield Token("total", name, below=below, above=above)
        elif found["name"]:
            below_text = (
                found["below"].lstrip("_").replace("_", ",").replace("(", "").replace(")", "")
            )
            yield Token(
                "name", found["name"], below=[Token("raw", below_text)] if below_text else None
            )
        else:
            assert kind is not None
            yield Token(kind, found[kind])


def closing(text: str, at: int) -> int:
    """Find the bracket that closes the one before `at`."""
    depth = 1
    for place in range(at, len(text)):
        depth += {"(": 1, ")": -1}.get(text[place], 0)
        if depth == 0:
            return place
    raise AssertionError(text)


def split(tokens: list[Token], kind: str, text: str = "") -> list[list[Token]]:
    """Part tokens at those of one kind (and text)."""
    parts: list[list[Token]] = [[]]
    for token in tokens:
        if token.kind == kind and text in ("", token.text):
            parts.append([])
        else:
            parts[-1].append(token)
    return parts


def equations(sources: Sequence[str]) -> list[Any]:
    """Give the trees that Typst itself makes of formulas, in their order."""
    import typst

    document = "\n\n".join(f"$ {source} $" for source in sources)
    text = typst.eval(document.encode(), "query(math.equation)", ignore_system_fonts=True)
    return list(json.loads(text))
