"""Which expressions are whole numbers, texts, lists or yes-or-no, where JavaScript would differ.

`and` and `if` ask for a yes-or-no, `str` for a whole number, `+` and `*` must know a list.
"""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator

from formulas.formula import Procedure
from site_builder.notation.source import Source, stored

KINDS = {"int": "whole", "float": "number", "bool": "bool", "str": "text"}
LISTS = ("list", "Sequence", "tuple")
GIVEN = {"len": "whole", "int": "whole", "floor": "whole", "str": "text", "sorted": "list"}
Binding = ast.Assign | ast.AnnAssign | ast.AugAssign | ast.For | ast.comprehension
ASKED = "asked"  # what a name is while its own next value, such as `text = "0" + text`, is read


class Kinds:
    """The kind of every expression of one source: bool, whole, number, text, list, dict or ""."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.asked: set[str] = set()
        self.known: dict[str, str] = {}
        self.binding: dict[str, list[Binding]] = {}
        for node in source.nodes:
            if isinstance(node, Binding):
                for name in _bound_by(node):
                    self.binding.setdefault(name, []).append(node)

    def of(self, node: ast.expr) -> str:  # noqa: C901 - a list of rules, one a line
        """Say what an expression gives; "" where that cannot be read off."""
        match node:
            case ast.Constant(value=value):
                return KINDS.get(type(value).__name__, "")
            case ast.Compare() | ast.BoolOp() | ast.UnaryOp(op=ast.Not()):
                return "bool"
            case ast.UnaryOp(operand=operand):
                return self.of(operand)
            case ast.List() | ast.Tuple() | ast.ListComp():
                return "list"
            case ast.Dict():
                return "dict"
            case ast.Subscript(value=value, slice=index):
                return self.of(value) if isinstance(index, ast.Slice) else self._item(value)
            case ast.IfExp(body=body, orelse=orelse):
                return _joined([self.of(body), self.of(orelse)])
            case ast.BinOp():
                return self._of_operation(node)
            case ast.Call():
                return self._of_call(node)
            case ast.Name():
                return self._of_name(node)
        return ""

    def _item(self, value: ast.expr) -> str:
        return "text" if self.of(value) == "text" else ""

    def _of_operation(self, node: ast.BinOp) -> str:
        kinds = {self.of(node.left), self.of(node.right)} - {ASKED}
        if isinstance(node.op, ast.Add | ast.Mult):
            for kind in ("text", "list"):
                if kind in kinds:
                    return kind
        return "whole" if kinds <= {"whole"} and not isinstance(node.op, ast.Div) else "number"

    def _of_call(self, node: ast.Call) -> str:
        target, arguments = self.source.called(node)
        if isinstance(target, Procedure):
            return of_annotation(target.tree.returns)
        if target in ("abs", "min", "max"):
            return _joined([self.of(argument) for argument in arguments]) or "number"
        return GIVEN.get(target, "number")

    def _of_name(self, node: ast.Name) -> str:
        name = node.id
        if name in self.asked:
            return ASKED
        if name not in self.source.locals:
            return KINDS.get(type(self.source.meaning(node)).__name__, "")
        if self.asked:
            return self._asked_of(name)
        if name not in self.known:
            self.known[name] = self._asked_of(name)
        return self.known[name]

    def _asked_of(self, name: str) -> str:
        self.asked.add(name)
        try:
            return _joined(self._given(name))
        finally:
            self.asked.discard(name)

    def _given(self, name: str) -> Iterator[str]:
        if name in self.source.parameters:
            yield of_annotation(self.source.parameters[name].annotation)
        for node in self.binding.get(name, ()):
            match node:
                case ast.Assign(targets=targets, value=value):
                    for target in targets:
                        if name in stored(target):
                            yield self._of_part(name, target, value)
                case ast.AnnAssign(target=ast.Name(id=at)) if at == name:
                    yield of_annotation(node.annotation)
                case ast.AugAssign(target=ast.Name(id=at)) if at == name:
                    yield self._of_operation(ast.BinOp(node.target, node.op, node.value))
                case ast.For() | ast.comprehension() if name in stored(node.target):
                    yield self._of_step(name, node.target, node.iter)

    def _of_part(self, name: str, target: ast.expr, value: ast.expr) -> str:
        if isinstance(target, ast.Name):
            return self.of(value)
        if isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple):
            pairs = zip(target.elts, value.elts, strict=False)
            return _joined(self.of(part) for at, part in pairs if name in stored(at))
        return ""

    def _of_step(self, name: str, target: ast.expr, items: ast.expr) -> str:
        call = self.source.meaning(items.func) if isinstance(items, ast.Call) else None
        counted = isinstance(target, ast.Tuple) and name in stored(target.elts[0])
        if call is range or (call is enumerate and counted):
            return "whole"
        return self._item(items)


def _bound_by(node: Binding) -> frozenset[str]:
    targets = node.targets if isinstance(node, ast.Assign) else [node.target]
    return frozenset().union(*map(stored, targets))


def _joined(kinds: Iterable[str]) -> str:
    different = set(kinds) - {ASKED}
    if different == {"whole", "number"}:
        return "number"
    return different.pop() if len(different) == 1 else ""


def of_annotation(annotation: ast.expr | None) -> str:
    """Read a kind off an annotation such as `Annotated[float, Q("mm", "length")]`."""
    match annotation:
        case ast.Subscript(value=ast.Name(id="Annotated"), slice=ast.Tuple(elts=[first, *_])):
            return of_annotation(first)
        case ast.Subscript(value=ast.Name(id=name)) | ast.Name(id=name):
            return "list" if name in LISTS else KINDS.get(name, "")
    return ""
