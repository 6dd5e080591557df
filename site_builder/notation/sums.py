"""Sums over lists as they are shown: letters for the indices, numbered from 1."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from formulas.formula import Procedure
from site_builder.notation.spelling import ADDED, Piece

if TYPE_CHECKING:
    from site_builder.notation.maths import Mathematics

LETTERS = "ijklmnqrtuv"
RANGES = (
    "range(len(x)), range(i), range(i + 1, len(x)), range(n), zip(x, y), enumerate(x) or a list"
)
PLACES = "an index of a sum, such a one plus or minus a whole number, or a whole number from 0"

Element = tuple[str, tuple[str, ...]]


class Sums:
    """The indices of the sums being written, and what stands for the items of lists."""

    def __init__(self, writer: Mathematics) -> None:
        self.writer = writer
        self.letters: dict[str, str] = {}
        self.elements: dict[str, Element] = {}
        self.uses: set[tuple[str, int, str]] = set()

    def note(self, name: str, indices: tuple[str, ...]) -> None:
        """Remember which list is indexed by which letter, in which place."""
        self.uses |= {(name, place, index) for place, index in enumerate(indices)}

    def index(self, node: ast.expr) -> str:
        """Write an index, one more than in the source, where lists begin at 0."""
        match node:
            case ast.Name(id=name) if name in self.letters:
                return self.letters[name]
            case ast.Constant(value=int(value)):
                return str(value + 1)
            case ast.BinOp(
                left=ast.Name(id=name),
                op=ast.Add() | ast.Sub(),
                right=ast.Constant(value=int(step)),
            ) if name in self.letters:
                sign = "+" if isinstance(node.op, ast.Add) else "−"
                return f"{self.letters[name]} {sign} {step}"
        raise self.writer.source.refused(node, PLACES)

    def counted(self, name: str) -> Piece:
        """Write an index where its value counts: one less than its letter."""
        return Piece(f"{self.letters[name]} − 1", ADDED, "name")

    def total(self, node: ast.Call, kind: str, arguments: list[ast.expr]) -> Piece:
        """Write sum(), or min() and max() of a list."""
        match arguments:
            case [ast.GeneratorExp(elt=body, generators=loops)]:
                return self._over(kind, body, loops)
            case [ast.Name() | ast.Subscript() as items]:
                item = ast.Name("items of a list", ast.Load())
                loop = ast.comprehension(ast.Name(item.id, ast.Store()), items, [], 0)
                return self._over(kind, ast.copy_location(item, node), [loop])
        raise self.writer.source.refused(node, f"{kind}(… for … in …) or {kind}(list)")

    def _over(self, kind: str, body: ast.expr, loops: list[ast.comprehension]) -> Piece:
        if not loops:
            return self.writer.piece(body)
        loop, *more = loops
        if loop.ifs:
            raise self.writer.source.refused(loop.ifs[0], "a sum without if")
        with self._scope():
            letter, over, wanted = self._range(loop)
            inner = self._over(kind, body, more)
            missing = {(name, place, letter) for name, place in wanted} - self.uses
            if missing:
                raise self.writer.source.refused(body, "terms that use every list of their sum")
            return self.writer.spelling.total(kind, (letter, *over), inner)

    @contextmanager
    def _scope(self) -> Iterator[None]:
        before = dict(self.letters), dict(self.elements), set(self.uses)
        self.uses = set()
        try:
            yield
        finally:
            self.letters, self.elements = before[:2]
            self.uses |= before[2]

    def _range(self, loop: ast.comprehension) -> tuple[str, tuple[str, str], list[tuple[str, int]]]:
        """Bind what a loop binds; give its letter, its condition, the lists it goes over."""
        call = loop.iter if isinstance(loop.iter, ast.Call) else None
        target, arguments = self.writer.source.called(call) if call else ("", [loop.iter])
        match loop.target, target:
            case ast.Name(id=name), "range":
                over, wanted = self._bounds(loop.iter, arguments)
                return self._lettered(name), over, wanted
            case ast.Tuple(elts=targets), "zip" if len(targets) == len(arguments):
                return self._items(targets, arguments)
            case ast.Tuple(elts=[ast.Name(id=name), item]), "enumerate" if len(arguments) == 1:
                entered = self._items([item], arguments)
                self._check_new(name)
                self.letters[name] = entered[0]
                return entered
            case item, "":
                return self._items([item], arguments)
        raise self.writer.source.refused(loop.iter, RANGES)

    def _lettered(self, name: str) -> str:
        taken = {*self.letters.values(), *(text.base for text in self.writer.symbols.values())}
        self._check_new(name)
        choices = ([name] if len(name) == 1 else []) + list(LETTERS)
        self.letters[name] = next(letter for letter in choices if letter not in taken)
        return self.letters[name]

    def _check_new(self, name: str) -> None:
        if name in self.writer.symbols or name in self.letters or name in self.elements:
            tree = self.writer.source.tree
            raise self.writer.source.refused(tree, "a new name in each sum", f"{name} bound twice")

    def _items(
        self, targets: list[ast.expr], lists: list[ast.expr]
    ) -> tuple[str, tuple[str, str], list[tuple[str, int]]]:
        letter = self._lettered("index of " + " ".join(sorted(map(ast.unparse, targets))))
        wanted = []
        for target, items in zip(targets, lists, strict=True):
            name, known = self._list(items)
            if not isinstance(target, ast.Name):
                raise self.writer.source.refused(target, "one name for each list")
            self._check_new(target.id)
            self.elements[target.id] = (name, (*known, letter))
            wanted.append((name, len(known)))
        return letter, ("", ""), wanted

    def _list(self, node: ast.expr) -> Element:
        match node:
            case ast.Name(id=name) if name in self.elements:
                return self.elements[name]
            case ast.Name(id=name) if self.writer.depths.get(name, 0) > 0:
                return name, ()
            case ast.Subscript(value=value, slice=index):
                name, known = self._list(value)
                return name, (*known, self.index(index))
        raise self.writer.source.refused(node, "an argument that is a list")

    def _bounds(
        self, node: ast.expr, arguments: list[ast.expr]
    ) -> tuple[tuple[str, str], list[tuple[str, int]]]:
        match arguments:
            case [ast.Call() as end]:
                return ("", ""), [self._length(end)]
            case [ast.Name(id=name)] if name in self.letters:
                return ("<", self.letters[name]), []
            case [ast.Name() | ast.Constant() as end]:
                return ("to", self.writer.piece(end).text), []
            case [
                ast.BinOp(left=ast.Name(id=name), op=ast.Add(), right=ast.Constant(value=1)),
                ast.Call() as end,
            ] if name in self.letters:
                return (">", self.letters[name]), [self._length(end)]
        raise self.writer.source.refused(node, RANGES)

    def _length(self, node: ast.Call) -> tuple[str, int]:
        target, arguments = self.writer.source.called(node)
        if isinstance(target, Procedure) or target != "len" or len(arguments) != 1:
            raise self.writer.source.refused(node, RANGES)
        name, known = self._list(arguments[0])
        return name, len(known)
