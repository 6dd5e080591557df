"""Expressions as JavaScript, with brackets where either language asks for them."""

from __future__ import annotations

import ast
import json
import math
import re

from formulas.formula import Procedure
from site_builder.notation.kinds import Kinds
from site_builder.notation.source import Source

CHOICE, OR, AND, COMPARE, SUM, PRODUCT, MINUS, POWER, CALL = range(1, 10)
OPERATORS: dict[type[ast.operator], tuple[str, int]] = {
    ast.Add: ("+", SUM),
    ast.Sub: ("-", SUM),
    ast.Mult: ("*", PRODUCT),
    ast.Div: ("/", PRODUCT),
    ast.Pow: ("**", POWER),
}
COMPARISONS: dict[type[ast.cmpop], str] = {
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
    ast.Eq: "===",
    ast.NotEq: "!==",
}
ACCEPTED = (
    "numbers, names, + - * / **, comparisons, and/or/not, a if b else c, x[i], lists, "
    "calls to formulas, procedures and the functions named in notation/source.py"
)
SAME_IN_MATH = ("abs", "min", "max", "sqrt", "exp", "log", "asinh", "sinh", "floor")
RESERVED = frozenset(
    re.findall(
        r"\w+",
        """arguments await bench case catch class const debugger default delete do enum eval
        export extends false finally function globalThis implements import in instanceof
        interface let Math new null package private protected public static String super
        switch this throw true try typeof undefined var void with yield Array NaN Infinity""",
    )
)

Written = tuple[str, int]


def safe(name: str) -> str:
    """Give a Python name that JavaScript keeps for itself a trailing underscore."""
    return name + "_" if name in RESERVED else name


class Expressions:
    """Writes the expressions of one source; notes which helpers and constants they need."""

    def __init__(self, source: Source, kinds: Kinds) -> None:
        self.source, self.kinds = source, kinds
        self.helpers: set[str] = set()
        self.constants: dict[str, float | str] = {}

    def text(self, node: ast.expr, least: int = CHOICE) -> str:
        """Write an expression, in brackets where it binds less than `least`."""
        written, level = self._written(node)
        return written if level >= least else f"({written})"

    def condition(self, node: ast.expr, least: int = CHOICE) -> str:
        """Write a yes-or-no; anything else is empty in one language and not in the other."""
        if self.kinds.of(node) != "bool":
            raise self.source.refused(node, "a comparison, or and/or/not of comparisons")
        return self.text(node, least)

    def _written(self, node: ast.expr) -> Written:
        rule = getattr(self, f"_{type(node).__name__.lower()}", None)
        if rule is None:
            raise self.source.refused(node, ACCEPTED)
        written = rule(node)
        return written if isinstance(written, tuple) else (written, CALL)

    def _unaryop(self, node: ast.UnaryOp) -> Written:
        match node.op:
            case ast.USub():
                return "-" + self.text(node.operand, CALL), MINUS
            case ast.Not():
                return "!" + self.condition(node.operand, CALL), MINUS
        raise self.source.refused(node, "- or not")

    def _boolop(self, node: ast.BoolOp) -> Written:
        sign, level = (" && ", AND) if isinstance(node.op, ast.And) else (" || ", OR)
        return sign.join(self.condition(value, level + 1) for value in node.values), level

    def _ifexp(self, node: ast.IfExp) -> Written:
        test, body = self.condition(node.test, OR), self.text(node.body, OR)
        return f"{test} ? {body} : {self.text(node.orelse)}", CHOICE

    def _list(self, node: ast.List | ast.Tuple) -> str:
        return f"[{', '.join(self.text(item) for item in node.elts)}]"

    _tuple = _list

    def _listcomp(self, node: ast.ListComp | ast.GeneratorExp) -> str:
        return self._listed(node.elt, node.generators)

    _generatorexp = _listcomp

    def _constant(self, node: ast.Constant) -> str:
        if not isinstance(node.value, bool | int | float | str):
            raise self.source.refused(node, "a number, a text, True or False")
        return json.dumps(node.value).replace("<", "\\u003c")

    def _name(self, node: ast.Name | ast.Attribute) -> str:
        if isinstance(node, ast.Name) and node.id in self.source.locals:
            return safe(node.id)
        name, value = self.source.constant(node)
        if value is math.pi:
            return "Math.PI"
        self.constants[name] = value
        return name

    _attribute = _name

    def _binop(self, node: ast.BinOp) -> Written:
        left, right = self.kinds.of(node.left), self.kinds.of(node.right)
        if isinstance(node.op, ast.Mult) and left in ("list", "text"):
            return self._helper("repeat", self.text(node.left), self.text(node.right)), CALL
        mixed = isinstance(node.op, ast.Mult) and right == "text"
        if type(node.op) not in OPERATORS or "list" in (left, right) or mixed:
            raise self.source.refused(node, "+ - * / ** on numbers, + on texts, [x] * n")
        sign, level = OPERATORS[type(node.op)]
        first, second = (level + 1, CALL) if level == POWER else (level, level + 1)
        return f"{self.text(node.left, first)} {sign} {self.text(node.right, second)}", level

    def _compare(self, node: ast.Compare) -> Written:
        sides = [node.left, *node.comparators]
        if any(self.kinds.of(side) in ("list", "dict") for side in sides):
            raise self.source.refused(node, "comparisons of numbers or texts")
        links = []
        for left, op, right in zip(sides, node.ops, sides[1:], strict=False):
            if type(op) not in COMPARISONS:
                raise self.source.refused(node, "< <= > >= == !=")
            sign = COMPARISONS[type(op)]
            links.append(f"{self.text(left, SUM)} {sign} {self.text(right, SUM)}")
        return " && ".join(links), COMPARE if len(links) == 1 else AND

    def _subscript(self, node: ast.Subscript) -> str:
        base = self.text(node.value, CALL)
        match node.slice:
            case ast.Slice(lower=lower, upper=upper, step=None):
                ends = [self.text(lower) if lower else "0"]
                ends += [self.text(upper)] if upper else []
                return f"{base}.slice({', '.join(ends)})"
            case ast.UnaryOp(op=ast.USub(), operand=ast.Constant()) if isinstance(
                node.ctx, ast.Load
            ):
                return f"{base}.at({self.text(node.slice)})"
            case ast.UnaryOp() | ast.Slice() | ast.Tuple():
                raise self.source.refused(node, "one index, or a part without a step")
        return f"{base}[{self.text(node.slice)}]"

    def _dict(self, node: ast.Dict) -> str:
        parts = []
        for key, value in zip(node.keys, node.values, strict=True):
            if not isinstance(key, ast.Constant) or not isinstance(key.value, str):
                raise self.source.refused(node, "keys written as text")
            parts.append(f"{self._constant(key)}: {self.text(value)}")
        return f"{{{', '.join(parts)}}}"

    def _listed(self, item: ast.expr, loops: list[ast.comprehension]) -> str:
        first, *more = loops
        target, items = self.target(first.target), self.items(first.iter)
        head = f"({target}) => "
        for test in first.ifs:
            items += f".filter({head}{self.condition(test)})"
        if more:
            return f"{items}.flatMap({head}{self._listed(item, more)})"
        written = self.text(item)
        return f"{items}.map({head}{f'({written})' if written.startswith('{') else written})"

    def target(self, node: ast.expr) -> str:
        """Write what a loop or an assignment binds."""
        match node:
            case ast.Name(id=name):
                return safe(name)
            case ast.Tuple(elts=parts):
                return f"[{', '.join(self.target(part) for part in parts)}]"
            case ast.Subscript(slice=index) if not isinstance(index, ast.Slice):
                return self._subscript(node)
        raise self.source.refused(node, "a name, names between commas, or an indexed place")

    def items(self, node: ast.expr) -> str:
        """Write what a loop goes over."""
        target = self.source.called(node)[0] if isinstance(node, ast.Call) else ""
        if target in ("range", "zip", "enumerate") and isinstance(node, ast.Call):
            return self._helper(target, *self._loop_arguments(node, target))
        return self.text(node, CALL)

    def _loop_arguments(self, node: ast.Call, target: str) -> list[str]:
        arguments = [self.text(argument) for argument in node.args]
        if target == "enumerate" and len(arguments) != 1:
            raise self.source.refused(node, "enumerate(list)")
        if target == "range" and len(arguments) == 1:
            return ["0", *arguments]
        return arguments

    def _call(self, node: ast.Call) -> str:
        target, arguments = self.source.called(node)
        if isinstance(target, Procedure):
            return f"bench.{target.name}({', '.join(self.text(each) for each in arguments)})"
        if target == "sorted":
            return self._sorted(node)
        if target in ("min", "max") and len(arguments) == 1:
            return f"Math.{target}(...{self.text(arguments[0])})"
        if target not in ("min", "max") and len(arguments) != 1:
            raise self.source.refused(node, f"{target}() with one argument")
        written = [self.text(argument) for argument in arguments]
        if target in SAME_IN_MATH:
            return f"Math.{target}({', '.join(written)})"
        if target == "sum":
            return self._helper("sum", *written)
        if target == "len":
            return f"{self.text(arguments[0], CALL)}.length"
        return self._turned(node, target, arguments[0])

    def _turned(self, node: ast.Call, target: str, argument: ast.expr) -> str:
        kind = self.kinds.of(argument)
        if target == "int" and kind not in ("text", "list"):
            return f"Math.trunc({self.text(argument)})"
        if target == "str" and kind == "whole":
            return f"String({self.text(argument)})"
        raise self.source.refused(node, "str() of a whole number, int() of a number")

    def _sorted(self, node: ast.Call) -> str:
        match node:
            case ast.Call(args=[items], keywords=[]):
                return self._helper("sorted", self.items(items), "(item) => item")
            case ast.Call(
                args=[items],
                keywords=[ast.keyword(arg="key", value=ast.Lambda(args=bound, body=body))],
            ) if len(bound.args) == 1 and self.kinds.of(body) not in ("list", "text", "bool"):
                key = f"({safe(bound.args[0].arg)}) => {self.text(body)}"
                return self._helper("sorted", self.items(items), key)
        raise self.source.refused(node, "sorted(items, key=lambda item: number)")

    def _helper(self, name: str, *arguments: str) -> str:
        self.helpers.add(name)
        return f"{name}({', '.join(arguments)})"
