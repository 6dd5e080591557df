"""The JavaScript writer: the same functions for the page, in plain script.

A division by nought gives Infinity there where Python raises: a page shows no number that is
not finite.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from formulas.formula import Formula, Procedure
from site_builder.notation.kinds import Kinds
from site_builder.notation.source import Source, source_of
from site_builder.notation.statements import Statements

HELPERS = {
    "range": """function range(start, end, step = 1) {
    const numbers = [];
    for (let n = start; step > 0 ? n < end : n > end; n += step) numbers.push(n);
    return numbers;
  }""",
    "zip": """function zip(...lists) {
    const shortest = Math.min(...lists.map((list) => list.length));
    return range(0, shortest).map((n) => lists.map((list) => list[n]));
  }""",
    "enumerate": """function enumerate(list) {
    return list.map((item, n) => [n, item]);
  }""",
    "sum": """function sum(list) {
    return list.reduce((total, item) => total + item, 0);
  }""",
    "sorted": """function sorted(list, key) {
    const order = (a, b) => (a < b ? -1 : a > b ? 1 : 0);
    return [...list].sort((a, b) => order(key(a), key(b)));
  }""",
    "repeat": """function repeat(items, times) {
    const copies = Array(Math.max(0, times)).fill(items);
    return typeof items === "string" ? copies.join("") : copies.flat();
  }""",
}

OPENING = """// Written from the formulas' Python source by `benchbinder build`. Do not edit.
(function (bench) {
  "use strict";
"""
CLOSING = "})(globalThis.bench = globalThis.bench || {});\n"


def javascript(procedures: Iterable[Procedure[..., Any]]) -> str:
    """Write formulas and procedures as one script that hangs them on `window.bench`.

    Raises Refused, with file and line, for what it does not translate.
    """
    constants: dict[str, str] = {}
    helpers: set[str] = set()
    functions = []
    for procedure in sorted(procedures, key=lambda procedure: procedure.name):
        source = source_of(procedure)
        statements = Statements(source, Kinds(source), isinstance(procedure, Formula))
        functions.append(_function(procedure, source, statements))
        helpers |= statements.expressions.helpers
        _merge(constants, statements.expressions.constants, source)
    if "zip" in helpers:
        helpers.add("range")
    parts = [f"const {name} = {value};" for name, value in sorted(constants.items())]
    parts += [text for name, text in HELPERS.items() if name in helpers]
    return OPENING + "".join(f"\n  {part}\n" for part in [*parts, *functions]) + CLOSING


def _function(procedure: Procedure[..., Any], source: Source, statements: Statements) -> str:
    body = statements.written(source.statements, "    ")
    unit = f", in {procedure.unit}" if isinstance(procedure, Formula) and procedure.unit else ""
    # A "<" in a comment could close or open a tag where the script stands inside a page.
    title = " ".join(f"{procedure.title}{unit}".split()).replace("<", "(")
    head = ", ".join(statements.parameters())
    return f"// {title}\n  bench.{procedure.name} = function ({head}) {{\n{body}  }};"


def _merge(constants: dict[str, str], more: dict[str, float | str], source: Source) -> None:
    for name, value in more.items():
        written = literal(value)
        if constants.setdefault(name, written) != written:
            found = f"{name} = {written} beside {name} = {constants[name]} of another module"
            raise source.refused(source.tree, "one value for each constant's name", found)


def literal(value: float | str) -> str:
    """Write a number or a text as JavaScript that may stand inside a page."""
    if isinstance(value, str):
        return json.dumps(value).replace("<", "\\u003c")
    return json.dumps(value)
