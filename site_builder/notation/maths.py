"""The one writer of shown mathematics; a spelling makes it Typst's or plain text.

The form is the author's own: fractions, products and sums stand as the source has them.
Lists are numbered from 1, and `len` is not shown: a sum over i goes over all there are.
"""

from __future__ import annotations

import ast
import functools
import math
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Any

from formulas.formula import Formula, Procedure
from site_builder.notation.source import source_of
from site_builder.notation.spelling import (
    ADDED,
    MULTIPLIED,
    RAISED,
    TOTAL,
    Name,
    Piece,
    Plain,
    Typst,
    held,
    name_of,
)
from site_builder.notation.sums import Sums

CONSTANT_DIGITS = 10  # figures of a constant that are shown; the reckoning takes them all
TOO_FEW_ZEROS = 4  # up to 1000 and down to 0.001 a number is written out

FORM = "assignments of new names and one return"
CHOICE = "a choice only as a whole line, its second choice after `else`"


@functools.cache
def typst_math(formula: Formula[..., Any]) -> str:
    """Write a formula as Typst mathematics, to stand between dollar signs."""
    return Mathematics(formula, Typst()).written()


@functools.cache
def spoken(formula: Formula[..., Any]) -> str:
    """Write a formula as one line of plain text."""
    return Mathematics(formula, Plain()).written()


class Mathematics:
    """Writes one formula in one spelling."""

    def __init__(self, formula: Formula[..., Any], spelling: Typst | Plain) -> None:
        self.formula, self.spelling = formula, spelling
        self.source = source_of(formula)
        self.symbols = {name: name_of(q.symbol or name) for name, q in formula.arguments.items()}
        self.depths = {name: self.source.depth(name) for name in self.symbols}
        self.shown: dict[str, tuple[str, ...]] = {}
        self.sums = Sums(self)
        self.inside_bars = False
        self._check_symbols()

    def _check_symbols(self) -> None:
        seen = {(name_of(self.formula.symbol), 0): "the result"}
        for name, symbol in self.symbols.items():
            other = seen.setdefault((symbol, self.depths[name]), name)
            if other != name:
                raise self.source.refused(
                    self.source.tree, "a symbol for each", f"one symbol for {other} and {name}"
                )

    def written(self) -> str:
        """Write the whole formula: the result, then the names used on the way."""
        *steps, last = self.source.statements
        lines = [self._step(step) for step in steps]
        if not isinstance(last, ast.Return) or last.value is None:
            raise self.source.refused(last, FORM)
        result = self.spelling.symbol(name_of(self.formula.symbol)), self.line(last.value)
        return self.spelling.lines([result, *lines])

    def _step(self, step: ast.stmt) -> tuple[Piece, Piece]:
        match step:
            case (
                ast.Assign(targets=[ast.Name(id=name)], value=ast.expr() as value)
                | ast.AnnAssign(target=ast.Name(id=name), value=ast.expr() as value)
            ) if name not in self.symbols:
                right = self.line(value)
                self.symbols[name], self.depths[name] = name_of(name), 0
                self._check_symbols()
                return self.reference(step, name, ()), right
        raise self.source.refused(step, FORM)

    def line(self, node: ast.expr) -> Piece:
        """Write the right side of a line, which alone may be a choice."""
        if not isinstance(node, ast.IfExp):
            return self.piece(node)
        rows = []
        rest: ast.expr = node
        while isinstance(rest, ast.IfExp):
            rows.append((self.piece(rest.body), self.condition(rest.test)))
            rest = rest.orelse
        return self.spelling.cases(rows, self.piece(rest))

    def condition(self, node: ast.expr) -> str:
        """Write a comparison, or comparisons joined by and/or."""
        match node:
            case ast.Compare(left=left, ops=ops, comparators=others):
                text = self.piece(left).text
                for op, other in zip(ops, others, strict=True):
                    sign = self.spelling.comparisons.get(type(op).__name__)
                    if sign is None:
                        raise self.source.refused(node, "< <= > >= == !=")
                    text += f" {sign} {self.piece(other).text}"
                return text
            case ast.BoolOp(op=op, values=values):
                word = "and" if isinstance(op, ast.And) else "or"
                joint = f" {self.spelling.joints[word]} "
                return joint.join(self._part_of_condition(value) for value in values)
        raise self.source.refused(node, "a comparison, or comparisons joined by and/or")

    def _part_of_condition(self, node: ast.expr) -> str:
        text = self.condition(node)
        return f"({text})" if isinstance(node, ast.BoolOp) else text

    def piece(self, node: ast.expr) -> Piece:
        """Write a value."""
        match node:
            case ast.Constant():
                return self._number(node, node.value)
            case ast.Name() | ast.Attribute() | ast.Subscript():
                return self._named(node)
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                return self._minus(self.piece(operand))
            case ast.BinOp():
                return self._operation(node)
            case ast.Call():
                return self._call(node)
        raise self.source.refused(node, CHOICE if isinstance(node, ast.IfExp) else "a value")

    def _number(self, node: ast.expr, value: Any) -> Piece:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.source.refused(node, "a number")
        sign, digits, exponent = Decimal(repr(value)).normalize().as_tuple()
        assert isinstance(exponent, int)
        power = len(digits) - 1 + exponent
        if exponent >= TOO_FEW_ZEROS or power <= -TOO_FEW_ZEROS:
            shown = Decimal((0, digits, 1 - len(digits)))
        else:
            shown, power = Decimal((0, digits, exponent)), 0
        piece = self.spelling.number(f"{shown:f}", power)
        return self._minus(piece) if sign else piece

    def _minus(self, piece: Piece) -> Piece:
        return Piece(f"−{held(piece, TOTAL).text}", ADDED, "minus", piece.last)

    def _operation(self, node: ast.BinOp) -> Piece:
        match node.op:
            case ast.Add() | ast.Sub():
                return self._added(node)
            case ast.Mult():
                return self._multiplied(list(_factors(node)))
            case ast.Div():
                return self.spelling.fraction(self.piece(node.left), self.piece(node.right))
            case ast.Pow():
                return self.spelling.power(self.piece(node.left), self.piece(node.right))
        raise self.source.refused(node, "+ - * / **")

    def _added(self, node: ast.BinOp) -> Piece:
        left, right = self.piece(node.left), self.piece(node.right)
        plus = isinstance(node.op, ast.Add)
        least = ADDED if plus and right.first != "minus" else TOTAL
        text = f"{left.text} {'+' if plus else '−'} {held(right, least).text}"
        return Piece(text, ADDED, left.first, "other")

    def _multiplied(self, factors: Sequence[ast.expr]) -> Piece:
        first, *rest = factors
        if isinstance(first, ast.UnaryOp) and isinstance(first.op, ast.USub):
            return self._minus(self._multiplied([first.operand, *rest]))
        *earlier, last = [self.piece(factor) for factor in factors]
        parts = [self._factor(factor, last=False) for factor in earlier]
        return self.spelling.product([*parts, self._factor(last, last=True)])

    def _factor(self, piece: Piece, *, last: bool) -> Piece:
        if piece.level == MULTIPLIED and piece.first == piece.last == "number":
            return piece
        return held(piece, TOTAL if last and piece.last == "total" else RAISED)

    def _named(self, node: ast.expr) -> Piece:
        base, indices = node, list[ast.expr]()
        while isinstance(base, ast.Subscript):
            indices.insert(0, base.slice)
            base = base.value
        if isinstance(base, ast.Name) and base.id in self.sums.elements:
            name, known = self.sums.elements[base.id]
            return self.reference(node, name, (*known, *map(self.sums.index, indices)))
        if isinstance(base, ast.Name) and base.id in self.symbols:
            return self.reference(node, base.id, tuple(map(self.sums.index, indices)))
        if isinstance(base, ast.Name) and base.id in self.sums.letters and not indices:
            return self.sums.counted(base.id)
        return self._constant(base, bool(indices))

    def _constant(self, node: ast.expr, indexed: bool) -> Piece:
        if indexed or not isinstance(node, ast.Name | ast.Attribute):
            raise self.source.refused(node, "a name or a list with indices")
        _, value = self.source.constant(node)
        if value is math.pi:
            return self.spelling.symbol(Name("π"))
        return self._number(node, float(f"{value:.{CONSTANT_DIGITS}g}"))

    def reference(
        self, node: ast.AST, name: str, indices: tuple[str, ...], whole: bool = False
    ) -> Piece:
        """Write an input or a local name; what looks alike must be alike."""
        if not whole and len(indices) != self.depths[name]:
            raise self.source.refused(node, f"{self.depths[name]} indices on {name}")
        piece = self.spelling.symbol(self.symbols[name], indices)
        self.sums.note(name, indices)
        if self.shown.setdefault(piece.text, (name, *indices)) != (name, *indices):
            found = f"`{piece.text}` for {name} and for {self.shown[piece.text][0]}"
            raise self.source.refused(node, "a symbol for each", found)
        return piece

    def _call(self, node: ast.Call) -> Piece:
        target, arguments = self.source.called(node)
        if isinstance(target, Formula):
            head = self.spelling.symbol(name_of(target.symbol))
            return self.spelling.applied(head, [self._argument(each) for each in arguments])
        if isinstance(target, Procedure):
            head = self.spelling.word(target.name.replace("_", " "))
            return self.spelling.applied(head, [self._argument(each) for each in arguments])
        if target == "sum" or (target in ("min", "max") and len(arguments) == 1):
            return self.sums.total(node, target, arguments)
        if target == "abs":
            return self._bars(node, arguments)
        if target not in self.spelling.names and target not in self.spelling.drawn:
            raise self.source.refused(node, "sum min max abs sqrt exp log asinh sinh floor")
        return self.spelling.known(target, [self.piece(argument) for argument in arguments])

    def _bars(self, node: ast.Call, arguments: list[ast.expr]) -> Piece:
        if self.inside_bars:
            raise self.source.refused(node, "abs() that stands in no other abs()")
        self.inside_bars = True
        try:
            return self.spelling.known("abs", [self.piece(argument) for argument in arguments])
        finally:
            self.inside_bars = False

    def _argument(self, node: ast.expr) -> Piece:
        """Write an argument of another formula, which may be a whole list."""
        if isinstance(node, ast.Name) and self.depths.get(node.id, 0) > 0:
            return self.reference(node, node.id, (), whole=True)
        return self.piece(node)


def _factors(node: ast.expr) -> Iterator[ast.expr]:
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Mult):
        yield from _factors(node.left)
        yield from _factors(node.right)
    else:
        yield node
