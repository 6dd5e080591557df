"""What the names in a formula's own source mean, and how the writers refuse the rest of Python."""

from __future__ import annotations

import ast
import builtins
import functools
import inspect
import math
import typing
from collections import ChainMap
from collections.abc import Callable, Iterable, Iterator
from types import ModuleType
from typing import Any

from formulas.fault import Refused
from formulas.formula import Procedure

BUILTINS = ("abs", "enumerate", "int", "len", "max", "min", "range", "sorted", "str", "sum", "zip")
MATH = ("sqrt", "exp", "log", "asinh", "sinh", "floor")
FUNCTIONS: dict[Any, str] = {
    **{getattr(builtins, name): name for name in BUILTINS},
    **{getattr(math, name): name for name in MATH},
}


class Source:
    """The syntax tree of one procedure, with the meaning of every name in it."""

    def __init__(self, procedure: Procedure[..., Any]) -> None:
        self.procedure = procedure
        self.tree = procedure.tree
        self.globals = ChainMap(procedure.function.__globals__, vars(builtins))
        self.parameters = {argument.arg: argument for argument in self.tree.args.args}
        self.nodes = _within(self.tree)
        self.locals = {*self.parameters, *_names(self.nodes)}
        other = self.tree.args
        if other.vararg or other.kwarg or other.kwonlyargs or other.posonlyargs:
            raise self.refused(self.tree, "plain arguments", "arguments with * or /")

    def refused(self, node: ast.AST, accepted: str, found: str = "") -> Refused:
        """Make the fault that names file, line, what stands there and what could."""
        shown = found or "`" + ast.unparse(node).split("\n")[0][:60] + "`"
        line = getattr(node, "lineno", self.tree.lineno)
        return Refused(self.procedure.file, line, shown, accepted)

    @property
    def statements(self) -> list[ast.stmt]:
        """Everything in the body but the docstring."""
        return self.tree.body[ast.get_docstring(self.tree) is not None :]

    def meaning(self, node: ast.expr) -> Any:
        """Give the object a name outside the function stands for, or None."""
        if isinstance(node, ast.Name) and node.id not in self.locals:
            return self.globals.get(node.id)
        if isinstance(node, ast.Attribute):
            owner = self.meaning(node.value)
            return getattr(owner, node.attr, None) if isinstance(owner, ModuleType) else None
        return None

    def constant(self, node: ast.Name | ast.Attribute) -> tuple[str, float | str]:
        """Give name and value of a constant of the module; pi counts as one."""
        value, name = self.meaning(node), node.id if isinstance(node, ast.Name) else node.attr
        fits = isinstance(value, str) or (isinstance(value, float | int) and math.isfinite(value))
        if fits and (name.isupper() or value is math.pi):
            return name, value
        raise self.refused(node, "an argument, a local name or a constant in capitals")

    def called(self, node: ast.Call) -> tuple[str | Procedure[..., Any], list[ast.expr]]:
        """Give what a call calls, and its arguments in the order of the signature."""
        target = self.meaning(node.func)
        if isinstance(target, Procedure):
            return target, self._in_order(node, target)
        name = FUNCTIONS.get(target) if callable(target) else None
        if name is None:
            accepted = f"{', '.join(sorted(FUNCTIONS.values()))}, a formula or a procedure"
            raise self.refused(node.func, accepted)
        strict = name == "zip" and [keyword.arg for keyword in node.keywords] == ["strict"]
        if name != "sorted" and node.keywords and not strict:
            raise self.refused(node, f"{name}() without named arguments")
        if any(isinstance(argument, ast.Starred) for argument in node.args):
            raise self.refused(node, "arguments without *")
        return name, node.args

    def _in_order(self, node: ast.Call, target: Procedure[..., Any]) -> list[ast.expr]:
        signature = _signature(target.function)
        named = {keyword.arg or "**": keyword.value for keyword in node.keywords}
        try:
            bound = signature.bind(*node.args, **named)
        except TypeError as error:
            raise self.refused(node, f"{target.name}{signature}") from error
        return [
            bound.arguments.get(name, ast.copy_location(ast.Constant(parameter.default), node))
            for name, parameter in signature.parameters.items()
        ]

    def depth(self, name: str) -> int:
        """Say how many indices an argument takes: 0 for a number, 2 for a list of lists."""
        hint = self.procedure.hints.get(name)
        if typing.get_origin(hint) is typing.Annotated:
            hint = typing.get_args(hint)[0]
        depth = 0
        while typing.get_origin(hint) is not None:
            depth, hint = depth + 1, typing.get_args(hint)[0]
        return depth


@functools.cache
def source_of(procedure: Procedure[..., Any]) -> Source:
    """Give the source of a procedure, read once for all that write it."""
    return Source(procedure)


@functools.cache
def stored(tree: ast.AST) -> frozenset[str]:
    """Give the names a piece of source binds; a piece is asked for many times over."""
    return frozenset(_names(_within(tree)))


def _within(tree: ast.AST) -> list[ast.AST]:
    """Give a piece of source and everything in it, but for the marks of how a name is used."""
    found = [tree]
    for node in found:
        for name in node._fields:
            if name == "ctx":
                continue
            value = getattr(node, name, None)
            if isinstance(value, ast.AST):
                found.append(value)
            elif isinstance(value, list):
                found += [one for one in value if isinstance(one, ast.AST)]
    return found


def _names(nodes: Iterable[ast.AST]) -> Iterator[str]:
    for node in nodes:
        if isinstance(node, ast.Name):
            if isinstance(node.ctx, ast.Store):
                yield node.id
        elif isinstance(node, ast.arg):
            yield node.arg


@functools.cache
def _signature(function: Callable[..., Any]) -> inspect.Signature:
    return inspect.signature(function)
